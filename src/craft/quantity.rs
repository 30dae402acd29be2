//! Quantities as types that can't hold nonsense: every value is finite and inside a range a kitchen could meet.
//!
//! Text is turned into quantities in [`super::reading`]; how they are shown belongs to the view.

use std::fmt;

use crate::msg;

/// A number that is not a quantity of its kind: not finite, or outside what a dye kitchen could meet.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[error("{value} {unit} is not a {what}; a {what} is {low} to {high} {unit}")]
pub struct OutOfRange {
    /// The kind of quantity, in words.
    pub what: &'static str,
    /// The number that was offered.
    pub value: f64,
    /// The unit of `value`, `low` and `high`.
    pub unit: &'static str,
    /// The least value of this kind.
    pub low: f64,
    /// The greatest value of this kind.
    pub high: f64,
}

macro_rules! quantity {
    ($(#[$doc:meta])* $name:ident, $what:expr, $unit:literal, $low:literal ..= $high:literal,
     $from:ident, $saturating:ident, $get:ident) => {
        $(#[$doc])*
        #[derive(Clone, Copy, PartialEq, PartialOrd)]
        pub struct $name(f64); // Invariant: finite, within LOW..=HIGH.

        impl $name {
            /// The least value of this kind.
            pub const LOW: f64 = $low;
            /// The greatest value of this kind.
            pub const HIGH: f64 = $high;

            /// The quantity, or why the number is none. A negative zero is a zero.
            pub fn $from(value: f64) -> Result<Self, OutOfRange> {
                if value.is_finite() && (Self::LOW..=Self::HIGH).contains(&value) {
                    Ok(Self(value + 0.0))
                } else {
                    Err(OutOfRange { what: $what, value, unit: $unit, low: Self::LOW, high: Self::HIGH })
                }
            }

            /// The result of a sum whose inputs were quantities: brought to the edge of the range if it left it.
            #[must_use]
            pub const fn $saturating(value: f64) -> Self {
                if value > Self::HIGH { Self(Self::HIGH) }
                else if value >= Self::LOW { Self(value) }
                else { Self(Self::LOW) }
            }

            /// The number in the unit of the name.
            #[must_use]
            pub const fn $get(self) -> f64 {
                self.0
            }

            /// The lesser of two.
            #[must_use]
            pub fn least(self, other: Self) -> Self {
                if other.0 < self.0 { other } else { self }
            }

            /// The greater of two.
            #[must_use]
            pub fn most(self, other: Self) -> Self {
                if other.0 > self.0 { other } else { self }
            }
        }

        impl fmt::Debug for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                write!(f, "{} {}", self.0, $unit)
            }
        }
    };
}

quantity!(
    /// A mass, in grams.
    Mass, msg!("weight"), "g", 0.0 ..= 1_000_000.0, from_grams, saturating_grams, grams
);
quantity!(
    /// A volume, in litres.
    Volume, msg!("volume"), "L", 0.0 ..= 10_000.0, from_litres, saturating_litres, litres
);
quantity!(
    /// Percent of the dry weight of fibre.
    PercentWof, msg!("percentage of the fibre weight"), "% WOF", 0.0 ..= 2_000.0, from_percent, saturating_percent, percent
);
quantity!(
    /// A concentration in the bath, in grams per litre.
    Concentration, msg!("concentration"), "g/L", 0.0 ..= 1_000.0, from_grams_per_litre, saturating_grams_per_litre, grams_per_litre
);
quantity!(
    /// Litres of bath per kilogram of dry goods.
    LiquorRatio, msg!("liquor ratio"), "L/kg", 1.0 ..= 500.0, from_litres_per_kg, saturating_litres_per_kg, litres_per_kg
);
quantity!(
    /// A temperature of a bath or a room, in degrees Celsius.
    Temperature, msg!("temperature"), "C", -30.0 ..= 130.0, from_celsius, saturating_celsius, celsius
);
quantity!(
    /// A length, in centimetres.
    Length, msg!("length"), "cm", 0.0 ..= 1_000.0, from_centimetres, saturating_centimetres, centimetres
);
quantity!(
    /// Height above the sea, in metres.
    Altitude, msg!("altitude"), "m", -430.0 ..= 6_000.0, from_metres, saturating_metres, metres
);
quantity!(
    /// Air pressure at the place itself, in hectopascals.
    Pressure, msg!("station pressure"), "hPa", 450.0 ..= 1_100.0, from_hectopascals, saturating_hectopascals, hectopascals
);
quantity!(
    /// A heating power, in watts.
    Power, msg!("power"), "W", 0.0 ..= 100_000.0, from_watts, saturating_watts, watts
);
quantity!(
    /// How fast a bath is allowed to warm, in kelvin per minute.
    Ramp, msg!("ramp"), "C/min", 0.05 ..= 50.0, from_kelvin_per_minute, saturating_kelvin_per_minute, kelvin_per_minute
);

/// Three values of one quantity: one in ten is below `low`, one in ten above `high`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Band<T> {
    /// The 10 % value.
    pub low: T,
    /// The middle value.
    pub likely: T,
    /// The 90 % value.
    pub high: T,
}

impl<T> Band<T> {
    /// The same band of another quantity.
    pub fn map<U>(self, mut to: impl FnMut(T) -> U) -> Band<U> {
        Band {
            low: to(self.low),
            likely: to(self.likely),
            high: to(self.high),
        }
    }
}
