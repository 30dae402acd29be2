//! A bath being put together: goods, recipe, pot.

use std::sync::Arc;

use crate::craft::fibre::Fibre;
use crate::craft::quantity::Mass;
use crate::machine::PotNo;
use crate::recipe::model::Recipe;
use crate::sheet::plan::Goods;
use crate::sheet::{BathSheet, StovePlace, Wishes, compute};

/// How far the reading of the cautions has come.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reading {
    /// They weren't opened yet.
    Unread,
    /// They stand on the glass.
    Open,
    /// They were read, and tapped firmly.
    Done,
}

/// What has been chosen so far.
#[derive(Debug, Clone, PartialEq)]
pub struct Draft {
    /// The fibre.
    pub fibre: Fibre,
    /// The dry weight, once it is keyed in.
    pub weight: Option<Mass>,
    /// How many hanks.
    pub hanks: u32,
    /// The recipe.
    pub recipe: Option<Arc<Recipe>>,
    /// Which pot.
    pub pot: PotNo,
    /// Pot, burner and place of this bath.
    pub stove: StovePlace,
    /// The computed sheet.
    pub sheet: Option<Box<BathSheet>>,
    /// How far the reading of the cautions has come.
    pub cautions: Reading,
    /// Whether it is played on fast time instead of begun.
    pub rehearsing: bool,
}

impl Draft {
    /// Nothing chosen yet.
    #[must_use]
    pub const fn new(pot: PotNo, stove: StovePlace, rehearsing: bool) -> Self {
        Self {
            fibre: Fibre::Wool,
            weight: None,
            hanks: 1,
            recipe: None,
            pot,
            stove,
            sheet: None,
            cautions: Reading::Unread,
            rehearsing,
        }
    }

    /// Computes the sheet, if nothing is missing.
    pub fn compute(&mut self) {
        self.cautions = Reading::Unread;
        self.sheet = self.recipe.as_ref().zip(self.weight).map(|(recipe, dry)| {
            let goods = Goods {
                fibre: self.fibre,
                dry,
                hanks: self.hanks,
                lot: None,
            };
            Box::new(compute(recipe, &Wishes::new(goods, self.stove)))
        });
    }
}
