//! The one hand that writes: append is write, flush, and only then acknowledged.
//!
//! The chain lives in memory as well, so that any file can be abandoned. After an error on a file that file is
//! never written again: the whole chain goes into a new segment, in the same place, then in the next. If no place
//! takes it, the chain goes on in memory alone and [`Keeping::NotSaving`] says since when.

use std::collections::BTreeMap;

use serde_json::{Map, Value};

use super::id::{ActId, BathId};
use super::line::{Entry, LineFault, Link, Record, Station, write_line};
use super::recover::{Doubt, Recovered};
use super::segment::{SEGMENT_BYTES_MAX, SEGMENT_NUMBER_MAX, segment_name};
use super::store::{Deed, Store, StoreFault};
use crate::craft::time::{Moment, Span};

/// The kind of the record that opens what a run writes. It is the journal's own; replay passes over it.
pub const SEGMENT_KIND: &str = "segment";
/// The longest name of a program, in characters: name, version, the id of the machine's start, how its clock is known.
pub const PROGRAM_LENGTH_MAX: usize = 128;
/// The first pause between two tries to get from memory to a disk; it doubles up to 32 times as long.
pub const RETRY_PAUSE: Span = Span::from_seconds(10);

/// How the chain is being kept.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Keeping {
    /// This run has written nothing yet; its first record opens a segment.
    Unopened,
    /// In the first place.
    Home,
    /// In another place, because the ones before it refused.
    Spare {
        /// Which place.
        place_index: usize,
        /// Since when.
        since: Moment,
        /// What the place before said.
        fault: StoreFault,
    },
    /// In memory alone. Every screen says so.
    NotSaving {
        /// Since when.
        since: Moment,
        /// What the last place said.
        fault: StoreFault,
    },
}

/// What became of an append.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Receipt {
    /// Number of the newest record of the chain.
    pub n: u64,
    /// True if all of the chain is on a device. Only then a screen may say *saved*.
    pub is_saved: bool,
    /// True if the act was already in the chain and nothing was added.
    pub is_repeat: bool,
}

/// Why nothing was added to the chain. Disks never cause this.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum AppendFault {
    /// An entry can't be written as a line.
    #[error("{0}")]
    Line(#[from] LineFault),
    /// The chain is as long as one may be.
    #[error("the journal of this bath is full: {SEGMENT_BYTES_MAX} bytes")]
    ChainFull,
}

/// The writer of one bath's journal.
#[derive(Debug)]
pub struct Writer<S> {
    places: Vec<S>,
    chain: Chain,
    program: String,
    /// The program is named otherwise than in its last record.
    is_renamed: bool,
    damage_count: usize,
    doubt: Option<Doubt>,
    number_next: u32,
    open: Option<Open>,
    keeping: Keeping,
    tries: Option<Tries>,
}

#[derive(Debug)]
struct Open {
    place_index: usize,
    name: String,
}

#[derive(Debug)]
struct Tries {
    last: Moment,
    count: u32,
}

impl<S: Store> Writer<S> {
    /// A writer that goes on from what was read back. Of a new bath nothing was, and that is fine.
    ///
    /// `places` are tried in order; the first is the bath's home. `program` names the program and its version.
    /// Refused if what was read back is in doubt: the new chain would stand above records that are kept but hidden.
    pub fn resume(recovered: &Recovered, places: Vec<S>, program: &str) -> Result<Self, Doubt> {
        match recovered.doubt() {
            Some(doubt) => Err(doubt),
            None => Ok(Self::resume_in_doubt(recovered, places, program)),
        }
    }

    /// The same for a caller who has told of the doubt and goes on in spite of it; the record says so.
    pub fn resume_in_doubt(recovered: &Recovered, places: Vec<S>, program: &str) -> Self {
        Self {
            places,
            chain: Chain::of(recovered),
            program: short(program),
            is_renamed: false,
            damage_count: recovered.damage.len(),
            doubt: recovered.doubt(),
            number_next: recovered.segment_number_max.saturating_add(1),
            open: None,
            keeping: Keeping::Unopened,
            tries: None,
        }
    }

    /// How the chain is being kept.
    pub const fn keeping(&self) -> &Keeping {
        &self.keeping
    }

    /// Number of the newest record; 0 if there is none.
    pub const fn n(&self) -> u64 {
        self.chain.n
    }

    /// True if the act is in the chain.
    pub fn has_act(&self, act: &ActId) -> bool {
        self.chain.acts.contains_key(act)
    }

    /// Names the program otherwise from now on: its clock has been set, say. The next act is kept with a record of it.
    pub fn rename(&mut self, program: &str) {
        let program = short(program);
        self.is_renamed |= program != self.program;
        self.program = program;
    }

    /// Adds the entries of one act, all or none, and returns when they are on a device, or when it is certain that
    /// no place takes them. An act that is already in the chain adds nothing.
    pub fn append(
        &mut self,
        act: Option<&ActId>,
        entries: &[Entry],
        now: Moment,
    ) -> Result<Receipt, AppendFault> {
        let is_repeat = act.is_some_and(|act| self.has_act(act));
        if !is_repeat && !entries.is_empty() {
            let opening = self.opening(now);
            let from = self
                .chain
                .add(opening.as_ref(), act, entries, self.number_next_or_open())?;
            self.is_renamed = false;
            self.put(from, now);
        }
        Ok(self.receipt(is_repeat))
    }

    /// Tries to get from memory to a disk if it is time to; to be asked every few seconds while not saving.
    pub fn retry(&mut self, now: Moment) -> Receipt {
        if matches!(self.keeping, Keeping::NotSaving { .. }) && self.is_retry_due(now) {
            self.put(0, now);
        }
        self.receipt(false)
    }

    fn receipt(&self, is_repeat: bool) -> Receipt {
        let is_saved = match self.keeping {
            Keeping::Unopened | Keeping::Home | Keeping::Spare { .. } => true,
            Keeping::NotSaving { .. } => false,
        };
        Receipt {
            n: self.chain.n,
            is_saved,
            is_repeat,
        }
    }

    /// Puts the chain from byte `from` on a device, wherever one takes it.
    fn put(&mut self, from: usize, now: Moment) {
        let fault = match self.open.take() {
            Some(open) => match self.put_rest(&open, from) {
                Ok(()) => {
                    self.open = Some(open);
                    return;
                }
                Err(fault) => {
                    self.abandon(&open);
                    self.note_fault(&fault, now);
                    Some(fault)
                }
            },
            None => None,
        };
        if self.is_retry_due(now) {
            self.put_whole(fault, now);
        }
    }

    fn put_rest(&mut self, open: &Open, from: usize) -> Result<(), StoreFault> {
        let name = &open.name;
        let not_ours = || StoreFault::NotOurs { name: name.clone() };
        let place = self.places.get_mut(open.place_index).ok_or_else(not_ours)?;
        let rest = self.chain.bytes.get(from..).ok_or_else(not_ours)?;
        place.append(name, rest)?;
        place.flush(name)
    }

    fn put_whole(&mut self, first_fault: Option<StoreFault>, now: Moment) {
        let mut fault = first_fault;
        for place_index in 0..self.places.len() {
            match self.open_segment_with_ballast(place_index) {
                Ok(open) => {
                    let before = std::mem::replace(&mut self.keeping, Keeping::Home);
                    self.keeping = keeping_at(place_index, fault, &before, now);
                    self.open = Some(open);
                    self.tries = None;
                    if let Keeping::NotSaving { since, fault } = before {
                        self.note_gap(since, &fault, now);
                    }
                    return;
                }
                Err(refusal) => fault = Some(refusal),
            }
        }
        let since = match self.keeping {
            Keeping::NotSaving { since, .. } => since,
            Keeping::Unopened | Keeping::Home | Keeping::Spare { .. } => now,
        };
        let fault = fault.unwrap_or_else(|| StoreFault::NotThere {
            name: "a place to keep the journal".to_owned(),
        });
        self.keeping = Keeping::NotSaving { since, fault };
        let count = self
            .tries
            .as_ref()
            .map_or(0, |tries| tries.count.saturating_add(1));
        self.tries = Some(Tries { last: now, count });
    }

    fn open_segment_with_ballast(&mut self, place_index: usize) -> Result<Open, StoreFault> {
        let fault = match self.open_segment(place_index) {
            Ok(open) => return Ok(open),
            Err(fault) => fault,
        };
        let StoreFault::Full { .. } = &fault else {
            return Err(fault);
        };
        let released = self
            .places
            .get_mut(place_index)
            .map_or(Ok(false), Store::release_ballast);
        if released == Ok(true) {
            self.open_segment(place_index)
        } else {
            Err(fault)
        }
    }

    /// A new segment with all of the chain, flushed, its name flushed, and read back.
    fn open_segment(&mut self, place_index: usize) -> Result<Open, StoreFault> {
        let number = self.number_next;
        let name = segment_name(number);
        let missing = || StoreFault::NotThere { name: name.clone() };
        let place = self.places.get_mut(place_index).ok_or_else(missing)?;
        if number > SEGMENT_NUMBER_MAX {
            let detail = format!("the {SEGMENT_NUMBER_MAX} segments a bath can have are used up");
            return Err(StoreFault::Device {
                deed: Deed::Create,
                name,
                detail,
            });
        }
        // Whatever becomes of this file, its number isn't used again.
        self.number_next = number.saturating_add(1);
        let filled = fill(place, &name, &self.chain.bytes);
        if let Err(fault) = filled {
            place.close(&name);
            return Err(fault);
        }
        Ok(Open { place_index, name })
    }

    fn abandon(&mut self, open: &Open) {
        if let Some(place) = self.places.get_mut(open.place_index) {
            place.close(&open.name);
        }
    }

    /// Adds the record that says why a new segment follows. It can't be refused for its length.
    fn note_fault(&mut self, fault: &StoreFault, now: Moment) {
        let entry = self.segment_entry("fault", Some(fault), now);
        // If even this small record doesn't fit, the chain is full and the next append says so.
        drop(
            self.chain
                .add(None, None, std::slice::from_ref(&entry), self.number_next),
        );
    }

    /// Adds the record that says from when to when the chain was in memory alone.
    fn note_gap(&mut self, since: Moment, fault: &StoreFault, now: Moment) {
        let mut entry = self.segment_entry("saving_again", Some(fault), now);
        entry
            .body
            .insert("not_saved_since_wall_ms".to_owned(), Value::from(since.wall_ms));
        if let Ok(from) = self.chain.add(
            None,
            None,
            std::slice::from_ref(&entry),
            self.number_next_or_open(),
        ) {
            self.put(from, now);
        }
    }

    /// The record that opens a run, or says what has become of its name.
    fn opening(&self, now: Moment) -> Option<Entry> {
        let because = match &self.keeping {
            Keeping::Unopened => "start",
            Keeping::NotSaving { .. } | Keeping::Home | Keeping::Spare { .. } if self.is_renamed => "clock",
            Keeping::NotSaving { .. } | Keeping::Home | Keeping::Spare { .. } => return None,
        };
        Some(self.segment_entry(because, None, now))
    }

    fn segment_entry(&self, because: &str, fault: Option<&StoreFault>, now: Moment) -> Entry {
        let mut body = Map::new();
        body.insert("bath".to_owned(), Value::from(self.chain.bath.as_str()));
        body.insert("program".to_owned(), Value::from(self.program.as_str()));
        body.insert("number".to_owned(), Value::from(self.number_next_or_open()));
        body.insert("because".to_owned(), Value::from(because));
        body.insert(
            "fault".to_owned(),
            fault.map_or(Value::Null, |fault| Value::from(fault.to_string())),
        );
        body.insert("damage_count".to_owned(), Value::from(self.damage_count));
        if let Some(doubt) = &self.doubt {
            body.insert("doubt".to_owned(), Value::from(doubt.to_string()));
        }
        Entry {
            at: now,
            what: SEGMENT_KIND.to_owned(),
            pot: None,
            body,
        }
    }

    /// The segment that a record made now is meant for.
    fn number_next_or_open(&self) -> u32 {
        if self.open.is_some() {
            self.number_next.saturating_sub(1)
        } else {
            self.number_next
        }
    }

    fn is_retry_due(&self, now: Moment) -> bool {
        self.tries.as_ref().is_none_or(|tries| {
            let pause_ms = RETRY_PAUSE.ms().saturating_mul(1 << tries.count.min(5));
            now.stretch != tries.last.stretch || now.since(tries.last).ms() >= pause_ms
        })
    }
}

fn short(program: &str) -> String {
    program.chars().take(PROGRAM_LENGTH_MAX).collect()
}

fn keeping_at(place_index: usize, fault: Option<StoreFault>, before: &Keeping, now: Moment) -> Keeping {
    let since = match before {
        Keeping::Spare { since, .. } | Keeping::NotSaving { since, .. } => *since,
        Keeping::Unopened | Keeping::Home => now,
    };
    match fault {
        Some(fault) if place_index > 0 => Keeping::Spare {
            place_index,
            since,
            fault,
        },
        Some(_) | None => Keeping::Home,
    }
}

fn fill<S: Store>(place: &mut S, name: &str, bytes: &[u8]) -> Result<(), StoreFault> {
    place.create_new(name)?;
    place.append(name, bytes)?;
    place.flush(name)?;
    place.flush_dir()?;
    // Some worn cards take writes and forget them. Asked once for each segment, this catches those that forget at once.
    if place.read_back(name, SEGMENT_BYTES_MAX)? == bytes {
        Ok(())
    } else {
        Err(StoreFault::ReadsBackDifferent {
            name: name.to_owned(),
        })
    }
}

/// The chain in memory: its bytes as a segment holds them, and what the next line needs to know.
#[derive(Debug)]
struct Chain {
    bath: BathId,
    bytes: Vec<u8>,
    n: u64,
    segment: u32,
    link: Link,
    acts: BTreeMap<ActId, u64>,
}

impl Chain {
    fn of(recovered: &Recovered) -> Self {
        let mut chain = Self {
            bath: recovered.bath.clone(),
            bytes: Vec::new(),
            n: 0,
            segment: 0,
            link: Link::genesis(&recovered.bath),
            acts: BTreeMap::new(),
        };
        for record in &recovered.records {
            chain.take(record);
        }
        chain
    }

    /// Adds the records of an act, after the one that opens a segment if there is one; all or none.
    /// Returns how many bytes there were before.
    fn add(
        &mut self,
        opening: Option<&Entry>,
        act: Option<&ActId>,
        entries: &[Entry],
        segment: u32,
    ) -> Result<usize, AppendFault> {
        let segment = segment.max(self.segment);
        let mut link = self.link;
        let mut n = self.n;
        let mut records = Vec::new();
        let numbered = (0_u32..)
            .zip(entries.iter().rev())
            .map(|(left, entry)| (left, act, entry));
        let mut in_order: Vec<_> = numbered.collect();
        in_order.reverse();
        for (left, act, entry) in opening.map(|entry| (0, None, entry)).into_iter().chain(in_order) {
            n = n.checked_add(1).ok_or(AppendFault::ChainFull)?;
            let record = write_line(
                &Station {
                    n,
                    segment,
                    left,
                    act: act.cloned(),
                    link,
                },
                entry,
            )?;
            link = record.fingerprint();
            records.push(record);
        }
        let bytes: usize = records
            .iter()
            .map(|record| record.line().len().saturating_add(1))
            .sum();
        if self.bytes.len().saturating_add(bytes) > SEGMENT_BYTES_MAX {
            return Err(AppendFault::ChainFull);
        }
        let from = self.bytes.len();
        for record in &records {
            self.take(record);
        }
        Ok(from)
    }

    fn take(&mut self, record: &Record) {
        self.bytes.extend_from_slice(record.line().as_bytes());
        self.bytes.push(b'\n');
        self.n = record.n;
        self.segment = record.segment;
        self.link = record.fingerprint();
        if let Some(act) = &record.act {
            self.acts.insert(act.clone(), record.n);
        }
    }
}
