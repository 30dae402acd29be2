//! An invented dye bath: a plan with every kind of step, and what a dyer did with it.

use std::sync::Arc;

use potside::craft::fibre::Fibre;
use potside::craft::quantity::{Band, Length, LiquorRatio, Mass, Power, Temperature, Volume};
use potside::craft::time::{Moment, Span, Stretch};
use potside::craft::vessel::{Burner, BurnerKind, Lid, Pot, PotMetal};
use potside::machine::{Ask, Event, Input, Machine, PotNo, ReturnAnswer, SkipReason};
use potside::recipe::model::{BathKind, Letter};
use potside::sheet::plan::{Goods, Plan, PlannedAddition, Step, StepAct, StepIndex};

pub const POT: PotNo = PotNo(2);

fn celsius(value: f64) -> Temperature {
    Temperature::from_celsius(value).unwrap()
}

pub fn plan() -> Plan {
    let (a, b) = (Letter('A'), Letter('B'));
    let span = Span::from_minutes(10);
    let band = Band {
        low: Span::from_minutes(20),
        likely: Span::from_minutes(30),
        high: Span::from_minutes(45),
    };
    let acts = vec![
        StepAct::WetOut {
            least: Span::from_minutes(30),
        },
        StepAct::Weigh { letter: a },
        StepAct::Fill {
            water: Volume::from_litres(2.9).unwrap(),
            level: Length::from_centimetres(13.1).unwrap(),
        },
        StepAct::Dissolve {
            letters: vec![a],
            cup: Volume::from_litres(0.25).unwrap(),
        },
        StepAct::Add { letters: vec![a, b] },
        StepAct::Enter {
            at_most: celsius(40.0),
        },
        StepAct::Raise {
            from: celsius(20.0),
            to: celsius(82.0),
            come_up: Some(band),
        },
        StepAct::Hold {
            at: celsius(82.0),
            floor: celsius(78.0),
            ceiling: celsius(88.0),
            span: Span::from_minutes(30),
            turn_every: Some(span),
        },
        StepAct::Strain { letters: vec![b] },
        StepAct::Cool {
            from: celsius(82.0),
            to: celsius(40.0),
            cool_down: Some(band),
            lid_on: true,
        },
        StepAct::Lift,
        StepAct::Squeeze,
        StepAct::Rinse {
            times: 3,
            until_clear: true,
        },
        StepAct::Air { span },
        StepAct::Rest { span },
        StepAct::Dry,
        StepAct::Shelve,
    ];
    let step = |act| Step {
        act,
        how: Some("slowly \u{2013} no felting".into()),
        caution: None,
        usual: band,
    };
    let addition = |letter, name: &str, grams: f64, bagged: bool| PlannedAddition {
        letter,
        ware_id: name.to_owned(),
        name: name.to_owned(),
        target: Mass::from_grams(grams).unwrap(),
        tolerance: Mass::from_grams(grams / 20.0).unwrap(),
        percent_wof: (!bagged).then_some(100.0 * grams / 123.4),
        bagged,
    };
    Plan {
        recipe_id: "test-madder".into(),
        recipe_name: "madder, invented".into(),
        kind: BathKind::Dye,
        goods: Goods {
            fibre: Fibre::Wool,
            dry: Mass::from_grams(123.4).unwrap(),
            hanks: 2,
            lot: None,
        },
        pot: Pot {
            capacity: Volume::from_litres(8.0).unwrap(),
            diameter: Length::from_centimetres(24.0).unwrap(),
            metal: PotMetal::Stainless,
        },
        burner: Burner {
            kind: BurnerKind::Coil,
            power: Power::from_watts(1_500.0).unwrap(),
        },
        lid: Lid::Loose,
        room: celsius(19.5),
        bath: Volume::from_litres(3.7 / 1.1).unwrap(),
        liquor_ratio: LiquorRatio::from_litres_per_kg(30.0).unwrap(),
        boil: celsius(99.7),
        hold_power: Some(Power::from_watts(412.0 / 3.0).unwrap()),
        additions: vec![
            addition(a, "alum", 18.51, false),
            addition(b, "madder-root", 61.7, true),
        ],
        steps: acts.into_iter().map(step).collect(),
        cautions: vec!["pots for dyeing are never used for food".into()],
    }
}

/// Everything a dyer did with it, an outage in the hold included, as the machine judged it: act by act.
pub fn judged_acts() -> Vec<Vec<Event>> {
    let mut bath = Acted {
        machine: Machine::default(),
        acts: Vec::new(),
        now: at(1, 0),
    };
    let begin = Input::Begin {
        pot: POT,
        bath_id: "2026-08-25-0931-k3f9".into(),
        plan: Arc::new(plan()),
        cautions_read: true,
    };
    bath.take(0, &begin);
    bath.confirm(1, 0);
    bath.ask(
        2,
        Ask::Weighed {
            step: StepIndex(1),
            mass: Mass::from_grams(18.3).unwrap(),
            sure: false,
        },
    );
    for index in 2..5 {
        bath.confirm(1, index);
    }
    bath.ask(
        40,
        Ask::Confirm {
            step: StepIndex(5),
            sure: true,
        },
    );
    bath.ask(1, Ask::Reading(celsius(31.25)));
    bath.ask(30, Ask::Reading(celsius(82.1)));
    bath.take(10, &Input::Tick);
    bath.ask(1, Ask::Heard);
    bath.confirm(1, 7);
    bath.take(1, &Input::Beat);
    bath.ask(1, Ask::Reading(celsius(70.0)));
    bath.ask(1, Ask::Reading(celsius(83.0)));
    bath.now = at(2, 5);
    bath.take(
        0,
        &Input::Returned {
            at_least: Span::from_minutes(3),
            at_most: None,
        },
    );
    bath.ask(1, Ask::AnswerReturn(ReturnAnswer::CarryOn));
    for _ in 0..5 {
        bath.take(15, &Input::Tick);
    }
    bath.ask(1, Ask::TakeBack);
    bath.ask(
        1,
        Ask::Skip {
            step: StepIndex(7),
            reason: SkipReason::EnoughByEye,
        },
    );
    bath.confirm(1, 8);
    bath.ask(50, Ask::Reading(celsius(39.0)));
    for index in 10..17 {
        bath.ask(
            60,
            Ask::Confirm {
                step: StepIndex(index),
                sure: true,
            },
        );
    }
    bath.acts
}

fn at(stretch: u32, minute: u64) -> Moment {
    Moment {
        stretch: Stretch(stretch),
        steady_ms: minute * 60_000,
        wall_ms: 1_787_650_000_000 + i64::try_from(minute).unwrap() * 60_000,
    }
}

struct Acted {
    machine: Machine,
    acts: Vec<Vec<Event>>,
    now: Moment,
}

impl Acted {
    fn confirm(&mut self, minutes: u64, index: usize) {
        self.ask(
            minutes,
            Ask::Confirm {
                step: StepIndex(index),
                sure: false,
            },
        );
    }

    fn ask(&mut self, minutes: u64, ask: Ask) {
        self.take(minutes, &Input::Pot(POT, ask));
    }

    fn take(&mut self, minutes: u64, input: &Input) {
        self.now = self.now.plus(Span::from_minutes(minutes));
        let events = self
            .machine
            .judge(input, self.now)
            .unwrap_or_else(|told| panic!("{input:?}: {told}"));
        for event in &events {
            self.machine.apply(event);
        }
        if !events.is_empty() {
            self.acts.push(events);
        }
    }
}
