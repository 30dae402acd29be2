//! What of the rail doesn't change from minute to minute: the cell of every pot going, with its tag.

use super::canvas::{Area, Canvas, Ink};
use super::tag;
use crate::view::screen::RailFace;

/// The colours of a rail.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct RailInks {
    /// What it lies on.
    pub around: Ink,
    /// A cell.
    pub raised: Ink,
    /// One whose pot calls.
    pub caution: Ink,
    /// One under a finger.
    pub thread: Ink,
    /// The edge of a cell.
    pub line: Ink,
    /// The edge of the one that is forward, and tags.
    pub ink: Ink,
    /// Bar and tag of a pot that calls.
    pub on_caution: Ink,
}

/// How large the rail and its cells are, in pixels.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RailFrame {
    /// How wide.
    pub width: u16,
    /// How high.
    pub height: u16,
    /// Pixels to a unit of the screens' design.
    pub unit: f32,
    /// How many cells stand in a row.
    pub columns: u16,
    /// How wide each is.
    pub each: f32,
    /// How high each is.
    pub each_high: f32,
    /// How far one is from the next.
    pub gap: f32,
    /// How wide a tag is.
    pub tag: f32,
    /// The tag stands above the act, and not beside it.
    pub is_narrow: bool,
}

/// The picture. `held` is the place of the cell that a finger is on, if any.
#[must_use]
pub fn draw(faces: &[RailFace], held: Option<usize>, inks: &RailInks, frame: RailFrame) -> Canvas {
    let mut canvas = Canvas::new(frame.width, frame.height, inks.around);
    let columns = usize::from(frame.columns.max(1));
    for (row, faces_of_row) in faces.chunks(columns).enumerate() {
        let begins = row.saturating_mul(columns);
        let mut area = Area {
            x: 0.0,
            y: steps(row) * (frame.each_high + frame.gap),
            width: frame.each,
            height: frame.each_high,
        };
        for (column, face) in faces_of_row.iter().enumerate() {
            area.x = steps(column) * (frame.each + frame.gap);
            let is_held = held == Some(begins.saturating_add(column));
            draw_cell(&mut canvas, face, is_held, area.on_whole_pixels(), inks, frame);
        }
    }
    canvas
}

/// At most six pots are going.
fn steps(count: usize) -> f32 {
    u8::try_from(count).map_or(0.0, f32::from)
}

fn draw_cell(
    canvas: &mut Canvas,
    cell: &RailFace,
    is_held: bool,
    area: Area,
    inks: &RailInks,
    frame: RailFrame,
) {
    let unit = frame.unit;
    let (edge, border) = if cell.forward {
        (inks.ink, 4.0 * unit)
    } else {
        (inks.line, 2.0 * unit)
    };
    let (face, letters) = match (is_held, cell.calling) {
        (true, _) => (inks.thread, inks.ink),
        (false, true) => (inks.caution, inks.on_caution),
        (false, false) => (inks.raised, inks.ink),
    };
    let radius = 6.0 * unit;
    canvas.rounded(area, radius, edge);
    let within = Area {
        x: area.x + border,
        y: area.y + border,
        width: area.width - 2.0 * border,
        height: area.height - 2.0 * border,
    };
    canvas.rounded(within, radius - border, face);
    // Its hands are due: a bar at the side says so without the colour.
    if cell.calling {
        let bar = Area {
            x: area.x + 4.0 * unit,
            y: area.y + 8.0 * unit,
            width: 4.0 * unit,
            height: area.height - 16.0 * unit,
        };
        canvas.rectangle(bar, letters);
    }
    let down = if frame.is_narrow {
        6.0 * unit
    } else {
        (area.height - frame.tag) / 2.0
    };
    let corner = (area.x + 11.0 * unit, area.y + down);
    tag::put(canvas, cell.pot, corner, frame.tag, (letters, face));
}
