//! Where the bath stands: its boil, and what is odd about pressure, water and room.

use crate::craft::boil::{self, PressureDoubt};
use crate::craft::quantity::Temperature;
use crate::craft::vessel::Place;
use crate::msg;

use super::notes::Notes;
use super::verdict::{SheetRefusal, SheetWarning};
use super::wishes::Wishes;
use super::working::Measured;

/// Where water boils here.
pub(super) fn boil(wishes: &Wishes, notes: &mut Notes) -> Temperature {
    let place = wishes.stove.place;
    let boil = boil::boiling_point(place);
    let (input, formula) = match place {
        Place::Altitude(height) => (
            (
                msg!("height above the sea").into(),
                Measured::new(height.metres(), "m"),
            ),
            msg!(
                "the pressure of the standard atmosphere at this height, and the saturation temperature of water at it"
            ),
        ),
        Place::Station(pressure) => (
            (
                msg!("station pressure").into(),
                Measured::new(pressure.hectopascals(), "hPa"),
            ),
            msg!("the saturation temperature of water at this pressure"),
        ),
    };
    notes.working(
        msg!("boiling point"),
        vec![input],
        formula,
        Measured::new(boil.celsius(), "C"),
        "ISO 2533:1975; IAPWS R7-97(2012), region 4",
    );
    doubt_pressure(wishes, notes);
    doubt_water(wishes, boil, notes);
    boil
}

/// A forecast's pressure is reduced to sea level; taken for the pressure at the place it puts the boil too high.
fn doubt_pressure(wishes: &Wishes, notes: &mut Notes) {
    let Place::Station(typed) = wishes.stove.place else {
        return;
    };
    let Some(height) = wishes.height else {
        if typed.hectopascals() >= SEA_LEVEL_LIKE_HPA {
            notes.warn(SheetWarning::ForecastPressure { typed });
        }
        return;
    };
    match boil::doubt_pressure(height, typed) {
        PressureDoubt::Agrees => {}
        PressureDoubt::ReducedToSeaLevel {
            likely_station,
            boil_as_typed,
            boil_likely,
        } => notes.warn(SheetWarning::SeaLevelPressure {
            typed,
            likely_station,
            boil_as_typed,
            boil_likely,
        }),
        PressureDoubt::Disagrees { standard } => notes.warn(SheetWarning::PressureAgainstHeight {
            typed,
            height,
            standard,
        }),
    }
}

fn doubt_water(wishes: &Wishes, boil: Temperature, notes: &mut Notes) {
    let tap = wishes.stove.tap;
    let room = wishes.stove.room;
    if tap.celsius() < 0.0 || tap >= boil {
        notes.refuse(SheetRefusal::NoLiquidWater { tap, boil });
    }
    if !(ROOM_USUAL_C.0..=ROOM_USUAL_C.1).contains(&room.celsius()) {
        notes.warn(SheetWarning::Doubtful {
            said: msg!(
                "a room of {room:.0} C is unusual; check it, every time on this sheet hangs on it",
                room = room.celsius()
            ),
        });
    }
}

/// Below this a pressure is no forecast's. Reduced pressures stay above it nearly always (common practice, no source).
const SEA_LEVEL_LIKE_HPA: f64 = 980.0;
/// Sheds in winter to kitchens in summer: common practice, no source.
const ROOM_USUAL_C: (f64, f64) = (-10.0, 45.0);
