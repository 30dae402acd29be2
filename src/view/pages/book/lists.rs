//! The lists of the book: kinds, dyestuffs, letters, recipes. What fits the goods in hand comes first; what doesn't
//! stands below and can't be pressed.

use std::collections::BTreeMap;
use std::sync::Arc;

use crate::recipe::model::{BathKind, Dose, MordantNeed, Offered, Recipe};
use crate::say;
use crate::view::locale::Locale;
use crate::view::screen::{ChooseScreen, Icon, Row};

use super::{Reader, capital, dyestuff_of, filed, initial};

/// The key of the way to the letters.
pub(super) const LETTERS: &str = "letters";

/// The kinds as goods meet them.
const ORDER: [BathKind; 7] = [
    BathKind::Scour,
    BathKind::Mordant,
    BathKind::Tannin,
    BathKind::Fixing,
    BathKind::Dye,
    BathKind::Vat,
    BathKind::AfterBath,
];

/// The kinds of bath, and the way to the letters.
pub(super) fn kinds(reader: Reader<'_>) -> ChooseScreen {
    let mut rows: Vec<Row> = ORDER
        .into_iter()
        .filter_map(|kind| {
            let of_kind = |recipe: &&Arc<Recipe>| recipe.kind == kind;
            let (fit, all) = counted(reader, of_kind);
            (all > 0).then(|| tile(kind.id(), &kind_title(kind, reader.locale), fit, all, reader))
        })
        .collect();
    rows.push(Row {
        key: LETTERS.into(),
        label: say!(reader.locale, "A to Z"),
        detail: say!(reader.locale, "by first letter"),
        enabled: !reader.recipes.is_empty(),
        ..Row::default()
    });
    list(reader, &say!(reader.locale, "Recipes"), 3, rows)
}

/// The dyestuffs of the dyes.
pub(super) fn dyestuffs(reader: Reader<'_>) -> ChooseScreen {
    let mut names: BTreeMap<&str, &str> = BTreeMap::new();
    for recipe in reader
        .recipes
        .iter()
        .filter(|recipe| recipe.kind == BathKind::Dye)
    {
        let (id, name) = dyestuff_of(recipe);
        names.entry(id).or_insert(name);
    }
    let mut rows: Vec<Row> = names
        .into_iter()
        .map(|(id, name)| {
            let of_it = |recipe: &&Arc<Recipe>| recipe.kind == BathKind::Dye && dyestuff_of(recipe).0 == id;
            let (fit, all) = counted(reader, of_it);
            tile(id, &dyestuff_title(name, reader), fit, all, reader)
        })
        .collect();
    rows.sort_by_cached_key(|row| (!row.enabled, filed(&row.label)));
    list(reader, &kind_title(BathKind::Dye, reader.locale), 3, rows)
}

/// The dyes of a dyestuff.
pub(super) fn of_dyestuff(reader: Reader<'_>, id: &str) -> ChooseScreen {
    let of_it = |recipe: &Recipe| recipe.kind == BathKind::Dye && dyestuff_of(recipe).0 == id;
    let name = reader
        .recipes
        .iter()
        .find(|recipe| of_it(recipe))
        .map_or("", |recipe| dyestuff_of(recipe).1);
    recipes(reader, &dyestuff_title(name, reader), of_it)
}

fn dyestuff_title(name: &str, reader: Reader<'_>) -> String {
    let name = if name.is_empty() {
        say!(reader.locale, "other dyes")
    } else {
        reader.locale.read(name)
    };
    capital(&name)
}

/// The letters that names begin with; no other letter stands there.
pub(super) fn letters(reader: Reader<'_>) -> ChooseScreen {
    let mut letters: BTreeMap<char, (usize, usize)> = BTreeMap::new();
    for recipe in reader.recipes {
        if let Some(letter) = initial(recipe, reader.locale) {
            let (fit, all) = letters.entry(letter).or_default();
            *all = all.saturating_add(1);
            *fit = fit.saturating_add(usize::from(reader.fits(recipe)));
        }
    }
    let rows = letters.into_iter().map(|(letter, (fit, _))| Row {
        key: letter.to_string(),
        label: letter.to_string(),
        detail: fit.to_string(),
        enabled: fit > 0,
        ..Row::default()
    });
    list(reader, &say!(reader.locale, "By first letter"), 5, rows.collect())
}

/// Recipes as rows: those for the goods, those only to be read, those for other goods; each by name.
pub(super) fn recipes(reader: Reader<'_>, title: &str, of: impl Fn(&Recipe) -> bool) -> ChooseScreen {
    let mut found: Vec<&Arc<Recipe>> = reader.recipes.iter().filter(|recipe| of(recipe)).collect();
    found.sort_by_cached_key(|recipe| {
        (
            !reader.fits(recipe),
            !reader.may_begin(recipe),
            filed(&reader.locale.read(&recipe.name)),
        )
    });
    let rows = found.into_iter().map(|recipe| row(recipe, reader)).collect();
    list(reader, title, 1, rows)
}

fn list(reader: Reader<'_>, title: &str, columns: i32, rows: Vec<Row>) -> ChooseScreen {
    ChooseScreen {
        title: title.into(),
        note: reader.note.into(),
        columns,
        tiles: false,
        big: true,
        empty: say!(reader.locale, "no recipe is here yet"),
        rows,
        foot: Vec::new(),
    }
}

fn counted(reader: Reader<'_>, of: impl Fn(&&Arc<Recipe>) -> bool) -> (usize, usize) {
    let all: Vec<&Arc<Recipe>> = reader.recipes.iter().filter(of).collect();
    let fit = all.iter().filter(|recipe| reader.fits(recipe)).count();
    (fit, all.len())
}

fn tile(key: &str, label: &str, fit: usize, all: usize, reader: Reader<'_>) -> Row {
    let detail = match (reader.goods, fit, all) {
        (Some(_), 0, _) => say!(reader.locale, "not for these"),
        (Some(_), fit, all) if fit < all => {
            say!(reader.locale, "{fit} of {all} fit", fit = fit, all = all)
        }
        (_, _, 1) => say!(reader.locale, "1 recipe"),
        (_, _, all) => say!(reader.locale, "{all} recipes", all = all),
    };
    Row {
        key: key.into(),
        label: label.into(),
        detail,
        enabled: fit > 0,
        ..Row::default()
    }
}

fn row(recipe: &Recipe, reader: Reader<'_>) -> Row {
    let fits = reader.fits(recipe);
    let detail = if fits {
        detail(recipe, reader)
    } else {
        for_fibres(recipe, reader.locale)
    };
    Row {
        key: recipe.id.clone(),
        label: reader.locale.read(&recipe.name),
        detail,
        value: String::new(),
        icon: icon(recipe, reader),
        chosen: false,
        enabled: fits,
    }
}

/// What a recipe takes, and what is peculiar to it.
fn detail(recipe: &Recipe, reader: Reader<'_>) -> String {
    let doses: Vec<String> = recipe
        .additions
        .iter()
        .filter_map(|addition| match &addition.dose {
            Dose::Wof(figure) => Some(reader.locale.percent(&figure.chosen.percent().to_string())),
            Dose::PerLitre(figure) => Some(format!(
                "{} g/L",
                reader
                    .locale
                    .pointed(&figure.chosen.grams_per_litre().to_string())
            )),
            Dose::Parts { .. } => None,
        })
        .collect();
    let mut parts = Vec::new();
    match recipe.offered {
        Offered::Freely => {}
        Offered::WhenAsked if reader.may_begin(recipe) => {
            parts.push(say!(reader.locale, "hazardous metal"));
        }
        Offered::WhenAsked => {
            parts.push(say!(reader.locale, "locked: hazardous metal"));
        }
        Offered::ReferenceOnly => parts.push(say!(reader.locale, "to be read only")),
    }
    if !doses.is_empty() {
        parts.push(doses.join(" + "));
    }
    if recipe.kind == BathKind::Dye && recipe.mordant == MordantNeed::None {
        parts.push(say!(reader.locale, "no mordant needed"));
    }
    if reader.goods.is_none() {
        parts.push(for_fibres(recipe, reader.locale));
    }
    if parts.is_empty() {
        parts.push(kind_words(recipe.kind, reader.locale));
    }
    parts.join(", ")
}

/// The fibres of a recipe in one line.
pub(super) fn fibres(recipe: &Recipe, locale: Locale) -> String {
    let names: Vec<String> = recipe
        .fibres
        .iter()
        .map(|fibre| locale.read(fibre.name()))
        .collect();
    names.join(", ")
}

fn for_fibres(recipe: &Recipe, locale: Locale) -> String {
    say!(locale, "for {fibres}", fibres = fibres(recipe, locale))
}

/// A kind of bath as a heading.
pub(super) fn kind_title(kind: BathKind, locale: Locale) -> String {
    match kind {
        BathKind::Scour => say!(locale, "kind of bath" => "Scour"),
        BathKind::Mordant => say!(locale, "kind of bath" => "Mordant"),
        BathKind::Tannin => say!(locale, "kind of bath" => "Tannin"),
        BathKind::Fixing => say!(locale, "kind of bath" => "Fixing bath"),
        BathKind::Dye => say!(locale, "kind of bath" => "Dye"),
        BathKind::AfterBath => say!(locale, "kind of bath" => "After-bath"),
        BathKind::Vat => say!(locale, "kind of bath" => "Vat"),
    }
}

/// A kind of bath within a line.
fn kind_words(kind: BathKind, locale: Locale) -> String {
    match kind {
        BathKind::Scour => say!(locale, "kind of bath" => "scour"),
        BathKind::Mordant => say!(locale, "kind of bath" => "mordant"),
        BathKind::Tannin => say!(locale, "kind of bath" => "tannin"),
        BathKind::Fixing => say!(locale, "kind of bath" => "fixing bath"),
        BathKind::Dye => say!(locale, "kind of bath" => "dye"),
        BathKind::AfterBath => say!(locale, "kind of bath" => "after-bath"),
        BathKind::Vat => say!(locale, "kind of bath" => "vat"),
    }
}

fn icon(recipe: &Recipe, reader: Reader<'_>) -> Icon {
    if !reader.may_begin(recipe) {
        return Icon::Book;
    }
    match recipe.kind {
        BathKind::Scour | BathKind::Mordant | BathKind::Tannin | BathKind::Fixing => Icon::Drop,
        BathKind::Dye | BathKind::AfterBath | BathKind::Vat => Icon::Pot,
    }
}
