//! The languages of the glass.

/// A language. What it says is in `po/`, in the open form of gettext.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[expect(missing_docs, reason = "the names say which")]
pub enum Language {
    #[default]
    English,
    German,
    French,
}

impl Language {
    /// All of them, in the order they are offered.
    pub const ALL: [Self; 3] = [Self::English, Self::German, Self::French];

    /// Its tag as BCP 47 has it: `en`, `de`, `fr`.
    #[must_use]
    pub const fn tag(self) -> &'static str {
        match self {
            Self::English => "en",
            Self::German => "de",
            Self::French => "fr",
        }
    }

    /// The language of a tag; what follows a first part, such as a country, is let go: `de_AT.UTF-8` is German.
    #[must_use]
    pub fn from_tag(tag: &str) -> Option<Self> {
        let first = tag.split(['-', '_', '.', '@']).next().unwrap_or_default();
        Self::ALL
            .into_iter()
            .find(|language| language.tag().eq_ignore_ascii_case(first))
    }

    /// Its own name for itself, which is how it is offered: who can't read the screen can read this.
    #[must_use]
    pub const fn own_name(self) -> &'static str {
        match self {
            Self::English => "English",
            Self::German => "Deutsch",
            Self::French => "Fran\u{e7}ais",
        }
    }

    /// What stands between the ones and the tenths.
    #[must_use]
    pub const fn decimal_sign(self) -> char {
        match self {
            Self::English => '.',
            Self::German | Self::French => ',',
        }
    }
}
