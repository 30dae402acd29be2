//! What really happened in one pot, on one scale of minutes: each step with its begin and end, readings, turns.
//!
//! Acts that were taken back are left out, as are their marks. Time away counts with what is known of it.

use std::collections::BTreeMap;

use crate::craft::quantity::Temperature;
use crate::craft::time::{Moment, Span, Stretch};
use crate::machine::PotRun;
use crate::machine::event::{Done, Event, What};
use crate::sheet::plan::StepIndex;

/// One step as it went, in minutes from the begin of the bath.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Went {
    pub(super) step: StepIndex,
    pub(super) begins: f64,
    /// `None` while it is the current one.
    pub(super) ends: Option<f64>,
    pub(super) skipped: bool,
    /// The reading that ended it.
    pub(super) read: Option<Temperature>,
}

/// A reading of the thermometer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Reading {
    pub(super) at: f64,
    pub(super) celsius: f64,
}

/// All of it.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct History {
    pub(super) steps: Vec<Went>,
    pub(super) readings: Vec<Reading>,
    /// When the goods were turned.
    pub(super) turns: Vec<f64>,
    /// When the last fact was.
    pub(super) last: f64,
    scale: Scale,
}

impl History {
    /// The history of a bath.
    pub(super) fn of(run: &PotRun) -> Self {
        let mut history = Self::default();
        let mut undo: Vec<Undo> = Vec::new();
        let mut before: Option<&Event> = None;
        for event in &run.log {
            let at = history.scale.take(event);
            history.last = history.last.max(at);
            history.take(event, at, &mut undo);
            if before.is_some_and(|before| event.is_of_one_skip(before)) {
                undo.pop();
                undo.push(Undo::SameTap);
            }
            before = Some(event);
        }
        history
    }

    /// A moment on this scale; nothing before the begin.
    pub(super) fn minutes(&self, at: Moment) -> f64 {
        self.scale.minutes(at).max(0.0)
    }

    /// How a step went, once it was the current one.
    pub(super) fn step(&self, step: StepIndex) -> Option<&Went> {
        self.steps.iter().rev().find(|went| went.step == step)
    }

    fn take(&mut self, event: &Event, at: f64, undo: &mut Vec<Undo>) {
        match &event.what {
            What::BathBegun { .. } => self.begin(StepIndex(0), at),
            What::StepDone { step, done } => {
                let read = match done {
                    Done::Read(temperature) => Some(*temperature),
                    Done::AsPlanned | Done::Weighed(_) | Done::Early => None,
                };
                self.next(*step, at, false, read);
                undo.push(Undo::Step);
            }
            What::StepSkipped { step, .. } => {
                self.next(*step, at, true, None);
                undo.push(Undo::Step);
            }
            What::Turned { .. } => {
                self.turns.push(at);
                undo.push(Undo::Turn);
            }
            What::NotYet { .. } => undo.push(Undo::NotYet),
            What::ReadingTaken { temperature } => self.readings.push(Reading {
                at,
                celsius: temperature.celsius(),
            }),
            What::TakenBack => {
                while let Some(Undo::SameTap) = undo.last() {
                    undo.pop();
                    self.back();
                }
                match undo.pop() {
                    Some(Undo::Step) => self.back(),
                    Some(Undo::Turn) => {
                        self.turns.pop();
                    }
                    Some(Undo::NotYet | Undo::SameTap) | None => {}
                }
            }
            What::BathStopped | What::BathClosed => {
                if let Some(went) = self.steps.last_mut() {
                    went.ends = went.ends.or(Some(at));
                }
            }
            What::TurnMissed { .. }
            | What::HoldDropped { .. }
            | What::HoldResumed { .. }
            | What::CallRaised { .. }
            | What::CallsHeard
            | What::Beat
            | What::Returned { .. }
            | What::ReturnAnswered { .. } => {}
        }
    }

    fn begin(&mut self, step: StepIndex, at: f64) {
        self.steps.push(Went {
            step,
            begins: at,
            ends: None,
            skipped: false,
            read: None,
        });
    }

    fn next(&mut self, step: StepIndex, at: f64, skipped: bool, read: Option<Temperature>) {
        if let Some(went) = self.steps.last_mut() {
            went.ends = Some(at);
            went.skipped = skipped;
            went.read = read;
        }
        self.begin(StepIndex(step.0.saturating_add(1)), at);
    }

    fn back(&mut self) {
        self.steps.pop();
        if let Some(went) = self.steps.last_mut() {
            went.ends = None;
            went.skipped = false;
            went.read = None;
        }
    }
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Undo {
    Step,
    /// A step left out by the same tap as the one before it.
    SameTap,
    Turn,
    NotYet,
}

/// Minutes from the begin, through any number of stretches.
#[derive(Debug, Clone, PartialEq, Default)]
struct Scale {
    /// For each stretch its first moment and where that lies.
    stretches: BTreeMap<Stretch, (u64, f64)>,
    last: Option<(Moment, f64)>,
}

impl Scale {
    /// Places a fact, and its stretch when it is the first of one.
    fn take(&mut self, event: &Event) -> f64 {
        let at = event.at;
        if !self.stretches.contains_key(&at.stretch) {
            let begins = match self.last {
                Some((last, minutes)) => minutes + away(last, event),
                None => 0.0,
            };
            self.stretches.insert(at.stretch, (at.steady_ms, begins));
        }
        let minutes = self.minutes(at);
        self.last = Some((at, minutes));
        minutes
    }

    fn minutes(&self, at: Moment) -> f64 {
        match self.stretches.get(&at.stretch) {
            Some((first, begins)) => begins + minutes_between(*first, at.steady_ms),
            // A stretch of which nothing is known yet: it stands where the last fact stood.
            None => self.last.map_or(0.0, |(_, minutes)| minutes),
        }
    }
}

/// The time between the last fact of one stretch and the first of the next: what the wall clocks say where both were
/// known, else the least it can have been, as in the record.
fn away(last: Moment, event: &Event) -> f64 {
    let What::Returned { at_least, at_most } = &event.what else {
        return 0.0;
    };
    let Some(at_most) = at_most else {
        return at_least.minutes();
    };
    let wall = event.at.wall_ms.saturating_sub(last.wall_ms);
    let wall = u64::try_from(wall).map_or(*at_least, Span::from_ms);
    wall.min(*at_most).max(*at_least).minutes()
}

fn minutes_between(earlier_ms: u64, later_ms: u64) -> f64 {
    let ahead = Span::from_ms(later_ms.saturating_sub(earlier_ms)).minutes();
    let behind = Span::from_ms(earlier_ms.saturating_sub(later_ms)).minutes();
    ahead - behind
}
