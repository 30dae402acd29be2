//! Fuzzes `entries::page`.
#![no_main]

#[path = "../entries.rs"]
#[allow(dead_code, reason = "each target uses one entry")]
mod entries;
#[path = "../../it/support/fault_store.rs"]
#[allow(dead_code, reason = "only one target uses it")]
mod fault_store;

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| entries::page(bytes));
