//! What falls due by time alone: calls begin, turn reminders lapse.

use crate::craft::time::{Moment, Span};
use crate::machine::call::CallKind;
use crate::machine::event::What;
use crate::machine::pot::{HoldState, PotRun};
use crate::machine::session::{Why, unattended_limit};
use crate::sheet::plan::StepAct;

/// A hold may run over by this before it becomes urgent.
const OVER_RUN: Span = Span::from_minutes(10);

/// No turn is asked for in the last minutes of a hold: the goods are looked at when it ends.
const NO_TURN_BEFORE_END: Span = Span::from_minutes(3);

/// The facts that `now` makes in one pot.
pub(in crate::machine) fn judge(run: &PotRun, now: Moment) -> Vec<What> {
    let mut facts = Vec::new();
    for (at, why) in coming(run) {
        if at.stretch != now.stretch || at.steady_ms > now.steady_ms {
            continue;
        }
        match why {
            Why::CallBegins(_, call) => facts.push(What::CallRaised { call }),
            Why::TurnLapses(_) => {
                if let Some(hold) = run.stand.hold {
                    let number = hold.turns_settled.saturating_add(1);
                    facts.push(What::TurnMissed {
                        step: run.stand.step,
                        number,
                    });
                }
            }
            Why::RingsAgain(_, _) => {}
        }
    }
    facts
}

/// Everything that will fall due in one pot if nothing happens, soon or late.
pub(in crate::machine) fn coming(run: &PotRun) -> Vec<(Moment, Why)> {
    let mut due: Vec<(Moment, Why)> = Vec::new();
    if run.stand.ended.is_some() {
        return due;
    }
    if let Some(outage) = run.outage {
        due.push((outage.back, Why::CallBegins(run.pot, CallKind::Returned)));
    } else {
        let begins = |at: Moment, kind| (at, Why::CallBegins(run.pot, kind));
        due.extend(of_step(run).into_iter().map(|(at, kind)| begins(at, kind)));
        due.extend(turn_lapse(run).map(|at| (at, Why::TurnLapses(run.pot))));
        if run.stand.burner_on {
            due.push(begins(
                run.last_touch.plus(unattended_limit(turn_every(run))),
                CallKind::HeatUnattended,
            ));
        }
    }
    due.retain(|(_, why)| !already_called(run, *why));
    due
}

fn already_called(run: &PotRun, why: Why) -> bool {
    match why {
        Why::CallBegins(_, kind) => run.stand.calls.iter().any(|call| call.kind == kind),
        Why::TurnLapses(_) | Why::RingsAgain(_, _) => false,
    }
}

/// The calls of the current step.
fn of_step(run: &PotRun) -> Vec<(Moment, CallKind)> {
    let Some(step) = run.step() else { return Vec::new() };
    let waited = run.stand.waited;
    match &step.act {
        StepAct::Raise { come_up, .. } => {
            let early = come_up.map_or(Span::from_minutes(10), |band| band.low);
            waited
                .reaches(early)
                .map(|at| (at, CallKind::Look))
                .into_iter()
                .collect()
        }
        StepAct::Hold { span, turn_every, .. } => run
            .stand
            .hold
            .map_or_else(Vec::new, |hold| of_hold(hold, *span, *turn_every)),
        StepAct::Cool { cool_down, .. } => {
            let usual = cool_down.map_or(Span::from_minutes(720), |band| band.likely);
            waited
                .reaches(usual)
                .map(|at| (at, CallKind::CoolEnough))
                .into_iter()
                .collect()
        }
        StepAct::Look { .. } => next_look(run)
            .map(|at| (at, CallKind::Look))
            .into_iter()
            .collect(),
        StepAct::Air { span } | StepAct::Rest { span } | StepAct::Dip { under: span, .. } => waited
            .reaches(*span)
            .map(|at| (at, CallKind::ActDue))
            .into_iter()
            .collect(),
        // Goods that were soaked on arrival call nobody. An arrival before an outage is no measure of that.
        StepAct::Enter { .. } => soaked_at(run)
            .filter(|at| at.stretch != run.stand.arrived.stretch || at.since(run.stand.arrived) > Span::NONE)
            .map(|at| (at, CallKind::ActDue))
            .into_iter()
            .collect(),
        StepAct::WetOut { .. }
        | StepAct::Weigh { .. }
        | StepAct::Fill { .. }
        | StepAct::Dissolve { .. }
        | StepAct::Add { .. }
        | StepAct::Strain { .. }
        | StepAct::Lift
        | StepAct::Squeeze
        | StepAct::Rinse { .. }
        | StepAct::Dry
        | StepAct::Shelve => Vec::new(),
    }
}

/// The calls of a hold: the next turn, its end, and its over-run. A hold that is being heated again asks whether
/// it is back at temperature.
fn of_hold(hold: HoldState, span: Span, turn_every: Option<Span>) -> Vec<(Moment, CallKind)> {
    let mut calls: Vec<(Moment, CallKind)> = Vec::new();
    if let Some(number) = next_turn(hold, span, turn_every) {
        let at = turn_every.and_then(|every| hold.held.reaches(times(every, number)));
        calls.extend(at.map(|at| (at, CallKind::Turn(number))));
    }
    calls.extend(hold.held.reaches(span).map(|at| (at, CallKind::HoldOver)));
    calls.extend(
        hold.held
            .reaches(span.plus(OVER_RUN))
            .map(|at| (at, CallKind::OverRun)),
    );
    calls
}

/// The number of the next turn reminder, or `None` when no more come in this hold.
pub(in crate::machine) fn next_turn(hold: HoldState, span: Span, turn_every: Option<Span>) -> Option<u32> {
    let number = hold.turns_settled.saturating_add(1);
    let due = times(turn_every?, number);
    (due.plus(NO_TURN_BEFORE_END) <= span).then_some(number)
}

/// How far into a hold each reminder comes; at most a hundred, which no hold that is turned by hand has.
pub(in crate::machine) fn turns(span: Span, turn_every: Option<Span>) -> Vec<Span> {
    const MOST: u32 = 100;
    let settled = |turns_settled| HoldState {
        turns_settled,
        ..HoldState::default()
    };
    let number = |settled_before| next_turn(settled(settled_before), span, turn_every);
    (0..MOST)
        .map_while(number)
        .filter_map(|number| Some(times(turn_every?, number)))
        .collect()
}

/// When the goods are to be turned next.
pub(in crate::machine) fn next_turn_moment(run: &PotRun) -> Option<Moment> {
    let (hold, (span, turn_every)) = (run.stand.hold?, hold_times(run)?);
    let number = next_turn(hold, span, turn_every)?;
    hold.held.reaches(times(turn_every?, number))
}

/// A reminder lapses when the next one is due, or when the hold ends.
fn turn_lapse(run: &PotRun) -> Option<Moment> {
    let (hold, (span, turn_every)) = (run.stand.hold?, hold_times(run)?);
    let number = next_turn(hold, span, turn_every)?;
    let lapses = times(turn_every?, number.saturating_add(1)).min(span);
    hold.held.reaches(lapses)
}

/// When the sign of the current step is to be looked for next.
pub(in crate::machine) fn next_look(run: &PotRun) -> Option<Moment> {
    if let StepAct::Look { after, again, .. } = &run.step()?.act {
        let wait = if run.stand.not_yet == 0 { after } else { again };
        run.stand.waited.reaches(*wait)
    } else {
        None
    }
}

/// Whether the goods of the current step have been in the bath before; they are wet, whatever the soak says.
pub(in crate::machine) fn have_been_in(run: &PotRun) -> bool {
    run.plan
        .steps
        .iter()
        .take(run.stand.step.0)
        .rev()
        .take_while(|step| !matches!(step.act, StepAct::WetOut { .. }))
        .any(|step| matches!(step.act, StepAct::Enter { .. }))
}

/// When the goods will have soaked long enough.
pub(in crate::machine) fn soaked_at(run: &PotRun) -> Option<Moment> {
    run.stand.soak?.reaches(soak_least(run)?)
}

/// How long the goods should soak.
pub(in crate::machine) fn soak_least(run: &PotRun) -> Option<Span> {
    run.plan.steps.iter().find_map(|step| {
        if let StepAct::WetOut { least } = step.act {
            Some(least)
        } else {
            None
        }
    })
}

/// Span and turn interval of the current hold.
pub(in crate::machine) fn hold_times(run: &PotRun) -> Option<(Span, Option<Span>)> {
    if let StepAct::Hold { span, turn_every, .. } = run.step()?.act {
        Some((span, turn_every))
    } else {
        None
    }
}

fn turn_every(run: &PotRun) -> Option<Span> {
    hold_times(run).and_then(|(_, every)| every)
}

const fn times(span: Span, count: u32) -> Span {
    let mut total = Span::NONE;
    let mut left = count;
    while left > 0 {
        total = total.plus(span);
        left = left.saturating_sub(1);
    }
    total
}
