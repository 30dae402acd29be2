//! The facts of a bath played once more, into its record.

use crate::craft::time::{Moment, Span};
use crate::machine::event::{Done, Event, What};
use crate::machine::session::Machine;
use crate::sheet::plan::StepIndex;

use super::{
    BathRecord, CallRecord, CorrectionRecord, DropRecord, NotYetRecord, OutageRecord, ReadingRecord,
    StepRecord, TurnRecord,
};

/// Time since the beginning of the bath: measured within a stretch, the least time away across an outage.
#[derive(Debug, Clone, Copy)]
struct Elapsed {
    at: Moment,
    span: Span,
}

impl Elapsed {
    const fn new(at: Moment) -> Self {
        Self { at, span: Span::NONE }
    }

    fn step(&mut self, event: &Event) {
        self.span = self.span.plus(event.at.since(self.at));
        if let What::Returned { at_least, .. } = event.what {
            self.span = self.span.plus(at_least);
        }
        self.at = event.at;
    }

    fn minutes(self) -> f64 {
        self.span.minutes()
    }
}

/// What *take back* undoes in the record.
enum Undoable {
    Step {
        before: Box<StepRecord>,
        next_began: Option<f64>,
        index: usize,
        /// It was left out by the same tap as the one before it.
        joined: bool,
    },
    /// Its place among the turns.
    Turn { place: usize },
    /// The last look that told of no sign.
    NotYet,
}

/// Plays the facts of a bath into the record of its plan.
pub(super) fn play(record: &mut BathRecord, begun: Moment, log: &[Event]) {
    Replay {
        record,
        machine: Machine::default(),
        elapsed: Elapsed::new(begun),
        acts: Vec::new(),
        before: None,
    }
    .play(log);
}

struct Replay<'a> {
    record: &'a mut BathRecord,
    machine: Machine,
    elapsed: Elapsed,
    acts: Vec<Undoable>,
    before: Option<Event>,
}

impl Replay<'_> {
    fn play(mut self, log: &[Event]) {
        for event in log {
            self.elapsed.step(event);
            self.note(event);
            self.machine.apply(event);
            self.before = Some(event.clone());
            if let What::BathBegun { .. } = event.what {
                self.began(0);
            }
        }
    }

    fn began(&mut self, index: usize) {
        let at = self.elapsed.minutes();
        if let Some(step) = self.record.steps.get_mut(index) {
            step.began_min = Some(at);
        }
    }

    fn note(&mut self, event: &Event) {
        let at_min = self.elapsed.minutes();
        match &event.what {
            What::StepDone { step, done } => self.finish(event, *step, |record| match done {
                Done::AsPlanned => {
                    record.how = "as-planned".into();
                    record.actual_g = record.planned.grams;
                }
                Done::Weighed(mass) => {
                    record.how = "weighed".into();
                    record.actual_g = Some(mass.grams());
                }
                Done::Read(temperature) => {
                    record.how = "read".into();
                    record.reading_c = Some(temperature.celsius());
                }
                Done::Early => record.how = "early".into(),
            }),
            What::StepSkipped { step, reason } => self.finish(event, *step, |record| {
                record.how = "skipped".into();
                record.reason = Some(reason.id().to_owned());
            }),
            What::Turned { step, number } => {
                let place = self.record.turns.len();
                self.record.turns.push(TurnRecord {
                    step: step.0.saturating_add(1),
                    number: *number,
                    at_min,
                    missed: false,
                });
                self.acts.push(Undoable::Turn { place });
            }
            What::TurnMissed { step, number } => {
                let step = step.0.saturating_add(1);
                let told = |turn: &TurnRecord| turn.missed && turn.step == step && turn.number == *number;
                // After a take-back the machine finds a missed reminder missed once more.
                if !self.record.turns.iter().any(told) {
                    self.record.turns.push(TurnRecord {
                        step,
                        number: *number,
                        at_min,
                        missed: true,
                    });
                }
            }
            What::NotYet { step, number } => {
                self.record.not_yet.push(NotYetRecord {
                    step: step.0.saturating_add(1),
                    number: *number,
                    at_min,
                });
                self.acts.push(Undoable::NotYet);
            }
            What::HoldDropped { step } => self.record.drops.push(DropRecord {
                step: step.0.saturating_add(1),
                at_min,
                back_min: None,
            }),
            What::HoldResumed { .. } => {
                if let Some(drop) = self.record.drops.last_mut() {
                    drop.back_min = Some(at_min);
                }
            }
            What::ReadingTaken { temperature } => {
                self.record.readings.push(ReadingRecord {
                    at_min,
                    celsius: temperature.celsius(),
                });
            }
            What::CallRaised { call } => self.record.calls.push(CallRecord {
                at_min,
                call: call.id(),
            }),
            What::TakenBack => self.undo(at_min),
            What::Returned { at_least, at_most } => self.record.outages.push(OutageRecord {
                back_min: at_min,
                at_least_min: at_least.minutes(),
                at_most_min: at_most.map(Span::minutes),
                answer: None,
            }),
            What::ReturnAnswered { answer } => {
                if let Some(outage) = self.record.outages.last_mut() {
                    outage.answer = Some(answer.id().to_owned());
                }
            }
            What::BathBegun { .. } | What::CallsHeard | What::Beat | What::BathStopped | What::BathClosed => {
            }
        }
    }

    fn finish(&mut self, event: &Event, step: StepIndex, say: impl FnOnce(&mut StepRecord)) {
        let ended = self.elapsed.minutes();
        let held = self
            .machine
            .pot(event.pot)
            .and_then(|run| run.stand.hold)
            .map(|hold| hold.held.at(event.at));
        let before = self.before.as_ref();
        let joined = before.is_some_and(|before| event.is_of_one_skip(before));
        let next = step.0.saturating_add(1);
        let next_began = self.record.steps.get(next).and_then(|next| next.began_min);
        if let Some(record) = self.record.steps.get_mut(step.0) {
            self.acts.push(Undoable::Step {
                before: Box::new(record.clone()),
                next_began,
                index: step.0,
                joined,
            });
            record.ended_min = Some(ended);
            record.ended_wall_ms = Some(event.at.wall_ms);
            record.held_min = held.map(Span::minutes);
            say(record);
        }
        self.began(next);
    }

    fn undo(&mut self, at_min: f64) {
        match self.acts.pop() {
            Some(Undoable::Step {
                before,
                next_began,
                index,
                joined,
            }) => {
                if let Some(next) = self.record.steps.get_mut(index.saturating_add(1)) {
                    next.began_min = next_began;
                }
                if let Some(record) = self.record.steps.get_mut(index) {
                    let was = match record.actual_g {
                        Some(grams) => format!("{} {grams} g", record.how),
                        None => record.how.clone(),
                    };
                    self.record.taken_back.push(CorrectionRecord {
                        at_min,
                        step: record.number,
                        was,
                    });
                    *record = *before;
                }
                if joined {
                    self.undo(at_min);
                }
            }
            // Reminders missed since then were missed all the same; what stands behind it stays.
            Some(Undoable::Turn { place }) if place < self.record.turns.len() => {
                let turn = self.record.turns.remove(place);
                self.record.taken_back.push(CorrectionRecord {
                    at_min,
                    step: turn.step,
                    was: format!("turn {}", turn.number),
                });
            }
            Some(Undoable::NotYet) => {
                if let Some(look) = self.record.not_yet.pop() {
                    self.record.taken_back.push(CorrectionRecord {
                        at_min,
                        step: look.step,
                        was: format!("not yet, look {}", look.number),
                    });
                }
            }
            Some(Undoable::Turn { .. }) | None => {}
        }
    }
}
