//! The recipe book on the glass: from kind to recipe, by letter, for goods and without; made for a hundred recipes.

use std::collections::BTreeSet;
use std::sync::Arc;

use potside::recipe::model::{BathKind, Recipe};
use potside::view::locale::Language;
use potside::view::pages::{GoodsPress, HomePress, Page, Press};
use potside::view::screen::{Block, BlockLook, ChooseScreen};

use crate::support::catalogue::said;
use crate::support::glass::Glass;

fn with_goods(fibre: &str) -> Glass {
    let mut glass = Glass::new();
    glass.press(Press::Home(HomePress::Begin));
    glass.press(Press::Goods(GoodsPress::Fibre(fibre.into())));
    glass.key_weight("250");
    glass.press(Press::Goods(GoodsPress::GoOn));
    glass
}

fn reading() -> Glass {
    let mut glass = Glass::new();
    glass.press(Press::Home(HomePress::Recipes));
    glass
}

fn labels(list: &ChooseScreen) -> Vec<&str> {
    list.rows.iter().map(|row| row.label.as_str()).collect()
}

#[test]
fn kinds_stand_first_in_the_order_goods_meet_them() {
    let mut glass = reading();
    let list = glass.list();
    assert_eq!(
        labels(&list),
        [
            "Scour",
            "Mordant",
            "Tannin",
            "Fixing bath",
            "Dye",
            "Vat",
            "After-bath",
            "A to Z"
        ]
    );
    assert!(list.big);
}

#[test]
fn what_does_not_fit_the_goods_stands_below_and_cannot_be_pressed() {
    let mut glass = with_goods("cotton");
    glass.choose("mordant");
    let rows = glass.list().rows;
    let first_other = rows.iter().position(|row| !row.enabled).unwrap();
    assert!(first_other > 0, "nothing fits cotton");
    assert!(rows[first_other..].iter().all(|row| !row.enabled));
    for row in &rows {
        let recipe = glass.recipes.iter().find(|recipe| recipe.id == row.key).unwrap();
        let fits = recipe.fibres.iter().any(|fibre| fibre.id() == "cotton");
        assert_eq!(row.enabled, fits, "{}", row.key);
    }
    let without_goods = {
        let mut glass = reading();
        glass.choose("mordant");
        glass.list().rows
    };
    assert_eq!(without_goods.len(), rows.len());
    assert!(without_goods.iter().all(|row| row.enabled), "all may be read");
}

#[test]
fn every_recipe_is_reached_by_its_kind_and_by_its_letter() {
    let wanted: BTreeSet<String> = Glass::new()
        .recipes
        .iter()
        .map(|recipe| recipe.id.clone())
        .collect();
    for first in ["kind", "letters"] {
        let mut reached = BTreeSet::new();
        let mut glass = reading();
        let kinds: Vec<String> = glass.list().rows.into_iter().map(|row| row.key).collect();
        for key in kinds {
            if (key == "letters") == (first == "letters") {
                glass.choose(&key);
                walk(&mut glass, &mut reached);
                glass.press(Press::Back);
            }
        }
        assert_eq!(reached, wanted, "by {first}");
    }
}

/// Opens every row of a list, and of the lists behind it; notes the recipes that are reached.
fn walk(glass: &mut Glass, reached: &mut BTreeSet<String>) {
    for row in glass.list().rows {
        glass.choose(&row.key);
        match glass.pages.page().clone() {
            Page::Book(potside::view::pages::BookPage::Recipe(id)) => {
                reached.insert(id);
            }
            _ => walk(glass, reached),
        }
        glass.press(Press::Back);
    }
}

#[test]
fn dyes_are_grouped_by_dyestuff_and_a_lone_one_opens_at_once() {
    let mut glass = reading();
    glass.recipes = a_hundred().into();
    glass.choose("dye");
    let stuffs = glass.list();
    assert!(labels(&stuffs).contains(&"Madder root"), "{:?}", labels(&stuffs));
    glass.choose("madder-root");
    assert!(glass.list().rows.len() > 1);
    assert_eq!(glass.list().title, "Madder root");

    let mut alone = reading();
    alone.choose("dye");
    alone.choose("chamomile");
    assert_eq!(alone.leaf().title, "Chamomile heads, dried");
}

/// The book's own recipes, and copies of its dyes under other names until there are a hundred.
fn a_hundred() -> Vec<Arc<Recipe>> {
    let own = Glass::new().recipes;
    let dyes: Vec<Arc<Recipe>> = own
        .iter()
        .filter(|recipe| recipe.kind == BathKind::Dye)
        .cloned()
        .collect();
    let copies = (0..)
        .flat_map(|round| dyes.iter().map(move |dye| (round, dye)))
        .map(|(round, dye)| {
            Arc::new(Recipe {
                id: format!("{}-copy-{round}", dye.id),
                name: format!("{} ({round})", dye.name),
                ..(**dye).clone()
            })
        });
    own.iter().cloned().chain(copies).take(100).collect()
}

#[test]
fn a_hundred_recipes_are_three_presses_apart_and_no_list_is_longer_than_need_be() {
    let mut glass = reading();
    glass.recipes = a_hundred().into();
    assert_eq!(glass.recipes.len(), 100);
    glass.choose("letters");
    let letters = glass.list();
    assert!(
        letters
            .rows
            .iter()
            .all(|row| row.label.chars().count() == 1 && row.enabled)
    );
    assert!(letters.rows.len() <= 26);
    let all: usize = letters
        .rows
        .iter()
        .map(|row| row.detail.parse::<usize>().unwrap())
        .sum();
    assert_eq!(all, 100);
    glass.choose(&letters.rows[0].key);
    let names: Vec<String> = glass.list().rows.into_iter().map(|row| row.label).collect();
    let mut sorted = names.clone();
    sorted.sort();
    assert_eq!(names, sorted, "by name");
}

fn fact<'a>(blocks: &'a [Block], label: &str) -> &'a Block {
    blocks
        .iter()
        .find(|block| block.look == BlockLook::Fact && block.label == label)
        .unwrap_or_else(|| panic!("no {label}"))
}

/// The figures are those of the recipe file; the sources named in it are published and were read.
#[test]
fn a_recipe_tells_each_figure_with_range_source_and_strength() {
    let mut glass = with_goods("wool");
    glass.choose("letters");
    glass.choose("M");
    glass.choose("madder");
    let leaf = glass.leaf();
    let root = fact(&leaf.blocks, "A madder root, dried, in a bag");
    assert_eq!(root.value, "60 % WOF");
    assert!(
        root.detail
            .starts_with("range 60 % WOF to 80 % WOF; published: Ethel M. Mairet"),
        "{}",
        root.detail
    );
    let liquor = fact(&leaf.blocks, "bath for each kilogram of goods");
    assert_eq!(liquor.value, "30 L/kg");
    assert!(
        liquor.detail.contains("common practice, no source"),
        "{}",
        liquor.detail
    );
    assert_eq!(liquor.detail.matches("common practice").count(), 1, "said once");
    assert_eq!(fact(&leaf.blocks, "no faster than").value, "1 \u{b0}C/min");
    assert!(
        fact(&leaf.blocks, "no faster than")
            .detail
            .starts_with("by arithmetic")
    );
    // Its steps, in order, numbered.
    let recipe = glass
        .recipes
        .iter()
        .find(|recipe| recipe.id == "madder")
        .unwrap()
        .clone();
    let steps: Vec<&Block> = leaf
        .blocks
        .iter()
        .filter(|block| block.look == BlockLook::Step)
        .collect();
    assert_eq!(steps.len(), recipe.steps.len());
    assert_eq!(
        (steps[0].value.as_str(), steps[0].label.as_str()),
        ("1.", "Wet out")
    );
    // Its cautions, all of them.
    for caution in &recipe.cautions {
        assert!(
            leaf.blocks
                .iter()
                .any(|block| block.look == BlockLook::Caution && block.label == *caution)
        );
    }
}

#[test]
fn the_firm_key_takes_the_recipe_that_stands_there() {
    let mut glass = with_goods("wool");
    glass.choose("letters");
    glass.choose("M");
    glass.choose("madder");
    glass.press(Press::FirmKey);
    assert_eq!(glass.pages.page(), &Page::Pot);
}

#[test]
fn a_bath_begun_from_the_book_has_its_recipe_and_lets_go_of_it_on_the_way_back() {
    let mut glass = reading();
    glass.choose("letters");
    glass.choose("M");
    glass.choose("madder");
    assert_eq!(glass.leaf().foot[0].label, "begin a bath with it");
    glass.side("take");
    assert_eq!(glass.goods().onward, "to the pot");
    glass.press(Press::Back);
    assert_eq!(
        glass.leaf().foot[0].label,
        "begin a bath with it",
        "back in the book, nothing is in hand"
    );
}

fn reading_in(language: Language) -> Glass {
    let mut glass = reading();
    glass.bench.language = language;
    glass
}

/// The keys of all rows under all letters, and what each says.
fn by_letters(glass: &mut Glass) -> Vec<(String, String)> {
    glass.choose("letters");
    let letters: Vec<String> = glass.list().rows.into_iter().map(|row| row.key).collect();
    let mut found = Vec::new();
    for letter in letters {
        glass.choose(&letter);
        found.extend(glass.list().rows.into_iter().map(|row| (row.key, row.label)));
        glass.press(Press::Back);
    }
    glass.press(Press::Back);
    found
}

/// Every recipe stands under a letter of its own name in the language, its key is the one it has in English, and one
/// read from top to bottom has its words from the catalogue and its figures as the author wrote them.
fn is_read_in(language: Language, letter: &str, id: &str) {
    let tag = language.tag();
    let mut glass = reading_in(language);
    let english: BTreeSet<String> = by_letters(&mut reading())
        .into_iter()
        .map(|(key, _)| key)
        .collect();
    let found = by_letters(&mut glass);
    assert_eq!(found.len(), glass.recipes.len(), "each stands once");
    let keys: BTreeSet<String> = found.iter().map(|(key, _)| key.clone()).collect();
    assert_eq!(keys, english);
    for (key, name) in &found {
        let recipe = glass.recipes.iter().find(|recipe| recipe.id == *key).unwrap();
        assert_eq!(*name, said(tag, &recipe.name), "{key}");
    }
    let changed = found.iter().filter(|(key, name)| {
        glass
            .recipes
            .iter()
            .any(|one| one.id == *key && one.name != *name)
    });
    assert!(changed.count() > found.len() / 2, "the catalogue has most names");

    glass.choose("letters");
    glass.choose(letter);
    glass.choose(id);
    let leaf = glass.leaf();
    let recipe = glass
        .recipes
        .iter()
        .find(|recipe| recipe.id == id)
        .unwrap()
        .clone();
    assert_eq!(leaf.title, said(tag, &recipe.name));
    assert!(
        leaf.blocks
            .iter()
            .any(|block| block.label == said(tag, &recipe.about))
    );
    let steps: Vec<&Block> = leaf
        .blocks
        .iter()
        .filter(|block| block.look == BlockLook::Step)
        .collect();
    assert_eq!(steps.len(), recipe.steps.len());
    for (block, step) in steps.iter().zip(&recipe.steps) {
        let how = step.how.as_deref().unwrap_or_default();
        assert_eq!(block.detail, said(tag, how));
    }
    for step in &recipe.steps {
        if let Some(caution) = &step.caution {
            assert!(
                leaf.blocks
                    .iter()
                    .any(|block| block.look == BlockLook::Caution && block.label == said(tag, caution)),
                "{caution}"
            );
        }
    }
    let keys: Vec<&str> = leaf.foot.iter().map(|act| act.key.as_str()).collect();
    assert_eq!(keys, ["take", "rehearse"]);
}

/// The words are those of the catalogue's own file.
#[test]
fn the_book_is_read_in_german() {
    is_read_in(Language::German, "K", "madder");
    let mut glass = reading_in(Language::German);
    glass.choose("dye");
    let rows = glass.list().rows;
    let root = rows.iter().find(|row| row.key == "madder-root").unwrap();
    assert_eq!(root.label, said("de", "madder root"));
}

#[test]
fn the_book_is_read_in_french_and_letters_with_marks_stand_under_their_bare_ones() {
    is_read_in(Language::French, "G", "madder");
    let mut glass = reading_in(Language::French);
    glass.choose("letters");
    let letters: Vec<String> = glass.list().rows.into_iter().map(|row| row.key).collect();
    assert!(letters.iter().all(|letter| letter.is_ascii()), "{letters:?}");
    glass.choose("E");
    let names = glass.list().rows;
    let marked: Vec<&str> = names
        .iter()
        .map(|row| row.label.as_str())
        .filter(|name| name.starts_with('\u{c9}'))
        .collect();
    assert!(!marked.is_empty(), "{names:#?}");
}

/// The figures of a recipe are its author's: only the decimal sign is the reader's.
#[test]
fn a_recipes_figures_keep_the_authors_unit_in_every_language() {
    use potside::view::locale::{Habits, Temperatures, Volumes, Weights};

    let mut glass = reading_in(Language::German);
    glass.bench.habits = Habits {
        weights: Weights::Ounces,
        temperatures: Temperatures::Fahrenheit,
        volumes: Volumes::UsGallons,
        ..Habits::METRIC
    };
    glass.choose("letters");
    glass.choose("K");
    glass.choose("madder");
    let values: Vec<String> = glass.leaf().blocks.into_iter().map(|block| block.value).collect();
    for wanted in ["60\u{a0}% ", "30 L/kg", "1 \u{b0}C/min"] {
        assert!(
            values.iter().any(|value| value.starts_with(wanted)),
            "{wanted}: {values:?}"
        );
    }
}
