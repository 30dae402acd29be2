//! Shelves made for tests: invented lots, supplies and finished baths, and generators of them.

use chrono::NaiveDate;
use potside::craft::basis::WeighedAs;
use potside::craft::fibre::Fibre;
use potside::craft::lot::LotId;
use potside::craft::substance::Substance;
use potside::craft::vessel::PotMetal;
use potside::recipe::model::{BathKind, Form, Letter};
use potside::shelf::{
    Came, Milligrams, NewLot, NewSupply, Part, Shelf, ShelvedBath, Stock, SupplyId, Weighed,
};
use proptest::prelude::*;
use proptest::sample::select;

pub fn day(text: &str) -> NaiveDate {
    text.parse().unwrap()
}

pub fn grams(grams: u64) -> Milligrams {
    Milligrams::from_count(grams * 1_000)
}

pub fn wool(weight: u64, hanks: u32) -> NewLot {
    NewLot {
        name: "autumn fleece".into(),
        fibre: Fibre::Wool,
        weight: grams(weight),
        state: WeighedAs::AirDry,
        hanks,
        came: Came::Raw,
    }
}

pub fn salt(substance: Substance, left: u64) -> NewSupply {
    NewSupply {
        stock: Stock::Salt(substance),
        name: substance.name().into(),
        left: grams(left),
        low: None,
        note: None,
    }
}

pub fn part(hanks: u32, weight: Option<u64>) -> Part {
    Part {
        hanks,
        weight: weight.map(grams),
        name: None,
    }
}

/// A bath that went to its end, with one salt weighed in.
pub fn bath(id: &str, lot: Option<LotId>, kind: BathKind, on: &str, ware: &str, weight: u64) -> ShelvedBath {
    ShelvedBath {
        id: id.into(),
        lot,
        kind,
        recipe: format!("test-{}", kind.id()),
        name: format!("Test {}", kind.id()),
        on: day(on),
        is_whole: true,
        pot: 1,
        metal: PotMetal::Stainless,
        weighed: vec![Weighed {
            letter: Letter('A'),
            ware: ware.into(),
            name: ware.into(),
            form: None,
            weight: grams(weight),
            drawn: Vec::new(),
        }],
    }
}

/// One thing done to a shelf. Numbers are taken modulo what is there.
#[derive(Debug, Clone)]
pub enum Deed {
    Add(Fibre, Came, u64, u32),
    Split(usize, u32, Option<u64>),
    Join(usize, usize),
    Weigh(usize, u64),
    Go(usize),
    Supply(Stock, u64, Option<u64>),
    Count(usize, u64),
    Bath(Option<usize>, BathKind, u32, String, Option<Form>, u64, bool),
}

fn milligrams() -> impl Strategy<Value = u64> {
    prop_oneof![1_u64..=999, 1_u64..=2_000_000, Just(1)]
}

fn stock() -> impl Strategy<Value = Stock> {
    prop_oneof![
        select(Substance::ALL.to_vec()).prop_map(Stock::Salt),
        select(vec!["17 % Al2O3", "9 % Al", "0.5 % Al2O3", "15.25 % Al2O3"])
            .prop_map(|text| Stock::Labelled(potside::shelf::Label::from_text(text).unwrap())),
        (
            select(vec!["madder-root", "onion-skin"]),
            select(Form::ALL.to_vec())
        )
            .prop_map(|(id, form)| Stock::Dyestuff { id: id.into(), form }),
    ]
}

pub fn deed() -> impl Strategy<Value = Deed> {
    let index = any::<usize>;
    let ware = select(vec![
        "potash-alum",
        "cream-of-tartar",
        "madder-root",
        "aluminium-salt-by-label",
        "other",
    ]);
    let form = proptest::option::of(select(Form::ALL.to_vec()));
    prop_oneof![
        3 => (select(Fibre::ALL.to_vec()), select(Came::ALL.to_vec()), milligrams(), 1_u32..60)
            .prop_map(|(fibre, came, weight, hanks)| Deed::Add(fibre, came, weight, hanks)),
        3 => (index(), 1_u32..10, proptest::option::of(milligrams())).prop_map(|(lot, hanks, weight)| Deed::Split(lot, hanks, weight)),
        2 => (index(), index()).prop_map(|(one, other)| Deed::Join(one, other)),
        1 => (index(), milligrams()).prop_map(|(lot, weight)| Deed::Weigh(lot, weight)),
        1 => index().prop_map(Deed::Go),
        2 => (stock(), milligrams(), proptest::option::of(milligrams())).prop_map(|(stock, left, low)| Deed::Supply(stock, left, low)),
        1 => (index(), milligrams()).prop_map(|(supply, left)| Deed::Count(supply, left)),
        4 => (proptest::option::of(index()), select(BathKind::ALL.to_vec()), 0_u32..40, ware, form, milligrams(), any::<bool>())
            .prop_map(|(lot, kind, number, ware, form, weight, whole)| Deed::Bath(lot, kind, number, ware.into(), form, weight, whole)),
    ]
}

/// Does it; what the shelf refuses is left undone.
pub fn act(shelf: &mut Shelf, deed: &Deed, on: NaiveDate) {
    let lots: Vec<LotId> = shelf.lots().map(|lot| lot.id).collect();
    let supplies: Vec<SupplyId> = shelf.supplies().map(|supply| supply.id).collect();
    let lot = |index: &usize| lots.get(index % lots.len().max(1)).copied();
    match deed {
        Deed::Add(fibre, came, weight, hanks) => {
            let new = NewLot {
                name: format!("lot \"{}\" \\ {hanks}", fibre.name()),
                fibre: *fibre,
                weight: Milligrams::from_count(*weight),
                state: WeighedAs::AirDry,
                hanks: *hanks,
                came: *came,
            };
            shelf.add_lot(new, on).unwrap();
        }
        Deed::Split(index, hanks, weight) => {
            let Some(id) = lot(index) else { return };
            let all = shelf.lot(id).unwrap();
            let rest = all.hanks.saturating_sub(*hanks);
            let weight = weight.map(|weight| {
                let all = all.weighing().weight.count();
                Milligrams::from_count(weight % all.max(1))
            });
            let parts = [
                Part {
                    hanks: *hanks,
                    weight,
                    name: Some("part".into()),
                },
                Part {
                    hanks: rest,
                    weight: None,
                    name: None,
                },
            ];
            drop(shelf.split(id, &parts, on));
        }
        Deed::Join(one, other) => {
            if let (Some(one), Some(other)) = (lot(one), lot(other)) {
                drop(shelf.join(&[one, other], None, on));
            }
        }
        Deed::Weigh(index, weight) => {
            if let Some(id) = lot(index) {
                drop(shelf.weigh_lot(id, Milligrams::from_count(*weight), WeighedAs::OvenDry, on));
            }
        }
        Deed::Go(index) => {
            if let Some(id) = lot(index) {
                drop(shelf.let_go(id, on));
            }
        }
        Deed::Supply(stock, left, low) => {
            let new = NewSupply {
                stock: stock.clone(),
                name: "jar".into(),
                left: Milligrams::from_count(*left),
                low: low.map(Milligrams::from_count),
                note: Some("white tub".into()),
            };
            shelf.add_supply(new).unwrap();
        }
        Deed::Count(index, left) => {
            if let Some(id) = supplies.get(index % supplies.len().max(1)) {
                shelf.count_supply(*id, Milligrams::from_count(*left)).unwrap();
            }
        }
        Deed::Bath(index, kind, number, ware, form, weight, is_whole) => {
            let id = index.as_ref().and_then(lot);
            let fibre = id.map_or(Fibre::Wool, |id| shelf.lot(id).unwrap().fibre);
            let mut one = bath(&format!("bath-{number}"), id, *kind, "2026-08-25", ware, 0);
            one.is_whole = *is_whole;
            one.weighed[0].form = *form;
            one.weighed[0].weight = Milligrams::from_count(*weight);
            drop(shelf.put_down(one, fibre));
        }
    }
}
