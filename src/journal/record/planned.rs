//! What a plan puts into a record before anything is done.

use crate::craft::salts;
use crate::craft::substance::Substance;
use crate::craft::time::Span;
use crate::recipe::model::Letter;
use crate::sheet::clock;
use crate::sheet::plan::{Plan, PlannedAddition, Step, StepAct};

use super::{AdditionRecord, PlannedStep, StepRecord};

/// An addition that isn't weighed yet.
pub(super) fn addition(planned: &PlannedAddition) -> AdditionRecord {
    AdditionRecord {
        letter: planned.letter.0.to_string(),
        ware: planned.ware_id.clone(),
        name: planned.name.clone(),
        molar_mass_g: Substance::from_id(&planned.ware_id).and_then(salts::molar_mass),
        percent_wof: planned.percent_wof,
        bagged: planned.bagged,
        tolerance_g: planned.tolerance.grams(),
        planned_g: planned.target.grams(),
        actual_g: None,
    }
}

/// The steps of a plan, none of them done.
pub(super) fn steps(plan: &Plan) -> Vec<StepRecord> {
    let times = clock(&plan.steps);
    plan.steps
        .iter()
        .zip(times)
        .zip(1..)
        .map(|((step, (begins, ends)), number)| StepRecord {
            number,
            kind: step.act.kind().id().to_owned(),
            letters: letters(&step.act)
                .iter()
                .map(|letter| letter.0.to_string())
                .collect(),
            planned: PlannedStep {
                begins_min: begins.likely.minutes(),
                ends_min: ends.likely.minutes(),
                ..figures(plan, step)
            },
            began_min: None,
            ended_min: None,
            ended_wall_ms: None,
            actual_g: None,
            held_min: None,
            reading_c: None,
            how: "not-done".into(),
            reason: None,
        })
        .collect()
}

fn letters(act: &StepAct) -> Vec<Letter> {
    match act {
        StepAct::Weigh { letter } => vec![*letter],
        StepAct::Dissolve { letters, .. } | StepAct::Add { letters } | StepAct::Strain { letters } => {
            letters.clone()
        }
        StepAct::WetOut { .. }
        | StepAct::Fill { .. }
        | StepAct::Enter { .. }
        | StepAct::Raise { .. }
        | StepAct::Hold { .. }
        | StepAct::Cool { .. }
        | StepAct::Lift
        | StepAct::Squeeze
        | StepAct::Look { .. }
        | StepAct::Dip { .. }
        | StepAct::Rinse { .. }
        | StepAct::Air { .. }
        | StepAct::Rest { .. }
        | StepAct::Dry
        | StepAct::Shelve => Vec::new(),
    }
}

/// The figures of a step. Acts and their fields are taken apart whole, so that a new field stops the build here.
fn figures(plan: &Plan, step: &Step) -> PlannedStep {
    let mut told = PlannedStep {
        low_min: step.usual.low.minutes(),
        likely_min: step.usual.likely.minutes(),
        high_min: step.usual.high.minutes(),
        words: step.how.clone(),
        caution: step.caution.clone(),
        ..PlannedStep::default()
    };
    match &step.act {
        StepAct::WetOut { least: span } | StepAct::Air { span } | StepAct::Rest { span } => {
            told.span_min = Some(span.minutes());
        }
        StepAct::Weigh { letter } => {
            told.grams = plan.addition(*letter).map(|addition| addition.target.grams());
        }
        StepAct::Fill { water, level } => {
            told.water_l = Some(water.litres());
            told.level_cm = Some(level.centimetres());
        }
        StepAct::Dissolve { letters: _, cup } => told.cup_l = Some(cup.litres()),
        StepAct::Enter { at_most } => told.at_most_c = Some(at_most.celsius()),
        StepAct::Raise { from, to, come_up: _ } => {
            told.from_c = Some(from.celsius());
            told.to_c = Some(to.celsius());
        }
        StepAct::Hold {
            at,
            floor,
            ceiling,
            span,
            turn_every,
        } => {
            told.from_c = Some(at.celsius());
            told.to_c = Some(at.celsius());
            told.floor_c = Some(floor.celsius());
            told.ceiling_c = Some(ceiling.celsius());
            told.span_min = Some(span.minutes());
            told.turn_every_min = turn_every.map(Span::minutes);
        }
        StepAct::Cool {
            from,
            to,
            cool_down: _,
            lid_on,
        } => {
            told.from_c = Some(from.celsius());
            told.to_c = Some(to.celsius());
            told.lid_on = Some(*lid_on);
        }
        StepAct::Look { sign, after, again } => {
            told.sign = Some(sign.clone());
            told.span_min = Some(after.minutes());
            told.again_min = Some(again.minutes());
        }
        StepAct::Dip { number, of, under } => {
            told.dip = Some(*number);
            told.dips = Some(*of);
            told.span_min = Some(under.minutes());
        }
        StepAct::Rinse { times, until_clear } => {
            told.times = Some(*times);
            told.until_clear = Some(*until_clear);
        }
        StepAct::Add { letters: _ }
        | StepAct::Strain { letters: _ }
        | StepAct::Lift
        | StepAct::Squeeze
        | StepAct::Dry
        | StepAct::Shelve => {}
    }
    told
}
