//! The shelf as others get to see it.

use super::kept::Shelf;

/// The shelf, or an empty one and what is wrong with the file.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct ShelfSeen {
    /// The shelf as it is kept.
    pub shelf: Shelf,
    /// What is wrong with its file; empty when nothing is.
    pub fault: String,
}
