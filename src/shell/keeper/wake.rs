//! The keeper's thread: all that can wake it, and when it wakes by itself.

use std::time::Duration;

use tokio::sync::mpsc;

use crate::craft::time::{Moment, Span};
use crate::machine::{Effect, Input, Machine, Refusal};
use crate::shell::clock::Clock;

use super::keep::{Keeper, Told};

/// All that can wake the keeper.
#[derive(Debug)]
pub enum Wake {
    /// Something is asked of the machine.
    Ask(Input),
    /// A bath begins: its recipe and sheet are kept with it.
    Begin {
        /// The [`Input::Begin`].
        input: Input,
        /// The id of the bath.
        bath_id: String,
        /// The recipe word for word.
        recipe_toml: String,
        /// The sheet as computed.
        sheet_json: String,
    },
    /// The program ends.
    Quit,
}

/// Who hears what the keeper has to say. Called on the keeper's thread.
#[expect(
    clippy::type_complexity,
    reason = "each is one hearer; a name for its type would say less"
)]
pub struct Hearers {
    /// The state after a change.
    pub state: Box<dyn Fn(State) + Send>,
    /// Something to sound or to seal.
    pub effect: Box<dyn Fn(&Effect, &Machine) + Send>,
}

/// What the glass gets to know.
#[derive(Debug, Clone)]
pub struct State {
    /// The machine as it stands.
    pub machine: Machine,
    /// When.
    pub at: Moment,
    /// Since when something isn't being saved.
    pub not_saving_since: Option<Moment>,
    /// What was refused, and why.
    pub refused: Option<(Input, Refusal)>,
    /// What a person should know of.
    pub troubles: Vec<String>,
}

/// The running keeper.
#[derive(Debug)]
pub struct KeeperThread {
    wake: mpsc::Sender<Wake>,
    thread: Option<std::thread::JoinHandle<()>>,
}

/// So many inputs may wait while a flush is slow. More are refused by the glass, which says *saving*.
const WAITING_MAX: usize = 64;
/// The keeper looks at its clock at least this often while a bath is going, so that a suspend is noticed.
const LOOK_EVERY: Duration = Duration::from_secs(1);
/// And this often while none is.
const LOOK_IDLE: Duration = Duration::from_secs(30);
/// A look this much later than meant was a suspend or a stall.
const STALLED: Span = Span::from_seconds(20);
/// A beat is written this often.
const BEAT_EVERY: Span = Span::from_minutes(1);

/// Starts the keeper on its thread.
pub fn start(
    keeper: Keeper,
    clock: impl Clock + Send + 'static,
    hearers: Hearers,
) -> std::io::Result<KeeperThread> {
    let (wake, woken) = mpsc::channel(WAITING_MAX);
    let runtime = tokio::runtime::Builder::new_current_thread()
        .enable_time()
        .build()?;
    let thread = std::thread::Builder::new().name("keeper".into()).spawn(move || {
        runtime.block_on(
            Watch {
                keeper,
                clock,
                hearers,
                woken,
            }
            .run(),
        );
    })?;
    Ok(KeeperThread {
        wake,
        thread: Some(thread),
    })
}

impl KeeperThread {
    /// Hands the keeper something. False if too much is waiting: nothing was taken then.
    pub fn wake(&self, wake: Wake) -> bool {
        self.wake.try_send(wake).is_ok()
    }

    /// A handle that other threads may hold.
    #[must_use]
    pub fn sender(&self) -> mpsc::Sender<Wake> {
        self.wake.clone()
    }
}

impl Drop for KeeperThread {
    fn drop(&mut self) {
        // A keeper that is gone already has nothing left to quit.
        self.wake.blocking_send(Wake::Quit).unwrap_or(());
        if let Some(thread) = self.thread.take() {
            drop(thread.join());
        }
    }
}

struct Watch<C> {
    keeper: Keeper,
    clock: C,
    hearers: Hearers,
    woken: mpsc::Receiver<Wake>,
}

impl<C: Clock> Watch<C> {
    async fn run(mut self) {
        let mut looked = self.clock.now();
        let mut beaten = looked;
        if let Some(back) = self.keeper.came_back(looked) {
            self.take(&back, looked);
        }
        self.take(&Input::Tick, looked);
        loop {
            let asleep = tokio::time::timeout(self.sleep_from(looked), self.woken.recv()).await;
            let now = self.clock.now();
            if now.since(looked) >= STALLED && self.keeper.machine().wants_beats() {
                self.was_away(looked, now);
            }
            self.ring_again(looked, now);
            looked = now;
            match asleep {
                Ok(None | Some(Wake::Quit)) => return,
                Ok(Some(Wake::Ask(input))) => self.take(&input, now),
                Ok(Some(Wake::Begin {
                    input,
                    bath_id,
                    recipe_toml,
                    sheet_json,
                })) => {
                    self.keeper.prepare(&bath_id, &recipe_toml, &sheet_json);
                    self.take(&input, now);
                }
                Err(_) => {}
            }
            if now.since(beaten) >= BEAT_EVERY && self.keeper.machine().wants_beats() {
                beaten = now;
                self.keeper.take(&Input::Beat, now);
                self.keeper.retry(now);
            }
            if self.is_due(now) {
                self.take(&Input::Tick, now);
            }
        }
    }

    /// Until the next deadline, but never so long that a suspend would go unnoticed.
    fn sleep_from(&self, looked: Moment) -> Duration {
        let machine = self.keeper.machine();
        let at_most = if machine.wants_beats() {
            LOOK_EVERY
        } else {
            LOOK_IDLE
        };
        let due = machine
            .next_deadline(looked)
            .map(|(at, _)| Duration::from_millis(at.since(looked).ms()));
        due.map_or(at_most, |due| due.min(at_most))
            .max(Duration::from_millis(5))
    }

    fn is_due(&self, now: Moment) -> bool {
        let next = self.keeper.machine().next_deadline(now);
        next.is_some_and(|(at, _)| at.stretch == now.stretch && at.steady_ms <= now.steady_ms)
    }

    /// The machine slept or stalled: what is known ends with the last look, and it is treated like an outage.
    fn was_away(&mut self, looked: Moment, now: Moment) {
        self.keeper.take(&Input::Beat, looked);
        let away = now.since(looked);
        self.take(
            &Input::Returned {
                at_least: away,
                at_most: Some(away),
            },
            now,
        );
    }

    fn ring_again(&self, looked: Moment, now: Moment) {
        let machine = self.keeper.machine();
        for effect in machine.rings(looked, now) {
            (self.hearers.effect)(&effect, machine);
        }
    }

    fn take(&mut self, input: &Input, now: Moment) {
        let refused = match self.keeper.take(input, now) {
            Told::Taken(effects) => {
                for effect in &effects {
                    (self.hearers.effect)(effect, self.keeper.machine());
                }
                None
            }
            Told::Refused(refusal) => Some((input.clone(), refusal)),
        };
        (self.hearers.state)(State {
            machine: self.keeper.machine().clone(),
            at: now,
            not_saving_since: self.keeper.not_saving_since(),
            refused,
            troubles: self.keeper.take_troubles(),
        });
    }
}
