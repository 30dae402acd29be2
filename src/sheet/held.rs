//! The main hold: what it loses, what keeps it, how it cools, with the working of each number.

use crate::craft::quantity::{Band, Mass, Power, Temperature};
use crate::craft::time::Span;
use crate::msg;

use super::bath_sheet::{COOL_MARKS, Evaporation};
use super::heating::Heating;
use super::liquor::{LITTLE_LIQUOR, Liquor};
use super::notes::Notes;
use super::plan::Goods;
use super::verdict::{SheetRefusal, SheetWarning};
use super::wishes::StovePlace;
use super::working::Measured;

/// The main hold.
#[derive(Debug, Clone, Copy)]
pub(super) struct MainHold {
    pub(super) at: Temperature,
    pub(super) span: Span,
}

/// What a held bath does.
#[derive(Debug, Clone, Default)]
pub(super) struct Held {
    pub(super) cool: [Option<Band<Span>>; 5],
    pub(super) evaporation: Option<Evaporation>,
    pub(super) power: Option<Power>,
    /// Parts of full power.
    pub(super) setting: Option<Band<f64>>,
    /// Kelvin a minute with the burner left as the come-up had it.
    pub(super) drift: Option<f64>,
    pub(super) top_up: Option<Mass>,
    /// From the start of the hold until a tenth of the bath is gone, if it goes within the hold.
    pub(super) top_up_after: Option<Span>,
}

/// A tenth of the bath gone is the time to top up: common practice, no source.
const GONE_BEFORE_TOPPING_UP: f64 = 0.1;

/// Asks everything about the main hold; nothing is known of a bath without one.
pub(super) fn of(
    hold: Option<MainHold>,
    setting_before: f64,
    goods: &Goods,
    liquor: &Liquor,
    heating: &Heating,
    notes: &mut Notes,
) -> Held {
    let Some(hold) = hold else {
        return Held::default();
    };
    let load = liquor.load;
    let lost = heating.evaporation(load, hold.at);
    let lost_over_hold = lost.still * hold.span.minutes();
    let until_tenth = GONE_BEFORE_TOPPING_UP * liquor.bath.litres() * 1_000.0 / lost.still;
    let top_up_after =
        (until_tenth < hold.span.minutes()).then(|| Span::from_fractional_minutes(until_tenth));
    judge_left(lost_over_hold, goods, liquor, notes);
    Held {
        cool: heating.cool_to_marks(load, hold.at),
        evaporation: Some(lost),
        power: Some(heating.hold_power(load, hold.at)),
        setting: Some(heating.hold_setting(load, hold.at)),
        drift: Some(heating.drift(load, hold.at, setting_before)),
        top_up: Some(Mass::saturating_grams(lost_over_hold)),
        top_up_after,
    }
}

/// A bath that steams away from the goods is said, one that steams away altogether is refused.
fn judge_left(lost_grams: f64, goods: &Goods, liquor: &Liquor, notes: &mut Notes) {
    if goods.dry.grams() <= 0.0 {
        return;
    }
    let bath_grams = liquor.bath.litres() * 1_000.0;
    let ratio = (bath_grams - lost_grams) / goods.dry.grams();
    if lost_grams >= bath_grams {
        notes.refuse(SheetRefusal::SteamsAway {
            lost: Mass::saturating_grams(lost_grams),
            bath: liquor.bath,
        });
    } else if ratio < LITTLE_LIQUOR && liquor.ratio.litres_per_kg() >= LITTLE_LIQUOR {
        notes.warn(SheetWarning::GoodsFallDry {
            lost: Mass::saturating_grams(lost_grams),
            ratio,
        });
    }
}

/// The workings of a held bath.
pub(super) fn workings(
    held: &Held,
    hold: MainHold,
    come_up: Option<Band<Span>>,
    liquor: &Liquor,
    stove: &StovePlace,
    notes: &mut Notes,
) {
    let mut tell = |what: &str, formula, result| {
        notes.working(what, inputs(hold, liquor, stove), formula, result, BALANCE);
    };
    if let Some(band) = come_up {
        tell(
            msg!("come-up, likely"),
            msg!("heat into the pot less its losses warms bath, goods and pot, no faster than the ramp"),
            Measured::new(band.likely.minutes(), "min"),
        );
    }
    for (mark, band) in COOL_MARKS.iter().zip(&held.cool) {
        if let Some(band) = band {
            tell(
                &msg!("cool-down to {mark:.0} C, likely", mark = mark),
                msg!("heat off: the losses of surface, walls and base cool bath, goods and pot"),
                Measured::new(band.likely.minutes(), "min"),
            );
        }
    }
    if let Some(lost) = held.evaporation {
        tell(
            msg!("evaporation at the hold, still"),
            msg!("water vapour leaving the surface by natural convection, held back by the lid"),
            Measured::new(lost.still, "g/min"),
        );
    }
    if let Some(top_up) = held.top_up {
        tell(
            msg!("lost by the end of the hold"),
            msg!("evaporation times the hold"),
            Measured::new(top_up.grams(), "g"),
        );
    }
    if let Some(after) = held.top_up_after {
        tell(
            msg!("top up after"),
            msg!("a tenth of the bath over its evaporation"),
            Measured::new(after.minutes(), "min"),
        );
    }
    if let Some(power) = held.power {
        tell(
            msg!("power to hold, net"),
            msg!("what the pot loses at the hold temperature"),
            Measured::new(power.watts(), "W"),
        );
    }
    if let Some(setting) = held.setting {
        tell(
            msg!("burner setting to hold, likely"),
            msg!("power to hold over the part of the full power that reaches the pot"),
            Measured::new(setting.likely * 100.0, "%"),
        );
    }
    if let Some(drift) = held.drift {
        tell(
            msg!("drift with the burner left as it was"),
            msg!("heat into the pot less its losses, over what warms"),
            Measured::new(drift, "C/min"),
        );
    }
}

fn inputs(hold: MainHold, liquor: &Liquor, stove: &StovePlace) -> Vec<(String, Measured)> {
    vec![
        (msg!("bath").into(), Measured::new(liquor.bath.litres(), "L")),
        (
            msg!("burner").into(),
            Measured::new(stove.burner.power.watts(), "W"),
        ),
        (
            msg!("pot diameter").into(),
            Measured::new(stove.pot.diameter.centimetres(), "cm"),
        ),
        (msg!("room").into(), Measured::new(stove.room.celsius(), "C")),
        (msg!("hold").into(), Measured::new(hold.at.celsius(), "C")),
    ]
}

pub(super) const BALANCE: &str = "the pot's heat balance; docs/sums.md, heat";
