//! Recipe, goods, pot, burner and place in; a bath sheet out, with the working of every number.
//!
//! A sheet is a value that never changes. A bath that can't be done still has a sheet: its refusals say why, and
//! what would do.

mod additions;
mod bath_sheet;
mod build;
mod cautions;
mod heating;
mod legs;
pub mod plan;
mod usual;
mod verdict;
mod wishes;
mod working;

pub use bath_sheet::{BathSheet, COOL_MARKS, Evaporation, Leg};
pub use build::compute;
pub use verdict::{SheetRefusal, SheetWarning};
pub use wishes::{StovePlace, Wishes};
pub use working::{Measured, Working};
