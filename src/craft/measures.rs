//! Kitchen measures: exactly what each unit is, and roughly what a level spoon of a powder weighs.
//!
//! The units are exact by definition. The spoons are never better than rough, and where rough would be dangerous or
//! worthless they are refused: the scale weight is always the one to go by.

use crate::msg;

use super::quantity::{Band, Mass};
use super::substance::Substance;

/// A unit of the kitchen or the shop.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
#[expect(
    missing_docs,
    reason = "each name is the unit; `KitchenUnit::name` says it in words"
)]
pub enum KitchenUnit {
    UsGallon,
    UsQuart,
    UsPint,
    UsCup,
    UsFluidOunce,
    UsTablespoon,
    UsTeaspoon,
    UsLegalCup,
    UsLegalFluidOunce,
    UsLegalTablespoon,
    UsLegalTeaspoon,
    ImperialGallon,
    ImperialQuart,
    ImperialPint,
    ImperialFluidOunce,
    MetricCup,
    JapaneseCup,
    AustralianTablespoon,
    MetricTablespoon,
    MetricDessertspoon,
    MetricTeaspoon,
    Pound,
    Ounce,
    TroyOunce,
    Grain,
}

/// Whether a unit measures room or weight.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Dimension {
    /// In millilitres.
    Volume,
    /// In grams.
    Mass,
}

/// The inch of the international yard and pound agreement of 1959, exact.
pub const CENTIMETRES_PER_INCH: f64 = 2.54;

/// The foot of the same agreement, exact.
pub const METRES_PER_FOOT: f64 = 0.304_8;

impl KitchenUnit {
    /// Every unit, in the order shown.
    pub const ALL: [Self; 25] = [
        Self::UsGallon,
        Self::UsQuart,
        Self::UsPint,
        Self::UsCup,
        Self::UsFluidOunce,
        Self::UsTablespoon,
        Self::UsTeaspoon,
        Self::UsLegalCup,
        Self::UsLegalFluidOunce,
        Self::UsLegalTablespoon,
        Self::UsLegalTeaspoon,
        Self::ImperialGallon,
        Self::ImperialQuart,
        Self::ImperialPint,
        Self::ImperialFluidOunce,
        Self::MetricCup,
        Self::JapaneseCup,
        Self::AustralianTablespoon,
        Self::MetricTablespoon,
        Self::MetricDessertspoon,
        Self::MetricTeaspoon,
        Self::Pound,
        Self::Ounce,
        Self::TroyOunce,
        Self::Grain,
    ];

    /// Millilitres or grams in one, as numerator and denominator. The fractions are exact by definition:
    /// NIST Handbook 44 Appendix C (gallon of 231 cubic inches, pound of 453.59237 g), the UK Weights and
    /// Measures Act 1985 (gallon of 4.54609 L), 21 CFR 101.9 (the label units).
    #[must_use]
    pub const fn fraction(self) -> (u64, u64) {
        match self {
            Self::UsGallon => (473_176_473, 125_000),
            Self::UsQuart => (473_176_473, 500_000),
            Self::UsPint => (473_176_473, 1_000_000),
            Self::UsCup => (473_176_473, 2_000_000),
            Self::UsFluidOunce => (473_176_473, 16_000_000),
            Self::UsTablespoon => (473_176_473, 32_000_000),
            Self::UsTeaspoon => (157_725_491, 32_000_000),
            Self::UsLegalCup => (240, 1),
            Self::UsLegalFluidOunce => (30, 1),
            Self::UsLegalTablespoon | Self::MetricTablespoon => (15, 1),
            Self::UsLegalTeaspoon | Self::MetricTeaspoon => (5, 1),
            Self::ImperialGallon => (454_609, 100),
            Self::ImperialQuart => (454_609, 400),
            Self::ImperialPint => (454_609, 800),
            Self::ImperialFluidOunce => (454_609, 16_000),
            Self::MetricCup => (250, 1),
            Self::JapaneseCup => (200, 1),
            Self::AustralianTablespoon => (20, 1),
            Self::MetricDessertspoon => (10, 1),
            Self::Pound => (45_359_237, 100_000),
            Self::Ounce => (45_359_237, 1_600_000),
            Self::TroyOunce => (311_034_768, 10_000_000),
            Self::Grain => (6_479_891, 100_000_000),
        }
    }

    /// What the unit measures.
    #[must_use]
    pub const fn dimension(self) -> Dimension {
        match self {
            Self::UsGallon
            | Self::UsQuart
            | Self::UsPint
            | Self::UsCup
            | Self::UsFluidOunce
            | Self::UsTablespoon
            | Self::UsTeaspoon
            | Self::UsLegalCup
            | Self::UsLegalFluidOunce
            | Self::UsLegalTablespoon
            | Self::UsLegalTeaspoon
            | Self::ImperialGallon
            | Self::ImperialQuart
            | Self::ImperialPint
            | Self::ImperialFluidOunce
            | Self::MetricCup
            | Self::JapaneseCup
            | Self::AustralianTablespoon
            | Self::MetricTablespoon
            | Self::MetricDessertspoon
            | Self::MetricTeaspoon => Dimension::Volume,
            Self::Pound | Self::Ounce | Self::TroyOunce | Self::Grain => Dimension::Mass,
        }
    }

    /// Millilitres or grams in one: the fraction, rounded once.
    #[must_use]
    #[expect(
        clippy::as_conversions,
        reason = "const, and every numerator and denominator is far below 2^53, so exact"
    )]
    pub const fn si(self) -> f64 {
        let (numerator, denominator) = self.fraction();
        numerator as f64 / denominator as f64
    }

    /// How many of this unit make one of `other`, as a fraction in lowest terms; `None` between room and weight.
    #[must_use]
    pub fn in_one(self, other: Self) -> Option<(u128, u128)> {
        if self.dimension() != other.dimension() {
            return None;
        }
        let ((own_above, own_below), (above, below)) = (self.fraction(), other.fraction());
        let numerator = u128::from(above).saturating_mul(u128::from(own_below)); // below 2^128
        let denominator = u128::from(below).saturating_mul(u128::from(own_above));
        let common = greatest_common_divisor(numerator, denominator);
        Some((numerator.checked_div(common)?, denominator.checked_div(common)?))
    }

    /// The name a dyer reads.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::UsGallon => msg!("US gallon"),
            Self::UsQuart => msg!("US quart"),
            Self::UsPint => msg!("US pint"),
            Self::UsCup => msg!("US cup"),
            Self::UsFluidOunce => msg!("US fluid ounce"),
            Self::UsTablespoon => msg!("US tablespoon"),
            Self::UsTeaspoon => msg!("US teaspoon"),
            Self::UsLegalCup => msg!("US label cup"),
            Self::UsLegalFluidOunce => msg!("US label fluid ounce"),
            Self::UsLegalTablespoon => msg!("US label tablespoon"),
            Self::UsLegalTeaspoon => msg!("US label teaspoon"),
            Self::ImperialGallon => msg!("imperial gallon"),
            Self::ImperialQuart => msg!("imperial quart"),
            Self::ImperialPint => msg!("imperial pint"),
            Self::ImperialFluidOunce => msg!("imperial fluid ounce"),
            Self::MetricCup => msg!("metric cup"),
            Self::JapaneseCup => msg!("Japanese cup"),
            Self::AustralianTablespoon => msg!("Australian tablespoon"),
            Self::MetricTablespoon => msg!("metric tablespoon"),
            Self::MetricDessertspoon => msg!("metric dessertspoon"),
            Self::MetricTeaspoon => msg!("metric teaspoon"),
            Self::Pound => msg!("pound"),
            Self::Ounce => msg!("ounce"),
            Self::TroyOunce => msg!("troy ounce"),
            Self::Grain => msg!("grain"),
        }
    }
}

/// How a powder is ground or made, which decides how much of it a spoon holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Grade {
    /// The dyer doesn't know.
    Unknown,
    /// Flour-fine.
    Fine,
    /// Grains, crystals or lumps.
    Granular,
    /// Light: the fluffy sort of soda ash or chalk.
    Light,
    /// Dense: the heavy, sandy sort of soda ash.
    Dense,
}

/// Why no spoons are given.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum NoSpoons {
    /// A spoon of it can be twice another, and the dose matters.
    #[error("{what} is never measured by the spoon; weigh it")]
    Never {
        /// What it is, in words.
        what: &'static str,
    },
    /// Iron in a dose where a spoon's error harms the fibre.
    #[error("{grams:.2} g of iron is too little for a spoon; weigh it or measure a stock solution")]
    IronUnderFiveGrams {
        /// How much was wanted.
        grams: f64,
    },
    /// The two sorts differ by two.
    #[error("soda ash comes light and dense, and a spoon of one is two of the other; say which, or weigh it")]
    WhichSoda,
    /// The grade is none of this substance.
    #[error("{salt} is not known in this grade; weigh it", salt = .substance.name())]
    NoSuchGrade {
        /// What was to be measured.
        substance: Substance,
    },
    /// Nobody has told us its density.
    #[error("how much of {salt} a spoon holds is not known; weigh it", salt = .substance.name())]
    NotKnown {
        /// What was to be measured.
        substance: Substance,
    },
    /// A pound is no spoon.
    #[error("a {measure} is not a spoon or a cup", measure = .unit.name())]
    NotASpoon {
        /// What it was to be measured with.
        unit: KitchenUnit,
    },
    /// Less than a quarter of this spoon.
    #[error("{grams:.2} g is less than a quarter of a {measure}; weigh it", measure = .unit.name())]
    TooLittle {
        /// How much was wanted.
        grams: f64,
        /// What it was to be measured with.
        unit: KitchenUnit,
    },
}

/// Grams in one level spoon, as a band: always rough.
///
/// The published band of bulk densities, widened by 15 % either way for scooping (from memory; own spoons may do
/// worse).
///
/// # Errors
///
/// When the substance has no band, must not be spooned, or the unit is no spoon.
pub fn grams_per_spoon(
    substance: Substance,
    grade: Grade,
    spoon: KitchenUnit,
) -> Result<Band<Mass>, NoSpoons> {
    if !spoon.is_spoon() {
        return Err(NoSpoons::NotASpoon { unit: spoon });
    }
    let (low, high) = bulk_density(substance, grade)?;
    let grams = |density: f64| Mass::saturating_grams(density * spoon.si());
    Ok(Band {
        low: grams(low * (1.0 - SCOOPING)),
        likely: grams(f64::midpoint(low, high)),
        high: grams(high * (1.0 + SCOOPING)),
    })
}

/// How many level spoons hold an amount, as a band: always rough, and shown as such beside the scale weight.
///
/// # Errors
///
/// As [`grams_per_spoon`]; also iron under 5 g, and less than a quarter of a spoon.
pub fn spoons(
    substance: Substance,
    grade: Grade,
    amount: Mass,
    spoon: KitchenUnit,
) -> Result<Band<f64>, NoSpoons> {
    let grams = amount.grams();
    let is_iron = matches!(substance, Substance::FerrousSulfate7 | Substance::FerrousSulfate1);
    if is_iron && grams < IRON_BY_SPOON_GRAMS_MIN {
        return Err(NoSpoons::IronUnderFiveGrams { grams });
    }
    let per_spoon = grams_per_spoon(substance, grade, spoon)?;
    let likely = grams / per_spoon.likely.grams();
    if likely < 0.25 {
        return Err(NoSpoons::TooLittle { grams, unit: spoon });
    }
    Ok(Band {
        low: grams / per_spoon.high.grams(),
        likely,
        high: grams / per_spoon.low.grams(),
    })
}

/// Extracts are so strong and so light that a spoon says nothing: never by the spoon.
pub const NO_SPOONS_OF_EXTRACT: NoSpoons = NoSpoons::Never {
    what: msg!("extract"),
};

impl KitchenUnit {
    /// Whether powders are scooped with it.
    #[must_use]
    pub const fn is_spoon(self) -> bool {
        match self {
            Self::UsCup
            | Self::UsTablespoon
            | Self::UsTeaspoon
            | Self::UsLegalCup
            | Self::UsLegalTablespoon
            | Self::UsLegalTeaspoon
            | Self::MetricCup
            | Self::JapaneseCup
            | Self::AustralianTablespoon
            | Self::MetricTablespoon
            | Self::MetricDessertspoon
            | Self::MetricTeaspoon => true,
            Self::UsGallon
            | Self::UsQuart
            | Self::UsPint
            | Self::UsFluidOunce
            | Self::UsLegalFluidOunce
            | Self::ImperialGallon
            | Self::ImperialQuart
            | Self::ImperialPint
            | Self::ImperialFluidOunce
            | Self::Pound
            | Self::Ounce
            | Self::TroyOunce
            | Self::Grain => false,
        }
    }
}

const SCOOPING: f64 = 0.15;
const IRON_BY_SPOON_GRAMS_MIN: f64 = 5.0;

/// Grams per millilitre of the loose powder, low and high.
///
/// Alum, sulfate, chalk, bluestone, soda: bulk-material tables in lb/ft3, read. Cream of tartar: a teaspoon of
/// 3.0 g, the USDA's entry read second-hand. Iron sulfate, citric acid, sodium acetate, fluffy chalk: from memory.
fn bulk_density(substance: Substance, grade: Grade) -> Result<(f64, f64), NoSpoons> {
    let no_such_grade = Err(NoSpoons::NoSuchGrade { substance });
    let any_grade = |band| match grade {
        Grade::Unknown | Grade::Fine | Grade::Granular => Ok(band),
        Grade::Light | Grade::Dense => no_such_grade,
    };
    match substance {
        Substance::PotashAlum => match grade {
            Grade::Fine => Ok((0.721, 0.801)),
            Grade::Granular => Ok((0.801, 0.961)),
            Grade::Unknown => Ok((0.721, 0.961)),
            Grade::Light | Grade::Dense => no_such_grade,
        },
        Substance::AluminiumSulfate14
        | Substance::AluminiumSulfate16
        | Substance::AluminiumSulfate17
        | Substance::AluminiumSulfate18 => any_grade((0.721, 0.929)),
        Substance::CreamOfTartar => any_grade((0.609, 0.649)),
        Substance::SodaAsh => match grade {
            Grade::Light => Ok((0.432, 0.560)),
            Grade::Dense => Ok((0.880, 1.080)),
            Grade::Unknown | Grade::Fine | Grade::Granular => Err(NoSpoons::WhichSoda),
        },
        Substance::Chalk => match grade {
            Grade::Fine => Ok((1.050, 1.200)),
            Grade::Light => Ok((0.320, 0.720)),
            Grade::Unknown => Ok((0.320, 1.200)),
            Grade::Granular | Grade::Dense => no_such_grade,
        },
        Substance::CopperSulfate5 => any_grade((1.201, 1.522)),
        Substance::FerrousSulfate7 => any_grade((0.801, 1.201)),
        Substance::CitricAcid | Substance::CitricAcidMonohydrate => any_grade((0.770, 0.950)),
        Substance::SodiumAcetate => any_grade((0.400, 0.900)),
        Substance::BakingSoda => any_grade((0.881, 0.933)),
        Substance::TannicAcid => Err(NoSpoons::Never { what: msg!("tannin") }),
        Substance::TinChloride2 => Err(NoSpoons::Never { what: msg!("tin") }),
        Substance::AmmoniumAlum
        | Substance::SodaAlum
        | Substance::BurntAlum
        | Substance::AluminiumTriacetate
        | Substance::AluminiumMonoacetate
        | Substance::AluminiumDiacetate
        | Substance::SodiumAcetateTrihydrate
        | Substance::CalciumAcetate
        | Substance::TartaricAcid
        | Substance::FerrousSulfate1
        | Substance::SodaMonohydrate
        | Substance::SodaCrystals
        | Substance::SlakedLime
        | Substance::NeutralSoap
        | Substance::NeutralDetergent
        | Substance::WheatBran
        | Substance::Fructose
        | Substance::Vinegar
        | Substance::Salt
        | Substance::ZincDust
        | Substance::SodiumHydrosulphite => Err(NoSpoons::NotKnown { substance }),
    }
}

fn greatest_common_divisor(one: u128, other: u128) -> u128 {
    let (mut large, mut small) = (one, other);
    while let Some(rest) = large.checked_rem(small) {
        (large, small) = (small, rest);
    }
    large
}
