//! The shelf's file: read whole, replaced whole, the last good one beside it; a damaged one is never written over.

use crate::msg;
use crate::shelf::{self, Shelf};
use crate::shell::disk::small_file::SmallFiles;

/// Its name in the data folder.
pub const NAME: &str = "shelf.toml";

/// The shelf of a data folder, or nothing if there is none yet.
///
/// # Errors
/// One line for each fault of the file. It stays as it is.
pub fn load(files: &SmallFiles) -> Result<Option<Shelf>, Vec<String>> {
    let bytes = files.read(NAME).map_err(|fault| vec![fault.to_string()])?;
    let Some(bytes) = bytes else { return Ok(None) };
    let text = String::from_utf8(bytes).map_err(|_| vec![msg!("{name}: not text in UTF-8", name = NAME)])?;
    shelf::read(&text).map(Some).map_err(|faults| {
        faults
            .as_slice()
            .iter()
            .map(|fault| format!("{NAME}: {fault}"))
            .collect()
    })
}

/// Keeps a shelf in place of the one that is there. A damaged file is left as it is, and nothing is kept.
///
/// # Errors
/// One line on why it isn't kept.
pub fn keep(files: &SmallFiles, shelf: &Shelf) -> Result<(), String> {
    if let Err(faults) = load(files) {
        return Err(not_over(&faults));
    }
    let text = shelf::write(shelf);
    if let Err(faults) = shelf::read(&text) {
        // A shelf that wouldn't read back is not put in place of one that does.
        return Err(msg!(
            "the shelf isn't kept, for it wouldn't read back: {faults}",
            faults = faults
        ));
    }
    let is_good = |bytes: &[u8]| std::str::from_utf8(bytes).is_ok_and(|text| shelf::read(text).is_ok());
    files
        .replace(NAME, text.as_bytes(), is_good)
        .map_err(|fault| msg!("the shelf isn't kept: {fault}", fault = fault))
}

/// What is said when the file is damaged.
#[must_use]
pub fn not_over(faults: &[String]) -> String {
    let first = faults.first().map_or("", String::as_str);
    let faults = match faults.len() {
        0 | 1 => first.to_owned(),
        count => msg!(
            "{place} and {count} more",
            place = first,
            count = count.saturating_sub(1)
        ),
    };
    msg!(
        "{faults}; the file is left as it is and nothing is kept over it: mend it (`potside check` lists all), or \
         take {name}.last in its place",
        faults = faults,
        name = NAME
    )
}
