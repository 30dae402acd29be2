//! How one dyer is spoken to: the language, the units, the clock. The only place where numbers are rounded, and the
//! only one where words are chosen.
//!
//! Everything to the left of the view speaks English, and so do records, exports and the terminal. What reaches the
//! glass goes through a [`Locale`]: [`say!`](crate::say) for words made here, [`Locale::read`] for sentences that
//! come from the left or out of a record.

mod catalogue;
mod clock;
mod degrees;
mod figures;
mod hole;
mod language;
mod measures;
mod read;
mod say;
mod unit;

pub use catalogue::Words;
pub(super) use clock::wall;
pub(crate) use figures::countdown;
pub use language::Language;
pub use measures::{Habits, Hours, Temperatures, Volumes, Weights};
pub use read::TYPED;

use chrono::FixedOffset;

/// How the words and figures on the glass are put.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Locale {
    /// The language.
    pub language: Language,
    /// The units and the clock.
    pub habits: Habits,
    /// The zone of the wall clock.
    pub zone: FixedOffset,
}

impl Locale {
    /// As the terminal and the records speak: English, metric, a day of 24 hours.
    #[must_use]
    pub const fn plain(zone: FixedOffset) -> Self {
        Self {
            language: Language::English,
            habits: Habits::METRIC,
            zone,
        }
    }
}
