//! What kind of ground a folder stands on: some file systems forget everything at the next start.

use std::path::Path;

/// How far a folder can be trusted to keep things.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Footing {
    /// Nothing speaks against it.
    Lasting,
    /// In memory: everything is gone when the power goes. Also what a Raspberry Pi's *overlay file system* setting
    /// makes of its root.
    Volatile {
        /// The system's name for it.
        kind: &'static str,
    },
    /// Made for sticks and other systems or reached over a network: no links, weak flushes.
    Weak {
        /// The system's name for it.
        kind: &'static str,
    },
    /// The system doesn't say.
    Unknown,
}

/// What a folder stands on.
#[cfg(any(target_os = "linux", target_os = "android"))]
#[must_use]
pub fn footing(folder: &Path) -> Footing {
    let Ok(told) = rustix::fs::statfs(folder) else {
        return Footing::Unknown;
    };
    #[allow(
        clippy::useless_conversion,
        reason = "the field is narrower on 32-bit systems, where this converts"
    )]
    let kind = i64::from(told.f_type) & 0xFFFF_FFFF;
    // Numbers from Linux, include/uapi/linux/magic.h, as listed in statfs(2).
    match kind {
        0x0102_1994 => Footing::Volatile { kind: "tmpfs" },
        0x8584_58F6 => Footing::Volatile { kind: "ramfs" },
        0x794C_7630 => Footing::Volatile { kind: "overlayfs" },
        0x4D44 => Footing::Weak { kind: "FAT" },
        0x2011_BAB0 => Footing::Weak { kind: "exFAT" },
        0x5346_544E | 0x7366_746E => Footing::Weak { kind: "NTFS" },
        0x6969 => Footing::Weak { kind: "NFS" },
        0xFF53_4D42 | 0xFE53_4D42 => Footing::Weak { kind: "SMB" },
        _ => Footing::Lasting,
    }
}

/// Other systems aren't asked.
#[cfg(not(any(target_os = "linux", target_os = "android")))]
#[must_use]
pub fn footing(_folder: &Path) -> Footing {
    Footing::Unknown
}
