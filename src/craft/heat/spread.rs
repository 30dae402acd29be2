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
    /// How the three hang together.
    pub ties: Ties,
}

/// How the logarithms of the three factors hang together: after some come-ups a pot that heats better than thought must
/// also lose more than thought.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ties {
    // Invariant: the lower triangle of a Cholesky factor with rows of length one, its first row being (1, 0, 0).
    loss: [f64; 2],
    lid: [f64; 3],
}

impl Ties {
    /// Each by itself.
    pub const NONE: Self = Self {
        loss: [0.0, 1.0],
        lid: [0.0, 0.0, 1.0],
    };

    /// From the correlations loss-efficiency, lid-efficiency and lid-loss; none where they contradict each other.
    #[must_use]
    pub fn of_correlations(loss_efficiency: f64, lid_efficiency: f64, lid_loss: f64) -> Self {
        let loss_own = 1.0 - loss_efficiency * loss_efficiency;
        if loss_own.is_nan() || loss_own <= 0.0 {
            return Self::NONE;
        }
        let loss_own = loss_own.sqrt();
        let lid_of_loss = (lid_loss - lid_efficiency * loss_efficiency) / loss_own;
        let lid_own = 1.0 - lid_efficiency * lid_efficiency - lid_of_loss * lid_of_loss;
        if lid_own.is_nan() || lid_own <= 0.0 {
            return Self::NONE;
        }
        Self {
            loss: [loss_efficiency, loss_own],
            lid: [lid_efficiency, lid_of_loss, lid_own.sqrt()],
        }
    }

    /// From three independent spreads to the three that hang together.
    pub(crate) fn tie(&self, efficiency: f64, loss: f64, lid: f64) -> (f64, f64, f64) {
        let [loss_0, loss_1] = self.loss;
        let [lid_0, lid_1, lid_2] = self.lid;
        (
            efficiency,
            loss_0 * efficiency + loss_1 * loss,
            lid_0 * efficiency + lid_1 * loss + lid_2 * lid,
        )
    }
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
            ties: Ties::NONE,
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

    /// Everything taken as given: what a pot does whose factors are known exactly.
    #[must_use]
    pub fn exactly(efficiency: f64, loss: f64, lid: f64) -> Self {
        Self {
            efficiency: LogNormal::exactly(efficiency),
            loss: LogNormal::exactly(loss),
            lid: LogNormal::exactly(lid),
            ties: Ties::NONE,
        }
    }
}

/// How far a start temperature is off, standard deviation in kelvin: one probe, half-stirred. Common practice, no source.
pub const START_SPREAD_K: f64 = 1.5;
/// How far the room is off what was typed, over hours, standard deviation in kelvin. Common practice, no source.
pub const ROOM_SPREAD_K: f64 = 2.0;
