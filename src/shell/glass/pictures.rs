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
    pictures.on_pot(|picture, inks, frame| {
        image(&pot::draw(
            &pot_picture(&picture),
            &pot_inks(&inks),
            pot_frame(&frame),
        ))
    });
    pictures.on_curve(|curve, marks, temperatures, times, inks, frame| {
        let lists = view::CurveLists {
            marks: rows(&marks).map(curve_mark).collect(),
            temperatures: rows(&temperatures).map(curve_rule).collect(),
            times: rows(&times).map(curve_rule).collect(),
        };
        image(&curve::draw(
            &bath_curve(&curve),
            &lists,
            &curve_inks(&inks),
            curve_frame(&frame),
        ))
    });
    pictures.on_tag(|pot, side, inks| {
        let inks = TagInks {
            face: ink(inks.face),
            letters: ink(inks.letters),
            ground: ink(inks.ground),
        };
        image(&tag::draw(pot, pixels(side), inks))
    });
    pictures.on_rail(|faces, held, inks, frame| {
        let faces: Vec<view::RailFace> = rows(&faces).map(|face| rail_face(&face)).collect();
        let held = usize::try_from(held).ok();
        image(&rail::draw(&faces, held, &rail_inks(&inks), rail_frame(&frame)))
    });
    let digits = Digits::default();
    pictures.on_digit(move |digit, size, face, ground| digits.image(digit, size, ink(face), ink(ground)));
    pictures.on_above(|size| whole(digit::above(size)));
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

fn ink(color: Color) -> Ink {
    [color.red(), color.green(), color.blue()]
}

fn pixels(length: i32) -> u16 {
    u16::try_from(length.max(0)).unwrap_or(u16::MAX)
}

fn whole(length: f32) -> i32 {
    i32::from(crate::view::picture::canvas::pixels(length))
}

fn pot_picture(glass: &glass::PotPicture) -> view::PotPicture {
    view::PotPicture {
        pot: glass.pot,
        level: glass.level,
        liquor: glass.liquor.into(),
        lid: glass.lid.into(),
        heat: glass.heat.into(),
        steam: glass.steam.into(),
        goods: glass.goods.into(),
        bag: glass.bag.into(),
        said: String::new(),
    }
}

fn pot_inks(glass: &glass::PotInks) -> PotInks {
    PotInks {
        around: ink(glass.around),
        card: ink(glass.card),
        wood: ink(glass.wood),
        thread: ink(glass.thread),
        line: ink(glass.line),
        fibre: ink(glass.fibre),
        fibre_edge: ink(glass.fibre_edge),
        flame: ink(glass.flame),
        flame_core: ink(glass.flame_core),
        steam: ink(glass.steam),
        liquor: ink(glass.liquor),
        surface: ink(glass.surface),
        tag: ink(glass.tag),
        number: ink(glass.number),
    }
}

fn pot_frame(glass: &glass::PotFrame) -> PotFrame {
    PotFrame {
        width: pixels(glass.width),
        height: pixels(glass.height),
        unit: glass.unit,
        on_card: glass.on_card,
        is_centred: glass.is_centred,
    }
}

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

fn curve_inks(glass: &glass::CurveInks) -> CurveInks {
    CurveInks {
        around: ink(glass.around),
        sunk: ink(glass.sunk),
        grid: ink(glass.grid),
        band: ink(glass.band),
        edge: ink(glass.edge),
        done: ink(glass.done),
        ink: ink(glass.ink),
        soft: ink(glass.soft),
        raised: ink(glass.raised),
    }
}

fn curve_frame(glass: &glass::CurveFrame) -> CurveFrame {
    CurveFrame {
        width: pixels(glass.width),
        height: pixels(glass.height),
        unit: glass.unit,
        letter: glass.letter,
    }
}

const fn rail_face(glass: &glass::RailFace) -> view::RailFace {
    view::RailFace {
        pot: glass.pot,
        forward: glass.forward,
        calling: glass.calling,
    }
}

fn rail_inks(glass: &glass::RailInks) -> RailInks {
    RailInks {
        around: ink(glass.around),
        raised: ink(glass.raised),
        caution: ink(glass.caution),
        thread: ink(glass.thread),
        line: ink(glass.line),
        ink: ink(glass.ink),
        on_caution: ink(glass.on_caution),
    }
}

fn rail_frame(glass: &glass::RailFrame) -> RailFrame {
    RailFrame {
        width: pixels(glass.width),
        height: pixels(glass.height),
        unit: glass.unit,
        columns: pixels(glass.columns),
        each: glass.each,
        each_high: glass.each_high,
        gap: glass.gap,
        tag: glass.tag,
        is_narrow: glass.is_narrow,
    }
}
