//! TOML text in, a recipe or all its faults out.
//!
//! Knows no file, no clock.

pub mod model;
