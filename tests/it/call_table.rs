//! When the dyer is called, how, and when again: the whole rule as one table, and what must hold of it in any session.
//!
//! The figures are the design's own; that a call which asks for nothing is none, that the most pressing one goes first
//! and that heat is never left to itself are common practice, no source.

use std::fmt::Write as _;
use std::sync::Arc;

use expect_test::expect;

use potside::craft::time::{Moment, Span, Stretch};
use potside::machine::call::{Beside, CallKind, Standing, Urgency};
use potside::machine::chime::{Chime, Haste};
use potside::machine::voice::{OneVoice, QUIET_MOST};
use potside::machine::{Ask, Effect, Event, Input, Machine, PotNo, ReturnAnswer};
use potside::sheet::plan::{Plan, StepAct};
use potside::view::run;

use super::support::dice::{Dice, rounds};
use super::support::plans::{alum_bath, celsius};

const KINDS: [CallKind; 9] = [
    CallKind::Turn(1),
    CallKind::Look,
    CallKind::ActDue,
    CallKind::HoldOver,
    CallKind::CoolEnough,
    CallKind::HeatUnattended,
    CallKind::OverRun,
    CallKind::TooHot,
    CallKind::Returned,
];

fn at(seconds: u64) -> Moment {
    Moment {
        stretch: Stretch(0),
        steady_ms: seconds * 1_000,
        wall_ms: 0,
    }
}

fn clock(span: Span) -> String {
    let seconds = span.ms() / 1_000;
    assert_eq!(span.ms() % 1_000, 0, "whole seconds");
    format!("{}:{:02}", seconds / 60, seconds % 60)
}

fn standing(kind: CallKind) -> Standing {
    Standing {
        kind,
        since: at(0),
        quiet_until: None,
    }
}

/// The moments at which a call sounds, from the first on.
fn sounds(call: Standing, beside: Beside) -> impl Iterator<Item = Moment> {
    std::iter::successors(Some(at(0)), move |after| call.next_ring(beside, *after))
}

/// The first sound that a quiet of that length from the begin lets through.
fn first_through(call: Standing, beside: Beside, quiet: Option<Span>) -> String {
    let mut voice = OneVoice::default();
    if let Some(span) = quiet {
        voice.quiet(at(0), span);
    }
    let heard = sounds(call, beside).take(40).find(|now| {
        let ring = Effect::Ring(PotNo(1), call.kind.chime(call.urgency(beside, *now)));
        !voice.choose(&[ring], *now, quiet.is_none()).is_empty()
    });
    heard.map_or_else(|| "screen only".into(), |now| clock(now.since(at(0))))
}

/// The next sound after the dyer said *heard* at a time.
fn after_heard(call: Standing, beside: Beside, seconds: u64) -> String {
    let mut heard = call;
    heard.hear(beside, at(seconds));
    let next = heard.next_ring(beside, at(seconds));
    next.map_or_else(|| "screen only".into(), |now| clock(now.since(at(0))))
}

fn row(kind: CallKind, beside: Beside) -> String {
    let call = standing(kind);
    let first = call.urgency(beside, at(0));
    let again: Vec<String> = sounds(call, beside)
        .skip(1)
        .take(9)
        .map(|now| clock(now.since(at(0))))
        .collect();
    let goes_on = if again.len() == 9 { " ..." } else { "" };
    let urgent = (0..=3_600).find(|second| call.urgency(beside, at(*second)) == Urgency::Urgent);
    let mut row = String::new();
    writeln!(
        row,
        "{}{}{}: {first:?}, sounds {}",
        kind.id(),
        if beside.burner_on {
            ", burner on"
        } else {
            ", burner off"
        },
        if beside.turns_missed > 0 {
            ", three turns missed"
        } else {
            ""
        },
        kind.chime(first).key(),
    )
    .unwrap();
    writeln!(row, "  again at      {}{goes_on}", again.join(" ")).unwrap();
    let urgent = urgent.map_or_else(|| "never".into(), |second| clock(Span::from_seconds(second)));
    writeln!(row, "  urgent from   {urgent}").unwrap();
    writeln!(
        row,
        "  heard         at 0:10, again at {}; at 4:00, again at {}",
        after_heard(call, beside, 10),
        after_heard(call, beside, 240),
    )
    .unwrap();
    writeln!(
        row,
        "  first heard   in quiet for ten minutes {}; in quiet hours {}",
        first_through(call, beside, Some(QUIET_MOST)),
        first_through(call, beside, None),
    )
    .unwrap();
    row
}

#[test]
fn the_whole_table_of_calls() {
    let mut table = String::new();
    for kind in KINDS {
        for burner_on in [false, true] {
            let beside = |turns_missed| Beside {
                burner_on,
                turns_missed,
            };
            table += &row(kind, beside(0));
            if matches!(kind, CallKind::Turn(_)) {
                table += &row(kind, beside(3));
            }
        }
    }
    expect![[r#"
        turn-1, burner off: Turn, sounds turn
          again at      1:00
          urgent from   never
          heard         at 0:10, again at screen only; at 4:00, again at screen only
          first heard   in quiet for ten minutes screen only; in quiet hours screen only
        turn-1, burner off, three turns missed: Due, sounds turn
          again at      0:30 1:30 3:00 6:00 9:00 12:00 15:00 18:00 21:00 ...
          urgent from   never
          heard         at 0:10, again at 6:00; at 4:00, again at 9:00
          first heard   in quiet for ten minutes 12:00; in quiet hours screen only
        turn-1, burner on: Turn, sounds turn
          again at      1:00
          urgent from   never
          heard         at 0:10, again at screen only; at 4:00, again at screen only
          first heard   in quiet for ten minutes screen only; in quiet hours screen only
        turn-1, burner on, three turns missed: Due, sounds turn
          again at      0:30 1:30 3:00 6:00 9:00 12:00 15:00 18:00 21:00 ...
          urgent from   never
          heard         at 0:10, again at 6:00; at 4:00, again at 9:00
          first heard   in quiet for ten minutes 12:00; in quiet hours screen only
        look, burner off: Due, sounds look
          again at      3:00 15:00 75:00 135:00 195:00 255:00 315:00 375:00 435:00 ...
          urgent from   never
          heard         at 0:10, again at 15:00; at 4:00, again at 15:00
          first heard   in quiet for ten minutes 15:00; in quiet hours screen only
        look, burner on: Due, sounds look
          again at      2:00 4:00 6:00 9:00 12:00 15:00 18:00 21:00 24:00 ...
          urgent from   never
          heard         at 0:10, again at 6:00; at 4:00, again at 9:00
          first heard   in quiet for ten minutes 12:00; in quiet hours screen only
        act-due, burner off: Due, sounds due
          again at      0:30 1:30 3:00 6:00 9:00 12:00 15:00 18:00 21:00 ...
          urgent from   never
          heard         at 0:10, again at 6:00; at 4:00, again at 9:00
          first heard   in quiet for ten minutes 12:00; in quiet hours screen only
        act-due, burner on: Due, sounds due
          again at      0:30 1:30 3:00 6:00 9:00 12:00 15:00 18:00 21:00 ...
          urgent from   never
          heard         at 0:10, again at 6:00; at 4:00, again at 9:00
          first heard   in quiet for ten minutes 12:00; in quiet hours screen only
        hold-over, burner off: Due, sounds ready
          again at      0:30 1:30 3:00 6:00 9:00 12:00 15:00 18:00 21:00 ...
          urgent from   never
          heard         at 0:10, again at 6:00; at 4:00, again at 9:00
          first heard   in quiet for ten minutes 12:00; in quiet hours screen only
        hold-over, burner on: Due, sounds ready
          again at      0:30 1:30 3:00 5:00 5:10 5:20 5:30 5:40 5:50 ...
          urgent from   5:00
          heard         at 0:10, again at 5:00; at 4:00, again at 5:00
          first heard   in quiet for ten minutes 5:00; in quiet hours 5:00
        cool-enough, burner off: Due, sounds ready
          again at      3:00 15:00 75:00 135:00 195:00 255:00 315:00 375:00 435:00 ...
          urgent from   never
          heard         at 0:10, again at 15:00; at 4:00, again at 15:00
          first heard   in quiet for ten minutes 15:00; in quiet hours screen only
        cool-enough, burner on: Due, sounds ready
          again at      3:00 15:00 75:00 135:00 195:00 255:00 315:00 375:00 435:00 ...
          urgent from   never
          heard         at 0:10, again at 15:00; at 4:00, again at 15:00
          first heard   in quiet for ten minutes 15:00; in quiet hours screen only
        heat-unattended, burner off: Due, sounds due
          again at      0:30 1:30 3:00 6:00 9:00 12:00 15:00 18:00 21:00 ...
          urgent from   never
          heard         at 0:10, again at 6:00; at 4:00, again at 9:00
          first heard   in quiet for ten minutes 12:00; in quiet hours screen only
        heat-unattended, burner on: Due, sounds due
          again at      0:30 1:30 3:00 5:00 5:10 5:20 5:30 5:40 5:50 ...
          urgent from   5:00
          heard         at 0:10, again at 5:00; at 4:00, again at 5:00
          first heard   in quiet for ten minutes 5:00; in quiet hours 5:00
        over-run, burner off: Urgent, sounds urgent
          again at      0:10 0:20 0:30 0:40 0:50 1:00 1:30 2:00 2:30 ...
          urgent from   0:00
          heard         at 0:10, again at 2:30; at 4:00, again at 6:00
          first heard   in quiet for ten minutes 0:00; in quiet hours 0:00
        over-run, burner on: Urgent, sounds urgent
          again at      0:10 0:20 0:30 0:40 0:50 1:00 1:30 2:00 2:30 ...
          urgent from   0:00
          heard         at 0:10, again at 2:30; at 4:00, again at 6:00
          first heard   in quiet for ten minutes 0:00; in quiet hours 0:00
        too-hot, burner off: Urgent, sounds urgent
          again at      0:10 0:20 0:30 0:40 0:50 1:00 1:30 2:00 2:30 ...
          urgent from   0:00
          heard         at 0:10, again at 2:30; at 4:00, again at 6:00
          first heard   in quiet for ten minutes 0:00; in quiet hours 0:00
        too-hot, burner on: Urgent, sounds urgent
          again at      0:10 0:20 0:30 0:40 0:50 1:00 1:30 2:00 2:30 ...
          urgent from   0:00
          heard         at 0:10, again at 2:30; at 4:00, again at 6:00
          first heard   in quiet for ten minutes 0:00; in quiet hours 0:00
        returned, burner off: Urgent, sounds urgent
          again at      0:10 0:20 0:30 0:40 0:50 1:00 1:30 2:00 2:30 ...
          urgent from   0:00
          heard         at 0:10, again at 2:30; at 4:00, again at 6:00
          first heard   in quiet for ten minutes 0:00; in quiet hours 0:00
        returned, burner on: Urgent, sounds urgent
          again at      0:10 0:20 0:30 0:40 0:50 1:00 1:30 2:00 2:30 ...
          urgent from   0:00
          heard         at 0:10, again at 2:30; at 4:00, again at 6:00
          first heard   in quiet for ten minutes 0:00; in quiet hours 0:00
    "#]]
    .assert_eq(&table);
}

fn all_besides() -> impl Iterator<Item = Beside> {
    [false, true].into_iter().flat_map(|burner_on| {
        (0..5).map(move |turns_missed| Beside {
            burner_on,
            turns_missed,
        })
    })
}

#[test]
fn a_call_that_is_due_sounds_again_for_ever() {
    let mut dice = Dice::new(11);
    for kind in KINDS {
        for beside in all_besides() {
            for _ in 0..200 {
                let mut call = standing(kind);
                let after = at(dice.between(0, 48 * 3_600));
                let heard = dice.once_in(2);
                if heard {
                    call.hear(beside, after);
                }
                let (urgency, next) = (call.urgency(beside, after), call.next_ring(beside, after));
                if urgency == Urgency::Turn {
                    continue;
                }
                let wait = next.expect("it sounds again").since(after);
                assert!(wait > Span::NONE, "{kind:?} {beside:?} {after:?}");
                let longest = match (urgency, kind) {
                    (Urgency::Urgent, _) => 30,
                    (_, CallKind::CoolEnough) => 3_600,
                    // A sign beside a cold burner is waited for through hours.
                    (_, CallKind::Look) if !beside.burner_on => 3_600,
                    _ => 180,
                };
                let quiet = match (heard, urgency) {
                    (false, _) => 0,
                    (true, Urgency::Urgent) => 120,
                    (true, _) => 300,
                };
                assert!(
                    wait <= Span::from_seconds(longest + quiet),
                    "{kind:?} {beside:?} {after:?} {wait:?}"
                );
                if heard && urgency == Urgency::Urgent {
                    assert!(wait >= Span::from_seconds(120), "heard is heard: {wait:?}");
                }
            }
        }
    }
}

#[test]
fn a_call_that_was_heard_is_quiet_but_not_beyond_the_moment_it_grows_urgent() {
    let beside = Beside {
        burner_on: true,
        turns_missed: 0,
    };
    for kind in [CallKind::HoldOver, CallKind::HeatUnattended] {
        for second in 0..300 {
            assert_eq!(
                after_heard(standing(kind), beside, second),
                "5:00",
                "{kind:?} heard at {second} s"
            );
        }
        assert_eq!(after_heard(standing(kind), beside, 300), "7:00");
    }
}

#[test]
fn a_quiet_that_is_over_changes_nothing_and_no_sound_comes_twice() {
    for kind in KINDS {
        for beside in all_besides() {
            let mut heard = standing(kind);
            heard.hear(beside, at(10));
            for second in 310..1_500 {
                assert_eq!(
                    heard.next_ring(beside, at(second)),
                    standing(kind).next_ring(beside, at(second)),
                    "{kind:?} {beside:?} at {second} s"
                );
            }
            let mut after = at(10);
            for _ in 0..30 {
                let Some(next) = heard.next_ring(beside, after) else {
                    break;
                };
                assert!(next.steady_ms > after.steady_ms, "{kind:?} {beside:?} {after:?}");
                after = next;
            }
        }
    }
}

#[test]
fn the_ids_of_all_kinds_read_back() {
    for kind in KINDS.into_iter().chain([CallKind::Turn(0), CallKind::Turn(99)]) {
        assert_eq!(CallKind::from_id(&kind.id()), Some(kind));
    }
    for none in ["", "turn", "turn-", "turn-x", "turn--1", "Look", "due"] {
        assert_eq!(CallKind::from_id(none), None, "{none}");
    }
}

const RINGS: [Chime; 6] = Chime::ALL;

#[test]
fn whatever_wants_to_be_heard_the_voice_keeps_its_rule() {
    let mut dice = Dice::new(12);
    let (mut urgent, mut covered) = (0, 0);
    for _ in 0..rounds(2_000) {
        let mut voice = OneVoice::default();
        let mut now = at(dice.between(0, 10_000));
        let mut last: Option<(Moment, Haste)> = None;
        for _ in 0..30 {
            now = now.plus(Span::from_ms(
                dice.one_of(&[0, 1, 9_999, 10_000, 19_999, 20_000, 60_000]),
            ));
            if dice.once_in(6) {
                voice.quiet(now, Span::from_seconds(dice.between(0, 2_000)));
                assert!(voice.quiet_left(now).is_none_or(|left| left <= QUIET_MOST));
            }
            if dice.once_in(12) {
                voice.end_quiet();
            }
            let wants: Vec<Effect> = (0..dice.between(0, 4))
                .map(|_| Effect::Ring(PotNo(dice.between(1, 6) as u8), dice.one_of(&RINGS)))
                .collect();
            let (hours, quieted) = (dice.once_in(5), voice.quiet_left(now).is_some());
            let sounds = voice.choose(&wants, now, hours);
            let wanted = |haste| {
                wants
                    .iter()
                    .any(|one| matches!(one, Effect::Ring(_, chime) if chime.haste() == haste))
            };
            let calls: Vec<Chime> = sounds
                .iter()
                .map(|one| one.chime)
                .filter(|one| *one != Chime::Accepted)
                .collect();
            assert!(calls.len() <= 1, "one voice at a time");
            assert_eq!(
                sounds.len() - calls.len(),
                usize::from(wanted(Haste::Answer)),
                "a tap is answered"
            );
            if wanted(Haste::WithinOneMinute) {
                assert_eq!(calls, [Chime::Urgent], "nothing silences what is urgent");
                urgent += 1;
            } else if hours || quieted {
                assert!(calls.is_empty(), "quiet is quiet");
            } else if let Some(haste) = [Haste::WithinFiveMinutes, Haste::InItsWindow]
                .into_iter()
                .find(|one| wanted(*one))
            {
                let is_covered = last.is_some_and(|(before, pressed)| {
                    now.since(before) < Span::from_seconds(20) && pressed >= haste
                });
                assert_eq!(calls.is_empty(), is_covered);
                assert!(
                    calls.iter().all(|chime| chime.haste() == haste),
                    "the most pressing"
                );
                covered += u64::from(is_covered);
            }
            for sound in &sounds {
                let pots: Vec<u8> = sound.pots.iter().map(|pot| pot.0).collect();
                let mut of: Vec<u8> = wants
                    .iter()
                    .filter_map(|one| match one {
                        Effect::Ring(pot, chime) if *chime == sound.chime => Some(pot.0),
                        _ => None,
                    })
                    .collect();
                of.sort_unstable();
                of.dedup();
                assert_eq!(pots, of, "for all that make it, each once");
            }
            if let Some(chime) = calls.first() {
                last = Some((now, chime.haste()));
            }
        }
    }
    assert!(
        urgent > 100 && covered > 100,
        "both come up: {urgent} urgent, {covered} covered"
    );
}

/// Several pots, driven as the keeper drives them, and what was sounded.
struct Stove {
    machine: Machine,
    plans: Vec<Arc<Plan>>,
    now: Moment,
    voice: OneVoice,
    sounded: Option<(Moment, Haste)>,
    /// For each pot when hands last did something at it, or the program came back.
    touched: Vec<Moment>,
    calls: u64,
    urgent: u64,
}

const POTS: usize = 4;

impl Stove {
    fn new() -> Self {
        Self {
            machine: Machine::default(),
            plans: [Some(15), Some(5), None]
                .map(|every| turned_every(every.map(Span::from_minutes)))
                .to_vec(),
            now: at(1_000),
            voice: OneVoice::default(),
            sounded: None,
            touched: vec![at(0); POTS + 1],
            calls: 0,
            urgent: 0,
        }
    }

    fn take(&mut self, input: &Input) {
        let Ok(events) = self.machine.judge(input, self.now) else {
            return;
        };
        let by_hand = !matches!(input, Input::Tick | Input::Beat);
        for event in &events {
            self.machine.apply(event);
            if by_hand {
                self.touched[usize::from(event.pot.0)] = self.now;
            }
        }
        let effects: Vec<Effect> = events
            .iter()
            .flat_map(|event: &Event| self.machine.effects(event))
            .collect();
        self.sound(&effects);
    }

    /// Whatever rings is heard: itself, or something as pressing within the last twenty seconds.
    fn sound(&mut self, effects: &[Effect]) {
        for sound in self.voice.choose(effects, self.now, false) {
            if sound.chime != Chime::Accepted {
                self.sounded = Some((self.now, sound.chime.haste()));
            }
        }
        for effect in effects {
            if let Effect::Ring(pot, chime) = effect
                && *chime != Chime::Accepted
            {
                let (when, haste) = self.sounded.expect("something sounded");
                let lately = self.now.since(when) < Span::from_seconds(20);
                assert!(
                    lately && haste >= chime.haste(),
                    "pot {} rings {chime:?} unheard",
                    pot.0
                );
                self.calls += 1;
                self.urgent += u64::from(*chime == Chime::Urgent);
            }
        }
    }

    fn pass(&mut self, span: Span) {
        let until = self.now.plus(span);
        loop {
            let looked = self.now;
            let due = self.machine.next_deadline(looked).map_or(until, |(at, _)| at);
            let ahead = due.since(looked).min(until.since(looked)).max(Span::from_ms(5));
            self.now = looked.plus(ahead);
            let rings = self.machine.rings(looked, self.now);
            self.sound(&rings);
            self.take(&Input::Tick);
            self.check();
            if self.now.steady_ms >= until.steady_ms {
                return;
            }
        }
    }

    /// Heat is never left to itself, and no call is without something to do.
    fn check(&self) {
        let zone = chrono::FixedOffset::east_opt(0).unwrap();
        for run in self.machine.pots() {
            let urgency = |call: &Standing| call.urgency(run.beside(), self.now);
            let most = run.stand.calls.iter().map(urgency).max();
            if run.stand.burner_on {
                let turn_every = match run.step().map(|step| &step.act) {
                    Some(StepAct::Hold { turn_every, .. }) => {
                        turn_every.map_or(99, |every| every.ms() / 60_000)
                    }
                    _ => 99,
                };
                let limit = Span::from_minutes(20.min(turn_every + 5));
                let idle = self.now.since(self.touched[usize::from(run.pot.0)]);
                let told = format!(
                    "pot {}, {idle:?} after the last hand, at step {:?}",
                    run.pot.0, run.stand.step
                );
                if idle >= limit {
                    assert!(most >= Some(Urgency::Due), "nobody is called: {told}");
                }
                if idle >= limit.plus(Span::from_minutes(5)) {
                    assert_eq!(most, Some(Urgency::Urgent), "nobody is called urgently: {told}");
                    let urgent = |call: &&Standing| urgency(call) == Urgency::Urgent;
                    let next = run
                        .stand
                        .calls
                        .iter()
                        .filter(urgent)
                        .filter_map(|call| call.next_ring(run.beside(), self.now));
                    let soonest = next.map(|at| at.since(self.now)).min().unwrap();
                    assert!(soonest <= Span::from_seconds(30), "and not soon again: {told}");
                }
            }
            if !run.stand.calls.is_empty() {
                let screen = run::screen(
                    &self.machine,
                    run.pot,
                    self.now,
                    potside::view::locale::Locale::plain(zone),
                    false,
                )
                .unwrap();
                assert!(
                    !screen.act.verb.is_empty(),
                    "{:?} asks for nothing",
                    run.stand.calls
                );
            }
        }
    }

    fn hand(&mut self, dice: &mut Dice) {
        let pot = PotNo(dice.between(1, POTS as u64) as u8);
        let Some(run) = self.machine.pot(pot).filter(|run| run.stand.ended.is_none()) else {
            let plan = Arc::clone(&self.plans[dice.between(0, 2) as usize]);
            self.take(&Input::Begin {
                pot,
                bath_id: format!("bath-{}", self.now.steady_ms),
                plan,
                cautions_read: true,
            });
            return;
        };
        let step = run.stand.step;
        let confirm = Ask::Confirm { step, sure: true };
        let ask = match dice.between(0, 13) {
            0 => Ask::Heard,
            1 => Ask::Reading(celsius(dice.real(70.0, 99.0))),
            2 => Ask::TakeBack,
            3 => Ask::BackToRaise,
            4 => {
                self.take(&Input::TurnRound);
                return;
            }
            5 => {
                self.come_back(dice);
                return;
            }
            6 | 7 => Ask::AnswerReturn(dice.one_of(&[
                ReturnAnswer::CarryOn,
                ReturnAnswer::CountIt,
                ReturnAnswer::HoldAgain,
                ReturnAnswer::BackToRaise,
            ])),
            _ => confirm,
        };
        self.take(&Input::Pot(pot, ask));
    }

    fn come_back(&mut self, dice: &mut Dice) {
        let away = Span::from_seconds(dice.between(20, 7_200));
        self.now = Moment {
            stretch: Stretch(self.now.stretch.0 + 1),
            steady_ms: dice.between(0, 100_000),
            wall_ms: 0,
        };
        self.take(&Input::Returned {
            at_least: away,
            at_most: None,
        });
        self.take(&Input::Tick);
    }
}

fn turned_every(every: Option<Span>) -> Arc<Plan> {
    let mut plan = alum_bath().as_ref().clone();
    for step in &mut plan.steps {
        if let StepAct::Hold { turn_every, .. } = &mut step.act {
            *turn_every = every;
        }
    }
    Arc::new(plan)
}

#[test]
fn heat_is_never_left_to_itself_whatever_goes_on_at_other_pots() {
    let (mut calls, mut urgent) = (0, 0);
    let sessions = rounds(12);
    for seed in 0..sessions {
        let mut dice = Dice::new(seed);
        let mut stove = Stove::new();
        for _ in 0..60 {
            stove.hand(&mut dice);
            let seconds = match dice.between(0, 7) {
                0 => dice.between(0, 3_600),
                1 | 2 => dice.between(0, 900),
                _ => dice.between(0, 90),
            };
            stove.pass(Span::from_seconds(seconds));
        }
        calls += stove.calls;
        urgent += stove.urgent;
    }
    println!("{sessions} sessions, {calls} rings, {urgent} of them urgent");
    assert!(urgent > sessions, "some are left alone: {urgent}");
}

#[test]
fn goods_that_soak_through_an_outage_call_when_they_are_soaked() {
    let mut stove = Stove::new();
    let pot = PotNo(1);
    let mut plan = alum_bath().as_ref().clone();
    // Straight from the soak to entering.
    plan.steps.retain(|step| {
        matches!(
            step.act,
            StepAct::WetOut { .. } | StepAct::Enter { .. } | StepAct::Shelve
        )
    });
    stove.take(&Input::Begin {
        pot,
        bath_id: "bath".into(),
        plan: Arc::new(plan),
        cautions_read: true,
    });
    let step = stove.machine.pot(pot).unwrap().stand.step;
    stove.take(&Input::Pot(pot, Ask::Confirm { step, sure: true }));
    stove.pass(Span::from_minutes(10));
    stove.take(&Input::Beat);
    stove.now = Moment {
        stretch: Stretch(1),
        steady_ms: 40_000,
        wall_ms: 0,
    };
    stove.take(&Input::Returned {
        at_least: Span::from_minutes(5),
        at_most: None,
    });
    stove.pass(Span::from_minutes(1));
    stove.take(&Input::Pot(pot, Ask::AnswerReturn(ReturnAnswer::CarryOn)));
    let calls = |stove: &Stove| {
        stove
            .machine
            .pot(pot)
            .unwrap()
            .stand
            .calls
            .iter()
            .map(|call| call.kind)
            .collect::<Vec<_>>()
    };
    assert_eq!(calls(&stove), []);
    stove.pass(Span::from_minutes(13));
    assert_eq!(calls(&stove), []);
    stove.pass(Span::from_minutes(2));
    assert_eq!(
        calls(&stove),
        [CallKind::ActDue],
        "half an hour of soaking, five minutes of it unwatched"
    );
}
