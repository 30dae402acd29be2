//! Sheets of labels written to files: into `labels/` of the data folder, never in place of another file.

use crate::msg;
use crate::shell::data::Data;
use crate::shell::disk::{DiskFault, new_file};
use crate::view::pages::LabelFile;

/// So many versions of one sheet are kept beside each other.
const VERSIONS_MOST: u32 = 999;

/// Writes the sheets. Says where they are.
///
/// # Errors
/// One line on why one isn't written; those before it are there.
pub(super) fn write(data: &Data, files: &[LabelFile]) -> Result<String, String> {
    let folder = data.labels();
    crate::shell::disk::make_folder(&folder).map_err(|fault| fault.to_string())?;
    let mut names = Vec::new();
    for file in files {
        names.push(write_one(data, file)?);
    }
    let place = folder.join(names.first().map_or("", String::as_str));
    Ok(match names.len() {
        0 | 1 => place.display().to_string(),
        count => msg!(
            "{place} and {count} more",
            place = place.display(),
            count = count.saturating_sub(1)
        ),
    })
}

/// A name that is taken is numbered: what was printed before stays as it was.
fn write_one(data: &Data, file: &LabelFile) -> Result<String, String> {
    let stem = file.name.strip_suffix(".svg").unwrap_or(&file.name);
    let mut name = file.name.clone();
    for version in 2..=VERSIONS_MOST {
        match new_file::write(&data.labels().join(&name), file.svg.as_bytes()) {
            Ok(()) => return Ok(name),
            Err(DiskFault::AlreadyThere { .. }) => name = format!("{stem}_{version}.svg"),
            Err(fault) => return Err(fault.to_string()),
        }
    }
    Err(msg!(
        "{count} sheets of {stem} are there already; print one of those, or clear the folder out",
        count = VERSIONS_MOST,
        stem = stem
    ))
}
