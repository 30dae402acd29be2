//! What the dyer reads at each phase of a bath. The bath is invented; its facts of the trade (wetted goods enter, the
//! hold counts from temperature, turned about every fifteen minutes): common practice, no source.

use std::fmt::Write as _;
use std::sync::Arc;

use chrono::FixedOffset;
use expect_test::{Expect, expect};
use potside::machine::PotNo;
use potside::sheet::plan::Plan;
use potside::view::locale::Locale;
use potside::view::run;
use potside::view::screen::{RunScreen, Slab};

use crate::support::dye_bath;
use crate::support::plans::{alum_bath, celsius, grams, minutes};
use crate::support::script::Stage;

const POT: PotNo = PotNo(1);

fn plain() -> Locale {
    Locale::plain(FixedOffset::east_opt(8 * 3_600).unwrap())
}

fn staged(plan: &Arc<Plan>, script: &str) -> Stage {
    let mut stage = Stage::new(plan);
    let told = stage.play(script);
    assert!(!told.contains("refused"), "{told}");
    stage
}

fn screen(stage: &Stage) -> RunScreen {
    run::screen(&stage.machine, POT, stage.now(), plain(), false).unwrap()
}

fn shown(slab: &Slab) -> String {
    let state = if slab.enabled { "" } else { " (off)" };
    format!("[{} | {}]{state} {}", slab.label, slab.detail, slab.key)
}

fn read(screen: &RunScreen) -> String {
    let act = &screen.act;
    let mut read = String::new();
    writeln!(read, "{} / {} / {}", screen.title, screen.step, screen.clock).unwrap();
    writeln!(read, "{} {} / {}", act.verb, act.amount, act.object).unwrap();
    writeln!(read, "{} / {}", act.how, act.caution).unwrap();
    writeln!(read, "{} {}", act.time, act.time_label).unwrap();
    writeln!(read, "{}", shown(&screen.slab)).unwrap();
    let sides: Vec<String> = screen
        .sides
        .iter()
        .map(|side| {
            let strong = if side.strong { "!" } else { "" };
            let off = if side.enabled { "" } else { "(off)" };
            format!("{strong}{}{off}", side.key)
        })
        .collect();
    writeln!(read, "{}", sides.join(" ")).unwrap();
    writeln!(read, "{}", screen.pot_words).unwrap();
    let picture = &screen.pot;
    writeln!(
        read,
        "{:?} {:.2} lid {:?} heat {:?} steam {:?} goods {:?} bag {:?}",
        picture.liquor, picture.level, picture.lid, picture.heat, picture.steam, picture.goods, picture.bag
    )
    .unwrap();
    read.lines()
        .map(|line| format!("{}\n", line.trim_end()))
        .collect()
}

fn check(script: &str, wanted: Expect) {
    wanted.assert_eq(&read(&screen(&staged(&alum_bath(), script))));
}

const TO_ENTER: &str = "
    0:00 pot 1 begin
    0:01 pot 1 confirm
    0:02 pot 1 confirm
    0:05 pot 1 confirm
    0:10 pot 1 confirm
    0:12 pot 1 confirm";

fn to_entered() -> String {
    format!("{TO_ENTER}\n0:40 pot 1 confirm")
}

fn to_hold() -> String {
    format!("{}\n1:15 pot 1 confirm", to_entered())
}

fn to_cool() -> String {
    format!("{}\n2:15:10 pot 1 confirm", to_hold())
}

#[test]
fn a_weighing_says_the_target_and_offers_the_scales_word() {
    check(
        "0:00 pot 1 begin\n0:01 pot 1 confirm",
        expect![[r#"
            Test alum, wool, 2 hanks / step 2 of 11 / 08:01
            WEIGH 15.0 g / alum (potash)
            tap as planned, or key in what the scale says /

            [Weighed as planned | 15.0 g] confirm-1
            weighed take-back stove more
            empty, heat off, goods out
            Water 0.00 lid Off heat Off steam None goods Out bag Absent
        "#]],
    );
}

#[test]
fn goods_that_soak_are_waited_for() {
    check(
        &format!("{TO_ENTER}\n0:20:30"),
        expect![[r#"
            Test alum, wool, 2 hanks / step 6 of 11 / 08:20
            ENTER 100 g / wool, 2 hanks
            wetted and squeezed; bath not above 45 °C /
            10:30 soak left
            [Goods are in | at most 45 °C] confirm-5
            take-back stove more
            lid off, heat off, goods out
            Mordant 0.23 lid Off heat Off steam None goods Out bag Absent
        "#]],
    );
}

#[test]
fn goods_that_have_soaked_are_called_for() {
    check(
        &format!("{TO_ENTER}\n0:31:30"),
        expect![[r#"
            Test alum, wool, 2 hanks / step 6 of 11 / 08:31
            ENTER 100 g / wool, 2 hanks
            wetted and squeezed; bath not above 45 °C /

            [Goods are in | at most 45 °C] confirm-5
            !heard take-back stove more
            lid off, heat off, goods out
            Mordant 0.23 lid Off heat Off steam None goods Out bag Absent
        "#]],
    );
}

#[test]
fn a_raise_says_when_to_look_and_by_when_it_should_be_there() {
    check(
        &format!("{}\n0:50", to_entered()),
        expect![[r#"
            Test alum, wool, 2 hanks / step 7 of 11 / 08:50
            RAISE to 85 °C / look from 09:10 on
            takes about 30 to 44 min /
            09:24 expected by
            [It is there | 85 °C or more] confirm-6
            reading take-back stove more
            lid loose, heat high, goods in
            Mordant 0.26 lid Loose heat High steam None goods Within bag Absent
        "#]],
    );
}

#[test]
fn a_reading_on_the_way_moves_the_expectation() {
    let slow = format!("{}\n0:50 pot 1 reading 45\n0:50:10", to_entered());
    let fast = format!("{}\n0:50 pot 1 reading 60\n0:50:10", to_entered());
    let by = |script: &str| screen(&staged(&alum_bath(), script)).act.time;

    // 45 C is 5 of 45 K on the way: 40/45 of at most 44 min is left, 39 min 7 s. 60 C: 25/45 of it, 24 min 27 s.
    assert_eq!(by(&slow), "09:29");
    assert_eq!(by(&fast), "09:14");
}

#[test]
fn a_look_asks_for_the_thermometer() {
    check(
        &format!("{}\n1:12", to_entered()),
        expect![[r#"
            Test alum, wool, 2 hanks / step 7 of 11 / 09:12
            LOOK 85 °C? / thermometer
            in the middle, clear of the bottom /
            09:24 expected by
            [It is there | 85 °C or more] confirm-6
            !heard reading stove more
            lid loose, heat high, goods in
            Mordant 0.26 lid Loose heat High steam Some goods Within bag Absent
        "#]],
    );
}

#[test]
fn a_heard_call_gives_its_place_back() {
    check(
        &format!("{}\n1:12 pot 1 heard\n1:12:01", to_entered()),
        expect![[r#"
            Test alum, wool, 2 hanks / step 7 of 11 / 09:12
            LOOK 85 °C? / thermometer
            in the middle, clear of the bottom /
            09:24 expected by
            [It is there | 85 °C or more] confirm-6
            reading take-back stove more
            lid loose, heat high, goods in
            Mordant 0.26 lid Loose heat High steam Some goods Within bag Absent
        "#]],
    );
}

#[test]
fn heat_that_nobody_looks_after_is_named() {
    check(
        &format!("{}\n1:01", to_entered()),
        expect![[r#"
            Test alum, wool, 2 hanks / step 7 of 11 / 09:01
            LOOK  / at the pot: the heat is on
            if all is well, press "heard" /
            21 min untouched for
            [It is there | 85 °C or more] confirm-6
            !heard take-back stove more
            lid loose, heat high, goods in
            Mordant 0.26 lid Loose heat High steam Some goods Within bag Absent
        "#]],
    );
}

#[test]
fn a_hold_counts_down_to_the_next_turn() {
    check(
        &format!("{}\n1:20:01", to_hold()),
        expect![[r#"
            Test alum, wool, 2 hanks / step 8 of 11 / 09:20
            HOLD 1 h / at 85 °C
            between 80 °C and 93 °C /
            9:59 next turn in
            [Turned | 1 of 3] confirm-7
            reading take-back stove more
            lid loose, heat low, goods in
            Mordant 0.26 lid Loose heat Low steam Much goods Within bag Absent
        "#]],
    );
}

#[test]
fn a_turn_says_what_to_do_and_what_is_left() {
    check(
        &format!("{}\n1:31", to_hold()),
        expect![[r#"
            Test alum, wool, 2 hanks / step 8 of 11 / 09:31
            TURN  / the goods
            lift, open, let down again, all under the liquor /
            44:00 hold left
            [Turned | 1 of 3] confirm-7
            !heard take-back stove more
            lid off, heat low, goods in
            Mordant 0.26 lid Off heat Low steam Much goods Within bag Absent
        "#]],
    );
}

#[test]
fn after_its_last_turn_a_hold_counts_down_to_its_end() {
    let script = "
        1:30 pot 1 confirm
        1:45 pot 1 confirm
        2:00 pot 1 confirm
        2:00:01";
    check(
        &format!("{}{script}", to_hold()),
        expect![[r#"
            Test alum, wool, 2 hanks / step 8 of 11 / 10:00
            HOLD 1 h / at 85 °C
            between 80 °C and 93 °C /
            14:59 hold left
            [Turned | ] confirm-7
            reading take-back stove more
            lid loose, heat low, goods in
            Mordant 0.26 lid Loose heat Low steam Much goods Within bag Absent
        "#]],
    );
}

#[test]
fn a_hold_that_is_over_wants_the_heat_off() {
    check(
        &format!("{}\n2:18:20", to_hold()),
        expect![[r#"
            Test alum, wool, 2 hanks / step 8 of 11 / 10:18
            HEAT OFF  / the hold is over
            then: COOL to 40 °C /
            3:20 over by
            [Heat is off | ] confirm-7
            !heard take-back stove more
            lid loose, heat off, goods in
            Mordant 0.26 lid Loose heat Off steam Much goods Within bag Absent
        "#]],
    );
}

#[test]
fn a_hold_that_dropped_waits() {
    check(
        &format!("{}\n1:25 pot 1 reading 77\n1:26", to_hold()),
        expect![[r#"
            Test alum, wool, 2 hanks / step 8 of 11 / 09:26
            RAISE to 85 °C / the hold waits
            it counts on once the bath is back at 80 °C /
            50:00 hold left
            [It is back | 80 °C or more] confirm-7
            reading take-back stove more
            lid loose, heat high, goods in
            Mordant 0.26 lid Loose heat High steam Some goods Within bag Absent
        "#]],
    );
}

#[test]
fn a_bath_too_hot_is_named_with_its_ceiling() {
    check(
        &format!("{}\n1:25 pot 1 reading 95\n1:25:10", to_hold()),
        expect![[r#"
            Test alum, wool, 2 hanks / step 8 of 11 / 09:25
            TOO HOT 95 °C / at most 93 °C
            heat down, lid off; then key in a new reading /
            49:50 hold left
            [Turned | 1 of 3] confirm-7
            !heard reading stove more
            lid loose, heat low, goods in
            Mordant 0.26 lid Loose heat Low steam Much goods Within bag Absent
        "#]],
    );
}

#[test]
fn a_cooling_says_the_clock_time() {
    check(
        &format!("{}\n3:00", to_cool()),
        expect![[r#"
            Test alum, wool, 2 hanks / step 9 of 11 / 11:00
            COOL to 40 °C /
            heat off, lid on; takes about 2 h to 3 h 50 min /
            13:05 about
            [Cool enough | 40 °C or less] confirm-8
            reading take-back stove more
            lid loose, heat off, goods in
            Mordant 0.26 lid Loose heat Off steam Much goods Within bag Absent
        "#]],
    );
}

#[test]
fn a_bath_cool_enough_asks_for_the_thermometer() {
    check(
        &format!("{}\n5:10", to_cool()),
        expect![[r#"
            Test alum, wool, 2 hanks / step 9 of 11 / 13:10
            LOOK 40 °C? / thermometer
            in the middle, clear of the bottom /
            2:55 h cooled for
            [Cool enough | 40 °C or less] confirm-8
            !heard reading stove more
            lid loose, heat off, goods in
            Mordant 0.26 lid Loose heat Off steam None goods Within bag Absent
        "#]],
    );
}

#[test]
fn a_shelved_bath_frees_its_pot() {
    check(
        &format!(
            "{}\n5:20 pot 1 reading 39\n5:25 pot 1 confirm\n5:30 pot 1 confirm",
            to_cool()
        ),
        expect![[r#"
            Test alum, wool, 2 hanks / 11 steps / 13:30
            SHELVED  / Test alum, wool, 2 hanks
            the record stands in the daybook /

            [Pot is free | back to the stove] close-pot
            stove
            lid off, heat off
            Mordant 0.23 lid Off heat Off steam None goods Absent bag Absent
        "#]],
    );
}

#[test]
fn a_stopped_bath_asks_after_the_heat() {
    check(
        &format!("{}\n1:20 pot 1 stop", to_hold()),
        expect![[r#"
            Test alum, wool, 2 hanks / 11 steps / 09:20
            STOPPED  / Test alum, wool, 2 hanks
            is the heat off? what was done stands in the daybook /

            [Pot is free | back to the stove] close-pot
            stove
            lid off, heat off, goods in
            Mordant 0.26 lid Off heat Off steam None goods Within bag Absent
        "#]],
    );
}

#[test]
fn an_open_card_keeps_the_slab_shut() {
    check(
        &format!("{}\n1:20 pot 1 returned 9 ?", to_hold()),
        expect![[r#"
            Test alum, wool, 2 hanks / step 8 of 11 / 09:20
            ANSWER  / the card first
            the screen was off; say what the bath did meanwhile /

            [Turned | answer the card first] (off) confirm-7
            take-back(off) stove more
            lid loose, heat low, goods in
            Mordant 0.26 lid Loose heat Low steam Much goods Within bag Absent
        "#]],
    );
}

#[test]
fn a_hold_without_turns_takes_no_tap() {
    let mut plan = (*alum_bath()).clone();
    for step in &mut plan.steps {
        if let potside::sheet::plan::StepAct::Hold { turn_every, .. } = &mut step.act {
            *turn_every = None;
        }
    }
    let stage = staged(&Arc::new(plan), &format!("{}\n1:20", to_hold()));

    let slab = screen(&stage).slab;

    assert!(!slab.enabled);
    assert_eq!(slab.label, "Holding");
}

#[test]
fn a_tap_on_its_way_to_the_disk_shuts_the_slab() {
    let stage = staged(&alum_bath(), "0:00 pot 1 begin");
    let idle = screen(&stage).slab;

    let busy = run::screen(&stage.machine, POT, stage.now(), plain(), true)
        .unwrap()
        .slab;

    assert!(idle.enabled);
    assert_eq!(
        (busy.enabled, busy.detail.as_str(), busy.key, busy.label),
        (false, "saving...", idle.key, idle.label)
    );
}

#[test]
fn an_empty_pot_has_no_run_screen() {
    let stage = Stage::new(&alum_bath());
    assert_eq!(
        run::screen(&stage.machine, POT, stage.now(), plain(), false),
        None
    );
}

#[test]
fn the_slab_is_keyed_by_the_step_it_confirms() {
    let stage = staged(&alum_bath(), &to_hold());
    let step = stage.machine.pot(POT).unwrap().stand.step.0;
    assert_eq!(screen(&stage).slab.key, format!("confirm-{step}"));
}

/// Minute by minute through a bath with every kind of step: nothing is longer than its place on the screen, and
/// every slab that is on confirms something.
#[test]
fn no_text_is_longer_than_its_place() {
    let mut plan = dye_bath::plan();
    plan.additions[0].name = "aluminium sulfate, 14-hydrate".into();
    plan.additions[1].target = grams(1_250.5);
    for plan in [Arc::new(plan), alum_bath()] {
        let mut stage = Stage::new(&plan);
        stage.play("0:00 pot 1 begin");
        for minute in 1..plan.steps.len() * 40 {
            let clock = format!("{}:{:02}", minute / 60, minute % 60);
            let verb = if minute % 20 == 0 {
                "pot 1 confirm sure"
            } else {
                ""
            };
            stage.play(&format!("{clock} {verb}"));
            fits(&screen(&stage));
        }
        assert!(stage.machine.pot(POT).unwrap().stand.step.0 > 6);
    }
}

fn fits(screen: &RunScreen) {
    let act = &screen.act;
    let first = format!("{} {}", act.verb, act.amount);
    for (text, most) in [
        (&first, 17),
        (&act.object, 40),
        (&act.how, 90),
        (&act.caution, 90),
        (&act.time, 11),
        (&act.time_label, 16),
        (&screen.slab.label, 26),
        (&screen.slab.detail, 24),
        (&screen.pot_words, 48),
    ] {
        assert!(text.chars().count() <= most, "longer than {most}: {text:?}");
    }
    assert!(screen.sides.len() <= 4, "{:?}", screen.sides);
    assert!(!screen.slab.label.is_empty());
    assert!(!act.verb.is_empty());
}

#[test]
fn several_wares_that_do_not_fit_are_named_by_their_letters() {
    let mut plan = dye_bath::plan();
    plan.additions[0].name = "aluminium sulfate, 14-hydrate".into();
    let stage = staged(
        &Arc::new(plan),
        "0:00 pot 1 begin\n0:01 pot 1 confirm\n0:02 pot 1 confirm\n0:03 pot 1 confirm\n0:04 pot 1 confirm",
    );
    let act = screen(&stage).act;
    assert_eq!(
        (act.verb.as_str(), act.object.as_str()),
        ("ADD", "A 18.5 g + B 61.7 g")
    );
}

#[test]
fn the_liquor_takes_the_colour_of_what_went_in() {
    let mut plan = (*alum_bath()).clone();
    let liquor = |plan: &Plan, script: &str| screen(&staged(&Arc::new(plan.clone()), script)).pot.liquor;
    let mut seen = vec![format!(
        "before {:?}",
        liquor(&plan, "0:00 pot 1 begin\n0:01 pot 1 confirm")
    )];
    for ware in [
        "potash-alum",
        "madder-root",
        "onion-skin",
        "walnut-hull",
        "indigo",
        "ferrous-sulfate",
    ] {
        plan.additions[0].ware_id = ware.into();
        seen.push(format!("{ware} {:?}", liquor(&plan, TO_ENTER)));
    }
    expect![[r#"
        before Water
        potash-alum Mordant
        madder-root Madder
        onion-skin Weld
        walnut-hull Walnut
        indigo Indigo
        ferrous-sulfate Verdigris"#]]
    .assert_eq(&seen.join("\n"));
}

#[test]
fn the_level_is_water_and_then_what_the_goods_push_aside() {
    let plan = alum_bath();
    let level = |script: &str| f64::from(screen(&staged(&plan, script)).pot.level);

    assert_eq!(level("0:00 pot 1 begin"), 0.0);
    // 2.8 L of 12 L; then 3 L and 100 g of wool, 1.30 g/mL (Morton and Hearle, table 5.1).
    assert!((level(TO_ENTER) - 2.8 / 12.0).abs() < 1e-6);
    let entered = (3.0 + 0.1 / 1.30) / 12.0;
    assert!((level(&to_entered()) - entered).abs() < 1e-6);
}

#[test]
fn a_bath_that_cools_overnight_says_the_day() {
    let mut plan = (*alum_bath()).clone();
    for step in &mut plan.steps {
        if let potside::sheet::plan::StepAct::Cool { cool_down, to, .. } = &mut step.act {
            *cool_down = Some(minutes(900, 1_000, 1_200));
            *to = celsius(30.0);
            step.usual = minutes(900, 1_000, 1_200);
        }
    }
    let stage = staged(&Arc::new(plan), &format!("{}\n2:20", to_cool()));
    let act = screen(&stage).act;
    // Begun at 8:00 local time; off the heat at 10:15:10, a thousand minutes later it is 2:55 of the next day.
    assert_eq!(
        (act.time.as_str(), act.time_label.as_str()),
        ("02:55", "about, tomorrow")
    );
}
