//! Room shell.
