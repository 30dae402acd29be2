//! Molar masses and exchanges of salts, against `molar_masses.csv`, `equal_aluminium.csv` and `stoichiometry.csv`.

use crate::craft_tables::{number, rows};
use potside::craft::quantity::Mass;
use potside::craft::salts::{self, AluminiumLabel, Difference, Element, NoExchange, OnShelf};
use potside::craft::substance::Substance;
use proptest::prelude::*;

fn grams(grams: f64) -> Mass {
    Mass::from_grams(grams).unwrap()
}

fn near(got: f64, want: f64, part: f64) -> bool {
    (got - want).abs() <= part * want.abs()
}

fn substance_of_formula(formula: &str) -> Option<Substance> {
    Some(match formula {
        "KAl(SO4)2(H2O)12" => Substance::PotashAlum,
        "KAl(SO4)2" => Substance::BurntAlum,
        "NH4Al(SO4)2(H2O)12" => Substance::AmmoniumAlum,
        "NaAl(SO4)2(H2O)12" => Substance::SodaAlum,
        "Al2(SO4)3(H2O)14" => Substance::AluminiumSulfate14,
        "Al2(SO4)3(H2O)16" => Substance::AluminiumSulfate16,
        "Al2(SO4)3(H2O)17" => Substance::AluminiumSulfate17,
        "Al2(SO4)3(H2O)18" => Substance::AluminiumSulfate18,
        "Al(CH3COO)3" => Substance::AluminiumTriacetate,
        "Al(OH)(CH3COO)2" => Substance::AluminiumDiacetate,
        "Al(OH)2(CH3COO)" => Substance::AluminiumMonoacetate,
        "CH3COONa" => Substance::SodiumAcetate,
        "CH3COONa(H2O)3" => Substance::SodiumAcetateTrihydrate,
        "Ca(CH3COO)2" => Substance::CalciumAcetate,
        "FeSO4(H2O)7" => Substance::FerrousSulfate7,
        "FeSO4(H2O)" => Substance::FerrousSulfate1,
        "CuSO4(H2O)5" => Substance::CopperSulfate5,
        "Na2CO3" => Substance::SodaAsh,
        "Na2CO3(H2O)" => Substance::SodaMonohydrate,
        "Na2CO3(H2O)10" => Substance::SodaCrystals,
        "NaHCO3" => Substance::BakingSoda,
        "CaCO3" => Substance::Chalk,
        "KC4H5O6" => Substance::CreamOfTartar,
        "C4H6O6" => Substance::TartaricAcid,
        "C6H8O7" => Substance::CitricAcid,
        "C6H8O7(H2O)" => Substance::CitricAcidMonohydrate,
        "C76H52O46" => Substance::TannicAcid,
        // Not substances of the shelf.
        "Al2(SO4)3" | "CH3COOH" | "C7H6O5" | "K2TiO(C2O4)2(H2O)2" | "H2O" => return None,
        other => panic!("no substance {other}"),
    })
}

#[test]
fn molar_masses_and_metal_shares_agree_with_three_libraries() {
    let mut checked = 0;
    for row in rows(include_str!("../tables/molar_masses.csv")) {
        let Some(substance) = substance_of_formula(&row[1]) else {
            continue;
        };
        let got = salts::molar_mass(substance).unwrap();
        assert!((got - number(&row[2])).abs() < 0.000_6, "{row:?}: {got}");
        for library in &row[3..6] {
            assert!(
                near(got, number(library), 1e-3) && (got - number(library)).abs() < 0.03,
                "{row:?}: {got}"
            );
        }
        if !row[6].is_empty() {
            let metal = match row[6].as_str() {
                "Al" => Element::Al,
                "Fe" => Element::Fe,
                "Cu" => Element::Cu,
                other => panic!("no metal {other}"),
            };
            let percent = salts::formula(substance).unwrap().share(metal) * 100.0;
            assert!(near(percent, number(&row[7]), 1e-3), "{row:?}: {percent}");
        }
        checked += 1;
    }
    assert_eq!(checked, 27);
}

#[test]
fn equal_aluminium_is_as_tabled_both_ways() {
    let mut checked = 0;
    for row in rows(include_str!("../tables/equal_aluminium.csv")) {
        let shelf = match row[0].as_str() {
            "potash alum KAl(SO4)2.12H2O" => Substance::PotashAlum,
            "potash alum, anhydrous (burnt)" => Substance::BurntAlum,
            "ammonium alum NH4Al(SO4)2.12H2O" => Substance::AmmoniumAlum,
            "soda alum NaAl(SO4)2.12H2O" => Substance::SodaAlum,
            "aluminium sulfate .14H2O" => Substance::AluminiumSulfate14,
            "aluminium sulfate .16H2O" => Substance::AluminiumSulfate16,
            "aluminium sulfate .17H2O" => Substance::AluminiumSulfate17,
            "aluminium sulfate .18H2O" => Substance::AluminiumSulfate18,
            "aluminium triacetate (neutral) Al(CH3COO)3" => Substance::AluminiumTriacetate,
            "aluminium diacetate (basic) Al(OH)(CH3COO)2" => Substance::AluminiumDiacetate,
            "aluminium monoacetate (dibasic) Al(OH)2(CH3COO)" => Substance::AluminiumMonoacetate,
            "aluminium sulfate anhydrous" => continue,
            other => panic!("no substance {other}"),
        };
        let there = salts::exchange(Substance::PotashAlum, grams(1_000.0), OnShelf::Known(shelf)).unwrap();
        let back = salts::exchange(shelf, grams(1_000.0), OnShelf::Known(Substance::PotashAlum)).unwrap();
        assert!(
            near(there.shelf_amount.grams() / 1_000.0, number(&row[2]), 1e-3),
            "{row:?}"
        );
        assert!(
            near(back.shelf_amount.grams() / 1_000.0, number(&row[3]), 1e-3),
            "{row:?}"
        );
        // The same by the label's percent of aluminium.
        let label = AluminiumLabel::percent_aluminium(number(&row[1])).unwrap();
        let by_label = salts::exchange(Substance::PotashAlum, grams(1_000.0), OnShelf::Label(label)).unwrap();
        assert!(
            near(by_label.shelf_amount.grams() / 1_000.0, number(&row[2]), 1e-3),
            "{row:?}"
        );
        checked += 1;
    }
    assert_eq!(checked, 11);
}

#[test]
fn stoichiometry_is_as_tabled() {
    let table = rows(include_str!("../tables/stoichiometry.csv"));
    let want = |place: usize| number(&table[place][2]);
    let per_alum = |wanted: Substance, alum: Substance, acetate: Substance| {
        let made = salts::acetate_in_bath(wanted, grams(100.0), OnShelf::Known(alum), acetate).unwrap();
        (
            made.acetate_amount.grams() / made.aluminium_amount.grams(),
            made.wanted_amount.grams() / made.aluminium_amount.grams(),
        )
    };
    use Substance::{
        AluminiumDiacetate, AluminiumSulfate16, AluminiumSulfate18, AluminiumTriacetate, CitricAcid,
        CitricAcidMonohydrate, PotashAlum, SodaAsh, SodaCrystals, SodiumAcetate, SodiumAcetateTrihydrate,
    };
    let ratio = |recipe, shelf| {
        salts::exchange(recipe, grams(100.0), OnShelf::Known(shelf))
            .unwrap()
            .shelf_amount
            .grams()
            / 100.0
    };

    let soda = salts::soda_for_alum(PotashAlum, grams(100.0), 1.0, SodaAsh)
        .unwrap()
        .grams()
        / 100.0;
    for (place, got) in [
        (0, per_alum(AluminiumTriacetate, PotashAlum, SodiumAcetate).0),
        (
            1,
            per_alum(AluminiumTriacetate, PotashAlum, SodiumAcetateTrihydrate).0,
        ),
        (2, per_alum(AluminiumTriacetate, PotashAlum, SodiumAcetate).1),
        (3, per_alum(AluminiumDiacetate, PotashAlum, SodiumAcetate).0),
        (
            4,
            per_alum(AluminiumTriacetate, AluminiumSulfate18, SodiumAcetate).0,
        ),
        (
            5,
            per_alum(AluminiumTriacetate, AluminiumSulfate16, SodiumAcetate).0,
        ),
        (6, ratio(SodaAsh, SodaCrystals)),
        (7, soda),
        (8, ratio(CitricAcid, CitricAcidMonohydrate)),
    ] {
        assert!(near(got, want(place), 1e-3), "{:?}: {got}", table[place]);
    }
    assert_eq!(table.len(), 9);
}

/// A label of 17 % `Al2O3` is 9.0 % Al (the trade's usual statement of aluminium sulfate; from memory).
#[test]
fn a_label_in_alumina_is_read_as_aluminium() {
    let label = AluminiumLabel::percent_alumina(17.0).unwrap();

    assert!(near(label.aluminium_share(), 0.0900, 1e-3), "{label:?}");
    for percent in [0.0, -1.0, f64::NAN, 101.0, f64::INFINITY] {
        assert!(AluminiumLabel::percent_alumina(percent).is_err(), "{percent}");
    }
    assert_eq!(
        AluminiumLabel::percent_aluminium(60.0).unwrap_err().to_string(),
        "60 % is not a label's share of Al; it is above 0 and at most 52.9 %"
    );
}

#[test]
fn an_exchange_says_both_amounts_and_where_they_differ() {
    let exchange = salts::exchange(
        Substance::PotashAlum,
        grams(15.0),
        OnShelf::Known(Substance::AluminiumSulfate18),
    )
    .unwrap();

    assert_eq!(
        exchange.to_string(),
        "recipe: 15.00 g alum (potash); shelf: 10.54 g aluminium sulfate, 18-hydrate, equal in aluminium; \
         the record keeps which one went in"
    );
    assert_eq!(
        exchange.differences,
        [Difference::WhichHydrate, Difference::EyesMore]
    );
    let acetate = salts::exchange(
        Substance::PotashAlum,
        grams(15.0),
        OnShelf::Known(Substance::AluminiumDiacetate),
    )
    .unwrap();
    assert_eq!(acetate.differences, [Difference::SourOrAcetate]);
}

#[test]
fn what_is_not_the_same_thing_is_never_exchanged() {
    for (recipe, shelf) in [
        (Substance::PotashAlum, Substance::FerrousSulfate7),
        (Substance::SodaAsh, Substance::BakingSoda),
        (Substance::Chalk, Substance::SlakedLime),
        (Substance::CreamOfTartar, Substance::TartaricAcid),
        (Substance::CopperSulfate5, Substance::FerrousSulfate7),
        (Substance::NeutralSoap, Substance::NeutralDetergent),
    ] {
        assert_eq!(
            salts::exchange(recipe, grams(10.0), OnShelf::Known(shelf)),
            Err(NoExchange::NotOneKind { recipe, shelf })
        );
    }
    assert_eq!(
        salts::exchange(
            Substance::BakingSoda,
            grams(1.0),
            OnShelf::Known(Substance::SodaAsh)
        )
        .unwrap_err()
        .to_string(),
        "soda ash can't stand for baking soda: they are not the same thing in another form"
    );
}

proptest! {
    #[test]
    fn an_exchange_there_and_back_is_the_same_weight(
        one in 0usize..Substance::ALL.len(), other in 0usize..Substance::ALL.len(), amount in 0.0f64..100_000.0,
    ) {
        let (one, other) = (Substance::ALL[one], Substance::ALL[other]);
        if let Ok(there) = salts::exchange(one, grams(amount), OnShelf::Known(other)) {
            let back = salts::exchange(other, there.shelf_amount, OnShelf::Known(one)).unwrap();
            prop_assert!((back.shelf_amount.grams() - amount).abs() <= 1e-9 * amount.max(1.0));
            prop_assert_eq!(there.equal_in, back.equal_in);
        }
    }
}
