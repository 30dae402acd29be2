//! Headless screens: how they look, how they behave, what a finger or a key does to them.
#![allow(
    clippy::as_conversions,
    clippy::arithmetic_side_effects,
    clippy::disallowed_methods,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::integer_division,
    clippy::panic,
    clippy::match_wildcard_for_single_variants,
    clippy::wildcard_enum_match_arm,
    clippy::unwrap_used,
    reason = "tests may fall over with their reason, and they read and write reference pictures"
)]

mod afternoon;
mod digits;
mod faults;
mod first_minutes;
mod from_the_shelf;
mod gallery;
mod glance;
mod held_up;
mod joining;
mod kitchen;
mod light;
mod manners;
mod painted;
mod previews;
mod repainted;
mod scenes;
mod seen_by;
#[expect(dead_code, reason = "the gallery paints with it; here its locales are used")]
mod shown;
mod sound_measures;
mod sounds;
mod spoken;
mod stumbles;
mod told;
mod tongues;
mod wet_numbers;
mod whole_bath;
