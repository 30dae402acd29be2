//! Putting a finished bath down: the lot's history gains it, the supplies lose what was really weighed. Once.

use std::collections::BTreeSet;

use super::bath::{Draw, ShelvedBath, Weighed};
use super::kept::{BATHS_MOST, Shelf};
use super::supply::SupplyId;
use super::weight::Milligrams;
use super::words::{NAME_CHARACTERS_MOST, clipped};
use crate::craft::fibre::Fibre;
use crate::craft::lot::LotId;
use crate::recipe::model::Form;

/// What became of a bath that was put down.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Applied {
    /// Whether anything changed: a bath that is there already changes nothing.
    pub is_new: bool,
    /// The lots whose history gained it.
    pub lots: Vec<LotId>,
    /// What a person should know of it.
    pub remarks: Vec<Remark>,
}

/// Something that didn't come out even.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[expect(missing_docs, reason = "each message says what its fields are")]
pub enum Remark {
    #[error(
        "bath {bath} was of lot {lot}, which isn't on the shelf; its wares are drawn down, its goods are nobody's"
    )]
    LotUnknown { bath: String, lot: LotId },
    #[error(
        "bath {bath} was of {one}, lot {lot} is {other}; check the tag",
        one = .was.name(), other = .is.name()
    )]
    OtherFibre {
        bath: String,
        lot: LotId,
        was: Fibre,
        is: Fibre,
    },
    #[error("{lot} had been split or joined when bath {bath} was put down; it stands in the history of {lots}", lots = list(.into))]
    MovedOn {
        bath: String,
        lot: LotId,
        into: Vec<LotId>,
    },
    #[error(
        "{grams} g of {name} went into bath {bath}, {lacking} g more than the shelf had; weigh what is left",
        grams = .weight.in_grams(), lacking = .short.in_grams()
    )]
    Short {
        bath: String,
        name: String,
        weight: Milligrams,
        short: Milligrams,
    },
    #[error(
        "{grams} g of {name} went into bath {bath}, and the shelf has none of it; nothing is drawn down",
        grams = .weight.in_grams()
    )]
    NotOnShelf {
        bath: String,
        name: String,
        weight: Milligrams,
    },
    #[error(
        "{grams} g of {name} went into bath {bath}, and {supplies} could be it; weigh what is left of the one it was",
        grams = .weight.in_grams(), supplies = tags(.could_be)
    )]
    WhichOne {
        bath: String,
        name: String,
        weight: Milligrams,
        could_be: Vec<SupplyId>,
    },
    #[error("the shelf has {BATHS_MOST} baths, which is the most; bath {bath} isn't put down")]
    Full { bath: String },
}

impl Shelf {
    /// Puts a finished bath down. To repeat it is harmless: a bath is put down once, by the id of its record.
    ///
    /// `fibre` is what the bath said of the goods, to be held against the lot. What `bath` says of draws is not looked
    /// at: it is worked out here.
    pub fn put_down(&mut self, bath: ShelvedBath, fibre: Fibre) -> Applied {
        if self.has_record(&bath.id) {
            return Applied::default();
        }
        if self.baths.len() >= BATHS_MOST {
            return Applied {
                remarks: vec![Remark::Full { bath: bath.id }],
                ..Applied::default()
            };
        }
        let mut bath = ShelvedBath {
            recipe: clipped(&bath.recipe, NAME_CHARACTERS_MOST),
            name: clipped(&bath.name, NAME_CHARACTERS_MOST),
            ..bath
        };
        let mut applied = Applied {
            is_new: true,
            ..Applied::default()
        };
        let is_counting = !self.supplies.is_empty();
        for weighed in &mut bath.weighed {
            weighed.ware = clipped(&weighed.ware, NAME_CHARACTERS_MOST);
            weighed.name = clipped(&weighed.name, NAME_CHARACTERS_MOST);
            weighed.drawn.clear();
            let remark = self.draw(&bath.id, weighed);
            applied.remarks.extend(remark.filter(|_| is_counting));
        }
        if let Some(lot) = bath.lot {
            self.write_history(&bath.id, lot, fibre, &mut applied);
        }
        self.baths.push(bath);
        applied
    }

    /// Draws what was weighed from the supplies it can only have come from, the oldest first.
    fn draw(&mut self, bath: &str, weighed: &mut Weighed) -> Option<Remark> {
        let fitting = self.fitting(&weighed.ware, weighed.form);
        let (bath, name, weight) = (bath.to_owned(), weighed.name.clone(), weighed.weight);
        if weight.is_none() {
            return None;
        }
        match fitting {
            Fitting::None => Some(Remark::NotOnShelf { bath, name, weight }),
            Fitting::Unclear(could_be) => Some(Remark::WhichOne {
                bath,
                name,
                weight,
                could_be,
            }),
            Fitting::These(supplies) => {
                let mut open = weight;
                for from in supplies {
                    let Some(supply) = self.supplies.get_mut(&from) else {
                        continue;
                    };
                    let weight = open.at_most(supply.left);
                    if weight.is_none() {
                        continue;
                    }
                    supply.left = supply.left.less(weight).unwrap_or_default();
                    open = open.less(weight).unwrap_or_default();
                    weighed.drawn.push(Draw { from, weight });
                }
                (!open.is_none()).then_some(Remark::Short {
                    bath,
                    name,
                    weight,
                    short: open,
                })
            }
        }
    }

    /// The supplies a ware can have come from. Fresh, dried, ground and extract are different wares; where the form
    /// isn't known, or only that a salt was known by a label, it is one supply or unclear.
    fn fitting(&self, ware: &str, form: Option<Form>) -> Fitting {
        let of_ware: Vec<_> = self
            .supplies
            .values()
            .filter(|supply| supply.stock.ware() == ware)
            .collect();
        let tags =
            |supplies: &[&super::supply::Supply]| supplies.iter().map(|supply| supply.id).collect::<Vec<_>>();
        let is_dyestuff = of_ware.iter().any(|supply| supply.stock.form().is_some());
        if is_dyestuff && let Some(form) = form {
            let of_form: Vec<_> = of_ware
                .into_iter()
                .filter(|supply| supply.stock.form() == Some(form))
                .collect();
            return if of_form.is_empty() {
                Fitting::None
            } else {
                Fitting::These(tags(&of_form))
            };
        }
        let mut kinds: Vec<String> = of_ware
            .iter()
            .map(|supply| format!("{:?}", supply.stock))
            .collect();
        kinds.dedup();
        match (of_ware.is_empty(), kinds.len()) {
            (true, _) => Fitting::None,
            (false, 1) => Fitting::These(tags(&of_ware)),
            (false, _) => Fitting::Unclear(tags(&of_ware)),
        }
    }

    /// The lot's history gains the bath; so do the lots it has been split or joined into since.
    fn write_history(&mut self, bath: &str, lot: LotId, fibre: Fibre, applied: &mut Applied) {
        let Some(there) = self.lots.get(&lot) else {
            applied.remarks.push(Remark::LotUnknown {
                bath: bath.to_owned(),
                lot,
            });
            return;
        };
        if there.fibre != fibre {
            applied.remarks.push(Remark::OtherFibre {
                bath: bath.to_owned(),
                lot,
                was: fibre,
                is: there.fibre,
            });
        }
        let mut gain = BTreeSet::from([lot]);
        // Numbers rise from a lot to those made of it, so one pass in order finds them all.
        for one in self.lots.values() {
            if one.from.iter().any(|from| gain.contains(from)) {
                gain.insert(one.id);
            }
        }
        for id in &gain {
            if let Some(lot) = self.lots.get_mut(id) {
                lot.baths.push(bath.to_owned());
            }
        }
        let into: Vec<LotId> = gain.iter().copied().filter(|id| *id != lot).collect();
        if !into.is_empty() {
            applied.remarks.push(Remark::MovedOn {
                bath: bath.to_owned(),
                lot,
                into,
            });
        }
        applied.lots = gain.into_iter().collect();
    }
}

enum Fitting {
    None,
    These(Vec<SupplyId>),
    Unclear(Vec<SupplyId>),
}

fn list(lots: &[LotId]) -> String {
    lots.iter().map(LotId::to_string).collect::<Vec<_>>().join(", ")
}

fn tags(supplies: &[SupplyId]) -> String {
    supplies
        .iter()
        .map(SupplyId::to_string)
        .collect::<Vec<_>>()
        .join(", ")
}
