//! Headless screens.
mod sounds;
