//! The one place that reads clocks.
//!
//! Steady time is the boot-time clock where the system has one: it can't be set, and it runs on through suspend.
//! The wall clock only makes labels.

use chrono::{FixedOffset, Local, NaiveDate, Offset, TimeZone};

use crate::craft::time::{Moment, Span, Stretch};

/// A source of moments. The simulated twin lives in the tests.
pub trait Clock {
    /// The moment now.
    fn now(&self) -> Moment;
}

/// The system's clocks.
#[derive(Debug, Clone, Copy)]
pub struct SystemClock {
    stretch: Stretch,
}

impl SystemClock {
    /// The clock of one awake run of the program.
    #[must_use]
    pub const fn new(stretch: Stretch) -> Self {
        Self { stretch }
    }
}

impl Clock for SystemClock {
    fn now(&self) -> Moment {
        Moment {
            stretch: self.stretch,
            steady_ms: steady_ms(),
            wall_ms: wall_ms(),
        }
    }
}

/// How far the wall clock of this place is from UTC at that moment.
#[must_use]
pub fn zone(wall_ms: i64) -> FixedOffset {
    let utc = chrono::DateTime::from_timestamp_millis(wall_ms)
        .unwrap_or_default()
        .naive_utc();
    Local.offset_from_utc_datetime(&utc).fix()
}

/// The day of a moment of the wall clock, in this place.
#[must_use]
pub fn day_of(wall_ms: i64) -> NaiveDate {
    let utc = chrono::DateTime::from_timestamp_millis(wall_ms).unwrap_or_default();
    utc.with_timezone(&zone(wall_ms)).date_naive()
}

/// Today, in this place, as the wall clock has it.
#[must_use]
pub fn today() -> NaiveDate {
    day_of(wall_ms())
}

/// The wall clock, in milliseconds since 1970, UTC.
#[expect(clippy::disallowed_methods, reason = "the one place that asks the wall clock")]
fn wall_ms() -> i64 {
    chrono::Utc::now().timestamp_millis()
}

/// Milliseconds since the machine was started, suspend included.
#[cfg(any(target_os = "linux", target_os = "android"))]
fn steady_ms() -> u64 {
    let time = rustix::time::clock_gettime(rustix::time::ClockId::Boottime);
    let seconds = u64::try_from(time.tv_sec).unwrap_or(0);
    let milliseconds = u64::try_from(time.tv_nsec)
        .unwrap_or(0)
        .checked_div(1_000_000)
        .unwrap_or(0);
    seconds.saturating_mul(1_000).saturating_add(milliseconds)
}

/// Milliseconds since the program was started. Suspend may be missing from it.
#[cfg(not(any(target_os = "linux", target_os = "android")))]
#[expect(
    clippy::disallowed_methods,
    reason = "the one place that asks the steady clock"
)]
fn steady_ms() -> u64 {
    static START: std::sync::OnceLock<std::time::Instant> = std::sync::OnceLock::new();
    let start = START.get_or_init(std::time::Instant::now);
    u64::try_from(start.elapsed().as_millis()).unwrap_or(u64::MAX)
}

/// An id that changes with each start of the machine, or nothing where the system tells none.
#[must_use]
pub fn boot_id() -> Option<String> {
    #[cfg(target_os = "linux")]
    {
        std::fs::read_to_string("/proc/sys/kernel/random/boot_id")
            .ok()
            .map(|id| id.trim().to_owned())
    }
    #[cfg(not(target_os = "linux"))]
    {
        None
    }
}

/// A clock that stands still or is moved by hand: rehearsals and sheets have one.
#[must_use]
pub fn still(wall_ms: i64) -> Moment {
    Moment {
        stretch: Stretch(0),
        steady_ms: 0,
        wall_ms,
    }
}

/// How long the program was away, from the last recorded moment to now: at least, and at most if it is known.
///
/// Within one boot the steady clock ran on, so both are the same. After a restart of the machine only its uptime is
/// sure; the wall clock bounds it from above if it isn't earlier than that.
#[must_use]
pub fn away(last: Moment, now: Moment, same_boot: bool) -> (Span, Option<Span>) {
    if same_boot && now.steady_ms >= last.steady_ms {
        let away = Span::from_ms(now.steady_ms.saturating_sub(last.steady_ms));
        return (away, Some(away));
    }
    let at_least = Span::from_ms(now.steady_ms);
    let by_wall = u64::try_from(now.wall_ms.saturating_sub(last.wall_ms))
        .ok()
        .map(Span::from_ms);
    (at_least, by_wall.filter(|by_wall| *by_wall >= at_least))
}
