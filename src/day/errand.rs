//! An errand: what hands have to do at one pot at one time, and for how long.

use crate::craft::quantity::Band;
use crate::craft::time::Span;
use crate::sheet::plan::StepAct;

/// What hands do at a pot.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
#[expect(missing_docs, reason = "the trade's own words")]
pub enum Errand {
    WetOut,
    Weigh,
    Fill,
    Dissolve,
    Add,
    Strain,
    Enter,
    Turn,
    Look,
    /// The end of a hold.
    HeatOff,
    Lift,
    Squeeze,
    Rinse,
    /// Hanging up to dry.
    Hang,
    Shelve,
}

/// One pot turned: common practice, no source.
pub(super) const TURN: Span = Span::from_minutes(2);

/// A look at the bath, with the thermometer or without: common practice, no source.
pub(super) const LOOK: Span = Span::from_minutes(1);

/// The burner put out: common practice, no source.
pub(super) const HEAT_OFF: Span = Span::from_minutes(1);

/// Goods lifted out of a vat after a dip: common practice, no source.
pub(super) const LIFT_FROM_VAT: Span = Span::from_minutes(1);

/// Goods hung up to dry: common practice, no source.
pub(super) const HANG: Span = Span::from_minutes(2);

impl Errand {
    /// Every errand, in the order a bath usually meets them.
    pub const ALL: [Self; 15] = [
        Self::WetOut,
        Self::Weigh,
        Self::Fill,
        Self::Dissolve,
        Self::Add,
        Self::Strain,
        Self::Enter,
        Self::Turn,
        Self::Look,
        Self::HeatOff,
        Self::Lift,
        Self::Squeeze,
        Self::Rinse,
        Self::Hang,
        Self::Shelve,
    ];

    /// Whether it has to be done when it is due and can't be left half done. What can be laid down for another pot and
    /// taken up again meets nothing: weighing waits for a turn, an entering doesn't. Common practice, no source.
    #[must_use]
    pub const fn keeps_its_time(self) -> bool {
        match self {
            Self::Add | Self::Strain | Self::Enter | Self::Turn | Self::Look | Self::HeatOff | Self::Lift => {
                true
            }
            Self::WetOut
            | Self::Weigh
            | Self::Fill
            | Self::Dissolve
            | Self::Squeeze
            | Self::Rinse
            | Self::Hang
            | Self::Shelve => false,
        }
    }

    /// What a step is for the hands from its beginning to its end; `None` for one that mostly waits.
    #[must_use]
    pub const fn of_handiwork(act: &StepAct) -> Option<Self> {
        match act {
            StepAct::WetOut { .. } => Some(Self::WetOut),
            StepAct::Weigh { .. } => Some(Self::Weigh),
            StepAct::Fill { .. } => Some(Self::Fill),
            StepAct::Dissolve { .. } => Some(Self::Dissolve),
            StepAct::Add { .. } => Some(Self::Add),
            StepAct::Strain { .. } => Some(Self::Strain),
            StepAct::Enter { .. } => Some(Self::Enter),
            StepAct::Lift => Some(Self::Lift),
            StepAct::Squeeze => Some(Self::Squeeze),
            StepAct::Rinse { .. } => Some(Self::Rinse),
            StepAct::Shelve => Some(Self::Shelve),
            StepAct::Raise { .. }
            | StepAct::Hold { .. }
            | StepAct::Cool { .. }
            | StepAct::Look { .. }
            | StepAct::Dip { .. }
            | StepAct::Air { .. }
            | StepAct::Rest { .. }
            | StepAct::Dry => None,
        }
    }
}

/// An errand to come: when it begins, counted from one moment for all pots, and how long it takes the hands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Coming {
    /// What is done.
    pub errand: Errand,
    /// When it begins: at the soonest, likely, at the latest.
    pub begins: Band<Span>,
    /// How long it takes.
    pub hands: Span,
}

impl Coming {
    /// When the hands are likely free again.
    #[must_use]
    pub const fn ends(&self) -> Span {
        self.begins.likely.plus(self.hands)
    }

    /// The same errand when its bath begins so much later.
    #[must_use]
    pub const fn later(self, by: Span) -> Self {
        let Band { low, likely, high } = self.begins;
        Self {
            begins: Band {
                low: low.plus(by),
                likely: likely.plus(by),
                high: high.plus(by),
            },
            ..self
        }
    }

    /// How far it may be off, the larger way.
    #[must_use]
    pub fn give(&self) -> Span {
        let Band { low, likely, high } = self.begins;
        likely.less(low).max(high.less(likely))
    }
}
