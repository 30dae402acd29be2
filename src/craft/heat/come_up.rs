//! How long a bath takes to get hot, and whether it does.

use crate::craft::quantity::{Band, Ramp, Temperature};
use crate::craft::time::Span;

use super::balance::{Case, Heat, Prepared};
use super::bands::{Draw, TENTH_Z, Way, along, in_order, steepest};
use super::integrate::Stop;
use super::kettle::Kettle;
use super::ways_out::{NeverGetsThere, never_gets_there};

/// A come-up as it is planned.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ComeUp {
    /// From lighting the burner to the target. A value is `None` when a pot of that kind takes longer than
    /// [`LONGEST_COME_UP`] or never arrives; `high` is the first to be none, then `likely`.
    pub time: Band<Option<Span>>,
    /// Whether it gets there.
    pub reach: Reach,
    /// How far to turn the burner up to keep within the ramp; none when no ramp was asked.
    pub setting: Option<Setting>,
    /// Why not and what would help, when the likely pot doesn't get there (or, in doubt, the 90 % pot).
    pub never: Option<NeverGetsThere>,
}

/// Whether a pot gets to its temperature.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reach {
    /// Nine in ten do.
    Surely,
    /// The likely pot does; one in ten doesn't.
    Doubtful,
    /// The likely pot doesn't.
    Never,
}

/// Burner settings, as parts of full power.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Setting {
    /// At the start, when the pot loses least.
    pub start: f64,
    /// At the end.
    pub end: f64,
}

/// A come-up longer than this is no plan for a day at the stove: it counts as never.
pub const LONGEST_COME_UP: Span = Span::from_minutes(360);

/// The come-up of a kettle between two temperatures at full power, or at the ramp where that is slower.
///
/// The bath does not get past the boil: a target above it is never reached.
#[must_use]
pub fn come_up(kettle: &Kettle, from: Temperature, to: Temperature, ramp: Option<Ramp>) -> ComeUp {
    let prepared = Prepared::of(kettle);
    come_up_of(&prepared, from, to, ramp)
}

pub(crate) fn come_up_of(
    prepared: &Prepared<'_>,
    from: Temperature,
    to: Temperature,
    ramp: Option<Ramp>,
) -> ComeUp {
    let seconds = |draw: &Draw| come_up_seconds(prepared, draw, from, to, ramp);
    let likely = seconds(&Draw::MIDDLE);
    let way = slowest_way(prepared, likely, from, to, ramp);
    let time = in_order(Band {
        low: seconds(&along(way, -TENTH_Z)),
        likely,
        high: seconds(&along(way, TENTH_Z)),
    });
    let reach = match (likely, time.high) {
        (None, _) => Reach::Never,
        (Some(_), None) => Reach::Doubtful,
        (Some(_), Some(_)) => Reach::Surely,
    };
    let never = match reach {
        Reach::Surely => None,
        Reach::Doubtful => Some(never_gets_there(prepared, &along(way, TENTH_Z), from, to, ramp)),
        Reach::Never => Some(never_gets_there(prepared, &Draw::MIDDLE, from, to, ramp)),
    };
    ComeUp {
        time: time.map(span),
        reach,
        setting: ramp.map(|ramp| setting(prepared, from, to, ramp)),
        never,
    }
}

/// Seconds to the target for one draw, if it gets there in time.
pub(crate) fn come_up_seconds(
    prepared: &Prepared<'_>,
    draw: &Draw,
    from: Temperature,
    to: Temperature,
    ramp: Option<Ramp>,
) -> Option<f64> {
    if to > prepared.kettle.boil && to > from {
        return None;
    }
    let case = prepared.case(draw, Heat::On { fraction: 1.0 }, ramp);
    if to <= from {
        return Some(0.0);
    }
    // Nothing stands still in front of the target for six hours and then gets there.
    if case.warming(to.celsius(), prepared.water) <= 0.0 {
        return None;
    }
    let end = case.warm(from.celsius(), to.celsius(), LONGEST_COME_UP.minutes() * 60.0);
    (end.stop == Stop::Event).then_some(end.time)
}

/// The way through what isn't known along which the come-up gets longer.
fn slowest_way(
    prepared: &Prepared<'_>,
    likely: Option<f64>,
    from: Temperature,
    to: Temperature,
    ramp: Option<Ramp>,
) -> Option<Way> {
    let matters = prepared.matters(Heat::On { fraction: 1.0 });
    let faster = match likely {
        Some(_) => steepest(matters, |draw| {
            come_up_seconds(prepared, draw, from, to, ramp).map_or(0.0, |seconds| 1.0 / seconds.max(1.0))
        }),
        // Where the likely pot stands still there is no speed to compare: the heat left over at the target decides.
        None => steepest(matters, |draw| {
            let case = prepared.case(draw, Heat::On { fraction: 1.0 }, ramp);
            case.input - case.losses(to.celsius()).0
        }),
    };
    faster.map(|way| way.map(|part| -part))
}

fn setting(prepared: &Prepared<'_>, from: Temperature, to: Temperature, ramp: Ramp) -> Setting {
    let case = prepared.case(&Draw::MIDDLE, Heat::On { fraction: 1.0 }, None);
    Setting {
        start: fraction_for(&case, prepared.water, from, ramp),
        end: fraction_for(&case, prepared.water, to, ramp),
    }
}

fn fraction_for(case: &Case, water: f64, at: Temperature, ramp: Ramp) -> f64 {
    let warming = case.heat_capacity(at.celsius(), water) * ramp.kelvin_per_minute() / 60.0;
    let (lost, _) = case.losses(at.celsius());
    if case.input > 0.0 {
        ((warming + lost) / case.input).clamp(0.0, 1.0)
    } else {
        1.0
    }
}

pub(crate) fn span(seconds: Option<f64>) -> Option<Span> {
    seconds.map(|seconds| Span::from_fractional_minutes(seconds / 60.0))
}
