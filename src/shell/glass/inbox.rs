//! What reaches the window from other threads. A window that was held up finds the newest state, not a row of old ones:
//! however long it takes, no more than one waits. What is told once alone isn't lost by that.

use std::sync::{Mutex, MutexGuard, PoisonError};

use tokio::sync::Notify;

use crate::keeper::State;

/// What came since the window last looked.
#[derive(Debug, Default)]
pub struct Letters {
    /// The newest state the keeper told.
    pub state: Option<Box<State>>,
    /// Whether calls can't be heard now, if that changed.
    pub no_sound: Option<bool>,
}

impl Letters {
    const fn is_empty(&self) -> bool {
        self.state.is_none() && self.no_sound.is_none()
    }
}

/// Filled by any thread, emptied by the window's.
#[derive(Debug, Default)]
pub struct Inbox {
    letters: Mutex<Letters>,
    bell: Notify,
}

impl Inbox {
    /// The keeper told a state.
    pub fn put_state(&self, state: State) {
        self.put(|letters| {
            let state = match letters.state.take() {
                Some(unseen) => state.after(*unseen),
                None => state,
            };
            letters.state = Some(Box::new(state));
        });
    }

    /// Calls can or can't be heard from now on.
    pub fn put_no_sound(&self, no_sound: bool) {
        self.put(|letters| letters.no_sound = Some(no_sound));
    }

    /// Everything that came, as soon as anything has.
    pub async fn take(&self) -> Letters {
        loop {
            // Before looking, so that what comes in between rings for the next round.
            let rung = self.bell.notified();
            let letters = std::mem::take(&mut *self.lock());
            if !letters.is_empty() {
                return letters;
            }
            rung.await;
        }
    }

    fn put(&self, change: impl FnOnce(&mut Letters)) {
        change(&mut self.lock());
        self.bell.notify_one();
    }

    fn lock(&self) -> MutexGuard<'_, Letters> {
        // Whole after every change, so a lock left by a thread that died can be used on.
        self.letters.lock().unwrap_or_else(PoisonError::into_inner)
    }
}
