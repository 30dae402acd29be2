//! Work lists: the built-in ones hold, each trouble is found where it is, the next bath is known, sums come out.

use std::sync::Arc;

use expect_test::expect;
use potside::craft::basis::WeighedAs;
use potside::craft::fibre::Fibre;
use potside::craft::lot::LotId;
use potside::craft::substance::Substance;
use potside::craft::vessel::PotMetal;
use potside::recipe::book;
use potside::recipe::model::{BathKind, MordantNeed, Recipe, Ware};
use potside::sheet::StovePlace;
use potside::shelf::worklist::{self, Order, Severity, WorkList, WorkPlan, lay_out, read};
use potside::shelf::{Came, Milligrams, NewLot, Shelf};

use super::support::shelves::{bath, day, salt, wool};

fn recipes() -> Vec<Arc<Recipe>> {
    book::all().to_vec()
}

fn list(baths: &[&str]) -> WorkList {
    let baths: String = baths
        .iter()
        .map(|recipe| format!("[[bath]]\nrecipe = \"{recipe}\"\n"))
        .collect();
    read(&format!(
        "format = 1\nid = \"a\"\nname = \"A\"\nabout = \"a\"\n{baths}"
    ))
    .unwrap()
}

fn shelf_with(new: NewLot) -> (Shelf, LotId) {
    let mut shelf = Shelf::default();
    let id = shelf.add_lot(new, day("2026-08-20")).unwrap();
    (shelf, id)
}

fn stove() -> StovePlace {
    let mut stove = StovePlace::default();
    stove.pot.capacity = potside::craft::quantity::Volume::from_litres(40.0).unwrap();
    stove.pot.diameter = potside::craft::quantity::Length::from_centimetres(38.0).unwrap();
    stove.burner.power = potside::craft::quantity::Power::from_watts(6_000.0).unwrap();
    stove
}

fn plan(list: &WorkList, shelf: &Shelf, lot: LotId, today: &str) -> WorkPlan {
    lay_out(
        list,
        &recipes(),
        shelf,
        shelf.lot(lot).unwrap(),
        &stove(),
        day(today),
    )
}

fn told(plan: &WorkPlan) -> String {
    plan.findings
        .iter()
        .map(|finding| {
            let trouble = &finding.trouble;
            let grave = match trouble.severity() {
                Severity::Refuse => "refuse",
                Severity::Warn => "warn",
            };
            assert!(!trouble.why().is_empty() && !trouble.remedy().is_empty());
            format!("{} {grave}: {trouble}\n", finding.number)
        })
        .collect()
}

#[test]
fn the_built_in_lists_hold_for_scoured_and_raw_wool_and_name_recipes_of_the_book() {
    let orders: Vec<(String, Order)> = worklist::all()
        .iter()
        .map(|list| {
            assert_eq!(worklist::by_id(&list.id).unwrap(), list);
            assert!(worklist::text_of(&list.id).is_some());
            let (shelf, lot) = shelf_with(wool(200, 2));
            let plan = plan(list, &shelf, lot, "2026-08-20");
            let refused: Vec<_> = plan
                .findings
                .iter()
                .filter(|one| one.trouble.severity() == Severity::Refuse)
                .collect();
            assert!(refused.is_empty(), "{}: {refused:?}", list.id);
            assert_eq!(plan.baths.len(), list.baths.len());
            (list.id.clone(), plan.order)
        })
        .collect();

    assert_eq!(
        orders,
        [
            ("red-on-wool".to_owned(), Order::PreMordant),
            ("old-red-on-wool".to_owned(), Order::PreMordant),
            ("gold-on-wool".to_owned(), Order::PreMordant),
            ("tan-then-alum".to_owned(), Order::PostMordant),
            ("gold-alumed-twice".to_owned(), Order::MordantDyeMordant),
        ]
    );
    assert!(
        worklist::by_id("red-on-wol")
            .unwrap_err()
            .to_string()
            .contains("did you mean red-on-wool?")
    );
}

#[test]
fn troubles_are_found_where_they_are() {
    let of = |baths: &[&str], new: NewLot| {
        let (shelf, lot) = shelf_with(new);
        told(&plan(&list(baths), &shelf, lot, "2026-08-20"))
    };
    let greasy = NewLot {
        state: WeighedAs::InTheGrease { loss_percent: 20.0 },
        ..wool(500, 1)
    };
    let scoured = NewLot {
        came: Came::Scoured,
        ..wool(500, 1)
    };

    assert_eq!(of(&["scour-wool", "alum-only", "madder"], wool(500, 1)), "");
    assert_eq!(of(&["alum-only", "madder"], scoured.clone()), "");
    assert_eq!(
        of(&["alum-only", "madder"], wool(500, 1)),
        "1 warn: the goods haven't been scoured\n"
    );
    assert_eq!(
        of(&["alum-only", "madder"], greasy),
        "1 refuse: the goods are in the grease\n"
    );
    assert_eq!(
        of(&["scour-wool", "madder"], wool(500, 1)),
        "2 refuse: Madder at 80 C, 1916 comes on goods without mordant\n"
    );
    assert_eq!(
        of(&["scour-wool", "madder", "alum-only"], wool(500, 1)),
        "2 warn: Madder at 80 C, 1916 comes before its mordant\n"
    );
    assert_eq!(
        of(&["alum-only", "scour-wool", "madder"], scoured.clone()),
        "2 warn: the scour comes after mordant or dye\n"
    );
    assert_eq!(
        of(&["alum-onyl"], scoured),
        "1 refuse: no recipe is called alum-onyl\n"
    );
    let cotton = NewLot {
        fibre: Fibre::Cotton,
        came: Came::Scoured,
        ..wool(500, 1)
    };
    expect![[r#"
        1 refuse: Alum, studio is not for cotton
        1 warn: alum on plant fibre without tannin before it
        2 refuse: Madder at 80 C, 1916 is not for cotton
        2 warn: alum on plant fibre isn't fixed before the dye
    "#]]
    .assert_eq(&of(&["alum-only", "madder"], cotton));
}

/// A recipe of the book, made into another for a test.
fn like(id: &str, new_id: &str, kind: BathKind, change: impl Fn(&mut Recipe)) -> Arc<Recipe> {
    let mut recipe = book::by_id(id).unwrap().clone();
    recipe.id = new_id.into();
    recipe.name = format!("Test {new_id}");
    recipe.kind = kind;
    change(&mut recipe);
    Arc::new(recipe)
}

#[test]
fn iron_spoils_the_pot_and_alkali_the_wool() {
    let iron = like("alum-only", "after-iron", BathKind::AfterBath, |recipe| {
        recipe.mordant = MordantNeed::None;
        recipe.additions[0].ware = Ware::Substance(Substance::FerrousSulfate7);
    });
    let soda = like("scour-wool", "scour-soda", BathKind::Scour, |recipe| {
        recipe.additions[0].ware = Ware::Substance(Substance::SodaAsh);
    });
    let book: Vec<Arc<Recipe>> = recipes().into_iter().chain([iron, soda]).collect();
    let (mut shelf, lot) = shelf_with(NewLot {
        came: Came::Scoured,
        ..wool(500, 1)
    });
    let told_of = |shelf: &Shelf, list: &WorkList, stove: StovePlace| {
        told(&lay_out(
            list,
            &book,
            shelf,
            shelf.lot(lot).unwrap(),
            &stove,
            day("2026-08-20"),
        ))
    };

    assert_eq!(
        told_of(
            &shelf,
            &list(&["after-iron", "alum-only", "madder", "after-iron"]),
            stove()
        ),
        "2 warn: pot 1 has had iron before: Iron, saddening\n3 warn: pot 1 has had iron before: Iron, saddening\n"
    );
    assert!(
        told_of(&shelf, &list(&["alum-only", "scour-soda"]), stove())
            .contains("2 refuse: soda ash on wool\n")
    );
    let own_pot = "format = 1\nid = \"a\"\nname = \"A\"\nabout = \"a\"\n[[bath]]\nrecipe = \"after-iron\"\npot = 2\n\
                   [[bath]]\nrecipe = \"alum-only\"\npot = 1\n";
    assert_eq!(told_of(&shelf, &read(own_pot).unwrap(), stove()), "");
    let mut iron_pot = stove();
    iron_pot.pot.metal = PotMetal::Iron;
    assert_eq!(
        told_of(&shelf, &list(&["alum-only"]), iron_pot),
        "1 warn: a bright bath in a bare iron pot\n"
    );

    // Another lot's iron bath, last week, in the pot that stands there.
    shelf.put_down(
        bath(
            "b1",
            None,
            BathKind::AfterBath,
            "2026-08-15",
            "ferrous-sulfate",
            2,
        ),
        Fibre::Wool,
    );
    assert_eq!(
        told_of(&shelf, &list(&["alum-only"]), stove()),
        "1 warn: pot 1 has had iron before: Test after-bath\n"
    );
}

#[test]
fn the_next_bath_of_a_lot_is_known_and_its_wait() {
    let gold = worklist::by_id("gold-on-wool").unwrap();
    let (mut shelf, lot) = shelf_with(wool(500, 1));
    let done = |id: &str, kind: BathKind, recipe: &str, on: &str| {
        let mut one = bath(id, Some(lot), kind, on, "potash-alum", 75);
        one.recipe = recipe.into();
        one
    };
    assert_eq!(plan(gold, &shelf, lot, "2026-08-20").progress.next, Some(0));

    shelf.put_down(
        done("b1", BathKind::Scour, "some-other-scour", "2026-08-21"),
        Fibre::Wool,
    );
    shelf.put_down(
        done("b2", BathKind::Mordant, "alum-only", "2026-08-22"),
        Fibre::Wool,
    );
    let after = plan(gold, &shelf, lot, "2026-08-24");

    assert_eq!(
        after.progress.done,
        [Some("b1".to_owned()), Some("b2".to_owned())]
    );
    assert_eq!(after.next().unwrap().sheet.plan.recipe_id, "onion-skin");
    // Four or five days damp: Mairet, Vegetable Dyes, 1938, Alum.
    assert_eq!(told(&after), "3 warn: the goods should wait until 2026-08-26\n");
    assert_eq!(told(&plan(gold, &shelf, lot, "2026-08-26")), "");
    assert_eq!(
        told(&plan(gold, &shelf, lot, "2026-08-28")),
        "3 warn: the goods have waited since 2026-08-22, longer than they should\n"
    );
    expect![[r#"
        3 warn: mordanted on 2026-08-22, 101 days ago, and not dyed
        3 warn: the goods have waited since 2026-08-22, longer than they should
    "#]]
    .assert_eq(&told(&plan(gold, &shelf, lot, "2026-12-01")));

    shelf.put_down(done("b3", BathKind::Dye, "onion-skin", "2026-08-27"), Fibre::Wool);
    let end = plan(gold, &shelf, lot, "2026-08-28");
    assert_eq!(
        (end.progress.next, end.baths.len(), told(&end)),
        (None, 0, String::new())
    );
}

#[test]
fn all_additions_of_a_list_are_added_up_and_held_against_the_shelf() {
    // Two alum baths of 15 % on 500 g: 150 g of alum; onion skin weight for weight: 500 g; detergent 2 g/L in 15 L: 30 g.
    let twice = worklist::by_id("gold-alumed-twice").unwrap();
    let (mut shelf, lot) = shelf_with(wool(500, 1));
    shelf.add_supply(salt(Substance::PotashAlum, 100)).unwrap();

    let plan = plan(twice, &shelf, lot, "2026-08-20");

    let wants: Vec<String> = plan
        .wants
        .iter()
        .map(|want| format!("{} {}", want.ware, Milligrams::of(want.needs)))
        .collect();
    assert_eq!(
        wants,
        ["neutral-detergent 30 g", "potash-alum 150 g", "onion-skin 500 g"]
    );
    let missing: Vec<String> = plan
        .missing
        .iter()
        .map(|one| format!("{} {}", one.want.ware, one.there))
        .collect();
    assert_eq!(
        missing,
        ["neutral-detergent 0 g", "potash-alum 100 g", "onion-skin 0 g"]
    );
}

#[test]
fn a_pot_too_small_is_a_finding_of_the_list() {
    let (shelf, lot) = shelf_with(NewLot {
        came: Came::Scoured,
        ..wool(900, 1)
    });
    let plan = lay_out(
        &list(&["alum-only"]),
        &recipes(),
        &shelf,
        shelf.lot(lot).unwrap(),
        &StovePlace::default(),
        day("2026-08-20"),
    );
    assert!(
        plan.is_refused() && told(&plan).contains("fill"),
        "{}",
        told(&plan)
    );
}

#[test]
fn all_faults_of_a_list_are_told_at_once() {
    let text = "format = 1\nid = \"A b\"\nname = \"\"\nabot = \"x\"\n\n[[bath]]\nrecipe = \"alum-only\"\npot = 0\n\
                [bath.then]\ndo = \"sleep\"\nleast = 4\nmost = \"1 day\"\nsource = \"x\"\nstrength = \"practise\"\n\n\
                [[bath]]\nrecipe = \"madder\"\nthen = { do = \"age\", least = \"9 days\", most = \"1 day\", source = \"x\", strength = \"memory\" }\n";

    expect![[r#"
        line 1, column 1: the work list has no about; add about
        line 2, column 6: id "A b" is not in small letters, digits and single hyphens; write it like madder-root
        line 3, column 8: name is empty; write something, or leave the key out if it may be
        line 4, column 1: unknown key "abot" in the work list; did you mean "about"?
        line 8, column 7: pot is not a whole number from 1 to 99; write a number such as pot = 2
        line 10, column 6: do: "sleep" is no way to wait; there are rest-damp, age, dry; write it so
        line 11, column 9: least is a number without its unit; write it in quotes with its unit, such as "4 days"
        line 14, column 12: "practise" is no strength of a source; did you mean "practice"?
        line 18, column 8: a wait after the last bath; leave it out; drying and shelving are steps of the last recipe
        line 18, column 47: the wait ends before it is long enough; write a most that is no shorter than the least"#]].assert_eq(&read(text).unwrap_err().to_string());
    assert!(
        read("format = 1\nid = \"a\"\nname = \"a\"\nabout = \"a\"\n")
            .unwrap_err()
            .to_string()
            .contains("no bath")
    );
}
