//! The rail, home, the far view and the return card: what stands on each, from the same pots.

use std::fmt::Write as _;
use std::sync::Arc;

use chrono::FixedOffset;
use expect_test::expect;
use potside::machine::PotNo;
use potside::sheet::plan::{Plan, StepAct};
use potside::view::locale::Locale;
use potside::view::probably::probably;
use potside::view::{far, next, returned, run, stove};

use crate::support::plans::{alum_bath, celsius};
use crate::support::script::Stage;

fn plain() -> Locale {
    Locale::plain(FixedOffset::east_opt(8 * 3_600).unwrap())
}

/// Six pots, each in another phase of the same bath.
fn six() -> Stage {
    let mut stage = Stage::new(&alum_bath());
    let told = stage.play(
        "
        0:00 pot 3 begin
        0:00 pot 3 confirm
        0:00 pot 3 confirm
        0:00 pot 3 confirm
        0:00 pot 3 confirm
        0:00 pot 3 confirm
        0:31 pot 3 confirm
        1:05 pot 3 confirm
        2:05 pot 3 confirm
        2:10 pot 1 begin
        2:10 pot 1 confirm
        2:10 pot 1 confirm
        2:10 pot 1 confirm
        2:10 pot 1 confirm
        2:10 pot 1 confirm
        2:12 pot 4 begin
        2:12 pot 4 confirm
        2:12 pot 4 confirm
        2:12 pot 4 confirm
        2:12 pot 4 confirm
        2:12 pot 4 confirm
        2:41 pot 1 confirm
        2:50 pot 4 confirm
        3:00 pot 5 begin
        3:00 pot 5 confirm
        3:00 pot 5 confirm
        3:00 pot 5 confirm
        3:00 pot 5 confirm
        3:00 pot 5 confirm
        3:13 pot 1 confirm
        3:14 pot 2 begin
        3:14 pot 2 confirm
        3:14 pot 2 confirm
        3:14 pot 2 confirm
        3:14 pot 4 heard
        3:14 pot 6 begin
        3:14:30",
    );
    assert!(!told.contains("refused"), "{told}");
    stage
}

#[test]
fn six_pots_each_tell_their_next_act_and_time() {
    let stage = six();
    let screen = run::screen(&stage.machine, PotNo(2), stage.now(), plain(), false).unwrap();
    let mut read = String::new();
    for pot in &screen.rail {
        let forward = if pot.forward { ">" } else { " " };
        let calling = if pot.calling { "!" } else { " " };
        writeln!(
            read,
            "{forward}{calling}{} {} / {} ({})",
            pot.pot, pot.act, pot.time, pot.said
        )
        .unwrap();
        assert!(pot.act.chars().count() <= 14 && pot.time.chars().count() <= 8);
    }
    expect![[r#"
          1 turn / 14 min (pot 1, turn the goods, 14 min, next turn)
        > 2 dissolve / now (pot 2, DISSOLVE 15.0 g alum (potash), now, your hands)
          3 cool to 40° / 12:55 (pot 3, cool to 40 °C, 12:55, about)
          4 raise to 85° / 12 min (pot 4, raise to 85 °C, 12 min, about)
          5 soak / 16 min (pot 5, soak, then enter, 16 min, soak left)
          6 wet out / now (pot 6, WET OUT 100 g, now, your hands)
    "#]]
    .assert_eq(&read);
}

#[test]
fn home_shows_every_pot_going_and_no_more_than_six() {
    let stage = six();
    let screen = stove::screen(&stage.machine, stage.now(), plain());
    let mut read = format!(
        "{} {} can begin {}\n",
        screen.clock, screen.date, screen.can_begin
    );
    for pot in &screen.pots {
        let calling = if pot.calling { "!" } else { " " };
        writeln!(
            read,
            "{calling}{} {} / {} {} / {}",
            pot.pot, pot.act, pot.time, pot.time_label, pot.title
        )
        .unwrap();
    }
    expect![[r#"
        11:14 Thursday 1 January can begin false
         1 turn the goods / 14 min at 11:28 / Test alum, wool, 2 hanks
         2 DISSOLVE 15.0 g alum (potash) / now your hands / Test alum, wool, 2 hanks
         3 cool to 40 °C / 12:55 about / Test alum, wool, 2 hanks
         4 raise to 85 °C / 12 min about 11:26 / Test alum, wool, 2 hanks
         5 soak, then enter / 16 min at 11:30 / Test alum, wool, 2 hanks
         6 WET OUT 100 g / now your hands / Test alum, wool, 2 hanks
    "#]]
    .assert_eq(&read);
}

#[test]
fn from_one_to_six_pots_home_has_a_card_for_each_with_its_act_and_when() {
    let mut stage = six();
    for left in (1..=6_u8).rev() {
        let screen = stove::screen(&stage.machine, stage.now(), plain());
        assert_eq!(screen.pots.len(), usize::from(left));
        assert_eq!(screen.can_begin, left < 6);
        for card in &screen.pots {
            assert!(!card.act.is_empty() && !card.title.is_empty(), "{card:?}");
            // A clock time, or hands at once.
            let told = format!("{} {}", card.time, card.time_label);
            assert!(card.time == "now" || told.contains(':'), "{card:?}");
            assert!(card.said.starts_with(&format!("pot {}, ", card.pot)));
        }
        stage.play(&format!("3:15 pot {left} stop"));
    }
}

#[test]
fn an_ended_bath_leaves_home_and_its_place_free() {
    let mut stage = six();
    stage.play("3:14:40 pot 6 stop");
    let screen = stove::screen(&stage.machine, stage.now(), plain());
    assert_eq!(screen.pots.len(), 5);
    assert!(screen.can_begin);
}

#[test]
fn an_empty_stove_says_so() {
    let stage = Stage::new(&alum_bath());
    let screen = stove::screen(&stage.machine, stage.now(), plain());
    assert!(screen.pots.is_empty() && screen.can_begin);
    assert!(!screen.idle_title.is_empty() && !screen.idle_note.is_empty());
}

#[test]
fn the_pot_that_calls_most_urgently_comes_forward() {
    let forward = |stage: &Stage| next::forward(&stage.machine, stage.now()).map(|pot| pot.0);
    let mut stage = six();
    let mut seen = vec![format!("hands at work {:?}", forward(&stage))];
    stage.play("3:21");
    seen.push(format!("look {:?}", forward(&stage)));
    stage.play("3:28:30");
    seen.push(format!("turn beside it {:?}", forward(&stage)));
    stage.play("3:29 pot 1 reading 96\n3:29:01");
    seen.push(format!("too hot {:?}", forward(&stage)));
    stage.play("3:29:10 pot 1 heard\n3:29:11");
    seen.push(format!("heard {:?}", forward(&stage)));
    expect![[r#"
        hands at work Some(2)
        look Some(4)
        turn beside it Some(4)
        too hot Some(1)
        heard Some(4)"#]]
    .assert_eq(&seen.join("\n"));
}

#[test]
fn without_calls_the_soonest_moment_comes_forward() {
    let mut stage = Stage::new(&alum_bath());
    let through = |pot: u8, hour: &str| {
        (0..6)
            .map(|_| format!("{hour} pot {pot} confirm sure\n"))
            .collect::<String>()
    };
    stage.play(&format!("0:00 pot 1 begin\n{}", through(1, "0:00")));
    stage.play(&format!("0:10 pot 2 begin\n{}", through(2, "0:10")));
    // Pot 1 is looked at from 0:30 on, pot 2 from 0:40 on.
    stage.play("0:20");
    assert_eq!(next::forward(&stage.machine, stage.now()), Some(PotNo(1)));
    stage.play("0:25 pot 1 confirm sure\n0:26");
    // Now pot 1 is turned at 0:40 and pot 2 is looked at from 0:40 on; pot 1 was touched last.
    assert_eq!(next::forward(&stage.machine, stage.now()), Some(PotNo(1)));
    stage.play("0:27 pot 2 reading 84\n0:28");
    assert_eq!(next::forward(&stage.machine, stage.now()), Some(PotNo(2)));
}

#[test]
fn nobody_comes_forward_on_a_free_stove() {
    let mut stage = Stage::new(&alum_bath());
    assert_eq!(next::forward(&stage.machine, stage.now()), None);
    stage.play("0:00 pot 1 begin\n0:01 pot 1 stop");
    assert_eq!(next::forward(&stage.machine, stage.now()), None);
}

#[test]
fn the_far_view_keeps_what_is_read_across_the_room() {
    let mut stage = six();
    let mut read = String::new();
    let mut note = |stage: &Stage, pot: u8| {
        let far = far::screen(&stage.machine, PotNo(pot), stage.now(), plain()).unwrap();
        let calling = if far.calling { "!" } else { " " };
        writeln!(
            read,
            "{calling}{pot} {} / {} / {} {}",
            far.first, far.second, far.time, far.time_label
        )
        .unwrap();
        assert!(far.first.chars().count() <= 17);
    };
    for pot in 1..=6 {
        note(&stage, pot);
    }
    stage.play("3:28:30");
    note(&stage, 1);
    note(&stage, 4);
    expect![[r#"
         1 HOLD 1 h / at 85 °C, turn 1 of 3 / 13:30 next turn in
         2 DISSOLVE 15.0 g / alum (potash) / now your hands
         3 COOL to 40 °C /  / 12:55 about
         4 RAISE to 85 °C / look from 11:20 on / 11:34 expected by
         5 ENTER 100 g / wool, 2 hanks / 15:30 soak left
         6 WET OUT 100 g / wool, 2 hanks / now your hands
        !1 TURN / the goods / 44:30 hold left
        !4 LOOK 85 °C? / thermometer / 11:34 expected by
    "#]]
    .assert_eq(&read);
    assert_eq!(far::screen(&stage.machine, PotNo(7), stage.now(), plain()), None);
}

const TO_HOLD: &str = "
    0:00 pot 1 begin
    0:01 pot 1 confirm
    0:02 pot 1 confirm
    0:05 pot 1 confirm
    0:10 pot 1 confirm
    0:12 pot 1 confirm
    0:40 pot 1 confirm
    1:15 pot 1 reading 86";

fn card(
    script: &str,
    probably: Option<(
        potside::craft::quantity::Temperature,
        potside::craft::quantity::Temperature,
    )>,
) -> String {
    card_of(&alum_bath(), script, probably)
}

fn card_of(
    plan: &Arc<Plan>,
    script: &str,
    probably: Option<(
        potside::craft::quantity::Temperature,
        potside::craft::quantity::Temperature,
    )>,
) -> String {
    let mut stage = Stage::new(plan);
    stage.play(script);
    let Some(card) = returned::screen(stage.machine.pot(PotNo(1)).unwrap(), plain(), probably) else {
        return "no card".into();
    };
    let choices: Vec<String> = card
        .choices
        .iter()
        .map(|choice| format!("{} [{} | {}]", choice.key, choice.label, choice.detail))
        .collect();
    format!(
        "{} / {}\nlast {}\noff for {}\nprobably {} / {}\n{}\n{}\n",
        card.pot,
        card.title,
        card.last_saved,
        card.off_for,
        card.probably,
        card.measure,
        card.question,
        choices.join("\n")
    )
}

#[test]
fn a_card_in_a_hold_offers_what_a_hold_allows() {
    let probably = Some((celsius(51.0), celsius(70.0)));
    expect![[r#"
        1 / Test alum, wool, 2 hanks
        last 09:15  HOLD started, 86 °C
        off for 12 to 14 min
        probably 51 to 70 °C / measure it before you go on
        Was the heat on while the screen was off?
        answer-carry-on [Carry on | time away not counted]
        answer-count-it [Count it | 12 min more held]
        answer-hold-again [Hold again | from nothing]
        answer-back-to-raise [Back to heating | it has dropped]
        reading [Key in a reading | where the bath is now]
        stop [Stop this bath | ]
    "#]]
    .assert_eq(&card(&format!("{TO_HOLD}\n1:20 pot 1 returned 12 14"), probably));
}

#[test]
fn a_card_before_the_heat_only_carries_on_or_stops() {
    expect![[r#"
        1 / Test alum, wool, 2 hanks
        last 08:01  goods are soaking
        off for not known
        probably not known / 
        Go on from where it stood?
        answer-carry-on [Carry on | from where it stood]
        stop [Stop this bath | ]
    "#]]
    .assert_eq(&card(
        "0:00 pot 1 begin\n0:01 pot 1 confirm\n0:02 pot 1 returned 0 ?",
        None,
    ));
}

#[test]
fn the_time_away_is_told_as_it_is_known() {
    let off_for = |interval: &str| {
        let card = card(&format!("{TO_HOLD}\n1:20 pot 1 returned {interval}"), None);
        card.lines()
            .find(|line| line.starts_with("off for"))
            .unwrap()
            .to_owned()
    };
    assert_eq!(off_for("12 12"), "off for 12 min");
    assert_eq!(off_for("12 14"), "off for 12 to 14 min");
    assert_eq!(off_for("9 ?"), "off for at least 9 min");
    assert_eq!(off_for("0 ?"), "off for not known");
}

#[test]
fn an_answered_card_is_gone() {
    assert_eq!(
        card(
            &format!("{TO_HOLD}\n1:20 pot 1 returned 9 ?\n1:21 pot 1 answer count-it"),
            None
        ),
        "no card"
    );
}

#[test]
fn every_answer_offered_is_one_the_machine_takes() {
    for (phase, begun) in [(TO_HOLD, "1:20"), ("0:00 pot 1 begin", "0:20")] {
        let mut stage = Stage::new(&alum_bath());
        stage.play(&format!("{phase}\n{begun} pot 1 returned 9 11"));
        let card = returned::screen(stage.machine.pot(PotNo(1)).unwrap(), plain(), None).unwrap();
        for choice in &card.choices {
            let verb = match choice.key.strip_prefix("answer-") {
                Some(answer) => format!("answer {answer}"),
                None if choice.key == "reading" => "reading 70".to_owned(),
                None => choice.key.clone(),
            };
            let mut stage = Stage::new(&alum_bath());
            let told = stage.play(&format!(
                "{phase}\n{begun} pot 1 returned 9 11\n{begun}:30 pot 1 {verb}"
            ));
            assert!(!told.contains("refused"), "{}: {told}", choice.key);
        }
    }
}

/// A rest overnight shows the clock, a short one counts down.
#[test]
fn a_rest_is_told_by_its_length() {
    let times = |minutes: u64| {
        let mut plan = (*alum_bath()).clone();
        plan.steps[0].act = StepAct::Rest {
            span: potside::craft::time::Span::from_minutes(minutes),
        };
        let mut stage = Stage::new(&Arc::new(plan));
        stage.play("0:00 pot 1 begin\n0:05");
        let act = run::screen(&stage.machine, PotNo(1), stage.now(), plain(), false)
            .unwrap()
            .act;
        format!("{} {}", act.time, act.time_label)
    };
    assert_eq!(times(30), "25:00 time left");
    // Begun at 8:00 local time.
    assert_eq!(times(12 * 60), "20:00 until");
    assert_eq!(times(20 * 60), "04:00 until, tomorrow");
}

/// Coldest and hottest after a script, in whole degrees.
fn probable(script: &str) -> Option<(f64, f64)> {
    let mut stage = Stage::new(&alum_bath());
    stage.play(script);
    let range = probably(stage.machine.pot(PotNo(1)).unwrap());
    range.map(|(coldest, hottest)| (coldest.celsius().round(), hottest.celsius().round()))
}

#[test]
fn after_an_outage_the_bath_is_somewhere_between_gone_cold_and_the_boil() {
    let boil = alum_bath().boil.celsius().round();
    let (short_cold, short_hot) = probable(&format!("{TO_HOLD}\n1:20 pot 1 returned 12 14")).unwrap();
    let (long_cold, _) = probable(&format!("{TO_HOLD}\n1:20 pot 1 returned 12 120")).unwrap();
    let (open_cold, open_hot) = probable(&format!("{TO_HOLD}\n1:20 pot 1 returned 12 ?")).unwrap();
    assert_eq!((short_hot, open_hot), (boil, boil), "the heat may have stayed on");
    assert!(
        open_cold < long_cold && long_cold < short_cold,
        "{open_cold} {long_cold} {short_cold}"
    );
    assert!(
        open_cold <= alum_bath().room.celsius() + 3.0,
        "three days leave it at the room's: {open_cold}"
    );
    // The floor of the hold is where an unwatched hold may have stood when it began.
    assert!(short_cold < 80.0);
}

#[test]
fn a_bath_that_was_cooling_can_only_have_cooled_on() {
    let cooling = format!("{TO_HOLD}\n2:16 pot 1 confirm");
    let (cold, hot) = probable(&format!("{cooling}\n2:20 pot 1 returned 30 40")).unwrap();
    assert!(cold < hot && hot < 86.0, "{cold} {hot}");
    let (colder, _) = probable(&format!("{cooling}\n2:20 pot 1 returned 30 90")).unwrap();
    assert!(colder < cold);
}

#[test]
fn a_reading_ends_the_guessing() {
    let read = probable(&format!(
        "{TO_HOLD}\n1:20 pot 1 returned 12 ?\n1:21 pot 1 reading 61"
    ));
    assert_eq!(read, Some((61.0, 61.0)));
    assert_eq!(
        probable("0:00 pot 1 begin\n0:01 pot 1 confirm\n0:02 pot 1 returned 0 ?"),
        None
    );
}
