//! Where strangers' bytes come in, each as one function that must not fall over, whatever it is given. The fuzzer and
//! `tests/it/fuzzed.rs` call the same ones.

use std::collections::BTreeMap;

use potside::journal::id::BathId;
use potside::journal::line::{Station, write_line};
use potside::journal::record::BathRecord;
use potside::journal::recover::recover;
use potside::journal::seal::{read_page, write_page};
use potside::journal::segment::take_apart;
use potside::journal::wire::events_of;
use potside::machine::Machine;
use sha2::{Digest as _, Sha256};

use super::fault_store::FaultStore;

/// A recipe file.
pub fn recipe(bytes: &[u8]) {
    let text = String::from_utf8_lossy(bytes);
    if let Err(faults) = potside::recipe::read(&text) {
        assert!(!faults.to_string().is_empty());
    }
}

/// A segment, as it is and with every checksum and link made to fit, so that what lies behind them is met too.
pub fn journal(bytes: &[u8]) {
    let parts = take_apart(bytes);
    let whole = parts.whole.iter().map(|placed| placed.record.line().len());
    let broken = parts.broken.iter().map(|broken| broken.length);
    let covered = whole.sum::<usize>() + broken.sum::<usize>();
    assert!(
        covered <= bytes.len() && covered + parts.whole.len() >= bytes.len(),
        "every byte has its place"
    );
    for placed in &parts.whole {
        let record = &placed.record;
        let station = Station {
            n: record.n,
            segment: record.segment,
            left: record.left,
            act: record.act.clone(),
            link: record.link,
        };
        // A line may be spelt otherwise than we spell it; what it says must survive.
        let again = write_line(&station, &record.entry).expect("what was read can be written");
        assert_eq!(again.entry, record.entry);
    }
    replay(bytes, true);
    replay(&fitted(bytes), false);
}

const BATH: &str = "20260825-093107-finished-p2";

fn replay(bytes: &[u8], applies: bool) {
    let bath = BathId::from_text(BATH).expect("an id");
    let files = BTreeMap::from([("segment-0001.jsonl".to_owned(), bytes.to_vec())]);
    let mut places = [FaultStore::with_files(&files)];
    let recovered = recover(&mut places, &bath);
    assert_eq!(recover(&mut places, &bath), recovered);
    for (n, record) in (1..).zip(&recovered.records) {
        assert_eq!(record.n, n, "a chain has no gaps");
    }
    if let Ok(events) = events_of(&recovered)
        && applies
    {
        let mut machine = Machine::default();
        events.iter().for_each(|event| machine.apply(event));
    }
}

/// The lines with links and checksums as if they had been written so.
fn fitted(bytes: &[u8]) -> Vec<u8> {
    let mut before = BATH.as_bytes().to_vec();
    let mut out = Vec::new();
    for line in bytes.split(|byte| *byte == b'\n') {
        let Some(at) = line.windows(9).rposition(|piece| piece == b",\"link\":\"") else {
            continue;
        };
        let digest = Sha256::digest(&before);
        let link: String = digest.iter().take(8).map(|byte| format!("{byte:02x}")).collect();
        let guarded = [&line[..at], format!(",\"link\":\"{link}\"").as_bytes()].concat();
        let crc = format!(",\"crc\":\"{:08x}\"}}", crc32fast::hash(&guarded));
        let line = [guarded, crc.into_bytes()].concat();
        out.extend_from_slice(&line);
        out.push(b'\n');
        before = line;
    }
    out
}

/// A page of the daybook.
pub fn page(bytes: &[u8]) {
    let Ok(page) = read_page("page.json", bytes) else {
        return;
    };
    let again = read_page("page.json", &write_page(&page.bath, &page.content)).expect("it reads back");
    assert_eq!((again.bath, &again.content), (page.bath, &page.content));
    drop(serde_json::from_value::<BathRecord>(page.content));
}

/// A record without the digest around it.
pub fn record(bytes: &[u8]) {
    if let Ok(record) = serde_json::from_slice::<BathRecord>(bytes) {
        assert!(serde_json::to_value(&record).is_ok());
    }
}

/// The settings of the bench.
#[cfg(feature = "shell")]
pub fn settings(bytes: &[u8]) {
    use potside::shell::bench_file;
    let text = String::from_utf8_lossy(bytes);
    if let Ok(bench) = bench_file::read(&text) {
        let again = bench_file::read(&bench_file::write(&bench)).expect("it reads back");
        assert_eq!(again, bench);
    }
}
