//! The clocks of the simulated kitchen, and the true time that nobody in it can see.

use std::cell::RefCell;
use std::rc::Rc;

use potside::craft::time::{Moment, Span, Stretch};
use potside::keeper::{Clock, Look};
use potside::machine::away::WallClock;

use super::flaw::Flaw;

#[derive(Debug, Clone, Copy)]
pub struct Times {
    pub boot: u32,
    pub steady_ms: u64,
    pub slept_ms: u64,
    pub wall_ms: i64,
    /// What a perfect watch outside would show.
    pub true_ms: u64,
    /// How long a program has been running and awake, over all runs.
    pub awake_ms: u64,
    /// How the wall clock is known. Truly so: whoever sets it by hand has to send the time server away first, as
    /// `timedatectl(1)` asks.
    pub wall: WallClock,
}

/// What the wall clock shows when it is right, at the true time 0.
const TRUE_WALL_MS: i64 = 1_786_650_000_000;

#[derive(Debug, Clone)]
pub struct Clocks {
    times: Rc<RefCell<Times>>,
    /// So long after the machine is started a time server is reached.
    served_after_ms: Option<u64>,
}

impl Clocks {
    /// No time server reaches this kitchen.
    pub fn new() -> Self {
        Self::served(None)
    }

    pub fn served(served_after_ms: Option<u64>) -> Self {
        let times = Times {
            boot: 1,
            steady_ms: 40_000,
            slept_ms: 0,
            wall_ms: 1_787_650_000_000,
            true_ms: 1_000_000_000,
            awake_ms: 0,
            wall: WallClock::NotKnown,
        };
        Self {
            times: Rc::new(RefCell::new(times)),
            served_after_ms,
        }
    }

    pub fn times(&self) -> Times {
        *self.times.borrow()
    }

    /// The program runs.
    pub fn pass(&self, ms: u64) {
        self.on(ms);
        self.times.borrow_mut().awake_ms += ms;
    }

    /// The machine is suspended.
    pub fn suspend(&self, ms: u64) {
        self.on(ms);
        self.times.borrow_mut().slept_ms += ms;
    }

    /// The program is gone, the machine runs.
    pub fn idle(&self, ms: u64) {
        self.on(ms);
    }

    /// The power is gone, then the machine has been up for a while. Without a clock on a battery the wall clock goes
    /// on from where it was.
    pub fn outage(&self, off_ms: u64, up_ms: u64, has_battery: bool) {
        let mut times = self.times.borrow_mut();
        times.boot += 1;
        times.wall = WallClock::NotKnown;
        times.steady_ms = up_ms;
        times.slept_ms = 0;
        times.true_ms += off_ms + up_ms;
        times.wall_ms += up_ms as i64 + if has_battery { off_ms as i64 } else { 0 };
        self.serve(&mut times, 0);
    }

    /// A hand sets the wall clock.
    pub fn step_wall(&self, ms: i64) {
        let mut times = self.times.borrow_mut();
        times.wall_ms += ms;
        times.wall = WallClock::NotKnown;
    }

    fn on(&self, ms: u64) {
        let mut times = self.times.borrow_mut();
        let before_ms = times.steady_ms;
        times.steady_ms += ms;
        times.true_ms += ms;
        times.wall_ms += ms as i64;
        self.serve(&mut times, before_ms);
    }

    /// The time server sets the wall clock at its moment, once for each start of the machine.
    fn serve(&self, times: &mut Times, before_ms: u64) {
        let reached = |at: &u64| before_ms < *at && *at <= times.steady_ms;
        if self.served_after_ms.as_ref().is_some_and(reached) {
            times.wall_ms = TRUE_WALL_MS + times.true_ms as i64;
            times.wall = WallClock::Synchronised;
        }
    }
}

/// The clock that the keeper is handed.
pub struct SimClock {
    pub clocks: Clocks,
    pub stretch: Stretch,
    pub flaw: Flaw,
}

impl Clock for SimClock {
    fn look(&self) -> Look {
        let times = self.clocks.times();
        let steady_ms = match self.flaw {
            Flaw::WallClockForDeadlines => u64::try_from(times.wall_ms).unwrap_or(0),
            Flaw::SuspendIgnored => times.steady_ms - times.slept_ms,
            _ => times.steady_ms,
        };
        let slept_ms = match self.flaw {
            Flaw::SuspendIgnored => 0,
            _ => times.slept_ms,
        };
        Look {
            now: Moment {
                stretch: self.stretch,
                steady_ms,
                wall_ms: times.wall_ms,
            },
            slept: Span::from_ms(slept_ms),
            wall: times.wall,
        }
    }
}
