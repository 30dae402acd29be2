//! The known word a misspelt one most likely meant.

/// Words longer than this are nobody's slip.
const WORD_CHARACTERS_MOST: usize = 64;

/// The candidate that the word was most likely meant to be, or `None` when none is near.
///
/// Case, spaces and underscores don't count. Of two equally near the earlier one is given.
pub fn nearest<'c>(word: &str, candidates: impl IntoIterator<Item = &'c str>) -> Option<&'c str> {
    if word.is_empty() || word.chars().count() > WORD_CHARACTERS_MOST {
        return None;
    }
    let word = plain(word);
    let most = word.chars().count().div_euclid(3).max(1); // One slip in three letters.

    candidates
        .into_iter()
        .map(|candidate| (distance(&word, candidate), candidate))
        .filter(|(distance, _)| *distance <= most)
        .min_by_key(|(distance, _)| *distance)
        .map(|(_, candidate)| candidate)
}

fn distance(word: &str, candidate: &str) -> usize {
    let candidate = plain(candidate);
    if word.chars().count() >= 4 && candidate.starts_with(word) {
        return 1; // A word cut short: `soda` for `soda-ash`.
    }
    strsim::osa_distance(word, &candidate)
}

fn plain(word: &str) -> String {
    word.trim().to_lowercase().replace(['_', ' '], "-")
}
