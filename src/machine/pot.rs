//! One pot with a bath going: where it stands, and how each fact changes that.

use std::sync::Arc;

use crate::craft::quantity::Temperature;
use crate::craft::time::{Moment, Span};
use crate::sheet::plan::{Plan, Step, StepAct, StepIndex, StepKind};

use super::call::{Beside, CallKind, Standing};
use super::clock::Served;
use super::event::{Done, Event, What};
use super::input::ReturnAnswer;

/// The number painted on a pot, from 1.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct PotNo(pub u8);

/// A hold in progress.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct HoldState {
    /// Time held at temperature.
    pub held: Served,
    /// The highest reminder that was answered or missed.
    pub turns_settled: u32,
    /// Reminders missed in a row.
    pub missed_in_a_row: u32,
    /// The bath dropped and is being heated again; nothing counts.
    pub reheating: bool,
}

/// What the program knows of the time it was away.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Outage {
    /// The last moment that was recorded before.
    pub last: Moment,
    /// When it was back.
    pub back: Moment,
    /// Away at least this long.
    pub at_least: Span,
    /// And at most this long, if known.
    pub at_most: Option<Span>,
}

impl Outage {
    /// This outage and one that followed it, with the time in between, in which nobody said what the heat did.
    fn and_then(self, later: Self) -> Self {
        let between = later.last.since(self.back);
        let sum = |one: Span, other: Span| one.plus(between).plus(other);
        let most = self.at_most.zip(later.at_most);
        Self {
            last: self.last,
            back: later.back,
            at_least: sum(self.at_least, later.at_least),
            at_most: most.map(|(one, other)| sum(one, other)),
        }
    }

    /// Whether a moment lies after the return: in the same stretch a suspend leaves moments of before behind it.
    #[must_use]
    pub fn is_over_at(self, at: Moment) -> bool {
        at.stretch == self.back.stretch && at.steady_ms >= self.back.steady_ms
    }
}

/// Where a bath stands. What can be taken back is exactly this.
#[derive(Debug, Clone, PartialEq)]
pub struct Standpoint {
    /// The current step.
    pub step: StepIndex,
    /// When the current step became the current one.
    pub arrived: Moment,
    /// Time spent in the current step.
    pub waited: Served,
    /// The hold, while the current step is one.
    pub hold: Option<HoldState>,
    /// How often the sign of the current step was looked for and not there.
    pub not_yet: u32,
    /// How long the goods have been soaking, once they were put to soak.
    pub soak: Option<Served>,
    /// Whether the burner should be on.
    pub burner_on: bool,
    /// Whether the pot is filled.
    pub filled: bool,
    /// Whether the goods are in the bath.
    pub goods_in: bool,
    /// How many bags of dyestuff are in the bath.
    pub bags_in: usize,
    /// Calls that have begun and aren't answered.
    pub calls: Vec<Standing>,
    /// Whether the bath has ended, and how.
    pub ended: Option<Ended>,
}

/// How a bath ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ended {
    /// It went to its last step.
    Closed,
    /// It was stopped before.
    Stopped,
}

/// A bath in a pot: plan, standpoint, and all that happened.
#[derive(Debug, Clone, PartialEq)]
pub struct PotRun {
    /// Its number.
    pub pot: PotNo,
    /// The id under which it is kept.
    pub bath_id: String,
    /// What was computed.
    pub plan: Arc<Plan>,
    /// Where it stands.
    pub stand: Standpoint,
    /// The standpoints that *take back* returns to, newest last.
    undo: Vec<Standpoint>,
    /// All facts but the beats, in order.
    pub log: Vec<Event>,
    /// The moment of the last fact, beats included.
    pub last_at: Moment,
    /// When hands last touched this pot on the screen.
    pub last_touch: Moment,
    /// The last reading of the thermometer.
    pub last_reading: Option<(Moment, Temperature)>,
    /// An outage whose question is open.
    pub outage: Option<Outage>,
    /// When the program was last back from being away, by a restart or a suspend; else when the bath began.
    awake_since: Moment,
}

/// How many acts can be taken back.
const UNDO_DEPTH: usize = 20;

impl PotRun {
    /// A bath that begins with its first step.
    pub(super) fn begin(pot: PotNo, bath_id: &str, plan: &Arc<Plan>, event: &Event) -> Self {
        let at = event.at;
        let mut run = Self {
            pot,
            bath_id: bath_id.to_owned(),
            plan: Arc::clone(plan),
            stand: Standpoint {
                step: StepIndex(0),
                arrived: at,
                waited: Served::from(at),
                hold: None,
                not_yet: 0,
                soak: None,
                burner_on: false,
                filled: false,
                goods_in: false,
                bags_in: 0,
                calls: Vec::new(),
                ended: None,
            },
            undo: Vec::new(),
            log: vec![event.clone()],
            last_at: at,
            last_touch: at,
            last_reading: None,
            outage: None,
            awake_since: at,
        };
        run.arrive(at);
        run
    }

    /// The current step, or `None` when the bath has ended.
    #[must_use]
    pub fn step(&self) -> Option<&Step> {
        if self.stand.ended.is_some() {
            None
        } else {
            self.plan.step(self.stand.step)
        }
    }

    /// Whether an act can be taken back.
    #[must_use]
    pub fn can_take_back(&self) -> bool {
        self.stand.ended.is_none() && !self.undo.is_empty()
    }

    /// Applies a fact. Reads only the state and the fact; can't fail.
    pub(super) fn apply(&mut self, event: &Event) {
        let at = event.at;
        match &event.what {
            What::BathBegun { .. } => {}
            What::StepDone { step, done } => {
                self.remember();
                self.finish(*step, at);
                if let Done::Read(temperature) = done {
                    self.last_reading = Some((at, *temperature));
                }
            }
            What::StepSkipped { .. } => {
                // Steps left out by one tap are taken back by one.
                if !self.log.last().is_some_and(|before| event.is_of_one_skip(before)) {
                    self.remember();
                }
                if self.step().is_some_and(|step| step.act.kind() == StepKind::Dip) {
                    self.stand.goods_in = false;
                }
                self.leave(at);
            }
            What::Turned { number, .. } => {
                self.remember();
                self.settle_turn(*number, false);
            }
            What::TurnMissed { number, .. } => self.settle_turn(*number, true),
            What::NotYet { number, .. } => {
                self.remember();
                self.stand.not_yet = *number;
                self.stand.waited = Served::from(at);
                self.stand.calls.clear();
            }
            What::ReadingTaken { temperature } => {
                self.last_reading = Some((at, *temperature));
                self.drop_calls(|kind| kind == CallKind::TooHot);
            }
            What::HoldDropped { .. } => self.pause_hold(at),
            What::HoldResumed { .. } => self.resume_hold(at),
            What::TakenBack => self.take_back(at),
            What::CallRaised { call } => {
                self.stand.calls.push(Standing {
                    kind: *call,
                    since: at,
                    quiet_until: None,
                });
            }
            What::CallsHeard => self.quieten(at),
            What::Beat => {}
            What::Returned { at_least, at_most } => self.come_back(at, *at_least, *at_most),
            What::ReturnAnswered { answer } => self.answer_return(*answer, at),
            What::BathStopped => self.end(Ended::Stopped),
            What::BathClosed => self.end(Ended::Closed),
        }
        self.last_at = at;
        if event.what.is_by_hand() {
            self.last_touch = at;
            self.drop_calls(|kind| kind == CallKind::HeatUnattended);
        }
        if !matches!(event.what, What::Beat) {
            self.log.push(event.clone());
        }
    }

    fn remember(&mut self) {
        if self.undo.len() >= UNDO_DEPTH {
            self.undo.remove(0);
        }
        self.undo.push(self.stand.clone());
    }

    /// What a finished step changes, and then on to the next.
    fn finish(&mut self, step: StepIndex, at: Moment) {
        let plan = Arc::clone(&self.plan);
        if let Some(step) = plan.step(step) {
            match &step.act {
                StepAct::WetOut { .. } => self.stand.soak = Some(Served::from(at)),
                StepAct::Fill { .. } => self.stand.filled = true,
                StepAct::Add { letters } => {
                    self.stand.bags_in = self.stand.bags_in.saturating_add(bags(&plan, letters));
                }
                StepAct::Strain { letters } => {
                    self.stand.bags_in = self.stand.bags_in.saturating_sub(bags(&plan, letters));
                }
                StepAct::Enter { .. } => {
                    self.stand.goods_in = true;
                    self.stand.soak = None;
                }
                StepAct::Lift | StepAct::Dip { .. } => self.stand.goods_in = false,
                StepAct::Weigh { .. }
                | StepAct::Dissolve { .. }
                | StepAct::Raise { .. }
                | StepAct::Hold { .. }
                | StepAct::Cool { .. }
                | StepAct::Squeeze
                | StepAct::Look { .. }
                | StepAct::Rinse { .. }
                | StepAct::Air { .. }
                | StepAct::Rest { .. }
                | StepAct::Dry
                | StepAct::Shelve => {}
            }
        }
        self.leave(at);
    }

    /// On to the next step.
    fn leave(&mut self, at: Moment) {
        self.stand.step = StepIndex(self.stand.step.0.saturating_add(1));
        self.stand.arrived = at;
        self.stand.waited = Served::from(at);
        self.stand.hold = None;
        self.stand.not_yet = 0;
        self.stand.calls.clear();
        self.arrive(at);
    }

    /// What the new step changes by being there.
    fn arrive(&mut self, at: Moment) {
        self.stand.burner_on = self.burner_wanted();
        let (is_hold, is_dip) = self.step().map_or((false, false), |step| {
            let kind = step.act.kind();
            (kind == StepKind::Hold, kind == StepKind::Dip)
        });
        if is_hold {
            self.stand.hold = Some(HoldState {
                held: Served::from(at),
                ..HoldState::default()
            });
        }
        if is_dip {
            self.stand.goods_in = true;
        }
    }

    /// The burner is on from a raise to the end of the hold, and stays on between them if more heat follows.
    fn burner_wanted(&self) -> bool {
        let here = self.stand.step.0;
        let heated_before = self
            .plan
            .steps
            .iter()
            .take(here)
            .rev()
            .find_map(|step| heat_of(&step.act));
        let heat_after = self
            .plan
            .steps
            .iter()
            .skip(here)
            .find_map(|step| heat_of(&step.act));
        let now = self.plan.steps.get(here).and_then(|step| heat_of(&step.act));
        match now {
            Some(heat) => heat,
            None => heated_before == Some(true) && heat_after == Some(true),
        }
    }

    /// What the calls of this pot stand beside.
    #[must_use]
    pub fn beside(&self) -> Beside {
        Beside {
            burner_on: self.stand.burner_on,
            turns_missed: self.stand.hold.map_or(0, |hold| hold.missed_in_a_row),
        }
    }

    fn settle_turn(&mut self, number: u32, missed: bool) {
        let Some(hold) = self.stand.hold.as_mut() else {
            return;
        };
        if number > 0 {
            hold.turns_settled = hold.turns_settled.max(number);
        }
        hold.missed_in_a_row = if missed {
            hold.missed_in_a_row.saturating_add(1)
        } else {
            0
        };
        self.drop_calls(|kind| match kind {
            CallKind::Turn(due) => !missed || due <= number,
            CallKind::Look
            | CallKind::ActDue
            | CallKind::HoldOver
            | CallKind::OverRun
            | CallKind::CoolEnough
            | CallKind::TooHot
            | CallKind::HeatUnattended
            | CallKind::Returned => false,
        });
    }

    fn pause_hold(&mut self, at: Moment) {
        if let Some(hold) = self.stand.hold.as_mut() {
            hold.held.settle(at);
            hold.reheating = true;
            self.stand.calls.clear();
        }
    }

    fn resume_hold(&mut self, at: Moment) {
        if let Some(hold) = self.stand.hold.as_mut() {
            hold.held.resume(at);
            hold.reheating = false;
            self.stand.calls.clear();
        }
    }

    /// Back to the standpoint before the last confirmed act. Clocks that were running then run on as if nothing
    /// had been tapped; across an outage they start from now.
    fn take_back(&mut self, at: Moment) {
        let Some(mut before) = self.undo.pop() else { return };
        if let Some(hold) = before.hold.as_mut()
            && hold.held.is_running()
        {
            hold.held.resume_awake(at, self.awake_since);
        }
        before.waited.resume_awake(at, self.awake_since);
        if let Some(soak) = before.soak.as_mut() {
            soak.resume_awake(at, self.awake_since);
        }
        before.calls.retain(|call| call.since.stretch == at.stretch);
        self.stand = before;
    }

    fn quieten(&mut self, at: Moment) {
        let beside = self.beside();
        for call in &mut self.stand.calls {
            call.hear(beside, at);
        }
    }

    /// Closes the accounts of the old stretch. What goes on by itself (soaking, cooling, resting) is credited with
    /// the least time away; a hold earns nothing until the dyer says what the heat did.
    fn come_back(&mut self, at: Moment, at_least: Span, at_most: Option<Span>) {
        let last = self.last_at;
        let outage = Outage {
            last,
            back: at,
            at_least,
            at_most,
        };
        // Away again before the question was answered: one absence, which began where the first began.
        self.outage = Some(self.outage.map_or(outage, |open| open.and_then(outage)));
        self.stand.calls.clear();
        self.last_touch = at;
        self.awake_since = at;
        self.stand.waited.settle(last);
        if self.goes_on_alone() {
            self.stand.waited.credit(at_least);
        }
        self.stand.waited.resume(at);
        if let Some(soak) = self.stand.soak.as_mut() {
            soak.settle(last);
            soak.credit(at_least);
            soak.resume(at);
        }
        if let Some(hold) = self.stand.hold.as_mut() {
            hold.held.settle(last);
        }
    }

    fn answer_return(&mut self, answer: ReturnAnswer, at: Moment) {
        self.drop_calls(|kind| kind == CallKind::Returned);
        let Some(outage) = self.outage.take() else { return };
        let reheat = answer == ReturnAnswer::BackToRaise;
        let Some(hold) = self.stand.hold.as_mut() else {
            return;
        };
        match answer {
            ReturnAnswer::CarryOn | ReturnAnswer::BackToRaise => {}
            ReturnAnswer::CountIt => hold.held.credit(outage.at_least),
            ReturnAnswer::HoldAgain => *hold = HoldState::default(),
        }
        if reheat || hold.reheating {
            hold.reheating = true;
        } else {
            hold.held.resume(at);
        }
    }

    /// Whether the current step is one that needs neither heat nor hands to go on.
    fn goes_on_alone(&self) -> bool {
        match self.step().map(|step| &step.act) {
            Some(
                StepAct::Cool { .. }
                | StepAct::Look { .. }
                | StepAct::Dip { .. }
                | StepAct::Air { .. }
                | StepAct::Rest { .. }
                | StepAct::Dry,
            ) => true,
            Some(
                StepAct::WetOut { .. }
                | StepAct::Weigh { .. }
                | StepAct::Fill { .. }
                | StepAct::Dissolve { .. }
                | StepAct::Add { .. }
                | StepAct::Strain { .. }
                | StepAct::Enter { .. }
                | StepAct::Raise { .. }
                | StepAct::Hold { .. }
                | StepAct::Lift
                | StepAct::Squeeze
                | StepAct::Rinse { .. }
                | StepAct::Shelve,
            )
            | None => false,
        }
    }

    fn end(&mut self, how: Ended) {
        self.stand.ended = Some(how);
        self.stand.burner_on = false;
        self.stand.calls.clear();
        self.outage = None;
    }

    fn drop_calls(&mut self, which: impl Fn(CallKind) -> bool) {
        self.stand.calls.retain(|call| !which(call.kind));
    }
}

/// What an act says of the burner: on, off, or nothing.
const fn heat_of(act: &StepAct) -> Option<bool> {
    match act {
        StepAct::Raise { .. } | StepAct::Hold { .. } => Some(true),
        StepAct::Cool { .. } | StepAct::Lift | StepAct::Strain { .. } => Some(false),
        StepAct::WetOut { .. }
        | StepAct::Weigh { .. }
        | StepAct::Fill { .. }
        | StepAct::Dissolve { .. }
        | StepAct::Add { .. }
        | StepAct::Enter { .. }
        | StepAct::Squeeze
        | StepAct::Look { .. }
        | StepAct::Dip { .. }
        | StepAct::Rinse { .. }
        | StepAct::Air { .. }
        | StepAct::Rest { .. }
        | StepAct::Dry
        | StepAct::Shelve => None,
    }
}

fn bags(plan: &Plan, letters: &[crate::recipe::model::Letter]) -> usize {
    letters
        .iter()
        .filter(|letter| plan.addition(**letter).is_some_and(|addition| addition.bagged))
        .count()
}

impl What {
    /// Whether hands did it.
    #[must_use]
    pub const fn is_by_hand(&self) -> bool {
        match self {
            Self::BathBegun { .. }
            | Self::StepDone { .. }
            | Self::StepSkipped { .. }
            | Self::Turned { .. }
            | Self::NotYet { .. }
            | Self::ReadingTaken { .. }
            | Self::HoldDropped { .. }
            | Self::HoldResumed { .. }
            | Self::TakenBack
            | Self::CallsHeard
            | Self::ReturnAnswered { .. }
            | Self::BathStopped
            | Self::BathClosed => true,
            Self::TurnMissed { .. } | Self::CallRaised { .. } | Self::Beat | Self::Returned { .. } => false,
        }
    }
}
