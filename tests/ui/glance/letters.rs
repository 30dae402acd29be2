//! The letters of B612 as outlines. The tallest unbroken mark of a text, told in capitals, turns what is measured on a
//! picture into the height of a capital, whatever letters the text happens to have.

use std::sync::LazyLock;

use ttf_parser::{Face, OutlineBuilder};

static REGULAR: LazyLock<Face<'static>> =
    LazyLock::new(|| face(include_bytes!("../../../ui/fonts/B612-Regular.otf")));
static BOLD: LazyLock<Face<'static>> =
    LazyLock::new(|| face(include_bytes!("../../../ui/fonts/B612-Bold.otf")));

fn face(bytes: &'static [u8]) -> Face<'static> {
    Face::parse(bytes, 0).expect("a face")
}

/// The height of a capital, in sizes of the face.
pub(super) fn capital() -> f32 {
    let height = REGULAR.capital_height().expect("the face says it");
    f32::from(height) / f32::from(REGULAR.units_per_em())
}

/// How many capitals high the tallest unbroken mark of a text is: 1 for `ADD`, more for `bag`, less for `sea`.
pub(super) fn tallest_mark(text: &str, is_bold: bool) -> f32 {
    let face = if is_bold { &*BOLD } else { &*REGULAR };
    let capital = f32::from(face.capital_height().expect("the face says it"));
    let tallest = text
        .chars()
        .flat_map(|letter| marks(face, letter))
        .fold(0.0, f32::max);
    tallest / capital
}

/// Heights of the outlines of a letter; the dots of an umlaut are outlines of their own.
fn marks(face: &Face<'_>, letter: char) -> Vec<f32> {
    let mut pen = Pen::default();
    if let Some(glyph) = face.glyph_index(letter) {
        // A space has no outline.
        let _box = face.outline_glyph(glyph, &mut pen);
    }
    pen.heights
}

#[derive(Default)]
struct Pen {
    heights: Vec<f32>,
    low: f32,
    high: f32,
}

impl Pen {
    const fn reach(&mut self, y: f32) {
        self.low = self.low.min(y);
        self.high = self.high.max(y);
    }
}

impl OutlineBuilder for Pen {
    fn move_to(&mut self, _x: f32, y: f32) {
        (self.low, self.high) = (y, y);
    }

    fn line_to(&mut self, _x: f32, y: f32) {
        self.reach(y);
    }

    fn quad_to(&mut self, _x1: f32, _y1: f32, _x: f32, y: f32) {
        self.reach(y);
    }

    // The face has its points where curves turn, so that the ends of the pieces are the ends of the whole.
    fn curve_to(&mut self, _x1: f32, _y1: f32, _x2: f32, _y2: f32, _x: f32, y: f32) {
        self.reach(y);
    }

    fn close(&mut self) {
        self.heights.push(self.high - self.low);
    }
}

#[test]
fn the_tallest_mark_is_told_in_capitals() {
    assert!((capital() - 0.75).abs() < 0.001);
    for is_bold in [false, true] {
        assert!((tallest_mark("E", is_bold) - 1.0).abs() < 0.001);
        assert!((0.6..0.9).contains(&tallest_mark("sea", is_bold)));
        assert!((1.0..1.4).contains(&tallest_mark("bag", is_bold)));
        // The dots don't make the letter taller, and a round letter only as much as it overshoots.
        let taller_by = tallest_mark("\u{c4}", is_bold) - tallest_mark("A", is_bold);
        assert!(taller_by.abs() < 0.001);
        assert!((1.0..1.05).contains(&tallest_mark("12:40", is_bold)));
    }
}
