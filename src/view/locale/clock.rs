//! Clock times and days in finished words. Names of days and months come from the Unicode locale data in chrono.

use chrono::{DateTime, FixedOffset, NaiveDate, NaiveTime};

use crate::craft::time::{Moment, Span};
use crate::say;

use super::{Hours, Language, Locale};

impl Locale {
    /// A clock time: `14:32`, `2:32 pm`.
    #[must_use]
    pub fn clock(self, at: Moment) -> String {
        self.clock_of(self.wall(at.wall_ms))
    }

    /// A clock time for the big digits. A clock of twelve hours says what is less than twelve hours off without am or pm.
    #[must_use]
    pub fn big_clock(self, at: Moment, now: Moment) -> String {
        const HALF_A_DAY: Span = Span::from_minutes(12 * 60);
        match self.habits.hours {
            Hours::Twelve if at.since(now) < HALF_A_DAY => self.wall(at.wall_ms).format("%-I:%M").to_string(),
            Hours::Twelve | Hours::TwentyFour => self.clock(at),
        }
    }

    /// A clock time, with the day when it isn't today's: `14:32`, `tomorrow 07:10`, `Sat 28 Nov 07:10`.
    #[must_use]
    pub fn clock_from(self, at: Moment, now: Moment) -> String {
        match self.clock_and_day(at, now) {
            (clock, Some(day)) => format!("{day} {clock}"),
            (clock, None) => clock,
        }
    }

    /// A clock time, and its day when it isn't today's.
    #[must_use]
    pub fn clock_and_day(self, at: Moment, now: Moment) -> (String, Option<String>) {
        let (then, today) = (self.wall(at.wall_ms), self.wall(now.wall_ms));
        let day = match days_between(today, then) {
            0 => None,
            1 => Some(say!(self, "tomorrow")),
            _ => Some(self.short_day(at)),
        };
        (self.clock_of(then), day)
    }

    /// A clock time of a plan that has no date: `14:32`, `next day 03:35`, `day 4 15:45`.
    #[must_use]
    pub fn clock_of_plan(self, at: Moment, start: Moment) -> String {
        let (then, first) = (self.wall(at.wall_ms), self.wall(start.wall_ms));
        let clock = self.clock_of(then);
        match days_between(first, then) {
            0 => clock,
            1 => say!(self, "next day {clock}", clock = clock),
            days => say!(
                self,
                "day {number} {clock}",
                number = days.saturating_add(1),
                clock = clock
            ),
        }
    }

    /// Date and clock time: `2026-11-25 14:32`. The date is that of ISO 8601, which every language reads.
    #[must_use]
    pub fn date_and_clock(self, wall_ms: i64) -> String {
        let at = self.wall(wall_ms);
        format!("{} {}", at.format("%Y-%m-%d"), self.clock_of(at))
    }

    /// A clock time of every day, by its minute: `7:00`, `7:00 am`.
    #[must_use]
    pub fn clock_of_day(self, minute: u16) -> String {
        let form = match self.habits.hours {
            Hours::TwentyFour => "%-H:%M",
            Hours::Twelve => self.clock_form(),
        };
        time_of_day(minute).format(form).to_string()
    }

    /// The same as wide as other clock times: `07:00`, `7:00 am`.
    #[must_use]
    pub fn clock_of_minute(self, minute: u16) -> String {
        time_of_day(minute).format(self.clock_form()).to_string()
    }

    /// The day for the head of a screen: `Saturday 12 September`.
    #[must_use]
    pub fn day(self, at: Moment) -> String {
        self.formatted(self.wall(at.wall_ms), "%A %-d %B", "%A, %-d. %B")
    }

    /// A short day: `Sat 28 Nov`.
    #[must_use]
    pub fn short_day(self, at: Moment) -> String {
        self.formatted(self.wall(at.wall_ms), "%a %-d %b", "%a %-d. %b")
    }

    /// A date with its year, such as the shelf keeps: `22 Aug 2026`.
    ///
    /// ```
    /// # use chrono::{NaiveDate, Offset};
    /// # use potside::view::locale::{Language, Locale};
    /// let plain = Locale::plain(chrono::Utc.fix());
    /// let day = NaiveDate::from_ymd_opt(2026, 10, 2).unwrap();
    /// assert_eq!(plain.date(day), "2 Oct 2026");
    /// let german = Locale { language: Language::German, ..plain };
    /// assert_eq!(german.date(day), "2. Okt 2026");
    /// ```
    #[must_use]
    pub fn date(self, day: NaiveDate) -> String {
        let (form, names) = self.form("%-d %b %Y", "%-d. %b %Y");
        day.format_localized(form, names).to_string()
    }

    fn clock_of(self, at: DateTime<FixedOffset>) -> String {
        at.format(self.clock_form()).to_string()
    }

    const fn clock_form(self) -> &'static str {
        match self.habits.hours {
            Hours::TwentyFour => "%H:%M",
            Hours::Twelve => "%-I:%M %P",
        }
    }

    /// By one form, or by the German one, which puts a point behind the number of a day.
    fn formatted(self, at: DateTime<FixedOffset>, form: &str, german: &str) -> String {
        let (form, names) = self.form(form, german);
        at.format_localized(form, names).to_string()
    }

    const fn form<'f>(self, form: &'f str, german: &'f str) -> (&'f str, chrono::Locale) {
        match self.language {
            Language::English => (form, chrono::Locale::en_GB),
            Language::German => (german, chrono::Locale::de_DE),
            Language::French => (form, chrono::Locale::fr_FR),
        }
    }

    pub(super) fn wall(self, wall_ms: i64) -> DateTime<FixedOffset> {
        wall(wall_ms, self.zone)
    }
}

fn time_of_day(minute: u16) -> NaiveTime {
    let seconds = u32::from(minute).saturating_mul(60);
    NaiveTime::from_num_seconds_from_midnight_opt(seconds, 0).unwrap_or_default()
}

/// The wall clock of a zone.
pub(crate) fn wall(wall_ms: i64, zone: FixedOffset) -> DateTime<FixedOffset> {
    DateTime::from_timestamp_millis(wall_ms)
        .unwrap_or_default()
        .with_timezone(&zone)
}

fn days_between(first: DateTime<FixedOffset>, then: DateTime<FixedOffset>) -> i64 {
    then.date_naive()
        .signed_duration_since(first.date_naive())
        .num_days()
}
