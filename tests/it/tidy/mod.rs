//! House rules, kept as tests: what a review would say again and again.
//!
//! `layers` is about which room may know what, `texts` about what sources and pages may contain, `upkeep` about
//! what has to stay in step. `scan` reads sources; it is tried on planted examples, so that a rule which has gone
//! blind is seen.

mod layers;
mod scan;
mod texts;
mod upkeep;
