//! Lots and supplies: what adds up, what is refused, what a history makes of goods.

use potside::craft::basis::WeighedAs;
use potside::craft::fibre::Fibre;
use potside::craft::lot::LotId;
use potside::craft::quantity::Mass;
use potside::craft::substance::Substance;
use potside::recipe::model::{BathKind, Form};
use potside::shelf::{
    ActFault, Came, LowBy, Milligrams, NewLot, NewSupply, Remark, Shelf, Stage, Stock, condition, low,
    missing, wants_of,
};
use proptest::prelude::*;

use super::support::sheets::{sheet, sheet_with};
use super::support::shelves::{act, bath, day, deed, grams, part, salt, wool};

fn shelf_with(new: NewLot) -> (Shelf, LotId) {
    let mut shelf = Shelf::default();
    let id = shelf.add_lot(new, day("2026-08-20")).unwrap();
    (shelf, id)
}

#[test]
fn parts_add_up_and_share_the_history_and_the_lot_is_kept() {
    let (mut shelf, lot) = shelf_with(wool(500, 10));
    let scour = bath(
        "b1",
        Some(lot),
        BathKind::Scour,
        "2026-08-21",
        "neutral-detergent",
        20,
    );
    shelf.put_down(scour, Fibre::Wool);

    let parts = shelf
        .split(lot, &[part(4, Some(195)), part(6, None)], day("2026-08-22"))
        .unwrap();

    let told: Vec<String> = parts
        .iter()
        .map(|id| shelf.lot(*id).unwrap())
        .map(|lot| {
            format!(
                "{} {} {} {:?} {:?}",
                lot.id,
                lot.hanks,
                lot.weighing().weight,
                lot.from,
                lot.baths
            )
        })
        .collect();
    assert_eq!(
        told,
        ["L2 4 195 g [LotId(1)] [\"b1\"]", "L3 6 305 g [LotId(1)] [\"b1\"]"]
    );
    assert!(!shelf.is_there(lot));
    assert_eq!(
        shelf.workable(lot).unwrap_err().to_string(),
        "L1 isn't a lot of its own any more; it is in L2, L3"
    );
}

#[test]
fn parts_that_do_not_add_up_are_refused_and_change_nothing() {
    let (mut shelf, lot) = shelf_with(wool(500, 10));
    let before = shelf.clone();
    for (parts, says) in [
        (
            vec![part(4, Some(200)), part(5, Some(300))],
            "the parts have 9 hanks, L1 has 10",
        ),
        (
            vec![part(4, Some(200)), part(6, Some(299))],
            "the parts weigh 499 g, L1 weighs 500 g",
        ),
        (vec![part(4, None), part(6, None)], "2 have none"),
        (
            vec![part(4, Some(500)), part(6, None)],
            "nothing is left for the rest",
        ),
        (vec![part(10, None)], "2 to 50 parts, not 1"),
        (vec![part(10, Some(200)), part(0, Some(300))], "not 0"),
    ] {
        let fault = shelf
            .split(lot, &parts, day("2026-08-22"))
            .unwrap_err()
            .to_string();
        assert!(fault.contains(says), "{fault}");
        assert_eq!(shelf, before);
    }
}

#[test]
fn lots_join_only_when_they_are_one_fibre_and_went_one_way() {
    let (mut shelf, one) = shelf_with(wool(200, 2));
    let on = day("2026-08-20");
    let other = shelf.add_lot(wool(300, 3), on).unwrap();
    let silk = NewLot {
        fibre: Fibre::Silk,
        ..wool(100, 1)
    };
    let silk = shelf.add_lot(silk, on).unwrap();
    let scoured = NewLot {
        came: Came::Scoured,
        ..wool(100, 1)
    };
    let scoured = shelf.add_lot(scoured, on).unwrap();
    let fault = |shelf: &mut Shelf, ids: &[LotId]| shelf.join(ids, None, on).unwrap_err();

    assert!(matches!(
        fault(&mut shelf, &[one, silk]),
        ActFault::JoinFibres { .. }
    ));
    assert!(matches!(
        fault(&mut shelf, &[one, scoured]),
        ActFault::JoinCame { .. }
    ));
    assert!(matches!(
        fault(&mut shelf, &[one, one]),
        ActFault::JoinCount { count: 1 }
    ));
    assert!(matches!(
        fault(&mut shelf, &[one, LotId::from_number(77).unwrap()]),
        ActFault::NoLot { .. }
    ));

    shelf.put_down(
        bath(
            "b1",
            Some(one),
            BathKind::Mordant,
            "2026-08-22",
            "potash-alum",
            30,
        ),
        Fibre::Wool,
    );
    assert_eq!(
        fault(&mut shelf, &[one, other]).to_string(),
        "L1 has had Test mordant, L2 has had no bath; they would take colour otherwise, so keep them apart, or bring \
         them to the same first"
    );

    shelf.put_down(
        bath(
            "b2",
            Some(other),
            BathKind::Mordant,
            "2026-09-01",
            "potash-alum",
            45,
        ),
        Fibre::Wool,
    );
    let joined = shelf.join(&[one, other], Some("all of it"), on).unwrap();
    let lot = shelf.lot(joined).unwrap();
    assert_eq!((lot.hanks, lot.weighing().weight), (5, grams(500)));
    assert_eq!(lot.baths, ["b1", "b2"]);
    // One act for the goods, though there were two baths; it keeps from the earlier of the two.
    let condition = condition(&shelf, lot);
    assert_eq!((condition.stage, condition.past.len()), (Stage::Mordanted, 1));
    assert_eq!(condition.keeping.unwrap().since, day("2026-08-22"));
}

#[test]
fn a_lot_weighed_anew_after_the_scour_counts_by_its_last_weighing() {
    // A fifth of raw wool washes out: Mairet, A Book on Vegetable Dyes, 1916.
    let raw = NewLot {
        state: WeighedAs::InTheGrease { loss_percent: 20.0 },
        ..wool(500, 10)
    };
    let (mut shelf, lot) = shelf_with(raw);
    assert_eq!(shelf.lot(lot).unwrap().dry(), Mass::from_grams(400.0).unwrap());
    assert!(shelf.lot(lot).unwrap().is_weighed_in_the_grease());

    shelf
        .weigh_lot(lot, grams(392), WeighedAs::AirDry, day("2026-08-23"))
        .unwrap();

    let lot = shelf.lot(lot).unwrap();
    assert_eq!(lot.dry(), Mass::from_grams(392.0).unwrap());
    assert_eq!((lot.weighings.len(), lot.goods().lot), (2, Some(lot.id)));
}

#[test]
fn the_stage_follows_from_the_history() {
    use BathKind::{AfterBath, Dye, Fixing, Mordant, Scour, Tannin, Vat};
    for (kinds, stage) in [
        (&[][..], Stage::Raw),
        (&[Scour], Stage::Scoured),
        (&[Scour, Tannin], Stage::Tannined),
        (&[Scour, Tannin, Mordant], Stage::Mordanted),
        (&[Scour, Tannin, Mordant, Fixing], Stage::Fixed),
        (&[Scour, Mordant, Dye], Stage::Dyed),
        (&[Scour, Mordant, Dye, Mordant], Stage::Dyed),
        (&[Scour, Mordant, Dye, AfterBath], Stage::AfterBath),
        (&[Scour, Mordant, Dye, Scour], Stage::Dyed),
        (&[Scour, Vat], Stage::Dyed),
        (&[Scour, AfterBath], Stage::Scoured),
    ] {
        let (mut shelf, lot) = shelf_with(wool(100, 1));
        for (index, kind) in kinds.iter().enumerate() {
            let one = bath(
                &format!("b{index}"),
                Some(lot),
                *kind,
                "2026-08-25",
                "potash-alum",
                1,
            );
            shelf.put_down(one, Fibre::Wool);
        }
        assert_eq!(
            condition(&shelf, shelf.lot(lot).unwrap()).stage,
            stage,
            "{kinds:?}"
        );
    }
}

#[test]
fn a_stopped_bath_is_in_the_history_and_moves_no_stage() {
    let (mut shelf, lot) = shelf_with(wool(100, 1));
    let mut one = bath(
        "b1",
        Some(lot),
        BathKind::Mordant,
        "2026-08-25",
        "potash-alum",
        15,
    );
    one.is_whole = false;
    shelf.put_down(one, Fibre::Wool);

    let condition = condition(&shelf, shelf.lot(lot).unwrap());

    assert_eq!(
        (condition.stage, condition.stopped.len(), condition.keeping),
        (Stage::Raw, 1, None)
    );
}

#[test]
fn alum_mordanted_goods_keep_about_a_month() {
    // Trade pages: use mordanted goods within about a month; kept for months, alum may tender them. Common practice,
    // no source.
    let (mut shelf, lot) = shelf_with(wool(100, 1));
    shelf.put_down(
        bath(
            "b1",
            Some(lot),
            BathKind::Mordant,
            "2026-08-25",
            "potash-alum",
            15,
        ),
        Fibre::Wool,
    );
    let keeping = condition(&shelf, shelf.lot(lot).unwrap()).keeping.unwrap();

    assert_eq!(keeping.best_by, day("2026-09-24"));
    assert!(!keeping.is_over(day("2026-09-24")) && keeping.is_over(day("2026-09-25")));
    assert!(!keeping.may_be_tender(day("2026-11-24")) && keeping.may_be_tender(day("2026-11-25")));

    shelf.put_down(
        bath("b2", Some(lot), BathKind::Dye, "2026-09-01", "madder-root", 50),
        Fibre::Wool,
    );
    assert_eq!(condition(&shelf, shelf.lot(lot).unwrap()).keeping, None);

    let (mut shelf, lot) = shelf_with(wool(100, 1));
    shelf.put_down(
        bath(
            "b1",
            Some(lot),
            BathKind::Mordant,
            "2026-08-25",
            "ferrous-sulfate",
            2,
        ),
        Fibre::Wool,
    );
    assert_eq!(
        condition(&shelf, shelf.lot(lot).unwrap()).keeping,
        None,
        "iron is another matter"
    );
}

#[test]
fn a_bath_takes_what_was_weighed_from_the_oldest_and_never_below_nothing() {
    let mut shelf = Shelf::default();
    let one = shelf.add_supply(salt(Substance::PotashAlum, 10)).unwrap();
    let other = shelf.add_supply(salt(Substance::PotashAlum, 100)).unwrap();
    let iron = shelf.add_supply(salt(Substance::FerrousSulfate7, 5)).unwrap();
    let left = |shelf: &Shelf| {
        [one, other, iron]
            .map(|id| shelf.supply(id).unwrap().left.to_string())
            .join(" ")
    };

    let applied = shelf.put_down(
        bath("b1", None, BathKind::Mordant, "2026-08-25", "potash-alum", 75),
        Fibre::Wool,
    );
    assert!(applied.is_new && applied.remarks.is_empty());
    assert_eq!(left(&shelf), "0 g 35 g 5 g");

    let applied = shelf.put_down(
        bath(
            "b2",
            None,
            BathKind::AfterBath,
            "2026-08-26",
            "ferrous-sulfate",
            8,
        ),
        Fibre::Wool,
    );
    assert_eq!(left(&shelf), "0 g 35 g 0 g");
    assert_eq!(
        applied.remarks[0].to_string(),
        "8 g of ferrous-sulfate went into bath b2, 3 g more than the shelf had; weigh what is left"
    );
    assert_eq!(shelf.bath("b2").unwrap().weighed[0].short(), grams(3));

    let applied = shelf.put_down(
        bath("b3", None, BathKind::Dye, "2026-08-26", "madder-root", 8),
        Fibre::Wool,
    );
    assert!(matches!(applied.remarks[0], Remark::NotOnShelf { .. }));
}

#[test]
fn forms_are_different_wares_and_an_unclear_one_is_asked_about() {
    let mut shelf = Shelf::default();
    let stuff = |form| NewSupply {
        stock: Stock::Dyestuff {
            id: "madder-root".into(),
            form,
        },
        ..salt(Substance::Salt, 100)
    };
    let dried = shelf.add_supply(stuff(Form::Dried)).unwrap();
    let extract = shelf.add_supply(stuff(Form::Extract)).unwrap();
    let mut known = bath("b1", None, BathKind::Dye, "2026-08-25", "madder-root", 40);
    known.weighed[0].form = Some(Form::Dried);

    shelf.put_down(known, Fibre::Wool);
    assert_eq!(
        (
            shelf.supply(dried).unwrap().left,
            shelf.supply(extract).unwrap().left
        ),
        (grams(60), grams(100))
    );

    let unknown = bath("b2", None, BathKind::Dye, "2026-08-25", "madder-root", 40);
    let applied = shelf.put_down(unknown, Fibre::Wool);
    assert!(
        applied.remarks[0].to_string().contains("S1, S2 could be it"),
        "{:?}",
        applied.remarks
    );
    assert_eq!(
        (
            shelf.supply(dried).unwrap().left,
            shelf.supply(extract).unwrap().left
        ),
        (grams(60), grams(100))
    );
}

#[test]
fn a_bath_of_a_lot_that_was_split_meanwhile_goes_to_its_parts() {
    let (mut shelf, lot) = shelf_with(wool(500, 10));
    shelf
        .split(lot, &[part(4, Some(200)), part(6, None)], day("2026-08-22"))
        .unwrap();

    let applied = shelf.put_down(
        bath("b1", Some(lot), BathKind::Scour, "2026-08-22", "chalk", 1),
        Fibre::Wool,
    );

    assert_eq!(applied.lots.len(), 3);
    assert!(shelf.lots().all(|lot| lot.baths == ["b1"]));
    assert!(
        applied
            .remarks
            .iter()
            .any(|remark| matches!(remark, Remark::MovedOn { .. }))
    );
}

#[test]
fn what_a_sheet_asks_for_is_held_against_the_shelf() {
    // 15 % of 100 g: 15 g. By aluminium, 10 g of potash alum are 7.0 g of the 18-hydrate of aluminium sulfate
    // (atomic weights: CIAAW 2021), so 15 g are 10.5 g.
    let mut shelf = Shelf::default();
    shelf.add_supply(salt(Substance::PotashAlum, 9)).unwrap();
    let sulfate = shelf.add_supply(salt(Substance::AluminiumSulfate18, 50)).unwrap();
    let wants = wants_of([&sheet("alum-only", "100g")]);

    let found = missing(&shelf, &wants);

    assert_eq!((wants.len(), found.len()), (1, 1));
    assert_eq!((found[0].want.needs.grams(), found[0].there), (15.0, grams(9)));
    assert_eq!(found[0].instead[0].0, sulfate);
    assert!((found[0].instead[0].1.shelf_amount.grams() - 10.53).abs() < 0.02);
    let two = wants_of([&sheet("alum-only", "100g"), &sheet("alum-tartar-studio", "50g")]);
    assert_eq!(
        two.iter().map(|want| want.needs.grams()).collect::<Vec<_>>(),
        [22.5, 3.0]
    );
    shelf.add_supply(salt(Substance::PotashAlum, 6)).unwrap();
    assert_eq!(missing(&shelf, &wants), []);
}

#[test]
fn a_label_is_its_own_salt() {
    let label = |text| potside::shelf::Label::from_text(text).unwrap();
    let mut shelf = Shelf::default();
    let by_label = |text| NewSupply {
        stock: Stock::Labelled(label(text)),
        ..salt(Substance::Salt, 100)
    };
    shelf.add_supply(by_label("17 % Al2O3")).unwrap();
    let asks = |text| {
        wants_of([&sheet_with("alum-only", "100g", |wishes| {
            let salt = Stock::Labelled(label(text)).salt().unwrap();
            wishes.shelf.insert(potside::recipe::model::Letter('A'), salt);
        })])
    };

    assert_eq!(missing(&shelf, &asks("17 % Al2O3")), []);
    assert_eq!(missing(&shelf, &asks("15 % Al2O3")).len(), 1);
}

#[test]
fn low_is_below_the_own_mark_or_less_than_a_usual_bath() {
    let mut shelf = Shelf::default();
    let marked = NewSupply {
        low: Some(grams(50)),
        ..salt(Substance::CreamOfTartar, 50)
    };
    let marked = shelf.add_supply(marked).unwrap();
    let alum = shelf.add_supply(salt(Substance::PotashAlum, 100)).unwrap();
    let iron = shelf.add_supply(salt(Substance::FerrousSulfate7, 1)).unwrap();
    assert_eq!(
        low(&shelf).iter().map(|low| low.supply.id).collect::<Vec<_>>(),
        [marked]
    );

    for (index, weight) in [20, 30, 25].into_iter().enumerate() {
        let one = bath(
            &format!("b{index}"),
            None,
            BathKind::Mordant,
            "2026-08-25",
            "potash-alum",
            weight,
        );
        shelf.put_down(one, Fibre::Wool);
    }

    assert_eq!(shelf.supply(alum).unwrap().left, grams(25));
    assert_eq!(low(&shelf).len(), 1, "one more of the middle size is there");
    shelf.count_supply(alum, Milligrams::from_count(24_999)).unwrap();
    let told: Vec<_> = low(&shelf).iter().map(|low| (low.supply.id, low.by)).collect();
    assert_eq!(
        told,
        [
            (marked, LowBy::Mark(grams(50))),
            (alum, LowBy::UsualBath(grams(25)))
        ]
    );
    assert!(
        !told.iter().any(|(id, _)| *id == iron),
        "never used, no mark: nothing is known"
    );
}

/// Hanks and milligrams of all lots that are there or gone, and the baths that are in some history.
fn sums(shelf: &Shelf) -> (u64, u64) {
    let there = |id| shelf.made_of(id).next().is_none();
    let lots = shelf.lots().filter(|lot| there(lot.id));
    lots.fold((0, 0), |(hanks, weight), lot| {
        (
            hanks + u64::from(lot.hanks),
            weight + lot.weighing().weight.count(),
        )
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(128))]

    #[test]
    fn splits_and_joins_conserve_and_histories_only_grow(deeds in proptest::collection::vec(deed(), 1..60)) {
        let mut shelf = Shelf::default();
        for one in &deeds {
            let (before, sums_before) = (shelf.clone(), sums(&shelf));
            act(&mut shelf, one, day("2026-08-25"));

            use super::support::shelves::Deed::{Add, Weigh};
            if !matches!(one, Add(..) | Weigh(..)) {
                prop_assert_eq!(sums(&shelf), sums_before, "{:?}", one);
            }
            for lot in before.lots() {
                let now = shelf.lot(lot.id).unwrap();
                prop_assert!(now.baths.starts_with(&lot.baths) && now.weighings.starts_with(&lot.weighings));
            }
            for lot in shelf.lots() {
                for from in &lot.from {
                    for id in &shelf.lot(*from).unwrap().baths {
                        prop_assert!(lot.baths.contains(id), "{} lost {id} of {from}", lot.id);
                    }
                }
            }
        }
    }

    #[test]
    fn a_bath_put_down_twice_is_put_down_once(deeds in proptest::collection::vec(deed(), 1..40)) {
        let mut shelf = Shelf::default();
        for one in &deeds {
            act(&mut shelf, one, day("2026-08-25"));
            let once = shelf.clone();
            for one in once.baths() {
                let again = shelf.put_down(one.clone(), Fibre::Wool);
                prop_assert!(!again.is_new);
            }
            prop_assert_eq!(&shelf, &once);
        }
    }

    #[test]
    fn what_was_weighed_is_drawn_or_short_and_nothing_appears(deeds in proptest::collection::vec(deed(), 1..60)) {
        let mut shelf = Shelf::default();
        for one in &deeds {
            let stood: u64 = shelf.supplies().map(|supply| supply.left.count()).sum();
            let baths = shelf.baths().len();
            act(&mut shelf, one, day("2026-08-25"));
            if let Some(new) = shelf.baths().get(baths) {
                let stands: u64 = shelf.supplies().map(|supply| supply.left.count()).sum();
                let (weighed, short) = new.weighed.iter().fold((0, 0), |(weighed, short), one| {
                    (weighed + one.weight.count(), short + one.short().count())
                });
                prop_assert_eq!(stood - stands, weighed - short);
            }
        }
    }

    #[test]
    fn every_shelf_reads_back_as_it_was_written(deeds in proptest::collection::vec(deed(), 0..60)) {
        let mut shelf = Shelf::begun_after(["2026-01-01-0900-old1".to_owned()]);
        for one in &deeds {
            act(&mut shelf, one, day("2026-08-25"));
        }
        let text = potside::shelf::write(&shelf);
        let read = potside::shelf::read(&text);
        prop_assert_eq!(read, Ok(shelf), "{}", text);
    }
}
