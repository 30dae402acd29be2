//! What water does between 0 and 100 C, and where its line comes on a round pot.
//!
//! Density, specific heat and heat of evaporation are the short fits of Popiel and Wojtkowiak, "Simple formulas for
//! thermophysical properties of liquid water for heat transfer calculations", Heat Transfer Engineering 19 (1998) 3
//! (coefficients from memory; the tests hold them to IAPWS-95 within 0.1 %). Vapour pressure is IAPWS region 4.
//! Salts, dyestuff and soap are left out: 20 g/L of alum makes a bath about 1 % denser.

use super::boil::{ZERO_C, saturation_megapascals};
use super::quantity::{Length, Mass, Temperature, Volume};
use super::vessel::Pot;

/// Grams of water in a litre, 0 to 100 C.
#[must_use]
pub fn density_grams_per_litre(at: Temperature) -> f64 {
    let t = liquid(at);
    let root = t.sqrt();
    999.796_84 + t * (0.068_317_355 + t * (-0.010_740_248 + 0.000_821_409_05 * root - 2.303_098_8e-5 * t))
}

/// Specific heat, in joules per gram and kelvin, 0 to 100 C.
#[must_use]
pub fn specific_heat(at: Temperature) -> f64 {
    specific_heat_raw(at.celsius()) / 1_000.0
}

/// Heat of evaporation, in joules per gram, 0 to 100 C.
#[must_use]
pub fn evaporation_heat(at: Temperature) -> f64 {
    evaporation_heat_raw(liquid(at)) / 1_000.0
}

/// Vapour pressure over water, in kilopascals, 0 to 100 C.
#[must_use]
pub fn vapour_kilopascals(at: Temperature) -> f64 {
    saturation_megapascals(liquid(at) + ZERO_C) * 1_000.0
}

/// How much room a mass of water takes at a temperature.
#[must_use]
pub fn volume_of(water: Mass, at: Temperature) -> Volume {
    Volume::saturating_litres(water.grams() / density_grams_per_litre(at))
}

/// The mass of a volume of water measured at a temperature.
#[must_use]
pub fn mass_of(volume: Volume, at: Temperature) -> Mass {
    Mass::saturating_grams(volume.litres() * density_grams_per_litre(at))
}

/// How high the liquor stands over the bottom of the pot, with what the goods displace; past the brim it says so by
/// being higher than the pot.
#[must_use]
pub fn level_line(pot: &Pot, liquor: Volume, displaced: Volume) -> Length {
    Length::saturating_centimetres((liquor.litres() + displaced.litres()) / litres_per_centimetre(pot))
}

/// Inside height of a round, straight pot.
#[must_use]
pub fn pot_height(pot: &Pot) -> Length {
    Length::saturating_centimetres(pot.capacity.litres() / litres_per_centimetre(pot))
}

/// The part of the pot that is full, 1 being the brim; more than 1 runs over. A pot of no capacity is always over-full.
#[must_use]
pub fn fill_fraction(pot: &Pot, liquor: Volume, displaced: Volume) -> f64 {
    let filled = liquor.litres() + displaced.litres();
    if pot.capacity.litres() > 0.0 {
        filled / pot.capacity.litres()
    } else {
        f64::MAX
    }
}

/// Specific heat in J/(kg K) at a number of degrees.
pub(crate) fn specific_heat_raw(celsius: f64) -> f64 {
    let t = celsius.clamp(0.0, 130.0);
    let root = t.sqrt();
    4_217.435_6 + t * (-5.618_162_5 + 1.299_252_8 * root + t * (-0.115_353_53 + 4.149_64e-3 * root))
}

/// Heat of evaporation in J/kg at a number of degrees.
pub(crate) fn evaporation_heat_raw(celsius: f64) -> f64 {
    let t = celsius.clamp(0.0, 130.0);
    let root = t.sqrt();
    2_500_304.0 + t * (-2_252.102_5 - 21.465_847 * root + t * (0.317_501_36 * root - 0.028_607_959 * t))
}

fn liquid(at: Temperature) -> f64 {
    at.celsius().clamp(0.0, 130.0)
}

/// A pot thinner than a pencil is no pot; the floor keeps the quotients finite.
fn litres_per_centimetre(pot: &Pot) -> f64 {
    let radius_dm = pot.diameter.centimetres().max(0.5) / 20.0;
    std::f64::consts::PI * radius_dm * radius_dm / 10.0
}
