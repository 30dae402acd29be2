//! The sources of a recipe: listed once, named by key, none idle.

use super::fault::{Choice, Wrong};
use super::model::{Source, Strength};
use super::nearest::nearest;
use super::raw::{NAME_CHARACTERS_MOST, Page, Table, Text, kebab};

const SOURCES_MOST: usize = 60;
const TEXT_CHARACTERS_MOST: usize = 400;

struct Entry<'a> {
    key: Text<'a>,
    source: Option<Source>,
    used: bool,
}

/// The sources read so far, in the order of the file.
pub(super) struct Sources<'a> {
    entries: Vec<Entry<'a>>,
}

impl<'a> Sources<'a> {
    pub(super) fn read(page: &mut Page<'_>, root: Table<'a>) -> Self {
        let mut entries: Vec<Entry<'a>> = Vec::new();
        for table in root.tables(page, "source", "the source", SOURCES_MOST) {
            table.allow_only(page, &["key", "text", "strength"]);
            let key = table.text(page, "key", NAME_CHARACTERS_MOST);
            let is_kebab = key.is_some_and(|key| kebab(page, "key", key).is_some());
            let text = table.text(page, "text", TEXT_CHARACTERS_MOST);
            let ids = Strength::ALL.into_iter().map(Strength::id);
            let strength = table.choice(page, "strength", Choice::Strength, Strength::from_id, ids);

            let Some(key) = key else { continue };
            if entries.iter().any(|entry| entry.key.text == key.text) {
                page.note(
                    key.at,
                    Wrong::SourceTwice {
                        word: key.text.to_owned(),
                    },
                );
                continue;
            }
            let source = match (is_kebab, text, strength) {
                (true, Some(text), Some(strength)) => Some(Source {
                    key: key.text.to_owned(),
                    text: text.text.to_owned(),
                    strength,
                }),
                _ => None,
            };
            entries.push(Entry {
                key,
                source,
                used: false,
            });
        }
        Self { entries }
    }

    /// The index of the source a figure names.
    pub(super) fn find(&mut self, page: &mut Page<'_>, named: Text<'_>) -> Option<usize> {
        for (index, entry) in self.entries.iter_mut().enumerate() {
            if entry.key.text == named.text {
                entry.used = true;
                return Some(index);
            }
        }
        let near = nearest(named.text, self.entries.iter().map(|entry| entry.key.text)).map(str::to_owned);
        page.note(
            named.at,
            Wrong::SourceUnknown {
                word: named.text.to_owned(),
                nearest: near,
            },
        );
        None
    }

    /// All sources, each checked to be in use. Sources that were faulty are left out; each is noted.
    pub(super) fn finish(self, page: &mut Page<'_>) -> Vec<Source> {
        for entry in &self.entries {
            if !entry.used {
                page.note(
                    entry.key.at,
                    Wrong::SourceUnused {
                        word: entry.key.text.to_owned(),
                    },
                );
            }
        }
        // Collected in place they would keep the room of the entries, which are several times as large.
        let mut sources: Vec<Source> = self
            .entries
            .into_iter()
            .filter_map(|entry| entry.source)
            .collect();
        sources.shrink_to_fit();
        sources
    }
}
