//! The lists of the book: kinds, dyestuffs, letters, recipes. What fits the goods in hand comes first; what doesn't
//! stands below and can't be pressed.

use std::collections::BTreeMap;
use std::sync::Arc;

use crate::recipe::model::{BathKind, Dose, MordantNeed, Offered, Recipe};
use crate::view::screen::{ChooseScreen, Icon, Row};

use super::{Reader, dyestuff_of, initial};

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
            (all > 0).then(|| tile(kind.id(), kind_title(kind), fit, all, reader))
        })
        .collect();
    rows.push(Row {
        key: LETTERS.into(),
        label: "A to Z".into(),
        detail: "by first letter".into(),
        enabled: !reader.recipes.is_empty(),
        ..Row::default()
    });
    list(reader, "Recipes", 3, rows)
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
            let name = if name.is_empty() { "other dyes" } else { name };
            tile(id, &capital(name), fit, all, reader)
        })
        .collect();
    rows.sort_by(|one, other| (!one.enabled, &one.label).cmp(&(!other.enabled, &other.label)));
    list(reader, kind_title(BathKind::Dye), 3, rows)
}

/// The dyes of a dyestuff.
pub(super) fn of_dyestuff(reader: Reader<'_>, id: &str) -> ChooseScreen {
    let of_it = |recipe: &Recipe| recipe.kind == BathKind::Dye && dyestuff_of(recipe).0 == id;
    let name = reader
        .recipes
        .iter()
        .find(|recipe| of_it(recipe))
        .map_or("", |recipe| dyestuff_of(recipe).1);
    let title = if name.is_empty() { "other dyes" } else { name };
    recipes(reader, &capital(title), of_it)
}

/// The letters that names begin with; no other letter stands there.
pub(super) fn letters(reader: Reader<'_>) -> ChooseScreen {
    let mut letters: BTreeMap<char, (usize, usize)> = BTreeMap::new();
    for recipe in reader.recipes {
        if let Some(letter) = initial(recipe) {
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
    list(reader, "By first letter", 5, rows.collect())
}

/// Recipes as rows: those for the goods, those only to be read, those for other goods; each by name.
pub(super) fn recipes(reader: Reader<'_>, title: &str, of: impl Fn(&Recipe) -> bool) -> ChooseScreen {
    let mut found: Vec<&Arc<Recipe>> = reader.recipes.iter().filter(|recipe| of(recipe)).collect();
    found.sort_by_key(|recipe| {
        (
            !reader.fits(recipe),
            !reader.may_begin(recipe),
            recipe.name.clone(),
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
        empty: "no recipe is here yet".into(),
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
        (Some(_), 0, _) => "not for these".to_owned(),
        (Some(_), fit, all) if fit < all => format!("{fit} of {all} fit"),
        (_, _, 1) => "1 recipe".to_owned(),
        (_, _, all) => format!("{all} recipes"),
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
        format!("for {}", fibres(recipe))
    };
    Row {
        key: recipe.id.clone(),
        label: recipe.name.clone(),
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
            Dose::Wof(figure) => Some(format!("{} %", figure.chosen.percent())),
            Dose::PerLitre(figure) => Some(format!("{} g/L", figure.chosen.grams_per_litre())),
            Dose::Parts { .. } => None,
        })
        .collect();
    let mut parts = Vec::new();
    match recipe.offered {
        Offered::Freely => {}
        Offered::WhenAsked if reader.may_begin(recipe) => parts.push("hazardous metal".to_owned()),
        Offered::WhenAsked => parts.push("off unless asked: hazardous metal".to_owned()),
        Offered::ReferenceOnly => parts.push("to be read only".to_owned()),
    }
    if !doses.is_empty() {
        parts.push(doses.join(" + "));
    }
    if recipe.kind == BathKind::Dye && recipe.mordant == MordantNeed::None {
        parts.push("no mordant needed".to_owned());
    }
    if reader.goods.is_none() {
        parts.push(format!("for {}", fibres(recipe)));
    }
    if parts.is_empty() {
        parts.push(kind_title(recipe.kind).to_lowercase());
    }
    parts.join(", ")
}

/// The fibres of a recipe in one line.
pub(super) fn fibres(recipe: &Recipe) -> String {
    let names: Vec<&str> = recipe.fibres.iter().map(|fibre| fibre.name()).collect();
    names.join(", ")
}

/// A kind of bath as a heading.
pub(super) const fn kind_title(kind: BathKind) -> &'static str {
    match kind {
        BathKind::Scour => "Scour",
        BathKind::Mordant => "Mordant",
        BathKind::Tannin => "Tannin",
        BathKind::Fixing => "Fixing bath",
        BathKind::Dye => "Dye",
        BathKind::AfterBath => "After-bath",
        BathKind::Vat => "Vat",
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

/// With its first letter upper case.
pub(in crate::view::pages) fn capital(name: &str) -> String {
    let mut letters = name.chars();
    letters
        .next()
        .map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
