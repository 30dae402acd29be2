//! The words, facts and sums of the craft, as types that can't hold nonsense.
//!
//! Knows nothing of recipes, files or clocks.

pub mod acidity;
pub mod basis;
pub mod boil;
pub mod cautions;
pub mod dissolving;
pub mod exhaust;
pub mod fibre;
pub mod fibre_facts;
pub mod heat;
pub mod learn;
pub mod lot;
pub mod measures;
pub mod quantity;
pub mod reading;
pub mod salts;
pub mod scale;
pub mod substance;
pub mod time;
pub mod vessel;
pub mod water;
