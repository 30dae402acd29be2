//! `potside daybook`, the real program over a real folder.

use std::path::Path;
use std::process::{Command, Output};

use potside::journal::id::BathId;
use potside::journal::record::BathRecord;
use potside::journal::seal::seal;

use super::support::finished::eventful;

fn potside(data: &Path, words: &[&str]) -> (i32, String, String) {
    let Output {
        status,
        stdout,
        stderr,
    } = Command::new(env!("CARGO_BIN_EXE_potside"))
        .env("TZ", "UTC")
        .arg("--data")
        .arg(data)
        .arg("daybook")
        .args(words)
        .output()
        .unwrap();
    let text = |bytes| String::from_utf8(bytes).unwrap();
    (status.code().unwrap(), text(stdout), text(stderr))
}

/// Seals the eventful bath under each of the ids.
fn sealed(data: &Path, ids: &[&str]) {
    let folder = super::support::closed::open(data);
    for id in ids {
        let record = BathRecord {
            bath: (*id).to_owned(),
            ..eventful()
        };
        let content = serde_json::to_value(record).unwrap();
        seal(
            &mut folder.daybook_store(),
            &BathId::from_text(id).unwrap(),
            &content,
        )
        .unwrap();
    }
}

#[test]
fn an_empty_daybook_says_so() {
    let data = tempfile::tempdir().unwrap();

    let (code, out, err) = potside(data.path(), &[]);

    assert_eq!((code, err.as_str()), (0, ""));
    assert!(out.contains("the daybook is empty"), "{out}");
    let (code, _, err) = potside(data.path(), &["show", "x"]);
    assert_eq!(code, 2);
    assert!(err.contains("the daybook is empty"), "{err}");
}

#[test]
fn sealed_records_are_listed_and_a_damaged_one_is_told_and_left() {
    let data = tempfile::tempdir().unwrap();
    sealed(data.path(), &["2026-08-25-0931-k3f9", "2026-08-26-1002-p7aa"]);
    let (_, out, _) = potside(data.path(), &[]);
    let lines: Vec<&str> = out.lines().collect();
    assert_eq!(lines.len(), 2, "{out}");
    for word in [
        "1970-01-01 00:00",
        "Test alum",
        "100 g wool, 2 hanks",
        "2026-08-25-0931-k3f9",
        "closed",
    ] {
        assert!(lines[0].contains(word), "{word}: {out}");
    }
    let damaged = data.path().join("daybook/2026-08-27-0001-aaaa.json");
    std::fs::write(&damaged, "{\"daybook\":1}").unwrap();

    let (code, out, err) = potside(data.path(), &[]);

    assert_eq!((code, out.lines().count()), (1, 2));
    assert!(
        err.contains("2026-08-27-0001-aaaa.json: not a daybook page; left as it is"),
        "{err}"
    );
    assert_eq!(std::fs::read_to_string(&damaged).unwrap(), "{\"daybook\":1}");
    let (code, _, err) = potside(data.path(), &["show", "2026-08-27"]);
    assert_eq!(code, 2);
    assert!(err.contains("can't be shown: not a daybook page"), "{err}");
}

#[test]
fn a_record_is_shown_by_the_beginning_of_its_id_and_an_unclear_one_names_those_it_could_be() {
    let data = tempfile::tempdir().unwrap();
    sealed(data.path(), &["2026-08-25-0931-k3f9", "2026-08-26-1002-p7aa"]);

    let (code, out, err) = potside(data.path(), &["show", "2026-08-26"]);
    assert_eq!((code, err.as_str()), (0, ""));
    assert!(out.starts_with("BATH 2026-08-26-1002-p7aa: Test alum\n"), "{out}");

    for unclear in ["2026-08", "2027"] {
        let (code, out, err) = potside(data.path(), &["show", unclear]);
        assert_eq!((code, out.as_str(), err.lines().count()), (2, "", 1), "{err}");
        assert!(
            err.contains("2026-08-25-0931-k3f9") && err.contains("2026-08-26-1002-p7aa"),
            "{err}"
        );
    }

    let (code, out, _) = potside(data.path(), &["show", "--json", "2026-08-25"]);
    assert_eq!(code, 0);
    let record: BathRecord = serde_json::from_str(&out).unwrap();
    assert_eq!(record.steps, eventful().steps);
}

#[test]
fn an_export_makes_a_new_file_and_never_takes_the_place_of_one() {
    let data = tempfile::tempdir().unwrap();
    sealed(data.path(), &["2026-08-25-0931-k3f9"]);
    for (form, opens) in [("csv", "bath,recipe,step,do,"), ("page", "<!DOCTYPE html>")] {
        let to = data.path().join(format!("out.{form}"));
        let named = to.to_str().unwrap();
        let words = ["export", "2026", "--as", form, "--to", named];

        let (code, out, err) = potside(data.path(), &words);
        assert_eq!((code, out.as_str(), err.as_str()), (0, "", ""));
        let written = std::fs::read_to_string(&to).unwrap();
        assert!(written.starts_with(opens), "{written}");
        let (_, told, _) = potside(data.path(), &["export", "2026", "--as", form]);
        assert_eq!(told.trim_end(), written.trim_end(), "the terminal gets the same");

        std::fs::write(&to, "mine").unwrap();
        let (code, _, err) = potside(data.path(), &words);
        assert_eq!(code, 1);
        assert!(err.contains("is already there and stays as it is"), "{err}");
        assert_eq!(std::fs::read_to_string(&to).unwrap(), "mine");
    }
    let (code, _, err) = potside(data.path(), &["export", "2026", "--to", "no/such/folder/x.csv"]);
    assert_eq!((code, err.lines().count()), (1, 1), "{err}");
}
