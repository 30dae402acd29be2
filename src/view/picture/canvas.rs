//! Paths, boxes and words on a ground, smoothed at their edges.

use zeno::{Cap, Command, Fill, Join, Mask, PathData, Point, Stroke, Style, Transform, Vector};

use crate::view::letters::{ASCENDER, DESCENDER, trace, width_of};

/// A colour: red, green and blue, as a screen takes them.
pub type Ink = [u8; 3];

/// More pixels than any glass has on a side: whatever asks for more gets no more than this.
const MOST: u16 = 4_096;

/// Where the corner of a drawing lies on the canvas, in pixels, and how many pixels one of its units is, across and down.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Place {
    /// From the left.
    pub x: f32,
    /// From the top.
    pub y: f32,
    /// Pixels to a unit across.
    pub across: f32,
    /// Pixels to a unit down.
    pub down: f32,
}

impl Place {
    /// With units as long across as down.
    #[must_use]
    pub const fn even(x: f32, y: f32, unit: f32) -> Self {
        Self {
            x,
            y,
            across: unit,
            down: unit,
        }
    }

    fn as_transform(self) -> Transform {
        Transform::new(self.across, 0.0, 0.0, self.down, self.x, self.y)
    }
}

/// A box in pixels.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Area {
    /// From the left.
    pub x: f32,
    /// From the top.
    pub y: f32,
    /// How wide.
    pub width: f32,
    /// How high.
    pub height: f32,
}

impl Area {
    /// The same with each edge on the nearest whole pixel.
    #[must_use]
    pub fn on_whole_pixels(self) -> Self {
        let (x, y) = (self.x.round(), self.y.round());
        Self {
            x,
            y,
            width: (self.x + self.width).round() - x,
            height: (self.y + self.height).round() - y,
        }
    }
}

/// On which side of their box words stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// In the middle.
    Middle,
    /// On the right.
    Right,
}

/// How words are written.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hand {
    /// The font size in pixels.
    pub size: f32,
    /// 700 and not 400.
    pub is_bold: bool,
}

/// A picture while it is drawn.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Canvas {
    width: u16,
    height: u16,
    pixels: Vec<Ink>,
}

impl Canvas {
    /// All of one colour.
    #[must_use]
    pub fn new(width: u16, height: u16, ground: Ink) -> Self {
        let (width, height) = (width.min(MOST), height.min(MOST));
        let count = usize::from(width).saturating_mul(usize::from(height));
        Self {
            width,
            height,
            pixels: vec![ground; count],
        }
    }

    /// How many pixels it is wide.
    #[must_use]
    pub const fn width(&self) -> u16 {
        self.width
    }

    /// How many pixels it is high.
    #[must_use]
    pub const fn height(&self) -> u16 {
        self.height
    }

    /// Row by row from the top, each from the left.
    #[must_use]
    pub fn pixels(&self) -> &[Ink] {
        &self.pixels
    }

    /// Fills what a path, in SVG's path data, goes around.
    pub fn fill(&mut self, path: &str, place: Place, ink: Ink) {
        self.draw(path, place, Style::Fill(Fill::NonZero), ink);
    }

    /// Draws along a path, in SVG's path data, with a round pen of so many pixels.
    pub fn stroke(&mut self, path: &str, place: Place, pen: f32, ink: Ink) {
        let mut stroke = Stroke::new(pen);
        stroke.cap(Cap::Round).join(Join::Round);
        self.draw(path, place, Style::Stroke(stroke), ink);
    }

    fn draw(&mut self, path: &str, place: Place, style: Style<'_>, ink: Ink) {
        let transform = place.as_transform();
        let commands: Vec<Command> = path
            .commands()
            .map(|command| command.transform(&transform))
            .collect();
        self.cover(&commands, style, ink);
    }

    /// Blends in what a path covers, pixel by pixel, within the box that it lies in.
    fn cover(&mut self, commands: &[Command], style: Style<'_>, ink: Ink) {
        let bounds = zeno::bounds(commands, style, None);
        let (left, right) = (
            pixels(bounds.min.x.floor()),
            pixels(bounds.max.x.ceil()).min(self.width),
        );
        let (top, bottom) = (
            pixels(bounds.min.y.floor()),
            pixels(bounds.max.y.ceil()).min(self.height),
        );
        let (wide, high) = (right.saturating_sub(left), bottom.saturating_sub(top));
        let across = usize::from(wide);
        let mut cover = vec![0; across.saturating_mul(usize::from(high))];
        if cover.is_empty() {
            return;
        }
        Mask::new(commands)
            .offset(Vector::new(-f32::from(left), -f32::from(top)))
            .size(u32::from(wide), u32::from(high))
            .style(style)
            .render_into(&mut cover, None);
        let rows = self.pixels.chunks_exact_mut(usize::from(self.width));
        for (row, cover) in rows.skip(usize::from(top)).zip(cover.chunks_exact(across)) {
            let covered = row.iter_mut().skip(usize::from(left)).zip(cover);
            for (pixel, cover) in covered.filter(|(_, cover)| **cover > 0) {
                for (under, over) in pixel.iter_mut().zip(ink) {
                    *under = blended(over, *under, *cover);
                }
            }
        }
    }

    /// A box on whole pixels, at least one of them wide and high.
    pub fn rectangle(&mut self, area: Area, ink: Ink) {
        let (left, wide) = whole(area.x, area.width);
        let (top, high) = whole(area.y, area.height);
        let rows = self.pixels.chunks_exact_mut(usize::from(self.width.max(1)));
        for row in rows.skip(top).take(high) {
            row.iter_mut()
                .skip(left)
                .take(wide)
                .for_each(|pixel| *pixel = ink);
        }
    }

    /// A box with round corners.
    pub fn rounded(&mut self, area: Area, radius: f32, ink: Ink) {
        let (width, height) = (area.width.max(0.0), area.height.max(0.0));
        let r = radius.min(width / 2.0).min(height / 2.0).max(0.0);
        let (across, down) = (width - 2.0 * r, height - 2.0 * r);
        let path = format!(
            "M{r} 0h{across}a{r} {r} 0 0 1 {r} {r}v{down}a{r} {r} 0 0 1 -{r} {r}h-{across}a{r} {r} 0 0 1 -{r} -{r}v-{down}a{r} {r} 0 0 1 {r} -{r}z"
        );
        self.fill(&path, Place::even(area.x, area.y, 1.0), ink);
    }

    /// A disc, around a middle.
    pub fn disc(&mut self, (x, y): (f32, f32), radius: f32, ink: Ink) {
        let path = "M-1 0a1 1 0 1 0 2 0a1 1 0 1 0 -2 0z";
        self.fill(path, Place::even(x, y, radius), ink);
    }

    /// One line of words, between the top and the foot of its box, its baseline on a whole pixel.
    pub fn words(&mut self, text: &str, (area, side): (Area, Side), hand: Hand, ink: Ink) {
        let width = width_of_words(text, hand);
        let x = match side {
            Side::Middle => area.x + (area.width - width) / 2.0,
            Side::Right => area.x + area.width - width,
        };
        let baseline = area.y + area.height / 2.0 + (ASCENDER - DESCENDER) / 2.0 * hand.size;
        self.letters(text, (x, baseline.round()), hand, ink);
    }

    /// Letters that begin at a point of their baseline.
    pub fn letters(&mut self, text: &str, (x, baseline): (f32, f32), hand: Hand, ink: Ink) {
        let start = (f64::from(x), f64::from(baseline));
        let mut commands = Vec::new();
        trace(
            text,
            f64::from(hand.size),
            hand.is_bold,
            start,
            |command, points| {
                commands.extend(as_command(command, points));
            },
        );
        self.cover(&commands, Style::Fill(Fill::NonZero), ink);
    }
}

fn as_command(command: char, points: &[(f64, f64)]) -> Option<Command> {
    let at = |&(x, y): &(f64, f64)| Point::new(in_single(x), in_single(y));
    match (command, points) {
        ('M', [to]) => Some(Command::MoveTo(at(to))),
        ('L', [to]) => Some(Command::LineTo(at(to))),
        ('Q', [by, to]) => Some(Command::QuadTo(at(by), at(to))),
        ('C', [first, second, to]) => Some(Command::CurveTo(at(first), at(second), at(to))),
        ('Z', []) => Some(Command::Close),
        _ => None,
    }
}

/// How wide words come out, in pixels.
#[must_use]
pub fn width_of_words(text: &str, hand: Hand) -> f32 {
    in_single(width_of(text, f64::from(hand.size), hand.is_bold))
}

fn blended(over: u8, under: u8, cover: u8) -> u8 {
    let part = |value: u8, cover: u8| u16::from(value).saturating_mul(u16::from(cover));
    let sum = part(over, cover).saturating_add(part(under, !cover));
    // The nearest to a 255th of it, without dividing.
    let half_more = sum.saturating_add(128);
    u8::try_from(half_more.saturating_add(half_more >> 8) >> 8).unwrap_or(u8::MAX)
}

/// From where on and over how many whole pixels something lies.
fn whole(from: f32, long: f32) -> (usize, usize) {
    let begins = pixels(from);
    let ends = pixels(from + long);
    (
        usize::from(begins),
        usize::from(ends.saturating_sub(begins).max(1)),
    )
}

/// The nearest whole number of pixels.
#[expect(
    clippy::as_conversions,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "kept between nothing and the most first; what is no number becomes nothing"
)]
#[must_use]
pub fn pixels(length: f32) -> u16 {
    length.round().clamp(0.0, f32::from(MOST)) as u16
}

#[expect(
    clippy::as_conversions,
    clippy::cast_possible_truncation,
    reason = "a width on a screen has digits to spare in a single float"
)]
const fn in_single(length: f64) -> f32 {
    length as f32
}
