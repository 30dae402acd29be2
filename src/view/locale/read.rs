//! Sentences that come finished and in English, from the rooms to the left or out of a record, read back and said in
//! the language of the dyer.
//!
//! A sentence is looked up as it stands; else it is held against the sentences with holes, and what stands in the
//! holes is read in turn; else it is taken apart at its full stops, commas and *and*. What is known to nobody, such as
//! the words of a dyer's own recipe, stays as it is.

use crate::craft::measures::KitchenUnit;
use crate::craft::quantity::{Length, Volume};

use super::figures::fahrenheit;
use super::{Habits, Language, Locale, Temperatures, Volumes, Weights, catalogue};

/// Holes in holes in holes: no sentence of ours goes deeper.
const DEEPEST: usize = 4;

impl Locale {
    /// A finished English sentence in the language and the units of this locale. A number in a hole of ours that is
    /// followed by its unit (`C`, `g`, `L`, `cm`) is said in the dyer's unit; one whose hole is named `by...` is a
    /// difference of temperatures. Numbers within an author's own sentence stay in the author's unit.
    #[must_use]
    pub fn read(self, english: &str) -> String {
        if self.language == Language::English && self.habits == Habits::METRIC {
            return english.to_owned();
        }
        self.known(english, DEEPEST).unwrap_or_else(|| english.to_owned())
    }

    fn known(self, english: &str, depth: usize) -> Option<String> {
        if english.is_empty() {
            return Some(String::new());
        }
        if let Some(said) = catalogue::find(self.language, english) {
            return Some(said.to_owned());
        }
        let depth = depth.checked_sub(1)?;
        self.by_template(english, depth)
            .or_else(|| self.in_parts(english, depth))
    }

    /// Against the sentences with holes: the one with the most letters of its own wins.
    fn by_template(self, english: &str, depth: usize) -> Option<String> {
        let (template, held) = catalogue::templates()
            .iter()
            .filter_map(|template| Some((*template, held(template, english)?)))
            .max_by_key(|(template, held)| {
                let in_holes: usize = held.iter().map(|(name, _)| name.len().saturating_add(2)).sum();
                template.len().saturating_sub(in_holes)
            })?;
        let said = catalogue::find(self.language, template).unwrap_or(template);
        Some(self.refilled(said, &held, depth))
    }

    fn refilled(self, said: &str, held: &[(&str, &str)], depth: usize) -> String {
        let mut out = String::with_capacity(said.len());
        let mut rest = said;
        while let Some((before, from)) = rest.split_once('{') {
            out.push_str(before);
            let Some((name, after)) = from.split_once('}') else {
                break;
            };
            rest = after;
            let value = held
                .iter()
                .find(|(hole, _)| *hole == name)
                .map_or("", |(_, value)| *value);
            let is_number = value.parse::<f64>().is_ok();
            match is_number.then(|| unit_after(after)).flatten() {
                Some((unit, behind)) => {
                    out.push_str(&self.in_unit(value, unit, name.starts_with("by")));
                    rest = behind;
                }
                None if is_number => out.push_str(&self.pointed(value)),
                None => match self.known(value, depth) {
                    Some(known) => out.push_str(&known),
                    None => out.push_str(value),
                },
            }
        }
        out.push_str(rest);
        out
    }

    /// A number as it was written, in the dyer's unit. The metric ones keep their digits.
    fn in_unit(self, written: &str, unit: Unit, is_difference: bool) -> String {
        let value: f64 = written.parse().unwrap_or_default();
        let places = written.split_once('.').map_or(0, |(_, places)| places.len());
        let metric = |name: &str| format!("{} {name}", self.pointed(written));
        match unit {
            Unit::Celsius => match self.habits.temperatures {
                Temperatures::Celsius => metric("\u{b0}C"),
                Temperatures::Fahrenheit => {
                    let value = if is_difference {
                        value * 1.8
                    } else {
                        fahrenheit(value)
                    };
                    format!("{} \u{b0}F", self.decimal(value, places))
                }
            },
            Unit::Gram => match self.habits.weights {
                Weights::Grams => metric("g"),
                Weights::Ounces => {
                    let places = places.saturating_add(1).max(2);
                    format!("{} oz", self.decimal(value / KitchenUnit::Ounce.si(), places))
                }
            },
            Unit::Litre => match self.habits.volumes {
                Volumes::Litres => metric("L"),
                Volumes::UsGallons | Volumes::ImperialGallons => {
                    self.litres(Volume::saturating_litres(value))
                }
            },
            Unit::Centimetre => match self.habits.volumes {
                Volumes::Litres => metric("cm"),
                Volumes::UsGallons | Volumes::ImperialGallons => {
                    self.depth(Length::saturating_centimetres(value))
                }
            },
        }
    }

    /// Sentence by sentence, or the parts of a list; only if each is known.
    fn in_parts(self, english: &str, depth: usize) -> Option<String> {
        let sentences: Vec<&str> = english.split_inclusive(". ").collect();
        if sentences.len() > 1 {
            let said: Option<Vec<String>> = sentences
                .iter()
                .map(|sentence| self.known(sentence.trim_end(), depth))
                .collect();
            return Some(said?.join(" "));
        }
        for (sign, ours) in [
            ("; ", "; ".to_owned()),
            (", ", ", ".to_owned()),
            (" and ", self.and()),
        ] {
            if let Some((first, rest)) = english.split_once(sign) {
                let first = self.known(first, depth)?;
                let rest = self.known(rest, depth)?;
                return Some(format!("{first}{ours}{rest}"));
            }
        }
        None
    }

    fn and(self) -> String {
        format!(" {} ", self.say("and"))
    }
}

/// The units a number in one of our own sentences can have.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Unit {
    Celsius,
    Gram,
    Litre,
    Centimetre,
}

/// The unit a text begins with, and what follows it.
fn unit_after(text: &str) -> Option<(Unit, &str)> {
    const UNITS: [(&str, Unit); 5] = [
        (" \u{b0}C", Unit::Celsius),
        (" C", Unit::Celsius),
        (" cm", Unit::Centimetre),
        (" g", Unit::Gram),
        (" L", Unit::Litre),
    ];
    UNITS.iter().find_map(|(written, unit)| {
        let rest = text.strip_prefix(written)?;
        let ends = !rest.starts_with(|next: char| next.is_alphanumeric() || next == '/');
        ends.then_some((*unit, rest))
    })
}

/// What stands in the holes of a sentence, if a text is that sentence.
fn held<'t, 's>(template: &'t str, text: &'s str) -> Option<Vec<(&'t str, &'s str)>> {
    let (first, mut template) = template.split_once('{')?;
    let mut text = text.strip_prefix(first)?;
    let mut found = Vec::new();
    loop {
        let (name, after) = template.split_once('}')?;
        let Some((literal, next)) = after.split_once('{') else {
            let value = text.strip_suffix(after)?;
            found.push((name, value));
            return (!value.is_empty()).then_some(found);
        };
        let at = text.find(literal).filter(|at| *at > 0)?;
        let (value, rest) = text.split_at_checked(at)?;
        found.push((name, value));
        text = rest.strip_prefix(literal)?;
        template = next;
    }
}
