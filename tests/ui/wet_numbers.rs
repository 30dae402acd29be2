//! A weighing and a reading entered with wet gloves, on the real window with the real keeper and disk: steps and the slab
//! alone, and the value of last time.

use potside::craft::time::Span;
use potside::view::screen::{GaugeSide, NumberScreen, Screen};

use crate::kitchen::Kitchen;

/// Begins an alum mordant and goes on to its first weighing.
fn to_weighing(kitchen: &Kitchen) {
    kitchen.tap("begin");
    kitchen.tap("dry weight");
    for digit in ["1", "0", "0"] {
        kitchen.tap(digit);
    }
    kitchen.firm(&kitchen.control("That's it"));
    kitchen.take_studio_alum();
    kitchen.start();
    for _ in 0..10 {
        if sides(kitchen).iter().any(|key| key == "weighed") {
            return;
        }
        let label = kitchen.slab_label();
        kitchen.firm(&kitchen.control(&label));
        kitchen.pass(Span::from_minutes(31));
        kitchen.glass.press(&potside::view::pages::Press::Near);
    }
    panic!("no weighing comes");
}

fn sides(kitchen: &Kitchen) -> Vec<String> {
    match kitchen.screen() {
        Screen::Run(run) => run.sides.into_iter().map(|side| side.key).collect(),
        other => panic!("{:?}", other.route()),
    }
}

fn number(kitchen: &Kitchen) -> NumberScreen {
    match kitchen.screen() {
        Screen::Number(number) => number,
        other => panic!("{:?}", other.route()),
    }
}

#[test]
fn a_weighing_is_entered_by_steps_and_the_slab_alone() {
    let kitchen = Kitchen::open();
    to_weighing(&kitchen);
    kitchen.tap("scale says");
    // 15 % of 100 g.
    kitchen.tap("\u{2212}0.1 g");
    kitchen.tap("\u{2212}0.1 g");
    let screen = number(&kitchen);
    assert_eq!(screen.typed, "14.8");
    assert_eq!(screen.gauge.side, GaugeSide::Within);
    kitchen.firm(&kitchen.control("That's it"));

    kitchen.walk(|kitchen| {
        let label = kitchen.slab_label();
        kitchen.firm(&kitchen.control(&label));
    });
    let record = &kitchen.records()[0];
    let additions = record["additions"].as_array().expect("additions");
    let alum = additions
        .iter()
        .find(|addition| addition["ware"] == "potash-alum")
        .expect("alum");
    assert_eq!(alum["actual_g"], 14.8);
}

#[test]
fn the_same_by_keys_and_far_off_is_said_before_it_is_asked() {
    let kitchen = Kitchen::open();
    to_weighing(&kitchen);
    kitchen.press_by_keys("scale says");
    kitchen.press_by_keys("+1 g");
    let screen = number(&kitchen);
    assert_eq!(screen.typed, "16.0");
    assert_eq!(screen.gauge.side, GaugeSide::Over);
    assert_eq!(screen.gauge.word, "1.00 g over");
    kitchen.press_by_keys("That's it");
    assert!(
        matches!(kitchen.screen(), Screen::Ask(_)),
        "and the machine asks too"
    );
}

#[test]
fn a_thermometer_is_read_by_steps() {
    let kitchen = Kitchen::open();
    to_weighing(&kitchen);
    while !sides(&kitchen).iter().any(|key| key == "reading") {
        let label = kitchen.slab_label();
        kitchen.firm(&kitchen.control(&label));
        kitchen.pass(Span::from_minutes(1));
        kitchen.glass.press(&potside::view::pages::Press::Near);
    }
    kitchen.tap("reading");
    for digit in ["3", "0"] {
        kitchen.tap(digit);
    }
    kitchen.firm(&kitchen.control("That's it"));
    kitchen.tap("reading");
    kitchen.tap("+ \u{2212}");
    kitchen.tap("last time 30 C");
    kitchen.tap("+1 C");
    kitchen.tap("+1 C");
    assert_eq!(number(&kitchen).typed, "32");
    kitchen.firm(&kitchen.control("That's it"));
    let machine = kitchen.machine();
    let run = machine.pot(potside::machine::PotNo(1)).expect("a bath");
    let (_, read) = run.last_reading.expect("a reading");
    assert!((read.celsius() - 32.0).abs() < 1e-9);
}
