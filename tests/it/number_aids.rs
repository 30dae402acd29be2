//! Entering numbers without a keypad: steps, the value of last time, and where a reading lies to its target.
//!
//! An ounce is 28.349 523 125 g, degrees Fahrenheit are 1.8 times degrees Celsius and 32: NIST SP 811 (2008), B.8.

use std::sync::Arc;

use potside::craft::quantity::{Mass, Temperature};
use potside::machine::{Ask, Input, PotNo, Refusal};
use potside::sheet::plan::{Plan, StepIndex};
use potside::view::locale::{Habits, Temperatures, Weights};
use potside::view::pages::{GoodsPress, HomePress, Page, Press, WeighedBefore, Wish};
use potside::view::screen::{GaugeSide, NumberScreen, Screen};

use crate::support::glass::Glass;
use crate::support::plans::{alum_bath, celsius, grams};
use crate::support::script::Stage;

const POT: PotNo = PotNo(1);
const TO_WEIGHING: &str = "0:00 pot 1 begin\n0:01 pot 1 confirm";
const TO_RAISE: &str = "
    0:00 pot 1 begin
    0:01 pot 1 confirm
    0:02 pot 1 confirm
    0:05 pot 1 confirm
    0:10 pot 1 confirm
    0:12 pot 1 confirm
    0:40 pot 1 confirm";

fn glass(plan: &Arc<Plan>, script: &str) -> Glass {
    let mut stage = Stage::new(plan);
    let told = stage.play(script);
    assert!(!told.contains("refused"), "{told}");
    let mut glass = Glass::new();
    glass.now = stage.now();
    glass.machine = stage.machine;
    glass.pages.go_to_pot(POT);
    glass
}

fn weighing() -> Glass {
    let mut glass = glass(&alum_bath(), TO_WEIGHING);
    glass.side("weighed");
    glass
}

fn number(glass: &mut Glass) -> NumberScreen {
    match glass.screen() {
        Screen::Number(number) => number,
        other => panic!("{other:?}"),
    }
}

fn key(glass: &mut Glass, key: &str) {
    glass.press(Press::Keypad(key.into()));
}

fn typed(glass: &mut Glass, keys: &[&str]) -> String {
    for each in keys {
        key(glass, each);
    }
    number(glass).typed
}

fn steps(glass: &mut Glass) -> Vec<String> {
    number(glass).steps.into_iter().map(|step| step.label).collect()
}

/// Keys a number in with the digits, in the place of what was there.
fn key_in(glass: &mut Glass, text: &str) {
    for _ in 0..8 {
        key(glass, "erase");
    }
    for sign in text.chars() {
        glass.press(if sign == '.' {
            Press::Point
        } else {
            Press::Digit(sign)
        });
    }
}

#[test]
fn a_weighing_is_stepped_from_its_target_and_nothing_is_filled_in_before() {
    let mut glass = weighing();
    let empty = number(&mut glass);
    assert_eq!(
        (empty.typed.as_str(), empty.hint.as_str(), empty.slab.enabled),
        ("", "15.0", false)
    );
    assert_eq!(
        steps(&mut glass),
        ["\u{2212}1 g", "+1 g", "\u{2212}0.1 g", "+0.1 g"]
    );
    assert_eq!(
        glass.wish(Press::FirmKey),
        [],
        "a reading nobody entered is not taken"
    );

    assert_eq!(typed(&mut glass, &["down"]), "14.9");
    assert_eq!(typed(&mut glass, &["down", "down"]), "14.7");
    assert_eq!(typed(&mut glass, &["up-ten"]), "15.7");
    assert_eq!(typed(&mut glass, &["down-ten", "up"]), "14.8");
    let mass = grams(14.8);
    let told = Input::Pot(
        POT,
        Ask::Weighed {
            step: StepIndex(1),
            mass,
            sure: false,
        },
    );
    assert_eq!(glass.wish(Press::FirmKey), [Wish::Tell(told)]);
}

#[test]
fn steps_and_digits_change_places_and_work_on_the_same_number() {
    let mut glass = weighing();
    assert_eq!(typed(&mut glass, &["up"]), "15.1");
    key(&mut glass, "swap");
    let digits = number(&mut glass);
    assert_eq!((digits.steps.len(), digits.typed.as_str()), (0, "15.1"));
    assert_eq!(
        typed(&mut glass, &["5"]),
        "15.15",
        "digits go on where the steps stopped"
    );
    key(&mut glass, "swap");
    assert_eq!(
        typed(&mut glass, &["up"]),
        "15.25",
        "and no figure is lost in a step"
    );
}

#[test]
fn the_bar_says_what_the_machine_will_say() {
    let mut glass = weighing();
    let (mut sides, mut place_before) = (Vec::new(), 0.0);
    for hundredths in 1_400..=1_600_u32 {
        let text = format!("{}.{:02}", hundredths / 100, hundredths % 100);
        key_in(&mut glass, &text);
        let gauge = number(&mut glass).gauge;

        let asked = Ask::Weighed {
            step: StepIndex(1),
            mass: Mass::saturating_grams(text.parse().unwrap()),
            sure: false,
        };
        let is_far = matches!(
            glass.machine.judge(&Input::Pot(POT, asked), glass.now),
            Err(Refusal::FarOff { .. })
        );
        assert_eq!(gauge.side != GaugeSide::Within, is_far, "{text}");
        let in_band = (1.0 / 3.0 - 1e-4..=2.0 / 3.0 + 1e-4).contains(&gauge.at);
        assert_eq!(in_band, gauge.side == GaugeSide::Within, "{text} at {}", gauge.at);
        assert!(gauge.at >= place_before, "{text}: more lies to the left");
        place_before = gauge.at;
        sides.push(gauge.side);
    }
    for side in [GaugeSide::Under, GaugeSide::Within, GaugeSide::Over] {
        assert!(sides.contains(&side), "{side:?} never came");
    }
}

#[test]
fn the_side_is_said_in_words_with_the_amount() {
    let mut glass = weighing();
    let mut word = |text: &str| {
        key_in(&mut glass, text);
        number(&mut glass).gauge.word
    };
    assert_eq!(word("11.6"), "3.40 g under");
    assert_eq!(word("15.3"), "within");
    assert_eq!(word("16.5"), "1.50 g over");
    assert_eq!(word(""), "");
    assert!(
        number(&mut glass).gauge.shown,
        "the band is there before the needle"
    );
}

#[test]
fn steps_fit_the_scale_and_the_band() {
    // Target, tolerance, scale, the smaller step; the larger is ten of it.
    for (target, tolerance, scale, step) in [
        (15.0, 0.3, 0.1, "0.1"),
        (15.0, 0.3, 0.01, "0.1"),
        (1.5, 0.03, 0.01, "0.01"),
        (1_250.0, 25.0, 0.1, "10"),
        (1_250.0, 12.5, 0.1, "1"),
        (15.0, 0.3, 1.0, "1"),
        (350.0, 10.0, 5.0, "5"),
    ] {
        let mut plan = (*alum_bath()).clone();
        plan.additions[0].target = grams(target);
        plan.additions[0].tolerance = grams(tolerance);
        let mut glass = glass(&Arc::new(plan), TO_WEIGHING);
        glass.bench.stove.scale_step = grams(scale);
        glass.side("weighed");
        assert_eq!(
            steps(&mut glass)[3],
            format!("+{step} g"),
            "{target} g on a scale of {scale} g"
        );
    }
}

#[test]
fn in_ounces_a_step_is_a_decimal_one() {
    let mut glass = glass(&alum_bath(), TO_WEIGHING);
    glass.bench.habits = Habits {
        weights: Weights::Ounces,
        ..Habits::METRIC
    };
    glass.side("weighed");
    let screen = number(&mut glass);
    // 15 g are 0.529 oz.
    assert_eq!((screen.unit.as_str(), screen.hint.as_str()), ("oz", "0.53"));
    assert_eq!(steps(&mut glass)[3], "+0.01 oz");
    assert_eq!(typed(&mut glass, &["up"]), "0.54");
    // 0.54 oz are 15.31 g: over by 0.31 g, which is 0.011 oz.
    assert_eq!(number(&mut glass).gauge.word, "0.011 oz over");
}

fn before(recipe: &str, ware: &str, planned: f64, actual: f64) -> WeighedBefore {
    WeighedBefore {
        recipe_id: recipe.into(),
        ware_id: ware.into(),
        planned: grams(planned),
        actual: grams(actual),
    }
}

#[test]
fn last_time_is_offered_where_as_much_went_into_the_same_bath() {
    let mut glass = weighing();
    assert_eq!(number(&mut glass).last.label, "", "nothing is known yet");
    glass.weighed = vec![
        before("another-bath", "potash-alum", 15.0, 15.2),
        before("test-alum", "cream-of-tartar", 15.0, 15.3),
        before("test-alum", "potash-alum", 30.0, 30.1),
        before("test-alum", "potash-alum", 15.1, 14.8),
        before("test-alum", "potash-alum", 15.0, 15.4),
    ];
    assert_eq!(number(&mut glass).last.label, "last time 14.8 g");
    assert_eq!(typed(&mut glass, &["last"]), "14.8");
    assert_eq!(typed(&mut glass, &["up"]), "14.9", "and stepped from");
}

#[test]
fn last_time_is_as_fine_as_the_scale() {
    let mut glass = weighing();
    glass.bench.stove.scale_step = grams(0.01);
    glass.weighed = vec![before("test-alum", "potash-alum", 15.0, 14.83)];
    assert_eq!(number(&mut glass).last.label, "last time 14.83 g");
    assert_eq!(typed(&mut glass, &["last"]), "14.83");
}

#[test]
fn a_thermometer_is_stepped_by_one_degree_from_where_the_bath_should_come_or_was_read() {
    let mut glass = glass(&alum_bath(), TO_RAISE);
    glass.side("reading");
    assert!(steps(&mut glass).is_empty(), "digits stand first");
    key(&mut glass, "swap");
    assert_eq!(
        steps(&mut glass),
        ["\u{2212}10 C", "+10 C", "\u{2212}1 C", "+1 C"]
    );
    assert_eq!(
        typed(&mut glass, &["down"]),
        "84",
        "from 85, where the raise should end"
    );
    let wished = glass.wish(Press::FirmKey);
    assert_eq!(wished, [Wish::Tell(Input::Pot(POT, Ask::Reading(celsius(84.0))))]);

    let mut glass = glass_read(62.0);
    assert_eq!(number(&mut glass).last.label, "last time 62 C");
    assert_eq!(typed(&mut glass, &["up-ten", "up"]), "73");
    assert_eq!(typed(&mut glass, &["last"]), "62");
}

fn glass_read(degrees: f64) -> Glass {
    let script = format!("{TO_RAISE}\n0:50 pot 1 reading {degrees}");
    let mut glass = glass(&alum_bath(), &script);
    glass.side("reading");
    key(&mut glass, "swap");
    glass
}

#[test]
fn in_fahrenheit_a_step_is_a_degree_fahrenheit() {
    let script = format!("{TO_RAISE}\n0:50 pot 1 reading 60");
    let mut glass = glass(&alum_bath(), &script);
    glass.bench.habits = Habits {
        temperatures: Temperatures::Fahrenheit,
        ..Habits::METRIC
    };
    glass.side("reading");
    key(&mut glass, "swap");
    // 60 C are 140 F.
    assert_eq!(number(&mut glass).last.label, "last time 140 F");
    assert_eq!(typed(&mut glass, &["up"]), "141");
    let wished = glass.wish(Press::FirmKey);
    let [Wish::Tell(Input::Pot(_, Ask::Reading(read)))] = wished.as_slice() else {
        panic!("{wished:?}")
    };
    let wanted = Temperature::saturating_celsius((141.0 - 32.0) / 1.8);
    assert!((read.celsius() - wanted.celsius()).abs() < 1e-9);
}

fn goods(glass: &mut Glass) {
    glass.press(Press::Home(HomePress::Begin));
    glass.press(Press::Goods(GoodsPress::KeyWeight));
}

#[test]
fn goods_are_keyed_in_and_stepped_by_the_third_figure() {
    let mut glass = Glass::new();
    goods(&mut glass);
    assert!(steps(&mut glass).is_empty(), "digits stand first");
    assert!(!number(&mut glass).gauge.shown, "goods have no target");
    key(&mut glass, "swap");
    assert_eq!(
        steps(&mut glass),
        ["\u{2212}10 g", "+10 g", "\u{2212}1 g", "+1 g"]
    );
    assert_eq!(typed(&mut glass, &["down"]), "0", "less than nothing is nothing");
    assert_eq!(typed(&mut glass, &["up-ten", "up-ten", "up"]), "21");
}

#[test]
fn the_weight_keyed_in_last_is_offered_for_the_next_goods() {
    let mut glass = Glass::new();
    goods(&mut glass);
    assert_eq!(number(&mut glass).last.label, "");
    key_in(&mut glass, "1250");
    glass.press(Press::FirmKey);
    glass.press(Press::Back);
    assert_eq!(glass.pages.page(), &Page::Stove);

    goods(&mut glass);
    key(&mut glass, "swap");
    let screen = number(&mut glass);
    assert_eq!(screen.last.label, "last time 1250 g");
    assert_eq!(screen.typed, "", "it is offered, not taken");
    assert_eq!(steps(&mut glass)[3], "+10 g");
    assert_eq!(typed(&mut glass, &["last"]), "1250");
    glass.press(Press::Unit("kg".into()));
    assert_eq!(number(&mut glass).last.label, "last time 1.25 kg");
}

#[test]
fn figures_of_the_bench_have_no_steps() {
    let mut glass = Glass::new();
    glass.press(Press::Home(HomePress::Bench));
    glass.choose("altitude");
    let screen = number(&mut glass);
    assert_eq!(screen.swap.label, "");
    assert_eq!(
        typed(&mut glass, &["up"]),
        "",
        "a step that isn't there does nothing"
    );
}

#[test]
fn a_number_too_long_for_the_glass_is_not_stepped_to() {
    let mut glass = weighing();
    key_in(&mut glass, "9999.95");
    assert_eq!(typed(&mut glass, &["up-ten"]), "9999.95");
}
