//! Figures: the chosen point, its range, its source. Text becomes a quantity in [`crate::craft::reading`].

use super::fault::Wrong;
use super::hidden;
use super::model::Figure;
use super::raw::{NAME_CHARACTERS_MOST, Page, Table, text_of, wrong_type};
use super::sources::Sources;
use crate::craft::quantity::{Concentration, LiquorRatio, PercentWof, Ramp, Temperature};
use crate::craft::reading::{self, ReadingFault};
use crate::craft::time::Span;
use toml::Spanned;
use toml::de::DeValue;

/// The keys of one figure in its table. `sources` are tried in order: its own, then the one of the whole table.
#[derive(Clone, Copy)]
pub(super) struct Keys {
    pub(super) chosen: &'static str,
    pub(super) range: &'static str,
    pub(super) sources: [&'static str; 2],
}

/// A quantity that a recipe states as text with its unit.
pub(super) trait Stated: Copy + PartialOrd {
    /// How the author would write one.
    const EXAMPLE: &'static str;
    /// The text as a quantity, or why it is none.
    fn state(text: &str) -> Result<Self, ReadingFault>;
    /// The quantity in words.
    fn words(self) -> String;
    /// Whether a bath can have it, as far as one can tell without the place: an open pot boils at 100 C by the sea.
    fn fits_a_bath(self) -> bool {
        true
    }
    /// Whether nothing is nonsense here.
    fn is_nothing(self) -> bool;
}

/// A figure whose text carries its unit. `None` when it or a part of it is missing or wrong, each noted.
pub(super) fn figure<T: Stated>(
    page: &mut Page<'_>,
    table: Table<'_>,
    keys: Keys,
    sources: &mut Sources<'_>,
) -> Option<Figure<T>> {
    let Some(value) = table.get(keys.chosen) else {
        return table.miss(page, keys.chosen);
    };
    let chosen = quantity::<T>(page, keys.chosen, value);
    if chosen.is_some_and(T::is_nothing) {
        page.note(value.span().start, Wrong::NotAboveZero { key: keys.chosen });
    }
    let range = table
        .has(keys.range)
        .then(|| ends(page, table, keys.range, quantity::<T>));
    let source_index = source(page, table, keys, value, sources);

    let range = match range {
        None => None,
        Some(None) => return None,
        Some(Some(ends)) => Some(ends),
    };
    let chosen = chosen?;
    check_range(page, table, keys, chosen, range, T::words);
    Some(Figure {
        chosen,
        range,
        source_index: source_index?,
    })
}

/// A figure if its key is given.
pub(super) fn figure_if_given<T: Stated>(
    page: &mut Page<'_>,
    table: Table<'_>,
    keys: Keys,
    sources: &mut Sources<'_>,
) -> Option<Figure<T>> {
    if table.has(keys.chosen) {
        return figure(page, table, keys, sources);
    }
    for orphan in [keys.range, keys.sources[0]] {
        if orphan != "range" && orphan != "source" && table.has(orphan) {
            page.note(
                table.place_of(orphan),
                Wrong::KeyMissing {
                    key: keys.chosen,
                    of: table.of,
                },
            );
        }
    }
    None
}

/// Parts have no unit: a plain number above zero.
pub(super) fn parts(
    page: &mut Page<'_>,
    table: Table<'_>,
    keys: Keys,
    sources: &mut Sources<'_>,
) -> Option<Figure<f64>> {
    let value = table.get(keys.chosen)?;
    let chosen = number(page, keys.chosen, value);
    let range = table
        .has(keys.range)
        .then(|| ends(page, table, keys.range, number));
    let source_index = source(page, table, keys, value, sources);

    let range = match range {
        None => None,
        Some(None) => return None,
        Some(Some(ends)) => Some(ends),
    };
    let chosen = chosen?;
    check_range(page, table, keys, chosen, range, |parts| parts.to_string());
    Some(Figure {
        chosen,
        range,
        source_index: source_index?,
    })
}

/// How many dips: a plain whole number.
pub(super) fn count(
    page: &mut Page<'_>,
    table: Table<'_>,
    keys: Keys,
    sources: &mut Sources<'_>,
) -> Option<Figure<u32>> {
    let Some(value) = table.get(keys.chosen) else {
        return table.miss(page, keys.chosen);
    };
    let chosen = few(page, keys.chosen, value);
    let range = table.has(keys.range).then(|| ends(page, table, keys.range, few));
    let source_index = source(page, table, keys, value, sources);

    let range = match range {
        None => None,
        Some(None) => return None,
        Some(Some(ends)) => Some(ends),
    };
    let chosen = chosen?;
    check_range(page, table, keys, chosen, range, |dips| dips.to_string());
    Some(Figure {
        chosen,
        range,
        source_index: source_index?,
    })
}

fn check_range<T: Copy + PartialOrd>(
    page: &mut Page<'_>,
    table: Table<'_>,
    keys: Keys,
    chosen: T,
    range: Option<(T, T)>,
    words: impl Fn(T) -> String,
) {
    let Some((low, high)) = range else { return };
    if low > high {
        let wrong = Wrong::RangeUpsideDown {
            key: keys.chosen,
            low: words(low),
            high: words(high),
        };
        page.note(table.place_of(keys.range), wrong);
    } else if chosen < low || chosen > high {
        let wrong = Wrong::OutsideOwnRange {
            key: keys.chosen,
            chosen: words(chosen),
            low: words(low),
            high: words(high),
        };
        page.note(table.place_of(keys.chosen), wrong);
    }
}

/// The two ends of a range.
fn ends<'a, T>(
    page: &mut Page<'_>,
    table: Table<'a>,
    key: &'static str,
    read: impl Fn(&mut Page<'_>, &'static str, &'a Spanned<DeValue<'a>>) -> Option<T>,
) -> Option<(T, T)> {
    let value = table.get(key)?;
    let Some(items) = value.get_ref().as_array() else {
        page.note(
            value.span().start,
            wrong_type(key, "a list of two, [low, high]", value),
        );
        return None;
    };
    let mut read_ends = items.iter();
    let (Some(low), Some(high), None) = (read_ends.next(), read_ends.next(), read_ends.next()) else {
        page.note(
            value.span().start,
            Wrong::RangeNotOfTwo {
                key,
                count: items.len(),
            },
        );
        return None;
    };
    let low = read(page, key, low);
    let high = read(page, key, high);
    Some((low?, high?))
}

fn quantity<'a, T: Stated>(
    page: &mut Page<'_>,
    key: &'static str,
    value: &'a Spanned<DeValue<'a>>,
) -> Option<T> {
    let at = value.span().start;
    if value.get_ref().is_integer() || value.get_ref().is_float() {
        page.note(
            at,
            Wrong::NumberWithoutUnit {
                key,
                example: T::EXAMPLE,
            },
        );
        return None;
    }
    let text = text_of(page, key, value, NAME_CHARACTERS_MOST)?;
    match T::state(text.text) {
        Ok(quantity) if !quantity.fits_a_bath() => {
            page.note(
                at,
                Wrong::NotABathTemperature {
                    key,
                    said: hidden::shown(text.text),
                },
            );
            None
        }
        Ok(quantity) => Some(quantity),
        Err(fault) => {
            page.note(
                at,
                Wrong::NotAQuantity {
                    key,
                    fault,
                    example: T::EXAMPLE,
                },
            );
            None
        }
    }
}

fn few<'a>(page: &mut Page<'_>, key: &'static str, value: &'a Spanned<DeValue<'a>>) -> Option<u32> {
    const DIPS_MOST: u32 = 9;

    let at = value.span().start;
    let integer = value
        .get_ref()
        .as_integer()
        .filter(|integer| integer.radix() == 10);
    let Some(integer) = integer else {
        page.note(at, wrong_type(key, "a whole number", value));
        return None;
    };
    let dips = integer.as_str().parse().ok();
    let few = dips.filter(|dips| (1..=DIPS_MOST).contains(dips));
    if few.is_none() {
        page.note(
            at,
            Wrong::DipsOutOfRange {
                said: hidden::shown(integer.as_str()),
                most: DIPS_MOST,
            },
        );
    }
    few
}

fn number<'a>(page: &mut Page<'_>, key: &'static str, value: &'a Spanned<DeValue<'a>>) -> Option<f64> {
    const PARTS_MOST: f64 = 1_000.0;

    let at = value.span().start;
    let written = match (value.get_ref().as_integer(), value.get_ref().as_float()) {
        (Some(integer), _) if integer.radix() == 10 => integer.as_str(),
        (_, Some(float)) => float.as_str(),
        _ => {
            page.note(at, wrong_type(key, "a plain number", value));
            return None;
        }
    };
    let number: f64 = written.parse().unwrap_or(f64::NAN);
    if number > 0.0 && number <= PARTS_MOST {
        Some(number)
    } else {
        page.note(
            at,
            Wrong::PartsOutOfRange {
                value: number,
                most: PARTS_MOST,
            },
        );
        None
    }
}

fn source(
    page: &mut Page<'_>,
    table: Table<'_>,
    keys: Keys,
    figure: &Spanned<DeValue<'_>>,
    sources: &mut Sources<'_>,
) -> Option<usize> {
    for key in keys.sources {
        if table.has(key) {
            let text = table.text(page, key, NAME_CHARACTERS_MOST)?;
            return sources.find(page, text);
        }
    }
    page.note(
        figure.span().start,
        Wrong::FigureWithoutSource { key: keys.chosen },
    );
    None
}

macro_rules! stated {
    ($kind:ident, $example:literal, $read:path, $words:expr, $is_nothing:expr) => {
        impl Stated for $kind {
            const EXAMPLE: &'static str = $example;

            fn state(text: &str) -> Result<Self, ReadingFault> {
                $read(text)
            }

            fn words(self) -> String {
                let words: fn(Self) -> String = $words;
                words(self)
            }

            fn is_nothing(self) -> bool {
                let is_nothing: fn(Self) -> bool = $is_nothing;
                is_nothing(self)
            }
        }
    };
}

stated!(
    LiquorRatio,
    "30 L/kg",
    reading::liquor_ratio,
    |it| format!("{it:?}"),
    |_| false
);
stated!(
    PercentWof,
    "15 %",
    reading::percent,
    |it| format!("{} %", it.percent()),
    |it| it.percent() <= 0.0
);
stated!(
    Concentration,
    "2 g/L",
    reading::concentration,
    |it| format!("{it:?}"),
    |it| it.grams_per_litre() <= 0.0
);
impl Stated for Temperature {
    const EXAMPLE: &'static str = "85 C";

    fn state(text: &str) -> Result<Self, ReadingFault> {
        reading::temperature(text)
    }

    fn words(self) -> String {
        format!("{} C", (self.celsius() * 100.0).round() / 100.0)
    }

    fn fits_a_bath(self) -> bool {
        (0.0..=100.0).contains(&self.celsius())
    }

    fn is_nothing(self) -> bool {
        false
    }
}

stated!(Ramp, "1.2 C/min", reading::ramp, |it| format!("{it:?}"), |_| {
    false
});
stated!(
    Span,
    "60 min",
    reading::span,
    |it| format!("{} min", it.minutes()),
    |it| it == Self::NONE
);
