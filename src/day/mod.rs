//! Room day.
