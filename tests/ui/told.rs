//! The scenes of each language, made once for all tests: they take seconds to play.

use std::sync::LazyLock;

use potside::view::locale::Language;

use crate::scenes::{Scene, scenes};
use crate::shown::locale;

static ENGLISH: LazyLock<Vec<Scene>> = LazyLock::new(|| scenes(locale(Language::English, false)));
static GERMAN: LazyLock<Vec<Scene>> = LazyLock::new(|| scenes(locale(Language::German, false)));
static FRENCH: LazyLock<Vec<Scene>> = LazyLock::new(|| scenes(locale(Language::French, false)));
static UNITED_STATES: LazyLock<Vec<Scene>> = LazyLock::new(|| scenes(locale(Language::English, true)));

/// In a language with its usual units.
pub(crate) fn in_language(language: Language) -> &'static [Scene] {
    match language {
        Language::English => &ENGLISH,
        Language::German => &GERMAN,
        Language::French => &FRENCH,
    }
}

/// In English, with the units of the United States.
pub(crate) fn in_us_units() -> &'static [Scene] {
    &UNITED_STATES
}
