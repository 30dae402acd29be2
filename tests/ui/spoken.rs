//! A kitchen that changes its language: the words of the markup and those of the pages change with the bench, and the
//! comma of the keyboard is the decimal sign of the glass.

use i_slint_backend_testing::{ElementHandle, ElementQuery};
use potside::view::locale::Language;
use potside::view::pages::{GoodsPress, HomePress, Press};
use potside::view::screen::Screen;

use crate::kitchen::Kitchen;

/// Everything that is read out.
fn read_out(kitchen: &Kitchen) -> Vec<String> {
    let all = ElementQuery::from_root(&kitchen.glass.window).find_all();
    let labels = all.iter().filter_map(ElementHandle::accessible_label);
    labels.map(Into::into).collect()
}

fn speak(kitchen: &Kitchen, language: Language) {
    kitchen.glass.press(&Press::Home(HomePress::Bench));
    kitchen.glass.press(&Press::Choose("language".into()));
    kitchen.glass.press(&Press::Choose(language.tag().into()));
    kitchen.glass.press(&Press::Back);
}

fn key_a_weight(kitchen: &Kitchen, keys: &[&str]) -> (String, String) {
    kitchen.glass.press(&Press::Home(HomePress::Begin));
    kitchen.glass.press(&Press::Goods(GoodsPress::KeyWeight));
    for key in keys {
        kitchen.key(*key);
    }
    let Screen::Number(number) = kitchen.screen() else {
        panic!("no keypad")
    };
    let labels = read_out(kitchen);
    kitchen.glass.press(&Press::Back);
    kitchen.glass.press(&Press::Back);
    (number.typed, labels.join("\n"))
}

#[test]
fn the_whole_glass_changes_its_language_with_the_bench_and_back() {
    let kitchen = Kitchen::open();
    let (typed, english) = key_a_weight(&kitchen, &["3", ",", "5"]);
    assert_eq!(typed, "3.5");
    assert!(english.contains("decimal sign"), "{english}");

    speak(&kitchen, Language::German);
    for sign in [",", "."] {
        let (typed, german) = key_a_weight(&kitchen, &["3", sign, "5"]);
        assert_eq!(typed, "3,5");
        assert!(german.contains("Dezimalzeichen"), "{german}");
        assert!(!german.contains("decimal sign"), "{german}");
    }

    speak(&kitchen, Language::English);
    let (typed, again) = key_a_weight(&kitchen, &["3", ",", "5"]);
    assert_eq!((typed, again), ("3.5".to_owned(), english));
}
