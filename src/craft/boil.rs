//! Where water boils: the standard atmosphere, and the saturation line of the industrial formulation.
//!
//! The sources are ISO 2533:1975 (the standard atmosphere, the same as ICAO Doc 7488) and IAPWS R7-97(2012), region 4
//! (the saturation line in closed form, both ways). Boiling-point rise by what is dissolved is left out: 200 g of alum
//! in 15 L lift the boil by 0.06 K.

use super::quantity::{Altitude, Pressure, Temperature};
use super::vessel::Place;

/// Where water boils at a place.
///
/// ```
/// use potside::craft::{boil::boiling_point, quantity::Altitude, vessel::Place};
/// let place = Place::Altitude(Altitude::from_metres(1_500.0).unwrap());
/// assert!((boiling_point(place).celsius() - 94.984).abs() < 0.002);
/// ```
#[must_use]
pub fn boiling_point(place: Place) -> Temperature {
    Temperature::saturating_celsius(saturation_kelvin(pascals(place) / 1e6) - ZERO_C)
}

/// The air pressure at a place: the one measured there, or the standard atmosphere's at that height.
#[must_use]
pub fn station_pressure(place: Place) -> Pressure {
    Pressure::saturating_hectopascals(pascals(place) / 100.0)
}

/// The standard atmosphere's pressure at a geometric height (ISO 2533:1975, lowest layer; -430 to 6000 m).
#[must_use]
pub fn standard_pressure(altitude: Altitude) -> Pressure {
    Pressure::saturating_hectopascals(standard_pascals(altitude) / 100.0)
}

/// A typed pressure beside a typed height, looked at together.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum PressureDoubt {
    /// The two agree within what weather does.
    Agrees,
    /// The pressure looks like the one of a forecast, reduced to sea level; the air here has about `likely_station`.
    ReducedToSeaLevel {
        /// The station pressure that belongs to the typed one, were that reduced to sea level.
        likely_station: Pressure,
        /// Where water would seem to boil if the mistake went through, and where it boils.
        boil_as_typed: Temperature,
        /// Where water boils if the pressure was reduced to sea level.
        boil_likely: Temperature,
    },
    /// The two disagree, and not in that way: the height or the pressure is mistyped.
    Disagrees {
        /// The standard atmosphere's pressure at the typed height.
        standard: Pressure,
    },
}

/// Looks for a sea-level pressure typed as a station pressure.
///
/// Weather moves station pressure by some 30 hPa about the standard atmosphere's, seldom 45; a reduced pressure stays
/// within 950 to 1060 hPa at any height. Below about 230 m the mistake costs less than 0.75 K and is let pass.
#[must_use]
pub fn doubt_pressure(altitude: Altitude, typed: Pressure) -> PressureDoubt {
    let standard = standard_pressure(altitude).hectopascals();
    let ratio = standard / (SEA_LEVEL_PA / 100.0);
    let off_as_station = (typed.hectopascals() - standard).abs();
    let off_as_reduced = (typed.hectopascals() * ratio - standard).abs();
    if off_as_station <= off_as_reduced || off_as_station <= WEATHER_HPA {
        if off_as_station <= SEVERE_WEATHER_HPA {
            return PressureDoubt::Agrees;
        }
        return PressureDoubt::Disagrees {
            standard: standard_pressure(altitude),
        };
    }
    if off_as_reduced > SEVERE_WEATHER_HPA {
        return PressureDoubt::Disagrees {
            standard: standard_pressure(altitude),
        };
    }
    let likely_station = Pressure::saturating_hectopascals(typed.hectopascals() * ratio);
    let boil_as_typed = boiling_point(Place::Station(typed));
    let boil_likely = boiling_point(Place::Station(likely_station));
    if boil_as_typed.celsius() - boil_likely.celsius() < BOIL_DOUBT_K {
        return PressureDoubt::Agrees;
    }
    PressureDoubt::ReducedToSeaLevel {
        likely_station,
        boil_as_typed,
        boil_likely,
    }
}

/// The pressure of saturated steam in megapascals at a temperature in kelvin: IAPWS R7-97(2012), equation 30,
/// 273.15 to 647.096 K. Outside it the nearer end is taken.
#[must_use]
pub fn saturation_megapascals(kelvin: f64) -> f64 {
    let t = if kelvin >= 273.15 {
        kelvin.min(647.096)
    } else {
        273.15
    };
    let theta = t + N9 / (t - N10);
    let a = theta * theta + N1 * theta + N2;
    let b = N3 * theta * theta + N4 * theta + N5;
    let c = N6 * theta * theta + N7 * theta + N8;
    let root = 2.0 * c / (-b + (b * b - 4.0 * a * c).sqrt());
    (root * root) * (root * root)
}

/// The boiling temperature in kelvin at a pressure in megapascals: IAPWS R7-97(2012), equation 31,
/// 611.213 Pa to 22.064 `MPa`. Outside it the nearer end is taken.
#[must_use]
pub fn saturation_kelvin(megapascals: f64) -> f64 {
    let p = if megapascals >= 0.000_611_213 {
        megapascals.min(22.064)
    } else {
        0.000_611_213
    };
    let beta = p.sqrt().sqrt();
    let e = beta * beta + N3 * beta + N6;
    let f = N1 * beta * beta + N4 * beta + N7;
    let g = N2 * beta * beta + N5 * beta + N8;
    let d = 2.0 * g / (-f - (f * f - 4.0 * e * g).sqrt());
    (N10 + d - ((N10 + d) * (N10 + d) - 4.0 * (N9 + N10 * d)).sqrt()) / 2.0
}

/// 0 degrees Celsius in kelvin.
pub(crate) const ZERO_C: f64 = 273.15;

/// The air pressure at a place, in pascals.
pub(crate) fn pascals(place: Place) -> f64 {
    match place {
        Place::Altitude(altitude) => standard_pascals(altitude),
        Place::Station(pressure) => pressure.hectopascals() * 100.0,
    }
}

fn standard_pascals(altitude: Altitude) -> f64 {
    let z = altitude.metres();
    let geopotential = EARTH_RADIUS_M * z / (EARTH_RADIUS_M + z);
    SEA_LEVEL_PA * (1.0 - LAPSE_K_M * geopotential / SEA_LEVEL_K).powf(GRAVITY / (AIR_R * LAPSE_K_M))
}

/// Common practice, no source: how far an ordinary day's weather moves the pressure.
const WEATHER_HPA: f64 = 30.0;
/// A mistake that moves the boil by less than a kitchen thermometer's error is not worth a question.
const BOIL_DOUBT_K: f64 = 0.75;
/// Common practice, no source: further than this is a typing slip rather than weather.
const SEVERE_WEATHER_HPA: f64 = 45.0;

// ISO 2533:1975.
const SEA_LEVEL_PA: f64 = 101_325.0;
const SEA_LEVEL_K: f64 = 288.15;
const LAPSE_K_M: f64 = 0.006_5;
const GRAVITY: f64 = 9.806_65;
const AIR_R: f64 = 287.052_87;
const EARTH_RADIUS_M: f64 = 6_356_766.0;

// IAPWS R7-97(2012), table 34.
const N1: f64 = 0.116_705_214_527_67e4;
const N2: f64 = -0.724_213_167_032_06e6;
const N3: f64 = -0.170_738_469_400_92e2;
const N4: f64 = 0.120_208_247_024_70e5;
const N5: f64 = -0.323_255_503_223_33e7;
const N6: f64 = 0.149_151_086_135_30e2;
const N7: f64 = -0.482_326_573_615_91e4;
const N8: f64 = 0.405_113_405_420_57e6;
const N9: f64 = -0.238_555_575_678_49;
const N10: f64 = 0.650_175_348_447_98e3;
