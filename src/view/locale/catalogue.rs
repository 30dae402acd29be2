//! What is said in each language, as tables made when the program is built (`ui/build.rs`, from `po/`).

use super::Language;

include!(concat!(env!("OUT_DIR"), "/catalogue.rs"));

/// The translation of an English text; `None` in English, and where there is none.
pub(super) fn find(language: Language, english: &str) -> Option<&'static str> {
    let table = table(language);
    let index = table.binary_search_by(|(key, _)| (*key).cmp(english)).ok()?;
    table.get(index).map(|(_, said)| *said)
}

/// All that is said in a language, sorted by the English.
pub(super) const fn table(language: Language) -> &'static [(&'static str, &'static str)] {
    match language {
        Language::English => &[],
        Language::German => DE,
        Language::French => FR,
    }
}

/// The English sentences with holes that can be read back: those with two words of their own or more, so that no
/// sentence is taken for another.
pub(super) const fn templates() -> &'static [&'static str] {
    TEMPLATES
}
