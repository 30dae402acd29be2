//! The record of a bath: its numbers against those worked out from the script by hand, and its way through a page.

use potside::journal::id::BathId;
use potside::journal::record::{BathRecord, RECORD_FORMAT, RecordFault, read};
use potside::journal::seal::{list_pages, seal};
use serde_json::{Value, json};

use super::support::fault_store::FaultStore;
use super::support::finished::{EVENTFUL, eventful, record_of};

fn near(got: Option<f64>, wanted: f64) -> bool {
    got.is_some_and(|got| (got - wanted).abs() < 1e-6)
}

#[test]
fn plan_and_actual_stand_side_by_side() {
    let record = eventful();

    assert_eq!(record.ended, "closed");
    let weigh = &record.steps[1];
    assert_eq!((weigh.planned.grams, weigh.actual_g), (Some(15.0), Some(16.2)));
    assert_eq!((weigh.began_min, weigh.ended_min), (Some(1.0), Some(4.0)));
    assert_eq!(
        (record.additions[0].ware.as_str(), record.additions[0].actual_g),
        ("potash-alum", Some(16.2))
    );
    let raise = &record.steps[6];
    assert_eq!((raise.how.as_str(), raise.reading_c), ("read", Some(85.0)));
    assert_eq!((raise.began_min, raise.ended_min), (Some(40.0), Some(75.0)));
    assert_eq!(
        record
            .readings
            .iter()
            .map(|read| (read.at_min, read.celsius))
            .collect::<Vec<_>>(),
        [(55.0, 60.5), (75.0, 85.0)]
    );
}

#[test]
fn a_hold_tells_turns_and_the_time_held_across_an_outage() {
    let record = eventful();

    // 46 min to the last fact before the outage, 10 min on the dyer's word, 5 min after it.
    let hold = &record.steps[7];
    assert!(near(hold.held_min, 61.0), "{:?}", hold.held_min);
    assert_eq!(hold.planned.span_min, Some(60.0));
    assert_eq!(
        (hold.planned.floor_c, hold.planned.ceiling_c),
        (Some(80.0), Some(93.0))
    );
    assert_eq!(
        record
            .turns
            .iter()
            .map(|turn| (turn.number, turn.missed))
            .collect::<Vec<_>>(),
        [(1, false), (2, true), (3, false)]
    );
    // The clock of the bath goes on from 2:01 by the ten minutes it was away at least.
    let outage = &record.outages[0];
    assert_eq!(
        (outage.back_min, outage.at_least_min, outage.at_most_min),
        (131.0, 10.0, None)
    );
    assert_eq!(outage.answer.as_deref(), Some("count-it"));
    assert_eq!(hold.ended_min, Some(137.0));
}

#[test]
fn what_was_taken_back_and_what_was_skipped_stay_in_the_record() {
    let record = eventful();

    let back = &record.taken_back[0];
    assert_eq!(
        (back.at_min, back.step, back.was.as_str()),
        (3.0, 2, "weighed 14.8 g")
    );
    let cool = &record.steps[8];
    assert_eq!(
        (cool.how.as_str(), cool.reason.as_deref()),
        ("skipped", Some("enough-by-eye"))
    );
}

#[test]
fn a_turn_taken_back_leaves_the_missed_reminder_after_it() {
    let upto_turn = EVENTFUL.split("2:01").next().unwrap();

    let record = record_of(&format!("{upto_turn}2:00:30 pot 1 take-back\n 2:02 pot 1 stop"));

    assert_eq!(record.ended, "stopped");
    let turns: Vec<_> = record
        .turns
        .iter()
        .map(|turn| (turn.number, turn.missed))
        .collect();
    assert!(turns.contains(&(2, true)), "{turns:?}");
    assert!(!turns.contains(&(1, false)), "{turns:?}");
    assert_eq!(
        turns.iter().filter(|turn| **turn == (2, true)).count(),
        1,
        "{turns:?}"
    );
    assert_eq!(record.taken_back[1].was, "turn 1");
}

#[test]
fn a_hold_that_dropped_tells_from_when_to_when() {
    let upto_hold = EVENTFUL.split("1:31").next().unwrap();

    let record = record_of(&format!(
        "{upto_hold}1:25 pot 1 reading 77\n 1:40 pot 1 reading 82\n 1:41 pot 1 stop"
    ));

    let drop = record.drops[0];
    assert_eq!((drop.step, drop.at_min, drop.back_min), (8, 85.0, Some(100.0)));
}

#[test]
fn the_planned_course_goes_through_the_plan_and_cools_as_newton_has_it() {
    let record = eventful();

    // Two likely minutes a step by hand; entering ends two minutes after the soak of thirty; then 36, 60 and 170 min.
    assert_eq!(record.steps[5].planned.ends_min, 34.0);
    let at = |minute: f64| {
        let found = record
            .course
            .iter()
            .find(|point| (point.at_min - minute).abs() < 1e-6);
        found.map(|point| point.celsius)
    };
    assert!(near(at(34.0), 40.0) && near(at(70.0), 85.0) && near(at(130.0), 85.0) && near(at(300.0), 40.0));
    // Newton's law of cooling: at half the time the excess over the room is the geometric mean of both ends'.
    let middle = at(215.0).unwrap();
    assert!(
        (middle - (20.0 + (65.0_f64 * 20.0).sqrt())).abs() < 1e-6,
        "{middle}"
    );
}

#[test]
fn a_record_comes_back_from_its_page_as_it_was_sealed() {
    let record = eventful().with_recipe("id = \"test-alum\" # \u{e4}\n");
    let content = serde_json::to_value(&record).unwrap();
    let mut daybook = FaultStore::default();

    seal(&mut daybook, &BathId::from_text(&record.bath).unwrap(), &content).unwrap();

    let pages = list_pages(&mut daybook).unwrap();
    let page = pages[0].page.as_ref().unwrap();
    assert_eq!(read(&page.content), Ok(record));
}

#[test]
fn the_same_facts_give_the_same_record_to_the_byte() {
    let bytes = |record: &BathRecord| serde_json::to_vec(record).unwrap();

    assert_eq!(bytes(&eventful()), bytes(&eventful()));
}

#[test]
fn unknown_keys_are_passed_over_and_newer_formats_refused_in_words() {
    let with = |key: &str, value: Value| {
        let mut content = serde_json::to_value(eventful()).unwrap();
        content[key] = value;
        read(&content)
    };

    assert_eq!(with("weather", json!("rain")), Ok(eventful()));
    let newer = with("format", json!(RECORD_FORMAT + 1)).unwrap_err();
    assert_eq!(newer, RecordFault::Newer { format: 2 });
    assert!(newer.to_string().contains("a newer Potside"), "{newer}");
    assert_eq!(with("format", json!("one")), Err(RecordFault::NoFormat));
    assert!(matches!(
        with("steps", json!(3)),
        Err(RecordFault::Shape { format: 1, .. })
    ));
}

/// Every key, where it stands, so that none goes undescribed.
fn keys(of: &Value, into: &mut std::collections::BTreeSet<String>) {
    match of {
        Value::Object(fields) => {
            for (key, value) in fields {
                into.insert(key.clone());
                keys(value, into);
            }
        }
        Value::Array(items) => items.iter().for_each(|item| keys(item, into)),
        _ => {}
    }
}

#[test]
fn every_key_of_a_record_is_described() {
    let page =
        std::fs::read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/docs/journal-format.md")).unwrap();
    let (_, described) = page.split_once("## The record").unwrap();
    let upto_hold = EVENTFUL.split("1:31").next().unwrap();
    let dropped = record_of(&format!("{upto_hold}1:25 pot 1 reading 77\n 1:41 pot 1 stop"));
    let mut found = std::collections::BTreeSet::new();
    for record in [eventful().with_recipe("x"), dropped] {
        keys(&serde_json::to_value(record).unwrap(), &mut found);
    }

    assert!(found.len() > 60, "{}", found.len());
    let bare: Vec<_> = found
        .iter()
        .filter(|key| !described.contains(&format!("`{key}`")))
        .collect();

    assert!(
        bare.is_empty(),
        "docs/journal-format.md doesn't say what these hold: {bare:?}"
    );
}
