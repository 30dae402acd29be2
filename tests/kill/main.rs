//! The real keeper on the real disk in a process of its own, killed and hindered at every system call.
//!
//! This binary is both: with `drive FOLDER` it is the program under test, without it the test. What it shows is that
//! nothing acknowledged was left unwritten; it reads back through the page cache, so it shows nothing about media:
//! that is what the simulation is for (decision 0007).

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
    reason = "a test should fall where it stumbles"
)]

#[path = "../sim/chance.rs"]
mod chance;
mod drive;
#[path = "../it/support/plans.rs"]
mod plans;

use std::collections::BTreeSet;
use std::io::Write as _;
use std::path::{Path, PathBuf};
use std::process::{Command, ExitCode, Stdio};
use std::time::{Duration, Instant};

use chance::Chance;
use potside::journal::id::BathId;
use potside::journal::recover::recover;
use potside::keeper::Folder;
use potside::shell::disk::data_folder::DataFolder;

/// The calls by which the keeper touches the disk, as strace names them.
const CALLS: [&str; 16] = [
    "write",
    "fdatasync",
    "fsync",
    "openat",
    "link",
    "linkat",
    "unlink",
    "rename",
    "mkdir",
    "chmod",
    "close",
    "read",
    "statx",
    "getdents64",
    "flock",
    "fadvise64",
];

fn main() -> ExitCode {
    let words: Vec<String> = std::env::args().skip(1).collect();
    if words.first().is_some_and(|word| word == "drive") {
        let spare = words.get(2).map(PathBuf::from);
        return drive::run(Path::new(&words[1]), spare);
    }
    // `cargo test NAME` hands a name over; a listing asks for none.
    if words.iter().any(|word| word == "--list") {
        return ExitCode::SUCCESS;
    }
    let wanted = words.iter().find(|word| !word.starts_with('-'));
    let tests: [(&str, fn()); 6] = [
        (
            "killed_at_every_call_and_again_at_the_restart",
            killed_at_every_call,
        ),
        ("every_call_refused_once_and_from_then_on", every_call_refused),
        ("killed_at_any_moment_again_and_again", killed_at_any_moment),
        ("a_full_disk_gives_up_its_ballast", a_full_disk),
        ("a_disk_made_read_only_under_a_bath", a_read_only_disk),
        ("a_second_potside_is_told_so", a_second_potside),
    ];
    for (name, test) in tests {
        if wanted.is_none_or(|wanted| name.contains(wanted.as_str())) {
            let start = Instant::now();
            test();
            println!("kill: {name} ... ok ({} ms)", start.elapsed().as_millis());
        }
    }
    ExitCode::SUCCESS
}

/// What one run of the program said.
#[derive(Debug, Default)]
struct Said {
    saved: Vec<String>,
    memory: Vec<String>,
    is_killed: bool,
    closed: Option<String>,
}

/// A data folder with a spare place, and what was acknowledged in it so far.
struct Kitchen {
    root: tempfile::TempDir,
    saved: BTreeSet<String>,
    acts: usize,
    has_spare: bool,
}

impl Kitchen {
    fn new(has_spare: bool) -> Self {
        let root = tempfile::tempdir().unwrap();
        std::fs::create_dir(root.path().join("spare")).unwrap();
        Self {
            root,
            saved: BTreeSet::new(),
            acts: 0,
            has_spare,
        }
    }

    fn data(&self) -> PathBuf {
        self.root.path().join("data")
    }

    fn spare(&self) -> Option<PathBuf> {
        self.has_spare.then(|| self.root.path().join("spare"))
    }

    fn next_act(&mut self) -> String {
        self.acts += 1;
        format!("a{}", self.acts)
    }

    fn command(&self, before: &[String]) -> Command {
        let me = std::env::current_exe().unwrap();
        let mut command = match before.split_first() {
            Some((first, rest)) => {
                let mut command = Command::new(first);
                command.args(rest).arg(me);
                command
            }
            None => Command::new(me),
        };
        command.arg("drive").arg(self.data()).args(self.spare());
        command
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::null());
        command
    }

    /// One run of `count` acts under `before`, to its end however it comes; a kill after `patience`.
    fn run(&mut self, before: &[String], count: usize, patience: Option<Duration>) -> Said {
        let mut child = self.command(before).spawn().unwrap();
        let acts: Vec<String> = (0..count).map(|_| self.next_act()).collect();
        let mut stdin = child.stdin.take().unwrap();
        // A program that is gone reads no more lines.
        drop(stdin.write_all((acts.join("\n") + "\n").as_bytes()));
        drop(stdin);
        if let Some(patience) = patience {
            std::thread::sleep(patience);
            drop(child.kill());
        }
        let out = child.wait_with_output().unwrap();
        let mut said = Said {
            is_killed: !out.status.success(),
            ..Said::default()
        };
        for line in String::from_utf8_lossy(&out.stdout).lines() {
            match line.split_once(' ') {
                Some(("saved", act)) => said.saved.push(act.to_owned()),
                Some(("memory", act)) => said.memory.push(act.to_owned()),
                Some(("closed", why)) => said.closed = Some(why.to_owned()),
                _ => {}
            }
        }
        self.saved.extend(said.saved.iter().cloned());
        said
    }

    /// Every act that was called saved is in what can be read back, and what can be read back is in no doubt.
    fn check(&self, after: &str) {
        let mut kept = BTreeSet::new();
        if self.data().exists() {
            let mut folder = opened(&self.data()).with_spare(self.spare());
            for bath in Folder::baths(&mut folder).unwrap().baths {
                let bath: BathId = bath;
                let got = recover(&mut folder.places(&bath), &bath);
                assert_eq!(got.doubt(), None, "{after}: {bath}");
                let acts = got.records.iter().filter_map(|record| record.act.as_ref());
                kept.extend(acts.map(ToString::to_string));
            }
        }
        let lost: Vec<&String> = self.saved.difference(&kept).collect();
        assert!(lost.is_empty(), "{after}: lost {lost:?} of {}", self.saved.len());
    }
}

/// How many points are passed over for one that is tried: none in the gate, which has the minutes for it.
fn stride() -> usize {
    if std::env::var("POTSIDE_KILL_ALL").is_ok() {
        1
    } else {
        7
    }
}

fn words(text: &str) -> Vec<String> {
    text.split(' ').map(str::to_owned).collect()
}

fn inject(call: &str, how: &str) -> Vec<String> {
    words(&format!(
        "strace -qq -o /dev/null -e trace={call} -e inject={call}:{how}"
    ))
}

/// Whether system calls can be tampered with here: strace from the system's packages, and leave to trace.
fn can_inject() -> bool {
    let probe = [
        "-qq",
        "-o",
        "/dev/null",
        "-e",
        "inject=fsync:error=EIO:when=1",
        "true",
    ];
    let told = Command::new("strace").args(probe).stderr(Stdio::null()).status();
    let can = told.is_ok_and(|status| status.success());
    if !can {
        println!("kill: NOT ASKED: strace isn't here, or may not trace");
    }
    can
}

fn killed_at_every_call() {
    if !can_inject() {
        return;
    }
    let (mut kills, mut acks) = (0, 0);
    let mut chance = Chance::new(5);
    for call in CALLS {
        for when in (1..400).step_by(stride()) {
            let mut kitchen = Kitchen::new(when % 2 == 0);
            let said = kitchen.run(&inject(call, &format!("signal=KILL:when={when}")), 6, None);
            kitchen.check(&format!("killed at {call} {when}"));
            if !said.is_killed {
                break;
            }
            kills += 1;
            let (again, then) = (*chance.pick(&CALLS), chance.within(1, 40));
            let second = kitchen.run(&inject(again, &format!("signal=KILL:when={then}")), 3, None);
            kills += usize::from(second.is_killed);
            kitchen.check(&format!("killed at {call} {when}, then at {again} {then}"));
            let third = kitchen.run(&[], 3, None);
            assert!(!third.is_killed && third.memory.is_empty(), "{third:?}");
            kitchen.check(&format!("killed at {call} {when} and {again} {then}, then not"));
            acks += kitchen.saved.len();
        }
    }
    println!("kill: {kills} kills at a call, {acks} acts acknowledged, 0 lost");
    assert!(kills > 150 / stride(), "{kills}");
}

fn every_call_refused() {
    if !can_inject() {
        return;
    }
    let (mut points, mut acks, mut memory) = (0, 0, 0);
    for call in CALLS {
        let errors: &[&str] = match call {
            "write" | "fdatasync" | "fsync" | "openat" => &["EIO", "ENOSPC", "EROFS"],
            _ => &["EIO"],
        };
        for error in errors {
            for from_then_on in ["", "+"] {
                let mut quiet = 0;
                // Past the last call nothing is met any more; three in a row show it.
                for when in (1..200).step_by(stride()) {
                    let mut kitchen = Kitchen::new(when % 2 == 0);
                    let how = format!("error={error}:when={when}{from_then_on}");
                    let said = kitchen.run(&inject(call, &how), 4, None);
                    points += 1;
                    memory += said.memory.len();
                    kitchen.check(&format!("{call} refused: {how}"));
                    acks += kitchen.saved.len();
                    let is_undisturbed = said.saved.len() == 4;
                    quiet = if is_undisturbed { quiet + 1 } else { 0 };
                    if when > 40 && quiet >= 3 {
                        break;
                    }
                }
            }
        }
    }
    println!("kill: {points} refusals, {acks} acts acknowledged, {memory} told as not saved, 0 lost");
    assert!(points > 1_500 / stride() && memory > 0, "{points} {memory}");
}

fn killed_at_any_moment() {
    let mut chance = Chance::new(11);
    let mut kitchen = Kitchen::new(true);
    let (mut kills, mut acks) = (0, 0);
    let rounds = if stride() == 1 { 400 } else { 60 };
    for round in 0..rounds {
        let patience = Duration::from_micros(chance.within(0, 160_000));
        let said = kitchen.run(&[], 60, Some(patience));
        kills += usize::from(said.is_killed);
        kitchen.check(&format!("round {round}"));
        if round % 30 == 29 {
            // A fresh kitchen now and then, so that rounds don't grow long.
            acks += kitchen.saved.len();
            kitchen = Kitchen::new(round % 60 == 29);
        }
    }
    println!("kill: {kills} kills at any moment, {acks} acts acknowledged, 0 lost");
    assert!(kills > rounds / 2 && acks > rounds / 4, "{kills} {acks}");
}

/// A small file system, taken down again when it goes out of scope.
struct Small(PathBuf);

impl Small {
    /// Mounts it over a kitchen's folder, or says why not.
    fn mount(at: &Path, kind: &str, bytes: u64, image: &Path) -> Option<Self> {
        std::fs::create_dir_all(at).unwrap();
        let quiet = |program: &str, words: &[&str]| {
            let mut command = Command::new(program);
            command.args(words).stdout(Stdio::null()).stderr(Stdio::null());
            command.status().is_ok_and(|status| status.success())
        };
        let (at_text, image_text) = (at.to_str().unwrap(), image.to_str().unwrap());
        let is_mounted = if kind == "tmpfs" {
            quiet(
                "mount",
                &[
                    "-t",
                    "tmpfs",
                    "-o",
                    &format!("size={bytes}"),
                    "potside-test",
                    at_text,
                ],
            )
        } else {
            std::fs::File::create(image).unwrap().set_len(bytes).unwrap();
            quiet("mkfs.ext4", &["-q", "-F", image_text])
                && quiet("mount", &["-o", "loop", image_text, at_text])
        };
        if !is_mounted {
            println!("kill: NOT ASKED: a {kind} can't be mounted here");
        }
        is_mounted.then(|| Self(at.to_owned()))
    }

    fn remount_read_only(&self) -> bool {
        let mut command = Command::new("mount");
        command
            .args(["-o", "remount,ro"])
            .arg(&self.0)
            .stderr(Stdio::null());
        command.status().is_ok_and(|status| status.success())
    }

    /// Fills it to the last byte.
    fn fill(&self) {
        let mut file = std::fs::File::create(self.0.join("filler")).unwrap();
        for size in [65_536, 4_096, 512, 1] {
            while file.write_all(&vec![7; size]).is_ok() {}
        }
    }
}

impl Drop for Small {
    fn drop(&mut self) {
        drop(Command::new("umount").arg(&self.0).status());
    }
}

fn a_full_disk() {
    for (kind, bytes) in [("tmpfs", 12 << 20), ("ext4", 16 << 20)] {
        let mut kitchen = Kitchen::new(false);
        let image = kitchen.root.path().join("image");
        let Some(small) = Small::mount(&kitchen.data(), kind, bytes, &image) else {
            continue;
        };
        let before = kitchen.run(&[], 3, None);
        assert_eq!(before.saved.len(), 3, "{before:?}");
        small.fill();
        let full = kitchen.run(&[], 60, None);
        assert!(full.memory.is_empty(), "{kind}: {:?}", full.memory);
        assert_eq!(full.saved.len(), 60, "{kind}");
        kitchen.check(kind);
        assert!(!kitchen.data().join("ballast").exists());
        println!("kill: {kind}: 60 acts saved on a full disk, out of the ballast");
    }
}

fn a_read_only_disk() {
    for has_spare in [true, false] {
        let mut kitchen = Kitchen::new(has_spare);
        let image = kitchen.root.path().join("image");
        let Some(small) = Small::mount(&kitchen.data(), "ext4", 16 << 20, &image) else {
            return;
        };
        let before = kitchen.run(&[], 3, None);
        assert_eq!(before.saved.len(), 3, "{before:?}");
        assert!(small.remount_read_only());
        let after = kitchen.run(&[], 5, None);
        assert_eq!(after.closed, None);
        if has_spare {
            assert_eq!(after.saved.len(), 5, "{after:?}");
        } else {
            assert_eq!((after.saved.len(), after.memory.len()), (0, 5), "{after:?}");
        }
        kitchen.check("read-only");
    }
}

fn a_second_potside() {
    let mut kitchen = Kitchen::new(false);
    kitchen.run(&[], 1, None);
    let held = opened(&kitchen.data());

    let second = kitchen.run(&[], 1, None);

    let why = second.closed.unwrap();
    assert!(why.contains("another Potside is running"), "{why}");
    drop(held);
    kitchen.check("after a second one was turned away");
}

/// Opens a data folder. A program that another test starts at this moment may hold a copy of a lock that was given back,
/// for as long as it takes to start: then it is tried again.
fn opened(data: &Path) -> DataFolder {
    for _ in 0..200 {
        match DataFolder::open(data) {
            Err(potside::shell::disk::DiskFault::InUse { .. }) => {
                std::thread::sleep(Duration::from_millis(25));
            }
            opened => return opened.unwrap(),
        }
    }
    panic!("{} is in use", data.display())
}
