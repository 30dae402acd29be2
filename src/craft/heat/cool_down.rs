//! How long a pot with the heat off stays hot.

use crate::craft::quantity::{Band, Temperature};
use crate::craft::time::Span;
use crate::craft::vessel::Lid;

use super::balance::{Heat, Prepared};
use super::bands::{Draw, TENTH_Z, along, band_of, steepest};
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
    targets
        .iter()
        .map(|target| {
            let seconds = |draw: &Draw| cooling_seconds(&prepared, draw, from, *target);
            let way = steepest(|draw| seconds(draw).map_or(0.0, |seconds| 1.0 / seconds.max(1.0)));
            Band {
                low: seconds(&along(way, TENTH_Z)),
                likely: seconds(&Draw::MIDDLE),
                high: seconds(&along(way, -TENTH_Z)),
            }
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
        band_of(|draw| {
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

fn cooling_seconds(
    prepared: &Prepared<'_>,
    draw: &Draw,
    from: Temperature,
    target: Temperature,
) -> Option<f64> {
    if target >= from {
        return Some(0.0);
    }
    let case = prepared.case(draw, Heat::Off, None);
    let start = case.start(from.celsius());
    let end = case.cool(start, target.celsius(), LONGEST_COOLING.minutes() * 60.0);
    (end.stop == Stop::Event).then_some(end.time)
}
