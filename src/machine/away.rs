//! How long the program was away: what two clocks can say of it, and no more.
//!
//! The steady clock counts within one start of the machine. Across two starts it tells only how long the machine has
//! been up. The wall clock says more, but only where a time server has set it: a board without a battery clock comes up
//! with the time at which it was last saved, and anybody may set a clock to anything.

use crate::craft::time::{Moment, Span};

/// How a wall clock is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub enum WallClock {
    /// It shows something; nobody vouches for it.
    #[default]
    NotKnown,
    /// A time server has set it since the machine was started.
    Synchronised,
}

/// Whether two moments lie in the same start of the machine.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Boot {
    /// They do: the steady clock ran on.
    Same,
    /// They don't.
    Another,
    /// The system doesn't tell.
    NotKnown,
}

/// A moment, and how its wall clock was known then.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stamp {
    /// The moment.
    pub at: Moment,
    /// How its wall clock was known.
    pub wall: WallClock,
}

/// How far a synchronised wall clock may be off the truth.
const WALL_OFF: Span = Span::from_seconds(1);

/// How long the program was away, from the last recorded moment to now: at least, and at most if that can be known.
///
/// - In the same start of the machine the steady clock ran on, so both are the same: as good as the machine's crystal,
///   which Linux lets a time server bend by at most 500 in a million (`adjtimex(2)`), 1.8 s in an hour.
/// - After another start the machine's uptime, less what its crystal may be fast, is the least.
/// - Where the system doesn't tell, the smaller of the two is the least.
/// - Two wall clocks that were both synchronised bound it from both sides, unless they contradict what is sure.
#[must_use]
pub fn away(last: Stamp, now: Stamp, boot: Boot) -> (Span, Option<Span>) {
    let up = now.at.steady_ms;
    let ran_on = up.checked_sub(last.at.steady_ms);
    let sure = match (boot, ran_on) {
        (Boot::Same, Some(ms)) => return (Span::from_ms(ms), Some(Span::from_ms(ms))),
        // The steady clock ran backwards: it is no witness.
        (Boot::Same, None) => Span::NONE,
        (Boot::Another, _) | (Boot::NotKnown, None) => without_drift(up),
        (Boot::NotKnown, Some(ms)) => without_drift(ms),
    };
    by_wall(last, now)
        .filter(|(_, most)| *most >= sure)
        .map_or((sure, None), |(least, most)| (least.max(sure), Some(most)))
}

/// What the wall clocks say, if both are believed and don't run backwards by more than both may be off.
fn by_wall(last: Stamp, now: Stamp) -> Option<(Span, Span)> {
    if last.wall != WallClock::Synchronised || now.wall != WallClock::Synchronised {
        return None;
    }
    let passed = i128::from(now.at.wall_ms).checked_sub(i128::from(last.at.wall_ms))?;
    let off = i128::from(WALL_OFF.plus(WALL_OFF).ms());
    let most = u64::try_from(passed.checked_add(off)?).ok()?;
    let least = u64::try_from(passed.checked_sub(off)?).unwrap_or(0);
    Some((Span::from_ms(least), Span::from_ms(most)))
}

/// A time on the steady clock, less what the clock may be fast: 500 in a million.
const fn without_drift(ms: u64) -> Span {
    Span::from_ms(ms.saturating_sub(ms.div_ceil(2_000)))
}

/// By how much the wall clock was set between two moments of one stretch, in milliseconds, forward being positive;
/// nothing for what slewing and reading the clocks one after the other explain. It changes labels and nothing else.
#[must_use]
pub fn wall_step(before: Moment, after: Moment) -> Option<i64> {
    const NOTICED_MS: i128 = 2_000;
    if before.stretch != after.stretch {
        return None;
    }
    let walled = i128::from(after.wall_ms).checked_sub(i128::from(before.wall_ms))?;
    let passed = i128::from(after.steady_ms).checked_sub(i128::from(before.steady_ms))?;
    let step = walled.checked_sub(passed)?;
    // What the crystal may be bent by in the time that passed isn't a step.
    let slewed = passed.checked_div(2_000)?.checked_abs()?;
    let noticed = step.checked_abs()? > NOTICED_MS.checked_add(slewed)?;
    noticed.then(|| i64::try_from(step).unwrap_or(if step < 0 { i64::MIN } else { i64::MAX }))
}
