//! What a dyer's scale can weigh: the reading to aim at, the tolerance, and a stock solution for what is too little.

use super::dissolving::{Taking, cup};
use super::quantity::{Mass, Temperature, Volume};
use super::substance::Substance;

/// The smallest step a scale shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum ScaleStep {
    /// Whole grams.
    Gram,
    /// Tenths.
    Tenth,
    /// Hundredths.
    Hundredth,
}

/// A solution of which so many millilitres bring a small amount. Percent is grams in 100 mL of solution.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StockSolution {
    /// Grams in 100 mL.
    pub percent: f64,
    /// What to weigh for the stock.
    pub weigh: Mass,
    /// To how much that is made up with water.
    pub make_up_to: Volume,
    /// How much of the stock brings the target.
    pub measure: Volume,
}

/// How a target can be weighed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Weighing {
    /// One step is at most 5 % of the target.
    Well {
        /// The reading to aim at: the target rounded to the step.
        dial: Mass,
        /// A reading this far from the target still counts as it.
        tolerance: Mass,
    },
    /// One step is 5 to 15 % of the target: it can be weighed, a stock solution would be nearer.
    Coarsely {
        /// The reading to aim at: the target rounded to the step.
        dial: Mass,
        /// A reading this far from the target still counts as it.
        tolerance: Mass,
        /// What would be nearer, if it dissolves.
        stock: Option<StockSolution>,
    },
    /// One step is more than 15 % of the target: this scale can't weigh it.
    TooLittle {
        /// The way out, if it dissolves.
        stock: Option<StockSolution>,
        /// A scale that would do well, if there is one.
        finer: Option<ScaleStep>,
    },
}

impl ScaleStep {
    /// Every step, coarsest first.
    pub const ALL: [Self; 3] = [Self::Gram, Self::Tenth, Self::Hundredth];

    /// The step in grams.
    #[must_use]
    pub const fn grams(self) -> f64 {
        match self {
            Self::Gram => 1.0,
            Self::Tenth => 0.1,
            Self::Hundredth => 0.01,
        }
    }

    /// The step by its grams, as settings write it: `1`, `0.1`, `0.01`.
    #[must_use]
    pub fn from_grams(grams: f64) -> Option<Self> {
        Self::ALL
            .into_iter()
            .find(|step| (step.grams() - grams).abs() < 1e-9)
    }

    /// Steps in one gram, a whole number, so that readings round exactly.
    const fn in_a_gram(self) -> f64 {
        match self {
            Self::Gram => 1.0,
            Self::Tenth => 10.0,
            Self::Hundredth => 100.0,
        }
    }
}

/// How this scale weighs a target. `substance` is `None` for plants and extracts, of which no stock is made here.
///
/// A scale is trusted to one step either way: half for the reading, half for the tare. The limits of 5 and 15 % are
/// our own choice, below what recipes of one dye differ by.
#[must_use]
pub fn weighing(substance: Option<Substance>, target: Mass, step: ScaleStep) -> Weighing {
    let dial = (target.grams() * step.in_a_gram()).round() / step.in_a_gram();
    judged(substance, target, step.grams(), dial)
}

/// The same for a scale of any step: 0.5 g, 2 g, 5 g. A step of nothing counts as a hundredth of a gram.
#[must_use]
pub fn weighing_by(substance: Option<Substance>, target: Mass, step: Mass) -> Weighing {
    if let Some(step) = ScaleStep::from_grams(step.grams()) {
        return weighing(substance, target, step);
    }
    let step = if step.grams() > 0.0 {
        step.grams()
    } else {
        ScaleStep::Hundredth.grams()
    };
    judged(substance, target, step, (target.grams() / step).round() * step)
}

fn judged(substance: Option<Substance>, target: Mass, step_grams: f64, dial_grams: f64) -> Weighing {
    let dial = Mass::saturating_grams(dial_grams);
    let tolerance = Mass::saturating_grams((target.grams() * TOLERANCE).max(step_grams));
    let error = step_grams / target.grams(); // infinite for nothing, which is then too little
    let stock = || substance.and_then(|substance| stock_by(substance, target, step_grams));
    if error <= WELL {
        Weighing::Well { dial, tolerance }
    } else if error <= COARSELY {
        Weighing::Coarsely {
            dial,
            tolerance,
            stock: stock(),
        }
    } else {
        Weighing::TooLittle {
            stock: stock(),
            finer: ScaleStep::ALL
                .into_iter()
                .find(|finer| finer.grams() / target.grams() <= WELL),
        }
    }
}

/// The strongest round stock of which at least 20 mL are measured, weighed on this scale to 5 %; `None` where the
/// substance doesn't dissolve, not to that strength in cold water, or the target is nothing.
#[must_use]
pub fn stock_solution(substance: Substance, target: Mass, step: ScaleStep) -> Option<StockSolution> {
    stock_by(substance, target, step.grams())
}

fn stock_by(substance: Substance, target: Mass, step_grams: f64) -> Option<StockSolution> {
    let cold = Temperature::saturating_celsius(20.0);
    let one_gram = cup(substance, Mass::saturating_grams(1.0), cold);
    let percent_max = match one_gram.taking {
        Taking::Dissolves => 100.0 / (one_gram.least.litres() * 1_000.0),
        Taking::StirredUp | Taking::Poured | Taking::Bagged => return None,
    };
    if target.grams() <= 0.0 {
        return None;
    }
    let percent = STRENGTHS
        .into_iter()
        .find(|percent| *percent <= percent_max && target.grams() / percent * 100.0 >= MEASURE_ML_MIN)?;
    let measure_ml = target.grams() / percent * 100.0;
    let weigh = (step_grams / WELL).max(target.grams());
    Some(StockSolution {
        percent,
        weigh: Mass::saturating_grams(weigh),
        make_up_to: Volume::saturating_litres(weigh / percent * 100.0 / 1_000.0),
        measure: Volume::saturating_litres(measure_ml / 1_000.0),
    })
}

const WELL: f64 = 0.05;
const COARSELY: f64 = 0.15;
const TOLERANCE: f64 = 0.02;
/// Percent, strongest first.
const STRENGTHS: [f64; 7] = [10.0, 5.0, 2.0, 1.0, 0.5, 0.2, 0.1];
/// Below this a kitchen syringe or jug reads worse than 5 % (common practice, no source).
const MEASURE_ML_MIN: f64 = 20.0;
