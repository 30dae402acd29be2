//! Whether the steps make sense one after the other: a walk through the bath, noting what can't be done.

use super::additions::{Additions, must_be_dissolved};
use super::fault::Wrong;
use super::model::Letter;
use super::raw::Page;
use super::steps::{Placed, Sketch, Steps};
use super::words::ActKind;
use crate::craft::quantity::Temperature;
use std::collections::BTreeSet;

/// Above this, lifting scalds: 60 C water burns deeply in about five seconds (published scald times).
const LIFT_CELSIUS_MOST: f64 = 60.0;

/// What heat the bath has been given.
#[derive(Clone, Copy)]
enum Heat {
    /// As it came from the tap, or as it cooled: nothing can be held.
    NotRaised,
    /// Raised to something that could not be read.
    Unreadable,
    Raised(Temperature),
}

/// The bath as the walk has it.
struct Bath {
    is_filled: bool,
    is_wetted_out: bool,
    are_goods_in: bool,
    have_goods_entered: bool,
    is_shelved: bool,
    heat: Heat,
    /// The temperature last asked for, when it is known.
    now: Option<Temperature>,
    dissolved: BTreeSet<Letter>,
    added: BTreeSet<Letter>,
    strained: BTreeSet<Letter>,
}

/// Walks the steps and notes what can't be done. Nothing is said of an order of which a step is unknown.
pub(super) fn check(page: &mut Page<'_>, steps: &Steps, additions: &Additions) {
    if !steps.all_recognised {
        return;
    }
    let mut bath = Bath {
        is_filled: false,
        is_wetted_out: false,
        are_goods_in: false,
        have_goods_entered: false,
        is_shelved: false,
        heat: Heat::NotRaised,
        now: None,
        dissolved: BTreeSet::new(),
        added: BTreeSet::new(),
        strained: BTreeSet::new(),
    };
    for step in &steps.sketches {
        if bath.is_shelved {
            page.note(step.at, Wrong::AfterShelve { act: step.kind });
        }
        walk(page, &mut bath, step, additions);
    }
    check_end(page, &bath, steps, additions);
}

fn walk(page: &mut Page<'_>, bath: &mut Bath, step: &Sketch, additions: &Additions) {
    match step.kind {
        ActKind::WetOut => {
            if bath.are_goods_in {
                page.note(step.at, Wrong::WetOutInBath);
            }
            bath.is_wetted_out = true;
        }
        ActKind::Fill => {
            if bath.is_filled {
                page.note(step.at, Wrong::FilledTwice);
            }
            bath.is_filled = true;
        }
        ActKind::Dissolve => {
            for letter in &step.letters {
                dissolve(page, bath, *letter, additions);
            }
        }
        ActKind::Add => {
            need_fill(page, bath, step);
            for letter in &step.letters {
                add(page, bath, *letter, additions);
            }
        }
        ActKind::Strain => {
            for letter in &step.letters {
                strain(page, bath, *letter, additions);
            }
        }
        ActKind::Enter => enter(page, bath, step),
        ActKind::Raise => raise(page, bath, step),
        ActKind::Hold => hold(page, bath, step),
        ActKind::Cool => cool(page, bath, step),
        ActKind::Lift => lift(page, bath, step),
        ActKind::Look => need_fill(page, bath, step),
        ActKind::Dip => {
            enter(page, bath, step);
            lift(page, bath, step);
        }
        ActKind::Rest => {}
        ActKind::Squeeze | ActKind::Rinse | ActKind::Air | ActKind::Dry => need_goods_out(page, bath, step),
        ActKind::Shelve => {
            need_goods_out(page, bath, step);
            bath.is_shelved = true;
        }
    }
}

fn need_fill(page: &mut Page<'_>, bath: &Bath, step: &Sketch) {
    if !bath.is_filled {
        page.note(step.at, Wrong::BeforeFill { act: step.kind });
    }
}

fn need_goods_out(page: &mut Page<'_>, bath: &Bath, step: &Sketch) {
    if bath.are_goods_in {
        page.note(step.at, Wrong::StillInBath { act: step.kind });
    }
}

/// Whether a letter in a step names an addition; noted if it surely doesn't.
fn is_known(page: &mut Page<'_>, letter: Placed<Letter>, additions: &Additions) -> bool {
    let is_listed = additions
        .listed
        .iter()
        .any(|listed| listed.letter == letter.value);
    if !is_listed && additions.all_letters_known {
        page.note(letter.at, Wrong::LetterUnknown { letter: letter.value });
    }
    is_listed
}

fn dissolve(page: &mut Page<'_>, bath: &mut Bath, letter: Placed<Letter>, additions: &Additions) {
    if !is_known(page, letter, additions) {
        return;
    }
    if bath.added.contains(&letter.value) {
        page.note(letter.at, Wrong::DissolvedAfterAdded { letter: letter.value });
    } else if !bath.dissolved.insert(letter.value) {
        page.note(letter.at, Wrong::DissolvedTwice { letter: letter.value });
    }
}

fn add(page: &mut Page<'_>, bath: &mut Bath, letter: Placed<Letter>, additions: &Additions) {
    if !is_known(page, letter, additions) {
        return;
    }
    if !bath.added.insert(letter.value) {
        page.note(letter.at, Wrong::AddedTwice { letter: letter.value });
        return;
    }
    let substance = additions
        .listed
        .iter()
        .find(|listed| listed.letter == letter.value)
        .and_then(|listed| listed.substance);
    if let Some(substance) = substance
        && must_be_dissolved(substance)
        && !bath.dissolved.contains(&letter.value)
    {
        let wrong = Wrong::AddedUndissolved {
            letter: letter.value,
            name: substance.name(),
        };
        page.note(letter.at, wrong);
    }
}

fn strain(page: &mut Page<'_>, bath: &mut Bath, letter: Placed<Letter>, additions: &Additions) {
    if !is_known(page, letter, additions) {
        return;
    }
    if !bath.added.contains(&letter.value) {
        page.note(letter.at, Wrong::StrainedBeforeAdded { letter: letter.value });
    } else if !bath.strained.insert(letter.value) {
        page.note(letter.at, Wrong::StrainedTwice { letter: letter.value });
    }
}

fn enter(page: &mut Page<'_>, bath: &mut Bath, step: &Sketch) {
    need_fill(page, bath, step);
    if !bath.is_wetted_out {
        page.note(step.at, Wrong::EnterBeforeWetOut);
    }
    if bath.are_goods_in {
        page.note(step.at, Wrong::EnteredTwice);
    }
    if let (Some(at_most), Some(now)) = (step.heat, bath.now)
        && now > at_most
    {
        page.note(step.at, Wrong::EnteredTooHot { at_most, bath: now });
    }
    bath.are_goods_in = true;
    bath.have_goods_entered = true;
}

fn raise(page: &mut Page<'_>, bath: &mut Bath, step: &Sketch) {
    need_fill(page, bath, step);
    if let (Some(to), Some(from)) = (step.heat, bath.now)
        && to < from
    {
        page.note(step.at, Wrong::RaisedDown { to, from });
    }
    bath.heat = step.heat.map_or(Heat::Unreadable, Heat::Raised);
    bath.now = step.heat;
}

fn hold(page: &mut Page<'_>, bath: &Bath, step: &Sketch) {
    need_fill(page, bath, step);
    if let (Some(floor), Some(ceiling)) = (step.floor, step.ceiling)
        && floor.value > ceiling.value
    {
        let wrong = Wrong::FloorAboveCeiling {
            floor: floor.value,
            ceiling: ceiling.value,
        };
        page.note(floor.at, wrong);
        return;
    }
    match bath.heat {
        Heat::NotRaised => page.note(step.at, Wrong::HoldWithoutRaise),
        Heat::Unreadable => {}
        Heat::Raised(raised) => {
            if let Some(floor) = step.floor
                && floor.value > raised
            {
                page.note(
                    floor.at,
                    Wrong::FloorAboveRaise {
                        floor: floor.value,
                        raised,
                    },
                );
            }
            if let Some(ceiling) = step.ceiling
                && ceiling.value < raised
            {
                page.note(
                    ceiling.at,
                    Wrong::CeilingBelowRaise {
                        ceiling: ceiling.value,
                        raised,
                    },
                );
            }
        }
    }
}

fn cool(page: &mut Page<'_>, bath: &mut Bath, step: &Sketch) {
    need_fill(page, bath, step);
    if let (Some(to), Some(from)) = (step.heat, bath.now)
        && to > from
    {
        page.note(step.at, Wrong::CooledUp { to, from });
    }
    bath.heat = Heat::NotRaised;
    bath.now = step.heat;
}

fn lift(page: &mut Page<'_>, bath: &mut Bath, step: &Sketch) {
    if !bath.are_goods_in {
        page.note(step.at, Wrong::LiftedBeforeEntered);
    }
    let most = Temperature::saturating_celsius(LIFT_CELSIUS_MOST);
    if let Some(now) = bath.now
        && now > most
    {
        page.note(step.at, Wrong::LiftedHot { bath: now, most });
    }
    bath.are_goods_in = false;
}

fn check_end(page: &mut Page<'_>, bath: &Bath, steps: &Steps, additions: &Additions) {
    for listed in &additions.listed {
        if !bath.added.contains(&listed.letter) {
            page.note(
                listed.at,
                Wrong::NeverAdded {
                    letter: listed.letter,
                },
            );
        }
    }
    let Some(last) = steps.sketches.last() else { return };
    if bath.are_goods_in {
        page.note(last.at, Wrong::LeftInBath);
    } else if !bath.have_goods_entered {
        page.note(last.at, Wrong::NeverEntered);
    }
}
