//! `potside shelf`, `worklist` and `label` as they are typed: exit codes, one clear line for each thing that can't be.

use std::path::Path;
use std::process::{Command, Output};

use tempfile::TempDir;

fn potside(data: &Path, words: &str) -> (i32, String, String) {
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
}

/// A folder with L1, 100 g of scoured wool in two hanks, and S1, 9 g of alum.
fn folder() -> TempDir {
    let folder = tempfile::tempdir().unwrap();
    for words in [
        "shelf add-lot fleece --fibre wool --goods 100g --hanks 2 --came scoured",
        "shelf supply potash-alum 9g",
    ] {
        let (code, _, err) = potside(folder.path(), words);
        assert_eq!((code, err.as_str()), (0, ""), "{words}");
    }
    folder
}

#[test]
fn each_thing_that_cannot_be_gets_one_line_and_changes_nothing() {
    let folder = folder();
    let data = folder.path();
    let before = std::fs::read(data.join("shelf.toml")).unwrap();
    let out = data.join("x.svg");
    for (words, says) in [
        ("shelf show L9", "no lot L9"),
        ("shelf show nine", "no lot; a lot is L and a number"),
        ("shelf add-lot x --fibre wool --goods 0g", "weigh nothing"),
        ("shelf add-lot x --fibre wool --goods 10", "unit"),
        ("shelf add-lot x --fibre polyester --goods 10g", "polyester"),
        (
            "shelf add-lot x --fibre alpaca --goods 10g --basis spun",
            "alpaca",
        ),
        ("shelf add-lot x --fibre wool --goods 10g --hanks 0", "not 0"),
        (
            "shelf add-lot x --fibre wool --goods 10g --came dirty",
            "raw or scoured",
        ),
        ("shelf split L1 --part 1,50g", "2 to 50 parts"),
        (
            "shelf split L1 --part 1,50g --part 1,49g",
            "weigh 99 g, L1 weighs 100 g",
        ),
        ("shelf split L1 --part fifty", "4,195g"),
        ("shelf join L1 L1", "different lots"),
        ("shelf weigh L2 10g", "no lot L2"),
        ("shelf supply chrome-yellow,ground 10g", "never offered"),
        ("shelf supply alumm 10g", "alumm"),
        ("shelf supply madder-root,cooked 10g", "no form"),
        ("shelf supply 190%Al2O3 10g", "190"),
        ("shelf fill S2 10g", "no supply S2"),
        ("shelf left S1 -3g", "-3"),
        ("worklist red-on-wol", "nearest: red-on-wool"),
        ("worklist red-on-wool --lot L7", "no lot L7"),
        ("sheet alum-only --lot L7", "no lot L7"),
        ("sheet alum-only --lot L1 --goods 10g", "--goods"),
        ("label L7 --out x.svg", "no lot L7"),
        ("label L1 --paper a5 --out x.svg", "a4-24"),
        ("label L1 --first 25 --out x.svg", "1 to 24, not 25"),
    ] {
        let (code, printed, err) = potside(data, words);
        assert_eq!(
            (code, printed.as_str(), err.lines().count()),
            (2, "", 1),
            "{words}: {err}"
        );
        assert!(err.contains(says), "{words}: {err}");
    }
    assert_eq!(std::fs::read(data.join("shelf.toml")).unwrap(), before);
    assert!(!out.exists());
}

#[test]
fn a_sheet_of_a_lot_says_what_is_missing() {
    let folder = folder();

    let (code, out, _) = potside(folder.path(), "sheet alum-only --lot L1");

    assert_eq!(code, 0);
    assert!(
        out.contains("MISSING FROM THE SHELF\n  alum (potash): needs 15.0 g, 9 g on the shelf"),
        "{out}"
    );
}

#[test]
fn a_refused_list_is_printed_and_ends_with_three() {
    let folder = folder();

    let (code, out, err) = potside(folder.path(), "worklist red-on-wool --lot L1 --pot 2L,15cm");

    assert_eq!(code, 3);
    assert!(
        out.contains("done before it came") && out.contains("2. refused:"),
        "{out}"
    );
    assert!(err.contains("refused: bath 2"), "{err}");
}

#[test]
fn a_damaged_shelf_is_told_by_line_and_nothing_is_kept_over_it() {
    let folder = folder();
    let data = folder.path();
    let file = data.join("shelf.toml");
    let damaged = std::fs::read_to_string(&file)
        .unwrap()
        .replace("\"wool\"", "\"wol\"");
    std::fs::write(&file, &damaged).unwrap();

    for words in [
        "shelf",
        "shelf gone L1",
        "worklist red-on-wool --lot L1",
        "label L1 --out x.svg",
    ] {
        let (code, _, err) = potside(data, words);
        assert_eq!((code, err.lines().count()), (1, 1), "{words}: {err}");
        assert!(
            err.contains("line 10, column 9") && err.contains("did you mean \"wool\"?"),
            "{err}"
        );
    }
    let (code, _, err) = potside(data, &format!("check {}", file.display()));
    assert_eq!(code, 1);
    assert!(err.contains("line 10, column 9"), "{err}");
    let (code, ..) = potside(data, "sheet alum-only --goods 100g");
    assert_eq!(code, 0, "a sheet is computed without the shelf");
    assert_eq!(std::fs::read_to_string(&file).unwrap(), damaged);
}

#[test]
fn check_knows_the_three_kinds() {
    let folder = folder();
    let data = folder.path();
    let list = data.join("list.toml");
    std::fs::write(&list, potside::shelf::worklist::text_of("gold-on-wool").unwrap()).unwrap();

    let (code, out, err) = potside(
        data,
        &format!("check {} {}", data.join("shelf.toml").display(), list.display()),
    );

    assert_eq!((code, err.as_str()), (0, ""));
    assert!(out.contains("well: a shelf of 1 lots and 1 supplies"), "{out}");
    assert!(
        out.contains("well: Gold on wool (gold-on-wool), a work list"),
        "{out}"
    );
}

#[test]
fn a_label_for_each_hank_fills_a_second_sheet() {
    let folder = folder();
    let data = folder.path();
    let out = data.join("tags.svg");

    let (code, said, err) = potside(
        data,
        &format!("label L1 --each-hank --paper tag --out {}", out.display()),
    );

    assert_eq!((code, err.as_str(), said.lines().count()), (0, "", 2));
    assert!(
        std::fs::read_to_string(data.join("tags-2.svg"))
            .unwrap()
            .contains("hank 2 of 2")
    );
}
