//! A work list computed for a lot: a sheet for each bath, all additions together, what is missing, which is next.

use std::sync::Arc;

use chrono::NaiveDate;

use super::check::check;
use super::finding::{Finding, Severity, Trouble};
use super::model::{Order, WorkList, order_of};
use super::progress::{Progress, progress};
use crate::recipe::model::Recipe;
use crate::sheet::{BathSheet, SheetRefusal, StovePlace, Wishes, compute};
use crate::shelf::kept::Shelf;
use crate::shelf::lot::Lot;
use crate::shelf::missing::{Missing, Want, missing, wants_of};

/// A list for a lot.
#[derive(Debug, Clone, PartialEq)]
pub struct WorkPlan {
    /// In which order it brings mordant and dye.
    pub order: Order,
    /// How far the lot has come in it.
    pub progress: Progress,
    /// The baths still to be done, in order.
    pub baths: Vec<PlannedBath>,
    /// What they take together, ware by ware.
    pub wants: Vec<Want>,
    /// What of that the shelf hasn't enough of.
    pub missing: Vec<Missing>,
    /// What would go wrong, bath by bath.
    pub findings: Vec<Finding>,
}

/// A bath of a list with its sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct PlannedBath {
    /// Which of the list, counted from 1.
    pub number: usize,
    /// Its sheet. A refused one is among them, with its reasons.
    pub sheet: BathSheet,
}

impl WorkPlan {
    /// Whether something speaks against doing it so.
    #[must_use]
    pub fn is_refused(&self) -> bool {
        self.findings
            .iter()
            .any(|finding| finding.trouble.severity() == Severity::Refuse)
    }

    /// The sheet of the next bath.
    #[must_use]
    pub fn next(&self) -> Option<&PlannedBath> {
        let next = self.progress.next?.saturating_add(1);
        self.baths.iter().find(|bath| bath.number == next)
    }
}

/// Computes and checks a list for a lot, on a stove and a day.
#[must_use]
pub fn lay_out(
    list: &WorkList,
    recipes: &[Arc<Recipe>],
    shelf: &Shelf,
    lot: &Lot,
    stove: &StovePlace,
    today: NaiveDate,
) -> WorkPlan {
    let find = |id: &str| recipes.iter().find(|recipe| recipe.id == id);
    let progress = progress(list, shelf, lot, |id| find(id).map(|recipe| recipe.kind));
    let mut findings = check(list, recipes, shelf, lot, stove.pot.metal, today);
    let to_do = progress.next.unwrap_or(list.baths.len());
    let baths: Vec<PlannedBath> = list
        .baths
        .iter()
        .zip(1..)
        .skip(to_do)
        .filter_map(|(listed, number)| {
            let mut wishes = Wishes::new(lot.goods(), *stove);
            wishes.weighed_as = lot.weighing().state;
            let sheet = compute(find(&listed.recipe)?, &wishes);
            Some(PlannedBath { number, sheet })
        })
        .collect();
    for bath in &baths {
        let own = bath.sheet.refusals.iter().filter(|refusal| !is_told(refusal));
        findings.extend(own.map(|refusal| Finding {
            number: bath.number,
            trouble: Trouble::Sheet(Box::new(refusal.clone())),
        }));
    }
    findings.sort_by_key(|finding| finding.number);
    let wants = wants_of(baths.iter().map(|bath| &bath.sheet));
    WorkPlan {
        order: order_of(
            list.baths
                .iter()
                .filter_map(|listed| find(&listed.recipe))
                .map(|recipe| &**recipe),
        ),
        missing: missing(shelf, &wants),
        progress,
        wants,
        baths,
        findings,
    }
}

/// Whether the check of the list tells this refusal already.
const fn is_told(refusal: &SheetRefusal) -> bool {
    match refusal {
        SheetRefusal::FibreNotForRecipe { .. } | SheetRefusal::AlkaliOnHair { .. } => true,
        SheetRefusal::NoGoods
        | SheetRefusal::PotTooSmall { .. }
        | SheetRefusal::BoilsBelowHold { .. }
        | SheetRefusal::NeverGetsThere { .. }
        | SheetRefusal::WeightBasis { .. }
        | SheetRefusal::ShelfSalt { .. }
        | SheetRefusal::NoSaltOfLetter { .. }
        | SheetRefusal::NoLiquidWater { .. }
        | SheetRefusal::SteamsAway { .. } => false,
    }
}
