//! Keying in a number with big keys: what it is for, its units, and what is typed so far.

use crate::craft::lot::LotId;
use crate::craft::reading;
use crate::machine::{Ask, Input, PotNo};
use crate::sheet::StovePlace;
use crate::sheet::plan::{Plan, StepAct, StepIndex};
use crate::shelf::{Milligrams, SupplyId};
use crate::view::locale::Locale;
use crate::view::screen::{Icon, NumberScreen, Slab, UnitChoice};

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
    /// The digits so far.
    pub(super) typed: String,
    /// The unit.
    pub(super) unit: &'static str,
    /// What seems wrong with it.
    pub(super) doubt: String,
}

/// What a number that was taken does.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Taken {
    Goods(crate::craft::quantity::Mass),
    Tell(Input),
    Stove(Box<StovePlace>),
    Shelf(Purpose, Milligrams),
}

impl Number {
    /// Nothing typed yet.
    pub(super) fn new(purpose: Purpose) -> Self {
        let unit = units(purpose).first().copied().unwrap_or("");
        Self {
            purpose,
            typed: String::new(),
            unit,
            doubt: String::new(),
        }
    }

    /// A key of the keypad or the keyboard.
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
            digit if self.typed.len() < LONG_ENOUGH => {
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
        if let Some(unit) = units(self.purpose).iter().find(|unit| **unit == key) {
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
                .map(|stove| Taken::Stove(Box::new(stove))),
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
                self.doubt = "goods that weigh nothing can't be dyed".into();
                None
            }
            Ok(Taken::Shelf(purpose, weight)) if weight.is_none() && !purpose.may_be_nothing() => {
                self.doubt = "nothing at all? put it on the scale".into();
                None
            }
            Ok(taken) => Some(taken),
            Err(fault) => {
                self.doubt = if self.typed.is_empty() {
                    "key in a number first".into()
                } else {
                    fault.to_string()
                };
                None
            }
        }
    }

    /// The page as a screen. `plan` is that of the pot it is about.
    pub(super) fn screen(&self, plan: Option<&Plan>, locale: Locale) -> NumberScreen {
        let units = units(self.purpose);
        let choices = if units.len() > 1 { units } else { &[] };
        NumberScreen {
            title: title(self.purpose).into(),
            target: target(self.purpose, plan, locale),
            typed: self.typed.clone(),
            hint: "0".into(),
            unit: self.unit.into(),
            doubt: self.doubt.clone(),
            point: locale.language.decimal_sign().to_string(),
            minus: takes_minus(self.purpose),
            slab: Slab {
                key: "take-number".into(),
                label: "That's it".into(),
                detail: String::new(),
                icon: Icon::Tick,
                enabled: !self.typed.is_empty(),
                quiet: false,
            },
            units: choices
                .iter()
                .map(|unit| UnitChoice {
                    key: (*unit).into(),
                    label: (*unit).into(),
                    chosen: *unit == self.unit,
                })
                .collect(),
        }
    }
}

impl Purpose {
    /// Whether nothing is a weight here: a jar can be empty, and a mark can be taken down to it.
    const fn may_be_nothing(self) -> bool {
        matches!(self, Self::Left(_) | Self::Low(_) | Self::NewSupply(_))
    }
}

const fn title(purpose: Purpose) -> &'static str {
    match purpose {
        Purpose::Goods => "Dry weight of the goods",
        Purpose::Weighed(_, _) => "What the scale says",
        Purpose::Reading(_) => "What the thermometer says",
        Purpose::Setting(setting) => setting.title(),
        Purpose::Lot(_) => "Dry weight of the lot",
        Purpose::Part(_, _) => "Weight of the first part",
        Purpose::Left(_) => "What is left",
        Purpose::More(_) => "What came in",
        Purpose::Low(_) => "Running low from here down",
        Purpose::NewSupply(_) => "How much of it",
    }
}

const fn units(purpose: Purpose) -> &'static [&'static str] {
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
                format!("{} {target}, give or take {off}", addition.name)
            })
        }
        Purpose::Goods => "air-dry, before any wetting".into(),
        Purpose::Reading(_) => "stir first, then read in the middle of the bath".into(),
        Purpose::Setting(_) => String::new(),
        Purpose::Lot(lot) => format!("{lot}, air-dry; the earlier weights stay"),
        Purpose::Part(lot, _) => format!("{lot}, in the state it was weighed; the second part gets the rest"),
        Purpose::Left(supply) => format!("{supply}, without its jar"),
        Purpose::More(supply) => format!("{supply}: it is added to what is left"),
        Purpose::Low(supply) => format!("{supply}: from here down it stands among what is running low"),
        Purpose::NewSupply(_) => "without its jar".into(),
    }
}
