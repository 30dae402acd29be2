//! Room view.
pub mod chime;
