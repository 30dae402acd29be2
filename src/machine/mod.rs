//! A plan in progress. Inputs are judged, events change the state; deadlines are told, each with its reason.
//!
//! Several pots from the start; one pot is the case n = 1. Asks no clock, no file, no screen: the moment comes in
//! with every input and stays in every event, so replaying events gives the same state anywhere.

pub mod away;
pub mod call;
pub mod chime;
pub mod clock;
pub mod event;
pub mod input;
pub mod outlook;
pub mod pot;
pub mod promise;
pub mod refusal;
pub mod rehearsal;
pub mod rounds;
mod rules;
pub mod session;
pub mod voice;

pub use event::{Done, Event, What};
pub use input::{Ask, Input, ReturnAnswer, SkipReason};
pub use pot::{PotNo, PotRun};
pub use refusal::Refusal;
pub use session::{Effect, Machine, Why};
