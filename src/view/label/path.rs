//! What is on a sheet as path commands, in millimetres from a corner: for a screen that draws paths and no SVG.

use std::fmt::Write as _;

use super::layout::{Drawing, Mark};
use crate::view::letters::outline;

/// Everything that is inked: the modules of codes, and the letters as outlines.
#[must_use]
pub fn ink_path(sheet: &Drawing, (left, top): (f64, f64)) -> String {
    let mut path = String::new();
    for mark in &sheet.marks {
        match mark {
            Mark::Dark { x, y, side } => write!(
                path,
                "M{:.3} {:.3}h{side:.3}v{side:.3}h-{side:.3}z",
                x - left,
                y - top
            )
            .unwrap_or(()), // Writing to a string can't fail.
            Mark::Text {
                x,
                baseline,
                size,
                is_bold,
                text,
            } => path.push_str(&outline(text, *size, *is_bold, (x - left, baseline - top))),
            Mark::Hole { .. } | Mark::Cut { .. } => {}
        }
    }
    path
}

/// Everything that is cut or punched: thin lines.
#[must_use]
pub fn cut_path(sheet: &Drawing, (left, top): (f64, f64)) -> String {
    let mut path = String::new();
    for mark in &sheet.marks {
        let written = match mark {
            Mark::Hole { x, y, radius } => write!(
                path,
                "M{:.3} {:.3}a{radius:.3} {radius:.3} 0 1 0 {:.3} 0a{radius:.3} {radius:.3} 0 1 0 {:.3} 0z",
                x - left - radius,
                y - top,
                2.0 * radius,
                -2.0 * radius
            ),
            Mark::Cut { x, y, width, height } => write!(
                path,
                "M{:.3} {:.3}h{width:.3}v{height:.3}h-{width:.3}z",
                x - left,
                y - top
            ),
            Mark::Dark { .. } | Mark::Text { .. } => Ok(()),
        };
        written.unwrap_or(()); // Writing to a string can't fail.
    }
    path
}
