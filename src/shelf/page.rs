//! Looks at a file of the shelf's kinds that the recipes don't need: dates, whole numbers, weights, tags; and which
//! kind of file a text is.

use chrono::NaiveDate;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::weight::Milligrams;
use crate::craft::reading;
use crate::msg;
use crate::recipe::fault::Wrong;
use crate::recipe::hidden::shown;
use crate::recipe::nearest;
use crate::recipe::raw::{NAME_CHARACTERS_MOST, Page, Table, text_of, wrong_type};

/// The kinds of file a dyer can write by hand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FileKind {
    /// A recipe.
    Recipe,
    /// The shelf.
    Shelf,
    /// A work list.
    WorkList,
}

/// Which kind of file a text is, by its keys at the top; a recipe when they don't say.
#[must_use]
pub fn kind_of(text: &str) -> FileKind {
    let Ok(tree) = DeTable::parse(text) else {
        return FileKind::Recipe;
    };
    let has = |key: &str| tree.get_ref().keys().any(|known| known.get_ref() == key);
    if ["lot", "supply", "last_lot", "last_supply", "passed_over"]
        .into_iter()
        .any(has)
    {
        FileKind::Shelf
    } else if has("bath") {
        FileKind::WorkList
    } else {
        FileKind::Recipe
    }
}

/// Notes a rule of this kind of file that is broken, and gives `None`.
pub(super) fn tell<T>(
    page: &mut Page<'_>,
    at: usize,
    said: impl Into<String>,
    remedy: impl Into<String>,
) -> Option<T> {
    page.note(
        at,
        Wrong::Told {
            said: said.into(),
            remedy: remedy.into(),
        },
    );
    None
}

/// Notes every key that is none of `known`.
pub(super) fn allow_only(page: &mut Page<'_>, table: Table<'_>, known: &[&'static str]) {
    for (key, at) in table.keys() {
        if known.contains(&key) {
            continue;
        }
        let said = msg!(
            "unknown key \"{key}\" in {place}",
            key = shown(key),
            place = table.of
        );
        let remedy = match nearest(key, known.iter().copied()) {
            Some(near) => msg!("did you mean \"{near}\"?", near = near),
            None => msg!("leave it out; the keys here are {keys}", keys = known.join(", ")),
        };
        tell::<()>(page, at, said, remedy);
    }
}

/// A day: a TOML date without a time.
pub(super) fn day(page: &mut Page<'_>, table: Table<'_>, key: &'static str) -> Option<NaiveDate> {
    match table.get(key) {
        Some(value) => day_of(page, key, value),
        None => table.miss(page, key),
    }
}

/// A day that may be left out: `Some(None)` when it is, `None` when it is wrong.
pub(super) fn day_if_given(
    page: &mut Page<'_>,
    table: Table<'_>,
    key: &'static str,
) -> Option<Option<NaiveDate>> {
    match table.get(key) {
        Some(value) => day_of(page, key, value).map(Some),
        None => Some(None),
    }
}

fn day_of(page: &mut Page<'_>, key: &'static str, value: &Spanned<DeValue<'_>>) -> Option<NaiveDate> {
    let at = value.span().start;
    let DeValue::Datetime(stamp) = value.get_ref() else {
        let wrong = wrong_type(key, msg!("a date such as 2026-08-25, without quotes"), value);
        page.note(at, wrong);
        return None;
    };
    let day = stamp.date.filter(|_| stamp.time.is_none()).and_then(|date| {
        NaiveDate::from_ymd_opt(i32::from(date.year), u32::from(date.month), u32::from(date.day))
    });
    match day {
        Some(day) => Some(day),
        None => tell(
            page,
            at,
            msg!("{key} is no day", key = key),
            msg!("write it like 2026-08-25, without a time"),
        ),
    }
}

/// A whole number from 1 to `most`.
pub(super) fn count(page: &mut Page<'_>, table: Table<'_>, key: &'static str, most: u32) -> Option<u32> {
    let Some(value) = table.get(key) else {
        return table.miss(page, key);
    };
    let at = value.span().start;
    let Some(integer) = value.get_ref().as_integer() else {
        page.note(at, wrong_type(key, msg!("a whole number"), value));
        return None;
    };
    let number = integer
        .as_str()
        .parse()
        .ok()
        .filter(|number| (1..=most).contains(number));
    match number {
        Some(number) => Some(number),
        None => tell(
            page,
            at,
            msg!(
                "{key} is not a whole number from 1 to {most}",
                key = key,
                most = most
            ),
            msg!("write a number such as {key} = 2", key = key),
        ),
    }
}

/// A weight with its unit.
pub(super) fn weight(page: &mut Page<'_>, table: Table<'_>, key: &'static str) -> Option<Milligrams> {
    match table.get(key) {
        Some(value) => weight_of(page, key, value),
        None => table.miss(page, key),
    }
}

/// A weight that may be left out: `Some(None)` when it is, `None` when it is wrong.
pub(super) fn weight_if_given(
    page: &mut Page<'_>,
    table: Table<'_>,
    key: &'static str,
) -> Option<Option<Milligrams>> {
    match table.get(key) {
        Some(value) => weight_of(page, key, value).map(Some),
        None => Some(None),
    }
}

fn weight_of(page: &mut Page<'_>, key: &'static str, value: &Spanned<DeValue<'_>>) -> Option<Milligrams> {
    let at = value.span().start;
    if value.get_ref().is_integer() || value.get_ref().is_float() {
        page.note(
            at,
            Wrong::NumberWithoutUnit {
                key,
                example: "85.2 g",
            },
        );
        return None;
    }
    let text = text_of(page, key, value, NAME_CHARACTERS_MOST)?;
    match reading::mass(text.text) {
        Ok(mass) => Some(Milligrams::of(mass)),
        Err(fault) => {
            page.note(
                at,
                Wrong::NotAQuantity {
                    key,
                    fault,
                    example: "85.2 g",
                },
            );
            None
        }
    }
}

/// Something that a text of the file names, by a reader that says in one line what would do.
pub(super) fn named<T, E: ToString>(
    page: &mut Page<'_>,
    table: Table<'_>,
    key: &'static str,
    read: impl Fn(&str) -> Result<T, E>,
) -> Option<T> {
    let text = table.text(page, key, NAME_CHARACTERS_MOST)?;
    match read(text.text) {
        Ok(named) => Some(named),
        Err(fault) => tell(
            page,
            text.at,
            format!("{key}: {}", fault.to_string()),
            msg!("write it so"),
        ),
    }
}

/// Each of a list of texts, and where it stands.
pub(super) fn each<T, E: ToString>(
    page: &mut Page<'_>,
    table: Table<'_>,
    key: &'static str,
    most: usize,
    read: impl Fn(&str) -> Result<T, E>,
) -> Option<Vec<(T, usize)>> {
    if !table.has(key) {
        return Some(Vec::new());
    }
    let texts = table.texts(page, key, most, NAME_CHARACTERS_MOST)?;
    let count = texts.len();
    let mut whole = Vec::new();
    for text in texts {
        match read(text.text) {
            Ok(one) => whole.push((one, text.at)),
            Err(fault) => tell(
                page,
                text.at,
                format!("{key}: {}", fault.to_string()),
                msg!("write it so"),
            )
            .unwrap_or(()),
        }
    }
    (whole.len() == count).then_some(whole)
}

/// The id of a bath's record: 1 to 64 of `a`-`z`, `0`-`9` and `-`, not starting with `-`.
pub(super) fn bath_id(text: &str) -> Result<String, String> {
    let is_plain = text
        .bytes()
        .all(|byte| byte.is_ascii_lowercase() || byte.is_ascii_digit() || byte == b'-');
    if (1..=64).contains(&text.len()) && is_plain && !text.starts_with('-') {
        Ok(text.to_owned())
    } else {
        Err(msg!(
            "\"{word}\" is no id of a bath; it takes 1 to 64 of a-z, 0-9 and -",
            word = shown(text)
        ))
    }
}
