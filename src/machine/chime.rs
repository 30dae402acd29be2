//! The six meanings a sound can have. What each one sounds like is the shell's business; here is only what it says.

use crate::msg;

/// One meaning, one sound. Every chime has a twin on the screen, so that nothing is said by sound alone.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Chime {
    /// Turn the goods.
    Turn,
    /// An act of the dyer's is due.
    Due,
    /// Look whether the bath has reached its temperature.
    Look,
    /// The hold is over, or the bath is cool enough to lift from.
    Ready,
    /// Within a minute: heat left unattended, a hold over its limit, a session that isn't being saved.
    Urgent,
    /// A firm tap has been saved.
    Accepted,
}

impl Chime {
    /// Every meaning, in the order of the words above.
    pub const ALL: [Self; 6] = [
        Self::Turn,
        Self::Due,
        Self::Look,
        Self::Ready,
        Self::Urgent,
        Self::Accepted,
    ];

    /// The word used in file names, in the record and in what `rehearse` prints.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Turn => "turn",
            Self::Due => "due",
            Self::Look => "look",
            Self::Ready => "ready",
            Self::Urgent => "urgent",
            Self::Accepted => "accepted",
        }
    }

    /// What it says, in words for the dyer.
    #[must_use]
    pub const fn meaning(self) -> &'static str {
        match self {
            Self::Turn => msg!("turn the goods"),
            Self::Due => msg!("an act of yours is due"),
            Self::Look => msg!("look: has it reached temperature?"),
            Self::Ready => msg!("ready: the hold is over, or the bath is cool enough"),
            Self::Urgent => msg!("urgent: go to the pot now"),
            Self::Accepted => msg!("your tap is saved"),
        }
    }

    /// How soon it wants hands. The greater sounds first.
    #[must_use]
    pub const fn haste(self) -> Haste {
        match self {
            Self::Accepted => Haste::Answer,
            Self::Turn => Haste::InItsWindow,
            Self::Due | Self::Look | Self::Ready => Haste::WithinFiveMinutes,
            Self::Urgent => Haste::WithinOneMinute,
        }
    }
}

/// How soon a sound wants hands, the least pressing first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Haste {
    /// It answers a tap and wants nothing; late, it would mislead.
    Answer,
    /// Within the window of the turn.
    InItsWindow,
    /// Within five minutes.
    WithinFiveMinutes,
    /// Within one minute.
    WithinOneMinute,
}
