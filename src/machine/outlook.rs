//! What lies ahead in one pot, for who shows it: the rules' own moments, so that no screen counts differently.

use crate::craft::time::{Moment, Span};

use super::pot::PotRun;
use super::rules::due;

impl PotRun {
    /// The number of the next turn reminder and its moment; `None` outside a hold, while the hold doesn't count, or
    /// when no more come.
    #[must_use]
    pub fn next_turn(&self) -> Option<(u32, Moment)> {
        let (span, turn_every) = due::hold_times(self)?;
        let number = due::next_turn(self.stand.hold?, span, turn_every)?;
        Some((number, due::next_turn_moment(self)?))
    }

    /// When the sign of the current step is to be looked for next; `None` where nothing is looked for.
    #[must_use]
    pub fn next_look(&self) -> Option<Moment> {
        due::next_look(self)
    }

    /// When the hold will have counted its whole span; `None` outside a hold or while it doesn't count.
    #[must_use]
    pub fn hold_over(&self) -> Option<Moment> {
        let (span, _) = due::hold_times(self)?;
        self.stand.hold?.held.reaches(span)
    }

    /// When the goods will have soaked long enough; `None` before they soak and once they are in the bath.
    #[must_use]
    pub fn soaked_at(&self) -> Option<Moment> {
        due::soaked_at(self)
    }
}

/// How far into a hold each turn reminder comes, in order.
#[must_use]
pub fn turns(span: Span, turn_every: Option<Span>) -> Vec<Span> {
    due::turns(span, turn_every)
}
