//! Sound. `synth` makes the samples, `wav` the files in `sounds/`, `clips` brings the files into the program, `desk`
//! keeps what waits to be heard, `voice` is the device, and `player` is the thread that owns it.
//!
//! A missing or vanished device is a state that is reported, never a failure: time is kept without sound.

pub mod clips;
pub mod desk;
pub mod player;
pub mod synth;
pub mod voice;
pub mod wav;

pub use desk::{Call, Unheard, Volume};
pub use player::{Player, SoundReport, SoundState};
