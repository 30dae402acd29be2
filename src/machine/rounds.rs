//! Turn rounds: the turns of several pots fall together where their windows allow, so that one walk to the stove does
//! them all.

use crate::craft::time::{Moment, Span};

use super::call::CallKind;
use super::event::{Event, What};
use super::pot::{PotNo, PotRun};

/// A turn may be asked for, and made, this long before its reminder.
pub const TURN_EARLY: Span = Span::from_minutes(4);

/// The facts, and with the first turn that is called the turns of other pots whose window is open already.
pub(super) fn gathered<'a>(
    facts: Vec<Event>,
    pots: impl Iterator<Item = &'a PotRun>,
    now: Moment,
) -> Vec<Event> {
    let calls_turn = |event: &Event| {
        matches!(
            event.what,
            What::CallRaised {
                call: CallKind::Turn(_)
            }
        )
    };
    if !facts.iter().any(calls_turn) {
        return facts;
    }
    let called: Vec<PotNo> = facts
        .iter()
        .filter(|event| calls_turn(event))
        .map(|event| event.pot)
        .collect();
    let joining = pots
        .filter(|run| !called.contains(&run.pot))
        .filter_map(|run| joins(run, now));
    let mut facts = facts;
    facts.extend(joining);
    facts
}

/// The turn call of a pot whose window is open, if it isn't called yet.
fn joins(run: &PotRun, now: Moment) -> Option<Event> {
    if run.stand.ended.is_some() || run.outage.is_some() || calls_turn(run) {
        return None;
    }
    let (number, at) = run.next_turn()?;
    let ahead = at.stretch == now.stretch && at.since(now) <= TURN_EARLY && at.steady_ms > now.steady_ms;
    ahead.then_some(Event {
        at: now,
        pot: run.pot,
        what: What::CallRaised {
            call: CallKind::Turn(number),
        },
    })
}

/// Whether a turn of this pot is called and not made.
#[must_use]
pub fn calls_turn(run: &PotRun) -> bool {
    run.stand
        .calls
        .iter()
        .any(|call| matches!(call.kind, CallKind::Turn(_)))
}

/// The pots whose turn is called, in order of their numbers.
pub fn round<'a>(pots: impl Iterator<Item = &'a PotRun>) -> Vec<PotNo> {
    pots.filter(|run| calls_turn(run)).map(|run| run.pot).collect()
}
