//! How long the handiwork of a step usually takes: common practice, no source. Only clock times and rehearsals
//! use it; in a real bath the hands decide.

use crate::craft::quantity::Band;
use crate::craft::time::Span;

use super::plan::StepAct;

/// The usual length of a step's handiwork; for heat and waits, the computed or asked span.
pub(super) fn usual(act: &StepAct) -> Band<Span> {
    match act {
        StepAct::WetOut { .. } => minutes(1, 2, 5),
        StepAct::Weigh { .. } => minutes(1, 3, 5),
        StepAct::Fill { .. } => minutes(2, 5, 8),
        StepAct::Dissolve { .. } => minutes(2, 5, 10),
        StepAct::Add { .. } => minutes(1, 2, 3),
        StepAct::Strain { .. } => minutes(2, 5, 10),
        StepAct::Enter { .. } => minutes(1, 3, 5),
        StepAct::Raise { come_up, .. } => come_up.unwrap_or(even(Span::NONE)),
        StepAct::Hold { span, .. } => even(*span),
        StepAct::Cool { cool_down, .. } => cool_down.unwrap_or(even(Span::NONE)),
        StepAct::Lift => minutes(1, 3, 5),
        StepAct::Squeeze => minutes(1, 3, 5),
        StepAct::Rinse { times, .. } => {
            let each = |span: u64| Span::from_minutes(span.saturating_mul(u64::from((*times).max(1))));
            Band {
                low: each(3),
                likely: each(5),
                high: each(8),
            }
        }
        StepAct::Air { span } | StepAct::Rest { span } | StepAct::Dip { under: span, .. } => even(*span),
        StepAct::Look { after, again, .. } => Band {
            low: *after,
            likely: *after,
            high: after.plus(*again).plus(*again),
        },
        StepAct::Dry => minutes(12 * 60, 24 * 60, 48 * 60),
        StepAct::Shelve => minutes(1, 3, 5),
    }
}

const fn minutes(low: u64, likely: u64, high: u64) -> Band<Span> {
    Band {
        low: Span::from_minutes(low),
        likely: Span::from_minutes(likely),
        high: Span::from_minutes(high),
    }
}

const fn even(span: Span) -> Band<Span> {
    Band {
        low: span,
        likely: span,
        high: span,
    }
}
