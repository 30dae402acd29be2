//! What the shelf weighs, in whole milligrams: sums come out even, and a file says exactly what is meant.

use std::fmt;

use crate::craft::quantity::Mass;

/// A weight on the shelf, in whole milligrams, at most what a [`Mass`] can be.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct Milligrams(u64); // Invariant: at most MOST.

const PER_GRAM: u64 = 1_000;

impl Milligrams {
    /// Nothing.
    pub const NONE: Self = Self(0);
    /// The most, a metric ton.
    pub const MOST: Self = Self(1_000_000_000);

    /// A mass to the nearest milligram.
    #[must_use]
    #[expect(
        clippy::as_conversions,
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a mass is finite, not negative and far below 2^53 mg"
    )]
    pub fn of(mass: Mass) -> Self {
        Self((mass.grams() * 1_000.0).round() as u64).at_most(Self::MOST)
    }

    /// So many whole milligrams, at most [`Self::MOST`].
    #[must_use]
    pub fn from_count(count: u64) -> Self {
        Self(count).at_most(Self::MOST)
    }

    /// Whole milligrams.
    #[must_use]
    pub const fn count(self) -> u64 {
        self.0
    }

    /// The mass.
    #[must_use]
    #[expect(clippy::as_conversions, reason = "below 2^53, so exact")]
    pub fn mass(self) -> Mass {
        Mass::saturating_grams(self.0 as f64 / 1_000.0)
    }

    /// Whether it is nothing.
    #[must_use]
    pub const fn is_none(self) -> bool {
        self.0 == 0
    }

    /// The sum, or `None` when it is more than [`Self::MOST`].
    #[must_use]
    pub fn plus(self, other: Self) -> Option<Self> {
        let sum = Self(self.0.checked_add(other.0)?);
        (sum <= Self::MOST).then_some(sum)
    }

    /// What is left when `other` is taken away, or `None` when there is less than that.
    #[must_use]
    pub fn less(self, other: Self) -> Option<Self> {
        self.0.checked_sub(other.0).map(Self)
    }

    /// The lesser of two.
    #[must_use]
    pub fn at_most(self, other: Self) -> Self {
        self.min(other)
    }

    /// The bare number of grams, with as many decimals as are needed: for sentences that have the unit beside the
    /// hole, so that they can be said in another one.
    #[must_use]
    pub fn in_grams(self) -> String {
        let whole = self.0.checked_div(PER_GRAM).unwrap_or(0);
        let rest = self.0.checked_rem(PER_GRAM).unwrap_or(0);
        if rest == 0 {
            return whole.to_string();
        }
        let decimals = format!("{rest:03}");
        format!("{whole}.{}", decimals.trim_end_matches('0'))
    }

    /// The sum of many, or `None` when it is more than [`Self::MOST`].
    pub fn sum(weights: impl IntoIterator<Item = Self>) -> Option<Self> {
        weights.into_iter().try_fold(Self::NONE, Self::plus)
    }
}

impl fmt::Display for Milligrams {
    /// Grams with as many decimals as are needed: `500 g`, `14.8 g`, `0.125 g`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} g", self.in_grams())
    }
}
