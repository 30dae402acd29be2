//! Doubles and generators shared by the tests.

pub mod baths;
pub mod fault_store;
