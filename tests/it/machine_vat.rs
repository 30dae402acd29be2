//! A vat as text: looks that are answered not yet, dips and airings. Facts of the trade behind it (a vat is ready when it
//! is clear and yellow-green, goods are dipped for minutes and blue in the air): common practice, no source.

use chrono::FixedOffset;
use expect_test::{Expect, expect};
use potside::journal::record::BathRecord;
use potside::journal::wire::{entry_of, event_of};
use potside::machine::PotNo;
use potside::machine::{Machine, promise};
use potside::view::locale::Locale;
use potside::view::screen::RunScreen;
use potside::view::{far, returned, run};
use proptest::prelude::*;
use proptest::sample::select;

use crate::support::plans::vat_bath;
use crate::support::script::Stage;

const POT: PotNo = PotNo(1);

fn check(script: &str, wanted: Expect) {
    wanted.assert_eq(&Stage::new(&vat_bath()).play(script));
}

fn staged(script: &str) -> Stage {
    let mut stage = Stage::new(&vat_bath());
    let told = stage.play(script);
    assert!(!told.contains("refused"), "{told}");
    stage
}

fn screen(stage: &Stage) -> RunScreen {
    run::screen(&stage.machine, POT, stage.now(), plain(), false).unwrap()
}

fn plain() -> Locale {
    Locale::plain(FixedOffset::east_opt(8 * 3_600).unwrap())
}

/// What the dyer reads, and what both slabs say.
fn read(stage: &Stage) -> String {
    let screen = screen(stage);
    let act = &screen.act;
    let slabs =
        [&screen.slab, &screen.other].map(|slab| format!("[{} | {}] {}", slab.label, slab.detail, slab.key));
    format!(
        "{} {} / {}\n{}\n{} {}\n{}\n{}\n{}\n",
        act.verb,
        act.amount,
        act.object,
        act.how,
        act.time,
        act.time_label,
        slabs[0],
        slabs[1],
        screen.pot_words
    )
    .lines()
    .map(|line| format!("{}\n", line.trim_end()))
    .collect()
}

fn shows(script: &str, wanted: Expect) {
    wanted.assert_eq(&read(&staged(script)));
}

const TO_LOOK: &str = "
    0:00 pot 1 begin
    0:01 pot 1 confirm
    0:05 pot 1 confirm";

fn to_dips() -> String {
    format!("{TO_LOOK}\n0:36 pot 1 confirm")
}

#[test]
fn a_vat_is_looked_at_until_it_shows_and_dipped_and_aired() {
    check(
        &format!(
            "{TO_LOOK}
        0:36 pot 1 not-yet
        0:52 pot 1 confirm
        0:55 pot 1 confirm
        0:58:30 pot 1 confirm
        1:09 pot 1 confirm
        1:12:10 pot 1 confirm
        1:22:30 pot 1 confirm
        1:30 pot 1 confirm
        1:32 pot 1 confirm"
        ),
        expect![[r#"
            0:00:00 pot 1 begun test-vat
            0:01:00 pot 1 done 1
            0:05:00 pot 1 done 2
            0:35:00 pot 1 call look
            0:36:00 pot 1 not yet 1
            0:51:00 pot 1 call look
            0:52:00 pot 1 done 3
            0:55:00 pot 1 done 4
            0:58:00 pot 1 call act-due
            0:58:30 pot 1 done 5
            1:08:30 pot 1 call act-due
            1:09:00 pot 1 done 6
            1:12:00 pot 1 call act-due
            1:12:10 pot 1 done 7
            1:22:10 pot 1 call act-due
            1:22:30 pot 1 done 8
            1:30:00 pot 1 done 9
            1:32:00 pot 1 done 10
            1:32:00 pot 1 closed
        "#]],
    );
}

#[test]
fn a_sign_seen_much_too_early_is_asked_about_once() {
    check(
        &format!(
            "{TO_LOOK}
        0:10 pot 1 confirm
        0:11 pot 1 not-yet
        0:12 pot 1 confirm"
        ),
        expect![[r#"
            0:00:00 pot 1 begun test-vat
            0:01:00 pot 1 done 1
            0:05:00 pot 1 done 2
            0:10:00 refused: only 5 min so far; expected after 15 min at the earliest
            0:11:00 pot 1 not yet 1
            0:12:00 pot 1 done 3
        "#]],
    );
}

#[test]
fn not_yet_can_be_taken_back_and_the_look_stands_again() {
    check(
        &format!(
            "{TO_LOOK}
        0:36 pot 1 not-yet
        0:37 pot 1 take-back
        0:38 pot 1 confirm"
        ),
        expect![[r#"
            0:00:00 pot 1 begun test-vat
            0:01:00 pot 1 done 1
            0:05:00 pot 1 done 2
            0:35:00 pot 1 call look
            0:36:00 pot 1 not yet 1
            0:37:00 pot 1 taken back
            0:38:00 pot 1 done 3
        "#]],
    );
}

#[test]
fn only_a_look_is_answered_not_yet() {
    check(
        "0:00 pot 1 begin\n0:01 pot 1 not-yet",
        expect![[r#"
        0:00:00 pot 1 begun test-vat
        0:01:00 refused: no sign is looked for in step 1
    "#]],
    );
}

#[test]
fn a_dip_cut_short_is_asked_about_and_one_left_out_has_the_goods_out() {
    check(
        &format!(
            "{}
        0:40 pot 1 confirm
        0:41 pot 1 confirm
        0:41:10 pot 1 confirm sure
        0:52 pot 1 confirm
        0:52:30 pot 1 skip",
            to_dips()
        ),
        expect![[r#"
            0:00:00 pot 1 begun test-vat
            0:01:00 pot 1 done 1
            0:05:00 pot 1 done 2
            0:35:00 pot 1 call look
            0:36:00 pot 1 done 3
            0:40:00 pot 1 done 4
            0:41:00 refused: only 1 min so far; expected after 3 min at the earliest
            0:41:10 pot 1 done 5 early
            0:51:10 pot 1 call act-due
            0:52:00 pot 1 done 6
            0:52:30 pot 1 skipped 7 (enough-by-eye)
        "#]],
    );
    let skipped = staged(&format!("{}\n0:40 pot 1 confirm\n0:40:30 pot 1 skip", to_dips()));
    assert!(!skipped.machine.pot(POT).unwrap().stand.goods_in);
}

#[test]
fn a_dip_taken_back_is_under_again() {
    let script = format!(
        "{}\n0:40 pot 1 confirm\n0:43:10 pot 1 confirm\n0:43:20 pot 1 take-back",
        to_dips()
    );
    let stage = staged(&script);
    let stand = &stage.machine.pot(POT).unwrap().stand;
    assert!(stand.goods_in);
    assert_eq!(stand.step.0, 4);
}

#[test]
fn a_dip_left_out_ends_the_dipping_and_one_take_back_brings_it_all_back() {
    check(
        &format!(
            "{}
        0:40 pot 1 confirm
        0:42 pot 1 skip
        0:43 pot 1 take-back
        0:44 pot 1 confirm
        0:46 pot 1 skip
        0:58 pot 1 confirm",
            to_dips()
        ),
        expect![[r#"
            0:00:00 pot 1 begun test-vat
            0:01:00 pot 1 done 1
            0:05:00 pot 1 done 2
            0:35:00 pot 1 call look
            0:36:00 pot 1 done 3
            0:40:00 pot 1 done 4
            0:42:00 pot 1 skipped 5 (enough-by-eye)
            0:42:00 pot 1 skipped 6 (enough-by-eye)
            0:42:00 pot 1 skipped 7 (enough-by-eye)
            0:43:00 pot 1 taken back
            0:43:00 pot 1 call act-due
            0:44:00 pot 1 done 5
            0:46:00 pot 1 skipped 6 (enough-by-eye)
            0:46:00 pot 1 skipped 7 (enough-by-eye)
            0:56:00 pot 1 call act-due
            0:58:00 pot 1 done 8
        "#]],
    );
    check(
        &format!(
            "{}\n0:40 pot 1 skip\n0:41 pot 1 take-back\n0:42 pot 1 skip",
            to_dips()
        ),
        expect![[r#"
        0:00:00 pot 1 begun test-vat
        0:01:00 pot 1 done 1
        0:05:00 pot 1 done 2
        0:35:00 pot 1 call look
        0:36:00 pot 1 done 3
        0:40:00 pot 1 skipped 4 (enough-by-eye)
        0:40:00 pot 1 skipped 5 (enough-by-eye)
        0:40:00 pot 1 skipped 6 (enough-by-eye)
        0:40:00 pot 1 skipped 7 (enough-by-eye)
        0:40:00 pot 1 skipped 8 (enough-by-eye)
        0:41:00 pot 1 taken back
        0:42:00 pot 1 skipped 4 (enough-by-eye)
        0:42:00 pot 1 skipped 5 (enough-by-eye)
        0:42:00 pot 1 skipped 6 (enough-by-eye)
        0:42:00 pot 1 skipped 7 (enough-by-eye)
        0:42:00 pot 1 skipped 8 (enough-by-eye)
    "#]],
    );

    let script = format!("{}\n0:40 pot 1 skip\n0:41 pot 1 take-back\n0:45", to_dips());
    let stage = staged(&script);
    let run = stage.machine.pot(POT).unwrap();
    assert_eq!((run.stand.step.0, run.stand.goods_in), (3, false));
    let record = BathRecord::of(run);
    assert!(
        record.steps[3..]
            .iter()
            .all(|step| step.how == "not-done" && step.ended_min.is_none())
    );
    assert!(record.steps[4..].iter().all(|step| step.began_min.is_none()));
    assert_eq!(record.taken_back.len(), 5);
}

#[test]
fn a_look_beside_a_cold_burner_calls_as_seldom_as_a_cool_down() {
    let stage = staged(&format!("{TO_LOOK}\n0:35:10"));
    let call = stage.machine.pot(POT).unwrap().stand.calls[0];

    let mut rings = Vec::new();
    let mut after = call.since;
    for _ in 0..4 {
        after = call.next_ring(beside(false), after).unwrap();
        rings.push(after.since(call.since).minutes());
    }

    assert_eq!(rings, [3.0, 15.0, 75.0, 135.0]);
    let heated = call.next_ring(beside(true), call.since).unwrap();
    assert_eq!(heated.since(call.since).minutes(), 2.0);
}

#[test]
fn a_look_and_a_dip_go_on_while_the_program_is_away() {
    check(
        &format!(
            "{TO_LOOK}
        0:10 pot 1 returned 27 40
        0:11 pot 1 answer carry-on
        0:12 pot 1 confirm
        0:40 pot 1 confirm
        0:41 pot 1 returned 4 ?
        0:41:30 pot 1 answer carry-on
        0:42 pot 1 confirm"
        ),
        expect![[r#"
            0:00:00 pot 1 begun test-vat
            0:01:00 pot 1 done 1
            0:05:00 pot 1 done 2
            0:10:00 pot 1 returned
            0:10:00 pot 1 call returned
            0:11:00 pot 1 answered carry-on
            0:12:00 pot 1 done 3
            0:40:00 pot 1 done 4
            0:41:00 pot 1 returned
            0:41:00 pot 1 call returned
            0:41:30 pot 1 answered carry-on
            0:41:30 pot 1 call act-due
            0:42:00 pot 1 done 5
        "#]],
    );
}

#[test]
fn goods_that_have_been_in_need_no_second_soak() {
    let mut plan = (*vat_bath()).clone();
    let enter = plan.steps[3].clone();
    plan.steps.insert(8, enter);
    let mut stage = Stage::new(&std::sync::Arc::new(plan));

    let told = stage.play(&format!(
        "{}\n0:40 pot 1 confirm\n0:43:10 pot 1 confirm\n0:54 pot 1 confirm\n0:58 pot 1 confirm\n1:09 pot 1 confirm\n1:10 pot 1 confirm",
        to_dips()
    ));

    assert!(told.ends_with("1:10:00 pot 1 done 9\n"), "{told}");
}

#[test]
fn before_its_time_a_look_tells_when() {
    shows(
        &format!("{TO_LOOK}\n0:15"),
        expect![[r#"
        LOOK  / clear yellow-green
        not there? look again in 15 min
        20:00 look in
        [It shows | ] confirm-2
        [ | ]
        lid loose, heat off, goods out
    "#]],
    );
}

#[test]
fn a_look_offers_both_answers() {
    shows(
        &format!("{TO_LOOK}\n0:35:10"),
        expect![[r#"
        LOOK  / clear yellow-green
        not there? look again in 15 min

        [It shows | ] confirm-2
        [Not yet | again in 15 min] not-yet-2
        lid off, heat off, goods out
    "#]],
    );
}

#[test]
fn after_not_yet_it_waits_as_long_as_again_says() {
    shows(
        &format!("{TO_LOOK}\n0:36 pot 1 not-yet\n0:38"),
        expect![[r#"
        LOOK  / clear yellow-green
        not there? look again in 15 min
        13:00 look in
        [It shows | ] confirm-2
        [ | ]
        lid loose, heat off, goods out
    "#]],
    );
}

#[test]
fn a_dip_counts_down_under_the_liquor() {
    shows(
        &format!("{}\n0:40 pot 1 confirm\n0:41", to_dips()),
        expect![[r#"
        DIP 1 of 2 / under the liquor
        3 min, without splashing; squeeze them at the surface
        2:00 time left
        [Lifted out | ] confirm-4
        [ | ]
        lid off, heat off, goods in
    "#]],
    );
}

#[test]
fn a_dip_that_is_over_says_lift() {
    shows(
        &format!("{}\n0:40 pot 1 confirm\n0:43:05", to_dips()),
        expect![[r#"
        LIFT 1 of 2 / out into the air
        3 min, without splashing; squeeze them at the surface

        [Lifted out | ] confirm-4
        [ | ]
        lid off, heat off, goods in
    "#]],
    );
}

#[test]
fn goods_aired_between_dips_go_in_again() {
    shows(
        &format!("{}\n0:40 pot 1 confirm\n0:43:05 pot 1 confirm\n0:45", to_dips()),
        expect![[r#"
            AIR 10 min /
            hang free, touching nothing
            8:05 time left
            [In again | ] confirm-5
            [ | ]
            lid off, heat off, goods out
        "#]],
    );
}

#[test]
fn the_far_view_knows_a_look_and_the_return_card_its_last_answer() {
    let stage = staged(&format!("{TO_LOOK}\n0:36 pot 1 not-yet\n0:40"));
    let run = stage.machine.pot(POT).unwrap();
    let far = far::screen(&stage.machine, POT, stage.now(), plain()).unwrap();
    assert_eq!(
        (far.first.as_str(), far.second.as_str()),
        ("LOOK", "clear yellow-green")
    );
    assert_eq!(far.time_label, "look in");
    assert!(returned::screen(run, plain(), None).is_none());

    let stage = staged(&format!("{TO_LOOK}\n0:36 pot 1 not-yet\n0:40 pot 1 returned 5 9"));
    let card = returned::screen(stage.machine.pot(POT).unwrap(), plain(), None).unwrap();
    assert!(card.last_saved.ends_with("not there yet"), "{}", card.last_saved);
}

#[test]
fn the_record_keeps_every_look_and_every_dip() {
    let stage = staged(&format!(
        "{TO_LOOK}
    0:36 pot 1 not-yet
    0:51:30 pot 1 not-yet
    0:52 pot 1 take-back
    0:53 pot 1 confirm
    0:55 pot 1 confirm
    0:58:30 pot 1 confirm
    1:09 pot 1 confirm"
    ));
    let record = BathRecord::of(stage.machine.pot(POT).unwrap());

    assert_eq!(record.not_yet.len(), 1);
    assert_eq!((record.not_yet[0].step, record.not_yet[0].number), (3, 1));
    assert_eq!(record.taken_back[0].was, "not yet, look 2");
    let look = &record.steps[2].planned;
    assert_eq!(look.sign.as_deref(), Some("clear yellow-green"));
    assert_eq!((look.span_min, look.again_min), (Some(30.0), Some(15.0)));
    let dip = &record.steps[4];
    assert_eq!(
        (dip.planned.dip, dip.planned.dips, dip.planned.span_min),
        (Some(1), Some(2), Some(3.0))
    );
    assert_eq!(dip.ended_min.unwrap() - dip.began_min.unwrap(), 3.5);
    let text = serde_json::to_string(&record).unwrap();
    let back: BathRecord = serde_json::from_str(&text).unwrap();
    assert_eq!(back, record);
    // A page of before, which knows no such key, reads as well.
    let old = text.replace(
        &format!("\"not_yet\":{},", serde_json::to_string(&record.not_yet).unwrap()),
        "",
    );
    assert_ne!(old, text);
    let old: BathRecord = serde_json::from_str(&old).unwrap();
    assert!(old.not_yet.is_empty());
}

/// What hands may do at a vat, sensible or not, and seconds that pass before it.
fn hands() -> impl Strategy<Value = Vec<(u64, &'static str)>> {
    let verbs = vec![
        "confirm",
        "confirm",
        "confirm sure",
        "not-yet",
        "skip",
        "take-back",
        "heard",
        "reading 45",
        "returned 7 20",
        "answer carry-on",
    ];
    prop::collection::vec((0_u64..1_500, select(verbs)), 1..40)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn any_hands_at_a_vat_keep_its_promises_and_replay_to_the_same_bath(hands in hands()) {
        let mut script = String::from("0:00 pot 1 begin\n");
        let mut at = 0;
        for (seconds, verb) in &hands {
            at += seconds;
            script.push_str(&format!("{}:{:02}:{:02} pot 1 {verb}\n", at / 3_600, at / 60 % 60, at % 60));
        }
        let mut stage = Stage::new(&vat_bath());
        stage.play(&script);

        let run = stage.machine.pot(POT).unwrap();
        prop_assert_eq!(promise::broken(run), None);

        let mut again = Machine::default();
        for event in &stage.log {
            let entry = entry_of(event).unwrap();
            let read = event_of(1, &entry).unwrap();
            prop_assert_eq!(&read, event);
            again.apply(&read);
            prop_assert_eq!(promise::broken(again.pot(POT).unwrap()), None);
        }
        prop_assert_eq!(again.pot(POT), Some(run));

        let record = BathRecord::of(run);
        let here = run.stand.step.0;
        for (index, step) in record.steps.iter().enumerate() {
            prop_assert_eq!(step.how.as_str() == "not-done", index >= here, "step {} of {:?}", index, &script);
            prop_assert_eq!(step.began_min.is_some(), index <= here && here < record.steps.len() || index < here);
        }
        let not_yet: usize = record.not_yet.iter().filter(|look| look.step == 3).count();
        prop_assert_eq!(record.not_yet.len(), not_yet);
    }
}

const fn beside(burner_on: bool) -> potside::machine::call::Beside {
    potside::machine::call::Beside {
        burner_on,
        turns_missed: 0,
    }
}
