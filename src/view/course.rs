//! The bath's temperature over time: what was, what should be now, and what is to come with its spread.
//!
//! Between two moments whose temperature is known the bath warms evenly and cools by the same share of its distance
//! from the room in equal times. That is enough for a picture; nothing is computed from it.

use crate::craft::quantity::Band;
use crate::craft::time::{Moment, Span};
use crate::machine::PotRun;
use crate::sheet::plan::{Plan, Step, StepAct, StepIndex};

use super::history::{History, Reading};

/// A point of a course: minutes, and degrees Celsius.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Point {
    pub(super) at: f64,
    pub(super) celsius: f64,
}

/// A step still to come, or the rest of the current one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Coming {
    pub(super) step: StepIndex,
    pub(super) begins: Band<f64>,
    pub(super) ends: Band<f64>,
    pub(super) from: f64,
    pub(super) to: f64,
    /// How a step bends on its way.
    pub(super) shape: Shape,
    /// How far into the step it is when this begins, in minutes.
    pub(super) into: f64,
}

/// How the temperature goes from one end of a step to the other.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Shape {
    /// Evenly, or not at all.
    Even,
    /// Towards the room.
    Cooling {
        /// Room temperature.
        room: f64,
    },
    /// Held, anywhere between these.
    Held {
        /// The least that counts as held.
        floor: f64,
        /// What must not be passed.
        ceiling: f64,
    },
}

/// The last step that has to do with heat; the course ends with it.
pub(super) fn last_heated(plan: &Plan) -> Option<StepIndex> {
    plan.steps
        .iter()
        .rposition(|step| is_heated(&step.act))
        .map(StepIndex)
}

/// The first one.
pub(super) fn first_heated(plan: &Plan) -> Option<StepIndex> {
    plan.steps
        .iter()
        .position(|step| is_heated(&step.act))
        .map(StepIndex)
}

/// Whether the step changes or keeps the bath's heat, so that a thermometer has something to say.
pub(super) const fn is_heated(act: &StepAct) -> bool {
    matches!(
        act,
        StepAct::Raise { .. } | StepAct::Hold { .. } | StepAct::Cool { .. }
    )
}

/// The planned temperature at both ends of each step.
pub(super) fn planned(plan: &Plan) -> Vec<(f64, f64)> {
    let first = plan.steps.iter().find_map(|step| ends_of(&step.act));
    let mut here = first.map_or(plan.room.celsius(), |(from, _)| from);
    let mut ends: Vec<(f64, f64)> = Vec::new();
    for step in &plan.steps {
        let (from, to) = ends_of(&step.act).unwrap_or((here, here));
        ends.push((from, to));
        here = to;
    }
    ends
}

fn ends_of(act: &StepAct) -> Option<(f64, f64)> {
    match act {
        StepAct::Raise { from, to, .. } => Some((from.celsius(), to.celsius().max(from.celsius()))),
        StepAct::Hold { at, .. } => Some((at.celsius(), at.celsius())),
        StepAct::Cool { from, to, .. } => Some((from.celsius(), to.celsius().min(from.celsius()))),
        StepAct::WetOut { .. }
        | StepAct::Weigh { .. }
        | StepAct::Fill { .. }
        | StepAct::Dissolve { .. }
        | StepAct::Add { .. }
        | StepAct::Strain { .. }
        | StepAct::Enter { .. }
        | StepAct::Lift
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

/// How a step of a plan bends.
pub(super) fn shape_of(plan: &Plan, step: StepIndex) -> Shape {
    match plan.step(step).map(|step| &step.act) {
        Some(StepAct::Cool { .. }) => Shape::Cooling {
            room: plan.room.celsius(),
        },
        Some(StepAct::Hold { floor, ceiling, .. }) => Shape::Held {
            floor: floor.celsius(),
            ceiling: ceiling.celsius(),
        },
        Some(
            StepAct::Raise { .. }
            | StepAct::WetOut { .. }
            | StepAct::Weigh { .. }
            | StepAct::Fill { .. }
            | StepAct::Dissolve { .. }
            | StepAct::Add { .. }
            | StepAct::Strain { .. }
            | StepAct::Enter { .. }
            | StepAct::Lift
            | StepAct::Squeeze
            | StepAct::Look { .. }
            | StepAct::Dip { .. }
            | StepAct::Rinse { .. }
            | StepAct::Air { .. }
            | StepAct::Rest { .. }
            | StepAct::Dry
            | StepAct::Shelve,
        )
        | None => Shape::Even,
    }
}

/// The temperature a part of the way from one to the other, the part being 0 to 1.
pub(super) fn between(shape: Shape, from: f64, to: f64, part: f64) -> f64 {
    let part = if part.is_finite() {
        part.clamp(0.0, 1.0)
    } else {
        1.0
    };
    match shape {
        Shape::Cooling { room } if from > room + 0.5 && to > room + 0.5 => {
            room + (from - room) * ((to - room) / (from - room)).powf(part)
        }
        Shape::Cooling { .. } | Shape::Even | Shape::Held { .. } => from + (to - from) * part,
    }
}

/// What was, up to now: points in order of time, the last one at `now`.
pub(super) fn done(plan: &Plan, history: &History, now: f64) -> Vec<Point> {
    let planned = planned(plan);
    let mut points: Vec<Point> = Vec::new();
    let mut here = planned.first().map_or(plan.room.celsius(), |(from, _)| *from);
    let mut heat_ended = 0.0;
    for went in &history.steps {
        let Some((from, to)) = planned.get(went.step.0).copied() else {
            continue;
        };
        let heated = plan.step(went.step).is_some_and(|step| is_heated(&step.act));
        // Goods that went in have cooled the bath: the plan knows by how much, unless a thermometer knows better.
        let measured = history
            .readings
            .iter()
            .any(|read| (heat_ended..=went.begins).contains(&read.at));
        let start = match shape_of(plan, went.step) {
            Shape::Even if heated && !measured => from,
            Shape::Even | Shape::Cooling { .. } | Shape::Held { .. } => here,
        };
        let ends = went.ends.unwrap_or(now).clamp(went.begins, now.max(went.begins));
        points.push(Point {
            at: went.begins.min(now),
            celsius: start,
        });
        let target = match (went.ends, went.read) {
            (Some(_), Some(read)) => read.celsius(),
            (Some(_), None) if went.skipped => {
                latest_before(history, ends).map_or(start, |read| read.celsius)
            }
            (Some(_), None) if heated => to,
            (Some(_), None) => start,
            (None, _) => step_now(plan, went.step, went.begins, start, to, history, now),
        };
        let shape = shape_of(plan, went.step);
        let mut from = Point {
            at: went.begins,
            celsius: start,
        };
        let within = history
            .readings
            .iter()
            .filter(|read| read.at > went.begins && read.at < ends);
        for read in within {
            let to = Point {
                at: read.at,
                celsius: read.celsius,
            };
            leg(&mut points, shape, from, to);
            from = to;
        }
        let end = Point {
            at: ends,
            celsius: target,
        };
        leg(&mut points, shape, from, end);
        here = target;
        if heated {
            heat_ended = ends;
        }
    }
    points
}

/// A stretch of a course: its end, and where it bends some points before.
fn leg(points: &mut Vec<Point>, shape: Shape, from: Point, to: Point) {
    const BENDS: [f64; 5] = [0.1, 0.25, 0.4, 0.6, 0.8];
    if matches!(shape, Shape::Cooling { .. }) && to.at - from.at > 5.0 {
        points.extend(BENDS.iter().map(|part| Point {
            at: from.at + (to.at - from.at) * part,
            celsius: between(shape, from.celsius, to.celsius, *part),
        }));
    }
    points.push(to);
}

fn latest(history: &History, after: f64) -> Option<&Reading> {
    history.readings.iter().rev().find(|read| read.at >= after)
}

fn latest_before(history: &History, before: f64) -> Option<&Reading> {
    history.readings.iter().rev().find(|read| read.at <= before)
}

/// What a step that is going on should have made of the bath by now.
fn step_now(
    plan: &Plan,
    step: StepIndex,
    begins: f64,
    start: f64,
    to: f64,
    history: &History,
    now: f64,
) -> f64 {
    let Some(of) = plan.step(step) else { return start };
    let read = latest(history, begins).copied();
    if let Shape::Held { .. } = shape_of(plan, step) {
        return read.map_or(to, |read| read.celsius);
    }
    if !is_heated(&of.act) {
        return read.map_or(start, |read| read.celsius);
    }
    let (since, from) = read.map_or((begins, start), |read| (read.at, read.celsius));
    let usual = of.usual.likely.minutes();
    let left = usual * share_left(plan, step, from);
    let part = if left > 0.0 { (now - since) / left } else { 1.0 };
    between(shape_of(plan, step), from, to, part)
}

/// How much of a step's way is still to go from a temperature, 0 to 1.
fn share_left(plan: &Plan, step: StepIndex, here: f64) -> f64 {
    let Some((from, to)) = planned(plan).get(step.0).copied() else {
        return 0.0;
    };
    let share = match shape_of(plan, step) {
        Shape::Cooling { room } if here > room + 0.5 && from > room + 0.5 && to > room + 0.5 => {
            ((here - room) / (to - room)).ln() / ((from - room) / (to - room)).ln()
        }
        Shape::Cooling { .. } | Shape::Even | Shape::Held { .. } => (to - here) / (to - from),
    };
    if share.is_finite() {
        share.clamp(0.0, 2.0)
    } else {
        0.0
    }
}

/// What the bath should have now.
pub(super) fn celsius_now(plan: &Plan, history: &History, now: f64) -> f64 {
    done(plan, history, now)
        .last()
        .map_or(plan.room.celsius(), |point| point.celsius)
}

/// Spreads in sequence, as the sheet adds them: likely minutes and squared half-widths.
#[derive(Debug, Clone, Copy)]
struct Spread {
    likely: f64,
    below: f64,
    above: f64,
}

impl Spread {
    const fn at(likely: f64) -> Self {
        Self {
            likely,
            below: 0.0,
            above: 0.0,
        }
    }

    fn then(self, length: Band<f64>) -> Self {
        Self {
            likely: self.likely + length.likely,
            below: self.below + (length.likely - length.low).powi(2),
            above: self.above + (length.high - length.likely).powi(2),
        }
    }

    fn band(self) -> Band<f64> {
        Band {
            low: self.likely - self.below.sqrt(),
            likely: self.likely,
            high: self.likely + self.above.sqrt(),
        }
    }
}

/// What is to come of a bath that hasn't begun: from its first step to the last with heat.
pub(super) fn coming_of_plan(plan: &Plan) -> Vec<Coming> {
    lay(plan, StepIndex(0), None, 0.0, None)
}

/// What is to come from now on: the rest of the current step, then each step to the last with heat.
pub(super) fn coming_of_run(run: &PotRun, history: &History, now: Moment, now_minutes: f64) -> Vec<Coming> {
    if run.stand.ended.is_some() {
        return Vec::new();
    }
    let plan = &run.plan;
    let step = run.stand.step;
    let here = celsius_now(plan, history, now_minutes);
    let begins = history.step(step).map_or(now_minutes, |went| went.begins);
    let current = Current {
        left: left_of_step(run, history, now, now_minutes),
        into: now_minutes - begins,
        here,
    };
    let soaked = run.soaked_at().map(|at| now_minutes + at.since(now).minutes());
    lay(plan, step, Some(current), now_minutes, soaked)
}

#[derive(Debug, Clone, Copy)]
struct Current {
    left: Band<f64>,
    into: f64,
    here: f64,
}

fn lay(
    plan: &Plan,
    first: StepIndex,
    current: Option<Current>,
    start: f64,
    soaked: Option<f64>,
) -> Vec<Coming> {
    let Some(last) = last_heated(plan).filter(|last| *last >= first) else {
        return Vec::new();
    };
    let planned = planned(plan);
    let mut clock = Spread::at(start);
    let mut soaked = soaked.map(Spread::at);
    let mut here = current.map_or_else(
        || planned.first().map_or(plan.room.celsius(), |(from, _)| *from),
        |current| current.here,
    );
    let mut coming = Vec::new();
    let steps = plan.steps.iter().zip(&planned).enumerate();
    let count = last.0.saturating_sub(first.0).saturating_add(1);
    for (index, (step, (from, to))) in steps.skip(first.0).take(count) {
        let index = StepIndex(index);
        let is_current = current.filter(|_| index == first);
        let begins = clock;
        if let StepAct::Enter { .. } = step.act
            && let Some(soaked) = soaked.take()
            && soaked.likely > clock.likely
        {
            clock = soaked;
        }
        clock = clock.then(is_current.map_or_else(|| in_minutes(step.usual), |current| current.left));
        if let StepAct::WetOut { least } = step.act {
            soaked = Some(clock.then(even(least.minutes())));
        }
        let heated = is_heated(&step.act);
        let from = if heated && is_current.is_none() {
            *from
        } else {
            here
        };
        let to = if heated { *to } else { from };
        coming.push(Coming {
            step: index,
            begins: begins.band(),
            ends: clock.band(),
            from,
            to,
            shape: shape_of(plan, index),
            into: is_current.map_or(0.0, |current| current.into),
        });
        here = to;
    }
    coming
}

/// How long the current step still takes, in minutes.
pub(super) fn left_of_step(run: &PotRun, history: &History, now: Moment, now_minutes: f64) -> Band<f64> {
    let Some(step) = run.step() else { return even(0.0) };
    match &step.act {
        StepAct::Hold { span, .. } => {
            let held = run.stand.hold.map_or(0.0, |hold| hold.held.at(now).minutes());
            even((span.minutes() - held).max(0.0))
        }
        StepAct::Raise { .. } | StepAct::Cool { .. } => left_of_heat(run, history, step, now, now_minutes),
        StepAct::WetOut { .. }
        | StepAct::Weigh { .. }
        | StepAct::Fill { .. }
        | StepAct::Dissolve { .. }
        | StepAct::Add { .. }
        | StepAct::Strain { .. }
        | StepAct::Enter { .. }
        | StepAct::Lift
        | StepAct::Squeeze
        | StepAct::Look { .. }
        | StepAct::Dip { .. }
        | StepAct::Rinse { .. }
        | StepAct::Air { .. }
        | StepAct::Rest { .. }
        | StepAct::Dry
        | StepAct::Shelve => less(in_minutes(step.usual), run.stand.waited.at(now).minutes()),
    }
}

/// A reading says more than the time since the step began: from it on, the share of the way still to go counts.
fn left_of_heat(run: &PotRun, history: &History, step: &Step, now: Moment, now_minutes: f64) -> Band<f64> {
    let usual = in_minutes(step.usual);
    let begins = history
        .step(run.stand.step)
        .map_or(now_minutes, |went| went.begins);
    match latest(history, begins) {
        Some(read) => {
            let share = share_left(&run.plan, run.stand.step, read.celsius);
            let whole = Band {
                low: usual.low * share,
                likely: usual.likely * share,
                high: usual.high * share,
            };
            less(whole, now_minutes - read.at)
        }
        None => less(usual, run.stand.waited.at(now).minutes()),
    }
}

fn less(band: Band<f64>, minutes: f64) -> Band<f64> {
    let left = |value: f64| (value - minutes).max(0.0);
    Band {
        low: left(band.low),
        likely: left(band.likely),
        high: left(band.high),
    }
}

const fn even(minutes: f64) -> Band<f64> {
    Band {
        low: minutes,
        likely: minutes,
        high: minutes,
    }
}

fn in_minutes(band: Band<Span>) -> Band<f64> {
    band.map(Span::minutes)
}
