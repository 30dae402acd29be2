//! Power cuts and device faults at every call the writer makes.
//!
//! The same examination is run with the honest store, where it must pass, and with stores that spoil one rule each,
//! where it must fail: a check that can't tell a planted fault proves nothing.

use std::collections::BTreeMap;
use std::slice::from_ref;

use potside::journal::id::BathId;
use potside::journal::line::{Entry, Record};
use potside::journal::recover::{DamageKind, Doubt, Recovered, recover};
use potside::journal::segment::{SEGMENT_BYTES_MAX, SEGMENT_NUMBER_MAX, segment_name};
use potside::journal::store::{Deed, Store, StoreFault};
use potside::journal::writer::{AppendFault, Keeping, RETRY_PAUSE, SEGMENT_KIND, Writer};

use proptest::prelude::*;
use proptest::sample::select;
use proptest::test_runner::{RngAlgorithm, TestCaseError, TestRng, TestRunner};
use serde_json::json;

use super::support::baths::{Act, acts, bath, entries_of, entry, moment, run};
use super::support::fault_store::{Fault, FaultStore, Plan, Tear};

type Files = BTreeMap<String, Vec<u8>>;

/// A rule that a store spoils.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Flaw {
    None,
    /// Flush says yes and does nothing until the next append: the same as acknowledging before the flush.
    AcknowledgeBeforeFlush,
    /// The folder is never flushed.
    NoDirFlush,
    /// A failed flush is tried again and believed.
    RetryFailedFlush,
    /// A new run goes on writing in the newest old segment.
    ReuseOldSegment,
    /// A segment is read up to its first bad line.
    StopAtFirstBadLine,
}

/// An honest store, or one that spoils a rule.
#[derive(Debug, Clone)]
struct Flawed {
    inner: FaultStore,
    flaw: Flaw,
    unflushed: Option<String>,
    alias: Option<(String, String)>,
}

impl Flawed {
    fn new(inner: FaultStore, flaw: Flaw) -> Self {
        Self {
            inner,
            flaw,
            unflushed: None,
            alias: None,
        }
    }

    fn real<'a>(&'a self, name: &'a str) -> &'a str {
        match &self.alias {
            Some((alias, real)) if alias == name => real,
            _ => name,
        }
    }
}

impl Store for Flawed {
    fn list(&mut self) -> Result<Vec<String>, StoreFault> {
        self.inner.list()
    }

    fn read(&mut self, name: &str, bytes_max: usize) -> Result<Vec<u8>, StoreFault> {
        let mut bytes = self.inner.read(name, bytes_max)?;
        if self.flaw == Flaw::StopAtFirstBadLine {
            let bad = potside::journal::segment::take_apart(&bytes)
                .broken
                .first()
                .map(|broken| broken.at);
            bytes.truncate(bad.unwrap_or(usize::MAX));
        }
        Ok(bytes)
    }

    fn read_back(&mut self, name: &str, bytes_max: usize) -> Result<Vec<u8>, StoreFault> {
        match &self.alias {
            // The flawed program would not look.
            Some((alias, _)) if alias == name => {
                let real = self.real(name).to_owned();
                let bytes = self.inner.read_back(&real, bytes_max)?;
                let text = String::from_utf8_lossy(&bytes).into_owned();
                let start = text.rfind("{\"v\":1,\"n\":1,").unwrap_or(0);
                Ok(bytes[start..].to_vec())
            }
            _ => self.inner.read_back(name, bytes_max),
        }
    }

    fn create_new(&mut self, name: &str) -> Result<(), StoreFault> {
        let newest = self
            .inner
            .list()?
            .into_iter()
            .rfind(|name| name.starts_with("segment-"));
        match newest {
            Some(newest) if self.flaw == Flaw::ReuseOldSegment && self.alias.is_none() => {
                self.inner.0.borrow_mut().open_existing(&newest);
                self.alias = Some((name.to_owned(), newest));
                Ok(())
            }
            _ => self.inner.create_new(name),
        }
    }

    fn append(&mut self, name: &str, bytes: &[u8]) -> Result<(), StoreFault> {
        if let Some(unflushed) = self.unflushed.take() {
            self.inner.flush(&unflushed)?;
        }
        let real = self.real(name).to_owned();
        self.inner.append(&real, bytes)
    }

    fn flush(&mut self, name: &str) -> Result<(), StoreFault> {
        let real = self.real(name).to_owned();
        if self.flaw == Flaw::AcknowledgeBeforeFlush {
            self.unflushed = Some(real);
            return Ok(());
        }
        match self.inner.flush(&real) {
            Err(_) if self.flaw == Flaw::RetryFailedFlush => self.inner.flush(&real),
            outcome => outcome,
        }
    }

    fn flush_dir(&mut self) -> Result<(), StoreFault> {
        if self.flaw == Flaw::NoDirFlush {
            Ok(())
        } else {
            self.inner.flush_dir()
        }
    }

    fn close(&mut self, name: &str) {
        self.inner.close(name);
    }

    fn link_no_clobber(&mut self, from: &str, to: &str) -> Result<(), StoreFault> {
        self.inner.link_no_clobber(from, to)
    }

    fn make_read_only(&mut self, name: &str) -> Result<(), StoreFault> {
        self.inner.make_read_only(name)
    }

    fn remove(&mut self, name: &str) -> Result<(), StoreFault> {
        self.inner.remove(name)
    }

    fn release_ballast(&mut self) -> Result<bool, StoreFault> {
        self.inner.release_ballast()
    }
}

/// One run over the places: recover, resume, act. Gives what was acknowledged.
fn run_once(places: &[FaultStore], flaw: Flaw, acts: &[Act]) -> (Vec<Entry>, Keeping) {
    let mut flawed: Vec<Flawed> = places
        .iter()
        .map(|place| Flawed::new(place.clone(), flaw))
        .collect();
    let recovered = recover(&mut flawed, &bath());
    let Ok(mut writer) = Writer::resume(&recovered, flawed, "potside 0.1.0") else {
        // What can't be read now isn't gone on with; the dyer tries again.
        return (Vec::new(), Keeping::Unopened);
    };
    let is_dead = || places.iter().any(|place| place.0.borrow().is_dead);
    let saved = run(&mut writer, acts, is_dead);
    (saved, writer.keeping().clone())
}

fn read_files(files: &Files, flaw: Flaw) -> Recovered {
    recover(&mut [Flawed::new(FaultStore::with_files(files), flaw)], &bath())
}

/// What must hold of anything read back: whole acts of the script in order, all that was acknowledged, and the
/// same when read again.
fn check_recovered(files: &Files, flaw: Flaw, script: &[Entry], saved: &[Entry]) -> Result<(), String> {
    let got = read_files(files, flaw);
    let entries = entries_of(&got);
    if read_files(files, flaw) != got {
        return Err("recovering twice gives two answers".to_owned());
    }
    if entries.len() < saved.len() || entries[..saved.len()] != *saved {
        return Err(format!(
            "{} acknowledged, {} recovered",
            saved.len(),
            entries.len()
        ));
    }
    if entries.len() > script.len() || entries != script[..entries.len()] {
        return Err("something was invented or reordered".to_owned());
    }
    let numbers: Vec<u64> = got.records.iter().map(|record| record.n).collect();
    if numbers != (1..=numbers.len() as u64).collect::<Vec<_>>() {
        return Err("the numbers have gaps".to_owned());
    }
    Ok(())
}

fn check_untouched(before: &Files, after: &Files) -> Result<(), String> {
    for (name, bytes) in before {
        if after.get(name) != Some(bytes) {
            return Err(format!("{name} of an earlier run was changed"));
        }
    }
    Ok(())
}

fn script_of(acts: &[Act]) -> Vec<Entry> {
    acts.iter().flat_map(|act| act.entries.iter().cloned()).collect()
}

/// Cuts the power at every call of a run that starts from `before`; hands every distinct image of the device to
/// `then` together with what had been acknowledged.
fn cut_everywhere(
    before: &Files,
    flaw: Flaw,
    acts: &[Act],
    mut then: impl FnMut(&Files, Vec<Entry>) -> Result<(), String>,
) -> Result<usize, String> {
    let clean = FaultStore::with_files(before);
    run_once(from_ref(&clean), flaw, acts);
    let calls = clean.0.borrow().calls;
    for at in 0..calls {
        for fault in [Fault::CutBefore, Fault::CutAfter] {
            let store = FaultStore::with_files(before);
            store.plan(Some(Plan {
                at,
                fault,
                persists: true,
            }));
            let (saved, _) = run_once(from_ref(&store), flaw, acts);
            let mut images: Vec<Files> = Vec::new();
            for tear in Tear::ALL {
                let image = store.after_cut(tear);
                if !images.contains(&image) {
                    check_untouched(before, &image)
                        .map_err(|what| format!("{fault:?} at {at}, {tear:?}: {what}"))?;
                    then(&image, saved.clone())
                        .map_err(|what| format!("{fault:?} at {at}, {tear:?}: {what}"))?;
                    images.push(image);
                }
            }
        }
    }
    Ok(calls)
}

/// Two runs, the power cut in each at every call.
fn examine_cuts(flaw: Flaw) -> Result<(), String> {
    let (first, second) = (acts(1, 3), acts(2, 2));
    let script = script_of(&first);
    cut_everywhere(&Files::new(), flaw, &first, |image, saved| {
        check_recovered(image, flaw, &script, &saved)?;
        let kept = entries_of(&read_files(image, flaw));
        let script: Vec<Entry> = kept.iter().cloned().chain(script_of(&second)).collect();
        cut_everywhere(image, flaw, &second, |image, saved| {
            let saved: Vec<Entry> = kept.iter().cloned().chain(saved).collect();
            check_recovered(image, flaw, &script, &saved)
        })
        .map(|_| ())
        .map_err(|what| format!("then {what}"))
    })
    .map(|calls| assert!(calls > 9, "only {calls} calls: the run did nothing"))
}

/// Every device fault at every call, once and from then on, then a power cut.
fn examine_faults(flaw: Flaw, place_count: usize) -> Result<(), String> {
    let before: Files = {
        let store = FaultStore::default();
        run_once(from_ref(&store), Flaw::None, &acts(1, 2));
        store.live_files()
    };
    let acts = acts(2, 5);
    let script: Vec<Entry> = entries_of(&read_files(&before, Flaw::None))
        .into_iter()
        .chain(script_of(&acts))
        .collect();
    let earlier = script.len() - script_of(&acts).len();
    let clean = FaultStore::with_files(&before);
    run_once(from_ref(&clean), flaw, &acts);
    let (first_write, calls) = (2, clean.0.borrow().calls);
    for at in first_write..calls {
        for fault in [Fault::Eio, Fault::Enospc, Fault::Erofs] {
            for persists in [false, true] {
                let told = format!("{fault:?} at {at}, persists {persists}, {place_count} places");
                let mut places = vec![FaultStore::with_files(&before)];
                places.resize_with(place_count, FaultStore::default);
                places[0].plan(Some(Plan { at, fault, persists }));
                let (saved, keeping) = run_once(&places, flaw, &acts);
                let is_safe = !persists || place_count > 1;
                if is_safe && saved.len() != script.len() - earlier {
                    return Err(format!("{told}: {} saved, {keeping:?}", saved.len()));
                }
                let saved: Vec<Entry> = script[..earlier].iter().cloned().chain(saved).collect();
                for place in &places {
                    place.plan(None);
                    let violations = place.0.borrow().violations.clone();
                    if !violations.is_empty() {
                        return Err(format!("{told}: {violations:?}"));
                    }
                }
                check_untouched(&before, &places[0].live_files())
                    .map_err(|what| format!("{told}: {what}"))?;
                for tear in Tear::ALL {
                    let mut images: Vec<Flawed> = places
                        .iter()
                        .map(|place| Flawed::new(FaultStore::with_files(&place.after_cut(tear)), flaw))
                        .collect();
                    let entries = entries_of(&recover(&mut images, &bath()));
                    if entries.len() < saved.len() || entries != script[..entries.len()] {
                        let (got, wanted) = (entries.len(), saved.len());
                        return Err(format!("{told}, {tear:?}: {wanted} saved, {got} recovered"));
                    }
                }
            }
        }
    }
    Ok(())
}

/// Rot at rest in the newest segment while an older one is whole, and the other way round.
fn examine_rot(flaw: Flaw) -> Result<(), String> {
    let store = FaultStore::default();
    let (first, second) = (acts(1, 3), acts(2, 3));
    run_once(from_ref(&store), Flaw::None, &first);
    run_once(from_ref(&store), Flaw::None, &second);
    let files = store.live_files();
    let script: Vec<Entry> = script_of(&first).into_iter().chain(script_of(&second)).collect();
    // All of the copy but its last newline, whose loss would merge a copied line with a new one.
    for at in 0..files[&segment_name(1)].len() - 1 {
        let mut rotted = files.clone();
        rotted.get_mut(&segment_name(2)).unwrap()[at] ^= 0x04;
        check_recovered(&rotted, flaw, &script, &script).map_err(|what| format!("rot at {at}: {what}"))?;
    }
    Ok(())
}

#[test]
fn whatever_was_acknowledged_survives_a_power_cut_at_any_call_of_two_runs() {
    assert_eq!(examine_cuts(Flaw::None), Ok(()));
}

#[test]
fn whatever_was_acknowledged_survives_any_device_fault_at_any_call() {
    assert_eq!(examine_faults(Flaw::None, 1), Ok(()));
    assert_eq!(examine_faults(Flaw::None, 2), Ok(()));
}

#[test]
fn rot_in_one_segment_is_made_good_by_another() {
    assert_eq!(examine_rot(Flaw::None), Ok(()));
}

/// One run of a history: how many acts, what goes wrong when in which place, and how it ends.
#[derive(Debug, Clone)]
struct Run {
    act_count: usize,
    plans: [Option<Plan>; 2],
    /// The power goes at the end, with this tear; otherwise the program ends and the machine goes on.
    tear: Option<Tear>,
    /// After it a byte of this segment of the first place rots, here, if the second place isn't damaged as well.
    rot: Option<(usize, usize)>,
}

fn any_run() -> impl Strategy<Value = Run> {
    use Fault::{CutAfter, CutBefore, Eio, Enospc, Erofs};
    let plan = || {
        (
            0..40_usize,
            select(vec![Eio, Enospc, Erofs, CutBefore, CutAfter]),
            any::<bool>(),
        )
            .prop_map(|(at, fault, persists)| Plan { at, fault, persists })
    };
    let plans = (prop::option::of(plan()), prop::option::weighted(0.3, plan()));
    let tear = prop::option::of(select(Tear::ALL.to_vec()));
    (0..7_usize, plans, tear, prop::option::of(any::<(usize, usize)>())).prop_map(
        |(act_count, (first, second), tear, rot)| Run {
            act_count,
            plans: [first, second],
            tear,
            rot,
        },
    )
}

/// Several runs over a home and a spare place, with faults, cuts and rot in older segments, as they come.
/// The model: a list of what was acknowledged, and what an honest chain may hold beyond it.
fn examine_history(flaw: Flaw, runs: &[Run]) -> Result<(), String> {
    let mut places = [FaultStore::default(), FaultStore::default()];
    let mut saved: Vec<Entry> = Vec::new();
    for (stretch, run) in (1..).zip(runs) {
        let kept = entries_of(&recover(&mut places.clone(), &bath()));
        if !kept.starts_with(&saved) {
            return Err(format!(
                "before run {stretch}: {} saved, {} back",
                saved.len(),
                kept.len()
            ));
        }
        let acts = acts(stretch, run.act_count);
        let before: Vec<Files> = places.iter().map(FaultStore::live_files).collect();
        for (place, plan) in places.iter().zip(run.plans) {
            place.plan(plan);
        }
        let (acknowledged, _) = run_once(&places, flaw, &acts);
        let script: Vec<Entry> = kept.iter().cloned().chain(script_of(&acts)).collect();
        saved = kept.into_iter().chain(acknowledged).collect();

        let is_dead = places.iter().any(|place| place.0.borrow().is_dead);
        let tear = run.tear.or(is_dead.then_some(Tear::Nothing));
        for (place, before) in places.iter_mut().zip(&before) {
            let violations = place.0.borrow().violations.clone();
            if !violations.is_empty() {
                return Err(format!("run {stretch}: {violations:?}"));
            }
            let after = tear.map_or_else(|| place.live_files(), |tear| place.after_cut(tear));
            check_untouched(before, &after).map_err(|what| format!("run {stretch}: {what}"))?;
            *place = FaultStore::with_files(&after);
        }
        let got = entries_of(&recover(&mut places.clone(), &bath()));
        if got.len() < saved.len() || !script.starts_with(&got) {
            return Err(format!(
                "run {stretch}: {} acknowledged, {} recovered",
                saved.len(),
                got.len()
            ));
        }
        rot_an_older_segment(&mut places[0], run.rot);
    }
    Ok(())
}

/// What a number of random histories say of a flaw.
fn examine_histories(flaw: Flaw, cases: u32) -> Result<(), String> {
    let config = ProptestConfig {
        cases,
        failure_persistence: None,
        max_shrink_iters: 50,
        ..ProptestConfig::default()
    };
    let rng = TestRng::deterministic_rng(RngAlgorithm::ChaCha);
    let mut runner = TestRunner::new_with_rng(config, rng);
    let told = runner.run(&prop::collection::vec(any_run(), 1..6), |runs| {
        examine_history(flaw, &runs).map_err(TestCaseError::fail)
    });
    told.map_err(|told| told.to_string())
}

/// Changes a byte of a segment that a newer one of the same place holds a whole copy of.
fn rot_an_older_segment(place: &mut FaultStore, rot: Option<(usize, usize)>) {
    let mut files = place.live_files();
    let whole_newest = files.last_key_value().is_some_and(|(_, bytes)| {
        let parts = potside::journal::segment::take_apart(bytes);
        parts.broken.is_empty()
            && parts
                .whole
                .iter()
                .any(|placed| placed.record.entry.body.contains_key("because"))
    });
    let older_count = files.len().saturating_sub(1);
    let Some((file, at)) = rot.filter(|_| whole_newest && older_count > 0) else {
        return;
    };
    if let Some(bytes) = files
        .values_mut()
        .nth(file % older_count)
        .filter(|bytes| !bytes.is_empty())
    {
        let at = at % bytes.len();
        bytes[at] ^= 0x20;
        *place = FaultStore::with_files(&files);
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 150, ..ProptestConfig::default() })]

    #[test]
    fn any_history_of_faults_and_cuts_keeps_what_was_acknowledged(runs in prop::collection::vec(any_run(), 1..6)) {
        prop_assert_eq!(examine_history(Flaw::None, &runs), Ok(()));
    }
}

#[test]
fn planted_flaws_are_caught_by_random_histories_too() {
    for flaw in [
        Flaw::AcknowledgeBeforeFlush,
        Flaw::NoDirFlush,
        Flaw::RetryFailedFlush,
        Flaw::ReuseOldSegment,
    ] {
        assert!(examine_histories(flaw, 300).is_err(), "{flaw:?} passed");
    }
}

#[test]
fn planted_acknowledging_before_the_flush_is_caught() {
    assert!(
        examine_cuts(Flaw::AcknowledgeBeforeFlush)
            .unwrap_err()
            .contains("acknowledged")
    );
}

#[test]
fn planted_never_flushing_the_folder_is_caught() {
    assert!(
        examine_cuts(Flaw::NoDirFlush)
            .unwrap_err()
            .contains("acknowledged")
    );
}

#[test]
fn planted_retrying_a_failed_flush_is_caught() {
    let told = examine_faults(Flaw::RetryFailedFlush, 1).unwrap_err();

    assert!(
        told.contains("flush of segment-0002.jsonl after a fault on it"),
        "{told}"
    );
}

#[test]
fn planted_going_on_in_an_old_segment_is_caught() {
    assert!(
        examine_cuts(Flaw::ReuseOldSegment)
            .unwrap_err()
            .contains("of an earlier run was changed")
    );
}

#[test]
fn planted_stopping_at_the_first_bad_line_is_caught() {
    assert!(
        examine_rot(Flaw::StopAtFirstBadLine)
            .unwrap_err()
            .contains("acknowledged")
    );
}

#[test]
fn a_full_disk_gives_up_its_ballast_and_the_bath_goes_on_being_saved() {
    let store = FaultStore::default();
    store.0.borrow_mut().ballast = 64 * 1024;
    store.0.borrow_mut().room = Some(66 * 1024);

    let acts = acts(1, 20);
    let (saved, keeping) = run_once(from_ref(&store), Flaw::None, &acts);

    assert_eq!(saved, script_of(&acts));
    assert_eq!(keeping, Keeping::Home);
    assert_eq!(store.0.borrow().ballast, 0);
    check_recovered(&store.after_cut(Tear::Nothing), Flaw::None, &saved, &saved).unwrap();
    let got = read_files(&store.live_files(), Flaw::None);
    let gap = |record: &&Record| {
        record
            .entry
            .body
            .get("because")
            .is_some_and(|why| why == "saving_again")
    };
    assert_eq!(got.records.iter().find(gap), None, "not even for one act");
}

#[test]
fn without_ballast_a_full_disk_says_not_saving_and_since_when() {
    let store = FaultStore::default();
    store.0.borrow_mut().room = Some(2 * 1024);

    let acts = acts(1, 20);
    let (saved, keeping) = run_once(from_ref(&store), Flaw::None, &acts);

    assert!(!saved.is_empty() && saved.len() < script_of(&acts).len());
    let Keeping::NotSaving { since, fault } = keeping else {
        panic!("{keeping:?}")
    };
    assert!(matches!(fault, StoreFault::Full { .. }), "{fault}");
    assert!(
        since.steady_ms < 20 * 60_000,
        "since the first refusal, not the last"
    );
    check_recovered(
        &store.after_cut(Tear::Nothing),
        Flaw::None,
        &script_of(&acts),
        &saved,
    )
    .unwrap();
}

#[test]
fn when_the_disk_takes_writes_again_all_that_memory_held_is_saved_and_the_gap_is_on_record() {
    let store = FaultStore::default();
    let recovered = recover(&mut [store.clone()], &bath());
    let mut writer = Writer::resume(&recovered, vec![store.clone()], "potside 0.1.0").unwrap();
    let acts = acts(1, 6);
    store.plan(Some(Plan {
        at: 7,
        fault: Fault::Eio,
        persists: true,
    }));
    run(&mut writer, &acts, || false);
    let Keeping::NotSaving { since, .. } = *writer.keeping() else {
        panic!("still saving")
    };
    store.plan(None);

    let too_soon = writer.retry(moment(1, 5 * 60 + 1));
    assert!(!too_soon.is_saved, "tried again before its pause was over");
    let later = moment(1, 5 * 60 + 64 * RETRY_PAUSE.ms() / 1_000);
    let receipt = writer.retry(later);

    assert!(receipt.is_saved);
    assert_eq!(*writer.keeping(), Keeping::Home);
    let got = read_files(&store.after_cut(Tear::Nothing), Flaw::None);
    assert_eq!(entries_of(&got), script_of(&acts));
    let last = got.records.last().unwrap();
    assert_eq!(last.entry.what, SEGMENT_KIND);
    assert_eq!(last.entry.body["because"], "saving_again");
    assert_eq!(last.entry.body["not_saved_since_wall_ms"], since.wall_ms);
    assert_eq!(last.entry.at, later);
    assert_eq!(store.0.borrow().violations, Vec::<String>::new());
}

/// Asked while all is well, it does nothing: what is there would be there twice.
#[test]
fn to_try_again_while_saving_writes_nothing() {
    let store = FaultStore::default();
    let recovered = recover(&mut [store.clone()], &bath());
    let mut writer = Writer::resume(&recovered, vec![store.clone()], "potside 0.1.0").unwrap();
    let before_any = writer.retry(moment(1, 0));
    assert_eq!(store.live_files(), BTreeMap::new());
    run(&mut writer, &acts(1, 3), || false);
    let (files, calls) = (store.live_files(), store.0.borrow().calls);

    let receipt = writer.retry(moment(1, 10_000));

    assert!(before_any.is_saved && receipt.is_saved);
    assert_eq!(receipt.n, writer.n());
    assert_eq!((store.live_files(), store.0.borrow().calls), (files, calls));
}

/// A file that failed is let go, and the record says what it said.
#[test]
fn a_fault_is_on_record_and_its_file_is_let_go() {
    let store = FaultStore::default();
    let recovered = recover(&mut [store.clone()], &bath());
    let mut writer = Writer::resume(&recovered, vec![store.clone()], "potside 0.1.0").unwrap();
    run(&mut writer, &acts(1, 2), || false);
    store.plan(Some(Plan {
        at: 1,
        fault: Fault::Eio,
        persists: false,
    }));

    run(&mut writer, &acts(2, 1), || false);

    assert_eq!((writer.keeping(), store.open_count()), (&Keeping::Home, 1));
    let got = recover(&mut [store.clone()], &bath());
    let said: Vec<String> = got
        .records
        .iter()
        .filter(|record| record.entry.what == SEGMENT_KIND)
        .map(|record| format!("{}: {}", record.entry.body["because"], record.entry.body["fault"]))
        .collect();
    assert_eq!(said.len(), 2, "{said:?}");
    assert_eq!(said[0], "\"start\": null");
    assert!(
        said[1].starts_with("\"fault\": ") && said[1].contains("input/output error"),
        "{said:?}"
    );
}

#[test]
fn a_bath_has_9999_segments_and_no_more() {
    assert_eq!(SEGMENT_NUMBER_MAX, 9_999);
    let store = FaultStore::default();
    run_once(from_ref(&store), Flaw::None, &acts(1, 1));
    let first = store.live_files()[&segment_name(1)].clone();
    let late = FaultStore::with_files(&BTreeMap::from([(segment_name(9_998), first)]));

    let (_, last) = run_once(from_ref(&late), Flaw::None, &acts(2, 1));
    let (_, none) = run_once(from_ref(&late), Flaw::None, &acts(3, 1));

    assert_eq!(last, Keeping::Home);
    assert!(late.live_files().contains_key(&segment_name(9_999)));
    assert!(
        matches!(&none, Keeping::NotSaving { fault, .. } if fault.to_string().contains("9999")),
        "{none:?}"
    );
}

#[test]
fn a_device_that_garbles_is_not_called_saved() {
    let store = FaultStore::default();
    store.0.borrow_mut().garbles = true;

    let (saved, keeping) = run_once(from_ref(&store), Flaw::None, &acts(1, 2));

    assert_eq!(saved, []);
    assert!(
        matches!(
            keeping,
            Keeping::NotSaving {
                fault: StoreFault::ReadsBackDifferent { .. },
                ..
            }
        ),
        "{keeping:?}"
    );
}

/// A chain is at most 64 MiB. What no longer fits is refused whole and changes nothing; what was kept stays.
#[test]
fn a_chain_that_is_full_takes_no_more_and_keeps_what_it_has() {
    let most = 64 * 1024 * 1024;
    assert_eq!(SEGMENT_BYTES_MAX, most);
    let store = FaultStore::default();
    let recovered = recover(&mut [store.clone()], &bath());
    let mut writer = Writer::resume(&recovered, vec![store.clone()], "potside 0.1.0").unwrap();
    let note = entry(1, 0, "note", json!({ "text": "x".repeat(250 * 1024) }));
    let act = vec![note.clone(); 40];
    let full = loop {
        if let Err(fault) = writer.append(None, &act, moment(1, 0)) {
            break fault;
        }
    };
    let kept = writer.n();
    while writer.append(None, from_ref(&note), moment(1, 0)).is_ok() {}
    let length = || store.live_files()[&segment_name(1)].len();
    let note_of = |bytes: usize| entry(1, 0, "note", json!({ "text": "x".repeat(bytes) }));
    let before = length();
    writer.append(None, &[note_of(0)], moment(1, 0)).unwrap();
    let around = length() - before;
    let left = most - length() - around;
    let over = writer.append(None, &[note_of(left + 1)], moment(1, 0));
    let after = writer.append(None, &[note_of(left)], moment(1, 0)).unwrap();

    assert_eq!(
        (full, over),
        (AppendFault::ChainFull, Err(AppendFault::ChainFull))
    );
    assert!(kept < writer.n(), "what fits is taken still");
    assert!(after.is_saved);
    assert_eq!(length(), most, "to the byte");
    let got = recover(&mut [store.clone()], &bath());
    assert_eq!((got.records.len() as u64, got.is_whole()), (after.n, true));
}

#[test]
fn with_a_spare_place_the_bath_goes_on_there_and_says_so() {
    let places = [FaultStore::default(), FaultStore::default()];
    places[0].plan(Some(Plan {
        at: 9,
        fault: Fault::Eio,
        persists: true,
    }));

    let acts = acts(1, 6);
    let (saved, keeping) = run_once(&places, Flaw::None, &acts);

    assert_eq!(saved, script_of(&acts));
    assert!(
        matches!(keeping, Keeping::Spare { place_index: 1, .. }),
        "{keeping:?}"
    );
    let alone = read_files(&places[1].after_cut(Tear::Nothing), Flaw::None);
    assert_eq!(
        entries_of(&alone),
        script_of(&acts),
        "the spare place holds all of it, not the rest of it"
    );
}

#[test]
fn an_act_that_is_kept_is_not_kept_twice_not_even_after_a_cut() {
    let store = FaultStore::default();
    let acts = acts(1, 1);
    run_once(from_ref(&store), Flaw::None, &acts);

    run_once(from_ref(&store), Flaw::None, &acts);
    let recovered = recover(&mut [store.clone()], &bath());
    let mut writer = Writer::resume(&recovered, vec![store.clone()], "potside 0.1.0").unwrap();
    let receipt = writer
        .append(acts[0].id.as_ref(), &acts[0].entries, moment(3, 0))
        .unwrap();

    assert!(receipt.is_repeat && receipt.is_saved);
    assert_eq!(entries_of(&recover(&mut [store], &bath())), script_of(&acts));
}

#[test]
fn starting_and_acting_on_nothing_leaves_no_file() {
    let store = FaultStore::default();
    for _ in 0..5 {
        run_once(from_ref(&store), Flaw::None, &[]);
    }

    assert!(store.live_files().is_empty());
}

#[test]
fn every_segment_alone_holds_all_that_was_kept_before_it() {
    let store = FaultStore::default();
    for stretch in 1..=4 {
        run_once(from_ref(&store), Flaw::None, &acts(stretch, 2));
    }
    let files = store.live_files();
    let script: Vec<Entry> = (1..=4).flat_map(|stretch| script_of(&acts(stretch, 2))).collect();

    assert_eq!(files.len(), 4);
    for (index, name) in (1..=4).map(segment_name).enumerate() {
        let alone = Files::from([(name.clone(), files[&name].clone())]);
        let got = read_files(&alone, Flaw::None);
        assert_eq!(
            entries_of(&got),
            script[..(index + 1) * script.len() / 4],
            "{name}"
        );
    }
}

#[test]
fn a_place_that_cannot_be_listed_or_read_is_damage_not_an_empty_bath() {
    let store = FaultStore::default();
    run_once(from_ref(&store), Flaw::None, &acts(1, 2));
    for (at, is_list) in [(0, true), (1, false)] {
        let place = FaultStore::with_files(&store.live_files());
        place.plan(Some(Plan {
            at,
            fault: Fault::Eio,
            persists: true,
        }));

        let got = recover(&mut [place], &bath());

        assert!(!got.is_whole() && got.records.is_empty());
        let kind = &got.damage[0].kind;
        assert_eq!(
            matches!(
                kind,
                DamageKind::Unlisted(StoreFault::Device { deed: Deed::List, .. })
            ),
            is_list
        );
        assert_eq!(
            matches!(
                kind,
                DamageKind::Unread(StoreFault::Device { deed: Deed::Read, .. })
            ),
            !is_list
        );
    }
}

#[test]
fn a_bath_that_cannot_be_read_now_is_not_gone_on_with_and_loses_nothing() {
    // Found by failing the third `openat` of the real program: the folder could not be listed, the bath looked new,
    // and its new chain would have stood above the old one for ever.
    let acts_kept = acts(1, 3);
    let store = FaultStore::default();
    run_once(from_ref(&store), Flaw::None, &acts_kept);
    let before = store.live_files();
    for at in 0..2 {
        let place = FaultStore::with_files(&before);
        place.plan(Some(Plan {
            at,
            fault: Fault::Eio,
            persists: false,
        }));

        let recovered = recover(&mut [place.clone()], &bath());

        let doubt = Writer::resume(&recovered, vec![place.clone()], "potside 0.1.0").unwrap_err();
        assert!(
            matches!(doubt, Doubt::Unread(StoreFault::Device { .. })),
            "{doubt}"
        );
        run_once(from_ref(&place), Flaw::None, &acts(2, 1));
        let script = [script_of(&acts_kept), script_of(&acts(2, 1))].concat();
        assert_eq!(entries_of(&recover(&mut [place], &bath())), script);
    }
}

#[test]
fn an_old_segment_that_cannot_be_read_is_no_reason_to_stop() {
    let store = FaultStore::default();
    run_once(from_ref(&store), Flaw::None, &acts(1, 2));
    run_once(from_ref(&store), Flaw::None, &acts(2, 1));
    store.plan(Some(Plan {
        at: 1,
        fault: Fault::Eio,
        persists: false,
    }));

    let recovered = recover(&mut [store.clone()], &bath());

    assert!(matches!(recovered.damage[0].kind, DamageKind::Unread(_)));
    assert!(recovered.is_whole());
    assert_eq!(recovered.doubt(), None);
}

#[test]
fn to_go_on_over_a_gap_is_asked_for_and_is_on_record() {
    let store = FaultStore::default();
    run_once(from_ref(&store), Flaw::None, &acts(1, 3));
    let mut files = store.live_files();
    files.get_mut(&segment_name(1)).unwrap()[700] ^= 4;
    let place = FaultStore::with_files(&files);
    let recovered = recover(&mut [place.clone()], &bath());

    let doubt = Writer::resume(&recovered, vec![place.clone()], "potside 0.1.0").unwrap_err();
    let mut writer = Writer::resume_in_doubt(&recovered, vec![place.clone()], "potside 0.1.0");
    run(&mut writer, &acts(2, 1), || false);

    assert!(matches!(doubt, Doubt::Gap { .. }), "{doubt}");
    let got = recover(&mut [place.clone()], &bath());
    let opening = got
        .records
        .iter()
        .rfind(|record| record.entry.what == SEGMENT_KIND)
        .unwrap();
    assert_eq!(opening.entry.body["doubt"], doubt.to_string());
    check_untouched(&files, &place.live_files()).unwrap();
}

#[test]
fn a_branch_that_was_cut_off_does_not_outrank_what_a_later_run_acknowledged() {
    // A first run leaves a long unacknowledged tail; at the next start it can't be read; then it can again.
    let store = FaultStore::default();
    run_once(from_ref(&store), Flaw::None, &acts(1, 9));
    let long = store.live_files();
    let mut short = long.clone();
    let bytes = short.get_mut(&segment_name(1)).unwrap();
    let second_line_end = bytes
        .iter()
        .enumerate()
        .filter(|(_, byte)| **byte == b'\n')
        .nth(1)
        .unwrap()
        .0;
    bytes.truncate(second_line_end + 1);
    let later = FaultStore::with_files(&short);
    let (saved, _) = run_once(from_ref(&later), Flaw::None, &acts(2, 1));
    let mut both = later.live_files();
    both.insert(segment_name(1), long[&segment_name(1)].clone());

    let got = read_files(&both, Flaw::None);

    let wanted: Vec<Entry> = script_of(&acts(1, 1)).into_iter().chain(saved).collect();
    assert_eq!(entries_of(&got), wanted);
    assert!(
        got.damage
            .iter()
            .all(|damage| matches!(damage.kind, DamageKind::OtherBranch { .. }))
    );
    assert!(!got.damage.is_empty());
}

#[test]
fn a_bath_id_is_needed_to_write_and_it_is_in_the_first_record() {
    let store = FaultStore::default();
    run_once(from_ref(&store), Flaw::None, &acts(1, 1));
    let got = read_files(&store.live_files(), Flaw::None);

    let body = &got.records[0].entry.body;
    assert_eq!(body["bath"], bath().as_str());
    assert!(BathId::from_text(body["bath"].as_str().unwrap()).is_ok());
}
