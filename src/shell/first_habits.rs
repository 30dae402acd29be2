//! The language and the units of a bench that nobody has set yet: those of the system, as POSIX has its environment
//! name them (IEEE Std 1003.1-2017, 8.2 Internationalization Variables).

use crate::view::bench::Bench;
use crate::view::locale::{Habits, Language};

/// The variables that name the language of messages; the first that isn't empty counts.
const VARIABLES: [&str; 3] = ["LC_ALL", "LC_MESSAGES", "LANG"];

/// The usual bench in the language of this system.
#[expect(clippy::disallowed_methods, reason = "settings enter here")]
pub(super) fn bench() -> Bench {
    let (language, habits) = named_by(|name| std::env::var(name).ok());
    Bench {
        language,
        habits,
        ..Bench::default()
    }
}

/// Language and units by the environment. A language that isn't spoken here is English; the units are metric but for
/// `en_US`.
///
/// ```
/// # use potside::{shell::first_habits::named_by, view::locale::{Habits, Language}};
/// let lang = |value: &'static str| move |name: &str| (name == "LANG").then(|| value.to_owned());
/// assert_eq!(named_by(lang("de_AT.UTF-8")), (Language::German, Habits::METRIC));
/// assert_eq!(named_by(lang("en_GB")), (Language::English, Habits::METRIC));
/// assert_eq!(named_by(lang("C")), (Language::English, Habits::METRIC));
/// assert_ne!(named_by(lang("en_US.UTF-8")).1, Habits::METRIC);
/// ```
#[must_use]
pub fn named_by(variable: impl Fn(&str) -> Option<String>) -> (Language, Habits) {
    let named = VARIABLES
        .into_iter()
        .filter_map(variable)
        .find(|value| !value.is_empty())
        .unwrap_or_default();
    let language = Language::from_tag(&named).unwrap_or_default();
    let place = named.split(['.', '@']).next().unwrap_or_default();
    let habits = if place == "en_US" {
        Habits::UNITED_STATES
    } else {
        Habits::METRIC
    };
    (language, habits)
}
