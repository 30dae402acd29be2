//! The bath's time-temperature curve, plan and what was done. Its lines come ready made in a box of 1000 by 1000; nothing
//! here knows a minute or a degree.

use super::canvas::{Area, Canvas, Hand, Ink, Place, Side, width_of_words};
use crate::view::screen::{BathCurve, CurveLists, CurveMark, CurveRule, MarkKind};

/// The colours of a curve.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CurveInks {
    /// What the picture lies on.
    pub around: Ink,
    /// What the curve lies on.
    pub sunk: Ink,
    /// The lines behind it.
    pub grid: Ink,
    /// What is to come, as a band.
    pub band: Ink,
    /// Its middle.
    pub edge: Ink,
    /// What was done.
    pub done: Ink,
    /// Now, turns and taps.
    pub ink: Ink,
    /// Degrees and clock times.
    pub soft: Ink,
    /// The face of an addition's ring.
    pub raised: Ink,
}

/// How large the picture and its letters are, in pixels.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CurveFrame {
    /// How wide.
    pub width: u16,
    /// How high.
    pub height: u16,
    /// Pixels to a unit of the screens' design.
    pub unit: f32,
    /// The size of its letters.
    pub letter: f32,
}

/// The picture.
#[must_use]
pub fn draw(curve: &BathCurve, lists: &CurveLists, inks: &CurveInks, frame: CurveFrame) -> Canvas {
    let mut canvas = Canvas::new(frame.width, frame.height, inks.around);
    let (width, height) = (f32::from(frame.width), f32::from(frame.height));
    let letter = frame.letter;
    let named = |rule: &CurveRule| width_of_words(&rule.label, hand(letter));
    let widest = lists.temperatures.iter().map(named).fold(0.0, f32::max);
    let (x, y) = ((letter * 2.7).max(widest + 7.0 * frame.unit), letter * 0.7);
    let plot = Area {
        x,
        y,
        width: (width - x - 8.0 * frame.unit).max(1.0),
        height: (height - y - letter * 1.35).max(1.0),
    };
    let mut drawing = Drawing {
        canvas: &mut canvas,
        inks,
        plot,
        letter,
        unit: frame.unit,
    };
    drawing.canvas.rectangle(plot, inks.sunk);
    drawing.temperatures(lists, height);
    drawing.times(lists, (width, height));
    drawing.lines(curve);
    if curve.now >= 0.0 {
        drawing.now(curve.now);
    }
    for mark in &lists.marks {
        drawing.mark(mark);
    }
    canvas
}

const fn hand(size: f32) -> Hand {
    Hand { size, is_bold: false }
}

struct Drawing<'a> {
    canvas: &'a mut Canvas,
    inks: &'a CurveInks,
    plot: Area,
    letter: f32,
    unit: f32,
}

impl Drawing<'_> {
    /// Degrees with their lines. Where lines lie closer than letters are high, only those are named that have the room.
    fn temperatures(&mut self, lists: &CurveLists, height: f32) {
        let hand = hand(self.letter);
        let high = self.letter * 1.3;
        let foot = height - self.letter * 1.35 - high * 0.6;
        let mut named: Vec<f32> = Vec::new();
        for rule in &lists.temperatures {
            let y = self.plot.height * rule.at / 1_000.0;
            self.across(y);
            let top = (self.plot.y + y - high / 2.0).min(foot).max(0.0);
            if named.iter().all(|other| (other - top).abs() >= self.letter) {
                named.push(top);
                let area = Area {
                    x: 0.0,
                    y: top,
                    width: self.plot.x - 6.0 * self.unit,
                    height: high,
                };
                self.canvas
                    .words(&rule.label, (area, Side::Right), hand, self.inks.soft);
            }
        }
    }

    fn across(&mut self, y: f32) {
        let line = Area {
            y: self.plot.y + y,
            height: self.unit,
            ..self.plot
        };
        self.canvas.rectangle(line, self.inks.grid);
    }

    fn times(&mut self, lists: &CurveLists, (width, height): (f32, f32)) {
        let hand = hand(self.letter);
        for rule in &lists.times {
            let x = self.plot.x + self.plot.width * rule.at / 1_000.0;
            let line = Area {
                x,
                width: self.unit,
                ..self.plot
            };
            self.canvas.rectangle(line, self.inks.grid);
            let wide = (self.letter * 3.6).max(width_of_words(&rule.label, hand));
            let area = Area {
                x: (x - wide / 2.0).max(self.plot.x * 0.5).min(width - wide),
                y: height - self.letter * 1.35,
                width: wide,
                height: self.letter * 1.35,
            };
            self.canvas
                .words(&rule.label, (area, Side::Middle), hand, self.inks.soft);
        }
    }

    fn lines(&mut self, curve: &BathCurve) {
        let place = Place {
            x: self.plot.x,
            y: self.plot.y,
            across: self.plot.width / 1_000.0,
            down: self.plot.height / 1_000.0,
        };
        let unit = self.unit;
        self.canvas.fill(&curve.band, place, self.inks.band);
        self.canvas.stroke(&curve.plan, place, 2.5 * unit, self.inks.edge);
        self.canvas.stroke(&curve.done, place, 4.5 * unit, self.inks.done);
    }

    /// The plumb line of now, with its bob.
    fn now(&mut self, at: f32) {
        let x = self.plot.x + self.plot.width * at / 1_000.0;
        let above = self.letter * 0.5;
        let line = Area {
            x: x - 1.5 * self.unit,
            y: self.plot.y - above,
            width: 3.0 * self.unit,
            height: self.plot.height + above,
        };
        self.canvas.rectangle(line, self.inks.ink);
        let (wide, high) = (13.0 * self.unit, 15.0 * self.unit);
        let bob = Place {
            x: x - wide / 2.0,
            y: self.plot.y + self.plot.height - 4.0 * self.unit,
            across: wide,
            down: high,
        };
        self.canvas.fill("M0 0L1 0L0.5 1Z", bob, self.inks.ink);
    }

    /// An addition is a letter in a ring, a turn a stroke, a reading a dot, a confirmed act a diamond.
    fn mark(&mut self, mark: &CurveMark) {
        let across = match mark.kind {
            MarkKind::Addition => self.letter * 1.5,
            MarkKind::Turn | MarkKind::Reading | MarkKind::Tap => self.letter * 0.75,
        };
        let most = (self.plot.width - across).max(0.0);
        let left = (self.plot.width * mark.x / 1_000.0 - across / 2.0).clamp(0.0, most);
        let middle = (
            self.plot.x + left + across / 2.0,
            self.plot.y + self.plot.height * mark.y / 1_000.0,
        );
        match mark.kind {
            MarkKind::Addition => self.addition(middle, across, &mark.label),
            MarkKind::Turn => self.turn(middle),
            MarkKind::Reading => {
                let radius = across / 2.0;
                self.canvas.disc(middle, radius, self.inks.raised);
                self.canvas.disc(middle, radius - 1.5 * self.unit, self.inks.done);
            }
            MarkKind::Tap => {
                let place = Place::even(middle.0, middle.1, across / 2.0);
                self.canvas.fill("M0 -1L1 0L0 1L-1 0Z", place, self.inks.ink);
            }
        }
    }

    fn addition(&mut self, (x, y): (f32, f32), across: f32, letter: &str) {
        let radius = across / 2.0;
        self.canvas.disc((x, y), radius, self.inks.ink);
        self.canvas
            .disc((x, y), radius - 2.0 * self.unit, self.inks.raised);
        let area = Area {
            x: x - radius,
            y: y - radius,
            width: across,
            height: across,
        };
        let hand = Hand {
            size: self.letter * 0.95,
            is_bold: true,
        };
        self.canvas
            .words(letter, (area, Side::Middle), hand, self.inks.ink);
    }

    fn turn(&mut self, (x, y): (f32, f32)) {
        let (wide, high) = (2.5 * self.unit, 0.9 * self.letter);
        let stroke = Area {
            x: x - wide / 2.0,
            y: y - high / 2.0,
            width: wide,
            height: high,
        };
        self.canvas.rectangle(stroke, self.inks.ink);
    }
}
