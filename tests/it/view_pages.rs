//! Pages pressed without a window: what a press leads to.

use potside::craft::fibre::Fibre;
use potside::craft::quantity::Mass;
use potside::sheet::{Again, StovePlace};
use potside::view::bench::{Bench, Others};
use potside::view::pages::{GoodsPress, HomePress, Page, Press};
use potside::view::screen::Screen;

use crate::support::glass::{Glass, NOW};

fn value_of(rows: &[potside::view::screen::Row], label: &str) -> String {
    rows.iter()
        .find(|row| row.label.contains(label))
        .map(|row| row.value.clone())
        .unwrap_or_default()
}

#[test]
fn goods_in_the_grease_are_counted_without_it() {
    let mut glass = Glass::new();
    glass.press(Press::Home(HomePress::Begin));
    glass.press(Press::Goods(GoodsPress::ChooseState));
    glass.press(Press::Choose("in-the-grease".into()));
    let Screen::Goods(goods) = glass.screen() else {
        panic!("not back on the goods page")
    };
    assert_eq!(goods.state, "in the grease");
    glass.key_weight("100");
    glass.press(Press::Goods(GoodsPress::GoOn));
    glass.take("alum-tartar-studio");
    glass.press(Press::Side("go-on".into()));
    // A fifth washes out (Mairet 1916): 15 % of 80 g.
    assert_eq!(value_of(&glass.sheet().additions, "alum"), "12.0 g");
}

#[test]
fn a_pot_too_small_offers_to_split_the_goods() {
    let mut glass = Glass::new();
    glass.begin("700", "alum-tartar-studio");
    let sheet = glass.sheet();
    assert!(!sheet.refusal.is_empty());
    let split = sheet
        .ways_out
        .iter()
        .find(|way| way.key.starts_with("split-"))
        .unwrap()
        .clone();
    assert_eq!(split.label, "3 baths of 233.3 g");
    glass.press(Press::Choose(split.key));
    let sheet = glass.sheet();
    assert_eq!(sheet.refusal, "");
    assert_eq!(value_of(&sheet.additions, "alum"), "35.0 g");
}

#[test]
fn every_way_out_leads_somewhere() {
    for (weight, recipe) in [("700", "alum-tartar-studio"), ("9", "madder")] {
        let mut glass = Glass::new();
        glass.bench.stove.burner.power = potside::craft::quantity::Power::saturating_watts(80.0);
        glass.begin(weight, recipe);
        for way in glass.sheet().ways_out {
            let mut glass = Glass::new();
            glass.bench.stove.burner.power = potside::craft::quantity::Power::saturating_watts(80.0);
            glass.begin(weight, recipe);
            let before = glass.screen();
            glass.press(Press::Choose(way.key.clone()));
            assert_ne!(glass.screen(), before, "{}", way.key);
        }
    }
}

fn finished_mordant() -> Again {
    let stove = StovePlace::default();
    Again {
        recipe: None,
        fibre: Fibre::Wool,
        goods: Mass::saturating_grams(100.0),
        hanks: 1,
        pot: stove.pot,
        burner: stove.burner,
        lid: stove.lid,
        liquor_is_used_again: true,
        used: potside::sheet::UsedBath {
            record: "2031-05-04-0900-alum-p1".into(),
            recipe_id: "alum-tartar-studio".into(),
            dip: 1,
            goods: Mass::saturating_grams(100.0),
            left: potside::craft::quantity::Volume::saturating_litres(2.7),
            part: None,
        },
    }
}

#[test]
fn the_next_goods_in_a_used_liquor_ask_for_the_part_and_weigh_it() {
    let mut glass = Glass::new();
    glass.again = Some(finished_mordant());
    glass.press(Press::Home(HomePress::Daybook));
    glass.press(Press::Choose("2031-05-04-0900-alum-p1".into()));
    glass.press(Press::Side("next-goods".into()));
    glass.key_weight("100");
    glass.press(Press::Goods(GoodsPress::GoOn));
    glass.press(Press::Side("go-on".into()));
    let labels: Vec<String> = glass.sheet().ways_out.into_iter().map(|way| way.label).collect();
    assert_eq!(labels, ["50 % of the first dose", "25 % of the first dose"]);
    glass.press(Press::Choose("part-0.25".into()));
    let sheet = glass.sheet();
    assert_eq!(sheet.refusal, "");
    assert_eq!(value_of(&sheet.additions, "alum"), "3.75 g");
    assert!(sheet.lines.iter().any(|line| line.label == "top up from the tap"));
}

#[test]
fn the_same_bath_on_other_goods_keeps_recipe_and_pot() {
    let mut glass = Glass::new();
    glass.again = Some(finished_mordant());
    glass.press(Press::Home(HomePress::Daybook));
    glass.press(Press::Choose("2031-05-04-0900-alum-p1".into()));
    glass.press(Press::Side("again".into()));
    glass.key_weight("40");
    glass.press(Press::Goods(GoodsPress::GoOn));
    glass.press(Press::Side("go-on".into()));
    assert_eq!(value_of(&glass.sheet().additions, "alum"), "6.00 g");
    assert_eq!(glass.pages.page(), &Page::Sheet);
}

#[test]
fn a_larger_pot_of_the_bench_is_named_and_one_press_away() {
    let mut glass = Glass::new();
    let pot = |litres: f64, wide: f64| potside::craft::vessel::Pot {
        capacity: potside::craft::quantity::Volume::saturating_litres(litres),
        diameter: potside::craft::quantity::Length::saturating_centimetres(wide),
        ..StovePlace::default().pot
    };
    glass.bench.others = Others::of([pot(40.0, 38.0), pot(20.0, 30.0), pot(8.0, 22.0)], []);
    glass.begin("400", "alum-tartar-studio");
    let sheet = glass.sheet();
    assert!(
        sheet.refusal.contains("the pot of 20.0 L and 30 cm"),
        "{}",
        sheet.refusal
    );
    assert_eq!(sheet.ways_out[0].key, "other-pot");
    glass.press(Press::Choose("other-pot".into()));
    let sheet = glass.sheet();
    assert_eq!(sheet.refusal, "");
    assert!(sheet.note.contains("20 L"), "{}", sheet.note);
}

#[test]
fn a_pot_is_kept_beside_changed_and_picked_for_a_bath() {
    let first = Bench::default();
    let mut both = first.keeping_pot();
    both.stove.pot.capacity = potside::craft::quantity::Volume::saturating_litres(20.0);
    assert_eq!(both.others.pots().collect::<Vec<_>>(), [first.stove.pot]);
    let back = both.with_pot(first.stove.pot);
    assert_eq!(back.stove.pot, first.stove.pot);
    assert_eq!(back.others.pots().collect::<Vec<_>>(), [both.stove.pot]);
    // Kept twice is kept once, and there is an end to the bench.
    assert_eq!(first.keeping_pot().keeping_pot().others.pots().count(), 1);
    let many = (1..=9).map(|litres| potside::craft::vessel::Pot {
        capacity: potside::craft::quantity::Volume::saturating_litres(f64::from(litres)),
        ..first.stove.pot
    });
    assert_eq!(Others::of(many, []).pots().count(), 5);

    let mut glass = Glass::new();
    glass.bench = both;
    glass.press(Press::Home(HomePress::Begin));
    glass.key_weight("100");
    glass.press(Press::Goods(GoodsPress::GoOn));
    glass.take("alum-tartar-studio");
    glass.press(Press::Choose("vessels".into()));
    glass.press(Press::Choose("pot-1".into()));
    glass.press(Press::Side("go-on".into()));
    assert!(glass.sheet().note.contains("12 L"), "{}", glass.sheet().note);
}

#[test]
fn a_key_at_the_far_view_only_brings_it_near() {
    let mut glass = Glass::new();
    let mut stage = crate::support::script::Stage::new(&crate::support::plans::alum_bath());
    stage.play("0:00 pot 1 begin");
    glass.machine = stage.machine.clone();
    glass.pages.go_to_pot(potside::machine::PotNo(1));
    glass.now = NOW.plus(potside::craft::time::Span::from_seconds(30));
    assert!(matches!(glass.screen(), Screen::Far(_)));
    assert_eq!(glass.wish(Press::FirmKey), []);
    assert!(matches!(glass.screen(), Screen::Run(_)), "it came near");
    assert_eq!(glass.wish(Press::FirmKey).len(), 1, "and now it acts");
}
