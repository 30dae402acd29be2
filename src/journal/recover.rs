//! What can be read back of a bath: the newest whole chain over all segments of all places.
//!
//! Recovery only reads. It never stops at the first bad line: a checksum can't tell a torn tail from rot in the
//! middle, so every whole line of every segment is gathered and the links decide what hangs together.

use std::collections::{BTreeMap, BTreeSet};

use super::id::BathId;
use super::line::{Link, Record};
use super::segment::{BrokenKind, Placed, SEGMENT_BYTES_MAX, segment_number, take_apart};
use super::store::{Store, StoreFault};

/// What was read back.
#[derive(Debug, Clone, PartialEq)]
pub struct Recovered {
    /// The bath asked for.
    pub bath: BathId,
    /// The chain that stands: records 1, 2, 3 and so on, without a gap, every act whole.
    pub records: Vec<Record>,
    /// Whole records newer than the chain that don't join it, because something between is missing. They were
    /// kept once; a person must decide what they mean.
    pub after_gap: Vec<Record>,
    /// Everything that isn't as it should be, by place, file and position. All of it is left where it is.
    pub damage: Vec<Damage>,
    /// The highest number any segment has, readable or not; 0 if there is none.
    pub segment_number_max: u32,
}

impl Recovered {
    /// True if nothing that was once acknowledged is known to be missing or may hide in a damaged place.
    ///
    /// A torn tail doesn't count: what was being written when the power went had not been acknowledged. What an
    /// older segment holds is in every newer one too, so only damage to the newest can hide anything.
    #[must_use]
    pub fn is_whole(&self) -> bool {
        let newest = self.records.last().map_or(0, |record| record.segment);
        self.after_gap.is_empty() && !self.damage.iter().any(|damage| damage.may_hide_records(newest))
    }
}

impl Recovered {
    /// Why it would be wrong to go on from here without asking, or nothing.
    ///
    /// Who goes on writes a later segment, and its chain then stands above all that couldn't be read today.
    #[must_use]
    pub fn doubt(&self) -> Option<Doubt> {
        let newest = self.records.last().map_or(0, |record| record.segment);
        let unread = self.damage.iter().find_map(|damage| match &damage.kind {
            DamageKind::Unlisted(fault) => Some(fault),
            DamageKind::Unread(fault) if damage.may_hide_records(newest) => Some(fault),
            DamageKind::Unread(_)
            | DamageKind::Broken(_)
            | DamageKind::OutOfOrder { .. }
            | DamageKind::UnfinishedAct { .. }
            | DamageKind::OtherBranch { .. }
            | DamageKind::NotJoined { .. } => None,
        });
        match (unread, self.after_gap.len()) {
            (Some(fault), _) => Some(Doubt::Unread(fault.clone())),
            (None, 0) => None,
            (None, count) => Some(Doubt::Gap {
                after: self.records.last().map_or(0, |record| record.n),
                count,
            }),
        }
    }
}

/// Why a bath that was read back may be less than what was kept.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum Doubt {
    /// A place or its newest segment can't be read now; it may be readable later.
    #[error("part of the journal can't be read, so newer records may be missing: {0}")]
    Unread(StoreFault),
    /// Newer records are there, but one before them is damaged everywhere.
    #[error("{count} newer records are there, but what joins them to record {after} is damaged")]
    Gap {
        /// The last record of the chain.
        after: u64,
        /// How many newer ones there are.
        count: usize,
    },
}

/// One thing that isn't as it should be.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Damage {
    /// Which of the places.
    pub place_index: usize,
    /// Which file; empty for the place itself.
    pub file: String,
    /// Bytes before it in the file.
    pub at: usize,
    /// How many bytes.
    pub length: usize,
    /// What it is.
    pub kind: DamageKind,
}

/// The kinds of damage.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum DamageKind {
    /// The folder can't be listed; segments in it are unknown.
    #[error("the place can't be listed: {0}")]
    Unlisted(StoreFault),
    /// The segment can't be read.
    #[error("the segment can't be read: {0}")]
    Unread(StoreFault),
    /// Bytes that are no whole line.
    #[error("{0}")]
    Broken(BrokenKind),
    /// Whole, but not the line after the one before it.
    #[error("record {n} is out of order")]
    OutOfOrder {
        /// Its number.
        n: u64,
    },
    /// Whole and joined to the chain, but the act it belongs to isn't all there; it was never acknowledged.
    #[error("record {n} belongs to an act that was never finished")]
    UnfinishedAct {
        /// Its number.
        n: u64,
    },
    /// Whole and joined to the first record, but another chain stands: left by a run that was cut off.
    #[error("record {n} belongs to a branch that was left")]
    OtherBranch {
        /// Its number.
        n: u64,
    },
    /// Whole, but something between it and the first record of this bath is missing.
    #[error("record {n} doesn't join the records before it")]
    NotJoined {
        /// Its number.
        n: u64,
    },
}

impl Damage {
    fn may_hide_records(&self, newest: u32) -> bool {
        match &self.kind {
            DamageKind::Unlisted(_) => true,
            DamageKind::Unread(_) | DamageKind::Broken(BrokenKind::Last(_)) => {
                segment_number(&self.file).is_none_or(|number| number >= newest)
            }
            // A whole line follows a damaged middle. If it joins, so does what the damage took; if not, it's in `after_gap`.
            DamageKind::Broken(BrokenKind::Middle(_) | BrokenKind::TornTail | BrokenKind::ZeroTail)
            | DamageKind::OutOfOrder { .. }
            | DamageKind::UnfinishedAct { .. }
            | DamageKind::OtherBranch { .. }
            | DamageKind::NotJoined { .. } => false,
        }
    }
}

/// Reads back a bath from every place it may have been kept in, the first being its home.
pub fn recover<S: Store>(places: &mut [S], bath: &BathId) -> Recovered {
    let mut gathered = Gathered::default();
    for (place_index, place) in places.iter_mut().enumerate() {
        gathered.gather(place_index, place);
    }
    gathered.conclude(bath)
}

#[derive(Default)]
struct Gathered {
    lines: BTreeMap<Link, Found>,
    damage: Vec<Damage>,
    segment_number_max: u32,
}

struct Found {
    record: Record,
    place_index: usize,
    file: String,
    at: usize,
}

impl Gathered {
    fn gather<S: Store>(&mut self, place_index: usize, place: &mut S) {
        let names = match place.list() {
            Ok(names) => names,
            Err(fault) => {
                let kind = DamageKind::Unlisted(fault);
                self.damage.push(Damage {
                    place_index,
                    file: String::new(),
                    at: 0,
                    length: 0,
                    kind,
                });
                return;
            }
        };
        for name in names {
            let Some(number) = segment_number(&name) else {
                continue;
            };
            self.segment_number_max = self.segment_number_max.max(number);
            match place.read(&name, SEGMENT_BYTES_MAX) {
                Ok(bytes) => self.gather_segment(place_index, &name, &bytes),
                Err(fault) => {
                    let kind = DamageKind::Unread(fault);
                    self.damage.push(Damage {
                        place_index,
                        file: name,
                        at: 0,
                        length: 0,
                        kind,
                    });
                }
            }
        }
    }

    fn gather_segment(&mut self, place_index: usize, file: &str, bytes: &[u8]) {
        let parts = take_apart(bytes);
        for broken in parts.broken {
            self.damage.push(Damage {
                place_index,
                file: file.to_owned(),
                at: broken.at,
                length: broken.length,
                kind: DamageKind::Broken(broken.kind),
            });
        }
        let mut n_before = 0_u64;
        for Placed { record, at } in parts.whole {
            // After a broken line the next number is higher by what was broken; only a step back is out of order.
            if record.n <= n_before {
                let (length, kind) = (record.line().len(), DamageKind::OutOfOrder { n: record.n });
                self.damage.push(Damage {
                    place_index,
                    file: file.to_owned(),
                    at,
                    length,
                    kind,
                });
            }
            n_before = record.n;
            let found = Found {
                record,
                place_index,
                file: file.to_owned(),
                at,
            };
            self.lines.entry(found.record.fingerprint()).or_insert(found);
        }
    }

    fn conclude(mut self, bath: &BathId) -> Recovered {
        let joined = self.joined(Link::genesis(bath));
        let head = joined
            .iter()
            .filter_map(|link| self.lines.get(link).map(|found| (link, &found.record)))
            .filter(|(_, record)| record.left == 0)
            .max_by_key(|(_, record)| (record.segment, record.n))
            .map(|(link, _)| *link);
        let chain = self.walk_back(head);
        let in_chain: BTreeSet<Link> = chain.iter().copied().collect();
        let end = chain.last().and_then(|link| self.lines.get(link));
        let (end_segment, end_n) = end.map_or((0, 0), |found| (found.record.segment, found.record.n));

        let mut after_gap = Vec::new();
        for (link, found) in &self.lines {
            if in_chain.contains(link) {
                continue;
            }
            let n = found.record.n;
            let newer = (found.record.segment, n) > (end_segment, end_n);
            let kind = if !joined.contains(link) {
                if newer {
                    after_gap.push(found.record.clone());
                }
                DamageKind::NotJoined { n }
            } else if newer {
                DamageKind::UnfinishedAct { n }
            } else {
                DamageKind::OtherBranch { n }
            };
            self.damage.push(Damage {
                place_index: found.place_index,
                file: found.file.clone(),
                at: found.at,
                length: found.record.line().len(),
                kind,
            });
        }
        after_gap.sort_by_key(|record| (record.segment, record.n));
        self.damage
            .sort_by(|a, b| (a.place_index, &a.file, a.at).cmp(&(b.place_index, &b.file, b.at)));
        let records = chain
            .iter()
            .filter_map(|link| self.lines.remove(link).map(|found| found.record))
            .collect();
        Recovered {
            bath: bath.clone(),
            records,
            after_gap,
            damage: self.damage,
            segment_number_max: self.segment_number_max,
        }
    }

    /// Every line from which the links lead back to the first record of the bath.
    fn joined(&self, genesis: Link) -> BTreeSet<Link> {
        let mut by_number: Vec<(u64, Link)> = self
            .lines
            .iter()
            .map(|(link, found)| (found.record.n, *link))
            .collect();
        by_number.sort_unstable();
        let mut joined = BTreeSet::new();
        for (n, link) in by_number {
            let Some(found) = self.lines.get(&link) else {
                continue;
            };
            let joins = if n == 1 {
                found.record.link == genesis
            } else {
                joined.contains(&found.record.link) && self.follows(&found.record)
            };
            if joins {
                joined.insert(link);
            }
        }
        joined
    }

    fn follows(&self, record: &Record) -> bool {
        self.lines.get(&record.link).is_some_and(|before| {
            before.record.n.checked_add(1) == Some(record.n) && before.record.segment <= record.segment
        })
    }

    /// The fingerprints from the first record to the head.
    fn walk_back(&self, head: Option<Link>) -> Vec<Link> {
        let mut chain = Vec::new();
        let mut next = head;
        while let Some(link) = next {
            chain.push(link);
            next = self
                .lines
                .get(&link)
                .filter(|found| found.record.n > 1)
                .map(|found| found.record.link);
        }
        chain.reverse();
        chain
    }
}
