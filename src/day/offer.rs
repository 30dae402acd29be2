//! Offers: the nearest later starts at which fewer errands meet.

use crate::craft::time::Span;
use crate::machine::PotNo;

use super::ahead::{Ahead, OfPot};
use super::errand::{Coming, Errand};
use super::meeting::{Meeting, is_guess, meetings};

/// A start is put off by this at most, in whole minutes.
pub const LATEST: u64 = 30;

/// So far ahead is looked, in hours from the start. Beyond it the bands are wider than what is to be avoided.
pub const HOURS_AHEAD: u64 = 6;

/// So many starts are offered at most.
const MOST: usize = 3;

/// A later start.
#[derive(Debug, Clone, PartialEq)]
pub struct Offer {
    /// How long to wait, in whole minutes.
    pub wait: Span,
    /// Up to here it is as good, minute by minute.
    pub until: Span,
    /// What still meets.
    pub meets: Vec<Meeting>,
    /// What falls due in another pot before it, and can be done first: the last such errand.
    pub first: Option<(PotNo, Errand)>,
    /// Whether the bands leave open that something else meets, or that what meets doesn't.
    pub is_guess: bool,
}

/// What meets if the bath begins now, and what would spare it.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Offers {
    /// What meets now.
    pub now: Vec<Meeting>,
    /// Starts with fewer meetings, the nearest first; empty when nothing meets now, or when waiting doesn't help.
    pub starts: Vec<Offer>,
}

/// What meets if a bath begins now, and the nearest later starts with the fewest meetings.
///
/// Only the fewest there are within [`LATEST`] are offered, and only if they are fewer than now. Never offered is a start
/// that lets the end of another pot's hold wait. Minutes that follow each other are one offer.
#[must_use]
pub fn offers(new: &Ahead, others: &[OfPot]) -> Offers {
    let seen: Vec<Coming> = within_sight(new);
    let now = meetings(&seen, others, Span::NONE);
    if now.is_empty() {
        return Offers::default();
    }
    let later: Vec<(u64, Vec<Meeting>)> = (1..=LATEST)
        .map(|minutes| (minutes, meetings(&seen, others, Span::from_minutes(minutes))))
        .filter(|(_, met)| !met.iter().any(Meeting::makes_a_hold_late))
        .collect();
    let fewest = later.iter().map(|(_, met)| met.len()).min();
    let mut starts: Vec<Offer> = Vec::new();
    for (minutes, met) in later {
        if Some(met.len()) != fewest || met.len() >= now.len() {
            continue;
        }
        let wait = Span::from_minutes(minutes);
        match starts.last_mut() {
            Some(gap) if gap.until.plus(Span::from_minutes(1)) == wait => gap.until = wait,
            Some(_) | None => starts.push(Offer {
                wait,
                until: wait,
                first: done_first(others, wait),
                is_guess: may_go_otherwise(&seen, others, wait),
                meets: met,
            }),
        }
    }
    starts.truncate(MOST);
    Offers { now, starts }
}

/// The errands near enough to be told apart.
fn within_sight(new: &Ahead) -> Vec<Coming> {
    let far = Span::from_minutes(HOURS_AHEAD.saturating_mul(60));
    let near = |coming: &&Coming| coming.begins.likely <= far;
    new.errands.iter().filter(near).copied().collect()
}

/// The last errand of another pot that keeps its time and is done before the start.
fn done_first(others: &[OfPot], wait: Span) -> Option<(PotNo, Errand)> {
    let of_each = others.iter().flat_map(|other| {
        let done = |coming: &&Coming| coming.errand.keeps_its_time() && coming.ends() <= wait;
        let last = other
            .ahead
            .errands
            .iter()
            .filter(done)
            .max_by_key(|coming| coming.ends());
        last.map(|coming| (coming.ends(), other.pot, coming.errand))
    });
    let last = of_each.max_by_key(|(ends, pot, _)| (*ends, std::cmp::Reverse(*pot)));
    last.map(|(_, pot, errand)| (pot, errand))
}

/// Whether the bands leave open if a bath that begins after so long meets other pots, as far as can be told apart.
#[must_use]
pub fn leaves_open(new: &Ahead, others: &[OfPot], wait: Span) -> bool {
    may_go_otherwise(&within_sight(new), others, wait)
}

/// Whether any two errands may meet or miss each other by their bands.
fn may_go_otherwise(new: &[Coming], others: &[OfPot], wait: Span) -> bool {
    let theirs = || others.iter().flat_map(|other| other.ahead.errands.iter());
    let own = new.iter().map(|coming| coming.later(wait));
    others.iter().any(|other| other.ahead.more_unknown)
        || own
            .into_iter()
            .any(|own| theirs().any(|theirs| is_guess(&own, theirs)))
}
