//! Tests of the pure rooms and of the house rules: no screen, no sound, no network.

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
    clippy::disallowed_methods,
    clippy::print_stderr,
    clippy::print_stdout,
    missing_docs,
    unreachable_pub,
    reason = "a test that stumbles should fall, and fixtures are files; clippy's own switches for tests don't reach helpers"
)]

#[cfg(feature = "shell")]
mod bench_file;
mod call_table;
mod craft_acidity;
mod craft_amounts;
mod craft_boil;
mod craft_cautions;
mod craft_dissolving;
mod craft_heat;
mod craft_learn;
mod craft_measures;
mod craft_reading;
mod craft_salts;
mod craft_tables;
mod day_meetings;
#[cfg(feature = "shell")]
mod daybook_command;
mod daybook_record;
#[cfg(feature = "shell")]
mod daybook_shown;
mod first_minutes;
#[cfg(feature = "shell")]
mod first_start;
mod fuzzed;
mod journal_crash;
mod journal_damage;
#[cfg(feature = "shell")]
mod journal_disk;
mod journal_golden;
mod journal_lines;
mod journal_python;
mod journal_seal;
mod journal_wire;
#[cfg(feature = "shell")]
mod keeper_disk;
#[cfg(feature = "shell")]
mod keeper_watch;
mod locale_catalogue;
mod locale_read;
mod machine_scripts;
mod machine_vat;
mod machine_voice;
mod number_aids;
mod recipe_book;
mod recipe_dyes;
mod recipe_faults;
mod recipe_hostile;
mod recipe_offers;
mod recipe_preparing;
mod recipe_worked;
mod record_lesson;
mod sheet_asks;
#[cfg(feature = "shell")]
mod sheet_command;
mod sheet_page;
mod sheet_space;
mod sheet_trade;
mod sheet_used;
#[cfg(feature = "shell")]
mod shelf_asked;
#[cfg(feature = "shell")]
mod shelf_command;
mod shelf_file;
mod shelf_lots;
#[cfg(feature = "shell")]
mod shelf_scenario;
#[cfg(feature = "shell")]
mod shelf_settle;
mod shelf_worklists;
#[path = "../sim/mod.rs"]
mod sim;
mod simulation;
mod support;
mod tidy;
mod time_intervals;
mod touch_streams;
mod view_beside;
mod view_book;
mod view_curve;
mod view_label;
mod view_others;
mod view_pages;
mod view_picture;
mod view_run;
mod view_shelf;
#[cfg(feature = "shell")]
mod view_spoken;

use support::plans;
