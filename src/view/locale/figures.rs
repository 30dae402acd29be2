//! Amounts, temperatures, depths and spans in finished words.

use crate::craft::measures::{CENTIMETRES_PER_INCH, KitchenUnit, METRES_PER_FOOT};
use crate::craft::quantity::{Band, Length, Mass, Temperature, Volume};
use crate::craft::time::Span;
use crate::say;
use crate::shelf::Milligrams;

use super::{Language, Locale, Temperatures, Volumes, Weights};

impl Locale {
    /// A number with so many places after the decimal sign of the language.
    #[must_use]
    pub fn decimal(self, value: f64, places: usize) -> String {
        self.pointed(&format!("{value:.places$}"))
    }

    /// A number written with a point, written with the decimal sign of the language.
    #[must_use]
    pub fn pointed(self, number: &str) -> String {
        number.replace('.', &self.language.decimal_sign().to_string())
    }

    /// A share on the glass. German and French part the number from its sign, and no line may break there.
    ///
    /// ```
    /// # use potside::view::locale::{Language, Locale};
    /// # use chrono::Offset;
    /// let plain = Locale::plain(chrono::Utc.fix());
    /// assert_eq!(plain.percent("2.5"), "2.5 %");
    /// let german = Locale { language: Language::German, ..plain };
    /// assert_eq!(german.percent("2.5"), "2,5\u{a0}%");
    /// ```
    #[must_use]
    pub fn percent(self, number: &str) -> String {
        let number = self.pointed(number);
        match self.language {
            Language::English => format!("{number} %"),
            Language::German | Language::French => format!("{number}\u{a0}%"),
        }
    }

    /// A weight as a scale shows it: the fewer, the finer.
    ///
    /// ```
    /// # use potside::{craft::quantity::Mass, view::locale::{Habits, Language, Locale, Weights}};
    /// let plain = Locale::plain(chrono::Utc.fix());
    /// # use chrono::Offset;
    /// assert_eq!(plain.grams(Mass::saturating_grams(6.25)), "6.25 g");
    /// assert_eq!(plain.grams(Mass::saturating_grams(15.0)), "15.0 g");
    /// assert_eq!(plain.grams(Mass::saturating_grams(350.04)), "350 g");
    /// let german = Locale { language: Language::German, ..plain };
    /// assert_eq!(german.grams(Mass::saturating_grams(15.0)), "15,0 g");
    /// let ounces = Locale { habits: Habits { weights: Weights::Ounces, ..Habits::METRIC }, ..plain };
    /// assert_eq!(ounces.grams(Mass::saturating_grams(15.0)), "0.529 oz");
    /// ```
    #[must_use]
    pub fn grams(self, mass: Mass) -> String {
        match self.habits.weights {
            Weights::Grams => {
                let grams = mass.grams();
                let places = if grams < 9.995 {
                    2
                } else if grams < 99.95 {
                    1
                } else {
                    0
                };
                format!("{} g", self.decimal(grams, places))
            }
            Weights::Ounces => self.ounces(mass),
        }
    }

    /// The weight of goods, which is kept whole where it is whole.
    #[must_use]
    pub fn goods_weight(self, mass: Mass) -> String {
        match self.habits.weights {
            Weights::Grams => {
                let grams = mass.grams();
                let places = usize::from((grams - grams.round()).abs() >= 0.05);
                format!("{} g", self.decimal(grams, places))
            }
            Weights::Ounces => self.ounces(mass),
        }
    }

    /// What the shelf weighs, with all its digits: `500 g`, `14.8 g`. In ounces it is rounded like any other weight.
    #[must_use]
    pub fn shelf_weight(self, weight: Milligrams) -> String {
        match self.habits.weights {
            Weights::Grams => self.pointed(&weight.to_string()),
            Weights::Ounces => self.ounces(weight.mass()),
        }
    }

    /// Avoirdupois ounces, about as fine as the grams would be.
    #[must_use]
    pub fn ounces(self, mass: Mass) -> String {
        let ounces = mass.grams() / KitchenUnit::Ounce.si();
        let places = if ounces < 0.9995 {
            3
        } else if ounces < 9.995 {
            2
        } else {
            1
        };
        format!("{} oz", self.decimal(ounces, places))
    }

    /// Liquor: litres, or millilitres when there are few; gallons, quarts or fluid ounces.
    #[must_use]
    pub fn litres(self, volume: Volume) -> String {
        let litres = volume.litres();
        let (gallon, quart, ounce) = match self.habits.volumes {
            Volumes::Litres => {
                return if litres < 0.995 {
                    format!("{} mL", self.decimal(litres * 1_000.0, 0))
                } else if litres < 9.95 || (litres < 99.95 && (litres - litres.round()).abs() >= 0.05) {
                    format!("{} L", self.decimal(litres, 1))
                } else {
                    format!("{} L", self.decimal(litres, 0))
                };
            }
            Volumes::UsGallons => (
                KitchenUnit::UsGallon,
                KitchenUnit::UsQuart,
                KitchenUnit::UsFluidOunce,
            ),
            Volumes::ImperialGallons => (
                KitchenUnit::ImperialGallon,
                KitchenUnit::ImperialQuart,
                KitchenUnit::ImperialFluidOunce,
            ),
        };
        let millilitres = litres * 1_000.0;
        if millilitres >= gallon.si() * 0.9995 {
            format!("{} gal", self.decimal(millilitres / gallon.si(), 2))
        } else if millilitres >= quart.si() * 0.9995 {
            format!("{} qt", self.decimal(millilitres / quart.si(), 2))
        } else {
            format!("{} fl oz", self.decimal(millilitres / ounce.si(), 1))
        }
    }

    /// Whole degrees.
    #[must_use]
    pub fn degrees(self, temperature: Temperature) -> String {
        self.degrees_to(temperature, 0)
    }

    /// Whole degrees where there is no room for the unit: `85` and a degree sign.
    #[must_use]
    pub fn bare_degrees(self, temperature: Temperature) -> String {
        let whole = self.degrees(temperature);
        whole
            .split_once(' ')
            .map_or_else(|| whole.clone(), |(number, _)| format!("{number}\u{b0}"))
    }

    /// Degrees to a tenth, where it matters.
    #[must_use]
    pub fn degrees_fine(self, temperature: Temperature) -> String {
        self.degrees_to(temperature, 1)
    }

    fn degrees_to(self, temperature: Temperature, places: usize) -> String {
        let celsius = temperature.celsius();
        match self.habits.temperatures {
            Temperatures::Celsius => format!("{} \u{b0}C", self.decimal(celsius, places)),
            Temperatures::Fahrenheit => format!("{} \u{b0}F", self.decimal(fahrenheit(celsius), places)),
        }
    }

    /// Degrees Celsius as a bare number of the dyer's degrees, for the scale of a picture.
    #[must_use]
    pub fn in_degrees(self, celsius: f64) -> f64 {
        match self.habits.temperatures {
            Temperatures::Celsius => celsius,
            Temperatures::Fahrenheit => fahrenheit(celsius),
        }
    }

    /// The way back from [`in_degrees`](Self::in_degrees).
    #[must_use]
    pub fn in_celsius(self, degrees: f64) -> f64 {
        match self.habits.temperatures {
            Temperatures::Celsius => degrees,
            Temperatures::Fahrenheit => (degrees - 32.0) / 1.8,
        }
    }

    /// A depth or a width.
    #[must_use]
    pub fn depth(self, length: Length) -> String {
        match self.habits.volumes {
            Volumes::Litres => format!("{} cm", self.decimal(length.centimetres(), 1)),
            Volumes::UsGallons | Volumes::ImperialGallons => {
                format!(
                    "{} in",
                    self.decimal(length.centimetres() / CENTIMETRES_PER_INCH, 1)
                )
            }
        }
    }

    /// A height above the sea, of metres.
    #[must_use]
    pub fn height(self, metres: f64) -> String {
        match self.habits.volumes {
            Volumes::Litres => format!("{} m", self.decimal(metres, 0)),
            Volumes::UsGallons | Volumes::ImperialGallons => {
                format!("{} ft", self.decimal(metres / METRES_PER_FOOT, 0))
            }
        }
    }

    /// A span as a dyer says it: `45 s`, `54 min`, `1 h 05 min`, `2 days`.
    #[must_use]
    pub fn span(self, span: Span) -> String {
        const DAY: u64 = 24 * 60;
        let seconds = span.ms().saturating_add(500).checked_div(1_000).unwrap_or(0);
        if seconds < 60 {
            return format!("{seconds} s");
        }
        let minutes = span.ms().saturating_add(30_000).checked_div(60_000).unwrap_or(0);
        let (days, of_day) = (div(minutes, DAY), rem(minutes, DAY));
        let (hours, of_hour) = (div(of_day, 60), rem(of_day, 60));
        match (days, hours, of_hour) {
            (0, 0, minutes) => format!("{minutes} min"),
            (0, hours, 0) => format!("{hours} h"),
            (0, hours, minutes) => format!("{hours} h {minutes:02} min"),
            (1, 0, _) => say!(self, "1 day"),
            (1, hours, _) => say!(self, "1 day {hours} h", hours = hours),
            (days, 0, _) => say!(self, "{days} days", days = days),
            (days, hours, _) => say!(self, "{days} days {hours} h", days = days, hours = hours),
        }
    }

    /// A span for the big digits, which have no room for two units: `45 s`, `54 min`, `2:55 h`, `2 days`.
    #[must_use]
    pub fn big_span(self, span: Span) -> String {
        const HOUR: u64 = 60;
        const DAY: u64 = 24 * HOUR;
        let minutes = span.ms().saturating_add(30_000).checked_div(60_000).unwrap_or(0);
        if minutes < HOUR {
            self.span(span)
        } else if minutes < DAY {
            format!("{}:{:02} h", div(minutes, HOUR), rem(minutes, HOUR))
        } else {
            self.span(Span::from_minutes(div(minutes, DAY).saturating_mul(DAY)))
        }
    }

    /// A band of spans: `38 to 47 min` where both ends are minutes, else each in its own words.
    #[must_use]
    pub fn band(self, of: Band<Span>) -> String {
        const LONG: u64 = 120 * 60_000;
        if of.high.ms() < LONG && of.low.ms() >= 60_000 {
            let (low, high) = (of.low.minutes().round(), of.high.minutes().round());
            if (low - high).abs() < 0.5 {
                format!("{low:.0} min")
            } else {
                let (low, high) = (format!("{low:.0}"), format!("{high:.0}"));
                say!(self, "{low} to {high} min", low = low, high = high)
            }
        } else {
            let (low, high) = (self.span(of.low), self.span(of.high));
            if low == high {
                low
            } else {
                say!(self, "{low} to {high}", low = low, high = high)
            }
        }
    }
}

/// Degrees Fahrenheit of degrees Celsius (NIST SP 811, B.8).
pub(super) fn fahrenheit(celsius: f64) -> f64 {
    celsius * 1.8 + 32.0
}

/// What is left, to the second, for the big digits: `7:30`, `1:02:05`. The last started second counts whole, so it
/// shows `0:00` exactly when it is due. The same in every language.
#[must_use]
pub(crate) fn countdown(left: Span) -> String {
    let seconds = left.ms().saturating_add(999).checked_div(1_000).unwrap_or(0);
    let (hours, minutes, seconds) = (div(seconds, 3_600), rem(div(seconds, 60), 60), rem(seconds, 60));
    if hours > 0 {
        format!("{hours}:{minutes:02}:{seconds:02}")
    } else {
        format!("{minutes}:{seconds:02}")
    }
}

fn div(value: u64, by: u64) -> u64 {
    value.checked_div(by).unwrap_or(0)
}

fn rem(value: u64, by: u64) -> u64 {
    value.checked_rem(by).unwrap_or(0)
}
