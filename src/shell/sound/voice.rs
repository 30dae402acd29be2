//! The device that can be heard: a small trait, because tests have a double that records, and the real one on rodio.
//!
//! The real one owns its error callback. A sound server that dies can call it hundreds of thousands of times a second,
//! so the callback only sets a flag; the player's thread sees the flag and drops the stream.

use std::num::NonZero;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicU32, Ordering};
use std::time::Duration;

use rodio::cpal::ErrorKind;
use rodio::{DeviceSinkBuilder, DeviceSinkError, MixerDeviceSink, Source, nz};

use super::clips::compose;
use super::desk::Call;
use super::synth::RATE_HZ;

/// Samples per second, as rodio takes it.
const RATE: NonZero<u32> = match NonZero::new(RATE_HZ) {
    Some(rate) => rate,
    None => nz!(48_000),
};

/// What a sample loses of its height against the one before when a sound is cut short: gone in 8 ms at 48 000 samples a
/// second, long enough not to click.
const FADE_STEP: f32 = 1.0 / 384.0;

/// So many stutters between two looks, and the stream is taken for broken. The longest time between looks is a quarter
/// of a second; a device in order can't stutter more often than its buffers pass, some twenty a second.
const STUTTERS_MAX: u32 = 50;

/// Why no device can be opened.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum NoVoice {
    /// There is neither a sound card nor a sound server.
    #[error("no sound card and no sound server; plug in a loudspeaker or start the sound server")]
    NothingThere,
    /// There is something, but it would not open.
    #[error("the sound device would not open ({0}); see whether another program holds it")]
    WouldNotOpen(String),
    /// It was open and went away.
    #[error("the sound device went away; plug it in again")]
    WentAway,
}

/// Something that can be heard, one call at a time.
pub trait Voice {
    /// Whether opening is worth trying. Cheap: asked every few seconds while the device is closed.
    fn is_likely(&self) -> bool;
    /// Opens the device; does nothing if it is open.
    ///
    /// # Errors
    /// Says why it can't be opened. It may be tried again at any time.
    fn open(&mut self) -> Result<(), NoVoice>;
    /// Closes the device; what sounds is cut.
    fn close(&mut self);
    /// Whether the device is open.
    fn is_open(&self) -> bool;
    /// Whether the open device has failed since it was opened.
    fn has_failed(&self) -> bool;
    /// Begins a call with this factor on its samples, 0 to 1. What sounded before should have been hushed. Returns how
    /// long the call is.
    fn sound(&mut self, call: Call, gain: f32) -> Duration;
    /// Fades out what sounds.
    fn hush(&mut self);
    /// Whether a call is still sounding.
    fn is_sounding(&self) -> bool;
}

/// Signs that sound is possible at all. Looking at them first keeps alsa-lib from writing its complaints to standard
/// error every few seconds on a machine without a card.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Signs {
    /// The kernel's list of sound cards.
    pub cards: PathBuf,
    /// Sockets of sound servers.
    pub sockets: Vec<PathBuf>,
    /// Something else promises sound: another operating system, or a sound server elsewhere.
    pub promised: bool,
}

impl Signs {
    /// Where this machine would show them.
    #[must_use]
    pub fn of_this_machine() -> Self {
        let runtime = std::env::var_os("XDG_RUNTIME_DIR").map(PathBuf::from);
        let pipewire = std::env::var_os("PIPEWIRE_RUNTIME_DIR").map(PathBuf::from);
        let mut sockets = vec![PathBuf::from("/run/pulse/native")];
        if let Some(folder) = &runtime {
            sockets.push(folder.join("pulse/native"));
        }
        sockets.extend(
            [runtime, pipewire]
                .into_iter()
                .flatten()
                .map(|folder| folder.join("pipewire-0")),
        );
        Self {
            cards: PathBuf::from("/proc/asound/cards"),
            sockets,
            promised: !cfg!(target_os = "linux") || std::env::var_os("PULSE_SERVER").is_some(),
        }
    }

    /// Whether any sign is there. A list of cards without one reads `--- no soundcards ---`.
    #[must_use]
    pub fn any(&self) -> bool {
        let has_card = std::fs::read_to_string(&self.cards).is_ok_and(|list| {
            list.lines().any(|line| {
                line.trim_start()
                    .starts_with(|first: char| first.is_ascii_digit())
            })
        });
        self.promised || has_card || self.sockets.iter().any(|socket| answers(socket))
    }
}

/// Whether a server listens there. A server that was killed leaves its socket behind.
#[cfg(unix)]
fn answers(socket: &Path) -> bool {
    std::os::unix::net::UnixStream::connect(socket).is_ok()
}

/// Elsewhere sound is promised anyway.
#[cfg(not(unix))]
fn answers(socket: &Path) -> bool {
    socket.exists()
}

/// The loudspeaker, by way of rodio.
pub struct Loudspeaker {
    signs: Signs,
    sink: Option<MixerDeviceSink>,
    health: Arc<Health>,
    reins: Option<Arc<Reins>>,
}

impl Loudspeaker {
    /// A closed loudspeaker that looks for these signs before it opens.
    #[must_use]
    pub fn new(signs: Signs) -> Self {
        Self {
            signs,
            sink: None,
            health: Arc::new(Health::default()),
            reins: None,
        }
    }
}

impl Voice for Loudspeaker {
    fn is_likely(&self) -> bool {
        self.signs.any()
    }

    fn open(&mut self) -> Result<(), NoVoice> {
        if self.sink.is_some() {
            return Ok(());
        }
        if !self.signs.any() {
            return Err(NoVoice::NothingThere);
        }
        // Every stream has its own: a late callback of the last one can't fail the next.
        self.health = Arc::new(Health::default());
        let health = Arc::clone(&self.health);
        let opened = std::panic::catch_unwind(move || open_default(health));
        match opened {
            Ok(Ok(sink)) => {
                self.sink = Some(sink);
                Ok(())
            }
            Ok(Err(fault)) => Err(NoVoice::WouldNotOpen(story(&fault))),
            Err(_) => Err(NoVoice::WouldNotOpen("the sound library gave up".to_owned())),
        }
    }

    fn close(&mut self) {
        self.reins = None;
        self.sink = None;
    }

    fn is_open(&self) -> bool {
        self.sink.is_some()
    }

    fn has_failed(&self) -> bool {
        self.sink.is_some() && self.health.is_broken()
    }

    fn sound(&mut self, call: Call, gain: f32) -> Duration {
        let clip = Clip::new(compose(call), gain);
        let length = clip.length();
        if let Some(sink) = &self.sink {
            self.reins = Some(Arc::clone(&clip.reins));
            sink.mixer().add(clip);
        }
        length
    }

    fn hush(&mut self) {
        if let Some(reins) = self.reins.take() {
            reins.hush.store(true, Ordering::Relaxed);
        }
    }

    fn is_sounding(&self) -> bool {
        self.reins
            .as_ref()
            .is_some_and(|reins| !reins.done.load(Ordering::Relaxed))
    }
}

/// Not `open_default_sink`: that one walks every device there might be, and alsa-lib complains about each.
fn open_default(health: Arc<Health>) -> Result<MixerDeviceSink, DeviceSinkError> {
    let mut sink = DeviceSinkBuilder::from_default_device()?
        .with_error_callback(move |fault: rodio::cpal::Error| health.note(fault.kind()))
        .open_stream()?;
    sink.log_on_drop(false);
    Ok(sink)
}

/// What the error callback leaves behind. It must stay cheap: it has been seen to be called 900 000 times a second.
#[derive(Debug, Default)]
struct Health {
    failed: AtomicBool,
    stutters: AtomicU32,
}

impl Health {
    fn note(&self, kind: ErrorKind) {
        if kind == ErrorKind::Xrun {
            self.stutters.fetch_add(1, Ordering::Relaxed);
        } else if kind != ErrorKind::RealtimeDenied && kind != ErrorKind::DeviceChanged {
            // A refused priority and a changed route leave the stream running; all else means a new one is needed.
            self.failed.store(true, Ordering::Relaxed);
        }
    }

    fn is_broken(&self) -> bool {
        let stutters = self.stutters.swap(0, Ordering::Relaxed);
        self.failed.load(Ordering::Relaxed) || stutters > STUTTERS_MAX
    }
}

/// A fault with its causes, in one line.
fn story(fault: &DeviceSinkError) -> String {
    let mut words = fault.to_string();
    let mut cause = std::error::Error::source(fault);
    while let Some(deeper) = cause {
        words.push_str(": ");
        words.push_str(&deeper.to_string());
        cause = deeper.source();
    }
    words
}

/// How the player's thread holds a clip that the device's thread is reading.
#[derive(Debug, Default)]
struct Reins {
    hush: AtomicBool,
    done: AtomicBool,
}

/// A call on its way to the device: samples, a factor, and a fade when it is hushed.
#[derive(Debug)]
struct Clip {
    samples: std::vec::IntoIter<f32>,
    length: Duration,
    gain: f32,
    fade: f32,
    reins: Arc<Reins>,
}

impl Clip {
    fn new(samples: Vec<f32>, gain: f32) -> Self {
        let count = u64::try_from(samples.len()).unwrap_or(u64::MAX);
        let length_us = count.saturating_mul(1_000_000).checked_div(u64::from(RATE_HZ));
        Self {
            samples: samples.into_iter(),
            length: Duration::from_micros(length_us.unwrap_or_default()),
            gain,
            fade: 1.0,
            reins: Arc::new(Reins::default()),
        }
    }

    const fn length(&self) -> Duration {
        self.length
    }
}

impl Iterator for Clip {
    type Item = f32;

    fn next(&mut self) -> Option<f32> {
        if self.reins.hush.load(Ordering::Relaxed) {
            self.fade -= FADE_STEP;
        }
        if self.fade <= 0.0 {
            return None;
        }
        Some(self.samples.next()? * self.gain * self.fade)
    }
}

/// The end of a clip is its drop: read to its end, faded out, or its stream closed.
impl Drop for Clip {
    fn drop(&mut self) {
        self.reins.done.store(true, Ordering::Relaxed);
    }
}

impl Source for Clip {
    fn current_span_len(&self) -> Option<usize> {
        None
    }

    fn channels(&self) -> NonZero<u16> {
        nz!(1)
    }

    fn sample_rate(&self) -> NonZero<u32> {
        RATE
    }

    fn total_duration(&self) -> Option<Duration> {
        Some(self.length)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_hushed_clip_fades_out_in_8_ms_without_a_step() {
        let mut clip = Clip::new(vec![1.0; 1_000], 0.5);
        let reins = Arc::clone(&clip.reins);
        assert_eq!(clip.next(), Some(0.5));

        reins.hush.store(true, Ordering::Relaxed);
        let fading: Vec<f32> = clip.by_ref().collect();

        assert!((380..=386).contains(&fading.len()), "{} samples", fading.len());
        assert!(
            fading.windows(2).all(|pair| pair[0] - pair[1] < 0.002),
            "a step in the fade"
        );
        assert!(
            !reins.done.load(Ordering::Relaxed),
            "not done before it is dropped"
        );
        drop(clip);
        assert!(reins.done.load(Ordering::Relaxed));
    }

    #[test]
    fn a_stutter_is_borne_and_a_storm_of_them_is_not() {
        let health = Health::default();
        for _ in 0..STUTTERS_MAX {
            health.note(ErrorKind::Xrun);
        }
        health.note(ErrorKind::RealtimeDenied);
        health.note(ErrorKind::DeviceChanged);
        assert!(!health.is_broken());
        assert!(!health.is_broken(), "the count begins anew with every look");

        for _ in 0..1_000 {
            health.note(ErrorKind::Xrun);
        }
        assert!(health.is_broken());
    }

    #[test]
    fn a_device_that_is_gone_is_gone_for_good() {
        let health = Health::default();
        health.note(ErrorKind::DeviceNotAvailable);

        assert!(health.is_broken());
        assert!(health.is_broken());
    }
}
