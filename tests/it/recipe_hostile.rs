//! Whatever a file holds, reading it ends in a recipe or in faults, with every promise of a recipe kept.

use potside::recipe::model::{Act, Dose, Figure, Recipe};
use potside::recipe::read::{FILE_BYTES_MOST, LINE_CHARACTERS_MOST};
use potside::recipe::{Wrong, book, read, warnings};
use proptest::prelude::*;
use std::time::{Duration, Instant};

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_text_is_read_or_refused(text in any::<String>()) {
        check(&text);
    }

    #[test]
    fn any_bytes_that_are_text_are_read_or_refused(bytes in prop::collection::vec(any::<u8>(), 0..2_000)) {
        check(&String::from_utf8_lossy(&bytes));
    }

    #[test]
    fn text_that_looks_like_toml_is_read_or_refused(
        lines in prop::collection::vec(
            prop_oneof![
                Just("[[step]]".to_owned()), Just("[[addition]]".to_owned()), Just("[liquor]".to_owned()),
                Just("[[source]]".to_owned()),
                "(do|wof|range|letter|letters|to|span|source|key|of|parts|format|fibres) = (\"[a-zA-Z0-9 %-]{0,12}\"|[0-9]{1,3}|\\[\"A\"(, \"B\"){0,3}\\]|true|nan|\\{\\})",
            ],
            0..60,
        ),
    ) {
        check(&lines.join("\n"));
    }

    #[test]
    fn a_damaged_page_of_the_book_is_read_or_refused(
        page in 0..book::PAGES.len(),
        cuts in prop::collection::vec((any::<prop::sample::Index>(), 0_usize..40, "[ -~\u{e4}\u{202e}\n]{0,6}"), 1..6),
    ) {
        let mut characters: Vec<char> = book::PAGES[page].text.chars().collect();
        for (place, count, put) in cuts {
            let from = place.index(characters.len());
            let to = (from + count).min(characters.len());
            characters.splice(from..to, put.chars());
        }
        check(&characters.into_iter().collect::<String>());
    }

    #[test]
    fn a_page_with_lines_moved_and_doubled_is_read_or_refused(
        page in 0..book::PAGES.len(),
        moves in prop::collection::vec((any::<prop::sample::Index>(), any::<prop::sample::Index>(), any::<bool>()), 1..8),
    ) {
        let mut lines: Vec<&str> = book::PAGES[page].text.lines().collect();
        for (from, to, keep) in moves {
            let (from, to) = (from.index(lines.len()), to.index(lines.len()));
            let line = if keep { lines[from] } else { lines.remove(from) };
            lines.insert(to.min(lines.len()), line);
        }
        check(&lines.join("\n"));
    }

    #[test]
    fn blocks_of_a_page_in_any_order_are_judged_without_a_hole(
        page in 0..book::PAGES.len(),
        order in any::<u64>(),
        drop in any::<prop::sample::Index>(),
    ) {
        // Whole blocks stay well-formed, so this reaches the rules of order far more often than damage does.
        let mut blocks: Vec<&str> = book::PAGES[page].text.split("\n\n").collect();
        let head = blocks.remove(0);
        blocks.remove(drop.index(blocks.len()));
        let mut seed = order;
        for index in (1..blocks.len()).rev() {
            seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            let other = usize::try_from(seed >> 33).unwrap() % (index + 1);
            if order % 3 != 0 {
                blocks.swap(index, other);
            }
        }
        check(&format!("{head}\n\n{}", blocks.join("\n\n")));
    }
}

#[test]
#[expect(
    clippy::disallowed_methods,
    reason = "the test is about how long reading takes"
)]
fn the_worst_files_of_the_allowed_size_are_refused_in_good_time() {
    let fill = |unit: &str| unit.repeat(FILE_BYTES_MOST.div_euclid(unit.len()));
    let files = [
        fill("["),
        fill("a="),
        fill("[[step]]\n"),
        format!("fibres = [{}]", "\"woll\",".repeat(FILE_BYTES_MOST.div_euclid(8))),
        fill("\u{202e}"),
        format!("name = \"{}\"", "\\u202e".repeat(40_000)),
        (0..20_000).map(|number| format!("k{number} = 1\n")).collect(),
        (0..20_000).map(|number| format!("k{number}=1 ")).collect(),
        format!("x = {}", "{a=".repeat(80_000)),
    ];
    for text in files {
        let start = Instant::now();

        assert!(read(&text).is_err());

        // Generous for a slow machine; a quadratic reader would take minutes.
        assert!(start.elapsed() < Duration::from_secs(10), "{:?}", text.get(..20));
    }
}

/// Reads, and checks every promise of the answer.
fn check(text: &str) {
    match read(text) {
        Ok(recipe) => {
            holds(&recipe);
            drop(warnings(&recipe));
        }
        Err(faults) => {
            let lines = text.split('\n').count();
            assert!(!faults.as_slice().is_empty());
            for fault in faults.as_slice() {
                assert!((1..=lines).contains(&fault.line), "{fault}");
                assert!(fault.column >= 1, "{fault}");
                assert!(
                    !matches!(fault.what, Wrong::Unexplained),
                    "refused without a reason:\n{text}"
                );
                let message = fault.to_string();
                assert!(
                    !message.contains(|c: char| c.is_control() || c == '\u{202e}'),
                    "{message:?}"
                );
                assert!(message.chars().count() < 400, "{message}");
            }
        }
    }
}

/// What holds of any recipe that was read.
fn holds(recipe: &Recipe) {
    let within = |chosen: f64, range: Option<(f64, f64)>| {
        assert!(
            range.is_none_or(|(low, high)| low <= chosen && chosen <= high),
            "{}",
            recipe.id
        );
    };
    assert!(recipe.source_of(&recipe.liquor).is_some());
    assert!(!recipe.fibres.is_empty() && !recipe.steps.is_empty());
    let letters: Vec<char> = recipe
        .additions
        .iter()
        .map(|addition| addition.letter.0)
        .collect();
    assert!(letters.is_sorted_by(|one, other| one < other), "{letters:?}");
    for addition in &recipe.additions {
        match &addition.dose {
            Dose::Wof(figure) => {
                assert!(recipe.source_of(figure).is_some() && figure.chosen.percent() > 0.0);
                within(
                    figure.chosen.percent(),
                    figure.range.map(|(low, high)| (low.percent(), high.percent())),
                );
            }
            Dose::PerLitre(figure) => {
                assert!(recipe.source_of(figure).is_some() && figure.chosen.grams_per_litre() > 0.0);
            }
            Dose::Parts { parts, of } => {
                within(parts.chosen, parts.range);
                assert!(*of < addition.letter);
            }
        }
    }
    let mut goods_in = false;
    for step in &recipe.steps {
        let has_source =
            |figure: &Figure<_>| recipe.source_of::<potside::craft::time::Span>(figure).is_some();
        match &step.act {
            Act::Enter { .. } => goods_in = true,
            Act::Lift => goods_in = false,
            Act::Hold {
                span, floor, ceiling, ..
            } => {
                assert!(has_source(span) && floor.chosen <= ceiling.chosen);
            }
            Act::Look { sign, after, again } => {
                assert!(has_source(after) && has_source(again) && !sign.trim().is_empty());
            }
            Act::Dip {
                times, under, air, ..
            } => {
                assert!(!goods_in && (1..=20).contains(times));
                assert!(has_source(under) && has_source(air));
            }
            Act::WetOut { least: span } | Act::Air { span } | Act::Rest { span } => assert!(has_source(span)),
            Act::Fill
            | Act::Dissolve { .. }
            | Act::Add { .. }
            | Act::Strain { .. }
            | Act::Raise { .. }
            | Act::Cool { .. }
            | Act::Squeeze
            | Act::Rinse { .. }
            | Act::Dry
            | Act::Shelve => {}
        }
        for line in [&step.how, &step.caution].into_iter().flatten() {
            assert!(line.chars().count() <= LINE_CHARACTERS_MOST);
        }
    }
    assert!(!goods_in, "goods left in the bath");
}
