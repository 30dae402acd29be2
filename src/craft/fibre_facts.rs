//! What a fibre weighs, holds and takes up, beside what it is.
//!
//! Sources: commercial moisture regain from ASTM D1909-13 as tabled in Bioresources & Bioprocessing 2020; densities from
//! Morton & Hearle, Physical Properties of Textile Fibres, table 5.1; heats of wetting from secondary tables after the
//! same book; dry specific heats and the steepness of wetting from memory. Hand-squeezed water: common practice, no source.
//! Alpaca and mohair are counted as wool, ramie and nettle as hemp: no better figure was found.

use super::fibre::Fibre;
use super::quantity::Mass;

/// Physical constants of one fibre.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FibreFacts {
    /// Commercial moisture regain, percent of the oven-dry weight.
    pub regain_percent: f64,
    /// Density of the dry fibre, g/mL.
    pub density: f64,
    /// Specific heat of the dry fibre, J/(g K).
    pub specific_heat: f64,
    /// Heat set free when oven-dry fibre is wetted, J per gram of dry fibre.
    pub wetting_heat: f64,
    /// Moisture, as a part of the dry weight, by which the heat still to come has fallen to 37 %.
    pub wetting_regain: f64,
    /// Grams of water held per gram of dry fibre after a squeeze by hand: usual least, middle, most.
    pub squeezed_water: (f64, f64, f64),
}

impl Fibre {
    /// Its physical constants.
    #[must_use]
    pub const fn facts(self) -> FibreFacts {
        match self {
            Self::Wool | Self::SuperwashWool | Self::Alpaca | Self::Mohair => FibreFacts {
                regain_percent: 13.6,
                density: 1.30,
                specific_heat: 1.36,
                wetting_heat: 113.0,
                wetting_regain: 0.13,
                squeezed_water: SQUEEZED,
            },
            Self::Silk | Self::RawSilk => FibreFacts {
                regain_percent: 11.0,
                density: 1.34,
                specific_heat: 1.38,
                wetting_heat: 69.0,
                wetting_regain: 0.09,
                squeezed_water: SQUEEZED,
            },
            Self::Cotton => FibreFacts {
                regain_percent: 8.5,
                density: 1.55,
                specific_heat: 1.22,
                wetting_heat: 46.0,
                wetting_regain: 0.04,
                squeezed_water: SQUEEZED,
            },
            Self::Linen => FibreFacts {
                regain_percent: 12.0,
                density: 1.54,
                specific_heat: 1.34,
                wetting_heat: 55.0,
                wetting_regain: 0.05,
                squeezed_water: SQUEEZED,
            },
            Self::Hemp => FibreFacts {
                regain_percent: 12.0,
                density: 1.48,
                specific_heat: 1.34,
                wetting_heat: 55.0,
                wetting_regain: 0.05,
                squeezed_water: SQUEEZED,
            },
        }
    }
}

/// The air-dry weight of oven-dry goods, at commercial regain.
#[must_use]
pub fn air_dry(fibre: Fibre, oven_dry: Mass) -> Mass {
    Mass::saturating_grams(oven_dry.grams() * (1.0 + fibre.facts().regain_percent / 100.0))
}

/// The oven-dry weight of goods weighed air-dry, at commercial regain.
#[must_use]
pub fn oven_dry(fibre: Fibre, air_dry: Mass) -> Mass {
    Mass::saturating_grams(air_dry.grams() / (1.0 + fibre.facts().regain_percent / 100.0))
}

/// The water goods carry into a bath after a squeeze by hand, the middle figure.
#[must_use]
pub fn squeezed_water(fibre: Fibre, dry: Mass) -> Mass {
    let (_, middle, _) = fibre.facts().squeezed_water;
    Mass::saturating_grams(dry.grams() * middle)
}

/// Heat still set free, J per gram of dry fibre, when goods that hold `moisture` grams per dry gram are wetted through.
///
/// It falls off as exp(-moisture / [`FibreFacts::wetting_regain`]), the steepness being the heat of wetting over the
/// differential heat of sorption of dry fibre (wool 850, cotton 1240 J/g of water; from memory).
#[must_use]
pub fn wetting_heat_left(fibre: Fibre, moisture: f64) -> f64 {
    let facts = fibre.facts();
    facts.wetting_heat * (-moisture.max(0.0) / facts.wetting_regain).exp()
}

/// Common practice, no source.
const SQUEEZED: (f64, f64, f64) = (1.5, 2.0, 2.5);
