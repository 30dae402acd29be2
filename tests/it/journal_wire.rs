//! The machine's facts on the wire, and a bath taken up again from every prefix of its journal.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use potside::craft::fibre::Fibre;
use potside::craft::lot::LotId;
use potside::craft::quantity::{Band, Length, LiquorRatio, Mass, Power, Temperature, Volume};
use potside::craft::time::{Moment, Span, Stretch};
use potside::craft::vessel::{Burner, BurnerKind, Lid, Pot, PotMetal};
use potside::journal::id::ActId;
use potside::journal::line::{Entry, Link, Station, read_line, write_line};
use potside::journal::recover::recover;
use potside::journal::segment::segment_name;
use potside::journal::wire::{WireFault, entry_of, event_of, events_of};
use potside::journal::writer::{SEGMENT_KIND, Writer};
use potside::machine::call::CallKind;
use potside::machine::{Done, Event, Machine, PotNo, ReturnAnswer, SkipReason, What};
use potside::recipe::model::{BathKind, Letter};
use potside::sheet::plan::{Goods, Plan, PlannedAddition, Step, StepAct, StepIndex};
use proptest::prelude::*;
use proptest::sample::select;
use serde_json::Value;

use super::support::baths::bath;
use super::support::dye_bath::{judged_acts, plan};
use super::support::fault_store::FaultStore;

/// A machine that was told these facts.
fn told(events: &[Event]) -> Machine {
    let mut machine = Machine::default();
    for event in events {
        machine.apply(event);
    }
    machine
}

/// The bytes of a journal of these acts, written in two runs.
fn written(acts: &[Vec<Event>]) -> BTreeMap<String, Vec<u8>> {
    let store = FaultStore::default();
    let (first, second) = acts.split_at(acts.len() / 2);
    for acts in [first, second] {
        let recovered = recover(&mut [store.clone()], &bath());
        let mut writer = Writer::resume(&recovered, vec![store.clone()], "potside 0.1.0").unwrap();
        for (index, events) in acts.iter().enumerate() {
            let entries: Vec<_> = events.iter().map(|event| entry_of(event).unwrap()).collect();
            let act = ActId::from_text(&format!("a{}-{index}", events[0].at.steady_ms)).unwrap();
            assert!(
                writer
                    .append(Some(&act), &entries, events[0].at)
                    .unwrap()
                    .is_saved
            );
        }
    }
    store.live_files()
}

#[test]
fn a_bath_taken_up_from_any_whole_record_prefix_stands_where_it_stood() {
    let acts = judged_acts();
    let all: Vec<Event> = acts.concat();
    let files = written(&acts);
    let bytes = &files[&segment_name(2)];
    let ends: Vec<usize> = bytes
        .iter()
        .enumerate()
        .filter(|(_, byte)| **byte == b'\n')
        .map(|(at, _)| at + 1)
        .collect();
    let act_ends: BTreeSet<usize> = acts
        .iter()
        .scan(0, |count, act| {
            *count += act.len();
            Some(*count)
        })
        .collect();
    let mut seen = BTreeSet::new();

    for end in ends {
        let place = FaultStore::with_files(&BTreeMap::from([(segment_name(2), bytes[..end].to_vec())]));
        let events = events_of(&recover(&mut [place], &bath())).unwrap();

        assert_eq!(events, all[..events.len()]);
        assert_eq!(told(&events), told(&all[..events.len()]));
        assert!(
            events.is_empty() || act_ends.contains(&events.len()),
            "half an act came back"
        );
        seen.insert(events.len());
    }
    seen.remove(&0);
    assert_eq!(seen, act_ends, "every act has its prefix");
}

#[test]
fn the_invented_bath_goes_through_every_kind_of_fact_but_a_stop() {
    let kinds: BTreeSet<String> = judged_acts()
        .concat()
        .iter()
        .map(|event| entry_of(event).unwrap().what)
        .collect();

    let wanted = "bath_begun step_done step_skipped turned reading_taken hold_dropped hold_resumed \
                  taken_back call_raised calls_heard beat returned return_answered bath_closed turn_missed";
    let missing: Vec<&str> = wanted
        .split_whitespace()
        .filter(|kind| !kinds.contains(*kind))
        .collect();
    assert_eq!(missing, Vec::<&str>::new(), "of {kinds:?}");
}

#[test]
fn replaying_twice_gives_the_same_and_the_journals_own_records_are_passed_over() {
    let acts = judged_acts();
    let mut place = FaultStore::with_files(&written(&acts));

    let recovered = recover(std::slice::from_mut(&mut place), &bath());

    let own = recovered
        .records
        .iter()
        .filter(|record| record.entry.what == SEGMENT_KIND)
        .count();
    assert_eq!(own, 2);
    let events = events_of(&recovered).unwrap();
    assert_eq!(events, acts.concat());
    assert_eq!(told(&events), told(&events));
}

#[test]
fn an_unknown_kind_a_newer_wire_and_a_bad_body_are_told_apart_by_record() {
    let event = Event {
        at: moment(7),
        pot: PotNo(2),
        what: What::ReadingTaken {
            temperature: celsius(81.5),
        },
    };
    let good = entry_of(&event).unwrap();
    let spoilt = |spoil: &dyn Fn(&mut Entry)| {
        let mut entry = good.clone();
        spoil(&mut entry);
        event_of(9, &entry).unwrap_err().to_string()
    };

    assert_eq!(event_of(9, &good), Ok(event));
    assert_eq!(
        spoilt(&|entry| entry.what = "sung_to".into()),
        "record 9: kind \"sung_to\" is unknown to this program"
    );
    assert_eq!(
        spoilt(&|entry| drop(entry.body.insert("wire".into(), 2.into()))),
        "record 9: wire version 2 of \"reading_taken\"; this program reads version 1"
    );
    assert_eq!(
        spoilt(&|entry| drop(entry.body.insert("celsius".into(), 900.into()))),
        "record 9: body of \"reading_taken\": 900 C is not a temperature; a temperature is -30 to 130 C"
    );
    for (key, value) in [("celsius", "82".into()), ("mood", 1.into())] {
        let told = spoilt(&|entry| drop(entry.body.insert(key.into(), Value::clone(&value))));
        assert!(
            told.starts_with("record 9: body of \"reading_taken\": "),
            "{told}"
        );
    }
    assert!(spoilt(&|entry| entry.pot = None).contains("pot has no such value"));
    assert!(spoilt(&|entry| entry.pot = Some(300)).contains("pot has no such value"));
    let mut empty = good.clone();
    empty.body.clear();
    assert!(matches!(
        event_of(1, &empty),
        Err(WireFault::OtherWire { version: 0, .. })
    ));
}

#[test]
fn the_words_of_the_first_wire_version_are_read_and_written_letter_by_letter() {
    // If a line of this file stops being true, the wire version must rise and the old twin stay for reading.
    let kept = include_str!("../journals/v1/bath.txt");
    let mut kinds = BTreeSet::new();
    for line in kept.lines() {
        let (what, body) = line.split_once(' ').unwrap();
        let body = serde_json::from_str(body).unwrap();
        let entry = Entry {
            at: moment(0),
            what: what.to_owned(),
            pot: Some(2),
            body,
        };

        let event = event_of(1, &entry).unwrap_or_else(|told| panic!("{told}"));

        let again = entry_of(&event).unwrap();
        assert_eq!(format!("{} {}", again.what, Value::Object(again.body)), line);
        kinds.insert(what);
    }
    assert_eq!(kinds.len(), 16, "{kinds:?}");
}

#[test]
fn a_plan_of_the_longest_recipe_fits_a_line() {
    // 200 steps, each with a line of how and of caution of 200 characters: the bounds of a recipe.
    let mut long = plan();
    let mut step = long.steps[7].clone();
    step.how = Some("\u{e4}".repeat(200));
    step.caution = Some("x".repeat(200));
    long.steps = vec![step; 200];
    let what = What::BathBegun {
        bath_id: "b".into(),
        plan: Arc::new(long),
    };
    let entry = entry_of(&Event {
        at: moment(0),
        pot: PotNo(1),
        what,
    })
    .unwrap();
    let station = Station {
        n: 1,
        segment: 1,
        left: 0,
        act: None,
        link: Link::genesis(&bath()),
    };

    write_line(&station, &entry).unwrap();
}

fn moment(second: u64) -> Moment {
    Moment {
        stretch: Stretch(1),
        steady_ms: second * 1_000,
        wall_ms: 1_787_650_000_000,
    }
}

fn celsius(value: f64) -> Temperature {
    Temperature::from_celsius(value).unwrap()
}

macro_rules! any_quantity {
    ($name:ident, $type:ident, $from:ident) => {
        fn $name() -> impl Strategy<Value = $type> {
            ($type::LOW..=$type::HIGH).prop_map(|value| $type::$from(value).unwrap())
        }
    };
}
any_quantity!(mass, Mass, from_grams);
any_quantity!(volume, Volume, from_litres);
any_quantity!(temperature, Temperature, from_celsius);
any_quantity!(length, Length, from_centimetres);
any_quantity!(power, Power, from_watts);
any_quantity!(ratio, LiquorRatio, from_litres_per_kg);

fn span() -> impl Strategy<Value = Span> {
    any::<u64>().prop_map(Span::from_ms)
}

fn spans() -> impl Strategy<Value = Band<Span>> {
    (span(), span(), span()).prop_map(|(low, likely, high)| Band { low, likely, high })
}

fn letter() -> impl Strategy<Value = Letter> {
    any::<char>().prop_map(Letter)
}

fn letters() -> impl Strategy<Value = Vec<Letter>> {
    prop::collection::vec(letter(), 0..4)
}

fn act() -> impl Strategy<Value = StepAct> {
    prop_oneof![
        span().prop_map(|least| StepAct::WetOut { least }),
        letter().prop_map(|letter| StepAct::Weigh { letter }),
        (volume(), length()).prop_map(|(water, level)| StepAct::Fill { water, level }),
        (letters(), volume()).prop_map(|(letters, cup)| StepAct::Dissolve { letters, cup }),
        letters().prop_map(|letters| StepAct::Add { letters }),
        letters().prop_map(|letters| StepAct::Strain { letters }),
        temperature().prop_map(|at_most| StepAct::Enter { at_most }),
        (temperature(), temperature(), prop::option::of(spans()))
            .prop_map(|(from, to, come_up)| StepAct::Raise { from, to, come_up }),
        (
            temperature(),
            temperature(),
            temperature(),
            span(),
            prop::option::of(span())
        )
            .prop_map(|(at, floor, ceiling, span, turn_every)| StepAct::Hold {
                at,
                floor,
                ceiling,
                span,
                turn_every
            }),
        (
            temperature(),
            temperature(),
            prop::option::of(spans()),
            any::<bool>()
        )
            .prop_map(|(from, to, cool_down, lid_on)| StepAct::Cool {
                from,
                to,
                cool_down,
                lid_on
            }),
        select(vec![
            StepAct::Lift,
            StepAct::Squeeze,
            StepAct::Dry,
            StepAct::Shelve
        ]),
        (any::<u32>(), any::<bool>()).prop_map(|(times, until_clear)| StepAct::Rinse { times, until_clear }),
        span().prop_map(|span| StepAct::Air { span }),
        span().prop_map(|span| StepAct::Rest { span }),
    ]
}

fn step() -> impl Strategy<Value = Step> {
    (act(), any::<Option<String>>(), any::<Option<String>>(), spans()).prop_map(
        |(act, how, caution, usual)| Step {
            act,
            how,
            caution,
            usual,
        },
    )
}

fn addition() -> impl Strategy<Value = PlannedAddition> {
    let percent = prop::option::of(0.0..2_000.0_f64);
    (
        letter(),
        any::<(String, String)>(),
        mass(),
        mass(),
        percent,
        any::<bool>(),
    )
        .prop_map(
            |(letter, (ware_id, name), target, tolerance, percent_wof, bagged)| PlannedAddition {
                letter,
                ware_id,
                name,
                target,
                tolerance,
                percent_wof,
                bagged,
            },
        )
}

fn any_plan() -> impl Strategy<Value = Plan> {
    use BathKind::{AfterBath, Dye, Fixing, Mordant, Scour, Tannin, Vat};
    use BurnerKind::{Ceramic, Coil, Gas, Induction};
    use PotMetal::{Aluminium, Copper, Enamel, Glass, Iron, Stainless};
    let kinds = select(vec![Scour, Mordant, Tannin, Fixing, Dye, AfterBath, Vat]);
    let lot = proptest::option::of((1..=LotId::NUMBER_MAX).prop_map(|n| LotId::from_number(n).unwrap()));
    let goods =
        (select(Fibre::ALL.to_vec()), mass(), any::<u32>(), lot).prop_map(|(fibre, dry, hanks, lot)| Goods {
            fibre,
            dry,
            hanks,
            lot,
        });
    let metals = select(vec![Stainless, Enamel, Aluminium, Copper, Iron, Glass]);
    let pot = (volume(), length(), metals).prop_map(|(capacity, diameter, metal)| Pot {
        capacity,
        diameter,
        metal,
    });
    let burner = (select(vec![Induction, Ceramic, Coil, Gas]), power())
        .prop_map(|(kind, power)| Burner { kind, power });
    let lid = select(vec![Lid::Off, Lid::Loose, Lid::Tight]);
    let heat = (
        temperature(),
        volume(),
        ratio(),
        temperature(),
        prop::option::of(power()),
    );
    let lists = (
        prop::collection::vec(addition(), 0..4),
        prop::collection::vec(step(), 0..6),
        any::<Vec<String>>(),
    );
    (
        any::<(String, String)>(),
        kinds,
        goods,
        pot,
        burner,
        lid,
        heat,
        lists,
    )
        .prop_map(
            |((recipe_id, recipe_name), kind, goods, pot, burner, lid, heat, lists)| {
                let (room, bath, liquor_ratio, boil, hold_power) = heat;
                let (additions, steps, cautions) = lists;
                Plan {
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
                }
            },
        )
}

fn what() -> impl Strategy<Value = What> {
    use ReturnAnswer::{BackToRaise, CarryOn, CountIt, HoldAgain};
    let index = || any::<usize>().prop_map(StepIndex);
    let done = prop_oneof![
        Just(Done::AsPlanned),
        mass().prop_map(Done::Weighed),
        temperature().prop_map(Done::Read),
        Just(Done::Early),
    ];
    let call = prop_oneof![
        any::<u32>().prop_map(CallKind::Turn),
        select(vec![
            CallKind::Look,
            CallKind::ActDue,
            CallKind::HoldOver,
            CallKind::OverRun,
            CallKind::CoolEnough,
            CallKind::TooHot,
            CallKind::HeatUnattended,
            CallKind::Returned,
        ]),
    ];
    prop_oneof![
        (any::<String>(), any_plan()).prop_map(|(bath_id, plan)| What::BathBegun {
            bath_id,
            plan: Arc::new(plan)
        }),
        (index(), done).prop_map(|(step, done)| What::StepDone { step, done }),
        (index(), select(SkipReason::ALL.to_vec()))
            .prop_map(|(step, reason)| What::StepSkipped { step, reason }),
        (index(), any::<u32>()).prop_map(|(step, number)| What::Turned { step, number }),
        (index(), any::<u32>()).prop_map(|(step, number)| What::TurnMissed { step, number }),
        temperature().prop_map(|temperature| What::ReadingTaken { temperature }),
        index().prop_map(|step| What::HoldDropped { step }),
        index().prop_map(|step| What::HoldResumed { step }),
        call.prop_map(|call| What::CallRaised { call }),
        (span(), prop::option::of(span()))
            .prop_map(|(at_least, at_most)| What::Returned { at_least, at_most }),
        select(vec![CarryOn, CountIt, HoldAgain, BackToRaise])
            .prop_map(|answer| What::ReturnAnswered { answer }),
        select(vec![
            What::TakenBack,
            What::CallsHeard,
            What::Beat,
            What::BathStopped,
            What::BathClosed
        ]),
    ]
}

proptest! {
    #[test]
    fn any_fact_comes_back_from_its_line_exactly(
        what in what(),
        (stretch, steady_ms, wall_ms, pot) in any::<(u32, u64, i64, u8)>(),
    ) {
        let at = Moment { stretch: Stretch(stretch), steady_ms, wall_ms };
        let event = Event { at, pot: PotNo(pot), what };
        let station = Station { n: 5, segment: 1, left: 0, act: None, link: Link::genesis(&bath()) };

        let record = write_line(&station, &entry_of(&event).unwrap()).unwrap();
        let again = read_line(record.line().as_bytes()).unwrap();

        prop_assert_eq!(event_of(again.n, &again.entry).unwrap(), event);
    }
}
