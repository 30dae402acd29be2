//! The curve: it stays in its box, its band is closed, its done part ends at now, and it tells the bath it is of.

use std::sync::Arc;

use chrono::FixedOffset;
use expect_test::expect;
use potside::craft::quantity::Mass;
use potside::craft::time::{Moment, Span, Stretch};
use potside::machine::{Input, PotNo};
use potside::recipe::model::{Act, RecipeStep};
use potside::sheet::plan::{Goods, Plan};
use potside::sheet::{StovePlace, Wishes};
use potside::view::curve;
use potside::view::locale::Locale;
use potside::view::screen::{BathCurve, CurveLists, MarkKind};
use proptest::prelude::*;

use crate::support::plans::{alum_bath, minutes};
use crate::support::script::Stage;

fn plain() -> Locale {
    Locale::plain(FixedOffset::east_opt(0).unwrap())
}

/// The points of a path.
fn points(path: &str) -> Vec<(f64, f64)> {
    let numbers: Vec<f64> = path
        .split(|letter: char| "MLZ ".contains(letter))
        .filter(|part| !part.is_empty())
        .map(|part| part.parse().unwrap())
        .collect();
    assert_eq!(numbers.len() % 2, 0, "{path}");
    numbers.chunks(2).map(|pair| (pair[0], pair[1])).collect()
}

fn in_box(value: f64) -> bool {
    (0.0..=1_000.0).contains(&value)
}

/// What must hold of any curve.
fn holds(curve: &BathCurve, lists: &CurveLists) {
    for path in [&curve.band, &curve.plan, &curve.done] {
        let points = points(path);
        assert!(points.len() < 200, "{} points", points.len());
        assert!(points.iter().all(|(x, y)| in_box(*x) && in_box(*y)), "{path}");
        assert!(path.is_empty() || path.starts_with('M'), "{path}");
        assert_eq!(path.matches('M').count(), usize::from(!path.is_empty()), "{path}");
    }
    assert!(
        curve.band.is_empty() || curve.band.ends_with('Z'),
        "{}",
        curve.band
    );
    assert!(!curve.plan.ends_with('Z') && !curve.done.ends_with('Z'));
    for path in [&curve.plan, &curve.done] {
        assert!(
            points(path).windows(2).all(|pair| pair[0].0 <= pair[1].0),
            "time runs back: {path}"
        );
    }
    let band = points(&curve.band);
    let (hot, cold) = band.split_at(band.len() / 2);
    for ((x, hot), (x_back, cold)) in hot.iter().zip(cold.iter().rev()) {
        assert_eq!(x, x_back);
        assert!(
            hot <= cold,
            "the hot edge lies above the cold one: {}",
            curve.band
        );
    }
    let now = f64::from(curve.now);
    assert!(now == -1.0 || (in_box(now) && now.fract() == 0.0));
    if now >= 0.0 {
        assert_eq!(points(&curve.done).last().unwrap().0, now, "{}", curve.done);
    }
    for mark in &lists.marks {
        assert!(in_box(f64::from(mark.x)) && in_box(f64::from(mark.y)), "{mark:?}");
        assert_eq!(mark.kind == MarkKind::Addition, !mark.label.is_empty());
    }
    for rules in [&lists.temperatures, &lists.times] {
        assert!((1..=5).contains(&rules.len()), "{rules:?}");
        assert!(rules.iter().all(|rule| in_box(f64::from(rule.at))));
    }
    assert!(!curve.said.is_empty());
}

fn of(stage: &Stage) -> (BathCurve, CurveLists) {
    curve::of_run(stage.machine.pot(PotNo(1)).unwrap(), stage.now(), plain())
}

const TO_HOLD: &str = "
    0:00 pot 1 begin
    0:01 pot 1 confirm
    0:02 pot 1 confirm
    0:05 pot 1 confirm
    0:10 pot 1 confirm
    0:12 pot 1 confirm
    0:40 pot 1 confirm
    1:00 pot 1 reading 66
    1:15 pot 1 confirm
    1:30 pot 1 confirm";

fn staged(plan: &Arc<Plan>, script: &str) -> Stage {
    let mut stage = Stage::new(plan);
    let told = stage.play(script);
    assert!(!told.contains("refused"), "{told}");
    stage
}

#[test]
fn a_hold_half_way_is_drawn() {
    let (curve, lists) = of(&staged(&alum_bath(), &format!("{TO_HOLD}\n1:40")));
    holds(&curve, &lists);
    let marks: Vec<String> = lists
        .marks
        .iter()
        .map(|mark| format!("{:?}{} {},{}", mark.kind, mark.label, mark.x, mark.y))
        .collect();
    let rules = |rules: &[potside::view::screen::CurveRule]| {
        let rules: Vec<String> = rules
            .iter()
            .map(|rule| format!("{} at {}", rule.label, rule.at))
            .collect();
        rules.join(", ")
    };
    let drawn = format!(
        "done {}\nnow {}\nplan {}\nband {}\nmarks {}\n{}\n{}\nsaid {}\n",
        curve.done,
        curve.now,
        curve.plan,
        curve.band,
        marks.join("; "),
        rules(&lists.temperatures),
        rules(&lists.times),
        curve.said
    );
    expect![[r#"
        done M0 857 L3 857 L5 857 L14 857 L27 857 L32 857 L108 857 L162 486 L203 214 L270 214
        now 270
        plan M270 214 L365 214 L411 318 L480 451 L549 563 L641 685 L732 781 L824 857
        band M270 100 L285 100 L300 100 L315 100 L330 100 L345 100 L360 100 L375 231 L390 257 L405 282 L419 306 L434 329 L449 352 L464 374 L479 395 L494 416 L509 436 L524 456 L539 475 L554 494 L569 512 L584 530 L599 547 L613 563 L628 579 L643 595 L658 610 L673 625 L688 640 L703 654 L718 667 L733 681 L748 694 L763 706 L778 718 L793 730 L807 742 L822 753 L837 764 L852 774 L867 785 L882 795 L897 804 L912 814 L927 823 L942 832 L957 841 L972 849 L986 857 L986 857 L972 857 L957 857 L942 857 L927 857 L912 857 L897 857 L882 857 L867 857 L852 857 L837 857 L822 857 L807 857 L793 857 L778 857 L763 857 L748 857 L733 857 L718 857 L703 857 L688 856 L673 840 L658 823 L643 805 L628 786 L613 767 L599 746 L584 724 L569 700 L554 675 L539 649 L524 622 L509 593 L494 562 L479 530 L464 496 L449 460 L434 422 L419 381 L405 339 L390 294 L375 247 L360 286 L345 286 L330 286 L315 286 L300 286 L285 286 L270 286 Z
        marks Turn 284,214; Turn 324,214; Tap 3,857; Tap 5,857; Tap 14,857; Tap 27,857; Tap 108,857; Tap 203,214; Turn 243,214; Reading 162,486; AdditionA 32,857
        40° at 857, 60° at 571, 80° at 286, 100° at 0
        00:00 at 0, 02:00 at 324, 04:00 at 649, 06:00 at 973
        said Test alum: about 85 °C now, the hold ends at about 02:15
    "#]].assert_eq(&drawn);
}

#[test]
fn seconds_change_nothing_and_minutes_do() {
    let mut stage = staged(&alum_bath(), &format!("{TO_HOLD}\n1:40"));
    let first = of(&stage);
    for second in 1..60 {
        stage.play(&format!("1:40:{second:02}"));
        assert_eq!(of(&stage), first);
    }
    stage.play("1:41");
    assert_ne!(of(&stage), first);
}

#[test]
fn a_day_of_drying_takes_no_room() {
    let mut plan = (*alum_bath()).clone();
    let wide = of(&staged(&Arc::new(plan.clone()), &format!("{TO_HOLD}\n1:40"))).1;
    let mut dry = plan.steps.last().unwrap().clone();
    dry.act = potside::sheet::plan::StepAct::Dry;
    dry.usual = minutes(720, 1_440, 2_880);
    let before_last = plan.steps.len() - 1;
    plan.steps.insert(before_last, dry);

    let (_, lists) = of(&staged(&Arc::new(plan), &format!("{TO_HOLD}\n1:40")));

    assert_eq!(lists, wide);
}

#[test]
fn a_night_of_soaking_takes_no_room() {
    let script = "
        0:00 pot 1 begin
        0:01 pot 1 confirm
        12:02 pot 1 confirm
        12:05 pot 1 confirm
        12:10 pot 1 confirm
        12:12 pot 1 confirm
        12:15 pot 1 confirm
        12:30";
    let (curve, lists) = of(&staged(&alum_bath(), script));
    holds(&curve, &lists);
    // The raise began at 12:15. Of the six and a half hours drawn no more than one lies before it.
    assert_eq!(lists.times.first().unwrap().label, "12:00");
    assert!((1.0..250.0).contains(&curve.now), "{}", curve.now);
}

#[test]
fn a_bath_past_its_heat_has_no_plumb_line_and_nothing_to_come() {
    let script = format!("{TO_HOLD}\n2:16 pot 1 confirm\n5:20 pot 1 reading 39\n5:22");
    let (curve, lists) = of(&staged(&alum_bath(), &script));
    holds(&curve, &lists);
    assert_eq!(
        (curve.now, curve.band.as_str(), curve.plan.as_str()),
        (-1.0, "", "")
    );
    assert!(!curve.done.is_empty());
}

/// A board without a battery clock may come up days early or late. Where nobody vouches for it, the bath is drawn with the
/// least time it can have been away, as the record has it; where both ends are known, by the clock.
#[test]
fn a_wall_clock_that_nobody_vouches_for_places_nothing() {
    let bath = staged(&alum_bath(), &format!("{TO_HOLD}\n1:40"));
    let drawn = |wall_minutes: u64, at_most: Option<u64>| {
        let mut machine = bath.machine.clone();
        let back = Moment {
            stretch: Stretch(1),
            steady_ms: 20_000,
            ..bath.now().plus(Span::from_minutes(wall_minutes))
        };
        let returned = Input::Returned {
            at_least: Span::from_minutes(10),
            at_most: at_most.map(Span::from_minutes),
        };
        for event in machine.judge(&returned, back).unwrap() {
            machine.apply(&event);
        }
        let (curve, lists) = curve::of_run(machine.pot(PotNo(1)).unwrap(), back, plain());
        holds(&curve, &lists);
        (curve.done, curve.now)
    };

    assert_eq!(drawn(10, None), drawn(240, None));
    assert_eq!(
        drawn(30, Some(12)),
        drawn(12, Some(12)),
        "no longer than it can have been"
    );
    assert_ne!(drawn(12, Some(80)), drawn(60, Some(80)));
}

#[test]
fn what_was_taken_back_leaves_no_mark() {
    let before = of(&staged(&alum_bath(), &format!("{TO_HOLD}\n1:40")));
    let after = of(&staged(
        &alum_bath(),
        &format!("{TO_HOLD}\n1:36 pot 1 confirm\n1:37 pot 1 take-back\n1:40"),
    ));
    assert_eq!(after.1, before.1);
}

#[test]
fn letters_stand_where_additions_went_in() {
    let early = of(&staged(&alum_bath(), "0:00 pot 1 begin\n0:01")).1;
    let late = of(&staged(&alum_bath(), &format!("{TO_HOLD}\n1:40"))).1;
    for lists in [early, late] {
        let letters: Vec<&str> = lists.marks.iter().map(|mark| mark.label.as_str()).collect();
        assert_eq!(letters.iter().filter(|letter| **letter == "A").count(), 1);
    }
}

#[test]
fn every_recipe_of_the_book_draws_its_sheet() {
    let start = Moment {
        stretch: Stretch(0),
        steady_ms: 0,
        wall_ms: 1_787_650_000_000,
    };
    for recipe in potside::recipe::book::all() {
        let recipe = Arc::clone(recipe);
        let goods = Goods {
            fibre: recipe.fibres[0],
            dry: Mass::from_grams(200.0).unwrap(),
            hanks: 2,
            lot: None,
        };
        let wishes = Wishes::new(goods, StovePlace::default());
        let sheet = potside::sheet::compute(&recipe, &wishes);
        let (curve, lists) = curve::of_sheet(&sheet, start, plain());
        holds(&curve, &lists);
        let is_heated = |step: &RecipeStep| matches!(step.act, Act::Raise { .. });
        assert_eq!(
            curve.plan.is_empty(),
            !recipe.steps.iter().any(is_heated),
            "{}",
            recipe.id
        );
        if curve.plan.is_empty() {
            continue; // A bath without heat has no curve.
        }
        assert_eq!(curve.now, -1.0);
        let letters = lists
            .marks
            .iter()
            .filter(|mark| mark.kind == MarkKind::Addition)
            .count();
        assert_eq!(letters, recipe.additions.len(), "{}", recipe.id);
        assert!(
            points(&curve.plan).last().unwrap().0 > 500.0,
            "the heat part isn't squeezed: {}",
            recipe.id
        );
    }
}

#[derive(Debug, Clone)]
enum Hand {
    Confirm,
    Skip,
    TakeBack,
    Heard,
    BackToRaise,
    Reading(f64),
    Returned(u64),
    Answer,
    Nothing,
}

fn hand() -> impl Strategy<Value = (u64, Hand)> {
    let hand = prop_oneof![
        6 => Just(Hand::Confirm),
        1 => Just(Hand::Skip),
        1 => Just(Hand::TakeBack),
        1 => Just(Hand::Heard),
        1 => Just(Hand::BackToRaise),
        2 => (15.0..100.0_f64).prop_map(Hand::Reading),
        1 => (0_u64..2_000).prop_map(Hand::Returned),
        1 => Just(Hand::Answer),
        1 => Just(Hand::Nothing),
    ];
    (prop_oneof![0_u64..120, 60_u64..7_200, 7_200_u64..90_000], hand)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(128))]

    /// Whatever hands, thermometers and power cuts do, the curve can be drawn and every screen is built.
    #[test]
    fn any_session_can_be_drawn(hands in prop::collection::vec(hand(), 1..40)) {
        let mut stage = Stage::new(&alum_bath());
        stage.play("0:00 pot 1 begin");
        let mut second = 0;
        for (wait, hand) in hands {
            second += wait;
            let verb = match hand {
                Hand::Confirm => "pot 1 confirm sure".to_owned(),
                Hand::Skip => "pot 1 skip".to_owned(),
                Hand::TakeBack => "pot 1 take-back".to_owned(),
                Hand::Heard => "pot 1 heard".to_owned(),
                Hand::BackToRaise => "pot 1 back-to-raise".to_owned(),
                Hand::Reading(celsius) => format!("pot 1 reading {celsius}"),
                Hand::Returned(minutes) => format!("pot 1 returned {minutes} ?"),
                Hand::Answer => "pot 1 answer carry-on".to_owned(),
                Hand::Nothing => String::new(),
            };
            let clock = format!("{}:{:02}:{:02}", second / 3_600, second / 60 % 60, second % 60);
            stage.play(&format!("{clock} {verb}"));
            let (curve, lists) = of(&stage);
            holds(&curve, &lists);
            let screen = potside::view::run::screen(&stage.machine, PotNo(1), stage.now(), plain(), false);
            prop_assert!(screen.is_some());
        }
    }
}
