//! How sure the sums are: the spreads that make the bands.

use crate::craft::vessel::BurnerKind;

/// A positive factor known up to a spread: its logarithm is normal about `ln median`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LogNormal {
    // Invariant: median finite and above zero, spread finite and not negative.
    median: f64,
    spread: f64,
}

impl LogNormal {
    /// The factor with this median and this standard deviation of its logarithm. What is no such number is brought to
    /// the nearest that is: medians to 0.001 to 1000, spreads to 0 to 3.
    #[must_use]
    pub fn new(median: f64, spread: f64) -> Self {
        let median = if median.is_finite() {
            median.clamp(1e-3, 1e3)
        } else {
            1.0
        };
        let spread = if spread.is_finite() {
            spread.clamp(0.0, 3.0)
        } else {
            3.0
        };
        Self { median, spread }
    }

    /// A factor known exactly.
    #[must_use]
    pub fn exactly(value: f64) -> Self {
        Self::new(value, 0.0)
    }

    /// The middle value.
    #[must_use]
    pub const fn median(self) -> f64 {
        self.median
    }

    /// Standard deviation of the logarithm; 0.1 is about ten percent.
    #[must_use]
    pub const fn spread(self) -> f64 {
        self.spread
    }

    /// The value `z` standard deviations from the middle; 1.2816 is the 90 % value.
    #[must_use]
    pub fn at(self, z: f64) -> f64 {
        self.median * (self.spread * z).exp()
    }
}

/// What is known of a pot on its burner.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PotKnowledge {
    /// The part of the burner's power that goes into the pot.
    pub efficiency: LogNormal,
    /// The true losses over the computed ones: draught, hood, the shape of the pot.
    pub loss: LogNormal,
    /// With a lid on: the true loss through and past the lid over the computed one.
    pub lid: LogNormal,
}

impl PotKnowledge {
    /// Before the first bath.
    ///
    /// Medians from the US DOE block test for induction, ceramic and coil (84, 74 and 74 %) and from ENERGY STAR for
    /// gas (32 %); spreads so that 10 to 90 % covers what published tests of each kind cover: induction 0.76 to 0.93,
    /// ceramic and coil 0.64 to 0.85, gas 0.24 to 0.43. Losses within x 0.7 to x 1.4, from the scatter of published
    /// coolings about the model; lids within x 0.55 to x 1.8, since how a lid fits is anyone's guess.
    #[must_use]
    pub fn unknown(kind: BurnerKind) -> Self {
        let efficiency = match kind {
            BurnerKind::Induction => LogNormal::new(0.84, 0.08),
            BurnerKind::Ceramic | BurnerKind::Coil => LogNormal::new(0.74, 0.11),
            BurnerKind::Gas => LogNormal::new(0.32, 0.23),
        };
        Self {
            efficiency,
            loss: LogNormal::new(1.0, 0.26),
            lid: LogNormal::new(1.0, 0.45),
        }
    }

    /// The same, with an efficiency that is taken as given.
    #[must_use]
    pub fn with_fixed_efficiency(self, efficiency: f64) -> Self {
        Self {
            efficiency: LogNormal::exactly(efficiency.clamp(0.01, 1.0)),
            ..self
        }
    }
}

/// How far a start temperature is off, standard deviation in kelvin: one probe, half-stirred. Common practice, no source.
pub const START_SPREAD_K: f64 = 1.5;
/// How far the room is off what was typed, over hours, standard deviation in kelvin. Common practice, no source.
pub const ROOM_SPREAD_K: f64 = 2.0;
