//! Quantities from text: what is read, what is refused, and the one line that says why.
//!
//! The conversions are checked against NIST SP 811 appendix B figures, typed here as decimals.

use potside::craft::reading::{self, ReadingFault};
use potside::craft::time::Span;
use potside::craft::vessel::{BurnerKind, Lid, PotMetal};
use proptest::prelude::*;

/// One kind of quantity read to its base unit, or the line that refuses it.
fn read(kind: &str, text: &str) -> Result<f64, String> {
    let said = |fault: ReadingFault| fault.to_string();
    match kind {
        "mass" => reading::mass(text)
            .map(potside::craft::quantity::Mass::grams)
            .map_err(said),
        "volume" => reading::volume(text)
            .map(potside::craft::quantity::Volume::litres)
            .map_err(said),
        "temperature" => reading::temperature(text)
            .map(potside::craft::quantity::Temperature::celsius)
            .map_err(said),
        "length" => reading::length(text)
            .map(potside::craft::quantity::Length::centimetres)
            .map_err(said),
        "altitude" => reading::altitude(text)
            .map(potside::craft::quantity::Altitude::metres)
            .map_err(said),
        "power" => reading::power(text)
            .map(potside::craft::quantity::Power::watts)
            .map_err(said),
        "pressure" => reading::pressure(text)
            .map(potside::craft::quantity::Pressure::hectopascals)
            .map_err(said),
        "percent" => reading::percent(text)
            .map(potside::craft::quantity::PercentWof::percent)
            .map_err(said),
        "share" => reading::share(text).map_err(said),
        "concentration" => reading::concentration(text)
            .map(potside::craft::quantity::Concentration::grams_per_litre)
            .map_err(said),
        "liquor" => reading::liquor_ratio(text)
            .map(potside::craft::quantity::LiquorRatio::litres_per_kg)
            .map_err(said),
        "ramp" => reading::ramp(text)
            .map(potside::craft::quantity::Ramp::kelvin_per_minute)
            .map_err(said),
        "span" => reading::span(text).map(Span::minutes).map_err(said),
        other => panic!("no kind {other}"),
    }
}

#[test]
fn texts_give_the_quantity_they_say() {
    for (kind, text, want) in [
        ("mass", "100g", 100.0),
        ("mass", " 100 g ", 100.0),
        ("mass", "100\u{a0}g", 100.0),
        ("mass", "1.2kg", 1200.0),
        ("mass", "12,5 g", 12.5),
        ("mass", "0,125 kg", 125.0),
        ("mass", ".5 kg", 500.0),
        ("mass", "1e2 g", 100.0),
        ("mass", "3.5 oz", 99.223_330_937_5), // 28.349523125 g each
        ("mass", "2 lb", 907.184_74),
        ("mass", "1 lb 4 oz", 566.990_462_5),
        ("mass", "6lbs 4,5oz", 2_849.127_074_062_5), // 6.28125 lb
        ("volume", "12L", 12.0),
        ("volume", "500 ml", 0.5),
        ("volume", "4 us-gal", 15.141_647_136),
        ("volume", "4 US gal", 15.141_647_136),
        ("volume", "4 imp-gal", 18.184_36),
        ("volume", "2 us-qt", 1.892_705_892),
        ("volume", "1 imp-pt", 0.568_261_25),
        ("temperature", "93 C", 93.0),
        ("temperature", "93\u{b0}C", 93.0),
        ("temperature", "93 \u{2103}", 93.0),
        ("temperature", "212F", 100.0),
        ("temperature", "14 deg F", -10.0),
        ("temperature", "\u{2212}10 C", -10.0),
        ("length", "26cm", 26.0),
        ("length", "260 mm", 26.0),
        ("length", "10 in", 25.4),
        ("altitude", "1200 m", 1200.0),
        ("altitude", "5000 ft", 1524.0),
        ("altitude", "-50 m", -50.0),
        ("power", "2kW", 2000.0),
        ("power", "1500 W", 1500.0),
        ("power", "10000 BTU/h", 2_930.710_701_722),
        ("pressure", "845 hPa", 845.0),
        ("pressure", "1013 mbar", 1013.0),
        ("pressure", "84.5 kPa", 845.0),
        ("percent", "15%", 15.0),
        ("percent", "6,25 % WOF", 6.25),
        ("share", "17 %", 17.0),
        ("concentration", "5 g/L", 5.0),
        ("concentration", "1 oz/us-gal", 7.489_151_707), // physics tables: 7.489152
        ("liquor", "30:1", 30.0),
        ("liquor", "1:30", 30.0),
        ("liquor", "30 : 1", 30.0),
        ("liquor", "30 L/kg", 30.0),
        ("liquor", "4 us-gal/lb", 33.381_617_808), // 4 x 3785.411784 / 453.59237
        ("ramp", "1.5 C/min", 1.5),
        ("ramp", "9 F/min", 5.0),
        ("span", "60 min", 60.0),
        ("span", "1 h", 60.0),
        ("span", "1 h 30 min", 90.0),
        ("span", "1h30min", 90.0),
        ("span", "1,5 h", 90.0),
        ("span", "4 days", 5760.0),
        ("span", "90 s", 1.5),
        ("span", "2 days 3 h 4 min 5 s", 2.0 * 1440.0 + 184.0 + 5.0 / 60.0),
    ] {
        let got = read(kind, text).unwrap_or_else(|line| panic!("{kind} {text:?} refused: {line}"));
        assert!(
            (got - want).abs() <= 1e-9 * want.abs().max(1.0),
            "{kind} {text:?} gave {got}, not {want}"
        );
    }
}

#[test]
fn a_text_that_is_no_quantity_is_answered_in_one_plain_line() {
    for (kind, text, want) in [
        (
            "mass",
            "100",
            "100 has no unit; write 100 g, 3.5 oz, 0.22 lb or 0.1 kg",
        ),
        ("temperature", "93", "93 has no unit; write 93 C or 199 F"),
        ("percent", "15", "15 has no unit; write 15 %"),
        (
            "span",
            "60",
            "60 has no unit; write 60 days, 60 h, 60 min or 60 s",
        ),
        ("mass", "", "nothing is written; write a weight such as 100 g"),
        (
            "mass",
            "5 stone",
            "5 stone: stone is not a unit of weight known here; g, oz, lb, kg and mg are",
        ),
        (
            "volume",
            "4 gal",
            "4 gal: which gallon; write 4 us-gal (15 L) or 4 imp-gal (18 L)",
        ),
        (
            "liquor",
            "4 gal/lb",
            "4 gal/lb: which gallon; write 4 us-gal/lb (33 L/kg) or 4 imp-gal/lb (40 L/kg)",
        ),
        (
            "concentration",
            "1 oz/gal",
            "1 oz/gal: which gallon; write 1 oz/us-gal (7.5 g/L) or 1 oz/imp-gal (6.2 g/L)",
        ),
        (
            "mass",
            "1,200 g",
            "1,200 g can be read two ways; write 1.200 or 1200, without the comma",
        ),
        (
            "mass",
            "1.200,5 g",
            "1.200,5 g holds 1.200,5, which is no number: it has more than one decimal mark; write a weight such as 100 g",
        ),
        (
            "mass",
            "1 000 g",
            "1 000 g holds 1, which is no number: a gap parts its digits; write a weight such as 100 g",
        ),
        (
            "mass",
            "-5 g",
            "-5 g: -5 g is not a weight; a weight is 0 to 1000000 g",
        ),
        (
            "mass",
            "inf g",
            "inf g does not start with a number in the digits 0 to 9; write a weight such as 100 g",
        ),
        (
            "mass",
            "\u{ff11}\u{ff10} g",
            "\u{ff11}\u{ff10} g does not start with a number in the digits 0 to 9; write a weight such as 100 g",
        ),
        (
            "mass",
            "0x10 g",
            "0x10 g: x10 g is not a unit of weight known here; g, oz, lb, kg and mg are",
        ),
        (
            "mass",
            "1e999 g",
            "1e999 g holds 1e999, which is no number: it is too large; write a weight such as 100 g",
        ),
        (
            "liquor",
            "60:2",
            "60:2 has no side that is 1; write 30:1 or 30 L/kg",
        ),
        (
            "span",
            "1:30",
            "1:30 could be hours or minutes; write it as 1 h 30 min or 1 min 30 s",
        ),
        (
            "span",
            "30 min 1 h",
            "30 min 1 h: h comes too late; write days, h, min, s in this order, each once",
        ),
        (
            "span",
            "400 days",
            "400 days is longer than 366 days; write a shorter time",
        ),
        (
            "share",
            "130 %",
            "130 %: 130 % is not a percentage; a percentage is 0 to 100 %",
        ),
    ] {
        match read(kind, text) {
            Ok(got) => panic!("{kind} {text:?} was read as {got}"),
            Err(line) => assert_eq!(line, want, "{kind} {text:?}"),
        }
    }
}

#[test]
fn a_pot_is_read_with_and_without_its_metal() {
    let plain = reading::pot("12L,26cm").unwrap();
    assert_eq!(plain.capacity.litres(), 12.0);
    assert_eq!(plain.diameter.centimetres(), 26.0);
    assert_eq!(plain.metal, PotMetal::Stainless);

    assert_eq!(reading::pot("12L, 26cm, Enamel").unwrap().metal, PotMetal::Enamel);
    assert_eq!(reading::pot("12,5L,26cm").unwrap().capacity.litres(), 12.5);
    assert_eq!(
        reading::pot("12,5 L; 26,5 cm; iron")
            .unwrap()
            .diameter
            .centimetres(),
        26.5
    );
}

#[test]
fn a_pot_that_cannot_stand_is_refused_in_words() {
    for (text, want) in [
        (
            "12L",
            "12L has too few or too many fields; a pot is written like 12L,26cm,stainless",
        ),
        (
            "12L,26mm",
            "12L,26mm: a pot of this volume and width would stand 2260 cm high; check both, inside measures",
        ),
        ("0L,26cm", "0L,26cm: the pot is nothing; write one above 0"),
        (
            "12L,26cm,tin",
            "tin is not a pot metal; write stainless, enamel, aluminium, copper, iron or glass",
        ),
        (
            "12gal,26cm",
            "12gal: which gallon; write 12 us-gal (45 L) or 12 imp-gal (55 L)",
        ),
    ] {
        assert_eq!(reading::pot(text).unwrap_err().to_string(), want);
    }
}

#[test]
fn a_burner_is_its_kind_and_its_power() {
    let burner = reading::burner("induction,2kW").unwrap();
    assert_eq!(
        (burner.kind, burner.power.watts()),
        (BurnerKind::Induction, 2000.0)
    );
    assert_eq!(reading::burner("gas, 2,5 kW").unwrap().power.watts(), 2500.0);
    assert_eq!(
        reading::burner("microwave,2kW").unwrap_err().to_string(),
        "microwave is not a kind of burner; write induction, ceramic, coil or gas"
    );
    assert_eq!(
        reading::burner("gas,0W").unwrap_err().to_string(),
        "gas,0W: the power is nothing; write one above 0"
    );
}

#[test]
fn words_of_closed_lists_are_read_back_from_their_ids() {
    for metal in PotMetal::ALL {
        assert_eq!(reading::metal(metal.id()), Ok(metal));
    }
    for lid in Lid::ALL {
        assert_eq!(reading::lid(lid.id()), Ok(lid));
    }
    for kind in BurnerKind::ALL {
        assert_eq!(reading::burner_kind(kind.id()), Ok(kind));
    }
    assert_eq!(
        reading::substance("potash alun").unwrap_err().to_string(),
        "potash alun is not a substance known here; write potash-alum, soda-alum or burnt-alum"
    );
}

const KINDS: [&str; 13] = [
    "mass",
    "volume",
    "temperature",
    "length",
    "altitude",
    "power",
    "pressure",
    "percent",
    "share",
    "concentration",
    "liquor",
    "ramp",
    "span",
];

proptest! {
    #[test]
    fn no_text_makes_the_reader_fall_over(text in "\\PC*|[0-9.,:eE+\\- a-zA-Z%/\u{b0}\u{ff11}\u{664}\n]{0,24}") {
        for kind in KINDS {
            match read(kind, &text) {
                Ok(value) => prop_assert!(value.is_finite()),
                Err(line) => prop_assert!(!line.contains('\n') && line.chars().count() < 260, "{line}"),
            }
        }
        for line in [
            reading::pot(&text).err().map(|fault| fault.to_string()),
            reading::burner(&text).err().map(|fault| fault.to_string()),
            reading::lid(&text).err().map(|fault| fault.to_string()),
            reading::substance(&text).err().map(|fault| fault.to_string()),
        ].into_iter().flatten() {
            prop_assert!(!line.contains('\n'));
        }
    }

    #[test]
    fn no_bare_number_is_ever_a_quantity(number in 0.0f64..1e6) {
        for kind in KINDS {
            let line = read(kind, &number.to_string()).unwrap_err();
            prop_assert!(line.contains("has no unit"), "{line}");
        }
    }

    #[test]
    fn a_weight_written_by_the_program_is_read_back_the_same(grams in 0.0f64..1e6) {
        prop_assert_eq!(read("mass", &format!("{grams} g")), Ok(grams));
    }
}
