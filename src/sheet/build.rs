//! Computes a bath sheet. The order is the dyer's: goods, water, additions, heat, clock.

use std::sync::Arc;

use crate::craft::quantity::{Band, Length, LiquorRatio, Mass, Temperature, Volume};
use crate::craft::time::Span;
use crate::craft::{boil, water};
use crate::recipe::model::{Act, MordantNeed, Recipe, RecipeStep};

use super::additions;
use super::bath_sheet::{BathSheet, COOL_MARKS};
use super::cautions;
use super::heating::{GoodsIn, Heating, Load};
use super::legs;
use super::plan::{Plan, PlannedAddition, Step, StepAct};
use super::usual;
use super::verdict::{SheetRefusal, SheetWarning};
use super::wishes::Wishes;
use super::working::{Measured, Working};

/// Room kept between hold and boil, so that a bath held just under the boil doesn't boil.
const BOIL_MARGIN_K: f64 = 2.0;

/// About three quarters: common practice, no source. Above the first it is said, above the second refused.
const RATHER_FULL: f64 = 0.76;
const TOO_FULL: f64 = 0.80;

/// Goods should be covered; below this depth it is said. Common practice, no source.
const SHALLOW_CM: f64 = 5.0;

/// Computes the sheet. It always comes back whole; what speaks against the bath stands in its refusals.
#[must_use]
pub fn compute(recipe: &Arc<Recipe>, wishes: &Wishes) -> BathSheet {
    let mut notes = Notes::default();
    let goods = &wishes.goods;
    if !recipe.fibres.contains(&goods.fibre) {
        notes.refusals.push(SheetRefusal::FibreNotForRecipe {
            recipe: recipe.name.clone(),
            fibre: goods.fibre,
            fits: recipe.fibres.clone(),
        });
    }
    if goods.dry.grams() <= 0.0 {
        notes.refusals.push(SheetRefusal::NoGoods);
    }
    if recipe.mordant == MordantNeed::Mordanted {
        notes.warnings.push(SheetWarning::NeedsMordant);
    }
    additions::refuse_alkali(recipe, goods.fibre, &mut notes.refusals);

    let liquor = liquor(recipe, wishes, &mut notes);
    let additions = additions::weigh_out(recipe, wishes, liquor.bath, &mut notes);
    let boil = boil::boiling_point(wishes.stove.place);
    notes.working(
        "boiling point",
        vec![place_of(wishes)],
        "the pressure of the standard atmosphere at this height, and the saturation temperature of water at it",
        Measured::new(boil.celsius(), "C"),
        "ISO 2533:1975; IAPWS R7-97(2012), region 4",
    );

    let heating = Heating::new(wishes, boil);
    let mut walk = Walk {
        recipe,
        wishes,
        liquor: &liquor,
        additions: &additions,
        boil,
        heating: &heating,
        temperature: wishes.stove.tap,
        goods_in: false,
        steps: Vec::new(),
        temperatures: Vec::new(),
        raises: Some(Vec::new()),
        come_up: Some(Vec::new()),
        hold: None,
    };
    walk.run(&mut notes);
    let Walk {
        steps,
        temperatures,
        come_up,
        hold,
        ..
    } = walk;

    let full = liquor.load(wishes);
    let cool = hold.map_or([None; 5], |hold| {
        heating.cool_to_marks(full, hold.at, wishes.stove.lid)
    });
    let evaporation = hold.map(|hold| heating.evaporation(full, hold.at));
    let hold_power = hold.map(|hold| heating.hold_power(full, hold.at));
    let top_up = hold
        .zip(evaporation)
        .map(|(hold, lost)| Mass::saturating_grams(lost.still * hold.span.minutes()));
    heat_workings(
        &mut notes,
        wishes,
        &liquor,
        hold,
        come_up.as_deref(),
        &cool,
        evaporation,
        hold_power,
    );

    let legs = legs::lay(&steps, &temperatures);
    let plan = Plan {
        recipe_id: recipe.id.clone(),
        recipe_name: recipe.name.clone(),
        kind: recipe.kind,
        goods: goods.clone(),
        pot: wishes.stove.pot,
        burner: wishes.stove.burner,
        lid: wishes.stove.lid,
        room: wishes.stove.room,
        bath: liquor.bath,
        liquor_ratio: liquor.ratio,
        boil,
        hold_power,
        additions,
        steps,
        cautions: cautions::of_bath(recipe),
    };
    BathSheet {
        recipe: Arc::clone(recipe),
        wishes: wishes.clone(),
        plan: Arc::new(plan),
        fill: liquor.fill,
        carried: liquor.carried,
        fill_fraction: liquor.fraction,
        hold: hold.map(|hold| (hold.at, hold.span)),
        come_up: come_up
            .filter(|_| hold.is_some())
            .map(|raises| in_sequence(&raises)),
        cool,
        evaporation,
        hold_power,
        top_up,
        legs,
        workings: notes.workings,
        warnings: notes.warnings,
        refusals: notes.refusals,
    }
}

/// What is gathered on the way.
#[derive(Debug, Default)]
pub(super) struct Notes {
    pub(super) workings: Vec<Working>,
    pub(super) warnings: Vec<SheetWarning>,
    pub(super) refusals: Vec<SheetRefusal>,
}

impl Notes {
    pub(super) fn working(
        &mut self,
        what: &str,
        inputs: Vec<(String, Measured)>,
        formula: &'static str,
        result: Measured,
        source: &str,
    ) {
        let what = what.to_owned();
        self.workings.push(Working {
            what,
            inputs,
            formula,
            result,
            source: source.to_owned(),
        });
    }
}

/// The water of a bath.
struct Liquor {
    ratio: LiquorRatio,
    bath: Volume,
    fill: Volume,
    carried: Volume,
    fraction: f64,
    level_filled: Length,
}

impl Liquor {
    /// The whole bath with its goods.
    fn load(&self, wishes: &Wishes) -> Load {
        Load {
            water: water::mass_of(self.fill, wishes.stove.tap),
            goods: Some(self.goods(wishes)),
        }
    }

    /// What is in the pot before the goods.
    fn load_without_goods(&self, wishes: &Wishes) -> Load {
        Load {
            water: water::mass_of(self.fill, wishes.stove.tap),
            goods: None,
        }
    }

    fn goods(&self, wishes: &Wishes) -> GoodsIn {
        GoodsIn {
            fibre: wishes.goods.fibre,
            dry: wishes.goods.dry,
            carried: water::mass_of(self.carried, wishes.stove.room),
        }
    }
}

fn liquor(recipe: &Recipe, wishes: &Wishes, notes: &mut Notes) -> Liquor {
    const LITTLE: f64 = 15.0;
    let goods = &wishes.goods;
    let pot = wishes.stove.pot;
    let ratio = recipe.liquor.chosen;
    let kilograms = goods.dry.grams() / 1_000.0;
    let bath = Volume::saturating_litres(ratio.litres_per_kg() * kilograms);
    let source = recipe
        .source_of(&recipe.liquor)
        .map_or("", |source| source.text.as_str());
    notes.working(
        "bath",
        vec![
            ("dry goods".into(), Measured::new(goods.dry.grams(), "g")),
            (
                "liquor ratio".into(),
                Measured::new(ratio.litres_per_kg(), "L/kg"),
            ),
        ],
        "dry goods times liquor ratio",
        Measured::new(bath.litres(), "L"),
        source,
    );
    let wet_goods = has(recipe, |act| matches!(act, Act::WetOut { .. }));
    let squeezed = goods.fibre.facts().squeezed_water.1;
    let carried = Volume::saturating_litres(if wet_goods { kilograms * squeezed } else { 0.0 }).least(bath);
    let fill = Volume::saturating_litres(bath.litres() - carried.litres());
    notes.working(
        "water to fill",
        vec![
            ("bath".into(), Measured::new(bath.litres(), "L")),
            (
                "brought by the wet, squeezed goods".into(),
                Measured::new(carried.litres(), "L"),
            ),
        ],
        "the bath less what the wet goods bring",
        Measured::new(fill.litres(), "L"),
        "arithmetic; water held by squeezed goods from memory, no source",
    );
    let displaced = Volume::saturating_litres(kilograms / goods.fibre.facts().density);
    let whole = Volume::saturating_litres(bath.litres() + displaced.litres());
    let fraction = water::fill_fraction(&pot, bath, displaced);
    notes.working(
        "pot filled",
        vec![
            ("bath".into(), Measured::new(bath.litres(), "L")),
            (
                "taken up by the goods".into(),
                Measured::new(displaced.litres(), "L"),
            ),
            ("pot holds".into(), Measured::new(pot.capacity.litres(), "L")),
        ],
        "bath and goods over what the pot holds",
        Measured::new(fraction * 100.0, "%"),
        "arithmetic; three quarters at most is common practice, no source",
    );
    judge_fill(&pot, whole, fraction, &mut notes.refusals, &mut notes.warnings);
    let depth = water::level_line(&pot, bath, displaced).centimetres();
    if goods.dry.grams() > 0.0 && depth < SHALLOW_CM {
        notes.warnings.push(SheetWarning::ShallowBath { depth_cm: depth });
    }
    if ratio.litres_per_kg() < LITTLE {
        notes.warnings.push(SheetWarning::LittleLiquor { ratio });
    }
    if carried.litres() > 0.5 * bath.litres() && bath.litres() > 0.0 {
        notes
            .warnings
            .push(SheetWarning::GoodsBringMuchWater { carried, bath });
    }
    additions::pot_colours(pot.metal, recipe, &mut notes.warnings);
    Liquor {
        ratio,
        bath,
        fill,
        carried,
        fraction,
        level_filled: water::level_line(&pot, fill, Volume::saturating_litres(0.0)),
    }
}

fn judge_fill(
    pot: &crate::craft::vessel::Pot,
    whole: Volume,
    fraction: f64,
    refusals: &mut Vec<SheetRefusal>,
    warnings: &mut Vec<SheetWarning>,
) {
    const THREE_QUARTERS: f64 = 0.75;
    if fraction > TOO_FULL {
        let needs = Volume::saturating_litres(whole.litres() / THREE_QUARTERS);
        let baths = whole_up(whole.litres() / (THREE_QUARTERS * pot.capacity.litres()));
        refusals.push(SheetRefusal::PotTooSmall {
            bath: whole,
            fraction,
            needs,
            baths,
        });
    } else if fraction > RATHER_FULL {
        warnings.push(SheetWarning::PotRatherFull { fraction });
    }
}

#[expect(
    clippy::as_conversions,
    reason = "a float to integer `as` saturates, and the count is only shown"
)]
fn whole_up(value: f64) -> u32 {
    value.ceil() as u32
}

fn has(recipe: &Recipe, which: impl Fn(&Act) -> bool) -> bool {
    recipe.steps.iter().any(|step| which(&step.act))
}

fn place_of(wishes: &Wishes) -> (String, Measured) {
    match wishes.stove.place {
        crate::craft::vessel::Place::Altitude(height) => {
            ("height above the sea".into(), Measured::new(height.metres(), "m"))
        }
        crate::craft::vessel::Place::Station(pressure) => (
            "station pressure".into(),
            Measured::new(pressure.hectopascals(), "hPa"),
        ),
    }
}

/// The main hold.
#[derive(Debug, Clone, Copy)]
struct MainHold {
    at: Temperature,
    span: Span,
}

/// The recipe walked through once, with the bath's temperature at hand.
struct Walk<'a> {
    recipe: &'a Recipe,
    wishes: &'a Wishes,
    liquor: &'a Liquor,
    additions: &'a [PlannedAddition],
    boil: Temperature,
    heating: &'a Heating,
    temperature: Temperature,
    goods_in: bool,
    steps: Vec<Step>,
    temperatures: Vec<(Temperature, Temperature)>,
    /// The raises since the bath was last let cool; `None` once one never gets there.
    raises: Option<Vec<Band<Span>>>,
    /// The raises up to the main hold.
    come_up: Option<Vec<Band<Span>>>,
    hold: Option<MainHold>,
}

impl Walk<'_> {
    fn run(&mut self, notes: &mut Notes) {
        let recipe = self.recipe;
        let soak_first = recipe
            .steps
            .iter()
            .take_while(|step| matches!(step.act, Act::WetOut { .. }))
            .count();
        for step in recipe.steps.iter().take(soak_first) {
            self.step(step, notes);
        }
        for addition in self.additions {
            self.push(
                StepAct::Weigh {
                    letter: addition.letter,
                },
                None,
                None,
                self.temperature,
            );
        }
        for step in recipe.steps.iter().skip(soak_first) {
            self.step(step, notes);
        }
    }

    fn push(&mut self, act: StepAct, how: Option<&str>, caution: Option<&str>, to: Temperature) {
        let usual = usual::usual(&act);
        self.temperatures.push((self.temperature, to));
        self.temperature = to;
        self.steps.push(Step {
            act,
            how: how.map(str::to_owned),
            caution: caution.map(str::to_owned),
            usual,
        });
    }

    fn load(&self) -> Load {
        if self.goods_in {
            self.liquor.load(self.wishes)
        } else {
            self.liquor.load_without_goods(self.wishes)
        }
    }

    fn step(&mut self, step: &RecipeStep, notes: &mut Notes) {
        let here = self.temperature;
        let (act, to) = match &step.act {
            Act::WetOut { least } => (StepAct::WetOut { least: least.chosen }, here),
            Act::Fill => (
                StepAct::Fill {
                    water: self.liquor.fill,
                    level: self.liquor.level_filled,
                },
                self.wishes.stove.tap,
            ),
            Act::Dissolve { letters } => {
                let cup = additions::cup_for(self.additions, letters, here, notes);
                (
                    StepAct::Dissolve {
                        letters: letters.clone(),
                        cup,
                    },
                    here,
                )
            }
            Act::Add { letters } => (
                StepAct::Add {
                    letters: letters.clone(),
                },
                here,
            ),
            Act::Strain { letters } => (
                StepAct::Strain {
                    letters: letters.clone(),
                },
                here,
            ),
            Act::Enter { at_most } => {
                let before = self.liquor.load_without_goods(self.wishes);
                let mixed = self.heating.entered(before, self.liquor.goods(self.wishes), here);
                self.goods_in = true;
                (
                    StepAct::Enter {
                        at_most: at_most.chosen,
                    },
                    mixed,
                )
            }
            Act::Raise { to, ramp } => {
                let to = self.below_boil(to.chosen, notes);
                let come_up = self.raise(to, ramp.as_ref().map(|ramp| ramp.chosen), notes);
                (
                    StepAct::Raise {
                        from: here,
                        to,
                        come_up,
                    },
                    to,
                )
            }
            Act::Hold {
                span,
                floor,
                ceiling,
                turn_every,
            } => {
                self.judge_hold(floor.chosen, notes);
                self.hold = Some(MainHold {
                    at: here,
                    span: span.chosen,
                });
                self.come_up.clone_from(&self.raises);
                let ceiling = ceiling.chosen.least(self.boil).most(here);
                let turn_every = turn_every.as_ref().map(|every| every.chosen);
                let floor = floor.chosen.least(here);
                (
                    StepAct::Hold {
                        at: here,
                        floor,
                        ceiling,
                        span: span.chosen,
                        turn_every,
                    },
                    here,
                )
            }
            Act::Cool { to, lid_on } => {
                let to = to.chosen;
                let lid = if *lid_on {
                    crate::craft::vessel::Lid::Loose
                } else {
                    crate::craft::vessel::Lid::Off
                };
                let cool_down = self.heating.cool(self.load(), here, to, lid);
                self.raises = self.raises.take().map(|_| Vec::new());
                (
                    StepAct::Cool {
                        from: here,
                        to,
                        cool_down,
                        lid_on: *lid_on,
                    },
                    to.least(here),
                )
            }
            Act::Lift => {
                self.goods_in = false;
                (StepAct::Lift, here)
            }
            Act::Squeeze => (StepAct::Squeeze, here),
            Act::Rinse { times, until_clear } => (
                StepAct::Rinse {
                    times: *times,
                    until_clear: *until_clear,
                },
                here,
            ),
            Act::Air { span } => (StepAct::Air { span: span.chosen }, here),
            Act::Rest { span } => (StepAct::Rest { span: span.chosen }, here),
            Act::Dry => (StepAct::Dry, here),
            Act::Shelve => (StepAct::Shelve, here),
        };
        self.push(act, step.how.as_deref(), step.caution.as_deref(), to);
    }

    /// A temperature the bath may be raised to here: never closer to the boil than the margin.
    fn below_boil(&self, asked: Temperature, notes: &mut Notes) -> Temperature {
        let most = Temperature::saturating_celsius(self.boil.celsius() - BOIL_MARGIN_K);
        if asked > most {
            let warning = SheetWarning::HoldLowered {
                asked,
                lowered: most,
                boil: self.boil,
            };
            if !notes.warnings.contains(&warning) {
                notes.warnings.push(warning);
            }
        }
        asked.least(most)
    }

    fn judge_hold(&self, floor: Temperature, notes: &mut Notes) {
        if floor > self.temperature && floor.celsius() > self.boil.celsius() - BOIL_MARGIN_K {
            let refusal = SheetRefusal::BoilsBelowHold {
                boil: self.boil,
                floor,
                margin_k: BOIL_MARGIN_K,
            };
            notes.refusals.push(refusal);
        }
    }

    fn raise(
        &mut self,
        to: Temperature,
        ramp: Option<crate::craft::quantity::Ramp>,
        notes: &mut Notes,
    ) -> Option<Band<Span>> {
        let raise = self.heating.come_up(self.load(), self.temperature, to, ramp);
        if raise.doubtful {
            notes.warnings.push(SheetWarning::MayNotGetThere {
                target: to,
                ways: raise.ways.clone(),
            });
        }
        match (raise.band, self.raises.as_mut()) {
            (Some(band), Some(raises)) => raises.push(band),
            (Some(_), None) => {}
            (None, _) => {
                self.raises = None;
                notes.refusals.push(SheetRefusal::NeverGetsThere {
                    target: to,
                    ways: raise.ways,
                });
            }
        }
        raise.band
    }
}

/// Bands one after the other, as independent spreads.
fn in_sequence(bands: &[Band<Span>]) -> Band<Span> {
    let likely: f64 = bands.iter().map(|band| band.likely.minutes()).sum();
    let below: f64 = bands
        .iter()
        .map(|band| (band.likely.minutes() - band.low.minutes()).powi(2))
        .sum();
    let above: f64 = bands
        .iter()
        .map(|band| (band.high.minutes() - band.likely.minutes()).powi(2))
        .sum();
    Band {
        low: Span::from_fractional_minutes(likely - below.sqrt()),
        likely: Span::from_fractional_minutes(likely),
        high: Span::from_fractional_minutes(likely + above.sqrt()),
    }
}

#[expect(
    clippy::too_many_arguments,
    reason = "each is one computed number that needs its working told"
)]
fn heat_workings(
    notes: &mut Notes,
    wishes: &Wishes,
    liquor: &Liquor,
    hold: Option<MainHold>,
    come_up: Option<&[Band<Span>]>,
    cool: &[Option<Band<Span>>; 5],
    evaporation: Option<super::bath_sheet::Evaporation>,
    hold_power: Option<crate::craft::quantity::Power>,
) {
    let Some(hold) = hold else { return };
    let stove = &wishes.stove;
    let pot = |notes: &mut Notes, what: &str, formula, result| {
        let inputs = vec![
            ("bath".into(), Measured::new(liquor.bath.litres(), "L")),
            ("burner".into(), Measured::new(stove.burner.power.watts(), "W")),
            (
                "pot diameter".into(),
                Measured::new(stove.pot.diameter.centimetres(), "cm"),
            ),
            ("room".into(), Measured::new(stove.room.celsius(), "C")),
            ("hold".into(), Measured::new(hold.at.celsius(), "C")),
        ];
        notes.working(
            what,
            inputs,
            formula,
            result,
            "the pot's heat balance; docs/sums.md, heat",
        );
    };
    if let Some(raises) = come_up {
        let band = in_sequence(raises);
        pot(
            notes,
            "come-up, likely",
            "heat into the pot less its losses warms bath, goods and pot, no faster than the ramp",
            Measured::new(band.likely.minutes(), "min"),
        );
    }
    for (mark, band) in COOL_MARKS.iter().zip(cool) {
        if let Some(band) = band {
            pot(
                notes,
                &format!("cool-down to {mark:.0} C, likely"),
                "heat off: the losses of surface, walls and base cool bath, goods and pot",
                Measured::new(band.likely.minutes(), "min"),
            );
        }
    }
    if let Some(lost) = evaporation {
        pot(
            notes,
            "evaporation at the hold, still",
            "water vapour leaving the surface by natural convection, held back by the lid",
            Measured::new(lost.still, "g/min"),
        );
    }
    if let Some(power) = hold_power {
        pot(
            notes,
            "power to hold, net",
            "what the pot loses at the hold temperature",
            Measured::new(power.watts(), "W"),
        );
    }
}
