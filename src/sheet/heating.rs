//! The sheet's questions to the heat of the pot.

use crate::craft::fibre::Fibre;
use crate::craft::heat::{self, GoodsLoad, Kettle, NeverGetsThere, PotKnowledge, Setting, WhyNever};
use crate::craft::quantity::{Band, Mass, Power, Ramp, Temperature};
use crate::craft::time::Span;
use crate::craft::vessel::{Lid, Pot};
use crate::msg;

use super::bath_sheet::{COOL_MARKS, Evaporation};
use super::wishes::{StovePlace, Wishes};

/// What is in the pot.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Load {
    /// Water that was filled.
    pub(super) water: Mass,
    /// The goods, when they are in.
    pub(super) goods: Option<GoodsIn>,
}

/// Goods with the water they brought.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct GoodsIn {
    pub(super) fibre: Fibre,
    /// Air-dry weight, as weighed.
    pub(super) dry: Mass,
    /// Water they carry.
    pub(super) carried: Mass,
}

/// A come-up as the plan takes it.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Raise {
    /// How long; `None` when the likely pot never gets there.
    pub(super) band: Option<Band<Span>>,
    /// Whether one pot in ten never gets there.
    pub(super) doubtful: bool,
    /// What would do, in words.
    pub(super) ways: String,
    /// Burner settings that keep the ramp, where there is one.
    pub(super) setting: Option<Setting>,
}

/// What entering does to the bath.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Entered {
    /// The bath when the goods have taken its heat.
    pub(super) drops_to: Temperature,
    /// From there back to where it was, at full power.
    pub(super) recovery: Option<Band<Span>>,
}

/// One stove and its boil.
#[derive(Debug, Clone, Copy)]
pub(super) struct Heating {
    stove: StovePlace,
    boil: Temperature,
    knowledge: PotKnowledge,
}

impl Heating {
    pub(super) fn new(wishes: &Wishes, boil: Temperature) -> Self {
        let stove = wishes.stove;
        Self {
            stove,
            boil,
            knowledge: wishes.learned.knowledge(stove.burner.kind),
        }
    }

    fn kettle(&self, load: Load, lid: Lid) -> Kettle {
        Kettle {
            pot: self.stove.pot,
            burner: self.stove.burner,
            lid,
            room: self.stove.room,
            boil: self.boil,
            water: load.water,
            goods: load.goods.map(GoodsIn::load),
            knowledge: self.knowledge,
        }
    }

    pub(super) fn come_up(
        &self,
        load: Load,
        from: Temperature,
        to: Temperature,
        ramp: Option<Ramp>,
    ) -> Raise {
        let come_up = heat::come_up(&self.kettle(load, self.stove.lid), from, to, ramp);
        let band = whole(come_up.time, heat::LONGEST_COME_UP);
        let doubtful = band.is_some() && come_up.time.high.is_none();
        Raise {
            band,
            doubtful,
            ways: come_up
                .never
                .map_or_else(String::new, |never| ways(&never, &self.stove.pot)),
            setting: come_up.setting,
        }
    }

    pub(super) fn cool(
        &self,
        load: Load,
        from: Temperature,
        to: Temperature,
        lid: Lid,
    ) -> Option<Band<Span>> {
        self.cool_all(load, from, &[to], lid).into_iter().next().flatten()
    }

    /// To each of [`COOL_MARKS`]; nothing for a mark the bath isn't above.
    pub(super) fn cool_to_marks(&self, load: Load, from: Temperature) -> [Option<Band<Span>>; 5] {
        let marks: Vec<Temperature> = COOL_MARKS
            .into_iter()
            .map(Temperature::saturating_celsius)
            .collect();
        let mut bands = [None; 5];
        for (slot, (mark, band)) in bands.iter_mut().zip(marks.iter().zip(self.cool_all(
            load,
            from,
            &marks,
            self.stove.lid,
        ))) {
            *slot = band.filter(|_| *mark < from);
        }
        bands
    }

    fn cool_all(
        &self,
        load: Load,
        from: Temperature,
        to: &[Temperature],
        lid: Lid,
    ) -> Vec<Option<Band<Span>>> {
        let cooling = heat::cool_down(&self.kettle(load, lid), from, to);
        cooling
            .into_iter()
            .map(|band| whole(band, heat::LONGEST_COOLING))
            .collect()
    }

    pub(super) fn hold_power(&self, load: Load, at: Temperature) -> Power {
        heat::hold_power(&self.kettle(load, self.stove.lid), at)
    }

    /// Parts of full power that keep a temperature.
    pub(super) fn hold_setting(&self, load: Load, at: Temperature) -> Band<f64> {
        heat::hold_setting(&self.kettle(load, self.stove.lid), at)
    }

    /// Kelvin a minute with the burner at a part of full power.
    pub(super) fn drift(&self, load: Load, at: Temperature, setting: f64) -> f64 {
        heat::drift(&self.kettle(load, self.stove.lid), at, setting)
    }

    pub(super) fn evaporation(&self, load: Load, at: Temperature) -> Evaporation {
        let lost = heat::evaporation(&self.kettle(load, self.stove.lid), at);
        Evaporation {
            still: lost.still,
            stirred: lost.stirred,
        }
    }

    /// The bath after cold wet goods have gone in. They come at room temperature.
    pub(super) fn entered(&self, before: Load, goods: GoodsIn, bath_at: Temperature) -> Entered {
        let hot = self.kettle(before, self.stove.lid);
        let entering = heat::entering(&hot, bath_at, &goods.load(), self.stove.room);
        Entered {
            drops_to: entering.drops_to,
            recovery: whole(entering.recovery, heat::LONGEST_COME_UP),
        }
    }
}

/// A band with its ends, where the likely pot gets there; what lasts longer than is looked at is cut there.
fn whole(band: Band<Option<Span>>, longest: Span) -> Option<Band<Span>> {
    let likely = band.likely?;
    Some(Band {
        low: band.low.unwrap_or(likely).min(likely),
        likely,
        high: band.high.unwrap_or(longest).max(likely),
    })
}

impl GoodsIn {
    fn load(self) -> GoodsLoad {
        GoodsLoad::air_dry(self.fibre, self.dry, self.carried)
    }
}

/// What would do, in words.
fn ways(never: &NeverGetsThere, pot: &Pot) -> String {
    let mut ways: Vec<String> = Vec::new();
    match never.ways.lid {
        Some(Lid::Loose) => ways.push(msg!("put the lid on loosely").into()),
        Some(Lid::Tight) => ways.push(msg!("close the lid").into()),
        Some(Lid::Off) | None => {}
    }
    if let Some(water) = never
        .ways
        .water
        .filter(|water| water.grams() < pot.capacity.litres() * 1_000.0)
    {
        ways.push(msg!(
            "take no more than {litres:.1} L of water",
            litres = water.grams() / 1_000.0
        ));
    }
    if let Some(power) = never.ways.power {
        ways.push(msg!(
            "use a burner of {kilowatts:.1} kW or more",
            kilowatts = power.watts() / 1_000.0
        ));
    }
    if ways.is_empty() {
        return match never.why {
            WhyNever::AboveBoil { boil } => msg!("water boils at {boil:.1} C here", boil = boil.celsius()),
            WhyNever::LevelsOff { .. } | WhyNever::TooSlow => {
                msg!("divide the goods over smaller baths").to_owned()
            }
        };
    }
    ways.join(", or ")
}
