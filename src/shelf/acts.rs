//! What a dyer does to the shelf: lots come, are split, joined, weighed again, and go; supplies come and are counted.

use std::collections::BTreeSet;

use chrono::NaiveDate;

use super::kept::{LOTS_MOST, SUPPLIES_MOST, Shelf};
use super::lot::{Came, Lot, LotWeighing};
use super::supply::{Stock, Supply, SupplyId};
use super::weight::Milligrams;
use super::words::{self, BadWords};
use crate::craft::basis::{BasisFault, WeighedAs, basis};
use crate::craft::fibre::Fibre;
use crate::craft::lot::LotId;
use crate::msg;
use crate::recipe::model::BathKind;

/// A lot has at most this many hanks.
pub(super) const HANKS_MOST: u32 = 10_000;
/// And is weighed at most this often.
pub(super) const WEIGHINGS_MOST: usize = 100;
/// And is split into, or joined of, at most this many.
pub(super) const PARTS_MOST: usize = 50;

/// A lot as it comes.
#[derive(Debug, Clone, PartialEq)]
pub struct NewLot {
    /// What the dyer calls it.
    pub name: String,
    /// What it is made of.
    pub fibre: Fibre,
    /// What the scale said.
    pub weight: Milligrams,
    /// In which state it was weighed.
    pub state: WeighedAs,
    /// How many hanks or pieces.
    pub hanks: u32,
    /// How it came.
    pub came: Came,
}

/// A part that is split off.
#[derive(Debug, Clone, PartialEq)]
pub struct Part {
    /// How many hanks.
    pub hanks: u32,
    /// Its weight, in the state the lot was weighed; `None` for the one part that is the rest.
    pub weight: Option<Milligrams>,
    /// What the dyer calls it; the lot's name when left out.
    pub name: Option<String>,
}

/// A supply as it comes.
#[derive(Debug, Clone, PartialEq)]
pub struct NewSupply {
    /// What it is.
    pub stock: Stock,
    /// What the dyer calls it.
    pub name: String,
    /// How much.
    pub left: Milligrams,
    /// The dyer's own mark for running low.
    pub low: Option<Milligrams>,
    /// Whatever is to be remembered of it.
    pub note: Option<String>,
}

/// Why an act isn't done. The shelf is as it was.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[expect(missing_docs, reason = "each message says what its fields are")]
pub enum ActFault {
    #[error("no lot {lot} on the shelf; see the list of lots, or `potside shelf`")]
    NoLot { lot: LotId },
    #[error("{lot} went on {on}; it can't be worked any more")]
    Gone { lot: LotId, on: NaiveDate },
    #[error("{lot} isn't a lot of its own any more; it is in {lots}", lots = list(.into))]
    InOthers { lot: LotId, into: Vec<LotId> },
    #[error("no supply {supply} on the shelf; see the list of supplies, or `potside shelf`")]
    NoSupply { supply: SupplyId },
    #[error("{0}")]
    Words(#[from] BadWords),
    #[error("a lot has 1 to {HANKS_MOST} hanks, not {hanks}")]
    Hanks { hanks: u32 },
    #[error("goods that weigh nothing are no lot; weigh them and give the weight")]
    WeighsNothing,
    #[error("{0}")]
    State(#[from] BasisFault),
    #[error(
        "the weights together are more than can be weighed here, {most} g",
        most = Milligrams::MOST.in_grams()
    )]
    TooHeavy,
    #[error("a lot is split into 2 to {PARTS_MOST} parts, not {count}")]
    PartCount { count: usize },
    #[error("the parts have {sum} hanks, {lot} has {hanks}; count again")]
    PartHanks { lot: LotId, hanks: u32, sum: u32 },
    #[error(
        "the parts weigh {together} g, {lot} weighs {whole} g; weigh {lot} again first, or leave the last part's weight \
         out: it gets the rest",
        together = .sum.in_grams(), whole = .weight.in_grams()
    )]
    PartWeights {
        lot: LotId,
        weight: Milligrams,
        sum: Milligrams,
    },
    #[error("the weight of one part at most can be left out; {count} have none")]
    SeveralRests { count: usize },
    #[error(
        "the other parts weigh {together} g already, and {lot} weighs {whole} g: nothing is left for the rest",
        together = .sum.in_grams(), whole = .weight.in_grams()
    )]
    NoRest {
        lot: LotId,
        weight: Milligrams,
        sum: Milligrams,
    },
    #[error("2 to {PARTS_MOST} different lots are joined, not {count}")]
    JoinCount { count: usize },
    #[error(
        "{lot} is {its_fibre} and {other} is {others_fibre}; a lot is of one fibre, so keep them apart",
        its_fibre = .fibre.name(), others_fibre = .other_fibre.name()
    )]
    JoinFibres {
        lot: LotId,
        fibre: Fibre,
        other: LotId,
        other_fibre: Fibre,
    },
    #[error(
        "{lot} came {how} and {other} came {otherwise}; scour first, or keep them apart",
        how = .came.id(), otherwise = .other_came.id()
    )]
    JoinCame {
        lot: LotId,
        came: Came,
        other: LotId,
        other_came: Came,
    },
    #[error(
        "{lot} has had {baths}, {other} has had {others}; they would take colour otherwise, so keep them apart, or bring them to \
         the same first",
        baths = had(.has), others = had(.other_has)
    )]
    JoinHistories {
        lot: LotId,
        has: Vec<String>,
        other: LotId,
        other_has: Vec<String>,
    },
    #[error("{lot} and {other} were weighed in different states; weigh both air-dry first")]
    JoinStates { lot: LotId, other: LotId },
    #[error("the shelf has {most} {what} already, which is the most; a program for more is needed")]
    Full { what: &'static str, most: usize },
    #[error("{lot} was weighed {WEIGHINGS_MOST} times already, which is the most")]
    WeighedTooOften { lot: LotId },
}

impl Shelf {
    /// Puts a lot on the shelf.
    ///
    /// # Errors
    /// When its name can't be kept, it weighs nothing, or the state it was weighed in has no figure for its fibre.
    pub fn add_lot(&mut self, new: NewLot, on: NaiveDate) -> Result<LotId, ActFault> {
        let lot = Lot {
            id: self.next_lot(0)?,
            name: words::name(&new.name)?,
            fibre: new.fibre,
            hanks: hanks(new.hanks)?,
            came: new.came,
            since: on,
            from: Vec::new(),
            weighings: vec![weighing(new.fibre, new.weight, new.state, on)?],
            baths: Vec::new(),
            gone: None,
            note: None,
        };
        Ok(self.put(lot))
    }

    /// Weighs a lot again, for instance after scouring. The earlier weighings stay.
    ///
    /// # Errors
    /// When the lot isn't there to be worked, or the weight can't be counted on.
    pub fn weigh_lot(
        &mut self,
        id: LotId,
        weight: Milligrams,
        state: WeighedAs,
        on: NaiveDate,
    ) -> Result<(), ActFault> {
        let lot = self.workable(id)?;
        if lot.weighings.len() >= WEIGHINGS_MOST {
            return Err(ActFault::WeighedTooOften { lot: id });
        }
        let weighing = weighing(lot.fibre, weight, state, on)?;
        if let Some(lot) = self.lots.get_mut(&id) {
            lot.weighings.push(weighing);
        }
        Ok(())
    }

    /// Splits a lot into parts. They share its history; hanks and weights add up to those of the lot, to the milligram.
    ///
    /// # Errors
    /// When the lot isn't there to be worked, or the parts don't add up.
    pub fn split(&mut self, id: LotId, parts: &[Part], on: NaiveDate) -> Result<Vec<LotId>, ActFault> {
        let lot = self.workable(id)?.clone();
        if !(2..=PARTS_MOST).contains(&parts.len()) {
            return Err(ActFault::PartCount { count: parts.len() });
        }
        let sum = parts
            .iter()
            .fold(0_u32, |sum, part| sum.saturating_add(part.hanks));
        if sum != lot.hanks {
            return Err(ActFault::PartHanks {
                lot: id,
                hanks: lot.hanks,
                sum,
            });
        }
        let weights = part_weights(&lot, parts)?;
        let state = lot.weighing().state;
        let mut children = Vec::new();
        for (index, (part, weight)) in parts.iter().zip(weights).enumerate() {
            children.push(Lot {
                id: self.next_lot(index)?,
                name: match &part.name {
                    Some(name) => words::name(name)?,
                    None => lot.name.clone(),
                },
                hanks: hanks(part.hanks)?,
                since: on,
                from: vec![id],
                weighings: vec![weighing(lot.fibre, weight, state, on)?],
                ..lot.clone()
            });
        }
        Ok(children.into_iter().map(|child| self.put(child)).collect())
    }

    /// Joins lots of one fibre that went the same way.
    ///
    /// # Errors
    /// When one isn't there to be worked, or they don't belong together.
    pub fn join(&mut self, ids: &[LotId], name: Option<&str>, on: NaiveDate) -> Result<LotId, ActFault> {
        let different: BTreeSet<LotId> = ids.iter().copied().collect();
        if different.len() != ids.len() || !(2..=PARTS_MOST).contains(&ids.len()) {
            return Err(ActFault::JoinCount {
                count: different.len(),
            });
        }
        let lots: Vec<Lot> = ids
            .iter()
            .map(|id| self.workable(*id).cloned())
            .collect::<Result<_, _>>()?;
        let Some((first, others)) = lots.split_first() else {
            return Err(ActFault::JoinCount { count: 0 });
        };
        for other in others {
            self.judge_join(first, other)?;
        }
        let weight =
            Milligrams::sum(lots.iter().map(|lot| lot.weighing().weight)).ok_or(ActFault::TooHeavy)?;
        let count = lots.iter().fold(0_u32, |sum, lot| sum.saturating_add(lot.hanks));
        let baths = lots.iter().flat_map(|lot| lot.baths.iter().cloned()).collect();
        let joined = Lot {
            id: self.next_lot(0)?,
            name: match name {
                Some(name) => words::name(name)?,
                None => first.name.clone(),
            },
            hanks: hanks(count)?,
            since: on,
            from: ids.to_vec(),
            weighings: vec![weighing(first.fibre, weight, first.weighing().state, on)?],
            baths: self.in_order(baths),
            gone: None,
            note: None,
            ..first.clone()
        };
        Ok(self.put(joined))
    }

    /// Takes a lot off the shelf for good. Its history stays.
    ///
    /// # Errors
    /// When it isn't there to be worked.
    pub fn let_go(&mut self, id: LotId, on: NaiveDate) -> Result<(), ActFault> {
        self.workable(id)?;
        if let Some(lot) = self.lots.get_mut(&id) {
            lot.gone = Some(on);
        }
        Ok(())
    }

    /// Says how a lot came, when that was set down wrongly.
    ///
    /// # Errors
    /// When it isn't there to be worked.
    pub fn say_came(&mut self, id: LotId, came: Came) -> Result<(), ActFault> {
        self.workable(id)?;
        if let Some(lot) = self.lots.get_mut(&id) {
            lot.came = came;
        }
        Ok(())
    }

    /// Writes a note on a lot, in place of an earlier one; `None` takes it off.
    ///
    /// # Errors
    /// When there is no such lot, or the note can't be kept.
    pub fn note_on(&mut self, id: LotId, note: Option<&str>) -> Result<(), ActFault> {
        let note = note.map(words::note).transpose()?;
        let lot = self.lots.get_mut(&id).ok_or(ActFault::NoLot { lot: id })?;
        lot.note = note;
        Ok(())
    }

    /// Puts a supply on the shelf.
    ///
    /// # Errors
    /// When its name or note can't be kept, or the shelf is full.
    pub fn add_supply(&mut self, new: NewSupply) -> Result<SupplyId, ActFault> {
        let full = ActFault::Full {
            what: msg!("supplies"),
            most: SUPPLIES_MOST,
        };
        if self.supplies.len() >= SUPPLIES_MOST {
            return Err(full);
        }
        let id = SupplyId::from_number(self.last_supply.saturating_add(1)).map_err(|_| full)?;
        let supply = Supply {
            id,
            stock: new.stock,
            name: words::name(&new.name)?,
            left: new.left,
            low: new.low,
            note: new.note.as_deref().map(words::note).transpose()?,
        };
        self.last_supply = id.number();
        self.supplies.insert(id, supply);
        Ok(id)
    }

    /// Says what is left of a supply, as the scale has it now.
    ///
    /// # Errors
    /// When there is no such supply.
    pub fn count_supply(&mut self, id: SupplyId, left: Milligrams) -> Result<(), ActFault> {
        self.stands(id)?.left = left;
        Ok(())
    }

    /// Adds to a supply what was bought of the same.
    ///
    /// # Errors
    /// When there is no such supply, or it would be more than can be weighed.
    pub fn fill_supply(&mut self, id: SupplyId, more: Milligrams) -> Result<Milligrams, ActFault> {
        let supply = self.stands(id)?;
        supply.left = supply.left.plus(more).ok_or(ActFault::TooHeavy)?;
        Ok(supply.left)
    }

    /// Sets or takes off the dyer's own mark for running low.
    ///
    /// # Errors
    /// When there is no such supply.
    pub fn mark_low(&mut self, id: SupplyId, low: Option<Milligrams>) -> Result<(), ActFault> {
        self.stands(id)?.low = low;
        Ok(())
    }

    /// Takes a supply off the shelf; its number isn't given again.
    ///
    /// # Errors
    /// When there is no such supply.
    pub fn take_off(&mut self, id: SupplyId) -> Result<Supply, ActFault> {
        self.supplies.remove(&id).ok_or(ActFault::NoSupply { supply: id })
    }

    /// A lot that can be worked, or why it can't.
    ///
    /// # Errors
    /// When it isn't there, is gone, or is in other lots now.
    pub fn workable(&self, id: LotId) -> Result<&Lot, ActFault> {
        let lot = self.lots.get(&id).ok_or(ActFault::NoLot { lot: id })?;
        if let Some(on) = lot.gone {
            return Err(ActFault::Gone { lot: id, on });
        }
        let into: Vec<LotId> = self.made_of(id).map(|made| made.id).collect();
        if into.is_empty() {
            Ok(lot)
        } else {
            Err(ActFault::InOthers { lot: id, into })
        }
    }

    fn stands(&mut self, id: SupplyId) -> Result<&mut Supply, ActFault> {
        self.supplies
            .get_mut(&id)
            .ok_or(ActFault::NoSupply { supply: id })
    }

    /// The tag of the lot after so many others that are about to be put.
    fn next_lot(&self, after: usize) -> Result<LotId, ActFault> {
        let full = || ActFault::Full {
            what: msg!("lots"),
            most: LOTS_MOST,
        };
        if self.lots.len().saturating_add(after) >= LOTS_MOST {
            return Err(full());
        }
        let after = u32::try_from(after).map_err(|_| full())?;
        let number = self.last_lot.saturating_add(after).saturating_add(1);
        LotId::from_number(number).map_err(|_| full())
    }

    fn put(&mut self, lot: Lot) -> LotId {
        let id = lot.id;
        self.last_lot = self.last_lot.max(id.number());
        self.lots.insert(id, lot);
        id
    }

    fn judge_join(&self, first: &Lot, other: &Lot) -> Result<(), ActFault> {
        let (lot, other_id) = (first.id, other.id);
        if first.fibre != other.fibre {
            return Err(ActFault::JoinFibres {
                lot,
                fibre: first.fibre,
                other: other_id,
                other_fibre: other.fibre,
            });
        }
        if first.came != other.came {
            return Err(ActFault::JoinCame {
                lot,
                came: first.came,
                other: other_id,
                other_came: other.came,
            });
        }
        let acts = |of| -> Vec<(BathKind, String, bool)> {
            self.way(of)
                .into_iter()
                .map(|bath| (bath.kind, bath.recipe.clone(), bath.is_whole))
                .collect()
        };
        if acts(first) != acts(other) {
            let had = |of| self.way(of).into_iter().map(|bath| bath.name.clone()).collect();
            return Err(ActFault::JoinHistories {
                lot,
                has: had(first),
                other: other_id,
                other_has: had(other),
            });
        }
        if first.weighing().state != other.weighing().state {
            return Err(ActFault::JoinStates { lot, other: other_id });
        }
        Ok(())
    }
}

fn hanks(count: u32) -> Result<u32, ActFault> {
    if (1..=HANKS_MOST).contains(&count) {
        Ok(count)
    } else {
        Err(ActFault::Hanks { hanks: count })
    }
}

fn weighing(
    fibre: Fibre,
    weight: Milligrams,
    state: WeighedAs,
    on: NaiveDate,
) -> Result<LotWeighing, ActFault> {
    if weight.is_none() {
        return Err(ActFault::WeighsNothing);
    }
    basis(fibre, weight.mass(), state)?;
    Ok(LotWeighing { on, weight, state })
}

/// The weight of each part; the one without gets the rest.
fn part_weights(lot: &Lot, parts: &[Part]) -> Result<Vec<Milligrams>, ActFault> {
    let weight = lot.weighing().weight;
    let known = parts.iter().filter_map(|part| part.weight);
    let sum = Milligrams::sum(known).ok_or(ActFault::TooHeavy)?;
    let rests = parts.iter().filter(|part| part.weight.is_none()).count();
    let rest = match rests {
        0 if sum == weight => Milligrams::NONE,
        0 => {
            return Err(ActFault::PartWeights {
                lot: lot.id,
                weight,
                sum,
            });
        }
        1 => weight
            .less(sum)
            .filter(|rest| !rest.is_none())
            .ok_or(ActFault::NoRest {
                lot: lot.id,
                weight,
                sum,
            })?,
        count => return Err(ActFault::SeveralRests { count }),
    };
    Ok(parts.iter().map(|part| part.weight.unwrap_or(rest)).collect())
}

fn list(lots: &[LotId]) -> String {
    lots.iter().map(LotId::to_string).collect::<Vec<_>>().join(", ")
}

fn had(baths: &[String]) -> String {
    if baths.is_empty() {
        msg!("no bath").to_owned()
    } else {
        baths.join(", ")
    }
}
