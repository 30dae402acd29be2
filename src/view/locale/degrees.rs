//! Temperatures that stand within a sentence as its author wrote them: the glass gives them their sign, and to who counts
//! in Fahrenheit it says them once more, since a caution that must be converted first isn't read.

use super::figures::fahrenheit;
use super::{Locale, Temperatures};

/// How Celsius is written in finished sentences, in any language, and the space that parts it from its number.
const CELSIUS: [(&str, char); 4] = [
    (" C", ' '),
    (" \u{b0}C", ' '),
    ("\u{a0}C", '\u{a0}'),
    ("\u{a0}\u{b0}C", '\u{a0}'),
];

/// What stands between the two numbers of a range.
const BETWEEN: [&str; 6] = [" to ", " and ", " or ", " bis ", " \u{e0} ", "-"];

/// What makes a rate of it: then the numbers are differences.
const A_MINUTE: [&str; 4] = [" a minute", " in der Minute", " pro Minute", " par minute"];

impl Locale {
    /// `60 C` with the sign of degrees, and behind it the same in Fahrenheit, in brackets, where that is the habit.
    pub(super) fn with_degrees(self, sentence: String) -> String {
        // Most sentences are about something else, and a screen reads many.
        if !sentence.contains('C') {
            return sentence;
        }
        let mut out = String::new();
        let mut rest = sentence.as_str();
        while let Some((before, space, after)) = next_celsius(rest) {
            out.push_str(before);
            out.push(space);
            out.push_str("\u{b0}C");
            if self.habits.temperatures == Temperatures::Fahrenheit && !after.starts_with(" (") {
                out.push_str(&self.said_in_fahrenheit(before, after));
            }
            rest = after;
        }
        if out.is_empty() {
            return sentence;
        }
        out.push_str(rest);
        out
    }

    /// In brackets, one number or a range.
    fn said_in_fahrenheit(self, before: &str, after: &str) -> String {
        let is_rate = A_MINUTE.iter().any(|rate| after.starts_with(rate));
        let said = |celsius: f64| {
            let value = if is_rate {
                celsius * 1.8
            } else {
                fahrenheit(celsius)
            };
            self.decimal(value, 0)
        };
        let (before, Some(last)) = number_at_end(before) else {
            return String::new();
        };
        let first = BETWEEN.iter().find_map(|between| {
            let (_, first) = number_at_end(before.strip_suffix(between)?);
            Some((first?, between))
        });
        match first {
            Some((first, between)) => format!(" ({}{between}{} \u{b0}F)", said(first), said(last)),
            None => format!(" ({} \u{b0}F)", said(last)),
        }
    }
}

/// What stands before the next Celsius, its number included; the space; and what stands behind.
fn next_celsius(text: &str) -> Option<(&str, char, &str)> {
    let found = |&(sign, space): &(&str, char)| {
        text.match_indices(sign).find_map(|(at, sign)| {
            let (before, after) = text.split_at(at);
            let after = after.strip_prefix(sign)?;
            let ends = !after.starts_with(|next: char| next.is_alphanumeric() || next == '/');
            let counts = before.ends_with(|last: char| last.is_ascii_digit());
            (ends && counts).then_some((before, space, after))
        })
    };
    CELSIUS
        .iter()
        .filter_map(found)
        .min_by_key(|(before, _, _)| before.len())
}

/// The number a text ends with, by point or comma, and what stands before it.
fn number_at_end(text: &str) -> (&str, Option<f64>) {
    let before = text.trim_end_matches(|sign: char| sign.is_ascii_digit() || sign == '.' || sign == ',');
    let written = text.strip_prefix(before).unwrap_or_default();
    (before, written.replace(',', ".").parse().ok())
}
