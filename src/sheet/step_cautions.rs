//! One line of caution at the step it belongs to, where the recipe has none.

use crate::craft::cautions::{self, Activity, Hands, Marks, hands};
use crate::craft::quantity::Temperature;
use crate::craft::substance::Substance;
use crate::craft::vessel::Lid;
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
pub(super) fn wear(marks: Marks) -> Option<String> {
    let all = [
        (marks.gloves, "gloves"),
        (marks.eyes, "goggles"),
        (marks.mask, "a mask"),
    ];
    let worn: Vec<&str> = all
        .into_iter()
        .filter_map(|(is_worn, what)| is_worn.then_some(what))
        .collect();
    let (last, others) = worn.split_last()?;
    Some(if others.is_empty() {
        (*last).to_owned()
    } else {
        format!("{} and {last}", others.join(", "))
    })
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
            format!("Wear {worn}; wipe up wet, never sweep dry.")
        } else {
            format!("Wear {worn}.")
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
            Some("Fine dust can bring allergy: wear a mask, wet it first.".to_owned())
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
        || "Hot water: pour slowly, face away.".to_owned(),
        |worn| format!("Hot water that splashes: wear {worn}, face away."),
    )
}

fn over_the_bath(at: Temperature) -> Option<String> {
    let celsius = at.celsius();
    match hands(at) {
        Hands::Free => None,
        Hands::GlovesShortly { burn_seconds } => Some(format!(
            "{celsius:.0} C burns deep in {}: lined gloves, and only for a moment.",
            in_words(burn_seconds)
        )),
        Hands::ToolOnly { burn_seconds } => Some(format!(
            "{celsius:.0} C burns deep in about {}: a tool, never hands.",
            in_words(burn_seconds)
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
