//! A used bath that stands in the pot and is worked once more: what is topped up, what is added again, what is left out.

use crate::craft::exhaust::{self, Recharge};
use crate::craft::quantity::{Mass, Temperature, Volume};
use crate::msg;
use crate::recipe::model::{Act, Letter, Recipe, RecipeStep, Ware};

use super::next_bath::{has_custom, parent_kind};
use super::notes::Notes;
use super::plan::{Goods, PlannedAddition};
use super::verdict::{PartChoice, SheetRefusal, SheetWarning};
use super::wishes::Wishes;
use super::working::Measured;

/// The bath whose liquor is used again, as its record has it.
#[derive(Debug, Clone, PartialEq)]
pub struct UsedBath {
    /// Id of its record.
    pub record: String,
    /// Id of its recipe; the next bath is of the same.
    pub recipe_id: String,
    /// Which use of the liquor it was; a fresh bath is the first.
    pub dip: u32,
    /// Dry weight of its goods.
    pub goods: Mass,
    /// What it left in the pot: what was filled, since wet goods take about as much away as they brought.
    pub left: Volume,
    /// The part of the first dose that is added again, 0 to 1; `None` takes the custom, where there is one only.
    pub part: Option<f64>,
}

/// The part of the first dose that goes in again. Where customs contradict, or leave a range, the dyer says which.
pub(super) fn part(recipe: &Recipe, wishes: &Wishes, notes: &mut Notes) -> Option<f64> {
    let used = wishes.used.as_ref()?;
    if used.recipe_id != recipe.id {
        notes.refuse(SheetRefusal::OtherBath {
            recipe: recipe.id.clone(),
            parent: used.recipe_id.clone(),
        });
        return None;
    }
    let weighed = recipe
        .additions
        .iter()
        .filter_map(|addition| match &addition.ware {
            Ware::Substance(substance) => Some(*substance),
            Ware::Dyestuff { .. } => None,
        });
    let Some(kind) = parent_kind(recipe.kind).filter(|_| has_custom(recipe.kind, weighed)) else {
        notes.refuse(SheetRefusal::NotUsedAgain { kind: recipe.kind });
        return None;
    };
    let customs = exhaust::recharges(kind);
    match (used.part, customs) {
        (Some(part), _) if (0.0..=1.0).contains(&part) => Some(part),
        (Some(part), _) => {
            notes.refuse(SheetRefusal::NotAPart { part });
            None
        }
        (None, [one]) if one.least >= one.most => Some(one.most),
        (None, _) => {
            notes.refuse(SheetRefusal::WhichPart {
                choices: choices(customs),
            });
            None
        }
    }
}

/// The parts that customs name, each with its reason.
fn choices(customs: &[Recharge]) -> Vec<PartChoice> {
    let mut choices: Vec<PartChoice> = Vec::new();
    for custom in customs {
        for part in [custom.least, custom.most] {
            if !choices.iter().any(|choice| choice.part.total_cmp(&part).is_eq()) {
                choices.push(PartChoice {
                    part,
                    about: custom.about,
                });
            }
        }
    }
    choices
}

/// What of a first dose goes in again, with its working.
pub(super) fn dose_again(
    wishes: &Wishes,
    part: Option<f64>,
    goods: &Goods,
    (letter, first): (Letter, Mass),
    notes: &mut Notes,
) -> Mass {
    let (Some(used), Some(part)) = (wishes.used.as_ref(), part) else {
        return first;
    };
    if goods.dry.grams() <= 0.0 {
        return first;
    }
    let parents = Mass::saturating_grams(first.grams() * used.goods.grams() / goods.dry.grams());
    match exhaust::next_dose(used.dip, parents, used.goods, goods.dry, part) {
        Ok(next) => {
            notes.working(
                &msg!("{letter} again", letter = letter.0),
                vec![
                    (
                        msg!("first dose on these goods").into(),
                        Measured::new(first.grams(), "g"),
                    ),
                    (
                        msg!("goods of the used bath").into(),
                        Measured::new(used.goods.grams(), "g"),
                    ),
                    (msg!("part that goes in again").into(), Measured::new(part, "")),
                ],
                msg!(
                    "the part of the first dose, and the whole dose on what outweighs the used bath's goods"
                ),
                Measured::new(next.add.grams(), "g"),
                msg!("the dyer's choice among the customs; none is measured"),
            );
            next.add
        }
        Err(fault) => {
            notes.refuse(SheetRefusal::ParentBath { fault });
            first
        }
    }
}

/// The steps of a recipe that a used bath still needs: nothing is dissolved, added or strained that isn't weighed, and
/// no colour is drawn out where none goes in.
pub(super) fn steps_again(recipe: &Recipe, additions: &[PlannedAddition]) -> Vec<RecipeStep> {
    let goes_in = |letter: &Letter| additions.iter().any(|addition| addition.letter == *letter);
    let enter = recipe
        .steps
        .iter()
        .position(|step| matches!(step.act, Act::Enter { .. }));
    let mut steps = Vec::new();
    for (index, step) in recipe.steps.iter().enumerate() {
        let before_goods = enter.is_some_and(|enter| index < enter);
        let still = |letters: &[Letter]| -> Vec<Letter> { letters.iter().copied().filter(goes_in).collect() };
        let mut step = step.clone();
        let kept = match &mut step.act {
            Act::Dissolve { letters } | Act::Add { letters } | Act::Strain { letters } => {
                *letters = still(letters);
                !letters.is_empty()
            }
            Act::Raise { .. } | Act::Hold { .. } | Act::Cool { .. } | Act::Rest { .. } | Act::Look { .. } => {
                !(before_goods && additions.is_empty())
            }
            Act::Fill => {
                step.how = Some(msg!("Top the used bath up to the line with water.").to_owned());
                true
            }
            Act::WetOut { .. }
            | Act::Enter { .. }
            | Act::Dip { .. }
            | Act::Lift
            | Act::Squeeze
            | Act::Rinse { .. }
            | Act::Air { .. }
            | Act::Dry
            | Act::Shelve => true,
        };
        if kept {
            steps.push(step);
        }
    }
    steps
}

/// Water that a used bath still lacks, and how warm the mixture is: the liquor stands at the room's temperature.
#[derive(Debug, Clone, Copy)]
pub(super) struct ToppedUp {
    pub(super) water: Volume,
    pub(super) mixed: Temperature,
}

/// What to pour on a used bath so that `fill` litres stand in the pot.
pub(super) fn top_up(wishes: &Wishes, fill: Volume, notes: &mut Notes) -> Option<ToppedUp> {
    let used = wishes.used.as_ref()?;
    let water = Volume::saturating_litres((fill.litres() - used.left.litres()).max(0.0));
    let (tap, room) = (wishes.stove.tap, wishes.stove.room);
    let whole = fill.litres().max(1e-9);
    let fresh = (water.litres() / whole).clamp(0.0, 1.0);
    notes.working(
        msg!("water to top up the used bath"),
        vec![
            (msg!("water to fill").into(), Measured::new(fill.litres(), "L")),
            (
                msg!("left by the bath before").into(),
                Measured::new(used.left.litres(), "L"),
            ),
        ],
        msg!("what is missing to the line; what steamed away comes on top, so the line decides"),
        Measured::new(water.litres(), "L"),
        msg!("arithmetic"),
    );
    notes.warn(SheetWarning::UsedBath {
        record: used.record.clone(),
        dip: used.dip.saturating_add(1),
    });
    Some(ToppedUp {
        water,
        mixed: Temperature::saturating_celsius(fresh * tap.celsius() + (1.0 - fresh) * room.celsius()),
    })
}
