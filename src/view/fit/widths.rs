//! How wide words are as the screens shape them: kerned, in parts of the font size.

use std::sync::LazyLock;

use harfrust::{Direction, FontRef, ShapeOptions, ShapePlan, ShaperData, UnicodeBuffer, script};

use super::Weight;
use crate::view::letters::{BOLD_FILE, REGULAR_FILE};

struct Face {
    font: FontRef<'static>,
    data: ShaperData,
    /// How Latin letters from left to right are shaped: all our languages are written in them.
    plan: ShapePlan,
    per_em: f32,
}

static REGULAR: LazyLock<Option<Face>> = LazyLock::new(|| face(REGULAR_FILE));
static BOLD: LazyLock<Option<Face>> = LazyLock::new(|| face(BOLD_FILE));

fn face(bytes: &'static [u8]) -> Option<Face> {
    let font = FontRef::new(bytes).ok()?;
    let data = ShaperData::new(&font);
    let shaper = data.shaper(&font).build();
    let plan = ShapePlan::new(&shaper, Direction::LeftToRight, Some(script::LATIN), None, &[]);
    let per_em = f32::from(i16::try_from(shaper.units_per_em()).ok()?);
    Some(Face {
        font,
        data,
        plan,
        per_em,
    })
}

/// The width of a text in one line, in parts of its font size.
pub(super) fn width_of(text: &str, weight: Weight) -> f32 {
    let face = match weight {
        Weight::Regular => REGULAR.as_ref(),
        Weight::Bold => BOLD.as_ref(),
    };
    let Some(face) = face else { return 0.0 };
    let mut letters = UnicodeBuffer::new();
    letters.push_str(text);
    letters.set_direction(Direction::LeftToRight);
    letters.set_script(script::LATIN);
    let options = ShapeOptions::new().plan(Some(&face.plan));
    let shaped = face.data.shaper(&face.font).build().shape(letters, options);
    let advances = shaped
        .glyph_positions()
        .iter()
        .map(|glyph| f64::from(glyph.x_advance));
    in_parts(advances.sum(), face.per_em)
}

#[expect(
    clippy::as_conversions,
    reason = "a width on a screen has digits to spare in a single float"
)]
fn in_parts(units: f64, per_em: f32) -> f32 {
    units as f32 / per_em
}
