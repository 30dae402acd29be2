//! The steps of a recipe as blocks: what is done, how, with its figures and its caution.

use crate::recipe::model::{Act, Letter, Recipe, RecipeStep, Ware};
use crate::say;
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
        label: what(&step.act, recipe, locale),
        detail: step
            .how
            .as_deref()
            .map_or_else(String::new, |how| locale.read(how)),
        ..Block::default()
    }];
    blocks.extend(step.caution.iter().map(|caution| Block {
        look: BlockLook::Caution,
        label: locale.read(caution),
        ..Block::default()
    }));
    blocks.extend(figures(&step.act, recipe, locale));
    blocks
}

fn what(act: &Act, recipe: &Recipe, locale: Locale) -> String {
    let wares = |letters: &[Letter]| -> String {
        let names: Vec<String> = letters
            .iter()
            .map(|letter| ware(*letter, recipe, locale))
            .collect();
        names.join(", ")
    };
    match act {
        Act::WetOut { .. } => say!(locale, "step" => "Wet out"),
        Act::Fill => say!(locale, "step" => "Fill"),
        Act::Dissolve { letters } => say!(locale, "Dissolve {wares}", wares = wares(letters)),
        Act::Add { letters } => say!(locale, "Add {wares}", wares = wares(letters)),
        Act::Strain { letters } => say!(locale, "Strain {wares}", wares = wares(letters)),
        Act::Enter { .. } => say!(locale, "step" => "Enter"),
        Act::Raise { .. } => say!(locale, "step" => "Raise"),
        Act::Hold { .. } => say!(locale, "step" => "Hold"),
        Act::Cool { lid_on: true, .. } => say!(locale, "step" => "Cool, lid on"),
        Act::Cool { lid_on: false, .. } => say!(locale, "step" => "Cool, lid off"),
        Act::Lift => say!(locale, "step" => "Lift"),
        Act::Look { sign, .. } => say!(locale, "Look: {sign}", sign = locale.read(sign)),
        Act::Dip { times: 1, .. } => say!(locale, "step" => "Dip once"),
        Act::Dip { times, .. } => say!(locale, "Dip {times} times", times = times),
        Act::Squeeze => say!(locale, "step" => "Squeeze"),
        Act::Rinse {
            times: 1,
            until_clear: false,
        } => say!(locale, "Rinse once"),
        Act::Rinse {
            times: 1,
            until_clear: true,
        } => say!(locale, "Rinse once, until clear"),
        Act::Rinse {
            times,
            until_clear: false,
        } => say!(locale, "Rinse {times} times", times = times),
        Act::Rinse {
            times,
            until_clear: true,
        } => say!(locale, "Rinse {times} times, until clear", times = times),
        Act::Air { .. } => say!(locale, "step" => "Air"),
        Act::Rest { .. } => say!(locale, "step" => "Rest"),
        Act::Dry => say!(locale, "step" => "Dry"),
        Act::Shelve => say!(locale, "step" => "Shelve"),
    }
}

/// `A alum`.
pub(super) fn ware(letter: Letter, recipe: &Recipe, locale: Locale) -> String {
    let addition = recipe.additions.iter().find(|addition| addition.letter == letter);
    let name = addition.map_or("", |addition| match &addition.ware {
        Ware::Substance(substance) => substance.name(),
        Ware::Dyestuff { name, .. } => name.as_str(),
    });
    format!("{letter} {}", locale.read(name))
}

fn figures(act: &Act, recipe: &Recipe, locale: Locale) -> Vec<Block> {
    match act {
        Act::WetOut { least } => vec![fact(say!(locale, "soak at least"), least, recipe, locale)],
        Act::Enter { at_most } => vec![fact(say!(locale, "bath at most"), at_most, recipe, locale)],
        Act::Raise { to, ramp } => {
            let ramp = ramp
                .as_ref()
                .map(|ramp| fact(say!(locale, "no faster than"), ramp, recipe, locale));
            std::iter::once(fact(say!(locale, "heat" => "to"), to, recipe, locale))
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
                .map(|turn| fact(say!(locale, "turn every"), turn, recipe, locale));
            [
                fact(say!(locale, "span" => "for"), span, recipe, locale),
                fact(say!(locale, "counts from"), floor, recipe, locale),
                fact(say!(locale, "not above"), ceiling, recipe, locale),
            ]
            .into_iter()
            .chain(turn)
            .collect()
        }
        Act::Cool { to, .. } => vec![fact(say!(locale, "heat" => "to"), to, recipe, locale)],
        Act::Look { after, again, .. } => vec![
            fact(say!(locale, "first after"), after, recipe, locale),
            fact(say!(locale, "then again after"), again, recipe, locale),
        ],
        Act::Dip {
            at_most, under, air, ..
        } => vec![
            fact(say!(locale, "bath at most"), at_most, recipe, locale),
            fact(say!(locale, "under for"), under, recipe, locale),
            fact(say!(locale, "in the air for"), air, recipe, locale),
        ],
        Act::Air { span } | Act::Rest { span } => {
            vec![fact(say!(locale, "span" => "for"), span, recipe, locale)]
        }
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
