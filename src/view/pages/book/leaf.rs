//! One recipe to read: what it is for, every figure with its source, its cautions, its steps; and the act that takes it.

use crate::craft::cautions::{DEFERRAL, for_substance};
use crate::recipe::model::{Addition, BathKind, Dose, Form, MordantNeed, Offered, Recipe, Ware};
use crate::view::locale::Locale;
use crate::view::pages::findings;
use crate::view::screen::{Block, BlockLook, Icon, LeafScreen, SideAct};

use super::Reader;
use super::figures::{fact, founded};
use super::lists::{fibres, kind_title};
use super::steps::{steps, ware};

/// The recipe as a leaf.
pub(super) fn leaf(recipe: &Recipe, reader: Reader<'_>) -> LeafScreen {
    let mut blocks = Vec::new();
    blocks.extend(standing(recipe, reader));
    blocks.extend(
        reader
            .findings
            .iter()
            .map(|finding| findings::block(finding, reader.locale)),
    );
    blocks.push(words(&recipe.about));
    blocks.push(words(&format!("For {}.", fibres(recipe))));
    blocks.extend(before(recipe).map(|before| plain("goods", before.to_owned())));
    blocks.push(heading("What goes in"));
    blocks.push(fact(
        "bath for each kilogram of goods",
        &recipe.liquor,
        recipe,
        reader.locale,
    ));
    blocks.extend(
        recipe
            .additions
            .iter()
            .map(|one| addition(one, recipe, reader.locale)),
    );
    blocks.push(heading("Cautions"));
    blocks.extend(cautions(recipe).into_iter().map(|line| Block {
        look: BlockLook::Caution,
        label: line,
        ..Block::default()
    }));
    blocks.push(words(DEFERRAL.text));
    blocks.push(heading("Steps"));
    blocks.extend(steps(recipe, reader.locale));
    let goods = if reader.note.is_empty() {
        String::new()
    } else {
        format!(", {}", reader.note)
    };
    LeafScreen {
        title: recipe.name.clone(),
        note: format!("{}{goods}", kind_title(recipe.kind)),
        blocks,
        foot: foot(recipe, reader),
    }
}

/// Why it can't be begun, where it can't.
fn standing(recipe: &Recipe, reader: Reader<'_>) -> Option<Block> {
    let (label, detail) = match recipe.offered {
        _ if !reader.fits(recipe) => (
            "This recipe is for other fibres.",
            "Its figures and its heat are meant for those; take another, or change the goods.",
        ),
        Offered::Freely => return None,
        Offered::WhenAsked if reader.hazardous_metals => (
            "It takes a metal that harms people and water.",
            "Read its cautions; what is left is waste for a collection point, not for the drain.",
        ),
        Offered::WhenAsked => (
            "Off unless asked: it takes a metal that harms people and water.",
            "It is turned on with hazardous_metals = true in bench.toml; without it there are other recipes.",
        ),
        Offered::ReferenceOnly => (
            "Here to be read, not to be begun.",
            "What it takes is too dangerous, or too harsh, for this work.",
        ),
    };
    Some(Block {
        look: BlockLook::Refusal,
        label: label.into(),
        detail: detail.into(),
        ..Block::default()
    })
}

fn foot(recipe: &Recipe, reader: Reader<'_>) -> Vec<SideAct> {
    let takes = reader.fits(recipe) && reader.may_begin(recipe);
    let act = |key: &str, label: &str, icon, enabled, strong| SideAct {
        key: key.into(),
        label: label.into(),
        icon,
        enabled,
        strong,
    };
    if reader.goods.is_none() {
        return vec![
            act("take", "begin a bath with it", Icon::Plus, takes, takes),
            act("rehearse", "rehearse it", Icon::Rehearse, takes, false),
        ];
    }
    if recipe.offered == Offered::ReferenceOnly {
        return vec![act(
            "take",
            "see its sheet",
            Icon::Right,
            reader.fits(recipe),
            false,
        )];
    }
    vec![act("take", "take this recipe", Icon::Right, takes, takes)]
}

/// What must have gone before, of dyes and vats.
const fn before(recipe: &Recipe) -> Option<&'static str> {
    match (recipe.kind, recipe.mordant) {
        (_, MordantNeed::Mordanted) => Some("mordanted before"),
        (BathKind::Dye | BathKind::Vat, MordantNeed::None) => Some("no mordant needed"),
        (_, MordantNeed::None | MordantNeed::NotADye) => None,
    }
}

fn addition(addition: &Addition, recipe: &Recipe, locale: Locale) -> Block {
    let bag = if addition.bagged { ", in a bag" } else { "" };
    let form = match &addition.ware {
        Ware::Substance(_) => "",
        Ware::Dyestuff { form, .. } => match form {
            Form::Fresh => ", fresh",
            Form::Dried => ", dried",
            Form::Ground => ", ground",
            Form::Extract => ", extract",
        },
    };
    let label = format!("{}{form}{bag}", ware(addition.letter, recipe));
    match &addition.dose {
        Dose::Wof(figure) => fact(label, figure, recipe, locale),
        Dose::PerLitre(figure) => fact(label, figure, recipe, locale),
        Dose::Parts { parts, of } => Block {
            look: BlockLook::Fact,
            label,
            value: format!("{} to 1 of {of}", parts.chosen),
            detail: founded(parts, recipe, locale),
            ..Block::default()
        },
    }
}

/// Those of the recipe, then those of its substances, each once.
fn cautions(recipe: &Recipe) -> Vec<String> {
    let mut lines = recipe.cautions.clone();
    for addition in &recipe.additions {
        let Ware::Substance(substance) = addition.ware else {
            continue;
        };
        for caution in for_substance(substance) {
            if !lines.iter().any(|line| line == caution.text) {
                lines.push(caution.text.to_owned());
            }
        }
    }
    lines
}

fn heading(label: &str) -> Block {
    Block {
        look: BlockLook::Heading,
        label: label.into(),
        ..Block::default()
    }
}

fn words(label: &str) -> Block {
    Block {
        look: BlockLook::Words,
        label: label.into(),
        ..Block::default()
    }
}

fn plain(label: &str, value: String) -> Block {
    Block {
        look: BlockLook::Fact,
        label: label.into(),
        value,
        ..Block::default()
    }
}
