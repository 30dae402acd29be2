//! The bench's file: the example of docs/bench-format.md, back and forth, and what is told of a bad one.

use potside::shell::bench_file::{read, write};
use potside::shell::first_habits::named_by;
use potside::view::bench::Bench;
use potside::view::locale::{Habits, Hours, Language, Temperatures, Volumes, Weights};

fn example() -> String {
    let page = std::fs::read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/docs/bench-format.md")).unwrap();
    let (_, rest) = page.split_once("```toml\n").unwrap();
    rest.split_once("```").unwrap().0.to_owned()
}

#[test]
fn the_example_reads_and_what_is_written_reads_the_same() {
    let bench = read(&example()).unwrap();

    assert_eq!(bench.others.pots().count(), 1);
    assert_eq!(bench.others.burners().count(), 1);
    let hours = bench.quiet_hours.unwrap();
    assert_eq!((hours.from, hours.until), (22 * 60, 7 * 60));
    assert!(!bench.hazardous_metals);
    assert_eq!((bench.language, bench.habits), (Language::German, UNITED_STATES));
    assert_eq!(read(&write(&bench)).unwrap(), bench);
}

const UNITED_STATES: Habits = Habits {
    weights: Weights::Ounces,
    temperatures: Temperatures::Fahrenheit,
    volumes: Volumes::UsGallons,
    hours: Hours::Twelve,
};

#[test]
fn a_bench_without_language_and_units_is_english_and_metric() {
    let old: String = example()
        .lines()
        .take_while(|line| !line.starts_with("language"))
        .map(|line| format!("{line}\n"))
        .collect();
    let bench = read(&old).unwrap();
    assert_eq!(
        (bench.language, bench.habits),
        (Language::English, Habits::METRIC)
    );
    let written = write(&bench);
    for key in ["language", "weights", "temperatures", "volumes", "clock"] {
        assert!(
            !written.contains(key),
            "{key}: an older program reads this file too"
        );
    }
}

#[test]
fn every_language_and_every_habit_is_kept() {
    let mut kept = 0;
    for language in Language::ALL {
        for weights in [Weights::Grams, Weights::Ounces] {
            for temperatures in [Temperatures::Celsius, Temperatures::Fahrenheit] {
                for volumes in [Volumes::Litres, Volumes::UsGallons, Volumes::ImperialGallons] {
                    for hours in [Hours::TwentyFour, Hours::Twelve] {
                        let bench = Bench {
                            language,
                            habits: Habits {
                                weights,
                                temperatures,
                                volumes,
                                hours,
                            },
                            ..Bench::default()
                        };
                        assert_eq!(read(&write(&bench)).unwrap(), bench);
                        kept += 1;
                    }
                }
            }
        }
    }
    assert_eq!(kept, 72);
}

#[test]
fn a_language_or_unit_that_is_not_known_is_told_with_those_that_are() {
    let told = |from: &str, to: &str| read(&example().replace(from, to)).unwrap_err().to_string();
    assert_eq!(
        told("language = \"de\"", "language = \"nl\""),
        "language: \"nl\" is not known here; \"en\", \"de\", \"fr\" are"
    );
    assert_eq!(
        told("\"ounces\"", "\"stone\""),
        "weights: \"stone\" is not known here; \"grams\", \"ounces\" are"
    );
    assert!(told("\"fahrenheit\"", "\"F\"").contains("\"celsius\", \"fahrenheit\" are"));
    // Whose gallon it is has to be said.
    assert!(told("\"us-gallons\"", "\"gallons\"").contains("\"us-gallons\", \"imperial-gallons\""));
    assert!(told("\"12 h\"", "\"noon\"").starts_with("clock: \"noon\""));
}

/// The order is that of POSIX: IEEE Std 1003.1-2017, section 8.2.
#[test]
fn a_fresh_bench_speaks_as_the_system_does() {
    let named = |pairs: &[(&str, &str)]| {
        named_by(|name| {
            let found = pairs.iter().find(|(key, _)| *key == name);
            found.map(|(_, value)| (*value).to_owned())
        })
    };
    assert_eq!(named(&[]), (Language::English, Habits::METRIC));
    assert_eq!(
        named(&[("LANG", "fr_CH.UTF-8")]),
        (Language::French, Habits::METRIC)
    );
    assert_eq!(
        named(&[("LANG", "en_US.UTF-8")]),
        (Language::English, UNITED_STATES)
    );
    assert_eq!(named(&[("LANG", "en_US")]), (Language::English, UNITED_STATES));
    assert_eq!(
        named(&[("LANG", "en_GB.UTF-8")]),
        (Language::English, Habits::METRIC)
    );
    assert_eq!(
        named(&[("LANG", "nl_NL.UTF-8")]),
        (Language::English, Habits::METRIC)
    );
    let all = [
        ("LC_ALL", "de_DE.UTF-8"),
        ("LC_MESSAGES", "fr_FR"),
        ("LANG", "en_US"),
    ];
    assert_eq!(named(&all), (Language::German, Habits::METRIC));
    assert_eq!(named(&all[1..]), (Language::French, Habits::METRIC));
    // An empty one is as good as none.
    let empty = [("LC_ALL", ""), ("LC_MESSAGES", ""), ("LANG", "de_DE@euro")];
    assert_eq!(named(&empty), (Language::German, Habits::METRIC));
    assert_eq!(
        named(&[("LC_ALL", "C.UTF-8"), ("LANG", "en_US")]).1,
        Habits::METRIC
    );
}

#[test]
fn a_bad_bench_is_told_by_the_key() {
    let told = |from: &str, to: &str| {
        let text = example();
        assert!(text.contains(from), "{from}");
        read(&text.replace(from, to)).unwrap_err().to_string()
    };
    assert!(told("22:00 to 07:00", "night").contains("quiet_hours: \"night\" is not two clock times"));
    assert!(told("22:00 to 07:00", "25:00 to 07:00").contains("quiet_hours"));
    let six = format!("[{}]", ["\"9 L, 22 cm\""; 6].join(", "));
    assert!(told("[\"20 L, 30 cm, enamel\"]", &six).contains("other_pots: 6 are named"));
    assert!(told("20 L, 30 cm, enamel", "large").contains("other_pots"));
    assert!(told("volume = 80", "volume = 180").contains("volume"));
    assert!(told("room = ", "rom = ").contains("rom"));
}
