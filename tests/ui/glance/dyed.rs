//! Colours as they are painted: every text stands out 7:1 and every sign 3:1, in every theme, also to eyes that see
//! colours otherwise. WCAG 2.2 asks the same of the colours that such eyes see: its contrast is one of luminance alone.

use std::collections::BTreeSet;

use i_slint_backend_testing::{AccessibleRole, ElementQuery};
use potside::view::locale::Language;
use potside::view::screen::{Screen, Theme};
use slint::ComponentHandle;

use super::can_fail::drawn;
use super::ink::{self, Frame};
use super::texts::{self, Area, Text};
use crate::faults::assert_none;
use crate::gallery::Picture;
use crate::light;
use crate::seen_by::Eyes;
use crate::shown::{Shown, THEMES, theme_name};
use crate::told;

const TEXT_LEAST: f32 = 7.0;
const MARK_LEAST: f32 = 3.0;

/// What can't be pressed now: WCAG asks nothing of it.
fn inactive(shown: &Shown) -> Vec<Area> {
    ElementQuery::from_root(&shown.window)
        .match_accessible_role(AccessibleRole::Button)
        .find_all()
        .iter()
        .filter(|button| button.accessible_enabled() == Some(false))
        .map(|button| {
            let (place, size) = (button.absolute_position(), button.size());
            Area {
                left: place.x,
                top: place.y,
                right: place.x + size.width,
                bottom: place.y + size.height,
            }
        })
        .collect()
}

/// The contrast of what stands in a box, to the eyes that see it worst.
fn contrast(picture: &Picture, area: Area) -> Option<(f32, Eyes)> {
    let counted = ink::colours(picture, Frame::of(area, picture));
    let ground = counted.iter().max_by_key(|colour| colour.count)?.rgb;
    let as_seen = |eyes: Eyes| {
        let best = counted
            .iter()
            .map(|colour| light::contrast(eyes.see(colour.rgb), eyes.see(ground)))
            .fold(1.0, f32::max);
        (best, eyes)
    };
    Eyes::ALL
        .into_iter()
        .map(as_seen)
        .min_by(|(one, _), (other, _)| one.total_cmp(other))
}

/// The tag on the picture of a pot, where `src/view/picture/pot.rs` has it. On 800 x 480 a unit of the design is a pixel.
fn tag_of_pot(screen: &Screen, pictures: &[(String, Area)]) -> Option<Area> {
    let (pot, is_centred, pad) = match screen {
        Screen::Run(run) => (&run.pot, false, 0.0),
        Screen::Far(far) => (&far.pot, true, if far.calling { 12.0 } else { 0.0 }),
        _ => return None,
    };
    let (_, area) = pictures.iter().find(|(called, _)| *called == pot.said)?;
    let wide = (area.width() - 2.0 * pad).min((area.height() - 2.0 * pad) / 1.18);
    let left = area.left + (area.width() - wide) / 2.0;
    let spare = area.height() - 1.18 * wide;
    let top = area.top + if is_centred { spare / 2.0 } else { spare };
    let side = (0.19 * wide).max(30.0);
    let left = (left + 0.79 * wide).min(area.right - side);
    let top = (top + 0.98 * wide).min(area.bottom - side);
    Some(Area {
        left,
        top,
        right: left + side,
        bottom: top + side,
    })
}

/// What the same words in the same place, on the same ground, have been found to have isn't measured again.
fn key(text: &Text, picture: &Picture) -> (String, [i32; 4], [[u8; 3]; 2]) {
    let frame = Frame::of(text.area, picture);
    let ends = [
        ink::pixel(picture, frame.left, frame.top),
        ink::pixel(
            picture,
            frame.right.saturating_sub(1),
            frame.bottom.saturating_sub(1),
        ),
    ];
    let place = [frame.left, frame.top, frame.right, frame.bottom].map(|edge| edge as i32);
    (text.words.clone(), place, ends)
}

fn faults_in(theme: Theme) -> Vec<String> {
    let mut shown = Shown::new(Language::English, theme, 800, 480);
    let mut measured = BTreeSet::new();
    let mut signs = 0;
    let mut faults = Vec::new();
    for scene in told::in_language(Language::English) {
        let picture = shown.take(&scene.screen);
        let inactive = inactive(&shown);
        let in_sight = |area: Area| {
            area.top >= 0.0 && area.bottom <= 480.0 && !inactive.iter().any(|button| button.holds(area))
        };
        let mut check = |area: Area, name: &str, least: f32| {
            let Some((found, eyes)) = contrast(&picture, area) else {
                return;
            };
            if found < least {
                faults.push(format!(
                    "{} {}: {name} stands out {found:.2}:1 to {eyes:?} eyes, wanted {least}",
                    scene.name,
                    theme_name(theme)
                ));
            }
        };
        for text in texts::shown(shown.window.window()) {
            if text.is_in_sight && in_sight(text.area) && measured.insert(key(&text, &picture)) {
                check(text.area, &format!("`{}`", text.words), TEXT_LEAST);
            }
        }
        let pictures = texts::pictures(shown.window.window());
        let tag = tag_of_pot(&scene.screen, &pictures);
        for sign in texts::signs(shown.window.window()).into_iter().chain(tag) {
            if in_sight(sign) {
                signs += 1;
                check(
                    sign,
                    &format!("the sign at {:.0}, {:.0}", sign.left, sign.top),
                    MARK_LEAST,
                );
            }
        }
    }
    assert!(
        measured.len() > 500,
        "only {} texts were measured",
        measured.len()
    );
    assert!(signs > 500, "only {signs} signs were measured");
    faults
}

fn check(theme: Theme) {
    let faults = faults_in(theme);
    assert_none(&faults);
}

#[test]
fn texts_and_signs_stand_out_in_daylight() {
    check(THEMES[0]);
}

#[test]
fn texts_and_signs_stand_out_in_the_kitchen() {
    check(THEMES[1]);
}

#[test]
fn texts_and_signs_stand_out_at_night() {
    check(THEMES[2]);
}

/// What is pale to everybody, and a green that is paler to some eyes than to most.
#[test]
fn what_does_not_stand_out_is_seen() {
    let stands_out = |colour: &str| {
        let (picture, text) = drawn("12:40", 60.0, 700, colour, "");
        contrast(&picture, text.area).expect("a text")
    };
    let (pale, _) = stands_out("#8a8172");
    assert!((2.5..3.5).contains(&pale), "{pale}");
    let (dark, _) = stands_out("#1e1710");
    assert!(dark > TEXT_LEAST, "{dark}");
    let (green, eyes) = stands_out("#3f7d2f");
    let usual = light::contrast([0x3f, 0x7d, 0x2f], [0xef, 0xe6, 0xd3]);
    assert!(
        green < usual && eyes != Eyes::Usual,
        "{green} to {eyes:?}, {usual} to others"
    );
}
