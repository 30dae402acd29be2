//! What holds of every preview, and of every screen of real baths in German and French: what is pressed has a name and is big enough, lies inside the glass, clear of its
//! corners and of its neighbours; what must be read is tall enough; colours stand far enough from each other.
//!
//! Sources: targets and gaps for gloved hands from MIL-STD-1472 (19 mm keys for an arctic mitten, 3 mm apart), letter
//! heights from ISO 9241-303 (a capital of 20 to 22 minutes of arc: 6.4 mm at one metre, 12.8 mm at two), both second
//! hand; contrast from WCAG 2.2, 1.4.6 (7:1 for text) and 1.4.11 (3:1 for marks). The 12 mm corners and the 25 mm slab
//! are our own rule.

use i_slint_backend_testing::{AccessibleRole, ElementHandle, ElementQuery, ElementRoot};
use potside::view::locale::Language;
use potside::view::screen::Theme;
use slint_interpreter::{ComponentInstance, Value};

use crate::faults::assert_none;
use crate::gallery::{self, Picture, THEMES};
use crate::light::contrast;
use crate::seen_by::Eyes;
use crate::shown::Shown;
use crate::told;

/// A promised glass: pixels across and down, pixels per inch.
#[derive(Clone, Copy)]
struct Glass {
    width: u32,
    height: u32,
    ppi: f32,
}

/// Seven inches at 800 x 480, seven inches at 1280 x 720, and the first one upright.
const GLASSES: [Glass; 3] = [
    Glass {
        width: 800,
        height: 480,
        ppi: 133.0,
    },
    Glass {
        width: 1280,
        height: 720,
        ppi: 210.0,
    },
    Glass {
        width: 480,
        height: 800,
        ppi: 133.0,
    },
];

impl Glass {
    fn mm(self, px: f32) -> f32 {
        px * 25.4 / self.ppi
    }
}

#[derive(Clone, Debug)]
struct Pressable {
    name: String,
    kind: String,
    x: f32,
    y: f32,
    width: f32,
    height: f32,
    /// A part of it is scrolled out of sight.
    cut: bool,
}

#[test]
fn whatever_is_pressed_has_a_name_and_room() {
    let mut faults = Vec::new();
    let mut seen = 0;
    for (case, path) in gallery::cases() {
        let window = gallery::open(&path);
        for glass in GLASSES {
            gallery::dress(&window, glass.width, glass.height, "kitchen");
            let pressables = pressables(&window);
            if case != "wipe" {
                assert!(!pressables.is_empty(), "{case}: nothing to press was found");
            }
            seen += pressables.len();
            for fault in pressables.iter().flat_map(|item| faults_of(item, glass)) {
                faults.push(format!("{case} at {}x{}: {fault}", glass.width, glass.height));
            }
            for fault in crowding(&pressables, glass) {
                faults.push(format!("{case} at {}x{}: {fault}", glass.width, glass.height));
            }
        }
    }
    assert!(seen > 300, "only {seen} pressables in all previews");
    assert_none(&faults);
}

/// Longer words move what is pressed, and a state may have something to press that no preview has.
#[test]
fn whatever_is_pressed_on_a_real_bath_has_a_name_and_room_in_german_and_french() {
    let glass = GLASSES[0];
    let mut faults = Vec::new();
    for language in [Language::German, Language::French] {
        let mut shown = Shown::new(language, Theme::Kitchen, glass.width, glass.height);
        for scene in told::in_language(language) {
            shown.paint(&scene.screen);
            let pressables = pressables(&shown.window);
            let each = pressables.iter().flat_map(|item| faults_of(item, glass));
            let all = each.chain(crowding(&pressables, glass));
            faults.extend(all.map(|fault| format!("{language:?} {}: {fault}", scene.name)));
        }
    }
    assert_none(&faults);
}

fn faults_of(item: &Pressable, glass: Glass) -> Vec<String> {
    let mut faults = Vec::new();
    let at = format!(
        "{} `{}` ({:.0}, {:.0}, {:.0} x {:.0})",
        item.kind, item.name, item.x, item.y, item.width, item.height
    );
    if item.name.trim().is_empty() {
        faults.push(format!("{at} has no name"));
    }
    let (w, h) = (glass.width as f32, glass.height as f32);
    if item.x < 0.0 || item.y < 0.0 || item.x + item.width > w + 0.5 || item.y + item.height > h + 0.5 {
        faults.push(format!("{at} is not inside the glass"));
    }
    let least_mm = if item.kind == "FirmSlab" { 19.0 } else { 12.0 };
    let smaller = if item.cut {
        item.width
    } else {
        item.width.min(item.height)
    };
    if glass.mm(smaller) < least_mm {
        faults.push(format!("{at} is {:.1} mm, wanted {least_mm}", glass.mm(smaller)));
    }
    for (corner_x, corner_y) in [(0.0, 0.0), (w, 0.0), (0.0, h), (w, h)] {
        let across = (item.x - corner_x).max(corner_x - item.x - item.width).max(0.0);
        let down = (item.y - corner_y).max(corner_y - item.y - item.height).max(0.0);
        let distance_mm = glass.mm(across.hypot(down));
        if distance_mm < 12.0 {
            faults.push(format!("{at} is {distance_mm:.1} mm from a corner, wanted 12"));
        }
    }
    faults
}

fn crowding(pressables: &[Pressable], glass: Glass) -> Vec<String> {
    let mut faults = Vec::new();
    for (index, one) in pressables.iter().enumerate() {
        for other in &pressables[index + 1..] {
            let across = (one.x - other.x - other.width).max(other.x - one.x - one.width);
            let down = (one.y - other.y - other.height).max(other.y - one.y - one.height);
            let gap_mm = glass.mm(across.max(down));
            if gap_mm < 3.0 {
                faults.push(format!(
                    "`{}` and `{}` are {gap_mm:.1} mm apart, wanted 3",
                    one.name, other.name
                ));
            }
        }
    }
    faults
}

fn pressables(window: &impl ElementRoot) -> Vec<Pressable> {
    let pages: Vec<Pressable> = ElementQuery::from_root(window)
        .match_inherits("Flickable")
        .find_all()
        .iter()
        .map(measure)
        .collect();
    let mut found = Vec::new();
    for element in ElementQuery::from_root(window)
        .match_accessible_role(AccessibleRole::Button)
        .find_all()
    {
        let mut item = measure(&element);
        if item.kind == "RowButton" {
            for page in &pages {
                cut_to(&mut item, page);
            }
        }
        if item.height > 1.0 {
            found.push(item);
        }
    }
    found
}

/// What of a scrolled thing is in sight.
fn cut_to(item: &mut Pressable, page: &Pressable) {
    let inside_across = item.x >= page.x - 1.0 && item.x + item.width <= page.x + page.width + 1.0;
    if !inside_across {
        return;
    }
    let top = item.y.max(page.y);
    let bottom = (item.y + item.height).min(page.y + page.height);
    if bottom - top < item.height - 0.5 {
        item.cut = true;
        item.y = top;
        item.height = (bottom - top).max(0.0);
    }
}

fn measure(element: &ElementHandle) -> Pressable {
    let (place, size) = (element.absolute_position(), element.size());
    Pressable {
        name: element.accessible_label().map(String::from).unwrap_or_default(),
        kind: element.type_name().map(String::from).unwrap_or_default(),
        x: place.x,
        y: place.y,
        width: size.width,
        height: size.height,
        cut: false,
    }
}

/// Steps are for gloves: as large as a confirming target, though they confirm nothing.
#[test]
fn steps_are_19_mm_either_way_and_3_mm_apart() {
    for (case, path) in gallery::cases() {
        let window = gallery::open(&path);
        for glass in GLASSES.into_iter().filter(|glass| glass.ppi < 134.0) {
            gallery::dress(&window, glass.width, glass.height, "kitchen");
            let is_step = |item: &Pressable| {
                let digits = |sign| item.name.strip_prefix(sign);
                let after = digits('+').or_else(|| digits('\u{2212}'));
                item.name.starts_with("last time")
                    || after.is_some_and(|rest| rest.starts_with(|c: char| c.is_ascii_digit()))
            };
            let steps: Vec<Pressable> = pressables(&window).into_iter().filter(is_step).collect();
            let wanted = match case.as_str() {
                "number_weigh" => 5,
                "number_within" => 4,
                _ => 0,
            };
            assert_eq!(steps.len(), wanted, "{case}");
            for step in &steps {
                let smaller_mm = glass.mm(step.width.min(step.height));
                assert!(
                    smaller_mm >= 19.0,
                    "{case} at {}: `{}` is {smaller_mm:.1} mm",
                    glass.width,
                    step.name
                );
            }
            assert_eq!(crowding(&steps, glass), Vec::<String>::new(), "{case}");
        }
    }
}

#[test]
fn the_slab_of_a_run_is_25_mm_either_way() {
    for (case, path) in gallery::cases()
        .into_iter()
        .filter(|(name, _)| name.starts_with("run_"))
    {
        let window = gallery::open(&path);
        for glass in GLASSES {
            gallery::dress(&window, glass.width, glass.height, "kitchen");
            let slabs: Vec<Pressable> = pressables(&window)
                .into_iter()
                .filter(|item| item.kind == "FirmSlab")
                .collect();
            assert!(!slabs.is_empty(), "{case}: no slab");
            for slab in slabs {
                let smaller_mm = glass.mm(slab.width.min(slab.height));
                assert!(
                    smaller_mm >= 25.0,
                    "{case} at {}: `{}` is {smaller_mm:.1} mm",
                    glass.width,
                    slab.name
                );
            }
        }
    }
}

/// No two things to press on one screen may answer to the same name.
#[test]
fn names_tell_things_to_press_apart() {
    for (case, path) in gallery::cases() {
        let window = gallery::open(&path);
        gallery::dress(&window, 800, 480, "kitchen");
        let mut names: Vec<String> = pressables(&window).into_iter().map(|item| item.name).collect();
        let before = names.len();
        names.sort();
        names.dedup();
        assert_eq!(names.len(), before, "{case}: two things to press share a name");
    }
}

/// The digits are measured on the picture, not in the markup: their capital height is what the eye gets.
#[test]
fn time_digits_are_legible_at_two_metres() {
    for (case, time) in [
        ("run_add", "04:10"),
        ("run_turn", "38:20"),
        ("run_look", "15:31"),
        ("notices", "04:10"),
    ] {
        for glass in GLASSES {
            let tall_mm = glass.mm(ink_height(case, time, glass));
            assert!(
                tall_mm >= 12.8,
                "{case} at {}x{}: {tall_mm:.1} mm",
                glass.width,
                glass.height
            );
        }
    }
}

#[test]
fn the_act_is_legible_at_one_metre() {
    for (case, act) in [
        ("run_turn", "TURN"),
        ("run_saving", "LIFT"),
        ("run_six_pots", "ADD 1250.0 g"),
        ("notices", "ADD 15.0 g"),
    ] {
        for glass in GLASSES {
            let tall_mm = glass.mm(ink_height(case, act, glass));
            assert!(
                tall_mm >= 6.4,
                "{case} at {}x{}: {tall_mm:.1} mm",
                glass.width,
                glass.height
            );
        }
    }
}

#[test]
fn far_digits_are_larger_than_near_ones() {
    for glass in GLASSES {
        let far = ink_height("far_turn", "12:40", glass);
        let near = ink_height("run_turn", "38:20", glass);
        assert!(far > near * 1.3, "{far} against {near} at {}", glass.width);
    }
}

/// Height in pixels of what is inked in the box of a text.
fn ink_height(case: &str, label: &str, glass: Glass) -> f32 {
    let (_, path) = gallery::cases()
        .into_iter()
        .find(|(name, _)| name == case)
        .expect("a known case");
    let window = gallery::open(&path);
    gallery::dress(&window, glass.width, glass.height, "kitchen");
    let texts: Vec<ElementHandle> = ElementHandle::find_by_accessible_label(&window, label).collect();
    assert_eq!(texts.len(), 1, "{case}: `{label}` is found {} times", texts.len());
    let text = measure(&texts[0]);
    let picture = gallery::take(&window);
    let inked: Vec<u32> = rows_with_ink(&picture, &text);
    let (first, last) = (inked.first().expect("ink"), inked.last().expect("ink"));
    (last - first + 1) as f32
}

/// Rows of the box in which some pixel is far from the ground, the ground being the box's first pixel.
fn rows_with_ink(picture: &Picture, text: &Pressable) -> Vec<u32> {
    let (left, top) = (text.x.max(0.0) as u32, text.y.max(0.0) as u32);
    let right = ((text.x + text.width) as u32).min(picture.width);
    let bottom = ((text.y + text.height) as u32).min(picture.height);
    let pixel = |x: u32, y: u32| {
        let index = ((y * picture.width + x) * 3) as usize;
        [picture.rgb[index], picture.rgb[index + 1], picture.rgb[index + 2]]
    };
    let ground = pixel(right - 1, top);
    (top..bottom)
        .filter(|y| {
            (left..right).any(|x| {
                let here = pixel(x, *y);
                (0..3).any(|channel| here[channel].abs_diff(ground[channel]) > 90)
            })
        })
        .collect()
}

/// Text tokens and the grounds they stand on: 7:1.
const TEXT_PAIRS: &[(&str, &[&str])] = &[
    ("ink", &["ground", "raised", "sunk", "thread"]),
    ("ink-soft", &["ground", "raised", "sunk"]),
    ("calm", &["ground"]),
    ("hot", &["ground", "raised"]),
    ("good", &["ground"]),
    ("on-slab", &["slab", "slab-rise"]),
    ("on-idle", &["idle", "ground"]),
    ("on-caution", &["caution"]),
    ("on-urgent", &["urgent"]),
];

/// Marks and the grounds they stand on: 3:1.
const MARK_PAIRS: &[(&str, &[&str])] = &[
    ("line", &["ground", "raised", "sunk"]),
    ("focus", &["ground", "raised"]),
    ("slab-edge", &["ground", "raised"]),
    ("wood", &["ground"]),
    ("flame", &["ground"]),
    ("steam", &["ground"]),
    ("fibre-edge", &["fibre"]),
    ("plan-edge", &["sunk"]),
    ("done", &["sunk", "plan-band"]),
    ("ink", &["plan-band"]),
];

#[test]
fn colours_stand_far_enough_from_each_other_to_all_eyes() {
    let (_, path) = gallery::cases().into_iter().next().expect("there are previews");
    let window = gallery::open(&path);
    let mut faults = Vec::new();
    for theme in THEMES {
        gallery::dress(&window, 800, 480, theme);
        for eyes in Eyes::ALL {
            for (pairs, least) in [(TEXT_PAIRS, 7.0), (MARK_PAIRS, 3.0)] {
                for (front, grounds) in pairs {
                    for ground in *grounds {
                        let seen = |name| eyes.see(token(&window, name));
                        let ratio = contrast(seen(front), seen(ground));
                        if ratio < least {
                            faults.push(format!(
                                "{theme}: {front} on {ground} is {ratio:.2}:1 to {eyes:?} eyes, wanted {least}"
                            ));
                        }
                    }
                }
            }
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

fn token(window: &ComponentInstance, name: &str) -> [u8; 3] {
    let value = window
        .get_global_property("ThemeColors", name)
        .expect("a known token");
    let Value::Brush(brush) = value else {
        panic!("{name} is no colour: {value:?}")
    };
    let colour = brush.color();
    [colour.red(), colour.green(), colour.blue()]
}
