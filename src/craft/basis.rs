//! On what weight the percentages count: dry, air-dry, scoured goods, from whatever the dyer put on the scale.
//!
//! Nothing is corrected silently: the weight as it was read, the weight that counts and the reason stay together.

use std::fmt;

use crate::msg;

use super::fibre::Fibre;
use super::quantity::{Band, Mass};

/// The state of the goods on the scale.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum WeighedAs {
    /// Scoured and lying in the room for a day: the weight that counts.
    AirDry,
    /// From the oven, without any moisture.
    OvenDry,
    /// Damp: so many percent of water on the oven-dry weight, known or guessed.
    Damp {
        /// Percent of the oven-dry weight.
        water_percent: f64,
    },
    /// Spun out of a bath and not dried: the water is taken from a table as a band.
    Spun,
    /// Air-dry but not scoured: so many percent of the weight wash out.
    InTheGrease {
        /// Percent of the weight as it is.
        loss_percent: f64,
    },
}

/// The weight that counts, beside the one that was read.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Basis {
    /// What the fibre is.
    pub fibre: Fibre,
    /// The state it was weighed in.
    pub weighed_as: WeighedAs,
    /// What the scale read.
    pub as_weighed: Mass,
    /// What percentages count on. The three are equal where nothing is guessed.
    pub air_dry: Band<Mass>,
}

/// A percentage that can't be of goods.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum BasisFault {
    /// More water than fibre can hold, or less than none.
    #[error("{percent} % is not the water of damp goods; it is 0 to 600 % of the dry weight")]
    Water {
        /// What was read.
        percent: f64,
    },
    /// A loss that leaves nothing, or less than none.
    #[error("{percent} % is not a loss on scouring; it is 0 to 80 % of the weight in the grease")]
    Loss {
        /// What was read.
        percent: f64,
    },
    /// No table says how much water this fibre holds when spun.
    #[error("how much water spun {goods} holds is not known; dry it, or state its water", goods = .fibre.id())]
    SpunNotKnown {
        /// The fibre.
        fibre: Fibre,
    },
}

impl Basis {
    /// Whether the weight that counts is another than the one read.
    #[must_use]
    pub fn is_corrected(&self) -> bool {
        (self.air_dry.likely.grams() - self.as_weighed.grams()).abs() > 1e-9
    }
}

impl fmt::Display for Basis {
    /// One line: what was read, what counts, why.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let read = self.as_weighed.grams();
        let counts = self.air_dry.likely.grams();
        let regain = regain_percent(self.fibre);
        let said = match self.weighed_as {
            WeighedAs::AirDry => msg!(
                "{weighed:.1} g as weighed, air-dry: counts as it is",
                weighed = read
            ),
            WeighedAs::OvenDry => msg!(
                "{weighed:.1} g oven-dry takes up {regain} % of moisture: {counts:.1} g air-dry counts",
                weighed = read,
                regain = regain,
                counts = counts,
            ),
            WeighedAs::Damp { water_percent } => msg!(
                "{weighed:.1} g with {water} % of water dries to {regain} %: {counts:.1} g air-dry counts",
                weighed = read,
                water = water_percent,
                regain = regain,
                counts = counts,
            ),
            WeighedAs::Spun => msg!(
                "{weighed:.1} g spun dries to {grams_low:.0} to {high:.0} g: {counts:.1} g air-dry counts, a guess; dry and \
                 weigh",
                weighed = read,
                grams_low = self.air_dry.low.grams(),
                high = self.air_dry.high.grams(),
                counts = counts,
            ),
            WeighedAs::InTheGrease { loss_percent } => msg!(
                "{weighed:.1} g in the grease loses {loss} %: {counts:.1} g scoured counts; weigh it again after",
                weighed = read,
                loss = loss_percent,
                counts = counts,
            ),
        };
        f.write_str(&said)
    }
}

/// The weight that counts.
///
/// # Errors
///
/// When a percentage can't be of goods, or spun goods are of a fibre without a figure.
pub fn basis(fibre: Fibre, as_weighed: Mass, weighed_as: WeighedAs) -> Result<Basis, BasisFault> {
    let conditioned = 1.0 + regain_percent(fibre) / 100.0;
    let exactly = |factor: f64| Band {
        low: factor,
        likely: factor,
        high: factor,
    };
    let factor = match weighed_as {
        WeighedAs::AirDry => exactly(1.0),
        WeighedAs::OvenDry => exactly(conditioned),
        WeighedAs::Damp { water_percent } => {
            if !(0.0..=600.0).contains(&water_percent) {
                return Err(BasisFault::Water {
                    percent: water_percent,
                });
            }
            exactly(conditioned / (1.0 + water_percent / 100.0))
        }
        WeighedAs::Spun => {
            let (least, most) = spun_water_percent(fibre).ok_or(BasisFault::SpunNotKnown { fibre })?;
            let dried = |water: f64| conditioned / (1.0 + water / 100.0);
            Band {
                low: dried(most),
                likely: dried(f64::midpoint(least, most)),
                high: dried(least),
            }
        }
        WeighedAs::InTheGrease { loss_percent } => {
            if !(0.0..=80.0).contains(&loss_percent) {
                return Err(BasisFault::Loss {
                    percent: loss_percent,
                });
            }
            exactly(1.0 - loss_percent / 100.0)
        }
    };
    Ok(Basis {
        fibre,
        weighed_as,
        as_weighed,
        air_dry: factor.map(|factor| Mass::saturating_grams(as_weighed.grams() * factor)),
    })
}

/// Commercial moisture regain, percent of the oven-dry weight: ASTM D1909-13, read in a table quoting it.
///
/// Alpaca and mohair are taken as wool and raw silk as silk (from memory). The figures are a trade convention; a
/// room's own equilibrium differs by a few percent.
#[must_use]
pub const fn regain_percent(fibre: Fibre) -> f64 {
    match fibre {
        Fibre::Wool | Fibre::SuperwashWool | Fibre::Alpaca | Fibre::Mohair => 13.6,
        Fibre::Silk | Fibre::RawSilk => 11.0,
        Fibre::Cotton => 8.5,
        Fibre::Linen | Fibre::Hemp => 12.0,
    }
}

/// Water that spun goods hold, percent of the dry weight, low and high: cotton about 50 read second-hand, the rest
/// from memory. Nothing is known here of hair other than wool, of raw silk or of hemp.
#[must_use]
pub const fn spun_water_percent(fibre: Fibre) -> Option<(f64, f64)> {
    match fibre {
        Fibre::Wool | Fibre::Silk => Some((40.0, 45.0)),
        Fibre::Cotton => Some((45.0, 50.0)),
        Fibre::Linen => Some((50.0, 55.0)),
        Fibre::SuperwashWool | Fibre::Alpaca | Fibre::Mohair | Fibre::RawSilk | Fibre::Hemp => None,
    }
}

/// A loss on scouring to start from, percent of the weight in the grease, with its source; to be replaced by the
/// weight after scouring.
#[must_use]
pub const fn usual_scour_loss(fibre: Fibre) -> Option<(f64, &'static str)> {
    match fibre {
        Fibre::Wool => Some((20.0, "about a fifth: Mairet, A Book on Vegetable Dyes, 1916")),
        Fibre::RawSilk => Some((25.0, "the gum of raw silk, from memory")),
        Fibre::SuperwashWool
        | Fibre::Alpaca
        | Fibre::Mohair
        | Fibre::Silk
        | Fibre::Cotton
        | Fibre::Linen
        | Fibre::Hemp => None,
    }
}
