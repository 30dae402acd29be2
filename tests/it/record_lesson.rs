//! What a daybook teaches of a pot: records of a pot whose true heat is known to the test alone narrow its bands about
//! the truth. Times come from the heat balance, which has its own checks against tables.

use potside::craft::heat::{Kettle, LogNormal, PotKnowledge, Ties, come_up, cool_down};
use potside::craft::learn::{Learned, Lesson, Under, learn_from};
use potside::craft::quantity::{Band, Temperature};
use potside::craft::time::{Moment, Span, Stretch};
use potside::craft::vessel::Lid;
use potside::journal::record::{BathRecord, OutageRecord, ReadingRecord, StepRecord, lesson};
use potside::machine::PotNo;
use potside::machine::rehearsal::play;
use potside::recipe::book;
use potside::sheet::BathSheet;

use super::support::sheets::{sheet, sheet_with};

/// A pot whose burner gets less in than is usual, and which loses more.
fn truth() -> PotKnowledge {
    PotKnowledge {
        efficiency: LogNormal::exactly(0.70),
        loss: LogNormal::exactly(1.35),
        lid: LogNormal::exactly(1.0),
        ties: Ties::NONE,
    }
}

/// The record of a rehearsed bath whose first raise and last cooling took what the true pot takes.
fn record_of_true_pot(sheet: &BathSheet) -> BathRecord {
    let mut record = rehearsed(sheet);
    let toml = book::text_of(&sheet.recipe.id).unwrap();
    record = record.with_recipe(toml);
    let celsius = Temperature::saturating_celsius;
    let kettle = |goods_in, lid| Kettle {
        lid,
        knowledge: truth(),
        ..sheet.plan.kettle(goods_in)
    };
    let first_raise = record.steps.iter().position(|step| step.kind == "raise").unwrap();
    let last_cool = record.steps.iter().rposition(|step| step.kind == "cool").unwrap();
    let mut now = 0.0;
    for (index, step) in record.steps.iter_mut().enumerate() {
        let (from, to) = (step.planned.from_c, step.planned.to_c);
        let minutes = if index == first_raise {
            come_up(
                &kettle(false, sheet.plan.lid),
                celsius(from.unwrap()),
                celsius(to.unwrap()),
                None,
            )
            .time
            .likely
            .unwrap()
            .minutes()
        } else if index == last_cool {
            step.reading_c = to;
            step.how = "read".into();
            let down = cool_down(
                &kettle(true, Lid::Loose),
                celsius(from.unwrap()),
                &[celsius(to.unwrap())],
            );
            down.into_iter().next().unwrap().likely.unwrap().minutes()
        } else {
            step.planned.likely_min
        };
        step.began_min = Some(now);
        now += minutes;
        step.ended_min = Some(now);
    }
    record
}

fn rehearsed(sheet: &BathSheet) -> BathRecord {
    let start = Moment {
        stretch: Stretch(0),
        steady_ms: 0,
        wall_ms: 0,
    };
    let machine = play(&sheet.plan, start, |_, _| {}).unwrap();
    BathRecord::of(machine.pot(PotNo(1)).unwrap())
}

fn width(band: Band<Span>) -> f64 {
    (band.high.minutes() / band.low.minutes()).ln()
}

#[test]
fn three_baths_in_the_daybook_halve_the_bands_and_hold_the_truth() {
    let before = sheet("onion-skin", "250g");
    let lessons: Vec<Lesson> = (0..3)
        .map(|_| lesson(&record_of_true_pot(&before)).unwrap())
        .collect();
    let stove = before.wishes.stove;
    let after = sheet_with("onion-skin", "250g", |wishes| {
        wishes.learned = learn_from(&lessons, &stove.pot, &stove.burner);
    });

    let Learned::Known {
        knowledge,
        bath_count: 3,
    } = after.wishes.learned
    else {
        panic!("{:?}", after.wishes.learned)
    };
    let away = (knowledge.efficiency.median() / 0.70).ln().abs();
    assert!(away < 1.5 * knowledge.efficiency.spread(), "{knowledge:?}");
    let minutes = |sheet: &BathSheet| {
        sheet
            .plan
            .steps
            .iter()
            .find_map(|step| match step.act {
                potside::sheet::plan::StepAct::Raise { come_up, .. } => come_up,
                _ => None,
            })
            .unwrap()
    };
    let (wide, narrow) = (minutes(&before), minutes(&after));
    let record = record_of_true_pot(&before);
    let raise = record.steps.iter().find(|step| step.kind == "raise").unwrap();
    let true_minutes = raise.ended_min.unwrap() - raise.began_min.unwrap();
    assert!(width(narrow) <= 0.5 * width(wide), "{wide:?} {narrow:?}");
    assert!((narrow.low.minutes()..=narrow.high.minutes()).contains(&true_minutes));
    let told = |sheet: &BathSheet| {
        let told = sheet
            .workings
            .iter()
            .find(|working| working.what.starts_with("this pot"))
            .unwrap();
        (told.inputs[0].1.value, told.formula.starts_with("not yet known"))
    };
    assert_eq!(told(&before), (0.0, true));
    assert_eq!(told(&after), (3.0, false));
}

#[test]
fn another_pot_or_burner_teaches_nothing() {
    let sheet = sheet("onion-skin", "100g");
    let lessons = vec![lesson(&record_of_true_pot(&sheet)).unwrap(); 3];
    let stove = sheet.wishes.stove;
    let mut other = stove.burner;
    other.power = potside::craft::quantity::Power::saturating_watts(1_800.0);
    assert_eq!(
        learn_from(&lessons, &stove.pot, &other),
        Learned::NotYet { bath_count: 0 }
    );
    assert_eq!(
        learn_from(&lessons[..1], &stove.pot, &stove.burner),
        Learned::NotYet { bath_count: 1 }
    );
}

fn changed(change: impl FnOnce(&mut BathRecord)) -> Vec<(bool, Under)> {
    let mut record = record_of_true_pot(&sheet("onion-skin", "100g"));
    change(&mut record);
    let parts = lesson(&record).map_or_else(Vec::new, |lesson| lesson.parts);
    parts
        .iter()
        .flat_map(|part| {
            part.seen
                .iter()
                .map(|seen| (part.kettle.goods.is_some(), seen.under))
        })
        .collect()
}

fn step_of<'a>(record: &'a mut BathRecord, kind: &str) -> &'a mut StepRecord {
    record.steps.iter_mut().find(|step| step.kind == kind).unwrap()
}

fn last_of<'a>(record: &'a mut BathRecord, kind: &str) -> &'a mut StepRecord {
    record.steps.iter_mut().rfind(|step| step.kind == kind).unwrap()
}

#[test]
fn only_what_can_be_believed_teaches() {
    let (raised, cooled) = ((false, Under::Burner(1.0)), (true, Under::Nothing));
    assert_eq!(changed(|_| {}), [raised, cooled]);
    assert_eq!(
        changed(|record| step_of(record, "raise").how = "skipped".into()),
        [cooled]
    );
    assert_eq!(
        changed(|record| step_of(record, "raise").how = "early".into()),
        [cooled]
    );
    // Without the recipe nobody knows whether a ramp held the burner down.
    assert_eq!(changed(|record| record.recipe_toml = None), [cooled]);
    // A tap at the end of a cooling may come hours late; a reading in its course is one.
    assert_eq!(
        changed(|record| last_of(record, "cool").reading_c = None),
        [raised]
    );
    assert_eq!(
        changed(|record| {
            let cool = last_of(record, "cool");
            cool.reading_c = None;
            let at_min = cool.ended_min.unwrap() - 10.0;
            record.readings.push(ReadingRecord {
                at_min,
                celsius: 40.0,
            });
        }),
        [raised, cooled]
    );
    // The program was away in the middle of the raise.
    assert_eq!(
        changed(|record| {
            let raise = step_of(record, "raise");
            let back_min = raise.ended_min.unwrap() - 2.0;
            record.outages.push(OutageRecord {
                back_min,
                at_least_min: 5.0,
                at_most_min: None,
                answer: None,
            });
        }),
        [cooled]
    );
    assert_eq!(changed(|record| record.burner = "bonfire".into()), []);
}

#[test]
fn a_raise_held_back_by_its_ramp_teaches_nothing() {
    // Madder's second raise has a ramp of 1 C a minute and a pot far faster than it: only the first one counts.
    let sheet = sheet("madder", "100g");
    let lesson = lesson(&record_of_true_pot(&sheet)).unwrap();
    let raises = lesson
        .parts
        .iter()
        .flat_map(|part| &part.seen)
        .filter(|seen| seen.under == Under::Burner(1.0))
        .count();
    assert_eq!(raises, 1);
}
