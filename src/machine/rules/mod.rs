//! The rules, a file per family of inputs. Each judges and changes nothing.

pub(super) mod begin;
pub(super) mod due;
pub(super) mod hands;

pub(super) use due::{next_look, next_turn_moment, soaked_at};
