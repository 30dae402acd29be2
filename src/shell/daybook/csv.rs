//! A record as a table, one step a line, for a spreadsheet.
//!
//! A text that a spreadsheet would take for a formula gets an apostrophe in front (OWASP, *CSV Injection*).
//! Numbers are written as they are kept, with a point, and in the unit that closes the column's name.

use ::csv::{Terminator, WriterBuilder};
use chrono::FixedOffset;

use super::phrases;
use crate::journal::record::{BathRecord, StepRecord};
use crate::view::words;

/// The columns, in order.
pub const COLUMNS: [&str; 29] = [
    "bath",
    "recipe",
    "step",
    "do",
    "letters",
    "wares",
    "planned_g",
    "actual_g",
    "planned_begin_min",
    "began_min",
    "planned_end_min",
    "ended_min",
    "planned_low_min",
    "planned_likely_min",
    "planned_high_min",
    "actual_min",
    "ended",
    "from_c",
    "to_c",
    "planned_span_min",
    "held_min",
    "reading_c",
    "turns_made",
    "turns_missed",
    "looks_not_yet",
    "how",
    "reason",
    "words",
    "caution",
];

/// The table, its columns' names first.
pub fn csv(record: &BathRecord, zone: FixedOffset) -> Result<Vec<u8>, ::csv::Error> {
    let mut writer = WriterBuilder::new()
        .terminator(Terminator::CRLF) // RFC 4180
        .from_writer(Vec::new());
    writer.write_record(COLUMNS)?;
    for step in &record.steps {
        writer.write_record(cells(record, step, zone))?;
    }
    writer
        .into_inner()
        .map_err(|unfinished| ::csv::Error::from(unfinished.into_error()))
}

fn cells(record: &BathRecord, step: &StepRecord, zone: FixedOffset) -> [String; 29] {
    let planned = &step.planned;
    let wares: Vec<&str> = record
        .additions
        .iter()
        .filter(|addition| step.letters.contains(&addition.letter))
        .map(|addition| addition.ware.as_str())
        .collect();
    let (made, missed) = phrases::turns(record, step.number);
    let held = |count: usize| {
        step.planned
            .turn_every_min
            .map_or_else(String::new, |_| count.to_string())
    };
    let actual = step.ended_min.zip(step.began_min);
    [
        safe(&record.bath),
        safe(&record.recipe_name),
        step.number.to_string(),
        safe(&step.kind),
        safe(&step.letters.join(" ")),
        safe(&wares.join(" ")),
        number(planned.grams),
        number(step.actual_g),
        number(Some(planned.begins_min)),
        number(step.began_min),
        number(Some(planned.ends_min)),
        number(step.ended_min),
        number(Some(planned.low_min)),
        number(Some(planned.likely_min)),
        number(Some(planned.high_min)),
        number(actual.map(|(ended, began)| ended - began)),
        step.ended_wall_ms
            .map_or_else(String::new, |wall_ms| words::date_and_clock(wall_ms, zone)),
        number(planned.from_c),
        number(planned.to_c),
        number(planned.span_min),
        number(step.held_min),
        number(step.reading_c),
        held(made),
        held(missed),
        planned
            .sign
            .as_ref()
            .map_or_else(String::new, |_| phrases::not_yet(record, step.number).to_string()),
        safe(&step.how),
        safe(step.reason.as_deref().unwrap_or("")),
        safe(planned.words.as_deref().unwrap_or("")),
        safe(planned.caution.as_deref().unwrap_or("")),
    ]
}

fn number(value: Option<f64>) -> String {
    value.map_or_else(String::new, |value| value.to_string())
}

fn safe(text: &str) -> String {
    if text.starts_with(['=', '+', '-', '@', '\t', '\r', '\n']) {
        format!("'{text}")
    } else {
        text.to_owned()
    }
}
