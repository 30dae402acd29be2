//! Numbers with a unit in finished sentences, in the unit the dyer is used to.

use crate::craft::measures::KitchenUnit;
use crate::craft::quantity::{Length, Volume};

use super::figures::fahrenheit;
use super::{Locale, Temperatures, Volumes, Weights};

/// The units a number in one of our own sentences is changed from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Unit {
    Celsius,
    Gram,
    Litre,
    Millilitre,
    Centimetre,
    Metre,
}

/// Units that are the same everywhere.
const NEUTRAL: [&str; 19] = [
    "%",
    "mL",
    "kg",
    "mg",
    "L/kg",
    "g/L",
    "g/min",
    "s",
    "min",
    "h",
    "m",
    "W",
    "kW",
    "hPa",
    "pH",
    "C/min",
    "WOF",
    "\u{b0}C/min",
    "mm",
];

impl Locale {
    /// A number as it was written, in the dyer's unit. The metric ones keep their digits.
    pub(super) fn in_unit(self, written: &str, unit: Unit, is_difference: bool) -> String {
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
            Unit::Millilitre => match self.habits.volumes {
                Volumes::Litres => metric("mL"),
                Volumes::UsGallons | Volumes::ImperialGallons => {
                    self.litres(Volume::saturating_litres(value / 1_000.0))
                }
            },
            Unit::Centimetre => match self.habits.volumes {
                Volumes::Litres => metric("cm"),
                Volumes::UsGallons | Volumes::ImperialGallons => {
                    self.depth(Length::saturating_centimetres(value))
                }
            },
            Unit::Metre => match self.habits.volumes {
                Volumes::Litres => metric("m"),
                Volumes::UsGallons | Volumes::ImperialGallons => self.height(value),
            },
        }
    }

    /// The first of two numbers that share a unit, such as `90` in *from 90 to 88 C*: its hole is named for its unit.
    pub(super) fn shared_unit(self, name: &str, written: &str) -> Option<String> {
        let unit = if name.starts_with("celsius") {
            Unit::Celsius
        } else if name.starts_with("grams") {
            Unit::Gram
        } else {
            return None;
        };
        let said = self.in_unit(written, unit, false);
        said.split_once(' ').map(|(number, _)| number.to_owned())
    }

    /// A text that is an amount or a mark and no words: `85.2 g`, `1 h 05 min`, `14:32`, `L12`, `B`.
    pub(super) fn amount(self, text: &str) -> Option<String> {
        if let Some((number, _)) = text.split_once(' ')
            && number.parse::<f64>().is_ok()
            && let Some((unit, "")) = text.strip_prefix(number).and_then(unit_after)
        {
            return Some(self.in_unit(number, unit, false));
        }
        let said: Option<Vec<String>> = text.split(' ').map(|word| self.amount_word(word)).collect();
        said.map(|words| words.join(" "))
    }

    fn amount_word(self, word: &str) -> Option<String> {
        if word.parse::<f64>().is_ok() {
            return Some(self.pointed(word));
        }
        let is_mark = word
            .split(|letter: char| !letter.is_alphabetic())
            .all(|letters| letters.chars().count() < 2);
        (is_mark || NEUTRAL.contains(&word)).then(|| word.to_owned())
    }
}

/// The unit a text begins with, and what follows it.
pub(super) fn unit_after(text: &str) -> Option<(Unit, &str)> {
    const UNITS: [(&str, Unit); 7] = [
        (" \u{b0}C", Unit::Celsius),
        (" C", Unit::Celsius),
        (" cm", Unit::Centimetre),
        (" g", Unit::Gram),
        (" L", Unit::Litre),
        (" mL", Unit::Millilitre),
        (" m", Unit::Metre),
    ];
    UNITS.iter().find_map(|(written, unit)| {
        let rest = text.strip_prefix(written)?;
        let ends = !rest.starts_with(|next: char| next.is_alphanumeric() || next == '/');
        ends.then_some((*unit, rest))
    })
}
