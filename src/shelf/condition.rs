//! What state goods are in, from what they have been through; and how long mordanted goods keep.

use chrono::{Days, NaiveDate};

use super::bath::ShelvedBath;
use super::kept::Shelf;
use super::lot::{Came, Lot};
use crate::craft::salts::Element;
use crate::recipe::model::BathKind;

/// How far goods have come.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Stage {
    /// Not scoured.
    Raw,
    /// Scoured, and nothing since.
    Scoured,
    /// Tannined, to be mordanted.
    Tannined,
    /// Mordanted, to be dyed.
    Mordanted,
    /// Mordanted and fixed, to be dyed.
    Fixed,
    /// Dyed.
    Dyed,
    /// Dyed, and changed or made faster afterwards.
    AfterBath,
}

/// One thing goods have been through.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Past {
    /// The id of the record.
    pub bath: String,
    /// What it was for.
    pub kind: BathKind,
    /// Id of the recipe.
    pub recipe: String,
    /// Name of the recipe.
    pub name: String,
    /// When.
    pub on: NaiveDate,
}

/// The state of a lot.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Condition {
    /// How far it has come.
    pub stage: Stage,
    /// What it has been through whole, in order.
    pub past: Vec<Past>,
    /// Baths that were stopped: what they did isn't known.
    pub stopped: Vec<Past>,
    /// How long it keeps, for goods that were mordanted with aluminium and not dyed since.
    pub keeping: Option<Keeping>,
}

/// Mordanted goods on the shelf: to be dyed within about a month; kept for months, alum may tender them.
///
/// Common practice, no source: trade pages say to use them within about a month.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Keeping {
    /// Mordanted on.
    pub since: NaiveDate,
    /// Best dyed by.
    pub best_by: NaiveDate,
    /// May be tender after.
    pub tender_after: NaiveDate,
}

/// Alum-mordanted goods are best dyed within so many days. Common practice, no source.
pub const KEEPS_DAYS: u64 = 30;
/// After so many they may be tender. Common practice says *months*; three is our own choice.
const TENDER_DAYS: u64 = 91;

impl Stage {
    /// Every stage, in order.
    pub const ALL: [Self; 7] = [
        Self::Raw,
        Self::Scoured,
        Self::Tannined,
        Self::Mordanted,
        Self::Fixed,
        Self::Dyed,
        Self::AfterBath,
    ];

    /// The word of it, for outputs.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::Raw => "raw",
            Self::Scoured => "scoured",
            Self::Tannined => "tannined",
            Self::Mordanted => "mordanted",
            Self::Fixed => "fixed",
            Self::Dyed => "dyed",
            Self::AfterBath => "after-bath",
        }
    }
}

impl Keeping {
    /// Whether the best time is over.
    #[must_use]
    pub fn is_over(&self, today: NaiveDate) -> bool {
        today > self.best_by
    }

    /// Whether a thread should be tried for tenderness first.
    #[must_use]
    pub fn may_be_tender(&self, today: NaiveDate) -> bool {
        today > self.tender_after
    }
}

impl Condition {
    /// What it has had of a kind, in order.
    pub fn had(&self, kind: BathKind) -> impl Iterator<Item = &Past> {
        self.past.iter().filter(move |past| past.kind == kind)
    }
}

/// The state of a lot, from its history alone.
#[must_use]
pub fn condition(shelf: &Shelf, lot: &Lot) -> Condition {
    let way = shelf.way(lot);
    let mut stage = match lot.came {
        Came::Raw => Stage::Raw,
        Came::Scoured => Stage::Scoured,
    };
    let mut mordanted = None;
    for bath in way.iter().filter(|bath| bath.is_whole) {
        stage = after(stage, bath.kind);
        match bath.kind {
            BathKind::Mordant if bath.brings(Element::Al) => mordanted = Some(*bath),
            BathKind::Dye | BathKind::Vat => mordanted = None,
            BathKind::Scour
            | BathKind::Mordant
            | BathKind::Tannin
            | BathKind::Fixing
            | BathKind::AfterBath => {}
        }
    }
    let part = |is_whole| -> Vec<Past> {
        way.iter()
            .filter(|bath| bath.is_whole == is_whole)
            .map(|bath| past(bath))
            .collect()
    };
    Condition {
        stage,
        past: part(true),
        stopped: part(false),
        keeping: mordanted.filter(|_| stage < Stage::Dyed).map(|bath| {
            // The parts of a joined lot may have been mordanted on different days: the earliest counts.
            let same = shelf
                .history(lot)
                .filter(|one| one.is_whole && one.recipe == bath.recipe);
            keeping(same.map(|one| one.on).min().unwrap_or(bath.on))
        }),
    }
}

/// A stage never falls: a second scour of dyed goods leaves them dyed.
fn after(stage: Stage, kind: BathKind) -> Stage {
    let reached = match kind {
        BathKind::Scour => Stage::Scoured,
        BathKind::Tannin => Stage::Tannined,
        BathKind::Mordant => Stage::Mordanted,
        BathKind::Fixing if stage < Stage::Mordanted => stage,
        BathKind::Fixing => Stage::Fixed,
        BathKind::Dye | BathKind::Vat => Stage::Dyed,
        BathKind::AfterBath if stage < Stage::Dyed => stage,
        BathKind::AfterBath => Stage::AfterBath,
    };
    stage.max(reached)
}

fn keeping(since: NaiveDate) -> Keeping {
    let later = |days| since.checked_add_days(Days::new(days)).unwrap_or(NaiveDate::MAX);
    Keeping {
        since,
        best_by: later(KEEPS_DAYS),
        tender_after: later(TENDER_DAYS),
    }
}

fn past(bath: &ShelvedBath) -> Past {
    Past {
        bath: bath.id.clone(),
        kind: bath.kind,
        recipe: bath.recipe.clone(),
        name: bath.name.clone(),
        on: bath.on,
    }
}
