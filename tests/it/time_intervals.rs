//! What the program says of time, held against worlds in which the truth is known.
//!
//! The worlds have what is published of clocks: a crystal that a time server may bend by up to 500 in a million
//! (`adjtimex(2)`), boards without a battery clock that come up with a saved time behind the truth
//! (`systemd-timesyncd(8)`), battery clocks that drift or are kept in local time (`hwclock(8)`), clocks set by hand.

use std::sync::Arc;

use potside::craft::time::{Moment, Span, Stretch};
use potside::machine::away::{Boot, Stamp, WallClock, away, wall_step};
use potside::machine::clock::Served;
use potside::machine::{Ask, Input, Machine, PotNo, ReturnAnswer, What};
use potside::sheet::plan::{Plan, StepAct};

use super::support::dice::{Dice, rounds};
use super::support::plans::{alum_bath, celsius};

const MINUTE: u64 = 60_000;
const HOUR: u64 = 60 * MINUTE;
const DAY: u64 = 24 * HOUR;

/// A machine in a world that knows what time it is.
struct World {
    dice: Dice,
    truth_ms: i64,
    boots: u32,
    /// Truth at the start of the machine, and its crystal, in parts of a million fast.
    booted_ms: i64,
    fast: i64,
    /// What the wall clock shows more than the truth, and whether a time server has set it.
    wall_off: i64,
    wall: WallClock,
    battery: bool,
    saved_ms: i64,
}

impl World {
    fn new(seed: u64) -> Self {
        let mut dice = Dice::new(seed);
        let battery = dice.once_in(2);
        let mut world = Self {
            dice,
            truth_ms: 1_790_000_000_000,
            boots: 0,
            booted_ms: 0,
            fast: 0,
            wall_off: 0,
            wall: WallClock::NotKnown,
            battery,
            saved_ms: 1_789_990_000_000,
        };
        world.boot();
        world
    }

    fn boot(&mut self) {
        self.boots += 1;
        self.booted_ms = self.truth_ms;
        self.fast = self.dice.between(0, 1_000) as i64 - 500;
        self.wall = WallClock::NotKnown;
        self.wall_off = if self.battery {
            // A battery clock: some seconds off, or hours where it is kept in local time, or dead.
            match self.dice.between(0, 3) {
                0 => self.dice.between(0, 28) as i64 * HOUR as i64 - 14 * HOUR as i64,
                1 => -self.truth_ms,
                _ => self.dice.between(0, 120_000) as i64 - 60_000,
            }
        } else {
            self.saved_ms - self.truth_ms
        };
    }

    fn pass(&mut self, ms: u64) {
        self.truth_ms += ms as i64;
        if self.wall == WallClock::Synchronised {
            self.wall_off = self.dice.between(0, 2_000) as i64 - 1_000;
        }
        if self.dice.once_in(3) {
            self.saved_ms = (self.truth_ms + self.wall_off).max(self.saved_ms);
        }
    }

    fn synchronise(&mut self) {
        self.wall = WallClock::Synchronised;
        self.wall_off = self.dice.between(0, 2_000) as i64 - 1_000;
    }

    /// Somebody sets the clock; nobody vouches for it from then on.
    fn set_by_hand(&mut self) {
        self.wall = WallClock::NotKnown;
        self.wall_off = self.dice.between(0, 20 * 365 * DAY) as i64 - 10 * 365 * DAY as i64;
    }

    fn stamp(&self) -> Stamp {
        let up = self.truth_ms - self.booted_ms;
        Stamp {
            at: Moment {
                stretch: Stretch(self.boots),
                steady_ms: (up + up * self.fast / 1_000_000) as u64,
                wall_ms: self.truth_ms + self.wall_off,
            },
            wall: self.wall,
        }
    }
}

#[derive(Default, Debug)]
struct Tally {
    exact: u64,
    bounded: u64,
    open: u64,
}

/// One history: the program runs, goes away in some way, and says how long it was.
fn history(seed: u64, tally: &mut Tally) {
    let mut world = World::new(seed);
    let running = world.dice.between(0, 3 * DAY);
    world.pass(running);
    if world.dice.once_in(2) {
        world.synchronise();
    }
    for _ in 0..world.dice.between(0, 4) {
        match world.dice.between(0, 3) {
            0 => world.set_by_hand(),
            1 => world.synchronise(),
            _ => {}
        }
        let ms = world.dice.between(0, 10 * MINUTE);
        world.pass(ms);
    }
    let (last, last_truth, last_boot) = (world.stamp(), world.truth_ms, world.boots);
    // Away: some seconds to some weeks, with any number of starts in between, each of which may find a time server.
    for _ in 0..world.dice.between(0, 3) {
        let unit = world.dice.one_of(&[1_000, MINUTE, HOUR, DAY]);
        let off = world.dice.between(0, 20) * unit;
        world.pass(off);
        match world.dice.between(0, 5) {
            0 | 1 => world.boot(),
            2 => world.set_by_hand(),
            3 => world.synchronise(),
            // A suspend or a stall: the steady clock runs on.
            _ => {}
        }
        let up = world.dice.between(0, 10 * MINUTE);
        world.pass(up);
        if world.dice.once_in(3) {
            world.synchronise();
        }
    }
    let now = world.stamp();
    let boot = match (world.dice.once_in(5), world.boots == last_boot) {
        (true, _) => Boot::NotKnown,
        (false, true) => Boot::Same,
        (false, false) => Boot::Another,
    };
    let truth = (world.truth_ms - last_truth) as u64;
    let (least, most) = away(last, now, boot);
    let told = format!("history {seed}: {least:?} to {most:?}, truly {truth} ms; {last:?} {now:?} {boot:?}");
    if boot == Boot::Same {
        // As good as the crystal: no better clock is there.
        assert!(least.ms().abs_diff(truth) <= truth / 2_000 + 2, "{told}");
        assert_eq!(Some(least), most, "{told}");
        tally.exact += 1;
        return;
    }
    assert!(least.ms() <= truth + 1, "{told}");
    assert!(most.is_none_or(|most| truth <= most.ms()), "{told}");
    let believed = last.wall == WallClock::Synchronised && now.wall == WallClock::Synchronised;
    assert_eq!(most.is_some(), believed, "{told}");
    if let Some(most) = most {
        assert!(most.less(least).ms() <= 4_000, "{told}");
        tally.bounded += 1;
    } else {
        tally.open += 1;
    }
    if boot == Boot::Another {
        assert!(least.ms() + least.ms() / 500 + 2 >= now.at.steady_ms, "{told}");
    }
}

#[test]
fn what_is_said_of_the_time_away_always_holds_the_truth() {
    let mut tally = Tally::default();
    let histories = rounds(100_000);
    for seed in 0..histories {
        history(seed, &mut tally);
    }
    println!("{histories} histories: {tally:?}");
    for some in [tally.exact, tally.bounded, tally.open] {
        assert!(some > histories / 50, "every case comes up: {tally:?}");
    }
}

fn at(stretch: u32, steady_ms: u64, wall_ms: i64) -> Moment {
    Moment {
        stretch: Stretch(stretch),
        steady_ms,
        wall_ms,
    }
}

fn stamp(steady_ms: u64, wall_ms: i64, wall: WallClock) -> Stamp {
    Stamp {
        at: at(0, steady_ms, wall_ms),
        wall,
    }
}

#[test]
fn the_time_away_case_by_case() {
    use WallClock::{NotKnown, Synchronised};
    let ms = Span::from_ms;
    let hour = 3_600_000;
    let last = |wall| stamp(5_000_000, 0, wall);
    // Each row: last, now, boot, at least, at most.
    let table = [
        // The same start: the steady clock, whatever the wall clock shows.
        (
            last(NotKnown),
            stamp(5_600_000, -hour, NotKnown),
            Boot::Same,
            ms(600_000),
            Some(ms(600_000)),
        ),
        (
            last(Synchronised),
            stamp(5_000_000, hour, Synchronised),
            Boot::Same,
            ms(0),
            Some(ms(0)),
        ),
        // A steady clock that ran backwards is no witness.
        (
            last(NotKnown),
            stamp(4_000_000, hour, NotKnown),
            Boot::Same,
            ms(0),
            None,
        ),
        // Another start: its uptime, less 500 in a million.
        (
            last(NotKnown),
            stamp(40_000, hour, NotKnown),
            Boot::Another,
            ms(39_980),
            None,
        ),
        (
            last(Synchronised),
            stamp(40_000, hour, NotKnown),
            Boot::Another,
            ms(39_980),
            None,
        ),
        (
            last(NotKnown),
            stamp(40_000, hour, Synchronised),
            Boot::Another,
            ms(39_980),
            None,
        ),
        // A saved clock that says less than the uptime is not listened to.
        (
            last(NotKnown),
            stamp(6_000_000, 10_000, NotKnown),
            Boot::Another,
            ms(5_997_000),
            None,
        ),
        // Both set by a time server.
        (
            last(Synchronised),
            stamp(40_000, hour, Synchronised),
            Boot::Another,
            ms(3_598_000),
            Some(ms(3_602_000)),
        ),
        (
            last(Synchronised),
            stamp(40_000, 39_000, Synchronised),
            Boot::Another,
            ms(39_980),
            Some(ms(41_000)),
        ),
        (
            last(Synchronised),
            stamp(40_000, 37_980, Synchronised),
            Boot::Another,
            ms(39_980),
            Some(ms(39_980)),
        ),
        // They contradict what is sure, or run backwards.
        (
            last(Synchronised),
            stamp(40_000, 37_979, Synchronised),
            Boot::Another,
            ms(39_980),
            None,
        ),
        (
            last(Synchronised),
            stamp(40_000, -1, Synchronised),
            Boot::Another,
            ms(39_980),
            None,
        ),
        // Backwards by no more than both may be off together.
        (
            last(Synchronised),
            stamp(5_000_100, -1_500, Synchronised),
            Boot::NotKnown,
            ms(99),
            Some(ms(500)),
        ),
        // Not known which: a machine that has been up for long may have been up all the time.
        (
            last(NotKnown),
            stamp(5_060_000, 0, NotKnown),
            Boot::NotKnown,
            ms(59_970),
            None,
        ),
        (
            last(NotKnown),
            stamp(40_000, 0, NotKnown),
            Boot::NotKnown,
            ms(39_980),
            None,
        ),
    ];
    for (last, now, boot, least, most) in table {
        assert_eq!(away(last, now, boot), (least, most), "{last:?} {now:?} {boot:?}");
    }
}

#[test]
fn a_wall_clock_that_was_set_is_noticed_and_one_that_creeps_is_not() {
    // Each row: steady milliseconds passed, wall milliseconds passed, what is noticed.
    let hour = 3_600_000;
    let table = [
        (1_000, 1_000, None),
        (1_000, 3_000, None),
        (1_000, 3_001, Some(2_001)),
        (1_000, -1_000, None),
        (1_000, -1_001, Some(-2_001)),
        (1_000, 1_000 + hour, Some(hour)),
        (1_000, 1_000 - hour, Some(-hour)),
        (10 * hour, 10 * hour + 20_000, None),
        (10 * hour, 10 * hour + 20_001, Some(20_001)),
        (10 * hour, 10 * hour - 20_001, Some(-20_001)),
    ];
    for (steady, wall, noticed) in table {
        let (before, after) = (at(3, 700, 50), at(3, 700 + steady as u64, 50 + wall));
        assert_eq!(wall_step(before, after), noticed, "{steady} {wall}");
    }
    assert_eq!(
        wall_step(at(3, 0, 0), at(4, 1_000, hour)),
        None,
        "two stretches have no common measure"
    );
    assert_eq!(wall_step(at(0, 0, i64::MIN), at(0, 0, i64::MAX)), Some(i64::MAX));
    assert_eq!(wall_step(at(0, 0, i64::MAX), at(0, 0, i64::MIN)), Some(i64::MIN));
}

/// A bath in a world of outages, driven as the keeper drives it, with an account of its own beside it.
struct Bath {
    machine: Machine,
    now: Moment,
    beaten: Moment,
    /// What the hold may have earned: watched and hot, or stated by the dyer.
    most: Span,
    /// What it must have earned: all of that but the minute after the last record before each outage.
    least: Span,
    unbeaten: Span,
    counting: bool,
    reheating: bool,
    held_again: bool,
    /// The wall clock is set by this much at every outage and in between.
    step_ms: i64,
}

const POT: PotNo = PotNo(1);

impl Bath {
    /// At the beginning of its hold.
    fn new(plan: &Arc<Plan>, step_ms: i64) -> Self {
        let now = at(0, 1_000_000, 0);
        let mut bath = Self {
            machine: Machine::default(),
            now,
            beaten: now,
            most: Span::NONE,
            least: Span::NONE,
            unbeaten: Span::NONE,
            counting: false,
            reheating: false,
            held_again: false,
            step_ms,
        };
        bath.take(&Input::Begin {
            pot: POT,
            bath_id: "bath".into(),
            plan: Arc::clone(plan),
            cautions_read: true,
        });
        while bath.machine.pot(POT).unwrap().stand.hold.is_none() {
            bath.confirm();
        }
        bath.counting = true;
        bath
    }

    fn take(&mut self, input: &Input) -> Vec<What> {
        let events = self.machine.judge(input, self.now).unwrap();
        for event in &events {
            self.machine.apply(event);
        }
        events.into_iter().map(|event| event.what).collect()
    }

    fn confirm(&mut self) {
        let step = self.machine.pot(POT).unwrap().stand.step;
        self.take(&Input::Pot(POT, Ask::Confirm { step, sure: true }));
    }

    fn at_hold(&self) -> bool {
        let run = self.machine.pot(POT).unwrap();
        matches!(run.step().map(|step| &step.act), Some(StepAct::Hold { .. }))
    }

    /// Time with the program there: ticks when something is due, beats every minute.
    fn watch(&mut self, span: Span) {
        self.now.wall_ms += self.step_ms;
        let mut left = span;
        while left > Span::NONE {
            let step = left.least(Span::from_seconds(20));
            left = left.less(step);
            self.now = self.now.plus(step);
            if self.counting {
                self.most = self.most.plus(step);
                self.unbeaten = self.unbeaten.plus(step);
            }
            if self.now.since(self.beaten) >= Span::from_minutes(1) {
                self.take(&Input::Beat);
                self.recorded();
            }
            if !self.take(&Input::Tick).is_empty() {
                self.recorded();
            }
        }
    }

    fn recorded(&mut self) {
        self.beaten = self.now;
        self.least = self.least.plus(self.unbeaten);
        self.unbeaten = Span::NONE;
    }

    /// Away: by a restart, after which the steady clock may stand anywhere, or by a suspend on the same stretch.
    fn away(&mut self, dice: &mut Dice, span: Span) {
        let wall_ms = self.now.wall_ms + span.ms() as i64 + self.step_ms;
        if dice.once_in(2) {
            let steady_ms = dice.between(0, 2_000_000);
            self.now = at(self.now.stretch.0 + 1, steady_ms, wall_ms);
        } else {
            // The last look before it is written down.
            self.take(&Input::Beat);
            self.recorded();
            let steady_ms = self.now.steady_ms + span.ms();
            self.now = at(self.now.stretch.0, steady_ms, wall_ms);
        }
        self.unbeaten = Span::NONE;
        self.counting = false;
        let at_most = dice.once_in(2).then_some(span);
        self.take(&Input::Returned {
            at_least: span,
            at_most,
        });
        self.recorded();
        self.take(&Input::Tick);
    }

    fn answer(&mut self, answer: ReturnAnswer) {
        let counted = self.machine.pot(POT).unwrap().outage.unwrap().at_least;
        self.take(&Input::Pot(POT, Ask::AnswerReturn(answer)));
        match answer {
            ReturnAnswer::CarryOn => {}
            ReturnAnswer::CountIt => {
                self.most = self.most.plus(counted);
                self.least = self.least.plus(counted);
            }
            ReturnAnswer::HoldAgain => {
                (self.most, self.least, self.reheating) = (Span::NONE, Span::NONE, false);
                self.held_again = true;
            }
            ReturnAnswer::BackToRaise => self.reheating = true,
        }
        self.counting = !self.reheating;
        self.recorded();
    }

    fn held(&self) -> Span {
        let hold = self.machine.pot(POT).unwrap().stand.hold.unwrap();
        hold.held.at(self.now)
    }

    /// What must not depend on the wall clock: facts with their steady times, the account, the calls, the deadline.
    fn outline(&self) -> String {
        let run = self.machine.pot(POT).unwrap();
        let facts: Vec<_> = run
            .log
            .iter()
            .map(|event| (event.at.stretch, event.at.steady_ms, &event.what))
            .collect();
        let calls: Vec<_> = run
            .stand
            .calls
            .iter()
            .map(|call| (call.kind, call.since.steady_ms))
            .collect();
        let next = self
            .machine
            .next_deadline(self.now)
            .map(|(at, why)| (at.steady_ms, why));
        format!(
            "{facts:?} {calls:?} {next:?} {:?}",
            run.stand.hold.map(|hold| hold.held.at(self.now))
        )
    }
}

/// Some hours of a hold with outages, the same for the same seed.
fn hours(seed: u64, plan: &Arc<Plan>, step_ms: i64) -> Bath {
    let mut dice = Dice::new(seed);
    let mut bath = Bath::new(plan, step_ms);
    for _ in 0..dice.between(3, 10) {
        let watched = Span::from_seconds(dice.between(0, 600));
        bath.watch(watched);
        for _ in 0..dice.between(1, 2) {
            let gone = Span::from_seconds(dice.between(20, 6 * 3_600));
            bath.away(&mut dice, gone);
            let unanswered = Span::from_seconds(dice.between(0, 300));
            bath.watch(unanswered);
        }
        if dice.once_in(4) {
            bath.take(&Input::Pot(POT, Ask::Reading(celsius(82.0))));
            bath.recorded();
        }
        let answer = dice.one_of(&[
            ReturnAnswer::CarryOn,
            ReturnAnswer::CarryOn,
            ReturnAnswer::CarryOn,
            ReturnAnswer::HoldAgain,
            ReturnAnswer::BackToRaise,
            ReturnAnswer::CountIt,
        ]);
        bath.answer(answer);
        if bath.reheating {
            let heating = Span::from_seconds(dice.between(0, 900));
            bath.watch(heating);
            bath.confirm();
            (bath.reheating, bath.counting) = (false, true);
            bath.recorded();
        }
        assert!(bath.at_hold(), "nothing but a hand ends the hold");
        let (held, most, least) = (bath.held(), bath.most, bath.least.plus(bath.unbeaten));
        assert!(
            held <= most,
            "seed {seed}: {held:?} of {most:?}: time through an outage was earned"
        );
        assert!(
            held >= least,
            "seed {seed}: {held:?} of {least:?}: time that was watched is lost"
        );
    }
    bath
}

#[test]
fn a_hold_earns_nothing_while_nobody_watches() {
    let plan = alum_bath();
    let mut again = 0;
    for seed in 0..rounds(400) {
        again += u64::from(hours(seed, &plan, 0).held_again);
    }
    assert!(again > 0, "every answer comes up");
}

#[test]
fn a_wall_clock_that_steps_changes_labels_only() {
    let plan = alum_bath();
    for seed in 0..rounds(100) {
        let still = hours(seed, &plan, 0).outline();
        for step_ms in [3_600_000, -3_600_000, 10 * 365 * DAY as i64, -1_790_000_000_000] {
            assert_eq!(
                hours(seed, &plan, step_ms).outline(),
                still,
                "seed {seed}, step {step_ms}"
            );
        }
    }
}

#[test]
fn a_count_adds_what_is_measured_and_what_is_stated_and_nothing_else() {
    let seconds = Span::from_seconds;
    let mut count = Served::default();
    assert_eq!(
        (
            count.at(at(0, 9_000, 0)),
            count.is_running(),
            count.reaches(seconds(5))
        ),
        (Span::NONE, false, None)
    );
    count.resume(at(0, 10_000, 0));
    assert!(count.is_running());
    assert_eq!(count.at(at(0, 14_000, 0)), seconds(4));
    assert_eq!(
        count.at(at(1, 99_000, 0)),
        Span::NONE,
        "two stretches have no common measure"
    );
    count.resume(at(0, 12_000, 0));
    assert_eq!(count.at(at(0, 14_000, 0)), seconds(4), "it counts already");
    count.settle(at(0, 14_000, 0));
    assert!(!count.is_running());
    assert_eq!(count.at(at(0, 50_000, 0)), seconds(4), "it stands still");
    count.credit(seconds(6));
    count.resume(at(1, 1_000, 0));
    assert_eq!(count.at(at(1, 3_000, 0)), seconds(12));
    count.resume(at(2, 5_000, 0));
    assert_eq!(
        count.at(at(2, 5_500, 0)).ms(),
        10_500,
        "what ran on the stretch before is gone unless it was settled"
    );
    assert_eq!(count.reaches(seconds(12)), Some(at(2, 7_000, 2_000)));
    assert_eq!(
        count.reaches(seconds(3)),
        Some(at(2, 5_000, 0)),
        "reached already"
    );
    assert_eq!(Served::from(at(0, 500, 0)).at(at(0, 700, 0)).ms(), 200);
}

#[test]
fn spans_add_up_and_never_wrap() {
    let ms = Span::from_ms;
    assert_eq!(
        (Span::from_minutes(2), Span::from_seconds(3)),
        (ms(120_000), ms(3_000))
    );
    assert_eq!(
        (ms(7).plus(ms(5)), ms(7).less(ms(5)), ms(5).less(ms(7))),
        (ms(12), ms(2), Span::NONE)
    );
    assert_eq!((ms(7).least(ms(5)), ms(5).least(ms(7))), (ms(5), ms(5)));
    assert_eq!(Span::from_minutes(u64::MAX), ms(u64::MAX));
    assert_eq!(ms(u64::MAX).plus(ms(1)), ms(u64::MAX));
    assert_eq!(ms(90_000).minutes(), 1.5);
    assert_eq!(Span::from_fractional_minutes(1.5), ms(90_000));
    assert_eq!(
        Span::from_fractional_minutes(0.000_009),
        ms(1),
        "to the nearest millisecond"
    );
    for none in [-1.0, f64::NAN, f64::NEG_INFINITY] {
        assert_eq!(Span::from_fractional_minutes(none), Span::NONE);
    }
    let late = at(0, u64::MAX - 1, i64::MAX - 1).plus(ms(u64::MAX));
    assert_eq!(late, at(0, u64::MAX, i64::MAX));
    assert_eq!(at(0, 5_000, 7).plus(ms(250)), at(0, 5_250, 257));
    assert_eq!(
        (at(0, 9, 0).since(at(0, 4, 0)), at(0, 4, 0).since(at(0, 9, 0))),
        (ms(5), Span::NONE)
    );
    assert_eq!(at(1, 9, 0).since(at(0, 4, 0)), Span::NONE);
}

/// Back with the program, on the same stretch or the next, some minutes after it went.
fn come_back(bath: &mut Bath, stretch: u32, minutes: u64) {
    let gone = Span::from_minutes(minutes);
    // The last record before it.
    bath.take(&Input::Beat);
    let ran_on = stretch == bath.now.stretch.0;
    let steady_ms = if ran_on {
        bath.now.plus(gone).steady_ms
    } else {
        50_000
    };
    bath.now = at(stretch, steady_ms, bath.now.wall_ms);
    bath.take(&Input::Returned {
        at_least: gone,
        at_most: Some(gone),
    });
    bath.recorded();
}

#[test]
fn absences_before_one_answer_are_one_absence() {
    let mut bath = Bath::new(&alum_bath(), 0);
    bath.watch(Span::from_minutes(5));
    let last = bath.machine.pot(POT).unwrap().last_at;
    come_back(&mut bath, 1, 180);
    bath.watch(Span::from_minutes(3));
    come_back(&mut bath, 2, 1);
    let outage = bath.machine.pot(POT).unwrap().outage.unwrap();
    assert_eq!(outage.last, last);
    assert_eq!(
        (outage.at_least, outage.at_most),
        (Span::from_minutes(184), Some(Span::from_minutes(184)))
    );
    // One that nobody knows the length of has no upper end, and gives none to the sum.
    bath.now = at(3, 9_000, 0);
    bath.take(&Input::Returned {
        at_least: Span::NONE,
        at_most: None,
    });
    let outage = bath.machine.pot(POT).unwrap().outage.unwrap();
    assert_eq!((outage.at_least, outage.at_most), (Span::from_minutes(184), None));
}

#[test]
fn a_suspend_is_told_like_any_absence() {
    let zone = chrono::FixedOffset::east_opt(0).unwrap();
    let mut bath = Bath::new(&alum_bath(), 0);
    bath.take(&Input::Pot(POT, Ask::Reading(celsius(84.0))));
    bath.watch(Span::from_minutes(2));
    come_back(&mut bath, 0, 180);
    let run = bath.machine.pot(POT).unwrap();
    // A reading of before the suspend says nothing of where the bath is now.
    let probably = potside::view::probably::probably(run);
    let (coldest, hottest) = probably.unwrap();
    assert!(
        coldest.celsius() < 60.0 && hottest > coldest,
        "{coldest:?} to {hottest:?}"
    );
    let card =
        potside::view::returned::screen(run, potside::view::locale::Locale::plain(zone), probably).unwrap();
    assert!(card.last_saved.contains("reading 84"), "{}", card.last_saved);
    bath.take(&Input::Pot(POT, Ask::Reading(celsius(70.0))));
    let run = bath.machine.pot(POT).unwrap();
    assert_eq!(
        potside::view::probably::probably(run),
        Some((celsius(70.0), celsius(70.0)))
    );
    // And what is read below the floor after it stops the hold, what was read before doesn't.
    bath.answer(ReturnAnswer::CarryOn);
    assert!(bath.machine.pot(POT).unwrap().stand.hold.unwrap().reheating);
}

#[test]
fn a_low_reading_of_before_a_suspend_stops_nothing_after_it() {
    let mut bath = Bath::new(&alum_bath(), 0);
    bath.take(&Input::Pot(POT, Ask::Reading(celsius(70.0))));
    bath.confirm();
    come_back(&mut bath, 0, 30);
    bath.answer(ReturnAnswer::CarryOn);
    assert!(!bath.machine.pot(POT).unwrap().stand.hold.unwrap().reheating);
}
