//! Real baths in every language: no state of a run, no card and no page keeps the English of its words, and amounts keep
//! their numbers.

use potside::view::locale::Language;
use potside::view::screen::Screen;

use crate::scenes::Scene;
use crate::told;

/// What a dyer must read of a screen: acts, slabs, heads, questions.
fn must_read(screen: &Screen) -> Vec<String> {
    let all = match screen {
        Screen::Run(run) => vec![
            run.title.clone(),
            run.act.verb.clone(),
            run.slab.label.clone(),
            run.pot_words.clone(),
            run.act.how.clone(),
            run.act.caution.clone(),
        ],
        Screen::Far(far) => vec![far.first.clone()],
        Screen::Returned(card) => {
            let answers = card.choices.iter().map(|choice| choice.label.clone());
            std::iter::once(card.question.clone()).chain(answers).collect()
        }
        Screen::Choose(list) => std::iter::once(list.title.clone())
            .chain(list.rows.iter().map(|row| row.label.clone()))
            .collect(),
        Screen::Sheet(sheet) => {
            let rows = sheet.lines.iter().map(|row| row.label.clone());
            rows.chain([sheet.refusal.clone(), sheet.slab.label.clone()])
                .collect()
        }
        _ => Vec::new(),
    };
    all.into_iter().filter(|text| !text.is_empty()).collect()
}

/// Words that are the same in English and that language: names, units, the craft's own words.
fn may_be_the_same(text: &str, language: Language) -> bool {
    const ANYWHERE: [&str; 6] = [
        "English",
        "Deutsch",
        "Fran\u{e7}ais",
        "L",
        "US gal",
        "L1  autumn fleece",
    ];
    let here: &[&str] = match language {
        Language::English => &[],
        Language::German => &["Tannin"],
        Language::French => &["Volumes", "Mordant", "aluminium", "induction"],
    };
    !text.chars().any(char::is_alphabetic) || ANYWHERE.contains(&text) || here.contains(&text)
}

#[test]
fn no_screen_of_a_real_bath_keeps_its_english() {
    let english = told::in_language(Language::English);
    for language in [Language::German, Language::French] {
        let other = told::in_language(language);
        assert_eq!(english.len(), other.len(), "a scene is missing in {language:?}");
        let mut kept = Vec::new();
        for (one, translated) in english.iter().zip(other) {
            assert_eq!(one.name, translated.name);
            kept.extend(kept_words(one, translated, language));
        }
        assert!(
            kept.is_empty(),
            "{language:?} keeps {} texts:\n{}",
            kept.len(),
            kept.join("\n")
        );
    }
}

fn kept_words(english: &Scene, translated: &Scene, language: Language) -> Vec<String> {
    let (one, other) = (must_read(&english.screen), must_read(&translated.screen));
    one.iter()
        .filter(|text| other.contains(text) && !may_be_the_same(text, language))
        .map(|text| format!("{}: {text}", english.name))
        .collect()
}

#[test]
fn units_and_clock_change_together_and_no_metric_is_left_on_a_run() {
    let runs = told::in_us_units()
        .iter()
        .filter_map(|scene| match &scene.screen {
            Screen::Run(run) => Some((&scene.name, run)),
            _ => None,
        });
    let mut seen = 0;
    for (name, run) in runs {
        let acts = format!("{} {} {}", run.act.amount, run.act.object, run.slab.detail);
        for metric in [" g", " kg", " L", "\u{b0}C"] {
            let holds = acts
                .split(metric)
                .skip(1)
                .any(|after| !after.starts_with(|next: char| next.is_alphabetic()));
            assert!(!holds, "{name} says{metric}: {acts}");
        }
        assert!(
            run.clock.ends_with("am") || run.clock.ends_with("pm"),
            "{}",
            run.clock
        );
        seen += 1;
    }
    assert!(seen > 40, "{seen} runs were seen");
}
