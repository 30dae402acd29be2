//! The units and the clock a dyer is used to. What is computed and what is recorded stays metric.

/// What weights are shown in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[expect(missing_docs, reason = "the names say which")]
pub enum Weights {
    #[default]
    Grams,
    Ounces,
}

/// What temperatures are shown in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[expect(missing_docs, reason = "the names say which")]
pub enum Temperatures {
    #[default]
    Celsius,
    Fahrenheit,
}

/// What liquor is shown in. With gallons go inches and feet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[expect(missing_docs, reason = "the names say which")]
pub enum Volumes {
    #[default]
    Litres,
    UsGallons,
    ImperialGallons,
}

/// How the clock is read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Hours {
    /// `14:32`
    #[default]
    TwentyFour,
    /// `2:32 pm`
    Twelve,
}

/// All of these together.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Habits {
    /// Weights.
    pub weights: Weights,
    /// Temperatures.
    pub temperatures: Temperatures,
    /// Volumes, depths and heights.
    pub volumes: Volumes,
    /// The clock.
    pub hours: Hours,
}

impl Habits {
    /// Grams, degrees Celsius, litres, a day of 24 hours.
    pub const METRIC: Self = Self {
        weights: Weights::Grams,
        temperatures: Temperatures::Celsius,
        volumes: Volumes::Litres,
        hours: Hours::TwentyFour,
    };

    /// Ounces, degrees Fahrenheit, US gallons, twice twelve hours.
    pub const UNITED_STATES: Self = Self {
        weights: Weights::Ounces,
        temperatures: Temperatures::Fahrenheit,
        volumes: Volumes::UsGallons,
        hours: Hours::Twelve,
    };
}
