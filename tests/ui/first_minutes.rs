//! The very first start on the real window and a real disk: the questions by fingers and by keys, the presses counted,
//! what is kept, and that it isn't asked again.

use std::cell::Cell;

use potside::craft::time::Span;
use potside::craft::vessel::{BurnerKind, Place};
use potside::machine::PotNo;
use potside::view::bench::Bench;
use potside::view::pages::{First, Page};
use potside::view::screen::Screen;
use slint::platform::Key;

use crate::kitchen::Kitchen;

fn page(kitchen: &Kitchen) -> Page {
    kitchen.glass.desk.borrow().page().clone()
}

fn away() -> Span {
    Span::from_minutes(10)
}

#[test]
fn by_fingers_it_is_seven_taps_and_the_bench_is_on_the_disk() {
    let kitchen = Kitchen::first_start();
    assert_eq!(page(&kitchen), Page::First(First::Language));
    let taps = Cell::new(0);
    let tap = |label: &str| {
        assert_eq!(kitchen.bench_on_disk(), None, "nothing is kept on the way");
        kitchen.tap(label);
        taps.set(taps.get() + 1);
    };
    tap("English");
    tap("Metric");
    tap("Sea level");
    tap("12 L");
    tap("Induction");
    tap("2.0 kW");
    tap("Yes");

    assert_eq!(taps.get(), 7);
    assert_eq!(page(&kitchen), Page::Stove);
    assert_eq!(kitchen.bench_on_disk(), Some(Bench::default()));
    assert_eq!(kitchen.checks(), [80], "the sounds were heard once");
    kitchen.tap("begin");
    assert_eq!(page(&kitchen), Page::Goods);
}

#[test]
fn by_keys_one_key_pressed_seven_times_takes_the_usual_bench() {
    let kitchen = Kitchen::first_start();
    for _ in First::ALL {
        assert!(matches!(page(&kitchen), Page::First(_)));
        kitchen.key(" ");
    }
    assert_eq!(page(&kitchen), Page::Stove);
    assert_eq!(kitchen.bench_on_disk(), Some(Bench::default()));
}

#[test]
fn other_answers_by_keys_are_kept_and_stand_at_the_next_start() {
    let kitchen = Kitchen::first_start();
    let press = |label: &str| kitchen.press_by_keys(label);
    press("English");
    press("Metric");
    press("another");
    for digit in ["8", "4", "0"] {
        kitchen.key(digit);
    }
    kitchen.key(" ");
    press("20 L");
    press("Gas flame");
    kitchen.key(slint::SharedString::from(Key::Escape));
    assert_eq!(page(&kitchen), Page::First(First::Burner), "Escape is back");
    press("Electric plate");
    press("2.0 kW");
    press("No sound here");

    let kitchen = kitchen.lose_power(away());
    assert_eq!(page(&kitchen), Page::Stove, "it isn't asked again");
    let bench = kitchen.bench_on_disk().expect("it was kept");
    let Place::Altitude(height) = bench.stove.place else {
        panic!("{:?}", bench.stove.place)
    };
    assert!((height.metres() - 840.0).abs() < 1e-9);
    assert!((bench.stove.pot.capacity.litres() - 20.0).abs() < 1e-9);
    assert_eq!(bench.stove.burner.kind, BurnerKind::Coil);
    assert_eq!(bench.volume_percent, 0);
    // A call that can't be heard must not say nothing.
    let status = kitchen.glass.desk.borrow().status();
    assert!(
        status
            .notices
            .iter()
            .any(|notice| notice.text.contains("NO SOUND"))
    );
}

#[test]
fn skipped_at_once_it_is_one_tap_and_isnt_asked_again() {
    let kitchen = Kitchen::first_start();
    kitchen.tap("skip the rest");
    assert_eq!(page(&kitchen), Page::Stove);
    assert_eq!(kitchen.bench_on_disk(), Some(Bench::default()));
    let kitchen = kitchen.lose_power(away());
    assert_eq!(page(&kitchen), Page::Stove);
}

#[test]
fn a_power_cut_among_the_questions_begins_them_again() {
    let kitchen = Kitchen::first_start();
    kitchen.tap("English");
    kitchen.tap("Metric");
    let kitchen = kitchen.lose_power(away());
    assert_eq!(page(&kitchen), Page::First(First::Language));
}

#[test]
fn there_is_no_way_back_from_the_first_question_and_one_from_each_other() {
    let kitchen = Kitchen::first_start();
    let has_back = || {
        use i_slint_backend_testing::{AccessibleRole, ElementQuery};
        ElementQuery::from_root(&kitchen.glass.window)
            .match_accessible_role(AccessibleRole::Button)
            .find_all()
            .iter()
            .any(|button| button.accessible_label().is_some_and(|label| label == "back"))
    };
    assert!(!has_back());
    kitchen.tap("English");
    assert!(has_back());
    kitchen.tap("back");
    assert!(!has_back());
    kitchen.tap("skip the rest");
    kitchen.tap("bench");
    assert!(has_back(), "the bench has its way back");
}

#[test]
fn louder_until_it_is_heard() {
    let kitchen = Kitchen::first_start();
    for _ in 0..6 {
        kitchen.key(" ");
    }
    kitchen.tap("Louder");
    kitchen.tap("Once more");
    kitchen.tap("Yes");
    assert_eq!(kitchen.checks(), [80, 100, 100]);
    assert_eq!(
        kitchen.bench_on_disk().map(|bench| bench.volume_percent),
        Some(100)
    );
}

#[test]
fn a_demo_bath_is_one_tap_away_and_leads_back_to_the_questions() {
    let kitchen = Kitchen::first_start();
    kitchen.tap("rehearse a demo bath");
    assert_eq!(page(&kitchen), Page::Run(PotNo(1)));
    let Screen::Run(run) = kitchen.screen() else {
        panic!("{:?}", kitchen.screen().route())
    };
    kitchen.firm(&kitchen.control(&run.slab.label));
    let Screen::Run(after) = kitchen.screen() else {
        panic!("{:?}", kitchen.screen().route())
    };
    assert_ne!(after.step, run.step, "its steps are tapped like real ones");
    assert!(
        kitchen.machine().pots().next().is_none(),
        "nothing was really begun"
    );
    kitchen.tap("stove");
    assert_eq!(page(&kitchen), Page::First(First::Language));
    assert_eq!(kitchen.bench_on_disk(), None);
}
