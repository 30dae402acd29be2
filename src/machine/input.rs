//! What can be asked of the machine. Asking may be refused.

use std::sync::Arc;

use crate::craft::quantity::{Mass, Temperature};
use crate::craft::time::Span;
use crate::sheet::plan::{Plan, StepIndex};

use super::pot::PotNo;

/// Something asked of the machine.
#[derive(Debug, Clone, PartialEq)]
pub enum Input {
    /// Start a bath in a pot that has none going.
    Begin {
        /// Which pot.
        pot: PotNo,
        /// The id under which the bath is kept.
        bath_id: String,
        /// What was computed.
        plan: Arc<Plan>,
        /// Whether the cautions were read and tapped.
        cautions_read: bool,
    },
    /// Something asked of one pot.
    Pot(PotNo, Ask),
    /// The goods of every pot whose turn is called were turned.
    TurnRound,
    /// Time has passed: raise what is due.
    Tick,
    /// A minute has passed: note that the program is still here.
    Beat,
    /// The program is back after it was away for a time known only within bounds.
    Returned {
        /// It was away at least this long.
        at_least: Span,
        /// And at most this long, if that is known.
        at_most: Option<Span>,
    },
}

/// Something asked of one pot.
#[derive(Debug, Clone, PartialEq)]
pub enum Ask {
    /// A firm tap on the slab of a step.
    Confirm {
        /// The step that was on the screen when the tap began.
        step: StepIndex,
        /// The dyer was asked and is sure.
        sure: bool,
    },
    /// What the scale said.
    Weighed {
        /// The weighing step.
        step: StepIndex,
        /// The scale's reading.
        mass: Mass,
        /// The dyer was asked about a reading far off and keeps it.
        sure: bool,
    },
    /// What the thermometer said.
    Reading(Temperature),
    /// The sign that is looked for isn't there.
    NotYet {
        /// The step that was on the screen.
        step: StepIndex,
    },
    /// The bath dropped: back to heating.
    BackToRaise,
    /// Leave a step out, or end it early.
    Skip {
        /// Which step.
        step: StepIndex,
        /// Why.
        reason: SkipReason,
    },
    /// Undo the last confirmed act.
    TakeBack,
    /// The call was heard; quiet for a while.
    Heard,
    /// Answer to the return card.
    AnswerReturn(ReturnAnswer),
    /// End the bath here.
    Stop,
}

/// Why a step is left out. A list to pick from, so that nothing is typed with wet gloves.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum SkipReason {
    /// It isn't needed this time.
    NotNeeded,
    /// What it needs isn't here.
    NotAtHand,
    /// It was done already, or elsewhere.
    DoneAlready,
    /// The goods say it is enough.
    EnoughByEye,
    /// No time left.
    NoTime,
}

impl SkipReason {
    /// Every reason, in the order offered.
    pub const ALL: [Self; 5] = [
        Self::NotNeeded,
        Self::EnoughByEye,
        Self::DoneAlready,
        Self::NotAtHand,
        Self::NoTime,
    ];

    /// The id in the record.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::NotNeeded => "not-needed",
            Self::NotAtHand => "not-at-hand",
            Self::DoneAlready => "done-already",
            Self::EnoughByEye => "enough-by-eye",
            Self::NoTime => "no-time",
        }
    }
}

/// What the dyer says when the program is back.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum ReturnAnswer {
    /// Go on from here; the time away isn't counted.
    CarryOn,
    /// The heat stayed on: the time away counts, on the dyer's word.
    CountIt,
    /// Start the hold anew.
    HoldAgain,
    /// The bath has dropped: back to heating.
    BackToRaise,
}

impl ReturnAnswer {
    /// The id in the record.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::CarryOn => "carry-on",
            Self::CountIt => "count-it",
            Self::HoldAgain => "hold-again",
            Self::BackToRaise => "back-to-raise",
        }
    }
}
