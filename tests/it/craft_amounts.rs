//! The scale, the weight that counts, and the next bath.

use potside::craft::basis::{self, BasisFault, WeighedAs};
use potside::craft::exhaust::{self, NoNextBath, ParentBath};
use potside::craft::fibre::Fibre;
use potside::craft::quantity::Mass;
use potside::craft::scale::{self, ScaleStep, Weighing};
use potside::craft::substance::Substance;
use proptest::prelude::*;

fn grams(grams: f64) -> Mass {
    Mass::from_grams(grams).unwrap()
}

#[test]
fn a_scale_of_whole_grams_cannot_weigh_nine_tenths_of_iron() {
    let weighing = scale::weighing(Some(Substance::FerrousSulfate7), grams(0.9), ScaleStep::Gram);

    let Weighing::TooLittle {
        stock: Some(stock),
        finer,
    } = weighing
    else {
        panic!("{weighing:?}");
    };
    // 20 g in 1 L is 2 %, and 45 mL of it hold 0.9 g.
    assert_eq!(stock.percent, 2.0);
    assert_eq!(stock.weigh.grams(), 20.0);
    assert!((stock.make_up_to.litres() - 1.0).abs() < 1e-12);
    assert!((stock.measure.litres() - 0.045).abs() < 1e-12);
    assert_eq!(finer, Some(ScaleStep::Hundredth));
}

#[test]
fn the_step_decides_how_well_a_target_is_weighed() {
    let alum = |target, step| scale::weighing(Some(Substance::PotashAlum), grams(target), step);

    assert_eq!(
        alum(31.25, ScaleStep::Gram),
        Weighing::Well {
            dial: grams(31.0),
            tolerance: grams(1.0)
        }
    );
    assert_eq!(
        alum(250.0, ScaleStep::Tenth),
        Weighing::Well {
            dial: grams(250.0),
            tolerance: grams(5.0)
        }
    );
    assert_eq!(
        alum(1.041_666, ScaleStep::Hundredth),
        Weighing::Well {
            dial: grams(1.04),
            tolerance: grams(0.020_833_32)
        }
    );
    assert!(matches!(
        alum(8.0, ScaleStep::Gram),
        Weighing::Coarsely { stock: Some(_), .. }
    ));
    assert!(matches!(
        alum(0.0, ScaleStep::Hundredth),
        Weighing::TooLittle {
            stock: None,
            finer: None
        }
    ));
    // Chalk doesn't dissolve, so no stock of it is offered; a plant has none either.
    assert_eq!(
        scale::weighing(Some(Substance::Chalk), grams(0.5), ScaleStep::Gram),
        Weighing::TooLittle {
            stock: None,
            finer: Some(ScaleStep::Hundredth)
        }
    );
    assert!(matches!(
        scale::weighing(None, grams(2.0), ScaleStep::Gram),
        Weighing::TooLittle { stock: None, .. }
    ));
}

/// Cream of tartar: 0.53 g in 100 g of cold water (table), so a stock is 0.2 % at most with the margin of one half.
#[test]
fn a_stock_is_never_stronger_than_cold_water_takes() {
    let stock = scale::stock_solution(Substance::CreamOfTartar, grams(0.5), ScaleStep::Gram).unwrap();

    assert_eq!(stock.percent, 0.2);
}

proptest! {
    #[test]
    fn a_stock_brings_exactly_the_target(target in 0.001f64..50.0, step in 0usize..3, place in 0usize..Substance::ALL.len()) {
        if let Some(stock) = scale::stock_solution(Substance::ALL[place], grams(target), ScaleStep::ALL[step]) {
            let brought = stock.measure.litres() * 1_000.0 * stock.percent / 100.0;
            prop_assert!((brought - target).abs() < 1e-9);
            let strength = stock.weigh.grams() / (stock.make_up_to.litres() * 1_000.0) * 100.0;
            prop_assert!((strength - stock.percent).abs() < 1e-9);
            prop_assert!(stock.measure.litres() >= 0.02 - 1e-12);
            prop_assert!(stock.measure.litres() <= stock.make_up_to.litres() + 1e-12);
            prop_assert!(ScaleStep::ALL[step].grams() <= 0.05 * stock.weigh.grams() + 1e-12);
        }
    }
}

/// ASTM D1909-13 as quoted in Bioresources and Bioprocessing 2020, table 10: wool 13.6, silk 11, cotton 8.5, flax 12,
/// hemp 12; and so 100 g air-dry hold 88.0, 90.1, 92.2, 89.3, 89.3 g bone-dry.
#[test]
fn regain_is_the_standards_and_bone_dry_goods_gain_it() {
    for (fibre, regain, bone_dry) in [
        (Fibre::Wool, 13.6, 88.0),
        (Fibre::Silk, 11.0, 90.1),
        (Fibre::Cotton, 8.5, 92.2),
        (Fibre::Linen, 12.0, 89.3),
        (Fibre::Hemp, 12.0, 89.3),
    ] {
        assert_eq!(basis::regain_percent(fibre), regain);
        let found = basis::basis(fibre, grams(bone_dry), WeighedAs::OvenDry).unwrap();
        assert!(
            (found.air_dry.likely.grams() - 100.0).abs() < 0.06,
            "{fibre:?} {found:?}"
        );
        assert!(found.is_corrected());
    }
}

#[test]
fn the_weight_that_counts_is_shown_beside_the_one_read() {
    let shown = |fibre, read, weighed_as| basis::basis(fibre, grams(read), weighed_as).unwrap().to_string();

    assert_eq!(
        shown(Fibre::Wool, 100.0, WeighedAs::AirDry),
        "100.0 g as weighed, air-dry: counts as it is"
    );
    assert_eq!(
        shown(Fibre::Cotton, 200.0, WeighedAs::OvenDry),
        "200.0 g oven-dry takes up 8.5 % of moisture: 217.0 g air-dry counts"
    );
    // 284 / 2 x 1.136: twice its own dry weight on the scale.
    assert_eq!(
        shown(Fibre::Wool, 284.0, WeighedAs::Damp { water_percent: 100.0 }),
        "284.0 g with 100 % of water dries to 13.6 %: 161.3 g air-dry counts"
    );
    // A fifth washes out: Mairet 1916.
    assert_eq!(
        shown(Fibre::Wool, 500.0, WeighedAs::InTheGrease { loss_percent: 20.0 }),
        "500.0 g in the grease loses 20 %: 400.0 g scoured counts; weigh it again after"
    );
    let spun = basis::basis(Fibre::Cotton, grams(150.0), WeighedAs::Spun).unwrap();
    assert!(spun.air_dry.low.grams() < spun.air_dry.likely.grams());
    assert!(spun.air_dry.likely.grams() < spun.air_dry.high.grams());
}

#[test]
fn a_percentage_that_goods_cannot_have_is_refused() {
    let refused = |fibre, weighed_as| basis::basis(fibre, grams(100.0), weighed_as).unwrap_err();

    assert_eq!(
        refused(Fibre::Wool, WeighedAs::Damp { water_percent: -1.0 }),
        BasisFault::Water { percent: -1.0 }
    );
    assert_eq!(
        refused(Fibre::Wool, WeighedAs::InTheGrease { loss_percent: 100.0 }),
        BasisFault::Loss { percent: 100.0 }
    );
    assert_eq!(
        refused(Fibre::Hemp, WeighedAs::Spun).to_string(),
        "how much water spun hemp holds is not known; dry it, or state its water"
    );
    assert!(
        basis::basis(
            Fibre::Wool,
            grams(1.0),
            WeighedAs::Damp {
                water_percent: f64::NAN
            }
        )
        .is_err()
    );
}

/// Beech 1901: tannic acid 3 % for the first lot, and half to three quarters of it for the next: 1.5 to 2.25 %.
#[test]
fn a_tannin_bath_is_topped_up_as_beech_says() {
    let [custom] = exhaust::recharges(ParentBath::Tannin) else {
        panic!("one custom");
    };
    let add = |fraction| {
        exhaust::next_dose(1, grams(30.0), grams(1_000.0), grams(1_000.0), fraction)
            .unwrap()
            .add
            .grams()
    };

    assert!((add(custom.least) - 15.0).abs() < 1e-9 && (add(custom.most) - 22.5).abs() < 1e-9);
}

#[test]
fn customs_that_contradict_are_the_dyers_choice() {
    assert!(exhaust::contradict(exhaust::recharges(ParentBath::Alum)));
    assert!(!exhaust::contradict(exhaust::recharges(ParentBath::Tannin)));
    assert!(!exhaust::contradict(exhaust::recharges(ParentBath::Dye)));
}

#[test]
fn goods_beyond_the_parents_get_the_whole_dose() {
    let next = |goods, fraction| exhaust::next_dose(1, grams(75.0), grams(500.0), grams(goods), fraction);

    // 15 % on 500 g was 75 g. Half of it on 500 g more is 37.5 g; 200 g beyond that get 15 %, 30 g.
    assert!((next(700.0, 0.5).unwrap().add.grams() - 67.5).abs() < 1e-9);
    assert!((next(700.0, 0.5).unwrap().full_dose.grams() - 105.0).abs() < 1e-9);
    assert!((next(200.0, 0.5).unwrap().add.grams() - 15.0).abs() < 1e-9);
    assert_eq!(next(200.0, 0.5).unwrap().dip, 2);
    assert_eq!(next(200.0, 1.5), Err(NoNextBath::NotAPart { fraction: 1.5 }));
    assert_eq!(
        exhaust::next_dose(1, grams(75.0), grams(0.0), grams(1.0), 0.5),
        Err(NoNextBath::ParentWithoutGoods)
    );
}
