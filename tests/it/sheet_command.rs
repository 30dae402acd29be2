//! `potside sheet` as it is typed: exit codes, one clear line for each bad argument, and no text that makes it fall over.

use proptest::prelude::*;
use proptest::sample::select;
use std::process::{Command, Output};
use tempfile::TempDir;

fn potside(words: &[&str]) -> Output {
    let data = TempDir::new().unwrap();
    Command::new(env!("CARGO_BIN_EXE_potside"))
        .arg("--data")
        .arg(data.path())
        .args(words)
        .output()
        .unwrap()
}

fn sheet(words: &str) -> Output {
    let words: Vec<&str> = std::iter::once("sheet").chain(words.split_whitespace()).collect();
    potside(&words)
}

fn complaint(output: &Output) -> String {
    String::from_utf8(output.stderr.clone()).unwrap()
}

#[test]
fn the_whole_command_prints_and_ends_well() {
    let output = sheet(
        "alum-tartar-studio --fibre wool --goods 100g --pot 12L,26cm --burner induction,2kW --altitude 1200m \
         --lid loose --from 15C --room 20C",
    );

    assert_eq!(output.status.code(), Some(0));
    assert_eq!(complaint(&output), "");
    assert!(
        String::from_utf8(output.stdout)
            .unwrap()
            .starts_with("BATH SHEET: Alum and tartar, studio\n")
    );
}

#[test]
fn weights_may_be_grams_kilograms_ounces_and_pounds() {
    for (text, grams) in [
        ("100g", 100.0),
        ("0.1kg", 100.0),
        ("1oz", 28.349_523_125),
        ("1lb", 453.592_37),
    ] {
        let output = sheet(&format!("alum-only --goods {text} --pot 30L,36cm --json"));
        let json: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();

        assert_eq!(output.status.code(), Some(0), "{text}: {}", complaint(&output));
        let computed = json["additions"][0]["grams"].as_f64().unwrap();
        assert!((computed - grams * 0.15).abs() < 1e-9, "{text}: {computed}");
    }
}

#[test]
fn a_refused_bath_still_prints_and_says_why() {
    for words in [
        "alum-only --goods 2kg",
        "alum-only --goods 100g --fibre cotton",
        "alum-only --goods 0g",
        "alum-only --goods 250g --lid off --burner coil,300W",
        "alum-only --goods 100g --shelf A=soda-ash",
        "alum-only --goods 100g --shelf Q=soda-alum",
    ] {
        let output = sheet(&format!("{words} --json"));
        let json: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();

        assert_eq!(output.status.code(), Some(3), "{words}");
        let reasons = json["refusals"].as_array().unwrap();
        assert!(!reasons.is_empty(), "{words}");
        assert_eq!(complaint(&output).lines().count(), reasons.len(), "{words}");
    }
}

#[test]
fn each_bad_argument_gets_one_clear_line() {
    for (words, says) in [
        ("alum-only --goods 100", "unit"),
        ("alum-only --goods -5g", "-5g"),
        ("alum-only --goods nan", "nan"),
        ("alum-only --goods inf", "inf"),
        ("alum-only --goods 1e400g", "1e400g"),
        ("alum-only --goods 100furlongs", "furlongs"),
        ("alum-only --goods 100L", "100L"),
        ("alum-only", "--goods"),
        ("alum-onyl --goods 100g", "alum-only"),
        ("--goods 100g", "RECIPE"),
        ("alum-only --goods 100g --fibre polyester", "polyester"),
        ("alum-only --goods 100g --pot 12L", "12L"),
        ("alum-only --goods 100g --pot 0L,0cm", "0L"),
        ("alum-only --goods 100g --burner wood,2kW", "wood"),
        ("alum-only --goods 100g --burner induction,2", "2"),
        ("alum-only --goods 100g --lid half", "half"),
        ("alum-only --goods 100g --from 15", "15"),
        ("alum-only --goods 100g --room 400C", "400"),
        ("alum-only --goods 100g --altitude 99km", "99"),
        (
            "alum-only --goods 100g --altitude 500m --station 950hPa",
            "--station",
        ),
        ("alum-only --goods 100g --station 20hPa", "20"),
        ("alum-only --goods 100g --hanks 0", "0"),
        ("alum-only --goods 100g --start 25:99", "25:99"),
        ("alum-only --goods 100g --basis damp", "damp,30%"),
        ("alum-only --goods 100g --basis damp,-3%", "-3"),
        ("alum-only --goods 100g --basis soggy", "soggy"),
        ("alum-only --goods 100g --basis in-the-grease,95%", "95"),
        (
            "alum-only --goods 100g --fibre alpaca --basis in-the-grease",
            "alpaca",
        ),
        ("alum-only --goods 100g --basis air-dry,5%", "air-dry"),
        ("alum-only --goods 100g --shelf soda-alum", "A="),
        ("alum-only --goods 100g --shelf A=sodaalum", "soda-alum"),
        ("alum-only --goods 100g --shelf A=99%Al2O3x", "99%Al2O3x"),
        ("alum-only --goods 100g --shelf A=99%Al", "99"),
        (
            "alum-only --goods 100g --shelf A=soda-alum --shelf A=burnt-alum",
            "two salts",
        ),
        ("alum-only --goods 100g --colour red", "--colour"),
    ] {
        let output = sheet(words);
        let said = complaint(&output);

        assert_eq!(output.status.code(), Some(2), "{words}: {said}");
        assert_eq!(said.lines().count(), 1, "{words}: {said}");
        assert!(said.contains(says), "{words}: {said}");
        assert!(output.stdout.is_empty(), "{words}");
    }
}

#[test]
fn a_forecasts_pressure_is_held_against_the_benchs_height() {
    let data = TempDir::new().unwrap();
    let bench = "format = 1\npot = \"12L, 26cm\"\nburner = \"induction, 2kW\"\nlid = \"loose\"\naltitude = \"1500m\"\n\
                 tap = \"15C\"\nroom = \"20C\"\nscale = \"0.1g\"\ntheme = \"kitchen\"\nvolume = 50\n";
    std::fs::write(data.path().join("bench.toml"), bench).unwrap();
    let output = Command::new(env!("CARGO_BIN_EXE_potside"))
        .arg("--data")
        .arg(data.path())
        .args(["sheet", "alum-only", "--goods", "100g", "--station", "1015hPa"])
        .output()
        .unwrap();

    let text = String::from_utf8(output.stdout).unwrap();
    assert!(
        text.contains("1015 hPa looks reduced to sea level"),
        "{text}{}",
        String::from_utf8_lossy(&output.stderr)
    );
}

fn argument() -> impl Strategy<Value = Vec<String>> {
    let option = select(vec![
        "--goods",
        "--fibre",
        "--pot",
        "--burner",
        "--altitude",
        "--station",
        "--lid",
        "--from",
        "--room",
        "--scale",
        "--basis",
        "--shelf",
        "--hanks",
        "--start",
        "--json",
        "--colour",
        "-x",
        "--",
    ]);
    let odd = prop_oneof![
        "[ -~]{0,24}",
        "-?[0-9]{1,12}(\\.[0-9]{0,6})?(e-?[0-9]{1,4})? ?(g|kg|oz|lb|C|F|K|m|ft|hPa|L|cm|%|kW|W|)",
        "(A|B|[a-z])=[0-9]{0,4}%?(Al|Al2O3|soda-ash|soda-alum|)",
        "[0-9]{1,6}(L|gal),[0-9]{1,6}(cm|in)(,[a-z]{0,9})?",
        "\\PC{0,12}",
    ];
    (option, odd).prop_map(|(option, value)| vec![option.to_owned(), value])
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(250))]

    #[test]
    fn no_words_make_it_fall_over(
        recipe in prop_oneof![4 => Just("alum-only".to_owned()), 1 => "\\PC{0,16}"],
        arguments in proptest::collection::vec(argument(), 0..4),
    ) {
        let mut words = vec!["sheet".to_owned(), recipe, "--goods".to_owned(), "80g".to_owned()];
        words.extend(arguments.into_iter().flatten());
        let words: Vec<&str> = words.iter().map(|word| word.split('\0').next().unwrap()).collect();

        let output = potside(&words);

        let code = output.status.code();
        prop_assert!(matches!(code, Some(0 | 2 | 3)), "{:?}: {:?} {}", words, code, complaint(&output));
        if code == Some(2) {
            prop_assert_eq!(complaint(&output).lines().count(), 1, "{:?}: {}", &words, complaint(&output));
        }
    }
}
