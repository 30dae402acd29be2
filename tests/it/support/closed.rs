//! Baths done with dry hands on fast time, and their records sealed in a daybook: what a day at the stove leaves behind.

use std::path::Path;
use std::sync::Arc;
use std::time::Duration;

use potside::craft::lot::LotId;
use potside::craft::quantity::{Length, Power, Volume};
use potside::craft::time::{Moment, Stretch};
use potside::journal::id::BathId;
use potside::journal::record::BathRecord;
use potside::journal::seal::seal;
use potside::machine::{PotNo, rehearsal};
use potside::recipe::{book, read};
use potside::sheet::{StovePlace, Wishes, compute};
use potside::shelf::Lot;
use potside::shell::disk::DiskFault;
use potside::shell::disk::data_folder::DataFolder;

/// A pot and a burner large enough for half a kilogram.
pub fn large_stove() -> StovePlace {
    let mut stove = StovePlace::default();
    stove.pot.capacity = Volume::from_litres(40.0).unwrap();
    stove.pot.diameter = Length::from_centimetres(38.0).unwrap();
    stove.burner.power = Power::from_watts(6_000.0).unwrap();
    stove
}

/// Noon of a day, in UTC.
pub fn noon(day: &str) -> Moment {
    let day: chrono::NaiveDate = day.parse().unwrap();
    let wall_ms = day.and_hms_opt(12, 0, 0).unwrap().and_utc().timestamp_millis();
    Moment {
        stretch: Stretch(0),
        steady_ms: 0,
        wall_ms,
    }
}

/// The record of a bath that went as planned, begun at noon: a recipe of the book, or a file of the tests' recipes.
pub fn record(id: &str, recipe: &str, lot: &Lot, day: &str) -> BathRecord {
    let text = match book::text_of(recipe) {
        Some(text) => text.to_owned(),
        None => std::fs::read_to_string(
            Path::new(env!("CARGO_MANIFEST_DIR"))
                .join("tests/recipes")
                .join(recipe),
        )
        .unwrap(),
    };
    let mut wishes = Wishes::new(lot.goods(), large_stove());
    wishes.weighed_as = lot.weighing().state;
    let sheet = compute(&Arc::new(read(&text).unwrap()), &wishes);
    assert!(sheet.refusals.is_empty(), "{:?}", sheet.refusals);
    let machine = rehearsal::play(&sheet.plan, noon(day), |_, _| {}).unwrap();
    let record = BathRecord::of(machine.pot(PotNo(1)).unwrap());
    assert_eq!(record.ended, "closed");
    BathRecord {
        bath: id.to_owned(),
        ..record.with_recipe(&text)
    }
}

/// Seals a record in the daybook of a folder, and does nothing more: as if the power went right after.
pub fn sealed(folder: &DataFolder, record: &BathRecord) {
    let bath = BathId::from_text(&record.bath).unwrap();
    let content = serde_json::to_value(record).unwrap();
    seal(&mut folder.daybook_store(), &bath, &content).unwrap();
}

/// Opens a data folder. A program that another test starts at this moment may hold a copy of a lock that was given back,
/// for as long as it takes to start: then it is tried again.
pub fn open(data: &Path) -> DataFolder {
    for _ in 0..200 {
        match DataFolder::open(data) {
            Err(DiskFault::InUse { .. }) => std::thread::sleep(Duration::from_millis(25)),
            opened => return opened.unwrap(),
        }
    }
    panic!("{} is in use", data.display())
}

pub fn lot_id(text: &str) -> LotId {
    LotId::from_text(text).unwrap()
}
