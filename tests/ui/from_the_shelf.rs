//! Begin a bath from a lot, on the real window with the real keeper and disk: a lot is put down, its bath is begun, walked
//! and sealed, and the shelf has moved on. Once by fingers, once by keys alone.

use potside::craft::lot::LotId;
use potside::machine::PotNo;
use potside::recipe::model::BathKind;
use potside::shelf::{Stage, condition};
use potside::view::pages::{BookPage, Page, ShelfPage};
use potside::view::screen::Screen;
use slint::platform::Key;

use crate::kitchen::Kitchen;

fn lot_one() -> LotId {
    LotId::from_number(1).expect("a tag")
}

/// What the keeper's shelf on the disk says of the lot.
fn stage(kitchen: &Kitchen) -> Stage {
    let seen = kitchen.shelf();
    condition(&seen.shelf, seen.shelf.lot(lot_one()).expect("the lot")).stage
}

fn put_a_lot_down(kitchen: &Kitchen) {
    kitchen.tap("shelf");
    kitchen.tap("new lot");
    kitchen.tap("dry weight");
    for digit in ["1", "0", "0"] {
        kitchen.tap(digit);
    }
    kitchen.firm(&kitchen.control("That's it"));
    kitchen.tap("more hanks");
    kitchen.tap("write it down");
    kitchen.firm(&kitchen.control("Yes, scoured"));
    assert_eq!(
        *kitchen.glass.desk.borrow().page(),
        Page::Shelf(ShelfPage::Lot(lot_one()))
    );
}

#[test]
fn a_lot_is_put_down_begun_with_and_moves_on_when_its_bath_ends() {
    let kitchen = Kitchen::open();
    put_a_lot_down(&kitchen);
    let file = std::fs::read_to_string(kitchen.path("shelf.toml")).expect("it is kept");
    assert!(
        file.contains("id = \"L1\"") && file.contains("hanks = 2"),
        "{file}"
    );
    kitchen.tap("begin a bath");
    kitchen.take_studio_alum();
    kitchen.start();
    assert_eq!(*kitchen.glass.desk.borrow().page(), Page::Run(PotNo(1)));
    kitchen.walk(|kitchen| {
        let label = kitchen.slab_label();
        kitchen.firm(&kitchen.control(&label));
    });

    assert_eq!(kitchen.records()[0]["lot"], "L1");
    assert_eq!(stage(&kitchen), Stage::Mordanted);
    // The glass has it too, without being asked.
    kitchen.glass.press(&potside::view::pages::Press::Back);
    kitchen.glass.press(&potside::view::pages::Press::Back);
    kitchen.tap("shelf");
    let screen = kitchen.glass.desk.borrow().screen();
    let Screen::Choose(lots) = screen else {
        panic!("{screen:?}")
    };
    assert!(
        lots.rows[0]
            .detail
            .contains("mordanted (Alum and tartar, studio)"),
        "{:?}",
        lots.rows
    );
}

#[test]
fn a_lot_in_a_pot_is_not_begun_with_twice() {
    let kitchen = Kitchen::open();
    put_a_lot_down(&kitchen);
    kitchen.tap("begin a bath");
    kitchen.take_studio_alum();
    kitchen.start();
    kitchen.tap("stove");
    kitchen.tap("shelf");
    kitchen.tap("L1");
    assert_eq!(kitchen.control("begin a bath").accessible_enabled(), Some(false));
}

#[test]
fn the_book_and_a_lot_are_walked_by_keys_alone() {
    let kitchen = Kitchen::open();
    put_a_lot_down(&kitchen);
    let press = |label: &str| {
        for _ in 0..80 {
            kitchen.key(slint::SharedString::from(Key::Tab));
            if kitchen.is_focused(label) {
                kitchen.key(" ");
                return;
            }
        }
        panic!("no way to {label} by keys");
    };
    // Space means the act that stands out: begin a bath.
    kitchen.key(" ");
    press("to the recipe");
    press("A to Z");
    press("O");
    let last = {
        let screen = kitchen.glass.desk.borrow().screen();
        let Screen::Choose(list) = screen else {
            panic!("{screen:?}")
        };
        list.rows
            .iter()
            .rev()
            .find(|row| row.enabled)
            .expect("a recipe")
            .label
            .clone()
    };
    // The last of a long list comes into sight as the keys reach it.
    press(&last);
    kitchen.key(" ");
    assert_eq!(*kitchen.glass.desk.borrow().page(), Page::Pot);
}

#[test]
fn a_label_is_written_and_the_page_says_where() {
    let kitchen = Kitchen::open();
    put_a_lot_down(&kitchen);
    kitchen.tap("label");
    kitchen.turn_to("one tag");
    kitchen.tap("one tag");
    kitchen.tap("write it to a file");
    let screen = kitchen.glass.desk.borrow().screen();
    let Screen::Label(label) = screen else {
        panic!("{screen:?}")
    };
    assert_eq!(label.note, "written to L1-tag.svg");
    let svg = std::fs::read_to_string(kitchen.path("L1-tag.svg")).expect("it is there");
    assert!(svg.starts_with("<?xml"));
}

#[test]
fn a_key_pressed_twice_turns_one_page() {
    let kitchen = Kitchen::open();
    kitchen.tap("recipes");
    for _ in 0..20 {
        kitchen.key(slint::SharedString::from(Key::Tab));
        if kitchen.is_focused("Mordant") {
            break;
        }
    }
    kitchen.key(" ");
    let mordants = kitchen.glass.desk.borrow().page().clone();
    assert_eq!(mordants, Page::Book(BookPage::Kind(BathKind::Mordant)));
    // The row that had the keys means something else on this page.
    kitchen.key(" ");
    assert_eq!(*kitchen.glass.desk.borrow().page(), mordants);
}
