//! The keeper's thread: it waits for inputs and for time to pass, and hands on what the keeper says.
//!
//! Nobody else changes the state; the glass gets copies.

use std::time::Duration;

use tokio::sync::mpsc;

use crate::keeper::{Clock, Folder, Keeper, Said, State, WAITING_MAX, Wake, Watch};
use crate::machine::Machine;
use crate::machine::voice::Sound;

/// Who hears what the keeper has to say. Called on the keeper's thread.
#[expect(
    clippy::type_complexity,
    reason = "each is one hearer; a name for its type would say less"
)]
pub struct Hearers {
    /// The state after a change.
    pub state: Box<dyn Fn(State) + Send>,
    /// Something to sound.
    pub sound: Box<dyn Fn(&Sound, &Machine) + Send>,
    /// Something is about to be sounded.
    pub soon: Box<dyn Fn() + Send>,
}

/// The running keeper.
#[derive(Debug)]
pub struct KeeperThread {
    wake: mpsc::Sender<Wake>,
    thread: Option<std::thread::JoinHandle<()>>,
}

/// Starts the keeper on its thread.
pub fn start<F>(
    keeper: Keeper<F>,
    clock: impl Clock + Send + 'static,
    hearers: Hearers,
) -> std::io::Result<KeeperThread>
where
    F: Folder + Send + 'static,
    F::Store: Send,
{
    let (wake, woken) = mpsc::channel(WAITING_MAX);
    let runtime = tokio::runtime::Builder::new_current_thread()
        .enable_time()
        .build()?;
    let thread = std::thread::Builder::new()
        .name("keeper".into())
        .spawn(move || runtime.block_on(watch(keeper, clock, hearers, woken)))?;
    Ok(KeeperThread {
        wake,
        thread: Some(thread),
    })
}

async fn watch<F: Folder>(
    keeper: Keeper<F>,
    clock: impl Clock,
    hearers: Hearers,
    mut woken: mpsc::Receiver<Wake>,
) {
    let mut say = |said: Said<'_>| match said {
        Said::State(state) => (hearers.state)(*state),
        Said::Sound(sound, machine) => (hearers.sound)(&sound, machine),
    };
    let mut watch = Watch::begin(keeper, &clock, &mut say);
    loop {
        if watch.is_about_to_sound() {
            (hearers.soon)();
        }
        let sleep = Duration::from_millis(watch.sleep().ms());
        let woken = match tokio::time::timeout(sleep, woken.recv()).await {
            Ok(Some(wake)) => Some(wake),
            // Nobody is left who could ask.
            Ok(None) => Some(Wake::Quit),
            Err(_) => None,
        };
        if !watch.wake(woken, &clock, &mut say) {
            return;
        }
    }
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
