//! The shelf on the glass: lots and supplies, one of each to read, a work list for a lot, a label.

mod form;
pub(super) mod label_page;
mod list_leaf;
mod lists;
mod lot_leaf;
mod split;
mod supply_leaf;
pub(super) mod wares;
mod words;

use crate::craft::lot::LotId;
use crate::craft::quantity::Mass;
use crate::machine::{Machine, PotNo};
use crate::shelf::SupplyId;
use crate::shelf::worklist::WorkPlan;
use crate::view::screen::Screen;

use super::page::Facts;

pub use form::LotForm;
pub use label_page::{LabelFile, LabelPage};
pub use split::SplitAsked;
pub(super) use words::tag_and_name;

/// A page of the shelf.
#[derive(Debug, Clone, PartialEq)]
pub enum ShelfPage {
    /// The lots that are there to be worked.
    Lots,
    /// The supplies.
    Supplies,
    /// What is running low.
    Low,
    /// One lot.
    Lot(LotId),
    /// A lot to be picked for the bath being put together.
    Pick,
    /// A new lot being described.
    New,
    /// How many hanks go into the first of two parts.
    Split(LotId),
    /// The work lists, for a lot.
    Lists(LotId),
    /// One of them, by its id.
    List(LotId, String),
    /// The label of a lot.
    Label(LabelPage),
    /// One supply.
    Supply(SupplyId),
    /// What a new supply is.
    Wares,
}

/// What the pages remember of the shelf while they are turned.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Remembered {
    /// The lot being described.
    pub(super) form: LotForm,
    /// The work list that stands on the glass, computed.
    pub(super) plan: Option<Box<WorkPlan>>,
    /// The dry weight that was keyed in last.
    pub(super) goods: Option<Mass>,
}

impl ShelfPage {
    /// The page as a screen; `None` for something that isn't there any more.
    pub(super) fn screen(&self, remembered: &Remembered, facts: &Facts<'_>) -> Option<Screen> {
        let shelf = facts.shelf;
        Some(match self {
            Self::Lots => Screen::Choose(lists::lots(facts)),
            Self::Supplies => Screen::Choose(lists::supplies(facts)),
            Self::Low => Screen::Choose(lists::low_ones(facts)),
            Self::Pick => Screen::Choose(lists::pick(facts)),
            Self::Lot(id) => Screen::Leaf(lot_leaf::leaf(shelf.lot(*id)?, facts)),
            Self::New => Screen::Goods(form::screen(&remembered.form, facts.locale)),
            Self::Split(id) => Screen::Choose(split::screen(shelf.lot(*id)?, facts.locale)),
            Self::Lists(id) => Screen::Choose(lists::work_lists(shelf.lot(*id)?, facts)),
            Self::List(id, list) => {
                let list = facts.lists.iter().find(|known| known.id == *list)?;
                let plan = remembered.plan.as_deref()?;
                Screen::Leaf(list_leaf::leaf(list, shelf.lot(*id)?, plan, facts))
            }
            Self::Label(page) => Screen::Label(page.screen(shelf, shelf.lot(page.lot)?, facts.locale)),
            Self::Supply(id) => Screen::Leaf(supply_leaf::leaf(shelf.supply(*id)?, facts)),
            Self::Wares => Screen::Choose(wares::screen(facts.recipes, facts.locale)),
        })
    }
}

/// The pot that a lot is in just now.
pub(super) fn pot_of(machine: &Machine, lot: LotId) -> Option<PotNo> {
    machine
        .pots()
        .find(|run| run.stand.ended.is_none() && run.plan.goods.lot == Some(lot))
        .map(|run| run.pot)
}
