//! Writes every sound file anew: `cargo run --example make_sounds`. The same code gives the same bytes.

use std::path::Path;

use potside::shell::sound::synth::{RATE_HZ, Sound, samples};
use potside::shell::sound::wav::write_wav;

#[expect(
    clippy::disallowed_methods,
    reason = "these files are made at the desk and are under version control; nothing is lost by a torn write"
)]
fn main() -> std::io::Result<()> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("sounds");
    for sound in Sound::all() {
        let file = folder.join(sound.key()).with_extension("wav");
        std::fs::write(file, write_wav(&samples(sound), RATE_HZ))?;
    }
    Ok(())
}
