//! TOML text in, a recipe or all its faults out; and the built-in book.
//!
//! Knows no file, no clock.

pub mod book;
pub mod dose;
pub mod fault;
pub mod lookalike;
pub mod model;
pub mod never;
pub mod read;
pub mod words;

pub(crate) mod additions;
mod figure;
pub(crate) mod hidden;
mod nearest;
mod order;
pub(crate) mod raw;
mod sources;
mod steps;

pub use fault::{Fault, Faults, Wrong};
pub use lookalike::{Warning, warnings};
pub use nearest::nearest;
pub use read::read;
