//! Keying in a number with big keys: what it is for, its units, and what is typed so far.

use crate::craft::lot::LotId;
use crate::craft::reading;
use crate::machine::{Ask, Input, PotNo};
use crate::sheet::StovePlace;
use crate::sheet::plan::{Plan, StepAct, StepIndex};
use crate::shelf::{Milligrams, SupplyId};
use crate::view::locale::{Habits, Locale, Temperatures, Volumes, Weights};
use crate::view::screen::{Gauge, Icon, NumberScreen, Slab, StepKey, UnitChoice};
use crate::{msg, say};

use super::settings::Setting;

/// What a number is for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Purpose {
    /// Dry weight of the goods.
    Goods,
    /// The scale's reading in a weighing step.
    Weighed(PotNo, StepIndex),
    /// The thermometer's reading.
    Reading(PotNo),
    /// A figure of the bench or of this bath's pot.
    Setting(Setting),
    /// A lot weighed again.
    Lot(LotId),
    /// The first part of a lot that is split, of so many hanks.
    Part(LotId, u32),
    /// What is left of a supply.
    Left(SupplyId),
    /// What came in of a supply.
    More(SupplyId),
    /// From where down a supply is running low.
    Low(SupplyId),
    /// How much there is of a new supply, by its place among the wares.
    NewSupply(usize),
}

/// A number being keyed in.
#[derive(Debug, Clone, PartialEq)]
pub struct Number {
    /// What it is for.
    pub(super) purpose: Purpose,
    /// The digits so far, with a point for the decimal sign of any language.
    pub(super) typed: String,
    /// The unit.
    pub(super) unit: &'static str,
    /// Steps stand beside it instead of digits.
    pub(super) stepping: bool,
    /// What seems wrong with it, in English.
    pub(super) doubt: String,
}

/// What a number that was taken does.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Taken {
    Goods(crate::craft::quantity::Mass),
    Tell(Input),
    Stove(Setting, Box<StovePlace>),
    Shelf(Purpose, Milligrams),
}

impl Number {
    /// Nothing typed yet, in the unit the dyer is used to.
    pub(super) fn new(purpose: Purpose, habits: Habits) -> Self {
        let unit = units(purpose, habits).first().copied().unwrap_or("");
        Self {
            purpose,
            typed: String::new(),
            unit,
            // A scale's reading lies near its target, and hands are wet.
            stepping: matches!(purpose, Purpose::Weighed(..)),
            doubt: String::new(),
        }
    }

    /// A key of the keypad or the keyboard. Point and comma of the keyboard are the same key, the decimal sign: no
    /// mark of thousands can be keyed in, so `1,234` is one and a bit, and stands on the glass as one and a bit.
    pub(super) fn key(&mut self, key: &str) {
        const LONG_ENOUGH: usize = 7;
        self.doubt.clear();
        match key {
            "erase" => {
                self.typed.pop();
            }
            "point" if self.typed.contains('.') => {}
            "point" if self.typed.is_empty() => self.typed.push_str("0."),
            "point" => self.typed.push('.'),
            "minus" if self.typed.is_empty() => self.typed.push('-'),
            "minus" => {}
            digit if is_digit(digit) && self.typed.len() < LONG_ENOUGH => {
                if self.typed == "0" {
                    self.typed.clear();
                }
                self.typed.push_str(digit);
            }
            _ => {}
        }
    }

    /// Another unit for the same digits.
    pub(super) fn choose_unit(&mut self, key: &str) {
        self.doubt.clear();
        if let Some(unit) = all_units(self.purpose).iter().find(|unit| **unit == key) {
            self.unit = unit;
        }
    }

    /// Takes the number, or notes what is wrong with it.
    pub(super) fn take(&mut self, stove: &StovePlace) -> Option<Taken> {
        let text = format!("{} {}", self.typed.trim_end_matches('.'), self.unit);
        let taken = match self.purpose {
            Purpose::Goods => reading::mass(&text).map(Taken::Goods),
            Purpose::Weighed(pot, step) => reading::mass(&text).map(|mass| {
                Taken::Tell(Input::Pot(
                    pot,
                    Ask::Weighed {
                        step,
                        mass,
                        sure: false,
                    },
                ))
            }),
            Purpose::Reading(pot) => {
                reading::temperature(&text).map(|read| Taken::Tell(Input::Pot(pot, Ask::Reading(read))))
            }
            Purpose::Setting(setting) => setting
                .read(&text, stove)
                .map(|stove| Taken::Stove(setting, Box::new(stove))),
            purpose @ (Purpose::Lot(_)
            | Purpose::Part(_, _)
            | Purpose::Left(_)
            | Purpose::More(_)
            | Purpose::Low(_)
            | Purpose::NewSupply(_)) => {
                reading::mass(&text).map(|mass| Taken::Shelf(purpose, Milligrams::of(mass)))
            }
        };
        match taken {
            Ok(Taken::Goods(mass)) if mass.grams() <= 0.0 => {
                self.doubt = msg!("goods that weigh nothing can't be dyed").into();
                None
            }
            Ok(Taken::Shelf(purpose, weight)) if weight.is_none() && !purpose.may_be_nothing() => {
                self.doubt = msg!("nothing at all? put it on the scale").into();
                None
            }
            Ok(taken) => Some(taken),
            Err(fault) => {
                self.doubt = if self.typed.is_empty() {
                    msg!("key in a number first").into()
                } else {
                    fault.to_string()
                };
                None
            }
        }
    }

    /// The page as a screen. `plan` is that of the pot it is about.
    pub(super) fn screen(&self, plan: Option<&Plan>, locale: Locale) -> NumberScreen {
        let mut choices = units(self.purpose, locale.habits);
        if choices.len() == 1 {
            choices.clear();
        }
        NumberScreen {
            title: locale.say(title(self.purpose)),
            target: target(self.purpose, plan, locale),
            typed: locale.pointed(&self.typed),
            hint: "0".into(),
            unit: locale.say(self.unit),
            doubt: locale.read(&self.doubt),
            point: locale.language.decimal_sign().to_string(),
            minus: takes_minus(self.purpose),
            slab: Slab {
                key: "take-number".into(),
                label: say!(locale, "That's it"),
                detail: String::new(),
                icon: Icon::Tick,
                enabled: !self.typed.is_empty(),
                quiet: false,
            },
            units: choices
                .iter()
                .map(|unit| UnitChoice {
                    key: (*unit).into(),
                    label: locale.say(unit),
                    chosen: *unit == self.unit,
                })
                .collect(),
            steps: Vec::new(),
            last: StepKey::default(),
            swap: StepKey::default(),
            gauge: Gauge::default(),
        }
    }
}

fn is_digit(key: &str) -> bool {
    key.len() == 1 && key.starts_with(|sign: char| sign.is_ascii_digit())
}

impl Purpose {
    /// Whether nothing is a weight here: a jar can be empty, and a mark can be taken down to it.
    const fn may_be_nothing(self) -> bool {
        matches!(self, Self::Left(_) | Self::Low(_) | Self::NewSupply(_))
    }
}

const fn title(purpose: Purpose) -> &'static str {
    match purpose {
        Purpose::Goods => msg!("Dry weight of the goods"),
        Purpose::Weighed(_, _) => msg!("What the scale says"),
        Purpose::Reading(_) => msg!("What the thermometer says"),
        Purpose::Setting(setting) => setting.title(),
        Purpose::Lot(_) => msg!("Dry weight of the lot"),
        Purpose::Part(_, _) => msg!("Weight of the first part"),
        Purpose::Left(_) => msg!("What is left"),
        Purpose::More(_) => msg!("What came in"),
        Purpose::Low(_) => msg!("Running low from here down"),
        Purpose::NewSupply(_) => msg!("How much of it"),
    }
}

/// The units a number can be keyed in, those the dyer is used to first.
fn units(purpose: Purpose, habits: Habits) -> Vec<&'static str> {
    let mut units = all_units(purpose).to_vec();
    units.sort_by_key(|unit| !is_usual(unit, habits));
    units
}

fn is_usual(unit: &str, habits: Habits) -> bool {
    match unit {
        "g" | "kg" => habits.weights == Weights::Grams,
        "oz" | "lb" => habits.weights == Weights::Ounces,
        "C" => habits.temperatures == Temperatures::Celsius,
        "F" => habits.temperatures == Temperatures::Fahrenheit,
        "L" | "cm" | "m" => habits.volumes == Volumes::Litres,
        "us-gal" => habits.volumes == Volumes::UsGallons,
        "imp-gal" => habits.volumes == Volumes::ImperialGallons,
        "in" | "ft" => habits.volumes != Volumes::Litres,
        _ => true,
    }
}

const fn all_units(purpose: Purpose) -> &'static [&'static str] {
    match purpose {
        Purpose::Goods
        | Purpose::Lot(_)
        | Purpose::Part(_, _)
        | Purpose::Left(_)
        | Purpose::More(_)
        | Purpose::Low(_)
        | Purpose::NewSupply(_) => &["g", "kg", "oz", "lb"],
        Purpose::Weighed(_, _) => &["g", "oz"],
        Purpose::Reading(_) => &["C", "F"],
        Purpose::Setting(setting) => setting.units(),
    }
}

const fn takes_minus(purpose: Purpose) -> bool {
    match purpose {
        Purpose::Goods
        | Purpose::Weighed(_, _)
        | Purpose::Reading(_)
        | Purpose::Lot(_)
        | Purpose::Part(_, _)
        | Purpose::Left(_)
        | Purpose::More(_)
        | Purpose::Low(_)
        | Purpose::NewSupply(_) => false,
        Purpose::Setting(setting) => setting.takes_minus(),
    }
}

fn target(purpose: Purpose, plan: Option<&Plan>, locale: Locale) -> String {
    match purpose {
        Purpose::Weighed(_, step) => {
            let letter = plan.and_then(|plan| plan.step(step)).and_then(|step| {
                if let StepAct::Weigh { letter } = step.act {
                    Some(letter)
                } else {
                    None
                }
            });
            let addition = plan.zip(letter).and_then(|(plan, letter)| plan.addition(letter));
            addition.map_or_else(String::new, |addition| {
                let (target, off) = (locale.grams(addition.target), locale.grams(addition.tolerance));
                say!(
                    locale,
                    "{ware} {target}, give or take {off}",
                    ware = locale.read(&addition.name),
                    target = target,
                    off = off
                )
            })
        }
        Purpose::Goods => say!(locale, "air-dry, before any wetting"),
        Purpose::Reading(_) => say!(locale, "stir first, then read in the middle of the bath"),
        Purpose::Setting(_) => String::new(),
        Purpose::Lot(lot) => say!(locale, "{lot}, air-dry; the earlier weights stay", lot = lot),
        Purpose::Part(lot, _) => say!(
            locale,
            "{lot}, in the state it was weighed; the second part gets the rest",
            lot = lot
        ),
        Purpose::Left(supply) => say!(locale, "{supply}, without its jar", supply = supply),
        Purpose::More(supply) => say!(locale, "{supply}: it is added to what is left", supply = supply),
        Purpose::Low(supply) => say!(
            locale,
            "{supply}: from here down it stands among what is running low",
            supply = supply
        ),
        Purpose::NewSupply(_) => say!(locale, "without its jar"),
    }
}
