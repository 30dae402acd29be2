//! What speaks against a bath: refusals stop it, warnings are said. Each names the ways out.

use crate::craft::basis::BasisFault;
use crate::craft::exhaust::NoNextBath;
use crate::craft::fibre::Fibre;
use crate::craft::quantity::{Altitude, LiquorRatio, Mass, Pressure, Temperature, Volume};
use crate::craft::salts::NoExchange;
use crate::craft::substance::Substance;
use crate::craft::vessel::Pot;
use crate::msg;
use crate::recipe::model::{BathKind, Letter};

/// One custom's part of the first dose.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PartChoice {
    /// 0 to 1.
    pub part: f64,
    /// In words.
    pub about: &'static str,
}

fn larger(needs: Volume, other: Option<&Pot>) -> String {
    match other {
        Some(pot) => msg!(
            "the pot of {capacity:.1} L and {width:.0} cm that stands on the bench",
            capacity = pot.capacity.litres(),
            width = pot.diameter.centimetres()
        ),
        None => msg!(
            "a pot of {capacity:.0} L or more",
            capacity = needs.litres().ceil()
        ),
    }
}

fn parts_of(choices: &[PartChoice]) -> String {
    let told: Vec<String> = choices
        .iter()
        .map(|choice| format!("{} ({})", choice.part, choice.about))
        .collect();
    told.join("; or ")
}

/// Why this bath can't be done so.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum SheetRefusal {
    /// The recipe is for other fibres.
    #[error("{recipe} is not for {goods}; it is for {others}", goods = .fibre.id(), others = list_of(.fits))]
    FibreNotForRecipe {
        /// The recipe's name.
        recipe: String,
        /// What was asked.
        fibre: Fibre,
        /// What it is for.
        fits: Vec<Fibre>,
    },
    /// A used bath of another recipe.
    #[error("the used bath was {parent}, and this is {recipe}; a bath is worked again by its own recipe")]
    OtherBath {
        /// What is asked.
        recipe: String,
        /// What the used bath was.
        parent: String,
    },
    /// A kind of bath whose liquor isn't used again.
    #[error("no custom says how the liquor of a {kind} bath is used again; make a fresh one", kind = .kind.id())]
    NotUsedAgain {
        /// The kind.
        kind: BathKind,
    },
    /// Not a part of a dose.
    #[error("{part} is not a part of the first dose; it is 0 to 1")]
    NotAPart {
        /// What was asked.
        part: f64,
    },
    /// Customs contradict.
    #[error("how much goes in again is the dyer's choice: {parts}", parts = parts_of(.choices))]
    WhichPart {
        /// What customs say.
        choices: Vec<PartChoice>,
    },
    /// The used bath can't be counted on.
    #[error("{fault}")]
    ParentBath {
        /// Why.
        fault: NoNextBath,
    },
    /// The recipe is only to be read.
    #[error(
        "{recipe} is here to be read, not to be begun: what it takes is too dangerous, or too harsh, for this work; \
         take another recipe of the book"
    )]
    ReferenceOnly {
        /// The recipe's name.
        recipe: String,
    },
    /// The recipe takes a metal that is off until the dyer turns it on.
    #[error(
        "{recipe} takes a metal that harms people and water and is locked: read its cautions, and unlock it with \
         hazardous_metals = true in bench.toml, or take a recipe without it"
    )]
    OffUnlessAsked {
        /// The recipe's name.
        recipe: String,
    },
    /// Nothing to dye.
    #[error("the goods weigh nothing; weigh them dry and enter the weight")]
    NoGoods,
    /// The bath doesn't fit into the pot.
    #[error(
        "{litres:.1} L of bath and goods fill {percent:.0} % of the pot; about three quarters is the most: \
         take {larger}, or split the goods over {baths} baths of {each:.1} g each",
        litres = .bath.litres(), percent = .fraction * 100.0, larger = larger(*.needs, .other.as_ref()),
        each = .goods_each.grams()
    )]
    PotTooSmall {
        /// Bath and goods.
        bath: Volume,
        /// Of the pot's capacity.
        fraction: f64,
        /// A pot that would do.
        needs: Volume,
        /// The smallest pot on the bench that would do.
        other: Option<Pot>,
        /// Into how many equal baths this pot would take it.
        baths: u32,
        /// The dry goods of each of them; additions follow their weight.
        goods_each: Mass,
    },
    /// Water boils below the hold here.
    #[error(
        "water boils at {here:.1} C here; a hold of at least {least:.0} C needs {by:.0} C of room below the boil: \
         take a recipe with a lower hold",
        here = .boil.celsius(), least = .floor.celsius(), by = .margin_k
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
    #[error("this burner can't bring the bath to {heat:.0} C: {ways}", heat = .target.celsius())]
    NeverGetsThere {
        /// Where it should get.
        target: Temperature,
        /// What would do, in words.
        ways: String,
    },
    /// The weight can't be counted on.
    #[error("{fault}")]
    WeightBasis {
        /// Why not.
        fault: BasisFault,
    },
    /// The shelf's salt can't stand for the recipe's.
    #[error("addition {at}: {fault}", at = .letter.0)]
    ShelfSalt {
        /// Which addition.
        letter: Letter,
        /// Why not.
        fault: NoExchange,
    },
    /// A salt of the shelf for an addition the recipe doesn't have, or that isn't a salt.
    #[error("the recipe has no salt {at}; {salts}", at = .letter.0, salts = salts_of(.has))]
    NoSaltOfLetter {
        /// What was asked.
        letter: Letter,
        /// The letters of its salts.
        has: Vec<Letter>,
    },
    /// Ice or steam from the tap.
    #[error(
        "{heat:.0} C is no water to fill with: it freezes at {ice} C and boils at {here:.1} C here; check what comes from \
         the tap",
        heat = .tap.celsius(), ice = 0, here = .boil.celsius()
    )]
    NoLiquidWater {
        /// What was said of the water.
        tap: Temperature,
        /// The boil here.
        boil: Temperature,
    },
    /// The pot would be dry before the hold is over.
    #[error(
        "the hold would steam off {part:.2} L of a {whole:.2} L bath: take a narrower pot, put the lid on, or dye more \
         goods at once",
        part = .lost.grams() / 1_000.0, whole = .bath.litres()
    )]
    SteamsAway {
        /// What would be lost.
        lost: Mass,
        /// The whole bath.
        bath: Volume,
    },
    /// Alkali on an animal fibre.
    #[error("{alkali} harms {goods}; choose a recipe made for it", alkali = .substance.name(), goods = .fibre.id())]
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
        "the hold is lowered from {celsius_before:.0} to {now:.1} C: water boils at {here:.1} C here, and the bath must \
         not boil",
        celsius_before = .asked.celsius(), now = .lowered.celsius(), here = .boil.celsius()
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
    #[error("the pot is {percent:.0} % full; about three quarters is the most, so stir gently", percent = .fraction * 100.0)]
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
    #[error("a pot of this kind may not come up to {heat:.0} C: {ways}", heat = .target.celsius())]
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
    #[error("{weight:.2} g of {name} is too little for a scale that shows {least:.2} g: {way}", weight = .target.grams(), least = .step.grams())]
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
    /// A used bath.
    #[error(
        "use {dip} of the liquor of {record}: each comes out paler, or takes up less, by how much nobody can say beforehand; try a sample"
    )]
    UsedBath {
        /// The record of the bath before.
        record: String,
        /// Which use this is.
        dip: u32,
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
    #[error("wet goods bring {part:.1} L of a {whole:.1} L bath; squeeze them well", part = .carried.litres(), whole = .bath.litres())]
    GoodsBringMuchWater {
        /// What they bring.
        carried: Volume,
        /// The whole bath.
        bath: Volume,
    },
    /// Less liquor than is usual.
    #[error("{litres:.0} L/kg is little; goods need room to move", litres = .ratio.litres_per_kg())]
    LittleLiquor {
        /// The ratio.
        ratio: LiquorRatio,
    },
    /// Goods come out of the liquor as it steams off.
    #[error(
        "the hold steams off {litres:.1} L and leaves {ratio:.0} L/kg, so that goods stand out: top up hot, or put the lid \
         on",
        litres = .lost.grams() / 1_000.0
    )]
    GoodsFallDry {
        /// What is lost.
        lost: Mass,
        /// Litres a kilogram at the end of the hold.
        ratio: f64,
    },
    /// The shelf's salt goes in for the recipe's.
    #[error("{}: {said}", .letter.0)]
    ShelfSaltUsed {
        /// Which addition.
        letter: Letter,
        /// Both amounts, or a difference that matters.
        said: String,
    },
    /// The weight that counts isn't the one that was read.
    #[error("{said}")]
    WeightCorrected {
        /// What was read, what counts, why.
        said: String,
    },
    /// The bath is too cold to keep a salt dissolved.
    #[error(
        "{weight:.1} g of {salt} may not stay dissolved in {litres:.1} L at {heat:.0} C: add it when the bath is hotter",
        weight = .amount.grams(), salt = .substance.name(), litres = .bath.litres(), heat = .at.celsius()
    )]
    FallsOut {
        /// What falls out.
        substance: Substance,
        /// How much goes in.
        amount: Mass,
        /// Into how much.
        bath: Volume,
        /// How warm.
        at: Temperature,
    },
    /// Cold goods bring a hot bath below its hold.
    #[error(
        "the goods bring the bath from {celsius_before:.0} down to {now:.1} C, below the {least:.0} C of the hold: \
         it counts from when the bath is back",
        celsius_before = .from.celsius(), now = .to.celsius(), least = .floor.celsius()
    )]
    HoldStartsLater {
        /// Before the goods.
        from: Temperature,
        /// After them.
        to: Temperature,
        /// The least temperature that counts as held.
        floor: Temperature,
    },
    /// Goods are lifted from a bath too hot for hands.
    #[error(
        "the goods are lifted at {heat:.0} C, where skin burns deep in about {burn_seconds} s: a tool, no hands",
        heat = .at.celsius()
    )]
    LiftedHot {
        /// The bath then.
        at: Temperature,
        /// Seconds to a deep burn, by the published table.
        burn_seconds: u32,
    },
    /// The bath foams when its additions meet.
    #[error("alkali and acid of this bath set free up to {litres:.1} L of gas: slowly, in a pot half full")]
    Foams {
        /// How much gas.
        litres: f64,
    },
    /// A station pressure that looks like a forecast's, at a height.
    #[error(
        "{said:.0} hPa looks reduced to sea level; the air here has about {here:.0} hPa, and water boils at \
         {celsius_here:.1}, not {wrong:.1} C: give the pressure at the place, or the height alone",
        said = .typed.hectopascals(), here = .likely_station.hectopascals(),
        celsius_here = .boil_likely.celsius(), wrong = .boil_as_typed.celsius()
    )]
    SeaLevelPressure {
        /// What was typed.
        typed: Pressure,
        /// What the place has, if it was reduced.
        likely_station: Pressure,
        /// The boil as typed.
        boil_as_typed: Temperature,
        /// The boil, if it was reduced.
        boil_likely: Temperature,
    },
    /// A pressure that no weather makes of this height.
    #[error(
        "{said:.0} hPa doesn't go with {metres:.0} m, where about {usual:.0} hPa is usual: check both",
        said = .typed.hectopascals(), metres = .height.metres(), usual = .standard.hectopascals()
    )]
    PressureAgainstHeight {
        /// What was typed.
        typed: Pressure,
        /// The height.
        height: Altitude,
        /// The standard atmosphere's there.
        standard: Pressure,
    },
    /// A pressure as forecasts give it, and no height to hold it against.
    #[error(
        "{said:.0} hPa is the pressure at the place only near sea level; a forecast's is reduced to sea level: \
         higher up, give the height instead",
        said = .typed.hectopascals()
    )]
    ForecastPressure {
        /// What was typed.
        typed: Pressure,
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

fn salts_of(letters: &[Letter]) -> String {
    if letters.is_empty() {
        return msg!("it has none").to_owned();
    }
    let letters: Vec<String> = letters.iter().map(|letter| letter.0.to_string()).collect();
    msg!("it has {letters}", letters = letters.join(", "))
}
