//! Closing a bath moves the shelf: after the seal, once, and a cut in between is made good at the next start.

use std::fs;
use std::path::Path;
use std::sync::Arc;

use potside::craft::fibre::Fibre;
use potside::craft::substance::Substance;
use potside::journal::record::BathRecord;
use potside::journal::wire::{entry_of, event_of};
use potside::keeper::{Keeper, Told};
use potside::machine::{Ask, Event, Input, PotNo, What};
use potside::shelf::{Lot, Shelf, Stage, condition, read, write};
use potside::shell::shelf::{file, settle};
use tempfile::TempDir;

use super::support::closed::{lot_id, noon, open, record, sealed};
use super::support::plans::alum_bath;
use super::support::shelves::{day, grams, salt, wool};

/// A folder with a lot of 100 g, L1, and 100 g of alum, S1.
fn begun() -> (TempDir, Shelf) {
    let folder = tempfile::tempdir().unwrap();
    let mut shelf = Shelf::default();
    shelf.add_lot(wool(100, 2), day("2026-08-20")).unwrap();
    shelf.add_supply(salt(Substance::PotashAlum, 100)).unwrap();
    fs::write(folder.path().join("shelf.toml"), write(&shelf)).unwrap();
    (folder, shelf)
}

fn there(data: &Path) -> Shelf {
    read(&fs::read_to_string(data.join("shelf.toml")).unwrap()).unwrap()
}

fn start(data: &Path) -> Vec<String> {
    let (mut keeper, _) = Keeper::open(open(data), None).unwrap();
    keeper.take_troubles()
}

fn left(data: &Path) -> String {
    there(data)
        .supplies()
        .map(|supply| supply.left.to_string())
        .collect::<Vec<_>>()
        .join(" ")
}

fn first(shelf: &Shelf) -> &Lot {
    shelf.lots().next().unwrap()
}

#[test]
fn the_keeper_moves_the_shelf_when_a_bath_is_closed() {
    let (folder, shelf) = begun();
    let data = folder.path();
    let (mut keeper, _) = Keeper::open(open(data), None).unwrap();
    let mut plan = (*alum_bath()).clone();
    plan.goods = first(&shelf).goods();
    let now = noon("2026-08-21");
    let begin = Input::Begin {
        pot: PotNo(1),
        bath_id: "b1".into(),
        plan: Arc::new(plan),
        cautions_read: true,
    };
    let step = |keeper: &Keeper<potside::shell::disk::data_folder::DataFolder>| {
        keeper.machine().pot(PotNo(1)).unwrap().stand.step
    };
    let confirm = |keeper: &Keeper<potside::shell::disk::data_folder::DataFolder>| {
        Input::Pot(
            PotNo(1),
            Ask::Confirm {
                step: step(keeper),
                sure: true,
            },
        )
    };

    for input in [None, Some(()), Some(())] {
        let input = input.map_or_else(|| begin.clone(), |()| confirm(&keeper));
        assert!(
            matches!(keeper.take(None, &input, now), Told::Taken(_)),
            "{input:?}"
        );
    }
    assert_eq!(left(data), "100 g", "nothing moves before the end");
    assert!(matches!(
        keeper.take(None, &Input::Pot(PotNo(1), Ask::Stop), now),
        Told::Taken(_)
    ));

    assert_eq!(keeper.take_troubles(), [""; 0]);
    assert_eq!(left(data), "85 g", "the 15 g that were weighed are gone");
    let shelf = there(data);
    assert_eq!(first(&shelf).baths, ["b1"]);
    let condition = condition(&shelf, first(&shelf));
    assert_eq!((condition.stage, condition.stopped.len()), (Stage::Raw, 1));
}

#[test]
fn a_cut_between_seal_and_shelf_is_made_good_once() {
    let (folder, shelf) = begun();
    let data = folder.path();
    let record = record("b1", "alum-only", first(&shelf), "2026-08-21");
    sealed(&open(data), &record);
    assert_eq!(left(data), "100 g");

    for _ in 0..3 {
        assert_eq!(start(data), [""; 0]);
        assert_eq!(left(data), "85 g");
    }

    let shelf = there(data);
    assert_eq!(condition(&shelf, first(&shelf)).stage, Stage::Mordanted);
    assert_eq!(
        read(&fs::read_to_string(data.join("shelf.toml.last")).unwrap())
            .unwrap()
            .baths()
            .len(),
        0
    );
}

#[test]
fn a_cut_while_the_shelf_is_replaced_leaves_the_old_or_the_new_one() {
    let (folder, shelf) = begun();
    let data = folder.path();
    sealed(
        &open(data),
        &record("b1", "alum-only", first(&shelf), "2026-08-21"),
    );
    // Half of the new file under its temporary name, as a cut in the middle of writing leaves it.
    fs::write(data.join("shelf.toml.part"), "format = 1\nlast_l").unwrap();

    assert_eq!(start(data), [""; 0]);

    assert_eq!(left(data), "85 g");
    assert!(!data.join("shelf.toml.part").exists());
}

#[test]
fn a_damaged_shelf_is_told_left_alone_and_made_good_when_it_is_mended() {
    let (folder, shelf) = begun();
    let data = folder.path();
    let good = fs::read_to_string(data.join("shelf.toml")).unwrap();
    let damaged = good.replace("hanks = 2", "hanks = two");
    fs::write(data.join("shelf.toml"), &damaged).unwrap();
    sealed(
        &open(data),
        &record("b1", "alum-only", first(&shelf), "2026-08-21"),
    );

    let troubles = start(data);

    assert!(troubles[0].contains("shelf.toml: line 11"), "{troubles:?}");
    assert!(troubles[0].contains("left as it is"), "{troubles:?}");
    let files = open(data).small_files();
    assert!(file::keep(&files, &shelf).unwrap_err().contains("left as it is"));
    assert_eq!(fs::read_to_string(data.join("shelf.toml")).unwrap(), damaged);

    fs::write(data.join("shelf.toml"), good).unwrap();
    assert_eq!(start(data), [""; 0]);
    assert_eq!(left(data), "85 g");
}

#[test]
fn without_a_shelf_nothing_is_made_and_older_records_are_passed_over() {
    let (folder, shelf) = begun();
    let data = folder.path();
    fs::remove_file(data.join("shelf.toml")).unwrap();
    sealed(
        &open(data),
        &record("b1", "alum-only", first(&shelf), "2026-08-21"),
    );
    assert_eq!(start(data), [""; 0]);
    assert!(!data.join("shelf.toml").exists());

    let mut daybook = open(data).daybook_store();
    let mut begun = Shelf::begun_after(settle::pages(&mut daybook).unwrap().into_keys());
    begun.add_supply(salt(Substance::PotashAlum, 100)).unwrap();
    fs::write(data.join("shelf.toml"), write(&begun)).unwrap();
    sealed(
        &open(data),
        &record("b2", "alum-only", first(&shelf), "2026-08-22"),
    );

    let told = start(data);

    assert_eq!(
        left(data),
        "85 g",
        "the old bath took nothing from the new supply"
    );
    assert!(
        told[0].contains("bath b2 was of lot L1, which isn't on the shelf"),
        "{told:?}"
    );
    assert_eq!(start(data), [""; 0], "told once");
}

#[test]
fn a_damaged_page_is_told_and_the_others_are_put_down() {
    let (folder, shelf) = begun();
    let data = folder.path();
    sealed(
        &open(data),
        &record("b1", "alum-only", first(&shelf), "2026-08-21"),
    );
    fs::write(data.join("daybook/b0.json"), "{\"daybook\":1}").unwrap();

    let told = start(data);

    assert_eq!(left(data), "85 g");
    assert!(told[0].contains("b0.json can't be read"), "{told:?}");
}

#[test]
fn records_and_events_without_a_lot_still_read() {
    let (_folder, shelf) = begun();
    let with = record("b1", "alum-only", first(&shelf), "2026-08-21");
    assert_eq!(with.lot.as_deref(), Some("L1"));
    let mut old = serde_json::to_value(&with).unwrap();
    old.as_object_mut().unwrap().remove("lot").unwrap();
    let read: BathRecord = serde_json::from_value(old).unwrap();
    assert_eq!((read.lot, read.steps), (None, with.steps));

    let event = Event {
        at: noon("2026-08-21"),
        pot: PotNo(1),
        what: What::BathBegun {
            bath_id: "b1".into(),
            plan: alum_bath(),
        },
    };
    let entry = entry_of(&event).unwrap();
    assert!(
        !serde_json::to_string(&entry.body).unwrap().contains("\"lot\""),
        "no tag, no key: as before"
    );
    assert_eq!(event_of(1, &entry).unwrap(), event);
}

#[test]
fn a_record_becomes_what_the_shelf_remembers() {
    let (_folder, shelf) = begun();
    let record = record("b1", "madder", first(&shelf), "2026-08-21");

    let (bath, fibre) = settle::shelved(&record).unwrap();

    assert_eq!(
        (fibre, bath.lot, bath.is_whole),
        (Fibre::Wool, Some(lot_id("L1")), true)
    );
    let weighed = &bath.weighed[0];
    assert_eq!(
        (weighed.weight, weighed.form),
        (grams(60), Some(potside::recipe::model::Form::Dried))
    );
    let unknown = BathRecord {
        kind: "boiling".into(),
        ..record
    };
    assert!(settle::shelved(&unknown).unwrap_err().contains("\"boiling\""));
}
