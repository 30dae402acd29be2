//! The daybook as a list, a record a line.

use chrono::FixedOffset;

use super::phrases::{goods, plain};
use crate::journal::record::BathRecord;
use crate::view::words;

/// Date, recipe, goods, id, and how it ended.
#[must_use]
pub fn line(record: &BathRecord, zone: FixedOffset) -> String {
    format!(
        "{}  {:<28}  {:<28}  {}  {}",
        words::date_and_clock(record.begun_wall_ms, zone),
        plain(&record.recipe_name),
        goods(record),
        record.bath,
        record.ended
    )
}
