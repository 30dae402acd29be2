//! Every recipe of the book as a dyer would meet it: its sources, its cautions, its names, its sheets, its whole course.

use crate::support::sheets::{refusals, wishes_for};
use potside::craft::cautions::{self, Offer};
use potside::craft::dyestuff_cautions;
use potside::craft::fibre::FibreFamily;
use potside::craft::quantity::{Length, Mass, Power, Volume};
use potside::craft::substance::Substance;
use potside::craft::time::{Moment, Stretch};
use potside::craft::vessel::{BurnerKind, Lid};
use potside::machine::{PotNo, pot::Ended, rehearsal};
use potside::recipe::book;
use potside::recipe::model::{BathKind, Dose, Form, Offered, Recipe, Strength, Ware};
use potside::sheet::{BathSheet, SheetRefusal, Wishes, compute};
use std::collections::BTreeMap;
use std::sync::Arc;

#[test]
fn published_sources_name_author_title_and_year_and_the_others_say_what_they_are() {
    for recipe in book::all() {
        for source in &recipe.sources {
            let text = &source.text;
            let place = format!("{}, {}: {text}", recipe.id, source.key);
            match source.strength {
                // Of a work read in part the text says what was read.
                Strength::Partial => assert!(text.contains("read") && text.len() > 30, "{place}"),
                Strength::Published => {
                    let parts: Vec<&str> = text.split(", ").collect();
                    assert!(parts.len() >= 3, "{place}");
                    for part in &parts[..2] {
                        assert!(part.starts_with(|c: char| c.is_ascii_uppercase()), "{place}");
                    }
                    assert!(has_year(text), "no year in {place}");
                }
                Strength::Practice => assert!(text.contains("common practice, no source"), "{place}"),
                Strength::Memory => assert!(text.contains("from memory"), "{place}"),
                Strength::Arithmetic => assert!(text.contains("follows from"), "{place}"),
            }
        }
    }
}

/// Four digits that are a year of print.
fn has_year(text: &str) -> bool {
    text.split(|c: char| !c.is_ascii_digit())
        .filter(|digits| digits.len() == 4)
        .filter_map(|digits| digits.parse::<u32>().ok())
        .any(|year| (1500..=2030).contains(&year))
}

#[test]
fn years_are_told_from_other_digits() {
    assert!(has_year("Vegetable Dyes, 1938, Weld"));
    assert!(!has_year("25 lb in 1 h, 12345 or 0099"));
}

#[test]
fn every_dyestuff_of_the_book_has_cautions_of_its_own_and_its_sheet_says_them() {
    for recipe in book::all() {
        let sheet = sheet_of(recipe, "usual");
        let said = sheet.plan.cautions.join("\n");
        for addition in &recipe.additions {
            match &addition.ware {
                Ware::Dyestuff { id, form, .. } => {
                    assert!(
                        dyestuff_cautions::is_known(id),
                        "{}: {id} has no cautions",
                        recipe.id
                    );
                    for caution in dyestuff_cautions::for_dyestuff(id) {
                        assert!(said.contains(caution.text), "{}: {}", recipe.id, caution.text);
                    }
                    let is_dusty = matches!(form, Form::Ground | Form::Extract);
                    let warns = ["mask", "dust", "powder"].iter().any(|word| said.contains(word));
                    assert!(!is_dusty || warns, "{}", recipe.id);
                }
                Ware::Substance(substance) => {
                    let lines = cautions::for_substance(*substance);
                    assert!(!lines.is_empty() && said.contains(lines[0].text), "{}", recipe.id);
                }
            }
        }
    }
}

#[test]
fn an_unknown_plant_has_the_lines_of_any_plant() {
    assert!(!dyestuff_cautions::is_known("moonflower"));
    assert!(
        dyestuff_cautions::for_dyestuff("moonflower")[0]
            .text
            .contains("poisonous")
    );
}

/// Tin and copper are for those who turn them on; no recipe of the book has them, whatever its author had. Iron stays
/// at or below the 4 % of the goods that the trade calls the most (common practice, no source), and at 2 % on plant
/// fibre: Wilson, Carr and Hacke, Chemistry Central Journal 6:44, 2012, found cotton lose strength at once with tannin and
/// much iron.
#[test]
fn metals_of_the_book_are_alum_and_a_little_iron() {
    for recipe in book::all() {
        for addition in &recipe.additions {
            let Ware::Substance(substance) = addition.ware else {
                continue;
            };
            let allowed = match cautions::offer(substance) {
                Offer::Offered => true,
                Offer::OffUntilTurnedOn => recipe.offered != Offered::Freely,
                Offer::OnlyToBeRead => recipe.offered == Offered::ReferenceOnly,
            };
            assert!(allowed, "{}: {}", recipe.id, substance.id());
            if matches!(substance, Substance::FerrousSulfate7 | Substance::FerrousSulfate1)
                && recipe.kind != BathKind::Vat
                && recipe.offered == Offered::Freely
            {
                let Dose::Wof(figure) = &addition.dose else {
                    panic!("{}: iron is counted on the goods", recipe.id);
                };
                let is_plant = recipe.fibres[0].family() == FibreFamily::Plant;
                let most = figure.range.map_or(figure.chosen, |(_, high)| high).percent();
                assert!(
                    most <= if is_plant { 2.0 } else { 4.0 },
                    "{}: {most} %",
                    recipe.id
                );
            }
        }
    }
}

/// The fugitive dye says so where nobody can miss it: in its name, and on the tag.
#[test]
fn turmeric_says_that_it_does_not_last() {
    let mut seen = 0;
    for recipe in book::all() {
        let is_turmeric = |ware: &Ware| matches!(ware, Ware::Dyestuff { id, .. } if id == "turmeric");
        if recipe
            .additions
            .iter()
            .any(|addition| is_turmeric(&addition.ware))
        {
            let tag = recipe.steps.last().unwrap().how.as_ref().unwrap();
            assert!(
                recipe.name.contains("fugitive") && tag.contains("FUGITIVE"),
                "{}",
                recipe.id
            );
            seen += 1;
        }
    }
    assert!(seen >= 2);
}

#[test]
fn no_two_recipes_of_the_book_look_alike() {
    let mut seen: BTreeMap<String, &str> = BTreeMap::new();
    for recipe in book::all() {
        for word in [&recipe.id, &recipe.name] {
            let other = seen.insert(folded(word), &recipe.id);
            assert!(
                other.is_none_or(|other| other == recipe.id),
                "{} looks like {other:?}",
                recipe.id
            );
        }
    }
    assert_eq!(folded("A1um 0nly"), folded("alum-only"));
}

/// As a passing eye has it.
fn folded(word: &str) -> String {
    let letters = word.to_lowercase();
    let kept = letters.chars().filter(|c| c.is_alphanumeric());
    kept.map(|c| match c {
        '0' => 'o',
        '1' | 'i' => 'l',
        '5' => 's',
        other => other,
    })
    .collect()
}

#[test]
fn the_book_is_ordered_by_kind() {
    let kinds: Vec<BathKind> = book::all().iter().map(|recipe| recipe.kind).collect();
    let order = [
        BathKind::Scour,
        BathKind::Mordant,
        BathKind::Tannin,
        BathKind::Fixing,
        BathKind::Dye,
        BathKind::Vat,
        BathKind::AfterBath,
    ];
    let places: Vec<usize> = kinds
        .iter()
        .map(|kind| order.iter().position(|one| one == kind).unwrap())
        .collect();

    assert!(places.is_sorted(), "{kinds:?}");
}

/// Eighteen dyestuffs and more, each with a recipe for the goods it is mostly used on.
#[test]
fn the_book_has_its_dyestuffs() {
    let mut ids: Vec<&str> = book::all()
        .iter()
        .filter(|recipe| recipe.kind == BathKind::Dye)
        .flat_map(|recipe| &recipe.additions)
        .filter_map(|addition| match &addition.ware {
            Ware::Dyestuff { id, .. } => Some(id.as_str()),
            Ware::Substance(_) => None,
        })
        .collect();
    ids.sort_unstable();
    ids.dedup();

    assert!(ids.len() >= 20, "{ids:?}");
}

/// A pot and a burner for the weight of the goods: 30 to 40 litres to the kilogram, three quarters full.
fn stove_for(pot: &str, wishes: &mut Wishes) {
    let (grams, litres, centimetres, watts, kind) = match pot {
        "small" => (20.0, 2.0, 15.0, 1_200.0, BurnerKind::Induction),
        "usual" => (100.0, 12.0, 26.0, 2_000.0, BurnerKind::Induction),
        "large" => (350.0, 25.0, 34.0, 3_500.0, BurnerKind::Induction),
        "boiler" => (2_000.0, 120.0, 55.0, 15_000.0, BurnerKind::Gas),
        "too small" => (2_000.0, 12.0, 26.0, 2_000.0, BurnerKind::Induction),
        other => panic!("no such pot: {other}"),
    };
    wishes.goods.dry = Mass::from_grams(grams).unwrap();
    wishes.stove.pot.capacity = Volume::from_litres(litres).unwrap();
    wishes.stove.pot.diameter = Length::saturating_centimetres(centimetres);
    wishes.stove.burner.kind = kind;
    wishes.stove.burner.power = Power::from_watts(watts).unwrap();
    wishes.stove.lid = Lid::Tight;
    wishes.hazardous_metals = true;
}

/// What a recipe that is only to be read says of itself; nothing where it may be begun.
fn spoken(recipe: &Recipe) -> String {
    match recipe.offered {
        Offered::Freely | Offered::WhenAsked => String::new(),
        Offered::ReferenceOnly => {
            let recipe = recipe.name.clone();
            format!("{}\n", SheetRefusal::ReferenceOnly { recipe })
        }
    }
}

fn sheet_of(recipe: &Recipe, pot: &str) -> BathSheet {
    let mut wishes = wishes_for(recipe, Mass::from_grams(1.0).unwrap());
    stove_for(pot, &mut wishes);
    compute(&Arc::new(recipe.clone()), &wishes)
}

#[test]
fn every_recipe_computes_from_20_g_to_2_kg_in_a_pot_that_fits() {
    for recipe in book::all() {
        for pot in ["small", "large", "boiler"] {
            let sheet = sheet_of(recipe, pot);
            assert_eq!(refusals(&sheet), spoken(recipe), "{} in the {pot} pot", recipe.id);
            for addition in &sheet.plan.additions {
                assert!(addition.target.grams() > 0.0, "{}", recipe.id);
            }
        }
        let sheet = sheet_of(recipe, "too small");
        assert!(
            sheet
                .refusals
                .iter()
                .any(|refusal| matches!(refusal, SheetRefusal::PotTooSmall { .. })),
            "{}: {}",
            recipe.id,
            refusals(&sheet)
        );
    }
}

#[test]
fn every_recipe_computes_for_each_of_its_fibres() {
    for recipe in book::all() {
        let shared = Arc::clone(recipe);
        for fibre in &recipe.fibres {
            let mut wishes = wishes_for(recipe, Mass::from_grams(1.0).unwrap());
            stove_for("usual", &mut wishes);
            wishes.goods.fibre = *fibre;
            let sheet = compute(&shared, &wishes);

            assert_eq!(
                refusals(&sheet),
                spoken(recipe),
                "{} on {}",
                recipe.id,
                fibre.id()
            );
        }
    }
}

#[test]
fn every_recipe_rehearses_to_its_end() {
    let start = Moment {
        stretch: Stretch(0),
        steady_ms: 0,
        wall_ms: 1_787_650_000_000,
    };
    for recipe in book::all() {
        let sheet = sheet_of(recipe, "usual");

        let machine = rehearsal::play(&sheet.plan, start, |_, _| ())
            .unwrap_or_else(|refusal| panic!("{}: {refusal}", recipe.id));

        let run = machine.pot(PotNo(1)).unwrap();
        assert_eq!(run.stand.ended, Some(Ended::Closed), "{}", recipe.id);
    }
}
