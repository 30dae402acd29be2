//! Scours, mordants, tannins, fixing and after-baths of the book: their doses against the printed ones, and every one of
//! them computed and walked for each of its fibres, from a sample to two kilograms.

use std::sync::Arc;

use potside::craft::fibre::FibreFamily;
use potside::craft::quantity::{Length, Mass, Power, Volume};
use potside::craft::salts;
use potside::craft::substance::Substance;
use potside::craft::time::{Moment, Stretch};
use potside::craft::vessel::{Burner, BurnerKind, Pot, PotMetal};
use potside::machine::pot::Ended;
use potside::machine::{PotNo, rehearsal};
use potside::recipe::book;
use potside::recipe::model::{Act, BathKind, Dose, Offered, Recipe, Strength, Ware};
use potside::sheet::plan::StepKind;
use potside::sheet::{SheetRefusal, compute};

use crate::craft_tables::{number, rows};
use crate::support::sheets::{grams_of, kinds, refusals, sheet, wishes_for};

const START: Moment = Moment {
    stretch: Stretch(0),
    steady_ms: 0,
    wall_ms: 1_787_650_000_000,
};

/// All that this file answers for: everything but the dyes.
fn preparing() -> impl Iterator<Item = &'static Arc<Recipe>> {
    book::all().iter().filter(|recipe| recipe.kind != BathKind::Dye)
}

/// A pot in which so many goods have room, and a burner that brings it up.
fn pot_for(dry_grams: f64) -> (Pot, Burner) {
    let (litres, diameter, watts) = match dry_grams {
        grams if grams <= 20.0 => (2.0, 14.0, 1_000.0),
        grams if grams <= 100.0 => (6.0, 22.0, 2_000.0),
        grams if grams <= 350.0 => (20.0, 32.0, 3_000.0),
        _ => (110.0, 55.0, 9_000.0),
    };
    let pot = Pot {
        capacity: Volume::from_litres(litres).unwrap(),
        diameter: Length::from_centimetres(diameter).unwrap(),
        metal: PotMetal::Stainless,
    };
    let burner = Burner {
        kind: BurnerKind::Gas,
        power: Power::from_watts(watts).unwrap(),
    };
    (pot, burner)
}

#[test]
fn each_is_computed_and_walked_to_its_end_for_every_fibre_and_weight() {
    for recipe in preparing() {
        let recipe = Arc::clone(recipe);
        for fibre in recipe.fibres.clone() {
            for dry in [20.0, 100.0, 350.0, 2_000.0] {
                let mut wishes = wishes_for(&recipe, Mass::from_grams(dry).unwrap());
                wishes.goods.fibre = fibre;
                wishes.hazardous_metals = true;
                (wishes.stove.pot, wishes.stove.burner) = pot_for(dry);
                let sheet = compute(&recipe, &wishes);
                let who = format!("{}, {} g of {}", recipe.id, dry, fibre.id());

                match recipe.offered {
                    Offered::Freely | Offered::WhenAsked => assert_eq!(refusals(&sheet), "", "{who}"),
                    Offered::ReferenceOnly => assert!(
                        matches!(sheet.refusals[..], [SheetRefusal::ReferenceOnly { .. }]),
                        "{who}"
                    ),
                }

                let ended = rehearsal::play(&sheet.plan, START, |_, _| {})
                    .unwrap_or_else(|refusal| panic!("{who}: {refusal}"))
                    .pot(PotNo(1))
                    .unwrap()
                    .stand
                    .ended;
                assert_eq!(ended, Some(Ended::Closed), "{who}");
            }
        }
    }
}

/// Grams for 100 g of goods, as the named passage has them; ounces in the pound are 6.25 %.
#[test]
fn doses_are_the_printed_ones() {
    let printed: [(&str, char, f64); 16] = [
        // Ethel M. Mairet, A Book on Vegetable Dyes, 1916: madder 1, 8 and 2 oz to 100 oz; weld 5; madder 4; blacks.
        ("alum-tartar-low", 'A', 8.0),
        ("alum-tartar-low", 'B', 2.0),
        ("alum-low", 'A', 4.0),
        ("tannin-gall", 'A', 25.0),
        ("tannin-sumac", 'A', 35.0),
        // The same, fustic 8: 1 lb to the imperial gallon, 453.592 / 4.54609 g/L, here in 10 litres a kilogram.
        ("alum-silk-cold", 'A', 99.8),
        // Ethel M. Mairet, Vegetable Dyes, 1938: cotton, alum a quarter, soda crystals a quarter of that; silk, 2 to 8 oz
        // of soap to the pound, of which 4 oz is taken; boiling out; tannic acid 2 to 5.
        ("alum-soda", 'A', 25.0),
        ("alum-soda", 'B', 6.25),
        ("scour-raw-silk", 'A', 25.0),
        ("scour-cotton-book", 'A', 5.0),
        ("tannin-tannic-acid", 'A', 4.0),
        // Franklin Beech, The Dyeing of Cotton Fabrics, 1901: about 1 % pale, 3 to 4 % deep; tannin matters 20 to 25 %.
        ("tannin-tannic-acid-pale", 'A', 1.0),
        ("tannin-tannic-acid-deep", 'A', 3.0),
        ("tannin-myrobalan", 'A', 20.0),
        // The British Encyclopedia, Dyeing, after Bancroft: chalk 1 1/2 lb to 100 lb.
        ("after-chalk", 'A', 1.5),
        // Common practice, no source: iron usually 2 %.
        ("after-iron", 'A', 2.0),
    ];
    for (id, letter, grams) in printed {
        let sheet = sheet(id, "100g");
        assert!(
            (grams_of(&sheet, letter) - grams).abs() < 1e-9,
            "{id} {letter}: {}",
            grams_of(&sheet, letter)
        );
    }
}

/// What a figure calls published or partial names an author; what is practice or memory says so.
#[test]
fn every_source_says_what_it_is() {
    for recipe in preparing() {
        for source in &recipe.sources {
            let text = source.text.as_str();
            let is_well = match source.strength {
                Strength::Published => {
                    ["Mairet", "Beech", "British Encyclopedia", "Knecht"]
                        .iter()
                        .any(|author| text.contains(author))
                        && text.contains(|c: char| c.is_ascii_digit())
                }
                Strength::Partial => text.contains("part read"),
                Strength::Practice => text.starts_with("common practice, no source"),
                Strength::Memory => text.starts_with("from memory: "),
                Strength::Arithmetic => text.starts_with("arithmetic: "),
            };
            assert!(is_well, "{}: {:?} {text}", recipe.id, source.strength);
        }
    }
}

/// Tannin of each raw stuff, in parts of a hundred: Ethel M. Mairet, Vegetable Dyes, 1938, glossary and cotton
/// chapter; oak bark from memory. So much of it should bring what the tannic acid baths of the same book and of the
/// trade have, 2 to 8 % (2 to 5 printed, 8 common practice, no source).
#[test]
fn raw_tannins_bring_as_much_as_the_bought_one() {
    for (id, least, most) in [
        ("tannin-sumac", 15.0, 20.0),
        ("tannin-myrobalan", 25.0, 40.0),
        ("tannin-oak-bark", 8.0, 12.0),
    ] {
        let dose = grams_of(&sheet(id, "100g"), 'A');
        assert!(dose * least / 100.0 >= 2.0, "{id} is too weak");
        assert!(dose * most / 100.0 <= 8.0, "{id} is too strong");
    }
}

/// Against `stoichiometry.csv` and `molar_masses.csv`, which were computed outside the project.
#[test]
fn acetate_made_in_the_bath_holds_what_five_percent_of_the_bought_one_does() {
    let molar = |name: &str| {
        let mut rows = rows(include_str!("../tables/molar_masses.csv")).into_iter();
        let row = rows.find(|row| row[0].starts_with(name));
        number(&row.unwrap_or_else(|| panic!("no {name}"))[2])
    };
    let diacetate = 5.0 / molar("aluminium diacetate");
    let trihydrate = molar("sodium acetate trihydrate");
    for (id, aluminium, per_mole) in [
        ("alum-acetate-from-alum", "potash alum KAl", 1.0),
        ("alum-acetate-from-sulfate", "aluminium sulfate .18H2O", 2.0),
    ] {
        let sheet = sheet(id, "100g");
        let (salt, acetate) = (grams_of(&sheet, 'A'), grams_of(&sheet, 'B'));
        let salt_wanted = diacetate / per_mole * molar(aluminium);

        assert!(
            (salt / salt_wanted - 1.0).abs() < 1e-3,
            "{id}: {salt} for {salt_wanted}"
        );
        let acetate_wanted = 2.0 * diacetate * trihydrate;
        assert!(
            (acetate / acetate_wanted - 1.0).abs() < 1e-3,
            "{id}: {acetate} for {acetate_wanted}"
        );
    }
    // And the exchange the program itself offers says the same.
    let made = salts::acetate_in_bath(
        Substance::AluminiumDiacetate,
        Mass::from_grams(5.0).unwrap(),
        salts::OnShelf::Known(Substance::PotashAlum),
        Substance::SodiumAcetateTrihydrate,
    )
    .unwrap();
    let sheet = sheet("alum-acetate-from-alum", "100g");
    assert!((made.acetate_amount.grams() / grams_of(&sheet, 'B') - 1.0).abs() < 1e-3);
}

/// Common practice, no source: iron 1 to 4 %, 5 to 20 minutes, never left in overnight; above that the fibre suffers.
#[test]
fn iron_is_little_short_and_never_overnight() {
    let mut seen = 0;
    let after_baths = preparing().filter(|recipe| recipe.kind == BathKind::AfterBath);
    for recipe in after_baths.filter(|recipe| recipe.offered == Offered::Freely) {
        for addition in &recipe.additions {
            let (Ware::Substance(Substance::FerrousSulfate7), Dose::Wof(dose)) =
                (&addition.ware, &addition.dose)
            else {
                continue;
            };
            seen += 1;
            assert!(dose.chosen.percent() <= 4.0 && dose.range.unwrap().1.percent() <= 4.0);
            let mut goods_in = false;
            let mut minutes = 0.0;
            for step in &recipe.steps {
                match &step.act {
                    Act::Enter { .. } => goods_in = true,
                    Act::Lift => goods_in = false,
                    Act::Hold { span, .. } | Act::Rest { span } if goods_in => {
                        minutes += span.chosen.minutes();
                        assert!(span.range.unwrap().1.minutes() <= 20.0, "{}", recipe.id);
                    }
                    Act::Cool { .. } => assert!(!goods_in, "{}: cools with goods in iron", recipe.id),
                    _ => {}
                }
            }
            assert!((5.0..=20.0).contains(&minutes), "{}: {minutes} min", recipe.id);
            assert!(recipe.about.contains("never overnight"), "{}", recipe.id);
        }
    }
    assert!(seen >= 2);
}

/// Acid takes the mordant off cotton: Catharine Ellis, The effect of pH on yellow dyes from the garden, 2020. Tartar
/// isn't used on plant fibre: common practice, no source.
#[test]
fn no_acid_bath_is_for_plant_fibre_and_no_mordant_of_it_lacks_its_alkali_or_acetate() {
    for recipe in preparing() {
        let has = |wanted: &[Substance]| {
            recipe
                .additions
                .iter()
                .any(|addition| matches!(&addition.ware, Ware::Substance(it) if wanted.contains(it)))
        };
        let is_for_plants = recipe
            .fibres
            .iter()
            .any(|fibre| fibre.family() == FibreFamily::Plant);
        let acids = [
            Substance::CreamOfTartar,
            Substance::TartaricAcid,
            Substance::CitricAcid,
            Substance::CitricAcidMonohydrate,
            Substance::Vinegar,
        ];
        assert!(!(is_for_plants && has(&acids)), "{}", recipe.id);
        if is_for_plants && has(&[Substance::PotashAlum, Substance::AluminiumSulfate18]) {
            let tamed = [
                Substance::SodaCrystals,
                Substance::SodaAsh,
                Substance::SodiumAcetateTrihydrate,
            ];
            assert!(has(&tamed), "{}", recipe.id);
        }
    }
}

/// Silk: alum cold or the lustre goes (John Marquart, Six Hundred Receipts, 1867, p. 84); lower temperatures than
/// wool (Mairet 1938). Alpaca and mohair about 80 C, never boiling: common practice, no source.
#[test]
fn silk_alpaca_and_mohair_are_mordanted_cooler_than_wool() {
    for (id, most) in [
        ("alum-silk-warm", 60.0),
        ("alum-alpaca", 85.0),
        ("alum-mohair", 85.0),
    ] {
        let recipe = book::by_id(id).unwrap();
        for step in &recipe.steps {
            if let Act::Hold { ceiling, .. } = &step.act {
                assert!(ceiling.chosen.celsius() <= most, "{id}");
            }
        }
    }
    assert!(
        !kinds(&sheet("alum-cold", "100g")).contains(&StepKind::Raise),
        "cold"
    );
    for leg in &sheet("alum-silk-cold", "100g").legs {
        assert!(leg.to.celsius() <= 30.0, "lukewarm at most");
    }
}

/// The tag, the spoon and the fizz: what a dyer would miss.
#[test]
fn soda_goes_in_after_alum_in_a_step_of_its_own_that_warns() {
    for id in ["alum-soda", "alum-three-bath-1", "alum-three-bath-3"] {
        let recipe = book::by_id(id).unwrap();
        let adds: Vec<_> = recipe
            .steps
            .iter()
            .filter_map(|step| match &step.act {
                Act::Add { letters } => Some((letters.clone(), step.caution.clone().unwrap_or_default())),
                _ => None,
            })
            .collect();
        assert_eq!(adds.len(), 2, "{id}");
        assert_eq!((adds[0].0[0].0, adds[1].0[0].0), ('A', 'B'), "{id}");
        assert!(adds[1].1.contains("fizzes"), "{id}");
    }
}

/// Ethel M. Mairet, A Book on Vegetable Dyes, 1916, vat 6: 1 lb indigo, 12 imperial gallons, 2 lb copperas, 3 lb slaked
/// lime. Knecht, Rawson and Loewenthal, A Manual of Dyeing, 1920, vol. 1 p. 317: 16 lb of indigo paste, 8 lb zinc, the lime of
/// 20 lb quicklime, about 30 gallons; slaked lime 74.092 and quicklime 56.077 g/mol by CIAAW weights. Fructose vat: 1, 2, 3,
/// common practice, no source.
#[test]
fn vats_have_their_printed_parts() {
    const POUND: f64 = 453.592_37;
    const GALLON: f64 = 4.546_09;
    let slaked_lime = 20.0 * 74.092 / 56.077;
    for (id, printed) in [
        ("vat-iron", [POUND / (12.0 * GALLON), 2.0, 3.0]),
        (
            "vat-zinc",
            [16.0 * POUND / (30.0 * GALLON), 8.0 / 16.0, slaked_lime / 16.0],
        ),
        ("vat-fructose", [2.0, 2.0, 3.0]),
    ] {
        let sheet = sheet(id, "100g");
        let [indigo, second, third] = ['A', 'B', 'C'].map(|letter| grams_of(&sheet, letter));
        let got = [indigo / sheet.plan.bath.litres(), second / indigo, third / indigo];
        for (got, printed) in got.into_iter().zip(printed) {
            assert!((got / printed - 1.0).abs() < 1e-3, "{id}: {got} for {printed}");
        }
    }
}

/// Strong alkali damages wool and silk: Mairet, Vegetable Dyes, 1938; King County hazardous-waste programme. Dips warmer
/// than 50 C would loosen the blue and scald: common practice, no source.
#[test]
fn vats_are_for_plant_fibre_and_dipped_no_hotter_than_hands_in_gloves_bear() {
    let mut dips = 0;
    for recipe in preparing().filter(|recipe| recipe.kind == BathKind::Vat) {
        assert!(
            recipe
                .fibres
                .iter()
                .all(|fibre| fibre.family() == FibreFamily::Plant)
        );
        let mut looked = false;
        for step in &recipe.steps {
            match &step.act {
                Act::Look { .. } => looked = true,
                Act::Dip { at_most, .. } => {
                    assert!(looked, "{}: dipped before anyone looked", recipe.id);
                    assert!(at_most.chosen.celsius() <= 50.0, "{}", recipe.id);
                    assert!(step.caution.is_some() || recipe.offered == Offered::ReferenceOnly);
                    dips += 1;
                }
                _ => {}
            }
        }
    }
    assert!(dips >= 5);
}
