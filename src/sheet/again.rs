//! A finished bath as something to be done again: on other goods, or in the liquor it left.

use std::sync::Arc;

use crate::craft::fibre::Fibre;
use crate::craft::quantity::Mass;
use crate::craft::vessel::{Burner, Lid, Pot};
use crate::recipe::model::Recipe;

use super::used_bath::UsedBath;
use super::wishes::StovePlace;

/// What can be taken up from a record.
#[derive(Debug, Clone, PartialEq)]
pub struct Again {
    /// The recipe word for word as it was then; `None` when the record doesn't hold it or this program can't read it.
    pub recipe: Option<Arc<Recipe>>,
    /// The fibre.
    pub fibre: Fibre,
    /// The dry goods.
    pub goods: Mass,
    /// How many hanks.
    pub hanks: u32,
    /// The pot.
    pub pot: Pot,
    /// The burner.
    pub burner: Burner,
    /// How the pot was covered.
    pub lid: Lid,
    /// Whether a custom says how such liquor is used again.
    pub liquor_is_used_again: bool,
    /// Its liquor, to be used again; no part of the dose is chosen yet.
    pub used: UsedBath,
}

impl Again {
    /// The stove of the bench with this bath's pot on its burner.
    #[must_use]
    pub const fn stove(&self, bench: StovePlace) -> StovePlace {
        StovePlace {
            pot: self.pot,
            burner: self.burner,
            lid: self.lid,
            ..bench
        }
    }
}
