//! The file as a tree of values that know their place, and the page on which faults are noted.
//!
//! Every look at the tree notes what is wrong and gives `None`, so that reading goes on to the next fault.

use super::fault::{Choice, Fault, Wrong};
use super::hidden;
use super::nearest::{near, nearest};
use std::collections::BTreeSet;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

/// A text of the file and the byte at which its value starts.
#[derive(Debug, Clone, Copy)]
pub(super) struct Text<'a> {
    pub(super) at: usize,
    pub(super) text: &'a str,
}

/// The text of the file and the faults found in it so far.
pub(super) struct Page<'t> {
    text: &'t str,
    noted: Vec<(usize, Wrong)>,
}

impl<'t> Page<'t> {
    pub(super) const fn new(text: &'t str) -> Self {
        Self {
            text,
            noted: Vec::new(),
        }
    }

    /// Notes a fault at a byte of the text.
    pub(super) fn note(&mut self, at: usize, wrong: Wrong) {
        self.noted.push((at, wrong));
    }

    /// Notes a fault and gives `None`, for use at the end of a look.
    fn refuse<T>(&mut self, at: usize, wrong: Wrong) -> Option<T> {
        self.note(at, wrong);
        None
    }

    pub(super) fn is_clean(&self) -> bool {
        self.noted.is_empty()
    }

    /// The faults with lines and columns, counted in one pass over the text.
    pub(super) fn into_faults(self) -> Vec<Fault> {
        let mut noted = self.noted;
        noted.sort_by_key(|(at, _)| *at);

        let mut faults = Vec::with_capacity(noted.len());
        let mut characters = self.text.char_indices().peekable();
        let (mut line, mut column) = (1_usize, 1_usize);
        for (at, what) in noted {
            while let Some((_, c)) = characters.next_if(|(index, _)| *index < at) {
                if c == '\n' {
                    line = line.saturating_add(1);
                    column = 1;
                } else {
                    column = column.saturating_add(1);
                }
            }
            faults.push(Fault { line, column, what });
        }
        faults
    }

    /// Whether something is hidden in a value. Notes each character that escapes hide, once; what stands in the file
    /// itself was noted before.
    fn is_hiding(&mut self, span: std::ops::Range<usize>, value: &str) -> bool {
        let hidden: BTreeSet<char> = value.chars().filter(|c| hidden::in_value(*c).is_some()).collect();
        let written = self.text.get(span.clone()).unwrap_or_default();
        for c in &hidden {
            let was_noted = hidden::in_file(*c).is_some() && written.contains(*c);
            if let Some(kind) = hidden::in_value(*c)
                && !was_noted
            {
                let code = u32::from(*c);
                self.note(span.start, Wrong::HiddenCharacter { code, kind });
            }
        }
        !hidden.is_empty()
    }
}

/// A table of the file: what it is called in messages, where it stands, what it holds.
#[derive(Clone, Copy)]
pub(super) struct Table<'a> {
    pub(super) of: &'static str,
    pub(super) at: usize,
    map: &'a DeTable<'a>,
}

impl<'a> Table<'a> {
    pub(super) const fn root(map: &'a DeTable<'a>) -> Self {
        Self {
            of: "the recipe",
            at: 0,
            map,
        }
    }

    /// Notes every key that is none of `known`.
    pub(super) fn allow_only(&self, page: &mut Page<'_>, known: &[&'static str]) {
        for key in self.map.keys() {
            let word: &str = key.get_ref();
            if !known.contains(&word) {
                let near = nearest(word, known.iter().copied());
                let wrong = Wrong::UnknownKey {
                    key: word.to_owned(),
                    of: self.of,
                    nearest: near,
                };
                page.note(key.span().start, wrong);
            }
        }
    }

    pub(super) fn has(&self, key: &str) -> bool {
        self.get(key).is_some()
    }

    pub(super) fn get(&self, key: &str) -> Option<&'a Spanned<DeValue<'a>>> {
        self.map
            .iter()
            .find(|(known, _)| known.get_ref() == key)
            .map(|(_, value)| value)
    }

    /// Where a key's value stands, or the table if the key is missing.
    pub(super) fn place_of(&self, key: &str) -> usize {
        self.get(key).map_or(self.at, |value| value.span().start)
    }

    /// Whether a key's value is a list without anything in it.
    pub(super) fn is_empty_list(&self, key: &str) -> bool {
        self.get(key)
            .and_then(|value| value.get_ref().as_array())
            .is_some_and(|items| items.is_empty())
    }

    /// Notes that a key is missing.
    pub(super) fn miss<T>(&self, page: &mut Page<'_>, key: &'static str) -> Option<T> {
        page.refuse(self.at, Wrong::KeyMissing { key, of: self.of })
    }

    /// A text that must be there, with at least one and at most so many characters.
    pub(super) fn text(&self, page: &mut Page<'_>, key: &'static str, most: usize) -> Option<Text<'a>> {
        match self.get(key) {
            Some(value) => text_of(page, key, value, most),
            None => self.miss(page, key),
        }
    }

    /// A text that may be left out.
    pub(super) fn text_if_given(
        &self,
        page: &mut Page<'_>,
        key: &'static str,
        most: usize,
    ) -> Option<Text<'a>> {
        text_of(page, key, self.get(key)?, most)
    }

    /// A list of texts that may be left out.
    pub(super) fn texts(
        &self,
        page: &mut Page<'_>,
        key: &'static str,
        most: usize,
        characters_most: usize,
    ) -> Option<Vec<Text<'a>>> {
        let value = self.get(key)?;
        let at = value.span().start;
        let Some(items) = value.get_ref().as_array() else {
            return page.refuse(at, wrong_type(key, "a list in square brackets", value));
        };
        if items.len() > most {
            page.note(
                at,
                Wrong::TooMany {
                    key,
                    count: items.len(),
                    most,
                },
            );
        }
        let texts = items
            .iter()
            .take(most)
            .filter_map(|item| text_of(page, key, item, characters_most))
            .collect();
        Some(texts)
    }

    /// Yes or no, no when left out.
    pub(super) fn yes(&self, page: &mut Page<'_>, key: &'static str) -> Option<bool> {
        let Some(value) = self.get(key) else {
            return Some(false);
        };
        match value.get_ref().as_bool() {
            Some(yes) => Some(yes),
            None => page.refuse(value.span().start, wrong_type(key, "true or false", value)),
        }
    }

    /// One of a closed choice of words.
    pub(super) fn choice<T>(
        &self,
        page: &mut Page<'_>,
        key: &'static str,
        choice: Choice,
        from_id: impl Fn(&str) -> Option<T>,
        ids: impl IntoIterator<Item = &'static str>,
    ) -> Option<T> {
        let text = self.text(page, key, NAME_CHARACTERS_MOST)?;
        choose(page, text, choice, from_id, ids)
    }

    /// The tables under a key, written `[[key]]`; none when left out.
    pub(super) fn tables(
        &self,
        page: &mut Page<'_>,
        key: &'static str,
        of: &'static str,
        most: usize,
    ) -> Vec<Self> {
        let Some(value) = self.get(key) else {
            return Vec::new();
        };
        let Some(items) = value.get_ref().as_array() else {
            page.note(
                value.span().start,
                wrong_type(key, "tables headed by double square brackets", value),
            );
            return Vec::new();
        };
        if let Some(first_over) = items.get(most) {
            page.note(
                first_over.span().start,
                Wrong::TooMany {
                    key,
                    count: items.len(),
                    most,
                },
            );
        }
        let mut tables = Vec::new();
        for item in items.iter().take(most) {
            match item.get_ref().as_table() {
                Some(map) => tables.push(Table {
                    of,
                    at: item.span().start,
                    map,
                }),
                None => page.note(item.span().start, wrong_type(key, "a table", item)),
            }
        }
        tables
    }

    /// The table under a key, written `[key]`, that must be there.
    pub(super) fn table(&self, page: &mut Page<'_>, key: &'static str, of: &'static str) -> Option<Self> {
        let Some(value) = self.get(key) else {
            return self.miss(page, key);
        };
        match value.get_ref().as_table() {
            Some(map) => Some(Self {
                of,
                at: value.span().start,
                map,
            }),
            None => page.refuse(value.span().start, wrong_type(key, "a table", value)),
        }
    }
}

/// Names and ids have at most this many characters.
pub(super) const NAME_CHARACTERS_MOST: usize = 64;

/// A text of one to `most` characters, nothing hidden in it.
pub(super) fn text_of<'a>(
    page: &mut Page<'_>,
    key: &'static str,
    value: &'a Spanned<DeValue<'a>>,
    most: usize,
) -> Option<Text<'a>> {
    let at = value.span().start;
    let Some(text) = value.get_ref().as_str() else {
        return page.refuse(at, wrong_type(key, "text in quotes", value));
    };
    if page.is_hiding(value.span(), text) {
        return None;
    }
    if text.trim().is_empty() {
        return page.refuse(at, Wrong::Empty { key });
    }
    let characters = text.chars().count();
    if characters > most {
        return page.refuse(
            at,
            Wrong::TooLong {
                key,
                characters,
                most,
            },
        );
    }
    Some(Text { at, text })
}

/// One of a closed choice of words, or the nearest of them noted.
pub(super) fn choose<T>(
    page: &mut Page<'_>,
    text: Text<'_>,
    choice: Choice,
    from_id: impl Fn(&str) -> Option<T>,
    ids: impl IntoIterator<Item = &'static str>,
) -> Option<T> {
    let found = from_id(text.text);
    if found.is_none() {
        let wrong = Wrong::ChoiceUnknown {
            choice,
            word: text.text.to_owned(),
            near: near(text.text, ids),
        };
        page.note(text.at, wrong);
    }
    found
}

/// An id in small letters, digits and single hyphens, starting with a letter.
pub(super) fn kebab<'a>(page: &mut Page<'_>, key: &'static str, text: Text<'a>) -> Option<&'a str> {
    let is_kebab = text.text.starts_with(|c: char| c.is_ascii_lowercase())
        && text.text.split('-').all(|part| {
            !part.is_empty() && part.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit())
        });
    if is_kebab {
        Some(text.text)
    } else {
        page.refuse(
            text.at,
            Wrong::NotKebab {
                key,
                word: text.text.to_owned(),
            },
        )
    }
}

/// The fault of a value that is not of the wanted type.
pub(super) fn wrong_type(key: &'static str, wanted: &'static str, value: &Spanned<DeValue<'_>>) -> Wrong {
    let found = match value.get_ref() {
        DeValue::String(_) => "text",
        DeValue::Integer(_) | DeValue::Float(_) => "a number",
        DeValue::Boolean(_) => "true or false",
        DeValue::Datetime(_) => "a date",
        DeValue::Array(_) => "a list",
        DeValue::Table(_) => "a table",
    };
    Wrong::WrongType { key, wanted, found }
}
