//! Kitchen measures: exactly what each unit is, and roughly what a spoon of a powder weighs.

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
}
