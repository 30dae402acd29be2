//! Small files that are replaced whole: bench, shelf, settings, recipe, sheet.
//!
//! A reader sees the old file or the new one, never half of one. The last good version is kept beside it as
//! `<name>.last`; a damaged one is moved aside as `<name>.damaged-1` and never overwritten.

use std::io::{self, ErrorKind, Write as _};
use std::path::{Path, PathBuf};

use super::{DiskFault, is_bare, system};
use crate::msg;

/// The most bytes of a small file.
pub const SMALL_FILE_BYTES_MAX: usize = 1024 * 1024;
/// How many damaged versions of one file are kept apart.
pub const DAMAGED_COUNT_MAX: u32 = 99;

/// The small files of one folder.
#[derive(Debug, Clone)]
pub struct SmallFiles {
    folder: PathBuf,
}

impl SmallFiles {
    /// The small files of an existing folder.
    #[must_use]
    pub const fn new(folder: PathBuf) -> Self {
        Self { folder }
    }

    /// The bytes of a file, or nothing if there is none.
    pub fn read(&self, name: &str) -> Result<Option<Vec<u8>>, DiskFault> {
        let path = self.path(name)?;
        match system::read(&path, SMALL_FILE_BYTES_MAX, false) {
            Ok(Some(bytes)) => Ok(Some(bytes)),
            Ok(None) => Err(DiskFault::TooLarge {
                path,
                bytes_max: SMALL_FILE_BYTES_MAX,
            }),
            Err(refusal) if refusal.kind() == ErrorKind::NotFound => Ok(None),
            Err(source) => Err(DiskFault::System {
                deed: msg!("read"),
                path,
                source,
            }),
        }
    }

    /// The version before the present one, if there was one and it was good.
    pub fn read_last_good(&self, name: &str) -> Result<Option<Vec<u8>>, DiskFault> {
        self.read(&format!("{name}.last"))
    }

    /// Replaces a file whole; returns when the new one is on the device.
    ///
    /// `is_good` judges the present version: a good one becomes `<name>.last`, a damaged one is moved aside.
    pub fn replace(
        &self,
        name: &str,
        bytes: &[u8],
        is_good: impl Fn(&[u8]) -> bool,
    ) -> Result<(), DiskFault> {
        if bytes.len() > SMALL_FILE_BYTES_MAX {
            return Err(DiskFault::TooLarge {
                path: self.path(name)?,
                bytes_max: SMALL_FILE_BYTES_MAX,
            });
        }
        match self.read(name) {
            Ok(Some(present)) if is_good(&present) => {
                self.put(&format!("{name}.last"), &present)?;
            }
            Ok(Some(_)) | Err(DiskFault::TooLarge { .. }) => self.move_aside(name)?,
            Ok(None) => {}
            Err(fault) => return Err(fault),
        }
        self.put(name, bytes)
    }

    /// Writes a file that is never replaced. If it is there already it stays as it is.
    pub fn put_once(&self, name: &str, bytes: &[u8]) -> Result<(), DiskFault> {
        if self.read(name)?.is_some() {
            return self.flush();
        }
        self.put(name, bytes)
    }

    fn put(&self, name: &str, bytes: &[u8]) -> Result<(), DiskFault> {
        let (path, part) = (self.path(name)?, self.path(&format!("{name}.part"))?);
        write_part(&part, bytes).map_err(told(msg!("write"), &part))?;
        std::fs::rename(&part, &path).map_err(told(msg!("replace"), &path))?;
        self.flush()
    }

    fn move_aside(&self, name: &str) -> Result<(), DiskFault> {
        let path = self.path(name)?;
        for count in 1..=DAMAGED_COUNT_MAX {
            let aside = self.path(&format!("{name}.damaged-{count}"))?;
            match system::link_no_clobber(&path, &aside) {
                Ok(()) => return self.flush(),
                Err(refusal) if refusal.kind() == ErrorKind::AlreadyExists => {}
                Err(refusal) => return Err(told(msg!("rename"), &path)(refusal)),
            }
        }
        let source = io::Error::other(msg!(
            "{count} damaged versions are there; look at them first",
            count = DAMAGED_COUNT_MAX
        ));
        Err(DiskFault::System {
            deed: msg!("rename"),
            path,
            source,
        })
    }

    fn flush(&self) -> Result<(), DiskFault> {
        system::flush_folder(&self.folder).map_err(told(msg!("flush"), &self.folder))
    }

    fn path(&self, name: &str) -> Result<PathBuf, DiskFault> {
        if is_bare(name) {
            Ok(self.folder.join(name))
        } else {
            Err(DiskFault::Name {
                name: name.chars().take(120).collect(),
            })
        }
    }
}

fn write_part(part: &Path, bytes: &[u8]) -> io::Result<()> {
    // Half of one, from a run that was cut off.
    match std::fs::remove_file(part) {
        Err(refusal) if refusal.kind() != ErrorKind::NotFound => return Err(refusal),
        Ok(()) | Err(_) => {}
    }
    let mut file = system::create_new(part)?;
    file.write_all(bytes)?;
    system::flush(&file)
}

fn told(deed: &'static str, path: &Path) -> impl Fn(io::Error) -> DiskFault {
    let path = path.to_owned();
    move |source| DiskFault::System {
        deed,
        path: path.clone(),
        source,
    }
}
