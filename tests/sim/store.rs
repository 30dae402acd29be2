//! The store and the folder that the keeper is handed, over the simulated disks. Some of the planted flaws live here.

use std::cell::RefCell;
use std::collections::BTreeSet;
use std::rc::Rc;

use potside::journal::id::BathId;
use potside::journal::line::{Link, Station, read_line, write_line};
use potside::journal::segment::take_apart;
use potside::journal::store::{Deed, Store, StoreFault};
use potside::keeper::{Folder, Listing};

use super::disk::{Device, Disks, Fault, Met};
use super::flaw::Flaw;

pub type Shared = Rc<RefCell<Disks>>;

#[derive(Debug, Clone)]
pub struct SimStore {
    pub disks: Shared,
    pub device: Device,
    pub dir: String,
    pub flaw: Flaw,
    /// The file that [`Flaw::ReusesTheOldSegment`] goes on in, under the name that was asked for.
    alias: Option<(String, String)>,
    /// What [`Flaw::CopiesOnlyTheEndToTheSpare`] pretends to have written.
    pretended: Vec<u8>,
    /// How many flushes [`Flaw::RetriesAFailedFlush`] has seen fail.
    failed: usize,
}

fn dead(deed: Deed, name: &str) -> StoreFault {
    StoreFault::Device {
        deed,
        name: name.to_owned(),
        detail: "no power".to_owned(),
    }
}

fn told(fault: Fault, deed: Deed, name: &str) -> StoreFault {
    let name = name.to_owned();
    match fault {
        Fault::Error => StoreFault::Device {
            deed,
            name,
            detail: "input/output error".to_owned(),
        },
        Fault::Full => StoreFault::Full { deed, name },
        Fault::ReadOnly => StoreFault::ReadOnly { deed, name },
    }
}

fn not_there(name: &str) -> StoreFault {
    StoreFault::NotThere {
        name: name.to_owned(),
    }
}

impl SimStore {
    pub fn new(disks: &Shared, device: Device, dir: &str, flaw: Flaw) -> Self {
        Self {
            disks: Rc::clone(disks),
            device,
            dir: dir.to_owned(),
            flaw,
            alias: None,
            pretended: Vec::new(),
            failed: 0,
        }
    }

    fn real_name(&self, name: &str) -> String {
        match &self.alias {
            Some((asked, real)) if asked == name => real.clone(),
            _ => name.to_owned(),
        }
    }

    fn id(&self, name: &str) -> Result<usize, StoreFault> {
        let name = self.real_name(name);
        let mut disks = self.disks.borrow_mut();
        let id = disks.dir(self.device, &self.dir).live.get(&name).copied();
        id.ok_or_else(|| not_there(&name))
    }

    /// A call that changes nothing, and whose fault leaves nothing behind.
    fn plain<T>(
        &self,
        deed: Deed,
        name: &str,
        work: impl FnOnce() -> Result<T, StoreFault>,
    ) -> Result<T, StoreFault> {
        let writes = !matches!(deed, Deed::List | Deed::Read);
        let met = self.disks.borrow_mut().meet(self.device, writes);
        match met {
            Met::Nothing => work(),
            Met::Fault(fault) => Err(told(fault, deed, name)),
            Met::Dead { has_effect } => {
                if has_effect {
                    drop(work());
                }
                Err(dead(deed, name))
            }
        }
    }

    fn bytes(&self, name: &str, bytes_max: usize) -> Result<Vec<u8>, StoreFault> {
        let id = self.id(name)?;
        let bytes = self.disks.borrow().bytes_of(id);
        if bytes.len() > bytes_max {
            return Err(StoreFault::TooLarge {
                name: name.to_owned(),
                bytes_max,
            });
        }
        Ok(bytes)
    }

    fn is_segment(name: &str) -> bool {
        name.starts_with("segment-")
    }
}

impl Store for SimStore {
    fn list(&mut self) -> Result<Vec<String>, StoreFault> {
        let names = || {
            let mut disks = self.disks.borrow_mut();
            Ok(disks.dir(self.device, &self.dir).live.keys().cloned().collect())
        };
        self.plain(Deed::List, "the folder", names)
    }

    fn read(&mut self, name: &str, bytes_max: usize) -> Result<Vec<u8>, StoreFault> {
        let bytes = self.plain(Deed::Read, name, || self.bytes(name, bytes_max))?;
        if !Self::is_segment(name) {
            return Ok(bytes);
        }
        match self.flaw {
            Flaw::RepairsWhileReading => {
                let broken = take_apart(&bytes).broken;
                if !broken.is_empty() {
                    let id = self.id(name)?;
                    self.disks.borrow_mut().check_file(id, "mended");
                }
                Ok(bytes)
            }
            Flaw::ForgetsActsOverARestart => Ok(rewritten(&bytes, |station| station.act = None, |_| true)),
            Flaw::CountsHalfAnAct => Ok(rewritten(&bytes, |station| station.left = 0, |_| true)),
            Flaw::TakingBackErases => Ok(rewritten(&bytes, |_| (), |what| what != "taken_back")),
            _ => Ok(bytes),
        }
    }

    fn read_back(&mut self, name: &str, bytes_max: usize) -> Result<Vec<u8>, StoreFault> {
        let bytes = self.plain(Deed::Read, name, || self.bytes(name, bytes_max));
        match self.flaw {
            Flaw::SealsOverAnother if !Self::is_segment(name) && !name.ends_with(".part") => {
                match self.id(&format!("{name}.part")) {
                    // While it is being put, its temporary name is there.
                    Ok(_) => bytes,
                    Err(_) => Err(not_there(name)),
                }
            }
            Flaw::SealsWithoutLooking if !Self::is_segment(name) && bytes.is_ok() => {
                Ok(self.pretended.clone())
            }
            Flaw::CopiesOnlyTheEndToTheSpare if Self::is_segment(name) && self.device == Device::Spare => {
                bytes.map(|_| self.pretended.clone())
            }
            Flaw::ReusesTheOldSegment if self.alias.is_some() => bytes.map(|_| self.pretended.clone()),
            _ => bytes,
        }
    }

    fn create_new(&mut self, name: &str) -> Result<(), StoreFault> {
        self.alias = None;
        if self.flaw == Flaw::ReusesTheOldSegment && Self::is_segment(name) {
            let mut disks = self.disks.borrow_mut();
            let dir = disks.dir(self.device, &self.dir);
            let last = dir.live.keys().rfind(|name| Self::is_segment(name)).cloned();
            if let Some(last) = last {
                let id = dir.live[&last];
                disks.open.insert(id);
                self.alias = Some((name.to_owned(), last));
                return Ok(());
            }
        }
        self.plain(Deed::Create, name, || {
            let mut disks = self.disks.borrow_mut();
            if disks.dir(self.device, &self.dir).live.contains_key(name) {
                return Err(StoreFault::AlreadyThere {
                    name: name.to_owned(),
                });
            }
            if disks.fits(self.device, 64) < 64 {
                return Err(told(Fault::Full, Deed::Create, name));
            }
            disks.create(self.device, &self.dir, name);
            Ok(())
        })
    }

    fn append(&mut self, name: &str, bytes: &[u8]) -> Result<(), StoreFault> {
        let id = self.id(name)?;
        let mut disks = self.disks.borrow_mut();
        if !disks.open.contains(&id) {
            return Err(StoreFault::NotOurs {
                name: name.to_owned(),
            });
        }
        self.pretended = bytes.to_vec();
        let whole = bytes;
        let bytes = match self.flaw {
            Flaw::CopiesOnlyTheEndToTheSpare if self.device == Device::Spare && Self::is_segment(name) => {
                let half = bytes.len() / 2;
                let line = bytes[half..].iter().position(|byte| *byte == b'\n');
                line.map_or(bytes, |line| &bytes[(half + line + 1).min(bytes.len())..])
            }
            _ => bytes,
        };
        let met = disks.meet(self.device, true);
        match met {
            Met::Fault(fault) if fault != Fault::ReadOnly => {
                if self.flaw == Flaw::WritesOnAfterAnError {
                    disks.fail_write(self.device, id, bytes);
                    disks.write(self.device, id, bytes);
                    return Ok(());
                }
                disks.fail_write(self.device, id, bytes);
                Err(told(fault, Deed::Append, name))
            }
            Met::Fault(fault) => Err(told(fault, Deed::Append, name)),
            Met::Dead { has_effect } => {
                if has_effect {
                    disks.write(self.device, id, bytes);
                }
                Err(dead(Deed::Append, name))
            }
            Met::Nothing => {
                let fitting = disks.fits(self.device, bytes.len());
                if fitting < bytes.len() {
                    disks.fail_write(self.device, id, &bytes[..fitting]);
                    return Err(told(Fault::Full, Deed::Append, name));
                }
                disks.write(self.device, id, bytes);
                let garbles = disks.troubles.garbles_once_in;
                if !Self::is_segment(name) && garbles > 0 && disks.chance.once_in(garbles) {
                    disks.faults_met += 1;
                    disks.garble(id);
                }
                debug_assert!(whole.len() >= bytes.len());
                Ok(())
            }
        }
    }

    fn flush(&mut self, name: &str) -> Result<(), StoreFault> {
        let id = self.id(name)?;
        let mut disks = self.disks.borrow_mut();
        if self.flaw == Flaw::AcknowledgesBeforeFlush {
            return Ok(());
        }
        match disks.meet(self.device, true) {
            Met::Nothing => {
                disks.flush(id);
                Ok(())
            }
            Met::Fault(fault) => {
                disks.fail_flush(id);
                if self.flaw == Flaw::RetriesAFailedFlush {
                    self.failed += 1;
                    disks.flush(id);
                    return Ok(());
                }
                Err(told(fault, Deed::Flush, name))
            }
            Met::Dead { has_effect } => {
                if has_effect {
                    disks.flush(id);
                }
                Err(dead(Deed::Flush, name))
            }
        }
    }

    fn flush_dir(&mut self) -> Result<(), StoreFault> {
        if self.flaw == Flaw::NeverFlushesTheFolder {
            return Ok(());
        }
        self.plain(Deed::FlushDir, "the folder", || {
            self.disks.borrow_mut().flush_dir(self.device, &self.dir);
            Ok(())
        })
    }

    fn close(&mut self, name: &str) {
        if let Ok(id) = self.id(name) {
            self.disks.borrow_mut().open.remove(&id);
        }
    }

    fn link_no_clobber(&mut self, from: &str, to: &str) -> Result<(), StoreFault> {
        let id = self.id(from)?;
        self.plain(Deed::Link, to, || {
            let mut disks = self.disks.borrow_mut();
            let dir = disks.dir(self.device, &self.dir);
            if dir.live.contains_key(to) {
                if self.flaw != Flaw::SealsOverAnother {
                    return Err(StoreFault::AlreadyThere { name: to.to_owned() });
                }
                dir.live.insert(to.to_owned(), id);
                disks
                    .breaches
                    .push("a name that was taken leads to another file".to_owned());
                return Ok(());
            }
            dir.live.insert(to.to_owned(), id);
            Ok(())
        })
    }

    fn make_read_only(&mut self, name: &str) -> Result<(), StoreFault> {
        self.plain(Deed::MakeReadOnly, name, || self.id(name).map(drop))
    }

    fn remove(&mut self, name: &str) -> Result<(), StoreFault> {
        self.plain(Deed::Remove, name, || {
            let mut disks = self.disks.borrow_mut();
            if !name.ends_with(".part") {
                disks.breaches.push(format!("{name} was removed"));
            }
            let gone = disks.dir(self.device, &self.dir).live.remove(name);
            gone.map(drop).ok_or_else(|| not_there(name))
        })
    }

    fn release_ballast(&mut self) -> Result<bool, StoreFault> {
        if self.device == Device::Spare || self.flaw == Flaw::KeepsTheBallast {
            return Ok(false);
        }
        self.plain(Deed::ReleaseBallast, "the ballast", || {
            let mut disks = self.disks.borrow_mut();
            let ballast = std::mem::take(&mut disks.ballast);
            if let Some(room) = disks.room.as_mut() {
                // Far more than a session writes: a ballast is 4 MiB.
                *room += ballast * 1024;
            }
            Ok(ballast > 0)
        })
    }
}

/// The lines of a segment with their stations changed and linked anew, as if they had been written so.
fn rewritten(bytes: &[u8], change: impl Fn(&mut Station), keep: impl Fn(&str) -> bool) -> Vec<u8> {
    let mut out = Vec::new();
    let mut link: Option<Link> = None;
    let mut n = 0;
    for line in bytes.split(|byte| *byte == b'\n') {
        let Ok(record) = read_line(line) else { break };
        if !keep(&record.entry.what) {
            continue;
        }
        n += 1;
        let mut station = Station {
            n,
            segment: record.segment,
            left: record.left,
            act: record.act.clone(),
            link: link.unwrap_or(record.link),
        };
        change(&mut station);
        let Ok(record) = write_line(&station, &record.entry) else {
            break;
        };
        link = Some(record.fingerprint());
        out.extend_from_slice(record.line().as_bytes());
        out.push(b'\n');
    }
    out
}

/// The data folder of the simulated kitchen.
#[derive(Debug)]
pub struct SimFolder {
    pub disks: Shared,
    pub flaw: Flaw,
    pub has_spare: bool,
    /// The baths that began in this run.
    pub begun: BTreeSet<BathId>,
}

pub const DAYBOOK: &str = "daybook";

impl Folder for SimFolder {
    type Store = SimStore;

    fn baths(&mut self) -> Result<Listing, StoreFault> {
        let met = self.disks.borrow_mut().meet(Device::Home, false);
        match met {
            Met::Nothing => {}
            Met::Fault(fault) => return Err(told(fault, Deed::List, "baths")),
            Met::Dead { .. } => return Err(dead(Deed::List, "baths")),
        }
        let forgets = self.flaw == Flaw::ForgetsTheSpareAtStart;
        let disks = self.disks.borrow();
        let dirs = disks.dirs.keys().filter(|(is_spare, _)| !(*is_spare && forgets));
        let mut baths: Vec<BathId> = dirs
            .filter(|(_, dir)| dir != DAYBOOK)
            .filter_map(|(_, dir)| BathId::from_text(dir).ok())
            .collect();
        baths.sort();
        baths.dedup();
        Ok(Listing {
            baths,
            troubles: Vec::new(),
        })
    }

    fn begin_bath(&mut self, bath: &BathId, recipe_toml: &[u8], _: &[u8]) -> Result<(), StoreFault> {
        let met = self.disks.borrow_mut().meet(Device::Home, true);
        match met {
            Met::Nothing => {}
            Met::Fault(fault) => return Err(told(fault, Deed::Create, "the bath's folder")),
            Met::Dead { .. } => return Err(dead(Deed::Create, "the bath's folder")),
        }
        let recipe = String::from_utf8_lossy(recipe_toml).into_owned();
        let mut disks = self.disks.borrow_mut();
        disks.dir(Device::Home, bath.as_str());
        disks.recipes.insert(bath.to_string(), recipe);
        self.begun.insert(bath.clone());
        Ok(())
    }

    fn places(&mut self, bath: &BathId) -> Vec<SimStore> {
        let mut places = vec![SimStore::new(&self.disks, Device::Home, bath.as_str(), self.flaw)];
        let forgets = self.flaw == Flaw::ForgetsTheSpareAtStart && !self.begun.contains(bath);
        if self.has_spare && !forgets {
            places.push(SimStore::new(
                &self.disks,
                Device::Spare,
                bath.as_str(),
                self.flaw,
            ));
        }
        places
    }

    fn daybook(&mut self) -> SimStore {
        SimStore::new(&self.disks, Device::Home, DAYBOOK, self.flaw)
    }

    fn recipe_of(&mut self, bath: &BathId) -> Option<String> {
        self.disks.borrow().recipes.get(bath.as_str()).cloned()
    }
}
