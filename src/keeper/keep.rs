//! What the keeper does with an input: judge, write, flush, apply, and only then let it be seen and heard.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::clock::Look;
use super::folder::Folder;
use super::sealing::Unsealed;
use crate::craft::time::{Moment, Stretch};
use crate::journal::id::{ActId, BathId};
use crate::journal::recover::recover;
use crate::journal::store::StoreFault;
use crate::journal::wire::entry_of;
use crate::journal::writer::{Keeping, Writer};
use crate::machine::away::{Boot, Stamp, WallClock, away};
use crate::machine::{Effect, Event, Input, Machine, PotNo, Refusal, rounds};
use crate::msg;
use crate::shelf::{ShelfAsk, ShelfDone, ShelfSeen};

/// Owns the machine, its journals and the folder they lie in.
#[derive(Debug)]
pub struct Keeper<F: Folder> {
    pub(super) folder: F,
    pub(super) machine: Machine,
    pub(super) journals: BTreeMap<PotNo, Journal<F::Store>>,
    /// Baths that have ended and aren't sealed yet.
    pub(super) unsealed: Vec<Unsealed<F::Store>>,
    /// Pots of which a fact couldn't be made a record, and since when. No disk causes this.
    unwritten: BTreeMap<PotNo, Moment>,
    /// An id of this start of the machine, if it has one.
    boot: Option<String>,
    /// How the wall clock is known now.
    wall: WallClock,
    pub(super) program: String,
    troubles: Vec<String>,
    /// The shelf as it was last seen.
    pub(super) shelf: Arc<ShelfSeen>,
}

/// The journal of one bath.
#[derive(Debug)]
pub(super) struct Journal<S> {
    pub(super) writer: Writer<S>,
    /// The name of the run that wrote its newest record before this one.
    pub(super) program_before: Option<String>,
}

/// What became of an input.
#[derive(Debug, Clone, PartialEq)]
pub enum Told {
    /// It was taken; these should be heard.
    Taken(Vec<Effect>),
    /// This very act is in the record already; nothing changed.
    Repeated,
    /// It was refused; nothing changed.
    Refused(Refusal),
}

/// So many lines of trouble are kept until they are told.
pub(super) const TROUBLES_MAX: usize = 32;

impl<F: Folder> Keeper<F> {
    /// Opens the folder, reads back every bath that isn't sealed, and takes it up where it stood. Returns the keeper
    /// and the stretch that this run of the program is. `boot` is an id of this start of the machine, if it has one;
    /// nobody vouches for the wall clock.
    pub fn open(folder: F, boot: Option<&str>) -> Result<(Self, Stretch), StoreFault> {
        Self::open_by(folder, boot, WallClock::NotKnown)
    }

    /// The same, by a wall clock that is known so.
    pub fn open_by(folder: F, boot: Option<&str>, wall: WallClock) -> Result<(Self, Stretch), StoreFault> {
        let mut keeper = Self {
            folder,
            machine: Machine::default(),
            journals: BTreeMap::new(),
            unsealed: Vec::new(),
            unwritten: BTreeMap::new(),
            boot: boot.map(str::to_owned),
            wall,
            program: program_name(boot, wall),
            troubles: Vec::new(),
            shelf: Arc::default(),
        };
        let stretch = keeper.take_up_all()?;
        keeper.follow_daybook();
        Ok((keeper, stretch))
    }

    /// The state.
    #[must_use]
    pub const fn machine(&self) -> &Machine {
        &self.machine
    }

    /// The shelf as it is kept.
    #[must_use]
    pub fn shelf(&self) -> Arc<ShelfSeen> {
        Arc::clone(&self.shelf)
    }

    /// Asks something of the shelf; it is on the disk before it is seen.
    ///
    /// # Errors
    /// One line on why it isn't done.
    pub fn ask_shelf(&mut self, asked: &ShelfAsk, now: Moment) -> Result<ShelfDone, String> {
        let (done, told) = self.folder.ask_shelf(asked, now)?;
        for line in told {
            self.trouble(line);
        }
        self.shelf = Arc::new(self.folder.shelf());
        Ok(done)
    }

    /// The folder.
    #[must_use]
    pub const fn folder(&self) -> &F {
        &self.folder
    }

    /// Since when something isn't being saved, if so.
    #[must_use]
    pub fn not_saving_since(&self) -> Option<Moment> {
        let in_memory = self.writers().filter_map(|writer| match writer.keeping() {
            Keeping::NotSaving { since, .. } => Some(*since),
            Keeping::Unopened | Keeping::Home | Keeping::Spare { .. } => None,
        });
        earliest(in_memory.chain(self.unwritten.values().copied()))
    }

    /// Since when something is being saved in a spare place because its home refused, if so.
    #[must_use]
    pub fn in_spare_since(&self) -> Option<Moment> {
        earliest(self.writers().filter_map(|writer| match writer.keeping() {
            Keeping::Spare { since, .. } => Some(*since),
            Keeping::Unopened | Keeping::Home | Keeping::NotSaving { .. } => None,
        }))
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
                self.folder
                    .begin_bath(&bath, recipe_toml.as_bytes(), sheet_json.as_bytes())
                    .map_err(|fault| fault.to_string())
            });
        if let Err(why) = prepared {
            self.trouble(msg!(
                "recipe and sheet aren't kept with the bath: {why}",
                why = why
            ));
        }
    }

    /// Judges an input; what it makes is on the disk before it is applied.
    ///
    /// `act` names a confirmed act. One that is in the record already changes nothing, whatever it asks for.
    pub fn take(&mut self, act: Option<&ActId>, input: &Input, now: Moment) -> Told {
        if act.is_some_and(|act| self.has_act(act, input)) {
            return Told::Repeated;
        }
        let events = match self.machine.judge(input, now) {
            Ok(events) => events,
            Err(refusal) => return Told::Refused(refusal),
        };
        if let Input::Begin { pot, bath_id, .. } = input
            && !self.open_journal(*pot, bath_id, act)
        {
            return Told::Repeated;
        }
        self.write(act, &events, now);
        let mut effects = Vec::new();
        for event in &events {
            self.machine.apply(event);
            effects.extend(self.machine.effects(event));
        }
        for effect in &effects {
            match effect {
                Effect::Seal(pot) => self.bath_ended(*pot),
                Effect::Ring(_, _) => {}
            }
        }
        Told::Taken(effects)
    }

    /// True if something waits to be tried again: a journal in memory alone, a record that isn't sealed.
    #[must_use]
    pub fn wants_retry(&self) -> bool {
        !self.unsealed.is_empty() || self.not_saving_since().is_some()
    }

    /// How the wall clock is known from now on. What is kept after a change says so, for an absence is measured by it.
    pub fn know_clock(&mut self, wall: WallClock) {
        if wall == self.wall {
            return;
        }
        self.wall = wall;
        self.program = program_name(self.boot.as_deref(), wall);
        for journal in self.journals.values_mut() {
            journal.writer.rename(&self.program);
        }
    }

    /// Tries again to get from memory to the disk, if it is time to, and to seal what has ended.
    pub fn retry(&mut self, now: Moment) {
        for journal in self.journals.values_mut() {
            journal.writer.retry(now);
        }
        self.seal_waiting(now);
    }

    /// The input that says the program is back, if any bath was going when it went. What it says is true of every
    /// such bath, though one may have been written to later than another, or lain unread in runs between.
    #[must_use]
    pub fn came_back(&self, look: Look) -> Option<Input> {
        let going = self.machine.pots().filter(|run| run.stand.ended.is_none());
        let away = going.map(|run| {
            let journal = self.journals.get(&run.pot);
            let program = journal.and_then(|journal| journal.program_before.as_deref());
            let before = Stamp {
                at: run.last_at,
                wall: wall_of(program),
            };
            let back = Stamp {
                at: look.now,
                wall: look.wall,
            };
            away(before, back, self.boot_of_record(program))
        });
        let (at_least, at_most) = away.reduce(|one, other| {
            let at_most = one.1.zip(other.1).map(|(one, other)| one.max(other));
            (one.0.min(other.0), at_most)
        })?;
        Some(Input::Returned { at_least, at_most })
    }

    /// Whether the boot that wrote the newest record is the one running now. Another version of the program may have
    /// written it.
    fn boot_of_record(&self, program: Option<&str>) -> Boot {
        match (program.and_then(boot_of), self.boot.as_deref()) {
            (Some(before), Some(this)) if before == this => Boot::Same,
            (Some(_), Some(_)) => Boot::Another,
            (Some(_), None) | (None, _) => Boot::NotKnown,
        }
    }

    /// Keeps a line to tell, unless too many wait already.
    pub(super) fn trouble(&mut self, line: String) {
        if self.troubles.len() < TROUBLES_MAX {
            self.troubles.push(line);
        }
    }

    fn writers(&self) -> impl Iterator<Item = &Writer<F::Store>> {
        let going = self.journals.values().map(|journal| &journal.writer);
        going.chain(self.unsealed.iter().map(|bath| &bath.writer))
    }

    fn has_act(&self, act: &ActId, input: &Input) -> bool {
        let kept = |pot: &PotNo| {
            let journal = self.journals.get(pot);
            journal.is_some_and(|journal| journal.writer.has_act(act))
        };
        match input {
            Input::Begin { pot, .. } | Input::Pot(pot, _) => kept(pot),
            // A cut may have kept it for some pots of the round and not for others, which then still call.
            Input::TurnRound => {
                let called = rounds::round(self.machine.pots());
                !called.is_empty() && called.iter().all(kept)
            }
            Input::Tick | Input::Beat | Input::Returned { .. } => false,
        }
    }

    /// Writes the facts of each pot to its journal.
    fn write(&mut self, act: Option<&ActId>, events: &[Event], now: Moment) {
        let mut by_pot: BTreeMap<PotNo, Vec<&Event>> = BTreeMap::new();
        for event in events {
            by_pot.entry(event.pot).or_default().push(event);
        }
        for (pot, events) in by_pot {
            if let Err(why) = self.write_pot(act, pot, &events, now) {
                self.unwritten.entry(pot).or_insert(now);
                self.trouble(msg!(
                    "pot {number}: not written: {why}",
                    number = pot.0,
                    why = why
                ));
            }
        }
    }

    /// The journal of a bath that begins. False if there is a bath of this id already: it isn't begun twice.
    fn open_journal(&mut self, pot: PotNo, bath_id: &str, act: Option<&ActId>) -> bool {
        if self.machine.pots().any(|run| run.bath_id == bath_id) {
            return false;
        }
        let Ok(bath) = BathId::from_text(bath_id) else {
            // Without a journal: the bath goes on, and every screen says that it isn't saved.
            self.journals.remove(&pot);
            return true;
        };
        let mut places = self.folder.places(&bath);
        let recovered = recover(&mut places, &bath);
        if recovered.segment_number_max > 0 {
            let is_repeat = recovered
                .records
                .iter()
                .any(|record| record.act.is_some() && record.act.as_ref() == act);
            if !is_repeat {
                self.trouble(msg!(
                    "there is a bath {bath} already; begin it once more",
                    bath = bath
                ));
            }
            return false;
        }
        let journal = Journal {
            writer: Writer::resume_in_doubt(&recovered, places, &self.program),
            program_before: None,
        };
        self.journals.insert(pot, journal);
        self.unwritten.remove(&pot);
        true
    }

    fn write_pot(
        &mut self,
        act: Option<&ActId>,
        pot: PotNo,
        events: &[&Event],
        now: Moment,
    ) -> Result<(), String> {
        let entries: Result<Vec<_>, _> = events.iter().map(|event| entry_of(event)).collect();
        let entries = entries.map_err(|fault| fault.to_string())?;
        let journal = self
            .journals
            .get_mut(&pot)
            .ok_or(msg!("the bath has no journal, since its id can't name one"))?;
        let receipt = journal.writer.append(act, &entries, now);
        receipt.map(drop).map_err(|fault| fault.to_string())
    }
}

fn earliest(moments: impl Iterator<Item = Moment>) -> Option<Moment> {
    moments.min_by_key(|at| (at.stretch, at.steady_ms))
}

const BOOT: &str = " boot ";
const SYNCHRONISED: &str = " clock synchronised";

/// The name under which a run writes: program, version, which boot of the machine it belongs to, and whether a time
/// server has set the wall clock.
fn program_name(boot: Option<&str>, wall: WallClock) -> String {
    let version = env!("CARGO_PKG_VERSION");
    let boot = boot.map_or_else(String::new, |boot| format!("{BOOT}{boot}"));
    let clock = match wall {
        WallClock::Synchronised => SYNCHRONISED,
        WallClock::NotKnown => "",
    };
    format!("potside {version}{boot}{clock}")
}

/// The boot in the name of a run.
fn boot_of(program: &str) -> Option<&str> {
    program.split_once(BOOT)?.1.split(' ').next()
}

/// How the wall clock was known to a run, by its name.
fn wall_of(program: Option<&str>) -> WallClock {
    if program.is_some_and(|program| program.ends_with(SYNCHRONISED)) {
        WallClock::Synchronised
    } else {
        WallClock::NotKnown
    }
}
