//! The shelf on the glass: lots and supplies, a lot split, weighed, begun with, its work list and its label.

use potside::craft::fibre::Fibre;
use potside::craft::lot::LotId;
use potside::craft::substance::Substance;
use potside::recipe::model::BathKind;
use potside::shelf::{Came, Milligrams, NewLot, NewSupply, SupplyId};
use potside::view::locale::{Habits, Language, Weights};
use potside::view::pages::{GoodsPress, HomePress, Page, Press, ShelfPage, Wish};
use potside::view::screen::{Block, BlockLook, LabelScreen, Screen};

use crate::support::catalogue::said;
use crate::support::glass::{Glass, TODAY};
use crate::support::shelves::{bath, grams, salt, wool};

/// A glass at the shelf: a raw fleece in four hanks, some alum, little tartar.
fn at_the_shelf() -> (Glass, LotId) {
    let mut glass = Glass::new();
    let lot = glass.shelf.add_lot(wool(400, 4), TODAY).unwrap();
    glass.shelf.add_supply(salt(Substance::PotashAlum, 300)).unwrap();
    glass
        .shelf
        .add_supply(NewSupply {
            low: Some(grams(20)),
            ..salt(Substance::CreamOfTartar, 12)
        })
        .unwrap();
    glass.press(Press::Home(HomePress::Shelf));
    (glass, lot)
}

fn put_down(glass: &mut Glass, id: &str, lot: LotId, kind: BathKind, recipe: &str, on: &str) {
    let mut done = bath(id, Some(lot), kind, on, "potash-alum", 10);
    done.recipe = recipe.into();
    let fibre = glass.shelf.lot(lot).unwrap().fibre;
    glass.shelf.put_down(done, fibre);
}

fn block<'a>(blocks: &'a [Block], key: &str) -> &'a Block {
    blocks
        .iter()
        .find(|block| block.key == key)
        .unwrap_or_else(|| panic!("no {key} in {blocks:#?}"))
}

fn label(glass: &mut Glass) -> LabelScreen {
    match glass.screen() {
        Screen::Label(label) => label,
        other => panic!("{other:?}"),
    }
}

#[test]
fn lots_stand_with_tag_state_weight_and_what_to_mind() {
    let (mut glass, lot) = at_the_shelf();
    put_down(
        &mut glass,
        "b1",
        lot,
        BathKind::Mordant,
        "alum-only",
        "2026-11-01",
    );
    let rows = glass.list().rows;
    assert_eq!(rows.len(), 1);
    assert_eq!(
        (rows[0].label.as_str(), rows[0].value.as_str()),
        ("L1  autumn fleece", "400 g")
    );
    assert!(
        rows[0]
            .detail
            .starts_with("wool, mordanted (Test mordant), 4 hanks"),
        "{}",
        rows[0].detail
    );
    // Common practice, no source: alum-mordanted goods are dyed within about a month.
    assert!(rows[0].detail.contains("over a month ago"), "{}", rows[0].detail);
}

#[test]
fn supplies_stand_with_what_is_left_and_running_low_has_its_own_list() {
    let (mut glass, _) = at_the_shelf();
    glass.side("supplies");
    let rows = glass.list().rows;
    let shown: Vec<_> = rows
        .iter()
        .map(|row| (row.label.as_str(), row.value.as_str()))
        .collect();
    assert_eq!(
        shown,
        [("S1  alum (potash)", "300 g"), ("S2  cream of tartar", "12 g")]
    );
    assert!(rows[1].detail.contains("low mark at 20 g"), "{}", rows[1].detail);
    assert!(glass.list().foot.iter().any(|act| act.label == "running low: 1"));
    glass.side("low");
    let low = glass.list().rows;
    assert_eq!(low.len(), 1);
    assert_eq!(low[0].key, "S2");
}

#[test]
fn a_supply_is_counted_filled_marked_and_put_down_without_a_keyboard() {
    let (mut glass, _) = at_the_shelf();
    let left = |glass: &Glass, id: u32| {
        let id = SupplyId::from_number(id).unwrap();
        glass.shelf.supply(id).unwrap().clone()
    };
    glass.side("supplies");
    glass.choose("S2");
    glass.side("fill");
    glass.key_in("50");
    glass.ask(Press::FirmKey);
    assert_eq!(left(&glass, 2).left, grams(62));
    assert_eq!(glass.leaf().title, "S2  cream of tartar");
    glass.side("count");
    glass.key_in("0");
    glass.ask(Press::FirmKey);
    assert_eq!(left(&glass, 2).left, grams(0), "a jar can be empty");
    glass.side("mark-low");
    glass.key_in("25");
    glass.ask(Press::FirmKey);
    assert_eq!(left(&glass, 2).low, Some(grams(25)));
    glass.press(Press::Back);
    glass.side("new");
    let ware = glass
        .list()
        .rows
        .into_iter()
        .find(|row| row.label.starts_with("Madder root"))
        .unwrap();
    glass.choose(&ware.key);
    glass.key_in("310");
    glass.ask(Press::FirmKey);
    assert_eq!(left(&glass, 3).left, grams(310));
    assert_eq!(left(&glass, 3).stock.ware(), "madder-root");
}

#[test]
fn a_new_lot_is_picked_together_and_gets_its_tag() {
    let (mut glass, _) = at_the_shelf();
    glass.side("new");
    glass.press(Press::Goods(GoodsPress::Fibre("silk".into())));
    glass.press(Press::Goods(GoodsPress::MoreHanks));
    assert!(!glass.goods().can_go_on, "the weight is missing");
    glass.press(Press::Goods(GoodsPress::GoOn));
    glass.key_weight("85");
    glass.press(Press::Goods(GoodsPress::GoOn));
    glass.ask(Press::Firm("scoured".into()));
    let lot = glass.shelf.lot(LotId::from_number(2).unwrap()).unwrap();
    assert_eq!((lot.fibre, lot.hanks, lot.came), (Fibre::Silk, 2, Came::Scoured));
    assert_eq!(lot.weighing().weight, grams(85));
    assert_eq!(lot.name, "silk of 15 Jan 2027");
    assert_eq!(glass.leaf().title, "L2  silk of 15 Jan 2027");
    glass.press(Press::Back);
    assert_eq!(glass.pages.page(), &Page::Shelf(ShelfPage::Lots));
}

#[test]
fn goods_in_the_grease_are_raw_without_being_asked() {
    let (mut glass, _) = at_the_shelf();
    glass.side("new");
    glass.press(Press::Goods(GoodsPress::ChooseState));
    glass.choose("in-the-grease");
    glass.key_weight("500");
    glass.ask(Press::Goods(GoodsPress::GoOn));
    let lot = glass.shelf.lot(LotId::from_number(2).unwrap()).unwrap();
    assert_eq!(lot.came, Came::Raw);
    assert!(lot.is_weighed_in_the_grease());
}

#[test]
fn a_lot_is_split_by_count_or_as_its_first_part_was_weighed() {
    let (mut glass, lot) = at_the_shelf();
    glass.choose(&lot.to_string());
    glass.side("split");
    let ways: Vec<String> = glass.list().rows.into_iter().map(|row| row.label).collect();
    assert_eq!(ways, ["1 hank", "2 hanks", "3 hanks"]);
    glass.choose("1");
    let Screen::Ask(asked) = glass.screen() else {
        panic!("no question")
    };
    assert_eq!(
        (asked.facts[0].value.as_str(), asked.facts[1].value.as_str()),
        ("1 hank, 100 g", "3 hanks, 300 g")
    );
    glass.press(Press::Firm("weigh".into()));
    glass.key_in("92");
    glass.press(Press::FirmKey);
    glass.ask(Press::Firm("split".into()));
    let parts: Vec<_> = glass
        .shelf
        .lots_there()
        .map(|lot| (lot.hanks, lot.weighing().weight))
        .collect();
    assert_eq!(parts, [(1, grams(92)), (3, grams(308))]);
    assert_eq!(glass.said(), "split into L2 and L3");
    assert_eq!(glass.list().rows.len(), 2);
    // The one that was split is still to be read, and leads to its parts.
    glass.choose("L2");
    glass.choose("L1");
    let leaf = glass.leaf();
    assert!(leaf.foot.iter().all(|act| act.key == "label"), "{:?}", leaf.foot);
    assert!(leaf.blocks.iter().any(|block| block.key == "L3"));
}

#[test]
fn one_hank_is_not_split_and_a_part_as_heavy_as_all_is_refused() {
    let (mut glass, lot) = at_the_shelf();
    let one = glass.shelf.add_lot(wool(50, 1), TODAY).unwrap();
    glass.choose(&one.to_string());
    assert!(
        glass
            .leaf()
            .foot
            .iter()
            .any(|act| act.key == "split" && !act.enabled)
    );
    glass.press(Press::Back);
    glass.choose(&lot.to_string());
    glass.side("split");
    glass.choose("2");
    glass.press(Press::Firm("weigh".into()));
    glass.key_in("400");
    assert_eq!(glass.wish(Press::FirmKey), []);
    assert!(
        glass.said().contains("as much as the whole lot"),
        "{}",
        glass.said()
    );
}

#[test]
fn a_bath_begun_with_a_lot_has_its_goods_and_carries_its_tag() {
    let (mut glass, lot) = at_the_shelf();
    glass.bench.stove.pot.capacity = potside::craft::quantity::Volume::saturating_litres(30.0);
    glass.bench.stove.pot.diameter = potside::craft::quantity::Length::saturating_centimetres(36.0);
    glass.choose(&lot.to_string());
    glass.side("begin");
    let goods = glass.goods();
    assert_eq!(
        (goods.weight.as_str(), goods.hanks.as_str()),
        ("400 g", "4 hanks")
    );
    assert!(goods.fibres[0].chosen && goods.fibres[0].label == "L1  autumn fleece");
    glass.press(Press::Goods(GoodsPress::GoOn));
    glass.choose("letters");
    glass.choose("A");
    glass.choose("alum-tartar-studio");
    // The lot is raw, and the page says so before it is taken.
    let said: Vec<String> = glass.leaf().blocks.into_iter().map(|block| block.label).collect();
    assert!(
        said.iter().any(|line| line.contains("haven't been scoured")),
        "{said:?}"
    );
    glass.side("take");
    glass.side("go-on");
    let sheet = glass.sheet();
    assert_eq!(sheet.refusal, "");
    // 6 % of 400 g is 24 g of tartar: twelve are on the shelf.
    let missing = sheet
        .remarks
        .iter()
        .find(|line| line.label == "cream of tartar, on the shelf")
        .unwrap();
    assert_eq!(missing.value, "12 g");
    for slab in ["open-cautions", "read-cautions"] {
        glass.press(Press::Firm(slab.into()));
    }
    let wishes = glass.wish(Press::Firm("start".into()));
    let [Wish::Begin(_, sheet)] = wishes.as_slice() else {
        panic!("{wishes:?}")
    };
    assert_eq!(sheet.plan.goods.lot, Some(lot));
}

#[test]
fn other_goods_are_no_longer_the_lot() {
    for press in [GoodsPress::Fibre("silk".into()), GoodsPress::FewerHanks] {
        let (mut glass, lot) = at_the_shelf();
        glass.choose(&lot.to_string());
        glass.side("begin");
        glass.press(Press::Goods(press));
        assert!(!glass.goods().fibres[0].chosen);
        assert!(glass.said().contains("no longer L1"), "{}", glass.said());
    }
}

#[test]
fn the_goods_page_offers_the_shelf_once_there_is_something_on_it() {
    let mut empty = Glass::new();
    empty.press(Press::Home(HomePress::Begin));
    assert_eq!(empty.goods().fibres[0].key, "wool");

    let (mut glass, lot) = at_the_shelf();
    glass.press(Press::Back);
    glass.press(Press::Home(HomePress::Begin));
    glass.press(Press::Goods(GoodsPress::Fibre("from-the-shelf".into())));
    glass.choose(&lot.to_string());
    assert_eq!(glass.goods().weight, "400 g");
}

#[test]
fn a_damaged_shelf_is_said_and_takes_nothing_new() {
    let mut glass = Glass::new();
    glass.shelf_fault = "shelf.toml: line 3, column 1: no such key".into();
    glass.press(Press::Home(HomePress::Shelf));
    let list = glass.list();
    assert!(list.note.contains("line 3"), "{}", list.note);
    assert!(list.foot.iter().any(|act| act.key == "new" && !act.enabled));
}

fn scoured_lot(glass: &mut Glass) -> LotId {
    let new = NewLot {
        came: Came::Scoured,
        ..wool(100, 1)
    };
    glass.shelf.add_lot(new, TODAY).unwrap()
}

#[test]
fn a_work_list_tells_its_baths_the_next_one_the_totals_and_what_is_missing() {
    let (mut glass, _) = at_the_shelf();
    let lot = scoured_lot(&mut glass);
    glass.choose("lots");
    glass.side("lots");
    glass.choose(&lot.to_string());
    glass.side("lists");
    let lists = glass.list();
    assert!(lists.rows.len() >= 5);
    glass.choose("red-on-wool");
    let leaf = glass.leaf();
    let steps: Vec<&Block> = leaf
        .blocks
        .iter()
        .filter(|block| block.look == BlockLook::Step)
        .collect();
    assert_eq!(steps.len(), 1, "one bath is the next one");
    let all = leaf
        .blocks
        .iter()
        .position(|block| block.label.starts_with("All together"))
        .unwrap();
    // Alum at 15 % and tartar at 6 % of 100 g, madder at 60 %: the recipes' own figures.
    let total = |name: &str| {
        leaf.blocks[all..]
            .iter()
            .find(|block| block.label == name)
            .map(|block| block.value.clone())
    };
    assert_eq!(
        total("madder root").as_deref(),
        Some("60.0 g"),
        "{:#?}",
        &leaf.blocks[all..]
    );
    let missing = leaf
        .blocks
        .iter()
        .position(|block| block.label == "Missing on the shelf")
        .unwrap();
    assert!(
        leaf.blocks[missing..]
            .iter()
            .any(|block| block.label == "madder root")
    );
}

#[test]
fn the_next_bath_of_a_begun_list_is_one_press_from_the_lot() {
    let (mut glass, _) = at_the_shelf();
    let lot = scoured_lot(&mut glass);
    let list = potside::shelf::worklist::by_id("red-on-wool").unwrap();
    let recipes: Vec<String> = list.baths.iter().map(|bath| bath.recipe.clone()).collect();
    let is_scour = |id: &String| id.starts_with("scour");
    let mordant = recipes.iter().find(|id| !is_scour(id)).unwrap().clone();
    put_down(&mut glass, "b7", lot, BathKind::Mordant, &mordant, "2027-01-08");
    glass.choose(&lot.to_string());
    let leaf = glass.leaf();
    let next = block(&leaf.blocks, "list-red-on-wool");
    assert!(next.label.starts_with("next: "), "{next:?}");
    // Its bath leads to its record.
    let wishes = glass.wish(Press::Choose("record-b7".into()));
    assert_eq!(wishes, [Wish::OpenRecord("b7".into())]);
    glass.press(Press::Back);
    glass.choose("list-red-on-wool");
    glass.press(Press::FirmKey);
    assert_eq!(glass.pages.page(), &Page::Pot);
    glass.press(Press::Back);
    assert!(matches!(glass.pages.page(), Page::Shelf(ShelfPage::List(_, _))));
}

#[test]
fn a_list_that_is_refused_for_the_goods_says_why_and_does_not_begin() {
    let (mut glass, _) = at_the_shelf();
    let new = NewLot {
        fibre: Fibre::Cotton,
        came: Came::Scoured,
        ..wool(100, 1)
    };
    let lot = glass.shelf.add_lot(new, TODAY).unwrap();
    glass.choose(&lot.to_string());
    glass.side("lists");
    glass.choose("red-on-wool");
    let leaf = glass.leaf();
    let refusal = leaf
        .blocks
        .iter()
        .find(|block| block.look == BlockLook::Refusal)
        .unwrap();
    assert!(refusal.label.contains("not for cotton"), "{refusal:?}");
    assert!(
        refusal.detail.contains("Why: ") && refusal.detail.contains("Instead: "),
        "{refusal:?}"
    );
    assert!(leaf.foot.iter().all(|act| !act.enabled));
}

#[test]
fn a_label_is_drawn_as_it_prints_and_its_sheets_are_whole_files() {
    let (mut glass, lot) = at_the_shelf();
    glass.choose(&lot.to_string());
    glass.side("label");
    let shown = label(&mut glass);
    assert_eq!((shown.width, shown.height), (70.0, 36.0));
    assert!(shown.ink.starts_with('M') && shown.cut.is_empty());
    assert!(
        shown
            .said
            .starts_with("L1. autumn fleece. wool, 400 g dry, 4 hanks"),
        "{}",
        shown.said
    );
    glass.choose("tag");
    let tag = label(&mut glass);
    assert_eq!((tag.width, tag.height), (100.0, 50.0));
    assert!(!tag.cut.is_empty(), "a tag has its hole");
    glass.choose("letter-30");
    glass.side("each");
    let wishes = glass.wish(Press::Side("write".into()));
    let [Wish::WriteLabels(files)] = wishes.as_slice() else {
        panic!("{wishes:?}")
    };
    assert_eq!(files.len(), 1);
    assert_eq!(files[0].name, "L1-letter-30-hanks.svg");
    assert_eq!(
        files[0].svg.matches("aria-label=\"L1\"").count(),
        4,
        "a label for each hank"
    );
    glass
        .pages
        .labels_written("written to labels/L1-letter-30-hanks.svg");
    assert!(label(&mut glass).note.starts_with("written to"));
}

/// Everything inked lies on the label: read from the path's own numbers.
#[test]
fn nothing_of_a_drawn_label_lies_beside_it() {
    let (mut glass, lot) = at_the_shelf();
    glass.choose(&lot.to_string());
    glass.side("label");
    for size in ["a4-24", "a4-21", "letter-30", "tag"] {
        glass.choose(size);
        let shown = label(&mut glass);
        for corner in shown.ink.split('M').filter(|piece| !piece.is_empty()) {
            let numbers: Vec<f32> = corner
                .split(|c: char| !c.is_ascii_digit() && c != '.' && c != '-')
                .filter_map(|number| number.parse().ok())
                .take(2)
                .collect();
            let [x, y] = numbers[..] else { panic!("{corner}") };
            assert!(
                (0.0..=shown.width).contains(&x) && (0.0..=shown.height).contains(&y),
                "{size}: {x} {y}"
            );
        }
    }
}

/// A lot through the book's own alum, as its record names it.
fn alumed(glass: &mut Glass, lot: LotId) {
    let mut done = bath(
        "b1",
        Some(lot),
        BathKind::Mordant,
        "2026-12-20",
        "potash-alum",
        10,
    );
    done.recipe = "alum-only".into();
    done.name = "Alum, studio".into();
    glass.shelf.put_down(done, Fibre::Wool);
}

/// The words are those of the catalogue's own file; the names of months are those of the Unicode locale data.
#[test]
fn the_shelf_is_read_in_german_and_what_it_keeps_stays() {
    let (mut glass, lot) = at_the_shelf();
    glass.bench.language = Language::German;
    alumed(&mut glass, lot);
    let half = glass
        .shelf
        .add_supply(NewSupply {
            left: Milligrams::from_count(14_800),
            ..salt(Substance::Chalk, 1)
        })
        .unwrap();
    let mordant = said("de", "Alum, studio");
    assert_ne!(mordant, "Alum, studio");
    let row = glass.list().rows.remove(0);
    assert_eq!(
        (row.key.as_str(), row.label.as_str()),
        ("L1", "L1  autumn fleece")
    );
    assert!(row.detail.contains(&mordant), "{}", row.detail);
    glass.choose("L1");
    let leaf = glass.leaf();
    let bath = block(&leaf.blocks, "record-b1");
    assert_eq!(bath.label, mordant);
    assert!(bath.detail.starts_with("20. Dez 2026"), "{}", bath.detail);
    glass.press(Press::Back);
    glass.side("supplies");
    let left = |glass: &mut Glass, key: &str| {
        let rows = glass.list().rows;
        rows.into_iter().find(|row| row.key == key).unwrap()
    };
    assert_eq!(left(&mut glass, &half.to_string()).value, "14,8 g");
    // A ware of the book is chosen by its German name and kept under its English one.
    glass.side("new");
    let wares = glass.list().rows;
    let root = wares
        .iter()
        .find(|row| row.label.starts_with(&said("de", "madder root")))
        .unwrap_or_else(|| panic!("{wares:#?}"));
    glass.choose(&root.key);
    glass.key_in("310");
    glass.ask(Press::FirmKey);
    let kept = glass.shelf.supply(SupplyId::from_number(4).unwrap()).unwrap();
    assert_eq!(kept.stock.ware(), "madder-root");
    assert!(kept.name.starts_with("madder root"), "{}", kept.name);
    assert!(
        glass
            .leaf()
            .title
            .starts_with(&format!("S4  {}", said("de", "madder root")))
    );
    // So is the name that a new lot is given.
    glass.press(Press::Back);
    glass.side("lots");
    glass.side("new");
    glass.press(Press::Goods(GoodsPress::Fibre("silk".into())));
    glass.key_weight("85");
    glass.press(Press::Goods(GoodsPress::GoOn));
    glass.ask(Press::Firm("scoured".into()));
    let lot = glass.shelf.lot(LotId::from_number(2).unwrap()).unwrap();
    assert_eq!(lot.name, "silk of 15 Jan 2027");
    assert!(
        glass.leaf().title.ends_with("15. Jan 2027"),
        "{}",
        glass.leaf().title
    );
}

/// Ounces to the gram: the avoirdupois pound of 1959 is 453.59237 g, so 300 g are 10.58 oz.
#[test]
fn the_shelf_is_read_in_french_and_in_ounces() {
    let (mut glass, _) = at_the_shelf();
    let lot = scoured_lot(&mut glass);
    glass.bench.language = Language::French;
    glass.bench.habits = Habits {
        weights: Weights::Ounces,
        ..Habits::METRIC
    };
    glass.side("supplies");
    assert_eq!(glass.list().rows[0].value, "10,6 oz");
    glass.side("lots");
    glass.choose(&lot.to_string());
    glass.side("lists");
    glass.choose("red-on-wool");
    let leaf = glass.leaf();
    for name in ["Scour wool", "Alum and tartar, studio", "Madder at 80 C, 1916"] {
        let french = said("fr", name);
        assert_ne!(french, name);
        assert!(
            leaf.blocks.iter().any(|block| block.label.contains(&french)),
            "{french}: {:#?}",
            leaf.blocks
        );
    }
    let root = said("fr", "madder root");
    let wanted: Vec<&Block> = leaf.blocks.iter().filter(|block| block.label == root).collect();
    // 60 % of 100 g.
    assert!(
        wanted.iter().any(|block| block.value.contains("2,12 oz")),
        "{wanted:#?}"
    );
    let keys: Vec<&str> = leaf.foot.iter().map(|act| act.key.as_str()).collect();
    assert_eq!(keys, ["begin"]);
}

#[test]
fn a_name_that_a_dyer_gave_stays_as_it_is() {
    let (mut glass, _) = at_the_shelf();
    glass
        .shelf
        .add_lot(
            NewLot {
                name: "silk of the aunt".into(),
                ..wool(100, 1)
            },
            TODAY,
        )
        .unwrap();
    glass
        .shelf
        .add_supply(NewSupply {
            name: "Madder".into(),
            ..salt(Substance::PotashAlum, 10)
        })
        .unwrap();
    glass.bench.language = Language::German;
    assert_eq!(glass.list().rows[1].label, "L2  silk of the aunt");
    glass.side("supplies");
    assert_eq!(glass.list().rows[2].label, "S3  Madder");
}
