//! The few calls to the operating system, with their stand-ins where it has no such call.
//!
//! The lints that keep files out of the rest of the program are lifted here and nowhere else.

use std::fs::{File, Metadata, OpenOptions};
use std::io::{self, Read as _};
use std::path::Path;

/// A new file, open for appending; an error if the name is taken.
pub(super) fn create_new(path: &Path) -> io::Result<File> {
    OpenOptions::new().append(true).create_new(true).open(path)
}

/// An existing or new file to hold a lock on. Its contents don't matter.
pub(super) fn open_for_lock(path: &Path) -> io::Result<File> {
    OpenOptions::new()
        .write(true)
        .create(true)
        .truncate(false)
        .open(path)
}

/// At most `bytes_max` bytes of a file, or nothing if it has more.
pub(super) fn read(path: &Path, bytes_max: usize, is_from_device: bool) -> io::Result<Option<Vec<u8>>> {
    let file = open(path)?;
    if is_from_device {
        forget_cached(&file);
    }
    let limit = u64::try_from(bytes_max).unwrap_or(u64::MAX).saturating_add(1);
    let mut bytes = Vec::new();
    file.take(limit).read_to_end(&mut bytes)?;
    Ok((bytes.len() <= bytes_max).then_some(bytes))
}

/// Returns once the file's bytes and length are on the device.
#[cfg(all(unix, not(target_vendor = "apple")))]
pub(super) fn flush(file: &File) -> io::Result<()> {
    Ok(rustix::fs::fdatasync(file)?)
}

/// Returns once the file is on the device; on Apple's systems std asks for a full flush.
#[cfg(not(all(unix, not(target_vendor = "apple"))))]
pub(super) fn flush(file: &File) -> io::Result<()> {
    file.sync_all()
}

/// Returns once the names in a folder are on the device.
#[cfg(unix)]
pub(super) fn flush_folder(folder: &Path) -> io::Result<()> {
    open(folder)?.sync_all()
}

/// Other systems can't flush a folder; their file systems keep names in a log of their own.
#[cfg(not(unix))]
pub(super) fn flush_folder(_folder: &Path) -> io::Result<()> {
    Ok(())
}

/// A second name for a file, or its new name where there are no second names. Never replaces anything.
pub(super) fn link_no_clobber(from: &Path, to: &Path) -> io::Result<()> {
    match std::fs::hard_link(from, to) {
        Err(refusal) if refusal.kind() != io::ErrorKind::AlreadyExists => {
            rename_no_clobber(from, to, refusal)
        }
        outcome => outcome,
    }
}

#[cfg(any(target_os = "linux", target_os = "android"))]
fn rename_no_clobber(from: &Path, to: &Path, _refusal: io::Error) -> io::Result<()> {
    use rustix::fs::{CWD, RenameFlags, renameat_with};
    Ok(renameat_with(CWD, from, CWD, to, RenameFlags::NOREPLACE)?)
}

#[cfg(not(any(target_os = "linux", target_os = "android")))]
fn rename_no_clobber(_from: &Path, _to: &Path, refusal: io::Error) -> io::Result<()> {
    Err(refusal)
}

/// Asks the system to forget what it remembers of a file, so that the next read comes from the device. A system that
/// won't is not an error: the read is then a weaker check.
#[cfg(all(unix, not(target_vendor = "apple")))]
fn forget_cached(file: &File) {
    rustix::fs::fadvise(file, 0, None, rustix::fs::Advice::DontNeed).unwrap_or_default();
}

#[cfg(not(all(unix, not(target_vendor = "apple"))))]
fn forget_cached(_file: &File) {}

/// True if the path still leads to this very file.
#[cfg(unix)]
pub(super) fn is_same_file(open: &Metadata, path: &Path) -> bool {
    use std::os::unix::fs::MetadataExt as _;
    std::fs::symlink_metadata(path).is_ok_and(|there| (there.dev(), there.ino()) == (open.dev(), open.ino()))
}

/// Other systems don't let an open file be moved away.
#[cfg(not(unix))]
pub(super) fn is_same_file(_open: &Metadata, path: &Path) -> bool {
    path.exists()
}

/// Makes a folder, for the dyer alone where the system knows of such.
pub(super) fn make_folder(path: &Path) -> io::Result<()> {
    let mut builder = std::fs::DirBuilder::new();
    #[cfg(unix)]
    {
        use std::os::unix::fs::DirBuilderExt as _;
        builder.mode(0o700);
    }
    builder.create(path)
}

/// An existing file, for reading alone.
pub(super) fn open_to_read(path: &Path) -> io::Result<File> {
    open(path)
}

#[expect(clippy::disallowed_methods, reason = "the disk is the room that opens files")]
fn open(path: &Path) -> io::Result<File> {
    File::open(path)
}
