//! The first minutes, pressed without a window: whatever way is gone through the questions, the bench is what was
//! chosen, and it is kept once.
//!
//! Gallons, feet and inches: NIST SP 811 (2008), appendix B.8; the imperial gallon: the Weights and Measures Act 1985,
//! schedule 1. The usual sizes and powers are common practice, no source.

use potside::craft::quantity::{Altitude, Length, Power, Volume};
use potside::craft::vessel::{Burner, BurnerKind, Place, Pot, PotMetal};
use potside::view::bench::Bench;
use potside::view::locale::{Habits, Hours, Language, Temperatures, Volumes, Weights};
use potside::view::pages::{First, HomePress, Page, Pages, Press, Wish};
use potside::view::screen::Screen;

use crate::support::glass::{Glass, NOW};

/// A glass that does what its pages wish for, and notes what they wished.
struct Beginner {
    glass: Glass,
    kept: Vec<Bench>,
    sounded_at: Vec<u8>,
    wished: Vec<Wish>,
    presses: u32,
}

impl Beginner {
    fn new() -> Self {
        let mut glass = Glass::new();
        glass.pages = Pages::first(NOW);
        Self {
            glass,
            kept: Vec::new(),
            sounded_at: Vec::new(),
            wished: Vec::new(),
            presses: 0,
        }
    }

    /// As new, with the same book.
    fn begin_again(&mut self) {
        self.glass.pages = Pages::first(NOW);
        self.glass.bench = Bench::default();
        self.kept.clear();
        self.wished.clear();
    }

    fn press(&mut self, press: Press) {
        self.presses += 1;
        for wish in self.glass.wish(press) {
            match &wish {
                Wish::GoBy(bench) => self.glass.bench = *bench,
                Wish::KeepBench(bench) => {
                    self.glass.bench = *bench;
                    self.kept.push(*bench);
                }
                Wish::SoundCheck => self.sounded_at.push(self.glass.bench.volume_percent),
                _ => {}
            }
            self.wished.push(wish);
        }
    }

    fn page(&self) -> Page {
        self.glass.pages.page().clone()
    }

    /// Chooses the answer at that place.
    fn choose(&mut self, place: usize) {
        let key = self.glass.list().rows[place].key.clone();
        self.press(Press::Choose(key));
    }

    fn key_in(&mut self, number: &str, unit: &str) {
        self.press(Press::Unit(unit.into()));
        for sign in number.chars() {
            self.press(match sign {
                '.' => Press::Point,
                digit => Press::Digit(digit),
            });
        }
        self.press(Press::FirmKey);
    }

    fn marked(&mut self) -> Option<usize> {
        self.glass.list().rows.iter().position(|row| row.chosen)
    }
}

const LANGUAGES: [Language; 3] = [Language::English, Language::German, Language::French];
const KINDS: [BurnerKind; 4] = [
    BurnerKind::Induction,
    BurnerKind::Ceramic,
    BurnerKind::Coil,
    BurnerKind::Gas,
];

fn habits(units: usize) -> Habits {
    let old = |volumes| Habits {
        weights: Weights::Ounces,
        temperatures: Temperatures::Fahrenheit,
        volumes,
        hours: Hours::Twelve,
    };
    [
        Habits::METRIC,
        old(Volumes::UsGallons),
        old(Volumes::ImperialGallons),
    ][units]
}

fn metres(units: usize, height: usize) -> f64 {
    match units {
        0 => [0.0, 300.0, 600.0, 1_000.0, 1_500.0][height],
        _ => [0.0, 1_000.0, 2_000.0, 3_500.0, 5_000.0][height] * 0.304_8,
    }
}

fn pot(units: usize, pot: usize) -> Pot {
    let (litres, wide_cm) = match units {
        0 => [(6.0, 22.0), (12.0, 26.0), (20.0, 30.0)][pot],
        1 => {
            [(1.5, 9.0), (3.0, 10.0), (5.0, 12.0)].map(|(gal, inch)| (gal * 3.785_411_784, inch * 2.54))[pot]
        }
        _ => [(1.5, 9.0), (2.5, 10.0), (4.0, 12.0)].map(|(gal, inch)| (gal * 4.546_09, inch * 2.54))[pot],
    };
    Pot {
        capacity: Volume::saturating_litres(litres),
        diameter: Length::saturating_centimetres(wide_cm),
        metal: PotMetal::Stainless,
    }
}

fn watts(kind: BurnerKind, power: usize) -> f64 {
    match kind {
        BurnerKind::Gas => [1_800.0, 3_000.0, 5_000.0][power],
        BurnerKind::Induction => [1_400.0, 2_000.0, 3_500.0][power],
        BurnerKind::Ceramic => [1_200.0, 1_800.0, 2_300.0][power],
        BurnerKind::Coil => [1_000.0, 1_500.0, 2_000.0][power],
    }
}

/// One way through: which answer to each question, the last of height, pot and power being a keyed-in figure.
#[derive(Debug, Clone, Copy)]
struct Way {
    language: usize,
    units: usize,
    height: usize,
    pot: usize,
    kind: usize,
    power: usize,
    sound: usize,
}

impl Way {
    fn all() -> impl Iterator<Item = Self> {
        let counts = [3, 3, 6, 4, 4, 4, 3];
        let ways: usize = counts.iter().product();
        (0..ways).map(move |number| {
            let mut rest = number;
            let mut place = |count: usize| {
                let place = rest % count;
                rest /= count;
                place
            };
            Self {
                language: place(3),
                units: place(3),
                height: place(6),
                pot: place(4),
                kind: place(4),
                power: place(4),
                sound: place(3),
            }
        })
    }

    fn go(self, beginner: &mut Beginner) {
        beginner.choose(self.language);
        beginner.choose(self.units);
        beginner.choose(self.height);
        if self.height == 5 {
            beginner.key_in("1234", "m");
        }
        beginner.choose(self.pot);
        if self.pot == 3 {
            beginner.key_in("9.5", "L");
            beginner.key_in("24", "cm");
        }
        beginner.choose(self.kind);
        beginner.choose(self.power);
        if self.power == 3 {
            beginner.key_in("2.7", "kW");
        }
        if self.sound == 1 {
            beginner.choose(1);
            beginner.choose(0);
        } else {
            beginner.choose(self.sound);
        }
    }

    fn bench(self) -> Bench {
        let mut bench = Bench {
            language: LANGUAGES[self.language],
            habits: habits(self.units),
            volume_percent: [80, 100, 0][self.sound],
            ..Bench::default()
        };
        bench.stove.place = Place::Altitude(Altitude::saturating_metres(match self.height {
            5 => 1_234.0,
            height => metres(self.units, height),
        }));
        bench.stove.pot = match self.pot {
            3 => Pot {
                capacity: Volume::saturating_litres(9.5),
                diameter: Length::saturating_centimetres(24.0),
                metal: PotMetal::Stainless,
            },
            place => pot(self.units, place),
        };
        let kind = KINDS[self.kind];
        bench.stove.burner = Burner {
            kind,
            power: Power::saturating_watts(match self.power {
                3 => 2_700.0,
                power => watts(kind, power),
            }),
        };
        bench
    }
}

/// Equal but for what a floating-point product may differ in its last place.
fn assert_same(got: &Bench, wanted: &Bench, way: &str) {
    let near = |one: f64, other: f64| (one - other).abs() < 1e-9;
    let (Place::Altitude(up), Place::Altitude(wanted_up)) = (got.stove.place, wanted.stove.place) else {
        panic!("{way}: {:?}", got.stove.place)
    };
    let (pot, wanted_pot) = (got.stove.pot, wanted.stove.pot);
    assert!(near(up.metres(), wanted_up.metres()), "{way}: {up:?}");
    assert!(
        near(pot.capacity.litres(), wanted_pot.capacity.litres()),
        "{way}: {pot:?}"
    );
    assert!(
        near(pot.diameter.centimetres(), wanted_pot.diameter.centimetres()),
        "{way}: {pot:?}"
    );
    let mut rounded = *got;
    rounded.stove.place = wanted.stove.place;
    rounded.stove.pot.capacity = wanted_pot.capacity;
    rounded.stove.pot.diameter = wanted_pot.diameter;
    assert_eq!(&rounded, wanted, "{way}");
}

#[test]
fn whatever_way_is_gone_the_bench_is_what_was_chosen_and_is_kept_once() {
    let mut ways = 0;
    let mut beginner = Beginner::new();
    for way in Way::all() {
        beginner.begin_again();
        way.go(&mut beginner);
        assert_eq!(beginner.kept.len(), 1, "{way:?}");
        assert_same(&beginner.kept[0], &way.bench(), &format!("{way:?}"));
        assert_eq!(beginner.page(), Page::Stove, "{way:?}");
        ways += 1;
    }
    assert_eq!(ways, 3 * 3 * 6 * 4 * 4 * 4 * 3);
}

#[test]
fn seven_presses_of_one_key_take_what_is_marked() {
    let mut beginner = Beginner::new();
    for first in First::ALL {
        assert_eq!(beginner.page(), Page::First(first));
        assert!(beginner.marked().is_some(), "{first:?}: nothing is marked");
        beginner.press(Press::FirmKey);
    }
    assert_eq!(beginner.presses, 7);
    assert_eq!(beginner.kept, [Bench::default()]);
    assert_eq!(beginner.page(), Page::Stove);
}

#[test]
fn in_gallons_too_the_marked_answers_are_among_the_usual_ones() {
    for units in [1, 2] {
        let mut beginner = Beginner::new();
        beginner.choose(0);
        beginner.choose(units);
        assert_eq!(beginner.marked(), Some(0), "sea level");
        beginner.press(Press::FirmKey);
        assert_eq!(beginner.marked(), Some(1), "the middle pot");
        beginner.press(Press::FirmKey);
        let kept = beginner.glass.bench.stove.pot;
        assert!((kept.capacity.litres() - pot(units, 1).capacity.litres()).abs() < 1e-9);
    }
}

#[test]
fn whoever_skips_keeps_what_was_answered_and_the_usual_rest() {
    let way = Way {
        language: 1,
        units: 1,
        height: 3,
        pot: 2,
        kind: 3,
        power: 2,
        sound: 2,
    };
    for (answered, first) in First::ALL.into_iter().enumerate() {
        let places = [way.language, way.units, way.height, way.pot, way.kind, way.power];
        let mut beginner = Beginner::new();
        for place in &places[..answered] {
            beginner.choose(*place);
        }
        assert_eq!(beginner.page(), Page::First(first));
        beginner.press(Press::Side("skip-the-rest".into()));

        let (all, usual) = (way.bench(), Bench::default());
        let mut wanted = usual;
        wanted.language = if answered > 0 {
            all.language
        } else {
            usual.language
        };
        wanted.habits = if answered > 1 { all.habits } else { usual.habits };
        if answered > 2 {
            wanted.stove.place = all.stove.place;
        }
        if answered > 3 {
            wanted.stove.pot = all.stove.pot;
        }
        if answered > 4 {
            wanted.stove.burner = all.stove.burner;
            wanted.stove.burner.power = Power::saturating_watts(3_000.0);
        }
        if answered > 5 {
            wanted.stove.burner = all.stove.burner;
        }
        assert_eq!(beginner.kept.len(), 1, "{first:?}");
        assert_same(&beginner.kept[0], &wanted, &format!("skipped at {first:?}"));
        assert_eq!(beginner.page(), Page::Stove);
    }
}

#[test]
fn back_leads_to_the_question_before_and_what_was_answered_is_marked() {
    let mut beginner = Beginner::new();
    let answers = [2, 0, 4, 2, 1, 0];
    for place in answers {
        assert!(
            beginner.page() == Page::First(First::Language) || !beginner.glass.pages.is_at_the_beginning()
        );
        beginner.choose(place);
    }
    for (place, first) in answers.into_iter().zip(First::ALL).rev() {
        beginner.press(Press::Back);
        assert_eq!(beginner.page(), Page::First(first));
        assert_eq!(beginner.marked(), Some(place), "{first:?}");
    }
    assert!(beginner.glass.pages.is_at_the_beginning());
    beginner.press(Press::Back);
    assert_eq!(
        beginner.page(),
        Page::First(First::Language),
        "there is nothing before it"
    );
    assert!(beginner.kept.is_empty(), "nothing is kept on the way");
}

#[test]
fn another_answer_after_going_back_takes_the_place_of_the_first() {
    let mut beginner = Beginner::new();
    for place in [0, 0, 5] {
        beginner.choose(place);
    }
    beginner.key_in("850", "m");
    assert_eq!(beginner.page(), Page::First(First::Pot));
    beginner.press(Press::Back);
    assert_eq!(beginner.marked(), Some(5));
    assert_eq!(
        beginner.glass.list().rows[5].detail,
        "850 m",
        "what was keyed in is shown"
    );
    beginner.choose(1);
    beginner.press(Press::Side("skip-the-rest".into()));
    let wanted = Place::Altitude(Altitude::saturating_metres(300.0));
    assert_eq!(beginner.kept[0].stove.place, wanted);
}

#[test]
fn a_keypad_left_again_changes_nothing() {
    let mut beginner = Beginner::new();
    for place in [0, 0, 5] {
        beginner.choose(place);
    }
    beginner.press(Press::Digit('9'));
    beginner.press(Press::Back);
    assert_eq!(beginner.page(), Page::First(First::Height));
    assert_eq!(beginner.glass.bench, Bench::default());
}

#[test]
fn louder_is_heard_louder_and_there_is_a_loudest() {
    let mut beginner = Beginner::new();
    for _ in 0..6 {
        beginner.press(Press::FirmKey);
    }
    assert_eq!(
        beginner.sounded_at,
        [80],
        "it sounds as soon as the question is asked"
    );
    beginner.choose(1);
    beginner.choose(1);
    assert_eq!(beginner.sounded_at, [80, 100, 100]);
    assert_eq!(beginner.page(), Page::First(First::Sound), "it is still asked");
    assert_eq!(beginner.glass.list().rows[1].label, "Once more");
    beginner.choose(0);
    assert_eq!(beginner.kept[0].volume_percent, 100);
}

#[test]
fn each_question_is_one_page_of_big_answers_with_one_line_of_help() {
    // So many characters of the note fit the head of the glass.
    const NOTE_MOST: usize = 52;
    let mut beginner = Beginner::new();
    for (index, first) in First::ALL.into_iter().enumerate() {
        let list = beginner.glass.list();
        assert!(list.big && (3..=6).contains(&list.rows.len()), "{first:?}");
        assert!(
            list.note.starts_with(&format!("{} of 7: ", index + 1)),
            "{}",
            list.note
        );
        assert!(list.note.chars().count() <= NOTE_MOST, "{}", list.note);
        assert!(
            list.foot.iter().any(|act| act.key == "skip-the-rest"),
            "{first:?}"
        );
        assert_eq!(
            list.foot.iter().any(|act| act.key == "demo"),
            first == First::Language
        );
        assert_eq!(list.rows.iter().filter(|row| row.chosen).count(), 1, "{first:?}");
        beginner.press(Press::FirmKey);
    }
}

#[test]
fn gas_is_shown_as_it_is_sold_where_gallons_are_read() {
    // 1 kW is 3412.14 Btu/h (NIST SP 811, appendix B.8: 1 Btu, international table, is 1055.055 852 62 J).
    let mut beginner = Beginner::new();
    for place in [0, 1, 0, 1, 3] {
        beginner.choose(place);
    }
    let details: Vec<String> = beginner
        .glass
        .list()
        .rows
        .into_iter()
        .map(|row| row.detail)
        .collect();
    assert_eq!(
        details[..3],
        ["about 6 000 Btu/h", "about 10 000 Btu/h", "about 17 000 Btu/h"]
    );
}

#[test]
fn a_demo_bath_is_rehearsed_at_once_and_leads_back_to_the_questions() {
    let mut beginner = Beginner::new();
    beginner.press(Press::Side("demo".into()));
    assert_eq!(beginner.presses, 1);
    let [Wish::Rehearse(sheet)] = beginner.wished.as_slice() else {
        panic!("{:?}", beginner.wished)
    };
    assert!(sheet.refusals.is_empty());
    assert!(beginner.glass.pages.is_rehearsing());
    beginner.press(Press::Back);
    assert_eq!(beginner.wished.last(), Some(&Wish::EndRehearsal));
    assert_eq!(beginner.page(), Page::First(First::Language));
    assert!(beginner.kept.is_empty());
}

#[test]
fn after_the_first_minutes_the_bench_is_set_as_ever() {
    let mut beginner = Beginner::new();
    beginner.press(Press::Side("skip-the-rest".into()));
    beginner.press(Press::Home(HomePress::Bench));
    beginner.press(Press::Choose("altitude".into()));
    beginner.key_in("640", "m");
    assert_eq!(beginner.page(), Page::Bench);
    assert_eq!(beginner.kept.len(), 2);
    beginner.press(Press::Back);
    assert!(matches!(beginner.glass.screen(), Screen::Stove(_)));
}
