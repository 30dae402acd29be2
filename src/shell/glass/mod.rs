//! The glass: the generated window, and what paints it.

pub mod focus;
pub mod generated;
pub mod paint;
mod wares;
