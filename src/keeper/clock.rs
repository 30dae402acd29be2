//! What the keeper asks of a clock: one glance at a time.

use crate::craft::time::{Moment, Span};
use crate::machine::away::WallClock;

/// One glance at the clocks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Look {
    /// The moment.
    pub now: Moment,
    /// How long the machine has slept since it was started. Only its growth counts; where the system doesn't tell,
    /// it stays at nothing and a sleep shows as a gap between two looks.
    pub slept: Span,
    /// How the wall clock is known.
    pub wall: WallClock,
}

/// A source of moments. The system's is in the shell, the simulated one in the tests.
pub trait Clock {
    /// One glance.
    fn look(&self) -> Look;

    /// The moment alone.
    fn now(&self) -> Moment {
        self.look().now
    }
}
