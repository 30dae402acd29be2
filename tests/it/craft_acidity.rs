//! The band of pH, against pH standards, pharmacopoeia figures and an independent calculation.

use crate::craft_tables::{number, rows};
use potside::craft::acidity::{self, Acidity};
use potside::craft::quantity::{Mass, Volume};
use potside::craft::substance::Substance;
use proptest::prelude::*;

fn bath(additions: &[(Substance, f64)], litres: f64) -> Acidity {
    let additions: Vec<_> = additions
        .iter()
        .map(|(substance, grams)| (*substance, Mass::from_grams(*grams).unwrap()))
        .collect();
    acidity::acidity(&additions, Volume::from_litres(litres).unwrap())
}

fn likely(additions: &[(Substance, f64)]) -> f64 {
    bath(additions, 1.0).ph.unwrap().likely
}

/// The 25 C row of `ph_standard_tartrate.csv` (NBS, Bates 1962; NIST primary standard) at 0.0341 mol/kg: in a litre
/// of solution of density 1.0036, 0.0340 mol, 6.40 g.
#[test]
fn saturated_hydrogen_tartrate_is_the_primary_standard() {
    let table = rows(include_str!("../tables/ph_standard_tartrate.csv"));
    let row = table.iter().find(|row| row[0] == "25").unwrap();

    let got = likely(&[(Substance::CreamOfTartar, 6.40)]);

    assert!((got - number(&row[1])).abs() <= 0.02, "{got}");
}

/// 0.025 mol/kg each of hydrogen carbonate and carbonate of sodium: 10.012 at 25 C (NBS standard; from memory).
#[test]
fn equal_soda_and_baking_soda_is_the_carbonate_standard() {
    let got = likely(&[(Substance::SodaAsh, 2.640), (Substance::BakingSoda, 2.092)]);

    assert!((got - 10.012).abs() <= 0.05, "{got}");
}

/// `ph_checks.csv`: the second calculation to 0.02; the coarser one and what the pharmacopoeias print to 0.4.
#[test]
fn alum_baths_are_as_sour_as_published() {
    let mut published_count = 0;
    for row in rows(include_str!("../tables/ph_checks.csv")) {
        let grams = match row[0].as_str() {
            "0.2 M potash alum, 25 C" => 94.874,
            "5 % potash alum (50 g/L), 25 C" => 50.0,
            "10 g/L potash alum, 25 C" => 10.0,
            "2 g/L potash alum, 25 C" => 2.0,
            "saturated KHTartrate, 0.0341 mol/kg, 25 C" => continue,
            other => panic!("no solution {other}"),
        };
        let got = likely(&[(Substance::PotashAlum, grams)]);
        assert!((got - number(&row[3])).abs() <= 0.02, "{row:?}: {got}");
        assert!((got - number(&row[2])).abs() <= 0.4, "{row:?}: {got}");
        let (low, high) = match row[1].as_str() {
            "3.3 (Merck Index, read)" => (3.25, 3.35),
            "3.0-3.5 (BP/Ph.Eur. test, read)" => (3.0, 3.5),
            "" => continue,
            other => panic!("no figure {other}"),
        };
        assert!(got >= low - 0.4 && got <= high + 0.4, "{row:?}: {got}");
        published_count += 1;
    }
    assert_eq!(published_count, 2);
}

/// Handbook figures from memory: 0.1 mol/L of acetic acid 2.88, citric acid 2.1, tartaric acid 2.1, soda 11.6,
/// baking soda 8.35. Both sodas are handbook figures without activities, which are worth 0.2.
#[test]
fn plain_acids_and_alkalis_are_the_handbooks() {
    for (substance, grams, want, within) in [
        (Substance::Vinegar, 120.1, 2.88, 0.05), // 5 % acid: 6.005 g, 0.1 mol
        (Substance::CitricAcid, 19.21, 2.1, 0.1),
        (Substance::TartaricAcid, 15.01, 2.1, 0.1),
        (Substance::SodaAsh, 10.6, 11.6, 0.25),
        (Substance::BakingSoda, 8.4, 8.35, 0.25),
    ] {
        let band = bath(&[(substance, grams)], 1.0).ph.unwrap();
        assert!(
            (band.likely - want).abs() <= within,
            "{substance:?}: {band:?}, not {want}"
        );
        assert!(band.low <= want && want <= band.high);
    }
}

/// Chalk in water: 9.9 shut off from air, 8.3 in it (textbook of aquatic chemistry, from memory).
#[test]
fn a_chalk_bath_lies_between_shut_off_and_aired() {
    let band = bath(&[(Substance::Chalk, 5.0)], 1.0).ph.unwrap();

    assert!((band.low - (8.3 - 0.4)).abs() < 0.15, "{band:?}");
    assert!((band.high - (9.9 + 0.4)).abs() < 0.15, "{band:?}");
}

#[test]
fn each_thing_moves_the_bath_the_way_every_dyer_knows() {
    let alum = likely(&[(Substance::PotashAlum, 5.0)]);

    assert!(likely(&[(Substance::PotashAlum, 5.0), (Substance::CreamOfTartar, 2.0)]) < alum);
    assert!(likely(&[(Substance::PotashAlum, 5.0), (Substance::SodiumAcetate, 2.5)]) > alum);
    assert!(likely(&[(Substance::PotashAlum, 5.0), (Substance::SodaAsh, 0.5)]) > alum);
    assert!(likely(&[(Substance::AluminiumDiacetate, 2.0)]) > alum);
    assert!(likely(&[(Substance::SodaAsh, 5.0)]) > likely(&[(Substance::BakingSoda, 5.0)]));
}

/// By hand: 10.6 g of soda ash is 0.1 mol; with alum to spare it gives off at most 0.1 mol, 2.4 L, of gas, less the
/// 0.03 mol that a litre of water keeps.
#[test]
fn soda_into_alum_warns_of_its_gas() {
    let both = bath(&[(Substance::PotashAlum, 100.0), (Substance::SodaAsh, 10.6)], 1.0);

    assert!(both.fizzes);
    assert!(both.gas_litres > 1.6 && both.gas_litres <= 2.45, "{both:?}");
    assert!(!bath(&[(Substance::PotashAlum, 100.0)], 1.0).fizzes);
    assert_eq!(bath(&[(Substance::SodaAsh, 10.6)], 1.0).gas_litres, 0.0);
}

#[test]
fn what_cannot_be_reckoned_with_is_named() {
    let found = bath(
        &[(Substance::FerrousSulfate7, 2.0), (Substance::CreamOfTartar, 2.0)],
        1.0,
    );
    assert_eq!(found.not_counted, [Substance::FerrousSulfate7]);
    assert!(found.ph.is_some());

    assert_eq!(bath(&[(Substance::FerrousSulfate7, 2.0)], 1.0).ph, None);
    assert_eq!(bath(&[], 1.0).ph, None);
    assert_eq!(bath(&[(Substance::PotashAlum, 2.0)], 0.0).ph, None);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]
    #[test]
    fn any_bath_has_a_band_in_the_range_of_strips(
        items in prop::collection::vec((0usize..Substance::ALL.len(), 0.0f64..500.0), 0..5), litres in 0.0f64..100.0,
    ) {
        let additions: Vec<_> = items.iter().map(|(place, grams)| (Substance::ALL[*place], *grams)).collect();
        let found = bath(&additions, litres);
        prop_assert!(found.gas_litres.is_finite() && found.gas_litres >= 0.0);
        if let Some(band) = found.ph {
            prop_assert!(band.low < band.likely && band.likely < band.high);
            prop_assert!(band.low > -1.5 && band.high < 15.5, "{band:?}");
        }
    }
}
