//! The record of a bath: plan and actual side by side, corrections, outages, and who was called for what.
//!
//! It is made by playing the facts once more, so it can't say anything that the machine didn't see. These are wire
//! types: their keys are the format of the daybook's pages, described in `docs/journal-format.md`.

use serde::{Deserialize, Serialize};

use crate::craft::time::{Moment, Span};
use crate::machine::event::{Done, Event, What};
use crate::machine::pot::{Ended, PotRun};
use crate::machine::session::Machine;
use crate::sheet::plan::{Plan, StepAct, StepIndex};

/// The version of the record written.
pub const RECORD_FORMAT: u32 = 1;

/// A finished bath.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[expect(missing_docs, reason = "the keys are described in docs/journal-format.md")]
pub struct BathRecord {
    pub format: u32,
    pub bath: String,
    pub pot: u8,
    pub recipe: String,
    pub recipe_name: String,
    pub fibre: String,
    pub goods_g: f64,
    pub hanks: u32,
    pub bath_l: f64,
    pub liquor_ratio: f64,
    pub pot_l: f64,
    pub pot_cm: f64,
    pub boil_c: f64,
    pub begun_wall_ms: i64,
    pub ended_wall_ms: i64,
    /// `closed` or `stopped`.
    pub ended: String,
    pub steps: Vec<StepRecord>,
    pub turns: Vec<TurnRecord>,
    pub readings: Vec<ReadingRecord>,
    pub calls: Vec<CallRecord>,
    pub outages: Vec<OutageRecord>,
    pub taken_back: Vec<CorrectionRecord>,
    pub cautions: Vec<String>,
}

/// A step: what was planned and what was done. Minutes count from the beginning of the bath.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[expect(missing_docs, reason = "the keys are described in docs/journal-format.md")]
pub struct StepRecord {
    pub number: usize,
    #[serde(rename = "do")]
    pub kind: String,
    pub letter: Option<String>,
    pub substance: Option<String>,
    pub planned_g: Option<f64>,
    pub actual_g: Option<f64>,
    pub planned_min: f64,
    pub from_c: Option<f64>,
    pub to_c: Option<f64>,
    pub began_min: Option<f64>,
    pub ended_min: Option<f64>,
    pub ended_wall_ms: Option<i64>,
    /// Minutes held at temperature, for a hold.
    pub held_min: Option<f64>,
    pub reading_c: Option<f64>,
    /// `as-planned`, `weighed`, `read`, `early`, `skipped`, or `not-done`.
    pub how: String,
    pub reason: Option<String>,
}

/// A turn, made or missed.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[expect(missing_docs, reason = "the keys are described in docs/journal-format.md")]
pub struct TurnRecord {
    pub step: usize,
    /// The reminder; 0 for a turn between reminders.
    pub number: u32,
    pub at_min: f64,
    pub missed: bool,
}

/// A reading of the thermometer.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[expect(missing_docs, reason = "the keys are described in docs/journal-format.md")]
pub struct ReadingRecord {
    pub at_min: f64,
    pub celsius: f64,
}

/// A call.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[expect(missing_docs, reason = "the keys are described in docs/journal-format.md")]
pub struct CallRecord {
    pub at_min: f64,
    pub call: String,
}

/// A time in which the program wasn't there.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[expect(missing_docs, reason = "the keys are described in docs/journal-format.md")]
pub struct OutageRecord {
    pub back_min: f64,
    pub at_least_min: f64,
    pub at_most_min: Option<f64>,
    pub answer: Option<String>,
}

/// An act that was taken back.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[expect(missing_docs, reason = "the keys are described in docs/journal-format.md")]
pub struct CorrectionRecord {
    pub at_min: f64,
    pub step: usize,
    pub was: String,
}

impl BathRecord {
    /// The record of a bath as it stands; of a finished one, the one to seal.
    #[must_use]
    pub fn of(run: &PotRun) -> Self {
        let plan = &run.plan;
        let begun = run.log.first().map_or(run.last_at, |event| event.at);
        let mut record = Self {
            format: RECORD_FORMAT,
            bath: run.bath_id.clone(),
            pot: run.pot.0,
            recipe: plan.recipe_id.clone(),
            recipe_name: plan.recipe_name.clone(),
            fibre: plan.goods.fibre.id().to_owned(),
            goods_g: plan.goods.dry.grams(),
            hanks: plan.goods.hanks,
            bath_l: plan.bath.litres(),
            liquor_ratio: plan.liquor_ratio.litres_per_kg(),
            pot_l: plan.pot.capacity.litres(),
            pot_cm: plan.pot.diameter.centimetres(),
            boil_c: plan.boil.celsius(),
            begun_wall_ms: begun.wall_ms,
            ended_wall_ms: run.last_at.wall_ms,
            ended: match run.stand.ended {
                Some(Ended::Closed) => "closed".into(),
                Some(Ended::Stopped) => "stopped".into(),
                None => "going".into(),
            },
            steps: plan
                .steps
                .iter()
                .enumerate()
                .map(|(index, _)| planned(plan, index))
                .collect(),
            turns: Vec::new(),
            readings: Vec::new(),
            calls: Vec::new(),
            outages: Vec::new(),
            taken_back: Vec::new(),
            cautions: plan.cautions.clone(),
        };
        Replay {
            record: &mut record,
            machine: Machine::default(),
            elapsed: Elapsed::new(begun),
            acts: Vec::new(),
        }
        .play(&run.log);
        record
    }
}

/// A step before anything was done.
fn planned(plan: &Plan, index: usize) -> StepRecord {
    let mut record = StepRecord {
        number: index.saturating_add(1),
        kind: String::new(),
        letter: None,
        substance: None,
        planned_g: None,
        actual_g: None,
        planned_min: 0.0,
        from_c: None,
        to_c: None,
        began_min: None,
        ended_min: None,
        ended_wall_ms: None,
        held_min: None,
        reading_c: None,
        how: "not-done".into(),
        reason: None,
    };
    let Some(step) = plan.step(StepIndex(index)) else {
        return record;
    };
    record.kind = step.act.kind().id().to_owned();
    record.planned_min = step.usual.likely.minutes();
    match &step.act {
        StepAct::Weigh { letter } => {
            record.letter = Some(letter.0.to_string());
            if let Some(addition) = plan.addition(*letter) {
                record.substance = Some(addition.ware_id.clone());
                record.planned_g = Some(addition.target.grams());
            }
        }
        StepAct::Raise { from, to, .. } | StepAct::Cool { from, to, .. } => {
            record.from_c = Some(from.celsius());
            record.to_c = Some(to.celsius());
        }
        StepAct::Hold { at, .. } => {
            record.from_c = Some(at.celsius());
            record.to_c = Some(at.celsius());
        }
        StepAct::WetOut { .. }
        | StepAct::Fill { .. }
        | StepAct::Dissolve { .. }
        | StepAct::Add { .. }
        | StepAct::Strain { .. }
        | StepAct::Enter { .. }
        | StepAct::Lift
        | StepAct::Squeeze
        | StepAct::Rinse { .. }
        | StepAct::Air { .. }
        | StepAct::Rest { .. }
        | StepAct::Dry
        | StepAct::Shelve => {}
    }
    record
}

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
        before: StepRecord,
        next_began: Option<f64>,
        index: usize,
    },
    Turn,
}

struct Replay<'a> {
    record: &'a mut BathRecord,
    machine: Machine,
    elapsed: Elapsed,
    acts: Vec<Undoable>,
}

impl Replay<'_> {
    fn play(mut self, log: &[Event]) {
        for event in log {
            self.elapsed.step(event);
            self.note(event);
            self.machine.apply(event);
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
                    record.actual_g = record.planned_g;
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
                let step = step.0.saturating_add(1);
                self.record.turns.push(TurnRecord {
                    step,
                    number: *number,
                    at_min,
                    missed: false,
                });
                self.acts.push(Undoable::Turn);
            }
            What::TurnMissed { step, number } => {
                let step = step.0.saturating_add(1);
                self.record.turns.push(TurnRecord {
                    step,
                    number: *number,
                    at_min,
                    missed: true,
                });
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
            What::BathBegun { .. }
            | What::HoldDropped { .. }
            | What::HoldResumed { .. }
            | What::CallsHeard
            | What::Beat
            | What::BathStopped
            | What::BathClosed => {}
        }
    }

    fn finish(&mut self, event: &Event, step: StepIndex, say: impl FnOnce(&mut StepRecord)) {
        let ended = self.elapsed.minutes();
        let held = self
            .machine
            .pot(event.pot)
            .and_then(|run| run.stand.hold)
            .map(|hold| hold.held.at(event.at));
        let next = step.0.saturating_add(1);
        let next_began = self.record.steps.get(next).and_then(|next| next.began_min);
        if let Some(record) = self.record.steps.get_mut(step.0) {
            self.acts.push(Undoable::Step {
                before: record.clone(),
                next_began,
                index: step.0,
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
                    *record = before;
                }
            }
            Some(Undoable::Turn) => {
                if let Some(turn) = self.record.turns.pop() {
                    let was = format!("turn {}", turn.number);
                    self.record.taken_back.push(CorrectionRecord {
                        at_min,
                        step: turn.step,
                        was,
                    });
                }
            }
            None => {}
        }
    }
}
