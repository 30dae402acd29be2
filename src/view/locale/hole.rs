//! The holes of a sentence, and what stands in them once it is finished.

use super::unit::unit_after;

/// The next hole of a text: what stands before it, its name, what follows.
pub(super) fn next_hole(text: &str) -> Option<(&str, &str, &str)> {
    let (before, from) = text.split_once('{')?;
    let (name, after) = from.split_once('}')?;
    Some((before, name, after))
}

/// The names of a sentence's holes and what stands in each, if a text is that sentence. A hole before a unit takes a
/// number only, one that comes twice takes the same twice. Where a text can be taken in several ways, the earlier hole takes as little as it can.
pub(super) fn held<'t, 's>(template: &'t str, text: &'s str) -> Option<Vec<(&'t str, &'s str)>> {
    let (before, from) = template.split_once('{')?;
    let (_, behind) = template.rsplit_once('}')?;
    let text = text.strip_prefix(before)?;
    if !text.ends_with(behind) {
        return None;
    }
    let mut found = Vec::new();
    fill(from, text, &mut found).then_some(found)
}

/// Fills the holes from here on: `from` begins with the name of a hole.
fn fill<'t, 's>(from: &'t str, text: &'s str, found: &mut Vec<(&'t str, &'s str)>) -> bool {
    let Some((name, after)) = from.split_once('}') else {
        return false;
    };
    let takes = |value: &str, found: &[(&str, &str)]| {
        let is_other = |(hole, before): &(&str, &str)| *hole == name && *before != value;
        let is_fit = unit_after(after).is_none() || value.parse::<f64>().is_ok();
        !value.is_empty() && is_fit && !found.iter().any(is_other)
    };
    let Some((literal, next)) = after.split_once('{') else {
        let value = text.strip_suffix(after).filter(|value| takes(value, found));
        found.extend(value.map(|value| (name, value)));
        return value.is_some();
    };
    for (at, _) in text.match_indices(literal) {
        let Some((value, rest)) = text.split_at_checked(at) else {
            continue;
        };
        let rest = rest.strip_prefix(literal).filter(|_| takes(value, found));
        if let Some(rest) = rest {
            found.push((name, value));
            if fill(next, rest, found) {
                return true;
            }
            found.pop();
        }
    }
    false
}

/// A sentence's own letters, and its words of more than a letter: what it is known by.
pub(super) fn own(template: &str) -> (usize, usize) {
    let own: Vec<&str> = template
        .split('{')
        .map(|part| part.split_once('}').map_or(part, |(_, after)| after))
        .collect();
    let letters = own.iter().map(|part| part.len()).sum();
    let is_word = |word: &&str| word.chars().filter(|letter| letter.is_alphabetic()).count() > 1;
    let words = own.join(" ").split_whitespace().filter(is_word).count();
    (letters, words)
}
