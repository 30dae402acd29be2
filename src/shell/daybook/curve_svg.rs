//! The curve of a bath as a drawing: planned course, readings, steps, additions, turns, time away.
//!
//! Black on white and told apart by shape, so that any printer does.

use maud::{Markup, html};

use super::phrases::mark;
use crate::journal::record::BathRecord;

const WIDTH: f64 = 720.0;
const HEIGHT: f64 = 320.0;
const LEFT: f64 = 46.0;
const RIGHT: f64 = 706.0;
const TOP: f64 = 24.0;
const BOTTOM: f64 = 232.0;
/// Where the strips of planned and actual steps lie.
const PLANNED_Y: f64 = 264.0;
const ACTUAL_Y: f64 = 286.0;
const STRIP: f64 = 16.0;
const TOP_C: f64 = 105.0;

/// The drawing.
#[must_use]
pub fn curve(record: &BathRecord) -> Markup {
    let scale = Scale::of(record);
    html! {
        svg xmlns="http://www.w3.org/2000/svg" viewBox=(format!("0 0 {WIDTH} {HEIGHT}"))
            role="img" aria-label="bath temperature over time, planned and actual" {
            (away(record, &scale))
            (axes(&scale))
            polyline class="planned" points=(points(record, &scale)) fill="none" stroke="black" stroke-width="1.5" {}
            (strips(record, &scale))
            (additions(record, &scale))
            (turns(record, &scale))
            @for reading in &record.readings {
                circle class="reading" cx=(at(scale.x(reading.at_min))) cy=(at(y(reading.celsius))) r="3" fill="black" {}
            }
        }
    }
}

/// Minutes along the drawing.
struct Scale {
    minutes: f64,
}

impl Scale {
    /// As far as the bath is warm and anything was read, turned or added: a day of drying would flatten the rest.
    fn of(record: &BathRecord) -> Self {
        let warm = record
            .steps
            .iter()
            .filter(|step| step.planned.to_c.is_some() || step.kind == "add" || step.kind == "lift")
            .filter_map(|step| step.ended_min.or(step.began_min));
        let minutes = warm
            .chain(record.course.iter().map(|point| point.at_min))
            .chain(record.readings.iter().map(|reading| reading.at_min))
            .chain(record.turns.iter().map(|turn| turn.at_min))
            .fold(10.0, f64::max);
        Self { minutes }
    }

    fn x(&self, minutes: f64) -> f64 {
        LEFT + (RIGHT - LEFT) * (minutes / self.minutes).clamp(0.0, 1.0)
    }

    /// Minutes between marks: the least round span that makes ten marks at most.
    fn every(&self) -> f64 {
        [5.0, 10.0, 15.0, 30.0, 60.0, 120.0, 240.0, 480.0]
            .into_iter()
            .find(|every| self.minutes / every <= 10.0)
            .unwrap_or(1_440.0)
            .max(self.minutes / 50.0)
    }
}

fn y(celsius: f64) -> f64 {
    BOTTOM - (BOTTOM - TOP) * (celsius / TOP_C).clamp(0.0, 1.0)
}

/// A coordinate as text.
fn at(coordinate: f64) -> String {
    format!("{coordinate:.1}")
}

fn axes(scale: &Scale) -> Markup {
    let every = scale.every();
    let marks = std::iter::successors(Some(0.0), move |at| Some(at + every));
    let marks: Vec<f64> = marks.take_while(|at| *at <= scale.minutes).collect();
    html! {
        @for degrees in [0.0, 20.0, 40.0, 60.0, 80.0, 100.0] {
            line x1=(at(LEFT)) x2=(at(RIGHT)) y1=(at(y(degrees))) y2=(at(y(degrees))) stroke="#ccc" {}
            text x=(at(LEFT - 5.0)) y=(at(y(degrees) + 3.5)) text-anchor="end" { (degrees) }
        }
        @for minutes in &marks {
            line x1=(at(scale.x(*minutes))) x2=(at(scale.x(*minutes))) y1=(at(BOTTOM)) y2=(at(BOTTOM + 4.0)) stroke="black" {}
            text x=(at(scale.x(*minutes))) y=(at(BOTTOM + 15.0)) text-anchor="middle" { (mark(*minutes)) }
        }
        polyline points=(format!("{LEFT},{TOP} {LEFT},{BOTTOM} {RIGHT},{BOTTOM}")) fill="none" stroke="black" {}
        text class="unit" x="4" y=(at(TOP - 10.0)) { "\u{b0}C" }
        text class="unit" x=(at(RIGHT)) y=(at(BOTTOM + 28.0)) text-anchor="end" { "h:mm from the beginning" }
    }
}

fn points(record: &BathRecord, scale: &Scale) -> String {
    let points: Vec<String> = record
        .course
        .iter()
        .map(|point| format!("{:.1},{:.1}", scale.x(point.at_min), y(point.celsius)))
        .collect();
    points.join(" ")
}

/// The steps by number, planned above actual.
fn strips(record: &BathRecord, scale: &Scale) -> Markup {
    let planned = record
        .steps
        .iter()
        .map(|step| (step.number, step.planned.begins_min, step.planned.ends_min));
    let actual = record
        .steps
        .iter()
        .filter_map(|step| Some((step.number, step.began_min?, step.ended_min?)));
    html! {
        text x="4" y=(at(PLANNED_Y + 11.0)) { "plan" }
        (strip(planned, "step-planned", PLANNED_Y, scale))
        text x="4" y=(at(ACTUAL_Y + 11.0)) { "done" }
        (strip(actual, "step-actual", ACTUAL_Y, scale))
    }
}

fn strip(steps: impl Iterator<Item = (usize, f64, f64)>, class: &str, top: f64, scale: &Scale) -> Markup {
    const ROOM_FOR_A_NUMBER: f64 = 14.0;
    let shown = steps.filter(|(_, begins, _)| *begins < scale.minutes);
    html! {
        @for (number, begins, ends) in shown {
            @let (from, to) = (scale.x(begins), scale.x(ends));
            rect class=(class) x=(at(from)) y=(at(top)) width=(at(to - from)) height=(at(STRIP))
                fill="none" stroke="black" stroke-width="0.7" {}
            @if to - from >= ROOM_FOR_A_NUMBER {
                text x=(at((from + to) / 2.0)) y=(at(top + 12.0)) text-anchor="middle" { (number) }
            }
        }
    }
}

fn additions(record: &BathRecord, scale: &Scale) -> Markup {
    let added = record
        .steps
        .iter()
        .filter(|step| step.kind == "add" && step.how != "skipped")
        .filter_map(|step| Some((step.letters.join("+"), scale.x(step.ended_min?))));
    html! {
        @for (letters, x) in added {
            line x1=(at(x)) x2=(at(x)) y1=(at(TOP)) y2=(at(BOTTOM)) stroke="black" stroke-dasharray="2 3" {}
            text class="addition" x=(at(x)) y=(at(TOP - 4.0)) text-anchor="middle" font-weight="bold" { (letters) }
        }
    }
}

/// A filled wedge for a turn made, an open one for a turn missed.
fn turns(record: &BathRecord, scale: &Scale) -> Markup {
    html! {
        @for turn in &record.turns {
            @let x = scale.x(turn.at_min);
            // Higher, so that it shows behind the next one when that was made at once.
            @let height = if turn.missed { 15.0 } else { 9.0 };
            @let wedge = format!("{:.1},{BOTTOM:.1} {:.1},{BOTTOM:.1} {x:.1},{:.1}", x - 4.0, x + 4.0, BOTTOM - height);
            @if turn.missed {
                polygon class="turn-missed" points=(wedge) fill="white" stroke="black" {}
            } @else {
                polygon class="turn-made" points=(wedge) fill="black" stroke="black" {}
            }
        }
    }
}

/// The time the program was away, as far as it is known for sure.
fn away(record: &BathRecord, scale: &Scale) -> Markup {
    html! {
        @for outage in &record.outages {
            @let (from, to) = (scale.x(outage.back_min - outage.at_least_min), scale.x(outage.back_min));
            rect class="away" x=(at(from)) y=(at(TOP)) width=(at((to - from).max(1.0))) height=(at(BOTTOM - TOP)) fill="#ddd" {}
        }
    }
}
