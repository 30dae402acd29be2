//! One session: several runs of the keeper with cuts, kills and faults between and within them, and every promise
//! checked after each move.

use std::cell::RefCell;
use std::collections::BTreeSet;
use std::rc::Rc;

use potside::craft::time::Stretch;
use potside::journal::id::{ActId, BathId};
use potside::journal::record::BathRecord;
use potside::journal::recover::recover;
use potside::journal::seal::{list_pages, write_page};
use potside::journal::wire::events_of;
use potside::keeper::{Keeper, Said, State, Wake, Watch};
use potside::machine::{Ask, Event, Input, Machine, PotNo, ReturnAnswer, What};

use super::chance::Chance;
use super::clocks::{Clocks, SimClock};
use super::disk::{Cut, Device, Disks, Fault, Spell, Troubles};
use super::dyer::{Move, next_move, plan};
use super::flaw::Flaw;
use super::ledger::{Ledger, Woken};
use super::store::{DAYBOOK, Shared, SimFolder, SimStore};

/// What sessions went through.
#[derive(Debug, Clone, Copy, Default)]
pub struct Tally {
    pub sessions: u64,
    pub runs: u64,
    pub moves: u64,
    pub acts: u64,
    pub calls: u64,
    pub cuts: u64,
    pub kills: u64,
    pub faults: u64,
    pub not_saving: u64,
    pub in_spare: u64,
    pub outages: u64,
    /// Over a start of the machine, with a longest time known by two clocks that a server had set.
    pub bounded: u64,
    pub sealed: u64,
}

impl Tally {
    pub fn add(&mut self, other: &Self) {
        self.sessions += other.sessions;
        self.runs += other.runs;
        self.moves += other.moves;
        self.acts += other.acts;
        self.calls += other.calls;
        self.cuts += other.cuts;
        self.kills += other.kills;
        self.faults += other.faults;
        self.not_saving += other.not_saving;
        self.in_spare += other.in_spare;
        self.outages += other.outages;
        self.bounded += other.bounded;
        self.sealed += other.sealed;
    }
}

/// Runs the session of a seed. One in sixteen is calm and runs twice, the second time with other wall clocks.
pub fn run(seed: u64, flaw: Flaw) -> Result<Tally, String> {
    run_and_trace(seed, flaw, false)
}

/// The same, printing each move.
pub fn run_and_trace(seed: u64, flaw: Flaw, traces: bool) -> Result<Tally, String> {
    let is_calm = seed.is_multiple_of(16);
    let mut session = Session::new(seed, flaw, is_calm, true, traces);
    session.run().map_err(|why| format!("seed {seed}: {why}"))?;
    if is_calm {
        let mut other = Session::new(seed, flaw, is_calm, false, false);
        other.run().map_err(|why| format!("seed {seed}: {why}"))?;
        if session.without_walls() != other.without_walls() {
            return Err(format!("seed {seed}: the wall clock changed more than labels"));
        }
    }
    Ok(session.tally)
}

/// An act that was handed over, to be handed over again.
#[derive(Debug, Clone)]
struct Sent {
    wake: Wake,
    pot: PotNo,
    bath: String,
    facts: usize,
}

struct Session {
    chance: Chance,
    clocks: Clocks,
    disks: Shared,
    ledger: Ledger,
    flaw: Flaw,
    is_calm: bool,
    steps_wall: bool,
    traces: bool,
    has_spare: bool,
    pots: u8,
    sent: Vec<Sent>,
    taps: u64,
    baths: u64,
    slept_ms: u64,
    owes_return: bool,
    must_seal: BTreeSet<String>,
    /// Baths whose name a page of something else has.
    planted: BTreeSet<String>,
    tally: Tally,
}

enum End {
    Power,
    Program,
}

impl Session {
    fn new(seed: u64, flaw: Flaw, is_calm: bool, steps_wall: bool, traces: bool) -> Self {
        let mut chance = Chance::new(seed);
        // Before, at or after the first look of a program; calm sessions are compared under other wall clocks.
        let served_after_ms = [None, Some(20_000), Some(100_000)];
        let clocks = Clocks::served(if is_calm {
            None
        } else {
            served_after_ms[(seed % 3) as usize]
        });
        let disks = Disks::new(Chance::new(seed ^ 0x00C0_FFEE), clocks.clone());
        let pots = *chance.pick(&[1, 1, 1, 2, 2, 3, 4, 6]);
        Self {
            has_spare: chance.once_in(2),
            chance,
            clocks,
            disks: Rc::new(RefCell::new(disks)),
            ledger: Ledger::default(),
            flaw,
            is_calm,
            steps_wall,
            traces,
            pots,
            sent: Vec::new(),
            taps: 0,
            baths: 0,
            slept_ms: 0,
            owes_return: false,
            must_seal: BTreeSet::new(),
            planted: BTreeSet::new(),
            tally: Tally {
                sessions: 1,
                ..Tally::default()
            },
        }
    }

    fn run(&mut self) -> Result<(), String> {
        let runs = 1 + self.chance.below(4);
        for _ in 0..runs {
            let troubles = self.troubles();
            let end = self.one_run(troubles, false)?;
            self.between(end)?;
        }
        self.disks.borrow_mut().room = None;
        self.one_run(Troubles::default(), true)?;
        self.disks.borrow_mut().cut_power();
        self.tally.bounded = self.ledger.bounded;
        self.check_disk()?;
        self.check_daybook()
    }

    /// What goes wrong in the next run.
    fn troubles(&mut self) -> Troubles {
        if self.is_calm {
            return Troubles::default();
        }
        let chance = &mut self.chance;
        let mut troubles = Troubles::default();
        if chance.once_in(2) {
            let reach = *chance.pick(&[12, 40, 150, 400]);
            troubles.cut = Some(Cut {
                at: chance.below(reach),
                has_effect: chance.once_in(2),
            });
        }
        for _ in 0..chance.below(3) {
            let from = chance.below(250);
            let length = *chance.pick(&[1, 1, 1, 2, 5, 30, 1_000]);
            troubles.spells.push(Spell {
                device: *chance.pick(&[Device::Home, Device::Home, Device::Spare]),
                from,
                to: from + length,
                fault: *chance.pick(&[Fault::Error, Fault::Full, Fault::ReadOnly]),
            });
        }
        if chance.once_in(6) {
            troubles.slow_once_in = chance.below(40);
        }
        if chance.once_in(4) {
            troubles.garbles_once_in = 1 + chance.below(3);
        }
        if chance.once_in(6) {
            self.disks.borrow_mut().room = Some(chance.below(60_000));
        } else if chance.once_in(2) {
            self.disks.borrow_mut().room = None;
        }
        troubles
    }

    fn trace(&self, line: impl FnOnce() -> String) {
        if self.traces {
            eprintln!("{}", line());
        }
    }

    fn one_run(&mut self, troubles: Troubles, is_last: bool) -> Result<End, String> {
        self.trace(|| format!("run with {troubles:?}"));
        self.tally.runs += 1;
        self.disks.borrow_mut().begin_run(troubles);
        let folder = SimFolder {
            disks: Rc::clone(&self.disks),
            flaw: self.flaw,
            has_spare: self.has_spare,
            begun: BTreeSet::new(),
        };
        let (boot, wall) = (self.clocks.times().boot, self.clocks.times().wall);
        // As long as the id of a start that Linux tells.
        let boot = format!("{boot:08}-1111-4222-8333-444444444444");
        let opened = Keeper::open_by(folder, Some(&boot), wall);
        self.check_breaches()?;
        if self.disks.borrow().is_dead {
            self.trace(|| "  the power goes while it opens".to_owned());
            return Ok(End::Power);
        }
        let (keeper, stretch) = match opened {
            Ok(opened) => opened,
            Err(fault) if self.disks.borrow().faults_met > 0 => {
                self.trace(|| format!("  doesn't open: {fault}"));
                return Ok(End::Program);
            }
            Err(fault) => return Err(format!("doesn't open although nothing is wrong: {fault}")),
        };
        self.check_taken_up(&keeper)?;
        // A place that can't be listed may hide that a bath was begun; the program hands no beginning over to a later run.
        self.sent.retain(|sent| !matches!(sent.wake, Wake::Begin { .. }));
        let times = self.clocks.times();
        self.ledger.stretch = stretch.0;
        self.slept_ms = times.slept_ms;
        self.owes_return = false;
        let clock = SimClock {
            clocks: self.clocks.clone(),
            stretch,
            flaw: self.flaw,
        };
        let mut heard = Vec::new();
        let is_dead = || self.disks.borrow().is_dead;
        let watch = Watch::begin(keeper, &clock, &mut |said| hear(said, &mut heard, is_dead()));
        let mut watch = watch;
        self.hear_all(heard, None, times)?;
        let end = self.moves(&mut watch, &clock, is_last);
        let disks = self.disks.borrow();
        self.tally.calls += disks.calls as u64;
        self.tally.faults += disks.faults_met as u64;
        end
    }

    fn moves(
        &mut self,
        watch: &mut Watch<SimFolder>,
        clock: &SimClock,
        is_last: bool,
    ) -> Result<End, String> {
        let count = 4 + self.chance.below(36);
        for _ in 0..count {
            if self.disks.borrow().is_dead {
                return Ok(self.died());
            }
            self.tally.moves += 1;
            let next = next_move(
                &mut self.chance,
                watch.keeper().machine(),
                self.pots,
                self.is_calm || is_last,
            );
            self.trace(|| format!("  {next:?}"));
            match next {
                Move::Ask(input) => self.tap(watch, clock, input)?,
                Move::Begin(pot) => self.begin(watch, clock, pot)?,
                Move::Again => self.again(watch, clock)?,
                Move::Pass(ms) => self.pass(watch, clock, ms)?,
                Move::Suspend(ms) => {
                    self.clocks.suspend(ms);
                    self.wake(watch, clock, None, None)?;
                }
                Move::Stall(ms) => {
                    self.clocks.idle(ms);
                    self.owes_return = true;
                    self.wake(watch, clock, None, None)?;
                }
                Move::StepWall(ms) if self.steps_wall => self.clocks.step_wall(ms),
                Move::StepWall(_) => {}
                Move::Quit => {
                    self.wake(watch, clock, Some(Wake::Quit), None)?;
                    return Ok(End::Program);
                }
                Move::Kill => {
                    self.tally.kills += 1;
                    return Ok(End::Program);
                }
                Move::Cut => {
                    self.tally.cuts += 1;
                    return Ok(End::Power);
                }
            }
        }
        if is_last {
            self.finish(watch, clock)?;
        }
        Ok(if self.disks.borrow().is_dead {
            self.died()
        } else {
            End::Program
        })
    }

    /// The power went within a call, or somebody killed the program there.
    fn died(&mut self) -> End {
        if self.chance.once_in(4) {
            self.tally.kills += 1;
            End::Program
        } else {
            self.tally.cuts += 1;
            End::Power
        }
    }

    /// Every bath is stopped, and what waits to be sealed gets its minute.
    fn finish(&mut self, watch: &mut Watch<SimFolder>, clock: &SimClock) -> Result<(), String> {
        for pot in 1..=self.pots {
            let pot = PotNo(pot);
            let is_going = |machine: &Machine| machine.pot(pot).is_some_and(|run| run.stand.ended.is_none());
            if is_going(watch.keeper().machine()) {
                self.tap(watch, clock, Input::Pot(pot, Ask::Stop))?;
            }
        }
        self.pass(watch, clock, 130_000)
    }

    fn act(&mut self) -> Option<ActId> {
        self.taps += 1;
        let tap = match self.flaw {
            Flaw::TwoTapsOneAct => self.taps / 2,
            _ => self.taps,
        };
        ActId::from_text(&format!("t{tap}")).ok()
    }

    fn tap(&mut self, watch: &mut Watch<SimFolder>, clock: &SimClock, input: Input) -> Result<(), String> {
        if let Input::Pot(pot, Ask::Stop) = input
            && let Some(run) = watch.keeper().machine().pot(pot)
        {
            self.plant_a_page(&run.bath_id);
        }
        let act = self.act();
        let wake = Wake::Ask {
            act,
            input: input.clone(),
        };
        self.send(watch, clock, wake, &input)
    }

    fn begin(&mut self, watch: &mut Watch<SimFolder>, clock: &SimClock, pot: PotNo) -> Result<(), String> {
        self.baths += 1;
        let bath_id = format!("bath-{:03}-p{}", self.baths, pot.0);
        let input = Input::Begin {
            pot,
            bath_id: bath_id.clone(),
            plan: plan(&mut self.chance),
            cautions_read: true,
        };
        let wake = Wake::Begin {
            act: self.act(),
            input: input.clone(),
            bath_id,
            recipe_toml: "name = \"test\"\n".to_owned(),
            sheet_json: "{}".to_owned(),
        };
        self.send(watch, clock, wake, &input)
    }

    /// Sometimes the daybook has a page of that name already, whole and of something else.
    fn plant_a_page(&mut self, bath_id: &str) {
        if self.is_calm || !self.chance.once_in(12) {
            return;
        }
        let bath = BathId::from_text(bath_id).expect("our ids are ids");
        let content = serde_json::json!({"format": 1, "bath": "another"});
        self.planted.insert(bath_id.to_owned());
        let mut disks = self.disks.borrow_mut();
        let id = disks.create(Device::Home, DAYBOOK, &format!("{bath}.json"));
        disks.files[id].live = write_page(&bath, &content);
        disks.open.remove(&id);
        disks.settle(Device::Home, DAYBOOK, id);
    }

    /// Hands over an act that was not handed over before: it is refused, or it leaves a fact.
    fn send(
        &mut self,
        watch: &mut Watch<SimFolder>,
        clock: &SimClock,
        wake: Wake,
        input: &Input,
    ) -> Result<(), String> {
        self.tally.acts += 1;
        let (Input::Pot(pot, _) | Input::Begin { pot, .. }) = input else {
            return Ok(());
        };
        let before = self.hand_facts(watch.keeper().machine(), *pot);
        let refused = self.wake(watch, clock, Some(wake.clone()), Some(input))?;
        let after = self.hand_facts(watch.keeper().machine(), *pot);
        if !refused && before == after {
            return Err(format!("an act was taken and left no fact: {}", told(input)));
        }
        if let Some(run) = watch.keeper().machine().pot(*pot)
            && !refused
        {
            self.sent.push(Sent {
                wake,
                pot: *pot,
                bath: run.bath_id.clone(),
                facts: run.log.len(),
            });
            if self.sent.len() > 4 {
                self.sent.remove(0);
            }
        }
        Ok(())
    }

    /// Hands over an act once more: if it is in the record nothing changes.
    fn again(&mut self, watch: &mut Watch<SimFolder>, clock: &SimClock) -> Result<(), String> {
        if self.sent.is_empty() {
            return Ok(());
        }
        let sent = self.chance.pick(&self.sent).clone();
        let (Wake::Ask { input, .. } | Wake::Begin { input, .. }) = &sent.wake else {
            return Ok(());
        };
        let before = self.hand_facts(watch.keeper().machine(), sent.pot);
        self.trace(|| format!("    {}", told(input)));
        self.wake(watch, clock, Some(sent.wake.clone()), Some(input))?;
        let is_same_bath = before.0 == sent.bath;
        if is_same_bath && self.hand_facts(watch.keeper().machine(), sent.pot) != before {
            return Err(format!("an act was taken twice: {}", told(input)));
        }
        Ok(())
    }

    fn hand_facts(&self, machine: &Machine, pot: PotNo) -> (String, usize) {
        machine.pot(pot).map_or_else(Default::default, |run| {
            let by_hand = run.log.iter().filter(|event| event.what.is_by_hand());
            (run.bath_id.clone(), by_hand.count())
        })
    }

    /// Time passes; the keeper wakes at every deadline and at least four times a minute.
    fn pass(&mut self, watch: &mut Watch<SimFolder>, clock: &SimClock, ms: u64) -> Result<(), String> {
        const STEP_MS: u64 = 15_000;
        let mut left = ms;
        while left > 0 && !self.disks.borrow().is_dead {
            let sleep = watch.sleep().ms();
            let step = if sleep < 1_000 { sleep } else { STEP_MS.max(sleep) }.min(left);
            let step = self.until_deadline(watch, step).max(1);
            self.clocks.pass(step);
            left = left.saturating_sub(step);
            self.wake(watch, clock, None, None)?;
        }
        Ok(())
    }

    fn until_deadline(&self, watch: &Watch<SimFolder>, step: u64) -> u64 {
        let times = self.clocks.times();
        let now = potside::craft::time::Moment {
            stretch: Stretch(self.ledger.stretch),
            steady_ms: times.steady_ms,
            wall_ms: times.wall_ms,
        };
        let due = watch.keeper().machine().next_deadline(now);
        due.map_or(step, |(at, _)| {
            step.min(at.steady_ms.saturating_sub(times.steady_ms).max(5))
        })
    }

    /// One wake. True if what was asked was refused.
    fn wake(
        &mut self,
        watch: &mut Watch<SimFolder>,
        clock: &SimClock,
        wake: Option<Wake>,
        input: Option<&Input>,
    ) -> Result<bool, String> {
        let times = self.clocks.times();
        let owes = self.owes_return || times.slept_ms - self.slept_ms >= 5_000;
        let going: Vec<(PotNo, String, usize)> = watch
            .keeper()
            .machine()
            .pots()
            .filter(|run| run.stand.ended.is_none())
            .map(|run| (run.pot, run.bath_id.clone(), run.log.len()))
            .collect();
        let mut heard = Vec::new();
        let disks = Rc::clone(&self.disks);
        watch.wake(wake, clock, &mut |said| {
            hear(said, &mut heard, disks.borrow().is_dead);
        });
        self.check_breaches()?;
        let after = self.clocks.times();
        self.owes_return = after.slept_ms - times.slept_ms >= 5_000;
        self.slept_ms = after.slept_ms;
        let refused = heard.iter().any(|(state, _)| state.refused.is_some());
        self.check_sealed(&heard)?;
        self.hear_all(heard, input, times)?;
        if owes {
            self.tally.outages += 1;
            for (pot, bath, facts) in going {
                let run = watch
                    .keeper()
                    .machine()
                    .pot(pot)
                    .filter(|run| run.bath_id == bath);
                let fresh = run.and_then(|run| run.log.get(facts..)).unwrap_or_default();
                let is_told = fresh
                    .iter()
                    .any(|event| matches!(event.what, What::Returned { .. }));
                if run.is_some() && !is_told {
                    return Err(format!("{bath}: the program was away and didn't say so"));
                }
            }
        }
        if self.flaw == Flaw::CreditsTheOutage {
            self.credit(watch, clock)?;
        }
        Ok(refused)
    }

    /// The planted fault: the return card answers itself.
    fn credit(&mut self, watch: &mut Watch<SimFolder>, clock: &SimClock) -> Result<(), String> {
        let asks = |machine: &Machine| {
            let mut open = machine.pots().filter(|run| run.outage.is_some());
            open.next().map(|run| run.pot)
        };
        let Some(pot) = asks(watch.keeper().machine()) else {
            return Ok(());
        };
        let input = Input::Pot(pot, Ask::AnswerReturn(ReturnAnswer::CountIt));
        let mut heard = Vec::new();
        watch.wake(Some(Wake::Ask { act: None, input }), clock, &mut |said| {
            hear(said, &mut heard, false);
        });
        self.hear_all(heard, None, self.clocks.times())
    }

    fn hear_all(
        &mut self,
        heard: Vec<(State, bool)>,
        input: Option<&Input>,
        at: super::clocks::Times,
    ) -> Result<(), String> {
        for (state, is_dead) in heard {
            self.tally.not_saving += u64::from(state.not_saving_since.is_some());
            self.tally.in_spare += u64::from(state.in_spare_since.is_some());
            for line in &state.troubles {
                self.trace(|| format!("    told: {line}"));
            }
            if state.troubles.len() > 32 {
                return Err("more lines of trouble than anyone reads".to_owned());
            }
            let disks = self.disks.borrow();
            if !is_dead && state.not_saving_since.is_some() && disks.faults_met == 0 && disks.ballast > 0 {
                return Err("not saving, and the ballast is still there".to_owned());
            }
            drop(disks);
            self.ledger.hear(&state, Woken { input, at, is_dead })?;
        }
        Ok(())
    }

    /// A bath that ended, and of which nobody says that it isn't sealed, has a whole page.
    fn check_sealed(&mut self, heard: &[(State, bool)]) -> Result<(), String> {
        let Some((state, false)) = heard.last() else {
            return Ok(());
        };
        let unsealed: Vec<&String> = heard
            .iter()
            .flat_map(|(state, _)| &state.troubles)
            .filter(|line| line.contains("sealed yet"))
            .collect();
        for run in state.machine.pots().filter(|run| run.stand.ended.is_some()) {
            let is_told = unsealed.iter().any(|line| line.contains(&run.bath_id));
            if is_told || !self.must_seal.insert(run.bath_id.clone()) {
                self.must_seal.insert(run.bath_id.clone());
                continue;
            }
            if !self.whole_pages().contains(&run.bath_id) {
                return Err(format!("{} was called sealed and isn't", run.bath_id));
            }
        }
        Ok(())
    }

    /// The baths that have a whole page, looked up past all faults.
    fn whole_pages(&self) -> BTreeSet<String> {
        let mut daybook = self.plain_store(Device::Home, DAYBOOK);
        let pages = self.undisturbed(|| list_pages(&mut daybook).unwrap_or_default());
        let whole = pages.into_iter().filter_map(|listed| listed.page.ok());
        let whole = whole.filter(|page| page.content.get("steps").is_some());
        whole.map(|page| page.bath.to_string()).collect()
    }

    fn plain_store(&self, device: Device, dir: &str) -> SimStore {
        SimStore::new(&self.disks, device, dir, Flaw::None)
    }

    /// Looks at the disk without being met by its faults.
    fn undisturbed<T>(&self, look: impl FnOnce() -> T) -> T {
        let (troubles, calls, is_dead) = {
            let mut disks = self.disks.borrow_mut();
            let troubles = std::mem::take(&mut disks.troubles);
            let kept = (troubles, disks.calls, disks.is_dead);
            disks.is_dead = false;
            kept
        };
        let seen = look();
        let mut disks = self.disks.borrow_mut();
        disks.troubles = troubles;
        disks.calls = calls;
        disks.is_dead = is_dead;
        seen
    }

    fn check_breaches(&self) -> Result<(), String> {
        match self.disks.borrow().breaches.first() {
            Some(breach) => Err(breach.clone()),
            None => Ok(()),
        }
    }

    /// The program is gone: what happens to the machine, and then what the disk holds.
    fn between(&mut self, end: End) -> Result<(), String> {
        match end {
            End::Power => {
                self.disks.borrow_mut().cut_power();
                let off = *self.chance.pick(&[0, 3_000, 600_000, 40_000_000]);
                let off_ms = off + self.chance.within(1, 90_000);
                let up_ms = self.chance.within(8_000, 60_000);
                let has_battery = self.chance.once_in(2);
                self.clocks.outage(off_ms, up_ms, has_battery);
            }
            End::Program => {
                let ms = self.chance.within(500, 4_000_000);
                self.clocks.idle(ms);
            }
        }
        if !self.is_calm && self.chance.once_in(3) {
            for _ in 0..4 {
                if self.disks.borrow_mut().rot() {
                    self.trace(|| "rot in a file that is copied elsewhere".to_owned());
                    break;
                }
            }
        }
        self.check_disk()
    }

    /// What every bath's files give, read past the keeper.
    fn check_disk(&mut self) -> Result<(), String> {
        let pages = self.whole_pages();
        let baths: Vec<String> = self.ledger.baths.keys().cloned().collect();
        let twice = self.chance.once_in(8);
        for bath in baths {
            let id = BathId::from_text(&bath).expect("our ids are ids");
            let mut places = vec![
                self.plain_store(Device::Home, &bath),
                self.plain_store(Device::Spare, &bath),
            ];
            let recovered = self.undisturbed(|| recover(&mut places, &id));
            if twice && self.undisturbed(|| recover(&mut places, &id)) != recovered {
                return Err(format!("{bath}: read back twice it differs"));
            }
            if let Some(doubt) = recovered.doubt() {
                return Err(format!("{bath}: in doubt without a cause: {doubt}"));
            }
            let events = events_of(&recovered).map_err(|fault| fault.to_string())?;
            let count = events.iter().filter(|event| event.what != What::Beat).count();
            self.trace(|| {
                let dirs = &self.disks.borrow().dirs;
                let names = [false, true].map(|is_spare| {
                    let dir = dirs.get(&(is_spare, bath.clone()));
                    let files = dir.into_iter().flat_map(|dir| &dir.live);
                    let bytes = |id: &usize| self.disks.borrow().files[*id].live.len();
                    files.map(|(_, id)| bytes(id)).collect::<Vec<_>>()
                });
                format!("    {bath}: {count} facts; bytes of its segments at home, spare: {names:?}")
            });
            // What was lost in a cut isn't a repeat when it is handed over again.
            self.sent.retain(|sent| sent.bath != bath || sent.facts <= count);
            let account = &self.ledger.baths[&bath];
            // What was sealed from memory is kept by its page.
            if account.has_ended() && pages.contains(&bath) && count < account.live.len() {
                continue;
            }
            self.ledger
                .read_back(&bath, events)
                .map_err(|why| format!("{bath}: {why}"))?;
        }
        Ok(())
    }

    fn check_taken_up(&mut self, keeper: &Keeper<SimFolder>) -> Result<(), String> {
        let machine = keeper.machine();
        for run in machine.pots() {
            self.ledger
                .taken_up(run)
                .map_err(|why| format!("{}: {why}", run.bath_id))?;
        }
        if self.disks.borrow().faults_met > 0 {
            return Ok(());
        }
        for (bath, account) in &self.ledger.baths {
            let is_going = !account.live.is_empty() && !account.has_ended() && !self.planted.contains(bath);
            let is_taken_up = machine.pots().any(|run| run.bath_id == *bath);
            let is_pot_taken = machine.pots().any(|run| run.pot.0 == account.pot);
            if is_going && !is_taken_up && !is_pot_taken {
                return Err(format!("{bath}: was going and isn't taken up"));
            }
        }
        Ok(())
    }

    /// At the end every bath that ended has its page, and the page says what happened.
    fn check_daybook(&mut self) -> Result<(), String> {
        let mut daybook = self.plain_store(Device::Home, DAYBOOK);
        let pages = self.undisturbed(|| list_pages(&mut daybook).unwrap_or_default());
        let baths = self.ledger.baths.iter();
        let planted = |content: &serde_json::Value| content.get("steps").is_none();
        for (bath, account) in baths.filter(|(_, account)| account.has_ended()) {
            let whole = pages.iter().filter_map(|listed| listed.page.as_ref().ok());
            let of_it: Vec<_> = whole.filter(|page| page.bath.as_str() == bath).collect();
            let mut machine = Machine::default();
            for event in &account.live {
                machine.apply(event);
            }
            let run = machine.pot(PotNo(account.pot)).ok_or("no such pot")?;
            let record = BathRecord::of(run);
            let record = match self.disks.borrow().recipes.get(bath) {
                Some(recipe) => record.with_recipe(recipe),
                None => record,
            };
            let wanted = serde_json::to_value(&record).map_err(|fault| fault.to_string())?;
            // A disk that refused may not have kept the recipe when the bath began; then the page is without it, though a
            // repeat of the beginning may have kept it since.
            let bare = BathRecord {
                recipe_toml: None,
                ..record
            };
            let bare = serde_json::to_value(&bare).map_err(|fault| fault.to_string())?;
            let was_refused = self.tally.faults > 0 || self.disks.borrow().faults_met > 0;
            let is_sealed = of_it
                .iter()
                .any(|page| page.content == wanted || (was_refused && page.content == bare));
            let is_taken = of_it.iter().any(|page| planted(&page.content));
            if !is_sealed && !is_taken {
                return Err(format!(
                    "{bath}: ended, and its page isn't there or says otherwise ({} pages)",
                    of_it.len()
                ));
            }
            self.tally.sealed += u64::from(is_sealed);
        }
        Ok(())
    }

    /// All that happened, without what the wall clock said.
    fn without_walls(&self) -> Vec<Event> {
        let all = self.ledger.baths.values().flat_map(|account| &account.live);
        all.cloned()
            .map(|mut event| {
                event.at.wall_ms = 0;
                if let What::Returned { at_most, .. } = &mut event.what {
                    *at_most = None;
                }
                event
            })
            .collect()
    }
}

/// An input in one line; a plan is long and never the point.
fn told(input: &Input) -> String {
    match input {
        Input::Begin { bath_id, .. } => format!("Begin {bath_id}"),
        other => format!("{other:?}"),
    }
}

fn hear(said: Said<'_>, heard: &mut Vec<(State, bool)>, is_dead: bool) {
    if let Said::State(state) = said {
        heard.push((*state, is_dead));
    }
}
