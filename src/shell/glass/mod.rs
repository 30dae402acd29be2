//! The glass: the generated window, what stands behind it, what paints it, and what listens to it.

mod daybook;
pub mod desk;
pub mod focus;
pub mod generated;
pub mod inbox;
mod labels;
mod letters;
mod open;
pub mod paint;
mod pictures;
pub mod taps;
mod wares;

pub(super) use open::open;
