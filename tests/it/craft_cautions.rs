//! Cautions: there is one for everything, each fits a line, and what must not be offered is caught.

use potside::craft::cautions::{self, Activity, Hands, Offer};
use potside::craft::quantity::Temperature;
use potside::craft::substance::Substance;

#[test]
fn everything_has_a_caution_and_each_fits_a_line() {
    let lists = Substance::ALL
        .map(cautions::for_substance)
        .into_iter()
        .chain(Activity::ALL.map(cautions::for_activity));
    let mut lines = vec![cautions::DEFERRAL];
    for list in lists {
        assert!(!list.is_empty());
        lines.extend(list);
    }
    lines.extend(cautions::NEVER_OFFERED.map(|never| never.caution));

    for line in lines {
        assert!(line.text.len() <= 90, "{} marks: {}", line.text.len(), line.text);
        assert!(line.text.is_ascii() && line.text.ends_with('.'), "{}", line.text);
        assert!(!line.source.is_empty());
    }
}

/// H318 or H319 (eye damage, eye irritation) on the safety data sheet asks for eye protection: aluminium sulfate,
/// ferrous sulfate, calcium hydroxide by their sheets, copper sulfate by International Chemical Safety Card 1416.
#[test]
fn whatever_its_sheet_calls_dangerous_to_eyes_wears_goggles_and_gloves() {
    for substance in [
        Substance::AluminiumSulfate14,
        Substance::AluminiumSulfate18,
        Substance::FerrousSulfate7,
        Substance::FerrousSulfate1,
        Substance::SlakedLime,
        Substance::CopperSulfate5,
    ] {
        let marks = cautions::marks(substance);
        assert!(marks.eyes && marks.gloves, "{substance:?}");
    }
}

#[test]
fn only_tin_and_copper_wait_to_be_turned_on() {
    let off: Vec<_> = Substance::ALL
        .into_iter()
        .filter(|substance| cautions::offer(*substance) == Offer::OffUntilTurnedOn)
        .collect();

    assert_eq!(off, [Substance::CopperSulfate5, Substance::TinChloride2]);

    let read: Vec<_> = Substance::ALL
        .into_iter()
        .filter(|substance| cautions::offer(*substance) == Offer::OnlyToBeRead)
        .collect();

    assert_eq!(read, [Substance::ZincDust, Substance::SodiumHydrosulphite]);
}

#[test]
fn old_names_of_poisons_are_known_and_no_known_substance_is_one() {
    for (word, name) in [
        ("Potassium dichromate", "chrome"),
        ("potash-bichromate", "chrome"),
        ("chrome-alum", "chrome"),
        ("sugar of lead", "lead"),
        ("white arsenic", "arsenic"),
        ("oil_of_vitriol", "strong acid"),
        ("oxalic acid", "strong acid"),
        ("caustic soda", "caustic alkali"),
    ] {
        assert_eq!(
            cautions::never_offered(word).map(|never| never.name),
            Some(name),
            "{word}"
        );
    }
    for substance in Substance::ALL {
        assert_eq!(cautions::never_offered(substance.id()), None);
        assert_eq!(cautions::never_offered(substance.name()), None);
    }
    assert_eq!(cautions::never_offered("madder-root"), None);
}

/// Times of deep burns of adults: the table after Moritz and Henriques 1947 in `scald_times.csv`'s secondary
/// sources (60 C 5 s, 55 C 30 s, 49 C 10 min, 68.3 C 1 s), and 43 C as the trade's limit for bare hands.
#[test]
fn hands_are_allowed_as_the_burn_table_allows() {
    let hands = |celsius| cautions::hands(Temperature::from_celsius(celsius).unwrap());

    assert_eq!(hands(20.0), Hands::Free);
    assert_eq!(hands(43.0), Hands::Free);
    assert_eq!(hands(43.5), Hands::GlovesShortly { burn_seconds: 21_600 });
    assert_eq!(hands(55.0), Hands::GlovesShortly { burn_seconds: 30 });
    assert_eq!(hands(60.0), Hands::ToolOnly { burn_seconds: 5 });
    assert_eq!(hands(68.3), Hands::ToolOnly { burn_seconds: 1 });
    assert_eq!(hands(95.0), Hands::ToolOnly { burn_seconds: 1 });
    let mut last = u32::MAX;
    for tenth in 440..=1_300 {
        let (Hands::GlovesShortly { burn_seconds } | Hands::ToolOnly { burn_seconds }) =
            hands(f64::from(tenth) / 10.0)
        else {
            panic!("bare hands at {tenth} tenths");
        };
        assert!(burn_seconds <= last);
        last = burn_seconds;
    }
}
