//! Values in finished words: amounts, times, temperatures. The only place where numbers are rounded.

use chrono::{DateTime, FixedOffset, Timelike};

use crate::craft::quantity::{Band, Length, Mass, Temperature, Volume};
use crate::craft::time::{Moment, Span};

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
    let grams = mass.grams();
    if grams < 9.995 {
        format!("{grams:.2} g")
    } else if grams < 99.95 {
        format!("{grams:.1} g")
    } else {
        format!("{grams:.0} g")
    }
}

/// The weight of goods, which is kept whole where it is whole.
#[must_use]
pub fn goods_weight(mass: Mass) -> String {
    let grams = mass.grams();
    if (grams - grams.round()).abs() < 0.05 {
        format!("{grams:.0} g")
    } else {
        format!("{grams:.1} g")
    }
}

/// Ounces beside the grams, for a scale that has no other.
#[must_use]
pub fn ounces(mass: Mass) -> String {
    const GRAMS_PER_OUNCE: f64 = 28.349_523_125;
    format!("{:.2} oz", mass.grams() / GRAMS_PER_OUNCE)
}

/// Litres, or millilitres when there are few.
#[must_use]
pub fn litres(volume: Volume) -> String {
    let litres = volume.litres();
    if litres < 0.995 {
        format!("{:.0} mL", litres * 1_000.0)
    } else if litres < 9.95 || (litres < 99.95 && (litres - litres.round()).abs() >= 0.05) {
        format!("{litres:.1} L")
    } else {
        format!("{litres:.0} L")
    }
}

/// Whole degrees.
#[must_use]
pub fn celsius(temperature: Temperature) -> String {
    format!("{:.0} \u{b0}C", temperature.celsius())
}

/// Degrees to a tenth, where it matters.
#[must_use]
pub fn celsius_fine(temperature: Temperature) -> String {
    format!("{:.1} \u{b0}C", temperature.celsius())
}

/// A depth.
#[must_use]
pub fn centimetres(length: Length) -> String {
    format!("{:.1} cm", length.centimetres())
}

/// A span as a dyer says it: `45 s`, `54 min`, `1 h 05 min`, `2 days`.
#[must_use]
pub fn span(span: Span) -> String {
    const DAY: u64 = 24 * 60;
    let seconds = span.ms().saturating_add(500).checked_div(1_000).unwrap_or(0);
    if seconds < 60 {
        return format!("{seconds} s");
    }
    let minutes = span.ms().saturating_add(30_000).checked_div(60_000).unwrap_or(0);
    let (days, of_day) = (div(minutes, DAY), rem(minutes, DAY));
    let (hours, of_hour) = (div(of_day, 60), rem(of_day, 60));
    match (days, hours, of_hour) {
        (0, 0, minutes) => format!("{minutes} min"),
        (0, hours, 0) => format!("{hours} h"),
        (0, hours, minutes) => format!("{hours} h {minutes:02} min"),
        (1, 0, _) => "1 day".to_owned(),
        (1, hours, _) => format!("1 day {hours} h"),
        (days, 0, _) => format!("{days} days"),
        (days, hours, _) => format!("{days} days {hours} h"),
    }
}

/// What is left, to the second, for the big digits: `7:30`, `1:02:05`. The last started second counts whole, so it
/// shows `0:00` exactly when it is due.
#[must_use]
pub fn countdown(left: Span) -> String {
    let seconds = left.ms().saturating_add(999).checked_div(1_000).unwrap_or(0);
    let (hours, minutes, seconds) = (div(seconds, 3_600), rem(div(seconds, 60), 60), rem(seconds, 60));
    if hours > 0 {
        format!("{hours}:{minutes:02}:{seconds:02}")
    } else {
        format!("{minutes}:{seconds:02}")
    }
}

/// A band of spans: `38 to 47 min` where both ends are minutes, else each in its own words.
#[must_use]
pub fn band(of: Band<Span>) -> String {
    const LONG: u64 = 120 * 60_000;
    if of.high.ms() < LONG && of.low.ms() >= 60_000 {
        let (low, high) = (of.low.minutes().round(), of.high.minutes().round());
        if (low - high).abs() < 0.5 {
            format!("{low:.0} min")
        } else {
            format!("{low:.0} to {high:.0} min")
        }
    } else {
        let (low, high) = (span(of.low), span(of.high));
        if low == high {
            low
        } else {
            format!("{low} to {high}")
        }
    }
}

/// A clock time of the wall clock: `14:32`.
#[must_use]
pub fn clock(at: Moment, zone: FixedOffset) -> String {
    wall(at.wall_ms, zone).format("%H:%M").to_string()
}

/// A clock time with seconds: `14:32:05`.
#[must_use]
pub fn clock_with_seconds(at: Moment, zone: FixedOffset) -> String {
    wall(at.wall_ms, zone).format("%H:%M:%S").to_string()
}

/// A clock time, with the day when it isn't today's: `14:32`, `tomorrow 07:10`, `Sat 28 Nov 07:10`.
#[must_use]
pub fn clock_from(at: Moment, now: Moment, zone: FixedOffset) -> String {
    let (then, today) = (wall(at.wall_ms, zone), wall(now.wall_ms, zone));
    match then
        .date_naive()
        .signed_duration_since(today.date_naive())
        .num_days()
    {
        0 => then.format("%H:%M").to_string(),
        1 => format!("tomorrow {}", then.format("%H:%M")),
        _ => then.format("%a %-d %b %H:%M").to_string(),
    }
}

/// A clock time of a plan that has no date: `14:32`, `next day 03:35`, `day 4 15:45`.
#[must_use]
pub fn clock_of_plan(at: Moment, start: Moment, zone: FixedOffset) -> String {
    of_plan(at, start, zone, "%H:%M")
}

/// The same with seconds: `14:32:05`, `next day 03:35:20`.
#[must_use]
pub fn clock_of_plan_with_seconds(at: Moment, start: Moment, zone: FixedOffset) -> String {
    of_plan(at, start, zone, "%H:%M:%S")
}

fn of_plan(at: Moment, start: Moment, zone: FixedOffset, form: &str) -> String {
    let (then, first) = (wall(at.wall_ms, zone), wall(start.wall_ms, zone));
    let clock = then.format(form);
    match then
        .date_naive()
        .signed_duration_since(first.date_naive())
        .num_days()
    {
        0 => clock.to_string(),
        1 => format!("next day {clock}"),
        days => format!("day {} {clock}", days.saturating_add(1)),
    }
}

/// Date and clock time for an id that sorts: `20261125-143205`.
#[must_use]
pub fn stamp(wall_ms: i64, zone: FixedOffset) -> String {
    wall(wall_ms, zone).format("%Y%m%d-%H%M%S").to_string()
}

/// Date and clock time for the record: `2026-11-25 14:32`.
#[must_use]
pub fn date_and_clock(wall_ms: i64, zone: FixedOffset) -> String {
    wall(wall_ms, zone).format("%Y-%m-%d %H:%M").to_string()
}

/// The day for the head of a screen: `Saturday 12 September`.
#[must_use]
pub fn day(at: Moment, zone: FixedOffset) -> String {
    wall(at.wall_ms, zone).format("%A %-d %B").to_string()
}

fn wall(wall_ms: i64, zone: FixedOffset) -> DateTime<FixedOffset> {
    DateTime::from_timestamp_millis(wall_ms)
        .unwrap_or_default()
        .with_timezone(&zone)
}

fn div(value: u64, by: u64) -> u64 {
    value.checked_div(by).unwrap_or(0)
}

fn rem(value: u64, by: u64) -> u64 {
    value.checked_rem(by).unwrap_or(0)
}

/// Minutes since midnight, on the wall clock of a zone.
#[must_use]
pub fn minute_of_day(at: Moment, zone: FixedOffset) -> u16 {
    let local = wall(at.wall_ms, zone);
    let minute = local.hour().saturating_mul(60).saturating_add(local.minute());
    u16::try_from(minute).unwrap_or(0)
}
