//! Moist air between a wet face and the room: density, and the film's transport properties.
//!
//! Sutherland's law for dry air, straight lines for water vapour, Wilke's mixing rule for both viscosity and (as
//! Wassiljewa) conductivity, diffusivity after Massman, Atmospheric Environment 32 (1998) 1111. Constants from memory; the
//! whole surface model is held to published tank tables in the tests.

use crate::craft::boil::{ZERO_C, saturation_megapascals};

/// The air of a room.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Air {
    /// Pa.
    pub(crate) pressure: f64,
    /// K.
    pub(crate) kelvin: f64,
    /// Mole fraction of vapour.
    vapour: f64,
}

impl Air {
    /// Half-damp air, the assumption of a kitchen: humidity 20 instead of 50 % shortens a cooling to 30 C by some 5 %.
    pub(crate) fn of_room(celsius: f64, pressure: f64) -> Self {
        let kelvin = celsius + ZERO_C;
        let vapour = HUMIDITY * saturation_megapascals(kelvin) * 1e6 / pressure;
        Self {
            pressure,
            kelvin,
            vapour: vapour.clamp(0.0, VAPOUR_MOST),
        }
    }

    /// Air lying on water of so many kelvin.
    pub(crate) fn over_water(kelvin: f64, pressure: f64) -> Self {
        let vapour = saturation_megapascals(kelvin) * 1e6 / pressure;
        Self {
            pressure,
            kelvin,
            vapour: vapour.clamp(0.0, VAPOUR_MOST),
        }
    }

    /// The same air warmed to so many kelvin.
    pub(crate) fn warmed(self, kelvin: f64) -> Self {
        Self { kelvin, ..self }
    }

    /// kg/m3.
    pub(crate) fn density(self) -> f64 {
        self.pressure * self.molar_mass() / (GAS_R * self.kelvin)
    }

    /// Vapour as a part of the mass.
    pub(crate) fn vapour_by_mass(self) -> f64 {
        self.vapour * WATER_M / self.molar_mass()
    }

    fn molar_mass(self) -> f64 {
        self.vapour * WATER_M + (1.0 - self.vapour) * AIR_M
    }
}

/// What carries heat and vapour in the layer between two airs, taken at their middle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Film {
    /// W/(m K).
    pub(crate) conductivity: f64,
    /// J/(kg K).
    pub(crate) heat: f64,
    /// Prandtl number over Schmidt number.
    pub(crate) lewis: f64,
    /// Rayleigh number of one metre; goes with the cube of the length.
    pub(crate) rayleigh_1m: f64,
}

impl Film {
    pub(crate) fn between(face: Air, room: Air) -> Self {
        let kelvin = f64::midpoint(face.kelvin, room.kelvin);
        let vapour = f64::midpoint(face.vapour, room.vapour);
        let dry = 1.0 - vapour;
        let middle = Air {
            pressure: room.pressure,
            kelvin,
            vapour,
        };

        let warm = kelvin / ZERO_C;
        let warm_15 = warm * warm.sqrt();
        let air_viscosity = 1.716e-5 * warm_15 * (ZERO_C + 110.4) / (kelvin + 110.4);
        let air_conductivity = 0.024_1 * warm_15 * (ZERO_C + 194.0) / (kelvin + 194.0);
        let celsius = kelvin - ZERO_C;
        let vapour_viscosity = 9.07e-6 + 3.2e-8 * celsius;
        let vapour_conductivity = 0.016_6 + 8.0e-5 * celsius;

        let ratio = (air_viscosity / vapour_viscosity).sqrt();
        let mass_quarter = (WATER_M / AIR_M).sqrt().sqrt();
        let air_in_vapour = (1.0 + ratio * mass_quarter).powi(2) / (8.0 * (1.0 + AIR_M / WATER_M)).sqrt();
        let vapour_in_air =
            (1.0 + 1.0 / (ratio * mass_quarter)).powi(2) / (8.0 * (1.0 + WATER_M / AIR_M)).sqrt();
        let air_share = dry / (dry + vapour * air_in_vapour);
        let vapour_share = vapour / (vapour + dry * vapour_in_air);
        let viscosity = air_share * air_viscosity + vapour_share * vapour_viscosity;
        let conductivity = air_share * air_conductivity + vapour_share * vapour_conductivity;

        let by_mass = middle.vapour_by_mass();
        let heat = by_mass * VAPOUR_HEAT + (1.0 - by_mass) * AIR_HEAT;
        let density = middle.density();
        let diffusivity = 0.217_8e-4 * warm.powf(1.81) * 101_325.0 / room.pressure;
        let prandtl = viscosity * heat / conductivity;
        let kinematic = viscosity / density;
        let lift = GRAVITY * (room.density() - face.density()).abs() / density;
        Self {
            conductivity,
            heat,
            lewis: prandtl * diffusivity / kinematic,
            rayleigh_1m: lift / (kinematic * kinematic) * prandtl,
        }
    }
}

/// m/s2.
pub(crate) const GRAVITY: f64 = 9.806_65;
/// Specific heat of water vapour, J/(kg K).
pub(crate) const VAPOUR_HEAT: f64 = 1_900.0;
const AIR_HEAT: f64 = 1_006.0;
/// Relative humidity assumed for the room.
const HUMIDITY: f64 = 0.5;
/// At the boil the face would be all vapour and the sums without bound.
const VAPOUR_MOST: f64 = 0.98;
/// J/(kmol K), and kg/kmol.
const GAS_R: f64 = 8_314.463;
const WATER_M: f64 = 18.015_3;
const AIR_M: f64 = 28.965;
