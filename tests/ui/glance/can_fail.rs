//! The measure itself: it finds what was drawn, and it sees what is too small, too pale, too thin, or cut.

use std::path::Path;
use std::pin::pin;
use std::task::{Context, Poll, Waker};

use slint_interpreter::{Compiler, ComponentHandle, ComponentInstance};

use super::reading::{self, Reading, Wanted};
use super::texts::{self, Text};
use super::{ink, letters};
use crate::gallery::{self, Picture};

const FROM_AFAR: Wanted = Wanted {
    metres: 2.0,
    minutes: 20.0,
};

/// A window with one text on linen.
pub(super) fn drawn(words: &str, size: f32, weight: u32, colour: &str, rest: &str) -> (Picture, Text) {
    let source = format!(
        r#"
        import "../fonts/B612-Regular.otf";
        import "../fonts/B612-Bold.otf";
        export component Preview inherits Window {{
            width: 800px; height: 480px; background: #efe6d3;
            Text {{
                x: 40px; y: 40px; text: "{words}"; font-family: "B612"; font-size: {size}px; font-weight: {weight};
                color: {colour}; {rest}
            }}
        }}"#
    );
    let window = compiled(source);
    window.show().expect("a headless window shows");
    let picture = gallery::take(&window);
    let mut found = texts::shown(window.window());
    assert_eq!(found.len(), 1);
    (picture, found.remove(0))
}

fn compiled(source: String) -> ComponentInstance {
    gallery::go_headless();
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("ui/previews/a_text.slint");
    let mut compiler = Compiler::default();
    compiler.set_style("fluent".into());
    let mut building = pin!(compiler.build_from_source(source, path));
    let Poll::Ready(result) = building.as_mut().poll(&mut Context::from_waker(Waker::noop())) else {
        panic!("the compiler waits for something")
    };
    let faults: Vec<String> = result.diagnostics().map(|fault| fault.to_string()).collect();
    assert!(faults.is_empty(), "{}", faults.join("\n"));
    let definition = result.component("Preview").expect("it exports Preview");
    definition.create().expect("a headless window")
}

fn faults_of(words: &str, size: f32, weight: u32, colour: &str) -> Vec<String> {
    let (picture, text) = drawn(words, size, weight, colour, "");
    Reading::of(&picture, &text).faults(&picture, FROM_AFAR)
}

/// The face says how high a capital is; so does the picture, whatever the letters.
#[test]
fn the_height_of_a_capital_is_read_off_the_picture() {
    for words in ["12:40", "ADD 15.0 g", "sea", "bag, j\u{e4}ger", "\u{c9}VENTER"] {
        for (size, weight) in [(100.0, 700), (44.0, 400), (24.0, 700)] {
            let (picture, text) = drawn(words, size, weight, "#1e1710", "");
            let frame = ink::Frame::of(text.area, &picture);
            let ink = ink::read(&picture, frame).expect("ink");
            let off = (reading::capital(&ink, &text) - letters::capital() * text.font_size).abs();
            let of_a_pixel = 1.2 / letters::tallest_mark(words, weight > 400);
            assert!(off <= of_a_pixel, "`{words}` at {size} is off by {off}");
        }
    }
}

#[test]
fn what_is_large_and_dark_is_read_from_afar() {
    for words in ["12:40", "ADD 15.0 g"] {
        assert_eq!(faults_of(words, 90.0, 700, "#1e1710"), Vec::<String>::new());
    }
}

#[test]
fn half_the_size_is_seen_to_be_too_small() {
    let faults = faults_of("12:40", 45.0, 700, "#1e1710");
    assert_eq!(faults.len(), 2, "{faults:?}");
    assert!(faults[0].contains("capitals of 10"), "{faults:?}");
    assert!(faults[1].contains("minutes of arc high"), "{faults:?}");
}

#[test]
fn a_pale_colour_is_seen_to_be_too_pale() {
    let faults = faults_of("12:40", 90.0, 700, "#8a8172");
    assert_eq!(faults.len(), 1, "{faults:?}");
    assert!(faults[0].contains("stands out 3."), "{faults:?}");
    let faults = faults_of("12:40", 90.0, 700, "#c9bfa9");
    assert!(
        faults.iter().any(|fault| fault.contains("keeps 1.")),
        "{faults:?}"
    );
}

/// Contrast enough where it is drawn, and gone at two metres: distance takes thin strokes first.
#[test]
fn strokes_that_distance_takes_are_missed() {
    let faults = faults_of("12:40", 16.0, 400, "#1e1710");
    assert!(faults.iter().any(|fault| fault.contains("keeps")), "{faults:?}");
    assert!(
        !faults.iter().any(|fault| fault.contains("stands out")),
        "{faults:?}"
    );
}

#[test]
fn an_act_that_is_cut_is_not_read() {
    let (picture, text) = drawn(
        "ADD 15.0 g",
        90.0,
        700,
        "#1e1710",
        "width: 300px; overflow: elide;",
    );
    let faults = Reading::of(&picture, &text).faults(&picture, FROM_AFAR);
    assert_eq!(faults, ["`ADD 15.0 g` is cut"]);
}

#[test]
fn words_that_a_box_cuts_are_missed() {
    for (rest, is_cut) in [
        ("", false),
        ("width: 120px; overflow: elide;", true),
        ("width: 120px; wrap: word-wrap;", false),
        (
            "width: 120px; height: 30px; wrap: word-wrap; overflow: elide;",
            true,
        ),
    ] {
        let (_, text) = drawn("weigh the dry goods", 24.0, 400, "#1e1710", rest);
        assert_eq!(text.is_cut(), is_cut, "{rest}: {text:?}");
    }
}
