//! The bytes of a journal: every prefix, every flipped bit, every record swapped, dropped, doubled or from elsewhere.

use std::collections::BTreeMap;

use potside::journal::id::{ActId, BathId};
use potside::journal::line::{
    Entry, LINE_BYTES_MAX, LineFault, Link, Record, Station, read_line, write_line,
};
use potside::journal::recover::{DamageKind, Recovered, recover};
use potside::journal::segment::{BrokenKind, segment_name, segment_number};
use potside::journal::writer::Writer;
use proptest::prelude::*;
use serde_json::{Value, json};

use super::support::baths::{acts, bath, empty_body, entries_of, entry, moment, run};
use super::support::fault_store::FaultStore;

/// The bytes of a first run's segment.
fn canonical(bath: &BathId, act_count: usize) -> Vec<u8> {
    let store = FaultStore::default();
    let nothing = recover(&mut [store.clone()], bath);
    let mut writer = Writer::resume(&nothing, vec![store.clone()], "potside 0.1.0").unwrap();
    run(&mut writer, &acts(1, act_count), || false);
    store.live_files().remove(&segment_name(1)).unwrap()
}

fn recover_bytes(bytes: &[u8]) -> Recovered {
    let files = BTreeMap::from([(segment_name(1), bytes.to_vec())]);
    recover(&mut [FaultStore::with_files(&files)], &bath())
}

fn lines(bytes: &[u8]) -> Vec<Vec<u8>> {
    bytes
        .split_inclusive(|byte| *byte == b'\n')
        .map(<[u8]>::to_vec)
        .collect()
}

#[test]
fn every_byte_prefix_gives_a_prefix_of_the_acts_and_calls_the_rest_a_torn_tail() {
    let bytes = canonical(&bath(), 5);
    let all = recover_bytes(&bytes);
    assert!(all.is_whole() && all.damage.is_empty());
    assert_eq!(all.records.len(), 1 + 5 + 2 * 2);

    for length in 0..bytes.len() {
        let got = recover_bytes(&bytes[..length]);

        assert_eq!(
            got.records,
            all.records[..got.records.len()],
            "prefix of {length} bytes"
        );
        assert!(
            got.records.last().is_none_or(|record| record.left == 0),
            "prefix of {length} bytes"
        );
        assert!(
            got.is_whole(),
            "a torn tail hides nothing acknowledged: {length} bytes, {:?}",
            got.damage
        );
        let whole_lines = bytes[..length].iter().filter(|byte| **byte == b'\n').count();
        let unfinished = got
            .damage
            .iter()
            .filter(|damage| matches!(damage.kind, DamageKind::UnfinishedAct { .. }))
            .count();
        assert!(
            got.records.len() + unfinished >= whole_lines,
            "prefix of {length} bytes"
        );
        for damage in got.damage {
            match damage.kind {
                DamageKind::Broken(BrokenKind::TornTail) => assert_eq!(damage.at + damage.length, length),
                DamageKind::UnfinishedAct { .. } => {}
                other => panic!("prefix of {length} bytes: {other}"),
            }
        }
    }
}

/// Flips every bit of a journal and says where a reader of lines let a changed line pass.
fn flips_that_pass(bytes: &[u8], read: impl Fn(&[u8]) -> Result<Record, LineFault>) -> Vec<(usize, u8)> {
    let mut passed = Vec::new();
    for line in lines(bytes) {
        let line = line.strip_suffix(b"\n").unwrap();
        let whole = read(line).unwrap();
        for (at, bit) in (0..line.len()).flat_map(|at| (0..8).map(move |bit| (at, bit))) {
            let mut flipped = line.to_vec();
            flipped[at] ^= 1 << bit;
            if read(&flipped).is_ok() {
                passed.push((at, bit));
            }
        }
        assert_eq!(read(line).unwrap(), whole);
    }
    passed
}

#[test]
fn no_flipped_bit_passes() {
    let bytes = canonical(&bath(), 3);

    assert_eq!(flips_that_pass(&bytes, read_line), []);
}

#[test]
fn planted_a_reader_without_the_checksum_lets_flips_pass() {
    let bytes = canonical(&bath(), 3);
    let without_crc = |line: &[u8]| {
        let mut mended = line.to_vec();
        let guarded = mended.len().checked_sub(8 + 10).ok_or(LineFault::NotALine)?;
        let crc = format!("{:08x}", crc32(&mended[..guarded]));
        mended[guarded + 8..guarded + 16].copy_from_slice(crc.as_bytes());
        read_line(&mended)
    };

    assert!(flips_that_pass(&bytes, without_crc).len() > 1_000);
}

#[test]
fn planted_a_reader_that_takes_upper_case_checksums_lets_flips_pass() {
    let bytes = canonical(&bath(), 3);
    let any_case = |line: &[u8]| {
        let mut lowered = line.to_vec();
        let length = lowered.len();
        lowered[length - 10..].make_ascii_lowercase();
        read_line(&lowered)
    };

    assert!(!flips_that_pass(&bytes, any_case).is_empty());
}

/// CRC-32 of zlib, bit by bit: ISO 3309 / ITU-T V.42 polynomial 0xEDB88320, reflected.
fn crc32(bytes: &[u8]) -> u32 {
    !bytes.iter().fold(!0_u32, |crc, byte| {
        (0..8).fold(crc ^ u32::from(*byte), |crc, _| {
            if crc & 1 == 1 {
                (crc >> 1) ^ 0xEDB8_8320
            } else {
                crc >> 1
            }
        })
    })
}

#[test]
fn the_checksum_is_zlibs_and_the_link_is_sha_256() {
    // Check value of CRC-32/ISO-HDLC over "123456789": Koopman, and the catalogue of parametrised CRC algorithms.
    assert_eq!(crc32(b"123456789"), 0xCBF4_3926);
    let bytes = canonical(&bath(), 1);
    let text = String::from_utf8(lines(&bytes)[0].clone()).unwrap();
    let (guarded, crc) = text
        .trim_end()
        .strip_suffix("\"}")
        .unwrap()
        .split_once(",\"crc\":\"")
        .unwrap();
    assert_eq!(crc, format!("{:08x}", crc32(guarded.as_bytes())));
    // FIPS 180-4, example of the one-block message "abc": digest begins ba7816bf 8f01cfea.
    let abc = BathId::from_text("abc").unwrap();
    let station = Station {
        n: 1,
        segment: 1,
        left: 0,
        act: None,
        link: Link::genesis(&abc),
    };
    let record = write_line(&station, &entry(1, 0, "beat", json!({}))).unwrap();
    assert!(
        record.line().contains("\"link\":\"ba7816bf8f01cfea\""),
        "{}",
        record.line()
    );
}

#[test]
fn a_flipped_bit_loses_nothing_before_it_and_is_told_apart_from_a_torn_tail() {
    let bytes = canonical(&bath(), 3);
    let all = recover_bytes(&bytes);
    let line_ends: Vec<usize> = bytes
        .iter()
        .enumerate()
        .filter(|(_, byte)| **byte == b'\n')
        .map(|(at, _)| at)
        .collect();
    let last_line_at = line_ends[line_ends.len() - 2] + 1;

    for at in 0..bytes.len() {
        let mut flipped = bytes.clone();
        flipped[at] ^= 1 << (at % 8);
        let got = recover_bytes(&flipped);

        let damaged_line = line_ends.iter().filter(|end| **end < at).count();
        let kept = got.records.len();
        let last_byte = at == bytes.len() - 1;
        assert_eq!(got.records, all.records[..kept], "flip at {at}");
        assert!(
            all.records[..damaged_line]
                .iter()
                .rev()
                .find(|record| record.left == 0)
                .is_none_or(|last| { kept as u64 >= last.n }),
            "flip at {at} lost what was before it"
        );
        assert!(!got.damage.is_empty(), "flip at {at} unseen");
        let broken: Vec<_> = got
            .damage
            .iter()
            .filter_map(|damage| match &damage.kind {
                DamageKind::Broken(kind) => Some((damage.at, kind.clone())),
                _ => None,
            })
            .collect();
        if at < last_line_at - 1 {
            assert!(
                broken
                    .iter()
                    .all(|(_, kind)| matches!(kind, BrokenKind::Middle(_))),
                "flip at {at}: {broken:?}"
            );
            assert!(!got.is_whole() && !got.after_gap.is_empty(), "flip at {at}");
        } else if !last_byte {
            assert!(
                broken
                    .iter()
                    .any(|(_, kind)| matches!(kind, BrokenKind::Last(_) | BrokenKind::TornTail)),
                "flip at {at}: {broken:?}"
            );
        }
    }
}

#[test]
fn a_damaged_line_in_one_segment_is_taken_from_another() {
    let first = canonical(&bath(), 4);
    let store = FaultStore::with_files(&BTreeMap::from([(segment_name(1), first)]));
    let before = recover(&mut [store.clone()], &bath());
    let mut writer = Writer::resume(&before, vec![store.clone()], "potside 0.1.0").unwrap();
    run(&mut writer, &acts(2, 2), || false);
    let files = store.live_files();
    let all = recover(&mut [store], &bath());

    for name in [segment_name(1), segment_name(2)] {
        let mut damaged = files.clone();
        damaged.get_mut(&name).unwrap()[700] ^= 0x10;
        let mut place = FaultStore::with_files(&damaged);
        let got = recover(std::slice::from_mut(&mut place), &bath());

        assert!(got.is_whole(), "{name}");
        assert_eq!(got.records, all.records, "{name}");
        assert_eq!(got.damage.len(), 1);
        assert_eq!(got.damage[0].file, name);
        assert_eq!(place.live_files(), damaged, "damage is left where it is");
    }
}

#[test]
fn swaps_drops_doubles_and_splices_never_pass_for_the_record() {
    let bytes = canonical(&bath(), 4);
    let whole = lines(&bytes);
    let all = recover_bytes(&bytes);
    let strange = lines(&canonical(&BathId::from_text("2026-08-26-1100-zz11").unwrap(), 4));
    let check = |what: String, lines: Vec<Vec<u8>>, is_complete: bool| {
        let got = recover_bytes(&lines.concat());
        assert_eq!(
            got.records,
            all.records[..got.records.len()],
            "{what}: order kept, nothing invented"
        );
        assert!(!got.damage.is_empty(), "{what} went unseen");
        assert_eq!(got.records.len() == all.records.len(), is_complete, "{what}");
    };

    for a in 0..whole.len() {
        let mut dropped = whole.clone();
        dropped.remove(a);
        if a + 1 < whole.len() {
            check(format!("drop of {a}"), dropped, false);
        }
        let mut doubled = whole.clone();
        doubled.insert(a, whole[a].clone());
        check(format!("double of {a}"), doubled, true);
        let mut spliced = whole.clone();
        spliced[a] = strange[a].clone();
        check(format!("splice at {a}"), spliced, false);
        for b in a + 1..whole.len() {
            let mut swapped = whole.clone();
            swapped.swap(a, b);
            check(format!("swap of {a} and {b}"), swapped, true);
        }
    }
}

#[test]
fn another_baths_whole_journal_is_not_taken_for_ours() {
    let strange = canonical(&BathId::from_text("2026-08-26-1100-zz11").unwrap(), 3);

    let got = recover_bytes(&strange);

    assert_eq!(got.records, []);
    assert!(!got.after_gap.is_empty() && !got.is_whole());
}

/// The lines of a hand that can compute fingerprints: number and segment of each, every one linked to the one before.
fn linked(numbers: &[(u64, u32)]) -> Vec<u8> {
    let mut link = Link::genesis(&bath());
    let mut bytes = Vec::new();
    for (n, segment) in numbers {
        let station = Station {
            n: *n,
            segment: *segment,
            left: 0,
            act: None,
            link,
        };
        let record = write_line(&station, &entry(1, *n, "note", json!({}))).unwrap();
        link = record.fingerprint();
        bytes.extend_from_slice(record.line().as_bytes());
        bytes.push(b'\n');
    }
    bytes
}

#[test]
fn a_line_joins_only_the_number_before_it_and_no_later_segment() {
    let whole = recover_bytes(&linked(&[(1, 1), (2, 1), (3, 2)]));
    assert_eq!((whole.records.len(), whole.is_whole()), (3, true));

    for numbers in [[(1, 1), (2, 1), (4, 1)], [(1, 1), (2, 2), (3, 1)]] {
        let got = recover_bytes(&linked(&numbers));

        assert_eq!(got.records.len(), 2, "{numbers:?}");
        let n = numbers[2].0;
        let kinds: Vec<&DamageKind> = got.damage.iter().map(|damage| &damage.kind).collect();
        assert_eq!(kinds, [&DamageKind::NotJoined { n }], "{numbers:?}");
    }
}

/// A stick that was away for one run: home and stick hold a record of the same number and segment each.
#[test]
fn of_two_branches_that_end_alike_one_stands_and_the_other_is_told_as_left() {
    let store = FaultStore::default();
    let recovered = recover(&mut [store.clone()], &bath());
    run(
        &mut Writer::resume(&recovered, vec![store.clone()], "potside 0.1.0").unwrap(),
        &acts(1, 1),
        || false,
    );
    let both = [1, 2].map(|stretch| {
        let place = FaultStore::with_files(&store.live_files());
        let recovered = recover(&mut [place.clone()], &bath());
        let mut writer = Writer::resume(&recovered, vec![place.clone()], "potside 0.1.0").unwrap();
        let entries = [entry(stretch, 60, "note", json!({}))];
        writer.append(None, &entries, moment(stretch, 60)).unwrap();
        assert_eq!(writer.n(), 4);
        place
    });

    let got = recover(&mut both.clone(), &bath());

    assert_eq!(got.records.len(), 4);
    let kinds: Vec<&DamageKind> = got.damage.iter().map(|damage| &damage.kind).collect();
    let left = [3, 4].map(|n| DamageKind::OtherBranch { n });
    assert_eq!(kinds, left.iter().collect::<Vec<_>>());
}

#[test]
fn a_newer_format_is_named_and_left_alone() {
    let bytes = canonical(&bath(), 2);
    let mut files = lines(&bytes);
    let text = String::from_utf8(files[1].clone())
        .unwrap()
        .replacen("\"v\":1", "\"v\":99", 1);
    let (guarded, _) = text.split_once(",\"crc\":\"").unwrap();
    files[1] = format!("{guarded},\"crc\":\"{:08x}\"}}\n", crc32(guarded.as_bytes())).into_bytes();

    let got = recover_bytes(&files.concat());

    let newer = LineFault::OtherFormat { version: 99 };
    assert!(
        got.damage
            .iter()
            .any(|damage| damage.kind == DamageKind::Broken(BrokenKind::Middle(newer.clone())))
    );
}

/// A line that says the same in another spelling is none of ours, though its checksum is right: two spellings of one
/// record would have two fingerprints, and the chain would fork where nothing happened.
#[test]
fn another_spelling_with_a_right_checksum_is_refused() {
    let line = String::from_utf8(lines(&canonical(&bath(), 1))[1].clone()).unwrap();
    let (guarded, _) = line.rsplit_once(",\"crc\":\"").unwrap();
    let at_link = guarded.rfind(",\"link\":\"").unwrap();
    let (before, link) = guarded.split_at(at_link);
    assert_ne!(
        link,
        link.replace("link", "LINK")
            .to_uppercase()
            .replace("LINK", "link"),
        "no letter in the link"
    );
    let head = guarded.find(",\"n\":").unwrap();
    let spellings = [
        format!("{before}{}", link.to_uppercase().replace("LINK", "link")),
        guarded.replace("\"link\":\"", "\"link\": \""),
        guarded.replace("\"at\":{", "\"at\":{\"zone\":0,"),
        guarded.replace("\"segment\":1,\"left\":0,", "\"left\":0,\"segment\":1,"),
        guarded.replace("{\"v\":1", "{ \"v\":1"),
        guarded.replace("\"n\":2", "\"n\":2.0"),
        guarded.replace("\"n\":2", "\"n\":0"),
        guarded.replace("\"pot\":2,", ""),
        guarded.replace("\"what\":\"", "\"what\":\"A"),
        format!(
            "{}{}",
            &guarded[..head],
            &guarded[guarded.find(",\"segment\"").unwrap()..]
        ),
        format!("{before},\"note\":0{link}"),
        format!("{before},\"pot\":2{link}"),
    ];
    for spelling in spellings {
        assert_ne!(spelling, guarded);
        let crc = crc32(spelling.as_bytes());
        let line = format!("{spelling},\"crc\":\"{crc:08x}\"}}");
        assert_eq!(read_line(line.as_bytes()), Err(LineFault::Form), "{line}");
    }
}

#[test]
fn what_could_not_be_read_back_is_refused_before_it_is_kept() {
    let station = Station {
        n: 1,
        segment: 1,
        left: 0,
        act: None,
        link: Link::genesis(&bath()),
    };
    let refuse = |entry: &Entry| write_line(&station, entry).unwrap_err();

    let long = entry(1, 0, "note", json!({"text": "x".repeat(LINE_BYTES_MAX)}));
    assert!(matches!(refuse(&long), LineFault::TooLong { .. }));
    let mut deep = json!({});
    for _ in 0..200 {
        deep = json!({ "in": deep });
    }
    assert!(matches!(refuse(&entry(1, 0, "note", deep)), LineFault::NotALine));
    for what in ["", "Step", "step done", "a\"b", &"x".repeat(65)] {
        let bad = Entry {
            at: moment(1, 0),
            what: what.to_owned(),
            pot: None,
            body: empty_body(),
        };
        assert!(matches!(refuse(&bad), LineFault::Kind { .. }), "{what:?}");
    }
}

#[test]
fn ids_and_segment_names_take_nothing_a_path_could_be_made_of() {
    for bad in [
        "",
        "-x",
        "../x",
        "a/b",
        "A",
        "a.b",
        "a\u{e4}",
        "a b",
        &"x".repeat(65),
    ] {
        assert!(
            BathId::from_text(bad).is_err() && ActId::from_text(bad).is_err(),
            "{bad:?}"
        );
    }
    assert_eq!(segment_number("segment-0042.jsonl"), Some(42));
    for bad in [
        "segment-42.jsonl",
        "segment-00042.jsonl",
        "segment-+042.jsonl",
        "segment-0001.jsonl~",
        "Segment-0001.jsonl",
    ] {
        assert_eq!(segment_number(bad), None, "{bad}");
    }
}

fn any_body() -> impl Strategy<Value = Value> {
    let leaf = prop_oneof![
        Just(Value::Null),
        any::<bool>().prop_map(Value::from),
        any::<i64>().prop_map(Value::from),
        any::<u64>().prop_map(Value::from),
        any::<f64>()
            .prop_filter("finite", |number| number.is_finite())
            .prop_map(Value::from),
        any::<String>().prop_map(Value::from),
    ];
    leaf.prop_recursive(3, 20, 5, |inner| {
        prop_oneof![
            prop::collection::vec(inner.clone(), 0..5).prop_map(Value::from),
            prop::collection::btree_map(any::<String>(), inner, 0..5).prop_map(Value::from_iter),
        ]
    })
}

proptest! {
    #[test]
    fn any_entry_is_one_line_and_comes_back(
        body in prop::collection::btree_map(any::<String>(), any_body(), 0..4),
        (n, segment, left, pot) in (1..u64::MAX, any::<u32>(), any::<u32>(), any::<Option<u32>>()),
        (stretch, steady_ms, wall_ms) in (any::<u32>(), any::<u64>(), any::<i64>()),
        what in "[a-z0-9_]{1,64}",
        act in prop::option::of("[a-z0-9][a-z0-9-]{0,63}"),
    ) {
        let at = potside::craft::time::Moment { stretch: potside::craft::time::Stretch(stretch), steady_ms, wall_ms };
        let entry = Entry { at, what, pot, body: body.into_iter().collect() };
        let act = act.map(|act| ActId::from_text(&act).unwrap());
        let station = Station { n, segment, left, act, link: Link::genesis(&bath()) };

        let record = write_line(&station, &entry).unwrap();

        prop_assert_eq!(&record.entry, &entry);
        prop_assert!(!record.line().contains('\n'));
        prop_assert_eq!(read_line(record.line().as_bytes()).unwrap(), record);
    }

    #[test]
    fn no_bytes_make_recovery_fall_over(bytes in prop::collection::vec(any::<u8>(), 0..2_000)) {
        let got = recover_bytes(&bytes);

        prop_assert!(got.records.is_empty());
        let damaged: usize = got.damage.iter().map(|damage| damage.length).sum();
        prop_assert_eq!(damaged, bytes.len());
    }
}

#[test]
fn recovery_reads_and_does_nothing_else() {
    let bytes = canonical(&bath(), 4);
    let mut place = FaultStore::with_files(&BTreeMap::from([(
        segment_name(1),
        bytes[..bytes.len() - 9].to_vec(),
    )]));
    let files = place.live_files();

    let first = recover(std::slice::from_mut(&mut place), &bath());
    let second = recover(std::slice::from_mut(&mut place), &bath());

    assert_eq!(first, second);
    assert_eq!(place.live_files(), files);
    assert!(!entries_of(&first).is_empty());
}
