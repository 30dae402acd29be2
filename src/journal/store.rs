//! What the journal asks of a place that keeps files: one folder, bare names, few deeds.
//!
//! The trait exists because it has two implementors: the disk of the shell and the faulty store of the tests.
//! A file can be appended to only by the run that created it; that is the store's promise, not the caller's care.

use std::fmt;

use crate::msg;

/// One folder of files. Names are bare: letters, digits, `.`, `-`, `_`.
pub trait Store {
    /// The names in the folder, sorted.
    fn list(&mut self) -> Result<Vec<String>, StoreFault>;

    /// The bytes of a file, or [`StoreFault::TooLarge`] if there are more than `bytes_max`.
    fn read(&mut self, name: &str, bytes_max: usize) -> Result<Vec<u8>, StoreFault>;

    /// The same, from the device rather than from what the system remembers of it, as far as that can be asked for.
    fn read_back(&mut self, name: &str, bytes_max: usize) -> Result<Vec<u8>, StoreFault>;

    /// Makes an empty file under a name that isn't taken and keeps it open for appending.
    fn create_new(&mut self, name: &str) -> Result<(), StoreFault>;

    /// Adds bytes to the end of a file that this run created. After a fault any part of them may be there.
    fn append(&mut self, name: &str, bytes: &[u8]) -> Result<(), StoreFault>;

    /// Returns once everything appended to the file is on the device. After a fault nothing is known of it.
    fn flush(&mut self, name: &str) -> Result<(), StoreFault>;

    /// Returns once the names of the folder are on the device.
    fn flush_dir(&mut self) -> Result<(), StoreFault>;

    /// Lets go of a file; it can't be appended to any more.
    fn close(&mut self, name: &str);

    /// Gives a file a second name, which must not be taken.
    fn link_no_clobber(&mut self, from: &str, to: &str) -> Result<(), StoreFault>;

    /// Takes away the leave to write to a file.
    fn make_read_only(&mut self, name: &str) -> Result<(), StoreFault>;

    /// Removes a name. The journal asks this only for temporary names of its own.
    fn remove(&mut self, name: &str) -> Result<(), StoreFault>;

    /// Gives up the space put by for a full disk. False if there was none.
    fn release_ballast(&mut self) -> Result<bool, StoreFault>;
}

/// The things a store does, for messages.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
#[expect(missing_docs, reason = "each is the method of its name")]
pub enum Deed {
    List,
    Read,
    Create,
    Append,
    Flush,
    FlushDir,
    Link,
    MakeReadOnly,
    Remove,
    ReleaseBallast,
}

impl fmt::Display for Deed {
    /// Each a word that is said in every language.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::List => msg!("list"),
            Self::Read => msg!("read"),
            Self::Create => msg!("create"),
            Self::Append => msg!("write"),
            Self::Flush | Self::FlushDir => msg!("flush"),
            Self::Link => msg!("link"),
            Self::MakeReadOnly => msg!("seal"),
            Self::Remove => msg!("remove"),
            Self::ReleaseBallast => msg!("release"),
        })
    }
}

/// Why a store didn't do what it was asked.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum StoreFault {
    /// The device is full, or the user's share of it.
    #[error("no room left to {deed} ({name})")]
    Full {
        /// What was tried.
        deed: Deed,
        /// The file.
        name: String,
    },
    /// The place has been made read-only.
    #[error("can't {deed} ({name}): the place is read-only")]
    ReadOnly {
        /// What was tried.
        deed: Deed,
        /// The file.
        name: String,
    },
    /// The name is taken.
    #[error("{name} is already there")]
    AlreadyThere {
        /// The name.
        name: String,
    },
    /// There is no such file.
    #[error("{name} isn't there")]
    NotThere {
        /// The name.
        name: String,
    },
    /// The file is larger than the journal ever writes one.
    #[error("{name} is larger than {bytes_max} bytes")]
    TooLarge {
        /// The file.
        name: String,
        /// The most that is read.
        bytes_max: usize,
    },
    /// This run didn't create the file, or has let go of it.
    #[error("{name} isn't open for writing in this run")]
    NotOurs {
        /// The file.
        name: String,
    },
    /// Another program has changed, moved or removed the file.
    #[error("{name} was changed, moved or removed by another program")]
    ChangedUnderneath {
        /// The file.
        name: String,
    },
    /// What came back from the device isn't what was written.
    #[error("{name} doesn't read back as it was written")]
    ReadsBackDifferent {
        /// The file.
        name: String,
    },
    /// Anything else the system said.
    #[error("the disk can't {deed} ({name}): {detail}")]
    Device {
        /// What was tried.
        deed: Deed,
        /// The file.
        name: String,
        /// The system's words.
        detail: String,
    },
}
