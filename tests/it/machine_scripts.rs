//! Sessions as text. Facts of the trade behind them (a hold counted from temperature, turns about every fifteen
//! minutes inside it, goods wetted before they enter): common practice, no source.

use expect_test::{Expect, expect};

use crate::support::plans::alum_bath;
use crate::support::script::Stage;

fn check(script: &str, wanted: Expect) {
    let told = Stage::new(&alum_bath()).play(script);

    wanted.assert_eq(&told);
}

/// Through the first steps to the goods in the bath, forty minutes in.
const TO_ENTERED: &str = "
    0:00 pot 1 begin
    0:01 pot 1 confirm
    0:02 pot 1 confirm
    0:05 pot 1 confirm
    0:10 pot 1 confirm
    0:12 pot 1 confirm
    0:40 pot 1 confirm";

#[test]
fn a_whole_bath_goes_from_soak_to_shelf() {
    check(
        &format!(
            "{TO_ENTERED}
        1:15 pot 1 confirm
        1:30 pot 1 confirm
        1:45:30 pot 1 confirm
        2:01 pot 1 confirm
        2:15:10 pot 1 confirm
        5:20 pot 1 reading 39
        5:25 pot 1 confirm
        5:30 pot 1 confirm"
        ),
        expect![[r#"
            0:00:00 pot 1 begun test-alum
            0:01:00 pot 1 done 1
            0:02:00 pot 1 done 2
            0:05:00 pot 1 done 3
            0:10:00 pot 1 done 4
            0:12:00 pot 1 done 5
            0:31:00 pot 1 call act-due
            0:40:00 pot 1 done 6
            1:00:00 pot 1 call heat-unattended
            1:10:00 pot 1 call look
            1:15:00 pot 1 done 7
            1:30:00 pot 1 call turn-1
            1:30:00 pot 1 turned 1
            1:45:00 pot 1 call turn-2
            1:45:30 pot 1 turned 2
            2:00:00 pot 1 call turn-3
            2:01:00 pot 1 turned 3
            2:15:00 pot 1 call hold-over
            2:15:10 pot 1 done 8
            5:05:10 pot 1 call cool-enough
            5:20:00 pot 1 read 39 C
            5:20:00 pot 1 done 9 at 39 C
            5:25:00 pot 1 done 10
            5:30:00 pot 1 done 11
            5:30:00 pot 1 closed
        "#]],
    );
}

#[test]
fn the_hold_counts_from_temperature_and_not_while_the_bath_is_below_its_floor() {
    check(
        &format!(
            "{TO_ENTERED}
        1:15 pot 1 reading 85
        1:25 pot 1 reading 77
        1:40 pot 1 reading 82
        1:46 pot 1 confirm
        2:30"
        ),
        expect![[r#"
            0:00:00 pot 1 begun test-alum
            0:01:00 pot 1 done 1
            0:02:00 pot 1 done 2
            0:05:00 pot 1 done 3
            0:10:00 pot 1 done 4
            0:12:00 pot 1 done 5
            0:31:00 pot 1 call act-due
            0:40:00 pot 1 done 6
            1:00:00 pot 1 call heat-unattended
            1:10:00 pot 1 call look
            1:15:00 pot 1 read 85 C
            1:15:00 pot 1 done 7 at 85 C
            1:25:00 pot 1 read 77 C
            1:25:00 pot 1 hold dropped
            1:40:00 pot 1 read 82 C
            1:40:00 pot 1 hold resumed
            1:45:00 pot 1 call turn-1
            1:46:00 pot 1 turned 1
            2:00:00 pot 1 call turn-2
            2:06:00 pot 1 call heat-unattended
            2:15:00 pot 1 missed turn 2
            2:15:00 pot 1 call turn-3
            2:30:00 pot 1 call hold-over
            2:30:00 pot 1 missed turn 3
        "#]],
    );
}

#[test]
fn a_double_tap_is_one_act() {
    check(
        "
        0:00 pot 1 begin
        0:01 pot 1 confirm
        0:01 pot 1 confirm step 1",
        expect![[r#"
            0:00:00 pot 1 begun test-alum
            0:01:00 pot 1 done 1
            0:01:00 refused: step 1 is done already; the screen has moved on
        "#]],
    );
}

#[test]
fn a_reading_just_at_the_tolerance_is_taken() {
    // 15.3 less 15.0 is a little more than 0.3 in binary.
    check(
        "
        0:00 pot 1 begin
        0:01 pot 1 confirm
        0:02 pot 1 weighed 15.301
        0:02 pot 1 weighed 15.3
        0:03 pot 1 take-back
        0:04 pot 1 weighed 14.7",
        expect![[r#"
            0:00:00 pot 1 begun test-alum
            0:01:00 pot 1 done 1
            0:02:00 refused: 15.30 g is far from 15.00 g; weigh again, or keep it
            0:02:00 pot 1 done 2 15.3 g
            0:03:00 pot 1 taken back
            0:04:00 pot 1 done 2 14.7 g
        "#]],
    );
}

#[test]
fn a_reading_far_off_is_asked_about_and_can_be_kept() {
    check(
        "
        0:00 pot 1 begin
        0:01 pot 1 confirm
        0:02 pot 1 weighed 18.0
        0:03 pot 1 weighed 18.0 sure
        0:04 pot 1 take-back
        0:05 pot 1 weighed 15.1",
        expect![[r#"
            0:00:00 pot 1 begun test-alum
            0:01:00 pot 1 done 1
            0:02:00 refused: 18.00 g is far from 15.00 g; weigh again, or keep it
            0:03:00 pot 1 done 2 18 g
            0:04:00 pot 1 taken back
            0:05:00 pot 1 done 2 15.1 g
        "#]],
    );
}

#[test]
fn goods_that_have_not_soaked_are_asked_about_and_called_when_they_have() {
    check(
        "
        0:00 pot 1 begin
        0:01 pot 1 confirm
        0:02 pot 1 confirm
        0:05 pot 1 confirm
        0:10 pot 1 confirm
        0:12 pot 1 confirm
        0:13 pot 1 confirm
        0:32 pot 1 confirm",
        expect![[r#"
            0:00:00 pot 1 begun test-alum
            0:01:00 pot 1 done 1
            0:02:00 pot 1 done 2
            0:05:00 pot 1 done 3
            0:10:00 pot 1 done 4
            0:12:00 pot 1 done 5
            0:13:00 refused: soaked 12 of 30 min; dry spots take the dye unevenly
            0:31:00 pot 1 call act-due
            0:32:00 pot 1 done 6
        "#]],
    );
}

#[test]
fn turns_that_nobody_makes_are_missed_and_the_end_of_the_hold_grows_urgent() {
    check(
        &format!(
            "{TO_ENTERED}
        1:15 pot 1 confirm
        2:40"
        ),
        expect![[r#"
            0:00:00 pot 1 begun test-alum
            0:01:00 pot 1 done 1
            0:02:00 pot 1 done 2
            0:05:00 pot 1 done 3
            0:10:00 pot 1 done 4
            0:12:00 pot 1 done 5
            0:31:00 pot 1 call act-due
            0:40:00 pot 1 done 6
            1:00:00 pot 1 call heat-unattended
            1:10:00 pot 1 call look
            1:15:00 pot 1 done 7
            1:30:00 pot 1 call turn-1
            1:35:00 pot 1 call heat-unattended
            1:45:00 pot 1 missed turn 1
            1:45:00 pot 1 call turn-2
            2:00:00 pot 1 missed turn 2
            2:00:00 pot 1 call turn-3
            2:15:00 pot 1 call hold-over
            2:15:00 pot 1 missed turn 3
            2:25:00 pot 1 call over-run
        "#]],
    );
}

#[test]
fn an_outage_earns_no_hold_time_until_the_dyer_says_so() {
    check(
        &format!(
            "{TO_ENTERED}
        1:15 pot 1 confirm
        1:31 pot 1 confirm
        1:35 pot 1 returned 12 14
        1:36 pot 1 confirm
        1:37 pot 1 answer count-it
        1:38 pot 1 confirm
        2:20"
        ),
        expect![[r#"
            0:00:00 pot 1 begun test-alum
            0:01:00 pot 1 done 1
            0:02:00 pot 1 done 2
            0:05:00 pot 1 done 3
            0:10:00 pot 1 done 4
            0:12:00 pot 1 done 5
            0:31:00 pot 1 call act-due
            0:40:00 pot 1 done 6
            1:00:00 pot 1 call heat-unattended
            1:10:00 pot 1 call look
            1:15:00 pot 1 done 7
            1:30:00 pot 1 call turn-1
            1:31:00 pot 1 turned 1
            1:35:00 pot 1 returned
            1:35:00 pot 1 call returned
            1:36:00 refused: the program was away; answer the card of pot 1 first
            1:37:00 pot 1 answered count-it
            1:38:00 pot 1 turned 2
            1:54:00 pot 1 call turn-3
            1:58:00 pot 1 call heat-unattended
            2:09:00 pot 1 call hold-over
            2:09:00 pot 1 missed turn 3
            2:19:00 pot 1 call over-run
        "#]],
    );
}

#[test]
fn a_reading_passes_the_return_card_and_a_cold_hold_waits_for_its_heat() {
    check(
        &format!(
            "{TO_ENTERED}
        1:15 pot 1 confirm
        1:31 pot 1 confirm
        1:35 pot 1 returned 12 14
        1:36 pot 1 reading 70
        1:37 pot 1 answer carry-on
        1:50 pot 1 reading 83
        2:20"
        ),
        expect![[r#"
            0:00:00 pot 1 begun test-alum
            0:01:00 pot 1 done 1
            0:02:00 pot 1 done 2
            0:05:00 pot 1 done 3
            0:10:00 pot 1 done 4
            0:12:00 pot 1 done 5
            0:31:00 pot 1 call act-due
            0:40:00 pot 1 done 6
            1:00:00 pot 1 call heat-unattended
            1:10:00 pot 1 call look
            1:15:00 pot 1 done 7
            1:30:00 pot 1 call turn-1
            1:31:00 pot 1 turned 1
            1:35:00 pot 1 returned
            1:35:00 pot 1 call returned
            1:36:00 pot 1 read 70 C
            1:37:00 pot 1 answered carry-on
            1:37:00 pot 1 hold dropped
            1:50:00 pot 1 read 83 C
            1:50:00 pot 1 hold resumed
            2:04:00 pot 1 call turn-2
            2:10:00 pot 1 call heat-unattended
            2:19:00 pot 1 missed turn 2
            2:19:00 pot 1 call turn-3
        "#]],
    );
}

#[test]
fn a_bath_needs_its_cautions_read_and_a_free_pot() {
    check(
        "
        0:00 pot 1 begin unread
        0:00 pot 1 begin
        0:01 pot 1 begin
        0:02 pot 2 confirm
        0:03 pot 1 stop
        0:04 pot 1 begin",
        expect![[r#"
            0:00:00 refused: the cautions of this bath haven't been read; read them and tap firmly
            0:00:00 pot 1 begun test-alum
            0:01:00 refused: pot 1 has a bath going; finish or stop it first
            0:02:00 refused: pot 2 has no bath going; begin one from the stove
            0:03:00 pot 1 stopped
            0:04:00 pot 1 begun test-alum
        "#]],
    );
}

#[test]
fn two_pots_keep_their_own_time() {
    check(
        &format!(
            "{TO_ENTERED}
        0:41 pot 2 begin
        0:42 pot 2 confirm
        1:15 pot 1 confirm
        1:16 pot 2 confirm
        1:31 pot 1 confirm
        1:32 pot 2 skip"
        ),
        expect![[r#"
            0:00:00 pot 1 begun test-alum
            0:01:00 pot 1 done 1
            0:02:00 pot 1 done 2
            0:05:00 pot 1 done 3
            0:10:00 pot 1 done 4
            0:12:00 pot 1 done 5
            0:31:00 pot 1 call act-due
            0:40:00 pot 1 done 6
            0:41:00 pot 2 begun test-alum
            0:42:00 pot 2 done 1
            1:00:00 pot 1 call heat-unattended
            1:10:00 pot 1 call look
            1:15:00 pot 1 done 7
            1:16:00 pot 2 done 2
            1:30:00 pot 1 call turn-1
            1:31:00 pot 1 turned 1
            1:32:00 pot 2 skipped 3 (enough-by-eye)
        "#]],
    );
}

#[test]
fn a_reading_above_the_boil_or_the_ceiling_is_not_just_written_down() {
    check(
        &format!(
            "{TO_ENTERED}
        1:15 pot 1 confirm
        1:16 pot 1 reading 110
        1:17 pot 1 reading 95
        1:18 pot 1 reading 86"
        ),
        expect![[r#"
            0:00:00 pot 1 begun test-alum
            0:01:00 pot 1 done 1
            0:02:00 pot 1 done 2
            0:05:00 pot 1 done 3
            0:10:00 pot 1 done 4
            0:12:00 pot 1 done 5
            0:31:00 pot 1 call act-due
            0:40:00 pot 1 done 6
            1:00:00 pot 1 call heat-unattended
            1:10:00 pot 1 call look
            1:15:00 pot 1 done 7
            1:16:00 refused: 110 C is above the boil here (100.0 C); read again
            1:17:00 pot 1 read 95 C
            1:17:00 pot 1 call too-hot
            1:18:00 pot 1 read 86 C
        "#]],
    );
}

#[test]
fn heard_quietens_and_take_back_restores_the_running_hold() {
    check(
        &format!(
            "{TO_ENTERED}
        1:15 pot 1 confirm
        1:30:10 pot 1 heard
        1:32 pot 1 confirm
        1:33 pot 1 take-back
        1:34 pot 1 confirm"
        ),
        expect![[r#"
            0:00:00 pot 1 begun test-alum
            0:01:00 pot 1 done 1
            0:02:00 pot 1 done 2
            0:05:00 pot 1 done 3
            0:10:00 pot 1 done 4
            0:12:00 pot 1 done 5
            0:31:00 pot 1 call act-due
            0:40:00 pot 1 done 6
            1:00:00 pot 1 call heat-unattended
            1:10:00 pot 1 call look
            1:15:00 pot 1 done 7
            1:30:00 pot 1 call turn-1
            1:30:10 pot 1 heard
            1:32:00 pot 1 turned 1
            1:33:00 pot 1 taken back
            1:34:00 pot 1 turned 1
        "#]],
    );
}
