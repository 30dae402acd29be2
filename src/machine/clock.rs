//! A running count of time that only a measured stretch can add to.

use crate::craft::time::{Moment, Span};

/// Time earned so far, and since when it is running.
///
/// An outage adds nothing by itself: the keeper's last record of the old stretch closes the account with
/// [`Served::settle`], and what the dyer then says may add to it with [`Served::credit`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Served {
    earned: Span,
    since: Option<Moment>,
}

impl Served {
    /// Starts counting at a moment.
    #[must_use]
    pub const fn from(moment: Moment) -> Self {
        Self {
            earned: Span::NONE,
            since: Some(moment),
        }
    }

    /// The time earned up to `now`.
    #[must_use]
    pub fn at(self, now: Moment) -> Span {
        match self.since {
            Some(since) => self.earned.plus(now.since(since)),
            None => self.earned,
        }
    }

    /// Whether it is counting.
    #[must_use]
    pub const fn is_running(self) -> bool {
        self.since.is_some()
    }

    /// Stops counting at a moment; what was earned stays.
    pub fn settle(&mut self, at: Moment) {
        self.earned = self.at(at);
        self.since = None;
    }

    /// Counts on from a moment; does nothing if it is counting already on that stretch.
    pub fn resume(&mut self, at: Moment) {
        if self.since.is_none_or(|since| since.stretch != at.stretch) {
            self.since = Some(at);
        }
    }

    /// The same for a count that was put aside: one that began before `awake_since`, when the program was last back
    /// from being away, has been through a time that nobody measured, and starts from the moment.
    pub fn resume_awake(&mut self, at: Moment, awake_since: Moment) {
        if self.since.is_some_and(|since| {
            since.stretch == awake_since.stretch && since.steady_ms < awake_since.steady_ms
        }) {
            self.since = None;
        }
        self.resume(at);
    }

    /// Adds a span that wasn't measured but stated.
    pub fn credit(&mut self, span: Span) {
        self.earned = self.earned.plus(span);
    }

    /// The moment at which `goal` will have been earned, or `None` while it isn't counting.
    #[must_use]
    pub fn reaches(self, goal: Span) -> Option<Moment> {
        self.since.map(|since| since.plus(goal.less(self.earned)))
    }
}
