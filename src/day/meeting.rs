//! Meetings: two errands that want one pair of hands at the same time.

use crate::craft::time::Span;
use crate::machine::PotNo;

use super::ahead::OfPot;
use super::errand::{Coming, Errand};

/// Two errands that likely meet: one of the bath about to begin, one of another pot.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Meeting {
    /// What the new bath wants.
    pub own: Coming,
    /// In which other pot.
    pub pot: PotNo,
    /// What that pot wants.
    pub theirs: Coming,
}

impl Meeting {
    /// Whether it is only likely: the times are bands, and by these the two may miss each other.
    #[must_use]
    pub fn is_guess(&self) -> bool {
        is_guess(&self.own, &self.theirs)
    }

    /// Whether the end of the other pot's hold would have to wait.
    #[must_use]
    pub fn makes_a_hold_late(&self) -> bool {
        self.theirs.errand == Errand::HeatOff
    }
}

/// Whether two errands of two pots could ever meet. Turns don't: one round turns every pot. What can be laid down and
/// taken up again doesn't either.
fn concern(one: &Coming, other: &Coming) -> bool {
    let both_turn = one.errand == Errand::Turn && other.errand == Errand::Turn;
    !both_turn && one.errand.keeps_its_time() && other.errand.keeps_its_time()
}

/// Whether two errands want the same hands, by their likely times. One that begins when the other ends doesn't.
#[must_use]
pub fn meets(one: &Coming, other: &Coming) -> bool {
    concern(one, other) && one.begins.likely < other.ends() && other.begins.likely < one.ends()
}

/// Whether they may, by their bands.
#[must_use]
pub fn may_meet(one: &Coming, other: &Coming) -> bool {
    let latest = |coming: &Coming| coming.begins.high.plus(coming.hands);
    concern(one, other) && one.begins.low < latest(other) && other.begins.low < latest(one)
}

/// Whether the bands leave it open if they meet.
#[must_use]
pub fn is_guess(one: &Coming, other: &Coming) -> bool {
    let soonest = |coming: &Coming| coming.begins.low.plus(coming.hands);
    let must_meet =
        concern(one, other) && one.begins.high < soonest(other) && other.begins.high < soonest(one);
    may_meet(one, other) && !must_meet
}

/// Every meeting of a bath that begins after `wait`, soonest first.
#[must_use]
pub fn meetings(new: &[Coming], others: &[OfPot], wait: Span) -> Vec<Meeting> {
    let mut found = Vec::new();
    for own in new.iter().map(|coming| coming.later(wait)) {
        for other in others {
            let met = other.ahead.errands.iter().filter(|theirs| meets(&own, theirs));
            found.extend(met.map(|theirs| Meeting {
                own,
                pot: other.pot,
                theirs: *theirs,
            }));
        }
    }
    found.sort_by_key(|meeting| (meeting.own.begins.likely, meeting.pot));
    found
}
