//! The whole space of sheets: whatever is asked, every number is a number, bands are in order, refusals say why.

use potside::craft::basis::WeighedAs;
use potside::craft::fibre::Fibre;
use potside::craft::heat::PotKnowledge;
use potside::craft::learn::Learned;
use potside::craft::quantity::{Altitude, Band, Length, Mass, Power, Pressure, Temperature, Volume};
use potside::craft::salts::OnShelf;
use potside::craft::substance::Substance;
use potside::craft::time::{Moment, Span, Stretch};
use potside::craft::vessel::{Burner, BurnerKind, Lid, Place, Pot, PotMetal};
use potside::recipe::book;
use potside::recipe::model::{Letter, Recipe};
use potside::sheet::plan::{Goods, StepAct};
use potside::sheet::{BathSheet, SheetRefusal, StovePlace, Wishes, compute};
use potside::view::{sheet_json, sheet_text};
use proptest::prelude::*;
use proptest::sample::select;
use std::sync::Arc;

/// Numbers over several powers of ten, as kitchens and mistakes have them.
fn spread(low: f64, high: f64) -> impl Strategy<Value = f64> {
    (low.ln()..high.ln()).prop_map(f64::exp)
}

fn dry() -> impl Strategy<Value = Mass> {
    prop_oneof![
        1 => Just(0.0),
        9 => spread(0.01, 1_000_000.0),
        9 => spread(10.0, 2_000.0),
    ]
    .prop_map(Mass::saturating_grams)
}

fn pot() -> impl Strategy<Value = Pot> {
    (
        spread(0.1, 200.0),
        spread(4.0, 100.0),
        select(PotMetal::ALL.to_vec()),
    )
        .prop_map(|(litres, centimetres, metal)| Pot {
            capacity: Volume::saturating_litres(litres),
            diameter: Length::saturating_centimetres(centimetres),
            metal,
        })
}

fn place() -> impl Strategy<Value = Place> {
    prop_oneof![
        (-430.0..6_000.0).prop_map(|metres| Place::Altitude(Altitude::saturating_metres(metres))),
        (450.0..1_100.0).prop_map(|hpa| Place::Station(Pressure::saturating_hectopascals(hpa))),
    ]
}

fn stove() -> impl Strategy<Value = StovePlace> {
    let burner =
        (select(BurnerKind::ALL.to_vec()), spread(1.0, 100_000.0)).prop_map(|(kind, watts)| Burner {
            kind,
            power: Power::saturating_watts(watts),
        });
    let celsius = |low: f64, high: f64| (low..high).prop_map(Temperature::saturating_celsius);
    (
        pot(),
        burner,
        select(Lid::ALL.to_vec()),
        place(),
        prop_oneof![9 => celsius(0.0, 60.0), 1 => celsius(-30.0, 130.0)],
        prop_oneof![9 => celsius(0.0, 40.0), 1 => celsius(-30.0, 130.0)],
        prop_oneof![
            Just(0.0),
            Just(1.0),
            Just(0.1),
            Just(0.01),
            spread(0.001, 1_000.0)
        ],
    )
        .prop_map(|(pot, burner, lid, place, tap, room, step)| StovePlace {
            pot,
            burner,
            lid,
            place,
            tap,
            room,
            scale_step: Mass::saturating_grams(step),
        })
}

fn weighed_as() -> impl Strategy<Value = WeighedAs> {
    prop_oneof![
        4 => Just(WeighedAs::AirDry),
        1 => Just(WeighedAs::OvenDry),
        1 => Just(WeighedAs::Spun),
        1 => any::<f64>().prop_map(|water_percent| WeighedAs::Damp { water_percent }),
        1 => (0.0..600.0).prop_map(|water_percent| WeighedAs::Damp { water_percent }),
        1 => (-10.0..100.0).prop_map(|loss_percent| WeighedAs::InTheGrease { loss_percent }),
    ]
}

fn asked() -> impl Strategy<Value = (Arc<Recipe>, Wishes)> {
    let recipe = select(book::all().to_vec());
    let shelf = proptest::collection::btree_map(
        select(vec![Letter('A'), Letter('B'), Letter('Z')]),
        select(Substance::ALL.to_vec()).prop_map(OnShelf::Known),
        0..2,
    );
    let learned = proptest::option::of((0.01..1.0, 0.1..10.0, 0.1..10.0)).prop_map(|factors| {
        factors.map_or(Learned::NotYet { bath_count: 1 }, |(one, two, three)| {
            Learned::Known {
                knowledge: PotKnowledge::exactly(one, two, three),
                bath_count: 3,
            }
        })
    });
    let height = proptest::option::of((-430.0..6_000.0).prop_map(Altitude::saturating_metres));
    (
        recipe,
        (select(Fibre::ALL.to_vec()), any::<bool>(), dry()),
        stove(),
        weighed_as(),
        shelf,
        height,
        learned,
    )
        .prop_map(
            |(recipe, (other, is_other, dry), stove, weighed_as, shelf, height, learned)| {
                let fibre = if is_other { other } else { recipe.fibres[0] };
                let goods = Goods {
                    fibre,
                    dry,
                    hanks: 1,
                    lot: None,
                };
                let wishes = Wishes {
                    weighed_as,
                    shelf,
                    height,
                    learned,
                    ..Wishes::new(goods, stove)
                };
                (recipe, wishes)
            },
        )
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn a_sheet_of_anything_is_whole((recipe, wishes) in asked()) {
        let sheet = compute(&recipe, &wishes);

        numbers_are_numbers(&sheet);
        bands_are_in_order(&sheet);
        legs_follow_one_another(&sheet);
        refusals_say_why(&sheet);
        prop_assert_eq!(sheet.beside.len(), sheet.plan.additions.len());
        prop_assert_eq!(sheet.legs.len(), sheet.plan.steps.len());
    }

    #[test]
    fn a_sheet_of_anything_prints((recipe, wishes) in asked()) {
        let sheet = compute(&recipe, &wishes);
        let start = Moment { stretch: Stretch(0), steady_ms: 0, wall_ms: 32_400_000 };
        let utc = chrono::FixedOffset::east_opt(0).unwrap();

        let text = sheet_text::text(&sheet, start, utc);
        let json = sheet_json::json(&sheet, start, utc);

        prop_assert!(!text.contains("NaN") && !text.contains("inf "));
        for line in text.lines() {
            prop_assert!(line.chars().count() <= 100, "too wide: {}", line);
        }
        // A number that isn't one would have become null.
        for working in json["workings"].as_array().unwrap() {
            prop_assert!(working["result"]["value"].is_f64(), "{}", working);
        }
    }
}

/// Every number of the sheet is printed here, wherever it stands.
fn numbers_are_numbers(sheet: &BathSheet) {
    let mut told = sheet.clone();
    // What the dyer typed may be no number; what was computed from it must be.
    told.wishes.weighed_as = WeighedAs::AirDry;
    told.refusals
        .retain(|refusal| !matches!(refusal, SheetRefusal::WeightBasis { .. }));
    let told = format!("{told:?}");
    let odd = told
        .split(|letter: char| !letter.is_ascii_alphanumeric())
        .find(|word| matches!(*word, "NaN" | "inf"));
    assert_eq!(odd, None, "{told}");
    assert!(sheet.fill_fraction >= 0.0);
    assert_eq!(sheet.evaporation.is_some(), sheet.hold.is_some());
    if let Some(lost) = sheet.evaporation {
        assert!(lost.still >= 0.0 && lost.still <= lost.stirred, "{lost:?}");
    }
}

fn bands_are_in_order(sheet: &BathSheet) {
    let steps = sheet.plan.steps.iter().flat_map(|step| {
        let computed = match step.act {
            StepAct::Raise { come_up, .. } => come_up,
            StepAct::Cool { cool_down, .. } => cool_down,
            _ => None,
        };
        computed.into_iter().chain([step.usual])
    });
    let legs = sheet.legs.iter().flat_map(|leg| [leg.begins, leg.ends]);
    let entering = sheet.entering.and_then(|entering| entering.recovery);
    let all = steps
        .chain(legs)
        .chain(sheet.come_up)
        .chain(entering)
        .chain(sheet.cool.into_iter().flatten());
    for band in all {
        assert!(is_in_order(band), "{band:?}");
    }
    let marks: Vec<Band<Span>> = sheet.cool.into_iter().flatten().collect();
    for pair in marks.windows(2) {
        assert!(
            pair[0].likely <= pair[1].likely,
            "a cooler mark is reached later: {marks:?}"
        );
    }
    for setting in sheet
        .hold_setting
        .into_iter()
        .chain(sheet.acidity.iter().filter_map(|one| one.ph))
    {
        assert!(
            setting.low <= setting.likely && setting.likely <= setting.high,
            "{setting:?}"
        );
    }
}

fn is_in_order(band: Band<Span>) -> bool {
    band.low <= band.likely && band.likely <= band.high
}

fn legs_follow_one_another(sheet: &BathSheet) {
    for leg in &sheet.legs {
        assert!(leg.begins.likely <= leg.ends.likely, "{leg:?}");
    }
    for pair in sheet.legs.windows(2) {
        assert_eq!(pair[0].to, pair[1].from, "the bath doesn't jump between steps");
        assert!(pair[0].begins.likely <= pair[1].begins.likely);
        assert_eq!(pair[0].step.0 + 1, pair[1].step.0);
    }
}

fn refusals_say_why(sheet: &BathSheet) {
    let has = |which: fn(&SheetRefusal) -> bool| sheet.refusals.iter().any(which);
    let never = sheet
        .plan
        .steps
        .iter()
        .any(|step| matches!(step.act, StepAct::Raise { come_up: None, .. }));
    assert_eq!(
        has(|one| matches!(one, SheetRefusal::PotTooSmall { .. })),
        sheet.fill_fraction > 0.80
    );
    assert_eq!(
        has(|one| matches!(one, SheetRefusal::NoGoods)),
        sheet.plan.goods.dry.grams() <= 0.0
    );
    assert_eq!(
        has(|one| matches!(one, SheetRefusal::NeverGetsThere { .. })),
        never
    );
    assert_eq!(
        has(|one| matches!(one, SheetRefusal::FibreNotForRecipe { .. })),
        !sheet.recipe.fibres.contains(&sheet.plan.goods.fibre)
    );
    let tap = sheet.wishes.stove.tap;
    assert_eq!(
        has(|one| matches!(one, SheetRefusal::NoLiquidWater { .. })),
        tap.celsius() < 0.0 || tap >= sheet.plan.boil
    );
    for line in sheet
        .refusals
        .iter()
        .map(ToString::to_string)
        .chain(sheet.warnings.iter().map(ToString::to_string))
    {
        assert!(
            !line.is_empty() && !line.contains('\n') && !line.ends_with(": "),
            "{line:?}"
        );
    }
}
