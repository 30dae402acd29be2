//! Room machine.
