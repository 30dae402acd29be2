//! Pure tests.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::arithmetic_side_effects,
    clippy::as_conversions,
    clippy::integer_division,
    missing_docs,
    unreachable_pub,
    reason = "helpers of tests may fall over, which is how they fail"
)]

mod journal_crash;
mod journal_lines;
mod journal_python;
mod journal_seal;
mod support;
