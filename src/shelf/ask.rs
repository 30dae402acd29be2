//! What a dyer asks of the shelf, as one closed list: judged and done in one place, wherever it was asked.

use chrono::NaiveDate;

use super::acts::{ActFault, NewLot, NewSupply, Part};
use super::kept::Shelf;
use super::supply::SupplyId;
use super::weight::Milligrams;
use crate::craft::basis::WeighedAs;
use crate::craft::lot::LotId;

/// Something asked of the shelf.
#[derive(Debug, Clone, PartialEq)]
pub enum ShelfAsk {
    /// Put a lot down.
    AddLot(NewLot),
    /// A lot was weighed again, in this state.
    Weigh(LotId, Milligrams, WeighedAs),
    /// Split a lot into parts.
    Split(LotId, Vec<Part>),
    /// A lot leaves the shelf for good.
    LetGo(LotId),
    /// Put a supply down.
    AddSupply(NewSupply),
    /// So much is left of a supply.
    Count(SupplyId, Milligrams),
    /// So much was added to a supply.
    Fill(SupplyId, Milligrams),
    /// A supply is running low from here down.
    MarkLow(SupplyId, Milligrams),
}

/// What came of it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ShelfDone {
    /// This lot is there, or is as asked.
    Lot(LotId),
    /// It is in these lots now.
    Split(Vec<LotId>),
    /// This lot is gone.
    Gone(LotId),
    /// This supply is there, or is as asked.
    Supply(SupplyId),
}

impl Shelf {
    /// Does what is asked, on a day.
    ///
    /// # Errors
    /// What the act itself says; the shelf is as it was.
    pub fn ask(&mut self, ask: &ShelfAsk, on: NaiveDate) -> Result<ShelfDone, ActFault> {
        match ask {
            ShelfAsk::AddLot(new) => self.add_lot(new.clone(), on).map(ShelfDone::Lot),
            ShelfAsk::Weigh(lot, weight, state) => self
                .weigh_lot(*lot, *weight, *state, on)
                .map(|()| ShelfDone::Lot(*lot)),
            ShelfAsk::Split(lot, parts) => self.split(*lot, parts, on).map(ShelfDone::Split),
            ShelfAsk::LetGo(lot) => self.let_go(*lot, on).map(|()| ShelfDone::Gone(*lot)),
            ShelfAsk::AddSupply(new) => self.add_supply(new.clone()).map(ShelfDone::Supply),
            ShelfAsk::Count(supply, left) => self
                .count_supply(*supply, *left)
                .map(|()| ShelfDone::Supply(*supply)),
            ShelfAsk::Fill(supply, more) => self
                .fill_supply(*supply, *more)
                .map(|_| ShelfDone::Supply(*supply)),
            ShelfAsk::MarkLow(supply, mark) => self
                .mark_low(*supply, Some(*mark))
                .map(|()| ShelfDone::Supply(*supply)),
        }
    }
}
