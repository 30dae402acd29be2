//! The commands of the terminal, a file each.

mod check;
mod daybook;
mod label;
mod pot;
mod recipes;
mod rehearse;
mod sheet;
mod shelf;
mod worklist;

pub(super) use check::check;
pub(super) use daybook::daybook;
pub(super) use label::label;
pub(super) use pot::pot;
pub(super) use recipes::recipes;
pub(super) use rehearse::rehearse;
pub(super) use sheet::sheet;
pub(super) use shelf::shelf;
pub(super) use worklist::{lists as worklists, worklist};
