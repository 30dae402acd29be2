//! What the keeper does with an input: judge, write, flush, apply, and only then let it be seen and heard.

use std::collections::BTreeMap;

use crate::craft::time::{Moment, Stretch};
use crate::journal::id::BathId;
use crate::journal::record::BathRecord;
use crate::journal::recover::{Doubt, recover};
use crate::journal::seal::seal;
use crate::journal::wire::{entry_of, events_of};
use crate::journal::writer::{Keeping, SEGMENT_KIND, Writer};
use crate::machine::{Effect, Event, Input, Machine, PotNo, Refusal, What};
use crate::shell::clock;
use crate::shell::disk::DiskFault;
use crate::shell::disk::data_folder::DataFolder;
use crate::shell::disk::real_store::RealStore;
use crate::shell::shelf::settle::settle;

/// Owns the machine, its journals and the folder they lie in.
#[derive(Debug)]
pub struct Keeper {
    folder: DataFolder,
    machine: Machine,
    journals: BTreeMap<PotNo, Writer<RealStore>>,
    program: String,
    troubles: Vec<String>,
}

/// What became of an input.
#[derive(Debug, Clone, PartialEq)]
pub enum Told {
    /// It was taken; these should be heard.
    Taken(Vec<Effect>),
    /// It was refused; nothing changed.
    Refused(Refusal),
}

impl Keeper {
    /// Opens the folder, reads back every bath that isn't sealed, and takes it up where it stood. Returns the keeper and
    /// the stretch that this run of the program is.
    pub fn open(folder: DataFolder, boot: Option<&str>) -> Result<(Self, Stretch), DiskFault> {
        let program = program_name(boot);
        let mut keeper = Self {
            folder,
            machine: Machine::default(),
            journals: BTreeMap::new(),
            program,
            troubles: Vec::new(),
        };
        let mut stretch = Stretch(0);
        for bath in keeper.folder.baths()? {
            if !keeper.folder.has_page(&bath) {
                let last = keeper.take_up(&bath);
                stretch = last.map_or(stretch, |last| stretch.max(Stretch(last.0.saturating_add(1))));
            }
        }
        keeper.seal_ended();
        keeper.settle_shelf();
        Ok((keeper, stretch))
    }

    /// The state.
    #[must_use]
    pub const fn machine(&self) -> &Machine {
        &self.machine
    }

    /// The folder.
    #[must_use]
    pub const fn folder(&self) -> &DataFolder {
        &self.folder
    }

    /// Since when something isn't being saved, if so.
    #[must_use]
    pub fn not_saving_since(&self) -> Option<Moment> {
        self.journals
            .values()
            .find_map(|journal| match journal.keeping() {
                Keeping::NotSaving { since, .. } => Some(*since),
                Keeping::Unopened | Keeping::Home | Keeping::Spare { .. } => None,
            })
    }

    /// What a person should know of: damaged journals, records that couldn't be sealed. Told once.
    pub fn take_troubles(&mut self) -> Vec<String> {
        std::mem::take(&mut self.troubles)
    }

    /// Puts a new bath's recipe and sheet into its folder. The bath itself begins with [`Input::Begin`].
    pub fn prepare(&mut self, bath_id: &str, recipe_toml: &str, sheet_json: &str) {
        let prepared = BathId::from_text(bath_id)
            .map_err(|fault| fault.to_string())
            .and_then(|bath| {
                let done = self
                    .folder
                    .begin_bath(&bath, recipe_toml.as_bytes(), sheet_json.as_bytes());
                done.map_err(|fault| fault.to_string())
            });
        if let Err(why) = prepared {
            self.troubles
                .push(format!("the bath's folder couldn't be made: {why}"));
        }
    }

    /// Judges an input; what it makes is on the disk before it is applied.
    pub fn take(&mut self, input: &Input, now: Moment) -> Told {
        let events = match self.machine.judge(input, now) {
            Ok(events) => events,
            Err(refusal) => return Told::Refused(refusal),
        };
        self.write(&events, now);
        let mut effects = Vec::new();
        for event in &events {
            self.machine.apply(event);
            effects.extend(self.machine.effects(event));
        }
        for effect in &effects {
            match effect {
                Effect::Seal(pot) => self.seal(*pot),
                Effect::Ring(_, _) => {}
            }
        }
        Told::Taken(effects)
    }

    /// The moment that was recorded last over all pots, for the time the program was away.
    #[must_use]
    pub fn last_recorded(&self) -> Option<Moment> {
        let going = self.machine.pots().filter(|run| run.stand.ended.is_none());
        going
            .map(|run| run.last_at)
            .max_by_key(|at| (at.stretch, at.steady_ms))
    }

    /// Whether the boot that wrote the newest record is the one running now.
    #[must_use]
    pub fn is_same_boot(&self, last_program: Option<&str>) -> bool {
        last_program.is_some_and(|last| last == self.program && last.contains(BOOT))
    }

    /// Tries again to get from memory to the disk, if it is time to.
    pub fn retry(&mut self, now: Moment) {
        for journal in self.journals.values_mut() {
            journal.retry(now);
        }
    }

    /// Reads a bath back and plays its facts. Returns the stretch of its newest record.
    fn take_up(&mut self, bath: &BathId) -> Option<Stretch> {
        let store = self.folder.bath_store(bath);
        let mut places = vec![store];
        let recovered = recover(&mut places, bath);
        for damage in &recovered.damage {
            self.troubles
                .push(format!("{bath}: {}: {}", damage.file, damage.kind));
        }
        if let Some(doubt) = recovered.doubt() {
            self.troubles
                .push(format!("{bath}: {doubt}; check what was done"));
            // What can't be read now may be readable at the next start. To go on today would bury it.
            if matches!(doubt, Doubt::Unread(_)) {
                return None;
            }
        }
        let events = match events_of(&recovered) {
            Ok(events) => events,
            Err(fault) => {
                self.troubles.push(format!(
                    "{bath}: can't be taken up: {fault}; its files are left as they are"
                ));
                return None;
            }
        };
        let pot = events.first()?.pot;
        if self.machine.pot(pot).is_some_and(|run| run.stand.ended.is_none()) {
            self.troubles.push(format!(
                "{bath}: pot {} has another bath going; this one waits",
                pot.0
            ));
            return None;
        }
        for event in &events {
            self.machine.apply(event);
        }
        self.journals
            .insert(pot, Writer::resume_in_doubt(&recovered, places, &self.program));
        recovered
            .records
            .iter()
            .map(|record| record.entry.at.stretch)
            .max()
    }

    /// Writes the facts of each pot to its journal. A bath that begins gets a journal first.
    fn write(&mut self, events: &[Event], now: Moment) {
        for event in events {
            if let What::BathBegun { bath_id, .. } = &event.what
                && let Ok(bath) = BathId::from_text(bath_id)
            {
                let mut places = vec![self.folder.bath_store(&bath)];
                let recovered = recover(&mut places, &bath);
                self.journals.insert(
                    event.pot,
                    Writer::resume_in_doubt(&recovered, places, &self.program),
                );
            }
        }
        let mut by_pot: BTreeMap<PotNo, Vec<&Event>> = BTreeMap::new();
        for event in events {
            by_pot.entry(event.pot).or_default().push(event);
        }
        for (pot, events) in by_pot {
            let Some(journal) = self.journals.get_mut(&pot) else {
                continue;
            };
            let entries: Result<Vec<_>, _> = events.into_iter().map(entry_of).collect();
            let kept = entries.map_err(|fault| fault.to_string()).and_then(|entries| {
                journal
                    .append(None, &entries, now)
                    .map_err(|fault| fault.to_string())
            });
            if let Err(why) = kept {
                self.troubles.push(format!("pot {}: not written: {why}", pot.0));
            }
        }
    }

    fn seal(&mut self, pot: PotNo) {
        let Some(run) = self.machine.pot(pot) else { return };
        let record = BathRecord::of(run);
        let recipe = self.recipe_of(&run.bath_id);
        let record = if recipe.is_empty() {
            record
        } else {
            record.with_recipe(&recipe)
        };
        let sealed = BathId::from_text(&run.bath_id)
            .map_err(|fault| fault.to_string())
            .and_then(|bath| {
                let content = serde_json::to_value(&record).map_err(|fault| fault.to_string())?;
                seal(&mut self.folder.daybook_store(), &bath, &content).map_err(|fault| fault.to_string())
            });
        match sealed {
            Ok(_) => {
                self.journals.remove(&pot);
                self.settle_shelf();
            }
            Err(why) => self.troubles.push(format!("the record isn't sealed yet: {why}")),
        }
    }

    /// Puts down on the shelf whatever is sealed and isn't there yet. The record is on the disk before; a cut in between
    /// is made good at the next start.
    fn settle_shelf(&mut self) {
        match settle(&self.folder.small_files(), &mut self.folder.daybook_store()) {
            Ok(told) => self.troubles.extend(told),
            Err(why) => self.troubles.push(format!("the shelf isn't moved on yet: {why}")),
        }
    }

    /// The recipe as it was kept when the bath began; empty if it wasn't.
    fn recipe_of(&self, bath_id: &str) -> String {
        let bath = BathId::from_text(bath_id).ok();
        let bytes = bath.and_then(|bath| self.folder.bath_files(&bath).read("recipe.toml").ok().flatten());
        bytes
            .and_then(|bytes| String::from_utf8(bytes).ok())
            .unwrap_or_default()
    }

    /// Baths that had ended before the program went away are sealed now.
    fn seal_ended(&mut self) {
        let ended: Vec<PotNo> = self
            .machine
            .pots()
            .filter(|run| run.stand.ended.is_some())
            .map(|run| run.pot)
            .collect();
        for pot in ended {
            self.seal(pot);
        }
    }
}

const BOOT: &str = " boot ";

/// The name under which a run writes: program, version, and which boot of the machine it belongs to.
fn program_name(boot: Option<&str>) -> String {
    let version = env!("CARGO_PKG_VERSION");
    boot.map_or_else(
        || format!("potside {version}"),
        |boot| format!("potside {version}{BOOT}{boot}"),
    )
}

/// The name of the run that wrote the newest record of a bath.
#[must_use]
pub(super) fn last_program(folder: &DataFolder, bath: &BathId) -> Option<String> {
    let recovered = recover(&mut [folder.bath_store(bath)], bath);
    let opening = recovered
        .records
        .iter()
        .rev()
        .find(|record| record.entry.what == SEGMENT_KIND)?;
    opening.entry.body.get("program")?.as_str().map(str::to_owned)
}

impl Keeper {
    /// The input that says the program is back, if any bath was going when it went.
    #[must_use]
    pub fn came_back(&self, now: Moment) -> Option<Input> {
        let last = self.last_recorded()?;
        let run = self.machine.pots().find(|run| run.last_at == last)?;
        let bath = BathId::from_text(&run.bath_id).ok()?;
        let same_boot = self.is_same_boot(last_program(&self.folder, &bath).as_deref());
        let (at_least, at_most) = clock::away(last, now, same_boot);
        Some(Input::Returned { at_least, at_most })
    }
}
