//! Pictures that are drawn once, when what they show changes, and stand on a screen as one item each: a frame goes over
//! every item of a screen, so that a picture of thirty parts would cost thirty times as much every second.
//!
//! Each comes in whole pixels of the glass and on a ground of its own, so that painting it is copying.

pub mod canvas;
pub mod curve;
pub mod digit;
pub mod pot;
pub mod rail;
pub mod tag;
