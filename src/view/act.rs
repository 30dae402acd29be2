//! The act on the screen: verb, object and amount of a step, and one line of how.

use crate::recipe::model::Letter;
use crate::sheet::plan::{Plan, Step, StepAct, StepKind};

use super::locale::Locale;

/// A step in finished words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Prompt {
    /// What to do, in one word or two.
    pub verb: &'static str,
    /// How much of it, where there is an amount; the largest thing on the screen.
    pub amount: String,
    /// Of what, or to what.
    pub object: String,
    /// One line of how; may be empty.
    pub how: String,
    /// One line of caution; may be empty.
    pub caution: String,
    /// What the slab says.
    pub slab: &'static str,
}

impl Prompt {
    /// The act in one line, as it is read out: `ADD 15.0 g alum`.
    #[must_use]
    pub fn line(&self) -> String {
        [self.verb, &self.amount, &self.object]
            .into_iter()
            .filter(|part| !part.is_empty())
            .collect::<Vec<_>>()
            .join(" ")
    }
}

/// The word for a kind of step.
#[must_use]
pub const fn verb(kind: StepKind) -> &'static str {
    match kind {
        StepKind::WetOut => "WET OUT",
        StepKind::Weigh => "WEIGH",
        StepKind::Fill => "FILL",
        StepKind::Dissolve => "DISSOLVE",
        StepKind::Add => "ADD",
        StepKind::Strain => "STRAIN",
        StepKind::Enter => "ENTER",
        StepKind::Raise => "RAISE",
        StepKind::Hold => "HOLD",
        StepKind::Cool => "COOL",
        StepKind::Look => "LOOK",
        StepKind::Dip => "DIP",
        StepKind::Lift => "LIFT",
        StepKind::Squeeze => "SQUEEZE",
        StepKind::Rinse => "RINSE",
        StepKind::Air => "AIR",
        StepKind::Rest => "REST",
        StepKind::Dry => "DRY",
        StepKind::Shelve => "SHELVE",
    }
}

/// What the slab says at a step before anything special is due.
#[must_use]
pub const fn slab(kind: StepKind) -> &'static str {
    match kind {
        StepKind::WetOut => "Goods are soaking",
        StepKind::Weigh => "Weighed as planned",
        StepKind::Fill => "Filled",
        StepKind::Dissolve => "Dissolved, no grains left",
        StepKind::Add => "Added and stirred",
        StepKind::Strain => "Strained",
        StepKind::Enter => "Goods are in",
        StepKind::Raise => "It is there",
        StepKind::Hold => "Turned",
        StepKind::Cool => "Cool enough",
        StepKind::Look => "It shows",
        StepKind::Dip => "Lifted out",
        StepKind::Lift => "Lifted",
        StepKind::Squeeze => "Squeezed",
        StepKind::Rinse => "Rinsed",
        StepKind::Air => "Aired",
        StepKind::Rest => "Rested",
        StepKind::Dry => "Dry",
        StepKind::Shelve => "Shelved with its tag",
    }
}

/// A step of a plan in finished words.
#[must_use]
pub fn prompt(plan: &Plan, step: &Step, locale: Locale) -> Prompt {
    let kind = step.act.kind();
    let (amount, object) = amount_and_object(plan, &step.act, locale);
    Prompt {
        verb: verb(kind),
        amount,
        object,
        how: step.how.clone().unwrap_or_else(|| usual_how(&step.act, locale)),
        caution: step.caution.clone().unwrap_or_default(),
        slab: slab(kind),
    }
}

fn amount_and_object(plan: &Plan, act: &StepAct, locale: Locale) -> (String, String) {
    match act {
        StepAct::WetOut { .. } => (locale.goods_weight(plan.goods.dry), goods_of(plan)),
        StepAct::Weigh { letter } => one_ware(plan, *letter, locale),
        StepAct::Fill { water, .. } => (locale.litres(*water), "water".into()),
        StepAct::Dissolve { letters, .. } | StepAct::Add { letters } => wares(plan, letters, locale),
        StepAct::Strain { letters } => (String::new(), names(plan, letters)),
        StepAct::Enter { .. } => (locale.goods_weight(plan.goods.dry), goods_of(plan)),
        StepAct::Raise { to, .. } => (format!("to {}", locale.degrees(*to)), String::new()),
        StepAct::Hold { at, span, .. } => (locale.span(*span), format!("at {}", locale.degrees(*at))),
        StepAct::Cool { to, .. } => (format!("to {}", locale.degrees(*to)), String::new()),
        StepAct::Look { sign, .. } => (String::new(), sign.clone()),
        StepAct::Dip { number, of, .. } => (format!("{number} of {of}"), "under the liquor".into()),
        StepAct::Lift | StepAct::Squeeze => (String::new(), "the goods".into()),
        StepAct::Rinse {
            times,
            until_clear: true,
        } => (times_word(*times), "or until it runs clear".into()),
        StepAct::Rinse {
            times,
            until_clear: false,
        } => (times_word(*times), String::new()),
        StepAct::Air { span } | StepAct::Rest { span } => (locale.span(*span), String::new()),
        StepAct::Dry => (String::new(), "in the shade".into()),
        StepAct::Shelve => (String::new(), "with a tag".into()),
    }
}

fn times_word(times: u32) -> String {
    match times {
        0 | 1 => "once".into(),
        2 => "twice".into(),
        times => format!("{times} times"),
    }
}

fn goods_of(plan: &Plan) -> String {
    match plan.goods.hanks {
        0 | 1 => plan.goods.fibre.name().to_owned(),
        hanks => format!("{}, {hanks} hanks", plan.goods.fibre.name()),
    }
}

fn one_ware(plan: &Plan, letter: Letter, locale: Locale) -> (String, String) {
    plan.addition(letter).map_or_else(Default::default, |addition| {
        (locale.grams(addition.target), addition.name.clone())
    })
}

fn wares(plan: &Plan, letters: &[Letter], locale: Locale) -> (String, String) {
    match letters {
        [one] => one_ware(plan, *one, locale),
        several => {
            let parts: Vec<String> = several
                .iter()
                .filter_map(|letter| plan.addition(*letter))
                .map(|addition| format!("{} {}", locale.grams(addition.target), addition.name))
                .collect();
            (String::new(), parts.join(" + "))
        }
    }
}

fn names(plan: &Plan, letters: &[Letter]) -> String {
    let names: Vec<&str> = letters
        .iter()
        .filter_map(|letter| plan.addition(*letter))
        .map(|addition| addition.name.as_str())
        .collect();
    names.join(", ")
}

/// One line of how, where the recipe has none.
fn usual_how(act: &StepAct, locale: Locale) -> String {
    match act {
        StepAct::WetOut { least } => format!("in plain water, at least {}", locale.span(*least)),
        StepAct::Weigh { .. } => "tap as planned, or key in what the scale says".into(),
        StepAct::Fill { level, .. } => format!("to {} above the bottom", locale.depth(*level)),
        StepAct::Dissolve { cup, .. } => {
            format!("fully, in {} of hot bath or kettle water", locale.litres(*cup))
        }
        StepAct::Add { .. } => "stir until even".into(),
        StepAct::Strain { .. } => "press the liquor out into the pot".into(),
        StepAct::Enter { at_most } => {
            format!("wetted and squeezed; bath not above {}", locale.degrees(*at_most))
        }
        StepAct::Raise { come_up, .. } => {
            come_up.map_or_else(String::new, |band| format!("takes about {}", locale.band(band)))
        }
        StepAct::Hold { floor, ceiling, .. } => {
            format!(
                "between {} and {}",
                locale.degrees(*floor),
                locale.degrees(*ceiling)
            )
        }
        StepAct::Cool {
            cool_down, lid_on, ..
        } => {
            let lid = if *lid_on { "lid on" } else { "lid off" };
            cool_down.map_or_else(
                || format!("heat off, {lid}"),
                |band| format!("heat off, {lid}; takes about {}", locale.band(band)),
            )
        }
        StepAct::Look { again, .. } => format!("not there? look again in {}", locale.span(*again)),
        StepAct::Dip { under, .. } => {
            format!(
                "{}, without splashing; squeeze them at the surface",
                locale.span(*under)
            )
        }
        StepAct::Lift => "let them drain over the pot".into(),
        StepAct::Squeeze => "press, don't wring".into(),
        StepAct::Rinse { .. } => "water as warm as the goods".into(),
        StepAct::Air { .. } => "hang free, touching nothing".into(),
        StepAct::Rest { .. } => "cool and dark".into(),
        StepAct::Dry => "turn them once; weigh when dry".into(),
        StepAct::Shelve => "dry, dark, away from moth".into(),
    }
}
