//! The keeper on its watch, by a clock that is moved by hand.

use std::cell::Cell;

use potside::craft::time::{Moment, Span, Stretch};
use potside::keeper::{Clock, Keeper, Look, Said, Wake, Watch};
use potside::machine::away::WallClock;
use potside::machine::{Ask, Input, PotNo};
use potside::shell::disk::data_folder::DataFolder;

use super::support::closed::open;
use super::support::plans::alum_bath;

struct ByHand(Cell<Moment>);

impl ByHand {
    fn pass(&self, span: Span) {
        self.0.set(self.0.get().plus(span));
    }
}

impl Clock for ByHand {
    fn look(&self) -> Look {
        Look {
            now: self.0.get(),
            slept: Span::NONE,
            wall: WallClock::NotKnown,
        }
    }
}

struct Kitchen {
    _root: tempfile::TempDir,
    clock: ByHand,
    watch: Watch<DataFolder>,
    sounds: usize,
}

impl Kitchen {
    fn open() -> Self {
        let root = tempfile::tempdir().unwrap();
        let (keeper, stretch) = Keeper::open(open(&root.path().join("data")), None).unwrap();
        let clock = ByHand(Cell::new(Moment {
            stretch,
            steady_ms: 60_000,
            wall_ms: 1_787_650_000_000,
        }));
        let watch = Watch::begin(keeper, &clock, &mut |_| {});
        assert_eq!(stretch, Stretch(0));
        Self {
            _root: root,
            clock,
            watch,
            sounds: 0,
        }
    }

    fn wake(&mut self, woken: Option<Wake>) {
        let sounds = &mut self.sounds;
        let mut say = |said: Said<'_>| *sounds += usize::from(matches!(said, Said::Sound(..)));
        assert!(self.watch.wake(woken, &self.clock, &mut say));
    }

    fn begin(&mut self) {
        let bath_id = "20260825-093107-alum-p1".to_owned();
        self.wake(Some(Wake::Begin {
            act: None,
            input: Input::Begin {
                pot: PotNo(1),
                bath_id: bath_id.clone(),
                plan: alum_bath(),
                cautions_read: true,
            },
            bath_id,
            recipe_toml: String::new(),
            sheet_json: "{}".to_owned(),
        }));
    }

    fn confirm(&mut self) {
        let step = self.watch.keeper().machine().pot(PotNo(1)).unwrap().stand.step;
        let ask = Ask::Confirm { step, sure: true };
        self.wake(Some(Wake::Ask {
            act: None,
            input: Input::Pot(PotNo(1), ask),
        }));
    }

    fn due_in(&self) -> Option<Span> {
        let now = self.clock.0.get();
        let (at, _) = self.watch.keeper().machine().next_deadline(now)?;
        Some(at.since(now))
    }
}

/// A sound device that was closed needs a moment to open: nobody should wait for it when hands are due.
#[test]
fn it_says_four_seconds_ahead_that_something_will_sound() {
    let mut kitchen = Kitchen::open();
    assert!(!kitchen.watch.is_about_to_sound());
    kitchen.begin();
    while kitchen.due_in().is_none_or(|due| due < Span::from_minutes(5)) {
        kitchen.confirm();
    }
    let due = kitchen.due_in().unwrap();

    let mut foretold = Vec::new();
    let mut left = due;
    kitchen.sounds = 0;
    while left > Span::NONE {
        let step = left.min(Span::from_seconds(1));
        kitchen.clock.pass(step);
        left = left.less(step);
        kitchen.wake(None);
        if left > Span::NONE {
            assert_eq!(kitchen.sounds, 0, "{left:?} before it is due");
            foretold.extend(kitchen.watch.is_about_to_sound().then_some(left.ms()));
        }
    }

    assert_eq!(foretold.len(), 4, "{foretold:?}");
    assert!(foretold.iter().all(|ms| *ms <= 4_000), "{foretold:?}");
    assert_eq!(kitchen.sounds, 1);
}
