//! Why the machine says no, or asks first. Nothing has changed when it does.

use crate::craft::quantity::{Mass, Temperature};
use crate::craft::time::Span;
use crate::sheet::plan::StepIndex;

use super::pot::PotNo;

/// Why an input wasn't taken.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum Refusal {
    /// There is no bath in that pot.
    #[error("pot {number} has no bath going; begin one from the stove", number = .pot.0)]
    NoBath {
        /// Which pot.
        pot: PotNo,
    },
    /// The pot is taken.
    #[error("pot {number} has a bath going; finish or stop it first", number = .pot.0)]
    PotTaken {
        /// Which pot.
        pot: PotNo,
    },
    /// Cautions first.
    #[error("the cautions of this bath haven't been read; read them and tap firmly")]
    CautionsUnread,
    /// The step on the screen isn't the current one any more.
    #[error("step {number} is done already; the screen has moved on", number = .step.0.saturating_add(1))]
    StepGone {
        /// The step that was tapped.
        step: StepIndex,
    },
    /// This step isn't one that is weighed.
    #[error("nothing is weighed in step {number}", number = .step.0.saturating_add(1))]
    NotWeighing {
        /// The step.
        step: StepIndex,
    },
    /// The reading is far from the target. Ask, then send it again as sure.
    #[error("{weight:.2} g is far from {planned:.2} g; weigh again, or keep it", weight = .read.grams(), planned = .target.grams())]
    FarOff {
        /// What the scale said.
        read: Mass,
        /// What was planned.
        target: Mass,
    },
    /// The goods haven't soaked long enough. Ask, then send it again as sure.
    #[error("soaked {minutes:.0} of {all:.0} min; dry spots take the dye unevenly", minutes = .soaked.minutes(), all = .least.minutes())]
    NotSoaked {
        /// How long they have.
        soaked: Span,
        /// How long they should.
        least: Span,
    },
    /// Much earlier than the plan expects. Ask, then send it again as sure.
    #[error("only {minutes:.0} min so far; expected after {least:.0} min at the earliest", minutes = .after.minutes(), least = .earliest.minutes())]
    Early {
        /// How long it has been.
        after: Span,
        /// The early end of the expectation.
        earliest: Span,
    },
    /// The hold isn't over. It can be ended early with a reason.
    #[error("the hold has {minutes:.0} min to go; to end it early, skip it with a reason", minutes = .left.minutes().ceil())]
    HoldRunning {
        /// What is left of it.
        left: Span,
    },
    /// This only makes sense inside a hold.
    #[error("there is no hold going in this pot")]
    NoHold,
    /// Nothing is looked for in this step.
    #[error("no sign is looked for in step {number}", number = .step.0.saturating_add(1))]
    NoSign {
        /// The step.
        step: StepIndex,
    },
    /// There is nothing to undo.
    #[error("there is nothing to take back in this pot")]
    NothingToTakeBack,
    /// No pot calls for a turn.
    #[error("no pot calls for a turn just now")]
    NoTurnCalled,
    /// The return card waits for an answer.
    #[error("the program was away; answer the card of pot {number} first", number = .pot.0)]
    ReturnUnanswered {
        /// Which pot.
        pot: PotNo,
    },
    /// No return card is shown.
    #[error("no question about an outage is open for this pot")]
    NothingToAnswer,
    /// The reading can't be of this bath.
    #[error("{heat:.0} C is above the boil here ({here:.1} C); read again", heat = .read.celsius(), here = .boil.celsius())]
    AboveBoil {
        /// The reading.
        read: Temperature,
        /// Where water boils here.
        boil: Temperature,
    },
}

impl Refusal {
    /// Whether the same input may be sent again as sure.
    #[must_use]
    pub const fn can_be_sure(&self) -> bool {
        match self {
            Self::FarOff { .. } | Self::NotSoaked { .. } | Self::Early { .. } => true,
            Self::NoBath { .. }
            | Self::PotTaken { .. }
            | Self::CautionsUnread
            | Self::StepGone { .. }
            | Self::NotWeighing { .. }
            | Self::HoldRunning { .. }
            | Self::NoHold
            | Self::NoSign { .. }
            | Self::NothingToTakeBack
            | Self::NoTurnCalled
            | Self::ReturnUnanswered { .. }
            | Self::NothingToAnswer
            | Self::AboveBoil { .. } => false,
        }
    }
}
