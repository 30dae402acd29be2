//! What the dyer brings to a recipe: goods, pot, burner, place, water and room.

use crate::craft::quantity::{Altitude, Length, Mass, Power, Temperature, Volume};
use crate::craft::vessel::{Burner, BurnerKind, Lid, Place, Pot, PotMetal};

use super::plan::Goods;

/// Everything a bath sheet is computed from, beside the recipe.
#[derive(Debug, Clone, PartialEq)]
pub struct Wishes {
    /// The goods.
    pub goods: Goods,
    /// Where they are worked.
    pub stove: StovePlace,
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
