//! What it costs to keep an act: the keeper on the real disk beside a bare flush of the same bytes; how long a long bath
//! takes to be read back; how long a call takes to be heard. `cargo bench --bench keeping`; the folder is `TMPDIR`'s.
#![allow(
    clippy::unwrap_used,
    clippy::print_stdout,
    clippy::disallowed_methods,
    clippy::indexing_slicing,
    clippy::integer_division,
    clippy::arithmetic_side_effects,
    clippy::as_conversions,
    clippy::wildcard_enum_match_arm,
    reason = "a bench that stumbles should fall, and it asks the clock"
)]

use std::fs::OpenOptions;
use std::io::Write as _;
use std::path::Path;
use std::time::{Duration, Instant};

use potside::craft::time::{Moment, Span, Stretch};
use potside::journal::id::{ActId, BathId};
use potside::journal::line::Entry;
use potside::journal::recover::recover;
use potside::journal::writer::Writer;
use potside::keeper::{Keeper, Told};
use potside::machine::{Ask, Input, PotNo};
use potside::shell::disk::data_folder::DataFolder;
use potside::shell::disk::real_store::RealStore;

#[path = "../it/support/plans.rs"]
#[expect(dead_code, reason = "the tests use more of these plans")]
mod plans;

mod due;

const EVENTS: usize = 500;
const RECORDS: usize = 10_000;

fn main() {
    // `cargo test --benches` asks only whether it runs.
    if std::env::args().any(|word| word == "--test") {
        return;
    }
    let folder = tempfile::tempdir().unwrap();
    events(folder.path());
    recovery(folder.path());
    due::print(folder.path());
}

/// The one of a sorted row that so many in a thousand don't exceed.
fn nearest(sorted: &[Duration], in_thousand: usize) -> Duration {
    sorted[sorted.len() * in_thousand / 1_000]
}

fn at(ms: u64) -> Moment {
    let start = Moment {
        stretch: Stretch(0),
        steady_ms: 60_000,
        wall_ms: 1_787_650_000_000,
    };
    start.plus(Span::from_ms(ms))
}

/// An act and a bare flush of as many bytes in turn, so that both meet the same weather.
fn events(folder: &Path) {
    let data = DataFolder::open(&folder.join("data")).unwrap();
    let (mut keeper, _) = Keeper::open(data, Some("bench")).unwrap();
    let begin = Input::Begin {
        pot: PotNo(1),
        bath_id: "bench".to_owned(),
        plan: plans::alum_bath(),
        cautions_read: true,
    };
    keeper.take(None, &begin, at(0));
    let segment = folder.join("data/baths/bench/segment-0001.jsonl");
    let mut bare = OpenOptions::new()
        .append(true)
        .create_new(true)
        .open(folder.join("bare"))
        .unwrap();
    let (mut kept, mut flushed) = (Vec::new(), Vec::new());
    let mut length = std::fs::metadata(&segment).unwrap().len();
    for count in 1..=EVENTS {
        let act = ActId::from_text(&format!("t0-{count}")).unwrap();
        let start = Instant::now();
        let told = keeper.take(Some(&act), &Input::Pot(PotNo(1), Ask::Heard), at(count as u64));
        kept.push(start.elapsed());
        assert!(matches!(told, Told::Taken(_)));
        let now = std::fs::metadata(&segment).unwrap().len();
        let bytes = vec![b'x'; usize::try_from(now - length).unwrap()];
        length = now;
        let start = Instant::now();
        bare.write_all(&bytes).unwrap();
        bare.sync_data().unwrap();
        flushed.push(start.elapsed());
    }
    assert_eq!(keeper.not_saving_since(), None);
    kept.sort();
    flushed.sort();
    for (name, part) in [("p50", 500), ("p99", 990)] {
        let of = |all: &[Duration]| nearest(all, part).as_secs_f64() * 1_000.0;
        let (kept, bare) = (of(&kept), of(&flushed));
        println!(
            "an act kept, {name}: {kept:.3} ms; a bare flush {bare:.3} ms; {:.2} times (aim 1.5)",
            kept / bare
        );
    }
}

fn recovery(folder: &Path) {
    let place = folder.join("long");
    std::fs::create_dir(&place).unwrap();
    let bath = BathId::from_text("long").unwrap();
    let mut places = vec![RealStore::new(place.clone(), None)];
    let recovered = recover(&mut places, &bath);
    let mut writer = Writer::resume_in_doubt(&recovered, places, "bench");
    let entries: Vec<Entry> = (0..RECORDS)
        .map(|count| Entry {
            at: at(count as u64 * 1_000),
            what: "beat".to_owned(),
            pot: Some(1),
            body: serde_json::from_str("{\"wire\":1}").unwrap(),
        })
        .collect();
    for act in entries.chunks(100) {
        writer.append(None, act, at(0)).unwrap();
    }
    let mut times: Vec<Duration> = (0..21)
        .map(|_| {
            let mut places = [RealStore::new(place.clone(), None)];
            let start = Instant::now();
            let recovered = recover(&mut places, &bath);
            assert_eq!(recovered.records.len(), RECORDS + 1);
            start.elapsed()
        })
        .collect();
    times.sort();
    println!(
        "{RECORDS} records read back: {:.1} ms, the median of 21 (aim 50)",
        times[10].as_secs_f64() * 1_000.0
    );
}
