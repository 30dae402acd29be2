//! Bytes of strangers through the fuzzer's own entries: the files that are kept, each changed in many places, and
//! bytes of no origin.

use proptest::prelude::*;

use super::support::fault_store;

#[path = "../fuzz/entries.rs"]
mod entries;

/// Files to begin with: every one under a folder of the project with such an ending, in order.
fn seeds(folder: &str, ending: &str) -> Vec<Vec<u8>> {
    let mut paths = Vec::new();
    let mut folders = vec![std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join(folder)];
    while let Some(folder) = folders.pop() {
        for item in std::fs::read_dir(folder).unwrap() {
            let path = item.unwrap().path();
            if path.is_dir() {
                folders.push(path);
            } else if path.to_string_lossy().ends_with(ending) {
                paths.push(path);
            }
        }
    }
    paths.sort();
    assert!(!paths.is_empty(), "{folder} {ending}");
    paths
        .into_iter()
        .map(|path| std::fs::read(path).unwrap())
        .collect()
}

/// A change: where in thousandths of the length, how many bytes go, and what comes in their place.
type Change = (usize, usize, Vec<u8>);

fn changes() -> impl Strategy<Value = Vec<Change>> {
    prop::collection::vec(
        (
            0_usize..1000,
            0_usize..40,
            prop::collection::vec(any::<u8>(), 0..12),
        ),
        0..4,
    )
}

fn changed(seed: &[u8], changes: &[Change]) -> Vec<u8> {
    let mut bytes = seed.to_vec();
    for (at, gone, new) in changes {
        let at = bytes.len() * at / 1000;
        let end = (at + gone).min(bytes.len());
        bytes.splice(at..end, new.iter().copied());
    }
    bytes
}

fn try_all(seeds: &[Vec<u8>], cases: u32, entry: fn(&[u8])) {
    seeds.iter().for_each(|seed| entry(seed));
    let mut runner = proptest::test_runner::TestRunner::new(ProptestConfig {
        cases,
        failure_persistence: None,
        ..ProptestConfig::default()
    });
    let any = (
        0..seeds.len(),
        changes(),
        prop::collection::vec(any::<u8>(), 0..200),
        any::<bool>(),
    );
    let told = runner.run(&any, |(seed, changes, other, is_other)| {
        entry(&if is_other {
            other
        } else {
            changed(&seeds[seed], &changes)
        });
        Ok(())
    });
    told.unwrap();
}

#[test]
fn no_bytes_make_the_recipe_reader_fall_over() {
    let mut all = seeds("src/recipe/book", ".toml");
    all.extend(seeds("tests/recipes", ".toml"));
    try_all(&all, 300, entries::recipe);
}

#[test]
fn no_bytes_make_the_journal_reader_fall_over() {
    // The head of each golden journal is enough: what follows is more of the same.
    let heads = seeds("tests/journals", ".jsonl").into_iter().map(|bytes| {
        let end = bytes
            .iter()
            .enumerate()
            .filter(|(_, byte)| **byte == b'\n')
            .nth(9);
        end.map_or_else(|| bytes.clone(), |(end, _)| bytes[..=end].to_vec())
    });
    try_all(&heads.collect::<Vec<_>>(), 300, entries::journal);
}

fn a_page() -> Vec<u8> {
    let bath = potside::journal::id::BathId::from_text("bath").unwrap();
    let record = super::support::finished::eventful();
    potside::journal::seal::write_page(&bath, &serde_json::to_value(record).unwrap())
}

#[test]
fn no_bytes_make_the_page_and_record_readers_fall_over() {
    let page = a_page();
    try_all(std::slice::from_ref(&page), 300, entries::page);
    let read = potside::journal::seal::read_page("page", &page).unwrap();
    let record = serde_json::to_vec(&read.content).unwrap();
    try_all(&[record], 300, entries::record);
}

#[cfg(feature = "shell")]
#[test]
fn no_bytes_make_the_settings_reader_fall_over() {
    use potside::shell::bench_file;
    use potside::view::bench::Bench;
    try_all(
        &[bench_file::write(&Bench::default()).into_bytes()],
        500,
        entries::settings,
    );
}
