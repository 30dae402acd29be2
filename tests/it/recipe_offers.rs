//! What is locked and what is only to be read: in the list, on the sheet, on the glass.

use potside::craft::cautions::{Offer, offer};
use potside::recipe::book;
use potside::recipe::model::{Offered, Recipe, Ware};
use potside::sheet::SheetRefusal;
use potside::view::pages::{GoodsPress, HomePress, Press};
use potside::view::screen::{BlockLook, ChooseScreen, Row};

use crate::support::glass::Glass;
use crate::support::sheets::{refusals, sheet, sheet_with};

fn has(recipe: &Recipe, which: Offer) -> bool {
    recipe
        .additions
        .iter()
        .any(|addition| matches!(addition.ware, Ware::Substance(it) if offer(it) == which))
}

#[test]
fn the_book_marks_what_it_must_and_not_much_else() {
    let mut seen = [0, 0];
    for recipe in book::all() {
        match recipe.offered {
            Offered::Freely => {
                assert!(!has(recipe, Offer::OffUntilTurnedOn) && !has(recipe, Offer::OnlyToBeRead));
            }
            Offered::WhenAsked => {
                seen[0] += 1;
                assert!(
                    has(recipe, Offer::OffUntilTurnedOn),
                    "{}: off for nothing",
                    recipe.id
                );
                assert!(recipe.about.contains("Locked until"), "{}", recipe.id);
            }
            Offered::ReferenceOnly => {
                seen[1] += 1;
                assert!(
                    recipe.about.contains("to be"),
                    "{} says what it is here for",
                    recipe.id
                );
            }
        }
    }
    assert!(seen[0] >= 1 && seen[1] >= 2, "{seen:?}");
}

#[test]
fn copper_waits_for_the_bench_and_a_reference_waits_for_nothing() {
    let off = sheet("after-copper", "100g");
    let on = sheet_with("after-copper", "100g", |wishes| wishes.hazardous_metals = true);
    let read = sheet_with("vat-zinc", "100g", |wishes| wishes.hazardous_metals = true);

    assert!(
        refusals(&off).contains("hazardous_metals = true"),
        "{}",
        refusals(&off)
    );
    assert_eq!(refusals(&on), "");
    assert!(matches!(read.refusals[..], [SheetRefusal::ReferenceOnly { .. }]));
    // Copper: International Chemical Safety Card 1416; hydrosulphite: card 1717; zinc and hydrogen: from memory.
    assert!(
        on.plan
            .cautions
            .iter()
            .any(|line| line.contains("kills life in water"))
    );
    assert!(read.plan.cautions.iter().any(|line| line.contains("hydrogen")));
    let quick = sheet("vat-hydrosulphite", "100g");
    assert!(quick.plan.cautions.iter().any(|line| line.contains("catch fire")));
}

/// A glass at the book, with goods of a fibre in hand.
fn glass_for(fibre: &str, hazardous_metals: bool) -> Glass {
    let mut glass = Glass::new();
    glass.bench.hazardous_metals = hazardous_metals;
    glass.press(Press::Home(HomePress::Begin));
    glass.press(Press::Goods(GoodsPress::Fibre(fibre.into())));
    glass.key_weight("100");
    glass.press(Press::Goods(GoodsPress::GoOn));
    glass
}

fn row<'a>(list: &'a ChooseScreen, key: &str) -> &'a Row {
    list.rows.iter().find(|row| row.key == key).unwrap()
}

#[test]
fn the_glass_lets_copper_be_taken_only_once_the_bench_has_it_on() {
    let mut off = glass_for("wool", false);
    off.choose("after-bath");
    let listed = row(&off.list(), "after-copper").clone();
    assert!(listed.enabled && listed.detail.contains("locked"), "{listed:?}");
    off.choose("after-copper");
    let leaf = off.leaf();
    assert_eq!(leaf.blocks[0].look, BlockLook::Refusal);
    assert!(
        leaf.blocks[0].detail.contains("hazardous_metals = true"),
        "{:?}",
        leaf.blocks[0]
    );
    assert!(leaf.foot.iter().all(|act| !act.enabled), "{:?}", leaf.foot);

    let mut on = glass_for("wool", true);
    on.choose("after-bath");
    assert!(row(&on.list(), "after-copper").detail.contains("hazardous metal"));
    on.choose("after-copper");
    on.side("take");
    on.side("go-on");
    let sheet = on.sheet();
    assert_eq!(
        (sheet.refusal.as_str(), sheet.slab.key.as_str()),
        ("", "open-cautions")
    );
}

#[test]
fn the_glass_shows_a_reference_last_and_offers_nothing_to_confirm() {
    let mut glass = glass_for("cotton", true);
    glass.choose("vat");
    let list = glass.list();
    let place = |key: &str| list.rows.iter().position(|row| row.key == key).unwrap();
    assert!(place("vat-zinc") > place("vat-fructose"));
    assert!(row(&list, "vat-zinc").detail.contains("to be read only"));

    glass.choose("vat-zinc");
    let acts = glass.leaf().foot;
    assert_eq!(acts[0].label, "see its sheet");
    assert!(!acts[0].strong);
    glass.side("take");
    glass.side("go-on");
    let sheet = glass.sheet();
    assert!(
        sheet.refusal.contains("to be read, not to be begun"),
        "{}",
        sheet.refusal
    );
    assert_eq!(sheet.slab.label, "");
    assert!(!sheet.additions.is_empty(), "the whole sheet is there to be read");
}

#[cfg(feature = "shell")]
mod command {
    use std::process::{Command, Output};
    use tempfile::TempDir;

    const BENCH: &str = "format = 1\npot = \"12L, 26cm\"\nburner = \"induction, 2kW\"\nlid = \"loose\"\ntap = \"15C\"\n\
                         room = \"20C\"\nscale = \"0.1g\"\ntheme = \"kitchen\"\nvolume = 50\n";

    fn potside(bench: &str, words: &[&str]) -> (Output, String) {
        let data = TempDir::new().unwrap();
        std::fs::write(data.path().join("bench.toml"), bench).unwrap();
        let output = Command::new(env!("CARGO_BIN_EXE_potside"))
            .arg("--data")
            .arg(data.path())
            .args(words)
            .output()
            .unwrap();
        let said = format!(
            "{}{}",
            String::from_utf8_lossy(&output.stdout),
            String::from_utf8_lossy(&output.stderr)
        );
        (output, said)
    }

    #[test]
    fn the_list_and_the_sheet_honour_the_bench_file() {
        let on = format!("{BENCH}hazardous_metals = true\n");

        let (_, off_list) = potside(BENCH, &["recipes"]);
        let (_, on_list) = potside(&on, &["recipes"]);
        let (off_sheet, why) = potside(BENCH, &["sheet", "after-copper", "--goods", "100g"]);
        let (on_sheet, told) = potside(&on, &["sheet", "after-copper", "--goods", "100g"]);

        assert!(!off_list.contains("after-copper") && off_list.contains("1 more with a hazardous metal"));
        assert!(on_list.contains("after-copper") && !on_list.contains("more with a hazardous metal"));
        assert!(off_list.contains("vat-zinc") && off_list.contains("to be read only"));
        assert_ne!(off_sheet.status.code(), Some(0));
        assert!(why.contains("hazardous_metals = true"), "{why}");
        assert_eq!(on_sheet.status.code(), Some(0), "{told}");
    }

    #[test]
    fn the_bench_file_keeps_the_key_and_says_nothing_while_it_is_off() {
        use potside::shell::bench_file;

        let on = bench_file::read(&format!("{BENCH}hazardous_metals = true\n")).unwrap();
        let off = bench_file::read(BENCH).unwrap();

        assert!(on.hazardous_metals && !off.hazardous_metals);
        assert_eq!(bench_file::read(&bench_file::write(&on)).unwrap(), on);
        assert!(!bench_file::write(&off).contains("hazardous"));
        assert!(bench_file::read(&format!("{BENCH}hazardous_metals = \"yes\"\n")).is_err());
    }

    #[test]
    fn a_reference_is_printed_and_refused_and_not_rehearsed() {
        let (sheet, said) = potside(BENCH, &["sheet", "vat-hydrosulphite", "--goods", "100g"]);
        let (played, why) = potside(BENCH, &["rehearse", "vat-hydrosulphite", "--goods", "100g"]);

        assert_eq!(sheet.status.code(), played.status.code());
        assert_ne!(sheet.status.code(), Some(0));
        assert!(said.contains("BATH SHEET: Indigo vat, hydrosulphite"), "{said}");
        assert!(why.contains("to be read, not to be begun"), "{why}");
    }
}
