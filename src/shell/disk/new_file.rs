//! A file the dyer asked for by name, anywhere: made new, never in place of another.

use std::io::{ErrorKind, Write as _};
use std::path::Path;

use super::{DiskFault, system};
use crate::msg;

/// Writes and flushes a file that must not be there yet. What is left of one that couldn't be finished is removed.
pub(in crate::shell) fn write(path: &Path, bytes: &[u8]) -> Result<(), DiskFault> {
    let told = |deed| {
        move |source| DiskFault::System {
            deed,
            path: path.to_owned(),
            source,
        }
    };
    let mut file = match system::create_new(path) {
        Ok(file) => file,
        Err(refusal) if refusal.kind() == ErrorKind::AlreadyExists => {
            return Err(DiskFault::AlreadyThere {
                path: path.to_owned(),
            });
        }
        Err(refusal) => return Err(told(msg!("make"))(refusal)),
    };
    let written = file.write_all(bytes).and_then(|()| system::flush(&file));
    drop(file);
    written.map_err(|refusal| {
        // Half a file is worse than none; if it can't be removed either, the message names it.
        std::fs::remove_file(path).unwrap_or(());
        told(msg!("write"))(refusal)
    })
}
