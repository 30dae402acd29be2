//! Names and notes that can stand in the shelf's file: one line, nothing hidden, not long.

use crate::msg;
use crate::recipe::hidden;

/// Names have at most this many characters.
pub const NAME_CHARACTERS_MOST: usize = 64;
/// Notes have at most this many.
pub const NOTE_CHARACTERS_MOST: usize = 200;

/// A text that can't stand in the file.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{what} {words} can't be kept: {why}", words = quoted(.text))]
pub struct BadWords {
    /// What it was to be.
    pub what: &'static str,
    /// The text.
    pub text: String,
    /// Why not, and what would do.
    pub why: String,
}

/// A name that a dyer gave, as it is kept.
///
/// # Errors
/// [`BadWords`] when it is empty, too long, or hides something.
pub fn name(text: &str) -> Result<String, BadWords> {
    kept(msg!("the name"), text, NAME_CHARACTERS_MOST)
}

/// A note, as it is kept.
///
/// # Errors
/// The same.
pub fn note(text: &str) -> Result<String, BadWords> {
    kept(msg!("the note"), text, NOTE_CHARACTERS_MOST)
}

fn kept(what: &'static str, text: &str, most: usize) -> Result<String, BadWords> {
    let trimmed = text.trim();
    let bad = |why: String| BadWords {
        what,
        text: text.to_owned(),
        why,
    };
    if trimmed.is_empty() {
        return Err(bad(msg!("it is empty; write something").to_owned()));
    }
    if trimmed.chars().any(|c| hidden::in_value(c).is_some()) {
        return Err(bad(
            msg!("it has characters that can't be seen; type it anew").to_owned()
        ));
    }
    let characters = trimmed.chars().count();
    if characters > most {
        return Err(bad(msg!(
            "it has {characters} characters; say it in {most}",
            characters = characters,
            most = most
        )));
    }
    Ok(trimmed.to_owned())
}

/// A text from a record as it can stand in the file: hidden characters out, the rest cut off, a dash for nothing.
#[must_use]
pub(super) fn clipped(text: &str, most: usize) -> String {
    let plain: String = text
        .chars()
        .filter(|c| hidden::in_value(*c).is_none())
        .take(most)
        .collect();
    if plain.trim().is_empty() {
        "-".to_owned()
    } else {
        plain
    }
}

fn quoted(text: &str) -> String {
    format!("\"{}\"", hidden::shown(text))
}
