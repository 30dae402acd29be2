//! The steps laid on the clock: bands add up as independent spreads, not as worst cases on worst cases.

use crate::craft::quantity::{Band, Temperature};
use crate::craft::time::Span;

use super::bath_sheet::Leg;
use super::plan::{Step, StepAct, StepIndex};

/// A moment on the sheet's clock with its spread, in minutes: the likely value and the squared half-widths.
#[derive(Debug, Clone, Copy, Default)]
struct Spread {
    likely: f64,
    below: f64,
    above: f64,
}

impl Spread {
    fn then(self, length: Band<Span>) -> Self {
        let likely = length.likely.minutes();
        Self {
            likely: self.likely + likely,
            below: self.below + (likely - length.low.minutes()).powi(2),
            above: self.above + (length.high.minutes() - likely).powi(2),
        }
    }

    /// Not before that moment.
    fn not_before(self, least: Self) -> Self {
        if least.likely > self.likely { least } else { self }
    }

    fn band(self) -> Band<Span> {
        Band {
            low: Span::from_fractional_minutes(self.likely - self.below.sqrt()),
            likely: Span::from_fractional_minutes(self.likely),
            high: Span::from_fractional_minutes(self.likely + self.above.sqrt()),
        }
    }
}

/// When each step begins and ends, from the start of the bath. Entering waits for the soak that was started before.
#[must_use]
pub fn clock(steps: &[Step]) -> Vec<(Band<Span>, Band<Span>)> {
    let mut clock = Spread::default();
    let mut soaked: Option<Spread> = None;
    let mut times = Vec::new();
    for step in steps {
        let begins = clock;
        if let StepAct::Enter { .. } = step.act
            && let Some(soaked) = soaked.take()
        {
            clock = clock.not_before(soaked);
        }
        clock = clock.then(step.usual);
        if let StepAct::WetOut { least } = step.act {
            soaked = Some(clock.then(Band {
                low: least,
                likely: least,
                high: least,
            }));
        }
        times.push((begins.band(), clock.band()));
    }
    times
}

/// The steps with their times and the bath's temperatures.
pub(super) fn lay(steps: &[Step], temperatures: &[(Temperature, Temperature)]) -> Vec<Leg> {
    clock(steps)
        .into_iter()
        .zip(temperatures)
        .enumerate()
        .map(|(index, ((begins, ends), (from, to)))| Leg {
            step: StepIndex(index),
            begins,
            ends,
            from: *from,
            to: *to,
        })
        .collect()
}
