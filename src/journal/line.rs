//! One record, one line of JSON: what it holds, how it is written, when a line counts as whole.
//!
//! A line has eleven keys in a fixed order. The last two guard it: `link` is the fingerprint of the line before,
//! `crc` the checksum of every byte of this line before the text `,"crc":"`.

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
    /// The checksum holds, but a key is missing, misplaced, or not of its type.
    #[error("key {key:?} is missing, out of place or of the wrong type")]
    Key {
        /// The key.
        key: &'static str,
    },
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
    let link = link_at_end(guarded)?;
    let text = std::str::from_utf8(line).map_err(|_| LineFault::NotALine)?;
    let Ok(Value::Object(fields)) = serde_json::from_str(text) else {
        return Err(LineFault::NotALine);
    };
    record_of(fields, link, text.to_owned())
}

const KEYS: [&str; 10] = [
    "v", "n", "segment", "left", "at", "what", "pot", "act", "body", "link",
];
const CRC_MARK: &[u8] = b",\"crc\":\"";
const LINK_MARK: &[u8] = b",\"link\":\"";

fn text_of(station: &Station, entry: &Entry) -> String {
    let at = entry.at;
    let pot = entry.pot.map_or_else(|| "null".to_owned(), |pot| pot.to_string());
    let act = station
        .act
        .as_ref()
        .map_or_else(|| "null".to_owned(), |act| format!("\"{act}\""));
    let body = Value::Object(entry.body.clone());
    let guarded = format!(
        "{{\"v\":{FORMAT},\"n\":{},\"segment\":{},\"left\":{},\
         \"at\":{{\"stretch\":{},\"steady_ms\":{},\"wall_ms\":{}}},\
         \"what\":\"{}\",\"pot\":{pot},\"act\":{act},\"body\":{body},\"link\":\"{:016x}\"",
        station.n,
        station.segment,
        station.left,
        at.stretch.0,
        at.steady_ms,
        at.wall_ms,
        entry.what,
        station.link.0
    );
    let crc = crc32fast::hash(guarded.as_bytes());
    format!("{guarded},\"crc\":\"{crc:08x}\"}}")
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
    let fault = LineFault::Key { key: "link" };
    let Some((marked, digits)) = guarded
        .strip_suffix(b"\"")
        .and_then(|rest| rest.split_last_chunk::<16>())
    else {
        return Err(fault);
    };
    let lower = digits
        .iter()
        .all(|digit| matches!(digit, b'0'..=b'9' | b'a'..=b'f'));
    let number = std::str::from_utf8(digits)
        .ok()
        .and_then(|text| u64::from_str_radix(text, 16).ok());
    match number {
        Some(number) if lower && marked.ends_with(LINK_MARK) => Ok(Link(number)),
        Some(_) | None => Err(fault),
    }
}

fn record_of(mut all: Map<String, Value>, link: Link, line: String) -> Result<Record, LineFault> {
    let fields = &all;
    let version = number(fields, "v")?;
    if version != FORMAT {
        return Err(LineFault::OtherFormat { version });
    }
    check_order(fields)?;
    let what = text(fields, "what")?;
    if !is_kind(what) {
        return Err(LineFault::Key { key: "what" });
    }
    let what = what.to_owned();
    let at = moment(fields)?;
    let pot = optional(fields, "pot", |pot| {
        pot.as_u64().and_then(|pot| u32::try_from(pot).ok())
    })?;
    let n = number(fields, "n")?;
    if n == 0 {
        return Err(LineFault::Key { key: "n" });
    }
    let segment = small_number(fields, "segment")?;
    let left = small_number(fields, "left")?;
    let act = optional(fields, "act", |act| {
        act.as_str().and_then(|act| ActId::from_text(act).ok())
    })?;
    let Some(Value::Object(body)) = all.swap_remove("body") else {
        return Err(LineFault::Key { key: "body" });
    };
    Ok(Record {
        n,
        segment,
        left,
        act,
        entry: Entry { at, what, pot, body },
        link,
        line,
    })
}

fn check_order(fields: &Map<String, Value>) -> Result<(), LineFault> {
    for (key, found) in KEYS
        .into_iter()
        .chain(["crc"])
        .zip(fields.keys().map(Some).chain(std::iter::repeat(None)))
    {
        if found.map(String::as_str) != Some(key) {
            return Err(LineFault::Key { key });
        }
    }
    if fields.len() == KEYS.len().saturating_add(1) {
        Ok(())
    } else {
        Err(LineFault::Key { key: "crc" })
    }
}

fn moment(fields: &Map<String, Value>) -> Result<Moment, LineFault> {
    let fault = LineFault::Key { key: "at" };
    let Some(Value::Object(at)) = fields.get("at") else {
        return Err(fault);
    };
    let wall_ms = at.get("wall_ms").and_then(Value::as_i64);
    match wall_ms {
        Some(wall_ms) if at.len() == 3 => Ok(Moment {
            stretch: Stretch(small_number(at, "stretch")?),
            steady_ms: number(at, "steady_ms")?,
            wall_ms,
        }),
        Some(_) | None => Err(fault),
    }
}

fn number(fields: &Map<String, Value>, key: &'static str) -> Result<u64, LineFault> {
    fields
        .get(key)
        .and_then(Value::as_u64)
        .ok_or(LineFault::Key { key })
}

fn small_number(fields: &Map<String, Value>, key: &'static str) -> Result<u32, LineFault> {
    u32::try_from(number(fields, key)?).map_err(|_| LineFault::Key { key })
}

fn text<'a>(fields: &'a Map<String, Value>, key: &'static str) -> Result<&'a str, LineFault> {
    fields
        .get(key)
        .and_then(Value::as_str)
        .ok_or(LineFault::Key { key })
}

fn optional<T>(
    fields: &Map<String, Value>,
    key: &'static str,
    read: impl Fn(&Value) -> Option<T>,
) -> Result<Option<T>, LineFault> {
    match fields.get(key) {
        Some(Value::Null) => Ok(None),
        Some(value) => read(value).map(Some).ok_or(LineFault::Key { key }),
        None => Err(LineFault::Key { key }),
    }
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
