//! What a finished bath teaches about its pot and burner: the come-ups and coolings in its record that can be believed.

use crate::craft::fibre::Fibre;
use crate::craft::heat::{GoodsLoad, Kettle, PotKnowledge};
use crate::craft::learn::{BathSeen, Lesson, Seen, Under};
use crate::craft::quantity::{Mass, Temperature};
use crate::craft::time::Span;
use crate::craft::vessel::Lid;
use crate::recipe;
use crate::recipe::model::Act;

use super::{BathRecord, StepRecord, again};

/// The lesson of a record; `None` when nothing in it can be believed, or its pot isn't one this program knows.
///
/// - A come-up teaches when it was confirmed at its end, wasn't skipped or confirmed early, had no outage in it, and
///   wasn't turned down to keep a ramp. It ends at the reading, or at the planned temperature when the dyer confirmed that.
/// - A cooling teaches when it ends in a reading of the thermometer: a tap alone may come hours late.
/// - What goods were in, and how much water, is taken from the steps before it.
#[must_use]
pub fn lesson(record: &BathRecord) -> Option<Lesson> {
    let heated = kettle_of(record)?;
    let raises = full_power_raises(record);
    let mut raise_index: usize = 0;
    let mut goods_in = false;
    let mut parts: Vec<BathSeen> = Vec::new();
    for step in &record.steps {
        let (read, lid) = match step.kind.as_str() {
            "raise" => {
                let full_power = raises.get(raise_index).copied().unwrap_or(false);
                raise_index = raise_index.saturating_add(1);
                (full_power.then(|| come_up(record, step)).flatten(), heated.lid)
            }
            "cool" => (cooling(record, step), cooling_lid(heated.lid, step)),
            _ => (None, heated.lid),
        };
        if let Some(read) = read {
            let goods = heated.goods.filter(|_| goods_in);
            take_in(&mut parts, Kettle { lid, goods, ..heated }, read);
        }
        match step.kind.as_str() {
            "enter" if is_done(step) => goods_in = true,
            "lift" if is_done(step) => goods_in = false,
            _ => {}
        }
    }
    (!parts.is_empty()).then_some(Lesson {
        pot: heated.pot,
        burner: heated.burner,
        parts,
        begun_wall_ms: record.begun_wall_ms,
    })
}

/// Puts a reading to the part with this load and lid; a new one if there is none.
fn take_in(parts: &mut Vec<BathSeen>, kettle: Kettle, read: Seen) {
    if let Some(part) = parts.iter_mut().find(|part| part.kettle == kettle) {
        part.seen.push(read);
        return;
    }
    let goes_on = !parts.is_empty();
    parts.push(BathSeen {
        kettle,
        seen: vec![read],
        goes_on,
    });
}

/// The lid of a cooling: the one of the heating, off, or put on for it.
fn cooling_lid(heated: Lid, step: &StepRecord) -> Lid {
    match (step.planned.lid_on, heated) {
        (Some(false), _) => Lid::Off,
        (Some(true), Lid::Off) => Lid::Loose,
        (Some(true) | None, lid) => lid,
    }
}

/// The pot as the record has it, goods in.
fn kettle_of(record: &BathRecord) -> Option<Kettle> {
    let fibre = Fibre::from_id(&record.fibre)?;
    let filled_l = record
        .steps
        .iter()
        .find_map(|step| step.planned.water_l)
        .filter(|_| record.used.is_none())
        .unwrap_or(record.bath_l);
    let burner = again::burner(record)?;
    Some(Kettle {
        pot: again::pot(record)?,
        burner,
        lid: Lid::from_id(&record.lid)?,
        room: Temperature::saturating_celsius(record.room_c),
        boil: Temperature::saturating_celsius(record.boil_c),
        water: Mass::saturating_grams(filled_l * GRAMS_PER_LITRE),
        goods: Some(GoodsLoad::air_dry(
            fibre,
            Mass::saturating_grams(record.goods_g),
            Mass::saturating_grams((record.bath_l - filled_l).max(0.0) * GRAMS_PER_LITRE),
        )),
        knowledge: PotKnowledge::unknown(burner.kind),
    })
}

/// For each raise in order, whether it ran at full power: it had no ramp, or the pot was slower than its ramp. None is
/// believed when the recipe isn't at hand, or doesn't have the raises that the record has.
fn full_power_raises(record: &BathRecord) -> Vec<bool> {
    let Some(recipe) = record
        .recipe_toml
        .as_deref()
        .and_then(|text| recipe::read(text).ok())
    else {
        return Vec::new();
    };
    let ramps: Vec<Option<f64>> = recipe
        .steps
        .iter()
        .filter_map(|step| {
            let Act::Raise { ramp, .. } = &step.act else {
                return None;
            };
            Some(ramp.as_ref().map(|ramp| ramp.chosen.kelvin_per_minute()))
        })
        .collect();
    let planned: Vec<&StepRecord> = record.steps.iter().filter(|step| step.kind == "raise").collect();
    if ramps.len() != planned.len() {
        return Vec::new();
    }
    ramps
        .into_iter()
        .zip(planned)
        .map(|(ramp, step)| ramp.is_none_or(|ramp| pace(step).is_some_and(|pace| pace < SLOWER_PART * ramp)))
        .collect()
}

/// Planned kelvin a minute.
fn pace(step: &StepRecord) -> Option<f64> {
    let rise = step.planned.to_c? - step.planned.from_c?;
    (step.planned.likely_min > 0.0).then(|| rise / step.planned.likely_min)
}

fn come_up(record: &BathRecord, step: &StepRecord) -> Option<Seen> {
    if !is_done(step) || step.how == "early" {
        return None;
    }
    let to = step.reading_c.or(step.planned.to_c)?;
    let began = step.began_min?;
    let (from, from_min) = reading_near(record, began).unwrap_or((step.planned.from_c?, began));
    between(
        record,
        Under::Burner(1.0),
        (from, from_min),
        (to, step.ended_min?),
    )
}

fn cooling(record: &BathRecord, step: &StepRecord) -> Option<Seen> {
    let (began, ended) = (step.began_min?, step.ended_min?);
    let (to, to_min) = match step.reading_c.filter(|_| is_done(step)) {
        Some(reading) => (reading, ended),
        None => last_reading(record, began + READING_APART_MIN, ended)?,
    };
    let (from, from_min) = reading_near(record, began).unwrap_or((step.planned.from_c?, began));
    between(record, Under::Nothing, (from, from_min), (to, to_min))
}

/// A stretch between two readings, if the program was there all the time.
fn between(record: &BathRecord, under: Under, from: (f64, f64), to: (f64, f64)) -> Option<Seen> {
    let ((from_c, from_min), (to_c, to_min)) = (from, to);
    let away = record
        .outages
        .iter()
        .any(|outage| outage.back_min >= from_min && outage.back_min - outage.at_least_min <= to_min);
    (!away && to_min > from_min).then(|| Seen {
        under,
        from: Temperature::saturating_celsius(from_c),
        to: Temperature::saturating_celsius(to_c),
        took: Span::from_fractional_minutes(to_min - from_min),
    })
}

/// A reading taken about when a step began.
fn reading_near(record: &BathRecord, began_min: f64) -> Option<(f64, f64)> {
    record
        .readings
        .iter()
        .rfind(|reading| (reading.at_min - began_min).abs() <= READING_APART_MIN)
        .map(|reading| (reading.celsius, reading.at_min))
}

fn last_reading(record: &BathRecord, after_min: f64, until_min: f64) -> Option<(f64, f64)> {
    record
        .readings
        .iter()
        .rfind(|reading| reading.at_min > after_min && reading.at_min <= until_min)
        .map(|reading| (reading.celsius, reading.at_min))
}

fn is_done(step: &StepRecord) -> bool {
    step.ended_min.is_some() && step.how != "skipped" && step.how != "not-done"
}

/// A litre of bath weighs a kilogram to within what a filling line can show.
const GRAMS_PER_LITRE: f64 = 1_000.0;
/// A planned pace below this part of the ramp is the pot's own.
const SLOWER_PART: f64 = 0.97;
/// A reading this near to a step's beginning is its beginning.
const READING_APART_MIN: f64 = 3.0;
