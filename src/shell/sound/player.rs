//! The thread that plays. It owns the voice, opens it when there is something to say, closes it after a while of quiet
//! (an open device costs half a percent of a processor), and tells by reports what became of each call.
//!
//! No fault of sound stops anything: the state is reported, the calls that could not be heard are reported one by one so
//! that the screen can flash for them, and opening is tried again every few seconds.

use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError};
use std::thread::JoinHandle;
use std::time::{Duration, Instant};

use super::desk::{Call, Desk, Unheard, Volume};
use super::voice::{Loudspeaker, NoVoice, Signs, Voice};
use crate::machine::chime::Haste;

/// From one try to the next while there is no device, and between looks while it is closed.
const RETRY: Duration = Duration::from_secs(2);
/// From one look at an open, silent device to the next. A storm of errors lasts no longer than this.
const LOOK: Duration = Duration::from_millis(250);
/// The same while a call sounds.
const LOOK_SOUNDING: Duration = Duration::from_millis(20);
/// From one second chance to the next.
const SECOND_CHANCE: Duration = Duration::from_secs(10);
/// Rest between two calls, so that they don't run into one another.
const REST: Duration = Duration::from_millis(400);
/// Quiet after which the device is closed.
const QUIET_MAX: Duration = Duration::from_secs(30);
/// How much longer than itself a call may take before the device counts as stalled; some sound servers buffer two
/// seconds.
const STALL: Duration = Duration::from_secs(5);

/// Whether calls can be heard. The reports carry no time: the keeper gives them its own moment as they come in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum SoundState {
    /// A device has been opened and has not failed since.
    Working,
    /// No device, and why. The screen says so until it is [`Self::Working`] again.
    NoDevice(NoVoice),
}

/// What the player tells.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum SoundReport {
    /// The state is this from now on. The first one comes within a second of the start, then only changes.
    State(SoundState),
    /// A call was sounded to its end.
    Sounded(Call),
    /// A call was not heard, or not to its end.
    Unheard(Call, Unheard),
}

/// The player's handle. Every method returns at once; dropping it fades out, ends the thread and waits for it.
pub struct Player {
    shared: Arc<Shared>,
    thread: Option<JoinHandle<()>>,
    report: Arc<dyn Fn(SoundReport) + Send + Sync>,
}

impl Player {
    /// Starts the player on this machine's default device. `report` is called from the player's thread and must not
    /// wait.
    pub fn start(report: impl Fn(SoundReport) + Send + Sync + 'static) -> Self {
        Self::start_with(|| Loudspeaker::new(Signs::of_this_machine()), report)
    }

    /// Starts the player on a voice made by `make`, which runs on the player's thread, for devices may not travel
    /// between threads.
    pub fn start_with<V: Voice>(
        make: impl FnOnce() -> V + Send + 'static,
        report: impl Fn(SoundReport) + Send + Sync + 'static,
    ) -> Self {
        let report: Arc<dyn Fn(SoundReport) + Send + Sync> = Arc::new(report);
        let shared = Arc::new(Shared::default());
        let spawned = std::thread::Builder::new().name("sound".to_owned()).spawn({
            let shared = Arc::clone(&shared);
            let report = Arc::clone(&report);
            move || Stand::new(make(), report).run(&shared)
        });
        let thread = match spawned {
            Ok(thread) => Some(thread),
            Err(fault) => {
                let why = NoVoice::WouldNotOpen(format!("no thread for sound: {fault}"));
                report(SoundReport::State(SoundState::NoDevice(why)));
                None
            }
        };
        Self {
            shared,
            thread,
            report,
        }
    }

    /// Has a call sounded in its turn; an urgent one at once. What becomes of it is reported.
    pub fn play(&self, call: Call) {
        if self.thread.as_ref().is_some_and(|thread| !thread.is_finished()) {
            self.shared.change(|desk| desk.take(call));
        } else {
            (self.report)(SoundReport::Unheard(call, Unheard::NoDevice));
        }
    }

    /// Opens the device ahead of a call that is about to be due; opening can take a second. It closes again by itself.
    pub fn warm(&self) {
        self.shared.change(Desk::warm);
    }

    /// Sets the volume of the calls to come.
    pub fn set_volume(&self, volume: Volume) {
        self.shared.change(|desk| desk.set_volume(volume));
    }

    /// Fades out what sounds and forgets what waits.
    pub fn hush(&self) {
        self.shared.change(Desk::hush);
    }

    /// Ends the player and waits for its thread; the same as dropping it.
    pub fn stop(self) {
        drop(self);
    }
}

impl Drop for Player {
    fn drop(&mut self) {
        self.shared.change(Desk::quit);
        if let Some(thread) = self.thread.take() {
            // A thread that died has nothing left to say, and dropping must not fail.
            drop(thread.join());
        }
    }
}

/// The desk both sides lean on. It is never locked while the device is being talked to.
#[derive(Debug, Default)]
struct Shared {
    desk: Mutex<Desk>,
    bell: Condvar,
}

impl Shared {
    fn lock(&self) -> MutexGuard<'_, Desk> {
        // The desk is whole after every call on it, so a lock left by a thread that died can be used on.
        self.desk.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn change(&self, act: impl FnOnce(&mut Desk)) {
        act(&mut self.lock());
        self.bell.notify_one();
    }

    fn wait(&self, nap: Duration) {
        let desk = self.lock();
        let woken = self.bell.wait_timeout_while(desk, nap, |desk| !desk.has_news());
        drop(woken);
    }
}

/// The thread's own things.
struct Stand<V> {
    voice: V,
    report: Arc<dyn Fn(SoundReport) + Send + Sync>,
    state: Option<SoundState>,
    /// When the call that sounds must be over.
    stalls_at: Option<Instant>,
    /// When the last call ended.
    quiet_since: Instant,
    /// When the device was last of use, or about to be: opened, warmed, sounding.
    used_at: Instant,
    next_try: Instant,
    /// When opening it was last tried; a second chance doesn't count.
    tried_at: Option<Instant>,
    second_chance_at: Instant,
}

impl<V: Voice> Stand<V> {
    fn new(voice: V, report: Arc<dyn Fn(SoundReport) + Send + Sync>) -> Self {
        let now = steady();
        Self {
            voice,
            report,
            state: None,
            stalls_at: None,
            quiet_since: now.checked_sub(REST).unwrap_or(now),
            used_at: now,
            next_try: now,
            tried_at: None,
            second_chance_at: now,
        }
    }

    fn run(mut self, shared: &Shared) {
        loop {
            let orders = shared.lock().take_orders();
            for (call, why) in orders.lost {
                (self.report)(SoundReport::Unheard(call, why));
            }
            if orders.hush || orders.quit {
                self.voice.hush();
                self.stalls_at = None;
            }
            if orders.quit {
                self.quit(shared);
                return;
            }
            self.watch(shared, steady());
            self.keep_open_or_closed(orders.warm, steady());
            self.speak(shared, steady());
            shared.wait(self.nap(shared));
        }
    }

    /// What sounds now: is it over, has the device failed, has it stalled?
    fn watch(&mut self, shared: &Shared, now: Instant) {
        if self.voice.is_open() && self.voice.has_failed() {
            self.lose_device(shared, now);
        }
        let Some(stalls_at) = self.stalls_at else {
            return;
        };
        if !self.voice.is_sounding() {
            self.stalls_at = None;
            self.quiet_since = now;
            self.used_at = now;
            let ended = shared.lock().ended();
            if let Some(call) = ended {
                (self.report)(SoundReport::Sounded(call));
            }
        } else if now >= stalls_at {
            self.lose_device(shared, now);
        }
    }

    /// Drops a device that failed. It gets a second chance at once, but not twice in a short while: some sound servers
    /// stumble over a stream they have just opened and take the next one without trouble.
    fn lose_device(&mut self, shared: &Shared, now: Instant) {
        self.voice.close();
        self.stalls_at = None;
        self.next_try = later(now, RETRY);
        if now >= self.second_chance_at {
            self.second_chance_at = later(now, SECOND_CHANCE);
            if self.voice.open().is_ok() {
                self.quiet_since = now;
                self.used_at = now;
                shared.change(Desk::sound_again);
                return;
            }
        }
        let cut = shared.lock().ended();
        if let Some(call) = cut {
            (self.report)(SoundReport::Unheard(call, Unheard::CutOff));
        }
        self.become_state(SoundState::NoDevice(NoVoice::WentAway));
    }

    /// While nothing sounds: tries a missing device, looks after a closed one, closes one that has been quiet for long.
    fn keep_open_or_closed(&mut self, warm: bool, now: Instant) {
        if self.stalls_at.is_some() {
            return;
        }
        let is_working = self.state == Some(SoundState::Working);
        if self.voice.is_open() {
            if warm {
                self.used_at = now;
            } else if now.saturating_duration_since(self.used_at) >= QUIET_MAX {
                self.voice.close();
            }
        } else if warm || (!is_working && now >= self.next_try) {
            self.open(now);
        } else if is_working && now >= self.next_try {
            self.next_try = later(now, RETRY);
            if !self.voice.is_likely() {
                self.become_state(SoundState::NoDevice(NoVoice::NothingThere));
            }
        }
    }

    /// Sounds the next call if there is one and nothing more pressing sounds. A missing device is tried for it, but not twice
    /// in a quarter of a second. Without one, all that wait are reported: a chime heard minutes late would mislead, and the
    /// keeper calls again in its own time.
    fn speak(&mut self, shared: &Shared, now: Instant) {
        let rested = now.saturating_duration_since(self.quiet_since) >= REST;
        loop {
            let (next, volume) = {
                let mut desk = shared.lock();
                let urgent = desk
                    .waiting()
                    .first()
                    .is_some_and(|call| call.chime.haste() == Haste::WithinOneMinute);
                let next = if urgent || self.stalls_at.is_some() || rested || !self.voice.is_open() {
                    desk.next_call()
                } else {
                    None
                };
                (next, desk.volume())
            };
            let Some(call) = next else {
                return;
            };
            let is_worth_a_try = self
                .tried_at
                .is_none_or(|tried_at| now.saturating_duration_since(tried_at) >= LOOK);
            if self.voice.is_open() || is_worth_a_try && self.open(now) {
                self.voice.hush();
                let length = self.voice.sound(call, volume.gain(call.chime));
                let over = length.saturating_add(STALL);
                self.stalls_at = now.checked_add(over);
                return;
            }
            let unheard = shared.lock().ended();
            if let Some(call) = unheard {
                (self.report)(SoundReport::Unheard(call, Unheard::NoDevice));
            }
        }
    }

    /// Tries the device, and says in the state what came of it.
    fn open(&mut self, now: Instant) -> bool {
        let opened = self.voice.open();
        self.next_try = later(now, RETRY);
        self.tried_at = Some(now);
        match opened {
            Ok(()) => {
                self.used_at = now;
                self.become_state(SoundState::Working);
                true
            }
            Err(why) => {
                self.become_state(SoundState::NoDevice(why));
                false
            }
        }
    }

    fn become_state(&mut self, state: SoundState) {
        if self.state.as_ref() != Some(&state) {
            self.state = Some(state.clone());
            (self.report)(SoundReport::State(state));
        }
    }

    fn quit(mut self, shared: &Shared) {
        // Bounded: a fade is over in milliseconds, and a device that has stalled isn't waited for.
        for _ in 0..5 {
            if !self.voice.is_sounding() {
                break;
            }
            shared.wait(LOOK_SOUNDING);
        }
        self.voice.close();
    }

    /// Short while a call sounds or waits for its rest.
    fn nap(&self, shared: &Shared) -> Duration {
        if self.stalls_at.is_some() || !shared.lock().waiting().is_empty() {
            LOOK_SOUNDING
        } else {
            LOOK
        }
    }
}

fn later(now: Instant, span: Duration) -> Instant {
    now.checked_add(span).unwrap_or(now)
}

/// The player's own clock, for retries and rests. Nothing the keeper counts depends on it.
#[expect(
    clippy::disallowed_methods,
    reason = "how long a device has been silent is the player's own affair; no time of a bath comes from here"
)]
fn steady() -> Instant {
    Instant::now()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::machine::chime::Chime;

    /// A device that counts the calls it was given.
    #[derive(Default)]
    struct Counter {
        is_open: bool,
        calls: usize,
    }

    impl Voice for Counter {
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

        fn sound(&mut self, _call: Call, _gain: f32) -> Duration {
            self.calls = self.calls.saturating_add(1);
            Duration::ZERO
        }

        fn hush(&mut self) {}

        fn is_sounding(&self) -> bool {
            false
        }
    }

    const DUE: Call = Call {
        chime: Chime::Due,
        pot: None,
    };

    fn stand() -> (Stand<Counter>, Shared, Instant) {
        (
            Stand::new(Counter::default(), Arc::new(|_| {})),
            Shared::default(),
            steady(),
        )
    }

    #[test]
    fn a_call_sounds_at_once_on_a_device_that_was_warmed_a_moment_ago() {
        let (mut stand, shared, now) = stand();
        for warmed in 0..4 {
            stand.keep_open_or_closed(true, later(now, Duration::from_secs(warmed)));
        }
        let due = later(now, Duration::from_millis(3_001));
        shared.change(|desk| desk.take(DUE));

        stand.speak(&shared, due);

        assert_eq!(stand.voice.calls, 1);
    }

    #[test]
    fn two_calls_rest_between_them() {
        let (mut stand, shared, now) = stand();
        stand.keep_open_or_closed(true, now);
        shared.change(|desk| desk.take(DUE));
        stand.speak(&shared, now);
        stand.watch(&shared, now);
        shared.change(|desk| desk.take(DUE));

        stand.speak(&shared, later(now, REST / 2));
        assert_eq!(stand.voice.calls, 1);
        stand.speak(&shared, later(now, REST));
        assert_eq!(stand.voice.calls, 2);
    }

    #[test]
    fn a_warmed_device_closes_again_after_its_quiet_time() {
        let (mut stand, _, now) = stand();
        stand.keep_open_or_closed(true, now);
        let warmed = later(now, QUIET_MAX / 2);
        stand.keep_open_or_closed(true, warmed);

        stand.keep_open_or_closed(false, later(now, QUIET_MAX));
        assert!(stand.voice.is_open);
        stand.keep_open_or_closed(false, later(warmed, QUIET_MAX));
        assert!(!stand.voice.is_open);
    }
}
