//! A second bath joins the first on the real window: what would meet is said, a later start is pressed, and the call to
//! begin comes. Once by fingers, once by keys alone.

use potside::craft::time::Span;
use potside::machine::PotNo;
use potside::machine::chime::Chime;
use potside::view::pages::Page;
use potside::view::screen::{Screen, SheetScreen};

use crate::kitchen::Kitchen;

type Hand = fn(&Kitchen, &str);

fn finger(kitchen: &Kitchen, label: &str) {
    kitchen.turn_to(label);
    kitchen.tap(label);
}

fn key(kitchen: &Kitchen, label: &str) {
    kitchen.press_by_keys(label);
}

/// From home to the sheet of an alum bath.
fn to_the_sheet(kitchen: &Kitchen, press: Hand) {
    press(kitchen, "begin");
    press(kitchen, "dry weight");
    for digit in ["1", "0", "0"] {
        kitchen.key(digit);
    }
    kitchen.firm_by_keys("That's it");
    press(kitchen, "to the recipe");
    press(kitchen, "Mordant");
    press(kitchen, "Alum and tartar, studio");
    press(kitchen, "take this recipe");
    press(kitchen, "bath sheet");
}

fn sheet(kitchen: &Kitchen) -> SheetScreen {
    match kitchen.screen() {
        Screen::Sheet(sheet) => sheet,
        other => panic!("{other:?}"),
    }
}

fn page(kitchen: &Kitchen) -> Page {
    kitchen.glass.desk.borrow().page().clone()
}

fn joins(press: Hand) {
    let kitchen = Kitchen::open();
    to_the_sheet(&kitchen, press);
    assert_eq!(sheet(&kitchen).beside.line, "", "nothing else is going");
    kitchen.start();
    press(&kitchen, "stove");
    to_the_sheet(&kitchen, press);
    // As the minutes go by, something of the second comes to lie upon something of the first.
    let mut waited = 0;
    while sheet(&kitchen).beside.starts.is_empty() {
        kitchen.pass(Span::from_minutes(1));
        waited += 1;
        assert!(
            waited < 120,
            "nothing ever meets: {}",
            sheet(&kitchen).beside.line
        );
    }
    let seen = sheet(&kitchen);
    assert!(
        seen.beside.line.contains(" meets pot 1's "),
        "{}",
        seen.beside.line
    );
    assert_eq!(seen.beside.rows.len(), 2);

    press(&kitchen, "begin in");
    assert_eq!(page(&kitchen), Page::Stove);
    kitchen.control("pot 2, begin, ");
    assert!(kitchen.machine().pot(PotNo(2)).is_none(), "nothing has begun");

    // Half an hour is the longest that is offered.
    kitchen.sounded_by_glass();
    kitchen.pass(Span::from_minutes(31));
    let calls = kitchen.sounded_by_glass();
    assert!(!calls.is_empty());
    assert!(
        calls
            .iter()
            .all(|sound| sound.chime == Chime::Due && sound.pots == [PotNo(2)])
    );
    let notices = kitchen.glass.desk.borrow().status().notices;
    assert!(
        notices
            .iter()
            .any(|notice| notice.text.starts_with("BEGIN pot 2 now"))
    );

    press(&kitchen, "pot 2, begin, now");
    assert!(sheet(&kitchen).beside.line.starts_with("begins at "));
    kitchen.start();
    assert_eq!(page(&kitchen), Page::Run(PotNo(2)));
    assert!(kitchen.machine().pot(PotNo(2)).is_some());
    kitchen.sounded_by_glass();
    kitchen.pass(Span::from_minutes(10));
    assert!(kitchen.sounded_by_glass().is_empty(), "begun, it calls no more");
}

#[test]
fn a_second_bath_is_put_off_and_called_for_by_fingers() {
    joins(finger);
}

#[test]
fn a_second_bath_is_put_off_and_called_for_by_keys_alone() {
    joins(key);
}
