//! A finished bath as the shelf remembers it: what it was, for which lot, and what it really took.

use chrono::NaiveDate;

use super::supply::SupplyId;
use super::weight::Milligrams;
use crate::craft::lot::LotId;
use crate::craft::salts::{Element, formula};
use crate::craft::substance::Substance;
use crate::craft::vessel::PotMetal;
use crate::recipe::model::{BathKind, Form, Letter};
use crate::sheet::LABELLED_SALT_ID;

/// A finished bath.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ShelvedBath {
    /// The id of its record in the daybook; one bath is put down once.
    pub id: String,
    /// The lot that went in, if the bath said so.
    pub lot: Option<LotId>,
    /// What it was for.
    pub kind: BathKind,
    /// Id of the recipe.
    pub recipe: String,
    /// Name of the recipe.
    pub name: String,
    /// The day it ended, where it was done.
    pub on: NaiveDate,
    /// Whether it went to its end. One that was stopped took its wares, but what it did to the goods isn't known.
    pub is_whole: bool,
    /// Which pot of the stove.
    pub pot: u8,
    /// What that pot is made of.
    pub metal: PotMetal,
    /// What was weighed in.
    pub weighed: Vec<Weighed>,
}

/// A ware as it was really weighed, and from what it was drawn.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Weighed {
    /// The addition's letter.
    pub letter: Letter,
    /// Id of the ware.
    pub ware: String,
    /// The name a dyer reads.
    pub name: String,
    /// In which form, for a dyestuff whose recipe is at hand.
    pub form: Option<Form>,
    /// What the scale said.
    pub weight: Milligrams,
    /// Taken from these supplies; together never more than the weight.
    pub drawn: Vec<Draw>,
}

/// A part of one supply.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Draw {
    /// From which supply.
    pub from: SupplyId,
    /// How much.
    pub weight: Milligrams,
}

impl Weighed {
    /// What the shelf couldn't account for.
    #[must_use]
    pub fn short(&self) -> Milligrams {
        let drawn = Milligrams::sum(self.drawn.iter().map(|draw| draw.weight)).unwrap_or(self.weight);
        self.weight.less(drawn).unwrap_or_default()
    }
}

impl ShelvedBath {
    /// Whether one of its wares brings a metal. A salt known by its label alone is an aluminium salt.
    #[must_use]
    pub fn brings(&self, metal: Element) -> bool {
        self.weighed
            .iter()
            .any(|weighed| ware_brings(&weighed.ware, metal))
    }
}

/// Whether a ware brings a metal to the goods.
#[must_use]
pub fn ware_brings(ware: &str, metal: Element) -> bool {
    if ware == LABELLED_SALT_ID {
        return metal == Element::Al;
    }
    Substance::from_id(ware)
        .and_then(formula)
        .is_some_and(|formula| formula.count(metal) > 0)
}
