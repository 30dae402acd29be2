//! The sealed records of a daybook folder, and one of them by the beginning of its id.

use std::path::Path;

use serde_json::Value;

use crate::journal::record::{self, BathRecord};
use crate::journal::seal::{Listed, Page, list_pages};
use crate::shell::disk::real_store::RealStore;

/// How many ids an answer names.
const NAMED_MOST: usize = 8;

/// A record with the content of its page, word for word.
#[derive(Debug, Clone, PartialEq)]
pub struct Sealed {
    /// The record.
    pub record: BathRecord,
    /// What was sealed, with keys that this program may not know.
    pub content: Value,
}

/// All that a daybook holds.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Daybook {
    /// The records, oldest first.
    pub records: Vec<Sealed>,
    /// The files that can't be shown, each with what is wrong. They are left as they are.
    pub faults: Vec<(String, String)>,
}

/// Reads the daybook of a folder; one that isn't there yet is empty. Or one line on why it can't be read.
pub fn open(folder: &Path) -> Result<Daybook, String> {
    if !folder.exists() {
        return Ok(Daybook::default());
    }
    let mut store = RealStore::new(folder.to_owned(), None);
    let pages = list_pages(&mut store).map_err(|why| format!("{}: {why}", folder.display()))?;
    Ok(Daybook::of(pages))
}

impl Daybook {
    /// The daybook of listed pages.
    #[must_use]
    pub fn of(pages: Vec<Listed>) -> Self {
        let mut daybook = Self::default();
        for Listed { name, page } in pages {
            match page.map_err(|why| why.to_string()).and_then(sealed) {
                Ok(sealed) => daybook.records.push(sealed),
                Err(why) => daybook.faults.push((name, why)),
            }
        }
        daybook.records.sort_by(|one, other| {
            let key = |sealed: &Sealed| (sealed.record.begun_wall_ms, sealed.record.bath.clone());
            key(one).cmp(&key(other))
        });
        daybook
    }

    /// The one record whose id is this or begins so; or one line that names those it could be.
    pub fn find(&self, id: &str) -> Result<&Sealed, String> {
        if let Some(exact) = self.records.iter().find(|sealed| sealed.record.bath == id) {
            return Ok(exact);
        }
        let fitting: Vec<&Sealed> = self
            .records
            .iter()
            .filter(|sealed| sealed.record.bath.starts_with(id))
            .collect();
        match fitting.as_slice() {
            [one] => Ok(one),
            [] => Err(self.none_begins(id)),
            several => Err(format!(
                "{id:?} begins {} records: {}; write more of the id",
                several.len(),
                named(several.iter().copied())
            )),
        }
    }

    fn none_begins(&self, id: &str) -> String {
        if let Some((name, why)) = self.faults.iter().find(|(name, _)| name.starts_with(id)) {
            return format!("{name} can't be shown: {why}");
        }
        if self.records.is_empty() {
            return format!("no record begins with {id:?}; the daybook is empty");
        }
        format!(
            "no record begins with {id:?}; the newest are {}",
            named(self.records.iter().rev())
        )
    }
}

fn sealed(page: Page) -> Result<Sealed, String> {
    let record = record::read(&page.content).map_err(|why| why.to_string())?;
    if record.bath != page.bath.as_str() {
        return Err(format!(
            "the page is of {}, its record of {}",
            page.bath, record.bath
        ));
    }
    Ok(Sealed {
        record,
        content: page.content,
    })
}

fn named<'a>(records: impl Iterator<Item = &'a Sealed>) -> String {
    let mut ids: Vec<&str> = records.map(|sealed| sealed.record.bath.as_str()).collect();
    let left = ids.len().saturating_sub(NAMED_MOST);
    ids.truncate(NAMED_MOST);
    let shown = ids.join(", ");
    if left > 0 {
        format!("{shown} and {left} more")
    } else {
        shown
    }
}
