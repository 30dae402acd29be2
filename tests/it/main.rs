//! The everyday tests: pure, no screen, no sound, no network.

//! Pure tests.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::as_conversions,
    clippy::arithmetic_side_effects,
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
    reason = "helpers outside #[test] functions may fall over and count plainly: that is what a test does"
)]

mod craft_boil;
mod craft_cautions;
mod craft_dissolving;
mod craft_heat;
    clippy::as_conversions,
    reason = "a test says what went wrong by failing"
mod craft_amounts;
mod craft_measures;
mod craft_reading;
mod craft_salts;
mod craft_tables;
mod journal_crash;
#[cfg(feature = "shell")]
mod journal_disk;
mod journal_lines;
mod journal_python;
mod journal_seal;
mod journal_wire;
mod machine_scripts;
mod recipe_book;
mod recipe_faults;
mod recipe_hostile;
mod recipe_worked;
mod support;
mod craft_learn;
//! Tests of the pure rooms and of the house rules. They need no shell, no display and no sound.
    clippy::disallowed_methods,
    reason = "a test that stumbles should fall, and fixtures are files; clippy's own switches for tests don't reach helpers"
mod tidy;
