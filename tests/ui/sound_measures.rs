//! Spectrum and envelope of a sound, measured with rustfft and a Gaussian window, not with the generator's own sums; and
//! the pulses wanted, read from the table in `sounds/README.md`, so that the page stays true. Shared by the tests of the
//! files and by the bench that records what reaches a device.

#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::arithmetic_side_effects,
    clippy::as_conversions,
    clippy::integer_division,
    reason = "helpers of a test; a wrong sum or a missing line should stop it"
)]

use std::collections::BTreeMap;

use potside::shell::sound::synth::{RATE_HZ, Sound};
use rustfft::FftPlanner;
use rustfft::num_complex::Complex;

const README: &str = include_str!("../../sounds/README.md");

/// A pulse as the README has it.
#[derive(Debug)]
pub(crate) struct WantedPulse {
    pub(crate) start_ms: f64,
    pub(crate) length_ms: f64,
    pub(crate) hz: f64,
}

/// The code block of the README: `key  start+length@hz ...`.
pub(crate) fn readme_pulses() -> BTreeMap<&'static str, Vec<WantedPulse>> {
    let block = README.split("```").nth(1).unwrap();
    let table: BTreeMap<_, Vec<_>> = block
        .lines()
        .filter(|line| !line.trim().is_empty())
        .map(|line| {
            let mut words = line.split_whitespace();
            (words.next().unwrap(), words.map(wanted_pulse).collect())
        })
        .collect();
    assert_eq!(table.len(), Sound::all().count(), "a row for every sound");
    table
}

fn wanted_pulse(word: &str) -> WantedPulse {
    let (times, hz) = word.split_once('@').unwrap();
    let (start, length) = times.split_once('+').unwrap();
    WantedPulse {
        start_ms: start.parse().unwrap(),
        length_ms: length.parse().unwrap(),
        hz: hz.parse().unwrap(),
    }
}

pub(crate) fn cut(wave: &[f32], from_ms: f64, length_ms: f64) -> Vec<f32> {
    let per_ms = f64::from(RATE_HZ) / 1_000.0;
    let from = (from_ms * per_ms) as usize;
    wave[from..from + (length_ms * per_ms) as usize].to_vec()
}

/// The envelope is measured at every tenth sample, 0.21 ms apart.
const STRIDE: usize = 10;

/// Start and end of every pulse in ms, where the smoothed amplitude crosses half of the pulse's own height. Power is
/// smoothed by a Gaussian of 1.5 ms, wide against a period of the lowest note and narrow against the shortest rise.
pub(crate) fn measured_pulses(wave: &[f32]) -> Vec<(f64, f64)> {
    let power = smoothed_power(wave, 1.5);
    let top = power.iter().fold(0.0_f64, |most, value| most.max(*value));
    let mut pulses = Vec::new();
    let mut at = 0;
    while at < power.len() {
        if power[at] < top / 100.0 {
            at += 1;
            continue;
        }
        let end = (at..power.len())
            .find(|index| power[*index] < top / 100.0)
            .unwrap_or(power.len());
        let mut heights = power[at..end].to_vec();
        heights.sort_by(f64::total_cmp);
        // The level of the flat part, whose half in amplitude is a quarter in power.
        let quarter = heights[heights.len() * 3 / 4] / 4.0;
        let rise = (at..end).find(|index| power[*index] >= quarter).unwrap();
        let fall = (at..end).rev().find(|index| power[*index] >= quarter).unwrap();
        let to_ms = |index: usize| (index * STRIDE) as f64 * 1_000.0 / f64::from(RATE_HZ);
        pulses.push((to_ms(rise), to_ms(fall)));
        at = end;
    }
    pulses
}

pub(crate) fn smoothed_power(wave: &[f32], sigma_ms: f64) -> Vec<f64> {
    let sigma = sigma_ms * f64::from(RATE_HZ) / 1_000.0;
    let reach = (4.0 * sigma) as i64;
    let weights: Vec<f64> = (-reach..=reach)
        .map(|step| (-0.5 * (step as f64 / sigma).powi(2)).exp())
        .collect();
    let total: f64 = weights.iter().sum();
    (0..wave.len() as i64)
        .step_by(STRIDE)
        .map(|centre| {
            let sum: f64 = (-reach..=reach)
                .zip(&weights)
                .filter_map(|(step, weight)| {
                    let sample = wave.get(usize::try_from(centre + step).ok()?)?;
                    Some(weight * f64::from(*sample).powi(2))
                })
                .sum();
            sum / total
        })
        .collect()
}

/// Frequency and power of every line of the spectrum through a Hann window.
pub(crate) fn power_spectrum(wave: &[f32]) -> Vec<(f64, f64)> {
    let count = wave.len() as f64;
    let windowed: Vec<f32> = wave
        .iter()
        .zip(0..)
        .map(|(sample, index)| {
            let turn = std::f64::consts::TAU * (f64::from(index) + 0.5) / count;
            sample * (0.5 - 0.5 * turn.cos()) as f32
        })
        .collect();
    plain_power_spectrum(&windowed)
}

/// The same without a window, padded with zeros to at least 65 536 samples and at least twice the length.
pub(crate) fn plain_power_spectrum(wave: &[f32]) -> Vec<(f64, f64)> {
    let size = (2 * wave.len()).next_power_of_two().max(65_536);
    let mut lines: Vec<Complex<f64>> = wave
        .iter()
        .map(|sample| Complex::new(f64::from(*sample), 0.0))
        .collect();
    lines.resize(size, Complex::new(0.0, 0.0));
    FftPlanner::new().plan_fft_forward(size).process(&mut lines);
    let step_hz = f64::from(RATE_HZ) / size as f64;
    (0..size / 2)
        .map(|index| (index as f64 * step_hz, lines[index].norm_sqr()))
        .collect()
}

/// Frequency and level in dB of the partials from the lowest, those within 25 dB of the loudest.
pub(crate) fn loudest_partials(wave: &[f32]) -> Vec<(f64, f64)> {
    let spectrum = power_spectrum(wave);
    let top = spectrum.iter().fold(0.0_f64, |most, (_, power)| most.max(*power));
    spectrum
        .windows(3)
        .filter(|around| around[1].1 > around[0].1 && around[1].1 >= around[2].1)
        .map(|around| around[1])
        .filter(|(_, power)| *power > top / 316.0)
        .map(|(hz, power)| (hz, 10.0 * power.log10()))
        .collect()
}
