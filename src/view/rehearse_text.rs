//! A rehearsal in the terminal: each prompt, call and confirmation with its clock time.

use chrono::{FixedOffset, Offset, Utc};

use crate::craft::time::Moment;
use crate::machine::PotRun;
use crate::machine::call::CallKind;
use crate::machine::event::{Done, Event, What};
use crate::machine::rehearsal::Line;
use crate::machine::session::Machine;
use crate::sheet::plan::{StepIndex, StepKind};

use super::act;
use super::locale::Locale;
use super::words;

/// What a line of a rehearsal prints; nothing for facts that nobody sees.
#[must_use]
pub fn lines(line: &Line, machine: &Machine, start: Moment, zone: FixedOffset) -> Vec<String> {
    let clock = |at| words::clock_of_plan_with_seconds(at, start, zone);
    match line {
        Line::RangAgain(at, pot, chime) => {
            vec![format!(
                "{}  pot {}  (chime {}) again",
                clock(*at),
                pot.0,
                chime.key()
            )]
        }
        Line::Happened(event) => {
            let Some(run) = machine.pot(event.pot) else {
                return Vec::new();
            };
            let at = clock(event.at);
            let mut lines: Vec<String> = said(run, event)
                .into_iter()
                .map(|said| format!("{at}  pot {}  {said}", event.pot.0))
                .collect();
            if moves_on(&event.what)
                && let Some(step) = run.step()
            {
                let prompt = act::prompt(&run.plan, step, Locale::plain(zone));
                lines.push(format!("{at}  pot {}  > {}", event.pot.0, prompt.line()));
                if !prompt.how.is_empty() {
                    lines.push(format!("{:22}{}", "", prompt.how));
                }
                if !prompt.caution.is_empty() {
                    lines.push(format!("{:22}! {}", "", prompt.caution));
                }
            }
            lines
        }
    }
}

const fn moves_on(what: &What) -> bool {
    matches!(
        what,
        What::BathBegun { .. } | What::StepDone { .. } | What::StepSkipped { .. } | What::TakenBack
    )
}

fn said(run: &PotRun, event: &Event) -> Option<String> {
    let plan = &run.plan;
    let named = |step: StepIndex| {
        plan.step(step)
            .map(|step| act::prompt(plan, step, Locale::plain(Utc.fix())))
    };
    match &event.what {
        What::BathBegun { plan, .. } => Some(format!("= begins: {}", plan.recipe_name)),
        What::StepDone { step, done } => {
            let slab = named(*step).map_or_else(|| "Done".to_owned(), |prompt| prompt.slab);
            let slab = if plan.step(*step).is_some_and(is_hold) {
                "Heat is off".to_owned()
            } else {
                slab
            };
            Some(format!("* {slab}{}", figure(*done)))
        }
        What::StepSkipped { reason, .. } => Some(format!("* skipped ({})", reason.id())),
        What::Turned { number: 0, .. } => Some("* Turned".into()),
        What::Turned { number, .. } => Some(format!("* Turned ({number})")),
        What::TurnMissed { number, .. } => Some(format!("  turn {number} missed")),
        What::NotYet { number, .. } => Some(format!("* not yet ({number})")),
        What::ReadingTaken { temperature } => Some(format!("* reading {}", words::celsius(*temperature))),
        What::HoldDropped { .. } => Some("  bath dropped: the hold stops counting".into()),
        What::HoldResumed { .. } => Some("* back at temperature: the hold counts on".into()),
        What::TakenBack => Some("* taken back".into()),
        What::CallRaised { call } => {
            let looks_for = run
                .step()
                .filter(|step| *call == CallKind::Look && step.act.kind() == StepKind::Look);
            let wanted = looks_for.map_or_else(
                || wanted(*call),
                |step| {
                    format!(
                        "LOOK: {}?",
                        act::prompt(plan, step, Locale::plain(Utc.fix())).object
                    )
                },
            );
            Some(format!("? {wanted} (chime {})", call.chime(call.urgency()).key()))
        }
        What::BathStopped => Some("= stopped".into()),
        What::BathClosed => Some("= closed; the record is sealed".into()),
        What::CallsHeard => Some("* heard, and looked at".into()),
        What::Beat | What::Returned { .. } | What::ReturnAnswered { .. } => None,
    }
}

const fn is_hold(step: &crate::sheet::plan::Step) -> bool {
    matches!(step.act, crate::sheet::plan::StepAct::Hold { .. })
}

fn figure(done: Done) -> String {
    match done {
        Done::AsPlanned | Done::Early => String::new(),
        Done::Weighed(mass) => format!(": {}", words::grams(mass)),
        Done::Read(temperature) => format!(": {}", words::celsius(temperature)),
    }
}

/// A call in words: what to do now.
#[must_use]
pub fn wanted(call: CallKind) -> String {
    match call {
        CallKind::Turn(number) => format!("TURN the goods, gently ({number})"),
        CallKind::Look => "LOOK: has it reached temperature?".into(),
        CallKind::ActDue => "DUE: the next act can be done".into(),
        CallKind::HoldOver => "READY: the hold is over; heat off".into(),
        CallKind::OverRun => "URGENT: the hold has run over; heat off".into(),
        CallKind::CoolEnough => "READY: it should be cool enough; measure".into(),
        CallKind::TooHot => "URGENT: above the ceiling; turn the heat down".into(),
        CallKind::HeatUnattended => "DUE: the heat is on; look at the pot".into(),
        CallKind::Returned => "URGENT: the program was away; answer its card".into(),
    }
}
