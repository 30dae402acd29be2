//! The golden journals, damaged as a whole: cut, flipped, with lines swapped, dropped, doubled or from elsewhere, in one
//! file and in several. What is read back is the state after the acts that are all there, and the rest is told.
//!
//! What is all there is found by comparing bytes with the undamaged lines, without checksums and links. In full for the
//! small journal; of the larger ones every so many bytes and bits, for a debug build has some 30 KB to check for each.

use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;

use potside::journal::id::BathId;
use potside::journal::line::{Entry, Link, Record, Station, read_line, write_line};
use potside::journal::recover::{Recovered, recover};
use potside::journal::segment::take_apart;
use potside::journal::wire::events_of;
use potside::keeper::Keeper;
use potside::machine::Machine;

use super::journal_golden::{Files, GOLDEN, bath, places};
use super::sim::chance::Chance;
use super::sim::clocks::Clocks;
use super::sim::disk::{Device, Disks, Troubles};
use super::sim::flaw::Flaw;
use super::sim::store::SimFolder;
use super::support::fault_store::FaultStore;

/// What a reader makes of a file's bytes before it looks at them: nothing, unless a flaw is planted.
type Reader = fn(&[u8]) -> Vec<u8>;

fn honest(bytes: &[u8]) -> Vec<u8> {
    bytes.to_vec()
}

/// A golden journal, the lines of its course, and the state after each.
struct Course {
    bath: BathId,
    places: [Files; 2],
    records: Vec<Record>,
    states: Vec<Machine>,
}

impl Course {
    fn of(name: &str) -> Self {
        Self::from_files(bath(name), places(name))
    }

    fn from_files(bath: BathId, places: [Files; 2]) -> Self {
        let mut stores = places.each_ref().map(FaultStore::with_files);
        let whole = recover(&mut stores, &bath);
        assert!(whole.is_whole());
        let states = (0..=whole.records.len())
            .map(|count| {
                let mut part = whole.clone();
                part.records.truncate(count);
                replayed(&part).unwrap()
            })
            .collect();
        Self {
            bath,
            places,
            records: whole.records,
            states,
        }
    }

    /// Place and name of each file.
    fn files(&self) -> Vec<(usize, String)> {
        let of = |(place, files): (usize, &Files)| -> Vec<(usize, String)> {
            files.keys().map(|file| (place, file.clone())).collect()
        };
        self.places.iter().enumerate().flat_map(of).collect()
    }

    fn with(&self, place: usize, file: &str, bytes: Vec<u8>) -> [Files; 2] {
        let mut places = self.places.clone();
        places[place].insert(file.to_owned(), bytes);
        places
    }

    /// The newest file alone: its copy of what earlier runs wrote can't be made good by theirs.
    fn alone(self) -> Self {
        let (place, file) = self.newest();
        let mut places = [Files::new(), Files::new()];
        places[place].insert(file.clone(), self.places[place][&file].clone());
        Self { places, ..self }
    }

    fn newest(&self) -> (usize, String) {
        self.files()
            .into_iter()
            .max_by_key(|(_, file)| file.clone())
            .unwrap()
    }

    /// How many records stand if these lines are there.
    fn standing(&self, there: &BTreeSet<&[u8]>) -> usize {
        let is_there = |record: &&Record| there.contains(record.line().as_bytes());
        let count = self.records.iter().take_while(is_there).count();
        let last = self.records[..count].iter().rposition(|record| record.left == 0);
        last.map_or(0, |at| at + 1)
    }

    /// Reads damaged files back and says what is wrong with the outcome.
    fn examine(&self, damaged: &[Files; 2], read: Reader) -> Result<Recovered, String> {
        let mut stores = damaged.each_ref().map(|files| {
            let seen = files.iter().map(|(file, bytes)| (file.clone(), read(bytes)));
            FaultStore::with_files(&seen.collect::<Files>())
        });
        let got = recover(&mut stores, &self.bath);

        let own: BTreeSet<&[u8]> = self
            .records
            .iter()
            .map(|record| record.line().as_bytes())
            .collect();
        let pieces: Vec<Piece<'_>> = pieces(damaged);
        let there: BTreeSet<&[u8]> = pieces
            .iter()
            .map(|piece| piece.line)
            .filter(|line| own.contains(line))
            .collect();
        let wanted = self.standing(&there);
        if got.records.len() != wanted {
            return Err(format!("{} records instead of {wanted}", got.records.len()));
        }
        if got.records != self.records[..wanted] {
            return Err(format!("other records than the first {wanted}"));
        }
        let mut told = BTreeSet::new();
        for piece in pieces.iter().filter(|piece| !own.contains(piece.line)) {
            let is_told = got.damage.iter().any(|damage| {
                (damage.place_index, damage.file.as_str(), damage.at) == (piece.place, piece.file, piece.at)
                    && damage.length >= piece.line.len()
                    && !damage.kind.to_string().is_empty()
            });
            // A whole line from elsewhere that is there twice is told once.
            if told.insert(piece.line) && !is_told {
                return Err(format!("what is at {} of {} isn't told", piece.at, piece.file));
            }
        }
        let later = there
            .iter()
            .any(|line| self.number(line) > wanted && !self.is_unfinished(wanted, line, &there));
        if later != got.doubt().is_some() {
            return Err(format!("later lines there: {later}; told: {:?}", got.doubt()));
        }
        Ok(got)
    }

    fn number(&self, line: &[u8]) -> usize {
        let at = self
            .records
            .iter()
            .position(|record| record.line().as_bytes() == line);
        at.map_or(0, |at| at + 1)
    }

    /// Whether a line follows the standing ones without a gap: its act was being written.
    fn is_unfinished(&self, standing: usize, line: &[u8], there: &BTreeSet<&[u8]>) -> bool {
        let between = &self.records[standing..self.number(line)];
        between
            .iter()
            .all(|record| there.contains(record.line().as_bytes()))
    }
}

/// The machine after what was read back.
fn replayed(recovered: &Recovered) -> Result<Machine, String> {
    let mut machine = Machine::default();
    for event in &events_of(recovered).map_err(|fault| fault.to_string())? {
        machine.apply(event);
    }
    Ok(machine)
}

/// Bytes up to a newline or the end of a file, and where they are.
struct Piece<'a> {
    place: usize,
    file: &'a str,
    at: usize,
    line: &'a [u8],
}

fn pieces(places: &[Files; 2]) -> Vec<Piece<'_>> {
    let mut all = Vec::new();
    for (place, files) in places.iter().enumerate() {
        for (file, bytes) in files {
            let mut at = 0;
            for piece in bytes.split_inclusive(|byte| *byte == b'\n') {
                let line = piece.strip_suffix(b"\n").unwrap_or(piece);
                all.push(Piece {
                    place,
                    file,
                    at,
                    line,
                });
                at += piece.len();
            }
        }
    }
    all
}

fn lines(bytes: &[u8]) -> Vec<Vec<u8>> {
    bytes
        .split_inclusive(|byte| *byte == b'\n')
        .map(<[u8]>::to_vec)
        .collect()
}

/// Every `stride`th byte of every file is where the file ends.
fn examine_cuts(course: &Course, stride: usize, read: Reader) -> Result<usize, String> {
    let mut count = 0;
    for (place, file) in course.files() {
        let bytes = &course.places[place][&file];
        for length in (0..bytes.len()).step_by(stride) {
            let damaged = course.with(place, &file, bytes[..length].to_vec());
            let got = course.examine(&damaged, read);
            let got = got.map_err(|why| format!("{file} cut to {length} bytes: {why}"))?;
            if got.doubt().is_some() {
                return Err(format!("{file} cut to {length} bytes: {:?}", got.doubt()));
            }
            count += 1;
        }
    }
    Ok(count)
}

/// Every `stride`th bit of every file is flipped. Bit after bit a stride without a factor of two meets all eight of a byte.
fn examine_flips(course: &Course, stride: usize, read: Reader) -> Result<usize, String> {
    let mut count = 0;
    for (place, file) in course.files() {
        let bytes = &course.places[place][&file];
        for bit in (0..bytes.len() * 8).step_by(stride) {
            let mut flipped = bytes.clone();
            flipped[bit / 8] ^= 1 << (bit % 8);
            let got = course.examine(&course.with(place, &file, flipped), read);
            got.map_err(|why| format!("{file}, bit {} of byte {}: {why}", bit % 8, bit / 8))?;
            count += 1;
        }
    }
    Ok(count)
}

/// Every `stride`th line is dropped, doubled, and has a line of another bath beside it and in its place, and is swapped with
/// every `stride`th after it.
fn examine_lines(course: &Course, stride: usize, read: Reader) -> Result<usize, String> {
    let mut count = 0;
    let foreign = lines(&places("spare")[1]["segment-0003.jsonl"])[2].clone();
    let (place, file) = course.newest();
    let all = lines(&course.places[place][&file]);
    let mut try_one = |what: String, changed: &[Vec<u8>], must_tell: bool| {
        let got = course.examine(&course.with(place, &file, changed.concat()), read);
        let got = got.map_err(|why| format!("{what}: {why}"))?;
        if must_tell && got.damage.is_empty() {
            return Err(format!("{what}: not told"));
        }
        count += 1;
        Ok(())
    };
    for a in (0..all.len()).step_by(stride) {
        let mut dropped = all.clone();
        dropped.remove(a);
        try_one(format!("{a} dropped"), &dropped, a + 1 < all.len())?;
        let mut doubled = all.clone();
        doubled.insert(a, all[a].clone());
        try_one(format!("{a} doubled"), &doubled, true)?;
        let mut put_in = all.clone();
        put_in.insert(a, foreign.clone());
        try_one(format!("a foreign line at {a}"), &put_in, true)?;
        let mut replaced = all.clone();
        replaced[a].clone_from(&foreign);
        try_one(format!("a foreign line for {a}"), &replaced, true)?;
        for b in (a + 1..all.len()).step_by(stride) {
            let mut swapped = all.clone();
            swapped.swap(a, b);
            try_one(format!("{a} and {b} swapped"), &swapped, true)?;
        }
    }
    Ok(count)
}

/// A reader without a checksum: whatever a line holds, the one at its end fits.
fn without_checksums(bytes: &[u8]) -> Vec<u8> {
    let mended = |line: Vec<u8>| -> Vec<u8> {
        let Some(at) = line.windows(8).rposition(|piece| piece == b",\"crc\":\"") else {
            return line;
        };
        let crc = format!(",\"crc\":\"{:08x}\"}}\n", crc32fast::hash(&line[..at]));
        [&line[..at], crc.as_bytes()].concat()
    };
    lines(bytes).into_iter().flat_map(mended).collect()
}

/// A reader without links and numbers: the lines hang together as they come.
fn without_links(bytes: &[u8]) -> Vec<u8> {
    let mut out = Vec::new();
    let mut before: Option<(u64, Link)> = None;
    for line in lines(bytes) {
        let Ok(record) = read_line(line.strip_suffix(b"\n").unwrap_or(&line)) else {
            out.extend(line);
            continue;
        };
        let (n, link) = before.map_or((record.n, record.link), |(n, link)| (n + 1, link));
        let station = Station {
            n,
            link,
            segment: record.segment,
            left: record.left,
            act: record.act.clone(),
        };
        let record = write_line(&station, &record.entry).unwrap();
        before = Some((n, record.fingerprint()));
        out.extend_from_slice(record.line().as_bytes());
        out.push(b'\n');
    }
    out
}

#[test]
fn every_byte_at_which_a_journal_may_end_gives_the_acts_before_it() {
    let brief = Course::of("brief");
    examine_cuts(&brief, 7, honest).unwrap();
    assert!(examine_cuts(&brief.alone(), 1, honest).unwrap() > 4_000);
    for name in GOLDEN {
        examine_cuts(&Course::of(name).alone(), 97, honest).unwrap();
        examine_cuts(&Course::of(name), 211, honest).unwrap();
    }
}

#[test]
fn every_flipped_bit_of_a_journal_is_told_and_leaves_the_acts_that_are_whole() {
    assert!(examine_flips(&Course::of("brief").alone(), 1, honest).unwrap() > 32_000);
}

#[test]
fn flipped_bits_of_longer_journals_are_told_and_made_good_where_another_file_has_the_line() {
    for name in GOLDEN {
        examine_flips(&Course::of(name).alone(), 1_001, honest).unwrap();
        examine_flips(&Course::of(name), 2_003, honest).unwrap();
    }
}

#[test]
fn swapped_dropped_doubled_and_foreign_lines_are_told_and_never_taken_for_the_course_of_a_bath() {
    examine_lines(&Course::of("brief").alone(), 1, honest).unwrap();
    for name in ["finished", "outage"] {
        examine_lines(&Course::of(name).alone(), 5, honest).unwrap();
    }
}

#[test]
fn planted_a_reader_without_checksums_is_caught() {
    let brief = Course::of("brief").alone();
    let told = examine_flips(&brief, 1, without_checksums).unwrap_err();
    assert!(told.contains("bit"), "{told}");
}

#[test]
fn planted_a_reader_without_links_is_caught() {
    let brief = Course::of("brief").alone();
    let told = examine_lines(&brief, 1, without_links).unwrap_err();
    assert!(told.contains("doubled"), "{told}");
}

#[test]
fn two_files_damaged_at_once_give_the_acts_of_which_one_copy_is_whole() {
    let course = Course::of("outage");
    let files = course.files();
    let in_all = course.places[0]["segment-0001.jsonl"].len() - 2_000;
    for (a, (_, one)) in files.iter().enumerate() {
        for (_, other) in &files[a + 1..] {
            for at in (0..in_all).step_by(1_511) {
                // Near the same place in both, for most lines are in both at the same place.
                for beside in [0, 40, 900] {
                    let mut places = course.places.clone();
                    for (file, at) in [(one, at), (other, at + beside)] {
                        places[0].get_mut(file).unwrap()[at] ^= 0x04;
                    }
                    let got = course.examine(&places, honest).unwrap();
                    assert_eq!(
                        got.records.len(),
                        course.records.len(),
                        "the third copy makes it good"
                    );
                }
            }
        }
    }

    let mut newest_two = Course::of("outage");
    newest_two.places[0].remove("segment-0001.jsonl");
    let gap = (0..newest_two.places[0]["segment-0002.jsonl"].len())
        .step_by(379)
        .filter(|at| {
            let mut places = newest_two.places.clone();
            for bytes in places[0].values_mut() {
                bytes[*at] ^= 0x04;
            }
            newest_two.examine(&places, honest).unwrap().doubt().is_some()
        });
    assert!(
        gap.count() > 30,
        "the same line damaged in every copy is a gap, and told"
    );
}

#[test]
fn files_lost_renamed_doubled_or_from_another_bath_are_no_other_course() {
    let course = Course::of("outage");
    let [one, two, three] = [1, 2, 3].map(|number| format!("segment-000{number}.jsonl"));
    let of = |pairs: &[(&str, &str)]| {
        let home = pairs
            .iter()
            .map(|(name, of)| ((*name).to_owned(), course.places[0][*of].clone()));
        [home.collect::<Files>(), Files::new()]
    };
    let whole = course.records.len();
    for (places, count) in [
        (of(&[(&one, &three), (&two, &one), (&three, &two)]), whole),
        (of(&[(&one, &one), (&three, &three)]), whole),
        (of(&[(&three, &three)]), whole),
        (of(&[(&one, &three), (&two, &three)]), whole),
        (of(&[]), 0),
    ] {
        let got = course.examine(&places, honest).unwrap();
        assert_eq!((got.records.len(), got.damage.len()), (count, 0));
    }
    // The newest is gone: what the run before it knew is all there is, and it is a state that was.
    let got = course
        .examine(&of(&[(&one, &one), (&two, &two)]), honest)
        .unwrap();
    assert!(got.records.len() > 60 && got.records.len() < whole);

    let mut twice = course.places.clone();
    let bytes = twice[0].get_mut(&three).unwrap();
    let copy = bytes.clone();
    bytes.extend(copy);
    assert!(!course.examine(&twice, honest).unwrap().damage.is_empty());

    let mut mixed = course.places.clone();
    mixed[0].insert(
        "segment-0004.jsonl".to_owned(),
        places("finished")[0][&one].clone(),
    );
    assert!(!course.examine(&mixed, honest).unwrap().damage.is_empty());
}

/// A journal that begins as another does, and goes on otherwise from record `from`.
fn sibling(course: &Course, from: usize) -> Course {
    let mut bytes = Vec::new();
    let mut link = Link::genesis(&course.bath);
    for (at, record) in course.records.iter().enumerate() {
        let mut at_otherwise = record.entry.at;
        if at >= from {
            at_otherwise.wall_ms += 1;
        }
        let entry = Entry {
            at: at_otherwise,
            ..record.entry.clone()
        };
        let station = Station {
            n: record.n,
            segment: record.segment,
            left: record.left,
            act: record.act.clone(),
            link,
        };
        let record = write_line(&station, &entry).unwrap();
        link = record.fingerprint();
        bytes.extend_from_slice(record.line().as_bytes());
        bytes.push(b'\n');
    }
    let (_, file) = course.newest();
    Course::from_files(course.bath.clone(), [Files::from([(file, bytes)]), Files::new()])
}

#[test]
fn lines_of_two_courses_that_began_alike_are_never_mixed() {
    let course = Course::of("brief").alone();
    let from = course.records.len() / 2;
    let other = sibling(&course, from);
    let (place, file) = course.newest();
    let of = |course: &Course| {
        lines(
            &course
                .places
                .iter()
                .flat_map(BTreeMap::values)
                .flatten()
                .copied()
                .collect::<Vec<u8>>(),
        )
    };
    let (ours, theirs) = (of(&course), of(&other));
    // Every way to take each of the last lines from one or the other.
    let count = ours.len() - from;
    for choice in 0..1_u32 << count {
        let mixed = (0..ours.len()).map(|at| {
            let is_theirs = at >= from && choice & (1 << (at - from)) != 0;
            if is_theirs {
                theirs[at].clone()
            } else {
                ours[at].clone()
            }
        });
        let bytes = mixed.collect::<Vec<_>>().concat();
        let mut stores = course
            .with(place, &file, bytes)
            .map(|files| FaultStore::with_files(&files));
        let got = recover(&mut stores, &course.bath);
        let is_of = |course: &Course| got.records == course.records[..got.records.len()];
        assert!(is_of(&course) || is_of(&other), "choice {choice:b}");
        let is_pure = choice == 0 || choice == (1 << count) - 1;
        assert_eq!(got.damage.is_empty(), is_pure, "choice {choice:b}");
        assert_eq!(got.records.len() == ours.len(), is_pure, "choice {choice:b}");
    }
}

/// The keeper over these files.
fn opened(course: &Course, places: &[Files; 2]) -> Keeper<SimFolder> {
    let mut disks = Disks::new(Chance::new(7), Clocks::new());
    disks.begin_run(Troubles::default());
    for (device, files) in [Device::Home, Device::Spare].into_iter().zip(places) {
        for (file, bytes) in files {
            let id = disks.create(device, course.bath.as_str(), file);
            disks.write(device, id, bytes);
        }
    }
    disks.begin_run(Troubles::default());
    let folder = SimFolder {
        disks: Rc::new(RefCell::new(disks)),
        flaw: Flaw::None,
        has_spare: true,
        begun: BTreeSet::new(),
    };
    Keeper::open(folder, None).unwrap().0
}

#[test]
fn what_is_damaged_is_told_to_the_dyer_and_the_keeper_stands_where_the_whole_acts_end() {
    let course = Course::of("brief").alone();
    let (place, file) = course.newest();
    let bytes = &course.places[place][&file];
    for at in (0..bytes.len()).step_by(13) {
        let mut flipped = bytes.clone();
        flipped[at] ^= 0x01;
        let is_cut_in_a_line = at > 0 && bytes[at - 1] != b'\n' && bytes[at] != b'\n';
        for (damaged, is_told) in [(flipped, true), (bytes[..at].to_vec(), is_cut_in_a_line)] {
            let damaged = course.with(place, &file, damaged);
            let got = course.examine(&damaged, honest).unwrap();
            let mut keeper = opened(&course, &damaged);

            assert_eq!(*keeper.machine(), course.states[got.records.len()], "at {at}");
            let troubles = keeper.take_troubles();
            let names_it = |line: &&String| line.contains(&file) && line.contains(course.bath.as_str());
            assert_eq!(
                troubles.iter().any(|line| names_it(&line)),
                is_told,
                "at {at}: {troubles:?}"
            );
            let is_doubted = troubles.iter().any(|line| line.contains("check what was done"));
            assert_eq!(is_doubted, got.doubt().is_some(), "at {at}: {troubles:?}");
        }
    }
}

#[test]
fn the_courses_are_told_apart_by_their_states() {
    for name in GOLDEN {
        let course = Course::of(name);
        let parts = course
            .files()
            .iter()
            .map(|(place, file)| take_apart(&course.places[*place][file]).whole.len())
            .max();
        assert_eq!(
            parts,
            Some(course.records.len()),
            "{name}: the newest file holds all of it"
        );
        // Only the journal's own records leave the state as it was.
        let pairs = course.states.windows(2).zip(&course.records);
        let same = pairs
            .filter(|(pair, _)| pair[0] == pair[1])
            .map(|(_, record)| record.entry.what.as_str());
        assert!(
            same.clone().all(|what| what == "segment"),
            "{name}: {:?}",
            same.collect::<Vec<_>>()
        );
    }
}
