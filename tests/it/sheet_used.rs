//! The next goods in a used liquor: what is weighed again, what is left out, what is topped up. The customs are the
//! trade's: a half against a quarter for alum (common practice, no source); a half to three quarters for tannin
//! (Beech, The Dyeing of Cotton Fabrics, 1901); nothing for a dye (common practice, no source).

use potside::craft::quantity::{Mass, Volume};
use potside::journal::record::{BathRecord, again};
use potside::sheet::plan::{StepAct, StepKind};
use potside::sheet::{BathSheet, SheetRefusal, UsedBath, has_custom};

use super::support::sheets::{grams_of, kinds, sheet, sheet_with};

fn used(recipe: &str, goods_g: f64, part: Option<f64>) -> UsedBath {
    UsedBath {
        record: "2031-05-04-0900-fresh-p1".into(),
        recipe_id: recipe.into(),
        dip: 1,
        goods: Mass::saturating_grams(goods_g),
        left: Volume::saturating_litres(2.7),
        part,
    }
}

fn next(recipe: &str, goods: &str, part: Option<f64>) -> BathSheet {
    sheet_with(recipe, goods, |wishes| {
        wishes.used = Some(used(recipe, 100.0, part));
    })
}

#[test]
fn contradicting_customs_are_the_dyers_choice_and_never_averaged() {
    let asked = next("alum-tartar-studio", "100g", None);
    let [SheetRefusal::WhichPart { choices }] = &asked.refusals[..] else {
        panic!("{:?}", asked.refusals)
    };
    let parts: Vec<f64> = choices.iter().map(|choice| choice.part).collect();
    assert_eq!(parts, [0.5, 0.25]);

    // 15 % alum and 6 % tartar of 100 g, a half or a quarter of it.
    for (part, alum, tartar) in [(0.5, 7.5, 3.0), (0.25, 3.75, 1.5)] {
        let sheet = next("alum-tartar-studio", "100g", Some(part));
        assert!(sheet.refusals.is_empty(), "{:?}", sheet.refusals);
        assert!((grams_of(&sheet, 'A') - alum).abs() < 1e-9);
        assert!((grams_of(&sheet, 'B') - tartar).abs() < 1e-9);
    }
}

#[test]
fn goods_that_outweigh_the_parents_get_the_whole_dose_on_what_is_more() {
    // 150 g after 100 g: a half of 15 g for the first hundred, all of 7.5 g for the fifty the liquor never held.
    let sheet = next("alum-tartar-studio", "150g", Some(0.5));
    assert!((grams_of(&sheet, 'A') - 15.0).abs() < 1e-9);
    // Fewer goods: a half of the dose on them.
    let sheet = next("alum-tartar-studio", "40g", Some(0.5));
    assert!((grams_of(&sheet, 'A') - 3.0).abs() < 1e-9);
}

#[test]
fn a_spent_dye_liquor_takes_the_next_goods_with_nothing_added_and_nothing_drawn_out() {
    let fresh = sheet("madder", "100g");
    let again = next("madder", "100g", None);

    assert!(again.refusals.is_empty(), "{:?}", again.refusals);
    assert!(again.plan.additions.is_empty());
    for kind in [
        StepKind::Weigh,
        StepKind::Add,
        StepKind::Dissolve,
        StepKind::Strain,
    ] {
        assert!(!kinds(&again).contains(&kind), "{kind:?}");
    }
    let holds = |sheet: &BathSheet| {
        kinds(sheet)
            .iter()
            .filter(|kind| **kind == StepKind::Hold)
            .count()
    };
    assert_eq!((holds(&fresh), holds(&again)), (2, 1), "only the dyeing is left");
    assert_eq!(again.plan.used.as_ref().map(|used| used.dip), Some(2));
    assert!(again.next_baths.is_empty());
}

#[test]
fn the_pot_is_topped_up_to_the_line_of_a_fresh_bath() {
    let fresh = sheet("alum-tartar-studio", "100g");
    let again = next("alum-tartar-studio", "100g", Some(0.5));
    let fill = |sheet: &BathSheet| {
        sheet
            .plan
            .steps
            .iter()
            .find_map(|step| match step.act {
                StepAct::Fill { water, level } => Some((water.litres(), level.centimetres())),
                _ => None,
            })
            .unwrap()
    };
    let ((all, line), (more, same_line)) = (fill(&fresh), fill(&again));
    assert!((all - more - 2.7).abs() < 1e-9, "{all} {more}");
    assert!((line - same_line).abs() < 1e-9);
    assert!((again.plan.bath.litres() - fresh.plan.bath.litres()).abs() < 1e-9);

    // Little goods in much liquor: nothing is poured away.
    let little = next("alum-tartar-studio", "20g", Some(0.5));
    let (poured, _) = fill(&little);
    assert!(poured.abs() < 1e-9);
    assert!(little.plan.bath.litres() >= 2.7);
}

#[test]
fn what_has_no_custom_or_another_recipe_is_refused_in_words() {
    let refusals = |sheet: &BathSheet| {
        let told: Vec<String> = sheet.refusals.iter().map(ToString::to_string).collect();
        told.join(" | ")
    };
    let other = sheet_with("madder", "100g", |wishes| {
        wishes.used = Some(used("onion-skin", 100.0, None));
    });
    assert!(refusals(&other).contains("worked again by its own recipe"));
    let scour = next("scour-wool", "100g", None);
    assert!(
        refusals(&scour).contains("make a fresh one"),
        "{}",
        refusals(&scour)
    );
    let nothing = sheet_with("alum-only", "100g", |wishes| {
        wishes.used = Some(used("alum-only", 0.0, Some(0.5)));
    });
    assert!(
        refusals(&nothing).contains("has no goods"),
        "{}",
        refusals(&nothing)
    );
    let none = std::iter::empty;
    assert!(!has_custom(potside::recipe::model::BathKind::Vat, none()));
    // A bath with iron in it is spent or it isn't: no custom says.
    let dye = potside::recipe::model::BathKind::Dye;
    assert!(has_custom(dye, none()));
    assert!(!has_custom(
        dye,
        [potside::craft::substance::Substance::FerrousSulfate7].into_iter()
    ));
}

#[test]
fn a_sealed_record_hands_its_liquor_on() {
    let record: BathRecord = super::support::finished::eventful();
    let handed = again(&record).unwrap();
    assert_eq!(handed.used.dip, 1);
    assert_eq!(handed.used.record, record.bath);
    // The bath less what 200 g of squeezed wool hold.
    let (_, squeezed, _) = handed.fibre.facts().squeezed_water;
    let left = record.bath_l - record.goods_g / 1_000.0 * squeezed;
    assert!((handed.used.left.litres() - left).abs() < 1e-9);
}
