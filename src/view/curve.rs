//! The time-temperature curve: what was done, what is to come as a band, additions, turns, readings and taps.
//!
//! Drawn for whole minutes, so that a second that passes changes nothing. It ends with the last step that has to do
//! with heat: a day of drying would squeeze the hour that matters into a line.

use std::fmt::Write as _;

use crate::craft::quantity::Temperature;
use crate::craft::time::{Moment, Span};
use crate::machine::{PotRun, outlook};
use crate::say;
use crate::sheet::BathSheet;
use crate::sheet::plan::{Plan, StepAct, StepIndex};

use super::course::{self, Coming, Point, Shape};
use super::history::History;
use super::locale::Locale;
use super::screen::{BathCurve, CurveLists, CurveMark, CurveRule, MarkKind};

/// At most so much before the first heat is drawn: goods may soak overnight.
const BEFORE_HEAT_MIN: f64 = 60.0;

/// The curve of a bath that is going or has ended, and its lists.
#[must_use]
pub fn of_run(run: &PotRun, now: Moment, locale: Locale) -> (BathCurve, CurveLists) {
    let history = History::of(run);
    let (now, minutes) = whole_minute(&history, now);
    let ended = run.stand.ended.is_some();
    let coming = course::coming_of_run(run, &history, now, minutes);
    let done = course::done(&run.plan, &history, minutes);
    let frame = Frame::new(
        &run.plan,
        &history,
        &coming,
        if ended { history.last } else { minutes },
    );
    let here = done.last().map_or(run.plan.room.celsius(), |point| point.celsius);
    let is_inside = !ended && (frame.begins..=frame.ends).contains(&minutes) && !coming.is_empty();
    let curve = BathCurve {
        band: band(&frame, &coming),
        plan: path(&frame, &within(&frame, &likely(&coming))),
        done: path(&frame, &within(&frame, &done)),
        now: if is_inside { unit(frame.x(minutes)) } else { -1.0 },
        said: said_of_run(run, here, &coming, now, minutes, locale),
    };
    let held = run.stand.hold.map_or(Span::NONE, |hold| hold.held.at(now));
    let settled = run.stand.hold.map_or(0, |hold| hold.turns_settled);
    let mut marks = turn_marks(&run.plan, &frame, &coming, Some((run.stand.step, held, settled)));
    marks.extend(marks_of_past(&run.plan, &frame, &history, &done));
    marks.extend(addition_marks(&run.plan, &frame, &history, &done, &coming));
    let lists = CurveLists {
        marks,
        temperatures: temperature_rules(&frame, locale),
        times: time_rules(&frame, now, minutes, locale),
    };
    (curve, lists)
}

/// The curve of a sheet as it will be when the bath begins at `start`, and its lists.
#[must_use]
pub fn of_sheet(sheet: &BathSheet, start: Moment, locale: Locale) -> (BathCurve, CurveLists) {
    let plan = &sheet.plan;
    let history = History::default();
    let coming = course::coming_of_plan(plan);
    let frame = Frame::new(plan, &history, &coming, 0.0);
    let curve = BathCurve {
        band: band(&frame, &coming),
        plan: path(&frame, &within(&frame, &likely(&coming))),
        done: String::new(),
        now: -1.0,
        said: said_of_plan(plan, &coming, start, locale),
    };
    let mut marks = turn_marks(plan, &frame, &coming, None);
    marks.extend(addition_marks(plan, &frame, &history, &[], &coming));
    let lists = CurveLists {
        marks,
        temperatures: temperature_rules(&frame, locale),
        times: time_rules(&frame, start, 0.0, locale),
    };
    (curve, lists)
}

/// Now, back to the last whole minute of the bath or the last fact, whichever is later.
fn whole_minute(history: &History, now: Moment) -> (Moment, f64) {
    let exact = history.minutes(now);
    let minutes = exact.floor().max(history.last).min(exact.max(history.last));
    let back = Span::from_fractional_minutes(exact - minutes);
    let wall = i64::try_from(back.ms()).unwrap_or(0);
    let now = Moment {
        stretch: now.stretch,
        steady_ms: now.steady_ms.saturating_sub(back.ms()),
        wall_ms: now.wall_ms.saturating_sub(wall),
    };
    (now, minutes)
}

/// Which minutes and degrees the box shows.
#[derive(Debug, Clone, Copy)]
struct Frame {
    begins: f64,
    ends: f64,
    coldest: f64,
    hottest: f64,
}

impl Frame {
    fn new(plan: &Plan, history: &History, coming: &[Coming], now: f64) -> Self {
        const LEAST_MIN: f64 = 30.0;
        let first = course::first_heated(plan).map_or(0.0, |step| begins(history, coming, step));
        let begins = ((first - BEFORE_HEAT_MIN) / 10.0).floor().max(0.0) * 10.0;
        let last_done = course::last_heated(plan)
            .and_then(|step| history.step(step))
            .and_then(|went| went.ends);
        let ends = coming
            .last()
            .map(|coming| coming.ends.high.max(now))
            .or(last_done)
            .unwrap_or(now);
        let ends = (ends / 10.0).ceil() * 10.0;
        let (coldest, hottest) = degrees(plan, history);
        Self {
            begins,
            ends: ends.max(begins + LEAST_MIN),
            coldest,
            hottest,
        }
    }

    fn x(&self, minutes: f64) -> f64 {
        in_box(1_000.0 * (minutes - self.begins) / (self.ends - self.begins))
    }

    fn y(&self, celsius: f64) -> f64 {
        in_box(1_000.0 * (self.hottest - celsius) / (self.hottest - self.coldest))
    }

    fn shows(&self, minutes: f64) -> bool {
        (self.begins..=self.ends).contains(&minutes)
    }
}

/// Whole units of the box, and never outside it.
fn in_box(value: f64) -> f64 {
    if value.is_finite() {
        value.clamp(0.0, 1_000.0).round() + 0.0
    } else {
        0.0
    }
}

#[expect(
    clippy::as_conversions,
    reason = "whole numbers up to a thousand are exact as f32"
)]
const fn unit(value: f64) -> f32 {
    value as f32
}

fn begins(history: &History, coming: &[Coming], step: StepIndex) -> f64 {
    history.step(step).map_or_else(
        || {
            coming
                .iter()
                .find(|coming| coming.step == step)
                .map_or(0.0, |coming| coming.begins.likely)
        },
        |went| went.begins,
    )
}

/// The coldest and the hottest that must be shown, at whole tens.
fn degrees(plan: &Plan, history: &History) -> (f64, f64) {
    const ROOM_AROUND: f64 = 3.0;
    let ends = course::planned(plan);
    let of_plan = ends.iter().flat_map(|(from, to)| [*from, *to]);
    let of_holds = (0..plan.steps.len()).flat_map(|index| match course::shape_of(plan, StepIndex(index)) {
        Shape::Held { floor, ceiling } => vec![floor, ceiling],
        Shape::Even | Shape::Cooling { .. } => Vec::new(),
    });
    let read = history.readings.iter().map(|read| read.celsius);
    let all: Vec<f64> = of_plan.chain(of_holds).chain(read).collect();
    let coldest = all.iter().copied().fold(f64::MAX, f64::min);
    let hottest = all.iter().copied().fold(f64::MIN, f64::max);
    if all.is_empty() {
        return (0.0, 100.0);
    }
    (
        ((coldest - ROOM_AROUND) / 10.0).floor() * 10.0,
        ((hottest + ROOM_AROUND) / 10.0).ceil() * 10.0,
    )
}

/// The likely way of what is to come.
fn likely(coming: &[Coming]) -> Vec<Point> {
    const BENDS: [f64; 5] = [0.1, 0.25, 0.4, 0.6, 0.8];
    let mut points = Vec::new();
    for each in coming {
        let (begins, ends) = (each.begins.likely, each.ends.likely);
        points.push(Point {
            at: begins,
            celsius: each.from,
        });
        if let Shape::Cooling { .. } = each.shape {
            points.extend(BENDS.iter().map(|part| Point {
                at: begins + (ends - begins) * part,
                celsius: course::between(each.shape, each.from, each.to, *part),
            }));
        }
        points.push(Point {
            at: ends,
            celsius: each.to,
        });
    }
    points
}

/// Points inside the frame; what lies before it is one point at its edge.
fn within(frame: &Frame, points: &[Point]) -> Vec<Point> {
    let before = points.iter().rev().find(|point| point.at < frame.begins);
    let edge = before.map(|point| Point {
        at: frame.begins,
        celsius: point.celsius,
    });
    let inside = points.iter().filter(|point| frame.shows(point.at)).copied();
    edge.into_iter().chain(inside).collect()
}

/// An open path through points; long ones are thinned, their ends kept.
fn path(frame: &Frame, points: &[Point]) -> String {
    const MOST: usize = 150;
    let every = points.len().div_ceil(MOST).max(1);
    let last = points.len().saturating_sub(1);
    let mut path = String::new();
    let mut before: Option<(f64, f64)> = None;
    for (index, point) in points.iter().enumerate() {
        let is_kept = index.checked_rem(every) == Some(0) || index == last;
        let here = (frame.x(point.at), frame.y(point.celsius));
        if is_kept && before != Some(here) {
            let command = if before.is_none() { 'M' } else { 'L' };
            step_to(&mut path, command, here);
            before = Some(here);
        }
    }
    path
}

/// The points are whole, so their shortest writing has no decimals; asking for none is slow where a number is exact.
fn step_to(path: &mut String, command: char, (x, y): (f64, f64)) {
    if !path.is_empty() {
        path.push(' ');
    }
    // Writing to a string can't fail.
    write!(path, "{command}{x} {y}").unwrap_or_default();
}

/// The band of what is to come: along its hottest edge and back along its coldest.
fn band(frame: &Frame, coming: &[Coming]) -> String {
    const SAMPLES: u32 = 48;
    let (Some(first), Some(last)) = (coming.first(), coming.last()) else {
        return String::new();
    };
    let (begins, ends) = (first.begins.likely.max(frame.begins), last.ends.high);
    if ends <= begins {
        return String::new();
    }
    let edges: Vec<(f64, f64, f64)> = (0..=SAMPLES)
        .map(|sample| begins + (ends - begins) * f64::from(sample) / f64::from(SAMPLES))
        .map(|at| {
            let (cold, hot) = spread_at(coming, at);
            (frame.x(at), frame.y(hot), frame.y(cold))
        })
        .collect();
    let mut path = String::new();
    for (index, (x, hot, _)) in edges.iter().enumerate() {
        step_to(&mut path, if index == 0 { 'M' } else { 'L' }, (*x, *hot));
    }
    for (x, _, cold) in edges.iter().rev() {
        step_to(&mut path, 'L', (*x, *cold));
    }
    path.push_str(" Z");
    path
}

/// The coldest and hottest the bath may be at a moment to come: early, likely and late, and what a hold allows.
fn spread_at(coming: &[Coming], at: f64) -> (f64, f64) {
    let early = one_course(coming, at, |band| band.low);
    let likely = one_course(coming, at, |band| band.likely);
    let late = one_course(coming, at, |band| band.high);
    (
        early.0.min(likely.0).min(late.0),
        early.1.max(likely.1).max(late.1),
    )
}

fn one_course(
    coming: &[Coming],
    at: f64,
    edge: impl Fn(crate::craft::quantity::Band<f64>) -> f64,
) -> (f64, f64) {
    let Some(here) = coming.iter().find(|each| at < edge(each.ends)).or(coming.last()) else {
        return (0.0, 0.0);
    };
    let (begins, ends) = (edge(here.begins), edge(here.ends));
    let part = if ends > begins {
        (at - begins) / (ends - begins)
    } else {
        1.0
    };
    let celsius = course::between(here.shape, here.from, here.to, part);
    match here.shape {
        Shape::Held { floor, ceiling } if at < ends => (celsius.min(floor), celsius.max(ceiling)),
        Shape::Held { .. } | Shape::Even | Shape::Cooling { .. } => (celsius, celsius),
    }
}

fn mark(frame: &Frame, at: f64, celsius: f64, kind: MarkKind, label: String) -> CurveMark {
    CurveMark {
        x: unit(frame.x(at)),
        y: unit(frame.y(celsius)),
        label,
        kind,
    }
}

/// Turns to come, in holds to come and in the one going on: its step, the time held, the reminders settled.
fn turn_marks(
    plan: &Plan,
    frame: &Frame,
    coming: &[Coming],
    current: Option<(StepIndex, Span, u32)>,
) -> Vec<CurveMark> {
    let mut marks = Vec::new();
    for each in coming {
        let Some(StepAct::Hold { span, turn_every, .. }) = plan.step(each.step).map(|step| &step.act) else {
            continue;
        };
        let (held, settled) = current
            .filter(|(step, _, _)| *step == each.step)
            .map_or((Span::NONE, 0), |(_, held, settled)| (held, settled));
        let turns = outlook::turns(*span, *turn_every);
        let settled = usize::try_from(settled).unwrap_or(usize::MAX);
        marks.extend(
            turns
                .iter()
                .skip(settled)
                .filter(|turn| **turn >= held)
                .map(|turn| {
                    let at = each.begins.likely + turn.less(held).minutes();
                    mark(frame, at, each.to, MarkKind::Turn, String::new())
                }),
        );
    }
    marks
}

/// Taps, turns and readings that were.
fn marks_of_past(plan: &Plan, frame: &Frame, history: &History, done: &[Point]) -> Vec<CurveMark> {
    const MOST_READINGS: usize = 60;
    let is_addition =
        |step: StepIndex| matches!(plan.step(step).map(|step| &step.act), Some(StepAct::Add { .. }));
    let taps = history
        .steps
        .iter()
        .filter(|went| !went.skipped && !is_addition(went.step))
        .filter_map(|went| went.ends)
        .filter(|at| frame.shows(*at))
        .map(|at| mark(frame, at, celsius_at(done, at), MarkKind::Tap, String::new()));
    let turns = history
        .turns
        .iter()
        .filter(|at| frame.shows(**at))
        .map(|at| mark(frame, *at, celsius_at(done, *at), MarkKind::Turn, String::new()));
    let skip = history.readings.len().saturating_sub(MOST_READINGS);
    let readings = history
        .readings
        .iter()
        .skip(skip)
        .filter(|read| frame.shows(read.at))
        .map(|read| mark(frame, read.at, read.celsius, MarkKind::Reading, String::new()));
    taps.chain(turns).chain(readings).collect()
}

/// Additions at their moments, done or planned; letters that would hide each other are set a little apart.
fn addition_marks(
    plan: &Plan,
    frame: &Frame,
    history: &History,
    done: &[Point],
    coming: &[Coming],
) -> Vec<CurveMark> {
    const APART: f32 = 45.0;
    let mut marks: Vec<CurveMark> = Vec::new();
    for (index, step) in plan.steps.iter().enumerate() {
        let StepAct::Add { letters } = &step.act else {
            continue;
        };
        let index = StepIndex(index);
        let went = history.step(index).filter(|went| went.ends.is_some());
        let place = match went {
            Some(went) if went.skipped => None,
            Some(went) => went.ends.map(|at| (at, celsius_at(done, at))),
            None => coming
                .iter()
                .find(|coming| coming.step == index)
                .map(|coming| (coming.ends.likely, coming.to)),
        };
        // What went in the evening before stands at the edge.
        let place = place.map(|(at, celsius)| (at.max(frame.begins), celsius));
        let Some((at, celsius)) = place.filter(|(at, _)| frame.shows(*at)) else {
            continue;
        };
        for letter in letters {
            let mut next = mark(frame, at, celsius, MarkKind::Addition, letter.0.to_string());
            if let Some(before) = marks.last() {
                next.x = next.x.max(before.x + APART).min(1_000.0);
            }
            marks.push(next);
        }
    }
    marks
}

/// The temperature of a course at a moment.
fn celsius_at(points: &[Point], at: f64) -> f64 {
    let after = points.iter().find(|point| point.at >= at);
    let before = points.iter().rev().find(|point| point.at <= at);
    match (before, after) {
        (Some(before), Some(after)) if after.at > before.at => {
            before.celsius + (after.celsius - before.celsius) * (at - before.at) / (after.at - before.at)
        }
        (Some(point), _) | (None, Some(point)) => point.celsius,
        (None, None) => 0.0,
    }
}

const MOST_RULES: f64 = 5.0;

/// Round numbers of the dyer's own degrees.
fn temperature_rules(frame: &Frame, locale: Locale) -> Vec<CurveRule> {
    const STEPS: [f64; 5] = [10.0, 20.0, 30.0, 50.0, 100.0];
    let (coldest, hottest) = (locale.in_degrees(frame.coldest), locale.in_degrees(frame.hottest));
    multiples(coldest, hottest, &STEPS)
        .into_iter()
        .map(|degrees| CurveRule {
            at: unit(frame.y(locale.in_celsius(degrees))),
            label: format!("{degrees:.0}\u{b0}"),
        })
        .collect()
}

fn time_rules(frame: &Frame, now: Moment, minutes: f64, locale: Locale) -> Vec<CurveRule> {
    const STEPS: [f64; 12] = [
        10.0, 15.0, 20.0, 30.0, 60.0, 120.0, 180.0, 240.0, 360.0, 720.0, 1_440.0, 2_880.0,
    ];
    // Round clock times are counted from the midnight before now.
    let of_day = minutes_of_day(now, locale);
    let of_clock = |at: f64| at - minutes + of_day;
    multiples(of_clock(frame.begins), of_clock(frame.ends), &STEPS)
        .into_iter()
        .map(|clock| {
            let at = clock - of_day + minutes;
            CurveRule {
                at: unit(frame.x(at)),
                label: clock_label(clock, locale),
            }
        })
        .collect()
}

fn minutes_of_day(at: Moment, locale: Locale) -> f64 {
    const DAY_MS: i64 = 86_400_000;
    let local = at
        .wall_ms
        .saturating_add(i64::from(locale.zone.local_minus_utc()).saturating_mul(1_000));
    let of_day = local.checked_rem_euclid(DAY_MS).unwrap_or(0);
    Span::from_ms(u64::try_from(of_day).unwrap_or(0)).minutes()
}

fn clock_label(minutes: f64, locale: Locale) -> String {
    let of_day = minutes.round().rem_euclid(1_440.0);
    let minute = Span::from_fractional_minutes(of_day).ms().div_ceil(60_000);
    locale.clock_of_minute(u16::try_from(minute).unwrap_or(0))
}

/// Multiples of the finest step that gives no more than fit. None at the very edges, where no word fits.
fn multiples(from: f64, to: f64, steps: &[f64]) -> Vec<f64> {
    let Some(step) = steps
        .iter()
        .copied()
        .find(|step| (to / step).floor() - (from / step).ceil() < MOST_RULES)
        .or(steps.last().copied())
    else {
        return Vec::new();
    };
    let mut found = Vec::new();
    let mut next = (from / step).ceil() * step;
    while next <= to && found.len() < 5 {
        found.push(next);
        next += step;
    }
    found
}

fn said_of_plan(plan: &Plan, coming: &[Coming], start: Moment, locale: Locale) -> String {
    let name = locale.read(&plan.recipe_name);
    let Some(last) = coming.last() else {
        return say!(locale, "{name}: no heat in this bath", name = name);
    };
    let ends = start.plus(Span::from_fractional_minutes(last.ends.likely));
    let clock = locale.clock_from(ends, start);
    plan.main_hold().map_or_else(
        || {
            say!(
                locale,
                "{name}: begun now, cooled at about {clock}",
                name = name,
                clock = clock
            )
        },
        |(at, span)| {
            say!(
                locale,
                "{name}: begun now, held {span} at {degrees}, cooled at about {clock}",
                name = name,
                span = locale.span(span),
                degrees = locale.degrees(at),
                clock = clock
            )
        },
    )
}

fn said_of_run(
    run: &PotRun,
    here: f64,
    coming: &[Coming],
    now: Moment,
    minutes: f64,
    locale: Locale,
) -> String {
    let name = locale.read(&run.plan.recipe_name);
    let Some(current) = coming.first() else {
        return say!(locale, "{name}: the heat is over", name = name);
    };
    let is_hold = |step: StepIndex| {
        matches!(
            run.plan.step(step).map(|step| &step.act),
            Some(StepAct::Hold { .. })
        )
    };
    let clock = |at: f64| {
        let left = Span::from_fractional_minutes(at - minutes);
        locale.clock_from(now.plus(left), now)
    };
    let next = match coming.iter().find(|each| is_hold(each.step)) {
        Some(hold) if hold.step == current.step => {
            say!(
                locale,
                "the hold ends at about {clock}",
                clock = clock(hold.ends.likely)
            )
        }
        Some(hold) => say!(
            locale,
            "the hold begins at about {clock}",
            clock = clock(hold.begins.likely)
        ),
        None => coming.last().map_or_else(String::new, |last| {
            say!(locale, "cooled at about {clock}", clock = clock(last.ends.likely))
        }),
    };
    let here = locale.degrees(Temperature::saturating_celsius(here));
    say!(
        locale,
        "{name}: about {degrees} now, {next}",
        name = name,
        degrees = here,
        next = next
    )
}
