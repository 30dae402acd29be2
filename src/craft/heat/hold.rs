//! Keeping a bath hot: what it needs, and what steams off meanwhile.

use crate::craft::boil::{ZERO_C, saturation_megapascals};
use crate::craft::quantity::{Band, Power, Temperature};
use crate::craft::vessel::Lid;

use super::air::Air;
use super::balance::{Heat, Prepared};
use super::bands::{Draw, band_of};
use super::kettle::Kettle;
use super::surface::stirred_water;

/// Water that leaves as steam, in grams a minute.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Evaporation {
    /// The bath left to itself, its skin cooler than the rest.
    pub still: f64,
    /// The bath stirred without pause: the most it can be below the boil.
    pub stirred: f64,
}

/// The net heat into the pot that holds a temperature, burner under it.
#[must_use]
pub fn hold_power(kettle: &Kettle, at: Temperature) -> Power {
    let prepared = Prepared::of(kettle);
    let case = prepared.case(&Draw::MIDDLE, Heat::On { fraction: 1.0 }, None);
    Power::saturating_watts(case.losses(at.celsius()).0)
}

/// The burner setting that holds a temperature, as a part of full power; above 1 the burner can't.
#[must_use]
pub fn hold_setting(kettle: &Kettle, at: Temperature) -> Band<f64> {
    let prepared = Prepared::of(kettle);
    band_of(prepared.matters(Heat::On { fraction: 1.0 }), |draw| {
        let case = prepared.case(draw, Heat::On { fraction: 1.0 }, None);
        (case.losses(at.celsius()).0.max(0.0) / case.input.max(1.0)).min(1e3)
    })
}

/// Kelvin a minute the likely bath drifts at a temperature when the burner stays at a part of full power.
#[must_use]
pub fn drift(kettle: &Kettle, at: Temperature, setting: f64) -> f64 {
    let prepared = Prepared::of(kettle);
    let fraction = if setting.is_finite() {
        setting.clamp(0.0, 1.0)
    } else {
        0.0
    };
    let case = prepared.case(&Draw::MIDDLE, Heat::On { fraction }, None);
    case.warming(at.celsius(), prepared.water) * 60.0
}

/// What steams off at a temperature. At the boil the skin is taken 1 K below it: how hard a pot boils is the burner's doing.
#[must_use]
pub fn evaporation(kettle: &Kettle, at: Temperature) -> Evaporation {
    let prepared = Prepared::of(kettle);
    let case = prepared.case(&Draw::MIDDLE, Heat::On { fraction: 1.0 }, None);
    let celsius = at.celsius().min(kettle.boil.celsius() - 1.0);
    let (_, still) = case.losses(celsius);
    let pressure = saturation_megapascals(kettle.boil.celsius() + ZERO_C) * 1e6;
    let room = Air::of_room(kettle.room.celsius(), pressure);
    let diameter = prepared.diameter();
    let open_still = super::surface::still_water(celsius + ZERO_C, room, diameter, 0.0).vapour;
    let open_stirred = stirred_water(celsius + ZERO_C, room, diameter).vapour;
    let more = match kettle.lid {
        Lid::Tight => 1.0,
        Lid::Off | Lid::Loose if open_still > 0.0 => (open_stirred / open_still).max(1.0),
        Lid::Off | Lid::Loose => 1.0,
    };
    let grams_per_minute = still.max(0.0) * 60_000.0;
    Evaporation {
        still: grams_per_minute,
        stirred: grams_per_minute * more,
    }
}
