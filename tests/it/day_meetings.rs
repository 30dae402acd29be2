//! Several baths and one pair of hands: what lies ahead in each pot, what meets, and which later starts are offered.
//!
//! There is no published table of this: the worked examples are by hand, with their working, and the sums are held
//! against a count of minutes that shares nothing with them.

use std::collections::BTreeSet;
use std::sync::Arc;

use potside::craft::quantity::Band;
use potside::craft::time::{Moment, Span, Stretch};
use potside::day::{Ahead, Coming, Errand, LATEST, OfPot, Offers, meetings, meets, of_plan, of_run, offers};
use potside::machine::rehearsal::{Line, play};
use potside::machine::{Done, PotNo, What};
use potside::recipe::book;
use potside::sheet::plan::{Plan, StepKind};
use proptest::prelude::*;

use super::support::plans::{alum_bath, minutes};
use super::support::script::{Stage, alum_in_hold};
use super::support::sheets::sheet;

fn span(minutes: u64) -> Span {
    Span::from_minutes(minutes)
}

fn coming(errand: Errand, low: u64, likely: u64, high: u64, hands: u64) -> Coming {
    Coming {
        errand,
        begins: minutes(low, likely, high),
        hands: span(hands),
    }
}

fn at(errand: Errand, minute: u64, hands: u64) -> Coming {
    coming(errand, minute, minute, minute, hands)
}

fn ahead(errands: &[Coming]) -> Ahead {
    Ahead {
        errands: errands.to_vec(),
        more_unknown: false,
    }
}

fn of_pot(pot: u8, errands: &[Coming]) -> OfPot {
    OfPot {
        pot: PotNo(pot),
        ahead: ahead(errands),
    }
}

fn pot_1(stage: &Stage) -> Ahead {
    of_run(stage.machine.pot(PotNo(1)).unwrap(), stage.now(), None)
}

fn told(ahead: &Ahead) -> Vec<(Errand, u64, u64, u64, u64)> {
    let whole = |span: Span| span.ms() / 60_000;
    ahead
        .errands
        .iter()
        .map(|coming| {
            let Band { low, likely, high } = coming.begins.map(whole);
            (coming.errand, low, likely, high, whole(coming.hands))
        })
        .collect()
}

/// By hand, from the plan: wet out 2, weigh 2, fill 2, dissolve 2, add 2 minutes make 10; the goods are soaked at
/// 2 + 30 = 32, so they go in from 32 to 34; come-up 36 to 70; the hold of 60 from 70 to 130, turned after 15, 30 and
/// 45; cooling 170 to 300; then lift and shelve, 2 minutes each.
#[test]
fn a_bath_about_to_begin_is_laid_by_hand() {
    let likely: Vec<(Errand, u64)> = told(&of_plan(&alum_bath()))
        .into_iter()
        .map(|(errand, _, likely, _, _)| (errand, likely))
        .collect();
    assert_eq!(
        likely,
        [
            (Errand::WetOut, 0),
            (Errand::Weigh, 2),
            (Errand::Fill, 4),
            (Errand::Dissolve, 6),
            (Errand::Add, 8),
            (Errand::Enter, 32),
            (Errand::Look, 70),
            (Errand::Turn, 85),
            (Errand::Turn, 100),
            (Errand::Turn, 115),
            (Errand::HeatOff, 130),
            (Errand::Look, 300),
            (Errand::Lift, 300),
            (Errand::Shelve, 302),
        ]
    );
}

/// Bands by hand: the come-up is 30, 36 or 44 minutes, so its look is 6 early or 8 late, and with the entering's own
/// minute either way sqrt(6*6 + 1 + 1) = 6.16 early and sqrt(8*8 + 1 + 1) = 8.12 late: the soak began after the wetting
/// out, which is a minute either way too.
#[test]
fn spreads_add_up_as_squares() {
    let plan = of_plan(&alum_bath());
    let look = plan
        .errands
        .iter()
        .find(|coming| coming.errand == Errand::Look)
        .unwrap();
    assert!((look.begins.low.minutes() - (70.0 - 38.0_f64.sqrt())).abs() < 0.001);
    assert!((look.begins.high.minutes() - (70.0 + 66.0_f64.sqrt())).abs() < 0.001);
    let enter = plan
        .errands
        .iter()
        .find(|coming| coming.errand == Errand::Enter)
        .unwrap();
    assert!((enter.begins.low.minutes() - 31.0).abs() < 0.001);
    assert!((enter.begins.high.minutes() - 33.0).abs() < 0.001);
}

/// By hand: held 40 of 60, so the turn at 45 comes in 5 and the end in 20; the cooling of 120, 170 or 230 ends at 190. The
/// shelving's 192 has the cooling's 50 early and the lift's 1: sqrt(2501) = 50.01, so 141.99 at the soonest.
#[test]
fn a_pot_in_its_hold_has_its_turns_its_end_and_what_follows() {
    assert_eq!(
        told(&pot_1(&alum_in_hold(40, 0))),
        [
            (Errand::Turn, 5, 5, 5, 2),
            (Errand::HeatOff, 20, 20, 20, 1),
            (Errand::Look, 140, 190, 250, 1),
            (Errand::Lift, 140, 190, 250, 2),
            (Errand::Shelve, 141, 192, 252, 2),
        ]
    );
}

/// By hand: pot 1 has held 51 of 60, so its heat goes off from 9 to 10. The new bath's addition is from 8 to 10 and
/// would be in the way; begun one minute later it is from 9 to 11 and still is; two minutes later it is from 10 to 12
/// and the hands are free. Nothing else likely meets: pot 1 wants a look at 179 and the lift from 179 to 181, the new
/// bath its entering at 32, looks at 70 and 300, turns at 85, 100 and 115, its heat off at 130; none gets there within
/// thirty minutes. That look and that heat off may meet by their bands, so it is a guess.
#[test]
fn a_worked_example_by_hand() {
    let stage = alum_in_hold(51, 0);
    let others = [OfPot {
        pot: PotNo(1),
        ahead: pot_1(&stage),
    }];
    let found = offers(&of_plan(&alum_bath()), &others);
    let [met] = found.now.as_slice() else {
        panic!("{:?}", found.now)
    };
    assert_eq!(
        (met.own.errand, met.pot, met.theirs.errand),
        (Errand::Add, PotNo(1), Errand::HeatOff)
    );
    let [offer] = found.starts.as_slice() else {
        panic!("{:?}", found.starts)
    };
    assert_eq!((offer.wait, offer.until), (span(2), span(LATEST)));
    assert!(offer.meets.is_empty());
    assert!(offer.is_guess);
    assert_eq!(offer.first, None);
}

#[test]
fn what_is_due_in_another_pot_before_the_start_is_done_first() {
    let others = [of_pot(2, &[at(Errand::Lift, 1, 3), at(Errand::Look, 12, 1)])];
    let found = offers(&ahead(&[at(Errand::Enter, 3, 3)]), &others);
    let [offer, later] = found.starts.as_slice() else {
        panic!("{:?}", found.starts)
    };
    // Entered from 4 to 7 the lift is over. It is done at 4, which a start after 1 can't wait for.
    assert_eq!((offer.wait, offer.until, offer.first), (span(1), span(6), None));
    // Entering from 10 to 13 would be at it while pot 2 wants its look at 12; from 13 it is free again.
    assert_eq!(
        (later.wait, later.first),
        (span(10), Some((PotNo(2), Errand::Lift)))
    );
    assert!(!offer.is_guess);
}

#[test]
fn turns_of_several_pots_are_one_round_and_never_meet() {
    let turn = at(Errand::Turn, 10, 2);
    assert!(!meets(&turn, &turn));
    assert!(meets(&turn, &at(Errand::Lift, 11, 3)));
    assert!(!meets(&turn, &at(Errand::Lift, 12, 3)));
}

#[test]
fn what_can_be_laid_down_meets_nothing() {
    for errand in Errand::ALL.into_iter().filter(|errand| !errand.keeps_its_time()) {
        assert!(
            !meets(&at(errand, 0, 60), &at(Errand::HeatOff, 5, 1)),
            "{errand:?}"
        );
    }
}

#[test]
fn a_start_that_lets_the_end_of_another_hold_wait_is_never_offered() {
    // Two meetings now. In a minute there would be one, but with the end of the hold; in four there is one lift.
    let new = ahead(&[at(Errand::Enter, 0, 2), at(Errand::Lift, 60, 1)]);
    let others = [of_pot(
        1,
        &[
            at(Errand::Turn, 0, 1),
            at(Errand::Look, 1, 1),
            at(Errand::HeatOff, 2, 1),
            at(Errand::Strain, 3, 40),
        ],
    )];
    let found = offers(&new, &others);
    assert_eq!(found.now.len(), 2);
    for offer in &found.starts {
        assert!(!offer.meets.iter().any(|met| met.theirs.errand == Errand::HeatOff));
    }
    assert_eq!(found.starts.first().map(|offer| offer.wait), Some(span(3)));
}

#[test]
fn a_pot_with_an_open_question_or_a_dropped_hold_says_that_it_cant_say() {
    let mut stage = alum_in_hold(20, 0);
    stage.play("1:21 pot 1 back-to-raise");
    let reheating = pot_1(&stage);
    assert!(reheating.more_unknown && reheating.errands.is_empty());
    let mut stage = alum_in_hold(20, 0);
    stage.play("1:21 pot 1 returned 5 5");
    let returned = pot_1(&stage);
    assert!(returned.more_unknown && returned.errands.is_empty());
    let new = ahead(&[at(Errand::Enter, 3, 3)]);
    let others = [
        OfPot {
            pot: PotNo(1),
            ahead: returned,
        },
        of_pot(2, &[at(Errand::Lift, 3, 3)]),
    ];
    assert!(offers(&new, &others).starts.iter().all(|offer| offer.is_guess));
}

#[test]
fn an_ended_bath_wants_nothing() {
    let mut stage = alum_in_hold(20, 0);
    stage.play("1:21 pot 1 stop");
    assert_eq!(pot_1(&stage), Ahead::default());
}

/// The machine is the witness: dry hands that do all as planned are wanted as often, and for the same, as was laid; and
/// about when. Each call costs them twenty seconds, and they enter soaked goods at once where the plan gives it its
/// usual minutes.
#[test]
fn a_rehearsal_of_any_recipe_wants_the_hands_as_it_was_laid() {
    let mut baths = 0;
    for recipe in book::all() {
        let sheet = sheet(&recipe.id, "250 g");
        if !sheet.refusals.is_empty() {
            continue;
        }
        baths += 1;
        let plan = &sheet.plan;
        let done = rehearsed(plan);
        let laid: Vec<(Errand, f64)> = of_plan(plan)
            .errands
            .iter()
            .filter(|coming| coming.errand != Errand::Hang)
            .map(|coming| (coming.errand, told_at(plan, coming)))
            .collect();
        let kinds = |list: &[(Errand, f64)]| {
            let mut kinds: Vec<Errand> = list.iter().map(|(errand, _)| *errand).collect();
            kinds.sort();
            kinds
        };
        assert_eq!(kinds(&laid), kinds(&done), "{}", recipe.id);
        let times = |list: &[(Errand, f64)], of| -> Vec<f64> {
            list.iter()
                .filter(|(errand, _)| *errand == of)
                .map(|(_, at)| *at)
                .collect()
        };
        let most = laid.len() as f64 / 3.0 + 5.0;
        for errand in Errand::ALL {
            for (laid, done) in times(&laid, errand).into_iter().zip(times(&done, errand)) {
                assert!(
                    (done - laid).abs() < most,
                    "{}: {errand:?} laid for {laid}, done at {done}",
                    recipe.id
                );
            }
        }
    }
    assert!(baths > 50, "only {baths} baths");
}

/// What hands did in a rehearsal, and in which minute it was told.
fn rehearsed(plan: &Arc<Plan>) -> Vec<(Errand, f64)> {
    let start = Moment {
        stretch: Stretch(0),
        steady_ms: 0,
        wall_ms: 0,
    };
    let mut done = Vec::new();
    play(plan, start, |line, _| {
        if let Line::Happened(event) = line {
            let minute = event.at.since(start).minutes();
            done.extend(errand_of(plan, &event.what).map(|errand| (errand, minute)));
        }
    })
    .unwrap();
    done
}

/// A rehearsal tells the end of handiwork, and the moment of what is a mere word: a turn, a look, the heat, the end of a
/// dip.
fn told_at(plan: &Plan, coming: &Coming) -> f64 {
    let dips = plan.steps.iter().any(|step| step.act.kind() == StepKind::Dip);
    let at_once = match coming.errand {
        Errand::Turn | Errand::Look | Errand::HeatOff => true,
        Errand::Lift => dips,
        _ => false,
    };
    if at_once {
        coming.begins.likely.minutes()
    } else {
        coming.ends().minutes()
    }
}

/// What an event of the machine was for the hands.
fn errand_of(plan: &Plan, what: &What) -> Option<Errand> {
    if let What::Turned { .. } = what {
        return Some(Errand::Turn);
    }
    let What::StepDone { step, done } = what else {
        return None;
    };
    assert!(matches!(done, Done::AsPlanned | Done::Weighed(_) | Done::Early));
    let act = &plan.steps[step.0].act;
    let waits_next = plan
        .steps
        .get(step.0 + 1)
        .is_some_and(|next| Errand::of_handiwork(&next.act).is_none());
    match act.kind() {
        StepKind::Raise | StepKind::Cool | StepKind::Look => Some(Errand::Look),
        StepKind::Hold => Some(Errand::HeatOff),
        StepKind::Dip => Some(Errand::Lift),
        StepKind::Air | StepKind::Rest => waits_next.then_some(Errand::Look),
        StepKind::Dry => None,
        _ => Errand::of_handiwork(act),
    }
}

// A count of minutes that shares nothing with the sums: which minutes an errand takes, as a set.

fn cells(coming: &Coming, wait: u64) -> BTreeSet<u64> {
    let begins = coming.begins.likely.ms() / 60_000 + wait;
    (begins..begins + coming.hands.ms() / 60_000).collect()
}

fn hands_are_wanted_twice(own: &Coming, theirs: &Coming, wait: u64) -> bool {
    const CAN_BE_LEFT: [Errand; 8] = [
        Errand::WetOut,
        Errand::Weigh,
        Errand::Fill,
        Errand::Dissolve,
        Errand::Squeeze,
        Errand::Rinse,
        Errand::Hang,
        Errand::Shelve,
    ];
    let can_be_left = |coming: &Coming| CAN_BE_LEFT.contains(&coming.errand);
    let one_round = [own, theirs].iter().all(|coming| coming.errand == Errand::Turn);
    !can_be_left(own)
        && !can_be_left(theirs)
        && !one_round
        && !cells(own, wait).is_disjoint(&cells(theirs, 0))
}

/// How many pairs want the hands at once, and whether the end of another hold is among them.
fn counted(new: &Ahead, others: &[OfPot], wait: u64) -> (usize, bool) {
    let mut pairs = 0;
    let mut hold_late = false;
    // Six hours are looked ahead.
    for own in new
        .errands
        .iter()
        .filter(|own| own.begins.likely.ms() <= 6 * 3_600_000)
    {
        for theirs in others.iter().flat_map(|other| &other.ahead.errands) {
            if hands_are_wanted_twice(own, theirs, wait) {
                pairs += 1;
                hold_late |= theirs.errand == Errand::HeatOff;
            }
        }
    }
    (pairs, hold_late)
}

/// What ought to be offered: the first minute of each run of minutes that are as good as any within half an hour.
fn brute_force(new: &Ahead, others: &[OfPot]) -> Vec<(u64, u64, usize)> {
    let now = counted(new, others, 0).0;
    let allowed: Vec<(u64, usize)> = (1..=30)
        .map(|wait| (wait, counted(new, others, wait)))
        .filter(|(_, (_, hold_late))| !hold_late)
        .map(|(wait, (pairs, _))| (wait, pairs))
        .collect();
    let Some(fewest) = allowed
        .iter()
        .map(|(_, pairs)| *pairs)
        .min()
        .filter(|fewest| *fewest < now)
    else {
        return Vec::new();
    };
    let good: BTreeSet<u64> = allowed
        .iter()
        .filter(|(_, pairs)| *pairs == fewest)
        .map(|(wait, _)| *wait)
        .collect();
    let begins = good.iter().copied().filter(|wait| !good.contains(&(wait - 1)));
    let mut runs: Vec<(u64, u64, usize)> = begins
        .map(|begins| {
            let until = (begins..).find(|wait| !good.contains(&(wait + 1))).unwrap();
            (begins, until, fewest)
        })
        .collect();
    runs.truncate(3);
    runs
}

fn told_offers(found: &Offers) -> Vec<(u64, u64, usize)> {
    let whole = |span: Span| span.ms() / 60_000;
    found
        .starts
        .iter()
        .map(|offer| (whole(offer.wait), whole(offer.until), offer.meets.len()))
        .collect()
}

fn any_coming(latest: u64) -> impl Strategy<Value = Coming> {
    let errand = (0..Errand::ALL.len()).prop_map(|index| Errand::ALL[index]);
    (errand, 0..latest, 0..20_u64, 0..20_u64, 1..9_u64).prop_map(|(errand, likely, early, late, hands)| {
        coming(errand, likely.saturating_sub(early), likely, likely + late, hands)
    })
}

fn any_ahead() -> impl Strategy<Value = Ahead> {
    // Crowded, so that there is something to find, and now and then beyond what is looked ahead.
    prop::collection::vec(prop_oneof![9 => any_coming(90), 1 => any_coming(500)], 0..9)
        .prop_map(|errands| ahead(&errands))
}

fn any_others() -> impl Strategy<Value = Vec<OfPot>> {
    prop::collection::vec(any_ahead(), 0..5).prop_map(|all| {
        all.into_iter()
            .zip(1..)
            .map(|(ahead, pot)| OfPot {
                pot: PotNo(pot),
                ahead,
            })
            .collect()
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn a_count_of_minutes_offers_the_same(new in any_ahead(), others in any_others()) {
        let found = offers(&new, &others);
        prop_assert_eq!(found.now.len(), counted(&new, &others, 0).0);
        prop_assert_eq!(told_offers(&found), brute_force(&new, &others));
    }

    #[test]
    fn no_offer_meets_while_one_without_exists(new in any_ahead(), others in any_others()) {
        let found = offers(&new, &others);
        let without = (1..=LATEST).any(|wait| counted(&new, &others, wait) == (0, false));
        if without {
            prop_assert!(found.starts.iter().all(|offer| offer.meets.is_empty()));
            prop_assert_eq!(found.starts.is_empty(), found.now.is_empty());
        }
        prop_assert!(found.starts.iter().all(|offer| offer.meets.len() < found.now.len()));
    }

    #[test]
    fn offers_are_in_order_apart_and_within_half_an_hour(new in any_ahead(), others in any_others()) {
        let told = told_offers(&offers(&new, &others));
        for pair in told.windows(2) {
            prop_assert!(pair[0].1 + 1 < pair[1].0);
        }
        for (wait, until, _) in told {
            prop_assert!(1 <= wait && wait <= until && until <= 30);
        }
    }

    #[test]
    fn nothing_is_offered_when_nothing_meets(new in any_ahead(), others in any_others()) {
        let found = offers(&new, &others);
        if counted(&new, &others, 0).0 == 0 {
            prop_assert_eq!(found, Offers::default());
        }
    }

    #[test]
    fn two_pots_meet_the_same_from_either_side(one in any_ahead(), other in any_ahead()) {
        let of = |pot, ahead: &Ahead| [OfPot { pot: PotNo(pot), ahead: ahead.clone() }];
        let seen = |from: &Ahead, to: &[OfPot]| {
            let mut pairs: Vec<_> = meetings(&from.errands, to, Span::NONE)
                .into_iter()
                .map(|met| (met.own.errand, met.own.begins.likely, met.theirs.errand, met.theirs.begins.likely, met.is_guess()))
                .collect();
            pairs.sort();
            pairs
        };
        let there = seen(&one, &of(2, &other));
        let mut back: Vec<_> = seen(&other, &of(1, &one))
            .into_iter()
            .map(|(own, own_at, theirs, theirs_at, guess)| (theirs, theirs_at, own, own_at, guess))
            .collect();
        back.sort();
        prop_assert_eq!(there, back);
    }

    /// What the likely times say lies within what the bands allow, and without bands nothing is a guess.
    #[test]
    fn the_bands_hold_the_likely_times(one in any_coming(60), other in any_coming(60)) {
        use potside::day::{is_guess, may_meet};
        prop_assert!(!meets(&one, &other) || may_meet(&one, &other));
        let sharp = |coming: Coming| Coming {
            begins: minutes_of(coming.begins.likely),
            ..coming
        };
        prop_assert!(!is_guess(&sharp(one), &sharp(other)));
        prop_assert_eq!(meets(&one, &other), may_meet(&sharp(one), &sharp(other)));
    }
}

fn minutes_of(span: Span) -> Band<Span> {
    Band {
        low: span,
        likely: span,
        high: span,
    }
}
