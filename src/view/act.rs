//! The act on the screen: verb, object and amount of a step, and one line of how.

use crate::craft::quantity::Temperature;
use crate::recipe::model::Letter;
use crate::sheet::plan::{Plan, Step, StepAct, StepKind};
use crate::{msg, say};

use super::locale::Locale;

/// A step in finished words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Prompt {
    /// What to do, in one word or two.
    pub verb: String,
    /// How much of it, where there is an amount; the largest thing on the screen.
    pub amount: String,
    /// Of what, or to what.
    pub object: String,
    /// One line of how; may be empty.
    pub how: String,
    /// One line of caution; may be empty.
    pub caution: String,
    /// What the slab says.
    pub slab: String,
}

impl Prompt {
    /// The act in one line, as it is read out: `ADD 15.0 g alum`.
    #[must_use]
    pub fn line(&self) -> String {
        [&self.verb, &self.amount, &self.object]
            .into_iter()
            .filter(|part| !part.is_empty())
            .cloned()
            .collect::<Vec<_>>()
            .join(" ")
    }
}

/// The word for a kind of step.
#[must_use]
pub const fn verb(kind: StepKind) -> &'static str {
    match kind {
        StepKind::WetOut => msg!("WET OUT"),
        StepKind::Weigh => msg!("WEIGH"),
        StepKind::Fill => msg!("FILL"),
        StepKind::Dissolve => msg!("DISSOLVE"),
        StepKind::Add => msg!("ADD"),
        StepKind::Strain => msg!("STRAIN"),
        StepKind::Enter => msg!("ENTER"),
        StepKind::Raise => msg!("RAISE"),
        StepKind::Hold => msg!("HOLD"),
        StepKind::Cool => msg!("COOL"),
        StepKind::Look => msg!("LOOK"),
        StepKind::Dip => msg!("DIP"),
        StepKind::Lift => msg!("LIFT"),
        StepKind::Squeeze => msg!("SQUEEZE"),
        StepKind::Rinse => msg!("RINSE"),
        StepKind::Air => msg!("AIR"),
        StepKind::Rest => msg!("REST"),
        StepKind::Dry => msg!("DRY"),
        StepKind::Shelve => msg!("SHELVE"),
    }
}

/// What the slab says at a step before anything special is due.
#[must_use]
pub const fn slab(kind: StepKind) -> &'static str {
    match kind {
        StepKind::WetOut => msg!("Goods are soaking"),
        StepKind::Weigh => msg!("Weighed as planned"),
        StepKind::Fill => msg!("Filled"),
        StepKind::Dissolve => msg!("Dissolved, no grains left"),
        StepKind::Add => msg!("Added and stirred"),
        StepKind::Strain => msg!("Strained"),
        StepKind::Enter => msg!("Goods are in"),
        StepKind::Raise => msg!("It is there"),
        StepKind::Hold => msg!("Turned"),
        StepKind::Cool => msg!("Cool enough"),
        StepKind::Look => msg!("It shows"),
        StepKind::Dip => msg!("Lifted out"),
        StepKind::Lift => msg!("Lifted"),
        StepKind::Squeeze => msg!("Squeezed"),
        StepKind::Rinse => msg!("Rinsed"),
        StepKind::Air => msg!("Aired"),
        StepKind::Rest => msg!("Rested"),
        StepKind::Dry => msg!("Dry"),
        StepKind::Shelve => msg!("Shelved with its tag"),
    }
}

/// A step of a plan in finished words.
#[must_use]
pub fn prompt(plan: &Plan, step: &Step, locale: Locale) -> Prompt {
    let kind = step.act.kind();
    let (amount, object) = amount_and_object(plan, &step.act, locale);
    Prompt {
        verb: locale.say(verb(kind)),
        amount,
        object,
        how: step
            .how
            .as_ref()
            .map_or_else(|| usual_how(&step.act, locale), |how| locale.read(how)),
        caution: step
            .caution
            .as_ref()
            .map_or_else(String::new, |caution| locale.read(caution)),
        slab: locale.say(slab(kind)),
    }
}

fn amount_and_object(plan: &Plan, act: &StepAct, locale: Locale) -> (String, String) {
    match act {
        StepAct::WetOut { .. } => (locale.goods_weight(plan.goods.dry), goods_of(plan, locale)),
        StepAct::Weigh { letter } => one_ware(plan, *letter, locale),
        StepAct::Fill { water, .. } => (locale.litres(*water), say!(locale, "water")),
        StepAct::Dissolve { letters, .. } | StepAct::Add { letters } => wares(plan, letters, locale),
        StepAct::Strain { letters } => (String::new(), names(plan, letters, locale)),
        StepAct::Enter { .. } => (locale.goods_weight(plan.goods.dry), goods_of(plan, locale)),
        StepAct::Raise { to, .. } | StepAct::Cool { to, .. } => (to_degrees(*to, locale), String::new()),
        StepAct::Hold { at, span, .. } => (
            locale.span(*span),
            say!(locale, "at {degrees}", degrees = locale.degrees(*at)),
        ),
        StepAct::Look { sign, .. } => (String::new(), locale.read(sign)),
        StepAct::Dip { number, of, .. } => (
            say!(locale, "{number} of {count}", number = number, count = of),
            say!(locale, "under the liquor"),
        ),
        StepAct::Lift | StepAct::Squeeze => (String::new(), say!(locale, "the goods")),
        StepAct::Rinse {
            times,
            until_clear: true,
        } => (times_word(*times, locale), say!(locale, "or until it runs clear")),
        StepAct::Rinse {
            times,
            until_clear: false,
        } => (times_word(*times, locale), String::new()),
        StepAct::Air { span } | StepAct::Rest { span } => (locale.span(*span), String::new()),
        StepAct::Dry => (String::new(), say!(locale, "in the shade")),
        StepAct::Shelve => (String::new(), say!(locale, "with a tag")),
    }
}

fn to_degrees(to: Temperature, locale: Locale) -> String {
    say!(locale, "to {degrees}", degrees = locale.degrees(to))
}

fn times_word(times: u32, locale: Locale) -> String {
    match times {
        0 | 1 => say!(locale, "once"),
        2 => say!(locale, "twice"),
        times => say!(locale, "{times} times", times = times),
    }
}

fn goods_of(plan: &Plan, locale: Locale) -> String {
    match plan.goods.hanks {
        0 | 1 => locale.read(plan.goods.fibre.name()),
        hanks => say!(
            locale,
            "{fibre}, {count} hanks",
            fibre = locale.read(plan.goods.fibre.name()),
            count = hanks
        ),
    }
}

fn one_ware(plan: &Plan, letter: Letter, locale: Locale) -> (String, String) {
    plan.addition(letter).map_or_else(Default::default, |addition| {
        (locale.grams(addition.target), locale.read(&addition.name))
    })
}

fn wares(plan: &Plan, letters: &[Letter], locale: Locale) -> (String, String) {
    match letters {
        [one] => one_ware(plan, *one, locale),
        several => {
            let parts: Vec<String> = several
                .iter()
                .filter_map(|letter| plan.addition(*letter))
                .map(|addition| {
                    format!(
                        "{} {}",
                        locale.grams(addition.target),
                        locale.read(&addition.name)
                    )
                })
                .collect();
            (String::new(), parts.join(" + "))
        }
    }
}

fn names(plan: &Plan, letters: &[Letter], locale: Locale) -> String {
    let names: Vec<String> = letters
        .iter()
        .filter_map(|letter| plan.addition(*letter))
        .map(|addition| locale.read(&addition.name))
        .collect();
    names.join(", ")
}

/// One line of how, where the recipe has none.
fn usual_how(act: &StepAct, locale: Locale) -> String {
    match act {
        StepAct::WetOut { least } => say!(
            locale,
            "in plain water, at least {span}",
            span = locale.span(*least)
        ),
        StepAct::Weigh { .. } => say!(locale, "tap as planned, or key in what the scale says"),
        StepAct::Fill { level, .. } => say!(
            locale,
            "to {depth} above the bottom",
            depth = locale.depth(*level)
        ),
        StepAct::Dissolve { cup, .. } => {
            say!(
                locale,
                "fully, in {amount} of hot bath or kettle water",
                amount = locale.litres(*cup)
            )
        }
        StepAct::Add { .. } => say!(locale, "stir until even"),
        StepAct::Strain { .. } => say!(locale, "press the liquor out into the pot"),
        StepAct::Enter { at_most } => {
            say!(
                locale,
                "wetted and squeezed; bath not above {degrees}",
                degrees = locale.degrees(*at_most)
            )
        }
        StepAct::Raise { come_up, .. } => come_up.map_or_else(String::new, |band| {
            say!(locale, "takes about {span}", span = locale.band(band))
        }),
        StepAct::Hold { floor, ceiling, .. } => say!(
            locale,
            "between {low} and {high}",
            low = locale.degrees(*floor),
            high = locale.degrees(*ceiling)
        ),
        StepAct::Cool {
            cool_down, lid_on, ..
        } => {
            let lid = if *lid_on {
                say!(locale, "lid on")
            } else {
                say!(locale, "lid off")
            };
            let off = say!(locale, "heat off, {lid}", lid = lid);
            cool_down.map_or_else(
                || off.clone(),
                |band| {
                    say!(
                        locale,
                        "{lid}; takes about {span}",
                        lid = off,
                        span = locale.band(band)
                    )
                },
            )
        }
        StepAct::Look { again, .. } => {
            say!(
                locale,
                "not there? look again in {span}",
                span = locale.span(*again)
            )
        }
        StepAct::Dip { under, .. } => say!(
            locale,
            "{span}, without splashing; squeeze them at the surface",
            span = locale.span(*under)
        ),
        StepAct::Lift => say!(locale, "let them drain over the pot"),
        StepAct::Squeeze => say!(locale, "press, don't wring"),
        StepAct::Rinse { .. } => say!(locale, "water as warm as the goods"),
        StepAct::Air { .. } => say!(locale, "hang free, touching nothing"),
        StepAct::Rest { .. } => say!(locale, "cool and dark"),
        StepAct::Dry => say!(locale, "turn them once; weigh when dry"),
        StepAct::Shelve => say!(locale, "dry, dark, away from moth"),
    }
}
