//! The sheet as it is printed: one reviewed page, and the keys that programs read.

use crate::support::sheets::{is_held, sheet, sheet_with, wishes_for};
use chrono::FixedOffset;
use potside::craft::quantity::{Altitude, Mass, Power};
use potside::craft::salts::OnShelf;
use potside::craft::substance::Substance;
use potside::craft::time::{Moment, Stretch};
use potside::craft::vessel::{Lid, Place};
use potside::recipe::model::Letter;
use potside::recipe::{book, read};
use potside::sheet::{BathSheet, compute};
use potside::view::{sheet_json, sheet_text};
use serde_json::Value;
use std::path::Path;
use std::sync::Arc;

const NINE: Moment = Moment {
    stretch: Stretch(0),
    steady_ms: 0,
    wall_ms: 9 * 3_600_000,
};

fn utc() -> FixedOffset {
    FixedOffset::east_opt(0).unwrap()
}

/// Compares with the reviewed page; `UPDATE_SHEETS=1` rewrites it and fails, so that it is reviewed again.
fn check(name: &str, sheet: &BathSheet) {
    let rewritten = rewrite_or_compare(name, sheet);
    assert!(!rewritten, "{name} rewritten; look at it before it is committed");
}

/// Whether the page was rewritten.
fn rewrite_or_compare(name: &str, sheet: &BathSheet) -> bool {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("tests/sheets/{name}.txt"));
    let printed = sheet_text::text(sheet, NINE, utc());
    if std::env::var_os("UPDATE_SHEETS").is_some() {
        std::fs::write(&path, &printed).unwrap();
        return true;
    }
    let reviewed = std::fs::read_to_string(&path).unwrap_or_default();
    for (number, (was, is)) in reviewed.lines().zip(printed.lines()).enumerate() {
        assert_eq!(was, is, "{name}, line {}", number + 1);
    }
    assert_eq!(reviewed.lines().count(), printed.lines().count(), "{name}");
    false
}

/// One reviewed page for each recipe of the book, and none for a recipe that is gone.
#[test]
fn every_recipe_of_the_book_prints_as_reviewed() {
    let mut rewritten = 0;
    for recipe in book::all() {
        let sheet = sheet(&recipe.id, "100g");
        rewritten += usize::from(rewrite_or_compare(&format!("book/{}", recipe.id), &sheet));
    }
    assert_eq!(
        rewritten, 0,
        "pages rewritten; look at them before they are committed"
    );

    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/sheets/book");
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        let stem = path.file_stem().unwrap().to_str().unwrap();
        assert!(book::by_id(stem).is_ok(), "a page without its recipe: {stem}");
    }
}

#[test]
fn a_studio_mordant_prints_as_reviewed() {
    let sheet = sheet_with("alum-tartar-studio", "100g", |wishes| {
        wishes.stove.place = Place::Altitude(Altitude::from_metres(1_200.0).unwrap());
    });

    check("studio_mordant", &sheet);
}

#[test]
fn a_bath_with_everything_against_it_prints_as_reviewed() {
    let sheet = sheet_with("onion-skin", "350g", |wishes| {
        wishes.stove.place = Place::Altitude(Altitude::from_metres(3_600.0).unwrap());
        wishes.stove.lid = Lid::Off;
        wishes.stove.burner.power = Power::from_watts(400.0).unwrap();
        wishes.stove.scale_step = Mass::from_grams(1.0).unwrap();
    });

    check("refused_onion", &sheet);
}

#[test]
fn what_the_used_liquor_still_gives_is_told_on_the_page_and_to_programs() {
    let with_half = book::text_of("weld")
        .unwrap()
        .replace("dips_range = [1, 2]\n", "dips_range = [1, 2]\nadd = 0.5\n");
    let recipe = Arc::new(read(&with_half).unwrap());
    let dry = Mass::from_grams(100.0).unwrap();
    let sheet = compute(&recipe, &wishes_for(&recipe, dry));

    let page = sheet_text::text(&sheet, NINE, utc());
    let again = &sheet_json::json(&sheet, NINE, utc())["again"];

    assert!(
        page.contains("1 to 2 more uses") && page.contains("A 50.0 g added for each"),
        "{page}"
    );
    assert_eq!(
        (&again["dips"], &again["add"]),
        (&Value::from(1), &Value::from(0.5))
    );
    assert_eq!(again["dips_range"], serde_json::json!([1, 2]));
    assert_eq!(again["additions"][0]["grams"].as_f64(), Some(50.0));
    assert!(
        again["source"]
            .as_str()
            .unwrap()
            .contains("common practice, no source")
    );
}

/// No custom is known for a used bath with iron in it: the words on alum would be wrong there.
#[test]
fn a_used_bath_with_iron_is_not_offered_again() {
    for recipe in ["iron-tartar-1916", "gall-grey-wool", "alder-bark-black"] {
        let sheet = sheet(recipe, "100g");

        assert!(sheet.next_baths.is_empty(), "{recipe}");
        assert!(!sheet_text::text(&sheet, NINE, utc()).contains("THIS LIQUOR AGAIN"));
        assert_eq!(sheet_json::json(&sheet, NINE, utc())["again"], Value::Null);
    }
}

const NUMBERS: [&str; 4] = ["water_l", "liquor_ratio", "fill_fraction", "boil_c"];

/// A bath without heat has none of these.
const NUMBERS_OF_A_HOLD: [&str; 4] = ["hold_c", "hold_min", "hold_power_w", "top_up_g"];

#[test]
fn programs_find_every_key() {
    for recipe in book::all() {
        let json = sheet_json::json(&sheet(&recipe.id, "100g"), NINE, utc());
        let is_held = is_held(recipe);

        for key in NUMBERS {
            assert!(json[key].is_number(), "{}: {key} is {}", recipe.id, json[key]);
        }
        for key in NUMBERS_OF_A_HOLD {
            assert_eq!(json[key].is_number(), is_held, "{}: {key}", recipe.id);
        }
        for key in [
            "steps",
            "warnings",
            "refusals",
            "additions",
            "workings",
            "cautions",
            "next_baths",
            "slow_raises",
        ] {
            assert!(json[key].is_array(), "{}: {key}", recipe.id);
        }
        for end in ["low", "likely", "high"] {
            assert_eq!(
                json["come_up_min"][end].is_number(),
                is_held,
                "{}: {end}",
                recipe.id
            );
            assert_eq!(
                json["hold_setting"][end].is_number(),
                is_held,
                "{}: {end}",
                recipe.id
            );
        }
        for mark in ["60", "50", "43", "40", "30"] {
            let cool = &json["cool_min"][mark];
            assert!(
                cool.is_null() || cool["likely"].is_number(),
                "{}: {mark}",
                recipe.id
            );
        }
        assert!(
            json["evaporation_g_per_min"]["still"].as_f64()
                <= json["evaporation_g_per_min"]["stirred"].as_f64()
        );
        for addition in json["additions"].as_array().unwrap() {
            assert!(addition["letter"].is_string() && addition["substance"].is_string());
            assert!(addition["grams"].is_number());
            assert!(addition["percent_wof"].is_number() || addition["percent_wof"].is_null());
        }
    }
}

#[test]
fn a_bath_that_never_gets_there_has_no_come_up() {
    let sheet = sheet_with("alum-only", "250g", |wishes| {
        wishes.stove.lid = Lid::Off;
        wishes.stove.burner.power = Power::from_watts(300.0).unwrap();
    });
    let json = sheet_json::json(&sheet, NINE, utc());

    assert!(json.as_object().unwrap().contains_key("come_up_min"));
    assert_eq!(json["come_up_min"], Value::Null);
    assert!(!json["refusals"].as_array().unwrap().is_empty());
}

#[test]
fn grams_are_not_rounded_for_programs() {
    let sheet = sheet_with("alum-tartar-studio", "123.456g", |wishes| {
        wishes
            .shelf
            .insert(Letter('A'), OnShelf::Known(Substance::AmmoniumAlum));
    });
    let json = sheet_json::json(&sheet, NINE, utc());

    let alum = &json["additions"][0];
    assert_eq!(
        alum["recipe_salt"]["grams"].as_f64().unwrap(),
        123.456 * 15.0 / 100.0
    );
    assert_eq!(alum["substance"], "ammonium-alum");
    assert_eq!(
        json["additions"][1]["grams"].as_f64().unwrap(),
        123.456 * 6.0 / 100.0
    );
}

#[test]
fn every_number_on_the_page_has_its_working() {
    let sheet = sheet_with("alum-tartar-studio", "100g", |wishes| wishes.stove.lid = Lid::Off);
    let told: Vec<&str> = sheet
        .workings
        .iter()
        .map(|working| working.what.as_str())
        .collect();

    for what in [
        "boiling point",
        "bath",
        "water to fill",
        "pot filled",
        "level line of the water",
        "A: alum (potash)",
        "B: cream of tartar",
        "acidity",
        "least hot water for alum",
        "cream of tartar that this bath keeps dissolved",
        "come-up, likely",
        "cool-down to 60 C, likely",
        "evaporation at the hold",
        "lost by the end of the hold",
        "power to hold",
        "burner setting to hold",
        "drift",
        "bath after the goods are in",
        "back to where the bath was",
        "burner for the raise",
    ] {
        assert!(
            told.iter().any(|each| each.starts_with(what)),
            "no working for {what}: {told:#?}"
        );
    }
    for working in &sheet.workings {
        assert!(
            !working.inputs.is_empty() && !working.source.is_empty(),
            "{working:?}"
        );
    }
}
