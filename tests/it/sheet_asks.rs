//! What a sheet answers beyond the grams: the weight that counts, the shelf's salts, scales, pressures, heat, cautions.

use crate::support::sheets::{addition, grams_of, kinds, refusals, sheet, sheet_with, warnings, wishes_for};
use potside::craft::basis::WeighedAs;
use potside::craft::fibre::Fibre;
use potside::craft::heat::PotKnowledge;
use potside::craft::learn::Learned;
use potside::craft::quantity::{Altitude, Length, Mass, Power, Pressure, Temperature, Volume};
use potside::craft::salts::{AluminiumLabel, OnShelf};
use potside::craft::scale::Weighing;
use potside::craft::substance::Substance;
use potside::craft::vessel::{Lid, Place};
use potside::recipe::model::{Act, Letter, Offered};
use potside::recipe::{book, read};
use potside::sheet::plan::{StepAct, StepKind};
use potside::sheet::{SheetRefusal, compute};
use std::sync::Arc;

// ASTM D1909-13: wool regains 13.6 % of its oven-dry weight.
#[test]
fn oven_dry_wool_counts_with_its_regain_and_both_weights_are_told() {
    let sheet = sheet_with("alum-only", "100g", |wishes| {
        wishes.weighed_as = WeighedAs::OvenDry;
    });

    assert!((sheet.plan.goods.dry.grams() - 113.6).abs() < 1e-9);
    assert!((grams_of(&sheet, 'A') - 0.15 * 113.6).abs() < 1e-9);
    assert!(
        warnings(&sheet).contains("100.0 g oven-dry") && warnings(&sheet).contains("113.6 g air-dry counts")
    );
    assert_eq!(sheet.basis.unwrap().as_weighed.grams(), 100.0);
    assert_eq!(sheet.wishes.goods.dry.grams(), 100.0, "what was read stays");
}

#[test]
fn an_impossible_state_of_the_goods_is_refused() {
    let damp = sheet_with("alum-only", "100g", |wishes| {
        wishes.weighed_as = WeighedAs::Damp {
            water_percent: f64::NAN,
        };
    });
    let spun = sheet_with("alum-only", "100g", |wishes| {
        wishes.goods.fibre = Fibre::Alpaca;
        wishes.weighed_as = WeighedAs::Spun;
    });

    assert!(matches!(damp.refusals[..], [SheetRefusal::WeightBasis { .. }]));
    assert!(refusals(&spun).contains("spun alpaca"));
}

// 333.2 g of aluminium sulfate 18-hydrate (666.42 / 2) bring the aluminium of 474.39 g of potash alum:
// molar masses by three libraries, `molar_masses.csv`.
#[test]
fn the_shelfs_salt_goes_in_for_the_recipes_and_both_are_shown() {
    let sheet = sheet_with("alum-tartar-studio", "100g", |wishes| {
        wishes
            .shelf
            .insert(Letter('A'), OnShelf::Known(Substance::AluminiumSulfate18));
    });

    let planned = addition(&sheet, 'A');
    let exchange = sheet.beside[0].exchange.as_ref().unwrap();
    assert!((planned.target.grams() / (15.0 * 666.42 / 2.0 / 474.39) - 1.0).abs() < 1e-3);
    assert_eq!(
        planned.ware_id, "aluminium-sulfate-18h2o",
        "the record keeps which went in"
    );
    assert_eq!(exchange.recipe_amount.grams(), 15.0);
    assert!(warnings(&sheet).contains("recipe: 15.00 g alum (potash); shelf: 10.54 g"));
    assert!(
        sheet.plan.cautions[0].contains("goggles"),
        "cautions are of what goes in"
    );
    assert_eq!(grams_of(&sheet, 'B'), 6.0);
}

#[test]
fn a_label_stands_for_the_recipes_salt_by_its_aluminium() {
    let label = AluminiumLabel::percent_alumina(17.0).unwrap();
    let sheet = sheet_with("alum-only", "100g", |wishes| {
        wishes.shelf.insert(Letter('A'), OnShelf::Label(label));
    });

    // Al2O3 101.961, two Al in it; alum 474.39 with one.
    let expected = 15.0 / 474.39 * 101.961 / 2.0 / 0.17;
    assert!((grams_of(&sheet, 'A') / expected - 1.0).abs() < 1e-3);
    assert_eq!(sheet.beside[0].spoons, None);
}

#[test]
fn a_salt_that_is_not_the_same_thing_is_refused() {
    let with = |letter, salt| {
        sheet_with("alum-only", "100g", |wishes| {
            wishes.shelf.insert(Letter(letter), OnShelf::Known(salt));
        })
    };

    assert!(refusals(&with('A', Substance::SodaAsh)).contains("addition A: soda ash can't stand for alum"));
    assert!(refusals(&with('B', Substance::SodaAlum)).contains("the recipe has no salt B; it has A"));
    assert_eq!(with('A', Substance::PotashAlum), {
        let mut same = sheet("alum-only", "100g");
        same.wishes
            .shelf
            .insert(Letter('A'), OnShelf::Known(Substance::PotashAlum));
        same
    });
}

/// Alder and iron on wool; the file names its book.
fn alder(goods: f64, step: f64) -> potside::sheet::BathSheet {
    let recipe = Arc::new(read(include_str!("../recipes/good/w20-alder.toml")).unwrap());
    let mut wishes = wishes_for(&recipe, Mass::from_grams(goods).unwrap());
    wishes.stove.scale_step = Mass::from_grams(step).unwrap();
    compute(&recipe, &wishes)
}

#[test]
fn nine_tenths_of_a_gram_of_iron_on_a_gram_scale_has_ways_out() {
    let whole_grams = alder(28.8, 1.0);
    let hundredths = alder(28.8, 0.01);

    let Weighing::TooLittle {
        stock: Some(stock),
        finer: Some(_),
    } = whole_grams.beside[1].weighing
    else {
        panic!("{:?}", whole_grams.beside[1]);
    };
    // The stock brings what was asked, by its own figures.
    let brought = stock.weigh.grams() / stock.make_up_to.litres() * stock.measure.litres();
    assert!((brought - 0.9).abs() < 1e-9, "{stock:?}");
    let said = warnings(&whole_grams);
    assert!(said.contains("0.90 g of iron"), "{said}");
    assert!(
        said.contains("is too little for a scale that shows 1.00 g: make a"),
        "{said}"
    );
    assert!(
        said.contains("or weigh it on a scale that shows 0.01 g"),
        "{said}"
    );
    assert!(matches!(hundredths.beside[1].weighing, Weighing::Well { .. }));
    assert!(!warnings(&hundredths).contains("too little"));
}

#[test]
fn a_stock_never_is_a_great_part_of_the_bath() {
    // Tartar dissolves so little in cold water that its stock would be as much as the bath.
    let sheet = sheet_with("alum-tartar-studio", "100g", |wishes| {
        wishes.stove.scale_step = Mass::from_grams(1.0).unwrap();
    });

    assert!(matches!(
        sheet.beside[1].weighing,
        Weighing::TooLittle {
            stock: None,
            finer: Some(_)
        }
    ));
}

#[test]
fn a_forecasts_pressure_is_caught_against_the_height() {
    let with = |hpa, height: Option<f64>| {
        sheet_with("alum-only", "100g", |wishes| {
            wishes.stove.place = Place::Station(Pressure::from_hectopascals(hpa).unwrap());
            wishes.height = height.map(|metres| Altitude::from_metres(metres).unwrap());
        })
    };

    assert!(warnings(&with(1_015.0, Some(1_500.0))).contains("reduced to sea level"));
    assert!(warnings(&with(1_015.0, None)).contains("only near sea level"));
    assert!(warnings(&with(700.0, Some(0.0))).contains("doesn't go with 0 m"));
    assert!(!warnings(&with(845.0, Some(1_500.0))).contains("hPa"));
    assert!(!warnings(&with(845.0, None)).contains("hPa"));
}

#[test]
fn ice_and_steam_are_no_water_to_fill_with() {
    for celsius in [-10.0, 110.0] {
        let sheet = sheet_with("alum-only", "100g", |wishes| {
            wishes.stove.tap = Temperature::from_celsius(celsius).unwrap();
        });

        assert!(refusals(&sheet).contains("is no water to fill with"), "{celsius}");
    }
}

#[test]
fn a_bath_that_never_gets_there_is_refused_with_ways_that_do() {
    let starved = |change: &dyn Fn(&mut potside::sheet::Wishes)| {
        sheet_with("alum-only", "250g", |wishes| {
            wishes.stove.lid = Lid::Off;
            wishes.stove.burner.power = Power::from_watts(300.0).unwrap();
            change(wishes);
        })
    };
    let sheet = starved(&|_| {});

    let said = refusals(&sheet);
    assert!(sheet.come_up.is_none());
    assert!(
        said.contains("can't bring the bath to 80 C: put the lid on loosely, or "),
        "{said}"
    );
    assert_eq!(sheet.refusals.len(), 1, "told once, for the hottest: {said}");
    // The ways told are ways out.
    let kilowatts: f64 = said
        .split("burner of ")
        .nth(1)
        .unwrap()
        .split(' ')
        .next()
        .unwrap()
        .parse()
        .unwrap();
    assert!(
        starved(&|wishes| wishes.stove.lid = Lid::Loose)
            .refusals
            .is_empty()
    );
    assert!(
        starved(&|wishes| wishes.stove.burner.power = Power::from_watts(kilowatts * 1_050.0).unwrap())
            .refusals
            .is_empty()
    );
}

#[test]
fn what_is_known_of_the_pot_moves_and_narrows_the_come_up() {
    let unknown = sheet("onion-skin", "100g");
    let known = sheet_with("onion-skin", "100g", |wishes| {
        wishes.learned = Learned::Known {
            knowledge: PotKnowledge::exactly(0.84, 1.0, 1.0),
            bath_count: 2,
        };
    });
    let width = |sheet: &potside::sheet::BathSheet| {
        let band = sheet
            .legs
            .iter()
            .zip(&sheet.plan.steps)
            .find_map(|(_, step)| match step.act {
                StepAct::Raise { come_up, .. } => come_up,
                _ => None,
            });
        let band = band.unwrap();
        band.high.minutes() - band.low.minutes()
    };

    assert!(
        width(&known) < 0.7 * width(&unknown),
        "{} {}",
        width(&known),
        width(&unknown)
    );
}

#[test]
fn cold_goods_bring_the_bath_down_as_the_heat_balance_says() {
    let sheet = sheet("alum-tartar-studio", "100g");
    let entering = sheet.entering.unwrap();

    // By hand: 2.8 kg water and about 1.6 kg steel (0.5 kJ/kg K) at 40 C; 0.1 kg wool (1.36) and its 0.2 kg water at 20 C.
    let hot = 2.8 * 4.18 + 1.6 * 0.5;
    let cold = 0.1 * 1.36 + 0.2 * 4.18;
    let mixed = (hot * 40.0 + cold * 20.0) / (hot + cold);
    assert_eq!(entering.from.celsius(), 40.0);
    assert!(
        (entering.drops_to.celsius() - mixed).abs() < 0.2,
        "{entering:?}, by hand {mixed}"
    );
    assert!(entering.recovery.is_some());
}

#[test]
fn a_hold_that_the_goods_bring_below_its_floor_starts_later_and_says_so() {
    // Enter hot goods' bath, then hold at once: the drop is made up first.
    let mut recipe = book::by_id("scour-wool").unwrap().clone();
    let entered = recipe
        .steps
        .iter()
        .position(|step| matches!(step.act, Act::Enter { .. }))
        .unwrap();
    let enter = recipe.steps.remove(entered);
    let held = recipe
        .steps
        .iter()
        .position(|step| matches!(step.act, Act::Hold { .. }))
        .unwrap();
    recipe.steps.insert(held, enter);
    for step in &mut recipe.steps {
        if let Act::Hold { floor, .. } = &mut step.act {
            floor.chosen = Temperature::from_celsius(54.5).unwrap();
        }
    }
    let recipe = Arc::new(recipe);
    let dry = Mass::from_grams(200.0).unwrap();
    let sheet = compute(&recipe, &wishes_for(&recipe, dry));

    let kinds = kinds(&sheet);
    let held = kinds.iter().position(|kind| *kind == StepKind::Hold).unwrap();
    assert_eq!(kinds[held - 2..held], [StepKind::Enter, StepKind::Raise]);
    assert!(
        warnings(&sheet).contains("it counts from when the bath is back"),
        "{}",
        warnings(&sheet)
    );
    assert_eq!(sheet.hold.unwrap().0.celsius(), 55.0);
}

#[test]
fn a_slow_raise_tells_the_setting_that_keeps_it_and_the_hold_needs_less() {
    let sheet = sheet("alum-tartar-studio", "100g");
    let [raise] = sheet.slow_raises[..] else {
        panic!("{:?}", sheet.slow_raises);
    };

    assert!(0.0 < raise.setting.start && raise.setting.start < raise.setting.end && raise.setting.end < 1.0);
    let hold = sheet.hold_setting.unwrap();
    assert!(hold.low <= hold.likely && hold.likely <= hold.high);
    assert!(hold.likely < raise.setting.end);
    // Left at the setting that kept the ramp, the bath goes on at the ramp.
    assert!((sheet.drift.unwrap() - raise.ramp.kelvin_per_minute()).abs() < 0.02);
}

#[test]
fn an_open_pot_is_topped_up_within_the_hold_and_a_puddle_steams_away() {
    let open = sheet_with("madder", "20g", |wishes| wishes.stove.lid = Lid::Off);
    let puddle = sheet_with("madder", "2g", |wishes| wishes.stove.lid = Lid::Off);
    let lidded = sheet_with("madder", "200g", |wishes| wishes.stove.lid = Lid::Tight);

    assert!(open.top_up_after.unwrap() < open.hold.unwrap().1);
    assert!(
        puddle
            .refusals
            .iter()
            .any(|one| matches!(one, SheetRefusal::SteamsAway { .. })),
        "{}",
        refusals(&puddle)
    );
    assert_eq!(lidded.top_up_after, None);
}

#[test]
fn goods_lifted_hot_are_warned_about_by_the_published_scald_times() {
    let mut recipe = book::by_id("alum-only").unwrap().clone();
    recipe.steps.retain(|step| !matches!(step.act, Act::Cool { .. }));
    let recipe = Arc::new(recipe);
    let hot = compute(&recipe, &wishes_for(&recipe, Mass::from_grams(100.0).unwrap()));
    let cool = sheet("alum-only", "100g");

    // Moritz and Henriques 1947, read in secondary tables: above 68 C about a second.
    assert!(
        warnings(&hot).contains("lifted at 80 C, where skin burns deep in about 1 s"),
        "{}",
        warnings(&hot)
    );
    let lift = hot
        .plan
        .steps
        .iter()
        .find(|step| step.act == StepAct::Lift)
        .unwrap();
    assert!(lift.caution.as_deref().unwrap().contains("never hands"));
    assert!(!warnings(&cool).contains("lifted"));
}

#[test]
fn tartar_that_a_cold_bath_lets_fall_out_is_told() {
    let mut recipe = book::by_id("alum-tartar-book").unwrap().clone();
    recipe.liquor.chosen = potside::craft::quantity::LiquorRatio::from_litres_per_kg(10.0).unwrap();
    recipe
        .steps
        .retain(|step| !matches!(&step.act, Act::Raise { to, .. } if to.chosen.celsius() < 50.0));
    let recipe = Arc::new(recipe);
    let mut wishes = wishes_for(&recipe, Mass::from_grams(100.0).unwrap());
    wishes.stove.tap = Temperature::from_celsius(10.0).unwrap();
    let cold = compute(&recipe, &wishes);
    let warm = sheet("alum-tartar-book", "100g");

    assert!(
        warnings(&cold).contains("6.2 g of cream of tartar may not stay dissolved in 1.0 L at 10 C"),
        "{}",
        warnings(&cold)
    );
    assert!(!warnings(&warm).contains("stay dissolved"));
}

#[test]
fn the_acidity_is_a_band_around_what_an_alum_bath_measures() {
    // British Pharmacopoeia: a 10 % solution of alum has pH 3.0 to 3.5; thinner baths are less sour.
    let ph = sheet("alum-only", "100g").acidity.unwrap().ph.unwrap();

    assert!(ph.low < 3.9 && ph.high > 3.5 && ph.high - ph.low < 1.2, "{ph:?}");
}

// The customs of recharging contradict (half, or a quarter): both are shown, none is chosen.
#[test]
fn the_next_bath_shows_every_custom() {
    let mordant = sheet("alum-only", "100g");
    let dye = sheet("madder", "100g");

    let added: Vec<f64> = mordant
        .next_baths
        .iter()
        .map(|next| next.doses[0].1.grams())
        .collect();
    assert_eq!(added, [7.5, 3.75]);
    assert_eq!(dye.next_baths[0].doses[0].1.grams(), 0.0);
    assert!(sheet("scour-wool", "100g").next_baths.is_empty());
}

#[test]
fn cautions_are_few_said_once_and_end_by_deferring() {
    for recipe in book::all() {
        let sheet = sheet(&recipe.id, "100g");
        let lines = &sheet.plan.cautions;

        let mut once = lines.clone();
        once.sort();
        once.dedup();
        assert_eq!(once.len(), lines.len(), "{}", recipe.id);
        // A metal salt brings three lines of its own, and the one on working outdoors.
        let is_metal = lines.iter().any(|line| line.starts_with("Iron, copper"));
        // What is only to be read is read with all of its hazards.
        let only_read = recipe.offered == Offered::ReferenceOnly;
        let most = if is_metal || only_read { 20 } else { 18 };
        assert!(lines.len() <= most, "{}: {} lines", recipe.id, lines.len());
        assert!(
            lines.last().unwrap().contains("safety data sheet"),
            "{}",
            recipe.id
        );
        let of_food = lines.iter().filter(|line| line.contains("back to food")).count();
        let of_drains = lines.iter().filter(|line| line.contains("storm drain")).count();
        assert!((of_food, of_drains) == (1, 1), "{}: {lines:#?}", recipe.id);
        assert!(
            !lines.iter().any(|line| line.starts_with("Superwash")),
            "these goods are plain wool"
        );
    }
}

#[test]
fn every_weighing_of_a_powder_says_what_to_wear_and_every_recipe_line_stays() {
    for recipe in book::all() {
        let sheet = sheet(&recipe.id, "100g");
        for step in &sheet.plan.steps {
            if let StepAct::Weigh { letter } = step.act
                && let Some(substance) = Substance::from_id(&addition(&sheet, letter.0).ware_id)
            {
                let marks = potside::craft::cautions::marks(substance);
                let said = step.caution.clone().unwrap_or_default();
                assert_eq!(said.contains("mask"), marks.mask, "{}: {said}", recipe.id);
                assert_eq!(said.contains("gloves"), marks.gloves, "{}: {said}", recipe.id);
            }
        }
        for line in recipe.steps.iter().filter_map(|step| step.caution.as_ref()) {
            assert!(
                sheet
                    .plan
                    .steps
                    .iter()
                    .any(|step| step.caution.as_ref() == Some(line)),
                "{line}"
            );
        }
    }
}

#[test]
fn iron_under_5_g_is_never_spooned() {
    let little = alder(100.0, 0.1);
    let more = alder(300.0, 0.1);

    let refused = little.beside[1].spoons.unwrap().unwrap_err();
    assert!(
        refused.to_string().contains("too little for a spoon"),
        "{refused}"
    );
    assert!(
        more.beside[1].spoons.as_ref().unwrap().is_ok(),
        "9.4 g may be, roughly"
    );
    assert_eq!(little.beside[0].spoons, None, "nobody spoons bark");
}

#[test]
fn no_goods_tiny_goods_and_far_too_many_are_answered_in_words() {
    let none = sheet("madder", "0g");
    let tiny = sheet_with("alum-only", "1g", |wishes| {
        wishes.stove.pot.diameter = Length::from_centimetres(5.0).unwrap();
        wishes.stove.pot.capacity = Volume::from_litres(0.1).unwrap();
    });
    let huge = sheet("alum-only", "50kg");

    assert_eq!(
        refusals(&none),
        "the goods weigh nothing; weigh them dry and enter the weight\n"
    );
    assert!(tiny.refusals.is_empty() && (grams_of(&tiny, 'A') - 0.15).abs() < 1e-12);
    assert!(
        refusals(&huge).contains("split the goods over 171 baths of 292.4 g each"),
        "{}",
        refusals(&huge)
    );
    assert!(
        !refusals(&huge).contains("L of water,"),
        "no way out that doesn't fit the pot"
    );
}
