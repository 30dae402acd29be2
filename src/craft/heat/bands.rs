//! From spreads to bands, without dice.
//!
//! Each thing not known is a standard normal `z`. A time rises or falls steadily with each of them, so the 10 and 90 % values
//! lie, to first order, where the steepest way through the middle has gone 1.2816 spreads (the first-order reliability
//! method of structural engineering). The run is worked out exactly *there*, so that a pot that barely gets hot shows its
//! long tail, or that it may never arrive. The steepness is that of the speed 1/t, which stays finite when t does not.

use crate::craft::quantity::Band;

/// How many things are not known.
pub(crate) const DRAW_COUNT: usize = 5;

/// One case of what isn't known, in spreads from the middle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Draw {
    pub(crate) efficiency: f64,
    pub(crate) loss: f64,
    pub(crate) lid: f64,
    pub(crate) start: f64,
    pub(crate) room: f64,
}

impl Draw {
    pub(crate) const MIDDLE: Self = Self::from_array([0.0; DRAW_COUNT]);

    /// One thing `z` spreads away, the rest at the middle.
    pub(crate) fn one(index: usize, z: f64) -> Self {
        let mut axis = [0.0; DRAW_COUNT];
        for part in axis.iter_mut().skip(index).take(1) {
            *part = z;
        }
        Self::from_array(axis)
    }

    pub(crate) const fn from_array([efficiency, loss, lid, start, room]: [f64; DRAW_COUNT]) -> Self {
        Self {
            efficiency,
            loss,
            lid,
            start,
            room,
        }
    }
}

/// How far the 10 and 90 % values of a normal quantity lie from its middle, in spreads.
pub(crate) const TENTH_Z: f64 = 1.281_551_6;

/// The steepest way up for a finite measure at the middle, of length one; `None` when nothing matters.
pub(crate) fn steepest(matters: [bool; DRAW_COUNT], measure: impl Fn(&Draw) -> f64) -> Option<Way> {
    let mut way = [0.0; DRAW_COUNT];
    for (index, (part, matters)) in way.iter_mut().zip(matters).enumerate() {
        if matters {
            *part = f64::midpoint(measure(&Draw::one(index, 1.0)), -measure(&Draw::one(index, -1.0)));
        }
    }
    unit(way)
}

/// The same for many measures that one run gives together.
pub(crate) fn steepest_of(
    matters: [bool; DRAW_COUNT],
    count: usize,
    measures: impl Fn(&Draw) -> Vec<f64>,
) -> Vec<Option<Way>> {
    let mut ways = vec![[0.0; DRAW_COUNT]; count];
    for (index, _) in matters.iter().enumerate().filter(|(_, matters)| **matters) {
        let (up, down) = (
            measures(&Draw::one(index, 1.0)),
            measures(&Draw::one(index, -1.0)),
        );
        for (way, (up, down)) in ways.iter_mut().zip(up.into_iter().zip(down)) {
            for part in way.iter_mut().skip(index).take(1) {
                *part = f64::midpoint(up, -down);
            }
        }
    }
    ways.into_iter().map(unit).collect()
}

/// A direction through what isn't known, of length one.
pub(crate) type Way = [f64; DRAW_COUNT];

/// The draw `z` spreads along a way; the middle when there is none.
pub(crate) fn along(way: Option<Way>, z: f64) -> Draw {
    way.map_or(Draw::MIDDLE, |way| Draw::from_array(way.map(|part| part * z)))
}

/// The band of a finite measure.
pub(crate) fn band_of(matters: [bool; DRAW_COUNT], measure: impl Fn(&Draw) -> f64) -> Band<f64> {
    let way = steepest(matters, &measure);
    let likely = measure(&Draw::MIDDLE);
    Band {
        low: measure(&along(way, -TENTH_Z)).min(likely),
        likely,
        high: measure(&along(way, TENTH_Z)).max(likely),
    }
}

/// The band with `low` no later than `likely` and `high` no sooner, none standing for never. Where a run bends so much that
/// the steepest way leads astray, the middle is the best there is.
pub(crate) fn in_order(band: Band<Option<f64>>) -> Band<Option<f64>> {
    let time = |seconds: Option<f64>| seconds.unwrap_or(f64::INFINITY);
    let Band { low, likely, high } = band;
    Band {
        low: if time(low) > time(likely) { likely } else { low },
        likely,
        high: if time(high) < time(likely) { likely } else { high },
    }
}

fn unit(way: Way) -> Option<Way> {
    let length = way.iter().map(|part| part * part).sum::<f64>().sqrt();
    (length.is_finite() && length > 0.0).then(|| way.map(|part| part / length))
}
