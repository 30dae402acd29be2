//! A bath on fast time on the glass: the same machine, a clock that runs sixty times as fast, nothing written.

use std::sync::Arc;

use crate::craft::time::{Moment, Span};
use crate::machine::{Effect, Input, Machine, PotNo, Refusal};
use crate::sheet::plan::Plan;

/// A minute of the bath passes in a second.
const TIMES_AS_FAST: u64 = 60;

/// A rehearsal going on.
#[derive(Debug)]
pub struct Rehearsal {
    machine: Machine,
    began: Moment,
    passed: Moment,
}

impl Rehearsal {
    /// Begins a bath in pot 1.
    #[must_use]
    pub fn begin(plan: &Arc<Plan>, real: Moment) -> Self {
        let mut rehearsal = Self {
            machine: Machine::default(),
            began: real,
            passed: real,
        };
        let begin = Input::Begin {
            pot: PotNo(1),
            bath_id: "rehearsal".into(),
            plan: Arc::clone(plan),
            cautions_read: true,
        };
        // A bath always begins in an empty machine.
        rehearsal.take(&begin, real).map_or_else(|_| (), |_| ());
        rehearsal
    }

    /// The state.
    #[must_use]
    pub const fn machine(&self) -> &Machine {
        &self.machine
    }

    /// The moment of the rehearsal.
    #[must_use]
    pub fn now(&self, real: Moment) -> Moment {
        let elapsed = real.since(self.began).ms().saturating_mul(TIMES_AS_FAST);
        self.began.plus(Span::from_ms(elapsed))
    }

    /// Lets time pass through every deadline. Returns what should be heard.
    pub fn pass(&mut self, real: Moment) -> Vec<Effect> {
        let until = self.now(real);
        let mut effects = Vec::new();
        while let Some((due, _)) = self.machine.next_deadline(self.passed) {
            if due.steady_ms > until.steady_ms {
                break;
            }
            let at = if due.steady_ms > self.passed.steady_ms {
                due
            } else {
                self.passed
            };
            effects.extend(self.machine.rings(self.passed, at));
            self.passed = at;
            let facts = self.machine.judge(&Input::Tick, at).unwrap_or_default();
            for fact in &facts {
                self.machine.apply(fact);
                effects.extend(self.machine.effects(fact));
            }
        }
        self.passed = until;
        effects
    }

    /// Takes an input, as the keeper would.
    pub fn take(&mut self, input: &Input, real: Moment) -> Result<Vec<Effect>, Refusal> {
        let mut effects = self.pass(real);
        let facts = self.machine.judge(input, self.now(real))?;
        for fact in &facts {
            self.machine.apply(fact);
            effects.extend(self.machine.effects(fact));
        }
        Ok(effects)
    }
}
