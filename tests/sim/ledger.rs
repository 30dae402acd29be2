//! What has to hold, kept apart from the keeper: what each bath was shown as, what was shown as saved, and how much
//! time there was to be earned.

use std::collections::{BTreeMap, BTreeSet};

use potside::craft::time::Moment;
use potside::keeper::State;
use potside::machine::pot::Outage;
use potside::machine::{Event, Input, Machine, PotNo, PotRun, What, promise};

use super::clocks::Times;

/// One bath as it was shown.
#[derive(Debug, Clone, Default)]
pub struct Account {
    pub pot: u8,
    /// Every fact that was applied, beats left out.
    pub live: Vec<Event>,
    /// So many of them were shown as saved.
    pub saved: usize,
    /// Where acts end: no other number of facts may be read back.
    pub ends: BTreeSet<usize>,
    /// True time less steady time, for each stretch.
    offsets: BTreeMap<u32, i64>,
    /// What was read back last, beats included.
    kept: Vec<Event>,
    step: usize,
    last_at: Option<Moment>,
    /// The start of the machine in which it was last seen.
    boot: u32,
    outage: Option<Outage>,
    /// How much awake time there had been when a step was first reached.
    arrived_ms: BTreeMap<usize, u64>,
    /// What the dyer gave a hold for a time away.
    credit_ms: BTreeMap<usize, u64>,
}

impl Account {
    pub fn has_ended(&self) -> bool {
        let last = self.live.last().map(|event| &event.what);
        matches!(last, Some(What::BathClosed | What::BathStopped))
    }
}

#[derive(Debug, Default)]
pub struct Ledger {
    pub baths: BTreeMap<String, Account>,
    /// The stretch of this run.
    pub stretch: u32,
    /// Absences over a start of the machine of which the longest they can have been was known.
    pub bounded: u64,
}

/// What the keeper was woken with.
#[derive(Debug, Clone, Copy)]
pub struct Woken<'a> {
    pub input: Option<&'a Input>,
    pub at: Times,
    pub is_dead: bool,
}

impl Woken<'_> {
    fn pot(&self) -> Option<PotNo> {
        match self.input {
            Some(Input::Begin { pot, .. } | Input::Pot(pot, _)) => Some(*pot),
            _ => None,
        }
    }
}

impl Ledger {
    /// A state was told.
    pub fn hear(&mut self, state: &State, woken: Woken<'_>) -> Result<(), String> {
        for run in state.machine.pots() {
            self.check_run(run, state, woken)
                .map_err(|why| format!("{}: {why}", run.bath_id))?;
            let account = self.baths.entry(run.bath_id.clone()).or_default();
            if !woken.is_dead && state.not_saving_since.is_none() {
                account.saved = account.live.len();
            }
        }
        if state.machine.pots().count() > 9 {
            return Err("more pots than a stove has".to_owned());
        }
        Ok(())
    }

    fn check_run(&mut self, run: &PotRun, state: &State, woken: Woken<'_>) -> Result<(), String> {
        let (stretch, offset) = (self.stretch, woken.at.true_ms as i64 - woken.at.steady_ms as i64);
        let account = self.baths.entry(run.bath_id.clone()).or_default();
        let is_new = account.live.is_empty();
        account.offsets.insert(stretch, offset);
        let offsets = &account.offsets;
        let fresh = added(&account.live, &run.log)?.to_vec();
        let step = run.stand.step.0;
        let moves = |event: &Event| {
            matches!(
                event.what,
                What::StepDone { .. } | What::StepSkipped { .. } | What::TakenBack
            )
        };
        let is_asked = woken.pot() == Some(run.pot);
        if !is_new && step != account.step && !(is_asked && fresh.iter().any(moves)) {
            return Err(format!("step {} became {step} by no act", account.step));
        }
        if fresh.iter().any(|event| event.what.is_by_hand()) && !is_asked {
            return Err("an act that nobody did".to_owned());
        }
        for event in &fresh {
            if let What::Returned { at_least, at_most } = event.what
                && let Some(last) = account.last_at
            {
                let away = true_ms(offsets, event.at) - true_ms(offsets, last);
                if i64::try_from(at_least.ms()).unwrap_or(i64::MAX) > away {
                    return Err(format!("away at least {} ms, truly {away} ms", at_least.ms()));
                }
                // Within a run the absence begins with a beat that isn't shown.
                let is_other_run = event.at.stretch != last.stretch;
                if is_other_run && at_most.is_some_and(|most| (most.ms() as i64) < away) {
                    return Err(format!("away at most {at_most:?}, truly {away} ms"));
                }
                let is_restart = woken.at.boot != account.boot;
                self.bounded += u64::from(is_restart && at_most.is_some());
            }
            if let What::ReturnAnswered { answer } = event.what
                && answer == potside::machine::ReturnAnswer::CountIt
            {
                let given = account.outage.map_or(0, |outage| outage.at_least.ms());
                *account.credit_ms.entry(account.step).or_default() += given;
            }
        }
        if let Some(broken) = promise::broken(run) {
            return Err(format!("broken promise: {broken}"));
        }
        if run.stand.calls.len() > 9 {
            return Err(format!("{} calls at once", run.stand.calls.len()));
        }
        account.pot = run.pot.0;
        account.step = step;
        account.outage = run.outage;
        account.last_at = Some(run.last_at);
        account.boot = woken.at.boot;
        account.live.extend(fresh);
        account.ends.insert(account.live.len());
        let arrived = *account.arrived_ms.entry(step).or_insert(woken.at.awake_ms);
        if let Some(hold) = run.stand.hold.filter(|_| run.stand.ended.is_none()) {
            let there_was = woken.at.awake_ms - arrived + account.credit_ms.get(&step).copied().unwrap_or(0);
            let held = hold.held.at(state.at).ms();
            if held > there_was {
                return Err(format!("held {held} ms, and there were {there_was} ms to hold"));
            }
        }
        Ok(())
    }

    /// Facts were read back from the disk: all that was shown as saved, whole acts, nothing that never was.
    pub fn read_back(&mut self, bath: &str, kept: Vec<Event>) -> Result<(), String> {
        let facts: Vec<Event> = kept
            .iter()
            .filter(|event| event.what != What::Beat)
            .cloned()
            .collect();
        let Some(account) = self.baths.get_mut(bath) else {
            return Err("a bath that never was".to_owned());
        };
        let count = facts.len();
        if count < account.saved {
            return Err(format!(
                "{} facts were shown as saved, {count} are there",
                account.saved
            ));
        }
        if count > account.live.len() || account.live[..count] != facts {
            let at = (0..count).find(|at| account.live.get(*at) != facts.get(*at));
            let at = at.unwrap_or(0);
            return Err(format!(
                "{count} facts read back aren't the first of {} that happened: {:?} for {:?}",
                account.live.len(),
                facts.get(at).map(|event| (event.at, &event.what)),
                account.live.get(at).map(|event| (event.at, &event.what)),
            ));
        }
        if count > 0 && !account.ends.contains(&count) {
            return Err(format!("half an act is read back: {count} facts"));
        }
        account.kept = kept;
        account.live.truncate(count);
        account.ends.retain(|end| *end <= count);
        Ok(())
    }

    /// A start took the bath up: it must stand where replaying its facts leads.
    pub fn taken_up(&mut self, run: &PotRun) -> Result<(), String> {
        let account = self
            .baths
            .get_mut(&run.bath_id)
            .ok_or("taken up and never begun")?;
        if account.live != run.log {
            return Err(format!(
                "{} facts were read back, {} taken up",
                account.live.len(),
                run.log.len()
            ));
        }
        let mut machine = Machine::default();
        for event in &account.kept {
            machine.apply(event);
        }
        let again = machine.pot(run.pot).ok_or("not in its pot")?;
        if again.stand != run.stand || again.outage != run.outage || again.last_reading != run.last_reading {
            return Err("the same facts give another state".to_owned());
        }
        account.step = run.stand.step.0;
        account.outage = run.outage;
        account.last_at = Some(run.last_at);
        Ok(())
    }
}

fn true_ms(offsets: &BTreeMap<u32, i64>, at: Moment) -> i64 {
    at.steady_ms as i64 + offsets.get(&at.stretch.0).copied().unwrap_or(0)
}

/// What a log has more than before. A plan is compared by the id of its bath alone.
fn added<'a>(before: &[Event], now: &'a [Event]) -> Result<&'a [Event], String> {
    let kept = now
        .get(..before.len())
        .ok_or_else(|| format!("{} facts became {}", before.len(), now.len()))?;
    let same = before.iter().zip(kept).skip(1).all(|(before, now)| before == now);
    if same {
        Ok(&now[before.len()..])
    } else {
        Err("a fact that was shown is another now".to_owned())
    }
}
