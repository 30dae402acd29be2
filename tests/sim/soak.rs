//! The soak: as many sessions as asked for, on every core, and the seed of the first that breaks a promise.
//!
//! `cargo run --profile soak --no-default-features --features soak --bin soak -- --sessions 100000 --minutes 5`
//! With `--planted` alone: in which session each planted fault is seen. With `--speed` alone: how long a bath of ten
//! thousand records takes to be read back, without the disk's part (the bench `keeping` has it).

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::arithmetic_side_effects,
    clippy::as_conversions,
    clippy::integer_division,
    clippy::wildcard_enum_match_arm,
    clippy::match_wildcard_for_single_variants,
    clippy::disallowed_methods,
    clippy::print_stdout,
    clippy::print_stderr,
    dead_code,
    missing_docs,
    unreachable_pub,
    reason = "a test in the shape of a program: it should fall where it stumbles"
)]

#[path = "../it/support/plans.rs"]
mod plans;
#[path = "mod.rs"]
mod sim;
mod speed;

use std::process::ExitCode;
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};
use std::time::{Duration, Instant};

use sim::flaw::Flaw;
use sim::session::{Tally, run, run_and_trace};

struct Asked {
    seed: u64,
    sessions: u64,
    minutes: u64,
}

fn asked() -> Result<Asked, String> {
    let mut asked = Asked {
        seed: 1,
        sessions: 100_000,
        minutes: u64::MAX / 60,
    };
    let mut words = std::env::args().skip(1);
    while let Some(word) = words.next() {
        let number = words.next().and_then(|number| number.parse().ok());
        let number = number.ok_or_else(|| format!("{word} takes a number"))?;
        match word.as_str() {
            "--seed" => asked.seed = number,
            "--sessions" => asked.sessions = number,
            "--minutes" => asked.minutes = number,
            _ => return Err(format!("{word}: only --seed, --sessions and --minutes are known")),
        }
    }
    Ok(asked)
}

fn main() -> ExitCode {
    match std::env::args().nth(1).as_deref() {
        Some("--planted") => return planted(),
        Some("--speed") => {
            speed::recovery();
            return ExitCode::SUCCESS;
        }
        _ => {}
    }
    let asked = match asked() {
        Ok(asked) => asked,
        Err(why) => {
            eprintln!("soak: {why}");
            return ExitCode::from(2);
        }
    };
    if asked.sessions == 1 {
        return replay(asked.seed);
    }
    let (next, is_over) = (AtomicU64::new(asked.seed), AtomicBool::new(false));
    let end = asked.seed.saturating_add(asked.sessions);
    let start = Instant::now();
    let limit = Duration::from_secs(asked.minutes.saturating_mul(60));
    let threads = std::thread::available_parallelism().map_or(1, usize::from);
    let mut tally = Tally::default();
    let mut breach = None;
    std::thread::scope(|scope| {
        let work = || {
            let mut tally = Tally::default();
            loop {
                let seed = next.fetch_add(1, Ordering::Relaxed);
                if seed >= end || is_over.load(Ordering::Relaxed) || start.elapsed() > limit {
                    return (tally, None);
                }
                match std::panic::catch_unwind(|| run(seed, Flaw::None)) {
                    Ok(Ok(one)) => tally.add(&one),
                    Ok(Err(why)) => {
                        is_over.store(true, Ordering::Relaxed);
                        return (tally, Some((seed, why)));
                    }
                    Err(_) => {
                        is_over.store(true, Ordering::Relaxed);
                        return (tally, Some((seed, format!("seed {seed}: a panic"))));
                    }
                }
            }
        };
        let threads: Vec<_> = (0..threads).map(|_| scope.spawn(work)).collect();
        for thread in threads {
            let (part, found) = thread.join().expect("a soaking thread ends by itself");
            tally.add(&part);
            breach = breach.take().or(found);
        }
    });
    println!("soak: {tally:?} in {} s", start.elapsed().as_secs());
    match breach {
        None => ExitCode::SUCCESS,
        Some((seed, why)) => {
            println!("soak: BROKEN: {why}");
            println!("soak: replay it with --seed {seed} --sessions 1");
            ExitCode::FAILURE
        }
    }
}

/// For each planted fault the first session that sees it.
fn planted() -> ExitCode {
    const PATIENCE: u64 = 5_000;
    let mut unseen = 0;
    for flaw in Flaw::IN_SESSIONS {
        match (1..=PATIENCE).find_map(|seed| run(seed, flaw).err()) {
            Some(seen) => println!("soak: {flaw:?}: {seen}"),
            None => {
                println!("soak: {flaw:?}: UNSEEN in {PATIENCE} sessions");
                unseen += 1;
            }
        }
    }
    if unseen == 0 {
        ExitCode::SUCCESS
    } else {
        ExitCode::FAILURE
    }
}

fn replay(seed: u64) -> ExitCode {
    match run_and_trace(seed, Flaw::None, true) {
        Ok(tally) => {
            println!("soak: {tally:?}");
            ExitCode::SUCCESS
        }
        Err(why) => {
            println!("soak: BROKEN: {why}");
            ExitCode::FAILURE
        }
    }
}
