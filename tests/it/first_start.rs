//! Which start is the first: what a data folder holds, on a real disk.

use std::path::Path;

use potside::journal::id::BathId;
use potside::shell::bench_file;
use potside::shell::disk::data_folder::DataFolder;
use potside::shell::disk::untouched::{BENCH, is_untouched};
use potside::view::bench::Bench;

fn keep_bench(folder: &Path) {
    let files = potside::shell::disk::small_file::SmallFiles::new(folder.to_owned());
    let text = bench_file::write(&Bench::default());
    files.replace(BENCH, text.as_bytes(), |_| true).unwrap();
}

#[test]
fn a_folder_that_isnt_there_or_was_only_opened_is_untouched() {
    let root = tempfile::tempdir().unwrap();
    let folder = root.path().join("data");
    assert!(is_untouched(&folder, None));
    // Lock, ballast and empty folders are not a dyer's.
    drop(DataFolder::open(&folder).unwrap());
    assert!(is_untouched(&folder, None));
    // Half a bench, from a run that was cut off, was never kept.
    std::fs::write(folder.join("bench.toml.part"), "format = 1").unwrap();
    assert!(is_untouched(&folder, None));
    // The dyer's own recipes may be put there before the first start.
    std::fs::create_dir(folder.join("recipes")).unwrap();
    std::fs::write(folder.join("recipes/mine.toml"), "").unwrap();
    assert!(is_untouched(&folder, None));
}

#[test]
fn a_bench_once_kept_is_enough_even_where_the_file_is_lost() {
    let root = tempfile::tempdir().unwrap();
    keep_bench(root.path());
    assert!(!is_untouched(root.path(), None));
    keep_bench(root.path());
    std::fs::remove_file(root.path().join(BENCH)).unwrap();
    assert!(!is_untouched(root.path(), None), "bench.toml.last is there");
}

#[test]
fn a_shelf_a_bath_or_a_page_of_the_daybook_is_enough() {
    for name in [
        "shelf.toml",
        "baths/20260825-093107-alum-p1",
        "daybook/20260825-093107-alum-p1.json",
    ] {
        let root = tempfile::tempdir().unwrap();
        drop(DataFolder::open(root.path()).unwrap());
        std::fs::write(root.path().join(name), "").unwrap();
        assert!(!is_untouched(root.path(), None), "{name}");
    }
}

#[test]
fn a_bath_in_the_spare_place_is_enough() {
    let (root, spare) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    std::fs::write(spare.path().join("someone's file"), "").unwrap();
    assert!(is_untouched(root.path(), Some(spare.path())));
    let bath = BathId::from_text("20260825-093107-alum-p1").unwrap();
    std::fs::create_dir(spare.path().join(format!("potside-{bath}"))).unwrap();
    assert!(!is_untouched(root.path(), Some(spare.path())));
}

#[test]
fn what_cant_be_looked_at_counts_as_kept() {
    let root = tempfile::tempdir().unwrap();
    let file = root.path().join("file");
    std::fs::write(&file, "").unwrap();
    assert!(!is_untouched(&file, None), "a file in the folder's place");
}
