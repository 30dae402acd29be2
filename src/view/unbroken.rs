//! An amount isn't broken between its number and its unit: who reads `LOOK 40` in one line looks for forty of something.

/// What a number stands before, in any of our languages.
const UNITS: [&str; 22] = [
    "g", "kg", "mg", "oz", "lb", "L", "mL", "gal", "qt", "cup", "cups", "cm", "in", "ft", "m", "s", "min",
    "h", "d", "%", "\u{b0}C", "\u{b0}F",
];

/// The same text with no-break spaces before units, and between hours and their minutes.
#[must_use]
pub fn unbroken(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut words = text.split(' ').peekable();
    let mut before = "";
    while let Some(word) = words.next() {
        out.push_str(word);
        if let Some(next) = words.peek() {
            let is_unit = is_number(word) && UNITS.contains(&bare(next));
            let are_minutes = word == "h" && is_number(before) && is_number(next);
            out.push(if is_unit || are_minutes { '\u{a0}' } else { ' ' });
        }
        before = word;
    }
    out
}

fn is_number(word: &str) -> bool {
    word.ends_with(|last: char| last.is_ascii_digit())
}

/// A word without the signs that end a clause.
fn bare(word: &str) -> &str {
    word.trim_end_matches([',', ';', ':', '.', '?', '!'])
}

#[cfg(test)]
mod tests {
    use super::unbroken;

    #[test]
    fn a_unit_stays_with_its_number() {
        for (written, kept) in [
            ("HOLD 1 h 30 min", "HOLD 1\u{a0}h\u{a0}30\u{a0}min"),
            ("15.0 g", "15.0\u{a0}g"),
            ("LOOK 40 \u{b0}C?", "LOOK 40\u{a0}\u{b0}C?"),
            ("231 % of it", "231\u{a0}% of it"),
            ("TURN 1, 3, 4", "TURN 1, 3, 4"),
            ("dip 2 of 3", "dip 2 of 3"),
            ("wool, 3 hanks", "wool, 3 hanks"),
            ("", ""),
            (" two  spaces ", " two  spaces "),
        ] {
            assert_eq!(unbroken(written), kept);
        }
    }
}
