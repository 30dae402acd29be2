//! The cautions of a bath: by what goes in, by what is done, by the recipe's own words, and the deferral.

use crate::craft::cautions::{self, Activity};
use crate::recipe::model::{Act, Recipe, Ware};

/// Every caution once, the gravest first, the deferral last.
pub(super) fn of_bath(recipe: &Recipe) -> Vec<String> {
    let mut said: Vec<String> = recipe.cautions.clone();
    let mut say = |line: &str| {
        if !said.iter().any(|there| there == line) {
            said.push(line.to_owned());
        }
    };
    for addition in &recipe.additions {
        match &addition.ware {
            Ware::Substance(substance) => {
                for caution in cautions::for_substance(*substance) {
                    say(caution.text);
                }
            }
            Ware::Dyestuff { .. } => {
                for caution in cautions::for_activity(Activity::Dyestuffs) {
                    say(caution.text);
                }
            }
        }
    }
    for activity in activities(recipe) {
        for caution in cautions::for_activity(activity) {
            say(caution.text);
        }
    }
    say(cautions::DEFERRAL.text);
    said
}

fn activities(recipe: &Recipe) -> Vec<Activity> {
    let has = |which: fn(&Act) -> bool| recipe.steps.iter().any(|step| which(&step.act));
    let mut activities = vec![Activity::FoodSeparation];
    if !recipe.additions.is_empty() {
        activities.push(Activity::Dust);
    }
    if has(|act| matches!(act, Act::Raise { .. })) {
        activities.extend([
            Activity::HotLiquor,
            Activity::Steam,
            Activity::UnattendedHeat,
            Activity::Ventilation,
        ]);
    }
    if has(|act| matches!(act, Act::Lift)) {
        activities.push(Activity::LiftingHot);
    }
    activities.extend([Activity::ChildrenAndAnimals, Activity::Disposal]);
    activities
}
