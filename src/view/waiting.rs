//! What one pot waits for now: a call that stands, a moment, or hands. One answer for every screen.

use crate::craft::quantity::Band;
use crate::craft::time::{Moment, Span};
use crate::machine::PotRun;
use crate::machine::call::{CallKind, Standing, Urgency};
use crate::machine::pot::Ended;
use crate::sheet::plan::StepAct;

use super::course;
use super::history::History;

/// What it waits for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Waiting {
    /// Nothing: it has ended.
    Ended(Ended),
    /// An answer to the return card.
    Answer,
    /// Hands, because of this call.
    Call(CallKind),
    /// The next turn of a hold, by its number.
    Turn(u32, Moment),
    /// The end of a hold.
    HoldEnd(Moment),
    /// The bath to be back at the temperature of its hold.
    Reheating,
    /// The bath to warm or cool: at the soonest, likely, at the latest.
    Heat(Band<Moment>),
    /// The bath to get there; nobody knows when.
    HeatUnknown,
    /// The goods to be soaked.
    Soak(Moment),
    /// A rest, an airing or a dip to be over.
    Rest(Moment),
    /// The time to look for a sign.
    Look(Moment),
    /// The goods to dry.
    Drying,
    /// Hands, in their own time.
    Hands,
}

/// What a pot waits for.
pub(super) fn of(run: &PotRun, now: Moment) -> Waiting {
    if let Some(how) = run.stand.ended {
        return Waiting::Ended(how);
    }
    if run.outage.is_some() {
        return Waiting::Answer;
    }
    if let Some(call) = foremost(run, now) {
        return Waiting::Call(call.kind);
    }
    match run.step().map(|step| &step.act) {
        Some(StepAct::Raise { come_up: band, .. } | StepAct::Cool { cool_down: band, .. }) => {
            if band.is_some() {
                Waiting::Heat(expected(run, now))
            } else {
                Waiting::HeatUnknown
            }
        }
        Some(StepAct::Hold { .. }) => {
            let over = run.hold_over();
            match (run.next_turn(), over) {
                (Some((number, turn)), Some(over)) if turn.steady_ms < over.steady_ms => {
                    Waiting::Turn(number, turn)
                }
                (_, Some(over)) => Waiting::HoldEnd(over),
                (_, None) => Waiting::Reheating,
            }
        }
        Some(StepAct::Enter { .. }) => match run.soaked_at() {
            Some(at) if at.since(now) > Span::NONE => Waiting::Soak(at),
            Some(_) | None => Waiting::Hands,
        },
        Some(StepAct::Look { .. }) => run.next_look().map_or(Waiting::Hands, Waiting::Look),
        Some(StepAct::Air { span } | StepAct::Rest { span } | StepAct::Dip { under: span, .. }) => run
            .stand
            .waited
            .reaches(*span)
            .map_or(Waiting::Hands, Waiting::Rest),
        Some(StepAct::Dry) => Waiting::Drying,
        Some(
            StepAct::WetOut { .. }
            | StepAct::Weigh { .. }
            | StepAct::Fill { .. }
            | StepAct::Dissolve { .. }
            | StepAct::Add { .. }
            | StepAct::Strain { .. }
            | StepAct::Lift
            | StepAct::Squeeze
            | StepAct::Rinse { .. }
            | StepAct::Shelve,
        )
        | None => Waiting::Hands,
    }
}

/// When a bath that warms or cools should be there.
pub(super) fn expected(run: &PotRun, now: Moment) -> Band<Moment> {
    let history = History::of(run);
    let minutes = history.minutes(now);
    course::left_of_step(run, &history, now, minutes)
        .map(|left| now.plus(Span::from_fractional_minutes(left)))
}

/// The call that stands before the others of its pot. Heat left alone comes last, however urgent it grew: whoever
/// comes for the other call has come for this one too.
pub(super) fn foremost(run: &PotRun, now: Moment) -> Option<&Standing> {
    run.stand.calls.iter().max_by_key(|call| {
        let says_more = call.kind != CallKind::HeatUnattended;
        (says_more, call.urgency(run.beside(), now), rank(call.kind))
    })
}

/// Of two calls as urgent as each other, the greater says more of what to do.
const fn rank(call: CallKind) -> u8 {
    match call {
        CallKind::HeatUnattended => 0,
        CallKind::Turn(_) => 1,
        CallKind::ActDue => 2,
        CallKind::CoolEnough => 3,
        CallKind::Look => 4,
        CallKind::HoldOver => 5,
        CallKind::OverRun => 6,
        CallKind::TooHot => 7,
        CallKind::Returned => 8,
    }
}

/// Whether a call stands that the dyer hasn't heard, or that has been quiet for long enough.
pub(super) fn is_calling(run: &PotRun, now: Moment) -> bool {
    run.stand.calls.iter().any(|call| is_loud(call, now))
}

fn is_loud(call: &Standing, now: Moment) -> bool {
    call.quiet_until
        .is_none_or(|until| until.stretch != now.stretch || until.steady_ms <= now.steady_ms)
}

/// How pressing a pot is among the others, the greatest first; `None` when it waits for nobody.
pub(super) fn pressing(run: &PotRun, now: Moment) -> Option<Pressing> {
    let waiting = of(run, now);
    let calls = run.stand.calls.iter();
    if let Some(call) = calls.max_by_key(|call| (is_loud(call, now), call.urgency(run.beside(), now))) {
        let urgency = call.urgency(run.beside(), now);
        return Some(Pressing::Call(is_loud(call, now), urgency, now.since(call.since)));
    }
    let left = match waiting {
        Waiting::Ended(_) => return None,
        Waiting::Answer => return Some(Pressing::Call(true, Urgency::Urgent, Span::NONE)),
        Waiting::Call(_) | Waiting::Hands => Span::NONE,
        Waiting::Turn(_, at)
        | Waiting::HoldEnd(at)
        | Waiting::Soak(at)
        | Waiting::Rest(at)
        | Waiting::Look(at) => at.since(now),
        Waiting::Heat(band) => band.low.since(now),
        Waiting::Reheating | Waiting::HeatUnknown => Span::from_minutes(5),
        Waiting::Drying => return Some(Pressing::Someday),
    };
    Some(Pressing::In(std::cmp::Reverse(left)))
}

/// How pressing: the greater wants hands first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Pressing {
    /// No hurry at all.
    Someday,
    /// In so long.
    In(std::cmp::Reverse<Span>),
    /// A call: whether it may sound, how urgent it is, for how long it has stood.
    Call(bool, Urgency, Span),
}
