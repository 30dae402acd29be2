//! Finished baths put down on the shelf: whatever record the daybook has and the shelf has not.
//!
//! The record is sealed first, the shelf replaced after. A cut between the two leaves a record that isn't put down,
//! and the next start puts it down; a bath is put down once, by its id, so doing it again changes nothing.

use std::collections::BTreeMap;

use crate::craft::fibre::Fibre;
use crate::craft::lot::LotId;
use crate::craft::quantity::Mass;
use crate::craft::vessel::PotMetal;
use crate::journal::id::BathId;
use crate::journal::record::{self, BathRecord};
use crate::journal::seal::{PAGE_BYTES_MAX, read_page};
use crate::journal::store::Store;
use crate::recipe;
use crate::recipe::model::{BathKind, Form, Letter, Ware};
use crate::shelf::{Milligrams, Shelf, ShelvedBath, Weighed};
use crate::shell::clock;
use crate::shell::disk::small_file::SmallFiles;

use super::file;

/// Puts down every sealed record that isn't yet, and keeps the shelf if that changed it. Without a shelf nothing is
/// done. Returns what a person should know.
///
/// # Errors
/// One line when the shelf can't be read or kept; the daybook has the records, and the next start tries again.
pub fn settle(files: &SmallFiles, daybook: &mut impl Store) -> Result<Vec<String>, String> {
    let shelf = file::load(files).map_err(|faults| file::not_over(&faults))?;
    let Some(mut shelf) = shelf else {
        return Ok(Vec::new());
    };
    let (is_changed, told) = put_down_all(&mut shelf, daybook)?;
    if is_changed {
        file::keep(files, &shelf)?;
    }
    Ok(told)
}

/// The same on a shelf in memory. Whether it changed, and what a person should know.
///
/// # Errors
/// When the daybook can't be listed.
pub fn put_down_all(shelf: &mut Shelf, daybook: &mut impl Store) -> Result<(bool, Vec<String>), String> {
    let mut told = Vec::new();
    let mut open: Vec<BathRecord> = Vec::new();
    for (id, name) in pages(daybook)? {
        if shelf.has_record(&id) {
            continue;
        }
        match record_of(daybook, &name) {
            Ok(record) if record.bath == id => open.push(record),
            Ok(record) => told.push(format!(
                "{name} holds the record of {}; it isn't put down",
                record.bath
            )),
            Err(why) => told.push(format!(
                "{name} can't be read and isn't put down on the shelf: {why}"
            )),
        }
    }
    open.sort_by(|one, other| (one.ended_wall_ms, &one.bath).cmp(&(other.ended_wall_ms, &other.bath)));
    let mut is_changed = false;
    for record in &open {
        match shelved(record) {
            Ok((bath, fibre)) => {
                let applied = shelf.put_down(bath, fibre);
                is_changed |= applied.is_new;
                told.extend(applied.remarks.iter().map(ToString::to_string));
            }
            Err(why) => told.push(format!("{} isn't put down on the shelf: {why}", record.bath)),
        }
    }
    Ok((is_changed, told))
}

/// The ids of the records in a daybook, each with the name of its page; of several pages of one bath the last.
///
/// # Errors
/// When the daybook can't be listed.
pub fn pages(daybook: &mut impl Store) -> Result<BTreeMap<String, String>, String> {
    let names = daybook
        .list()
        .map_err(|why| format!("the daybook can't be listed: {why}"))?;
    let page = |name: String| {
        let stem = name.strip_suffix(".json")?;
        let id = stem.split_once('.').map_or(stem, |(id, _)| id);
        let id = BathId::from_text(id).ok()?;
        Some((id.to_string(), name))
    };
    Ok(names.into_iter().filter_map(page).collect())
}

fn record_of(daybook: &mut impl Store, name: &str) -> Result<BathRecord, String> {
    let bytes = daybook
        .read(name, PAGE_BYTES_MAX)
        .map_err(|why| why.to_string())?;
    let page = read_page(name, &bytes).map_err(|why| why.to_string())?;
    record::read(&page.content).map_err(|why| why.to_string())
}

/// A record as the shelf remembers it, and the fibre it names.
///
/// # Errors
/// One line when it names something this program doesn't know.
pub fn shelved(record: &BathRecord) -> Result<(ShelvedBath, Fibre), String> {
    let unknown = |what: &str, word: &str| format!("its {what}, {word:?}, is unknown to this program");
    let kind = BathKind::from_id(&record.kind).ok_or_else(|| unknown("kind", &record.kind))?;
    let fibre = Fibre::from_id(&record.fibre).ok_or_else(|| unknown("fibre", &record.fibre))?;
    let metal = PotMetal::from_id(&record.pot_metal).ok_or_else(|| unknown("pot", &record.pot_metal))?;
    let lot = record.lot.as_deref().map(LotId::from_text).transpose();
    let lot = lot.map_err(|fault| fault.to_string())?;
    let forms = forms(record);
    let weighed = record.additions.iter().filter_map(|addition| {
        let letter = Letter(addition.letter.chars().next()?);
        let grams = addition.actual_g.filter(|grams| *grams > 0.0)?;
        Some(Weighed {
            letter,
            ware: addition.ware.clone(),
            name: addition.name.clone(),
            form: forms.get(&letter).copied(),
            weight: Milligrams::of(Mass::saturating_grams(grams)),
            drawn: Vec::new(),
        })
    });
    let bath = ShelvedBath {
        id: record.bath.clone(),
        lot,
        kind,
        recipe: record.recipe.clone(),
        name: record.recipe_name.clone(),
        on: clock::day_of(record.ended_wall_ms),
        is_whole: record.ended == "closed",
        pot: record.pot,
        metal,
        weighed: weighed.collect(),
    };
    Ok((bath, fibre))
}

/// The forms of the dyestuffs, by letter, from the recipe word for word where it is at hand.
fn forms(record: &BathRecord) -> BTreeMap<Letter, Form> {
    let recipe = record
        .recipe_toml
        .as_deref()
        .and_then(|text| recipe::read(text).ok());
    recipe
        .iter()
        .flat_map(|recipe| &recipe.additions)
        .filter_map(|addition| match &addition.ware {
            Ware::Dyestuff { form, .. } => Some((addition.letter, *form)),
            Ware::Substance(_) => None,
        })
        .collect()
}
