//! The return card: what was saved last, how long the screen was off, where the bath probably is, and what now.

use crate::craft::quantity::{Band, Temperature};
use crate::craft::time::Span;
use crate::machine::event::{Done, What};
use crate::machine::pot::Outage;
use crate::machine::{PotRun, ReturnAnswer};
use crate::sheet::plan::{StepAct, StepIndex, StepKind};

use crate::{msg, say};

use super::act;
use super::course;
use super::locale::Locale;
use super::next;
use super::screen::{Icon, ReturnScreen, Slab};

/// The card of a pot; `None` when no question about an outage is open. `probably` is where the bath is, coldest and
/// hottest, where somebody could tell.
#[must_use]
pub fn screen(
    run: &PotRun,
    locale: Locale,
    probably: Option<(Temperature, Temperature)>,
) -> Option<ReturnScreen> {
    let outage = run.outage?;
    let heated = is_heated(run);
    let question = match run.step().map(|step| step.act.kind()) {
        Some(StepKind::Hold | StepKind::Raise) => msg!("Was the heat on while the screen was off?"),
        Some(
            StepKind::WetOut
            | StepKind::Weigh
            | StepKind::Fill
            | StepKind::Dissolve
            | StepKind::Add
            | StepKind::Strain
            | StepKind::Enter
            | StepKind::Cool
            | StepKind::Lift
            | StepKind::Squeeze
            | StepKind::Look
            | StepKind::Dip
            | StepKind::Rinse
            | StepKind::Air
            | StepKind::Rest
            | StepKind::Dry
            | StepKind::Shelve,
        )
        | None => msg!("Go on from where it stood?"),
    };
    Some(ReturnScreen {
        pot: i32::from(run.pot.0),
        title: next::title(&run.plan, locale),
        last_saved: last_saved(run, outage, locale),
        off_for: interval(outage.at_least, outage.at_most, locale),
        probably: probably.map_or_else(
            || say!(locale, "not known"),
            |(low, high)| range(low, high, locale),
        ),
        measure: if heated {
            say!(locale, "measure it before you go on")
        } else {
            String::new()
        },
        question: locale.say(question),
        choices: choices(run, outage, locale),
    })
}

/// Whether a thermometer has something to say of this pot.
fn is_heated(run: &PotRun) -> bool {
    run.stand.filled && course::last_heated(&run.plan).is_some_and(|last| run.stand.step <= last)
}

/// How long it was off, as far as that is known.
fn interval(at_least: Span, at_most: Option<Span>, locale: Locale) -> String {
    match at_most {
        Some(at_most) => locale.band(Band {
            low: at_least,
            likely: at_least,
            high: at_most.max(at_least),
        }),
        None if at_least < Span::from_seconds(1) => say!(locale, "not known"),
        None => say!(locale, "at least {span}", span = locale.span(at_least)),
    }
}

fn range(low: Temperature, high: Temperature, locale: Locale) -> String {
    let (cold, hot) = (locale.degrees(low), locale.degrees(high));
    if cold == hot {
        cold
    } else {
        let cold = cold.split(' ').next().unwrap_or_default();
        say!(locale, "{low} to {high}", low = cold, high = hot)
    }
}

/// The last act of hands before the outage, with its clock time.
fn last_saved(run: &PotRun, outage: Outage, locale: Locale) -> String {
    let last = run
        .log
        .iter()
        .rev()
        .filter(|event| !outage.is_over_at(event.at))
        .find_map(|event| Some((event.at, said(run, &event.what, locale)?)));
    last.map_or_else(
        || say!(locale, "nothing"),
        |(at, said)| format!("{}  {said}", locale.clock(at)),
    )
}

fn said(run: &PotRun, what: &What, locale: Locale) -> Option<String> {
    let word = |text: &str| Some(locale.say(text));
    match what {
        What::BathBegun { .. } => word(msg!("bath begun")),
        What::StepDone { step, done } => Some(step_done(run, *step, *done, locale)),
        What::StepSkipped { step, .. } => {
            Some(say!(locale, "{act} skipped", act = locale.say(verb(run, *step))))
        }
        What::Turned { .. } => word(msg!("goods turned")),
        What::NotYet { .. } => word(msg!("not there yet")),
        What::ReadingTaken { temperature } => Some(say!(
            locale,
            "reading {degrees}",
            degrees = locale.degrees(*temperature)
        )),
        What::HoldDropped { .. } => word(msg!("back to heating")),
        What::HoldResumed { .. } => word(msg!("back at temperature")),
        What::TakenBack => word(msg!("taken back")),
        What::ReturnAnswered { .. } => word(msg!("card answered")),
        What::TurnMissed { .. }
        | What::CallRaised { .. }
        | What::CallsHeard
        | What::Beat
        | What::Returned { .. }
        | What::BathStopped
        | What::BathClosed => None,
    }
}

fn verb(run: &PotRun, step: StepIndex) -> &'static str {
    run.plan
        .step(step)
        .map_or(msg!("a step"), |step| act::verb(step.act.kind()))
}

/// What a confirmed step began is what the dyer remembers: *hold started* rather than *it is there*.
fn step_done(run: &PotRun, step: StepIndex, done: Done, locale: Locale) -> String {
    let begun = run
        .plan
        .step(StepIndex(step.0.saturating_add(1)))
        .map(|step| &step.act);
    match (run.plan.step(step).map(|step| &step.act), begun) {
        (Some(StepAct::Raise { .. }), Some(StepAct::Hold { at, .. })) => {
            let at = match done {
                Done::Read(read) => read,
                Done::AsPlanned | Done::Weighed(_) | Done::Early => *at,
            };
            say!(locale, "HOLD started, {degrees}", degrees = locale.degrees(at))
        }
        (Some(StepAct::Hold { .. }), _) => say!(locale, "heat off"),
        (Some(of), _) => begun_small(&locale.say(act::slab(of.kind()))),
        (None, _) => say!(locale, "a step done"),
    }
}

fn choices(run: &PotRun, outage: Outage, locale: Locale) -> Vec<Slab> {
    let heated = is_heated(run);
    let choice = |answer: ReturnAnswer, label: &str, detail: &str, icon, quiet| Slab {
        key: format!("answer-{}", answer.id()),
        label: locale.say(label),
        detail: detail.to_owned(),
        icon,
        enabled: true,
        quiet,
    };
    let stop = Slab {
        key: "stop".into(),
        label: say!(locale, "Stop this bath"),
        detail: String::new(),
        icon: Icon::Cross,
        enabled: true,
        quiet: true,
    };
    let measured = heated.then(|| Slab {
        key: "reading".into(),
        label: say!(locale, "Key in a reading"),
        detail: say!(locale, "where the bath is now"),
        icon: Icon::Reading,
        enabled: true,
        quiet: true,
    });
    if run.stand.hold.is_none() {
        let detail = say!(locale, "from where it stood");
        let carry_on = choice(
            ReturnAnswer::CarryOn,
            msg!("Carry on"),
            &detail,
            Icon::Tick,
            false,
        );
        return [Some(carry_on), measured, Some(stop)]
            .into_iter()
            .flatten()
            .collect();
    }
    let counted = if outage.at_least < Span::from_seconds(1) {
        say!(locale, "nothing is known to count")
    } else {
        say!(locale, "{span} more held", span = locale.span(outage.at_least))
    };
    let answers = [
        choice(
            ReturnAnswer::CarryOn,
            msg!("Carry on"),
            &say!(locale, "time away not counted"),
            Icon::Flame,
            false,
        ),
        choice(
            ReturnAnswer::CountIt,
            msg!("Count it"),
            &counted,
            Icon::Clock,
            true,
        ),
        choice(
            ReturnAnswer::HoldAgain,
            msg!("Hold again"),
            &say!(locale, "from nothing"),
            Icon::TakeBack,
            true,
        ),
        choice(
            ReturnAnswer::BackToRaise,
            msg!("Back to heating"),
            &say!(locale, "it has dropped"),
            Icon::Flame,
            true,
        ),
    ];
    answers.into_iter().chain(measured).chain([stop]).collect()
}

/// A phrase in the middle of a line: its first letter small. The others stay, for the nouns of German.
fn begun_small(phrase: &str) -> String {
    let mut letters = phrase.chars();
    letters
        .next()
        .map_or_else(String::new, |first| first.to_lowercase().chain(letters).collect())
}
