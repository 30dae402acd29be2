//! How the program ends.

use std::process::ExitCode;

/// How a command ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Exit {
    /// All is well.
    Well,
    /// Something failed, or faults were found.
    Faulty,
    /// The arguments can't be used.
    Misused,
    /// The bath was computed and refused.
    RefusedBath,
}

impl From<Exit> for ExitCode {
    fn from(exit: Exit) -> Self {
        match exit {
            Exit::Well => Self::SUCCESS,
            Exit::Faulty => Self::from(1),
            Exit::Misused => Self::from(2),
            Exit::RefusedBath => Self::from(3),
        }
    }
}
