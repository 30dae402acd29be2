//! The heat of one pot: how long it takes to warm, what it needs to stay hot, how it cools.
//!
//! One balance serves them all: `C dT/dt = efficiency * power - losses(T)`, with the water that steams off taken from
//! the bath. `air` knows moist air, `surface` one warm face, `curve` the losses of one pot over all its
//! temperatures, `shape` what the pot is, `integrate` how to step, `balance` puts them together; the rest are the
//! questions a bath sheet asks. Everything is a function of its arguments and finite for every kettle that can be typed.

pub(crate) mod air;
pub(crate) mod balance;
mod bands;
mod come_up;
mod cool_down;
pub(crate) mod curve;
mod enter;
mod hold;
pub mod integrate;
pub mod kettle;
pub mod shape;
pub mod spread;
pub(crate) mod surface;
mod ways_out;

pub(crate) use balance::{Heat, Prepared};
pub use balance::{Ledger, ledger_of_come_up, ledger_of_cooling};
pub(crate) use bands::{DRAW_COUNT, Draw};
pub use come_up::{ComeUp, LONGEST_COME_UP, Reach, Setting, come_up};
pub use cool_down::{LONGEST_COOLING, LidSeen, bath_temperature_after, cool_down};
pub use enter::{Entering, entering};
pub use hold::{Evaporation, drift, evaporation, hold_power, hold_setting};
pub use kettle::{GoodsLoad, Kettle};
pub use spread::{LogNormal, PotKnowledge, Ties};
pub use ways_out::{NeverGetsThere, WaysOut, WhyNever};
