//! Draws what the screens ask to have drawn.

use std::cell::RefCell;

use slint::{Color, Global, Image, Model, ModelRc, Rgb8Pixel, SharedPixelBuffer, SharedString};

use super::generated as glass;
use crate::view::picture::canvas::{Canvas, Ink};
use crate::view::picture::curve::{self, CurveFrame, CurveInks};
use crate::view::picture::digit;
use crate::view::picture::pot::{self, PotFrame, PotInks};
use crate::view::picture::rail::{self, RailFrame, RailInks};
use crate::view::picture::tag::{self, TagInks};
use crate::view::screen as view;

/// For as long as the window is there.
pub(super) fn answer_for(window: &glass::AppWindow) {
    let pictures = glass::PictureBridge::get(window);
    let last = Last::default();
    pictures.on_pot(move |picture, inks, frame| {
        let asked = (pot_picture(&picture), PotInks::from(inks), PotFrame::from(frame));
        last.image(asked, |(picture, inks, frame)| pot::draw(picture, inks, *frame))
    });
    let last = Last::default();
    pictures.on_curve(move |curve, marks, temperatures, times, inks, frame| {
        let lists = view::CurveLists {
            marks: rows(&marks).map(curve_mark).collect(),
            temperatures: rows(&temperatures).map(curve_rule).collect(),
            times: rows(&times).map(curve_rule).collect(),
        };
        let asked = (
            bath_curve(&curve),
            lists,
            CurveInks::from(inks),
            CurveFrame::from(frame),
        );
        last.image(asked, |(curve, lists, inks, frame)| {
            curve::draw(curve, lists, inks, *frame)
        })
    });
    pictures.on_rail(|faces, held, inks, frame| {
        let faces: Vec<view::RailFace> = rows(&faces).map(|face| rail_face(&face)).collect();
        let held = usize::try_from(held).ok();
        image(&rail::draw(&faces, held, &inks.into(), frame.into()))
    });
    pictures.on_tag(|pot, side, inks| image(&tag::draw(pot, side.plain(), inks.into())));
    let digits = Digits::default();
    pictures
        .on_digit(move |digit, size, face, ground| digits.image(digit, size, face.plain(), ground.plain()));
    pictures.on_above(|size| digit::above(size).into());
}

/// What was drawn last. The markup asks anew when anything of a screen has changed, be it of the picture or not.
struct Last<Asked>(RefCell<Option<(Asked, Image)>>);

impl<Asked> Default for Last<Asked> {
    fn default() -> Self {
        Self(RefCell::new(None))
    }
}

impl<Asked: PartialEq> Last<Asked> {
    fn image(&self, asked: Asked, draw: impl FnOnce(&Asked) -> Canvas) -> Image {
        let mut last = self.0.borrow_mut();
        match &*last {
            Some((of, drawn)) if *of == asked => drawn.clone(),
            Some(_) | None => {
                let drawn = image(&draw(&asked));
                *last = Some((asked, drawn.clone()));
                drawn
            }
        }
    }
}

/// Digits that have been drawn: each comes again within ten seconds.
#[derive(Default)]
struct Digits {
    drawn: RefCell<Vec<(Digit, Image)>>,
}

#[derive(PartialEq)]
struct Digit {
    digit: SharedString,
    size: f32,
    ink: Ink,
    ground: Ink,
}

impl Digits {
    fn image(&self, digit: SharedString, size: f32, ink: Ink, ground: Ink) -> Image {
        if digit.is_empty() {
            return Image::default();
        }
        let wanted = Digit {
            digit,
            size,
            ink,
            ground,
        };
        let mut drawn = self.drawn.borrow_mut();
        if let Some((_, image)) = drawn.iter().find(|(digit, _)| *digit == wanted) {
            return image.clone();
        }
        // The ten of another size or another look are of no more use.
        drawn.retain(|(digit, _)| {
            digit.size.total_cmp(&size).is_eq() && digit.ink == ink && digit.ground == ground
        });
        let image = image(&digit::draw(&wanted.digit, size, ink, ground));
        drawn.push((wanted, image.clone()));
        image
    }
}

fn image(canvas: &Canvas) -> Image {
    let bytes = canvas.pixels().as_flattened();
    let (width, height) = (canvas.width(), canvas.height());
    Image::from_rgb8(SharedPixelBuffer::<Rgb8Pixel>::clone_from_slice(
        bytes,
        u32::from(width),
        u32::from(height),
    ))
}

/// The rows of a list. Whoever asks hears when they change.
fn rows<T: 'static>(list: &ModelRc<T>) -> impl Iterator<Item = T> {
    list.model_tracker().track_row_count_changes();
    (0..list.row_count()).filter_map(|row| {
        list.model_tracker().track_row_data_changes(row);
        list.row_data(row)
    })
}

/// A value of the markup as the drawing room takes it.
trait Plain<T> {
    fn plain(self) -> T;
}

impl Plain<Ink> for Color {
    fn plain(self) -> Ink {
        [self.red(), self.green(), self.blue()]
    }
}

impl Plain<u16> for i32 {
    fn plain(self) -> u16 {
        u16::try_from(self.max(0)).unwrap_or(u16::MAX)
    }
}

impl Plain<Self> for f32 {
    fn plain(self) -> Self {
        self
    }
}

impl Plain<Self> for bool {
    fn plain(self) -> Self {
        self
    }
}

/// Structs whose fields carry the same names on both sides.
macro_rules! plain {
    ($($name:ident: $($field:ident),+;)*) => {$(
        impl From<glass::$name> for $name {
            fn from(glass: glass::$name) -> Self {
                Self {
                    $($field: glass.$field.plain(),)+
                }
            }
        }
    )*};
}

plain! {
    PotInks: around, card, wood, thread, line, fibre, fibre_edge, flame, flame_core, steam, liquor, surface, tag, number;
    PotFrame: width, height, unit, on_card, is_centred;
    CurveInks: around, sunk, grid, band, edge, done, ink, soft, raised;
    CurveFrame: width, height, unit, letter;
    RailInks: around, raised, caution, thread, line, ink, on_caution;
    RailFrame: width, height, unit, columns, each, each_high, gap, tag, is_narrow;
    TagInks: face, letters, ground;
}

/// As far as it is drawn: the colour of its liquor comes with the others.
fn pot_picture(glass: &glass::PotPicture) -> view::PotPicture {
    view::PotPicture {
        pot: glass.pot,
        level: glass.level,
        lid: glass.lid.into(),
        heat: glass.heat.into(),
        steam: glass.steam.into(),
        goods: glass.goods.into(),
        bag: glass.bag.into(),
        ..view::PotPicture::default()
    }
}

/// As far as it is drawn.
fn bath_curve(glass: &glass::BathCurve) -> view::BathCurve {
    view::BathCurve {
        band: glass.band.to_string(),
        plan: glass.plan.to_string(),
        done: glass.done.to_string(),
        now: glass.now,
        said: String::new(),
    }
}

fn curve_mark(glass: glass::CurveMark) -> view::CurveMark {
    view::CurveMark {
        x: glass.x,
        y: glass.y,
        label: glass.label.into(),
        kind: glass.kind.into(),
    }
}

fn curve_rule(glass: glass::CurveRule) -> view::CurveRule {
    view::CurveRule {
        at: glass.at,
        label: glass.label.into(),
    }
}

const fn rail_face(glass: &glass::RailFace) -> view::RailFace {
    view::RailFace {
        pot: glass.pot,
        forward: glass.forward,
        calling: glass.calling,
    }
}
