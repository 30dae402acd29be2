//! The second page of a new bath: the recipes, those for these goods first.

use std::sync::Arc;

use crate::recipe::model::{BathKind, Dose, MordantNeed, Offered, Recipe};
use crate::view::screen::{ChooseScreen, Icon, Row};

use super::draft::Draft;

/// The page as a screen. Recipes that aren't for the fibre are shown and can't be pressed; those with copper or tin
/// aren't shown until the bench has them on, and those only to be read come after the ones that can be begun.
pub(super) fn screen(recipes: &[Arc<Recipe>], draft: &Draft, note: String) -> ChooseScreen {
    let fits = |recipe: &&Arc<Recipe>| recipe.fibres.contains(&draft.fibre);
    let is_shown = |recipe: &&Arc<Recipe>| match recipe.offered {
        Offered::Freely | Offered::ReferenceOnly => true,
        Offered::WhenAsked => draft.hazardous_metals,
    };
    let (mut yes, no): (Vec<_>, Vec<_>) = recipes.iter().filter(is_shown).partition(fits);
    yes.sort_by_key(|recipe| recipe.offered == Offered::ReferenceOnly);
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
    match recipe.offered {
        Offered::Freely => {}
        Offered::WhenAsked => parts.push("hazardous metal".into()),
        Offered::ReferenceOnly => parts.push("to be read only".into()),
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
