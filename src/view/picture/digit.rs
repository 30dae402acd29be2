//! The last digit of a time that is running. It is drawn once and copied each second.

use super::canvas::{Canvas, Hand, Ink, pixels, width_of_words};

/// How far a digit reaches above its baseline and below it, in parts of its size: a capital's height and what round ones
/// have beyond it.
const ABOVE: f32 = 0.78;
const BELOW: f32 = 0.03;

/// How many pixels of it lie above its baseline.
#[must_use]
pub fn above(size: f32) -> u16 {
    pixels((ABOVE * size).ceil())
}

/// A digit in bold letters of a size, in pixels, as wide as the digits are.
#[must_use]
pub fn draw(digit: &str, size: f32, ink: Ink, ground: Ink) -> Canvas {
    // Letters have whole sizes on the screen, and it stands among them.
    let hand = Hand {
        size: size.floor(),
        is_bold: true,
    };
    let wide = pixels(width_of_words(digit, hand).ceil());
    let below = pixels((BELOW * size).ceil());
    let mut canvas = Canvas::new(wide, above(size).saturating_add(below), ground);
    canvas.letters(digit, (0.0, f32::from(above(size))), hand, ink);
    canvas
}
