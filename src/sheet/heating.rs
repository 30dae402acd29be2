//! The sheet's questions to the heat of the pot.

use crate::craft::fibre::Fibre;
use crate::craft::heat::{self, GoodsLoad, Kettle, NeverGetsThere, PotKnowledge, WhyNever};
use crate::craft::quantity::{Band, Mass, Power, Ramp, Temperature};
use crate::craft::time::Span;
use crate::craft::vessel::Lid;

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
            knowledge: PotKnowledge::unknown(stove.burner.kind),
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
        let band = come_up.time.likely.map(|likely| Band {
            low: come_up.time.low.unwrap_or(likely).min(likely),
            likely,
            high: come_up.time.high.unwrap_or(heat::LONGEST_COME_UP).max(likely),
        });
        let doubtful = band.is_some() && come_up.time.high.is_none();
        Raise {
            band,
            doubtful,
            ways: come_up.never.map_or_else(String::new, |never| ways(&never)),
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
    pub(super) fn cool_to_marks(&self, load: Load, from: Temperature, lid: Lid) -> [Option<Band<Span>>; 5] {
        let marks: Vec<Temperature> = COOL_MARKS
            .into_iter()
            .map(Temperature::saturating_celsius)
            .collect();
        let mut bands = [None; 5];
        for (slot, (mark, band)) in bands
            .iter_mut()
            .zip(marks.iter().zip(self.cool_all(load, from, &marks, lid)))
        {
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
            .map(|band| {
                let likely = band.likely?;
                let low = band.low.unwrap_or(likely).min(likely);
                let high = band.high.unwrap_or(heat::LONGEST_COOLING).max(likely);
                Some(Band { low, likely, high })
            })
            .collect()
    }

    pub(super) fn hold_power(&self, load: Load, at: Temperature) -> Power {
        heat::hold_power(&self.kettle(load, self.stove.lid), at)
    }

    pub(super) fn evaporation(&self, load: Load, at: Temperature) -> Evaporation {
        let lost = heat::evaporation(&self.kettle(load, self.stove.lid), at);
        Evaporation {
            still: lost.still,
            stirred: lost.stirred,
        }
    }

    /// The bath after cold wet goods have gone in. They come at room temperature.
    pub(super) fn entered(&self, before: Load, goods: GoodsIn, bath_at: Temperature) -> Temperature {
        let hot = self.kettle(before, Lid::Off);
        heat::entering(&hot, bath_at, &goods.load(), self.stove.room).drops_to
    }
}

impl GoodsIn {
    /// Air-dry goods are oven-dry fibre and its regain; the regain goes with the water they carry.
    fn load(self) -> GoodsLoad {
        let regain = self.fibre.facts().regain_percent / 100.0;
        let oven_dry = Mass::saturating_grams(self.dry.grams() / (1.0 + regain));
        let moisture = self.dry.grams() - oven_dry.grams();
        GoodsLoad {
            fibre: self.fibre,
            dry: oven_dry,
            carried_water: Mass::saturating_grams(self.carried.grams() + moisture),
        }
    }
}

/// What would do, in words.
fn ways(never: &NeverGetsThere) -> String {
    let mut ways: Vec<String> = Vec::new();
    match never.ways.lid {
        Some(Lid::Loose) => ways.push("put the lid on loosely".into()),
        Some(Lid::Tight) => ways.push("close the lid".into()),
        Some(Lid::Off) | None => {}
    }
    if let Some(water) = never.ways.water {
        ways.push(format!(
            "take no more than {:.1} L of water",
            water.grams() / 1_000.0
        ));
    }
    if let Some(power) = never.ways.power {
        ways.push(format!(
            "use a burner of {:.1} kW or more",
            power.watts() / 1_000.0
        ));
    }
    if ways.is_empty() {
        return match never.why {
            WhyNever::AboveBoil { boil } => format!("water boils at {:.1} C here", boil.celsius()),
            WhyNever::LevelsOff { .. } | WhyNever::TooSlow => {
                "divide the goods over smaller baths".to_owned()
            }
        };
    }
    ways.join(", or ")
}
