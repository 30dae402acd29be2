//! The meanings a sound can have.

/// What a sound means. The sound itself is a file in `sounds/`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Chime {
    /// Turn the goods.
    Turn,
    /// An act of yours is due.
    Due,
    /// Look: has it reached temperature?
    Look,
    /// Ready: the hold is over, or the bath is cool enough.
    Ready,
    /// Come now.
    Urgent,
    /// A firm tap was saved.
    Accepted,
}

impl Chime {
    /// Every meaning.
    pub const ALL: [Self; 6] = [
        Self::Turn,
        Self::Due,
        Self::Look,
        Self::Ready,
        Self::Urgent,
        Self::Accepted,
    ];

    /// The id: the name of its file, and what a rehearsal prints.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::Turn => "turn",
            Self::Due => "due",
            Self::Look => "look",
            Self::Ready => "ready",
            Self::Urgent => "urgent",
            Self::Accepted => "accepted",
        }
    }
}
