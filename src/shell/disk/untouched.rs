//! Whether a data folder is as it was made: nothing of a dyer's was ever kept in it.

use std::io::ErrorKind;
use std::path::Path;

use super::places;
use crate::shell::shelf::file;

/// The name of the bench's file.
pub const BENCH: &str = "bench.toml";

/// Whether nothing was ever kept: no bench, no shelf, no bath, no page of the daybook, neither here nor in the spare
/// place. What can't be looked at may hold something.
#[must_use]
pub fn is_untouched(folder: &Path, spare: Option<&Path>) -> bool {
    let is_kept = |name: &str| {
        // What a cut left half written was never kept.
        let is_half = Path::new(name).extension().is_some_and(|ending| ending == "part");
        !is_half && (name.starts_with(BENCH) || name.starts_with(file::NAME))
    };
    holds_none(folder, is_kept)
        && ["baths", "daybook"]
            .iter()
            .all(|name| holds_none(&folder.join(name), |_| true))
        && spare.is_none_or(|spare| holds_none(spare, |name| name.starts_with(places::SPARE_PREFIX)))
}

/// Whether a folder isn't there, or nothing in it answers to that.
fn holds_none(folder: &Path, is_one: impl Fn(&str) -> bool) -> bool {
    match std::fs::read_dir(folder) {
        Ok(mut items) => {
            !items.any(|item| item.map_or(true, |item| is_one(&item.file_name().to_string_lossy())))
        }
        Err(refusal) => refusal.kind() == ErrorKind::NotFound,
    }
}
