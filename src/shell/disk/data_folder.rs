//! The data folder: one Potside at a time, and where everything in it lies.

use std::fs::{File, TryLockError};
use std::io::ErrorKind;
use std::path::{Path, PathBuf};

use super::footing::{Footing, footing};
use super::real_store::RealStore;
use super::small_file::SmallFiles;
use super::{DiskFault, ballast, system};
use crate::journal::id::BathId;
use crate::msg;

/// An open data folder. The lock is given back when it is dropped, and by the system when the program ends however.
#[derive(Debug)]
pub struct DataFolder {
    folder: PathBuf,
    spare: Option<PathBuf>,
    has_ballast: bool,
    #[expect(dead_code, reason = "held for its lock alone")]
    lock: Option<File>,
}

impl DataFolder {
    /// Opens a data folder, making it and its parents if need be, takes its lock and puts the ballast by.
    pub fn open(folder: &Path) -> Result<Self, DiskFault> {
        make_folders(folder)?;
        let lock = take_lock(folder)?;
        for name in ["baths", "daybook"] {
            make_folder(&folder.join(name))?;
        }
        system::flush_folder(folder).map_err(told(msg!("flush"), folder))?;
        // A disk that refuses the ballast will refuse more; the writer finds out and says so.
        let has_ballast = ballast::keep(&folder.join("ballast")).unwrap_or(false);
        Ok(Self {
            folder: folder.to_owned(),
            spare: None,
            has_ballast,
            lock,
        })
    }

    /// The same with a spare place, an existing folder elsewhere, for when this one refuses.
    #[must_use]
    pub fn with_spare(self, spare: Option<PathBuf>) -> Self {
        Self { spare, ..self }
    }

    /// The spare place.
    #[must_use]
    pub fn spare(&self) -> Option<&Path> {
        self.spare.as_deref()
    }

    /// Where it is.
    #[must_use]
    pub fn folder(&self) -> &Path {
        &self.folder
    }

    /// True if space is put by for a full disk.
    #[must_use]
    pub const fn has_ballast(&self) -> bool {
        self.has_ballast
    }

    /// What it stands on.
    #[must_use]
    pub fn footing(&self) -> Footing {
        footing(&self.folder)
    }

    /// The baths there are, in order of their names. Folders whose names are no bath's are passed over.
    pub fn baths(&self) -> Result<Vec<BathId>, DiskFault> {
        let folder = self.folder.join("baths");
        let told = told(msg!("list"), &folder);
        let mut baths = Vec::new();
        for item in std::fs::read_dir(&folder).map_err(&told)? {
            let name = item.map_err(&told)?.file_name();
            if let Some(bath) = name.to_str().and_then(|name| BathId::from_text(name).ok()) {
                baths.push(bath);
            }
        }
        baths.sort();
        Ok(baths)
    }

    /// The folder of a new bath, with the recipe word for word and the sheet as computed, all flushed.
    /// To repeat it after a cut is harmless; what is there already stays as it is.
    pub fn begin_bath(&self, bath: &BathId, recipe_toml: &[u8], sheet_json: &[u8]) -> Result<(), DiskFault> {
        put_bath(&self.bath_folder(bath), recipe_toml, sheet_json)
    }

    /// The store of a bath's journal.
    #[must_use]
    pub fn bath_store(&self, bath: &BathId) -> RealStore {
        RealStore::made_late(self.bath_folder(bath), Some(self.folder.join("ballast")))
    }

    /// The small files of a bath: its recipe and its sheet.
    #[must_use]
    pub fn bath_files(&self, bath: &BathId) -> SmallFiles {
        SmallFiles::new(self.bath_folder(bath))
    }

    /// The store of the daybook's pages.
    #[must_use]
    pub fn daybook_store(&self) -> RealStore {
        RealStore::new(self.folder.join("daybook"), Some(self.folder.join("ballast")))
    }

    /// The small files of the bench and the shelf.
    #[must_use]
    pub fn small_files(&self) -> SmallFiles {
        SmallFiles::new(self.folder.clone())
    }

    fn bath_folder(&self, bath: &BathId) -> PathBuf {
        self.folder.join("baths").join(bath.as_str())
    }
}

/// Makes a bath's folder with its recipe and its sheet, all flushed.
pub(super) fn put_bath(folder: &Path, recipe_toml: &[u8], sheet_json: &[u8]) -> Result<(), DiskFault> {
    make_folder(folder)?;
    let files = SmallFiles::new(folder.to_owned());
    for (name, bytes) in [("recipe.toml", recipe_toml), ("sheet.json", sheet_json)] {
        files.put_once(name, bytes)?;
    }
    match folder.parent() {
        Some(parent) => system::flush_folder(parent).map_err(told(msg!("flush"), parent)),
        None => Ok(()),
    }
}

/// Takes the lock of a data folder. A place that has been made read-only since can still be locked by its lock file;
/// if it has none, no Potside writes there.
fn take_lock(folder: &Path) -> Result<Option<File>, DiskFault> {
    let path = folder.join("lock");
    let opened = match system::open_for_lock(&path) {
        Err(refusal) if refusal.kind() == ErrorKind::ReadOnlyFilesystem => {
            match system::open_to_read(&path) {
                Err(absent) if absent.kind() == ErrorKind::NotFound => return Ok(None),
                opened => opened,
            }
        }
        opened => opened,
    };
    let lock = opened.map_err(told(msg!("open"), &path))?;
    match lock.try_lock() {
        Ok(()) => Ok(Some(lock)),
        Err(TryLockError::WouldBlock) => Err(DiskFault::InUse {
            folder: folder.to_owned(),
        }),
        Err(TryLockError::Error(refusal)) => Err(told(msg!("lock"), &path)(refusal)),
    }
}

/// Makes a folder and whatever leads to it, each flushed in its parent.
fn make_folders(folder: &Path) -> Result<(), DiskFault> {
    if folder.is_dir() {
        return Ok(());
    }
    let parent = folder.parent().filter(|parent| !parent.as_os_str().is_empty());
    if let Some(parent) = parent {
        make_folders(parent)?;
    }
    make_folder(folder)?;
    match parent {
        Some(parent) => system::flush_folder(parent).map_err(told(msg!("flush"), parent)),
        None => Ok(()),
    }
}

fn make_folder(folder: &Path) -> Result<(), DiskFault> {
    match system::make_folder(folder) {
        Err(refusal) if refusal.kind() == ErrorKind::AlreadyExists && folder.is_dir() => Ok(()),
        Err(refusal) => Err(told(msg!("make"), folder)(refusal)),
        Ok(()) => Ok(()),
    }
}

fn told(deed: &'static str, path: &Path) -> impl Fn(std::io::Error) -> DiskFault {
    let path = path.to_owned();
    move |source| DiskFault::System {
        deed,
        path: path.clone(),
        source,
    }
}
