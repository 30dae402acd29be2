//! The cautions of a bath, short enough for a screen: what is in this bath first, then what is done, the deferral last.
//!
//! Each subject is spoken of once. What belongs to one step stands there as well (`step_cautions`).

use crate::craft::acidity::Acidity;
use crate::craft::cautions::{self, Activity, Caution};
use crate::craft::dyestuff_cautions;
use crate::craft::fibre::Fibre;
use crate::craft::substance::Substance;
use crate::msg;
use crate::recipe::model::{Act, Form, Recipe, Ware};

use super::additions::substances;
use super::plan::{Goods, PlannedAddition};
use super::step_cautions::{marks_of, wear};

/// The cautions of one bath in their groups, the gravest first in each.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Cautions {
    /// What to wear for what, in one line; `None` when nothing asks for it.
    pub wear: Option<String>,
    /// Of the substances and the recipe of this bath.
    pub of_this_bath: Vec<String>,
    /// Of what is done.
    pub at_work: Vec<String>,
    /// Who comes before all of these.
    pub deferral: String,
}

impl Cautions {
    /// All of them in one list, as the plan keeps it.
    #[must_use]
    pub fn lines(&self) -> Vec<String> {
        self.wear
            .iter()
            .chain(&self.of_this_bath)
            .chain(&self.at_work)
            .chain([&self.deferral])
            .cloned()
            .collect()
    }
}

/// The cautions of a bath.
pub(super) fn of_bath(
    recipe: &Recipe,
    goods: &Goods,
    additions: &[PlannedAddition],
    acidity: Option<&Acidity>,
) -> Cautions {
    let mut said = Said::default();
    let mut of_this_bath: Vec<String> = Vec::new();
    for substance in gravest_first(additions) {
        for caution in cautions::for_substance(substance) {
            of_this_bath.extend(said.once(caution.text));
        }
    }
    for caution in of_dyestuffs(recipe) {
        of_this_bath.extend(said.once(caution.text));
    }
    let at_work_lines: Vec<&Caution> = activities(recipe, additions, acidity)
        .into_iter()
        .flat_map(|(activity, which)| lines_of(activity, which))
        .collect();
    // Activities have the word on their subjects; a recipe's line on one of them would say it again.
    let subjects: Vec<Subject> = at_work_lines
        .iter()
        .filter_map(|caution| subject_of(caution.text))
        .collect();
    for line in &recipe.cautions {
        let is_told = subject_of(line).is_some_and(|subject| subjects.contains(&subject));
        if !is_told && is_for(line, goods.fibre) {
            of_this_bath.extend(said.once(line));
        }
    }
    let at_work = at_work_lines
        .iter()
        .filter_map(|caution| said.once(caution.text))
        .collect();
    Cautions {
        wear: worn(additions),
        of_this_bath,
        at_work,
        deferral: cautions::DEFERRAL.text.to_owned(),
    }
}

/// What the dyestuffs of a recipe can do, and the dust of those that are ground or dried from an extract.
fn of_dyestuffs(recipe: &Recipe) -> Vec<&'static Caution> {
    let mut lines = Vec::new();
    for addition in &recipe.additions {
        if let Ware::Dyestuff { id, form, .. } = &addition.ware {
            lines.extend(dyestuff_cautions::for_dyestuff(id));
            let is_dusty = match form {
                Form::Ground | Form::Extract => true,
                Form::Fresh | Form::Dried => false,
            };
            let own = dyestuff_cautions::for_dyestuff(id);
            let is_said = own
                .iter()
                .any(|line| ["dust", "powder"].iter().any(|word| line.text.contains(word)));
            if is_dusty && !is_said {
                lines.push(&dyestuff_cautions::GROUND);
            }
        }
    }
    lines
}

/// Lines and subjects that have had their word.
#[derive(Default)]
struct Said {
    lines: Vec<String>,
}

impl Said {
    fn once(&mut self, line: &str) -> Option<String> {
        if self.lines.iter().any(|there| there == line) {
            return None;
        }
        self.lines.push(line.to_owned());
        Some(line.to_owned())
    }
}

/// What an activity's line and a recipe's line may both be about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Subject {
    Food,
    Drain,
    Air,
    Dust,
}

/// By the words a line can't do without.
fn subject_of(line: &str) -> Option<Subject> {
    const WORDS: [(Subject, &[&str]); 4] = [
        (Subject::Food, &["back to food", "go back to food"]),
        (Subject::Drain, &["drain", "local rules allow"]),
        (Subject::Air, &["window", "keep air moving", "ventilat"]),
        (Subject::Dust, &["dust"]),
    ];
    let line = line.to_lowercase();
    WORDS
        .into_iter()
        .find(|(_, words)| words.iter().any(|word| line.contains(word)))
        .map(|(subject, _)| subject)
}

/// A line that opens with the name of a special fibre is for that fibre; all others are for everyone.
fn is_for(line: &str, fibre: Fibre) -> bool {
    let line = line.to_lowercase();
    [
        Fibre::SuperwashWool,
        Fibre::Alpaca,
        Fibre::Mohair,
        Fibre::RawSilk,
        Fibre::Silk,
    ]
    .into_iter()
    .find(|special| line.starts_with(special.name()))
    .is_none_or(|special| special == fibre)
}

/// Substances by what they ask one to wear, goggles before gloves before a mask.
fn gravest_first(additions: &[PlannedAddition]) -> Vec<Substance> {
    let mut all: Vec<Substance> = substances(additions).map(|(substance, _)| substance).collect();
    all.sort_by_key(|substance| {
        let marks = cautions::marks(*substance);
        (!marks.eyes, !marks.gloves, !marks.mask)
    });
    all
}

/// `Wear gloves and a mask for alum (potash); a mask for cream of tartar.`
fn worn(additions: &[PlannedAddition]) -> Option<String> {
    let mut outfits: Vec<(&str, Vec<&str>)> = Vec::new();
    for addition in additions {
        let Some(outfit) = wear(marks_of(addition)) else {
            continue;
        };
        match outfits.iter_mut().find(|(known, _)| *known == outfit) {
            Some((_, names)) => names.push(&addition.name),
            None => outfits.push((outfit, vec![&addition.name])),
        }
    }
    outfits.sort_by_key(|(outfit, _)| std::cmp::Reverse(outfit.len()));
    let told: Vec<String> = outfits
        .into_iter()
        .map(|(outfit, names)| {
            msg!(
                "{outfit} for {names}",
                outfit = outfit,
                names = names.join(" and ")
            )
        })
        .collect();
    (!told.is_empty()).then(|| msg!("Wear {worn}.", worn = told.join("; ")))
}

/// How many of an activity's lines have their place before the start; the others stand at their steps.
#[derive(Debug, Clone, Copy)]
enum Lines {
    First(usize),
    /// The rule and whom to ask.
    FirstAndLast,
}

fn lines_of(activity: Activity, which: Lines) -> Vec<&'static Caution> {
    let all = cautions::for_activity(activity);
    match which {
        Lines::First(most) => all.iter().take(most).collect(),
        Lines::FirstAndLast => all.first().into_iter().chain(all.last()).collect(),
    }
}

/// What is done in this bath, the gravest first.
fn activities(
    recipe: &Recipe,
    additions: &[PlannedAddition],
    acidity: Option<&Acidity>,
) -> Vec<(Activity, Lines)> {
    let has = |which: fn(&Act) -> bool| recipe.steps.iter().any(|step| which(&step.act));
    let is_heated = has(|act| matches!(act, Act::Raise { .. }));
    let has_metal = substances(additions).any(|(substance, _)| is_heavy_metal(substance));
    let mut activities = Vec::new();
    if is_heated {
        activities.push((Activity::HotLiquor, Lines::First(3)));
        activities.push((Activity::UnattendedHeat, Lines::First(1)));
    } else {
        activities.push((Activity::ChildrenAndAnimals, Lines::First(2)));
    }
    if acidity.is_some_and(|acidity| acidity.fizzes) {
        activities.push((Activity::AlkaliFizz, Lines::First(1)));
    }
    if is_heated {
        activities.push((Activity::LiftingHot, Lines::First(1)));
        activities.push((Activity::Steam, Lines::First(1)));
        // The line on going outdoors is for metals that smell or harm.
        let lines = if has_metal { 2 } else { 1 };
        activities.push((Activity::Ventilation, Lines::First(lines)));
    }
    // Whoever picks must know the plant; what is bought dry has lines of its own.
    let is_picked = |ware: &Ware| match ware {
        Ware::Dyestuff { id, form, .. } => *form == Form::Fresh || !dyestuff_cautions::is_known(id),
        Ware::Substance(_) => false,
    };
    if recipe.additions.iter().any(|addition| is_picked(&addition.ware)) {
        activities.push((Activity::Dyestuffs, Lines::First(1)));
    }
    activities.push((Activity::FoodSeparation, Lines::First(2)));
    activities.push(
        if substances(additions).any(|(substance, _)| is_collected(substance)) {
            (Activity::MetalDisposal, Lines::First(3))
        } else {
            (Activity::Disposal, Lines::FirstAndLast)
        },
    );
    activities
}

/// Whose baths are collected, by their card; iron goes where local rules let it.
const fn is_collected(substance: Substance) -> bool {
    matches!(substance, Substance::CopperSulfate5 | Substance::TinChloride2)
}

/// Iron, copper and tin: metals that are not aluminium.
pub(super) const fn is_heavy_metal(substance: Substance) -> bool {
    matches!(
        substance,
        Substance::FerrousSulfate7
            | Substance::FerrousSulfate1
            | Substance::CopperSulfate5
            | Substance::TinChloride2
    )
}
