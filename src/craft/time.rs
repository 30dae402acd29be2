//! Spans and moments. Integers of milliseconds; nothing here can ask what time it is.

/// A length of time, in milliseconds, never negative.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct Span {
    ms: u64,
}

impl Span {
    /// No time at all.
    pub const NONE: Self = Self { ms: 0 };

    /// A span of whole milliseconds.
    #[must_use]
    pub const fn from_ms(ms: u64) -> Self {
        Self { ms }
    }

    /// A span of whole seconds.
    #[must_use]
    pub const fn from_seconds(seconds: u64) -> Self {
        Self {
            ms: seconds.saturating_mul(1_000),
        }
    }

    /// A span of whole minutes.
    #[must_use]
    pub const fn from_minutes(minutes: u64) -> Self {
        Self::from_seconds(minutes.saturating_mul(60))
    }

    /// A computed number of minutes, rounded to the nearest millisecond; nothing below zero, NaN is zero.
    #[must_use]
    #[expect(
        clippy::as_conversions,
        reason = "a float to integer `as` saturates and takes NaN to zero, as the doc says"
    )]
    pub fn from_fractional_minutes(minutes: f64) -> Self {
        Self {
            ms: (minutes * 60_000.0).round() as u64,
        }
    }

    /// Whole milliseconds.
    #[must_use]
    pub const fn ms(self) -> u64 {
        self.ms
    }

    /// Minutes with their fraction, exact for spans below some thousand years.
    #[must_use]
    #[expect(
        clippy::as_conversions,
        reason = "there is no lossless From<u64> for f64; below 2^53 ms it is exact"
    )]
    pub fn minutes(self) -> f64 {
        self.ms as f64 / 60_000.0
    }

    /// The sum of two spans.
    #[must_use]
    pub const fn plus(self, other: Self) -> Self {
        Self {
            ms: self.ms.saturating_add(other.ms),
        }
    }

    /// The shorter of two spans.
    #[must_use]
    pub fn least(self, other: Self) -> Self {
        self.min(other)
    }

    /// What is left when `other` is taken away, at least nothing.
    #[must_use]
    pub const fn less(self, other: Self) -> Self {
        Self {
            ms: self.ms.saturating_sub(other.ms),
        }
    }
}

/// One awake run of the program. Steady times of two stretches can't be compared.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct Stretch(pub u32);

/// A moment as the keeper's clock gave it. Deadlines live on `steady`; `wall` only makes labels.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Moment {
    /// Which awake run of the program.
    pub stretch: Stretch,
    /// Milliseconds on a clock that can't be set and doesn't stop.
    pub steady_ms: u64,
    /// Milliseconds since 1970 in UTC, as the wall clock had it; it may be wrong and may step.
    pub wall_ms: i64,
}

impl Moment {
    /// How long after `earlier` this is: measured within one stretch, nothing across two.
    #[must_use]
    pub fn since(self, earlier: Self) -> Span {
        if self.stretch == earlier.stretch {
            Span::from_ms(self.steady_ms.saturating_sub(earlier.steady_ms))
        } else {
            Span::NONE
        }
    }

    /// The moment `span` later on the same stretch.
    #[must_use]
    pub fn plus(self, span: Span) -> Self {
        let wall = i64::try_from(span.ms()).unwrap_or(i64::MAX);
        Self {
            stretch: self.stretch,
            steady_ms: self.steady_ms.saturating_add(span.ms()),
            wall_ms: self.wall_ms.saturating_add(wall),
        }
    }
}
