//! A lot of goods: one fibre, weighed, tagged, with its history.

use chrono::NaiveDate;

use super::weight::Milligrams;
use crate::craft::basis::{Basis, BasisFault, WeighedAs, basis};
use crate::craft::fibre::Fibre;
use crate::craft::lot::LotId;
use crate::craft::quantity::Mass;
use crate::craft::reading;
use crate::msg;
use crate::recipe::hidden::shown;
use crate::sheet::plan::Goods;

/// In which state a lot came to the shelf.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Came {
    /// To be scoured.
    Raw,
    /// Scoured before, by whoever made it.
    Scoured,
}

/// One weighing of a lot. A later one doesn't erase an earlier one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LotWeighing {
    /// When.
    pub on: NaiveDate,
    /// What the scale said.
    pub weight: Milligrams,
    /// In which state the goods were.
    pub state: WeighedAs,
}

/// A lot of goods.
#[derive(Debug, Clone, PartialEq)]
pub struct Lot {
    /// Its tag.
    pub id: LotId,
    /// What the dyer calls it.
    pub name: String,
    /// What it is made of.
    pub fibre: Fibre,
    /// How many hanks or pieces.
    pub hanks: u32,
    /// How it came.
    pub came: Came,
    /// Since when it is a lot.
    pub since: NaiveDate,
    /// The lots it was made of: one when it was split off, several when they were joined, none when it came from outside.
    pub from: Vec<LotId>,
    /// Its weighings, oldest first; the last one counts. Never empty.
    pub weighings: Vec<LotWeighing>,
    /// The ids of the baths it has been through, in order; those of the lots it was made of are among them.
    pub baths: Vec<String>,
    /// The day it left the shelf for good: used, given away, sold.
    pub gone: Option<NaiveDate>,
    /// Whatever the dyer wants to remember.
    pub note: Option<String>,
}

impl Came {
    /// Both, in the order shown.
    pub const ALL: [Self; 2] = [Self::Raw, Self::Scoured];

    /// The word in the file and on the command line.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::Raw => "raw",
            Self::Scoured => "scoured",
        }
    }

    /// The state of a word.
    #[must_use]
    pub fn from_id(id: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|came| came.id() == id)
    }
}

impl Lot {
    /// The weighing that counts.
    #[must_use]
    pub fn weighing(&self) -> LotWeighing {
        self.weighings.last().copied().unwrap_or(LotWeighing {
            on: self.since,
            weight: Milligrams::NONE,
            state: WeighedAs::AirDry,
        })
    }

    /// The weight that counts in a bath, from the last weighing.
    ///
    /// # Errors
    /// When the state of the weighing has no figure for this fibre.
    pub fn basis(&self) -> Result<Basis, BasisFault> {
        let weighing = self.weighing();
        basis(self.fibre, weighing.weight.mass(), weighing.state)
    }

    /// Dry weight that counts; as weighed where it can't be reckoned.
    #[must_use]
    pub fn dry(&self) -> Mass {
        self.basis()
            .map_or_else(|_| self.weighing().weight.mass(), |basis| basis.air_dry.likely)
    }

    /// The lot as goods of a bath. Their weight is the one that was read; its state goes into the wishes beside it.
    #[must_use]
    pub fn goods(&self) -> Goods {
        Goods {
            fibre: self.fibre,
            dry: self.weighing().weight.mass(),
            hanks: self.hanks,
            lot: Some(self.id),
        }
    }

    /// Whether grease still counts as fibre in its weight.
    #[must_use]
    pub fn is_weighed_in_the_grease(&self) -> bool {
        match self.weighing().state {
            WeighedAs::InTheGrease { .. } => true,
            WeighedAs::AirDry | WeighedAs::OvenDry | WeighedAs::Damp { .. } | WeighedAs::Spun => false,
        }
    }
}

/// The state of a weighing in the file: `air-dry`, `oven-dry`, `damp, 30 %`, `spun`, `in-the-grease, 20 %`.
#[must_use]
pub fn state_text(state: WeighedAs) -> String {
    match state {
        WeighedAs::AirDry => "air-dry".to_owned(),
        WeighedAs::OvenDry => "oven-dry".to_owned(),
        WeighedAs::Damp { water_percent } => format!("damp, {water_percent} %"),
        WeighedAs::Spun => "spun".to_owned(),
        WeighedAs::InTheGrease { loss_percent } => format!("in-the-grease, {loss_percent} %"),
    }
}

/// The state of a text, or one line on what would do.
///
/// # Errors
/// When it is none.
pub fn state_of(text: &str) -> Result<WeighedAs, String> {
    let (word, figure) = match text.split_once(',') {
        Some((word, figure)) => (word.trim(), Some(figure.trim())),
        None => (text.trim(), None),
    };
    let percent = |figure: &str| {
        reading::percent(figure)
            .map(crate::craft::quantity::PercentWof::percent)
            .map_err(|fault| fault.to_string())
    };
    match (word, figure) {
        ("air-dry", None) => Ok(WeighedAs::AirDry),
        ("oven-dry", None) => Ok(WeighedAs::OvenDry),
        ("spun", None) => Ok(WeighedAs::Spun),
        ("damp", Some(figure)) => Ok(WeighedAs::Damp {
            water_percent: percent(figure)?,
        }),
        ("in-the-grease", Some(figure)) => Ok(WeighedAs::InTheGrease {
            loss_percent: percent(figure)?,
        }),
        (_, _) => Err(msg!(
            "\"{word}\" is no state of goods; they are weighed air-dry, oven-dry, spun, or as \"damp, 30 %\" or \
             \"in-the-grease, 20 %\"",
            word = shown(text)
        )),
    }
}
