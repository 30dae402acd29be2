//! The last digit of a running time is a picture beside its text: it looks as the screen's own letters do.

use std::pin::pin;
use std::task::{Context, Poll, Waker};

use potside::view::picture::digit;
use slint_interpreter::{Compiler, ComponentHandle, Value};

use crate::gallery::{go_headless, take_window};

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

#[test]
fn a_digit_as_a_picture_is_the_digit_as_a_text() {
    go_headless();
    let compiler = Compiler::default();
    let here = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("ui/previews/digit.slint");
    let mut building = pin!(compiler.build_from_source(TEXT.into(), here));
    let Poll::Ready(built) = building.as_mut().poll(&mut Context::from_waker(Waker::noop())) else {
        panic!("nothing to wait for");
    };
    let definition = built.component("Preview").expect("it compiles");
    let case = definition.create().expect("a headless window");
    case.show().expect("it shows");

    for size in [40.0_f32, 70.0, 98.0, 98.7, 220.0] {
        case.set_property("size", Value::Number(size.into()))
            .expect("there");
        // Capitals and digits stand in the middle of their box by their ascender and descender.
        let baseline = (TOP as f32 + HIGH as f32 / 2.0 + 0.5 * (0.965 - 0.25) * size).round() as usize;
        for number in 0..10 {
            let text = number.to_string();
            case.set_property("digit", Value::String(text.as_str().into()))
                .expect("there");
            let painted = take_window(case.window());
            let drawn = digit::draw(&text, size, BLACK, WHITE);
            let (wide, high) = (usize::from(drawn.width()), usize::from(drawn.height()));
            let above = digit::above(size) as usize;
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
