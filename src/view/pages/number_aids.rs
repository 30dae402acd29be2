//! What helps to enter a number with wet hands: steps up and down from what is likely, the value of last time, and how a
//! weighing lies to its target. Nothing is filled in before it is pressed: what a scale says is never taken as read.

use crate::craft::measures::KitchenUnit;
use crate::craft::quantity::{Mass, Temperature};
use crate::craft::reading;
use crate::say;
use crate::sheet::plan::{PlannedAddition, StepAct, is_near};
use crate::view::locale::Locale;
use crate::view::screen::{Gauge, GaugeSide, NumberScreen, StepKey};

use super::number_page::{Number, Purpose};
use super::page::{Facts, Pages};

/// The key that changes between digits and steps.
const SWAP: &str = "swap";

const UP: &str = "up";
const DOWN: &str = "down";
const UP_TEN: &str = "up-ten";
const DOWN_TEN: &str = "down-ten";
const LAST: &str = "last";

/// Sums of decimal steps are off by less.
const SLIP: f64 = 1e-6;

/// What the program knows about a number that is being entered, in its unit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Aids {
    /// From where the first step goes.
    from: f64,
    /// The smaller step; the other is ten of it.
    step: f64,
    /// As fine as it can be read.
    finest: f64,
    /// The value of last time.
    last: Option<f64>,
    /// What is wanted, and how far off it may be.
    target: Option<(Mass, Mass)>,
}

impl Pages {
    /// What helps to enter this number; `None` for one that has no steps.
    pub(super) fn aids(&self, number: &Number, facts: &Facts<'_>) -> Option<Aids> {
        let unit = number.unit;
        let scale = in_unit(facts.bench.stove.scale_step, unit);
        let of_weight = |from: Option<Mass>, last: Option<Mass>| {
            let from = from.or(last).map_or(0.0, |mass| in_unit(mass, unit));
            Aids {
                from,
                step: three_figures(from, unit).max(scale_in_tens(scale)),
                finest: scale_in_tens(scale),
                last: last.map(|mass| in_unit(mass, unit)),
                target: None,
            }
        };
        let supply = |id| facts.shelf.supply(id);
        Some(match number.purpose {
            Purpose::Weighed(..) => {
                let addition = addition(number.purpose, facts)?;
                let tolerance = in_unit(addition.tolerance, unit);
                Aids {
                    from: in_unit(addition.target, unit),
                    step: band_in_steps(scale_in_tens(scale), tolerance),
                    finest: scale_in_tens(scale),
                    last: last_weighed(addition, number.purpose, facts).map(|mass| in_unit(mass, unit)),
                    target: Some((addition.target, addition.tolerance)),
                }
            }
            Purpose::Reading(pot) => {
                let run = facts.machine.pot(pot)?;
                let last = run.last_reading.map(|(_, read)| degrees(read, unit));
                let aimed = run.step().and_then(|step| aimed(&step.act));
                let from = aimed.map(|to| degrees(to, unit));
                Aids {
                    from: last.or(from).unwrap_or(0.0).round(),
                    step: 1.0,
                    finest: 0.1,
                    last,
                    target: None,
                }
            }
            Purpose::Goods => {
                let asked = match &self.draft {
                    Some(draft) => draft.weight,
                    None => self.remembered.form.weight,
                };
                of_weight(asked, self.remembered.goods)
            }
            Purpose::Lot(id) => of_weight(None, facts.shelf.lot(id).map(|lot| lot.weighing().weight.mass())),
            Purpose::Part(..) | Purpose::More(_) | Purpose::NewSupply(_) => of_weight(None, None),
            Purpose::Left(id) => of_weight(None, supply(id).map(|supply| supply.left.mass())),
            Purpose::Low(id) => of_weight(
                None,
                supply(id)
                    .and_then(|supply| supply.low)
                    .map(crate::shelf::Milligrams::mass),
            ),
            Purpose::Setting(_) => return None,
        })
    }
}

impl Number {
    /// A step, the value of last time, or steps for digits. Says whether the key was one of them.
    pub(super) fn step(&mut self, key: &str, aids: &Aids) -> bool {
        const LONG_ENOUGH: usize = 7;
        let by = match key {
            UP => aids.step,
            DOWN => -aids.step,
            UP_TEN => aids.step * 10.0,
            DOWN_TEN => aids.step * -10.0,
            LAST => {
                if let Some(last) = aids.last {
                    self.doubt.clear();
                    self.typed = shown(last, aids);
                }
                return true;
            }
            SWAP => {
                self.stepping = !self.stepping;
                return true;
            }
            _ => return false,
        };
        self.doubt.clear();
        let typed = self.typed.trim_end_matches('.');
        let value = typed.parse().unwrap_or(aids.from) + by;
        let places = places(aids.step).max(typed.split_once('.').map_or(0, |(_, after)| after.len()));
        let stepped = format!("{:.places$}", value.max(0.0));
        if stepped.len() <= LONG_ENOUGH {
            self.typed = stepped;
        }
        true
    }

    /// Puts on the screen what helps.
    pub(super) fn help(&self, screen: &mut NumberScreen, aids: &Aids, locale: Locale) {
        let to_what = if self.stepping { "1 2 3" } else { "+ \u{2212}" };
        screen.swap = StepKey {
            key: SWAP.into(),
            label: to_what.into(),
        };
        screen.gauge = self.gauge(aids, locale);
        if !self.stepping {
            return;
        }
        if aids.from > 0.0 {
            screen.hint = locale.pointed(&shown(aids.from, aids));
        }
        let unit = locale.say(self.unit);
        let key = |key: &str, sign: &str, by: f64| StepKey {
            key: key.into(),
            label: format!("{sign}{} {unit}", locale.decimal(by, places(by))),
        };
        screen.steps = vec![
            key(DOWN_TEN, "\u{2212}", aids.step * 10.0),
            key(UP_TEN, "+", aids.step * 10.0),
            key(DOWN, "\u{2212}", aids.step),
            key(UP, "+", aids.step),
        ];
        if let Some(last) = aids.last {
            let value = format!("{} {unit}", locale.pointed(&shown(last, aids)));
            screen.last = StepKey {
                key: LAST.into(),
                label: say!(locale, "last time {value}", value = value),
            };
        }
    }

    /// How the reading lies to its target, judged as the machine will judge it.
    fn gauge(&self, aids: &Aids, locale: Locale) -> Gauge {
        let Some((target, tolerance)) = aids.target else {
            return Gauge::default();
        };
        let text = format!("{} {}", self.typed.trim_end_matches('.'), self.unit);
        let Ok(read) = reading::mass(&text) else {
            return Gauge {
                shown: true,
                ..Gauge::default()
            };
        };
        let off = read.grams() - target.grams();
        let by = locale.grams(Mass::saturating_grams(off.abs()));
        let (side, word) = if is_near(read, target, tolerance) {
            (GaugeSide::Within, say!(locale, "of a weighing" => "within"))
        } else if off < 0.0 {
            (GaugeSide::Under, say!(locale, "{by} under", by = by))
        } else {
            (GaugeSide::Over, say!(locale, "{by} over", by = by))
        };
        Gauge {
            shown: true,
            side,
            at: place(off, tolerance.grams()),
            word,
        }
    }
}

/// Where a reading lies on the bar, 0 to 1. The band is its middle third; what is further off than twice the band's
/// half lies at an end.
#[expect(
    clippy::as_conversions,
    clippy::cast_possible_truncation,
    reason = "a place on the glass"
)]
fn place(off: f64, tolerance: f64) -> f32 {
    const END: f64 = 0.04;
    let in_bands = off / (tolerance.max(f64::MIN_POSITIVE) * 6.0);
    (0.5 + in_bands).clamp(END, 1.0 - END) as f32
}

fn addition<'a>(purpose: Purpose, facts: &Facts<'a>) -> Option<&'a PlannedAddition> {
    let Purpose::Weighed(pot, step) = purpose else {
        return None;
    };
    let plan = &facts.machine.pot(pot)?.plan;
    let StepAct::Weigh { letter } = plan.step(step)?.act else {
        return None;
    };
    plan.addition(letter)
}

/// What the scale said when as much of this ware went into a bath of this recipe.
fn last_weighed(addition: &PlannedAddition, purpose: Purpose, facts: &Facts<'_>) -> Option<Mass> {
    let Purpose::Weighed(pot, _) = purpose else {
        return None;
    };
    let recipe = &facts.machine.pot(pot)?.plan.recipe_id;
    let as_much = |planned: Mass| is_near(planned, addition.target, addition.tolerance);
    facts
        .weighed
        .iter()
        .find(|before| {
            before.recipe_id == *recipe && before.ware_id == addition.ware_id && as_much(before.planned)
        })
        .map(|before| before.actual)
}

/// Where a step wants the bath.
const fn aimed(act: &StepAct) -> Option<Temperature> {
    match act {
        StepAct::Raise { to, .. } | StepAct::Cool { to, .. } => Some(*to),
        StepAct::Hold { at, .. } => Some(*at),
        StepAct::Enter { at_most } => Some(*at_most),
        StepAct::WetOut { .. }
        | StepAct::Weigh { .. }
        | StepAct::Fill { .. }
        | StepAct::Dissolve { .. }
        | StepAct::Add { .. }
        | StepAct::Strain { .. }
        | StepAct::Look { .. }
        | StepAct::Dip { .. }
        | StepAct::Lift
        | StepAct::Squeeze
        | StepAct::Rinse { .. }
        | StepAct::Air { .. }
        | StepAct::Rest { .. }
        | StepAct::Dry
        | StepAct::Shelve => None,
    }
}

/// Grams in one of a unit that weights are keyed in.
fn grams_in(unit: &str) -> f64 {
    match unit {
        "kg" => 1_000.0,
        "oz" => KitchenUnit::Ounce.si(),
        "lb" => KitchenUnit::Pound.si(),
        _ => 1.0,
    }
}

fn in_unit(mass: Mass, unit: &str) -> f64 {
    mass.grams() / grams_in(unit)
}

/// Degrees Fahrenheit of degrees Celsius: NIST SP 811, B.8.
fn degrees(temperature: Temperature, unit: &str) -> f64 {
    match unit {
        "F" => temperature.celsius() * 1.8 + 32.0,
        _ => temperature.celsius(),
    }
}

/// Steps that leave three figures: 1 g of 100 g, 0.1 oz of 35 oz. Where nothing is known, as for 100 g.
fn three_figures(amount: f64, unit: &str) -> f64 {
    const USUAL_G: f64 = 100.0;
    let amount = if amount > 0.0 {
        amount
    } else {
        USUAL_G / grams_in(unit)
    };
    ten_to((amount.log10() + SLIP).floor() - 2.0)
}

/// The step of the scale where it is a decimal one in this unit, else the next larger power of ten.
fn scale_in_tens(scale: f64) -> f64 {
    const FINEST: f64 = 0.001;
    if places(scale) <= 3 && scale >= FINEST {
        scale
    } else {
        ten_to((scale.max(FINEST).log10() - SLIP).ceil())
    }
}

/// The scale's step, or ten, a hundred of it, so that the band is a few steps wide.
fn band_in_steps(scale: f64, tolerance: f64) -> f64 {
    let tens = (tolerance / 2.0 / scale).max(1.0).log10();
    scale * ten_to((tens + SLIP).floor())
}

fn ten_to(power: f64) -> f64 {
    10_f64.powf(power)
}

/// How many places a decimal number needs, up to four.
fn places(value: f64) -> usize {
    let needs_no_more = |power: f64| {
        let scaled = value * ten_to(power);
        (scaled - scaled.round()).abs() < SLIP * scaled.abs().max(1.0)
    };
    [0.0, 1.0, 2.0, 3.0]
        .into_iter()
        .position(needs_no_more)
        .unwrap_or(4)
}

/// A value as it is keyed in: as fine as the steps, and finer only where it is.
fn shown(value: f64, aids: &Aids) -> String {
    let (least, most) = (places(aids.step), places(aids.finest));
    let rounded = format!("{value:.most$}");
    let value = rounded.parse().unwrap_or(value);
    let places = least.max(places(value).min(most));
    format!("{value:.places$}")
}
