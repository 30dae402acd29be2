//! A pot's tag: its number on a shape of its own, so that neither colour nor digit stands alone.

use super::canvas::{Area, Canvas, Hand, Ink, Place, Side};

/// The colours of a tag.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TagInks {
    /// Of the shape.
    pub face: Ink,
    /// Of the number.
    pub letters: Ink,
    /// What it lies on.
    pub ground: Ink,
}

/// The tag of a pot, 1 to 6, on a square of so many pixels.
#[must_use]
pub fn draw(pot: i32, side: u16, inks: TagInks) -> Canvas {
    let mut canvas = Canvas::new(side, side, inks.ground);
    put(
        &mut canvas,
        pot,
        (0.0, 0.0),
        f32::from(side),
        (inks.face, inks.letters),
    );
    canvas
}

/// The same on another drawing, with its corner there.
pub(super) fn put(canvas: &mut Canvas, pot: i32, (x, y): (f32, f32), side: f32, (face, letters): (Ink, Ink)) {
    canvas.fill(shape(pot), Place::even(x, y, side / 100.0), face);
    // The triangle is wide at its foot.
    let down = if pot == 3 { 0.1 * side } else { 0.0 };
    let area = Area {
        x,
        y: y + down,
        width: side,
        height: side,
    };
    let hand = Hand {
        size: 0.54 * side,
        is_bold: true,
    };
    canvas.words(&pot.to_string(), (area, Side::Middle), hand, letters);
}

/// In a square of 100.
const fn shape(pot: i32) -> &'static str {
    match pot {
        1 => "M50 2C114 2 114 98 50 98C-14 98 -14 2 50 2Z",
        2 => "M8 8L92 8L92 92L8 92Z",
        3 => "M50 1L100 90L0 90Z",
        4 => "M50 0L100 50L50 100L0 50Z",
        5 => "M50 1L100 38L81 97L19 97L0 38Z",
        i32::MIN..=0 | 6..=i32::MAX => "M25 4L75 4L100 50L75 96L25 96L0 50Z",
    }
}
