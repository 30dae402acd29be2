//! The one place that reads clocks.
//!
//! Steady time is the boot-time clock where the system has one: it can't be set, and it runs on through suspend.
//! The wall clock only makes labels.

use chrono::{FixedOffset, Local, NaiveDate, Offset, TimeZone};

use crate::craft::time::{Moment, Span, Stretch};
use crate::keeper::{Clock, Look};
use crate::machine::away::WallClock;

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
    fn look(&self) -> Look {
        Look {
            now: Moment {
                stretch: self.stretch,
                steady_ms: steady_ms(),
                wall_ms: wall_ms(),
            },
            slept: slept(),
            wall: wall_clock(),
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

/// How far the wall clock of this place is from UTC now.
#[must_use]
pub fn zone_now() -> FixedOffset {
    zone(wall_ms())
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
    read_ms(rustix::time::ClockId::Boottime)
}

/// How long the machine has been suspended since it was started: its boot-time clock runs on through a suspend, its
/// monotonic clock doesn't (`clock_gettime(2)`).
#[cfg(any(target_os = "linux", target_os = "android"))]
fn slept() -> Span {
    // Read first, the monotonic clock is never the later of the two.
    let awake_ms = read_ms(rustix::time::ClockId::Monotonic);
    Span::from_ms(steady_ms().saturating_sub(awake_ms))
}

/// Not told here; a suspend shows as a gap if the steady clock runs through it.
#[cfg(not(any(target_os = "linux", target_os = "android")))]
fn slept() -> Span {
    Span::NONE
}

#[cfg(any(target_os = "linux", target_os = "android"))]
fn read_ms(clock: rustix::time::ClockId) -> u64 {
    let time = rustix::time::clock_gettime(clock);
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

/// How the wall clock is known just now.
///
/// `systemd-timesyncd` touches this file whenever a time server has set the clock; it goes with the service and with
/// every start of the machine (`systemd-timesyncd.service(8)`). Where nobody leaves it, the clock isn't known.
#[must_use]
pub fn wall_clock() -> WallClock {
    if cfg!(target_os = "linux") && std::path::Path::new("/run/systemd/timesync/synchronized").exists() {
        WallClock::Synchronised
    } else {
        WallClock::NotKnown
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
