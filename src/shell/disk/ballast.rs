//! Space put by for a full disk, given up so that a running bath can be finished and recorded.

use std::io::{self, ErrorKind, Write as _};
use std::path::Path;

use super::system;

/// How much is put by.
pub const BALLAST_BYTES: usize = 4 * 1024 * 1024;

/// Puts the space by if it isn't yet. A disk too full for it is no fault: false, and the next start tries again.
pub fn keep(path: &Path) -> io::Result<bool> {
    match std::fs::metadata(path) {
        Ok(there) if there.len() >= u64::try_from(BALLAST_BYTES).unwrap_or(u64::MAX) => return Ok(true),
        // Half a ballast, from a start that was cut off.
        Ok(_) => std::fs::remove_file(path)?,
        Err(refusal) if refusal.kind() == ErrorKind::NotFound => {}
        Err(refusal) => return Err(refusal),
    }
    let mut file = system::create_new(path)?;
    let filled = file.write_all(&noise()).and_then(|()| system::flush(&file));
    match filled {
        Ok(()) => Ok(true),
        Err(refusal) if matches!(refusal.kind(), ErrorKind::StorageFull | ErrorKind::QuotaExceeded) => {
            std::fs::remove_file(path)?;
            Ok(false)
        }
        Err(refusal) => Err(refusal),
    }
}

/// Gives the space up. False if there was none.
pub fn release(path: &Path) -> io::Result<bool> {
    match std::fs::remove_file(path) {
        Ok(()) => Ok(true),
        Err(refusal) if refusal.kind() == ErrorKind::NotFound => Ok(false),
        Err(refusal) => Err(refusal),
    }
}

/// Bytes that a compressing file system can't make small: xorshift (Marsaglia 2003, triple 13, 7, 17).
fn noise() -> Vec<u8> {
    let mut state = 0x9E37_79B9_7F4A_7C15_u64;
    let mut bytes = Vec::with_capacity(BALLAST_BYTES);
    while bytes.len() < BALLAST_BYTES {
        state ^= state << 13;
        state ^= state >> 7;
        state ^= state << 17;
        bytes.extend_from_slice(&state.to_le_bytes());
    }
    bytes
}
