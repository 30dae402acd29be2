//! The steps of a recipe as blocks: what is done, how, with its figures and its caution.

use crate::recipe::model::{Act, Letter, Recipe, RecipeStep, Ware};
use crate::view::locale::Locale;
use crate::view::screen::{Block, BlockLook};

use super::figures::fact;

/// All steps, in order.
pub(super) fn steps(recipe: &Recipe, locale: Locale) -> Vec<Block> {
    let numbered = recipe.steps.iter().zip(1_usize..);
    numbered
        .flat_map(|(step, number)| of_step(step, number, recipe, locale))
        .collect()
}

fn of_step(step: &RecipeStep, number: usize, recipe: &Recipe, locale: Locale) -> Vec<Block> {
    let mut blocks = vec![Block {
        look: BlockLook::Step,
        value: format!("{number}."),
        label: what(&step.act, recipe),
        detail: step.how.clone().unwrap_or_default(),
        ..Block::default()
    }];
    blocks.extend(step.caution.iter().map(|caution| Block {
        look: BlockLook::Caution,
        label: caution.clone(),
        ..Block::default()
    }));
    blocks.extend(figures(&step.act, recipe, locale));
    blocks
}

fn what(act: &Act, recipe: &Recipe) -> String {
    let wares = |letters: &[Letter]| -> String {
        let names: Vec<String> = letters.iter().map(|letter| ware(*letter, recipe)).collect();
        names.join(", ")
    };
    match act {
        Act::WetOut { .. } => "Wet out".into(),
        Act::Fill => "Fill".into(),
        Act::Dissolve { letters } => format!("Dissolve {}", wares(letters)),
        Act::Add { letters } => format!("Add {}", wares(letters)),
        Act::Strain { letters } => format!("Strain {}", wares(letters)),
        Act::Enter { .. } => "Enter".into(),
        Act::Raise { .. } => "Raise".into(),
        Act::Hold { .. } => "Hold".into(),
        Act::Cool { lid_on: true, .. } => "Cool, lid on".into(),
        Act::Cool { lid_on: false, .. } => "Cool, lid off".into(),
        Act::Lift => "Lift".into(),
        Act::Look { sign, .. } => format!("Look: {sign}"),
        Act::Dip { times: 1, .. } => "Dip once".into(),
        Act::Dip { times, .. } => format!("Dip {times} times"),
        Act::Squeeze => "Squeeze".into(),
        Act::Rinse { times, until_clear } => {
            let times = match times {
                1 => "once".to_owned(),
                times => format!("{times} times"),
            };
            let clear = if *until_clear { ", until clear" } else { "" };
            format!("Rinse {times}{clear}")
        }
        Act::Air { .. } => "Air".into(),
        Act::Rest { .. } => "Rest".into(),
        Act::Dry => "Dry".into(),
        Act::Shelve => "Shelve".into(),
    }
}

/// `A alum`.
pub(super) fn ware(letter: Letter, recipe: &Recipe) -> String {
    let addition = recipe.additions.iter().find(|addition| addition.letter == letter);
    let name = addition.map_or("", |addition| match &addition.ware {
        Ware::Substance(substance) => substance.name(),
        Ware::Dyestuff { name, .. } => name.as_str(),
    });
    format!("{letter} {name}")
}

fn figures(act: &Act, recipe: &Recipe, locale: Locale) -> Vec<Block> {
    match act {
        Act::WetOut { least } => vec![fact("soak at least", least, recipe, locale)],
        Act::Enter { at_most } => vec![fact("bath at most", at_most, recipe, locale)],
        Act::Raise { to, ramp } => {
            let ramp = ramp
                .as_ref()
                .map(|ramp| fact("no faster than", ramp, recipe, locale));
            std::iter::once(fact("to", to, recipe, locale))
                .chain(ramp)
                .collect()
        }
        Act::Hold {
            span,
            floor,
            ceiling,
            turn_every,
        } => {
            let turn = turn_every
                .as_ref()
                .map(|turn| fact("turn every", turn, recipe, locale));
            [
                fact("for", span, recipe, locale),
                fact("counts from", floor, recipe, locale),
                fact("not above", ceiling, recipe, locale),
            ]
            .into_iter()
            .chain(turn)
            .collect()
        }
        Act::Cool { to, .. } => vec![fact("to", to, recipe, locale)],
        Act::Look { after, again, .. } => vec![
            fact("first after", after, recipe, locale),
            fact("then again after", again, recipe, locale),
        ],
        Act::Dip {
            at_most, under, air, ..
        } => vec![
            fact("bath at most", at_most, recipe, locale),
            fact("under for", under, recipe, locale),
            fact("in the air for", air, recipe, locale),
        ],
        Act::Air { span } | Act::Rest { span } => vec![fact("for", span, recipe, locale)],
        Act::Fill
        | Act::Dissolve { .. }
        | Act::Add { .. }
        | Act::Strain { .. }
        | Act::Lift
        | Act::Squeeze
        | Act::Rinse { .. }
        | Act::Dry
        | Act::Shelve => Vec::new(),
    }
}
