//! What speaks against a bath: refusals stop it, warnings are said. Each names the ways out.

use crate::craft::fibre::Fibre;
use crate::craft::quantity::{LiquorRatio, Mass, Temperature, Volume};
use crate::craft::substance::Substance;

/// Why this bath can't be done so.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum SheetRefusal {
    /// The recipe is for other fibres.
    #[error("{recipe} is not for {}; it is for {}", .fibre.id(), list_of(.fits))]
    FibreNotForRecipe {
        /// The recipe's name.
        recipe: String,
        /// What was asked.
        fibre: Fibre,
        /// What it is for.
        fits: Vec<Fibre>,
    },
    /// Nothing to dye.
    #[error("the goods weigh nothing; weigh them dry and enter the weight")]
    NoGoods,
    /// The bath doesn't fit into the pot.
    #[error(
        "{:.1} L of bath and goods fill {:.0} % of the pot; about three quarters is the most: \
         take a pot of {:.0} L or more, or split the goods over {baths} baths",
        .bath.litres(), .fraction * 100.0, .needs.litres().ceil()
    )]
    PotTooSmall {
        /// Bath and goods.
        bath: Volume,
        /// Of the pot's capacity.
        fraction: f64,
        /// A pot that would do.
        needs: Volume,
        /// Into how many equal baths this pot would take it.
        baths: u32,
    },
    /// Water boils below the hold here.
    #[error(
        "water boils at {:.1} C here; a hold of at least {:.0} C needs {:.0} C of room below the boil: \
         take a recipe with a lower hold",
        .boil.celsius(), .floor.celsius(), .margin_k
    )]
    BoilsBelowHold {
        /// The boil here.
        boil: Temperature,
        /// The least temperature that counts as held.
        floor: Temperature,
        /// The room kept below the boil.
        margin_k: f64,
    },
    /// The burner can't bring this bath to its hold.
    #[error("this burner can't bring the bath to {:.0} C: {ways}", .target.celsius())]
    NeverGetsThere {
        /// Where it should get.
        target: Temperature,
        /// What would do, in words.
        ways: String,
    },
    /// Alkali on an animal fibre.
    #[error("{} harms {}; choose a recipe made for it", .substance.name(), .fibre.id())]
    AlkaliOnHair {
        /// The alkali.
        substance: Substance,
        /// The fibre.
        fibre: Fibre,
    },
}

/// What should be said before this bath is done.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum SheetWarning {
    /// The hold comes too close to the boil.
    #[error(
        "the hold is lowered from {:.0} to {:.1} C: water boils at {:.1} C here, and the bath must not boil",
        .asked.celsius(), .lowered.celsius(), .boil.celsius()
    )]
    HoldLowered {
        /// What the recipe asks.
        asked: Temperature,
        /// What is planned.
        lowered: Temperature,
        /// The boil here.
        boil: Temperature,
    },
    /// Somewhat fuller than three quarters.
    #[error("the pot is {:.0} % full; about three quarters is the most, so stir gently", .fraction * 100.0)]
    PotRatherFull {
        /// Of the pot's capacity.
        fraction: f64,
    },
    /// The goods may not be covered.
    #[error("the bath is only {depth_cm:.1} cm deep in this pot; a narrower one covers the goods better")]
    ShallowBath {
        /// Depth of the liquor.
        depth_cm: f64,
    },
    /// One pot in ten of this kind never gets there.
    #[error("a pot of this kind may not come up to {:.0} C: {ways}", .target.celsius())]
    MayNotGetThere {
        /// Where it should get.
        target: Temperature,
        /// What would do, in words.
        ways: String,
    },
    /// The pot changes the colour.
    #[error("a bare {metal} pot changes a bright bath; use steel, enamel or glass")]
    PotColours {
        /// What the pot is made of.
        metal: &'static str,
    },
    /// The scale is too coarse.
    #[error("{:.2} g of {name} is too little for a scale that shows {:.2} g: {way}", .target.grams(), .step.grams())]
    ScaleTooCoarse {
        /// What is weighed.
        name: String,
        /// How much.
        target: Mass,
        /// The step of the scale.
        step: Mass,
        /// What would do.
        way: String,
    },
    /// Goods must have been mordanted.
    #[error("this dye needs mordanted goods; mordant them first, or the colour won't hold")]
    NeedsMordant,
    /// The cup isn't enough for a salt.
    #[error("{said}")]
    Dissolving {
        /// What to mind.
        said: String,
    },
    /// More of the liquor comes in with the goods than stays to fill.
    #[error("wet goods bring {:.1} L of a {:.1} L bath; squeeze them well", .carried.litres(), .bath.litres())]
    GoodsBringMuchWater {
        /// What they bring.
        carried: Volume,
        /// The whole bath.
        bath: Volume,
    },
    /// Less liquor than is usual.
    #[error("{:.0} L/kg is little; goods need room to move", .ratio.litres_per_kg())]
    LittleLiquor {
        /// The ratio.
        ratio: LiquorRatio,
    },
    /// Room or water can't be as cold or warm as said.
    #[error("{said}")]
    Doubtful {
        /// What is doubtful, and what to check.
        said: String,
    },
}

fn list_of(fibres: &[Fibre]) -> String {
    fibres
        .iter()
        .map(|fibre| fibre.id())
        .collect::<Vec<_>>()
        .join(", ")
}
