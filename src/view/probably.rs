//! Where the bath probably is after a time in which nobody watched: coldest and hottest, widened honestly.

use crate::craft::heat::{LONGEST_COOLING, LidSeen, bath_temperature_after};
use crate::craft::quantity::Temperature;
use crate::craft::time::{Moment, Span};
use crate::machine::PotRun;
use crate::machine::pot::Outage;
use crate::sheet::plan::StepAct;

use super::course;

/// Coldest and hottest, while the question about an outage is open; `None` when the pot is not filled or was never heated.
///
/// - A reading taken since is what it is.
/// - The coldest is a pot that went cold at once, under whatever lid cools fastest, for the longest it can have been.
/// - The hottest is the boil where the burner may have stayed on, else a pot that cooled slowest for the shortest time.
#[must_use]
pub fn probably(run: &PotRun) -> Option<(Temperature, Temperature)> {
    let outage = run.outage?;
    if !run.stand.filled {
        return None;
    }
    if let Some((_, read)) = run.last_reading.filter(|(at, _)| outage.is_over_at(*at)) {
        return Some((read, read));
    }
    let before = before(run, &outage)?;
    let kettle = run.plan.kettle(run.stand.goods_in);
    let after = |from, left| bath_temperature_after(&kettle, from, left, LidSeen::NotKnown);
    let longest = outage.at_most.unwrap_or(LONGEST_COOLING);
    let coldest = after(before.coldest, before.since.plus(longest)).low;
    let hottest = if run.stand.burner_on {
        run.plan.boil
    } else {
        after(before.hottest, before.since.plus(outage.at_least)).high
    };
    Some((coldest.least(hottest), hottest))
}

/// The bath when it was last known, and how long that was before the outage.
struct Before {
    coldest: Temperature,
    hottest: Temperature,
    since: Span,
}

fn before(run: &PotRun, outage: &Outage) -> Option<Before> {
    let first = course::first_heated(&run.plan)?;
    if run.stand.step < first {
        return None;
    }
    let known = |coldest, hottest, since| Before {
        coldest,
        hottest,
        since,
    };
    let since = |at: Moment| outage.last.since(at);
    let read = run
        .last_reading
        .filter(|(at, _)| at.stretch == outage.last.stretch);
    let act = run.step().map(|step| &step.act);
    if let Some((at, read)) = read.filter(|(at, _)| at.steady_ms >= run.stand.arrived.steady_ms) {
        let hottest = if let Some(StepAct::Raise { to, .. }) = act {
            read.most(*to)
        } else {
            read
        };
        return Some(known(read, hottest, since(at)));
    }
    if let Some(StepAct::Hold { floor, ceiling, .. }) = act {
        return Some(known(*floor, *ceiling, Span::NONE));
    }
    if let Some(StepAct::Raise { from, to, .. }) = act {
        return Some(known(*from, *to, Span::NONE));
    }
    if let Some(StepAct::Cool { from, .. }) = act {
        let waited = run.stand.waited.at(outage.back).less(outage.at_least);
        return Some(known(*from, *from, waited));
    }
    let planned = course::planned(&run.plan);
    let (from, to) = planned.get(run.stand.step.0).copied()?;
    let celsius = Temperature::saturating_celsius;
    Some(known(celsius(from.min(to)), celsius(from.max(to)), Span::NONE))
}
