//! The next act of a pot and its time, for every place that shows pots beside each other; and which pot comes forward.

use crate::craft::quantity::Temperature;
use crate::craft::time::{Moment, Span};
use crate::machine::call::CallKind;
use crate::machine::pot::Ended;
use crate::machine::{Machine, PotNo, PotRun};
use crate::sheet::plan::{Plan, StepAct};

use crate::{msg, say};

use super::act;
use super::locale::Locale;
use super::screen::RailPot;
use super::waiting::{self, Waiting};

/// The next act of a pot. Times are told in whole minutes, so that most seconds change nothing.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Next {
    /// The act: `turn the goods`, `ADD 15.0 g alum`.
    pub act: String,
    /// The same in a word or three: `turn`, `heat off`.
    pub short: String,
    /// Its time: `4 min`, `17:50`, `now`.
    pub time: String,
    /// Which kind of time: `next turn`, `about`.
    pub time_label: String,
    /// Beside a time in minutes, where it falls on the clock: `at 14:36`, `about 14:36`; else empty.
    pub clock: String,
    /// Hands are due.
    pub calling: bool,
}

/// What a pot wants next.
#[must_use]
pub fn of(run: &PotRun, now: Moment, locale: Locale) -> Next {
    let waiting = waiting::of(run, now);
    let (act, short) = named(run, waiting, locale);
    let (time, time_label) = timed(waiting, now, locale);
    Next {
        act,
        short,
        time,
        time_label,
        clock: clock_beside(waiting, now, locale),
        calling: waiting::is_calling(run, now),
    }
}

/// The pot whose hands are due first: the most urgent call, else the soonest moment.
#[must_use]
pub fn forward(machine: &Machine, now: Moment) -> Option<PotNo> {
    machine
        .pots()
        .filter_map(|run| Some((waiting::pressing(run, now)?, run)))
        .max_by_key(|(pressing, run)| {
            let touched = (run.last_touch.stretch, run.last_touch.steady_ms);
            (*pressing, touched, std::cmp::Reverse(run.pot))
        })
        .map(|(_, run)| run.pot)
}

/// Whether hands are due at a pot.
#[must_use]
pub fn is_calling(run: &PotRun, now: Moment) -> bool {
    waiting::is_calling(run, now)
}

/// The rail: every pot going, and the one that is forward even if it has ended.
pub(super) fn rail(machine: &Machine, forward: PotNo, now: Moment, locale: Locale) -> Vec<RailPot> {
    machine
        .pots()
        .filter(|run| run.stand.ended.is_none() || run.pot == forward)
        .map(|run| {
            let next = of(run, now, locale);
            let said = said(run.pot, &next, locale);
            RailPot {
                pot: i32::from(run.pot.0),
                act: next.short,
                time: next.time,
                forward: run.pot == forward,
                calling: next.calling,
                said,
            }
        })
        .collect()
}

/// A pot's next act as one sentence.
pub(super) fn said(pot: PotNo, next: &Next, locale: Locale) -> String {
    let number = say!(locale, "pot {number}", number = pot.0);
    [&number, &next.act, &next.time, &next.time_label]
        .into_iter()
        .filter(|part| !part.is_empty())
        .cloned()
        .collect::<Vec<_>>()
        .join(", ")
}

/// Recipe and goods: `Alum, studio, wool, 2 hanks`.
pub(super) fn title(plan: &Plan, locale: Locale) -> String {
    let (name, fibre) = (
        locale.read(&plan.recipe_name),
        locale.read(plan.goods.fibre.name()),
    );
    match plan.goods.hanks {
        0 | 1 => format!("{name}, {fibre}"),
        hanks => say!(
            locale,
            "{name}, {fibre}, {count} hanks",
            name = name,
            fibre = fibre,
            count = hanks
        ),
    }
}

/// A clock time, and its day when it isn't today's.
pub(super) fn clock_and_day(at: Moment, now: Moment, locale: Locale) -> (String, Option<String>) {
    locale.clock_and_day(at, now)
}

fn named(run: &PotRun, waiting: Waiting, locale: Locale) -> (String, String) {
    let pair = |long: &str, short: &str| (locale.say(long), locale.say(short));
    let both = |text: &str| pair(text, text);
    match waiting {
        Waiting::Ended(Ended::Closed) => both(msg!("shelved")),
        Waiting::Ended(Ended::Stopped) => both(msg!("stopped")),
        Waiting::Answer | Waiting::Call(CallKind::Returned) => pair(msg!("answer the card"), msg!("answer")),
        Waiting::Call(CallKind::Turn(_)) | Waiting::Turn(..) => pair(msg!("turn the goods"), msg!("turn")),
        Waiting::Call(CallKind::Look | CallKind::CoolEnough) => (
            goal(run).map_or_else(
                || {
                    sign(run).map_or_else(
                        || say!(locale, "look"),
                        |sign| say!(locale, "look: {sign}?", sign = locale.read(sign)),
                    )
                },
                |goal| say!(locale, "look: {sign}?", sign = locale.degrees(goal)),
            ),
            say!(locale, "look"),
        ),
        Waiting::Call(CallKind::HoldOver | CallKind::OverRun) | Waiting::HoldEnd(_) => {
            pair(msg!("turn the heat off"), msg!("turn heat off"))
        }
        Waiting::Call(CallKind::TooHot) => both(msg!("too hot")),
        Waiting::Call(CallKind::HeatUnattended) => pair(msg!("look: heat is on"), msg!("look")),
        Waiting::Reheating => goal(run).map_or_else(
            || both(msg!("reheat")),
            |goal| {
                (
                    say!(locale, "back to {degrees}", degrees = locale.degrees(goal)),
                    say!(locale, "to {degrees}", degrees = locale.bare_degrees(goal)),
                )
            },
        ),
        Waiting::Heat(_) | Waiting::HeatUnknown => warmed_or_cooled(run, locale),
        Waiting::Soak(_) => pair(msg!("soak, then enter"), msg!("soak")),
        Waiting::Call(CallKind::ActDue)
        | Waiting::Rest(_)
        | Waiting::Look(_)
        | Waiting::Drying
        | Waiting::Hands => handiwork(run, locale),
    }
}

fn warmed_or_cooled(run: &PotRun, locale: Locale) -> (String, String) {
    let cools = matches!(run.step().map(|step| &step.act), Some(StepAct::Cool { .. }));
    let to = |degrees: String| {
        if cools {
            say!(locale, "cool to {degrees}", degrees = degrees)
        } else {
            say!(locale, "raise to {degrees}", degrees = degrees)
        }
    };
    goal(run).map_or_else(Default::default, |goal| {
        (to(locale.degrees(goal)), to(locale.bare_degrees(goal)))
    })
}

fn handiwork(run: &PotRun, locale: Locale) -> (String, String) {
    run.step().map_or_else(Default::default, |step| {
        let prompt = act::prompt(&run.plan, step, locale);
        let short = prompt.verb.to_lowercase();
        // Which goods stands in the bath's title.
        let line = if matches!(step.act, StepAct::WetOut { .. } | StepAct::Enter { .. }) {
            let object = String::new();
            act::Prompt { object, ..prompt }.line()
        } else {
            prompt.line()
        };
        (line, short)
    })
}

/// The sign that is looked for in the current step.
fn sign(run: &PotRun) -> Option<&str> {
    if let StepAct::Look { sign, .. } = &run.step()?.act {
        Some(sign)
    } else {
        None
    }
}

/// The temperature the current step is about.
fn goal(run: &PotRun) -> Option<Temperature> {
    match &run.step()?.act {
        StepAct::Raise { to, .. } | StepAct::Cool { to, .. } => Some(*to),
        StepAct::Hold { at, .. } => Some(*at),
        StepAct::WetOut { .. }
        | StepAct::Weigh { .. }
        | StepAct::Fill { .. }
        | StepAct::Dissolve { .. }
        | StepAct::Add { .. }
        | StepAct::Strain { .. }
        | StepAct::Enter { .. }
        | StepAct::Lift
        | StepAct::Squeeze
        | StepAct::Look { .. }
        | StepAct::Dip { .. }
        | StepAct::Rinse { .. }
        | StepAct::Air { .. }
        | StepAct::Rest { .. }
        | StepAct::Dry
        | StepAct::Shelve => None,
    }
}

fn timed(waiting: Waiting, now: Moment, locale: Locale) -> (String, String) {
    match waiting {
        Waiting::Ended(_) | Waiting::Reheating | Waiting::HeatUnknown | Waiting::Drying => Default::default(),
        Waiting::Answer | Waiting::Call(_) => (say!(locale, "now"), say!(locale, "hands due")),
        Waiting::Turn(_, at) => time_to(at, msg!("next turn"), msg!("next turn"), now, locale),
        Waiting::HoldEnd(at) => time_to(at, msg!("hold left"), msg!("hold until"), now, locale),
        Waiting::Soak(at) => time_to(at, msg!("soak left"), msg!("soak until"), now, locale),
        Waiting::Rest(at) => time_to(at, msg!("time left"), msg!("until"), now, locale),
        Waiting::Look(at) => time_to(at, msg!("look in"), msg!("look at"), now, locale),
        Waiting::Heat(band) => time_to(band.likely, msg!("about"), msg!("about"), now, locale),
        Waiting::Hands => (say!(locale, "now"), say!(locale, "your hands")),
    }
}

/// A time nearer than this is told in minutes.
const FAR: Span = Span::from_minutes(90);

/// The clock time of what is told in minutes.
fn clock_beside(waiting: Waiting, now: Moment, locale: Locale) -> String {
    let (at, is_about) = match waiting {
        Waiting::Turn(_, at)
        | Waiting::HoldEnd(at)
        | Waiting::Soak(at)
        | Waiting::Rest(at)
        | Waiting::Look(at) => (at, false),
        Waiting::Heat(band) => (band.likely, true),
        Waiting::Ended(_)
        | Waiting::Answer
        | Waiting::Call(_)
        | Waiting::Reheating
        | Waiting::HeatUnknown
        | Waiting::Drying
        | Waiting::Hands => return String::new(),
    };
    let left = at.since(now);
    if left == Span::NONE || left >= FAR {
        return String::new();
    }
    let clock = locale.clock(at);
    if is_about {
        say!(locale, "about {clock}", clock = clock)
    } else {
        say!(locale, "at {clock}", clock = clock)
    }
}

/// So many minutes, or the clock time when that is far off, each with its label; a day takes the label's place.
fn time_to(at: Moment, left_label: &str, clock_label: &str, now: Moment, locale: Locale) -> (String, String) {
    let left = at.since(now);
    if left < FAR {
        let minutes = left.ms().div_ceil(60_000);
        let time = if minutes == 0 {
            say!(locale, "now")
        } else {
            format!("{minutes} min")
        };
        return (time, locale.say(left_label));
    }
    let (clock, day) = clock_and_day(at, now, locale);
    (clock, day.unwrap_or_else(|| locale.say(clock_label)))
}
