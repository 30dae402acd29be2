//! The shelf: lots, supplies, and the baths that moved them.

use std::collections::{BTreeMap, BTreeSet};

use super::bath::ShelvedBath;
use super::lot::Lot;
use super::supply::{Supply, SupplyId};
use crate::craft::lot::LotId;

/// Lots, supplies and finished baths.
///
/// Invariants: tags and bath ids are each there once; a lot is made only of lots with lower numbers that are there; the
/// baths a lot names are there; a number is never given twice.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Shelf {
    pub(super) lots: BTreeMap<LotId, Lot>,
    pub(super) supplies: BTreeMap<SupplyId, Supply>,
    pub(super) baths: Vec<ShelvedBath>,
    pub(super) passed_over: BTreeSet<String>,
    pub(super) last_lot: u32,
    pub(super) last_supply: u32,
}

/// A shelf has at most this many lots, those that are gone included.
pub(super) const LOTS_MOST: usize = 2_000;
/// And this many supplies.
pub(super) const SUPPLIES_MOST: usize = 500;
/// And this many baths.
pub(super) const BATHS_MOST: usize = 4_000;
/// And this many records that are older than it.
pub(super) const PASSED_OVER_MOST: usize = 10_000;

impl Shelf {
    /// An empty shelf that passes over the records there are already: what they took was taken before anything was
    /// counted here.
    #[must_use]
    pub fn begun_after(records: impl IntoIterator<Item = String>) -> Self {
        Self {
            passed_over: records.into_iter().take(PASSED_OVER_MOST).collect(),
            ..Self::default()
        }
    }

    /// The lots, in order of their numbers.
    pub fn lots(&self) -> impl Iterator<Item = &Lot> {
        self.lots.values()
    }

    /// The lots that are there to be worked: not gone, not split, not joined.
    pub fn lots_there(&self) -> impl Iterator<Item = &Lot> {
        self.lots.values().filter(|lot| self.is_there(lot.id))
    }

    /// The lot of a tag.
    #[must_use]
    pub fn lot(&self, id: LotId) -> Option<&Lot> {
        self.lots.get(&id)
    }

    /// The lots that were made of this one, by splitting or joining.
    pub fn made_of(&self, id: LotId) -> impl Iterator<Item = &Lot> {
        self.lots.values().filter(move |lot| lot.from.contains(&id))
    }

    /// Whether a lot is there to be worked.
    #[must_use]
    pub fn is_there(&self, id: LotId) -> bool {
        self.lots.get(&id).is_some_and(|lot| lot.gone.is_none()) && self.made_of(id).next().is_none()
    }

    /// The supplies, in order of their numbers.
    pub fn supplies(&self) -> impl Iterator<Item = &Supply> {
        self.supplies.values()
    }

    /// The supply of a tag.
    #[must_use]
    pub fn supply(&self, id: SupplyId) -> Option<&Supply> {
        self.supplies.get(&id)
    }

    /// The baths that are put down, in the order they were.
    #[must_use]
    pub fn baths(&self) -> &[ShelvedBath] {
        &self.baths
    }

    /// The bath of a record's id.
    #[must_use]
    pub fn bath(&self, id: &str) -> Option<&ShelvedBath> {
        self.baths.iter().find(|bath| bath.id == id)
    }

    /// Whether a record is put down, or is older than the shelf.
    #[must_use]
    pub fn has_record(&self, id: &str) -> bool {
        self.passed_over.contains(id) || self.bath(id).is_some()
    }

    /// The records that are older than the shelf.
    pub fn passed_over(&self) -> impl Iterator<Item = &str> {
        self.passed_over.iter().map(String::as_str)
    }

    /// What a lot has been through, in order; a bath that two parts of a joined lot had each is told twice.
    pub fn history<'a>(&'a self, lot: &'a Lot) -> impl Iterator<Item = &'a ShelvedBath> {
        lot.baths.iter().filter_map(|id| self.bath(id))
    }

    /// The way of the goods: the acts in order, each once. Of a joined lot, whose parts went the same way, the first
    /// part's baths stand for all.
    #[must_use]
    pub fn way<'a>(&'a self, lot: &'a Lot) -> Vec<&'a ShelvedBath> {
        let mut way = Vec::new();
        let mut before: BTreeSet<&str> = BTreeSet::new();
        if let Some(first) = lot.from.first().and_then(|id| self.lots.get(id)) {
            // Numbers fall from lot to the lots it was made of, so this ends.
            way.extend(self.way(first));
        }
        for id in &lot.from {
            before.extend(
                self.lots
                    .get(id)
                    .into_iter()
                    .flat_map(|from| from.baths.iter().map(String::as_str)),
            );
        }
        way.extend(
            self.history(lot)
                .filter(|bath| !before.contains(bath.id.as_str())),
        );
        way
    }

    /// Puts baths in the order they were put down.
    pub(super) fn in_order(&self, baths: BTreeSet<String>) -> Vec<String> {
        let mut ordered: Vec<String> = self
            .baths
            .iter()
            .filter(|bath| baths.contains(&bath.id))
            .map(|bath| bath.id.clone())
            .collect();
        ordered.dedup();
        ordered
    }
}
