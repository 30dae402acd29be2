//! No text is cut, and none made so small to fit that it can't be read by whom it concerns: on every screen, in every
//! language, the box of a text has room for all its words.

use std::collections::BTreeSet;

use potside::view::locale::Language;
use potside::view::screen::Theme;
use slint::ComponentHandle;

use super::texts::{self, Text};
use crate::faults::assert_none;
use crate::scenes::Scene;
use crate::shown::Shown;
use crate::told;

/// Read with the nose at the glass, 30 cm from it: capitals of 12 minutes of arc, which is well above the 5 that a healthy
/// eye reads.
const LEAST_PX: f32 = 12.0;

fn fault(text: &Text) -> Option<String> {
    let (across, down) = text.needs;
    let Text { words, area, .. } = text;
    let size = text.font_size;
    if text.is_cut() {
        let (wide, high) = (area.width(), area.height());
        Some(format!(
            "`{words}` of {size:.0} px wants {across:.0} x {down:.0}, has {wide:.0} x {high:.0}"
        ))
    } else if size < LEAST_PX {
        Some(format!(
            "`{words}` has {size:.1} px, at least {LEAST_PX} are wanted"
        ))
    } else {
        None
    }
}

fn faults(language: Language, scenes: &[Scene], found: &mut BTreeSet<String>) {
    let mut shown = Shown::new(language, Theme::Kitchen, 800, 480);
    for scene in scenes {
        shown.paint(&scene.screen);
        for text in texts::shown(shown.window.window()) {
            found.extend(fault(&text).map(|fault| format!("{fault}, on {}", scene.name)));
        }
    }
}

#[test]
fn no_text_is_cut_or_too_small_in_any_language() {
    let mut found = BTreeSet::new();
    for language in Language::ALL {
        faults(language, told::in_language(language), &mut found);
    }
    faults(Language::English, told::in_us_units(), &mut found);
    assert_none(&Vec::from_iter(found));
}
