//! Values in plain words, English and metric, for the terminal, records and exports. The glass goes through a
//! [`Locale`], which these are one of.

use chrono::{FixedOffset, Offset, Timelike, Utc};

use crate::craft::measures::KitchenUnit;
use crate::craft::quantity::{Band, Length, Mass, Temperature, Volume};
use crate::craft::time::{Moment, Span};

use super::locale::{self, Locale};

fn plain() -> Locale {
    Locale::plain(Utc.fix())
}

/// Grams as a scale shows them: the fewer, the finer.
///
/// ```
/// # use potside::{craft::quantity::Mass, view::words::grams};
/// assert_eq!(grams(Mass::saturating_grams(6.25)), "6.25 g");
/// assert_eq!(grams(Mass::saturating_grams(15.0)), "15.0 g");
/// assert_eq!(grams(Mass::saturating_grams(350.04)), "350 g");
/// ```
#[must_use]
pub fn grams(mass: Mass) -> String {
    plain().grams(mass)
}

/// The weight of goods, which is kept whole where it is whole.
#[must_use]
pub fn goods_weight(mass: Mass) -> String {
    plain().goods_weight(mass)
}

/// Ounces beside the grams, for a scale that has no other.
#[must_use]
pub fn ounces(mass: Mass) -> String {
    format!("{:.2} oz", mass.grams() / KitchenUnit::Ounce.si())
}

/// Litres, or millilitres when there are few.
#[must_use]
pub fn litres(volume: Volume) -> String {
    plain().litres(volume)
}

/// Whole degrees.
#[must_use]
pub fn celsius(temperature: Temperature) -> String {
    plain().degrees(temperature)
}

/// Degrees to a tenth, where it matters.
#[must_use]
pub fn celsius_fine(temperature: Temperature) -> String {
    plain().degrees_fine(temperature)
}

/// A depth.
#[must_use]
pub fn centimetres(length: Length) -> String {
    plain().depth(length)
}

/// A span as a dyer says it: `45 s`, `54 min`, `1 h 05 min`, `2 days`.
#[must_use]
pub fn span(span: Span) -> String {
    plain().span(span)
}

/// A band of spans: `38 to 47 min` where both ends are minutes, else each in its own words.
#[must_use]
pub fn band(of: Band<Span>) -> String {
    plain().band(of)
}

/// A clock time of the wall clock: `14:32`.
#[must_use]
pub fn clock(at: Moment, zone: FixedOffset) -> String {
    Locale::plain(zone).clock(at)
}

/// A clock time of a plan that has no date: `14:32`, `next day 03:35`, `day 4 15:45`.
#[must_use]
pub fn clock_of_plan(at: Moment, start: Moment, zone: FixedOffset) -> String {
    Locale::plain(zone).clock_of_plan(at, start)
}

/// The same with seconds: `14:32:05`, `next day 03:35:20`.
#[must_use]
pub fn clock_of_plan_with_seconds(at: Moment, start: Moment, zone: FixedOffset) -> String {
    let seconds = locale::wall(at.wall_ms, zone).format(":%S");
    format!("{}{seconds}", clock_of_plan(at, start, zone))
}

/// Date and clock time for an id that sorts: `20261125-143205`.
#[must_use]
pub fn stamp(wall_ms: i64, zone: FixedOffset) -> String {
    locale::wall(wall_ms, zone).format("%Y%m%d-%H%M%S").to_string()
}

/// Date and clock time for the record: `2026-11-25 14:32`.
#[must_use]
pub fn date_and_clock(wall_ms: i64, zone: FixedOffset) -> String {
    Locale::plain(zone).date_and_clock(wall_ms)
}

/// Minutes since midnight, on the wall clock of a zone.
#[must_use]
pub fn minute_of_day(at: Moment, zone: FixedOffset) -> u16 {
    let local = locale::wall(at.wall_ms, zone);
    let minute = local.hour().saturating_mul(60).saturating_add(local.minute());
    u16::try_from(minute).unwrap_or(0)
}
