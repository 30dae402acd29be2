//! Finished English sentences read back and said in another language and in other units.
//!
//! The catalogues here are our own inventions, so that the reading is tried on what it has to do and not on what
//! happens to be translated.

use chrono::{Offset as _, Utc};
use potside::view::locale::{Habits, Language, Locale, Temperatures, Volumes, Weights, Words};
use proptest::prelude::*;

/// Sorted by the English.
const GERMAN: Words<'static> = Words {
    said: &[
        ("Alum stings.", "Alaun brennt."),
        ("Is it wet?", "Ist es nass?"),
        ("Wear {worn}.", "{worn} tragen."),
        ("a mask", "Maske"),
        ("alum", "Alaun"),
        ("aluminium sulfate, 14-hydrate", "Aluminiumsulfat, 14-Hydrat"),
        ("and", "und"),
        ("close the lid", "den Deckel schließen"),
        ("gloves", "Handschuhe"),
        ("gloves and goggles", "Handschuhe und Brille"),
        ("goggles", "Schutzbrille"),
        ("iron", "Eisen"),
        ("or", "oder"),
        ("raw silk", "Rohseide"),
        (
            "take no more than {litres} L of water",
            "höchstens {litres} L Wasser nehmen",
        ),
        ("the bath dropped by {by_drop} C", "das Bad fiel um {by_drop} °C"),
        (
            "the burner can't bring it to {heat} C: {ways}",
            "die Platte schafft {heat} °C nicht: {ways}",
        ),
        (
            "the hold sinks from {celsius_before} to {now} C",
            "die Haltezeit sinkt von {celsius_before} auf {now} °C",
        ),
        (
            "the {metal} pot changes the bath of {goods} goods",
            "der Topf aus {metal} ändert das Bad für {goods}",
        ),
        ("wool", "Wolle"),
        (
            "{goods} is not for {others} goods",
            "{goods} ist nichts für {others}",
        ),
        ("{outfit} for {names}", "{outfit} für {names}"),
        (
            "{read} has no unit; write {would_do}",
            "{read} hat keine Einheit; {would_do} schreiben",
        ),
        (
            "{weight} g of {name} is too little",
            "{weight} g {name} sind zu wenig",
        ),
    ],
    sentences: &[
        "Wear {worn}.",
        "take no more than {litres} L of water",
        "the bath dropped by {by_drop} C",
        "the burner can't bring it to {heat} C: {ways}",
        "the hold sinks from {celsius_before} to {now} C",
        "the {metal} pot changes the bath of {goods} goods",
        "{goods} is not for {others} goods",
        "{outfit} for {names}",
        "{read} has no unit; write {would_do}",
        "{weight} g of {name} is too little",
    ],
};

const FRENCH: Words<'static> = Words {
    said: &[
        ("alum", "alun"),
        ("and", "et"),
        ("close the lid", "fermer le couvercle"),
        ("or", "ou"),
        (
            "take no more than {litres} L of water",
            "prendre au plus {litres} L d'eau",
        ),
        (
            "the burner can't bring it to {heat} C: {ways}",
            "le feu n'atteint pas {heat} °C : {ways}",
        ),
        ("wool", "laine"),
    ],
    sentences: &[
        "take no more than {litres} L of water",
        "the burner can't bring it to {heat} C: {ways}",
    ],
};

const IMPERIAL: Habits = Habits {
    weights: Weights::Ounces,
    temperatures: Temperatures::Fahrenheit,
    volumes: Volumes::UsGallons,
    ..Habits::METRIC
};

fn locale(language: Language, habits: Habits) -> Locale {
    Locale {
        language,
        habits,
        zone: Utc.fix(),
    }
}

fn german(english: &str) -> String {
    locale(Language::German, Habits::METRIC).read_by(GERMAN, english)
}

fn french(english: &str) -> String {
    locale(Language::French, Habits::METRIC).read_by(FRENCH, english)
}

/// English, and everything but metric.
fn imperial(english: &str) -> String {
    locale(Language::English, IMPERIAL).read_by(GERMAN, english)
}

#[test]
fn the_catalogues_of_this_test_are_sorted_as_the_programs_are() {
    for words in [
        GERMAN,
        FRENCH,
        Words::of(Language::German),
        Words::of(Language::French),
    ] {
        assert!(words.said.is_sorted_by(|one, other| one.0 < other.0));
    }
}

#[test]
fn what_stands_in_the_holes_is_said_too() {
    assert_eq!(
        german("2.50 g of alum is too little"),
        "2,50 g Alaun sind zu wenig"
    );
    assert_eq!(
        german("the iron pot changes the bath of raw-silk goods"),
        "der Topf aus Eisen ändert das Bad für Rohseide"
    );
}

#[test]
fn a_sentence_in_a_hole_of_a_sentence_is_said_too() {
    let english = "the burner can't bring it to 93 C: take no more than 8.5 L of water, or close the lid";

    assert_eq!(
        german(english),
        "die Platte schafft 93 °C nicht: höchstens 8,5 L Wasser nehmen, oder den Deckel schließen"
    );
    assert_eq!(
        french(english),
        "le feu n'atteint pas 93 °C : prendre au plus 8,5 L d'eau, ou fermer le couvercle"
    );
}

#[test]
fn lists_are_taken_apart_where_the_whole_is_unknown() {
    assert_eq!(german("gloves and a mask"), "Handschuhe und Maske");
    assert_eq!(german("gloves and goggles"), "Handschuhe und Brille");
    assert_eq!(
        german("gloves, goggles and a mask"),
        "Handschuhe, Schutzbrille und Maske"
    );
    assert_eq!(french("wool and alum"), "laine et alun");
    assert_eq!(french("wool; alum"), "laine\u{a0}; alun");
}

#[test]
fn a_part_may_have_the_sign_that_parts_are_told_by() {
    assert_eq!(
        german("wool, aluminium sulfate, 14-hydrate, iron and gloves and goggles"),
        "Wolle, Aluminiumsulfat, 14-Hydrat, Eisen und Handschuhe und Brille"
    );
}

#[test]
fn a_long_list_is_no_deeper_than_a_short_one() {
    let english = vec!["wool"; 30].join(", ");

    assert_eq!(german(&english), vec!["Wolle"; 30].join(", "));
}

#[test]
fn lists_in_holes_with_amounts_and_letters_among_them() {
    assert_eq!(
        german("Wear gloves and a mask for alum and iron; goggles for wool."),
        "Handschuhe und Maske für Alaun und Eisen; Schutzbrille für Wolle tragen."
    );
    assert_eq!(german("A: alum, 2.5 g and 1.5 L"), "A: Alaun, 2,5 g und 1,5 L");
}

#[test]
fn several_sentences_are_said_one_by_one() {
    assert_eq!(
        german("Alum stings. Wear gloves. Is it wet? Alum stings."),
        "Alaun brennt. Handschuhe tragen. Ist es nass? Alaun brennt."
    );
}

#[test]
fn a_name_before_a_colon_may_be_anyones() {
    assert_eq!(
        german("Erika's blue: close the lid"),
        "Erika's blue: den Deckel schließen"
    );
}

#[test]
fn a_hole_takes_more_where_the_first_end_leads_nowhere() {
    // "for" and "goods" come twice, and only one way of taking them ends as the sentence does.
    assert_eq!(
        german("wool is not for raw silk is not for iron goods"),
        "Wolle ist nichts für raw silk is not for iron"
    );
    assert_eq!(
        german("the old pot pot changes the bath of wool goods"),
        "der Topf aus old pot ändert das Bad für Wolle"
    );
    // A number has to stand before a unit.
    assert_eq!(
        german("some g of alum is too little"),
        "some g of alum is too little"
    );
    assert_eq!(
        german("some g of 2 g of alum is too little"),
        "some g of 2 g of alum is too little"
    );
}

#[test]
fn numbers_with_units_are_said_in_the_dyers_units() {
    // By hand: 93 x 1.8 + 32 = 199.4; 2.5 / 28.349523125 = 0.0882; 8.5 / 3.785411784 = 2.2454.
    assert_eq!(
        imperial("the burner can't bring it to 93 C: take no more than 8.5 L of water"),
        "the burner can't bring it to 199 °F: take no more than 2.25 gal of water"
    );
    assert_eq!(
        imperial("2.5 g of alum is too little"),
        "0.09 oz of alum is too little"
    );
    assert_eq!(
        locale(Language::German, IMPERIAL).read_by(GERMAN, "2.50 g of alum is too little"),
        "0,088 oz Alaun sind zu wenig"
    );
}

#[test]
fn a_difference_of_temperatures_has_no_freezing_point() {
    // By hand: 5 K are 9 degrees Fahrenheit, 5 C are 41.
    assert_eq!(imperial("the bath dropped by 5 C"), "the bath dropped by 9 °F");
    assert_eq!(german("the bath dropped by 5 C"), "das Bad fiel um 5 °C");
}

#[test]
fn two_numbers_that_share_a_unit_are_both_changed() {
    // By hand: 90 C are 194 F, 88.5 C are 191.3 F.
    assert_eq!(
        imperial("the hold sinks from 90 to 88.5 C"),
        "the hold sinks from 194 to 191.3 °F"
    );
    assert_eq!(
        german("the hold sinks from 90.5 to 88.5 C"),
        "die Haltezeit sinkt von 90,5 auf 88,5 °C"
    );
}

#[test]
fn what_is_to_be_typed_stays_to_the_letter() {
    let english = "2.5 has no unit; write 2.5 g or 2.5 oz";

    assert_eq!(
        german(english),
        "2.5 hat keine Einheit; 2.5 g oder 2.5 oz schreiben"
    );
    assert_eq!(imperial(english), english);
}

#[test]
fn what_nobody_knows_stays_as_it_is() {
    for english in [
        "",
        " ",
        "Put in 5 g, wait 10 min.",
        "my wool and your alum",
        "Wear old clothes.",
        "{weight} {",
        "5.5 apples",
        "is too little",
        "Alum stings. Mine doesn't.",
    ] {
        assert_eq!(german(english), english);
        assert_eq!(imperial(english), english);
    }
}

#[test]
fn ids_amounts_and_clock_times_are_no_words() {
    for same in ["L12", "S3", "14:32", "2026-11-25", "B", "1 h 05 min", "45 s"] {
        assert_eq!(german(same), same);
    }
    assert_eq!(german("85.2 g"), "85,2 g");
    assert_eq!(german("7.5"), "7,5");
    assert_eq!(imperial("20 C"), "68 °F");
}

proptest! {
    #[test]
    fn metric_english_is_read_as_itself(english in ".{0,80}") {
        let plain = locale(Language::English, Habits::METRIC);
        prop_assert_eq!(plain.read(&english), english.as_str());
        prop_assert_eq!(plain.read_by(GERMAN, &english), english.as_str());
    }

    #[test]
    fn any_text_is_read_and_strange_words_stay(english in "[a-z]{12,18}( [a-z,;:.]{12,18}){0,9}") {
        prop_assert_eq!(german(&english), english.as_str());
    }

    #[test]
    fn pieces_of_our_own_sentences_never_stumble(
        pieces in prop::collection::vec(prop::sample::select(vec![
            "wool", "alum", "2.5", " C", " g", " L", " of ", " for ", ", ", " and ", "; ", ": ", ". ", " or ", "{", "}",
            " is too little", " goods", "gloves", "Wear ", "the bath dropped by ",
        ]), 0..24),
        habits in prop::sample::select(vec![Habits::METRIC, IMPERIAL]),
        language in prop::sample::select(Language::ALL.to_vec()),
    ) {
        let english = pieces.concat();
        let read = locale(language, habits).read_by(GERMAN, &english);
        prop_assert!(read.is_empty() == english.is_empty());
    }

    #[test]
    fn a_sentence_says_its_numbers_whatever_they_are(weight in 0_u32..1_000_000, places in 0_usize..3, heat in -30_i32..130) {
        let weight = f64::from(weight) / 100.0;
        prop_assert_eq!(
            german(&format!("{weight:.places$} g of iron is too little")),
            format!("{weight:.places$} g Eisen sind zu wenig").replace('.', ",")
        );
        // NIST SP 811, B.8: a difference of 1 degree Celsius is 1.8 degrees Fahrenheit.
        prop_assert_eq!(
            imperial(&format!("the bath dropped by {heat} C")),
            format!("the bath dropped by {:.0} °F", f64::from(heat) * 1.8)
        );
    }
}

/// NIST SP 811, B.8: t/C times 1.8 plus 32; a difference has no 32.
#[test]
fn an_authors_temperatures_are_said_in_fahrenheit_too() {
    for (written, said) in [
        (
            "hands may go in at 43 C or less.",
            "hands may go in at 43 °C (109 °F) or less.",
        ),
        (
            "Of 60 C in 5 seconds, of 68 °C in about 1.",
            "Of 60 °C (140 °F) in 5 seconds, of 68 °C (154 °F) in about 1.",
        ),
        ("keep it at 80 to 93 C", "keep it at 80 to 93 °C (176 to 199 °F)"),
        (
            "no faster than 1 to 2 C a minute",
            "no faster than 1 to 2 °C (2 to 4 °F) a minute",
        ),
        ("at 100 C (212 F)", "at 100 °C (212 F)"),
        ("4 mol C/L, 3 Cups, vitamin C", "4 mol C/L, 3 Cups, vitamin C"),
    ] {
        assert_eq!(imperial(written), said);
    }
}

#[test]
fn an_authors_celsius_has_its_sign() {
    let english = locale(Language::English, Habits::METRIC);
    assert_eq!(
        english.read_by(GERMAN, "Never above 60 C: it browns."),
        "Never above 60 °C: it browns."
    );
    // A letter is no unit.
    assert_eq!(english.read_by(GERMAN, "A 15 g, then C"), "A 15 g, then C");
}
