//! What a supply can be: everything that the book weighs.

use std::collections::BTreeMap;
use std::sync::Arc;

use crate::recipe::model::{Form, Recipe, Ware};
use crate::say;
use crate::shelf::{Stock, Supply};
use crate::view::locale::{Language, Locale};
use crate::view::pages::book::{capital, filed, form_beside};
use crate::view::screen::{ChooseScreen, Icon, Row};

/// A supply's stock in words: `alum (potash)`, `a salt of 17 % Al2O3`, `madder root, dried`.
pub(in crate::view::pages) fn words(stock: &Stock, recipes: &[Arc<Recipe>], locale: Locale) -> String {
    match stock {
        Stock::Salt(substance) => locale.read(substance.name()),
        Stock::Labelled(label) => say!(
            locale,
            "a salt of {label}",
            label = locale.pointed(&label.to_string())
        ),
        Stock::Dyestuff { id, form } => {
            let name = dyestuff(id, *form, recipes, locale);
            match form_beside(&name, *form, locale) {
                Some(form) => format!("{name}, {form}"),
                None => name,
            }
        }
    }
}

/// `S3  madder root, dried`. A name that the program gave is said in the dyer's language, one that the dyer gave
/// stays as it is.
pub(super) fn tag_and_name(supply: &Supply, recipes: &[Arc<Recipe>], locale: Locale) -> String {
    let plain = Locale::plain(locale.zone);
    if supply.name == words(&supply.stock, recipes, plain) {
        format!("{}  {}", supply.id, words(&supply.stock, recipes, locale))
    } else {
        format!("{}  {}", supply.id, supply.name)
    }
}

/// A dyestuff by its id. The ids are English words; other languages have the names that the book's recipes weigh it by.
fn dyestuff(id: &str, form: Form, recipes: &[Arc<Recipe>], locale: Locale) -> String {
    let plain = id.replace('-', " ");
    match locale.language {
        Language::English => plain,
        Language::German | Language::French => {
            let of_book = recipes
                .iter()
                .flat_map(|recipe| &recipe.additions)
                .find_map(|addition| match &addition.ware {
                    Ware::Dyestuff {
                        id: known,
                        form: in_form,
                        name,
                    } if known == id && *in_form == form => Some(name.as_str()),
                    Ware::Dyestuff { .. } | Ware::Substance(_) => None,
                });
            locale.read(of_book.unwrap_or(&plain))
        }
    }
}

/// Everything that the book weighs, each once, with the name that a supply of it is given: English, like everything in
/// a file.
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
                let name = id.replace('-', " ");
                let form = of_form(*form);
                let is_said = name.split(' ').any(|word| form.strip_prefix(", ") == Some(word));
                wares.insert((name, if is_said { "" } else { form }), stock);
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

/// The page as a screen, by the names in the dyer's language; a row's key is its place among the wares.
pub(super) fn screen(recipes: &[Arc<Recipe>], locale: Locale) -> ChooseScreen {
    let mut rows: Vec<Row> = wares(recipes)
        .into_iter()
        .enumerate()
        .map(|(index, (_, stock))| Row {
            key: index.to_string(),
            label: capital(&words(&stock, recipes, locale)),
            icon: Icon::None,
            enabled: true,
            ..Row::default()
        })
        .collect();
    match locale.language {
        Language::English => {}
        Language::German | Language::French => rows.sort_by_cached_key(|row| filed(&row.label)),
    }
    ChooseScreen {
        title: say!(locale, "What is it?"),
        note: say!(
            locale,
            "everything that the book weighs; a salt known by its label is written down at the terminal"
        ),
        columns: 2,
        big: true,
        empty: say!(locale, "the book is empty"),
        rows,
        ..ChooseScreen::default()
    }
}
