//! Room view.
