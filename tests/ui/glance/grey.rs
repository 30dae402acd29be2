//! What colour says is said once more. A state that is flipped on a painted screen must be seen by an eye that knows only
//! light and dark: by a shape, a sign, words, or a lightness 3:1 away. After WCAG 2.2, 1.4.1 (use of colour) and its
//! technique G183, which takes 3:1 in lightness for a difference of its own.

use std::collections::BTreeMap;

use i_slint_backend_testing::{AccessibleRole, ElementQuery};
use potside::view::locale::Language;
use potside::view::screen::{
    GaugeSide, Heat, Icon, Lid, Liquor, MarkKind, Notice, NoticeWeight, Place, PotPicture, RunScreen, Screen,
    SideAct, Slab, Steam, StripLook, Theme,
};

use super::ink;
use crate::faults::assert_none;
use crate::gallery::Picture;
use crate::light;
use crate::shown::{Shown, THEMES, theme_name};
use crate::told;

/// In lightness.
const APART: f32 = 3.0;
/// As many pixels as a small sign has: 8 by 8. A mark of the curve is as large and is never read from afar: what half of it
/// tells is enough.
const SEEN: usize = 64;
const SEEN_ON_THE_CURVE: usize = 32;
const MARKS: &str = "what a mark of the curve stands for";
/// The same state in so many different surroundings.
const SURROUNDINGS: usize = 3;

/// A state of a screen, and the screen with that state changed.
struct Flip {
    state: &'static str,
    before: Screen,
    after: Screen,
}

fn flip(state: &'static str, before: &Screen, after: Screen) -> Option<Flip> {
    let before = before.clone();
    (before != after).then_some(Flip { state, before, after })
}

fn of_run(run: &RunScreen, flips: &mut Vec<Option<Flip>>) {
    let before = Screen::Run(Box::new(run.clone()));
    let mut change = |state, change: &dyn Fn(&mut RunScreen)| {
        let mut after = run.clone();
        change(&mut after);
        flips.push(flip(state, &before, Screen::Run(Box::new(after))));
    };
    change("a pot of the rail calls", &|run| {
        if run.rail.len() > 1
            && let Some(pot) = run.rail.last_mut()
        {
            pot.calling = !pot.calling;
        }
    });
    change("a pot of the rail is forward", &|run| {
        if run.rail.len() > 1 {
            run.rail.iter_mut().for_each(|pot| pot.forward = !pot.forward);
        }
    });
    change("a side act is wanted", &|run| {
        if let Some(act) = run.sides.first_mut().filter(|act| act.enabled) {
            act.strong = !act.strong;
        }
    });
    change("a side act can be pressed", &|run| {
        if let Some(act) = run.sides.first_mut() {
            *act = SideAct {
                enabled: !act.enabled,
                strong: false,
                ..act.clone()
            };
        }
    });
    change("a slab can be pressed", &|run| pressable(&mut run.slab));
    change("a slab is the lesser answer", &|run| lesser(&mut run.slab));
    change("the lid", &|run| {
        run.pot.lid = match run.pot.lid {
            Lid::Off => Lid::Loose,
            Lid::Loose => Lid::Tight,
            Lid::Tight => Lid::Off,
        };
    });
    change("the heat is on", &|run| {
        run.pot.heat = match run.pot.heat {
            Heat::Off => Heat::Low,
            Heat::Low | Heat::High => Heat::Off,
        };
    });
    change("the heat is high", &|run| {
        run.pot.heat = match run.pot.heat {
            Heat::Off | Heat::Low => Heat::High,
            Heat::High => Heat::Low,
        };
    });
    change("where the goods are", &|run| {
        run.pot.goods = elsewhere(run.pot.goods);
    });
    change("where the bag is", &|run| {
        run.pot.bag = elsewhere(run.pot.bag);
    });
    change("how full the pot is", &|run| {
        run.pot.level = if run.pot.level > 0.5 { 0.1 } else { 0.9 };
    });
    change("what was done stands beside what is planned", &|run| {
        std::mem::swap(&mut run.curve.done, &mut run.curve.plan);
    });
    for kind in [MarkKind::Turn, MarkKind::Reading, MarkKind::Tap] {
        change(MARKS, &|run| {
            if let Some(mark) = run.lists.marks.iter_mut().find(|mark| mark.kind != kind) {
                mark.kind = kind;
                mark.label = String::new();
            }
        });
    }
}

const fn elsewhere(place: Place) -> Place {
    match place {
        Place::Absent => Place::Out,
        Place::Out => Place::Within,
        Place::Within => Place::Absent,
    }
}

fn pressable(slab: &mut Slab) {
    if !slab.label.is_empty() {
        slab.enabled = !slab.enabled;
        slab.quiet = false;
    }
}

fn lesser(slab: &mut Slab) {
    if slab.enabled && !slab.label.is_empty() {
        slab.quiet = !slab.quiet;
    }
}

/// Every state of a screen, changed one at a time.
fn flips(screen: &Screen) -> Vec<Flip> {
    let mut flips = Vec::new();
    let change = |state, change: &dyn Fn(&mut Screen)| {
        let mut after = screen.clone();
        change(&mut after);
        flip(state, screen, after)
    };
    match screen {
        Screen::Run(run) => of_run(run, &mut flips),
        Screen::Stove(_) => flips.push(change("a pot on the stove calls", &|screen| {
            let Screen::Stove(stove) = screen else { return };
            if let Some(pot) = stove.pots.first_mut() {
                pot.calling = !pot.calling;
            }
        })),
        Screen::Choose(_) => {
            flips.push(change("a row is chosen", &|screen| {
                let Screen::Choose(list) = screen else { return };
                if let Some(row) = list.rows.first_mut() {
                    row.chosen = !row.chosen;
                }
            }));
            flips.push(change("a row can be pressed", &|screen| {
                let Screen::Choose(list) = screen else { return };
                if let Some(row) = list.rows.first_mut() {
                    row.chosen = false;
                    row.enabled = !row.enabled;
                }
            }));
        }
        Screen::Number(_) => {
            flips.push(change("a unit is chosen", &|screen| {
                let Screen::Number(number) = screen else { return };
                number
                    .units
                    .iter_mut()
                    .for_each(|unit| unit.chosen = !unit.chosen);
            }));
            for side in [GaugeSide::Under, GaugeSide::Within, GaugeSide::Over] {
                flips.push(change("on which side of its target a number lies", &|screen| {
                    let Screen::Number(number) = screen else { return };
                    if number.gauge.shown && !number.gauge.word.is_empty() {
                        number.gauge.side = side;
                    }
                }));
            }
        }
        Screen::Sheet(_) => {
            flips.push(change("a caution has been read", &|screen| {
                let Screen::Sheet(sheet) = screen else { return };
                // At the head of the page, where it is seen.
                if sheet.additions.is_empty()
                    && let Some(line) = sheet.cautions.first_mut()
                {
                    line.read = !line.read;
                }
            }));
            flips.push(change("an errand meets another", &|screen| {
                let Screen::Sheet(sheet) = screen else { return };
                for mark in &mut sheet.beside.marks {
                    mark.meets = !mark.meets;
                }
            }));
            flips.push(change("what an errand is", &|screen| {
                let Screen::Sheet(sheet) = screen else { return };
                for mark in &mut sheet.beside.marks {
                    mark.look = match mark.look {
                        StripLook::Hands | StripLook::Leisure => StripLook::Turn,
                        StripLook::Turn => StripLook::Leisure,
                    };
                }
            }));
        }
        Screen::Far(_) => flips.push(change("the pot across the kitchen calls", &|screen| {
            let Screen::Far(far) = screen else { return };
            far.calling = !far.calling;
        })),
        Screen::Returned(_) => flips.push(change("an answer is the lesser one", &|screen| {
            let Screen::Returned(card) = screen else { return };
            card.choices.iter_mut().for_each(lesser);
        })),
        Screen::Goods(_)
        | Screen::Working(_)
        | Screen::Ask(_)
        | Screen::Record(_)
        | Screen::Leaf(_)
        | Screen::Label(_)
        | Screen::Wipe(_) => {}
    }
    flips.into_iter().flatten().collect()
}

/// Pixels that have become so much lighter or darker that the eye which sees no colours sees it.
fn seen(before: &Picture, after: &Picture) -> usize {
    let pixels = |picture: &Picture| -> Vec<f32> {
        let (pixels, rest) = picture.rgb.as_chunks::<3>();
        assert!(rest.is_empty(), "three bytes a pixel");
        pixels
            .iter()
            .map(|rgb| light::luminance(light::linear(*rgb)))
            .collect()
    };
    pixels(before)
        .into_iter()
        .zip(pixels(after))
        .filter(|(before, after)| light::ratio(*before, *after) >= APART)
        .count()
}

#[test]
fn a_state_is_seen_without_colours() {
    let mut met: BTreeMap<&str, usize> = BTreeMap::new();
    let mut faults = Vec::new();
    let mut shown = Shown::new(Language::English, Theme::Kitchen, 800, 480);
    for scene in told::in_language(Language::English) {
        for Flip { state, before, after } in flips(&scene.screen) {
            if met.get(state) == Some(&SURROUNDINGS) {
                continue;
            }
            let wanted = if state == MARKS { SEEN_ON_THE_CURVE } else { SEEN };
            for theme in THEMES {
                shown.dress(theme);
                let (before, after) = (shown.take(&before), shown.take(&after));
                // Not in sight here: a curve that has yielded to the act.
                if before.rgb == after.rgb {
                    break;
                }
                if theme == Theme::Kitchen {
                    *met.entry(state).or_default() += 1;
                }
                let seen = seen(&before, &after);
                if seen < wanted {
                    faults.push(format!(
                        "{state}: {seen} pixels show it by {}, on {}",
                        theme_name(theme),
                        scene.name
                    ));
                }
            }
        }
    }
    assert_none(&faults);
    let states: Vec<&str> = met.into_keys().collect();
    for state in [
        "a caution has been read",
        "a pot of the rail calls",
        "a pot on the stove calls",
        "a row is chosen",
        "a slab can be pressed",
        "a unit is chosen",
        "the heat is on",
        "the pot across the kitchen calls",
        "what was done stands beside what is planned",
    ] {
        assert!(states.contains(&state), "no scene has: {state}");
    }
}

#[test]
fn notices_differ_by_more_than_their_colour() {
    let notice = |weight, icon| {
        vec![Notice {
            text: "NO SOUND: watch the screen".into(),
            icon,
            weight,
        }]
    };
    let scene = &told::in_language(Language::English)[0];
    let mut shown = Shown::new(Language::English, Theme::Kitchen, 800, 480);
    for theme in THEMES {
        let mut picture = |weight| {
            shown.dress_with(theme, notice(weight, Icon::SoundOff));
            shown.take(&scene.screen)
        };
        let [urgent, caution] = [NoticeWeight::Urgent, NoticeWeight::Caution].map(&mut picture);
        assert!(seen(&urgent, &caution) >= SEEN, "{}", theme_name(theme));
    }
}

/// The six tags of the stove, without the digits in their middles.
#[test]
fn each_pot_has_a_shape_of_its_own() {
    let scenes = told::in_language(Language::English);
    let stove = scenes
        .iter()
        .find(|scene| scene.name == "stove-six")
        .expect("six pots");
    let mut shown = Shown::new(Language::English, Theme::Kitchen, 800, 480);
    let picture = shown.take(&stove.screen);
    let cards: Vec<(f32, f32, f32)> = ElementQuery::from_root(&shown.window)
        .match_accessible_role(AccessibleRole::Button)
        .find_all()
        .iter()
        .filter(|card| {
            card.accessible_label()
                .is_some_and(|label| label.starts_with("pot "))
        })
        .map(|card| {
            let (place, size) = (card.absolute_position(), card.size());
            (place.x, place.y, size.height)
        })
        .collect();
    assert_eq!(cards.len(), 6);
    // Of a box that holds the tag: dark where the tag is, without its middle half.
    let outline = |(x, y, height): (f32, f32, f32)| -> Vec<bool> {
        let (left, top) = (x as u32 + 14, (y + height / 2.0) as u32 - 24);
        let mut dark = Vec::new();
        for row in 0..48_u32 {
            for column in 0..48_u32 {
                if (12..36).contains(&row) && (12..36).contains(&column) {
                    continue;
                }
                let rgb = ink::pixel(&picture, left + column, top + row);
                dark.push(light::luminance(light::linear(rgb)) < 0.1);
            }
        }
        dark
    };
    let outlines: Vec<Vec<bool>> = cards.into_iter().map(outline).collect();
    for (one, first) in outlines.iter().enumerate() {
        let drawn = first.iter().filter(|dark| **dark).count();
        assert!(drawn > 300, "pot {}: {drawn} dark pixels", one + 1);
        for (other, second) in outlines.iter().enumerate().skip(one + 1) {
            let differ = first
                .iter()
                .zip(second)
                .filter(|(one, other)| one != other)
                .count();
            assert!(
                differ >= SEEN,
                "pots {} and {} differ by {differ} pixels",
                one + 1,
                other + 1
            );
        }
    }
}

/// What the hue alone tells isn't counted: two dyes of one lightness.
#[test]
fn a_change_of_hue_is_not_seen() {
    let pot = |liquor| {
        Screen::Run(Box::new(RunScreen {
            pot: PotPicture {
                pot: 1,
                level: 0.8,
                liquor,
                steam: Steam::None,
                ..PotPicture::default()
            },
            ..RunScreen::default()
        }))
    };
    let mut shown = Shown::new(Language::English, Theme::Kitchen, 800, 480);
    let [madder, indigo] = [Liquor::Madder, Liquor::Indigo].map(|liquor| shown.take(&pot(liquor)));
    assert_ne!(madder.rgb, indigo.rgb);
    assert!(seen(&madder, &indigo) < SEEN);
}
