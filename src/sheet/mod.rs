//! Recipe, goods, pot, burner and place in; a bath sheet out, with the working of every number.
//!
//! A sheet is a value that never changes. A bath that can't be done still has a sheet: its refusals say why, and
//! what would do.

mod acidity;
mod additions;
mod again;
mod bath_sheet;
mod build;
mod cautions;
pub mod course;
mod goods;
mod heating;
mod held;
mod legs;
mod liquor;
mod next_bath;
mod notes;
mod place;
pub mod plan;
mod step_cautions;
mod taught;
mod used_bath;
mod usual;
mod verdict;
mod walk;
mod weighing;
mod wishes;
mod working;

pub use again::Again;
pub use bath_sheet::{BathSheet, COOL_MARKS, Entering, Evaporation, Leg, SlowRaise};
pub use build::compute;
pub use cautions::Cautions;
pub use legs::clock;
pub use next_bath::{NextBath, has_custom};
pub use used_bath::UsedBath;
pub use verdict::{PartChoice, SheetRefusal, SheetWarning};
pub use weighing::{Beside, LABELLED_SALT_ID, Spoons};
pub use wishes::{StovePlace, Wishes};
pub use working::{Measured, Working};
