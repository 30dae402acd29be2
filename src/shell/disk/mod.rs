//! The disk: the one room of the shell that opens, flushes, links and locks files of the dyer's data.
//!
//! The layout of the data folder is in `docs/journal-format.md`, every contact with the system in
//! `docs/outside-world.md`.

pub mod ballast;
pub mod data_folder;
pub mod footing;
pub(super) mod new_file;
pub mod places;
pub mod real_store;
pub mod small_file;
mod system;
pub mod untouched;

use std::io::{Error, ErrorKind};
use std::path::PathBuf;

use crate::msg;

/// Why the disk didn't do what it was asked, with the place, for a message to the dyer.
#[derive(Debug, thiserror::Error)]
pub enum DiskFault {
    /// Another Potside has the data folder.
    #[error("another Potside is running with {}; close it first", folder.display())]
    InUse {
        /// The folder.
        folder: PathBuf,
    },
    /// A name that isn't a bare file name of ours.
    #[error("{name:?} is not a file name; it takes 1 to 120 of a-z, A-Z, 0-9, '.', '-' and '_'")]
    Name {
        /// The name.
        name: String,
    },
    /// The file is longer than any of its kind.
    #[error("{} is longer than {bytes_max} bytes", path.display())]
    TooLarge {
        /// The file.
        path: PathBuf,
        /// The most that is read.
        bytes_max: usize,
    },
    /// A new file was asked for under a name that is taken.
    #[error("{} is already there and stays as it is; name another file", path.display())]
    AlreadyThere {
        /// The file.
        path: PathBuf,
    },
    /// The system's refusal.
    #[error("the disk can't {deed} ({name}): {detail}", name = path.display(), detail = told(source))]
    System {
        /// What was tried.
        deed: &'static str,
        /// The file or folder.
        path: PathBuf,
        /// The system's words.
        source: Error,
    },
}

/// What the system said, with what helps where that is known.
fn told(refusal: &Error) -> String {
    #[expect(
        clippy::wildcard_enum_match_arm,
        reason = "std's list of kinds is open; every other one is told in the system's words"
    )]
    match refusal.kind() {
        ErrorKind::StorageFull | ErrorKind::QuotaExceeded => {
            msg!("it is full; free it, or start with --data FOLDER").to_owned()
        }
        ErrorKind::ReadOnlyFilesystem => {
            msg!("it is read-only; make it writable, or start with --data FOLDER").to_owned()
        }
        ErrorKind::PermissionDenied => {
            msg!("the folder belongs to somebody else; ask for leave, or start with --data FOLDER").to_owned()
        }
        _ => refusal.to_string(),
    }
}

/// Makes a folder in one that is there; one that is there already will do.
///
/// # Errors
/// The system's refusal.
pub(super) fn make_folder(folder: &std::path::Path) -> Result<(), DiskFault> {
    match system::make_folder(folder) {
        Err(refusal) if refusal.kind() == ErrorKind::AlreadyExists && folder.is_dir() => Ok(()),
        Err(source) => Err(DiskFault::System {
            deed: msg!("make"),
            path: folder.to_owned(),
            source,
        }),
        Ok(()) => Ok(()),
    }
}

/// True for a bare name: nothing a path could be made of.
fn is_bare(name: &str) -> bool {
    (1..=120).contains(&name.len())
        && !name.starts_with('.')
        && name
            .bytes()
            .all(|byte| byte.is_ascii_alphanumeric() || matches!(byte, b'.' | b'-' | b'_'))
}
