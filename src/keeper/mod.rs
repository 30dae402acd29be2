//! The keeper: owns the machine and the journals of a run. It judges, writes, flushes, and only then applies and tells.
//!
//! All of it is pure over two things it is handed: a [`Folder`], in which baths and daybook lie, and a [`Clock`]. The
//! shell gives it the disk and the system's clocks and waits on its behalf; the simulator in the tests gives it a disk
//! that breaks and a clock that steps, and runs the very same code.

mod clock;
mod folder;
mod keep;
mod sealing;
mod take_up;
mod watch;

pub use clock::{Clock, Look};
pub use folder::{Folder, Listing};
pub use keep::{Keeper, Told};
pub use watch::{Said, State, WAITING_MAX, Wake, Watch};
