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
pub(crate) fn steepest(measure: impl Fn(&Draw) -> f64) -> Option<[f64; DRAW_COUNT]> {
    let [way] = steepest_of(|draw| [measure(draw)]);
    way
}

/// The same for several measures of one run.
pub(crate) fn steepest_of<const N: usize>(
    measures: impl Fn(&Draw) -> [f64; N],
) -> [Option<[f64; DRAW_COUNT]>; N] {
    let mut ways = [[0.0; DRAW_COUNT]; N];
    let mut axis = [0.0; DRAW_COUNT];
    for part_index in 0..DRAW_COUNT {
        let mut at = |z: f64| {
            if let Some(part) = axis.get_mut(part_index) {
                *part = z;
            }
            measures(&Draw::from_array(axis))
        };
        let (up, down) = (at(1.0), at(-1.0));
        at(0.0);
        for (way, (up, down)) in ways.iter_mut().zip(up.into_iter().zip(down)) {
            if let Some(part) = way.get_mut(part_index) {
                *part = f64::midpoint(up, -down);
            }
        }
    }
    ways.map(unit)
}

/// The draw `z` spreads along a way; the middle when there is none.
pub(crate) fn along(way: Option<[f64; DRAW_COUNT]>, z: f64) -> Draw {
    way.map_or(Draw::MIDDLE, |way| Draw::from_array(way.map(|part| part * z)))
}

/// The band of a finite measure.
pub(crate) fn band_of(measure: impl Fn(&Draw) -> f64) -> Band<f64> {
    let way = steepest(&measure);
    Band {
        low: measure(&along(way, -TENTH_Z)),
        likely: measure(&Draw::MIDDLE),
        high: measure(&along(way, TENTH_Z)),
    }
}

fn unit(way: [f64; DRAW_COUNT]) -> Option<[f64; DRAW_COUNT]> {
    let length = way.iter().map(|part| part * part).sum::<f64>().sqrt();
    (length.is_finite() && length > 0.0).then(|| way.map(|part| part / length))
}
