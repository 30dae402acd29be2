//! Whole sessions of the keeper, in one thread from one seed, on a disk that breaks and a clock that steps.
//!
//! The keeper, its watch, the journal and the machine are the program's own; only what is outside of them is played:
//! [`disk`] (every call of a store can fail, and power can go at every one), [`clocks`], [`dyer`]. [`session`] runs
//! them and holds what it sees against the promises. [`flaw`] lists the faults that are planted on purpose.

pub mod chance;
pub mod clocks;
pub mod disk;
pub mod dyer;
pub mod flaw;
pub mod ledger;
pub mod session;
pub mod store;
