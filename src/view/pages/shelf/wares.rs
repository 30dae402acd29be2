//! What a supply can be: everything that the book weighs.

use std::collections::BTreeMap;
use std::sync::Arc;

use crate::recipe::model::{Form, Recipe, Ware};
use crate::shelf::Stock;
use crate::view::pages::book::capital;
use crate::view::screen::{ChooseScreen, Icon, Row};

/// A supply's stock in words: `alum (potash)`, `a salt of 17 % Al2O3`, `madder-root, dried`.
pub(in crate::view::pages) fn words(stock: &Stock) -> String {
    match stock {
        Stock::Salt(substance) => substance.name().into(),
        Stock::Labelled(label) => format!("a salt of {label}"),
        Stock::Dyestuff { id, form } => format!("{}, {}", id.replace('-', " "), form.id()),
    }
}

/// Everything that the book weighs, by name, each once.
pub(in crate::view::pages) fn wares(recipes: &[Arc<Recipe>]) -> Vec<(String, Stock)> {
    let mut wares: BTreeMap<(String, &'static str), Stock> = BTreeMap::new();
    for addition in recipes.iter().flat_map(|recipe| &recipe.additions) {
        match &addition.ware {
            Ware::Substance(substance) => {
                wares.insert((substance.name().to_owned(), ""), Stock::Salt(*substance));
            }
            Ware::Dyestuff { id, form, .. } => {
                let stock = Stock::Dyestuff {
                    id: id.clone(),
                    form: *form,
                };
                wares.insert((id.replace('-', " "), of_form(*form)), stock);
            }
        }
    }
    wares
        .into_iter()
        .map(|((name, form), stock)| (format!("{name}{form}"), stock))
        .collect()
}

const fn of_form(form: Form) -> &'static str {
    match form {
        Form::Fresh => ", fresh",
        Form::Dried => ", dried",
        Form::Ground => ", ground",
        Form::Extract => ", extract",
    }
}

/// The page as a screen; a row's key is its place among the wares.
pub(super) fn screen(recipes: &[Arc<Recipe>]) -> ChooseScreen {
    let rows = wares(recipes)
        .into_iter()
        .enumerate()
        .map(|(index, (name, _))| Row {
            key: index.to_string(),
            label: capital(&name),
            icon: Icon::None,
            enabled: true,
            ..Row::default()
        });
    ChooseScreen {
        title: "What is it?".into(),
        note: "everything that the book weighs; a salt known by its label is put down at the terminal".into(),
        columns: 2,
        big: true,
        empty: "the book is empty".into(),
        rows: rows.collect(),
        ..ChooseScreen::default()
    }
}
