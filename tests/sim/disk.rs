//! The simulated disks of a kitchen: home and spare, with what a program sees and what a power cut leaves kept apart.
//!
//! The fault model. A call can fail once or for a while (error, full, read-only). A failed append leaves half of its
//! bytes. A failed flush leaves them readable, but nothing ever brings them to the device (what Linux does after a
//! failed fsync: `PostgreSQL` wiki, "Fsync Errors"). A cut can come at every call, before or after its effect; flushed
//! bytes and names survive it; of what wasn't flushed each piece arrives whole, in part, as zeros, as garbage or not
//! at all, and each name or removal does or doesn't. A kill leaves all that was written. Rot strikes only a file of
//! which another holds all; that newer bytes of the block being written are damaged is not in the model (decision 0007).

use std::collections::{BTreeMap, BTreeSet};

use super::chance::Chance;
use super::clocks::Clocks;

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Device {
    Home,
    Spare,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fault {
    Error,
    Full,
    ReadOnly,
}

/// Calls from one number up to another fail.
#[derive(Debug, Clone, Copy)]
pub struct Spell {
    pub device: Device,
    pub from: usize,
    pub to: usize,
    pub fault: Fault,
}

/// How a run ends in the middle of a call.
#[derive(Debug, Clone, Copy)]
pub struct Cut {
    pub at: usize,
    pub has_effect: bool,
}

/// What goes wrong in one run.
#[derive(Debug, Clone, Default)]
pub struct Troubles {
    pub cut: Option<Cut>,
    pub spells: Vec<Spell>,
    /// One flush in so many is slow; 0 for none.
    pub slow_once_in: usize,
    /// One append to the daybook in so many is garbled; 0 for none.
    pub garbles_once_in: usize,
}

#[derive(Debug, Clone, Default)]
pub struct File {
    pub live: Vec<u8>,
    durable: Vec<u8>,
    unflushed_from: usize,
    /// What was unflushed when a flush failed never arrives.
    lost: bool,
    run: u32,
    has_erred: bool,
}

#[derive(Debug, Clone, Default)]
pub struct Dir {
    pub live: BTreeMap<String, usize>,
    durable: BTreeMap<String, usize>,
}

#[derive(Debug)]
pub struct Disks {
    pub chance: Chance,
    pub clocks: Clocks,
    pub troubles: Troubles,
    pub calls: usize,
    pub faults_met: usize,
    pub is_dead: bool,
    pub run: u32,
    pub files: Vec<File>,
    pub dirs: BTreeMap<(bool, String), Dir>,
    pub recipes: BTreeMap<String, String>,
    pub open: BTreeSet<usize>,
    /// Bytes left on the home device, if they are few.
    pub room: Option<usize>,
    pub ballast: usize,
    pub breaches: Vec<String>,
}

impl Disks {
    pub fn new(chance: Chance, clocks: Clocks) -> Self {
        Self {
            chance,
            clocks,
            troubles: Troubles::default(),
            calls: 0,
            faults_met: 0,
            is_dead: false,
            run: 0,
            files: Vec::new(),
            dirs: BTreeMap::new(),
            recipes: BTreeMap::new(),
            open: BTreeSet::new(),
            room: None,
            ballast: 4096,
            breaches: Vec::new(),
        }
    }

    pub fn begin_run(&mut self, troubles: Troubles) {
        self.troubles = troubles;
        self.calls = 0;
        self.faults_met = 0;
        self.is_dead = false;
        self.run += 1;
        self.open.clear();
        if self.room.is_none() {
            self.ballast = 4096;
        }
    }

    /// What a call meets: nothing, a fault, or the end. True if the call still has its effect.
    pub fn meet(&mut self, device: Device, writes: bool) -> Met {
        let call = self.calls;
        self.calls += 1;
        if self.is_dead {
            return Met::Dead { has_effect: false };
        }
        if let Some(cut) = self.troubles.cut.filter(|cut| cut.at <= call) {
            self.is_dead = true;
            return Met::Dead {
                has_effect: cut.has_effect,
            };
        }
        let spell = self.troubles.spells.iter().find(|spell| {
            let is_meant = writes || spell.fault == Fault::Error;
            is_meant && spell.device == device && (spell.from..spell.to).contains(&call)
        });
        match spell {
            Some(spell) => {
                self.faults_met += 1;
                Met::Fault(spell.fault)
            }
            None => Met::Nothing,
        }
    }

    pub fn dir(&mut self, device: Device, name: &str) -> &mut Dir {
        self.dirs
            .entry((device == Device::Spare, name.to_owned()))
            .or_default()
    }

    pub fn create(&mut self, device: Device, dir: &str, name: &str) -> usize {
        let id = self.files.len();
        self.files.push(File {
            run: self.run,
            ..File::default()
        });
        self.dir(device, dir).live.insert(name.to_owned(), id);
        self.open.insert(id);
        id
    }

    /// How many of so many bytes still fit.
    pub fn fits(&self, device: Device, bytes: usize) -> usize {
        match (device, self.room) {
            (Device::Home, Some(room)) => bytes.min(room),
            (Device::Home | Device::Spare, _) => bytes,
        }
    }

    pub fn write(&mut self, device: Device, id: usize, bytes: &[u8]) {
        self.check_file(id, "written");
        if device == Device::Home
            && let Some(room) = self.room.as_mut()
        {
            *room = room.saturating_sub(bytes.len());
        }
        self.files[id].live.extend_from_slice(bytes);
    }

    pub fn flush(&mut self, id: usize) {
        self.check_file(id, "flushed");
        let file = &mut self.files[id];
        if !file.lost {
            // Where a failed flush lost something there is a hole.
            file.durable.resize(file.unflushed_from, 0);
            let fresh = file.live.get(file.unflushed_from..).unwrap_or_default().to_vec();
            file.durable.extend_from_slice(&fresh);
        }
        file.unflushed_from = file.live.len();
        file.lost = false;
        let slow = self.troubles.slow_once_in;
        if slow > 0 && self.chance.once_in(slow) {
            let ms = self.chance.within(500, 60_000);
            self.clocks.pass(ms);
            if self.chance.once_in(8) {
                // A sleep shorter than the keeper takes note of counts as awake, there as here.
                let ms = self.chance.within(5_000, 3_600_000);
                self.clocks.suspend(ms);
            }
        }
    }

    /// The bytes stay readable and count as flushed, and never arrive.
    pub fn fail_flush(&mut self, id: usize) {
        self.check_file(id, "flushed");
        self.files[id].has_erred = true;
        self.files[id].lost = true;
    }

    pub fn fail_write(&mut self, device: Device, id: usize, bytes: &[u8]) {
        self.write(device, id, &bytes[..bytes.len() / 2]);
        self.files[id].has_erred = true;
    }

    pub fn check_file(&mut self, id: usize, deed: &str) {
        if self.files[id].run != self.run {
            self.breaches.push(format!("a file of an earlier run was {deed}"));
        }
        if self.files[id].has_erred {
            self.breaches
                .push(format!("a file was {deed} after an error on it"));
        }
    }

    /// The power goes: what a new start finds.
    pub fn cut_power(&mut self) {
        let mut torn: BTreeMap<usize, Vec<u8>> = BTreeMap::new();
        for (id, file) in self.files.iter().enumerate() {
            let fresh = file.live.get(file.unflushed_from..).unwrap_or_default();
            let mut bytes = file.durable.clone();
            if !file.lost && !fresh.is_empty() {
                bytes.resize(file.unflushed_from, 0);
                tear(&mut self.chance, &mut bytes, fresh);
            }
            torn.insert(id, bytes);
        }
        for (id, bytes) in torn {
            let file = &mut self.files[id];
            file.unflushed_from = bytes.len();
            file.live.clone_from(&bytes);
            file.durable = bytes;
            file.lost = false;
        }
        for dir in self.dirs.values_mut() {
            let names: BTreeSet<String> = dir.live.keys().chain(dir.durable.keys()).cloned().collect();
            for name in names {
                let (live, durable) = (dir.live.get(&name).copied(), dir.durable.get(&name).copied());
                let kept = if live == durable || self.chance.once_in(2) {
                    live
                } else {
                    durable
                };
                match kept {
                    Some(id) => dir.live.insert(name, id),
                    None => dir.live.remove(&name),
                };
            }
            dir.durable = dir.live.clone();
        }
    }

    pub fn flush_dir(&mut self, device: Device, name: &str) {
        let dir = self.dir(device, name);
        dir.durable = dir.live.clone();
    }

    /// Damages a file of which another one holds every byte. False if there is none.
    pub fn rot(&mut self) -> bool {
        let dirs: Vec<&Dir> = self.dirs.values().collect();
        if dirs.is_empty() {
            return false;
        }
        let dir = dirs[self.chance.below(dirs.len())];
        let ids: Vec<usize> = dir.live.values().copied().collect();
        if ids.len() < 2 {
            return false;
        }
        let id = ids[self.chance.below(ids.len())];
        let bytes = &self.files[id].durable;
        // A copy under a name that may still vanish is none.
        let is_copied = dir.durable.values().any(|other| {
            *other != id
                && self.files[*other].durable.len() > bytes.len()
                && self.files[*other].durable.starts_with(bytes)
        });
        if !is_copied || bytes.is_empty() {
            return false;
        }
        let at = self.chance.below(bytes.len());
        let length = 1 + self.chance.below(600).min(bytes.len() - at - 1);
        let zeros = self.chance.once_in(2);
        let file = &mut self.files[id];
        for byte in &mut file.durable[at..at + length] {
            *byte = if zeros { 0 } else { *byte ^ 0x15 };
        }
        file.live.clone_from(&file.durable);
        file.unflushed_from = file.live.len();
        true
    }

    /// A file that was there all along.
    pub fn settle(&mut self, device: Device, dir: &str, id: usize) {
        let file = &mut self.files[id];
        file.run = 0;
        file.durable.clone_from(&file.live);
        file.unflushed_from = file.live.len();
        let dir = self.dir(device, dir);
        let names: Vec<String> = dir
            .live
            .iter()
            .filter(|(_, there)| **there == id)
            .map(|(name, _)| name.clone())
            .collect();
        dir.durable.extend(names.into_iter().map(|name| (name, id)));
    }

    pub fn bytes_of(&self, id: usize) -> Vec<u8> {
        self.files[id].live.clone()
    }

    pub fn garble(&mut self, id: usize) {
        let file = &mut self.files[id];
        if let Some(byte) = file.live.last_mut() {
            *byte ^= 0x40;
        }
    }
}

#[derive(Debug, Clone, Copy)]
pub enum Met {
    Nothing,
    Fault(Fault),
    Dead { has_effect: bool },
}

/// What arrived of the bytes that weren't flushed.
fn tear(chance: &mut Chance, bytes: &mut Vec<u8>, fresh: &[u8]) {
    let some = chance.below(fresh.len() + 1);
    match chance.below(7) {
        0 => {}
        6 => {
            let ends = fresh.iter().enumerate().filter(|(_, byte)| **byte == b'\n');
            let ends: Vec<usize> = ends.map(|(at, _)| at + 1).collect();
            let end = if ends.is_empty() {
                some
            } else {
                ends[chance.below(ends.len())]
            };
            bytes.extend_from_slice(&fresh[..end]);
        }
        1 => bytes.extend_from_slice(fresh),
        2 | 3 => bytes.extend_from_slice(&fresh[..some]),
        4 => {
            bytes.extend_from_slice(&fresh[..some]);
            bytes.resize(bytes.len() + fresh.len() - some, 0);
        }
        _ => {
            bytes.extend_from_slice(&fresh[..some]);
            for _ in some..fresh.len() {
                bytes.push(chance.next() as u8);
            }
        }
    }
}
