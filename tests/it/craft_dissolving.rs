//! The least hot water, against published solubilities.

use crate::craft_tables::{number, rows};
use potside::craft::dissolving::{self, Clash, Footing, Remark, Stays, Taking};
use potside::craft::quantity::{Mass, Temperature, Volume};
use potside::craft::substance::Substance;
use proptest::prelude::*;

fn grams(grams: f64) -> Mass {
    Mass::from_grams(grams).unwrap()
}

fn celsius(celsius: f64) -> Temperature {
    Temperature::from_celsius(celsius).unwrap()
}

/// Every row of `solubility.csv`, whichever source it has: the sources differ by up to 35 %, so no more is asked.
#[test]
fn solubilities_lie_within_what_published_tables_differ_by() {
    let mut checked = 0;
    for row in rows(include_str!("../tables/solubility.csv")) {
        let substance = match row[0].as_str() {
            "potash alum" => Substance::PotashAlum,
            "ammonium alum" => Substance::AmmoniumAlum,
            "aluminium sulfate" => Substance::AluminiumSulfate18,
            "iron(II) sulfate" => Substance::FerrousSulfate7,
            "copper(II) sulfate" => Substance::CopperSulfate5,
            "sodium carbonate" => Substance::SodaAsh,
            "sodium acetate" => Substance::SodiumAcetate,
            "cream of tartar" => Substance::CreamOfTartar,
            other => panic!("no substance {other}"),
        };
        let got = dissolving::solubility(substance, celsius(number(&row[2]))).unwrap();
        let want = number(&row[3]);
        assert!((got / want - 1.0).abs() <= 0.35, "{row:?}: {got}");
        checked += 1;
    }
    assert_eq!(checked, 105);
}

/// The handbook's own wording: one gram of potash alum in 7.2 mL of cold and 0.3 mL of boiling water, one gram of
/// cream of tartar in 162 mL of cold and 16 mL of boiling water (Merck's type, read second-hand). The least water
/// is that times the margin of one half, within the 35 % that tables differ by.
#[test]
fn the_least_water_is_the_handbooks_times_one_and_a_half() {
    for (substance, at, ml_per_gram) in [
        (Substance::PotashAlum, 25.0, 7.2),
        (Substance::CreamOfTartar, 20.0, 162.0),
        (Substance::CreamOfTartar, 100.0, 16.0),
    ] {
        let cup = dissolving::cup(substance, grams(10.0), celsius(at));
        let got = cup.least.litres() * 1_000.0 / 10.0;
        // The handbook's water; the margin is taken of all the water, the salt's own included.
        assert!(
            (got / (ml_per_gram * 1.5) - 1.0).abs() < 0.35,
            "{substance:?} at {at} C: {got} mL/g"
        );
        assert!(got > ml_per_gram, "{substance:?}: less than the handbook asks");
    }
}

/// Worked by hand: 25 g of potash alum at 50 C hold 25 x 258.192/474.372 = 13.607 g dry and 11.393 g of water;
/// 13.607 / 17.0 x 100 x 1.5 = 120.06 g of water, less its own 11.39 is 108.67 mL.
#[test]
fn a_hydrate_brings_its_own_water() {
    let cup = dissolving::cup(Substance::PotashAlum, grams(25.0), celsius(50.0));

    assert_eq!(cup.taking, Taking::Dissolves);
    assert!(matches!(cup.footing, Footing::Table(_)));
    assert!(
        (cup.least.litres() * 1_000.0 - 108.67).abs() < 0.05,
        "{:?}",
        cup.least
    );
}

#[test]
fn alum_and_tartar_share_a_cup_and_the_tartar_goes_first() {
    let plan = dissolving::dissolving(
        &[
            (Substance::PotashAlum, grams(15.0)),
            (Substance::CreamOfTartar, grams(6.0)),
        ],
        celsius(80.0),
        Some(Volume::from_litres(0.1).unwrap()),
    );

    assert_eq!(plan.cups[0].substance, Substance::CreamOfTartar);
    assert_eq!(plan.cups[0].remark, Some(Remark::TartarNeedsHot));
    assert!(plan.apart.is_empty());
    // 6 / 4.6 x 150 = 195.7 mL for the tartar; 15 mL is the least for the alum, weight for weight.
    assert!((plan.least.litres() - 0.2107).abs() < 0.002, "{:?}", plan.least);
    assert!((plan.short_by.unwrap().litres() - 0.1107).abs() < 0.002);
}

#[test]
fn what_spoils_in_one_cup_is_kept_apart() {
    for (one, other, want) in [
        (Substance::PotashAlum, Substance::SodaAsh, Some(Clash::Fizz)),
        (Substance::Chalk, Substance::CreamOfTartar, Some(Clash::Fizz)),
        (
            Substance::FerrousSulfate7,
            Substance::TannicAcid,
            Some(Clash::Ink),
        ),
        (Substance::PotashAlum, Substance::NeutralSoap, Some(Clash::Curd)),
        (Substance::PotashAlum, Substance::SlakedLime, Some(Clash::Curd)),
        (Substance::PotashAlum, Substance::CreamOfTartar, None),
        (Substance::PotashAlum, Substance::SodiumAcetate, None),
    ] {
        assert_eq!(dissolving::clash(one, other), want, "{one:?} {other:?}");
        assert_eq!(dissolving::clash(other, one), want, "{other:?} {one:?}");
    }
}

/// 6 g/L is what saturated hydrogen tartrate holds at 20 to 25 C (NBS standard: 0.0341 mol/kg at 25 C = 6.4 g/kg).
#[test]
fn cream_of_tartar_falls_out_of_a_small_cold_bath() {
    let stays = |amount, litres, at| {
        let bath = Volume::from_litres(litres).unwrap();
        dissolving::stays(Substance::CreamOfTartar, grams(amount), bath, celsius(at))
    };

    assert_eq!(stays(12.0, 1.0, 20.0), Some(Stays::Undissolved));
    assert_eq!(stays(4.5, 1.0, 20.0), Some(Stays::Near));
    assert_eq!(stays(12.0, 6.0, 20.0), Some(Stays::Dissolved));
    assert_eq!(stays(12.0, 1.0, 80.0), Some(Stays::Dissolved));
}

#[test]
fn salts_without_a_table_say_that_they_rest_on_a_rule_of_thumb() {
    for substance in Substance::ALL {
        let cup = dissolving::cup(substance, grams(10.0), celsius(60.0));
        match (cup.taking, dissolving::solubility(substance, celsius(60.0))) {
            (Taking::Dissolves, Some(_)) => {
                assert!(matches!(cup.footing, Footing::Table(_)), "{substance:?}");
            }
            (Taking::Dissolves | Taking::StirredUp, None) => {
                assert!(
                    matches!(cup.footing, Footing::RuleOfThumb { ml_per_gram: 1.. }),
                    "{substance:?}"
                );
            }
            (Taking::Poured | Taking::Bagged, None) => assert_eq!(cup.least.litres(), 0.0),
            (taking, Some(_)) => panic!("{substance:?} has a table and is {taking:?}"),
        }
    }
}

proptest! {
    #[test]
    fn more_salt_never_needs_less_water(
        place in 0usize..Substance::ALL.len(), at in 0.0f64..100.0, one in 0.0f64..5_000.0, more in 0.0f64..5_000.0,
    ) {
        let substance = Substance::ALL[place];
        let little = dissolving::cup(substance, grams(one), celsius(at)).least;
        let much = dissolving::cup(substance, grams(one + more), celsius(at)).least;
        prop_assert!(much.litres() >= little.litres());
    }
}
