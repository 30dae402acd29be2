//! A store that breaks on cue. It keeps live bytes (what the program sees) and durable bytes (what a power cut
//! leaves), for contents and for names apart, and counts every call.
//!
//! The fault model: a call can fail once or from then on; a failed append leaves half of its bytes; a failed flush
//! leaves the bytes readable but no later flush brings them to the device (what Linux does after a failed fsync:
//! `PostgreSQL` wiki, "Fsync Errors"); a power cut at a call, before or after its effect, leaves the durable bytes
//! plus any prefix of the unflushed ones, or their length filled with zeros or with garbage.

use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;
use std::rc::Rc;

use potside::journal::store::{Deed, Store, StoreFault};

/// What goes wrong.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fault {
    /// The device errs.
    Eio,
    /// The device is full.
    Enospc,
    /// The place is read-only.
    Erofs,
    /// The power goes before the call has an effect.
    CutBefore,
    /// The power goes after the effect, before the call returns.
    CutAfter,
}

/// When it goes wrong: at call `at` (from 0), and at every later one too if it `persists`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Plan {
    pub at: usize,
    pub fault: Fault,
    pub persists: bool,
}

/// What a power cut made of the unflushed bytes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Tear {
    /// None of them arrived, nor any unflushed name.
    Nothing,
    /// The names arrived and this many thousandths of the bytes.
    Prefix(usize),
    /// The length arrived, the bytes are zeros.
    Zeros,
    /// The first half arrived, the rest is garbage.
    Garbage,
    /// All bytes arrived, the names didn't.
    BytesWithoutNames,
}

impl Tear {
    pub const ALL: [Self; 9] = [
        Self::Nothing,
        Self::Prefix(0),
        Self::Prefix(1),
        Self::Prefix(500),
        Self::Prefix(998),
        Self::Prefix(1000),
        Self::Zeros,
        Self::Garbage,
        Self::BytesWithoutNames,
    ];
}

#[derive(Debug, Clone, Default)]
struct File {
    live: Vec<u8>,
    durable: Vec<u8>,
    dirty: Vec<Range<usize>>,
    is_read_only: bool,
}

#[derive(Debug, Clone, Default)]
pub struct Disk {
    files: Vec<File>,
    live: BTreeMap<String, usize>,
    durable: BTreeMap<String, usize>,
    open: BTreeSet<String>,
    poisoned: BTreeSet<String>,
    plan: Option<Plan>,
    pub calls: usize,
    pub is_dead: bool,
    pub room: Option<usize>,
    pub ballast: usize,
    /// What is appended arrives with one bit turned, and no error is told.
    pub garbles: bool,
    /// Things a careful caller never does.
    pub violations: Vec<String>,
}

/// A handle on one faulty folder. Clones are the same folder.
#[derive(Debug, Clone, Default)]
pub struct FaultStore(pub Rc<RefCell<Disk>>);

impl FaultStore {
    pub fn plan(&self, plan: Option<Plan>) {
        let mut disk = self.0.borrow_mut();
        disk.plan = plan;
        disk.calls = 0;
    }

    pub fn with_files(files: &BTreeMap<String, Vec<u8>>) -> Self {
        let store = Self::default();
        for (name, bytes) in files {
            store.0.borrow_mut().put_durable(name, bytes);
        }
        store
    }

    /// The program ended, the machine didn't: live files, nothing open, calls counted anew.
    pub fn live_files(&self) -> BTreeMap<String, Vec<u8>> {
        let disk = self.0.borrow();
        disk.live
            .iter()
            .map(|(name, id)| (name.clone(), disk.files[*id].live.clone()))
            .collect()
    }

    /// How many files are held open.
    pub fn open_count(&self) -> usize {
        self.0.borrow().open.len()
    }

    /// What the device holds after a power cut.
    pub fn after_cut(&self, tear: Tear) -> BTreeMap<String, Vec<u8>> {
        let disk = self.0.borrow();
        let names = match tear {
            Tear::Nothing | Tear::BytesWithoutNames => &disk.durable,
            Tear::Prefix(_) | Tear::Zeros | Tear::Garbage => &disk.live,
        };
        names
            .iter()
            .map(|(name, id)| (name.clone(), torn(&disk.files[*id], tear)))
            .collect()
    }
}

fn torn(file: &File, tear: Tear) -> Vec<u8> {
    let mut bytes = file.durable.clone();
    for range in &file.dirty {
        let unflushed = &file.live[range.clone()];
        let arrived: Vec<u8> = match tear {
            Tear::Nothing => Vec::new(),
            Tear::Prefix(1) => unflushed[..unflushed.len().min(1)].to_vec(),
            Tear::Prefix(998) => unflushed[..unflushed.len().saturating_sub(1)].to_vec(),
            Tear::Prefix(thousandths) => unflushed[..unflushed.len() * thousandths / 1000].to_vec(),
            Tear::Zeros => vec![0; unflushed.len()],
            Tear::Garbage => {
                let mut bytes = unflushed.to_vec();
                for (index, byte) in bytes.iter_mut().enumerate().skip(unflushed.len() / 2) {
                    *byte = (index * 37 % 251) as u8;
                }
                bytes
            }
            Tear::BytesWithoutNames => unflushed.to_vec(),
        };
        put_at(&mut bytes, range.start, &arrived);
    }
    bytes
}

fn put_at(bytes: &mut Vec<u8>, at: usize, piece: &[u8]) {
    if piece.is_empty() {
        return;
    }
    if bytes.len() < at + piece.len() {
        bytes.resize(at + piece.len(), 0);
    }
    bytes[at..at + piece.len()].copy_from_slice(piece);
}

impl Disk {
    pub fn put_durable(&mut self, name: &str, bytes: &[u8]) {
        let id = self.files.len();
        self.files.push(File {
            live: bytes.to_vec(),
            durable: bytes.to_vec(),
            ..File::default()
        });
        self.live.insert(name.to_owned(), id);
        self.durable.insert(name.to_owned(), id);
    }

    /// Opens a file of an earlier run for appending, which no honest store offers.
    pub fn open_existing(&mut self, name: &str) {
        self.open.insert(name.to_owned());
    }

    fn next_fault(&mut self) -> Option<Fault> {
        let call = self.calls;
        self.calls += 1;
        self.plan
            .filter(|plan| plan.at == call || (plan.persists && plan.at < call))
            .map(|plan| plan.fault)
    }

    fn file(&mut self, name: &str) -> Result<&mut File, StoreFault> {
        let id = self.live.get(name).copied();
        id.map(|id| &mut self.files[id])
            .ok_or_else(|| StoreFault::NotThere {
                name: name.to_owned(),
            })
    }

    fn used(&self) -> usize {
        self.files.iter().map(|file| file.live.len()).sum::<usize>() + self.ballast
    }

    /// Runs a call under the plan: `work` has the effect, `half` the effect of a failed one.
    fn call<T>(
        &mut self,
        deed: Deed,
        name: &str,
        work: impl FnOnce(&mut Self) -> Result<T, StoreFault>,
        half: impl FnOnce(&mut Self),
    ) -> Result<T, StoreFault> {
        let name_owned = name.to_owned();
        let dead = StoreFault::Device {
            deed,
            name: name_owned.clone(),
            detail: "no power".to_owned(),
        };
        if self.is_dead {
            return Err(dead);
        }
        match self.next_fault() {
            None => work(self),
            Some(Fault::CutBefore) => {
                self.is_dead = true;
                Err(dead)
            }
            Some(Fault::CutAfter) => {
                drop(work(self));
                self.is_dead = true;
                Err(dead)
            }
            Some(Fault::Eio) => {
                half(self);
                Err(StoreFault::Device {
                    deed,
                    name: name_owned,
                    detail: "input/output error".to_owned(),
                })
            }
            Some(Fault::Enospc) => {
                half(self);
                Err(StoreFault::Full {
                    deed,
                    name: name_owned,
                })
            }
            Some(Fault::Erofs) => Err(StoreFault::ReadOnly {
                deed,
                name: name_owned,
            }),
        }
    }

    fn check_writable(&mut self, deed: Deed, name: &str) -> Result<(), StoreFault> {
        if self.poisoned.contains(name) {
            self.violations
                .push(format!("{deed} of {name} after a fault on it"));
        }
        if self.open.contains(name) {
            Ok(())
        } else {
            Err(StoreFault::NotOurs {
                name: name.to_owned(),
            })
        }
    }

    fn add(&mut self, name: &str, bytes: &[u8]) -> Result<(), StoreFault> {
        let file = self.file(name)?;
        let start = file.live.len();
        file.live.extend_from_slice(bytes);
        file.dirty.push(start..file.live.len());
        Ok(())
    }

    fn append(&mut self, name: &str, bytes: &[u8]) -> Result<(), StoreFault> {
        let free = self
            .room
            .map_or(usize::MAX, |room| room.saturating_sub(self.used()));
        if free < bytes.len() {
            self.add(name, &bytes[..free])?;
            self.poisoned.insert(name.to_owned());
            return Err(StoreFault::Full {
                deed: Deed::Append,
                name: name.to_owned(),
            });
        }
        let mut bytes = bytes.to_vec();
        let middle = bytes.len() / 2;
        if self.garbles
            && let Some(byte) = bytes.get_mut(middle)
        {
            *byte ^= 1;
        }
        self.add(name, &bytes)
    }

    fn flush(&mut self, name: &str) -> Result<(), StoreFault> {
        let file = self.file(name)?;
        for range in std::mem::take(&mut file.dirty) {
            let piece = file.live[range.clone()].to_vec();
            put_at(&mut file.durable, range.start, &piece);
        }
        Ok(())
    }
}

impl Store for FaultStore {
    fn list(&mut self) -> Result<Vec<String>, StoreFault> {
        let work = |disk: &mut Disk| Ok(disk.live.keys().cloned().collect());
        self.0.borrow_mut().call(Deed::List, "", work, |_| ())
    }

    fn read(&mut self, name: &str, bytes_max: usize) -> Result<Vec<u8>, StoreFault> {
        let work = |disk: &mut Disk| {
            let bytes = disk.file(name)?.live.clone();
            if bytes.len() > bytes_max {
                return Err(StoreFault::TooLarge {
                    name: name.to_owned(),
                    bytes_max,
                });
            }
            Ok(bytes)
        };
        self.0.borrow_mut().call(Deed::Read, name, work, |_| ())
    }

    fn read_back(&mut self, name: &str, bytes_max: usize) -> Result<Vec<u8>, StoreFault> {
        self.read(name, bytes_max)
    }

    fn create_new(&mut self, name: &str) -> Result<(), StoreFault> {
        let work = |disk: &mut Disk| {
            if disk.live.contains_key(name) {
                return Err(StoreFault::AlreadyThere {
                    name: name.to_owned(),
                });
            }
            disk.files.push(File::default());
            disk.live.insert(name.to_owned(), disk.files.len() - 1);
            disk.open.insert(name.to_owned());
            // Another file under the name of one that was removed.
            disk.poisoned.remove(name);
            Ok(())
        };
        self.0.borrow_mut().call(Deed::Create, name, work, |_| ())
    }

    fn append(&mut self, name: &str, bytes: &[u8]) -> Result<(), StoreFault> {
        let mut disk = self.0.borrow_mut();
        disk.check_writable(Deed::Append, name)?;
        let half = |disk: &mut Disk| {
            disk.add(name, &bytes[..bytes.len() / 2]).unwrap();
            disk.poisoned.insert(name.to_owned());
        };
        disk.call(Deed::Append, name, |disk| disk.append(name, bytes), half)
    }

    fn flush(&mut self, name: &str) -> Result<(), StoreFault> {
        let mut disk = self.0.borrow_mut();
        disk.check_writable(Deed::Flush, name)?;
        let half = |disk: &mut Disk| {
            disk.file(name).unwrap().dirty.clear();
            disk.poisoned.insert(name.to_owned());
        };
        disk.call(Deed::Flush, name, |disk| disk.flush(name), half)
    }

    fn flush_dir(&mut self) -> Result<(), StoreFault> {
        let work = |disk: &mut Disk| {
            disk.durable = disk.live.clone();
            Ok(())
        };
        self.0.borrow_mut().call(Deed::FlushDir, "", work, |_| ())
    }

    fn close(&mut self, name: &str) {
        self.0.borrow_mut().open.remove(name);
    }

    fn link_no_clobber(&mut self, from: &str, to: &str) -> Result<(), StoreFault> {
        let work = |disk: &mut Disk| {
            if disk.live.contains_key(to) {
                return Err(StoreFault::AlreadyThere { name: to.to_owned() });
            }
            let id = disk.live.get(from).copied();
            let id = id.ok_or_else(|| StoreFault::NotThere {
                name: from.to_owned(),
            })?;
            disk.live.insert(to.to_owned(), id);
            Ok(())
        };
        self.0.borrow_mut().call(Deed::Link, to, work, |_| ())
    }

    fn make_read_only(&mut self, name: &str) -> Result<(), StoreFault> {
        let work = |disk: &mut Disk| {
            disk.file(name)?.is_read_only = true;
            Ok(())
        };
        self.0.borrow_mut().call(Deed::MakeReadOnly, name, work, |_| ())
    }

    fn remove(&mut self, name: &str) -> Result<(), StoreFault> {
        let work = |disk: &mut Disk| {
            disk.live
                .remove(name)
                .map(|_| ())
                .ok_or_else(|| StoreFault::NotThere {
                    name: name.to_owned(),
                })
        };
        self.0.borrow_mut().call(Deed::Remove, name, work, |_| ())
    }

    fn release_ballast(&mut self) -> Result<bool, StoreFault> {
        let work = |disk: &mut Disk| Ok(std::mem::take(&mut disk.ballast) > 0);
        self.0.borrow_mut().call(Deed::ReleaseBallast, "", work, |_| ())
    }
}
