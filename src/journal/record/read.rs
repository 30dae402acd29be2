//! A record read back from the content of its page.

use serde_json::Value;

use super::{BathRecord, RECORD_FORMAT};

/// Why the content of a whole page is no record that this program can show.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum RecordFault {
    /// Written by a later program.
    #[error(
        "record of format {format}; this program reads up to {RECORD_FORMAT}, so a newer Potside is needed to show it"
    )]
    Newer {
        /// The format it names.
        format: u64,
    },
    /// It doesn't say what format it is of.
    #[error("not a record: key \"format\" is missing or no whole number from 1")]
    NoFormat,
    /// A key is missing, or holds what it can't.
    #[error("not a record of format {format}: {detail}")]
    Shape {
        /// The format it names.
        format: u64,
        /// What is wrong.
        detail: String,
    },
}

/// The record that the content of a page is. Formats up to [`RECORD_FORMAT`] are read; keys this program doesn't
/// know are passed over.
pub fn read(content: &Value) -> Result<BathRecord, RecordFault> {
    let format = content.get("format").and_then(Value::as_u64);
    let format = format.filter(|format| *format > 0).ok_or(RecordFault::NoFormat)?;
    if format > u64::from(RECORD_FORMAT) {
        return Err(RecordFault::Newer { format });
    }
    serde_json::from_value(content.clone()).map_err(|fault| RecordFault::Shape {
        format,
        detail: fault.to_string(),
    })
}
