//! The ten lines of stock Python in `docs/journal-format.md`, run against our own reader.
#![expect(
    clippy::disallowed_methods,
    reason = "a test looks at the real files from outside"
)]

use std::path::Path;
use std::process::Command;

use potside::journal::line::{Link, read_line};
use potside::journal::recover::recover;
use potside::journal::segment::segment_name;
use potside::journal::writer::Writer;

use super::support::baths::{acts, bath, run};
use super::support::fault_store::FaultStore;

const DOC: &str = include_str!("../../docs/journal-format.md");

/// The first Python block of the document.
fn script() -> &'static str {
    let (_, after) = DOC
        .split_once("```python\n")
        .expect("the document shows the check");
    after.split_once("```").expect("the block is closed").0
}

/// How many lines from the start are whole and joined, and whether that is all.
fn count_whole(bytes: &[u8]) -> (u64, bool) {
    let (mut count, mut link) = (0, Link::genesis(&bath()));
    for line in bytes.split_inclusive(|byte| *byte == b'\n') {
        match read_line(line.strip_suffix(b"\n").unwrap_or(line)) {
            Ok(record) if record.n == count + 1 && record.link == link => {
                count += 1;
                link = record.fingerprint();
            }
            _ => return (count, false),
        }
    }
    (count, true)
}

/// Python's answer to the same question.
fn ask_python(script: &Path, file: &Path) -> (u64, bool) {
    let output = Command::new("python3").arg(script).arg(file).output().unwrap();
    let told = String::from_utf8_lossy(if output.status.success() {
        &output.stdout
    } else {
        &output.stderr
    });
    let count = told
        .split_whitespace()
        .next()
        .and_then(|count| count.parse().ok());
    let count = count.unwrap_or_else(|| panic!("no answer from Python: {told}"));
    (count, output.status.success())
}

#[test]
#[expect(clippy::print_stdout, reason = "a skipped test says so")]
fn ten_lines_of_python_agree_with_our_reader() {
    if Command::new("python3").arg("--version").output().is_err() {
        println!("skipped: there is no python3 here");
        return;
    }
    let store = FaultStore::default();
    for stretch in 1..=2 {
        let recovered = recover(&mut [store.clone()], &bath());
        let mut writer = Writer::resume(&recovered, vec![store.clone()], "potside 0.1.0").unwrap();
        run(&mut writer, &acts(stretch, 3), || false);
    }
    let whole = store.live_files().remove(&segment_name(2)).unwrap();
    let lines: Vec<&[u8]> = whole.split_inclusive(|byte| *byte == b'\n').collect();
    let mut cases = vec![
        whole.clone(),
        whole[..whole.len() - 30].to_vec(),
        lines[1..].concat(),
    ];
    cases.push([lines[0], b"\n", &lines[1..].concat()].concat());
    cases.push([&whole[..], &[0; 512]].concat());
    cases.push([&whole[..], lines[3]].concat());
    for step in 1..24 {
        let mut flipped = whole.clone();
        let at = step * (whole.len() - 1) / 24;
        flipped[at] ^= 1 << (step % 8);
        cases.push(flipped);
    }
    let folder = tempfile::tempdir().unwrap();
    let (check, file) = (
        folder.path().join("check.py"),
        folder.path().join(segment_name(2)),
    );
    std::fs::write(&check, script()).unwrap();

    assert!(script().lines().count() <= 10, "the document promises ten lines");
    assert_eq!(count_whole(&whole), (1 + 5 + 1 + 5, true));
    for (index, bytes) in cases.iter().enumerate() {
        std::fs::write(&file, bytes).unwrap();
        assert_eq!(ask_python(&check, &file), count_whole(bytes), "case {index}");
    }
}
