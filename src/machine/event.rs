//! What has happened. Events are facts: applying one can't fail.

use std::sync::Arc;

use crate::craft::quantity::{Mass, Temperature};
use crate::craft::time::{Moment, Span};
use crate::sheet::plan::{Plan, StepIndex};

use super::call::CallKind;
use super::input::{ReturnAnswer, SkipReason};
use super::pot::PotNo;

/// A fact about one pot, with its moment.
#[derive(Debug, Clone, PartialEq)]
pub struct Event {
    /// When.
    pub at: Moment,
    /// Which pot.
    pub pot: PotNo,
    /// What.
    pub what: What,
}

impl Event {
    /// Whether this and the fact before it are steps left out by one tap, which ended a series of dips.
    #[must_use]
    pub fn is_of_one_skip(&self, before: &Self) -> bool {
        let are_skips = [self, before]
            .iter()
            .all(|event| matches!(event.what, What::StepSkipped { .. }));
        are_skips && self.at == before.at && self.pot == before.pot
    }
}

/// The facts there are.
#[derive(Debug, Clone, PartialEq)]
pub enum What {
    /// A bath was started; its cautions were read.
    BathBegun {
        /// The id under which it is kept.
        bath_id: String,
        /// What was computed.
        plan: Arc<Plan>,
    },
    /// A step was confirmed.
    StepDone {
        /// Which.
        step: StepIndex,
        /// With what figure.
        done: Done,
    },
    /// A step was left out, or ended early.
    StepSkipped {
        /// Which.
        step: StepIndex,
        /// Why.
        reason: SkipReason,
    },
    /// The goods were turned.
    Turned {
        /// In which hold.
        step: StepIndex,
        /// The reminder it answers; 0 for a turn between reminders.
        number: u32,
    },
    /// A turn reminder passed without a turn.
    TurnMissed {
        /// In which hold.
        step: StepIndex,
        /// Which reminder.
        number: u32,
    },
    /// The thermometer said this.
    ReadingTaken {
        /// The reading.
        temperature: Temperature,
    },
    /// The sign that was looked for wasn't there.
    NotYet {
        /// At which look.
        step: StepIndex,
        /// How often by now, from 1.
        number: u32,
    },
    /// The bath fell below the hold's floor: the hold stopped counting.
    HoldDropped {
        /// Which hold.
        step: StepIndex,
    },
    /// The bath is back at temperature: the hold counts on.
    HoldResumed {
        /// Which hold.
        step: StepIndex,
    },
    /// The last confirmed act was taken back. It stays in the record as such.
    TakenBack,
    /// A call began.
    CallRaised {
        /// Why.
        call: CallKind,
    },
    /// The dyer heard the calls of this pot.
    CallsHeard,
    /// A minute passed with the program here.
    Beat,
    /// The program came back.
    Returned {
        /// Away at least this long.
        at_least: Span,
        /// And at most this long, if known.
        at_most: Option<Span>,
    },
    /// The dyer answered the return card.
    ReturnAnswered {
        /// How.
        answer: ReturnAnswer,
    },
    /// The bath was ended before its last step.
    BathStopped,
    /// The bath went to its end.
    BathClosed,
}

/// With what figure a step was confirmed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Done {
    /// By a firm tap, as planned.
    AsPlanned,
    /// With the scale's reading.
    Weighed(Mass),
    /// With the thermometer's reading.
    Read(Temperature),
    /// By a firm tap although it was early; the dyer was asked.
    Early,
}
