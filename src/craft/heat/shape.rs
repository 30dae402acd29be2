//! What a pot weighs and how its faces lie, from capacity, diameter and metal.
//!
//! Walls, bases and lids are *assumed* (typical catalogue shapes; common practice, no source); the metals' constants are
//! handbook values from memory. The pot's heat is 3 to 6 % of the water's, so a wall half as thick again costs 2 % of the
//! come-up.

use crate::craft::quantity::{Length, Mass};
use crate::craft::vessel::{Lid, Pot, PotMetal};
use crate::craft::water::pot_height;

/// A pot's faces in metres and square metres, and the metal behind them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Shape {
    pub(crate) diameter: f64,
    pub(crate) height: f64,
    pub(crate) opening: f64,
    pub(crate) wetted_height: f64,
    pub(crate) freeboard: f64,
    pub(crate) build: Build,
}

impl Shape {
    /// The faces of a pot filled with so many litres.
    pub(crate) fn of(pot: &Pot, filled_litres: f64) -> Self {
        let diameter = (pot.diameter.centimetres() / 100.0).max(0.01);
        let height = (pot_height(pot).centimetres() / 100.0).max(0.005);
        let opening = std::f64::consts::FRAC_PI_4 * diameter * diameter;
        let wetted_height = (filled_litres.max(0.0) / 1_000.0 / opening).clamp(0.001, height);
        Self {
            diameter,
            height,
            opening,
            wetted_height,
            freeboard: (height - wetted_height).max(0.005),
            build: Build::of(pot.metal),
        }
    }

    /// Joules per kelvin of the pot itself, with its lid when that is on.
    pub(crate) fn heat_capacity(&self, lid: Lid) -> f64 {
        let build = self.build;
        let outside = self.diameter + 2.0 * build.wall;
        let wall_m3 = std::f64::consts::PI * outside * self.height * build.wall;
        let base_m3 = self.opening * build.base;
        let disc = self.opening * build.disc * ALUMINIUM_DENSITY * ALUMINIUM_HEAT;
        let lid_m3 = match lid {
            Lid::Off => 0.0,
            Lid::Loose | Lid::Tight => self.opening * build.wall.min(LID_THICKEST),
        };
        (wall_m3 + base_m3 + lid_m3) * build.density * build.heat + disc
    }
}

/// The weight of the empty pot without its lid, for the curious.
#[must_use]
pub fn pot_weight(pot: &Pot) -> Mass {
    let shape = Shape::of(pot, 0.0);
    let build = shape.build;
    let wall = std::f64::consts::PI * (shape.diameter + 2.0 * build.wall) * shape.height * build.wall;
    let kilograms =
        (wall + shape.opening * build.base) * build.density + shape.opening * build.disc * ALUMINIUM_DENSITY;
    Mass::saturating_grams(kilograms * 1_000.0)
}

/// The thickness assumed for the wall of a metal.
#[must_use]
pub fn wall_thickness(metal: PotMetal) -> Length {
    Length::saturating_centimetres(Build::of(metal).wall * 100.0)
}

/// How a metal's pots are built: SI throughout.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Build {
    /// Wall thickness, m.
    pub(crate) wall: f64,
    /// Thickness of the base in the wall's metal, m.
    base: f64,
    /// Aluminium disc under the base, m.
    disc: f64,
    /// kg/m3.
    density: f64,
    /// J/(kg K).
    heat: f64,
    /// W/(m K).
    pub(crate) conductivity: f64,
    /// Part of black-body radiation the outside gives.
    pub(crate) emissivity: f64,
}

impl Build {
    const fn of(metal: PotMetal) -> Self {
        match metal {
            PotMetal::Stainless => Self {
                wall: 0.000_8,
                base: 0.001_3,
                disc: 0.005,
                density: 7_930.0,
                heat: 500.0,
                conductivity: 15.0,
                emissivity: 0.2,
            },
            PotMetal::Enamel => Self {
                wall: 0.001_2,
                base: 0.001_5,
                disc: 0.0,
                density: 7_600.0,
                heat: 490.0,
                conductivity: 50.0,
                emissivity: 0.9,
            },
            PotMetal::Aluminium => Self {
                wall: 0.003,
                base: 0.004,
                disc: 0.0,
                density: ALUMINIUM_DENSITY,
                heat: ALUMINIUM_HEAT,
                conductivity: 180.0,
                emissivity: 0.2,
            },
            PotMetal::Copper => Self {
                wall: 0.002,
                base: 0.002,
                disc: 0.0,
                density: 8_940.0,
                heat: 385.0,
                conductivity: 380.0,
                emissivity: 0.3,
            },
            PotMetal::Iron => Self {
                wall: 0.004,
                base: 0.005,
                disc: 0.0,
                density: 7_200.0,
                heat: 460.0,
                conductivity: 50.0,
                emissivity: 0.8,
            },
            PotMetal::Glass => Self {
                wall: 0.004,
                base: 0.005,
                disc: 0.0,
                density: 2_230.0,
                heat: 830.0,
                conductivity: 1.1,
                emissivity: 0.9,
            },
        }
    }
}

const ALUMINIUM_DENSITY: f64 = 2_700.0;
const ALUMINIUM_HEAT: f64 = 897.0;
/// Lids are thinner than walls; cast iron's and glass's are not.
const LID_THICKEST: f64 = 0.003;
