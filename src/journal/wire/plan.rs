//! A plan to JSON and back. Units close the names of the keys; nothing is rounded.

use serde::{Deserialize, Serialize};

use super::BodyFault;
use crate::craft::fibre::Fibre;
use crate::craft::lot::LotId;
use crate::craft::quantity::{Band, Length, LiquorRatio, Mass, Power, Temperature, Volume};
use crate::craft::time::Span;
use crate::craft::vessel::{Burner, BurnerKind, Lid, Pot, PotMetal};
use crate::recipe::model::{BathKind, Letter};
use crate::sheet::plan::{Goods, Plan, PlannedAddition, Step, StepAct};

/// The twin of a plan.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct PlanTwin {
    recipe_id: String,
    recipe_name: String,
    kind: BathKindTwin,
    goods: GoodsTwin,
    pot: PotTwin,
    burner: BurnerTwin,
    lid: LidTwin,
    room_celsius: f64,
    bath_litres: f64,
    liquor_litres_per_kg: f64,
    boil_celsius: f64,
    hold_power_watts: Option<f64>,
    additions: Vec<AdditionTwin>,
    steps: Vec<StepTwin>,
    cautions: Vec<String>,
}

impl PlanTwin {
    pub(super) fn of(plan: &Plan) -> Self {
        // Taken apart field by field, so that a new field stops the build here.
        let Plan {
            recipe_id,
            recipe_name,
            kind,
            goods,
            pot,
            burner,
            lid,
            room,
            bath,
            liquor_ratio,
            boil,
            hold_power,
            additions,
            steps,
            cautions,
        } = plan;
        Self {
            recipe_id: recipe_id.clone(),
            recipe_name: recipe_name.clone(),
            kind: (*kind).into(),
            goods: GoodsTwin::of(goods),
            pot: PotTwin::of(pot),
            burner: BurnerTwin::of(burner),
            lid: (*lid).into(),
            room_celsius: room.celsius(),
            bath_litres: bath.litres(),
            liquor_litres_per_kg: liquor_ratio.litres_per_kg(),
            boil_celsius: boil.celsius(),
            hold_power_watts: hold_power.map(Power::watts),
            additions: additions.iter().map(AdditionTwin::of).collect(),
            steps: steps.iter().map(StepTwin::of).collect(),
            cautions: cautions.clone(),
        }
    }

    pub(super) fn plan(self) -> Result<Plan, BodyFault> {
        Ok(Plan {
            recipe_id: self.recipe_id,
            recipe_name: self.recipe_name,
            kind: self.kind.into(),
            goods: self.goods.goods()?,
            pot: self.pot.pot()?,
            burner: self.burner.burner()?,
            lid: self.lid.into(),
            room: Temperature::from_celsius(self.room_celsius)?,
            bath: Volume::from_litres(self.bath_litres)?,
            liquor_ratio: LiquorRatio::from_litres_per_kg(self.liquor_litres_per_kg)?,
            boil: Temperature::from_celsius(self.boil_celsius)?,
            hold_power: self.hold_power_watts.map(Power::from_watts).transpose()?,
            additions: self
                .additions
                .into_iter()
                .map(AdditionTwin::addition)
                .collect::<Result<_, _>>()?,
            steps: self
                .steps
                .into_iter()
                .map(StepTwin::step)
                .collect::<Result<_, _>>()?,
            cautions: self.cautions,
        })
    }
}

/// A closed list of names and its twin, matched both ways.
macro_rules! twin {
    ($twin:ident = $core:ident { $($name:ident),+ }) => {
        #[derive(Serialize, Deserialize)]
        #[serde(rename_all = "kebab-case")]
        enum $twin { $($name),+ }

        impl From<$core> for $twin {
            fn from(core: $core) -> Self {
                match core { $($core::$name => Self::$name),+ }
            }
        }

        impl From<$twin> for $core {
            fn from(twin: $twin) -> Self {
                match twin { $($twin::$name => Self::$name),+ }
            }
        }
    };
}

twin!(
    BathKindTwin = BathKind {
        Scour,
        Mordant,
        Tannin,
        Fixing,
        Dye,
        AfterBath,
        Vat
    }
);
twin!(
    FibreTwin = Fibre {
        Wool,
        SuperwashWool,
        Alpaca,
        Mohair,
        Silk,
        RawSilk,
        Cotton,
        Linen,
        Hemp
    }
);
twin!(
    PotMetalTwin = PotMetal {
        Stainless,
        Enamel,
        Aluminium,
        Copper,
        Iron,
        Glass
    }
);
twin!(LidTwin = Lid { Off, Loose, Tight });
twin!(
    BurnerKindTwin = BurnerKind {
        Induction,
        Ceramic,
        Coil,
        Gas
    }
);

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct GoodsTwin {
    fibre: FibreTwin,
    dry_grams: f64,
    hanks: u32,
    /// Left out by programs that had no shelf, and for goods without a tag.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    lot: Option<u32>,
}

impl GoodsTwin {
    fn of(goods: &Goods) -> Self {
        let Goods {
            fibre,
            dry,
            hanks,
            lot,
        } = goods;
        Self {
            fibre: (*fibre).into(),
            dry_grams: dry.grams(),
            hanks: *hanks,
            lot: lot.map(LotId::number),
        }
    }

    fn goods(self) -> Result<Goods, BodyFault> {
        Ok(Goods {
            fibre: self.fibre.into(),
            dry: Mass::from_grams(self.dry_grams)?,
            hanks: self.hanks,
            lot: self.lot.map(LotId::from_number).transpose()?,
        })
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct PotTwin {
    capacity_litres: f64,
    diameter_cm: f64,
    metal: PotMetalTwin,
}

impl PotTwin {
    fn of(pot: &Pot) -> Self {
        let Pot {
            capacity,
            diameter,
            metal,
        } = pot;
        Self {
            capacity_litres: capacity.litres(),
            diameter_cm: diameter.centimetres(),
            metal: (*metal).into(),
        }
    }

    fn pot(self) -> Result<Pot, BodyFault> {
        Ok(Pot {
            capacity: Volume::from_litres(self.capacity_litres)?,
            diameter: Length::from_centimetres(self.diameter_cm)?,
            metal: self.metal.into(),
        })
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct BurnerTwin {
    kind: BurnerKindTwin,
    watts: f64,
}

impl BurnerTwin {
    fn of(burner: &Burner) -> Self {
        let Burner { kind, power } = burner;
        Self {
            kind: (*kind).into(),
            watts: power.watts(),
        }
    }

    fn burner(self) -> Result<Burner, BodyFault> {
        Ok(Burner {
            kind: self.kind.into(),
            power: Power::from_watts(self.watts)?,
        })
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct AdditionTwin {
    letter: char,
    ware_id: String,
    name: String,
    target_grams: f64,
    tolerance_grams: f64,
    percent_wof: Option<f64>,
    bagged: bool,
}

impl AdditionTwin {
    fn of(addition: &PlannedAddition) -> Self {
        let PlannedAddition {
            letter,
            ware_id,
            name,
            target,
            tolerance,
            percent_wof,
            bagged,
        } = addition;
        Self {
            letter: letter.0,
            ware_id: ware_id.clone(),
            name: name.clone(),
            target_grams: target.grams(),
            tolerance_grams: tolerance.grams(),
            percent_wof: *percent_wof,
            bagged: *bagged,
        }
    }

    fn addition(self) -> Result<PlannedAddition, BodyFault> {
        Ok(PlannedAddition {
            letter: Letter(self.letter),
            ware_id: self.ware_id,
            name: self.name,
            target: Mass::from_grams(self.target_grams)?,
            tolerance: Mass::from_grams(self.tolerance_grams)?,
            percent_wof: self.percent_wof,
            bagged: self.bagged,
        })
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct StepTwin {
    act: ActTwin,
    how: Option<String>,
    caution: Option<String>,
    usual: SpansTwin,
}

impl StepTwin {
    fn of(step: &Step) -> Self {
        let Step {
            act,
            how,
            caution,
            usual,
        } = step;
        Self {
            act: ActTwin::of(act),
            how: how.clone(),
            caution: caution.clone(),
            usual: SpansTwin::of(usual),
        }
    }

    fn step(self) -> Result<Step, BodyFault> {
        Ok(Step {
            act: self.act.act()?,
            how: self.how,
            caution: self.caution,
            usual: self.usual.spans(),
        })
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct SpansTwin {
    low_ms: u64,
    likely_ms: u64,
    high_ms: u64,
}

impl SpansTwin {
    fn of(band: &Band<Span>) -> Self {
        let Band { low, likely, high } = band;
        Self {
            low_ms: low.ms(),
            likely_ms: likely.ms(),
            high_ms: high.ms(),
        }
    }

    fn spans(self) -> Band<Span> {
        Band {
            low: Span::from_ms(self.low_ms),
            likely: Span::from_ms(self.likely_ms),
            high: Span::from_ms(self.high_ms),
        }
    }
}

#[derive(Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "kebab-case", deny_unknown_fields)]
enum ActTwin {
    WetOut {
        least_ms: u64,
    },
    Weigh {
        letter: char,
    },
    Fill {
        water_litres: f64,
        level_cm: f64,
    },
    Dissolve {
        letters: Vec<char>,
        cup_litres: f64,
    },
    Add {
        letters: Vec<char>,
    },
    Strain {
        letters: Vec<char>,
    },
    Enter {
        at_most_celsius: f64,
    },
    Raise {
        from_celsius: f64,
        to_celsius: f64,
        come_up: Option<SpansTwin>,
    },
    Hold {
        at_celsius: f64,
        floor_celsius: f64,
        ceiling_celsius: f64,
        span_ms: u64,
        turn_every_ms: Option<u64>,
    },
    Cool {
        from_celsius: f64,
        to_celsius: f64,
        cool_down: Option<SpansTwin>,
        lid_on: bool,
    },
    Lift {},
    Squeeze {},
    Rinse {
        times: u32,
        until_clear: bool,
    },
    Air {
        span_ms: u64,
    },
    Rest {
        span_ms: u64,
    },
    Dry {},
    Shelve {},
}

impl ActTwin {
    fn of(act: &StepAct) -> Self {
        match act {
            StepAct::WetOut { least } => Self::WetOut { least_ms: least.ms() },
            StepAct::Weigh { letter } => Self::Weigh { letter: letter.0 },
            StepAct::Fill { water, level } => Self::Fill {
                water_litres: water.litres(),
                level_cm: level.centimetres(),
            },
            StepAct::Dissolve { letters, cup } => Self::Dissolve {
                letters: chars(letters),
                cup_litres: cup.litres(),
            },
            StepAct::Add { letters } => Self::Add {
                letters: chars(letters),
            },
            StepAct::Strain { letters } => Self::Strain {
                letters: chars(letters),
            },
            StepAct::Enter { at_most } => Self::Enter {
                at_most_celsius: at_most.celsius(),
            },
            StepAct::Raise { from, to, come_up } => Self::Raise {
                from_celsius: from.celsius(),
                to_celsius: to.celsius(),
                come_up: come_up.as_ref().map(SpansTwin::of),
            },
            StepAct::Hold {
                at,
                floor,
                ceiling,
                span,
                turn_every,
            } => Self::Hold {
                at_celsius: at.celsius(),
                floor_celsius: floor.celsius(),
                ceiling_celsius: ceiling.celsius(),
                span_ms: span.ms(),
                turn_every_ms: turn_every.map(Span::ms),
            },
            StepAct::Cool {
                from,
                to,
                cool_down,
                lid_on,
            } => Self::Cool {
                from_celsius: from.celsius(),
                to_celsius: to.celsius(),
                cool_down: cool_down.as_ref().map(SpansTwin::of),
                lid_on: *lid_on,
            },
            StepAct::Lift => Self::Lift {},
            StepAct::Squeeze => Self::Squeeze {},
            StepAct::Rinse { times, until_clear } => Self::Rinse {
                times: *times,
                until_clear: *until_clear,
            },
            StepAct::Air { span } => Self::Air { span_ms: span.ms() },
            StepAct::Rest { span } => Self::Rest { span_ms: span.ms() },
            StepAct::Dry => Self::Dry {},
            StepAct::Shelve => Self::Shelve {},
        }
    }

    fn act(self) -> Result<StepAct, BodyFault> {
        Ok(match self {
            Self::WetOut { least_ms } => StepAct::WetOut {
                least: Span::from_ms(least_ms),
            },
            Self::Weigh { letter } => StepAct::Weigh {
                letter: Letter(letter),
            },
            Self::Fill {
                water_litres,
                level_cm,
            } => StepAct::Fill {
                water: Volume::from_litres(water_litres)?,
                level: Length::from_centimetres(level_cm)?,
            },
            Self::Dissolve { letters, cup_litres } => StepAct::Dissolve {
                letters: of_chars(letters),
                cup: Volume::from_litres(cup_litres)?,
            },
            Self::Add { letters } => StepAct::Add {
                letters: of_chars(letters),
            },
            Self::Strain { letters } => StepAct::Strain {
                letters: of_chars(letters),
            },
            Self::Enter { at_most_celsius } => StepAct::Enter {
                at_most: Temperature::from_celsius(at_most_celsius)?,
            },
            Self::Raise {
                from_celsius,
                to_celsius,
                come_up,
            } => StepAct::Raise {
                from: Temperature::from_celsius(from_celsius)?,
                to: Temperature::from_celsius(to_celsius)?,
                come_up: come_up.map(SpansTwin::spans),
            },
            Self::Hold {
                at_celsius,
                floor_celsius,
                ceiling_celsius,
                span_ms,
                turn_every_ms,
            } => StepAct::Hold {
                at: Temperature::from_celsius(at_celsius)?,
                floor: Temperature::from_celsius(floor_celsius)?,
                ceiling: Temperature::from_celsius(ceiling_celsius)?,
                span: Span::from_ms(span_ms),
                turn_every: turn_every_ms.map(Span::from_ms),
            },
            Self::Cool {
                from_celsius,
                to_celsius,
                cool_down,
                lid_on,
            } => StepAct::Cool {
                from: Temperature::from_celsius(from_celsius)?,
                to: Temperature::from_celsius(to_celsius)?,
                cool_down: cool_down.map(SpansTwin::spans),
                lid_on,
            },
            Self::Lift {} => StepAct::Lift,
            Self::Squeeze {} => StepAct::Squeeze,
            Self::Rinse { times, until_clear } => StepAct::Rinse { times, until_clear },
            Self::Air { span_ms } => StepAct::Air {
                span: Span::from_ms(span_ms),
            },
            Self::Rest { span_ms } => StepAct::Rest {
                span: Span::from_ms(span_ms),
            },
            Self::Dry {} => StepAct::Dry,
            Self::Shelve {} => StepAct::Shelve,
        })
    }
}

fn chars(letters: &[Letter]) -> Vec<char> {
    letters.iter().map(|letter| letter.0).collect()
}

fn of_chars(letters: Vec<char>) -> Vec<Letter> {
    letters.into_iter().map(Letter).collect()
}
