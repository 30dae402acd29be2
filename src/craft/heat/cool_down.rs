//! How long a pot with the heat off stays hot.

use crate::craft::quantity::{Band, Temperature};
use crate::craft::time::Span;
use crate::craft::vessel::Lid;

use super::balance::{Heat, Prepared};
use super::bands::{Draw, TENTH_Z, along, band_of, in_order, steepest_of};
use super::come_up::span;
use super::integrate::Stop;
use super::kettle::Kettle;

/// Nobody waits longer than three days for a pot.
pub const LONGEST_COOLING: Span = Span::from_minutes(72 * 60);

/// From heat off to each target, in the order given. A value is `None` when a pot of that kind is not that cool within
/// [`LONGEST_COOLING`]; a target no colder than the start takes no time.
#[must_use]
pub fn cool_down(kettle: &Kettle, from: Temperature, targets: &[Temperature]) -> Vec<Band<Option<Span>>> {
    let prepared = Prepared::of(kettle);
    let speeds = |draw: &Draw| {
        let seconds = cooling_seconds(&prepared, draw, from, targets);
        seconds
            .into_iter()
            .map(|seconds| seconds.map_or(0.0, |seconds| 1.0 / seconds.max(1.0)))
            .collect()
    };
    let ways = steepest_of(prepared.matters(Heat::Off), targets.len(), speeds);
    let likely = cooling_seconds(&prepared, &Draw::MIDDLE, from, targets);
    targets
        .iter()
        .zip(ways.into_iter().zip(likely))
        .map(|(target, (way, likely))| {
            let at = |z: f64| {
                let seconds = cooling_seconds(&prepared, &along(way, z), from, std::slice::from_ref(target));
                seconds.into_iter().flatten().next()
            };
            in_order(Band {
                low: at(TENTH_Z),
                likely,
                high: at(-TENTH_Z),
            })
            .map(span)
        })
        .collect()
}

/// What was seen of the lid.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LidSeen {
    /// It is as the kettle says.
    AsStated,
    /// Nobody knows how the pot was covered.
    NotKnown,
}

/// How hot a pot may be that was left with the heat off for a while.
#[must_use]
pub fn bath_temperature_after(
    kettle: &Kettle,
    from: Temperature,
    left: Span,
    lid: LidSeen,
) -> Band<Temperature> {
    let with = |lid: Lid| {
        let covered = Kettle { lid, ..*kettle };
        let prepared = Prepared::of(&covered);
        let seconds = left.least(LONGEST_COOLING).minutes() * 60.0;
        band_of(prepared.matters(Heat::Off), |draw| {
            let case = prepared.case(draw, Heat::Off, None);
            let [celsius, ..] = case.wait(case.start(from.celsius()), seconds).state;
            celsius
        })
    };
    let band = match lid {
        LidSeen::AsStated => with(kettle.lid),
        LidSeen::NotKnown => {
            let (open, loose, tight) = (with(Lid::Off), with(Lid::Loose), with(Lid::Tight));
            Band {
                low: open.low.min(loose.low).min(tight.low),
                likely: loose.likely,
                high: open.high.max(loose.high).max(tight.high),
            }
        }
    };
    band.map(Temperature::saturating_celsius)
}

/// Seconds to each target for one draw, in one run from the warmest to the coolest.
fn cooling_seconds(
    prepared: &Prepared<'_>,
    draw: &Draw,
    from: Temperature,
    targets: &[Temperature],
) -> Vec<Option<f64>> {
    let case = prepared.case(draw, Heat::Off, None);
    let horizon = LONGEST_COOLING.minutes() * 60.0;
    let mut order: Vec<(usize, Temperature)> = targets.iter().copied().enumerate().collect();
    order.sort_by(|(_, left), (_, right)| right.celsius().total_cmp(&left.celsius()));
    let mut seconds = vec![None; targets.len()];
    let (mut state, mut passed) = (case.start(from.celsius()), 0.0);
    for (index, target) in order {
        let reached = if target >= from {
            0.0
        } else {
            let end = case.cool(state, target.celsius(), horizon - passed);
            if end.stop == Stop::Horizon {
                break;
            }
            (state, passed) = (end.state, passed + end.time);
            passed
        };
        for slot in seconds.iter_mut().skip(index).take(1) {
            *slot = Some(reached);
        }
    }
    seconds
}
