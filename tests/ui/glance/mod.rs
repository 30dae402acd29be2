//! One look from across the kitchen: what distance leaves of each screen, measured on the painted picture.
//!
//! Sources: heights of letters from ISO 9241-303 (a capital of 20 to 22 minutes of arc is preferred), second hand; that a
//! healthy eye tells one minute of arc apart is Snellen's definition of a visual acuity of 1.0, by which letters of five
//! minutes are read and letters of ten with ease. Contrast from WCAG 2.2, 1.4.6 (7:1 for text) and 1.4.11 (3:1 for what
//! must be made out); that 3:1 should be left of every letter after the blur of distance is our own rule.

mod arc;
mod can_fail;
mod dyed;
mod grey;
mod ink;
mod letters;
mod reading;
mod texts;
mod whole;

use potside::view::locale::Language;
use potside::view::screen::{Screen, Theme};
use slint::ComponentHandle;

use crate::faults::assert_none;
use crate::scenes::Scene;
use crate::shown::{Shown, THEMES, theme_name};
use crate::told;

use reading::{Reading, Wanted};
use texts::Text;

/// A reader across the kitchen: 20 minutes of arc.
const FROM_TWO_METRES: Wanted = Wanted {
    metres: 2.0,
    minutes: 20.0,
};
/// What is read there too, but not with half an eye; the same as 20 minutes from one metre.
const FROM_ONE_METRE: Wanted = Wanted {
    metres: 2.0,
    minutes: 10.0,
};
/// The act itself: 22 minutes from one metre.
const THE_ACT: Wanted = Wanted {
    metres: 2.0,
    minutes: 11.0,
};
/// What a finger answers is read from where the arm reaches.
const FROM_AN_ARM: Wanted = Wanted {
    metres: 0.6,
    minutes: 20.0,
};

/// What of a screen is to be read from where.
fn must_be_read(screen: &Screen) -> Vec<(String, Wanted)> {
    let all = match screen {
        Screen::Run(run) => [
            (
                format!("{} {}", run.act.verb, run.act.amount).trim().to_owned(),
                THE_ACT,
            ),
            (run.act.object.clone(), FROM_ONE_METRE),
            (run.slab.label.clone(), FROM_AN_ARM),
            (run.other.label.clone(), FROM_AN_ARM),
        ]
        .into_iter()
        .chain(texts_of_time(&run.act.time))
        .collect(),
        Screen::Far(far) => [
            (far.first.clone(), FROM_TWO_METRES),
            (far.second.clone(), FROM_ONE_METRE),
        ]
        .into_iter()
        .chain(texts_of_time(&far.time))
        .collect(),
        Screen::Wipe(wipe) => vec![
            (wipe.act.clone(), FROM_ONE_METRE),
            (wipe.time.clone(), FROM_TWO_METRES),
        ],
        Screen::Returned(card) => std::iter::once(&card.question)
            .chain(card.choices.iter().map(|choice| &choice.label))
            .map(|words| (words.clone(), FROM_AN_ARM))
            .collect(),
        _ => Vec::new(),
    };
    all.into_iter().filter(|(words, _)| !words.is_empty()).collect()
}

/// The big time as it stands on the glass: where it counts, its last digit is a text of its own. Each is read by itself.
fn texts_of_time(time: &str) -> Vec<(String, Wanted)> {
    let counts = time.chars().all(|sign| sign.is_ascii_digit() || sign == ':');
    let texts = if counts && time.len() > 1 {
        let (before, last) = time.split_at(time.len() - 1);
        vec![before, last]
    } else {
        vec![time]
    };
    texts
        .into_iter()
        .map(|text| (text.to_owned(), FROM_TWO_METRES))
        .collect()
}

fn find<'t>(texts: &'t [Text], words: &str) -> Option<&'t Text> {
    let words = words.replace('\u{a0}', " ");
    texts
        .iter()
        .filter(|text| text.words == words)
        .max_by(|one, other| one.font_size.total_cmp(&other.font_size))
}

/// What of a scene can't be read as it must be. The first theme tells where the letters are, the others give them colours.
fn faults_of(scene: &Scene, shown: &mut Shown, themes: &[Theme]) -> Vec<String> {
    let wanted = must_be_read(&scene.screen);
    let mut readings = Vec::new();
    let mut faults = Vec::new();
    for theme in themes {
        shown.dress(*theme);
        let picture = shown.take(&scene.screen);
        let mut fault = |said: String| faults.push(format!("{} {}: {said}", scene.name, theme_name(*theme)));
        if readings.is_empty() {
            let texts = texts::shown(shown.window.window());
            for (words, wanted) in &wanted {
                match find(&texts, words) {
                    Some(text) => readings.push((Reading::of(&picture, text), *wanted)),
                    None => fault(format!("`{words}` isn't there")),
                }
            }
        }
        for (reading, wanted) in &readings {
            reading.faults(&picture, *wanted).into_iter().for_each(&mut fault);
        }
    }
    faults
}

fn check(language: Language, scenes: &[Scene], themes: &[Theme]) {
    let mut shown = Shown::new(language, Theme::Kitchen, 800, 480);
    let read = scenes
        .iter()
        .filter(|scene| !must_be_read(&scene.screen).is_empty());
    let faults: Vec<String> = read
        .flat_map(|scene| faults_of(scene, &mut shown, themes))
        .collect();
    assert_none(&faults);
}

#[test]
fn act_amount_and_time_are_read_in_english() {
    check(Language::English, told::in_language(Language::English), &THEMES);
}

#[test]
fn act_amount_and_time_are_read_in_german() {
    check(Language::German, told::in_language(Language::German), &THEMES);
}

#[test]
fn act_amount_and_time_are_read_in_french() {
    check(Language::French, told::in_language(Language::French), &THEMES);
}

#[test]
fn act_amount_and_time_are_read_in_ounces_and_fahrenheit() {
    check(Language::English, told::in_us_units(), &[Theme::Kitchen]);
}
