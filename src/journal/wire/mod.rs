//! The mirror between the machine's facts and the bodies of journal lines.
//!
//! The machine's types can't be written out themselves; each has a twin here, converted both ways by matches that
//! name every case, so that a new fact or field stops the build until it has its place on the wire.
//! Every body begins with `wire`, the version of these twins. When a twin must change, the old one stays for reading.

mod event;
mod plan;

pub use event::{WIRE, entry_of, event_of, events_of};

use crate::craft::lot::NotALot;
use crate::craft::quantity::OutOfRange;

/// Why an entry isn't a fact of this machine.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum WireFault {
    /// A kind this program doesn't know. The record stays; it must be shown as unknown, and the bath read-only.
    #[error("record {n}: kind {what:?} is unknown to this program")]
    UnknownKind {
        /// Number of the record.
        n: u64,
        /// The kind.
        what: String,
    },
    /// A version of the twins this program doesn't know.
    #[error("record {n}: wire version {version} of {what:?}; this program reads version {WIRE}")]
    OtherWire {
        /// Number of the record.
        n: u64,
        /// The kind.
        what: String,
        /// The version.
        version: u64,
    },
    /// A body without what its kind calls for.
    #[error("record {n}: body of {what:?}: {detail}")]
    Body {
        /// Number of the record; 0 for one that isn't written yet.
        n: u64,
        /// The kind.
        what: String,
        /// What is wrong.
        detail: String,
    },
}

/// What is wrong with a body, before it is known whose.
#[derive(Debug, thiserror::Error)]
enum BodyFault {
    #[error("{0}")]
    Shape(#[from] serde_json::Error),
    #[error("{0}")]
    Quantity(#[from] OutOfRange),
    #[error("{0}")]
    Lot(#[from] NotALot),
    #[error("{key} has no such value")]
    Value { key: &'static str },
}
