//! A recipe's figures in words: the point it uses, the range of its source, the source, and how well it is founded.

use crate::craft::quantity::{Concentration, LiquorRatio, PercentWof, Ramp, Temperature};
use crate::craft::time::Span;
use crate::recipe::model::{Figure, Recipe, Strength};
use crate::view::locale::Locale;
use crate::view::screen::{Block, BlockLook};
use crate::{msg, say};

/// A quantity of a recipe in words, exactly as it stands there: nothing is rounded.
pub(super) trait Told: Copy {
    /// With its unit.
    fn told(self, locale: Locale) -> String;
}

impl Told for PercentWof {
    fn told(self, locale: Locale) -> String {
        say!(
            locale,
            "{percent} % WOF",
            percent = locale.pointed(&self.percent().to_string())
        )
    }
}

impl Told for Concentration {
    fn told(self, locale: Locale) -> String {
        format!("{} g/L", locale.pointed(&self.grams_per_litre().to_string()))
    }
}

impl Told for LiquorRatio {
    fn told(self, locale: Locale) -> String {
        format!("{} L/kg", locale.pointed(&self.litres_per_kg().to_string()))
    }
}

impl Told for Temperature {
    fn told(self, locale: Locale) -> String {
        format!("{} \u{b0}C", locale.pointed(&tidy(self.celsius()).to_string()))
    }
}

impl Told for Ramp {
    fn told(self, locale: Locale) -> String {
        format!(
            "{} \u{b0}C/min",
            locale.pointed(&tidy(self.kelvin_per_minute()).to_string())
        )
    }
}

impl Told for Span {
    fn told(self, locale: Locale) -> String {
        locale.span(self)
    }
}

impl Told for f64 {
    fn told(self, locale: Locale) -> String {
        say!(
            locale,
            "{parts} parts",
            parts = locale.pointed(&tidy(self).to_string())
        )
    }
}

/// A figure as a block.
pub(super) fn fact<T: Told>(
    label: impl Into<String>,
    figure: &Figure<T>,
    recipe: &Recipe,
    locale: Locale,
) -> Block {
    Block {
        look: BlockLook::Fact,
        label: label.into(),
        value: figure.chosen.told(locale),
        detail: founded(figure, recipe, locale),
        ..Block::default()
    }
}

/// Range, strength and source of a figure.
pub(super) fn founded<T: Told>(figure: &Figure<T>, recipe: &Recipe, locale: Locale) -> String {
    let source = recipe.source_of(figure);
    let source = source.map_or_else(String::new, |source| {
        sourced(source.strength, &source.text, locale)
    });
    match figure.range {
        Some((low, high)) => say!(
            locale,
            "range {low} to {high}; {source}",
            low = low.told(locale),
            high = high.told(locale),
            source = source
        ),
        None => source,
    }
}

/// How well something is founded and on what; a text that says it itself isn't told twice.
pub(in crate::view::pages) fn sourced(strength: Strength, text: &str, locale: Locale) -> String {
    let words = strength_words(strength);
    let with_strength = |text: &str| {
        say!(
            locale,
            "{strength}: {text}",
            strength = locale.say(words),
            text = locale.read(text)
        )
    };
    let Some(rest) = text.strip_prefix(words) else {
        return with_strength(text);
    };
    // The text is known as it stands, or what it says behind its own strength is.
    let whole = locale.read(text);
    match rest.strip_prefix(": ") {
        Some(rest) if whole == text => with_strength(rest),
        Some(_) | None => whole,
    }
}

/// How well a figure is founded.
pub(super) const fn strength_words(strength: Strength) -> &'static str {
    match strength {
        Strength::Published => msg!("published"),
        Strength::Partial => msg!("published, read in part"),
        Strength::Practice => msg!("common practice, no source"),
        Strength::Memory => msg!("from memory"),
        Strength::Arithmetic => msg!("by arithmetic"),
    }
}

/// Without the dust that conversions leave behind the last digit.
fn tidy(number: f64) -> f64 {
    (number * 1_000.0).round() / 1_000.0
}
