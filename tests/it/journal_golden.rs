//! Journals of each released format, kept for ever in `tests/journals/`: they replay to the same state and seal to the
//! same page, and no line of theirs passes when a bit of it is flipped. `journal_damage.rs` damages them as a whole.
//!
//! A new one is written by `UPDATE_JOURNALS=1`, never over one that is there.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::rc::Rc;

use potside::craft::quantity::{Mass, Temperature};
use potside::craft::time::{Moment, Span, Stretch};
use potside::journal::id::{ActId, BathId};
use potside::journal::line::read_line;
use potside::journal::record::BathRecord;
use potside::journal::recover::{Recovered, recover};
use potside::journal::seal::{read_page, write_page};
use potside::journal::segment::{BrokenKind, take_apart};
use potside::journal::wire::events_of;
use potside::keeper::{Keeper, Look, Told};
use potside::machine::away::WallClock;
use potside::machine::{Ask, Input, Machine, PotNo, ReturnAnswer, SkipReason};
use potside::sheet::plan::StepIndex;

use super::sim::chance::Chance;
use super::sim::clocks::Clocks;
use super::sim::disk::{Device, Disks, Fault, Spell, Troubles};
use super::sim::flaw::Flaw;
use super::sim::store::{Shared, SimFolder};
use super::support::fault_store::FaultStore;
use super::support::plans::alum_bath;

pub(super) const GOLDEN: [&str; 4] = ["brief", "finished", "outage", "spare"];

pub(super) type Files = BTreeMap<String, Vec<u8>>;

fn folder(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("tests/journals/v1")
        .join(name)
}

/// The segments of a golden journal, by place: home, then spare.
pub(super) fn places(name: &str) -> [Files; 2] {
    ["home", "spare"].map(|place| {
        let mut files = Files::new();
        for item in std::fs::read_dir(folder(name).join(place)).into_iter().flatten() {
            let path = item.unwrap().path();
            let name = path.file_name().unwrap().to_str().unwrap().to_owned();
            files.insert(name, std::fs::read(path).unwrap());
        }
        files
    })
}

pub(super) fn bath(name: &str) -> BathId {
    BathId::from_text(&format!("20260825-093107-{name}-p2")).unwrap()
}

fn read(name: &str, places: &[Files; 2]) -> Recovered {
    let mut stores = places.each_ref().map(FaultStore::with_files);
    recover(&mut stores, &bath(name))
}

/// What a journal comes to, in a form that a later program must still reach.
fn state(name: &str, recovered: &Recovered) -> String {
    let events = events_of(recovered).unwrap();
    let mut machine = Machine::default();
    for event in &events {
        machine.apply(event);
    }
    let run = machine.pot(PotNo(2)).unwrap();
    let record = serde_json::to_value(BathRecord::of(run)).unwrap();
    let page = read_page("page", &write_page(&bath(name), &record)).unwrap();
    let mut text = String::new();
    writeln!(text, "records {}", recovered.records.len()).unwrap();
    writeln!(text, "facts {}", events.len()).unwrap();
    writeln!(text, "step {} of {}", run.stand.step.0 + 1, run.plan.steps.len()).unwrap();
    writeln!(text, "ended {:?}", run.stand.ended).unwrap();
    let held = run.stand.hold.map(|hold| hold.held.at(run.last_at).ms());
    writeln!(text, "held {held:?} ms").unwrap();
    writeln!(
        text,
        "outage {:?}",
        run.outage.map(|outage| (outage.at_least, outage.at_most))
    )
    .unwrap();
    writeln!(
        text,
        "calls {:?}",
        run.stand.calls.iter().map(|call| call.kind).collect::<Vec<_>>()
    )
    .unwrap();
    writeln!(text, "damage {}", recovered.damage.len()).unwrap();
    writeln!(text, "sealed page sha256 {}", page.digest).unwrap();
    text
}

#[test]
fn golden_journals_replay_to_the_same_state_and_the_same_page() {
    for name in GOLDEN {
        if std::env::var("UPDATE_JOURNALS").is_ok() && !folder(name).exists() {
            make(name);
        }
        let wanted = std::fs::read_to_string(folder(name).join("state.txt")).unwrap();
        assert_eq!(state(name, &read(name, &places(name))), wanted, "{name}");
    }
}

/// Lines of every kind there is in the golden journals, without their newlines: of each kind the first two of each
/// journal, since one beat is like another.
fn lines() -> Vec<Vec<u8>> {
    let mut lines = Vec::new();
    for name in GOLDEN {
        let mut seen: BTreeMap<String, usize> = BTreeMap::new();
        let (_, bytes) = newest(name);
        for placed in take_apart(&bytes).whole {
            let count = seen.entry(placed.record.entry.what.clone()).or_default();
            *count += 1;
            if *count <= 2 {
                lines.push(placed.record.line().as_bytes().to_vec());
            }
        }
    }
    assert!(lines.len() > 40, "{}", lines.len());
    lines
}

/// Every bit of every line, flipped once; returns how many were flipped and how many passed for whole lines.
fn flip_all(is_whole: impl Fn(&[u8]) -> bool) -> (usize, usize) {
    let (mut flips, mut passed) = (0, 0);
    for mut line in lines() {
        for bit in 0..line.len() * 8 {
            line[bit / 8] ^= 1 << (bit % 8);
            flips += 1;
            passed += usize::from(is_whole(&line));
            line[bit / 8] ^= 1 << (bit % 8);
        }
    }
    (flips, passed)
}

#[test]
fn no_single_flipped_bit_passes() {
    let (flips, passed) = flip_all(|line| !take_apart(line).whole.is_empty());

    assert_eq!(passed, 0, "of {flips}");
    assert!(flips > 100_000, "{flips}");
}

/// A reader without a checksum: whatever is there gets a fitting one.
#[test]
fn planted_reading_without_a_checksum_is_caught_by_flipped_bits() {
    let (flips, passed) = flip_all(|line| {
        let Some(at) = line.windows(8).rposition(|piece| piece == b",\"crc\":\"") else {
            return false;
        };
        let fitting = format!(",\"crc\":\"{:08x}\"}}", crc32fast::hash(&line[..at]));
        read_line(&[&line[..at], fitting.as_bytes()].concat()).is_ok()
    });

    assert!(passed > flips / 10, "{passed} of {flips}");
}

#[test]
fn every_prefix_of_a_line_is_a_torn_tail_and_no_record() {
    for line in lines() {
        for length in 1..line.len() {
            let parts = take_apart(&line[..length]);
            assert!(parts.whole.is_empty(), "{length} of {}", line.len());
            assert_eq!(parts.broken.len(), 1);
            assert_eq!(parts.broken[0].kind, BrokenKind::TornTail);
        }
    }
}

/// A journal of one file: the newest segment alone.
fn newest(name: &str) -> (String, Vec<u8>) {
    let files = places(name).into_iter().flatten();
    files
        .max_by_key(|(file, bytes)| (file.clone(), bytes.len()))
        .unwrap()
}

/// A kitchen for writing a golden journal: the keeper over disks that do as they are told.
struct Kitchen {
    disks: Shared,
    name: String,
    now: Moment,
    keeper: Option<Keeper<SimFolder>>,
    acts: u32,
}

impl Kitchen {
    fn new(name: &str) -> Self {
        let disks = Disks::new(Chance::new(7), Clocks::new());
        let mut kitchen = Self {
            disks: Rc::new(RefCell::new(disks)),
            name: name.to_owned(),
            now: Moment {
                stretch: Stretch(0),
                steady_ms: 61_250,
                wall_ms: 1_787_650_267_412,
            },
            keeper: None,
            acts: 0,
        };
        kitchen.start(Troubles::default());
        kitchen
    }

    fn start(&mut self, troubles: Troubles) {
        self.keeper = None;
        self.disks.borrow_mut().begin_run(troubles);
        let folder = SimFolder {
            disks: Rc::clone(&self.disks),
            flaw: Flaw::None,
            has_spare: true,
            begun: std::collections::BTreeSet::new(),
        };
        let (keeper, stretch) = Keeper::open(folder, Some("4f3a")).unwrap();
        self.now.stretch = stretch;
        self.keeper = Some(keeper);
        let look = Look {
            now: self.now,
            slept: Span::NONE,
            wall: WallClock::NotKnown,
        };
        if let Some(back) = self.keeper.as_ref().and_then(|keeper| keeper.came_back(look)) {
            self.take(&back);
        }
    }

    fn take(&mut self, input: &Input) {
        self.acts += 1;
        let act = matches!(input, Input::Pot(..) | Input::Begin { .. })
            .then(|| ActId::from_text(&format!("t{}-{}", self.now.stretch.0, self.acts)).unwrap());
        let told = self.keeper.as_mut().unwrap().take(act.as_ref(), input, self.now);
        assert!(matches!(told, Told::Taken(_)), "{input:?}: {told:?}");
    }

    fn begin(&mut self) {
        let bath_id = bath(&self.name).to_string();
        self.take(&Input::Begin {
            pot: PotNo(2),
            bath_id,
            plan: alum_bath(),
            cautions_read: true,
        });
    }

    fn ask(&mut self, ask: Ask) {
        self.take(&Input::Pot(PotNo(2), ask));
    }

    fn confirm(&mut self, step: usize) {
        self.ask(Ask::Confirm {
            step: StepIndex(step),
            sure: true,
        });
    }

    fn pass(&mut self, minutes: u64) {
        for _ in 0..minutes {
            self.now = self.now.plus(Span::from_minutes(1));
            self.take(&Input::Beat);
            self.take(&Input::Tick);
        }
    }

    /// Soaked, weighed, filled, dissolved, added, entered, and hot.
    fn up_to_the_hold(&mut self) {
        self.confirm(0);
        self.pass(2);
        self.ask(Ask::Weighed {
            step: StepIndex(1),
            mass: Mass::from_grams(15.2).unwrap(),
            sure: false,
        });
        self.confirm(2);
        self.ask(Ask::Skip {
            step: StepIndex(3),
            reason: SkipReason::DoneAlready,
        });
        self.ask(Ask::TakeBack);
        self.confirm(3);
        self.confirm(4);
        self.pass(3);
        self.confirm(5);
        self.pass(31);
        self.ask(Ask::Heard);
        self.ask(Ask::Reading(Temperature::from_celsius(85.5).unwrap()));
    }

    fn keep(&self) {
        for (is_spare, place) in [(false, "home"), (true, "spare")] {
            let disks = self.disks.borrow();
            let key = (is_spare, bath(&self.name).to_string());
            for (file, id) in disks.dirs.get(&key).into_iter().flat_map(|dir| &dir.live) {
                let path = folder(&self.name).join(place);
                std::fs::create_dir_all(&path).unwrap();
                std::fs::write(path.join(file), disks.bytes_of(*id)).unwrap();
            }
        }
        let text = state(&self.name, &read(&self.name, &places(&self.name)));
        std::fs::write(folder(&self.name).join("state.txt"), text).unwrap();
    }
}

fn make(name: &str) {
    let mut kitchen = Kitchen::new(name);
    kitchen.begin();
    if name != "brief" {
        kitchen.up_to_the_hold();
    }
    match name {
        // A few records of two runs, so that every bit of them can be tried.
        "brief" => {
            kitchen.confirm(0);
            kitchen.ask(Ask::Weighed {
                step: StepIndex(1),
                mass: Mass::from_grams(15.2).unwrap(),
                sure: false,
            });
            kitchen.pass(1);
            kitchen.confirm(2);
            kitchen.now = kitchen.now.plus(Span::from_minutes(4));
            kitchen.start(Troubles::default());
            kitchen.ask(Ask::AnswerReturn(ReturnAnswer::CarryOn));
            kitchen.confirm(3);
        }
        "finished" => {
            kitchen.pass(15);
            kitchen.confirm(7);
            kitchen.pass(16);
            kitchen.ask(Ask::Reading(Temperature::from_celsius(78.0).unwrap()));
            kitchen.pass(4);
            kitchen.ask(Ask::Reading(Temperature::from_celsius(95.0).unwrap()));
            kitchen.pass(31);
            kitchen.confirm(7);
            kitchen.pass(1);
            kitchen.confirm(8);
            kitchen.confirm(9);
            kitchen.confirm(10);
        }
        "outage" => {
            kitchen.pass(10);
            kitchen.now = kitchen.now.plus(Span::from_minutes(9));
            kitchen.start(Troubles::default());
            kitchen.ask(Ask::AnswerReturn(ReturnAnswer::CountIt));
            kitchen.pass(3);
            kitchen.now.steady_ms = 31_000;
            kitchen.now.wall_ms += 600_000;
            kitchen.start(Troubles::default());
            kitchen.pass(1);
        }
        "spare" => {
            let from = kitchen.disks.borrow().calls + 4;
            kitchen.disks.borrow_mut().troubles.spells.push(Spell {
                device: Device::Home,
                from,
                to: 1_000_000,
                fault: Fault::Error,
            });
            kitchen.pass(5);
            kitchen.confirm(7);
        }
        other => panic!("no script for {other}"),
    }
    kitchen.keep();
}
