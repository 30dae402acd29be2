//! Half a kilogram of raw wool to madder red, split in two, one half saddened with iron: through the program, the
//! sheets, rehearsed and sealed baths. Lots, supplies and daybook are looked at after each.
//!
//! Worked by hand beside each figure, from the recipes of the book: detergent 2 g/L in 30 L/kg, alum 15 %, tartar 6 %,
//! madder 60 %, iron 2 % of the dry weight. A fifth of raw wool washes out: Mairet, A Book on Vegetable Dyes, 1916.

use std::path::Path;
use std::process::{Command, Output};

use expect_test::{Expect, expect};
use potside::keeper::Keeper;
use potside::shelf::{Shelf, condition, read};
use potside::view::shelf_text;

use super::support::closed::{lot_id, open, record, sealed};
use super::support::shelves::day;

/// Runs the program, once nobody else holds the folder.
fn potside(data: &Path, words: &str) -> (i32, String, String) {
    drop(open(data));
    let run = || {
        let Output {
            status,
            stdout,
            stderr,
        } = Command::new(env!("CARGO_BIN_EXE_potside"))
            .env("TZ", "UTC")
            .arg("--data")
            .arg(data)
            .args(words.split(' '))
            .output()
            .unwrap();
        let text = |bytes| String::from_utf8(bytes).unwrap();
        (status.code().unwrap(), text(stdout), text(stderr))
    };
    let told = run();
    if told.2.contains("another Potside is running") {
        drop(open(data));
        return run();
    }
    told
}

/// Runs a command that has to end well, and gives what it printed.
fn well(data: &Path, words: &str) -> String {
    let (code, out, err) = potside(data, words);
    assert_eq!((code, err.as_str()), (0, ""), "{words}: {out}");
    out
}

fn shelf(data: &Path) -> Shelf {
    read(&std::fs::read_to_string(data.join("shelf.toml")).unwrap()).unwrap()
}

/// Does a bath as planned and seals it; the next start of the stove puts it down.
fn bathed(data: &Path, id: &str, recipe: &str, lot: &str, on: &str) {
    let record = record(id, recipe, shelf(data).lot(lot_id(lot)).unwrap(), on);
    let folder = open(data);
    sealed(&folder, &record);
    let (mut keeper, _) = Keeper::open(folder, None).unwrap();
    assert_eq!(keeper.take_troubles(), [""; 0]);
}

/// The shelf as it is listed. The day a bath ended depends on the zone of the place, so the month from there is named.
fn stands(data: &Path, today: &str, expected: &Expect) {
    let shelf = shelf(data);
    let mut text = shelf_text::shelf(&shelf, day(today));
    for lot in shelf.lots_there() {
        if let Some(keeping) = condition(&shelf, lot).keeping {
            text = text.replace(&keeping.best_by.to_string(), "A-MONTH-ON");
        }
    }
    expected.assert_eq(&text);
}

#[test]
fn raw_wool_to_madder_red_split_in_two_and_one_half_saddened() {
    let folder = tempfile::tempdir().unwrap();
    let data = folder.path();
    std::fs::create_dir(data.join("recipes")).unwrap();
    std::fs::write(
        data.join("recipes/after-iron.toml"),
        include_str!("../recipes/after_iron.toml"),
    )
    .unwrap();

    // Goods and supplies come.
    well(
        data,
        "shelf add-lot fleece --fibre wool --goods 500g --basis in-the-grease --hanks 10",
    );
    for supply in [
        "neutral-detergent 500g",
        "potash-alum 200g",
        "cream-of-tartar 20g",
        "madder-root,dried 300g --low 50g",
        "ferrous-sulfate 50g",
    ] {
        well(data, &format!("shelf supply {supply}"));
    }
    stands(
        data,
        "2026-08-20",
        &expect![[r#"
        LOTS
          L1    fleece: wool, 500 g in-the-grease, 20 %, counts as 400 g, 10 hanks, raw

        SUPPLIES
          S1    neutral wool detergent (neutral-detergent): 500 g left
          S2    alum (potash) (potash-alum): 200 g left
          S3    cream of tartar (cream-of-tartar): 20 g left
          S4    madder root (madder-root, dried): 300 g left, low at 50 g
          S5    iron (ferrous sulfate) (ferrous-sulfate): 50 g left
    "#]],
    );

    // 400 g count: 12 L and 24 g of detergent, 60 g of alum, 24 g of tartar, 240 g of madder. Tartar is short.
    let list = well(
        data,
        "worklist red-on-wool --lot L1 --pot 40L,38cm --burner induction,6kW",
    );
    expect![[r#"
        WORK LIST: Red on wool
        for L1    fleece: wool, 500 g in-the-grease, 20 %, counts as 400 g, 10 hanks, raw
        order: mordant, then dye

        BATHS
          1. Scour wool (scour-wool)  next
               A 24.0 g neutral wool detergent
          2. Alum and tartar, studio (alum-tartar-studio)
               A 60.0 g alum (potash)
               B 24.0 g cream of tartar
             then dry, at most 30 days
          3. Madder at 80 C, 1916 (madder)
               A 240 g madder root

        ALL TOGETHER
          24.0 g neutral wool detergent
          60.0 g alum (potash)
          24.0 g cream of tartar
          240 g madder root

        MISSING
          cream of tartar: needs 24.0 g, 20 g on the shelf
    "#]]
    .assert_eq(&list);

    bathed(data, "2026-08-21-scour", "scour-wool", "L1", "2026-08-21");
    assert!(well(data, "shelf").contains("weighed in the grease and scoured since"));
    well(data, "shelf weigh L1 392g");
    well(data, "shelf fill S3 30g");

    // 392 g: 58.8 g of alum, 23.52 g of tartar.
    bathed(data, "2026-08-24-alum", "alum-tartar-studio", "L1", "2026-08-24");
    stands(
        data,
        "2026-08-28",
        &expect![[r#"
        LOTS
          L1    fleece: wool, 392 g, 10 hanks, mordanted (Alum and tartar, studio)
                  best dyed by A-MONTH-ON (common practice, no source)

        SUPPLIES
          S1    neutral wool detergent (neutral-detergent): 476 g left
          S2    alum (potash) (potash-alum): 141.2 g left
          S3    cream of tartar (cream-of-tartar): 26.48 g left
          S4    madder root (madder-root, dried): 300 g left, low at 50 g
          S5    iron (ferrous sulfate) (ferrous-sulfate): 50 g left
    "#]],
    );

    // 235.2 g of madder.
    let sheet = well(
        data,
        "sheet madder --lot L1 --pot 40L,38cm --burner induction,6kW --json",
    );
    let sheet: serde_json::Value = serde_json::from_str(&sheet).unwrap();
    assert_eq!(sheet["additions"][0]["grams"], 235.2);
    bathed(data, "2026-08-29-madder", "madder", "L1", "2026-08-29");

    // 196 g and 196 g; 2 % of 196 g is 3.92 g of iron.
    well(data, "shelf split L1 --part 5,196g --part 5,rest");
    let (code, _, err) = potside(data, "shelf weigh L1 392g");
    assert_eq!(code, 2);
    assert!(
        err.contains("L1 isn't a lot of its own any more; it is in L2, L3"),
        "{err}"
    );
    bathed(data, "2026-09-02-iron", "after_iron.toml", "L3", "2026-09-02");
    stands(
        data,
        "2026-09-05",
        &expect![[r#"
            LOTS
              L2    fleece: wool, 196 g, 5 hanks, dyed (Madder at 80 C, 1916)
              L3    fleece: wool, 196 g, 5 hanks, dyed and after-bathed (Saddened with iron)

            SUPPLIES
              S1    neutral wool detergent (neutral-detergent): 476 g left
              S2    alum (potash) (potash-alum): 141.2 g left
              S3    cream of tartar (cream-of-tartar): 26.48 g left
              S4    madder root (madder-root, dried): 64.8 g left, low at 50 g
              S5    iron (ferrous sulfate) (ferrous-sulfate): 46.08 g left
        "#]],
    );

    // The daybook has every bath, each with its lot; a start more changes nothing.
    let listed = well(data, "daybook");
    assert_eq!(listed.lines().count(), 4, "{listed}");
    assert!(well(data, "daybook show 2026-09-02").contains("L3"));
    let before = std::fs::read(data.join("shelf.toml")).unwrap();
    drop(Keeper::open(open(data), None).unwrap());
    assert_eq!(std::fs::read(data.join("shelf.toml")).unwrap(), before);

    // The saddened half has the red half's history and its own; both get a label, and the file is not written over.
    let histories = ["L2", "L3"].map(|lot| shelf(data).lot(lot_id(lot)).unwrap().baths.join(" "));
    assert_eq!(histories[0], "2026-08-21-scour 2026-08-24-alum 2026-08-29-madder");
    assert_eq!(histories[1], format!("{} 2026-09-02-iron", histories[0]));
    let out = data.join("labels.svg");
    let words = format!("label L2 L3 --paper a4-24 --out {}", out.display());
    well(data, &words);
    let svg = std::fs::read_to_string(&out).unwrap();
    assert!(svg.contains("aria-label=\"L2\"") && svg.contains("Saddened with iron"));
    let (code, _, err) = potside(data, &words);
    assert_eq!(code, 1);
    assert!(err.contains("is already there"), "{err}");

    // Iron was in pot 1: the next bright bath there is warned of.
    well(
        data,
        "shelf add-lot second --fibre wool --goods 100g --came scoured",
    );
    let next = well(
        data,
        "worklist red-on-wool --lot L4 --pot 40L,38cm --burner induction,6kW",
    );
    assert!(
        next.contains("pot 1 has had iron before: Saddened with iron"),
        "{next}"
    );
}
