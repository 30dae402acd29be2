//! The shelf as the keeper has it: read from the disk, asked, and told to the glass.

use chrono::NaiveDate;

use crate::journal::store::Store;
use crate::shelf::{Shelf, ShelfAsk, ShelfDone, ShelfSeen};
use crate::shell::disk::small_file::SmallFiles;

use super::{file, settle};

/// Reads the shelf. None yet is an empty one.
#[must_use]
pub fn look(files: &SmallFiles) -> ShelfSeen {
    match file::load(files) {
        Ok(shelf) => ShelfSeen {
            shelf: shelf.unwrap_or_default(),
            fault: String::new(),
        },
        Err(faults) => ShelfSeen {
            shelf: Shelf::default(),
            fault: file::not_over(&faults),
        },
    }
}

/// Asks something of the shelf and keeps it. Finished baths are put down first; a shelf that is begun by this passes
/// over the records there are.
///
/// # Errors
/// One line on why it isn't done; the file is as it was.
pub fn ask(
    files: &SmallFiles,
    daybook: &mut impl Store,
    asked: &ShelfAsk,
    today: NaiveDate,
) -> Result<(ShelfDone, Vec<String>), String> {
    let loaded = file::load(files).map_err(|faults| file::not_over(&faults))?;
    let mut shelf = match loaded {
        Some(shelf) => shelf,
        None => Shelf::begun_after(settle::pages(daybook)?.into_keys()),
    };
    let (_, told) = settle::put_down_all(&mut shelf, daybook)?;
    let done = shelf.ask(asked, today).map_err(|fault| fault.to_string())?;
    file::keep(files, &shelf)?;
    Ok((done, told))
}
