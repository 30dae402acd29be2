//! The letters of labels and of pictures: how wide they are, how they are drawn, and where a text has to be cut.

use std::fmt::Write as _;
use std::sync::LazyLock;

use ttf_parser::{Face, OutlineBuilder};

/// The two faces as their files hold them.
pub(in crate::view) static REGULAR_FILE: &[u8] = include_bytes!("../../ui/fonts/B612-Regular.otf");
/// See [`REGULAR_FILE`].
pub(in crate::view) static BOLD_FILE: &[u8] = include_bytes!("../../ui/fonts/B612-Bold.otf");

static REGULAR: LazyLock<Option<Face<'static>>> = LazyLock::new(|| face(REGULAR_FILE));
static BOLD: LazyLock<Option<Face<'static>>> = LazyLock::new(|| face(BOLD_FILE));

fn face(bytes: &'static [u8]) -> Option<Face<'static>> {
    Face::parse(bytes, 0).ok()
}

fn of(is_bold: bool) -> Option<&'static Face<'static>> {
    if is_bold { BOLD.as_ref() } else { REGULAR.as_ref() }
}

/// How far the letters reach above and below their baseline, in parts of their size.
pub const ASCENDER: f32 = 0.965;
/// See [`ASCENDER`].
pub const DESCENDER: f32 = 0.25;

const ELLIPSIS: char = '\u{2026}';

/// The width of a text of a size, in the unit of the size.
#[must_use]
pub fn width_of(text: &str, size: f64, is_bold: bool) -> f64 {
    let Some(face) = of(is_bold) else {
        return 0.0;
    };
    let per_unit = size / f64::from(face.units_per_em());
    text.chars().map(|c| advance(face, c) * per_unit).sum()
}

/// The text, cut with an ellipsis where it would be wider than so much.
pub(in crate::view) fn cut(text: &str, size: f64, is_bold: bool, width_most: f64) -> String {
    if width_of(text, size, is_bold) <= width_most {
        return text.to_owned();
    }
    let mut kept: Vec<char> = text.chars().collect();
    while kept.pop().is_some() {
        let shorter: String = kept.iter().collect::<String>().trim_end().to_owned();
        let shorter = format!("{shorter}{ELLIPSIS}");
        if width_of(&shorter, size, is_bold) <= width_most {
            return shorter;
        }
    }
    String::new()
}

/// The outline of a text as the path data of SVG, its baseline starting at `x`, `y`.
pub(in crate::view) fn outline(text: &str, size: f64, is_bold: bool, start: (f64, f64)) -> String {
    let mut path = String::new();
    trace(text, size, is_bold, start, |command, points| {
        path.push(command);
        for (x, y) in points {
            // Writing to a string can't fail.
            write!(path, " {x:.3} {y:.3}").unwrap_or(());
        }
    });
    path
}

/// Goes along the outline of a text, its baseline starting at `x`, `y`: each command as a path of SVG names it, `M`, `L`,
/// `Q`, `C` or `Z`, with its points.
pub(in crate::view) fn trace(
    text: &str,
    size: f64,
    is_bold: bool,
    (x, y): (f64, f64),
    along: impl FnMut(char, &[(f64, f64)]),
) {
    let Some(face) = of(is_bold) else { return };
    let scale = size / f64::from(face.units_per_em());
    let mut pen = Pen { along, x, y, scale };
    for c in text.chars() {
        let glyph = face.glyph_index(c).unwrap_or_default();
        // A blank has no outline.
        let _blank = face.outline_glyph(glyph, &mut pen);
        pen.x += advance(face, c) * scale;
    }
}

fn advance(face: &Face<'_>, c: char) -> f64 {
    let glyph = face.glyph_index(c).unwrap_or_default();
    f64::from(face.glyph_hor_advance(glyph).unwrap_or_default())
}

struct Pen<F> {
    along: F,
    x: f64,
    y: f64,
    scale: f64,
}

impl<F: FnMut(char, &[(f64, f64)])> Pen<F> {
    fn to<const N: usize>(&mut self, command: char, points: [(f32, f32); N]) {
        let points = points.map(|(x, y)| {
            (
                self.x + f64::from(x) * self.scale,
                self.y - f64::from(y) * self.scale,
            )
        });
        (self.along)(command, &points);
    }
}

impl<F: FnMut(char, &[(f64, f64)])> OutlineBuilder for Pen<F> {
    fn move_to(&mut self, x: f32, y: f32) {
        self.to('M', [(x, y)]);
    }
    fn line_to(&mut self, x: f32, y: f32) {
        self.to('L', [(x, y)]);
    }
    fn quad_to(&mut self, x1: f32, y1: f32, x: f32, y: f32) {
        self.to('Q', [(x1, y1), (x, y)]);
    }
    fn curve_to(&mut self, x1: f32, y1: f32, x2: f32, y2: f32, x: f32, y: f32) {
        self.to('C', [(x1, y1), (x2, y2), (x, y)]);
    }
    fn close(&mut self) {
        self.to('Z', []);
    }
}
