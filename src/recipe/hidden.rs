//! Characters that can't be seen, or that make text read otherwise than it is stored.

/// What is wrong with a character that has no place in a recipe.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Hidden {
    /// A control character.
    Control,
    /// It changes the direction of the text around it.
    Direction,
    /// It has no width, or is a blank that is no space.
    ZeroWidth,
}

/// Why a character of the file itself has no place in it. Tabs and line ends are fine here.
pub(super) const fn in_file(c: char) -> Option<Hidden> {
    match c {
        '\t' | '\n' | '\r' => None,
        _ => in_value(c),
    }
}

/// Why a character has no place in a value. One value is one line: tabs and line ends have no place either.
pub(crate) const fn in_value(c: char) -> Option<Hidden> {
    match c {
        '\0'..='\u{1f}' | '\u{7f}'..='\u{9f}' => Some(Hidden::Control),
        // Unicode Standard Annex 9, 2: marks, embeddings, overrides and isolates.
        '\u{61c}' | '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' => {
            Some(Hidden::Direction)
        }
        // Unicode 16, Default_Ignorable_Code_Point, and the separators of lines and paragraphs.
        '\u{ad}'
        | '\u{34f}'
        | '\u{115f}'..='\u{1160}'
        | '\u{17b4}'..='\u{17b5}'
        | '\u{180b}'..='\u{180f}'
        | '\u{200b}'..='\u{200d}'
        | '\u{2028}'..='\u{2029}'
        | '\u{2060}'..='\u{2065}'
        | '\u{206a}'..='\u{206f}'
        | '\u{3164}'
        | '\u{fe00}'..='\u{fe0f}'
        | '\u{feff}'
        | '\u{ffa0}'
        | '\u{fff0}'..='\u{fffb}'
        | '\u{1bca0}'..='\u{1bca3}'
        | '\u{1d173}'..='\u{1d17a}'
        | '\u{e0000}'..='\u{e0fff}' => Some(Hidden::ZeroWidth),
        _ => None,
    }
}

/// A word of the file as it may be shown in a message: nothing hidden, not long.
pub(crate) fn shown(word: &str) -> String {
    const CHARACTERS_MOST: usize = 40;

    let mut out: String = word
        .chars()
        .take(CHARACTERS_MOST)
        .map(|c| if in_value(c).is_some() { '\u{fffd}' } else { c })
        .collect();
    if word.chars().nth(CHARACTERS_MOST).is_some() {
        out.push_str("...");
    }
    out
}
