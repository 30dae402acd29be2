//! The file as a tree of values that know their place, and the page on which faults are noted.
//!
//! Every look at the tree notes what is wrong and gives `None`, so that reading goes on to the next fault. The shelf
//! and the work lists are read through it too.

use super::fault::{Choice, Fault, Wrong};
use super::hidden;
use super::nearest::{near, nearest};
use std::collections::BTreeSet;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

/// A text of the file and the byte at which its value starts.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Text<'a> {
    pub(crate) at: usize,
    pub(crate) text: &'a str,
}

/// The text of the file and the faults found in it so far.
pub(crate) struct Page<'t> {
    text: &'t str,
    noted: Vec<(usize, Wrong)>,
}

impl<'t> Page<'t> {
    pub(crate) const fn new(text: &'t str) -> Self {
        Self {
            text,
            noted: Vec::new(),
        }
    }

    /// Notes a fault at a byte of the text.
    pub(crate) fn note(&mut self, at: usize, wrong: Wrong) {
        self.noted.push((at, wrong));
    }

    /// Notes a fault and gives `None`, for use at the end of a look.
    fn refuse<T>(&mut self, at: usize, wrong: Wrong) -> Option<T> {
        self.note(at, wrong);
        None
    }

    pub(crate) fn is_clean(&self) -> bool {
        self.noted.is_empty()
    }

    /// The faults with lines and columns, counted in one pass over the text.
    pub(crate) fn into_faults(self) -> Vec<Fault> {
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
pub(crate) struct Table<'a> {
    pub(crate) of: &'static str,
    pub(crate) at: usize,
    map: &'a DeTable<'a>,
}

impl<'a> Table<'a> {
    pub(crate) const fn root(map: &'a DeTable<'a>, of: &'static str) -> Self {
        Self { of, at: 0, map }
    }

    /// Notes every key that is none of `known`.
    pub(crate) fn allow_only(&self, page: &mut Page<'_>, known: &[&'static str]) {
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

    /// Each key of the table and where it stands.
    pub(crate) fn keys(&self) -> impl Iterator<Item = (&'a str, usize)> {
        self.map.keys().map(|key| {
            let word: &str = key.get_ref();
            (word, key.span().start)
        })
    }

    pub(crate) fn has(&self, key: &str) -> bool {
        self.get(key).is_some()
    }

    pub(crate) fn get(&self, key: &str) -> Option<&'a Spanned<DeValue<'a>>> {
        self.map
            .iter()
            .find(|(known, _)| known.get_ref() == key)
            .map(|(_, value)| value)
    }

    /// Where a key's value stands, or the table if the key is missing.
    pub(crate) fn place_of(&self, key: &str) -> usize {
        self.get(key).map_or(self.at, |value| value.span().start)
    }

    /// The format of the file, which has to be 1.
    pub(crate) fn format(&self, page: &mut Page<'_>) -> Option<()> {
        let Some(value) = self.get("format") else {
            return self.miss(page, "format");
        };
        let at = value.span().start;
        match value.get_ref().as_integer() {
            Some(integer) if integer.as_str() == "1" => Some(()),
            Some(integer) => {
                let found = integer.as_str().to_owned();
                page.refuse(at, Wrong::FormatUnknown { found })
            }
            None => page.refuse(at, wrong_type("format", "the number 1", value)),
        }
    }

    /// Whether a key's value is a list without anything in it.
    pub(crate) fn is_empty_list(&self, key: &str) -> bool {
        self.get(key)
            .and_then(|value| value.get_ref().as_array())
            .is_some_and(|items| items.is_empty())
    }

    /// Notes that a key is missing.
    pub(crate) fn miss<T>(&self, page: &mut Page<'_>, key: &'static str) -> Option<T> {
        page.refuse(self.at, Wrong::KeyMissing { key, of: self.of })
    }

    /// A text that must be there, with at least one and at most so many characters.
    pub(crate) fn text(&self, page: &mut Page<'_>, key: &'static str, most: usize) -> Option<Text<'a>> {
        match self.get(key) {
            Some(value) => text_of(page, key, value, most),
            None => self.miss(page, key),
        }
    }

    /// A text that may be left out.
    pub(crate) fn text_if_given(
        &self,
        page: &mut Page<'_>,
        key: &'static str,
        most: usize,
    ) -> Option<Text<'a>> {
        text_of(page, key, self.get(key)?, most)
    }

    /// A list of texts that may be left out.
    pub(crate) fn texts(
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
    pub(crate) fn yes(&self, page: &mut Page<'_>, key: &'static str) -> Option<bool> {
        let Some(value) = self.get(key) else {
            return Some(false);
        };
        match value.get_ref().as_bool() {
            Some(yes) => Some(yes),
            None => page.refuse(value.span().start, wrong_type(key, "true or false", value)),
        }
    }

    /// One of a closed choice of words.
    pub(crate) fn choice<T>(
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
    pub(crate) fn tables(
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
    pub(crate) fn table(&self, page: &mut Page<'_>, key: &'static str, of: &'static str) -> Option<Self> {
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

/// The text without the byte order mark that some editors put first.
pub(crate) fn without_mark(text: &str) -> &str {
    text.strip_prefix('\u{feff}').unwrap_or(text)
}

/// The file as a tree. `None` when it is too large or no TOML, which is noted.
pub(crate) fn tree<'t>(
    page: &mut Page<'_>,
    text: &'t str,
    bytes_most: usize,
) -> Option<Spanned<DeTable<'t>>> {
    if text.len() > bytes_most {
        page.note(
            0,
            Wrong::FileTooLarge {
                bytes: text.len(),
                most: bytes_most,
            },
        );
        return None;
    }
    look_for_hidden(page, text);
    match DeTable::parse(text) {
        Ok(tree) => Some(tree),
        Err(error) => {
            if page.is_clean() {
                let at = error.span().map_or(0, |span| span.start);
                let message = one_line(error.message());
                page.note(at, Wrong::NotToml { message });
            }
            None
        }
    }
}

fn look_for_hidden(page: &mut Page<'_>, text: &str) {
    let mut characters = text.char_indices().peekable();
    while let Some((at, c)) = characters.next() {
        let is_lone_return = c == '\r' && characters.peek().is_none_or(|(_, next)| *next != '\n');
        let kind = if is_lone_return {
            Some(hidden::Hidden::Control)
        } else {
            hidden::in_file(c)
        };
        if let Some(kind) = kind {
            page.note(
                at,
                Wrong::HiddenCharacter {
                    code: u32::from(c),
                    kind,
                },
            );
        }
    }
}

/// Names and ids have at most this many characters.
pub(crate) const NAME_CHARACTERS_MOST: usize = 64;

/// A text of one to `most` characters, nothing hidden in it.
pub(crate) fn text_of<'a>(
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
pub(crate) fn choose<T>(
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

/// Whether a text is in small letters, digits and single hyphens, starting with a letter.
pub(crate) fn is_kebab(text: &str) -> bool {
    text.starts_with(|c: char| c.is_ascii_lowercase())
        && text.split('-').all(|part| {
            !part.is_empty() && part.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit())
        })
}

/// An id in small letters, digits and single hyphens, starting with a letter.
pub(crate) fn kebab<'a>(page: &mut Page<'_>, key: &'static str, text: Text<'a>) -> Option<&'a str> {
    if is_kebab(text.text) {
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
pub(crate) fn wrong_type(key: &'static str, wanted: &'static str, value: &Spanned<DeValue<'_>>) -> Wrong {
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

/// A message of the TOML reader on one line, without what is hidden in it.
fn one_line(message: &str) -> String {
    const CHARACTERS_MOST: usize = 200;

    let words: Vec<&str> = message.split_whitespace().collect();
    words
        .join(" ")
        .chars()
        .take(CHARACTERS_MOST)
        .filter(|c| hidden::in_value(*c).is_none())
        .collect()
}
