//! Potside.
pub mod craft;
pub mod day;
pub mod journal;
pub mod machine;
pub mod recipe;
pub mod sheet;
#[cfg(feature = "shell")]
pub mod shell;
pub mod view;
