//! The journal's store on a real folder.

use std::collections::BTreeMap;
use std::fs::File;
use std::io::{ErrorKind, Write as _};
use std::path::{Path, PathBuf};

use super::{ballast, is_bare, system};
use crate::journal::store::{Deed, Store, StoreFault};
use crate::msg;

/// A folder with the files this run has open in it.
#[derive(Debug)]
pub struct RealStore {
    folder: PathBuf,
    ballast: Option<PathBuf>,
    is_made_late: bool,
    open: BTreeMap<String, Open>,
}

#[derive(Debug)]
struct Open {
    file: File,
    // What was appended so far; the file's length, unless somebody else had a hand in it.
    bytes: u64,
}

impl RealStore {
    /// A store in an existing folder; `ballast` is the file whose space it may give up when the disk is full.
    #[must_use]
    pub fn new(folder: PathBuf, ballast: Option<PathBuf>) -> Self {
        Self {
            folder,
            ballast,
            is_made_late: false,
            open: BTreeMap::new(),
        }
    }

    /// A store in a folder that may not be there yet, or not any more: without it there is nothing in it, and it is
    /// made, in an existing one, with its first file.
    #[must_use]
    pub fn made_late(folder: PathBuf, ballast: Option<PathBuf>) -> Self {
        Self {
            is_made_late: true,
            ..Self::new(folder, ballast)
        }
    }

    /// The folder.
    #[must_use]
    pub fn folder(&self) -> &Path {
        &self.folder
    }

    fn path(&self, deed: Deed, name: &str) -> Result<PathBuf, StoreFault> {
        if is_bare(name) {
            Ok(self.folder.join(name))
        } else {
            let detail = "not a bare file name".to_owned();
            Err(StoreFault::Device {
                deed,
                name: name.chars().take(120).collect(),
                detail,
            })
        }
    }

    fn read_path(&self, name: &str, bytes_max: usize, is_from_device: bool) -> Result<Vec<u8>, StoreFault> {
        let path = self.path(Deed::Read, name)?;
        match system::read(&path, bytes_max, is_from_device) {
            Ok(Some(bytes)) => Ok(bytes),
            Ok(None) => Err(StoreFault::TooLarge {
                name: name.to_owned(),
                bytes_max,
            }),
            Err(refusal) => Err(fault(Deed::Read, name, &refusal)),
        }
    }

    fn make_folder(&self) -> std::io::Result<()> {
        system::make_folder(&self.folder)?;
        self.folder.parent().map_or(Ok(()), system::flush_folder)
    }

    fn open_file(&mut self, name: &str) -> Result<&mut Open, StoreFault> {
        self.open.get_mut(name).ok_or_else(|| StoreFault::NotOurs {
            name: name.to_owned(),
        })
    }
}

impl Store for RealStore {
    fn list(&mut self) -> Result<Vec<String>, StoreFault> {
        let told = |refusal| fault(Deed::List, msg!("the folder"), &refusal);
        let mut names = Vec::new();
        let items = match std::fs::read_dir(&self.folder) {
            Err(refusal) if self.is_made_late && refusal.kind() == ErrorKind::NotFound => return Ok(names),
            items => items.map_err(told)?,
        };
        for item in items {
            // Names that aren't text aren't ours.
            if let Ok(name) = item.map_err(told)?.file_name().into_string() {
                names.push(name);
            }
        }
        names.sort();
        Ok(names)
    }

    fn read(&mut self, name: &str, bytes_max: usize) -> Result<Vec<u8>, StoreFault> {
        self.read_path(name, bytes_max, false)
    }

    fn read_back(&mut self, name: &str, bytes_max: usize) -> Result<Vec<u8>, StoreFault> {
        self.read_path(name, bytes_max, true)
    }

    fn create_new(&mut self, name: &str) -> Result<(), StoreFault> {
        let path = self.path(Deed::Create, name)?;
        let told = |refusal: std::io::Error| fault(Deed::Create, name, &refusal);
        let file = match system::create_new(&path) {
            Err(refusal) if self.is_made_late && refusal.kind() == ErrorKind::NotFound => {
                self.make_folder().map_err(told)?;
                system::create_new(&path)
            }
            opened => opened,
        };
        let file = file.map_err(told)?;
        self.open.insert(name.to_owned(), Open { file, bytes: 0 });
        Ok(())
    }

    fn append(&mut self, name: &str, bytes: &[u8]) -> Result<(), StoreFault> {
        let path = self.path(Deed::Append, name)?;
        let told = |refusal: std::io::Error| fault(Deed::Append, name, &refusal);
        let open = self.open_file(name)?;
        let there = open.file.metadata().map_err(told)?;
        if there.len() != open.bytes || !system::is_same_file(&there, &path) {
            return Err(StoreFault::ChangedUnderneath {
                name: name.to_owned(),
            });
        }
        open.file.write_all(bytes).map_err(told)?;
        open.bytes = open
            .bytes
            .saturating_add(u64::try_from(bytes.len()).unwrap_or(u64::MAX));
        Ok(())
    }

    fn flush(&mut self, name: &str) -> Result<(), StoreFault> {
        let open = self.open_file(name)?;
        system::flush(&open.file).map_err(|refusal| fault(Deed::Flush, name, &refusal))
    }

    fn flush_dir(&mut self) -> Result<(), StoreFault> {
        system::flush_folder(&self.folder)
            .map_err(|refusal| fault(Deed::FlushDir, msg!("the folder of the journal"), &refusal))
    }

    fn close(&mut self, name: &str) {
        self.open.remove(name);
    }

    fn link_no_clobber(&mut self, from: &str, to: &str) -> Result<(), StoreFault> {
        let (from, to_path) = (self.path(Deed::Link, from)?, self.path(Deed::Link, to)?);
        system::link_no_clobber(&from, &to_path).map_err(|refusal| fault(Deed::Link, to, &refusal))
    }

    fn make_read_only(&mut self, name: &str) -> Result<(), StoreFault> {
        let path = self.path(Deed::MakeReadOnly, name)?;
        let told = |refusal: std::io::Error| fault(Deed::MakeReadOnly, name, &refusal);
        let mut permissions = std::fs::metadata(&path).map_err(told)?.permissions();
        permissions.set_readonly(true);
        std::fs::set_permissions(&path, permissions).map_err(told)
    }

    fn remove(&mut self, name: &str) -> Result<(), StoreFault> {
        let path = self.path(Deed::Remove, name)?;
        std::fs::remove_file(&path).map_err(|refusal| fault(Deed::Remove, name, &refusal))
    }

    fn release_ballast(&mut self) -> Result<bool, StoreFault> {
        let Some(path) = &self.ballast else {
            return Ok(false);
        };
        ballast::release(path)
            .map_err(|refusal| fault(Deed::ReleaseBallast, msg!("the space put by"), &refusal))
    }
}

fn fault(deed: Deed, name: &str, refusal: &std::io::Error) -> StoreFault {
    let name = name.to_owned();
    #[expect(
        clippy::wildcard_enum_match_arm,
        reason = "std's list of kinds is open; every other one is told in the system's words"
    )]
    match refusal.kind() {
        ErrorKind::StorageFull | ErrorKind::QuotaExceeded => StoreFault::Full { deed, name },
        ErrorKind::ReadOnlyFilesystem => StoreFault::ReadOnly { deed, name },
        ErrorKind::AlreadyExists => StoreFault::AlreadyThere { name },
        ErrorKind::NotFound => StoreFault::NotThere { name },
        _ => StoreFault::Device {
            deed,
            name,
            detail: refusal.to_string(),
        },
    }
}
