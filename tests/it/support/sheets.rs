//! Bath sheets made from text, as a dyer would ask for them.

use potside::craft::quantity::Mass;
use potside::craft::reading;
use potside::recipe::book;
use potside::recipe::model::{Letter, Recipe};
use potside::sheet::plan::{Goods, PlannedAddition, StepKind};
use potside::sheet::{BathSheet, StovePlace, Wishes, compute};
use std::sync::Arc;

/// A recipe of the book for so many goods of its first fibre, on the usual stove.
pub fn sheet(recipe: &str, goods: &str) -> BathSheet {
    sheet_with(recipe, goods, |_| {})
}

/// The same with something changed.
pub fn sheet_with(recipe: &str, goods: &str, change: impl FnOnce(&mut Wishes)) -> BathSheet {
    let recipe = Arc::new(book::by_id(recipe).unwrap().clone());
    let mut wishes = wishes_for(&recipe, reading::mass(goods).unwrap());
    change(&mut wishes);
    compute(&recipe, &wishes)
}

pub fn wishes_for(recipe: &Recipe, dry: Mass) -> Wishes {
    let goods = Goods {
        fibre: recipe.fibres[0],
        dry,
        hanks: 1,
        lot: None,
    };
    Wishes::new(goods, StovePlace::default())
}

pub fn grams_of(sheet: &BathSheet, letter: char) -> f64 {
    addition(sheet, letter).target.grams()
}

pub fn addition(sheet: &BathSheet, letter: char) -> &PlannedAddition {
    sheet.plan.addition(Letter(letter)).unwrap()
}

/// The kinds of the steps, in order.
pub fn kinds(sheet: &BathSheet) -> Vec<StepKind> {
    sheet.plan.steps.iter().map(|step| step.act.kind()).collect()
}

pub fn warnings(sheet: &BathSheet) -> String {
    sheet
        .warnings
        .iter()
        .map(|warning| format!("{warning}\n"))
        .collect()
}

pub fn refusals(sheet: &BathSheet) -> String {
    sheet
        .refusals
        .iter()
        .map(|refusal| format!("{refusal}\n"))
        .collect()
}
