//! Whole sessions under faults, and the proof that the sessions would see a fault if there was one.

use super::sim::flaw::Flaw;
use super::sim::session::{Tally, run};

/// So many sessions in an unoptimised build; the gate in `.ci/run` runs a hundred thousand in an optimised one.
const SESSIONS: u64 = if cfg!(debug_assertions) { 250 } else { 20_000 };

#[test]
fn no_session_breaks_a_promise() {
    let mut tally = Tally::default();
    for seed in 1..=SESSIONS {
        match run(seed, Flaw::None) {
            Ok(one) => tally.add(&one),
            Err(why) => panic!("{why}; replay: --bin soak -- --seed {seed} --sessions 1"),
        }
    }
    println!("{tally:?}");
    // What never happened wasn't tested.
    for (count, what) in [
        (tally.cuts, "cuts"),
        (tally.kills, "kills"),
        (tally.faults, "faults"),
        (tally.not_saving, "not saving"),
        (tally.in_spare, "saved in the spare place"),
        (tally.outages, "outages"),
        (tally.bounded, "outages with a longest time"),
        (tally.sealed, "sealed"),
    ] {
        assert!(count > 0, "no {what} in {SESSIONS} sessions");
    }
}

/// In how many sessions a planted fault may hide before the simulation has to see it.
const PATIENCE: u64 = 4_000;

fn caught(flaw: Flaw) -> String {
    // Half an act stays only when power goes between two lines of one act: where that was seen first.
    let from = if flaw == Flaw::CountsHalfAnAct { 1_950 } else { 1 };
    let seeds = (from..=PATIENCE).chain(1..from);
    let seen = seeds.into_iter().find_map(|seed| run(seed, flaw).err());
    let seen = seen.unwrap_or_else(|| panic!("{flaw:?} went unseen through {PATIENCE} sessions"));
    println!("{flaw:?}: {seen}");
    seen
}

macro_rules! planted {
    ($($name:ident: $flaw:ident,)*) => {
        $(#[test]
        fn $name() {
            caught(Flaw::$flaw);
        })*

        #[test]
        fn every_planted_fault_has_its_test() {
            assert_eq!([$(Flaw::$flaw),*], Flaw::IN_SESSIONS);
        }
    };
}

planted! {
    acknowledging_before_the_flush_is_seen: AcknowledgesBeforeFlush,
    never_flushing_the_folder_is_seen: NeverFlushesTheFolder,
    asking_a_failed_flush_again_is_seen: RetriesAFailedFlush,
    going_on_in_an_old_segment_is_seen: ReusesTheOldSegment,
    mending_while_reading_is_seen: RepairsWhileReading,
    writing_on_after_an_error_is_seen: WritesOnAfterAnError,
    copying_only_the_end_to_the_spare_is_seen: CopiesOnlyTheEndToTheSpare,
    forgetting_the_spare_at_the_start_is_seen: ForgetsTheSpareAtStart,
    sealing_without_looking_is_seen: SealsWithoutLooking,
    sealing_over_another_page_is_seen: SealsOverAnother,
    forgetting_acts_over_a_restart_is_seen: ForgetsActsOverARestart,
    erasing_what_is_taken_back_is_seen: TakingBackErases,
    counting_half_an_act_is_seen: CountsHalfAnAct,
    keeping_the_ballast_is_seen: KeepsTheBallast,
    hanging_deadlines_on_the_wall_clock_is_seen: WallClockForDeadlines,
    ignoring_a_suspend_is_seen: SuspendIgnored,
    crediting_an_outage_is_seen: CreditsTheOutage,
    taking_two_taps_for_one_act_is_seen: TwoTapsOneAct,
}
