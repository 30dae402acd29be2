//! What is said in each language, as tables made when the program is built (`ui/build.rs`, from `po/`).

use super::Language;

include!(concat!(env!("OUT_DIR"), "/catalogue.rs"));

/// A catalogue of translations. The program's own are [`Words::of`] a language; a test brings others.
#[derive(Debug, Clone, Copy)]
pub struct Words<'a> {
    /// English and what is said for it, sorted by the English. A context stands before it, parted by U+0004.
    pub said: &'a [(&'a str, &'a str)],
    /// The English sentences with holes that reach the glass finished, and are read back.
    pub sentences: &'a [&'a str],
}

impl Words<'static> {
    /// The program's own. Those of English are another's, of which only the English counts: what is ours can be told
    /// from what isn't.
    #[must_use]
    pub const fn of(language: Language) -> Self {
        let said = match language {
            Language::English | Language::German => DE,
            Language::French => FR,
        };
        Self {
            said,
            sentences: TEMPLATES,
        }
    }
}

impl<'a> Words<'a> {
    /// What is said for an English text, if it is known: in English itself.
    pub(super) fn find(self, language: Language, english: &str) -> Option<&'a str> {
        let index = self.said.binary_search_by(|(key, _)| (*key).cmp(english)).ok()?;
        let (key, said) = self.said.get(index)?;
        match language {
            Language::English => Some(key),
            Language::German | Language::French => Some(said),
        }
    }
}

/// The translation of an English text; `None` in English, and where there is none.
pub(super) fn find(language: Language, english: &str) -> Option<&'static str> {
    match language {
        Language::English => None,
        Language::German | Language::French => Words::of(language).find(language, english),
    }
}
