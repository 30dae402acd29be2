//! What is asked of the shelf on the glass goes through the keeper: kept before it is seen, and never over a damaged file.

use std::fs;

use potside::craft::lot::LotId;
use potside::keeper::Keeper;
use potside::shelf::{Milligrams, ShelfAsk, ShelfDone, SupplyId, read};
use potside::shell::disk::data_folder::DataFolder;
use tempfile::TempDir;

use super::support::closed::noon;
use super::support::shelves::{grams, wool};

fn keeper(folder: &TempDir) -> Keeper<DataFolder> {
    Keeper::open(DataFolder::open(folder.path()).unwrap(), None)
        .unwrap()
        .0
}

#[test]
fn a_lot_is_on_the_disk_before_the_glass_has_it() {
    let folder = tempfile::tempdir().unwrap();
    let mut keeper = keeper(&folder);
    assert!(keeper.shelf().shelf.lots().next().is_none());
    let done = keeper.ask_shelf(&ShelfAsk::AddLot(wool(100, 2)), noon("2026-08-21"));
    let lot = LotId::from_number(1).unwrap();
    assert_eq!(done, Ok(ShelfDone::Lot(lot)));
    let kept = read(&fs::read_to_string(folder.path().join("shelf.toml")).unwrap()).unwrap();
    assert_eq!(kept.lot(lot).unwrap().weighing().weight, grams(100));
    assert_eq!(keeper.shelf().shelf, kept, "the glass sees what is kept");
}

#[test]
fn what_is_refused_changes_nothing_and_says_why() {
    let folder = tempfile::tempdir().unwrap();
    let mut keeper = keeper(&folder);
    let now = noon("2026-08-21");
    keeper.ask_shelf(&ShelfAsk::AddLot(wool(100, 2)), now).unwrap();
    let before = fs::read(folder.path().join("shelf.toml")).unwrap();
    let asked = ShelfAsk::Count(SupplyId::from_number(7).unwrap(), Milligrams::NONE);
    let why = keeper.ask_shelf(&asked, now).unwrap_err();
    assert!(why.contains("S7"), "{why}");
    assert_eq!(fs::read(folder.path().join("shelf.toml")).unwrap(), before);
}

#[test]
fn a_damaged_shelf_is_told_and_left_as_it_is() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("shelf.toml");
    fs::write(&path, "format = 1\nlots = 3\n").unwrap();
    let mut keeper = keeper(&folder);
    let seen = keeper.shelf();
    assert!(seen.fault.contains("line 2"), "{}", seen.fault);
    let why = keeper.ask_shelf(&ShelfAsk::AddLot(wool(100, 2)), noon("2026-08-21"));
    assert!(why.is_err_and(|why| why.contains("mend it")));
    assert_eq!(fs::read_to_string(&path).unwrap(), "format = 1\nlots = 3\n");
}
