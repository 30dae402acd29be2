//! The commands of the terminal, a file each.

mod check;
mod daybook;
mod pot;
mod recipes;
mod rehearse;
mod sheet;

pub(super) use check::check;
pub(super) use daybook::daybook;
pub(super) use pot::pot;
pub(super) use recipes::recipes;
pub(super) use rehearse::rehearse;
pub(super) use sheet::sheet;
