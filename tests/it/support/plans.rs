//! Plans made by hand, so that a test of the machine doesn't depend on the sums.

use std::sync::Arc;

use potside::craft::fibre::Fibre;
use potside::craft::quantity::{Band, Length, LiquorRatio, Mass, Power, Temperature, Volume};
use potside::craft::time::Span;
use potside::craft::vessel::{Burner, BurnerKind, Lid, Pot, PotMetal};
use potside::recipe::model::{BathKind, Letter};
use potside::sheet::plan::{Goods, Plan, PlannedAddition, Step, StepAct};

pub(crate) fn celsius(value: f64) -> Temperature {
    Temperature::from_celsius(value).unwrap()
}

pub(crate) fn grams(value: f64) -> Mass {
    Mass::from_grams(value).unwrap()
}

pub(crate) fn minutes(low: u64, likely: u64, high: u64) -> Band<Span> {
    Band {
        low: Span::from_minutes(low),
        likely: Span::from_minutes(likely),
        high: Span::from_minutes(high),
    }
}

fn step(act: StepAct) -> Step {
    let usual = match &act {
        StepAct::Hold { span, .. } => Band {
            low: *span,
            likely: *span,
            high: *span,
        },
        StepAct::Raise {
            come_up: Some(band), ..
        } => *band,
        StepAct::Cool {
            cool_down: Some(band),
            ..
        } => *band,
        _ => minutes(1, 2, 3),
    };
    Step {
        act,
        how: None,
        caution: None,
        usual,
    }
}

/// 100 g of wool in alum: soak, weigh, fill, warm, dissolve, add, enter, raise, hold an hour, cool, lift, shelve.
pub(crate) fn alum_bath() -> Arc<Plan> {
    let a = Letter('A');
    Arc::new(Plan {
        recipe_id: "test-alum".into(),
        recipe_name: "Test alum".into(),
        kind: BathKind::Mordant,
        goods: Goods {
            fibre: Fibre::Wool,
            dry: grams(100.0),
            hanks: 2,
            lot: None,
        },
        pot: Pot {
            capacity: Volume::from_litres(12.0).unwrap(),
            diameter: Length::from_centimetres(26.0).unwrap(),
            metal: PotMetal::Stainless,
        },
        burner: Burner {
            kind: BurnerKind::Induction,
            power: Power::from_watts(2_000.0).unwrap(),
        },
        lid: Lid::Loose,
        room: celsius(20.0),
        bath: Volume::from_litres(3.0).unwrap(),
        liquor_ratio: LiquorRatio::from_litres_per_kg(30.0).unwrap(),
        boil: celsius(99.97),
        hold_power: None,
        additions: vec![PlannedAddition {
            letter: a,
            ware_id: "potash-alum".into(),
            name: "alum (potash)".into(),
            target: grams(15.0),
            tolerance: grams(0.3),
            percent_wof: Some(15.0),
            bagged: false,
        }],
        steps: [
            StepAct::WetOut {
                least: Span::from_minutes(30),
            },
            StepAct::Weigh { letter: a },
            StepAct::Fill {
                water: Volume::from_litres(2.8).unwrap(),
                level: Length::from_centimetres(5.3).unwrap(),
            },
            StepAct::Dissolve {
                letters: vec![a],
                cup: Volume::from_litres(0.3).unwrap(),
            },
            StepAct::Add { letters: vec![a] },
            StepAct::Enter {
                at_most: celsius(45.0),
            },
            StepAct::Raise {
                from: celsius(40.0),
                to: celsius(85.0),
                come_up: Some(minutes(30, 36, 44)),
            },
            StepAct::Hold {
                at: celsius(85.0),
                floor: celsius(80.0),
                ceiling: celsius(93.0),
                span: Span::from_minutes(60),
                turn_every: Some(Span::from_minutes(15)),
            },
            StepAct::Cool {
                from: celsius(85.0),
                to: celsius(40.0),
                cool_down: Some(minutes(120, 170, 230)),
                lid_on: true,
            },
            StepAct::Lift,
            StepAct::Shelve,
        ]
        .into_iter()
        .map(step)
        .collect(),
        cautions: vec!["keep pot and spoon away from food".into()],
    })
}
