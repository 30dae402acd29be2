//! Bath sheets against the trade: facts that every dyer would expect, published worked examples, boil and hold by height.

use crate::craft_tables::{number, rows};
use crate::support::sheets::{addition, grams_of, is_held, kinds, sheet, sheet_with, warnings, wishes_for};
use potside::craft::quantity::{Altitude, Mass};
use potside::craft::substance::Substance;
use potside::craft::vessel::Place;
use potside::recipe::model::{Act, MordantNeed};
use potside::recipe::{book, read};
use potside::sheet::plan::{StepAct, StepKind};
use potside::sheet::{SheetRefusal, compute};
use std::path::Path;
use std::sync::Arc;

const GRAMS_PER_POUND: f64 = 453.592_37; // exact: NIST Handbook 44, Appendix C

// Common practice, no source.
#[test]
fn a_hank_of_100_g_wool_takes_10_to_20_g_of_alum() {
    for recipe in ["alum-tartar-studio", "alum-only"] {
        let sheet = sheet(recipe, "100g");

        assert!((10.0..=20.0).contains(&grams_of(&sheet, 'A')), "{recipe}");
    }
}

// Common practice, no source: tartar 5 to 8 %.
#[test]
fn studio_tartar_is_5_to_8_percent() {
    assert!((5.0..=8.0).contains(&grams_of(&sheet("alum-tartar-studio", "100g"), 'B')));
}

// Common practice, no source.
#[test]
fn a_pot_is_filled_to_about_three_quarters_at_most() {
    let fits = sheet("alum-tartar-studio", "290g"); // 8.9 L of bath and goods in 12 L
    let over = sheet("alum-tartar-studio", "320g"); // 9.8 L

    assert!(fits.fill_fraction < 0.76 && fits.refusals.is_empty());
    assert!(over.fill_fraction > 0.80);
    assert!(matches!(
        over.refusals[..],
        [SheetRefusal::PotTooSmall { baths: 2, .. }]
    ));
}

#[test]
fn a_bath_that_is_split_tells_the_goods_of_each() {
    let sheet = sheet("alum-tartar-studio", "700g");

    let [
        SheetRefusal::PotTooSmall {
            baths, goods_each, ..
        },
    ] = sheet.refusals[..]
    else {
        panic!("{:?}", sheet.refusals);
    };
    let one = sheet_with("alum-tartar-studio", "1g", |wishes| wishes.goods.dry = goods_each);

    assert_eq!(baths, 3);
    assert!((goods_each.grams() - 700.0 / 3.0).abs() < 1e-9);
    assert!(one.refusals.is_empty(), "each of them fits");
    assert!(sheet.refusals[0].to_string().contains("3 baths of 233.3 g each"));
}

// Common practice, no source: all salts dissolved in a cup of hot water before the goods go in; goods wetted first. What
// comes later in a bath goes in while the goods are lifted, but for chalk, which is stirred in as a milk.
#[test]
fn salts_are_dissolved_and_goods_wetted_before_they_meet() {
    for recipe in book::all() {
        let sheet = sheet(&recipe.id, "100g");
        let mut are_goods_in = false;
        let mut is_wetted = false;
        for step in &sheet.plan.steps {
            match &step.act {
                StepAct::WetOut { .. } => is_wetted = true,
                StepAct::Enter { .. } => {
                    assert!(is_wetted, "{}", recipe.id);
                    are_goods_in = true;
                }
                StepAct::Lift | StepAct::Dip { .. } => are_goods_in = false,
                StepAct::Weigh { .. } | StepAct::Dissolve { .. } => {
                    assert!(!are_goods_in, "{}: {:?}", recipe.id, step.act);
                }
                StepAct::Add { letters } => {
                    let is_chalk = |letter| addition(&sheet, letter).ware_id == Substance::Chalk.id();
                    assert!(
                        !are_goods_in || letters.iter().all(|letter| is_chalk(letter.0)),
                        "{}: {:?}",
                        recipe.id,
                        step.act
                    );
                }
                _ => {}
            }
        }
    }
}

// Common practice, no source: held near a simmer, not a boil, about an hour, looked at about every fifteen minutes.
#[test]
fn a_mordant_is_held_about_an_hour_below_the_boil_and_turned_every_fifteen_minutes() {
    for recipe in ["alum-tartar-studio", "alum-tartar-book", "alum-only"] {
        let sheet = sheet(recipe, "100g");
        let (at, span) = sheet.hold.unwrap();
        let turns = sheet.plan.steps.iter().find_map(|step| match step.act {
            StepAct::Hold { turn_every, .. } => turn_every,
            _ => None,
        });

        assert!((75.0..=93.0).contains(&at.celsius()), "{recipe} at {at:?}");
        assert!(at.celsius() <= sheet.plan.boil.celsius() - 2.0, "{recipe}");
        assert_eq!(span.minutes(), 60.0, "{recipe}");
        assert_eq!(turns.unwrap().minutes(), 15.0, "{recipe}");
    }
}

// Common practice, no source: left to cool in the bath, heat off.
#[test]
fn mordanted_goods_cool_in_the_bath() {
    for recipe in ["alum-tartar-studio", "alum-tartar-book", "alum-only"] {
        let kinds = kinds(&sheet(recipe, "100g"));
        let held = kinds.iter().position(|kind| *kind == StepKind::Hold).unwrap();

        assert_eq!(
            kinds[held + 1..held + 3],
            [StepKind::Cool, StepKind::Lift],
            "{recipe}"
        );
    }
}

// Common practice, no source: a level tablespoon of the aluminium salt holds somewhat above 10 g.
#[test]
fn a_level_tablespoon_of_alum_holds_somewhat_above_10_g() {
    let sheet = sheet("alum-tartar-studio", "100g");
    let spoons = sheet.beside[0].spoons.as_ref().unwrap().as_ref().unwrap();
    let grams_a_spoon = |count: f64| grams_of(&sheet, 'A') / count;

    assert!(
        (10.0..15.0).contains(&grams_a_spoon(spoons.count.likely)),
        "{spoons:?}"
    );
    assert!(grams_a_spoon(spoons.count.high) < 10.0 && grams_a_spoon(spoons.count.low) > 13.0);
}

// Common practice, no source: onion skins colour unmordanted wool, faster to fade.
#[test]
fn plain_onion_skin_needs_no_mordant_and_says_that_it_fades_faster() {
    let plain = sheet("onion-skin-plain", "100g");
    let mordanted = sheet("onion-skin", "100g");

    assert_eq!(plain.recipe.mordant, MordantNeed::None);
    assert!(!warnings(&plain).contains("mordant"));
    assert!(warnings(&mordanted).contains("needs mordanted goods"));
    assert!(
        plain
            .plan
            .cautions
            .iter()
            .any(|line| line.contains("fades faster"))
    );
}

// Common practice, no source: mordanted goods are dyed the same day, or dried and kept.
#[test]
fn mordanted_goods_are_dyed_the_same_day_or_dried_and_kept() {
    for recipe in ["alum-tartar-studio", "alum-tartar-book", "alum-only"] {
        let sheet = sheet(recipe, "100g");
        let dry = sheet
            .plan
            .steps
            .iter()
            .find(|step| step.act.kind() == StepKind::Dry)
            .unwrap();

        let how = dry.how.as_deref().unwrap();
        assert!(
            how.contains("same day") && how.contains("dry") && how.contains("keep"),
            "{recipe}: {how}"
        );
    }
}

/// From the recipe file to the grams on the sheet, for what the books print. The table names each book.
#[test]
fn sheets_weigh_what_the_books_print() {
    let mut seen = 0;
    for row in rows(include_str!("../tables/worked_examples.csv")) {
        if row[2] != "chosen" || !row[5].is_empty() {
            continue;
        }
        let recipe = Arc::new(match row[0].strip_prefix("book/") {
            Some(id) => book::by_id(id).unwrap().clone(),
            None => {
                let file = format!("tests/recipes/good/{}.toml", row[0]);
                let text = std::fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join(file)).unwrap();
                read(&text).unwrap()
            }
        });
        // A percent without an end is kept to four places.
        let most = if row.len() > 8 { 5e-5 } else { 1e-12 };
        let dry = Mass::from_grams(printed_grams(&row[3], &row[4])).unwrap();

        let sheet = compute(&recipe, &wishes_for(&recipe, dry));

        let computed = grams_of(&sheet, row[1].chars().next().unwrap());
        let printed = printed_grams(&row[6], &row[7]);
        assert!(
            (computed / printed - 1.0).abs() < most,
            "{row:?}: computed {computed} g, printed {printed} g"
        );
        seen += 1;
    }
    assert!(seen >= 60, "the table lost rows: {seen}");
}

// Ethel M. Mairet, Vegetable Dyes, 1938: 1 lb of wool, 1/4 lb of alum, 1 oz of cream of tartar.
#[test]
fn the_built_in_book_custom_is_mairets() {
    let sheet = sheet("alum-tartar-book", "1lb");

    assert!((grams_of(&sheet, 'A') - GRAMS_PER_POUND / 4.0).abs() < 1e-9);
    assert!((grams_of(&sheet, 'B') - GRAMS_PER_POUND / 16.0).abs() < 1e-9);
}

/// Boil and hold by height, against IAPWS-95 at the standard atmosphere's pressure (see `boiling_point_altitude.csv`).
#[test]
fn boil_and_hold_follow_the_height() {
    let mut lowered = 0;
    for row in rows(include_str!("../tables/boiling_point_altitude.csv")) {
        let Ok(height) = Altitude::from_metres(number(&row[0])) else {
            continue;
        };
        let boil_c = number(&row[6]);
        for recipe in one_for_each_heat() {
            let sheet = sheet_with(&recipe.id, "100g", |wishes| {
                wishes.stove.place = Place::Altitude(height);
            });
            let (asked, floor) = last_hold(recipe);
            let (at, _) = sheet.hold.unwrap();

            assert!((sheet.plan.boil.celsius() - boil_c).abs() < 0.002, "{height:?}");
            let expected = asked.min(boil_c - 2.0);
            let is_cooled = goods_enter_before_the_last_hold(recipe);
            assert!(
                (at.celsius() - expected).abs() < 0.002 || (is_cooled && at.celsius() < expected),
                "{} at {height:?}: {at:?}",
                recipe.id
            );
            let is_said = warnings(&sheet).contains("the hold is lowered");
            assert_eq!(
                is_said,
                highest_raise(recipe) > boil_c - 2.0,
                "{} at {height:?}",
                recipe.id
            );
            if floor > boil_c - 2.0 {
                let is_refused = sheet
                    .refusals
                    .iter()
                    .any(|one| matches!(one, SheetRefusal::BoilsBelowHold { .. }));
                assert!(is_refused, "{} at {height:?}", recipe.id);
            }
            lowered += usize::from(is_said);
        }
    }
    assert!(lowered > 5, "the table has heights where holds are lowered");
}

/// Of the recipes with the same last hold and the same hottest raise, the first: the others would say the same again.
fn one_for_each_heat() -> Vec<&'static potside::recipe::model::Recipe> {
    let mut seen = std::collections::BTreeSet::new();
    book::all()
        .iter()
        .map(AsRef::as_ref)
        .filter(|recipe| is_held(recipe))
        .filter(|recipe| {
            let (asked, floor) = last_hold(recipe);
            let heats = [asked, floor, highest_raise(recipe)];
            seen.insert(heats.map(|celsius| format!("{celsius:.2}")))
        })
        .collect()
}

fn last_hold(recipe: &potside::recipe::model::Recipe) -> (f64, f64) {
    let mut at = 0.0;
    let mut found = (0.0, 0.0);
    for step in &recipe.steps {
        match &step.act {
            Act::Raise { to, .. } => at = to.chosen.celsius(),
            Act::Hold { floor, .. } => found = (at, floor.chosen.celsius()),
            _ => {}
        }
    }
    found
}

/// Goods that enter between raise and hold bring the bath down, and the hold begins there if that is above its floor.
fn goods_enter_before_the_last_hold(recipe: &potside::recipe::model::Recipe) -> bool {
    let mut entered = false;
    let mut found = false;
    for step in &recipe.steps {
        match &step.act {
            Act::Raise { .. } => entered = false,
            Act::Enter { .. } => entered = true,
            Act::Hold { .. } => found = entered,
            _ => {}
        }
    }
    found
}

fn highest_raise(recipe: &potside::recipe::model::Recipe) -> f64 {
    let raises = recipe.steps.iter().filter_map(|step| match &step.act {
        Act::Raise { to, .. } => Some(to.chosen.celsius()),
        _ => None,
    });
    raises.fold(0.0, f64::max)
}

fn printed_grams(number: &str, unit: &str) -> f64 {
    let number: f64 = number.parse().unwrap();
    match unit {
        "lb" => number * GRAMS_PER_POUND,
        "oz" => number * GRAMS_PER_POUND / 16.0,
        other => panic!("no such unit: {other}"),
    }
}
