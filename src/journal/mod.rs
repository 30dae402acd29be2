//! Room journal.
