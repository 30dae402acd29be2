//! What counts as a firm tap, tried with the touches that nobody made and with those that somebody did.
//!
//! The ghosts follow what owners of small touch panels have reported: taps of no length at a steady beat, bursts in a
//! corner at coordinates far off the panel, contacts that never lift, drops that crawl (public reports against panel
//! drivers; the figures beside the patterns). Slab size: 20 mm, from which a larger one gained nothing more in W3C's
//! summary of target-size research. The rest is common practice, no source.

use potside::view::firm_tap::{FirmTaps, Firmness, Phase, Touch, Verdict};

use super::support::dice::{Dice, rounds};

const SLAB_MM: f64 = 20.0;
const DAY_MS: u64 = 24 * 3_600_000;

/// A hand, or a ghost, on the glass: writes reports in the order of their time.
struct Glass {
    now_ms: u64,
    reports: Vec<Touch>,
}

impl Glass {
    fn new(now_ms: u64) -> Self {
        Self {
            now_ms,
            reports: Vec::new(),
        }
    }

    fn wait(&mut self, ms: u64) -> &mut Self {
        self.now_ms += ms;
        self
    }

    fn report(&mut self, key: &str, finger: i32, phase: Phase, place: (f64, f64)) -> &mut Self {
        let inside = (0.0..=SLAB_MM).contains(&place.0) && (0.0..=SLAB_MM).contains(&place.1);
        self.forced(key, finger, phase, place, inside)
    }

    fn forced(&mut self, key: &str, finger: i32, phase: Phase, place: (f64, f64), inside: bool) -> &mut Self {
        self.reports.push(Touch {
            key: key.to_owned(),
            phase,
            x_mm: place.0,
            y_mm: place.1,
            inside,
            finger,
            at_ms: self.now_ms,
        });
        self
    }
}

/// All verdicts but *nothing yet*. The lock is looked at before each report, as a screen that is painted every second does.
fn verdicts(taps: &mut FirmTaps, reports: &[Touch]) -> Vec<(u64, Verdict)> {
    let mut said = Vec::new();
    for report in reports {
        taps.is_locked(report.at_ms);
        let verdict = taps.touch(report);
        if verdict != Verdict::Nothing {
            said.push((report.at_ms, verdict));
        }
    }
    said
}

fn confirms(said: &[(u64, Verdict)]) -> usize {
    let is_confirm = |said: &&(u64, Verdict)| matches!(said.1, Verdict::Confirmed(_));
    said.iter().filter(is_confirm).count()
}

const MID: (f64, f64) = (10.0, 10.0);

/// One touch that isn't a firm tap, in one of the ways there are.
fn ghost(glass: &mut Glass, dice: &mut Dice, firmness: Firmness) {
    let held = dice.between(firmness.hold_ms, firmness.stuck_ms);
    let short = dice.between(0, firmness.hold_ms - 1);
    let place = (dice.real(0.0, SLAB_MM), dice.real(0.0, SLAB_MM));
    let finger = i32::try_from(dice.between(0, 3)).unwrap();
    let key = dice.one_of(&["a", "b"]);
    let down = |glass: &mut Glass| {
        glass.report(key, finger, Phase::Down, place);
    };
    match dice.between(0, 11) {
        0 => {
            down(glass);
            glass.report(key, finger, Phase::Up, place);
        }
        1 => {
            down(glass);
            glass.wait(short).report(key, finger, Phase::Up, place);
        }
        2 => {
            down(glass);
            let stuck = dice.between(firmness.stuck_ms + 1, firmness.stuck_ms * 3);
            glass.wait(stuck).report(key, finger, Phase::Up, place);
        }
        3 => {
            // A drop crawls out of the way and back again.
            down(glass);
            let there = (
                place.0,
                if place.1 < 10.0 {
                    place.1 + 8.01
                } else {
                    place.1 - 8.01
                },
            );
            glass.wait(held / 2).report(key, finger, Phase::Moved, there);
            glass.wait(held - held / 2).report(key, finger, Phase::Up, place);
        }
        4 => {
            down(glass);
            glass
                .wait(held / 2)
                .forced(key, finger, Phase::Moved, place, false);
            glass.wait(held - held / 2).report(key, finger, Phase::Up, place);
        }
        5 => {
            down(glass);
            glass.wait(held).forced(key, finger, Phase::Up, place, false);
        }
        6 => {
            // Two at once, in either order of lifting.
            down(glass);
            glass.wait(held / 2).report(key, finger + 1, Phase::Down, place);
            let first = i32::from(dice.once_in(2));
            glass.wait(held).report(key, finger + first, Phase::Up, place);
            glass.report(key, finger + 1 - first, Phase::Up, place);
        }
        7 => {
            down(glass);
            let other = if key == "a" { "b" } else { "a" };
            glass.wait(held).report(other, finger, Phase::Up, place);
        }
        8 => {
            down(glass);
            glass.wait(held).report(key, finger, Phase::Cancelled, place);
            glass.report(key, finger, Phase::Up, place);
        }
        9 => {
            // It never began: a finger that no other ghost has.
            glass.report(key, 9, Phase::Moved, place);
            glass.wait(held).report(key, 9, Phase::Up, place);
        }
        10 => {
            // Off the panel, or nowhere, although the report claims the slab.
            let nowhere = dice.one_of(&[
                (f64::NAN, 5.0),
                (5.0, f64::INFINITY),
                (f64::NEG_INFINITY, f64::NAN),
            ]);
            glass.forced(key, finger, Phase::Down, nowhere, true);
            glass.wait(held).forced(key, finger, Phase::Up, nowhere, true);
        }
        _ => {
            // It never lifts.
            down(glass);
        }
    }
}

#[test]
fn a_stream_without_a_clean_press_never_confirms() {
    let mut dice = Dice::new(1);
    let (mut reports, mut storms) = (0, 0);
    let streams = rounds(50_000);
    for stream in 0..streams {
        let firmness = dice.one_of(&[Firmness::USUAL, Firmness::WET_HANDS]);
        let mut glass = Glass::new(dice.between(0, 1 << 40));
        for _ in 0..dice.between(1, 8) {
            ghost(&mut glass, &mut dice, firmness);
            glass.wait(dice.one_of(&[0, 1, 20, 300, 1_500, 5_000]));
        }
        let said = verdicts(&mut FirmTaps::new(firmness), &glass.reports);
        assert_eq!(confirms(&said), 0, "stream {stream}: {:#?}", glass.reports);
        reports += glass.reports.len();
        storms += said.len();
    }
    assert!(
        reports as u64 > streams * 4,
        "streams of some length: {reports} reports"
    );
    assert!(storms > 0, "contacts that never lift lock the glass");
    println!("{streams} streams, {reports} reports, {storms} locks, 0 confirms");
}

/// The rule as a sentence, looking back over all that was reported, written without regard to how the program does it.
fn is_clean(reports: &[Touch], up: usize, since_ms: u64, firmness: Firmness) -> bool {
    let lift = &reports[up];
    let Some(down) = (0..up)
        .rev()
        .find(|one| reports[*one].phase == Phase::Down && reports[*one].finger == lift.finger)
    else {
        return false;
    };
    let press = &reports[down];
    let held = lift.at_ms - press.at_ms;
    let near = |one: &Touch| {
        let (x, y) = (one.x_mm - press.x_mm, one.y_mm - press.y_mm);
        one.inside && x * x + y * y < firmness.slip_mm * firmness.slip_mm
    };
    // A move of a finger that isn't there tells nothing.
    let others_gone = |finger: i32| {
        let told = |one: &&Touch| one.finger == finger && one.phase != Phase::Moved;
        let last = reports[..down].iter().rev().find(told);
        last.is_none_or(|one| one.phase != Phase::Down)
    };
    lift.phase == Phase::Up
        && press.key == lift.key
        && press.at_ms >= since_ms
        && firmness.hold_ms <= held
        && held <= firmness.stuck_ms
        && near(press)
        && near(lift)
        && reports[down + 1..up]
            .iter()
            .all(|one| one.finger == press.finger && one.phase == Phase::Moved && near(one))
        && (0..4).filter(|finger| *finger != press.finger).all(others_gone)
}

#[test]
fn whatever_is_reported_a_confirm_has_a_clean_press_behind_it() {
    let mut dice = Dice::new(2);
    let (mut count, streams) = (0, rounds(50_000));
    for stream in 0..streams {
        let firmness = dice.one_of(&[Firmness::USUAL, Firmness::WET_HANDS]);
        let mut glass = Glass::new(dice.between(0, 100_000));
        let mut place = MID;
        for _ in 0..dice.between(4, 14) {
            let phase = dice.one_of(&[
                Phase::Down,
                Phase::Down,
                Phase::Moved,
                Phase::Up,
                Phase::Up,
                Phase::Cancelled,
            ]);
            // Mostly one finger on one slab that hardly moves, or nothing would ever be clean.
            let finger = if dice.once_in(8) {
                i32::try_from(dice.between(1, 3)).unwrap()
            } else {
                0
            };
            let key = if dice.once_in(12) { "b" } else { "a" };
            if dice.once_in(4) {
                place = (dice.real(-2.0, 22.0), dice.real(-2.0, 22.0));
            }
            glass.report(key, finger, phase, place);
            glass.wait(dice.one_of(&[0, 40, 249, 250, 599, 600, 900, 1_000, 2_000, 4_000, 4_001]));
        }
        let mut taps = FirmTaps::new(firmness);
        let mut since_ms = 0;
        // What was reported since the glass was last locked: a wiped glass begins anew.
        let mut seen: Vec<Touch> = Vec::new();
        for report in glass.reports {
            let locked = taps.is_locked(report.at_ms);
            let verdict = taps.touch(&report);
            if locked || verdict == Verdict::Storm {
                seen.clear();
                assert!(!matches!(verdict, Verdict::Confirmed(_)), "stream {stream}");
                continue;
            }
            seen.push(report);
            if let Verdict::Confirmed(key) = verdict {
                count += 1;
                let last = seen.len() - 1;
                assert_eq!(key, seen[last].key);
                assert!(
                    is_clean(&seen, last, since_ms, firmness),
                    "stream {stream}: {seen:#?}"
                );
                since_ms = seen[last].at_ms + firmness.dead_ms;
            }
        }
    }
    assert!(count > streams / 100, "some of it is clean: {count} of {streams}");
    println!("{streams} streams, {count} confirms, each clean");
}

/// A day of one pattern. Each must lock the glass, or leave it open, but never confirm.
fn day(mut pattern: impl FnMut(&mut Glass)) -> (usize, usize) {
    let mut taps = FirmTaps::new(Firmness::USUAL);
    let (mut confirmed, mut locked, mut glass) = (0, 0, Glass::new(0));
    while glass.now_ms < DAY_MS {
        pattern(&mut glass);
        let said = verdicts(&mut taps, &std::mem::take(&mut glass.reports));
        confirmed += confirms(&said);
        locked += said.len() - confirms(&said);
    }
    (confirmed, locked)
}

#[test]
fn a_day_of_each_known_ghost_confirms_nothing() {
    let mut dice = Dice::new(3);
    // A tap of no length every 12.864 s: reported of a seven-inch panel that lay dry and untouched.
    let beat = day(|glass| {
        glass
            .report("a", 0, Phase::Down, MID)
            .report("a", 0, Phase::Up, MID);
        glass.wait(12_864);
    });
    assert_eq!(beat, (0, 0));
    // 2.2 a second in one corner, some with coordinates far off the panel: reported of its elder.
    let corner = day(|glass| {
        let place = dice.one_of(&[(0.0, 0.0), (499.0, -3616.0), (0.4, 0.2)]);
        glass.forced("a", 0, Phase::Down, place, true);
        glass
            .wait(dice.between(0, 40))
            .forced("a", 0, Phase::Up, place, true);
        glass.wait(dice.between(400, 470));
    });
    assert_eq!(corner, (0, 0));
    // A contact that never lifts, told again and again: the glass says that something lies on it.
    let stuck = day(|glass| {
        glass.report("a", 0, Phase::Down, MID);
        for _ in 0..2_000 {
            glass.wait(100).report("a", 0, Phase::Moved, MID);
        }
    });
    assert_eq!(stuck.0, 0);
    assert!(stuck.1 > 0, "it locks");
    // Bursts while the glass is wiped or splashed: many contacts for a second or two, then nothing for a while.
    let bursts = day(|glass| {
        for _ in 0..dice.between(5, 40) {
            let (finger, place) = (
                i32::try_from(dice.between(0, 9)).unwrap(),
                (dice.real(0.0, 20.0), dice.real(0.0, 20.0)),
            );
            let phase = dice.one_of(&[Phase::Down, Phase::Moved, Phase::Up]);
            glass
                .wait(dice.between(1, 90))
                .report(dice.one_of(&["a", "b", "c"]), finger, phase, place);
        }
        for finger in 0..10 {
            glass.report("a", finger, Phase::Up, MID);
        }
        glass.wait(dice.between(2_000, 60_000));
    });
    assert_eq!(bursts.0, 0);
    assert!(bursts.1 > 0, "it locks");
    // Two drops of steam crawl down at 2 to 6 mm a second, a third of the time across the edge of the slab.
    let drops = day(|glass| {
        let mut at = [(dice.real(0.0, 20.0), 0.0), (dice.real(0.0, 30.0), 0.0)];
        let speed = dice.real(2.0, 6.0);
        for (finger, place) in at.iter().enumerate() {
            glass.report("a", i32::try_from(finger).unwrap(), Phase::Down, *place);
        }
        for _ in 0..dice.between(60, 200) {
            glass.wait(50);
            for (finger, place) in at.iter_mut().enumerate() {
                place.1 += speed * 0.05;
                glass.report("a", i32::try_from(finger).unwrap(), Phase::Moved, *place);
            }
        }
        for (finger, place) in at.iter().enumerate() {
            glass.report("a", i32::try_from(finger).unwrap(), Phase::Up, *place);
        }
        glass.wait(dice.between(500, 20_000));
    });
    assert_eq!(drops.0, 0);
    // One drop alone, which crawls the 8 mm within its first seconds.
    let drop = day(|glass| {
        let mut place = (dice.real(0.0, 20.0), 0.0);
        glass.report("a", 0, Phase::Down, place);
        for _ in 0..30 {
            place.1 += 0.3;
            glass.wait(100).report("a", 0, Phase::Moved, place);
        }
        glass.report("a", 0, Phase::Up, place).wait(3_000);
    });
    assert_eq!(drop, (0, 0));
    // Noise at the edge: the contact flickers in and out of the slab.
    let edge = day(|glass| {
        let place = (0.0, dice.real(0.0, 20.0));
        glass.report("a", 0, Phase::Down, place);
        glass.wait(150).report("a", 0, Phase::Moved, (-0.3, place.1));
        glass.wait(150).report("a", 0, Phase::Up, place).wait(2_500);
    });
    assert_eq!(edge, (0, 0));
}

/// A press as a hand makes it: still but for a tremor, reported as it moves.
fn press(glass: &mut Glass, dice: &mut Dice, held: u64) {
    let (x, y) = (dice.real(0.0, SLAB_MM), dice.real(0.0, SLAB_MM));
    let finger = i32::try_from(dice.between(0, 4)).unwrap();
    glass.report("a", finger, Phase::Down, (x, y));
    let moves = dice.between(0, 20);
    let mut left = held;
    let tremor = |dice: &mut Dice| {
        let (angle, far) = (dice.real(0.0, std::f64::consts::TAU), dice.real(0.0, 7.99));
        // A tremor past the edge of the slab would be a lift outside it; hands aim at the middle, the edge counts too.
        (
            (x + far * angle.cos()).clamp(0.0, SLAB_MM),
            (y + far * angle.sin()).clamp(0.0, SLAB_MM),
        )
    };
    for _ in 0..moves {
        let step = (held / (moves + 1)).min(left);
        left -= step;
        let place = tremor(dice);
        glass.wait(step).report("a", finger, Phase::Moved, place);
    }
    let place = tremor(dice);
    glass.wait(left).report("a", finger, Phase::Up, place);
}

fn accepted(firmness: Firmness, held: std::ops::RangeInclusive<u64>, presses: usize) -> usize {
    let mut dice = Dice::new(4);
    let mut taps = FirmTaps::new(firmness);
    let mut glass = Glass::new(0);
    let mut count = 0;
    for _ in 0..presses {
        for _ in 0..dice.between(0, 5) {
            let place = (dice.real(-5.0, 25.0), dice.real(-5.0, 25.0));
            glass.report("a", 0, Phase::Down, place);
            glass.wait(dice.between(0, 60)).report("a", 0, Phase::Up, place);
            glass.wait(dice.between(0, 400));
        }
        let lasting = dice.between(*held.start(), *held.end());
        press(&mut glass, &mut dice, lasting);
        count += confirms(&verdicts(&mut taps, &std::mem::take(&mut glass.reports)));
        glass.wait(dice.between(1_000, 9_000));
    }
    count
}

#[test]
fn a_clean_press_is_taken() {
    let presses = 10_000;
    let usual = accepted(Firmness::USUAL, 260..=3_900, presses);
    let wet = accepted(Firmness::WET_HANDS, 610..=3_900, presses);
    println!("of {presses} clean presses {usual} were taken, with wet hands {wet}");
    assert!(usual * 1_000 >= presses * 999, "{usual}");
    assert!(wet * 1_000 >= presses * 999, "{wet}");
    assert_eq!(
        accepted(Firmness::WET_HANDS, 250..=599, presses),
        0,
        "wet hands press longer"
    );
}

/// What one press on a fresh glass comes to.
fn one(firmness: Firmness, held: u64, slip: f64) -> bool {
    let mut glass = Glass::new(5_000);
    glass.report("a", 0, Phase::Down, (2.0, 2.0));
    glass.wait(held).report("a", 0, Phase::Up, (2.0 + slip, 2.0));
    confirms(&verdicts(&mut FirmTaps::new(firmness), &glass.reports)) == 1
}

#[test]
fn the_measures_hold_to_the_millisecond() {
    let table: Vec<_> = [
        (249, 0.0),
        (250, 0.0),
        (4_000, 0.0),
        (4_001, 0.0),
        (300, 7.99),
        (300, 8.0),
    ]
    .into_iter()
    .map(|(held, slip)| one(Firmness::USUAL, held, slip))
    .collect();
    assert_eq!(table, [false, true, true, false, true, false]);
    assert_eq!(
        (
            one(Firmness::WET_HANDS, 599, 0.0),
            one(Firmness::WET_HANDS, 600, 0.0)
        ),
        (false, true)
    );
}

/// The gaps between a confirm and the press that is confirmed next, for presses that follow at all distances.
#[test]
fn the_slab_that_comes_up_under_the_finger_is_dead_for_a_second() {
    for gap in (0..2_000).step_by(50) {
        let mut glass = Glass::new(0);
        glass
            .report("a", 0, Phase::Down, MID)
            .wait(300)
            .report("a", 0, Phase::Up, MID);
        // The next slab is another one at the same place.
        glass
            .wait(gap)
            .report("b", 0, Phase::Down, MID)
            .wait(1_500)
            .report("b", 0, Phase::Up, MID);
        let said = verdicts(&mut FirmTaps::new(Firmness::USUAL), &glass.reports);
        assert_eq!(confirms(&said), if gap < 1_000 { 1 } else { 2 }, "after {gap} ms");
    }
    // Nor does another measure, chosen by that very tap, cut the second short.
    let mut taps = FirmTaps::new(Firmness::WET_HANDS);
    let mut glass = Glass::new(0);
    glass
        .report("a", 0, Phase::Down, MID)
        .wait(700)
        .report("a", 0, Phase::Up, MID);
    assert_eq!(confirms(&verdicts(&mut taps, &glass.reports)), 1);
    taps.measure_by(Firmness::USUAL);
    let mut glass = Glass::new(glass.now_ms + 999);
    glass
        .report("b", 0, Phase::Down, MID)
        .wait(300)
        .report("b", 0, Phase::Up, MID);
    assert_eq!(confirms(&verdicts(&mut taps, &glass.reports)), 0);
}

fn patter(glass: &mut Glass, touches: u64, every_ms: u64) {
    for _ in 0..touches {
        glass
            .report("a", 0, Phase::Down, MID)
            .report("a", 0, Phase::Up, MID)
            .wait(every_ms);
    }
}

#[test]
fn a_storm_locks_the_glass_until_it_is_calm_or_a_key_says_so() {
    let mut taps = FirmTaps::new(Firmness::USUAL);
    let mut glass = Glass::new(0);
    patter(&mut glass, 11, 250);
    assert_eq!(verdicts(&mut taps, &std::mem::take(&mut glass.reports)), []);
    patter(&mut glass, 1, 0);
    assert_eq!(
        verdicts(&mut taps, &std::mem::take(&mut glass.reports)),
        [(2_750, Verdict::Storm)]
    );
    assert!(taps.is_locked(2_750));
    // A press that begins under the lock counts for nothing, even when it is lifted after.
    glass.wait(100).report("a", 0, Phase::Down, MID);
    assert_eq!(verdicts(&mut taps, &std::mem::take(&mut glass.reports)), []);
    assert!(taps.is_locked(4_849));
    taps.stray(4_849);
    assert!(
        taps.is_locked(6_848),
        "a touch beside the slabs isn't calm either"
    );
    assert!(!taps.is_locked(6_849), "two seconds without a touch");
    let mut after = Glass::new(7_000);
    after
        .report("a", 0, Phase::Up, MID)
        .wait(50)
        .report("a", 0, Phase::Down, MID)
        .wait(300);
    after.report("a", 0, Phase::Up, MID);
    assert_eq!(
        confirms(&verdicts(&mut taps, &after.reports)),
        1,
        "and then a press counts again"
    );
    // A key opens it at once.
    let mut again = Glass::new(20_000);
    patter(&mut again, 12, 10);
    assert_eq!(verdicts(&mut taps, &again.reports).len(), 1);
    taps.unlock();
    assert!(!taps.is_locked(20_130));
    // Touches that are spread wider than the window are no storm, however many.
    let mut slow = Glass::new(60_000);
    patter(&mut slow, 500, 273);
    assert_eq!(verdicts(&mut taps, &slow.reports), []);
}

#[test]
fn a_confirm_clears_the_count_of_a_storm() {
    let mut taps = FirmTaps::new(Firmness::USUAL);
    let mut glass = Glass::new(0);
    patter(&mut glass, 10, 10);
    glass
        .report("a", 0, Phase::Down, MID)
        .wait(300)
        .report("a", 0, Phase::Up, MID);
    patter(&mut glass, 11, 10);
    let said = verdicts(&mut taps, &glass.reports);
    assert_eq!((said.len(), confirms(&said)), (1, 1));
}

#[test]
fn what_lies_on_the_glass_locks_it_instead_of_making_it_deaf() {
    let lying = |ms: u64| {
        let mut glass = Glass::new(0);
        glass
            .report("a", 7, Phase::Down, MID)
            .wait(ms)
            .report("b", 0, Phase::Down, MID);
        verdicts(&mut FirmTaps::new(Firmness::USUAL), &glass.reports)
    };
    assert_eq!(lying(9_999), []);
    assert_eq!(lying(10_000), [(10_000, Verdict::Storm)]);
    // A finger that rested there for long and is lifted is gone: nothing lies there any more.
    let mut rested = Glass::new(0);
    rested
        .report("a", 7, Phase::Down, MID)
        .wait(12_000)
        .report("a", 7, Phase::Up, MID);
    assert_eq!(verdicts(&mut FirmTaps::new(Firmness::USUAL), &rested.reports), []);
    // A lift that the panel never told leaves the glass usable again after the wipe.
    let mut taps = FirmTaps::new(Firmness::USUAL);
    let mut glass = Glass::new(0);
    glass
        .report("a", 7, Phase::Down, MID)
        .wait(60_000)
        .report("a", 0, Phase::Down, MID)
        .wait(100);
    glass.report("a", 0, Phase::Up, MID).wait(2_000);
    glass
        .report("a", 0, Phase::Down, MID)
        .wait(300)
        .report("a", 0, Phase::Up, MID);
    let said = verdicts(&mut taps, &glass.reports);
    assert_eq!(
        said,
        [(60_000, Verdict::Storm), (62_400, Verdict::Confirmed("a".into()))]
    );
}

#[test]
fn a_lock_forgets_the_press_it_fell_upon() {
    let mut taps = FirmTaps::new(Firmness::USUAL);
    let mut glass = Glass::new(0);
    patter(&mut glass, 11, 10);
    glass.report("a", 0, Phase::Down, MID);
    assert_eq!(verdicts(&mut taps, &glass.reports).len(), 1);
    taps.unlock();
    assert_eq!(taps.progress(300), None);
    let mut lift = Glass::new(500);
    lift.report("a", 0, Phase::Up, MID);
    assert_eq!(verdicts(&mut taps, &lift.reports), []);
}

#[test]
fn other_measures_are_taken_at_once() {
    let mut taps = FirmTaps::new(Firmness::USUAL);
    let press = |taps: &mut FirmTaps, since| {
        let mut glass = Glass::new(since);
        glass
            .report("a", 0, Phase::Down, MID)
            .wait(300)
            .report("a", 0, Phase::Up, MID);
        confirms(&verdicts(taps, &glass.reports))
    };
    assert_eq!(press(&mut taps, 0), 1);
    taps.measure_by(Firmness::WET_HANDS);
    assert_eq!(press(&mut taps, 5_000), 0);
}

#[test]
fn a_press_from_nowhere_is_none() {
    // Half of a place is no place, from whichever side it is missing.
    for nowhere in [(f64::NAN, 5.0), (5.0, f64::NAN)] {
        let mut taps = FirmTaps::new(Firmness::USUAL);
        let mut glass = Glass::new(0);
        glass.forced("a", 0, Phase::Down, nowhere, true);
        verdicts(&mut taps, &glass.reports);
        assert_eq!(taps.progress(100), None);
    }
}

#[test]
fn the_ring_fills_while_the_press_is_good() {
    let mut taps = FirmTaps::new(Firmness::WET_HANDS);
    assert_eq!(taps.progress(0), None);
    let mut glass = Glass::new(1_000);
    glass.report("a", 0, Phase::Down, MID);
    verdicts(&mut taps, &glass.reports);
    let filled = |taps: &FirmTaps, at| taps.progress(at).map(|(key, part)| (key.to_owned(), part));
    assert_eq!(filled(&taps, 1_000), Some(("a".into(), 0.0)));
    assert_eq!(filled(&taps, 1_300), Some(("a".into(), 0.5)));
    assert_eq!(filled(&taps, 9_000), Some(("a".into(), 1.0)));
    let mut slipped = Glass::new(1_400);
    slipped.report("a", 0, Phase::Moved, (10.0, 18.5));
    verdicts(&mut taps, &slipped.reports);
    assert_eq!(taps.progress(1_500), None);
    taps.measure_by(Firmness::USUAL);
    assert_eq!(taps.progress(1_500), None);
}
