//! Room shell.
pub mod sound;
