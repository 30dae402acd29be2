//! The second page of a new bath: the recipes, those for these goods first.

use std::sync::Arc;

use crate::craft::fibre::Fibre;
use crate::recipe::model::{BathKind, Dose, MordantNeed, Recipe};
use crate::view::screen::{ChooseScreen, Icon, Row};

/// The page as a screen. Recipes that aren't for the fibre are shown and can't be pressed.
pub(super) fn screen(recipes: &[Arc<Recipe>], fibre: Fibre, note: String) -> ChooseScreen {
    let fits = |recipe: &&Arc<Recipe>| recipe.fibres.contains(&fibre);
    let (yes, no): (Vec<_>, Vec<_>) = recipes.iter().partition(fits);
    let rows = yes
        .into_iter()
        .map(|recipe| row(recipe, true))
        .chain(no.into_iter().map(|recipe| row(recipe, false)));
    ChooseScreen {
        title: "Recipe".into(),
        note,
        columns: 1,
        tiles: false,
        empty: "no recipe fits these goods".into(),
        rows: rows.collect(),
        foot: Vec::new(),
    }
}

fn row(recipe: &Recipe, fits: bool) -> Row {
    Row {
        key: recipe.id.clone(),
        label: recipe.name.clone(),
        detail: if fits {
            detail(recipe)
        } else {
            "for other fibres".into()
        },
        value: String::new(),
        icon: icon(recipe.kind),
        chosen: false,
        enabled: fits,
    }
}

fn detail(recipe: &Recipe) -> String {
    let doses: Vec<String> = recipe
        .additions
        .iter()
        .filter_map(|addition| match &addition.dose {
            Dose::Wof(figure) => Some(format!("{} %", figure.chosen.percent())),
            Dose::PerLitre(figure) => Some(format!("{} g/L", figure.chosen.grams_per_litre())),
            Dose::Parts { .. } => None,
        })
        .collect();
    let mut parts = vec![kind_words(recipe.kind).to_owned()];
    if !doses.is_empty() {
        parts.push(doses.join(" + "));
    }
    if recipe.kind == BathKind::Dye && recipe.mordant == MordantNeed::None {
        parts.push("no mordant needed".into());
    }
    parts.join(", ")
}

const fn kind_words(kind: BathKind) -> &'static str {
    match kind {
        BathKind::Scour => "scour",
        BathKind::Mordant => "mordant",
        BathKind::Tannin => "tannin",
        BathKind::Fixing => "fixing bath",
        BathKind::Dye => "dye",
        BathKind::AfterBath => "after-bath",
        BathKind::Vat => "vat",
    }
}

const fn icon(kind: BathKind) -> Icon {
    match kind {
        BathKind::Scour | BathKind::Mordant | BathKind::Tannin | BathKind::Fixing => Icon::Drop,
        BathKind::Dye | BathKind::AfterBath | BathKind::Vat => Icon::Pot,
    }
}
