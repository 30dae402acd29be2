//! A whole bath on the real window, with the real keeper and the real disk behind it: once by fingers, once by keys
//! alone, once through the accessibility tree. Only the clock is the test's.

use i_slint_backend_testing::{AccessibleRole, ElementHandle, ElementQuery};
use potside::craft::time::{Span, Stretch};
use potside::machine::PotNo;
use potside::view::pages::Page;
use potside::view::screen::Screen;
use slint::ComponentHandle;
use slint::platform::{PointerEventButton, WindowEvent};

use crate::kitchen::Kitchen;

#[test]
fn a_bath_goes_from_dry_weight_to_sealed_record_by_fingers() {
    let kitchen = Kitchen::open();
    kitchen.tap("begin");
    kitchen.tap("dry weight");
    for digit in ["1", "0", "0"] {
        kitchen.tap(digit);
    }
    kitchen.firm(&kitchen.control("That's it"));
    kitchen.take_studio_alum();
    kitchen.start();
    assert_eq!(*kitchen.glass.desk.borrow().page(), Page::Run(PotNo(1)));

    kitchen.walk(|kitchen| {
        let label = kitchen.slab_label();
        kitchen.firm(&kitchen.control(&label));
    });

    kitchen.assert_sealed_to_the_end();
}

#[test]
fn a_bath_goes_from_dry_weight_to_sealed_record_by_keys_alone() {
    let kitchen = Kitchen::open();
    let press = |label: &str| kitchen.press_by_keys(label);
    press("begin");
    press("dry weight");
    for digit in ["1", "0", "0"] {
        kitchen.key(digit);
    }
    kitchen.key(" ");
    press("to the recipe");
    press("Mordant");
    press("Alum and tartar, studio");
    // Space means the act that stands out.
    kitchen.key(" ");
    press("bath sheet");
    kitchen.key(" ");
    kitchen.key(" ");
    kitchen.key(" ");
    assert_eq!(*kitchen.glass.desk.borrow().page(), Page::Run(PotNo(1)));

    kitchen.walk(|kitchen| kitchen.key(" "));

    kitchen.assert_sealed_to_the_end();
}

#[test]
fn a_bath_goes_from_dry_weight_to_sealed_record_through_accessible_labels() {
    let kitchen = Kitchen::open();
    let act = |label: &str| {
        kitchen.control(label).invoke_accessible_default_action();
        kitchen.keep();
    };
    act("begin");
    act("dry weight");
    act("1");
    act("0");
    act("0");
    act("That's it");
    act("to the recipe");
    act("Mordant");
    act("down");
    act("Alum and tartar, studio");
    act("take this recipe");
    act("bath sheet");
    act("Read the cautions");
    act("Cautions read");
    act("BEGIN");

    kitchen.walk(|kitchen| {
        let label = kitchen.slab_label();
        kitchen.control(&label).invoke_accessible_default_action();
        kitchen.keep();
    });

    kitchen.assert_sealed_to_the_end();
}

#[test]
fn a_short_or_slipping_touch_confirms_nothing() {
    let kitchen = Kitchen::open();
    kitchen.tap("begin");
    kitchen.tap("dry weight");
    kitchen.tap("5");
    let slab = kitchen.control("That's it");

    slab.mock_single_click(PointerEventButton::Left);

    kitchen.keep();
    assert!(
        matches!(kitchen.glass.desk.borrow().page(), Page::Number(_)),
        "a touch of no length took the number"
    );
    assert_eq!(kitchen.stretch(), Stretch(0));
}

#[test]
fn a_storm_locks_the_glass_and_calm_or_a_key_opens_it() {
    let kitchen = Kitchen::open();
    kitchen.tap("begin");
    kitchen.tap("dry weight");
    kitchen.tap("5");
    let slab = kitchen.control("That's it");
    let (corner, size) = (slab.absolute_position(), slab.size());
    let position = slint::LogicalPosition::new(corner.x + size.width / 2.0, corner.y + size.height / 2.0);
    let button = PointerEventButton::Left;
    let pat = || {
        let window = kitchen.glass.window.window();
        window.dispatch_event(WindowEvent::PointerPressed { position, button });
        window.dispatch_event(WindowEvent::PointerReleased { position, button });
    };
    let is_locked = || matches!(kitchen.glass.desk.borrow().screen(), Screen::Wipe(_));

    (0..12).for_each(|_| pat());
    assert!(is_locked(), "a storm");

    kitchen.pass(Span::from_ms(1_900));
    pat();
    kitchen.pass(Span::from_ms(1_900));
    assert!(is_locked(), "it was touched in between");
    kitchen.pass(Span::from_ms(200));
    assert!(!is_locked(), "two seconds of calm");

    kitchen.firm(&kitchen.control("That's it"));
    assert!(
        !matches!(kitchen.glass.desk.borrow().page(), Page::Number(_)),
        "a press counts again"
    );

    kitchen.tap("dry weight");
    (0..12).for_each(|_| pat());
    kitchen.key(" ");
    assert!(!is_locked(), "the key says that it is dry");
}

#[test]
fn a_wall_clock_that_is_set_is_said_once() {
    let kitchen = Kitchen::open();
    let said = || {
        kitchen.pass(Span::from_seconds(1));
        let status = kitchen.glass.desk.borrow().status();
        status
            .notices
            .iter()
            .any(|notice| notice.text.contains("clock was set"))
    };
    assert!(!said());
    kitchen.set_wall_clock(3_600_000);
    assert!(said());
    kitchen.pass(Span::from_minutes(2));
    assert!(!said(), "and not again");
}

#[test]
fn a_notice_takes_room_and_moves_nothing_off_the_glass() {
    let kitchen = Kitchen::open();
    kitchen.tap("begin");
    kitchen.tap("dry weight");
    kitchen.tap("9");
    kitchen.firm(&kitchen.control("That's it"));
    kitchen.take_studio_alum();
    kitchen.start();
    kitchen.glass.desk.borrow_mut().hear_sound(true);
    kitchen.glass.repaint();

    let all = ElementQuery::from_root(&kitchen.glass.window).find_all();
    let texts: Vec<&ElementHandle> = all
        .iter()
        .filter(|element| element.accessible_role() == Some(AccessibleRole::Text))
        .collect();

    assert!(texts.len() > 3, "nothing is said on the run screen");
    for text in texts {
        let (at, size) = (text.absolute_position(), text.size());
        let label = text.accessible_label().unwrap_or_default();
        assert!(
            at.y >= 0.0 && at.y + size.height <= 481.0,
            "{label:?} lies at {} and is {} high",
            at.y,
            size.height
        );
    }
}
