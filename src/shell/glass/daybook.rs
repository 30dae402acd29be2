//! The daybook on the glass: its list, and one record with plan beside actual.

use crate::craft::fibre::Fibre;
use crate::craft::quantity::Mass;
use crate::craft::time::Span;
use crate::journal::record::{BathRecord, StepRecord, again, lesson};
use crate::say;
use crate::sheet::Again;
use crate::shell::clock;
use crate::shell::data::Data;
use crate::shell::daybook::{book, phrases};
use crate::view::locale::{Locale, Temperatures};
use crate::view::pages::{DaybookRow, DaybookSeen, WeighedBefore};
use crate::view::screen::{
    BathCurve, CurveLists, CurveMark, CurveRule, Icon, MarkKind, RecordLine, RecordScreen, SideAct,
};

/// The whole records of the folder, newest first. Damaged pages are told by the terminal's daybook.
fn records(data: &Data) -> Vec<BathRecord> {
    let daybook = book::open(&data.daybook()).unwrap_or_default();
    daybook
        .records
        .into_iter()
        .rev()
        .map(|sealed| sealed.record)
        .collect()
}

/// What the glass takes from it.
pub(super) fn seen(data: &Data, locale: Locale) -> DaybookSeen {
    let records = records(data);
    let lessons = records.iter().filter_map(lesson).collect();
    let weighed = records.iter().flat_map(weighed).collect();
    let rows = records.into_iter().map(|record| DaybookRow {
        title: say!(
            locale,
            "{recipe}, {weight} of {fibre}",
            recipe = locale.read(&record.recipe_name),
            weight = locale.goods_weight(mass(record.goods_g)),
            fibre = fibre(&record, locale)
        ),
        note: note(&record, locale),
        id: record.bath,
    });
    DaybookSeen {
        rows: rows.collect(),
        lessons,
        weighed,
    }
}

/// What the scale said in a bath, where it was said.
fn weighed(record: &BathRecord) -> impl Iterator<Item = WeighedBefore> {
    record.additions.iter().filter_map(|addition| {
        Some(WeighedBefore {
            recipe_id: record.recipe.clone(),
            ware_id: addition.ware.clone(),
            planned: mass(addition.planned_g),
            actual: mass(addition.actual_g?),
        })
    })
}

/// One record.
pub(super) fn screen(data: &Data, id: &str, locale: Locale) -> Option<(RecordScreen, Option<Again>)> {
    let record = records(data).into_iter().find(|record| record.bath == id)?;
    let (curve, lists) = curve(&record, locale);
    let handed_on = again(&record);
    let screen = RecordScreen {
        title: locale.read(&record.recipe_name),
        note: say!(
            locale,
            "{weight} of {fibre}, {note}",
            weight = locale.goods_weight(mass(record.goods_g)),
            fibre = fibre(&record, locale),
            note = note(&record, locale)
        ),
        curve,
        lists,
        lines: lines(&record, locale),
        foot: handed_on
            .as_ref()
            .map_or_else(Vec::new, |again| foot(&record, again, locale)),
    };
    Some((screen, handed_on))
}

/// What can be done with a record. The liquor of a bath that was stopped is nobody's guess.
fn foot(record: &BathRecord, again: &Again, locale: Locale) -> Vec<SideAct> {
    let act = |key: &str, label: String, icon| SideAct {
        key: key.into(),
        label,
        icon,
        enabled: true,
        strong: false,
    };
    let mut acts = vec![act("again", say!(locale, "same bath, other goods"), Icon::Plus)];
    if record.ended == "closed" && again.liquor_is_used_again {
        acts.push(act(
            "next-goods",
            say!(locale, "next goods, this liquor"),
            Icon::Drop,
        ));
    }
    acts
}

/// When it was begun, by the wall clock of that day, and how it ended.
fn note(record: &BathRecord, locale: Locale) -> String {
    let zone = clock::zone(record.begun_wall_ms);
    let begun = Locale { zone, ..locale }.date_and_clock(record.begun_wall_ms);
    if record.ended == "closed" {
        say!(locale, "{begun}, to its end", begun = begun)
    } else {
        say!(locale, "{begun}, stopped", begun = begun)
    }
}

/// The fibre by its name; what a later program wrote, as it wrote it.
fn fibre(record: &BathRecord, locale: Locale) -> String {
    Fibre::from_id(&record.fibre).map_or_else(|| record.fibre.clone(), |fibre| locale.read(fibre.name()))
}

fn lines(record: &BathRecord, locale: Locale) -> Vec<RecordLine> {
    let grams = |value: f64| locale.grams(mass(value));
    let lines = record.steps.iter().map(|step| {
        let off = step
            .planned
            .grams
            .zip(step.actual_g)
            .is_some_and(|(planned, actual)| {
                let tolerance = record
                    .additions
                    .iter()
                    .find(|addition| step.letters.contains(&addition.letter));
                (planned - actual).abs() > tolerance.map_or(0.0, |addition| addition.tolerance_g)
            });
        RecordLine {
            step: phrases::step(record, step, locale),
            planned: step
                .planned
                .grams
                .map_or_else(|| phrases::planned_length(step, locale), grams),
            actual: step
                .actual_g
                .map(grams)
                .or_else(|| phrases::actual_length(step, locale))
                .unwrap_or_default(),
            note: phrases::done(record, step, locale),
            off,
        }
    });
    lines.collect()
}

const fn mass(grams: f64) -> Mass {
    Mass::saturating_grams(grams)
}

/// Plan and actual over the heated part of the bath, in the curve's box.
fn curve(record: &BathRecord, locale: Locale) -> (BathCurve, CurveLists) {
    let heated = |step: &&StepRecord| step.planned.from_c.is_some();
    let began = record.steps.iter().filter(heated).find_map(|step| step.began_min);
    let begins = began
        .into_iter()
        .chain(record.course.first().map(|point| point.at_min))
        .fold(f64::MAX, f64::min);
    let begins = if begins < f64::MAX { begins } else { 0.0 };
    let planned_end = record.course.last().map_or(begins, |point| point.at_min);
    let ends = record
        .steps
        .iter()
        .filter(heated)
        .filter_map(|step| step.ended_min)
        .fold(planned_end, f64::max);
    let span = (ends - begins).max(1.0);
    let x = |minute: f64| ((minute - begins) / span * 1_000.0).clamp(0.0, 1_000.0);
    let y = |celsius: f64| (1_000.0 - celsius * 10.0).clamp(0.0, 1_000.0);

    let (mut plan, mut done) = (String::new(), String::new());
    for point in &record.course {
        extend(&mut plan, x(point.at_min), y(point.celsius));
    }
    for step in record.steps.iter().filter(heated) {
        let (Some(from), Some(to)) = (step.planned.from_c, step.planned.to_c) else {
            continue;
        };
        if let (Some(began), Some(ended)) = (step.began_min, step.ended_min) {
            extend(&mut done, x(began), y(from));
            extend(&mut done, x(ended), y(step.reading_c.unwrap_or(to)));
        }
    }
    let readings = record
        .readings
        .iter()
        .map(|reading| mark(x(reading.at_min), y(reading.celsius), MarkKind::Reading));
    let turns = record.turns.iter().filter(|turn| !turn.missed);
    let hold = record
        .steps
        .iter()
        .rev()
        .find(|step| step.kind == "hold")
        .and_then(|step| step.planned.to_c)
        .unwrap_or(0.0);
    let turns = turns.map(|turn| mark(x(turn.at_min), y(hold), MarkKind::Turn));
    let lists = CurveLists {
        marks: readings.chain(turns).collect(),
        temperatures: rules(locale)
            .into_iter()
            .map(|(celsius, label)| CurveRule {
                at: short(y(celsius)),
                label,
            })
            .collect(),
        times: Vec::new(),
    };
    let said = say!(
        locale,
        "planned and actual temperature over {span}",
        span = locale.span(Span::from_fractional_minutes(span))
    );
    (
        BathCurve {
            band: String::new(),
            plan,
            done,
            now: -1.0,
            said,
        },
        lists,
    )
}

/// Round temperatures of the dyer's unit, each with where it lies in degrees Celsius.
fn rules(locale: Locale) -> [(f64, String); 4] {
    let rule = |celsius: f64, shown: f64| (celsius, format!("{shown:.0}\u{b0}"));
    match locale.habits.temperatures {
        Temperatures::Celsius => [25.0, 50.0, 75.0, 100.0].map(|celsius| rule(celsius, celsius)),
        Temperatures::Fahrenheit => {
            [50.0, 100.0, 150.0, 200.0].map(|shown| rule((shown - 32.0) / 1.8, shown))
        }
    }
}

fn extend(path: &mut String, x: f64, y: f64) {
    let letter = if path.is_empty() { 'M' } else { 'L' };
    path.push_str(&format!("{letter} {x:.0} {y:.0} "));
}

fn mark(x: f64, y: f64, kind: MarkKind) -> CurveMark {
    CurveMark {
        x: short(x),
        y: short(y),
        label: String::new(),
        kind,
    }
}

#[expect(
    clippy::as_conversions,
    reason = "a place in a box of 1000 needs no more digits"
)]
const fn short(place: f64) -> f32 {
    place as f32
}
