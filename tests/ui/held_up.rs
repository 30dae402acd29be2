//! A window that is held up while the keeper goes on: it finds one state, the newest, and misses nothing.

use std::sync::Arc;
use std::sync::mpsc;
use std::time::Duration;

use potside::craft::time::{Moment, Span, Stretch};
use potside::keeper::{Clock, Keeper, Look, State, Wake};
use potside::machine::away::WallClock;
use potside::machine::{Ask, Input, PotNo};
use potside::shell::disk::data_folder::DataFolder;
use potside::shell::glass::inbox::{Inbox, Letters};
use potside::shell::keeper_thread::{self, Hearers, KeeperThread};

use crate::stumbles::begin;

/// A clock that stands.
struct Still(Stretch);

impl Clock for Still {
    fn look(&self) -> Look {
        Look {
            now: Moment {
                stretch: self.0,
                steady_ms: 60_000,
                wall_ms: 1_787_650_000_000,
            },
            slept: Span::NONE,
            wall: WallClock::NotKnown,
        }
    }
}

struct Kitchen {
    _root: tempfile::TempDir,
    thread: KeeperThread,
    inbox: Arc<Inbox>,
    told: mpsc::Receiver<State>,
}

impl Kitchen {
    fn open() -> Self {
        let root = tempfile::tempdir().expect("a scratch folder");
        let data = DataFolder::open(root.path()).expect("a data folder");
        let (keeper, stretch) = Keeper::open(data, Some("test-boot")).expect("a keeper");
        let inbox = Arc::new(Inbox::default());
        let (filled, (tell, told)) = (Arc::clone(&inbox), mpsc::channel());
        let hearers = Hearers {
            state: Box::new(move |state| {
                filled.put_state(state.clone());
                tell.send(state).unwrap_or(());
            }),
            sound: Box::new(|_, _| {}),
            soon: Box::new(|| {}),
        };
        let thread = keeper_thread::start(keeper, Still(stretch), hearers).expect("a thread");
        let kitchen = Self {
            _root: root,
            thread,
            inbox,
            told,
        };
        kitchen.hear();
        kitchen
    }

    fn hear(&self) -> State {
        let state = self.told.recv_timeout(Duration::from_secs(20));
        state.expect("the keeper tells")
    }

    /// Asks, and waits until the keeper has answered; the window sees nothing of it.
    fn ask(&self, wake: Wake) -> State {
        assert!(self.thread.wake(wake));
        self.hear()
    }

    fn take(&self) -> Letters {
        let runtime = tokio::runtime::Builder::new_current_thread().build();
        runtime.expect("a runtime").block_on(self.inbox.take())
    }
}

fn asks(ask: Ask) -> Wake {
    Wake::Ask {
        act: None,
        input: Input::Pot(PotNo(1), ask),
    }
}

#[test]
fn it_finds_the_newest_state_and_what_was_told_once() {
    let kitchen = Kitchen::open();
    kitchen.ask(begin());
    // Nothing calls and nothing was done: both are refused, the second for its own reason.
    let first = kitchen.ask(asks(Ask::TakeBack));
    let last = kitchen.ask(Wake::Quiet(Span::from_minutes(5)));
    kitchen.inbox.put_no_sound(true);
    assert!(first.refused.is_some() && last.refused.is_none());

    let letters = kitchen.take();

    let state = letters.state.expect("a state");
    assert_eq!(state.answered, 3);
    assert_eq!(state.quiet_until, last.quiet_until);
    assert!(state.quiet_until.is_some());
    assert_eq!(state.refused, first.refused);
    assert_eq!(letters.no_sound, Some(true));
}

#[test]
fn what_was_seen_is_not_told_again() {
    let kitchen = Kitchen::open();
    kitchen.ask(begin());
    kitchen.ask(asks(Ask::TakeBack));
    assert!(kitchen.take().state.expect("a state").refused.is_some());

    kitchen.ask(Wake::Quiet(Span::from_minutes(5)));

    let state = kitchen.take().state.expect("a state");
    assert_eq!((state.answered, state.refused), (3, None));
}

#[test]
fn lines_of_trouble_are_kept_in_order_and_not_without_end() {
    let kitchen = Kitchen::open();
    let plain = kitchen.ask(begin());
    let told = |lines: std::ops::Range<u32>| State {
        troubles: lines.map(|line| line.to_string()).collect(),
        ..plain.clone()
    };

    let seen = told(20..40).after(told(0..20));

    let wanted: Vec<String> = (8..40).map(|line: u32| line.to_string()).collect();
    assert_eq!(seen.troubles, wanted);
}
