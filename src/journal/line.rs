//! One record, one line of JSON: what it holds, how it is written, when a line counts as whole.
//!
//! A line has eleven keys in a fixed order. The last two guard it: `link` is the fingerprint of the line before,
//! `crc` the checksum of every byte of this line before the text `,"crc":"`.

use serde::Deserialize;
use serde::de::IgnoredAny;
use serde_json::error::Category;
use serde_json::{Map, Value};
use sha2::{Digest as _, Sha256};

use super::id::{ActId, BathId};
use crate::craft::time::{Moment, Stretch};

/// The version of the line format written.
pub const FORMAT: u64 = 1;
/// The most bytes a line may have, its newline included.
pub const LINE_BYTES_MAX: usize = 256 * 1024;
/// The most characters of a kind.
pub const KIND_LENGTH_MAX: usize = 64;

/// What a caller wants kept.
#[derive(Debug, Clone, PartialEq)]
pub struct Entry {
    /// When it happened.
    pub at: Moment,
    /// Its kind: 1 to 64 of a-z, 0-9, `_`.
    pub what: String,
    /// The pot it belongs to, if to one.
    pub pot: Option<u32>,
    /// Whatever the kind calls for.
    pub body: Map<String, Value>,
}

/// A whole record: an entry with its place in the chain, and the bytes it is.
#[derive(Debug, Clone, PartialEq)]
pub struct Record {
    /// Its number, from 1, without gaps.
    pub n: u64,
    /// The number of the segment it was first meant for. Of two chains, the one ending in the later segment stands.
    pub segment: u32,
    /// How many records of the same act follow it. An act counts only when all of them are there.
    pub left: u32,
    /// The act it belongs to, if a confirmed one.
    pub act: Option<ActId>,
    /// What was kept.
    pub entry: Entry,
    /// Fingerprint of the line before; of the bath's id for the first.
    pub link: Link,
    line: String, // Invariant: the line without its newline, as `read_line` accepts it.
}

impl Record {
    /// The line, without its newline.
    #[must_use]
    pub fn line(&self) -> &str {
        &self.line
    }

    /// The fingerprint that the next line carries.
    #[must_use]
    pub fn fingerprint(&self) -> Link {
        Link::of(self.line.as_bytes())
    }
}

/// The first 64 bits of a SHA-256, written as 16 lower-case hex digits.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Link(u64);

impl Link {
    /// The fingerprint of some bytes.
    #[must_use]
    pub fn of(bytes: &[u8]) -> Self {
        let digest = Sha256::digest(bytes);
        Self(
            digest
                .iter()
                .take(8)
                .fold(0, |high, byte| (high << 8) | u64::from(*byte)),
        )
    }

    /// What the first record of a bath carries, so that no other bath's records can be taken for its own.
    #[must_use]
    pub fn genesis(bath: &BathId) -> Self {
        Self::of(bath.as_str().as_bytes())
    }
}

/// What is wrong with a line.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum LineFault {
    /// More bytes than a line may have.
    #[error("line of {bytes} bytes; a line has at most {LINE_BYTES_MAX}")]
    TooLong {
        /// How many it has.
        bytes: usize,
    },
    /// Not a line of this journal at all: no checksum at its end, or not text.
    #[error("not a journal line")]
    NotALine,
    /// Its bytes have changed since it was written.
    #[error("checksum is {found}, the bytes give {computed}")]
    Checksum {
        /// What the line says.
        found: String,
        /// What its bytes give.
        computed: String,
    },
    /// The checksum holds, but the line is written in a format this program doesn't know.
    #[error("format {version}; this program reads format {FORMAT}")]
    OtherFormat {
        /// The version it names.
        version: u64,
    },
    /// The checksum holds, but it isn't written as a line is: a key is missing, misplaced, or not of its type.
    #[error("not written as a journal line is")]
    Form,
    /// A kind that isn't 1 to 64 of a-z, 0-9, `_`.
    #[error("kind {what:?} is not 1 to {KIND_LENGTH_MAX} of a-z, 0-9 and _")]
    Kind {
        /// The kind offered, cut short.
        what: String,
    },
    /// The body would not come back as it was given, for instance because it is nested too deep.
    #[error("body of {what:?} doesn't read back as given")]
    DoesNotReadBack {
        /// The kind.
        what: String,
    },
}

/// Where a record stands in the chain.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Station {
    /// See [`Record::n`].
    pub n: u64,
    /// See [`Record::segment`].
    pub segment: u32,
    /// See [`Record::left`].
    pub left: u32,
    /// See [`Record::act`].
    pub act: Option<ActId>,
    /// See [`Record::link`].
    pub link: Link,
}

/// The record of an entry. What is written is read back here and now, so that a line that couldn't be read is
/// never kept.
pub fn write_line(station: &Station, entry: &Entry) -> Result<Record, LineFault> {
    if !is_kind(&entry.what) {
        return Err(LineFault::Kind {
            what: entry.what.chars().take(80).collect(),
        });
    }
    let record = read_line(text_of(station, entry).as_bytes())?;
    if record.entry == *entry && station_of(&record) == *station {
        Ok(record)
    } else {
        Err(LineFault::DoesNotReadBack {
            what: entry.what.clone(),
        })
    }
}

/// The record that a line is (without its newline), or what is wrong with it.
pub fn read_line(line: &[u8]) -> Result<Record, LineFault> {
    if line.len() >= LINE_BYTES_MAX {
        return Err(LineFault::TooLong {
            bytes: line.len().saturating_add(1),
        });
    }
    let guarded = check_crc(line)?;
    let text = std::str::from_utf8(line).map_err(|_| LineFault::NotALine)?;
    if !text.starts_with(HEAD) {
        return Err(of_other_format(text));
    }
    let link = link_at_end(guarded)?;
    let written: Written<'_> = serde_json::from_str(text).map_err(|fault| unreadable(&fault))?;
    let record = record_of(written, link, text)?;
    // Everything before the body has one spelling, so that no record has two fingerprints.
    if text.starts_with(&head_of(&station_of(&record), &record.entry)) {
        Ok(record)
    } else {
        Err(LineFault::Form)
    }
}

/// How a line of this format begins.
const HEAD: &str = "{\"v\":1,";
const CRC_MARK: &[u8] = b",\"crc\":\"";
const LINK_MARK: &[u8] = b",\"link\":\"";

/// A line as JSON has it; the order of its keys is looked at afterwards.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Written<'a> {
    #[serde(rename = "v")]
    _v: IgnoredAny,
    n: u64,
    segment: u32,
    left: u32,
    at: WrittenMoment,
    what: &'a str,
    pot: Option<u32>,
    act: Option<&'a str>,
    body: Map<String, Value>,
    #[serde(rename = "link")]
    _link: IgnoredAny,
    #[serde(rename = "crc")]
    _crc: IgnoredAny,
}

#[derive(Deserialize)]
struct WrittenMoment {
    stretch: u32,
    steady_ms: u64,
    wall_ms: i64,
}

fn text_of(station: &Station, entry: &Entry) -> String {
    let head = head_of(station, entry);
    let body = Value::Object(entry.body.clone());
    let guarded = format!("{head}{body},\"link\":\"{:016x}\"", station.link.0);
    let crc = crc32fast::hash(guarded.as_bytes());
    format!("{guarded},\"crc\":\"{crc:08x}\"}}")
}

/// A line up to its body.
fn head_of(station: &Station, entry: &Entry) -> String {
    let at = entry.at;
    let pot = entry.pot.map_or_else(|| "null".to_owned(), |pot| pot.to_string());
    let act = station
        .act
        .as_ref()
        .map_or_else(|| "null".to_owned(), |act| format!("\"{act}\""));
    format!(
        "{HEAD}\"n\":{},\"segment\":{},\"left\":{},\
         \"at\":{{\"stretch\":{},\"steady_ms\":{},\"wall_ms\":{}}},\
         \"what\":\"{}\",\"pot\":{pot},\"act\":{act},\"body\":",
        station.n, station.segment, station.left, at.stretch.0, at.steady_ms, at.wall_ms, entry.what,
    )
}

/// What is wrong with a whole line that begins otherwise.
fn of_other_format(text: &str) -> LineFault {
    #[derive(Deserialize)]
    struct Version {
        v: u64,
    }
    match serde_json::from_str::<Version>(text) {
        Ok(Version { v: FORMAT }) => LineFault::Form,
        Ok(Version { v: version }) => LineFault::OtherFormat { version },
        Err(fault) => unreadable(&fault),
    }
}

fn unreadable(fault: &serde_json::Error) -> LineFault {
    match fault.classify() {
        Category::Data => LineFault::Form,
        Category::Io | Category::Syntax | Category::Eof => LineFault::NotALine,
    }
}

fn check_crc(line: &[u8]) -> Result<&[u8], LineFault> {
    let line = line.strip_suffix(b"\"}").ok_or(LineFault::NotALine)?;
    let (marked, found) = line.split_last_chunk::<8>().ok_or(LineFault::NotALine)?;
    let guarded = marked.strip_suffix(CRC_MARK).ok_or(LineFault::NotALine)?;
    let computed = format!("{:08x}", crc32fast::hash(guarded));
    // Compared as the exact eight characters, so that no second spelling of a right checksum exists.
    if found == computed.as_bytes() {
        Ok(guarded)
    } else {
        let found = String::from_utf8_lossy(found).into_owned();
        Err(LineFault::Checksum { found, computed })
    }
}

fn link_at_end(guarded: &[u8]) -> Result<Link, LineFault> {
    let (_, digits) = guarded
        .strip_suffix(b"\"")
        .and_then(|rest| rest.split_last_chunk::<16>())
        .filter(|(marked, _)| marked.ends_with(LINK_MARK))
        .ok_or(LineFault::Form)?;
    let number = std::str::from_utf8(digits)
        .ok()
        .and_then(|text| u64::from_str_radix(text, 16).ok())
        .ok_or(LineFault::Form)?;
    // Exact digits, so that no second spelling of a right link exists.
    if format!("{number:016x}").as_bytes() == digits {
        Ok(Link(number))
    } else {
        Err(LineFault::Form)
    }
}

fn record_of(written: Written<'_>, link: Link, line: &str) -> Result<Record, LineFault> {
    let act = written.act.map(ActId::from_text).transpose();
    let act = act.map_err(|_| LineFault::Form)?;
    if written.n == 0 || !is_kind(written.what) {
        return Err(LineFault::Form);
    }
    let entry = Entry {
        at: Moment {
            stretch: Stretch(written.at.stretch),
            steady_ms: written.at.steady_ms,
            wall_ms: written.at.wall_ms,
        },
        what: written.what.to_owned(),
        pot: written.pot,
        body: written.body,
    };
    Ok(Record {
        n: written.n,
        segment: written.segment,
        left: written.left,
        act,
        entry,
        link,
        line: line.to_owned(),
    })
}

fn is_kind(what: &str) -> bool {
    (1..=KIND_LENGTH_MAX).contains(&what.len())
        && what
            .bytes()
            .all(|byte| matches!(byte, b'a'..=b'z' | b'0'..=b'9' | b'_'))
}

fn station_of(record: &Record) -> Station {
    Station {
        n: record.n,
        segment: record.segment,
        left: record.left,
        act: record.act.clone(),
        link: record.link,
    }
}
