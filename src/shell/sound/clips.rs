//! The files of `sounds/`, carried inside the program, and how a call is put together from them.

use std::io::Cursor;

use rodio::Decoder;

use super::desk::Call;
use super::synth::{Lead, RATE_HZ, Sound};
use crate::machine::chime::Chime;

/// Rest between the notes that say which pot and the chime that says what.
const LEAD_GAP_MS: u32 = 180;

/// The bytes of a sound's file as it was when the program was built.
#[must_use]
pub const fn file(sound: Sound) -> &'static [u8] {
    match sound {
        Sound::Meaning(Chime::Turn) => include_bytes!("../../../sounds/turn.wav"),
        Sound::Meaning(Chime::Due) => include_bytes!("../../../sounds/due.wav"),
        Sound::Meaning(Chime::Look) => include_bytes!("../../../sounds/look.wav"),
        Sound::Meaning(Chime::Ready) => include_bytes!("../../../sounds/ready.wav"),
        Sound::Meaning(Chime::Urgent) => include_bytes!("../../../sounds/urgent.wav"),
        Sound::Meaning(Chime::Accepted) => include_bytes!("../../../sounds/accepted.wav"),
        Sound::Lead(Lead::Pot1) => include_bytes!("../../../sounds/pot_1.wav"),
        Sound::Lead(Lead::Pot2) => include_bytes!("../../../sounds/pot_2.wav"),
        Sound::Lead(Lead::Pot3) => include_bytes!("../../../sounds/pot_3.wav"),
        Sound::Lead(Lead::Pot4) => include_bytes!("../../../sounds/pot_4.wav"),
        Sound::Lead(Lead::Pot5) => include_bytes!("../../../sounds/pot_5.wav"),
        Sound::Lead(Lead::Pot6) => include_bytes!("../../../sounds/pot_6.wav"),
    }
}

/// The samples of a whole call, -1 to 1, one channel at [`RATE_HZ`]: lead-in, rest, chime. A call without a pot, or for
/// a pot that has no lead-in, is the chime alone. Empty if a file can't be decoded.
#[must_use]
pub fn compose(call: Call) -> Vec<f32> {
    let mut samples = Vec::new();
    if let Some(lead) = call.pot.and_then(Lead::of_pot) {
        samples.extend(decode(Sound::Lead(lead)));
        let gap = u64::from(LEAD_GAP_MS)
            .saturating_mul(u64::from(RATE_HZ))
            .checked_div(1_000)
            .and_then(|count| usize::try_from(count).ok())
            .unwrap_or_default();
        samples.extend(std::iter::repeat_n(0.0, gap));
    }
    samples.extend(decode(Sound::Meaning(call.chime)));
    samples
}

/// The samples of one file; empty if it can't be decoded.
fn decode(sound: Sound) -> Vec<f32> {
    match Decoder::new(Cursor::new(file(sound))) {
        Ok(decoder) => decoder.collect(),
        Err(_) => Vec::new(),
    }
}
