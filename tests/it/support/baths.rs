//! An invented bath for the journal tests: acts of one or several entries, with moments and bodies.

use potside::craft::time::{Moment, Stretch};
use potside::journal::id::{ActId, BathId};
use potside::journal::line::{Entry, Record};
use potside::journal::recover::Recovered;
use potside::journal::store::Store;
use potside::journal::writer::{Receipt, Writer};
use serde_json::{Map, Value, json};

pub fn bath() -> BathId {
    BathId::from_text("2026-08-25-0931-k3f9").unwrap()
}

pub fn moment(stretch: u32, second: u64) -> Moment {
    Moment {
        stretch: Stretch(stretch),
        steady_ms: second * 1_000,
        wall_ms: 1_787_650_000_000 + i64::try_from(second).unwrap() * 1_000,
    }
}

pub fn entry(stretch: u32, second: u64, what: &str, body: Value) -> Entry {
    let Value::Object(body) = body else {
        panic!("a body is an object")
    };
    Entry {
        at: moment(stretch, second),
        what: what.to_owned(),
        pot: Some(2),
        body,
    }
}

/// One act of the script: its id and its entries.
pub struct Act {
    pub id: Option<ActId>,
    pub entries: Vec<Entry>,
}

/// The acts of one stretch. They differ from those of any other stretch.
pub fn acts(stretch: u32, count: usize) -> Vec<Act> {
    (0..count)
        .map(|index| {
            let second = 60 * index as u64;
            let first =
                json!({"step": index, "grams": 42.5 + index as f64 / 3.0, "note": "krapp \u{e4}\u{201c}\n"});
            let mut entries = vec![entry(stretch, second, "step_done", first)];
            if index % 3 == 1 {
                entries.push(entry(stretch, second, "call_heard", json!({})));
                entries.push(entry(
                    stretch,
                    second,
                    "beat",
                    json!({"list": [1, [2, null]], "yes": true}),
                ));
            }
            let id = (index % 2 == 0).then(|| ActId::from_text(&format!("b{stretch}-{index}")).unwrap());
            Act { id, entries }
        })
        .collect()
}

/// Appends acts until the power goes; returns every entry that was acknowledged as saved.
pub fn run<S: Store>(writer: &mut Writer<S>, acts: &[Act], is_dead: impl Fn() -> bool) -> Vec<Entry> {
    let mut waiting = Vec::new();
    let mut saved = Vec::new();
    for (index, act) in acts.iter().enumerate() {
        let now = moment(act.entries[0].at.stretch.0, 60 * index as u64);
        let receipt: Receipt = writer.append(act.id.as_ref(), &act.entries, now).unwrap();
        waiting.extend(act.entries.iter().cloned());
        if is_dead() {
            break;
        }
        if receipt.is_saved {
            saved.append(&mut waiting);
        }
    }
    saved
}

/// The entries of a chain without the journal's own.
pub fn entries_of(recovered: &Recovered) -> Vec<Entry> {
    let own = |record: &&Record| record.entry.what != potside::journal::writer::SEGMENT_KIND;
    recovered
        .records
        .iter()
        .filter(own)
        .map(|record| record.entry.clone())
        .collect()
}

pub fn empty_body() -> Map<String, Value> {
    Map::new()
}
