//! Sentences that come finished and in English, from the rooms to the left or out of a record, read back and said in
//! the language of the dyer.
//!
//! A sentence is looked up as it stands; else it is held against the sentences with holes, and what stands in the
//! holes is read in turn; else it is taken apart at its full stops, colons, commas and *and*. What is known to nobody,
//! such as the words of a dyer's own recipe, stays as it is.

use crate::msg;

use super::catalogue::Words;
use super::hole::{held, next_hole, own};
use super::unit::unit_after;
use super::{Habits, Language, Locale};

/// Holes in holes in holes: no sentence of ours goes deeper.
const DEEPEST: usize = 4;

/// Names of holes that hold what was typed or what would do; it stays to the letter, so that it can be typed.
pub const TYPED: [&str; 9] = [
    "read",
    "would_do",
    "decimal",
    "thousands",
    "us",
    "imperial",
    "example",
    "units",
    "words",
];

/// Where a text is taken apart, the wider joints first.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Joint {
    /// Behind a full stop, a question, a call.
    Sentence,
    OrElse,
    Semicolon,
    /// What stands before it may be a name that nobody knows.
    Colon,
    CommaOr,
    Comma,
    And,
    Or,
}

const JOINTS: [Joint; 8] = [
    Joint::Sentence,
    Joint::OrElse,
    Joint::Semicolon,
    Joint::Colon,
    Joint::CommaOr,
    Joint::Comma,
    Joint::And,
    Joint::Or,
];

impl Joint {
    /// As it is written in English, each with how much of it belongs to what stands before.
    const fn signs(self) -> &'static [(&'static str, usize)] {
        match self {
            Self::Sentence => &[(". ", 1), ("? ", 1), ("! ", 1)],
            Self::OrElse => &[("; or ", 0)],
            Self::Semicolon => &[("; ", 0)],
            Self::Colon => &[(": ", 0)],
            Self::CommaOr => &[(", or ", 0)],
            Self::Comma => &[(", ", 0)],
            Self::And => &[(" and ", 0)],
            Self::Or => &[(" or ", 0)],
        }
    }

    fn said(self, reader: Reader<'_>) -> String {
        // French parts a sign of two strokes from the word before it.
        let before = match reader.locale.language {
            Language::English | Language::German => "",
            Language::French => "\u{a0}",
        };
        let or = reader.word(msg!("or"));
        match self {
            Self::Sentence => " ".to_owned(),
            Self::OrElse => format!("{before}; {or} "),
            Self::Semicolon => format!("{before}; "),
            Self::Colon => format!("{before}: "),
            Self::CommaOr => format!(", {or} "),
            Self::Comma => ", ".to_owned(),
            Self::And => format!(" {} ", reader.word(msg!("and"))),
            Self::Or => format!(" {or} "),
        }
    }
}

impl Locale {
    /// A finished English sentence in the language and the units of this locale. A number in a hole of ours that is
    /// followed by its unit (`C`, `g`, `L`, `cm`) is said in the dyer's unit; one whose hole is named `by...` is a
    /// difference of temperatures. Numbers within an author's own sentence stay in the author's unit; temperatures are
    /// said in the dyer's beside it.
    #[must_use]
    pub fn read(self, english: &str) -> String {
        self.read_by(Words::of(self.language), english)
    }

    /// The same, by a catalogue of one's own.
    #[must_use]
    pub fn read_by(self, words: Words<'_>, english: &str) -> String {
        let said = if self.language == Language::English && self.habits == Habits::METRIC {
            None
        } else {
            let reader = Reader { locale: self, words };
            reader.known(english, DEEPEST)
        };
        self.with_degrees(said.unwrap_or_else(|| english.to_owned()))
    }
}

/// Who reads, and by which catalogue.
#[derive(Debug, Clone, Copy)]
struct Reader<'a> {
    locale: Locale,
    words: Words<'a>,
}

impl Reader<'_> {
    fn find(&self, english: &str) -> Option<&str> {
        self.words.find(self.locale.language, english)
    }

    fn word<'w>(&'w self, english: &'w str) -> &'w str {
        self.find(english).unwrap_or(english)
    }

    fn known(&self, english: &str, depth: usize) -> Option<String> {
        self.whole(english, depth)
            .or_else(|| self.in_parts(english, &JOINTS, depth))
    }

    /// A text that isn't taken apart: a known one, an id of a known one (`raw-silk`), an amount, one with holes.
    fn whole(&self, english: &str, depth: usize) -> Option<String> {
        self.find(english)
            .or_else(|| self.find(&english.replace('-', " ")))
            .map(str::to_owned)
            .or_else(|| self.locale.amount(english))
            .or_else(|| self.by_template(english, depth.checked_sub(1)?))
    }

    /// Against the sentences with holes: the one with the most letters of its own wins.
    fn by_template(&self, english: &str, depth: usize) -> Option<String> {
        let mut found: Vec<_> = self
            .words
            .sentences
            .iter()
            .filter_map(|template| held(template, english).map(|held| (own(template), *template, held)))
            .collect();
        found.sort_by_key(|((letters, _), _, _)| std::cmp::Reverse(*letters));
        found.into_iter().find_map(|((_, words), template, held)| {
            let said = self.word(template);
            // A dyer's own sentence may well share one word with one of ours.
            let is_sure = words > 1;
            self.refilled(said, &held, is_sure, depth)
        })
    }

    fn refilled(&self, said: &str, held: &[(&str, &str)], is_sure: bool, depth: usize) -> Option<String> {
        let mut out = String::with_capacity(said.len());
        let mut rest = said;
        while let Some((before, name, after)) = next_hole(rest) {
            out.push_str(before);
            rest = after;
            let value = held
                .iter()
                .find(|(hole, _)| *hole == name)
                .map_or("", |(_, value)| *value);
            if TYPED.contains(&name) {
                out.push_str(&self.typed_as_it_is(value));
                continue;
            }
            let is_number = value.parse::<f64>().is_ok();
            if let Some((unit, behind)) = unit_after(after).filter(|_| is_number) {
                out.push_str(&self.locale.in_unit(value, unit, name.starts_with("by")));
                rest = behind;
            } else if let Some(number) = self.locale.shared_unit(name, value).filter(|_| is_number) {
                out.push_str(&number);
            } else {
                match self.known(value, depth) {
                    Some(known) => out.push_str(&known),
                    None if is_sure => out.push_str(value),
                    None => return None,
                }
            }
        }
        out.push_str(rest);
        Some(out)
    }

    /// What is typed, with the words between several of them said.
    fn typed_as_it_is(&self, typed: &str) -> String {
        [Joint::And, Joint::Or]
            .into_iter()
            .fold(typed.to_owned(), |typed, joint| {
                joint
                    .signs()
                    .iter()
                    .fold(typed, |typed, (sign, _)| typed.replace(sign, &joint.said(*self)))
            })
    }

    /// Part by part; only if each is known. Within the first part only narrower joints are looked for.
    fn in_parts(&self, english: &str, joints: &[Joint], depth: usize) -> Option<String> {
        let Some((joint, narrower)) = joints.split_first() else {
            return self.whole(english, depth);
        };
        let part = |text: &str| self.in_parts(text, narrower, depth);
        for (sign, kept) in joint.signs() {
            for (at, _) in english.match_indices(sign) {
                let first = english.get(..at.saturating_add(*kept)).unwrap_or_default();
                let rest = english.get(at.saturating_add(sign.len())..).unwrap_or_default();
                let first = match joint {
                    Joint::Colon => part(first).unwrap_or_else(|| first.to_owned()),
                    Joint::Sentence
                    | Joint::OrElse
                    | Joint::Semicolon
                    | Joint::CommaOr
                    | Joint::Comma
                    | Joint::And
                    | Joint::Or => match part(first) {
                        Some(first) => first,
                        None => continue,
                    },
                };
                let rest = self
                    .whole(rest, depth)
                    .or_else(|| self.in_parts(rest, joints, depth));
                if let Some(rest) = rest {
                    return Some(format!("{first}{}{rest}", joint.said(*self)));
                }
            }
        }
        part(english)
    }
}
