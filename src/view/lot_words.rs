//! What is said of a lot on the glass and on its label alike.

use chrono::NaiveDate;

use crate::craft::fibre::Fibre;
use crate::say;
use crate::shelf::Came;

use super::locale::Locale;

/// The name that a lot is given by the program, as it is kept: English, like everything in a file.
pub(super) fn given_name(fibre: Fibre, day: NaiveDate) -> String {
    format!("{} of {}", fibre.name(), day.format(GIVEN_DAY))
}

const GIVEN_DAY: &str = "%-d %b %Y";

/// The name of a lot as it is read: one that the program gave is said in the dyer's language, one that the dyer gave
/// stays as it is.
pub(super) fn lot_name(name: &str, locale: Locale) -> String {
    let given = name.split_once(" of ").and_then(|(fibre, day)| {
        let fibre = Fibre::ALL.into_iter().find(|known| known.name() == fibre)?;
        let day = NaiveDate::parse_from_str(day, GIVEN_DAY).ok()?;
        (given_name(fibre, day) == name).then_some((fibre, day))
    });
    match given {
        Some((fibre, day)) => say!(
            locale,
            "{fibre} of {day}",
            fibre = locale.read(fibre.name()),
            day = locale.date(day)
        ),
        None => name.to_owned(),
    }
}

/// How goods came.
pub(super) fn came(came: Came, locale: Locale) -> String {
    match came {
        Came::Raw => say!(locale, "raw"),
        Came::Scoured => say!(locale, "scoured"),
    }
}
