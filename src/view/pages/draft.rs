//! A bath being put together: goods, recipe, pot.

use std::sync::Arc;

use crate::craft::basis::WeighedAs;
use crate::craft::fibre::Fibre;
use crate::craft::learn::{Lesson, learn_from};
use crate::craft::lot::LotId;
use crate::craft::quantity::Mass;
use crate::machine::PotNo;
use crate::recipe::model::Recipe;
use crate::sheet::plan::Goods;
use crate::sheet::{Again, BathSheet, StovePlace, UsedBath, Wishes, compute};
use crate::shelf::Lot;
use crate::view::bench::Bench;

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
    /// The lot of the shelf that goes in, all of it; `None` for goods that aren't on the shelf.
    pub lot: Option<LotId>,
    /// The fibre.
    pub fibre: Fibre,
    /// The dry weight, once it is keyed in.
    pub weight: Option<Mass>,
    /// In which state they were on the scale.
    pub weighed_as: WeighedAs,
    /// How many hanks.
    pub hanks: u32,
    /// The recipe.
    pub recipe: Option<Arc<Recipe>>,
    /// Which pot.
    pub pot: PotNo,
    /// Pot, burner and place of this bath.
    pub stove: StovePlace,
    /// The used bath that is worked again, if one is.
    pub used: Option<UsedBath>,
    /// Whether recipes with copper and tin are on.
    pub hazardous_metals: bool,
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
            lot: None,
            fibre: Fibre::Wool,
            weight: None,
            weighed_as: WeighedAs::AirDry,
            hanks: 1,
            recipe: None,
            pot,
            stove,
            used: None,
            hazardous_metals: false,
            sheet: None,
            cautions: Reading::Unread,
            rehearsing,
        }
    }

    /// A finished bath on other goods: its fibre, recipe and pot, the weight still to be keyed in.
    #[must_use]
    pub fn again(pot: PotNo, bench: StovePlace, again: &Again, recipe: Arc<Recipe>) -> Self {
        Self {
            fibre: again.fibre,
            recipe: Some(recipe),
            ..Self::new(pot, again.stove(bench), false)
        }
    }

    /// Takes a lot of the shelf as its goods: fibre, weight as it was last weighed, hanks.
    pub fn take_lot(&mut self, lot: &Lot) {
        let weighing = lot.weighing();
        self.lot = Some(lot.id);
        self.fibre = lot.fibre;
        self.weight = Some(weighing.weight.mass());
        self.weighed_as = weighing.state;
        self.hanks = lot.hanks;
    }

    /// Computes the sheet, if nothing is missing, with what earlier baths taught about the pot.
    pub fn compute(&mut self, bench: &Bench, lessons: &[Lesson]) {
        self.cautions = Reading::Unread;
        self.sheet = self.recipe.as_ref().zip(self.weight).map(|(recipe, dry)| {
            let goods = Goods {
                fibre: self.fibre,
                dry,
                hanks: self.hanks,
                lot: self.lot,
            };
            let mut wishes = Wishes::new(goods, self.stove);
            wishes.other_pots = bench.others.pots().chain([bench.stove.pot]).collect();
            wishes.weighed_as = self.weighed_as;
            wishes.used.clone_from(&self.used);
            wishes.learned = learn_from(lessons, &self.stove.pot, &self.stove.burner);
            wishes.hazardous_metals = self.hazardous_metals;
            Box::new(compute(recipe, &wishes))
        });
    }
}
