//! A segment: the file of lines that one run of the program writes. Its name, its bounds, and how its bytes fall
//! into whole lines and damage.

use super::line::{LineFault, Record, read_line};

/// The highest number a segment can have.
pub const SEGMENT_NUMBER_MAX: u32 = 9_999;
/// The most bytes of a segment; none is written beyond it and none is read beyond it.
pub const SEGMENT_BYTES_MAX: usize = 64 * 1024 * 1024;

/// The file name of a segment.
#[must_use]
pub fn segment_name(number: u32) -> String {
    format!("segment-{number:04}.jsonl")
}

/// The number of a segment's file name, or nothing if the name is no segment's.
#[must_use]
pub fn segment_number(name: &str) -> Option<u32> {
    let digits = name.strip_prefix("segment-")?.strip_suffix(".jsonl")?;
    let number = digits.parse().ok()?;
    (segment_name(number) == name).then_some(number)
}

/// A whole line and where it starts.
#[derive(Debug, Clone, PartialEq)]
pub struct Placed {
    /// The record.
    pub record: Record,
    /// Bytes before it in the file.
    pub at: usize,
}

/// Bytes that are no whole line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Broken {
    /// Bytes before them in the file.
    pub at: usize,
    /// How many they are.
    pub length: usize,
    /// What they look like.
    pub kind: BrokenKind,
}

/// What damaged bytes look like.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum BrokenKind {
    /// The file ends within a line: what was being written when the power went. It was never acknowledged.
    #[error("the file ends within a line")]
    TornTail,
    /// The file ends in zeros: its length had grown, its bytes had not arrived.
    #[error("the file ends in zeros")]
    ZeroTail,
    /// The last line is ended but wrong: torn across sectors, or changed later.
    #[error("the last line is damaged: {0}")]
    Last(LineFault),
    /// Whole lines follow, so this was once whole too and has been damaged since.
    #[error("damaged in the middle: {0}")]
    Middle(LineFault),
}

/// A segment's bytes, taken apart.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Parts {
    /// The whole lines, in file order.
    pub whole: Vec<Placed>,
    /// The rest, in file order.
    pub broken: Vec<Broken>,
}

/// Takes a segment's bytes apart. Nothing is skipped: every byte belongs to a whole line or to damage.
#[must_use]
pub fn take_apart(bytes: &[u8]) -> Parts {
    let mut parts = Parts::default();
    let mut pieces = Vec::new();
    let mut at = 0_usize;
    for piece in bytes.split_inclusive(|byte| *byte == b'\n') {
        let line = piece.strip_suffix(b"\n").unwrap_or(piece);
        match read_line(line) {
            Ok(record) => parts.whole.push(Placed { record, at }),
            Err(fault) => pieces.push((at, piece, fault)),
        }
        at = at.saturating_add(piece.len());
    }
    let last_whole_at = parts.whole.last().map(|placed| placed.at);
    for (at, piece, fault) in pieces {
        let is_tail = last_whole_at.is_none_or(|whole_at| at > whole_at);
        let kind = if !is_tail {
            BrokenKind::Middle(fault)
        } else if piece.iter().all(|byte| *byte == 0) {
            BrokenKind::ZeroTail
        } else if piece.ends_with(b"\n") {
            BrokenKind::Last(fault)
        } else {
            BrokenKind::TornTail
        };
        parts.broken.push(Broken {
            at,
            length: piece.len(),
            kind,
        });
    }
    parts
}
