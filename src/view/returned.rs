//! The return card: what was saved last, how long the screen was off, where the bath probably is, and what now.

use crate::craft::quantity::{Band, Temperature};
use crate::craft::time::Span;
use crate::machine::event::{Done, What};
use crate::machine::pot::Outage;
use crate::machine::{PotRun, ReturnAnswer};
use crate::sheet::plan::{StepAct, StepIndex, StepKind};

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
        Some(StepKind::Hold | StepKind::Raise) => "Was the heat on while the screen was off?",
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
        | None => "Go on from where it stood?",
    };
    Some(ReturnScreen {
        pot: i32::from(run.pot.0),
        title: next::title(&run.plan),
        last_saved: last_saved(run, outage, locale),
        off_for: interval(outage.at_least, outage.at_most, locale),
        probably: probably.map_or_else(|| "not known".to_owned(), |(low, high)| range(low, high, locale)),
        measure: if heated {
            "measure it before you go on".into()
        } else {
            String::new()
        },
        question: question.into(),
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
        None if at_least < Span::from_seconds(1) => "not known".into(),
        None => format!("at least {}", locale.span(at_least)),
    }
}

fn range(low: Temperature, high: Temperature, locale: Locale) -> String {
    let (cold, hot) = (locale.degrees(low), locale.degrees(high));
    if cold == hot {
        cold
    } else {
        format!("{:.0} to {hot}", low.celsius())
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
        || "nothing".to_owned(),
        |(at, said)| format!("{}  {said}", locale.clock(at)),
    )
}

fn said(run: &PotRun, what: &What, locale: Locale) -> Option<String> {
    match what {
        What::BathBegun { .. } => Some("bath begun".into()),
        What::StepDone { step, done } => Some(step_done(run, *step, *done, locale)),
        What::StepSkipped { step, .. } => Some(format!("{} left out", verb(run, *step))),
        What::Turned { .. } => Some("goods turned".into()),
        What::NotYet { .. } => Some("not there yet".into()),
        What::ReadingTaken { temperature } => Some(format!("reading {}", locale.degrees(*temperature))),
        What::HoldDropped { .. } => Some("back to heating".into()),
        What::HoldResumed { .. } => Some("back at temperature".into()),
        What::TakenBack => Some("taken back".into()),
        What::ReturnAnswered { .. } => Some("card answered".into()),
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
        .map_or("a step", |step| act::verb(step.act.kind()))
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
            format!("HOLD started, {}", locale.degrees(at))
        }
        (Some(StepAct::Hold { .. }), _) => "heat off".into(),
        (Some(of), _) => act::slab(of.kind()).to_lowercase(),
        (None, _) => "a step done".into(),
    }
}

fn choices(run: &PotRun, outage: Outage, locale: Locale) -> Vec<Slab> {
    let heated = is_heated(run);
    let choice = |answer: ReturnAnswer, label: &str, detail: &str, icon, quiet| Slab {
        key: format!("answer-{}", answer.id()),
        label: label.to_owned(),
        detail: detail.to_owned(),
        icon,
        enabled: true,
        quiet,
    };
    let stop = Slab {
        key: "stop".into(),
        label: "Stop this bath".into(),
        detail: String::new(),
        icon: Icon::Cross,
        enabled: true,
        quiet: true,
    };
    let measured = heated.then(|| Slab {
        key: "reading".into(),
        label: "Key in a reading".into(),
        detail: "where the bath is now".into(),
        icon: Icon::Reading,
        enabled: true,
        quiet: true,
    });
    if run.stand.hold.is_none() {
        let detail = "from where it stood";
        let carry_on = choice(ReturnAnswer::CarryOn, "Carry on", detail, Icon::Tick, false);
        return [Some(carry_on), measured, Some(stop)]
            .into_iter()
            .flatten()
            .collect();
    }
    let counted = if outage.at_least < Span::from_seconds(1) {
        "nothing is known to count".to_owned()
    } else {
        format!("{} more held", locale.span(outage.at_least))
    };
    let answers = [
        choice(
            ReturnAnswer::CarryOn,
            "Carry on",
            "time away not counted",
            Icon::Flame,
            false,
        ),
        choice(ReturnAnswer::CountIt, "Count it", &counted, Icon::Clock, true),
        choice(
            ReturnAnswer::HoldAgain,
            "Hold again",
            "from nothing",
            Icon::TakeBack,
            true,
        ),
        choice(
            ReturnAnswer::BackToRaise,
            "Back to heating",
            "it has dropped",
            Icon::Flame,
            true,
        ),
    ];
    answers.into_iter().chain(measured).chain([stop]).collect()
}
