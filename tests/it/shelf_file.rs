//! The shelf's file: written by hand it reads; each fault is told with its place and its remedy, all at once.

use expect_test::expect;
use potside::shelf::{FileKind, kind_of, read, write};

use super::support::shelves::grams;

const BY_HAND: &str = r#"
format = 1

[[lot]]
id = "L3"
name = "brown fleece"
fibre = "wool"
hanks = 4
came = "raw"
since = 2026-08-20
weighed = [
    { on = 2026-08-20, weight = "1 lb 4 oz", state = "in-the-grease, 20 %" },
    { on = 2026-08-23, weight = "430.5 g", state = "air-dry" },
]
note = "from the hill farm"

[[supply]]
id = "S1"
substance = "potash-alum"
name = "alum, the white tub"
left = "0.5 kg"
low = "50 g"

[[supply]]
id = "S2"
dyestuff = "madder-root"
form = "dried"
name = "madder"
left = "2 oz"
"#;

#[test]
fn a_file_written_by_hand_reads_and_is_written_whole() {
    let shelf = read(BY_HAND).unwrap();

    let lot = shelf.lots().next().unwrap();
    assert_eq!(lot.weighings[0].weight.to_string(), "566.99 g"); // 20 oz at 28.349523125 g
    assert_eq!(lot.dry().grams(), 430.5);
    assert_eq!(shelf.supplies().next().unwrap().left, grams(500));
    assert_eq!(read(&write(&shelf)).unwrap(), shelf);
    expect![[r#"
        # The shelf: lots of goods, supplies, finished baths. Potside writes this file whole, so comments don't stay;
        # a note does. What may be changed by hand: the page on the shelf's format. Check it with `potside check`.
        format = 1
        last_lot = 3
        last_supply = 2

        [[lot]]
        id = "L3"
        name = "brown fleece"
        fibre = "wool"
        hanks = 4
        came = "raw"
        since = 2026-08-20
        weighed = [
            { on = 2026-08-20, weight = "566.99 g", state = "in-the-grease, 20 %" },
            { on = 2026-08-23, weight = "430.5 g", state = "air-dry" },
        ]
        note = "from the hill farm"

        [[supply]]
        id = "S1"
        substance = "potash-alum"
        name = "alum, the white tub"
        left = "500 g"
        low = "50 g"

        [[supply]]
        id = "S2"
        dyestuff = "madder-root"
        form = "dried"
        name = "madder"
        left = "56.699 g"
    "#]]
    .assert_eq(&write(&shelf));
}

#[test]
fn all_faults_are_told_at_once_with_place_and_remedy() {
    let text = r#"
format = 1
last_lot = 1
suply = 3

[[lot]]
id = "L2"
nam = "brown fleece"
fibre = "wol"
hanks = 0
came = "dirty"
since = "2026-08-20"
from = ["L2", "L1"]
weighed = [ { on = 2026-02-28T10:00:00, weight = "430", state = "soggy" } ]
baths = ["never"]

[[lot]]
id = "two"
name = "x"
fibre = "alpaca"
hanks = 2
came = "raw"
since = 2026-08-20
weighed = [ { on = 2026-08-20, weight = "10 g", state = "spun" } ]

[[supply]]
id = "S1"
substance = "potash-alum"
dyestuff = "madder-root"
name = "both"
left = 12

[[supply]]
id = "S1"
substance = "alumm"
form = "dried"
name = "again"
left = "-3 g"

[[supply]]
id = "S2"
dyestuff = "chrome-yellow"
form = "ground"
name = "x"
left = "1 g"

[[supply]]
id = "S3"
label = "90 % Al2O3"
name = "x"
left = "1 g"

[[bath]]
id = "b1"
kind = "dying"
recipe = "madder"
name = "Madder"
on = 2026-08-25
pot = 0
pot_metal = "tin"
weighed = [ { letter = "a", ware = "x", name = "x", weight = "1 g", drawn = [{ from = "S1", weight = "2 g" }] } ]
"#;

    let faults = read(text).unwrap_err().to_string();

    expect![[r#"
        line 4, column 1: unknown key "suply" in the shelf; did you mean "supply"?
        line 6, column 1: the lot has no name; add name
        line 8, column 1: unknown key "nam" in the lot; did you mean "name"?
        line 9, column 9: "wol" is no fibre; did you mean "wool"?
        line 10, column 9: hanks is not a whole number from 1 to 10000; write a number such as hanks = 2
        line 11, column 8: came: "dirty" is no way to come; write raw or scoured; write it so
        line 12, column 9: since is text, not a date such as 2026-08-25, without quotes; write a date such as 2026-08-25, without quotes
        line 13, column 9: L2 is made of L2, which is no earlier lot; name lots with lower numbers
        line 13, column 15: L2 is made of L1, which isn't in the file; take it out of from, or put the lot back
        line 14, column 20: on is no day; write it like 2026-08-25, without a time
        line 14, column 50: weight: 430 has no unit; write 430 g, 15 oz, 0.95 lb or 0.43 kg; write it in quotes with its unit, such as "85.2 g"
        line 14, column 65: state: "soggy" is no state of goods; they are weighed air-dry, oven-dry, spun, or as "damp, 30 %" or "in-the-grease, 20 %"; write it so
        line 15, column 10: L2 has been through never, which isn't in the file; take it out of baths, or put the bath back
        line 18, column 6: id: "two" is no lot; a lot is L and a number from 1 to 99999, such as L12; write it so
        line 24, column 57: how much water spun alpaca holds is not known; dry it, or state its water; write what is known of them
        line 26, column 1: the supply is 2 things at once; keep one of substance, label and dyestuff
        line 31, column 8: left is a number without its unit; write it in quotes with its unit, such as "85.2 g"
        line 34, column 6: a second supply S1; give it a number that was never given
        line 35, column 13: substance: alumm is not a substance known here; write salt, chalk or soda-alum; write it so
        line 36, column 8: a salt has no form; leave form out; it is for dyestuffs
        line 38, column 8: left: -3 g: -3 g is not a weight; a weight is 0 to 1000000 g; write it in quotes with its unit, such as "85.2 g"
        line 42, column 12: "chrome-yellow" is never offered: chrome salts cause cancer and sensitise the skin; mordant with alum, or leave this recipe in its book
        line 55, column 8: "dying" is no kind of bath; use scour, mordant, tannin, fixing, dye, after-bath or vat
        line 59, column 7: pot is not a whole number from 1 to 255; write a number such as pot = 2
        line 60, column 13: pot_metal: "tin" is no metal of pots; write stainless, enamel, aluminium, copper, iron, glass; write it so
        line 61, column 24: letter: "a" is not one letter from A to Z; write it so
        line 61, column 77: more is drawn than the 1 g that were weighed; make the draws add up to no more than the weight"#]].assert_eq(&faults);
}

#[test]
fn hostile_files_are_refused() {
    for (text, says) in [
        ("format = 2\n[[lot]]", "format 2 is not known"),
        ("format = 1\nlot = 3", "lot is a number"),
        ("[[lot]\n", "not TOML"),
        (
            "format = 1\nlast_lot = 9999999999\n",
            "last_lot is not a whole number",
        ),
        ("format = 1\nlast_lot = -1\n", "last_lot is not a whole number"),
        ("format = 1\n\u{202e}", "turns the direction of writing"),
    ] {
        let faults = read(text).unwrap_err().to_string();
        assert!(faults.contains(says), "{faults}");
    }
    let large = format!("format = 1\n#{}", "x".repeat(1024 * 1024));
    assert!(
        read(&large)
            .unwrap_err()
            .to_string()
            .contains("a shelf has at most 1048576")
    );
}

#[test]
fn the_kind_of_a_file_is_seen_by_its_keys() {
    for (text, kind) in [
        ("format = 1\n", FileKind::Recipe),
        ("[[step]]\n", FileKind::Recipe),
        ("[[", FileKind::Recipe),
        (BY_HAND, FileKind::Shelf),
        ("last_lot = 1\n[[bath]]\n", FileKind::Shelf),
        ("[[bath]]\nrecipe = \"madder\"\n", FileKind::WorkList),
    ] {
        assert_eq!(kind_of(text), kind, "{text}");
    }
}
