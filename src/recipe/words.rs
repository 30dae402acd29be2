//! The words a recipe file uses for closed choices, and the way back from word to choice.

use super::model::{Act, BathKind, Form, Letter, MordantNeed, Strength};
use std::fmt;

/// The kinds of step, without their figures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
#[expect(missing_docs, reason = "each is the act of the same name")]
pub enum ActKind {
    WetOut,
    Fill,
    Dissolve,
    Add,
    Strain,
    Enter,
    Raise,
    Hold,
    Cool,
    Look,
    Dip,
    Lift,
    Squeeze,
    Rinse,
    Air,
    Rest,
    Dry,
    Shelve,
}

impl ActKind {
    /// Every kind of step, in the usual order of a bath.
    pub const ALL: [Self; 18] = [
        Self::WetOut,
        Self::Fill,
        Self::Dissolve,
        Self::Add,
        Self::Strain,
        Self::Enter,
        Self::Raise,
        Self::Hold,
        Self::Cool,
        Self::Look,
        Self::Dip,
        Self::Lift,
        Self::Squeeze,
        Self::Rinse,
        Self::Air,
        Self::Rest,
        Self::Dry,
        Self::Shelve,
    ];

    /// The word after `do =` in a recipe file.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::WetOut => "wet-out",
            Self::Fill => "fill",
            Self::Dissolve => "dissolve",
            Self::Add => "add",
            Self::Strain => "strain",
            Self::Enter => "enter",
            Self::Raise => "raise",
            Self::Hold => "hold",
            Self::Cool => "cool",
            Self::Look => "look",
            Self::Dip => "dip",
            Self::Lift => "lift",
            Self::Squeeze => "squeeze",
            Self::Rinse => "rinse",
            Self::Air => "air",
            Self::Rest => "rest",
            Self::Dry => "dry",
            Self::Shelve => "shelve",
        }
    }

    /// The kind of step of a word.
    #[must_use]
    pub fn from_id(id: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|kind| kind.id() == id)
    }
}

impl Act {
    /// Which kind of step this is.
    #[must_use]
    pub const fn kind(&self) -> ActKind {
        match self {
            Self::WetOut { .. } => ActKind::WetOut,
            Self::Fill => ActKind::Fill,
            Self::Dissolve { .. } => ActKind::Dissolve,
            Self::Add { .. } => ActKind::Add,
            Self::Strain { .. } => ActKind::Strain,
            Self::Enter { .. } => ActKind::Enter,
            Self::Raise { .. } => ActKind::Raise,
            Self::Hold { .. } => ActKind::Hold,
            Self::Cool { .. } => ActKind::Cool,
            Self::Look { .. } => ActKind::Look,
            Self::Dip { .. } => ActKind::Dip,
            Self::Lift => ActKind::Lift,
            Self::Squeeze => ActKind::Squeeze,
            Self::Rinse { .. } => ActKind::Rinse,
            Self::Air { .. } => ActKind::Air,
            Self::Rest { .. } => ActKind::Rest,
            Self::Dry => ActKind::Dry,
            Self::Shelve => ActKind::Shelve,
        }
    }
}

impl BathKind {
    /// Every kind of bath, in the order goods meet them.
    pub const ALL: [Self; 7] = [
        Self::Scour,
        Self::Mordant,
        Self::Tannin,
        Self::Fixing,
        Self::Dye,
        Self::AfterBath,
        Self::Vat,
    ];

    /// The word in a recipe file.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::Scour => "scour",
            Self::Mordant => "mordant",
            Self::Tannin => "tannin",
            Self::Fixing => "fixing",
            Self::Dye => "dye",
            Self::AfterBath => "after-bath",
            Self::Vat => "vat",
        }
    }

    /// The kind of bath of a word.
    #[must_use]
    pub fn from_id(id: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|kind| kind.id() == id)
    }
}

impl Strength {
    /// Every strength, strongest first.
    pub const ALL: [Self; 5] = [
        Self::Published,
        Self::Partial,
        Self::Practice,
        Self::Memory,
        Self::Arithmetic,
    ];

    /// The word in a recipe file.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::Published => "published",
            Self::Partial => "partial",
            Self::Practice => "practice",
            Self::Memory => "memory",
            Self::Arithmetic => "arithmetic",
        }
    }

    /// The strength of a word.
    #[must_use]
    pub fn from_id(id: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|strength| strength.id() == id)
    }
}

impl Form {
    /// Every form, in the order shown.
    pub const ALL: [Self; 4] = [Self::Fresh, Self::Dried, Self::Ground, Self::Extract];

    /// The word in a recipe file.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::Fresh => "fresh",
            Self::Dried => "dried",
            Self::Ground => "ground",
            Self::Extract => "extract",
        }
    }

    /// The form of a word.
    #[must_use]
    pub fn from_id(id: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|form| form.id() == id)
    }
}

impl MordantNeed {
    /// Every need, in the order shown.
    pub const ALL: [Self; 3] = [Self::Mordanted, Self::None, Self::NotADye];

    /// The word in a recipe file.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::Mordanted => "mordanted",
            Self::None => "none",
            Self::NotADye => "not-a-dye",
        }
    }

    /// The need of a word.
    #[must_use]
    pub fn from_id(id: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|need| need.id() == id)
    }
}

impl fmt::Display for Letter {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.0)
    }
}
