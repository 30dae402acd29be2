//! A pot that doesn't get hot: why, and what would help.

use crate::craft::quantity::{Mass, Power, Ramp, Temperature};
use crate::craft::vessel::{Burner, Lid};

use super::balance::{Heat, Prepared};
use super::bands::Draw;
use super::come_up::come_up_seconds;
use super::kettle::Kettle;

/// Why a pot does not get there, and the ways out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NeverGetsThere {
    /// What stands in the way.
    pub why: WhyNever,
    /// What would do.
    pub ways: WaysOut,
}

/// What stands in the way.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum WhyNever {
    /// Water boils here before that.
    AboveBoil {
        /// Where it boils.
        boil: Temperature,
    },
    /// The pot loses as much as it gets at this temperature.
    LevelsOff {
        /// Where it comes to a stand.
        at: Temperature,
    },
    /// It would get there, but takes longer than [`super::LONGEST_COME_UP`].
    TooSlow,
}

/// What alone would do; several may.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct WaysOut {
    /// The least lid with which it gets there.
    pub lid: Option<Lid>,
    /// The most water with which it gets there, if a tenth of it or more does.
    pub water: Option<Mass>,
    /// The least burner power with which it gets there.
    pub power: Option<Power>,
}

/// Why the pot of this draw does not get there, and what would help.
pub(crate) fn never_gets_there(
    prepared: &Prepared<'_>,
    draw: &Draw,
    from: Temperature,
    to: Temperature,
    ramp: Option<Ramp>,
) -> NeverGetsThere {
    let kettle = prepared.kettle;
    if to > kettle.boil {
        return NeverGetsThere {
            why: WhyNever::AboveBoil { boil: kettle.boil },
            ways: WaysOut::default(),
        };
    }
    let does = |other: &Kettle| come_up_seconds(&Prepared::of(other), draw, from, to, ramp).is_some();
    let lid = [Lid::Loose, Lid::Tight]
        .into_iter()
        .filter(|lid| *lid > kettle.lid)
        .find(|lid| does(&Kettle { lid: *lid, ..*kettle }));
    NeverGetsThere {
        why: why(prepared, draw, to),
        ways: WaysOut {
            lid,
            water: water_that_would_do(kettle, does),
            power: power_that_would_do(prepared, draw, from, to, ramp),
        },
    }
}

fn why(prepared: &Prepared<'_>, draw: &Draw, to: Temperature) -> WhyNever {
    let case = prepared.case(draw, Heat::On { fraction: 1.0 }, None);
    if case.warming(to.celsius(), prepared.water) > 0.0 {
        return WhyNever::TooSlow;
    }
    let (mut low, mut high) = (0.0, to.celsius());
    for _ in 0..30 {
        let middle = f64::midpoint(low, high);
        if case.warming(middle, prepared.water) > 0.0 {
            low = middle;
        } else {
            high = middle;
        }
    }
    WhyNever::LevelsOff {
        at: Temperature::saturating_celsius(low),
    }
}

fn water_that_would_do(kettle: &Kettle, does: impl Fn(&Kettle) -> bool) -> Option<Mass> {
    let with = |part: f64| Kettle {
        water: Mass::saturating_grams(kettle.water.grams() * part),
        ..*kettle
    };
    let (mut low, mut high) = (0.1, 1.0);
    if !does(&with(low)) {
        return None;
    }
    for _ in 0..5 {
        let middle = f64::midpoint(low, high);
        if does(&with(middle)) {
            low = middle;
        } else {
            high = middle;
        }
    }
    Some(with(low).water)
}

fn power_that_would_do(
    prepared: &Prepared<'_>,
    draw: &Draw,
    from: Temperature,
    to: Temperature,
    ramp: Option<Ramp>,
) -> Option<Power> {
    let does = |watts: f64| {
        let burner = Burner {
            power: Power::saturating_watts(watts),
            ..prepared.kettle.burner
        };
        let stronger = Kettle {
            burner,
            ..*prepared.kettle
        };
        come_up_seconds(&prepared.on_burner_of(&stronger), draw, from, to, ramp).is_some()
    };
    let (mut low, mut high) = (prepared.kettle.burner.power.watts(), Power::HIGH);
    if !does(high) {
        return None;
    }
    while high - low > 0.01 * high {
        // By ratio: the answer is between a hundred watts and a hundred kilowatts.
        let middle = (low.max(10.0) * high).sqrt();
        if does(middle) {
            high = middle;
        } else {
            low = middle;
        }
        if high <= 10.0 {
            break;
        }
    }
    Some(Power::saturating_watts(high))
}
