//! What the dyer brings to a recipe: goods, pot, burner, place, water and room, the salts on the shelf.

use std::collections::BTreeMap;

use crate::craft::basis::WeighedAs;
use crate::craft::learn::Learned;
use crate::craft::quantity::{Altitude, Length, Mass, Power, Temperature, Volume};
use crate::craft::salts::OnShelf;
use crate::craft::vessel::{Burner, BurnerKind, Lid, Place, Pot, PotMetal};
use crate::recipe::model::Letter;

use super::plan::Goods;
use super::used_bath::UsedBath;

/// Everything a bath sheet is computed from, beside the recipe.
#[derive(Debug, Clone, PartialEq)]
pub struct Wishes {
    /// The goods; their weight is the one that was read on the scale.
    pub goods: Goods,
    /// Where they are worked.
    pub stove: StovePlace,
    /// In which state they were on the scale.
    pub weighed_as: WeighedAs,
    /// Salts of the shelf that go in for the recipe's, by the letter of the addition.
    pub shelf: BTreeMap<Letter, OnShelf>,
    /// Other pots on the bench, for a bath that doesn't fit into this one.
    pub other_pots: Vec<Pot>,
    /// The height of the place, where the stove gives its pressure: the one is held against the other.
    pub height: Option<Altitude>,
    /// The used bath that is worked again, where this one isn't made fresh.
    pub used: Option<UsedBath>,
    /// What earlier baths taught about this pot on this burner.
    pub learned: Learned,
    /// Whether the dyer has turned recipes with copper and tin on.
    pub hazardous_metals: bool,
}

impl Wishes {
    /// Air-dry goods on a stove nothing more is known of, with the recipe's own salts.
    #[must_use]
    pub const fn new(goods: Goods, stove: StovePlace) -> Self {
        Self {
            goods,
            stove,
            weighed_as: WeighedAs::AirDry,
            shelf: BTreeMap::new(),
            other_pots: Vec::new(),
            height: None,
            used: None,
            learned: Learned::NotYet { bath_count: 0 },
            hazardous_metals: false,
        }
    }
}

/// The pot and all that surrounds it: what the bench remembers from bath to bath.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StovePlace {
    /// The pot.
    pub pot: Pot,
    /// The burner.
    pub burner: Burner,
    /// How the pot is covered while it heats and holds.
    pub lid: Lid,
    /// Where it stands, for its boil.
    pub place: Place,
    /// Water as it comes from the tap.
    pub tap: Temperature,
    /// The room.
    pub room: Temperature,
    /// The step of the scale.
    pub scale_step: Mass,
}

impl Default for StovePlace {
    /// A 12 L stainless pot on a 2 kW induction plate at the sea, lid loose, tap water 15 C, room 20 C, a scale
    /// that shows 0.1 g.
    fn default() -> Self {
        Self {
            pot: Pot {
                capacity: Volume::saturating_litres(12.0),
                diameter: Length::saturating_centimetres(26.0),
                metal: PotMetal::Stainless,
            },
            burner: Burner {
                kind: BurnerKind::Induction,
                power: Power::saturating_watts(2_000.0),
            },
            lid: Lid::Loose,
            place: Place::Altitude(Altitude::saturating_metres(0.0)),
            tap: Temperature::saturating_celsius(15.0),
            room: Temperature::saturating_celsius(20.0),
            scale_step: Mass::saturating_grams(0.1),
        }
    }
}
