//! The daybook's pages: the record of a finished bath, written once and never changed.
//!
//! A page is written under a temporary name, flushed, read back, made read-only, linked to its own name without
//! clobbering, and read back from the device once more; only then it is sealed. Its digest shows that it was changed by accident.
//! It is no signature.

use std::collections::BTreeSet;

use serde_json::Value;
use sha2::{Digest as _, Sha256};

use super::id::BathId;
use super::store::{Store, StoreFault};

/// The most bytes of a page.
pub const PAGE_BYTES_MAX: usize = 16 * 1024 * 1024;
/// How many pages one bath can have, when a damaged one has to be left where it is.
pub const PAGE_COUNT_MAX: u32 = 9;

/// A sealed page.
#[derive(Debug, Clone, PartialEq)]
pub struct Page {
    /// Its file name in the daybook.
    pub name: String,
    /// The bath it is of.
    pub bath: BathId,
    /// What the caller had sealed.
    pub content: Value,
    /// SHA-256 of every byte before the text `,"sha256":"`, in 64 lower-case hex digits.
    pub digest: String,
}

/// A file of the daybook that has a page's name.
#[derive(Debug, Clone, PartialEq)]
pub struct Listed {
    /// Its file name.
    pub name: String,
    /// The page, or what is wrong with it.
    pub page: Result<Page, PageFault>,
}

/// Why a bath wasn't sealed. The journal of the bath is as it was, so sealing can be tried again.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum SealFault {
    /// The store didn't do its part.
    #[error("{0}")]
    Store(#[from] StoreFault),
    /// Another, whole page of this bath is there.
    #[error("{name} already holds another record of this bath")]
    SealedOtherwise {
        /// Its name.
        name: String,
    },
    /// The page would not come back as given, for instance because it is nested too deep or is too long.
    #[error("the record of {bath} can't be a page: {fault}")]
    NotAPage {
        /// The bath.
        bath: BathId,
        /// What the reader would say of it.
        fault: PageFault,
    },
    /// Every name a page of this bath could have is taken by a damaged one.
    #[error("all {PAGE_COUNT_MAX} names for the page of {bath} are taken by damaged files")]
    NoNameLeft {
        /// The bath.
        bath: BathId,
    },
}

/// What is wrong with a page.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum PageFault {
    /// It can't be read.
    #[error("{0}")]
    Unread(StoreFault),
    /// It doesn't begin or end as a page does, or isn't text.
    #[error("not a daybook page")]
    NotAPage,
    /// Its bytes have changed since it was sealed.
    #[error("digest is {found}, the bytes give {computed}")]
    Digest {
        /// What the page says.
        found: String,
        /// What its bytes give.
        computed: String,
    },
    /// Whole, but written in a format this program doesn't know.
    #[error("format {version}; this program reads format {FORMAT}")]
    OtherFormat {
        /// The version it names.
        version: u64,
    },
    /// Whole, but without its bath or its record.
    #[error("key {key:?} is missing or of the wrong type")]
    Key {
        /// The key.
        key: &'static str,
    },
    /// Longer than a page may be.
    #[error("{bytes} bytes; a page has at most {PAGE_BYTES_MAX}")]
    TooLong {
        /// How many it has.
        bytes: usize,
    },
}

/// Seals the record of a bath. To repeat it after a cut is harmless: a page that is already there with the same
/// bytes is the page; a damaged one is left where it is and the next name is taken.
pub fn seal<S: Store>(daybook: &mut S, bath: &BathId, content: &Value) -> Result<Page, SealFault> {
    let bytes = write_page(bath, content);
    let check = |name: &str| match read_page(name, &bytes) {
        Ok(page) if page.content == *content && page.bath == *bath => Ok(page),
        Ok(_) => Err(SealFault::NotAPage {
            bath: bath.clone(),
            fault: PageFault::Key { key: "record" },
        }),
        Err(fault) => Err(SealFault::NotAPage {
            bath: bath.clone(),
            fault,
        }),
    };
    for count in 1..=PAGE_COUNT_MAX {
        let name = page_name(bath, count);
        let page = check(&name)?;
        match daybook.read_back(&name, PAGE_BYTES_MAX) {
            Ok(there) if there == bytes => {
                // The name may have been linked by a run that was cut off before its folder was flushed.
                daybook.flush_dir()?;
                return Ok(page);
            }
            Ok(there) => match read_page(&name, &there) {
                Ok(_) | Err(PageFault::OtherFormat { .. }) => {
                    return Err(SealFault::SealedOtherwise { name });
                }
                Err(_) => {}
            },
            Err(StoreFault::NotThere { .. }) => {
                put_page_with_ballast(daybook, &name, &bytes)?;
                return Ok(page);
            }
            Err(fault) => return Err(SealFault::Store(fault)),
        }
    }
    Err(SealFault::NoNameLeft { bath: bath.clone() })
}

/// Every page of the daybook, whole or damaged, sorted by name.
pub fn list_pages<S: Store>(daybook: &mut S) -> Result<Vec<Listed>, StoreFault> {
    let names = daybook.list()?;
    let pages = names
        .into_iter()
        .filter(|name| bath_of_page(name).is_some())
        .map(|name| {
            let page = match daybook.read(&name, PAGE_BYTES_MAX) {
                Ok(bytes) => read_page(&name, &bytes),
                Err(fault) => Err(PageFault::Unread(fault)),
            };
            Listed { name, page }
        });
    Ok(pages.collect())
}

/// The baths that have a page with a whole digest in the daybook. A bath whose only page is damaged isn't among them.
pub fn sealed_baths<S: Store>(daybook: &mut S) -> Result<BTreeSet<BathId>, StoreFault> {
    let mut sealed = BTreeSet::new();
    for name in daybook.list()? {
        if let Some(bath) = bath_of_page(&name)
            && daybook
                .read(&name, PAGE_BYTES_MAX)
                .is_ok_and(|bytes| digested(&bytes).is_ok())
        {
            sealed.insert(bath);
        }
    }
    Ok(sealed)
}

/// The version of the page format written.
pub const FORMAT: u64 = 1;

const DIGEST_MARK: &[u8] = b",\"sha256\":\"";

/// The bytes of a page.
#[must_use]
pub fn write_page(bath: &BathId, content: &Value) -> Vec<u8> {
    let digested = format!("{{\"daybook\":{FORMAT},\n\"bath\":\"{bath}\",\n\"record\":{content:#}\n");
    let digest = hex(&Sha256::digest(digested.as_bytes()));
    let mut bytes = digested.into_bytes();
    bytes.extend_from_slice(DIGEST_MARK);
    bytes.extend_from_slice(digest.as_bytes());
    bytes.extend_from_slice(b"\"}\n");
    bytes
}

/// The page that some bytes are, or what is wrong with them.
pub fn read_page(name: &str, bytes: &[u8]) -> Result<Page, PageFault> {
    if bytes.len() > PAGE_BYTES_MAX {
        return Err(PageFault::TooLong { bytes: bytes.len() });
    }
    let computed = digested(bytes)?;
    let Ok(Value::Object(mut fields)) = serde_json::from_slice(bytes) else {
        return Err(PageFault::NotAPage);
    };
    let version = fields
        .get("daybook")
        .and_then(Value::as_u64)
        .ok_or(PageFault::Key { key: "daybook" })?;
    if version != FORMAT {
        return Err(PageFault::OtherFormat { version });
    }
    let bath = fields
        .get("bath")
        .and_then(Value::as_str)
        .and_then(|bath| BathId::from_text(bath).ok());
    Ok(Page {
        name: name.to_owned(),
        bath: bath.ok_or(PageFault::Key { key: "bath" })?,
        content: fields.remove("record").ok_or(PageFault::Key { key: "record" })?,
        digest: computed,
    })
}

/// The digest of a page's bytes, if it is the one they carry.
fn digested(bytes: &[u8]) -> Result<String, PageFault> {
    let marked = bytes.strip_suffix(b"\"}\n").ok_or(PageFault::NotAPage)?;
    let (digested, found) = marked.split_last_chunk::<64>().ok_or(PageFault::NotAPage)?;
    let digested = digested.strip_suffix(DIGEST_MARK).ok_or(PageFault::NotAPage)?;
    let computed = hex(&Sha256::digest(digested));
    if found == computed.as_bytes() {
        Ok(computed)
    } else {
        let found = String::from_utf8_lossy(found).into_owned();
        Err(PageFault::Digest { found, computed })
    }
}

fn page_name(bath: &BathId, count: u32) -> String {
    if count == 1 {
        format!("{bath}.json")
    } else {
        format!("{bath}.{count}.json")
    }
}

/// The bath that a page's file name is of, or nothing if the name is no page's.
fn bath_of_page(name: &str) -> Option<BathId> {
    let stem = name.strip_suffix(".json")?;
    let bath = stem.split_once('.').map_or(stem, |(bath, _)| bath);
    let bath = BathId::from_text(bath).ok()?;
    (1..=PAGE_COUNT_MAX)
        .any(|count| page_name(&bath, count) == name)
        .then_some(bath)
}

/// On a full disk the ballast is given up, so that a finished bath can be recorded.
fn put_page_with_ballast<S: Store>(daybook: &mut S, name: &str, bytes: &[u8]) -> Result<(), StoreFault> {
    match put_page(daybook, name, bytes) {
        Err(StoreFault::Full { .. }) if daybook.release_ballast() == Ok(true) => {
            put_page(daybook, name, bytes)
        }
        outcome => outcome,
    }
}

fn put_page<S: Store>(daybook: &mut S, name: &str, bytes: &[u8]) -> Result<(), StoreFault> {
    let part = format!("{name}.part");
    match daybook.remove(&part) {
        Ok(()) | Err(StoreFault::NotThere { .. }) => {}
        Err(fault) => return Err(fault),
    }
    let put = put_under(daybook, &part, name, bytes);
    daybook.close(&part);
    put?;
    // The page is sealed; a temporary name that stays is untidy, and the next sealing removes it.
    if daybook.remove(&part).is_ok() {
        daybook.flush_dir()?;
    }
    Ok(())
}

fn put_under<S: Store>(daybook: &mut S, part: &str, name: &str, bytes: &[u8]) -> Result<(), StoreFault> {
    daybook.create_new(part)?;
    daybook.append(part, bytes)?;
    daybook.flush(part)?;
    // Looked at before it gets its name, so that a device that garbles puts no damaged page into the daybook.
    reads_back(daybook, part, bytes)?;
    daybook.make_read_only(part)?;
    daybook.link_no_clobber(part, name)?;
    daybook.flush_dir()?;
    reads_back(daybook, name, bytes)
}

fn reads_back<S: Store>(daybook: &mut S, name: &str, bytes: &[u8]) -> Result<(), StoreFault> {
    if daybook.read_back(name, PAGE_BYTES_MAX)? == bytes {
        Ok(())
    } else {
        Err(StoreFault::ReadsBackDifferent {
            name: name.to_owned(),
        })
    }
}

fn hex(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}
