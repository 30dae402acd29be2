//! One line of caution at the step it belongs to, where the recipe has none.

use crate::craft::cautions::{self, Activity, Hands, Marks, hands};
use crate::craft::quantity::Temperature;
use crate::craft::substance::Substance;
use crate::craft::vessel::Lid;
use crate::msg;
use crate::recipe::model::{Form, Letter, Recipe, Ware};

use super::plan::{PlannedAddition, StepAct};

/// Where the bath stands when a step begins.
#[derive(Debug, Clone, Copy)]
pub(super) struct Here<'a> {
    pub(super) at: Temperature,
    pub(super) lid: Lid,
    pub(super) additions: &'a [PlannedAddition],
    pub(super) recipe: &'a Recipe,
    /// No raise has come yet.
    pub(super) first_heat: bool,
}

/// The line for a step, if it has one.
pub(super) fn caution_at(act: &StepAct, here: &Here<'_>) -> Option<String> {
    match act {
        StepAct::Weigh { letter } => at_weighing(*letter, here),
        StepAct::Dissolve { letters, .. } => Some(at_dissolving(letters, here)),
        StepAct::Strain { .. } | StepAct::Enter { .. } | StepAct::Dip { .. } | StepAct::Lift => {
            over_the_bath(here.at)
        }
        StepAct::Raise { .. } => here
            .first_heat
            .then(|| first_of(Activity::UnattendedHeat))
            .flatten(),
        StepAct::Hold { .. } => match here.lid {
            Lid::Off => None,
            Lid::Loose | Lid::Tight => first_of(Activity::Steam),
        },
        StepAct::WetOut { .. }
        | StepAct::Fill { .. }
        | StepAct::Add { .. }
        | StepAct::Cool { .. }
        | StepAct::Squeeze
        | StepAct::Look { .. }
        | StepAct::Rinse { .. }
        | StepAct::Air { .. }
        | StepAct::Rest { .. }
        | StepAct::Dry
        | StepAct::Shelve => None,
    }
}

/// What to wear, in words: `gloves, goggles and a mask`; `None` when nothing.
pub(super) const fn wear(marks: Marks) -> Option<&'static str> {
    match (marks.gloves, marks.eyes, marks.mask) {
        (true, true, true) => Some(msg!("gloves, goggles and a mask")),
        (true, true, false) => Some(msg!("gloves and goggles")),
        (true, false, true) => Some(msg!("gloves and a mask")),
        (true, false, false) => Some(msg!("gloves")),
        (false, true, true) => Some(msg!("goggles and a mask")),
        (false, true, false) => Some(msg!("goggles")),
        (false, false, true) => Some(msg!("a mask")),
        (false, false, false) => None,
    }
}

/// Gloves, goggles and mask for one thing that is weighed; a salt known by its label alone gets all of them.
pub(super) fn marks_of(addition: &PlannedAddition) -> Marks {
    match Substance::from_id(&addition.ware_id) {
        Some(substance) => cautions::marks(substance),
        None => {
            let is_labelled = addition.ware_id == super::weighing::LABELLED_SALT_ID;
            Marks {
                gloves: is_labelled,
                eyes: is_labelled,
                mask: is_labelled,
            }
        }
    }
}

fn at_weighing(letter: Letter, here: &Here<'_>) -> Option<String> {
    let addition = here.additions.iter().find(|addition| addition.letter == letter)?;
    let marks = marks_of(addition);
    if let Some(worn) = wear(marks) {
        return Some(if marks.mask {
            msg!("Wear {worn}; wipe up wet, never sweep dry.", worn = worn)
        } else {
            msg!("Wear {worn}.", worn = worn)
        });
    }
    let form = here
        .recipe
        .addition(letter)
        .and_then(|addition| match addition.ware {
            Ware::Dyestuff { form, .. } => Some(form),
            Ware::Substance(_) => None,
        })?;
    match form {
        Form::Ground | Form::Extract => {
            Some(msg!("Fine dust can bring allergy: wear a mask, wet it first.").to_owned())
        }
        Form::Fresh | Form::Dried => None,
    }
}

fn at_dissolving(letters: &[Letter], here: &Here<'_>) -> String {
    let together = here
        .additions
        .iter()
        .filter(|addition| letters.contains(&addition.letter))
        .map(marks_of)
        .fold(
            Marks {
                gloves: false,
                eyes: false,
                mask: false,
            },
            |one, other| Marks {
                gloves: one.gloves || other.gloves,
                eyes: one.eyes || other.eyes,
                mask: false,
            },
        );
    wear(together).map_or_else(
        || msg!("Hot water: pour slowly, face away.").to_owned(),
        |worn| msg!("Hot water that splashes: wear {worn}, face away.", worn = worn),
    )
}

fn over_the_bath(at: Temperature) -> Option<String> {
    match hands(at) {
        Hands::Free => None,
        Hands::GlovesShortly { burn_seconds } => Some(msg!(
            "{heat:.0} C burns deep in {span}: lined gloves, and only for a moment.",
            heat = at.celsius(),
            span = in_words(burn_seconds)
        )),
        Hands::ToolOnly { burn_seconds } => Some(msg!(
            "{heat:.0} C burns deep in about {span}: a tool, never hands.",
            heat = at.celsius(),
            span = in_words(burn_seconds)
        )),
    }
}

fn in_words(seconds: u32) -> String {
    let minutes = seconds.checked_div(60).unwrap_or(0);
    let hours = minutes.checked_div(60).unwrap_or(0);
    match (hours, minutes) {
        (0, 0 | 1) => format!("{seconds} s"),
        (0, minutes) => format!("{minutes} min"),
        (hours, _) => format!("{hours} h"),
    }
}

fn first_of(activity: Activity) -> Option<String> {
    cautions::for_activity(activity)
        .first()
        .map(|caution| caution.text.to_owned())
}
