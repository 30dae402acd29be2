//! A bath on fast time with dry hands: the same machine, a clock that jumps, and hands that do everything as planned.

use std::sync::Arc;

use crate::craft::time::{Moment, Span};
use crate::sheet::plan::{Plan, StepAct};

use super::call::CallKind;
use super::event::Event;
use super::input::{Ask, Input};
use super::pot::{PotNo, PotRun};
use super::refusal::Refusal;
use super::session::{Effect, Machine};

/// Hands are there this soon after a turn call.
const TO_THE_POT: Span = Span::from_seconds(20);

/// One line of a rehearsal.
#[derive(Debug, Clone, PartialEq)]
pub enum Line {
    /// A fact.
    Happened(Event),
    /// A standing call sounds again.
    RangAgain(Moment, PotNo, super::chime::Chime),
}

/// Plays a whole bath and tells each line to `told`, together with the machine as it then stands.
///
/// The same plan and start give the same lines. Fails only when the machine refuses what it asked for itself.
pub fn play(
    plan: &Arc<Plan>,
    start: Moment,
    mut told: impl FnMut(&Line, &Machine),
) -> Result<Machine, Refusal> {
    let pot = PotNo(1);
    let mut machine = Machine::default();
    let begin = Input::Begin {
        pot,
        bath_id: "rehearsal".into(),
        plan: Arc::clone(plan),
        cautions_read: true,
    };
    take(&mut machine, &begin, start, &mut told)?;
    let mut now = start;
    while let Some((at, ask)) = machine.pot(pot).and_then(|run| hands(run, now)) {
        match machine
            .next_deadline(now)
            .filter(|(due, _)| due.steady_ms < at.steady_ms)
        {
            Some((due, _)) => {
                let due = later_of(due, now);
                for effect in machine.rings(now, due) {
                    match effect {
                        Effect::Ring(pot, chime) => told(&Line::RangAgain(due, pot, chime), &machine),
                        Effect::Seal(_) => {}
                    }
                }
                now = due;
                take(&mut machine, &Input::Tick, now, &mut told)?;
            }
            None => {
                now = later_of(at, now);
                take(&mut machine, &Input::Pot(pot, ask), now, &mut told)?;
            }
        }
    }
    Ok(machine)
}

const fn later_of(one: Moment, other: Moment) -> Moment {
    if one.steady_ms > other.steady_ms {
        one
    } else {
        other
    }
}

fn take(
    machine: &mut Machine,
    input: &Input,
    now: Moment,
    told: &mut impl FnMut(&Line, &Machine),
) -> Result<(), Refusal> {
    for event in machine.judge(input, now)? {
        machine.apply(&event);
        told(&Line::Happened(event), machine);
    }
    Ok(())
}

/// What the hands do next at this pot, and when; `None` when the bath has ended.
fn hands(run: &PotRun, now: Moment) -> Option<(Moment, Ask)> {
    let confirm = (
        confirms(run, now)?,
        Ask::Confirm {
            step: run.stand.step,
            sure: true,
        },
    );
    let unattended = run
        .stand
        .calls
        .iter()
        .find(|call| call.kind == CallKind::HeatUnattended);
    match unattended.map(|call| call.since.plus(TO_THE_POT)) {
        Some(at) if at.steady_ms < confirm.0.steady_ms => Some((at, Ask::Heard)),
        Some(_) | None => Some(confirm),
    }
}

/// When the hands confirm the current step, or the next turn in it.
fn confirms(run: &PotRun, now: Moment) -> Option<Moment> {
    let step = run.step()?;
    let after_usual = run.stand.waited.reaches(step.usual.likely).or(Some(now));
    match &step.act {
        StepAct::Hold { span, .. } => {
            let hold = run.stand.hold?;
            let over = hold.held.reaches(*span).map(|at| at.plus(TO_THE_POT));
            let turn = super::rules::next_turn_moment(run).map(|at| at.plus(TO_THE_POT));
            match (turn, over) {
                (Some(turn), Some(over)) if turn.steady_ms < over.steady_ms => Some(turn),
                (_, over) => over,
            }
        }
        StepAct::Look { .. } => super::rules::next_look(run).map(|at| at.plus(TO_THE_POT)),
        StepAct::Enter { .. } => {
            let soaked = super::rules::soaked_at(run).map(|at| at.plus(TO_THE_POT));
            match (after_usual, soaked) {
                (Some(usual), Some(soaked)) => Some(later_of(usual, soaked)),
                (usual, _) => usual,
            }
        }
        StepAct::WetOut { .. }
        | StepAct::Weigh { .. }
        | StepAct::Fill { .. }
        | StepAct::Dissolve { .. }
        | StepAct::Add { .. }
        | StepAct::Strain { .. }
        | StepAct::Raise { .. }
        | StepAct::Cool { .. }
        | StepAct::Lift
        | StepAct::Squeeze
        | StepAct::Dip { .. }
        | StepAct::Rinse { .. }
        | StepAct::Air { .. }
        | StepAct::Rest { .. }
        | StepAct::Dry
        | StepAct::Shelve => after_usual,
    }
}
