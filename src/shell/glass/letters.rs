//! Answers what the screens ask of their letters.

use slint::Global;

use super::generated as glass;
use crate::view::fit::{self, Weight};

/// For as long as the window is there.
pub(super) fn answer_for(window: &glass::AppWindow) {
    let letters = glass::LettersBridge::get(window);
    letters.on_width(|text, weight| fit::width(&text, Weight::from_number(weight)));
    letters.on_widest_word(|text, weight| fit::widest_word(&text, Weight::from_number(weight)));
    letters.on_lines(|text, weight, room| fit::lines(&text, Weight::from_number(weight), room).into());
    letters.on_largest(|text, weight, width, height, least| {
        fit::largest(&text, Weight::from_number(weight), width, height, least)
    });
}
