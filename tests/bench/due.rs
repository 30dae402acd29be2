//! From the moment a call is due to its first sample in the hands of the device: the keeper on its thread, the journal
//! on the real disk, the player on its thread, and a device that records instead of sounding.

use std::path::Path;
use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::mpsc;
use std::time::{Duration, Instant};

use potside::craft::time::Span;
use potside::keeper::{Clock, Keeper, Look, State, Wake};
use potside::machine::{Ask, Input, PotNo};
use potside::shell::clock::SystemClock;
use potside::shell::disk::data_folder::DataFolder;
use potside::shell::keeper_thread::{self, Hearers, KeeperThread};
use potside::shell::sound::clips::compose;
use potside::shell::sound::voice::{NoVoice, Voice};
use potside::shell::sound::{Call, Player};

use crate::{nearest, plans};

const CALLS: usize = 100;
/// Calls rest between them in true time, however far the clock is put forward.
const REST: Duration = Duration::from_millis(600);

/// The system's clock, that can be put forward.
#[derive(Clone)]
struct Forward {
    clock: SystemClock,
    by_ms: Arc<AtomicU64>,
}

impl Clock for Forward {
    fn look(&self) -> Look {
        let look = self.clock.look();
        Look {
            now: look.now.plus(Span::from_ms(self.by_ms.load(Ordering::SeqCst))),
            ..look
        }
    }
}

/// Takes the samples of a call and says when it had the first.
struct Recorder {
    is_open: bool,
    heard: mpsc::Sender<Instant>,
}

impl Voice for Recorder {
    fn is_likely(&self) -> bool {
        true
    }

    fn open(&mut self) -> Result<(), NoVoice> {
        self.is_open = true;
        Ok(())
    }

    fn close(&mut self) {
        self.is_open = false;
    }

    fn is_open(&self) -> bool {
        self.is_open
    }

    fn has_failed(&self) -> bool {
        false
    }

    fn sound(&mut self, call: Call, gain: f32) -> Duration {
        let samples = compose(call);
        let first = samples.first().map(|sample| sample * gain);
        assert_eq!(first, Some(0.0), "a sound begins without a step");
        self.heard.send(Instant::now()).unwrap();
        Duration::ZERO
    }

    fn hush(&mut self) {}

    fn is_sounding(&self) -> bool {
        false
    }
}

struct Kitchen {
    clock: Forward,
    thread: KeeperThread,
    told: mpsc::Receiver<State>,
    heard: mpsc::Receiver<Instant>,
}

impl Kitchen {
    fn open(folder: &Path) -> Self {
        let data = DataFolder::open(&folder.join("due")).unwrap();
        let (keeper, stretch) = Keeper::open(data, Some("bench")).unwrap();
        let clock = Forward {
            clock: SystemClock::new(stretch),
            by_ms: Arc::default(),
        };
        let (tell, told) = mpsc::channel();
        let (first_sample, heard) = mpsc::channel();
        let player = Player::start_with(
            move || Recorder {
                is_open: false,
                heard: first_sample,
            },
            |_| {},
        );
        let player = Arc::new(player);
        let (rings, warms) = (Arc::clone(&player), player);
        let hearers = Hearers {
            state: Box::new(move |state| tell.send(state).unwrap_or(())),
            sound: Box::new(move |sound, _| {
                rings.play(Call {
                    chime: sound.chime,
                    pot: sound.pots.first().map(|pot| pot.0),
                });
            }),
            soon: Box::new(move || warms.warm()),
        };
        let thread = keeper_thread::start(keeper, clock.clone(), hearers).unwrap();
        let kitchen = Self {
            clock,
            thread,
            told,
            heard,
        };
        kitchen.newest();
        kitchen
    }

    fn ask(&self, wake: Wake) -> State {
        assert!(self.thread.wake(wake));
        self.newest()
    }

    /// The state after everything that was told meanwhile.
    fn newest(&self) -> State {
        let mut state = self.told.recv_timeout(Duration::from_secs(20)).unwrap();
        while let Ok(newer) = self.told.recv_timeout(Duration::from_millis(2)) {
            state = newer;
        }
        state
    }

    /// Puts the clock forward, in leaps that don't look like a sleep of the machine, until something falls due in a
    /// moment. When that will be.
    fn until_nearly_due(&self) -> Instant {
        const AHEAD_MS: u64 = 60;
        const LEAP_MS: u64 = 15_000;
        loop {
            // Quiet for no time: it wakes the keeper and changes nothing.
            let state = self.ask(Wake::Quiet(Span::NONE));
            let (now, seen) = (self.clock.now(), Instant::now());
            let (at, _) = state.machine.next_deadline(now).unwrap();
            let left_ms = at.since(now).ms();
            if left_ms <= AHEAD_MS {
                return seen + Duration::from_millis(left_ms);
            }
            let leap = (left_ms - AHEAD_MS).min(LEAP_MS);
            self.clock.by_ms.fetch_add(leap, Ordering::SeqCst);
        }
    }

    /// Confirms steps until something will fall due. False once the bath is over.
    fn goes_on(&self) -> bool {
        loop {
            let state = self.ask(Wake::Quiet(Span::NONE));
            let run = state.machine.pot(PotNo(1)).unwrap();
            if run.stand.ended.is_some() {
                return false;
            }
            if state.machine.next_deadline(self.clock.now()).is_some() {
                return true;
            }
            let step = run.stand.step;
            let ask = Ask::Confirm { step, sure: true };
            self.ask(Wake::Ask {
                act: None,
                input: Input::Pot(PotNo(1), ask),
            });
        }
    }

    /// From due to the first sample; nothing if what fell due isn't sounded.
    fn one(&self) -> Option<Duration> {
        std::thread::sleep(REST);
        let due = self.until_nearly_due();
        while self.heard.try_recv().is_ok() {}
        let heard = self.heard.recv_timeout(Duration::from_millis(600)).ok()?;
        // A clock of milliseconds may be due one early.
        Some(heard.saturating_duration_since(due))
    }
}

/// Prints the median and the 99th percentile.
pub(crate) fn print(folder: &Path) {
    let kitchen = Kitchen::open(folder);
    kitchen.ask(Wake::Begin {
        act: None,
        input: Input::Begin {
            pot: PotNo(1),
            bath_id: "due".to_owned(),
            plan: plans::alum_bath(),
            cautions_read: true,
        },
        bath_id: "due".to_owned(),
        recipe_toml: String::new(),
        sheet_json: "{}".to_owned(),
    });
    let mut waits = Vec::new();
    while waits.len() < CALLS && kitchen.goes_on() {
        waits.extend(kitchen.one());
    }
    waits.sort();
    let count = waits.len();
    for (name, part) in [("p50", 500), ("p99", 990)] {
        let ms = nearest(&waits, part).as_secs_f64() * 1_000.0;
        println!("a call from due to its first sample, {name} of {count}: {ms:.1} ms (aim 50)");
    }
}
