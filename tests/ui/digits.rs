//! The last digit of a running time is a picture beside its text: it looks as the screen's own letters do.

use std::path::Path;

use potside::view::letters::{ASCENDER, DESCENDER};
use potside::view::picture::digit;
use slint::platform::WindowEvent;
use slint_interpreter::{ComponentHandle, ComponentInstance, Value};

use crate::gallery::{Picture, answer, built, take_window};

const WHITE: [u8; 3] = [255; 3];
const BLACK: [u8; 3] = [0; 3];
/// Where the text's box lies.
const LEFT: usize = 20;
const TOP: usize = 30;
const HIGH: usize = 300;

const TEXT: &str = r#"
import "../fonts/B612-Bold.otf";
export component Preview inherits Window {
    in property <string> digit;
    in property <length> size;
    width: 400px; height: 360px; background: white;
    Text {
        x: 20px; y: 30px; width: 300px; height: 300px; vertical-alignment: center;
        text: digit; font-family: "B612"; font-weight: 700; font-size: size; color: black;
    }
}"#;

/// Opens a window of that markup, as if it lay among the previews.
fn open(markup: &str) -> ComponentInstance {
    let here = Path::new(env!("CARGO_MANIFEST_DIR")).join("ui/previews/digit.slint");
    let case = built(markup.into(), &here);
    case.show().expect("it shows");
    case
}

#[test]
fn a_digit_as_a_picture_is_the_digit_as_a_text() {
    let case = open(TEXT);
    for size in [40.0_f32, 70.0, 98.0, 98.7, 220.0] {
        case.set_property("size", Value::Number(size.into()))
            .expect("there");
        // Capitals and digits stand in the middle of their box by their ascender and descender.
        let baseline =
            (TOP as f32 + HIGH as f32 / 2.0 + 0.5 * (ASCENDER - DESCENDER) * size).round() as usize;
        for number in 0..10 {
            let text = number.to_string();
            case.set_property("digit", Value::String(text.as_str().into()))
                .expect("there");
            let painted = take_window(case.window());
            let drawn = digit::draw(&text, size, BLACK, WHITE);
            let (wide, high) = (usize::from(drawn.width()), usize::from(drawn.height()));
            let above = usize::from(digit::above(size));
            let mut off = 0_u32;
            for (place, pixel) in drawn.pixels().iter().enumerate() {
                let (x, y) = (LEFT + place % wide, baseline - above + place / wide);
                let text = painted.rgb[(y * painted.width as usize + x) * 3];
                off += u32::from(text.abs_diff(pixel[0]));
            }
            // Of all its pixels, half a step of 255 each: outlines come from two readers of the face, painted by one painter.
            let most = (wide * high) as u32 / 2;
            assert!(off <= most, "{text} at {size}: {off} of {most}");
            // And all of the text lies within the picture.
            let outside = painted.rgb.chunks_exact(3).enumerate().filter(|(place, pixel)| {
                let (x, y) = (place % painted.width as usize, place / painted.width as usize);
                let is_within = (LEFT..LEFT + wide).contains(&x)
                    && (baseline - above..baseline - above + high).contains(&y);
                pixel[0] < 255 && !is_within
            });
            assert_eq!(outside.count(), 0, "{text} at {size}");
        }
    }
}

/// The same time cut before its last digit, and as one text.
const TIMES: &str = r#"
import { RunningTime } from "../components/words.slint";
import { ThemeColors } from "../tokens/colors.slint";
export { LettersBridge } from "../bridge/letters_bridge.slint";
export { PictureBridge } from "../bridge/picture_bridge.slint";
export component Preview inherits Window {
    in property <string> text;
    in property <string> last;
    in property <string> counting;
    in property <length> x0;
    in property <length> y0;
    background: ThemeColors.ground;
    RunningTime {
        x: root.x0; y: root.y0; width: 300px; height: 122px; text: root.text; last: root.last; counting: root.counting;
        most: 98px; least: 40px; ink: ThemeColors.hot;
    }
}"#;

/// What isn't ground: how much of it, and the box around it.
fn inked(picture: &Picture) -> (f32, [usize; 4]) {
    let ground = &picture.rgb[..3];
    let (mut amount, mut around) = (0.0, [usize::MAX, usize::MAX, 0, 0]);
    for (place, pixel) in picture.rgb.chunks_exact(3).enumerate() {
        let off: u32 = ground
            .iter()
            .zip(pixel)
            .map(|(one, other)| u32::from(one.abs_diff(*other)))
            .sum();
        amount += off as f32;
        // The faint rim of a letter doesn't count.
        if off > 150 {
            let (x, y) = (place % picture.width as usize, place / picture.width as usize);
            around = [
                around[0].min(x),
                around[1].min(y),
                around[2].max(x),
                around[3].max(y),
            ];
        }
    }
    (amount, around)
}

#[test]
fn a_time_with_a_drawn_digit_stands_as_one_that_is_all_text() {
    let case = open(TIMES);
    answer(&case);
    for scale in [1.0_f32, 1.25, 2.0] {
        let window = case.window();
        window.dispatch_event(WindowEvent::ScaleFactorChanged { scale_factor: scale });
        let (width, height) = (400.0, 180.0);
        window.set_size(slint::PhysicalSize::new(
            (width * scale) as u32,
            (height * scale) as u32,
        ));
        window.dispatch_event(WindowEvent::Resized {
            size: slint::LogicalSize::new(width, height),
        });
        for (x, y) in [(20.0, 30.0), (20.4, 29.7), (19.5, 30.5)] {
            case.set_property("x0", Value::Number(x)).expect("there");
            case.set_property("y0", Value::Number(y)).expect("there");
            for time in ["14:59", "03:08", "1:02:07"] {
                let (before, last) = time.split_at(time.len() - 1);
                let counting: String = time
                    .chars()
                    .map(|sign| if sign == ':' { ':' } else { '0' })
                    .collect();
                let shown = |text: &str, last: &str| {
                    for (name, value) in [("text", text), ("last", last), ("counting", counting.as_str())] {
                        case.set_property(name, Value::String(value.into()))
                            .expect("there");
                    }
                    inked(&take_window(case.window()))
                };
                let (cut, cut_around) = shown(before, last);
                let (whole, whole_around) = shown(time, "");
                assert!(
                    (cut - whole).abs() < 0.02 * whole,
                    "{time} at {scale}: {cut}, not {whole}"
                );
                for (cut, whole) in cut_around.into_iter().zip(whole_around) {
                    assert!(
                        cut.abs_diff(whole) <= 1,
                        "{time} at {scale}, {x}, {y}: {cut_around:?}, not {whole_around:?}"
                    );
                }
            }
        }
    }
}
