//! What each sound is, as notes, and the samples made from them. Pure: the same sound gives the same samples.
//!
//! The rules of the design, with where they come from:
//! - fundamental 300 to 1000 Hz, at least four harmonics up to 4000 Hz within 15 dB of it: IEC 60601-1-8 (its figures for
//!   auditory alarms, 150 to 1000 Hz and 300 to 4000 Hz, the lower end raised for small loudspeakers);
//! - a fundamental far below 2500 Hz, so that ears that have lost their highs still hear it: ISO 24500;
//! - haste by count and rate of pulses, not by shriek: one or two pulses for what can wait, three for five minutes, ten
//!   quick ones for one minute, after the pulse counts of IEC 60601-1-8;
//! - rise and fall are shaped, rise 20 % of the pulse (the same standard: 10 to 40 %, from memory), so nothing clicks.
//!
//! Melody and rhythm are our own: *turn* steps down, *due* stays level, *look* asks upward, *ready* comes to rest.

use std::f64::consts::PI;

use crate::machine::chime::Chime;

/// Samples per second of every sound, one channel.
pub const RATE_HZ: u32 = 48_000;

/// From the beginning to the half height of the first pulse: room for half the longest rise.
const FIRST_MS: f64 = 30.0;

/// Silence after the last pulse has died away.
const TAIL_MS: f64 = 10.0;

/// The part of a pulse's length taken by its rise, and by its fall.
const RISE: f64 = 0.2;
const FALL: f64 = 0.4;

/// Amplitudes of fundamental and harmonics: 3 dB less each, so the fifth is 12 dB down. The fifth of the highest note
/// lies at 3920 Hz.
const PARTIALS: [f64; 5] = [1.0, 0.707_945_784, 0.501_187_234, 0.354_813_389, 0.251_188_643];

/// The notes used, in hertz: equal temperament on A = 440 Hz.
mod pitch {
    pub(super) const G4: f64 = 391.995;
    pub(super) const A4: f64 = 440.0;
    pub(super) const B4: f64 = 493.883;
    pub(super) const C5: f64 = 523.251;
    pub(super) const D5: f64 = 587.330;
    pub(super) const E5: f64 = 659.255;
    pub(super) const F5: f64 = 698.456;
    pub(super) const G5: f64 = 783.991;
}

/// The notes that say which pot is meant. A long low note stands for three.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Lead {
    /// One short note.
    Pot1,
    /// Two short notes.
    Pot2,
    /// Three short notes.
    Pot3,
    /// A long note and one short one.
    Pot4,
    /// A long note and two short ones.
    Pot5,
    /// A long note and three short ones.
    Pot6,
}

impl Lead {
    /// All six, in order.
    pub const ALL: [Self; 6] = [
        Self::Pot1,
        Self::Pot2,
        Self::Pot3,
        Self::Pot4,
        Self::Pot5,
        Self::Pot6,
    ];

    /// The lead-in of pot 1 to 6; no other pot has one.
    #[must_use]
    pub const fn of_pot(pot: u8) -> Option<Self> {
        match pot {
            1 => Some(Self::Pot1),
            2 => Some(Self::Pot2),
            3 => Some(Self::Pot3),
            4 => Some(Self::Pot4),
            5 => Some(Self::Pot5),
            6 => Some(Self::Pot6),
            _ => None,
        }
    }

    /// The stem of its file.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Pot1 => "pot_1",
            Self::Pot2 => "pot_2",
            Self::Pot3 => "pot_3",
            Self::Pot4 => "pot_4",
            Self::Pot5 => "pot_5",
            Self::Pot6 => "pot_6",
        }
    }
}

/// One sound file's worth.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Sound {
    /// A meaning.
    Meaning(Chime),
    /// Which pot.
    Lead(Lead),
}

impl Sound {
    /// All twelve: the meanings, then the lead-ins.
    pub fn all() -> impl Iterator<Item = Self> {
        let meanings = Chime::ALL.into_iter().map(Self::Meaning);
        meanings.chain(Lead::ALL.into_iter().map(Self::Lead))
    }

    /// The stem of its file in `sounds/`.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Meaning(chime) => chime.key(),
            Self::Lead(lead) => lead.key(),
        }
    }
}

/// One pulse of one pitch. Start and length are counted between the half heights of its envelope.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pulse {
    /// Fundamental in hertz.
    pub hz: f64,
    /// Milliseconds from the beginning of the file to the half height of the rise.
    pub start_ms: f64,
    /// Milliseconds from there to the half height of the fall.
    pub length_ms: f64,
}

impl Pulse {
    /// Where the envelope leaves zero.
    fn opens_ms(self) -> f64 {
        self.start_ms - self.length_ms * RISE / 2.0
    }

    /// Where it is at zero again.
    fn closes_ms(self) -> f64 {
        self.start_ms + self.length_ms * (1.0 + FALL / 2.0)
    }

    /// Height of the envelope, 0 to 1: raised cosines up and down, level between them.
    fn envelope(self, at_ms: f64) -> f64 {
        let risen = (at_ms - self.opens_ms()) / (self.length_ms * RISE);
        let left = (self.closes_ms() - at_ms) / (self.length_ms * FALL);
        let part = risen.min(left).clamp(0.0, 1.0);
        0.5 - 0.5 * (PI * part).cos()
    }
}

/// The pulses of a sound, in order.
#[must_use]
pub fn pulses(sound: Sound) -> Vec<Pulse> {
    let mut start_ms = FIRST_MS;
    score(sound)
        .iter()
        .map(|note| {
            let pulse = Pulse {
                hz: note.hz,
                start_ms,
                length_ms: note.length_ms,
            };
            start_ms += note.length_ms + note.gap_ms;
            pulse
        })
        .collect()
}

/// The samples of a sound, one channel at [`RATE_HZ`]. They begin and end at zero and never reach full scale.
#[must_use]
pub fn samples(sound: Sound) -> Vec<i16> {
    let pulses = pulses(sound);
    let end_ms = pulses.last().map_or(0.0, |last| last.closes_ms()) + TAIL_MS;
    let scale = peak(sound) / period_peak();
    let rate_per_ms = f64::from(RATE_HZ) / 1000.0;

    (0..whole(end_ms * rate_per_ms))
        .map(|index| {
            let at_ms = f64::from(index) / rate_per_ms;
            let height: f64 = pulses.iter().map(|pulse| pulse_at(*pulse, at_ms)).sum();
            sixteen_bit(height * scale)
        })
        .collect()
}

/// A note of a score: its pitch, its length, and the rest after it.
struct Note {
    hz: f64,
    length_ms: f64,
    gap_ms: f64,
}

const fn note(hz: f64, length_ms: f64, gap_ms: f64) -> Note {
    Note {
        hz,
        length_ms,
        gap_ms,
    }
}

fn score(sound: Sound) -> &'static [Note] {
    match sound {
        Sound::Meaning(chime) => meaning_score(chime),
        Sound::Lead(lead) => lead_score(lead),
    }
}

fn meaning_score(chime: Chime) -> &'static [Note] {
    use pitch::{A4, C5, D5, E5, F5, G4, G5};
    const URGENT: [Note; 10] = [
        note(F5, 100.0, 60.0),
        note(G5, 100.0, 60.0),
        note(F5, 100.0, 60.0),
        note(G5, 100.0, 60.0),
        note(G5, 100.0, 260.0),
        note(F5, 100.0, 60.0),
        note(G5, 100.0, 60.0),
        note(F5, 100.0, 60.0),
        note(G5, 100.0, 60.0),
        note(G5, 100.0, 0.0),
    ];
    match chime {
        Chime::Turn => const { &[note(D5, 180.0, 150.0), note(A4, 220.0, 0.0)] },
        Chime::Due => {
            const {
                &[
                    note(C5, 160.0, 140.0),
                    note(C5, 160.0, 140.0),
                    note(C5, 160.0, 0.0),
                ]
            }
        }
        Chime::Look => {
            const {
                &[
                    note(A4, 130.0, 125.0),
                    note(A4, 130.0, 200.0),
                    note(E5, 250.0, 0.0),
                ]
            }
        }
        Chime::Ready => {
            const {
                &[
                    note(E5, 250.0, 200.0),
                    note(C5, 130.0, 125.0),
                    note(G4, 130.0, 0.0),
                ]
            }
        }
        Chime::Urgent => &URGENT,
        Chime::Accepted => const { &[note(E5, 125.0, 0.0)] },
    }
}

/// Each pot has its own step of the five-note scale on G, and a count.
fn lead_score(lead: Lead) -> &'static [Note] {
    use pitch::{A4, B4, D5, E5, G4, G5};
    match lead {
        Lead::Pot1 => const { &[short(G4)] },
        Lead::Pot2 => const { &[short(A4), short(A4)] },
        Lead::Pot3 => const { &[short(B4), short(B4), short(B4)] },
        Lead::Pot4 => const { &[long(), short(D5)] },
        Lead::Pot5 => const { &[long(), short(E5), short(E5)] },
        Lead::Pot6 => const { &[long(), short(G5), short(G5), short(G5)] },
    }
}

const fn short(hz: f64) -> Note {
    note(hz, 70.0, 50.0)
}

const fn long() -> Note {
    note(pitch::G4, 150.0, 70.0)
}

/// The highest sample a sound may have, 1 being full scale: what wants hands is louder than what answers.
fn peak(sound: Sound) -> f64 {
    match sound {
        Sound::Meaning(Chime::Urgent) => decibels(-3.0),
        Sound::Meaning(Chime::Due | Chime::Look | Chime::Ready) => decibels(-4.0),
        Sound::Lead(_) => decibels(-5.0),
        Sound::Meaning(Chime::Turn) => decibels(-6.0),
        Sound::Meaning(Chime::Accepted) => decibels(-9.0),
    }
}

fn decibels(level: f64) -> f64 {
    10.0_f64.powf(level / 20.0)
}

fn pulse_at(pulse: Pulse, at_ms: f64) -> f64 {
    let envelope = pulse.envelope(at_ms);
    if envelope > 0.0 {
        envelope * wave(pulse.hz * (at_ms - pulse.opens_ms()) / 1000.0)
    } else {
        0.0
    }
}

/// The partials summed, at a time counted in periods. Their phases follow Schroeder's rule (IEEE Transactions on
/// Information Theory 16, 1970), which keeps the crest low, so that the same peak sounds louder.
fn wave(periods: f64) -> f64 {
    PARTIALS
        .iter()
        .zip(1_u32..)
        .map(|(amplitude, order)| {
            let order = f64::from(order);
            let phase = -PI * order * (order - 1.0) / 5.0;
            amplitude * (2.0 * PI * order * periods + phase).sin()
        })
        .sum()
}

/// The highest value of one period.
fn period_peak() -> f64 {
    (0..4096_u32)
        .map(|step| wave(f64::from(step) / 4096.0).abs())
        .fold(0.0, f64::max)
}

#[expect(
    clippy::as_conversions,
    reason = "a float to integer `as` saturates; sounds are seconds long"
)]
fn whole(count: f64) -> u32 {
    count.round() as u32
}

#[expect(
    clippy::as_conversions,
    reason = "a float to integer `as` saturates, and peaks lie below full scale"
)]
fn sixteen_bit(height: f64) -> i16 {
    (height * f64::from(i16::MAX)).round() as i16
}
