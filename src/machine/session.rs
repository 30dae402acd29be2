//! The machine: all pots of one stove, judged and changed one fact at a time.

use std::collections::BTreeMap;

use crate::craft::time::{Moment, Span};

use super::call::{CallKind, Urgency};
use super::chime::Chime;
use super::event::{Event, What};
use super::input::{Ask, Input};
use super::pot::{PotNo, PotRun};
use super::refusal::Refusal;
use super::rounds;
use super::rules;

/// All pots of one stove.
///
/// ```
/// # use potside::machine::{Input, Machine};
/// # use potside::craft::time::{Moment, Stretch};
/// let now = Moment { stretch: Stretch(0), steady_ms: 0, wall_ms: 0 };
/// let mut machine = Machine::default();
/// for event in machine.judge(&Input::Tick, now).unwrap() { machine.apply(&event) }
/// assert!(machine.next_deadline(now).is_none());
/// ```
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Machine {
    pots: BTreeMap<PotNo, PotRun>,
}

/// What a fact should bring about, asked only when it is fresh.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Effect {
    /// Sound this, for this pot.
    Ring(PotNo, Chime),
    /// Seal the record of the bath in this pot.
    Seal(PotNo),
}

/// Why the machine wants to be asked again at a moment.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Why {
    /// A call begins.
    CallBegins(PotNo, CallKind),
    /// A turn reminder has passed unanswered.
    TurnLapses(PotNo),
    /// A standing call sounds again.
    RingsAgain(PotNo, CallKind),
}

impl Machine {
    /// The pots with a bath, in order of their numbers; ended ones until another bath begins there.
    pub fn pots(&self) -> impl Iterator<Item = &PotRun> {
        self.pots.values()
    }

    /// The bath in a pot.
    #[must_use]
    pub fn pot(&self, pot: PotNo) -> Option<&PotRun> {
        self.pots.get(&pot)
    }

    /// The facts an input makes, or why it isn't taken. Changes nothing.
    pub fn judge(&self, input: &Input, now: Moment) -> Result<Vec<Event>, Refusal> {
        match input {
            Input::Begin {
                pot,
                bath_id,
                plan,
                cautions_read,
            } => rules::begin::judge(self.pot(*pot), *pot, bath_id, plan, *cautions_read, now),
            Input::Pot(pot, ask) => {
                let run = self.going(*pot)?;
                let facts = rules::hands::judge(run, ask, now)?;
                Ok(facts
                    .into_iter()
                    .map(|what| Event {
                        at: now,
                        pot: *pot,
                        what,
                    })
                    .collect())
            }
            Input::Tick => {
                let due = self.each_going(now, |run| rules::due::judge(run, now));
                Ok(rounds::gathered(due, self.pots(), now))
            }
            Input::TurnRound => self.turn_round(now),
            Input::Beat => Ok(self.each_going(now, |_| vec![What::Beat])),
            Input::Returned { at_least, at_most } => Ok(self.each_going(now, |_| {
                vec![What::Returned {
                    at_least: *at_least,
                    at_most: *at_most,
                }]
            })),
        }
    }

    /// Applies a fact. Can't fail.
    pub fn apply(&mut self, event: &Event) {
        if let What::BathBegun { bath_id, plan } = &event.what {
            self.pots
                .insert(event.pot, PotRun::begin(event.pot, bath_id, plan, event));
        } else if let Some(run) = self.pots.get_mut(&event.pot) {
            run.apply(event);
            debug_assert_eq!(super::promise::broken(run), None);
        }
    }

    /// What a fresh fact brings about. Never asked in a replay.
    #[must_use]
    pub fn effects(&self, event: &Event) -> Vec<Effect> {
        match &event.what {
            What::CallRaised { call } => {
                let urgency = self.urgency_of(event.pot, *call, event.at);
                vec![Effect::Ring(event.pot, call.chime(urgency))]
            }
            What::BathClosed | What::BathStopped => {
                vec![Effect::Ring(event.pot, Chime::Accepted), Effect::Seal(event.pot)]
            }
            What::BathBegun { .. }
            | What::StepDone { .. }
            | What::StepSkipped { .. }
            | What::Turned { .. }
            | What::NotYet { .. }
            | What::ReadingTaken { .. }
            | What::HoldResumed { .. }
            | What::TakenBack
            | What::ReturnAnswered { .. } => vec![Effect::Ring(event.pot, Chime::Accepted)],
            What::HoldDropped { .. }
            | What::TurnMissed { .. }
            | What::CallsHeard
            | What::Beat
            | What::Returned { .. } => Vec::new(),
        }
    }

    /// What should be sounding at `now`: asked after recovery, so that a call lost on the way rings again.
    #[must_use]
    pub fn standing(&self, now: Moment) -> Vec<Effect> {
        let mut calls: Vec<(Urgency, PotNo, Chime)> = Vec::new();
        for run in self.pots.values() {
            for call in &run.stand.calls {
                let urgency = call.urgency(run.beside(), now);
                calls.push((urgency, run.pot, call.kind.chime(urgency)));
            }
        }
        calls.sort_by(|one, other| other.0.cmp(&one.0).then(one.1.cmp(&other.1)));
        calls
            .into_iter()
            .map(|(_, pot, chime)| Effect::Ring(pot, chime))
            .collect()
    }

    /// The calls that sound again after `after` and up to `now`, most urgent first.
    #[must_use]
    pub fn rings(&self, after: Moment, now: Moment) -> Vec<Effect> {
        let mut rings: Vec<(Urgency, PotNo, Chime)> = Vec::new();
        for run in self.pots.values() {
            for call in &run.stand.calls {
                let due = call.next_ring(run.beside(), after);
                if due.is_some_and(|due| now.stretch == due.stretch && due.steady_ms <= now.steady_ms) {
                    let urgency = call.urgency(run.beside(), now);
                    rings.push((urgency, run.pot, call.kind.chime(urgency)));
                }
            }
        }
        rings.sort_by(|one, other| other.0.cmp(&one.0).then(one.1.cmp(&other.1)));
        rings
            .into_iter()
            .map(|(_, pot, chime)| Effect::Ring(pot, chime))
            .collect()
    }

    /// The next moment after `now` at which something falls due, and why. One alarm to set.
    #[must_use]
    pub fn next_deadline(&self, now: Moment) -> Option<(Moment, Why)> {
        let mut next: Option<(Moment, Why)> = None;
        for run in self.pots.values() {
            let begins = rules::due::coming(run).into_iter();
            let again = run.stand.calls.iter().filter_map(|call| {
                let at = call.next_ring(run.beside(), now)?;
                Some((at, Why::RingsAgain(run.pot, call.kind)))
            });
            for (at, why) in begins.chain(again) {
                if next
                    .as_ref()
                    .is_none_or(|(soonest, _)| at.steady_ms < soonest.steady_ms)
                {
                    next = Some((at, why));
                }
            }
        }
        next
    }

    /// Whether any pot has something timed going, so that a beat is worth writing.
    #[must_use]
    pub fn wants_beats(&self) -> bool {
        self.pots.values().any(|run| run.stand.ended.is_none())
    }

    /// Every pot whose turn is called was turned. None called is a refusal.
    fn turn_round(&self, now: Moment) -> Result<Vec<Event>, Refusal> {
        let mut facts = Vec::new();
        let counts_on = |run: &&PotRun| run.hold_over().is_some_and(|over| over.since(now) > Span::NONE);
        let called = self.pots.values().filter(|run| rounds::calls_turn(run));
        for run in called.filter(counts_on) {
            let turned = Ask::Confirm {
                step: run.stand.step,
                sure: false,
            };
            let what = rules::hands::judge(run, &turned, now)?;
            facts.extend(what.into_iter().map(|what| Event {
                at: now,
                pot: run.pot,
                what,
            }));
        }
        if facts.is_empty() {
            return Err(Refusal::NoTurnCalled);
        }
        Ok(facts)
    }

    fn going(&self, pot: PotNo) -> Result<&PotRun, Refusal> {
        self.pots
            .get(&pot)
            .filter(|run| run.stand.ended.is_none())
            .ok_or(Refusal::NoBath { pot })
    }

    fn each_going(&self, now: Moment, facts: impl Fn(&PotRun) -> Vec<What>) -> Vec<Event> {
        let going = self.pots.values().filter(|run| run.stand.ended.is_none());
        going
            .flat_map(|run| {
                facts(run).into_iter().map(|what| Event {
                    at: now,
                    pot: run.pot,
                    what,
                })
            })
            .collect()
    }

    fn urgency_of(&self, pot: PotNo, call: CallKind, now: Moment) -> Urgency {
        let standing = self.pots.get(&pot).and_then(|run| {
            let found = run.stand.calls.iter().find(|standing| standing.kind == call)?;
            Some(found.urgency(run.beside(), now))
        });
        standing.unwrap_or(call.urgency())
    }
}

/// How long the heat may stay unattended: twenty minutes, but never more than a turn and its grace.
#[must_use]
pub fn unattended_limit(turn_every: Option<Span>) -> Span {
    const LIMIT: Span = Span::from_minutes(20);
    const TURN_GRACE: Span = Span::from_minutes(5);
    turn_every.map_or(LIMIT, |every| every.plus(TURN_GRACE).min(LIMIT))
}
