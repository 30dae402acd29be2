//! The known word, or words, that an unknown one most likely meant.

/// Words longer than this are nobody's slip.
const WORD_CHARACTERS_MOST: usize = 64;
/// More than this many suggestions help nobody.
const SUGGESTIONS_MOST: usize = 5;

/// The candidate that the word was most likely meant to be, or `None` when none is near.
///
/// Case, spaces and underscores don't count. Of two equally near the earlier one is given.
pub fn nearest<'c>(word: &str, candidates: impl IntoIterator<Item = &'c str>) -> Option<&'c str> {
    near(word, candidates).into_iter().next()
}

/// The candidates a word may have meant: those a slip of the fingers away, equally near; or else those that have the
/// word as a part, as `soda-ash` and `baking-soda` have `soda`.
pub(super) fn near<'c>(word: &str, candidates: impl IntoIterator<Item = &'c str>) -> Vec<&'c str> {
    if word.chars().nth(WORD_CHARACTERS_MOST).is_some() {
        return Vec::new();
    }
    let word = plain(word);
    if word.is_empty() {
        return Vec::new();
    }
    let most = word.chars().count().div_euclid(3).max(1); // One slip in three letters.
    let candidates: Vec<(usize, &str)> = candidates
        .into_iter()
        .map(|candidate| (strsim::osa_distance(&word, &plain(candidate)), candidate))
        .collect();

    let least = candidates.iter().map(|(distance, _)| *distance).min();
    let is_near: Vec<&str> = match least {
        Some(least) if least <= most => candidates
            .into_iter()
            .filter(|(distance, _)| *distance == least)
            .map(|(_, one)| one)
            .collect(),
        Some(_) | None => candidates
            .into_iter()
            .map(|(_, one)| one)
            .filter(|one| has_part(one, &word))
            .collect(),
    };
    is_near.into_iter().take(SUGGESTIONS_MOST).collect()
}

fn has_part(candidate: &str, word: &str) -> bool {
    format!("-{}-", plain(candidate)).contains(&format!("-{word}-"))
}

fn plain(word: &str) -> String {
    word.trim().to_lowercase().replace(['_', ' '], "-")
}
