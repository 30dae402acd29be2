//! Headless screens.
