//! The likely course of a plan: bath temperature over time, from the first heat to the lift.

use crate::craft::quantity::Temperature;
use crate::craft::time::Span;

use super::legs;
use super::plan::{Plan, StepAct};

/// One point of a course.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CoursePoint {
    /// From the start of the bath.
    pub at: Span,
    /// What the bath should have.
    pub temperature: Temperature,
}

/// A cool-down is drawn in so many pieces.
const COOLING_PIECES: u32 = 8;

/// The likely course: straight in a raise, level in a hold, and in a cool-down falling towards the room as
/// Newton's law of cooling has it, through the planned ends. Between two of these it goes straight on.
#[must_use]
pub fn course(plan: &Plan) -> Vec<CoursePoint> {
    let mut points: Vec<CoursePoint> = Vec::new();
    for (step, (begins, ends)) in plan.steps.iter().zip(legs::clock(&plan.steps)) {
        let (begins, ends) = (begins.likely, ends.likely);
        let mut point = |at, temperature| points.push(CoursePoint { at, temperature });
        match step.act {
            StepAct::Raise { from, to, .. } => {
                point(begins, from);
                point(ends, to);
            }
            StepAct::Hold { at, .. } => {
                point(begins, at);
                point(ends, at);
            }
            StepAct::Cool { from, to, .. } => {
                let minutes = ends.less(begins).minutes();
                for piece in 0..=COOLING_PIECES {
                    let share = f64::from(piece) / f64::from(COOLING_PIECES);
                    let at = begins.plus(Span::from_fractional_minutes(minutes * share));
                    point(at, cooled(from, to, plan.room, share));
                }
            }
            StepAct::Lift => {
                if let Some(last) = points.last().copied() {
                    points.push(CoursePoint { at: begins, ..last });
                }
                break;
            }
            StepAct::WetOut { .. }
            | StepAct::Weigh { .. }
            | StepAct::Fill { .. }
            | StepAct::Dissolve { .. }
            | StepAct::Add { .. }
            | StepAct::Strain { .. }
            | StepAct::Enter { .. }
            | StepAct::Squeeze
            | StepAct::Look { .. }
            | StepAct::Dip { .. }
            | StepAct::Rinse { .. }
            | StepAct::Air { .. }
            | StepAct::Rest { .. }
            | StepAct::Dry
            | StepAct::Shelve => {}
        }
    }
    points
}

/// The bath after a share of its cool-down.
fn cooled(from: Temperature, to: Temperature, room: Temperature, share: f64) -> Temperature {
    let (above, left) = (from.celsius() - room.celsius(), to.celsius() - room.celsius());
    let celsius = if above > 0.0 && left > 0.0 {
        room.celsius() + above * (left / above).powf(share)
    } else {
        // A goal at or below the room has no such curve.
        from.celsius() + (to.celsius() - from.celsius()) * share
    };
    Temperature::saturating_celsius(celsius)
}
