//! An afternoon with three pots on one stove, on the real window with the real keeper and the real disk: onion skin,
//! an alum mordant and madder, begun one after the other. Once by fingers, once by keys alone; what each hand did is
//! written down here as it is done, and set beside the journals and the sealed records at the end.

use std::collections::BTreeSet;

use potside::craft::time::{Moment, Span};
use potside::machine::call::CallKind;
use potside::machine::chime::{Chime, Haste};
use potside::machine::{Machine, PotNo, PotRun, rounds};
use potside::sheet::plan::{StepAct, StepKind};
use potside::view::pages::Page;
use potside::view::screen::{RunScreen, Screen};
use serde_json::Value;
use slint::platform::Key;

use crate::kitchen::Kitchen;

const POTS: [u8; 3] = [1, 2, 3];

/// Away for so long when the power goes.
const AWAY: Span = Span::from_minutes(12);

/// The return cards wait for the dyer.
const CARD: Span = Span::from_minutes(1);

/// By which hand things are done.
#[derive(Clone, Copy, PartialEq)]
enum Hand {
    Finger,
    Key,
}

/// One thing a hand did in one pot, and the facts it is kept as.
#[derive(Debug, PartialEq)]
struct Did {
    pot: u8,
    kept_as: Vec<String>,
}

/// What is left of an afternoon.
#[derive(Debug, PartialEq)]
struct Left {
    records: Vec<Value>,
    acts: Vec<Value>,
}

struct Afternoon {
    kitchen: Kitchen,
    hand: Hand,
    did: Vec<Did>,
    /// How often a pot that alone called came forward by itself.
    came_forward: usize,
}

impl Afternoon {
    fn new(hand: Hand) -> Self {
        Self {
            kitchen: Kitchen::open(),
            hand,
            did: Vec::new(),
            came_forward: 0,
        }
    }

    // What hands can do.

    fn press(&self, label: &str) {
        match self.hand {
            Hand::Finger => self.kitchen.tap(label),
            Hand::Key => self.kitchen.press_by_keys(label),
        }
    }

    /// Chooses from a list that may be longer than the glass is high. Keys walk to the row, and the list goes along.
    fn choose(&self, label: &str) {
        if self.hand == Hand::Key {
            return self.press(label);
        }
        self.kitchen.turn_to(label);
        self.press(label);
    }

    fn firm(&self, label: &str) {
        match self.hand {
            Hand::Finger => self.kitchen.firm(&self.kitchen.control(label)),
            Hand::Key => self.kitchen.firm_by_keys(label),
        }
    }

    fn digits(&self, digits: &str) {
        for digit in digits.chars() {
            match self.hand {
                Hand::Finger => self.kitchen.tap(&digit.to_string()),
                Hand::Key => self.kitchen.key(digit.to_string()),
            }
        }
    }

    /// A look at the glass from near.
    fn come_near(&self) {
        if let Screen::Far(_) = self.kitchen.screen() {
            match (self.hand, self.page()) {
                (Hand::Finger, _) => self.kitchen.touch_anywhere(),
                (Hand::Key, Page::Run(pot)) => self.kitchen.key(pot.0.to_string()),
                (Hand::Key, page) => panic!("far from {page:?}"),
            }
        }
    }

    fn to_pot(&self, pot: u8) {
        self.come_near();
        if self.page() != Page::Run(PotNo(pot)) {
            match self.hand {
                Hand::Finger => self.kitchen.tap(&format!("pot {pot}")),
                Hand::Key => self.kitchen.key(pot.to_string()),
            }
        }
        assert_eq!(self.page(), Page::Run(PotNo(pot)), "no way to pot {pot}");
    }

    fn heard(&mut self, pot: u8) {
        self.to_pot(pot);
        match self.hand {
            Hand::Finger => self.kitchen.tap("heard"),
            Hand::Key => self.kitchen.key(slint::SharedString::from(Key::Return)),
        }
        self.note(pot, &["calls_heard"]);
    }

    fn take_back(&mut self, pot: u8) {
        self.to_pot(pot);
        match self.hand {
            Hand::Finger => self.kitchen.tap("take back"),
            Hand::Key => self.kitchen.key(slint::SharedString::from(Key::Backspace)),
        }
        self.note(pot, &["taken_back"]);
    }

    fn reading(&mut self, pot: u8, degrees: &str, kept_as: &[&str]) {
        self.to_pot(pot);
        self.press("reading");
        self.digits(degrees);
        self.firm("That's it");
        self.note(pot, kept_as);
    }

    fn begin(&mut self, pot: u8, through_the_book: &[&str]) {
        self.come_near();
        if self.page() != Page::Stove {
            self.press("stove");
        }
        self.press("begin");
        self.press("dry weight");
        self.digits("100");
        self.firm("That's it");
        self.press("to the recipe");
        for label in through_the_book {
            self.choose(label);
        }
        self.press("take this recipe");
        self.press("bath sheet");
        for slab in ["Read the cautions", "Cautions read", "BEGIN"] {
            self.firm(slab);
        }
        assert_eq!(
            self.page(),
            Page::Run(PotNo(pot)),
            "{through_the_book:?} didn't begin"
        );
        self.note(pot, &["bath_begun"]);
    }

    fn note(&mut self, pot: u8, kept_as: &[&str]) {
        self.did.push(Did {
            pot,
            kept_as: kept_as.iter().map(|kind| (*kind).to_owned()).collect(),
        });
    }

    // What eyes see.

    fn page(&self) -> Page {
        self.kitchen.glass.desk.borrow().page().clone()
    }

    fn run(&self, pot: u8) -> PotRun {
        self.kitchen.machine().pot(PotNo(pot)).expect("a bath").clone()
    }

    fn shown(&self) -> RunScreen {
        match self.kitchen.screen() {
            Screen::Run(run) => *run,
            other => panic!("no pot stands on the glass but {other:?}"),
        }
    }

    fn held(&self, pot: u8) -> Span {
        let hold = self.run(pot).stand.hold.expect("a hold");
        hold.held.at(self.kitchen.now())
    }

    fn notices(&self) -> Vec<String> {
        let status = self.kitchen.glass.desk.borrow().status();
        status.notices.into_iter().map(|notice| notice.text).collect()
    }

    // The dyer's rounds.

    /// One confirm on the slab of a pot.
    fn serve(&mut self, pot: u8) {
        let run = self.run(pot);
        let mut calls = run.stand.calls.iter();
        if !run.stand.calls.is_empty() && calls.all(|call| call.kind == CallKind::HeatUnattended) {
            self.heard(pot);
            return;
        }
        self.to_pot(pot);
        let screen = self.shown();
        let label = screen.slab.label;
        assert!(screen.slab.enabled, "pot {pot}: {label} can't be pressed");
        self.firm(&label);
        assert_eq!(
            self.page(),
            Page::Run(PotNo(pot)),
            "pot {pot}, {label}: asked again"
        );
        let is_last = run.stand.step.0 + 1 == run.plan.steps.len();
        match label.as_str() {
            "Turned" => self.note(pot, &["turned"]),
            "All turned" => {
                for pot in screen.act.amount.split(", ") {
                    self.note(pot.parse().expect("a number"), &["turned"]);
                }
            }
            "It is back" => self.note(pot, &["hold_resumed"]),
            _ if is_last => self.note(pot, &["step_done", "bath_closed"]),
            _ => self.note(pot, &["step_done"]),
        }
    }

    /// Half a minute in which nobody touches the glass. A pot that alone calls must then stand forward.
    fn leave_alone(&mut self) {
        self.kitchen.pass(Span::from_seconds(30));
        let Page::Run(forward) = self.page() else { return };
        let machine = self.kitchen.machine();
        let calling: Vec<PotNo> = machine
            .pots()
            .filter(|run| !run.stand.calls.is_empty())
            .map(|run| run.pot)
            .collect();
        if let [only] = calling.as_slice() {
            assert_eq!(forward, *only, "the pot that calls doesn't come forward");
            assert!(
                matches!(self.kitchen.screen(), Screen::Far(_)),
                "nobody is near, yet the near view stands"
            );
            self.came_forward += 1;
        }
    }

    /// Serves every pot whose hands are due, but for those to be left, until something is so.
    fn tend(&mut self, leave: impl Fn(&PotRun) -> bool, until: impl Fn(&Machine, Moment) -> bool) {
        for _ in 0..4_000 {
            let machine = self.kitchen.machine();
            let now = self.kitchen.now();
            if until(&machine, now) {
                return;
            }
            let due = machine.pots().find(|run| wants_hands(run, now) && !leave(run));
            match due.map(|run| run.pot.0) {
                Some(pot) => self.serve(pot),
                None => self.leave_alone(),
            }
        }
        panic!(
            "the afternoon doesn't get there; the glass shows {:?}",
            self.kitchen.screen()
        );
    }

    /// Tends the third pot alone until both others' turns are called, and it wants no hands.
    fn until_round(&mut self) {
        let others = |run: &PotRun| run.pot.0 < 3;
        self.tend(others, |machine, now| {
            let third = machine.pot(PotNo(3)).is_some_and(|run| wants_hands(run, now));
            !third && rounds::round(machine.pots()) == [PotNo(1), PotNo(2)]
        });
    }

    // The afternoon.

    fn spend(mut self) -> Self {
        self.begin(1, &["Dye", "Onion skin", "Onion skin on alum"]);
        self.tend(never, |machine, now| is_held_for(machine, 1, now, 13));
        self.begin(2, &["Mordant", "Alum and tartar, studio"]);
        self.tend(never, |machine, _| step_of(machine, 1) == Some(StepKind::Cool));
        self.begin(3, &["Dye", "Madder root", "Madder at 80 \u{b0}C, 1916"]);
        self.reading(1, "38", &["reading_taken", "step_done"]);
        self.two_holds();
        self.a_round_for_all();
        self.one_pot_alone();
        self.a_quiet_spell();
        self = self.an_outage();
        self.tend(never, |machine, _| {
            machine.pots().all(|run| run.stand.ended.is_some())
        });
        self
    }

    /// The second of the two is let into its hold two minutes after a turn of the first, so that one walk does both.
    fn two_holds(&mut self) {
        self.tend(never, |machine, _| {
            turned_hold(machine, 1) || turned_hold(machine, 2)
        });
        let first = if turned_hold(&self.kitchen.machine(), 1) {
            1
        } else {
            2
        };
        let second = 3 - first;
        let waits = move |run: &PotRun| run.pot.0 == second && raises_to_turned_hold(run);
        self.tend(waits, move |machine, now| {
            let held = held_by(machine, first, now).ms() % Span::from_minutes(15).ms();
            let is_time = (Span::from_minutes(2).ms()..Span::from_minutes(3).ms()).contains(&held);
            let run = machine.pot(PotNo(second));
            is_time && run.is_some_and(|run| raises_to_turned_hold(run) && wants_hands(run, now))
        });
        let held = self.held(first);
        assert!(
            held < Span::from_minutes(20),
            "pot {second} came {held:?} after pot {first}"
        );
        self.serve(second);
    }

    fn a_round_for_all(&mut self) {
        self.until_round();
        self.kitchen.pass(Span::from_seconds(25));
        let Screen::Far(far) = self.kitchen.screen() else {
            panic!("nobody is near, yet {:?}", self.kitchen.screen());
        };
        assert_eq!(far.first, "TURN 1, 2");
        assert!(far.calling);
        self.come_near();
        let screen = self.shown();
        assert_eq!(
            (screen.act.verb.as_str(), screen.act.amount.as_str()),
            ("TURN", "1, 2")
        );
        assert_eq!(screen.slab.label, "All turned");
        let Page::Run(pot) = self.page() else {
            panic!("no pot")
        };
        self.serve(pot.0);
        assert!(!POTS.iter().any(|pot| rounds::calls_turn(&self.run(*pot))));
    }

    /// Only the first pot is turned, then the other; that one is taken back and turned again.
    fn one_pot_alone(&mut self) {
        self.until_round();
        self.to_pot(1);
        self.firm("Only this pot");
        self.note(1, &["turned"]);
        assert!(!rounds::calls_turn(&self.run(1)));
        assert!(
            rounds::calls_turn(&self.run(2)),
            "the other pot was turned as well"
        );
        self.to_pot(2);
        assert_eq!(self.shown().slab.label, "Turned");
        self.serve(2);
        self.take_back(2);
        assert!(
            rounds::calls_turn(&self.run(2)),
            "taken back, yet it calls no more"
        );
        self.serve(2);
        self.reading(1, "84", &["reading_taken"]);
    }

    /// All pots are quiet when the next turn is called: it stands on the glass and isn't heard.
    fn a_quiet_spell(&mut self) {
        self.tend(never, |machine, now| {
            let next = machine.pots().filter_map(PotRun::next_turn).map(|(_, at)| at);
            let soon = |at: Moment| at.since(now) < Span::from_minutes(5);
            next.into_iter().any(soon)
        });
        self.to_pot(1);
        self.press("more");
        self.firm("Quiet all");
        self.kitchen.pass(Span::from_seconds(1));
        assert!(
            self.notices()
                .iter()
                .any(|notice| notice.starts_with("QUIET for")),
            "{:?}",
            self.notices()
        );
        self.kitchen.sounded();
        self.until_round();
        let sounded = self.kitchen.sounded();
        let heard = sounded
            .iter()
            .find(|sound| sound.chime != Chime::Accepted && sound.chime.haste() < Haste::WithinOneMinute);
        assert_eq!(heard, None, "it was to be quiet");
        self.heard(1);
    }

    /// The power goes while two turns are called. Every pot has its card, and no hold counts meanwhile.
    fn an_outage(mut self) -> Self {
        let before = [self.held(1), self.held(2)];
        self.kitchen = self.kitchen.lose_power(AWAY);
        assert_eq!(self.page(), Page::Run(PotNo(1)), "no card came up");
        self.kitchen.pass(CARD);
        for pot in POTS {
            self.to_pot(pot);
            let Screen::Returned(card) = self.kitchen.screen() else {
                panic!("no return card for pot {pot} but {:?}", self.kitchen.screen());
            };
            assert_eq!(card.pot, i32::from(pot));
            if pot < 3 {
                let counted = before[usize::from(pot) - 1];
                assert!(self.held(pot) <= counted, "pot {pot}: the hold counted on");
            }
            self.firm("Carry on");
            self.note(pot, &["return_answered"]);
            assert_eq!(self.run(pot).outage, None);
            if pot < 3 {
                assert_eq!(
                    self.page(),
                    Page::Run(PotNo(pot + 1)),
                    "the next card waits unseen"
                );
            }
        }
        self
    }

    // What is left of it.

    /// The newest segment of every bath, read as the format is described and not by our own reader.
    fn lines(&self) -> Vec<Value> {
        let mut lines = Vec::new();
        let baths = std::fs::read_dir(self.kitchen.path("baths")).expect("baths");
        for bath in baths {
            let files = std::fs::read_dir(bath.expect("a bath").path()).expect("files");
            let mut segments: Vec<_> = files.map(|file| file.expect("a file").path()).collect();
            segments.retain(|file| file.extension().is_some_and(|ending| ending == "jsonl"));
            segments.sort();
            let newest = std::fs::read_to_string(segments.last().expect("a segment")).expect("it reads");
            lines.extend(
                newest
                    .lines()
                    .map(|line| serde_json::from_str::<Value>(line).expect("JSON")),
            );
        }
        let place = |line: &Value| {
            let at = |key: &str| line["at"][key].as_u64().expect("a moment");
            (
                at("stretch"),
                at("steady_ms"),
                line["pot"].as_u64(),
                line["n"].as_u64(),
            )
        };
        lines.sort_by_key(place);
        lines
    }

    /// Every fact that a hand made, in the order of time.
    fn acts(&self) -> Vec<Value> {
        let mut lines = self.lines();
        lines.retain(|line| line["act"].is_string());
        lines
    }

    fn left(&self) -> Left {
        let acts = self.acts().into_iter().map(|line| {
            serde_json::json!({
                "at": line["at"], "what": line["what"], "pot": line["pot"], "act": line["act"], "body": line["body"],
            })
        });
        Left {
            acts: acts.collect(),
            records: self.kitchen.records(),
        }
    }

    /// Every act is there once, in order, with its pot, and nothing else is.
    fn assert_all_kept(&self) {
        let mut kept: Vec<Did> = Vec::new();
        let mut ids: BTreeSet<(String, u64)> = BTreeSet::new();
        let mut last: Option<(String, u64)> = None;
        for line in self.acts() {
            let pot = line["pot"].as_u64().expect("a pot");
            let id = (line["act"].as_str().expect("an id").to_owned(), pot);
            let what = line["what"].as_str().expect("a kind").to_owned();
            if last.as_ref() == Some(&id) {
                kept.last_mut().expect("one before").kept_as.push(what);
            } else {
                assert!(ids.insert(id.clone()), "{id:?} is kept twice");
                kept.push(Did {
                    pot: u8::try_from(pot).expect("a pot"),
                    kept_as: vec![what],
                });
            }
            last = Some(id);
        }
        for (index, (kept, did)) in kept.iter().zip(&self.did).enumerate() {
            assert_eq!(kept, did, "act {index}");
        }
        assert_eq!(kept.len(), self.did.len());
    }

    /// By the wall clock of the test, a hold that an outage fell in was shorter than from its first tap to its last by
    /// the time away and the time of the open card; and by at most the minute whose beat the outage cut off.
    fn assert_no_hold_counts_an_outage(&self) {
        let records = self.kitchen.records();
        assert_eq!(records.len(), POTS.len(), "three baths, three sealed records");
        for record in &records {
            let pot = record["pot"].as_u64().expect("a pot");
            assert_eq!(record["ended"], "closed", "pot {pot}");
            let outages = record["outages"].as_array().expect("outages");
            assert_eq!(outages.len(), 1, "pot {pot}");
            assert_eq!(outages[0]["answer"], "carry-on", "pot {pot}");
            if pot == 3 {
                continue;
            }
            let steps = record["steps"].as_array().expect("steps");
            let at = steps
                .iter()
                .rposition(|step| step["do"] == "hold")
                .expect("a hold");
            let ended = |step: &Value| step["ended_wall_ms"].as_f64().expect("it ended") / 60_000.0;
            let between = ended(&steps[at]) - ended(&steps[at - 1]);
            let not_held = between - steps[at]["held_min"].as_f64().expect("held");
            let least = (AWAY.ms() + CARD.ms()) as f64 / 60_000.0;
            assert!(
                (least..least + 1.5).contains(&not_held),
                "pot {pot}: {not_held} minutes of {between} weren't held, {least} at least should not"
            );
        }
    }

    fn assert_right(&self) {
        self.assert_all_kept();
        self.assert_no_hold_counts_an_outage();
        assert!(self.came_forward > 10, "{} times forward", self.came_forward);
        let stumbled = self
            .notices()
            .into_iter()
            .find(|notice| notice.contains("stumbled"));
        assert_eq!(stumbled, None);
    }
}

const fn never(_: &PotRun) -> bool {
    false
}

/// Whether a dyer who looks at the pot now has something to do: a call, or a step in its own time.
fn wants_hands(run: &PotRun, now: Moment) -> bool {
    if run.stand.ended.is_some() {
        return false;
    }
    let called = !run.stand.calls.is_empty();
    match run.step().map(|step| &step.act) {
        None => false,
        Some(
            StepAct::Raise { .. }
            | StepAct::Hold { .. }
            | StepAct::Cool { .. }
            | StepAct::Look { .. }
            | StepAct::Dip { .. }
            | StepAct::Air { .. }
            | StepAct::Rest { .. },
        ) => called,
        Some(StepAct::Enter { .. }) => called || run.soaked_at().is_none_or(|at| at.since(now) == Span::NONE),
        Some(_) => true,
    }
}

fn step_of(machine: &Machine, pot: u8) -> Option<StepKind> {
    Some(machine.pot(PotNo(pot))?.step()?.act.kind())
}

fn held_by(machine: &Machine, pot: u8, now: Moment) -> Span {
    let hold = machine.pot(PotNo(pot)).and_then(|run| run.stand.hold);
    hold.map_or(Span::NONE, |hold| hold.held.at(now))
}

fn is_held_for(machine: &Machine, pot: u8, now: Moment, minutes: u64) -> bool {
    held_by(machine, pot, now) >= Span::from_minutes(minutes)
}

/// Whether the pot is in the hold in which its goods are turned.
fn turned_hold(machine: &Machine, pot: u8) -> bool {
    let step = machine.pot(PotNo(pot)).and_then(PotRun::step);
    step.is_some_and(|step| is_turned(&step.act))
}

const fn is_turned(act: &StepAct) -> bool {
    matches!(
        act,
        StepAct::Hold {
            turn_every: Some(_),
            ..
        }
    )
}

fn raises_to_turned_hold(run: &PotRun) -> bool {
    let next = run.plan.steps.get(run.stand.step.0 + 1);
    next.is_some_and(|next| is_turned(&next.act))
}

#[test]
fn an_afternoon_with_three_pots_is_kept_as_it_was_whether_by_fingers_or_by_keys() {
    let by_fingers = Afternoon::new(Hand::Finger).spend();
    by_fingers.assert_right();
    let by_keys = Afternoon::new(Hand::Key).spend();
    by_keys.assert_right();

    let (fingers, keys) = (by_fingers.left(), by_keys.left());
    for (finger, key) in fingers.acts.iter().zip(&keys.acts) {
        assert_eq!(finger, key);
    }
    assert!(fingers == keys, "the same afternoon left other facts by keys");
}
