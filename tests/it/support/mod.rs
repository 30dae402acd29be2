//! Doubles and generators shared by the tests.

pub mod baths;
pub mod catalogue;
#[cfg(feature = "shell")]
pub mod closed;
pub mod dice;
pub mod dye_bath;
pub mod fault_store;
pub mod finished;
pub mod glass;
pub mod plans;
pub mod said;
pub mod script;
pub mod sheets;
pub mod shelves;
