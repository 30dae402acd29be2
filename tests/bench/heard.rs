//! What of a sound check reached a device: a recording beside the table in `sounds/README.md`.
//! `heard RECORDING SAMPLES_BEFORE_THE_TAP PERCENT`, the recording raw 32-bit floats of one channel at 48 000 a second,
//! PERCENT the volume the bench is set to. `tests/bench/heard.sh` makes the recording.
//!
//! Calls are told apart by the rest between them. Fails with the first call that isn't as it should be.

#![allow(
    clippy::as_conversions,
    clippy::arithmetic_side_effects,
    clippy::indexing_slicing,
    clippy::print_stdout,
    reason = "a bench measures and prints"
)]

#[path = "../ui/sound_measures.rs"]
#[allow(dead_code, reason = "the tests use more of it")]
mod sound_measures;

use std::error::Error;

use potside::machine::chime::Chime;
use potside::shell::sound::Volume;
use potside::shell::sound::clips::file;
use potside::shell::sound::synth::{RATE_HZ, Sound};
use sound_measures::{WantedPulse, cut, loudest_partials, measured_pulses, readme_pulses};

/// The calls of a sound check in the order in which they sound: the hastier first. The answer to a tap isn't heard, for
/// it never waits behind a call.
const CALLS: [Chime; 5] = [Chime::Urgent, Chime::Due, Chime::Look, Chime::Ready, Chime::Turn];
/// Within a call pulses are closer than this, from end to start, and calls are further apart.
const REST_MS: f64 = 350.0;
/// From the half height of a pulse to where nothing is left of it, and from nothing to half height: at least.
const FALL_MS: f64 = 60.0;
const RISE_MS: f64 = 40.0;
/// How far a pulse may be from its place: the files are held to 2 ms, a device moves in steps of its own.
const START_OFF_MS: f64 = 5.0;
/// How far a pitch may be off, in parts; the files are held to the same.
const PITCH_OFF: f64 = 0.01;
/// How far a level may be off: less than can be heard.
const LEVEL_OFF_DB: f64 = 0.5;
/// What sounds in the rests of a call has to be this far below it: nothing else is sounding. Beside its own partials
/// there may be none within 25 dB of the loudest; weaker ones aren't told from the window's side lobes.
const ALONE_DB: f64 = -40.0;

const USAGE: &str = "write a recording, the samples before the tap, and the volume in percent";

/// What was found of one call.
struct Heard {
    starts_ms: f64,
    ends_ms: f64,
    start_off_ms: f64,
    pitch_off: f64,
    peak_db: f64,
    wanted_db: f64,
    beside_db: f64,
}

fn main() -> Result<(), Box<dyn Error>> {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let [recording, tap, percent] = words.as_slice() else {
        return Err(USAGE.into());
    };
    let wave = read(recording)?;
    let tap_ms = tap.parse::<f64>().map_err(|_| USAGE)? * 1_000.0 / f64::from(RATE_HZ);
    let volume = Volume::from_percent(percent.parse().map_err(|_| USAGE)?);

    let table = readme_pulses();
    let calls = calls_of(&measured_pulses(&wave));
    if calls.len() != CALLS.len() {
        return Err(format!("{} calls were heard, not {}", calls.len(), CALLS.len()).into());
    }
    println!(
        "| sound | pulses | begins, ms after the one before | starts off by, ms | pitch off by, % | peak, dB | wanted, dB | all else, dB |"
    );
    println!("| --- | --- | --- | --- | --- | --- | --- | --- |");
    let mut faults = Vec::new();
    let mut before_ms = tap_ms;
    for (chime, pulses) in CALLS.into_iter().zip(&calls) {
        let key = chime.key();
        let wanted = &table[key];
        if pulses.len() != wanted.len() {
            return Err(format!("{key}: {} pulses, not {}", pulses.len(), wanted.len()).into());
        }
        let heard = measure(&wave, chime, pulses, wanted, volume);
        println!(
            "| {key} | {} | {:.0} | {:.1} | {:.2} | {:.1} | {:.1} | {:.0} |",
            pulses.len(),
            heard.starts_ms - before_ms,
            heard.start_off_ms,
            heard.pitch_off * 100.0,
            heard.peak_db,
            heard.wanted_db,
            heard.beside_db
        );
        faults.extend(faults_of(key, &heard));
        before_ms = heard.ends_ms;
    }
    match faults.first() {
        Some(fault) => Err(fault.clone().into()),
        None => Ok(()),
    }
}

#[expect(clippy::disallowed_methods, reason = "reads the recording it is handed")]
fn read(recording: &str) -> Result<Vec<f32>, Box<dyn Error>> {
    let bytes = std::fs::read(recording).map_err(|fault| format!("{recording}: {fault}"))?;
    let (samples, _) = bytes.as_chunks::<4>();
    Ok(samples.iter().map(|sample| f32::from_le_bytes(*sample)).collect())
}

/// Pulses in groups with a rest between them.
fn calls_of(pulses: &[(f64, f64)]) -> Vec<Vec<(f64, f64)>> {
    pulses
        .chunk_by(|one, next| next.0 - one.1 < REST_MS)
        .map(<[_]>::to_vec)
        .collect()
}

fn measure(
    wave: &[f32],
    chime: Chime,
    pulses: &[(f64, f64)],
    wanted: &[WantedPulse],
    volume: Volume,
) -> Heard {
    let (starts_ms, ends_ms) = (pulses[0].0, pulses[pulses.len() - 1].1);
    let origin_ms = starts_ms - wanted[0].start_ms;
    let mut start_off_ms = 0.0_f64;
    let mut pitch_off = 0.0_f64;
    let mut beside_db = f64::NEG_INFINITY;
    for (found, wanted) in pulses.iter().zip(wanted) {
        start_off_ms = start_off_ms.max((found.0 - origin_ms - wanted.start_ms).abs());
        let middle = cut(wave, found.0 + 0.15 * wanted.length_ms, 0.62 * wanted.length_ms);
        let partials = loudest_partials(&middle);
        let loudest_db = partials
            .iter()
            .fold(f64::NEG_INFINITY, |most, (_, db)| most.max(*db));
        if let Some((fundamental_hz, _)) = partials.first() {
            pitch_off = pitch_off.max((fundamental_hz / wanted.hz - 1.0).abs());
        }
        let strangers = partials.iter().filter(|(hz, _)| {
            let order = (hz / wanted.hz).round().max(1.0);
            (hz / wanted.hz / order - 1.0).abs() > 0.02
        });
        beside_db = strangers.fold(beside_db, |most, (_, db)| most.max(db - loudest_db));
    }
    let peak_db = decibels(peak(&cut(wave, starts_ms, ends_ms - starts_ms)));
    for rest in pulses.windows(2) {
        let from = rest[0].1 + FALL_MS;
        let length = rest[1].0 - RISE_MS - from;
        if length > 0.0 {
            beside_db = beside_db.max(decibels(peak(&cut(wave, from, length))) - peak_db);
        }
    }
    let of_file = decibels(f64::from(file_peak(chime)));
    Heard {
        starts_ms,
        ends_ms,
        start_off_ms,
        pitch_off,
        peak_db,
        wanted_db: of_file + decibels(f64::from(volume.gain(chime))),
        beside_db,
    }
}

fn faults_of(key: &str, heard: &Heard) -> Vec<String> {
    let mut faults = Vec::new();
    if heard.start_off_ms > START_OFF_MS {
        faults.push(format!("{key}: a pulse starts {:.1} ms off", heard.start_off_ms));
    }
    if heard.pitch_off > PITCH_OFF {
        faults.push(format!("{key}: a pitch is {:.2} % off", heard.pitch_off * 100.0));
    }
    if (heard.peak_db - heard.wanted_db).abs() > LEVEL_OFF_DB {
        faults.push(format!(
            "{key}: {:.1} dB, not {:.1}",
            heard.peak_db, heard.wanted_db
        ));
    }
    if heard.beside_db > ALONE_DB {
        faults.push(format!(
            "{key}: something else sounds, {:.0} dB below",
            -heard.beside_db
        ));
    }
    faults
}

/// The highest sample of a file of ours: a header of 44 bytes, then 16 bits each.
fn file_peak(chime: Chime) -> f32 {
    const HEADER: usize = 44;
    let bytes = file(Sound::Meaning(chime));
    let (samples, _) = bytes.get(HEADER..).unwrap_or_default().as_chunks::<2>();
    samples.iter().fold(0.0_f32, |most, sample| {
        most.max((f32::from(i16::from_le_bytes(*sample)) / 32_768.0).abs())
    })
}

fn peak(wave: &[f32]) -> f64 {
    wave.iter()
        .fold(0.0_f64, |most, sample| most.max(f64::from(sample.abs())))
}

fn decibels(amplitude: f64) -> f64 {
    20.0 * amplitude.max(1e-6).log10()
}
