//! Pure tests.
