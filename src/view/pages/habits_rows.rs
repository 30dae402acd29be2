//! The units and the clock a dyer chooses among on the bench.

use crate::view::locale::{Habits, Hours, Locale, Temperatures, Volumes, Weights};
use crate::view::screen::Row;
use crate::{msg, say};

use super::settings::{Setting, option};

const WEIGHTS: [Weights; 2] = [Weights::Grams, Weights::Ounces];
const TEMPERATURES: [Temperatures; 2] = [Temperatures::Celsius, Temperatures::Fahrenheit];
const VOLUMES: [Volumes; 3] = [Volumes::Litres, Volumes::UsGallons, Volumes::ImperialGallons];
const HOURS: [Hours; 2] = [Hours::TwentyFour, Hours::Twelve];

/// A unit of weight. Signs of units are the same in every language.
pub(super) const fn weights(weights: Weights) -> &'static str {
    match weights {
        Weights::Grams => "g",
        Weights::Ounces => "oz",
    }
}

/// A unit of temperature.
pub(super) const fn temperatures(temperatures: Temperatures) -> &'static str {
    match temperatures {
        Temperatures::Celsius => "\u{b0}C",
        Temperatures::Fahrenheit => "\u{b0}F",
    }
}

/// A unit of volume, in English.
pub(super) const fn volumes(volumes: Volumes) -> &'static str {
    match volumes {
        Volumes::Litres => "L",
        Volumes::UsGallons => msg!("US gal"),
        Volumes::ImperialGallons => msg!("imperial gal"),
    }
}

/// A clock.
pub(super) const fn hours(hours: Hours) -> &'static str {
    match hours {
        Hours::TwentyFour => "24 h",
        Hours::Twelve => "12 h",
    }
}

/// What there is to choose from; none for a setting that isn't a habit. The keys of all of them differ.
pub(super) fn options(setting: Setting, chosen: Habits, locale: Locale) -> Vec<Row> {
    let row = |key: &str, chosen: bool| option(key, locale.say(key), chosen);
    if setting == Setting::Weights {
        let rows = WEIGHTS.into_iter();
        return rows.map(|it| row(weights(it), it == chosen.weights)).collect();
    }
    if setting == Setting::Temperatures {
        let rows = TEMPERATURES.into_iter();
        return rows
            .map(|it| row(temperatures(it), it == chosen.temperatures))
            .collect();
    }
    if setting == Setting::Volumes {
        let rows = VOLUMES.into_iter();
        return rows
            .map(|it| Row {
                detail: lengths(it, locale),
                ..row(volumes(it), it == chosen.volumes)
            })
            .collect();
    }
    if setting == Setting::Clock {
        let rows = HOURS.into_iter();
        return rows.map(|it| row(hours(it), it == chosen.hours)).collect();
    }
    Vec::new()
}

/// What depths and heights are in, beside a unit of volume.
fn lengths(volumes: Volumes, locale: Locale) -> String {
    match volumes {
        Volumes::Litres => say!(locale, "with cm and m"),
        Volumes::UsGallons | Volumes::ImperialGallons => say!(locale, "with inches and feet"),
    }
}

/// The habit of a key is taken on.
pub(super) fn choose(key: &str, habits: &mut Habits) {
    if let Some(it) = WEIGHTS.into_iter().find(|it| weights(*it) == key) {
        habits.weights = it;
    }
    if let Some(it) = TEMPERATURES.into_iter().find(|it| temperatures(*it) == key) {
        habits.temperatures = it;
    }
    if let Some(it) = VOLUMES.into_iter().find(|it| volumes(*it) == key) {
        habits.volumes = it;
    }
    if let Some(it) = HOURS.into_iter().find(|it| hours(*it) == key) {
        habits.hours = it;
    }
}
