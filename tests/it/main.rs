//! The everyday tests: pure, no screen, no sound, no network.

//! Pure tests.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::arithmetic_side_effects,
    clippy::as_conversions,
    clippy::integer_division,
    clippy::float_cmp,
    clippy::wildcard_enum_match_arm,
    clippy::match_wildcard_for_single_variants,
    missing_docs,
    unreachable_pub,
    reason = "helpers of tests may fall over, which is how they fail"
)]

mod craft_cautions;
mod craft_dissolving;
mod craft_reading;
mod journal_crash;
mod journal_lines;
mod journal_python;
mod journal_seal;
mod recipe_book;
mod support;
    reason = "helpers outside #[test] functions may fall over too: that is what a test does"
mod craft_boil;
mod craft_heat;
mod craft_tables;
