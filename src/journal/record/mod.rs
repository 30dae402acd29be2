//! The record of a bath: plan and actual side by side, corrections, outages, and who was called for what.
//!
//! It is made by playing the facts once more, so it can't say anything that the machine didn't see. These are wire
//! types: their keys are the format of the daybook's pages, described in `docs/journal-format.md`.

mod planned;
mod read;
mod replay;

use serde::{Deserialize, Serialize};

use crate::craft::quantity::Power;
use crate::machine::pot::{Ended, PotRun};
use crate::sheet::course::course;

pub use read::{RecordFault, read};

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
    pub kind: String,
    /// The recipe word for word, where it was at hand when the record was sealed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub recipe_toml: Option<String>,
    pub fibre: String,
    pub goods_g: f64,
    pub hanks: u32,
    /// The tag of the lot, such as `L12`, where the goods had one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub lot: Option<String>,
    pub bath_l: f64,
    pub liquor_ratio: f64,
    pub pot_l: f64,
    pub pot_cm: f64,
    pub pot_metal: String,
    pub burner: String,
    pub burner_w: f64,
    pub lid: String,
    pub room_c: f64,
    pub hold_power_w: Option<f64>,
    pub boil_c: f64,
    pub begun_wall_ms: i64,
    pub ended_wall_ms: i64,
    /// `closed` or `stopped`; `going` in a record that isn't to be sealed yet.
    pub ended: String,
    pub additions: Vec<AdditionRecord>,
    /// The likely course of the plan, from the first heat to the lift.
    pub course: Vec<CourseRecord>,
    pub steps: Vec<StepRecord>,
    pub drops: Vec<DropRecord>,
    pub turns: Vec<TurnRecord>,
    pub readings: Vec<ReadingRecord>,
    pub calls: Vec<CallRecord>,
    pub outages: Vec<OutageRecord>,
    pub taken_back: Vec<CorrectionRecord>,
    pub cautions: Vec<String>,
}

/// An addition: exactly what it was, and how much.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[expect(missing_docs, reason = "the keys are described in docs/journal-format.md")]
pub struct AdditionRecord {
    pub letter: String,
    pub ware: String,
    pub name: String,
    pub molar_mass_g: Option<f64>,
    pub percent_wof: Option<f64>,
    pub bagged: bool,
    pub tolerance_g: f64,
    pub planned_g: f64,
    pub actual_g: Option<f64>,
}

/// A point of the planned course.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[expect(missing_docs, reason = "the keys are described in docs/journal-format.md")]
pub struct CourseRecord {
    pub at_min: f64,
    pub celsius: f64,
}

/// A step: what was planned and what was done. Minutes count from the beginning of the bath.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[expect(missing_docs, reason = "the keys are described in docs/journal-format.md")]
pub struct StepRecord {
    pub number: usize,
    #[serde(rename = "do")]
    pub kind: String,
    pub letters: Vec<String>,
    pub planned: PlannedStep,
    pub began_min: Option<f64>,
    pub ended_min: Option<f64>,
    pub ended_wall_ms: Option<i64>,
    pub actual_g: Option<f64>,
    /// Minutes held at temperature, for a hold.
    pub held_min: Option<f64>,
    pub reading_c: Option<f64>,
    /// `as-planned`, `weighed`, `read`, `early`, `skipped`, or `not-done`.
    pub how: String,
    pub reason: Option<String>,
}

/// What was planned for a step. A key that its kind has no use for is left out.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(default)]
#[expect(missing_docs, reason = "the keys are described in docs/journal-format.md")]
pub struct PlannedStep {
    pub begins_min: f64,
    pub ends_min: f64,
    pub low_min: f64,
    pub likely_min: f64,
    pub high_min: f64,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub grams: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub from_c: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub to_c: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub at_most_c: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub floor_c: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub ceiling_c: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub span_min: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub turn_every_min: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub water_l: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub level_cm: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cup_l: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub lid_on: Option<bool>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub times: Option<u32>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub until_clear: Option<bool>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub words: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub caution: Option<String>,
}

/// A time in which a hold had dropped below its floor and didn't count.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[expect(missing_docs, reason = "the keys are described in docs/journal-format.md")]
pub struct DropRecord {
    pub step: usize,
    pub at_min: f64,
    pub back_min: Option<f64>,
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
    /// The record of a bath as it stands; of a finished one, the one to seal. The same facts give the same record.
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
            kind: plan.kind.id().to_owned(),
            recipe_toml: None,
            fibre: plan.goods.fibre.id().to_owned(),
            goods_g: plan.goods.dry.grams(),
            hanks: plan.goods.hanks,
            lot: plan.goods.lot.map(|lot| lot.to_string()),
            bath_l: plan.bath.litres(),
            liquor_ratio: plan.liquor_ratio.litres_per_kg(),
            pot_l: plan.pot.capacity.litres(),
            pot_cm: plan.pot.diameter.centimetres(),
            pot_metal: plan.pot.metal.id().to_owned(),
            burner: plan.burner.kind.id().to_owned(),
            burner_w: plan.burner.power.watts(),
            lid: plan.lid.id().to_owned(),
            room_c: plan.room.celsius(),
            hold_power_w: plan.hold_power.map(Power::watts),
            boil_c: plan.boil.celsius(),
            begun_wall_ms: begun.wall_ms,
            ended_wall_ms: run.last_at.wall_ms,
            ended: match run.stand.ended {
                Some(Ended::Closed) => "closed".into(),
                Some(Ended::Stopped) => "stopped".into(),
                None => "going".into(),
            },
            additions: plan.additions.iter().map(planned::addition).collect(),
            course: course(plan)
                .into_iter()
                .map(|point| CourseRecord {
                    at_min: point.at.minutes(),
                    celsius: point.temperature.celsius(),
                })
                .collect(),
            steps: planned::steps(plan),
            drops: Vec::new(),
            turns: Vec::new(),
            readings: Vec::new(),
            calls: Vec::new(),
            outages: Vec::new(),
            taken_back: Vec::new(),
            cautions: plan.cautions.clone(),
        };
        replay::play(&mut record, begun, &run.log);
        record.weighed_in();
        record
    }

    /// The same record with its recipe word for word, so that the bath can be repeated from the page alone.
    #[must_use]
    pub fn with_recipe(self, toml: &str) -> Self {
        Self {
            recipe_toml: Some(toml.to_owned()),
            ..self
        }
    }

    /// Carries what was weighed from the steps to the additions.
    fn weighed_in(&mut self) {
        for addition in &mut self.additions {
            let weighing = self
                .steps
                .iter()
                .find(|step| step.kind == "weigh" && step.letters.contains(&addition.letter));
            addition.actual_g = weighing.and_then(|step| step.actual_g);
        }
    }
}
