//! The keeper: one thread that owns the machine and the journals. It writes, flushes, and only then acts.
//!
//! One closed enum says all that can wake it. Nobody else changes the state; the glass gets copies.

mod keep;
mod wake;

pub use keep::{Keeper, Told};
pub use wake::{Hearers, KeeperThread, State, Wake, start};
