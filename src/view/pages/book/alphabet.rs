//! How names are filed: by their letters, whatever marks those carry.

use icu_normalizer::DecomposingNormalizerBorrowed;

/// A name as it is sorted: `\u{c9}carlate` stands among the E, `\u{152}illet` among the O. Marks are told by
/// the Unicode decomposition; what it leaves alone are the letters written as two.
///
/// German and French dictionaries file so (DIN 5007-1 for German); case is left as it is.
pub(in crate::view::pages) fn filed(name: &str) -> String {
    let apart = DecomposingNormalizerBorrowed::new_nfd().normalize_iter(name.chars());
    let mut filed = String::with_capacity(name.len());
    for letter in apart {
        match letter {
            '\u{300}'..='\u{36f}' => {}
            '\u{152}' => filed.push_str("Oe"),
            '\u{153}' => filed.push_str("oe"),
            '\u{c6}' => filed.push_str("Ae"),
            '\u{e6}' => filed.push_str("ae"),
            '\u{df}' => filed.push_str("ss"),
            other => filed.push(other),
        }
    }
    filed
}

/// With its first letter upper case.
pub(in crate::view::pages) fn capital(name: &str) -> String {
    let mut letters = name.chars();
    letters
        .next()
        .map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

#[cfg(test)]
mod tests {
    use super::filed;

    /// The Unicode Character Database gives the decompositions; the filing of the two-letter signs is that of French
    /// and German dictionaries (from memory).
    #[test]
    fn a_name_is_filed_under_its_bare_letters() {
        for (name, bare) in [
            ("Madder", "Madder"),
            ("\u{c9}carlate de laque", "Ecarlate de laque"),
            ("\u{152}illet d'Inde", "Oeillet d'Inde"),
            ("Gall\u{e4}pfel", "Gallapfel"),
            ("Wei\u{df}", "Weiss"),
        ] {
            assert_eq!(filed(name), bare);
        }
    }
}
