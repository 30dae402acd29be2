//! The glass in each language and with each unit: which sign stands before the tenths, which unit behind a number, and
//! that a number keyed in is the same number when it is shown again. Words are compared nowhere here.

use potside::craft::measures::KitchenUnit;
use potside::craft::quantity::{Length, Mass, Temperature, Volume};
use potside::craft::reading;
use potside::sheet::BathSheet;
use potside::shelf::Milligrams;
use potside::shell::bench_file;
use potside::view::bench::Bench;
use potside::view::locale::{Habits, Hours, Language, Temperatures, Volumes, Weights};
use potside::view::pages::{GoodsPress, HomePress, Press, Wish};
use potside::view::screen::{NumberScreen, Row, Screen};

use crate::support::glass::Glass;

const UNITED_STATES: Habits = Habits {
    weights: Weights::Ounces,
    temperatures: Temperatures::Fahrenheit,
    volumes: Volumes::UsGallons,
    hours: Hours::Twelve,
};

fn glass(language: Language, habits: Habits) -> Glass {
    let mut glass = Glass::new();
    glass.bench.language = language;
    glass.bench.habits = habits;
    glass
}

fn number(glass: &mut Glass) -> NumberScreen {
    match glass.screen() {
        Screen::Number(number) => number,
        other => panic!("{other:?}"),
    }
}

/// What stands on the rows: values and details.
fn figures(rows: &[Row]) -> Vec<String> {
    rows.iter()
        .flat_map(|row| [row.value.clone(), row.detail.clone()])
        .filter(|text| text.contains(|c: char| c.is_ascii_digit()))
        .collect()
}

/// The numbers of all pages from the goods to the sheet and of the bench, as a dyer walks them.
fn walked(glass: &mut Glass, weight: &str) -> Vec<String> {
    let mut seen = Vec::new();
    glass.press(Press::Home(HomePress::Begin));
    glass.key_weight(weight);
    let goods = glass.goods();
    seen.push(goods.weight);
    glass.press(Press::Goods(GoodsPress::GoOn));
    glass.take("alum-tartar-studio");
    let pot = glass.list();
    seen.push(pot.note.clone());
    seen.extend(figures(&pot.rows));
    glass.choose("vessels");
    let vessels = glass.list();
    seen.extend(vessels.rows.iter().map(|row| row.label.clone()));
    seen.extend(figures(&vessels.rows));
    glass.press(Press::Back);
    glass.side("go-on");
    let sheet = glass.sheet();
    seen.push(sheet.note.clone());
    seen.extend(sheet.additions.iter().map(|row| row.value.clone()));
    seen.extend(figures(&sheet.lines));
    glass.press(Press::Back);
    glass.press(Press::Back);
    glass.press(Press::Back);
    let mut glass = Glass {
        bench: glass.bench,
        ..Glass::new()
    };
    glass.press(Press::Home(HomePress::Bench));
    seen.extend(figures(&glass.list().rows));
    seen
}

/// Whether some text has a number in this unit: digits, a space, the unit, and no letter behind it.
fn has_unit(seen: &[String], unit: &str) -> bool {
    seen.iter().any(|text| {
        text.match_indices(unit).any(|(at, _)| {
            let before = text[..at].strip_suffix(' ');
            let after = text[at + unit.len()..].chars().next();
            before.is_some_and(|before| before.ends_with(|c: char| c.is_ascii_digit()))
                && !after.is_some_and(|c| c.is_alphanumeric() || c == '/')
        })
    })
}

/// Whether a sign stands between two digits somewhere.
fn has_between_digits(seen: &[String], sign: char) -> bool {
    seen.iter().any(|text| {
        text.match_indices(sign).any(|(at, _)| {
            text[..at].ends_with(|c: char| c.is_ascii_digit())
                && text[at + 1..].starts_with(|c: char| c.is_ascii_digit())
        })
    })
}

#[test]
fn german_and_french_have_a_comma_before_the_tenths_and_metric_units() {
    for language in [Language::German, Language::French] {
        let mut glass = glass(language, Habits::METRIC);
        let seen = walked(&mut glass, "354,4");
        assert_eq!(seen[0], "354,4 g");
        assert!(has_between_digits(&seen, ','), "{seen:#?}");
        assert!(!has_between_digits(&seen, '.'), "{seen:#?}");
        for unit in ["g", "L", "\u{b0}C", "cm", "m", "kW"] {
            assert!(has_unit(&seen, unit), "{unit} in {seen:#?}");
        }
        for unit in ["\u{b0}F", "gal", "in", "ft"] {
            assert!(!has_unit(&seen, unit), "{unit} in {seen:#?}");
        }
    }
}

#[test]
fn english_metric_has_a_point() {
    let seen = walked(&mut glass(Language::English, Habits::METRIC), "354.4");
    assert_eq!(seen[0], "354.4 g");
    assert!(has_between_digits(&seen, '.'), "{seen:#?}");
    assert!(!has_between_digits(&seen, ','), "{seen:#?}");
}

#[test]
fn in_the_united_states_everything_is_in_ounces_gallons_inches_and_fahrenheit() {
    let mut glass = glass(Language::English, UNITED_STATES);
    // The scale of this kitchen shows hundredths of an ounce.
    glass.bench.stove.scale_step = Mass::saturating_grams(0.01 * KitchenUnit::Ounce.si());
    let seen = walked(&mut glass, "12.5");
    assert_eq!(seen[0], "12.5 oz");
    for unit in ["oz", "gal", "\u{b0}F", "in", "ft", "kW"] {
        assert!(has_unit(&seen, unit), "{unit} in {seen:#?}");
    }
    for unit in ["g", "kg", "L", "mL", "\u{b0}C", "cm", "m", "L/kg", "g/min"] {
        assert!(!has_unit(&seen, unit), "{unit} in {seen:#?}");
    }
    assert!(seen.iter().any(|text| text.ends_with(" gal/lb")), "{seen:#?}");
}

#[test]
fn imperial_gallons_are_larger() {
    let imperial = Habits {
        volumes: Volumes::ImperialGallons,
        ..Habits::METRIC
    };
    let capacity = |habits| {
        let mut glass = glass(Language::English, habits);
        glass.bench.stove.pot.capacity = Volume::saturating_litres(18.184_36);
        glass.press(Press::Home(HomePress::Bench));
        row(&mut glass, "capacity").value
    };
    // NIST SP 811, B.8: an imperial gallon is 4.54609 L, one of the United States 3.785412 L.
    assert_eq!(capacity(imperial), "4.00 gal");
    assert_eq!(capacity(UNITED_STATES), "4.80 gal");
    assert_eq!(capacity(Habits::METRIC), "18.2 L");
}

fn row(glass: &mut Glass, key: &str) -> Row {
    let rows = glass.list().rows;
    rows.into_iter().find(|row| row.key == key).expect("a row")
}

#[test]
fn the_keypad_begins_with_the_unit_and_the_sign_of_the_dyer() {
    for (language, habits, point, unit) in [
        (Language::English, Habits::METRIC, ".", "g"),
        (Language::German, Habits::METRIC, ",", "g"),
        (Language::French, Habits::METRIC, ",", "g"),
        (Language::English, UNITED_STATES, ".", "oz"),
    ] {
        let mut glass = glass(language, habits);
        glass.press(Press::Home(HomePress::Begin));
        glass.press(Press::Goods(GoodsPress::KeyWeight));
        let empty = number(&mut glass);
        assert_eq!((empty.point.as_str(), empty.unit.as_str()), (point, unit));
        assert!(empty.units[0].chosen, "the chosen one stands first");
        let mut offered: Vec<String> = empty.units.iter().map(|unit| unit.key.clone()).collect();
        offered.sort();
        assert_eq!(offered, ["g", "kg", "lb", "oz"], "none of them is taken away");
        // The two keys are one: neither is a mark of thousands, and the glass shows what was understood.
        for typed in ["1,234", "1.234"] {
            glass.key_in(typed);
            assert_eq!(number(&mut glass).typed, format!("1{point}234"));
            for _ in typed.chars() {
                glass.press(Press::TakeBack);
            }
        }
        glass.key_in("1,234");
        glass.press(Press::FirmKey);
        let one_and_a_bit = if unit == "g" { "1X2 g" } else { "1X23 oz" };
        assert_eq!(glass.goods().weight, one_and_a_bit.replace('X', point));
    }
}

#[test]
fn what_is_wrong_with_a_number_is_said_and_the_number_stays() {
    let mut glass = glass(Language::German, Habits::METRIC);
    glass.press(Press::Home(HomePress::Begin));
    glass.press(Press::Goods(GoodsPress::KeyWeight));
    glass.key_in("0,0");
    glass.press(Press::FirmKey);
    let refused = number(&mut glass);
    assert_eq!(refused.typed, "0,0");
    assert!(!refused.doubt.is_empty());
}

#[test]
fn language_and_units_are_chosen_on_the_bench_and_are_what_is_kept() {
    let mut glass = Glass::new();
    let mut choose = |setting: &str, answer: &str| -> Bench {
        glass.press(Press::Home(HomePress::Bench));
        glass.choose(setting);
        let offered: Vec<String> = glass.list().rows.into_iter().map(|row| row.key).collect();
        assert!(offered.contains(&answer.to_owned()), "{answer} among {offered:?}");
        let [Wish::KeepBench(bench)] = glass.wish(Press::Choose(answer.into()))[..] else {
            panic!("the bench is kept")
        };
        glass.bench = bench;
        bench
    };
    choose("weights", "oz");
    choose("temperatures", "\u{b0}F");
    choose("volumes", "US gal");
    let bench = choose("clock", "12 h");
    assert_eq!(bench.habits, UNITED_STATES);
    assert_eq!(
        choose("volumes", "imperial gal").habits.volumes,
        Volumes::ImperialGallons
    );
    for language in Language::ALL {
        let bench = choose("language", language.tag());
        assert_eq!(bench.language, language);
        assert_eq!(bench_file::read(&bench_file::write(&bench)).unwrap(), bench);
    }
    let metric = [
        ("weights", "g"),
        ("temperatures", "\u{b0}C"),
        ("volumes", "L"),
        ("clock", "24 h"),
    ];
    let kept = metric.map(|(setting, answer)| choose(setting, answer));
    assert_eq!(kept[3].habits, Habits::METRIC);
    // Who can't read the screen finds the own name of the language.
    glass.press(Press::Home(HomePress::Bench));
    assert_eq!(row(&mut glass, "language").value, "Fran\u{e7}ais");
}

#[test]
fn a_figure_of_the_bench_is_shown_as_it_was_keyed_in_and_after_the_file_too() {
    for (setting, typed, shown) in [
        ("tap", "55", "55 \u{b0}F"),
        ("room", "71", "71 \u{b0}F"),
        ("capacity", "3.17", "3.17 gal"),
        ("diameter", "10.3", "10.3 in"),
        ("altitude", "5281", "5281 ft"),
    ] {
        let mut glass = glass(Language::English, UNITED_STATES);
        glass.press(Press::Home(HomePress::Bench));
        glass.choose(setting);
        glass.key_in(typed);
        let [Wish::KeepBench(bench)] = glass.wish(Press::FirmKey)[..] else {
            panic!("{setting} is kept")
        };
        glass.bench = bench_file::read(&bench_file::write(&bench)).unwrap();
        assert_eq!(glass.bench, bench);
        glass.press(Press::Home(HomePress::Bench));
        assert_eq!(row(&mut glass, setting).value, shown);
    }
}

/// Every number that the glass shows in a unit of the United States comes back as it was typed, however often it is
/// kept in metric: temperatures and measures as they stand in the bench's file, weights as the shelf counts them.
#[test]
fn nothing_is_lost_between_what_is_typed_and_what_is_shown() {
    let locale = glass(Language::English, UNITED_STATES).locale();
    let again = |number: f64, unit: &str| format!("{number} {unit}");
    for degrees in 33..=212 {
        let read = reading::temperature(&format!("{degrees} F")).unwrap();
        let kept = reading::temperature(&again(read.celsius(), "C")).unwrap();
        assert_eq!(locale.degrees(kept), format!("{degrees} \u{b0}F"));
        let tenth = format!("{degrees}.3");
        let kept: Temperature = reading::temperature(&format!("{tenth} F")).unwrap();
        assert_eq!(locale.degrees_fine(kept), format!("{tenth} \u{b0}F"));
    }
    for hundredths in (100..=3_000).step_by(7) {
        let typed = format!("{}.{:02}", hundredths / 100, hundredths % 100);
        let read = reading::volume(&format!("{typed} us-gal")).unwrap();
        let kept = reading::volume(&again(read.litres(), "L")).unwrap();
        assert_eq!(locale.litres(kept), format!("{typed} gal"));
    }
    for tenths in 1..=400 {
        let typed = format!("{}.{}", tenths / 10, tenths % 10);
        let read: Length = reading::length(&format!("{typed} in")).unwrap();
        let kept = reading::length(&again(read.centimetres(), "cm")).unwrap();
        assert_eq!(locale.depth(kept), format!("{typed} in"));
    }
    for thousandths in 1..1_000 {
        let typed = format!("0.{thousandths:03}");
        let mass = reading::mass(&format!("{typed} oz")).unwrap();
        assert_eq!(locale.grams(Milligrams::of(mass).mass()), format!("{typed} oz"));
    }
    for hundredths in 100..1_000 {
        let typed = format!("{}.{:02}", hundredths / 100, hundredths % 100);
        let mass = reading::mass(&format!("{typed} oz")).unwrap();
        assert_eq!(
            locale.goods_weight(Milligrams::of(mass).mass()),
            format!("{typed} oz")
        );
    }
}

/// The same bath, keyed in and begun in the units of a kitchen.
fn begun(habits: Habits, tap: &str, room: &str, weight: &str) -> Box<BathSheet> {
    let mut glass = glass(Language::English, habits);
    for (setting, typed) in [("tap", tap), ("room", room)] {
        glass.press(Press::Home(HomePress::Bench));
        glass.choose(setting);
        glass.key_in(typed);
        let [Wish::KeepBench(bench)] = glass.wish(Press::FirmKey)[..] else {
            panic!("{setting} is kept")
        };
        glass.bench = bench_file::read(&bench_file::write(&bench)).unwrap();
    }
    glass.begin(weight, "alum-tartar-studio");
    glass.press(Press::FirmKey);
    glass.press(Press::FirmKey);
    match glass.wish(Press::FirmKey).remove(0) {
        Wish::Begin(_, sheet) => sheet,
        other => panic!("{other:?}"),
    }
}

/// 8 oz avoirdupois are 226.796185 g (NIST Handbook 44, appendix C); 59 and 68 degrees Fahrenheit are 15 and 20
/// degrees Celsius to the digit.
#[test]
fn a_bath_begun_in_ounces_and_fahrenheit_is_the_metric_one_to_the_milligram() {
    let ours = begun(UNITED_STATES, "59", "68", "8");
    let metric = begun(Habits::METRIC, "15", "20", "226.796");

    let milligrams = |sheet: &BathSheet| -> Vec<Milligrams> {
        let additions = sheet.plan.additions.iter();
        additions
            .map(|addition| Milligrams::of(addition.target))
            .collect()
    };
    assert_eq!(milligrams(&ours), milligrams(&metric));
    assert!(milligrams(&ours).iter().all(|weight| !weight.is_none()));
    assert_eq!(
        Milligrams::of(ours.plan.goods.dry),
        Milligrams::of(metric.plan.goods.dry)
    );
    let millilitres = |volume: Volume| (volume.litres() * 1_000.0).round();
    assert!((millilitres(ours.plan.bath) - millilitres(metric.plan.bath)).abs() < 0.5);
    assert!((millilitres(ours.fill) - millilitres(metric.fill)).abs() < 0.5);
    assert!((ours.plan.room.celsius() - metric.plan.room.celsius()).abs() < 1e-9);
    assert_eq!(ours.plan.steps.len(), metric.plan.steps.len());
    for (ours, metric) in ours.legs.iter().zip(&metric.legs) {
        let apart = ours.ends.likely.minutes() - metric.ends.likely.minutes();
        assert!(apart.abs() < 1.0 / 60.0, "{apart} min");
    }
}

#[test]
fn what_the_scale_of_the_bench_shows_is_offered_in_its_own_unit() {
    let offered = |habits| -> Vec<String> {
        let mut glass = glass(Language::English, habits);
        glass.press(Press::Home(HomePress::Bench));
        glass.choose("scale");
        glass.list().rows.into_iter().map(|row| row.label).collect()
    };
    let grams = ["0.01 g", "0.1 g", "1 g", "5 g"];
    assert_eq!(offered(Habits::METRIC), grams);
    let ounces = ["0.001 oz", "0.01 oz", "0.05 oz", "0.1 oz"];
    assert_eq!(offered(UNITED_STATES), [ounces, grams].concat());

    let mut glass = glass(Language::English, UNITED_STATES);
    glass.press(Press::Home(HomePress::Bench));
    glass.choose("scale");
    let [Wish::KeepBench(bench)] = glass.wish(Press::Choose("0.01-oz".into()))[..] else {
        panic!("the scale is kept")
    };
    glass.bench = bench_file::read(&bench_file::write(&bench)).unwrap();
    glass.press(Press::Home(HomePress::Bench));
    assert_eq!(row(&mut glass, "scale").value, "0.01 oz");
}
