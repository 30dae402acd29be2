//! A pot as it stands on the burner: everything the heat balance asks about.

use crate::craft::fibre::Fibre;
use crate::craft::fibre_facts::oven_dry;
use crate::craft::quantity::{Mass, Temperature, Volume};
use crate::craft::vessel::{Burner, Lid, Pot};

use super::spread::PotKnowledge;

/// A pot, what is in it, what stands under and over it, and what is known of it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Kettle {
    /// The pot.
    pub pot: Pot,
    /// The burner under it.
    pub burner: Burner,
    /// How it is covered.
    pub lid: Lid,
    /// The air around it.
    pub room: Temperature,
    /// Where water boils here.
    pub boil: Temperature,
    /// The water of the bath, without what the goods carry.
    pub water: Mass,
    /// The goods, when they are in.
    pub goods: Option<GoodsLoad>,
    /// How well the burner heats this pot and how fast the pot loses heat, as far as is known.
    pub knowledge: PotKnowledge,
}

/// Goods as they go into a pot.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GoodsLoad {
    /// What they are made of.
    pub fibre: Fibre,
    /// Their oven-dry weight; air-dry goods are this and their regain as `carried_water`.
    pub dry: Mass,
    /// The water they bring with them.
    pub carried_water: Mass,
}

impl GoodsLoad {
    /// Air-dry goods with the water they carry. They are oven-dry fibre and its regain; the regain goes with the water.
    #[must_use]
    pub fn air_dry(fibre: Fibre, dry: Mass, carried: Mass) -> Self {
        let oven_dry = oven_dry(fibre, dry);
        let moisture = dry.grams() - oven_dry.grams();
        Self {
            fibre,
            dry: oven_dry,
            carried_water: Mass::saturating_grams(carried.grams() + moisture),
        }
    }

    /// The room the wet goods take: fibre by its density, and the water they carry.
    #[must_use]
    pub fn displaced(&self) -> Volume {
        let fibre_l = self.dry.grams() / self.fibre.facts().density / 1_000.0;
        Volume::saturating_litres(fibre_l + self.carried_water.grams() / 998.0)
    }
}
