//! Calls of several pots: turns that fall together, turns missed too often, and the one voice that sounds them.

use expect_test::expect;

use potside::craft::time::{Moment, Span, Stretch};
use potside::machine::chime::Chime;
use potside::machine::rounds;
use potside::machine::voice::{OneVoice, QUIET_MOST, QuietHours, Sound};
use potside::machine::{Effect, PotNo};
use potside::view::run;

use super::support::plans::alum_bath;
use super::support::script::Stage;

/// Begins a bath in a pot and brings it to its hold at a minute of the clock.
fn to_hold(pot: u8, hold_at: &str) -> String {
    format!(
        "{hold_at} pot {pot} begin\n{hold_at} pot {pot} confirm\n{hold_at} pot {pot} confirm\n{hold_at} pot {pot} confirm
        {hold_at} pot {pot} confirm\n{hold_at} pot {pot} confirm\n{hold_at} pot {pot} confirm sure\n{hold_at} pot {pot} reading 85"
    )
}

/// What a script told from a clock time on.
fn told_from(script: &str, from: &str) -> String {
    let told = Stage::new(&alum_bath()).play(script);
    let later = told.lines().filter(|line| *line >= from);
    later.map(|line| format!("{line}\n")).collect()
}

#[test]
fn turns_whose_windows_overlap_are_called_together_and_made_by_one_tap() {
    let script = format!(
        "{}\n{}\n{}\n1:16 pot 1 round\n1:40",
        to_hold(1, "1:00"),
        to_hold(2, "1:03"),
        to_hold(3, "1:09")
    );
    // Pots 1 and 2 would be called at 1:15 and 1:18: within four minutes. Pot 3, at 1:24, is a walk of its own.
    expect![[r#"
        1:15:00 pot 1 call turn-1
        1:15:00 pot 2 call turn-1
        1:16:00 pot 1 turned 1
        1:16:00 pot 2 turned 1
        1:24:00 pot 3 call turn-1
        1:29:00 pot 3 call heat-unattended
        1:30:00 pot 1 call turn-2
        1:30:00 pot 2 call turn-2
        1:36:00 pot 1 call heat-unattended
        1:36:00 pot 2 call heat-unattended
        1:39:00 pot 3 missed turn 1
        1:39:00 pot 3 call turn-2
    "#]]
    .assert_eq(&told_from(&script, "1:10"));
}

/// What a script told of calls to turn, from a clock time on.
fn turns_called_from(script: &str, from: &str) -> Vec<String> {
    let told = told_from(script, from);
    let called = told.lines().filter(|line| line.contains("call turn"));
    called.map(str::to_owned).collect()
}

#[test]
fn a_pot_that_wants_no_turn_now_is_not_drawn_into_a_round() {
    let one = to_hold(1, "1:00");
    let stopped = format!("{one}\n{}\n1:14 pot 2 stop\n1:16", to_hold(2, "1:03"));
    assert_eq!(turns_called_from(&stopped, "1:10"), ["1:15:00 pot 1 call turn-1"]);

    // The dyer has answered for the first pot and not for the second.
    let away = format!(
        "{one}\n{}\n1:10 pot 1 returned 1 1\n1:11 pot 1 answer carry-on\n1:40",
        to_hold(2, "1:03")
    );
    let called = turns_called_from(&away, "1:11");
    assert!(
        !called.is_empty() && called.iter().all(|line| line.contains("pot 1")),
        "{called:?}"
    );

    // Its first turn still stands called, and its second would be three minutes ahead.
    let called_already = format!("{one}\n{}\n1:28", to_hold(2, "1:12"));
    assert_eq!(
        turns_called_from(&called_already, "1:10"),
        ["1:15:00 pot 1 call turn-1", "1:27:00 pot 2 call turn-1"]
    );
}

#[test]
fn a_round_leaves_nobody_out_and_each_pot_may_be_answered_by_itself() {
    let mut stage = Stage::new(&alum_bath());
    stage.play(&format!("{}\n{}\n1:15", to_hold(1, "1:00"), to_hold(2, "1:03")));
    assert_eq!(rounds::round(stage.machine.pots()), [PotNo(1), PotNo(2)]);
    stage.play("1:16 pot 2 confirm");
    assert_eq!(rounds::round(stage.machine.pots()), [PotNo(1)]);
}

#[test]
fn nothing_called_is_no_round() {
    let told = Stage::new(&alum_bath()).play(&format!("{}\n1:05 pot 1 round", to_hold(1, "1:00")));
    assert!(
        told.contains("refused: no pot calls for a turn just now"),
        "{told}"
    );
}

#[test]
fn the_glass_says_which_pots_and_offers_one_alone() {
    let mut stage = Stage::new(&alum_bath());
    stage.play(&format!("{}\n{}\n1:15", to_hold(1, "1:00"), to_hold(2, "1:03")));
    let zone = chrono::FixedOffset::east_opt(0).unwrap();
    let screen = run::screen(
        &stage.machine,
        PotNo(2),
        stage.now(),
        potside::view::locale::Locale::plain(zone),
        false,
    )
    .unwrap();
    assert_eq!(
        (screen.act.verb.as_str(), screen.act.amount.as_str()),
        ("TURN", "1, 2")
    );
    assert_eq!(
        (screen.slab.key.as_str(), screen.slab.label.as_str()),
        ("turn-round", "All turned")
    );
    assert_eq!(screen.other.label, "Only this pot");
    assert!(screen.other.key.starts_with("confirm-"));
}

#[test]
fn the_fourth_turn_after_three_missed_is_due_like_any_act() {
    let mut stage = Stage::new(&alum_bath());
    // The bath of the tests holds for an hour and is turned every quarter: three reminders in all, so the hold is begun anew.
    stage.play(&to_hold(1, "1:00"));
    stage.play("1:46");
    let run = stage.machine.pot(PotNo(1)).unwrap();
    assert_eq!(run.beside().turns_missed, 2);
    let third = run
        .stand
        .calls
        .iter()
        .find(|call| matches!(call.kind, potside::machine::call::CallKind::Turn(3)))
        .unwrap();
    use potside::machine::call::{Beside, Urgency};
    let missed = |turns_missed| Beside {
        burner_on: true,
        turns_missed,
    };
    assert_eq!(third.urgency(missed(2), stage.now()), Urgency::Turn);
    assert_eq!(third.urgency(missed(3), stage.now()), Urgency::Due);
    // A turn call sounds twice; a due one goes on.
    let after = |minutes| stage.now().plus(Span::from_minutes(minutes));
    assert_eq!(third.next_ring(missed(2), after(10)), None);
    assert!(third.next_ring(missed(3), after(10)).is_some());
}

fn at(seconds: u64) -> Moment {
    Moment {
        stretch: Stretch(0),
        steady_ms: seconds * 1_000,
        wall_ms: 0,
    }
}

fn ring(pot: u8, chime: Chime) -> Effect {
    Effect::Ring(PotNo(pot), chime)
}

fn sound(chime: Chime, pots: &[u8]) -> Sound {
    Sound {
        chime,
        pots: pots.iter().copied().map(PotNo).collect(),
    }
}

#[test]
fn one_voice_sounds_the_most_pressing_for_all_that_make_it() {
    // Each row: what wants to be heard, what is sounded.
    let table: [(&[Effect], &[Sound]); 7] = [
        (&[], &[]),
        (&[ring(1, Chime::Accepted)], &[sound(Chime::Accepted, &[1])]),
        (
            &[ring(3, Chime::Turn), ring(1, Chime::Turn), ring(4, Chime::Turn)],
            &[sound(Chime::Turn, &[1, 3, 4])],
        ),
        (
            &[ring(1, Chime::Turn), ring(2, Chime::Urgent)],
            &[sound(Chime::Urgent, &[2])],
        ),
        (
            &[ring(2, Chime::Look), ring(1, Chime::Due)],
            &[sound(Chime::Look, &[2])],
        ),
        (
            &[ring(1, Chime::Accepted), ring(2, Chime::Due)],
            &[sound(Chime::Accepted, &[1]), sound(Chime::Due, &[2])],
        ),
        (&[Effect::Seal(PotNo(1))], &[]),
    ];
    for (wants, sounds) in table {
        assert_eq!(
            OneVoice::default().choose(wants, at(100), false),
            sounds,
            "{wants:?}"
        );
    }
}

#[test]
fn calls_within_twenty_seconds_are_one_sound_unless_they_press_more() {
    let mut voice = OneVoice::default();
    assert_eq!(voice.choose(&[ring(1, Chime::Due)], at(100), false).len(), 1);
    assert_eq!(voice.choose(&[ring(2, Chime::Due)], at(119), false), []);
    assert_eq!(voice.choose(&[ring(2, Chime::Turn)], at(119), false), []);
    assert_eq!(voice.choose(&[ring(2, Chime::Due)], at(120), false).len(), 1);
    assert_eq!(voice.choose(&[ring(3, Chime::Urgent)], at(121), false).len(), 1);
    assert_eq!(
        voice.choose(&[ring(3, Chime::Urgent)], at(131), false).len(),
        1,
        "every ten seconds"
    );
    assert_eq!(
        voice.choose(&[ring(1, Chime::Accepted)], at(132), false).len(),
        1,
        "a tap is answered"
    );
}

#[test]
fn quiet_ends_by_itself_and_never_holds_back_what_is_urgent() {
    let mut voice = OneVoice::default();
    voice.quiet(at(0), Span::from_minutes(600));
    assert_eq!(voice.quiet_left(at(0)), Some(QUIET_MOST));
    assert_eq!(voice.choose(&[ring(1, Chime::Due)], at(30), false), []);
    assert_eq!(voice.choose(&[ring(1, Chime::Urgent)], at(31), false).len(), 1);
    assert_eq!(voice.choose(&[ring(1, Chime::Due)], at(600), false).len(), 1);
    voice.quiet(at(700), Span::from_minutes(5));
    voice.end_quiet();
    assert_eq!(voice.choose(&[ring(1, Chime::Due)], at(701), false).len(), 1);
}

#[test]
fn quiet_hours_span_midnight() {
    let night = QuietHours {
        from: 22 * 60,
        until: 7 * 60,
    };
    let noon = QuietHours {
        from: 12 * 60,
        until: 13 * 60,
    };
    let never = QuietHours { from: 60, until: 60 };
    for (minute, in_night, at_noon) in [
        (0, true, false),
        (419, true, false),
        (420, false, false),
        (720, false, true),
        (779, false, true),
        (780, false, false),
        (1_320, true, false),
    ] {
        assert_eq!(
            (night.holds(minute), noon.holds(minute), never.holds(minute)),
            (in_night, at_noon, false),
            "{minute}"
        );
    }
    let mut voice = OneVoice::default();
    assert_eq!(voice.choose(&[ring(1, Chime::Ready)], at(0), true), []);
    assert_eq!(voice.choose(&[ring(1, Chime::Urgent)], at(1), true).len(), 1);
}
