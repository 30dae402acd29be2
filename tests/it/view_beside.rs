//! The bath sheet beside other pots: what it says, the starts it offers, and a start that is put off.

use std::fmt::Write as _;

use expect_test::expect;
use potside::craft::time::{Moment, Span, Stretch};
use potside::machine::PotNo;
use potside::view::beside::minute_of;
use potside::view::pages::{HomePress, Page, Press, Wish};
use potside::view::screen::{Screen, SheetScreen, StovePot, StripLook};

use crate::support::glass::Glass;
use crate::support::script::alum_in_hold;

/// A glass beside a stove on which pot 1 has held its alum for so long, at 1:00 plus that.
fn beside_pot_1(held: u64) -> Glass {
    let stage = alum_in_hold(held, 20);
    let mut glass = Glass::new();
    glass.now = stage.now();
    glass.machine = stage.machine;
    glass
}

/// The sheet of an alum bath of the book, beside pot 1.
fn sheet_beside(held: u64) -> (Glass, SheetScreen) {
    let mut glass = beside_pot_1(held);
    glass.begin("250", "alum-tartar-studio");
    let sheet = glass.sheet();
    (glass, sheet)
}

fn stove(glass: &mut Glass) -> Vec<StovePot> {
    match glass.screen() {
        Screen::Stove(stove) => stove.pots,
        other => panic!("{other:?}"),
    }
}

fn pass(glass: &mut Glass, span: Span) {
    glass.now = glass.now.plus(span);
}

/// Puts the start off by the first offer; the glass is at home then.
fn put_off() -> Glass {
    let (mut glass, sheet) = sheet_beside(MEETS);
    glass.choose(&sheet.beside.starts[0].key);
    glass
}

/// So long has pot 1 held when its end falls upon what the new bath can't leave.
const MEETS: u64 = 27;

#[test]
fn an_empty_stove_leaves_the_sheet_as_it_was() {
    let mut glass = Glass::new();
    glass.begin("250", "alum-tartar-studio");
    let sheet = glass.sheet();
    assert_eq!(*sheet.beside, Default::default());
}

#[test]
fn what_meets_is_said_with_its_time_and_a_later_start_offered() {
    let (_, sheet) = sheet_beside(MEETS);
    let starts: String = sheet
        .beside
        .starts
        .iter()
        .map(|start| format!("{} | {} | {}\n", start.label, start.value, start.detail))
        .collect();
    expect![[r#"
        with pot 1: enter at 01:59 meets pot 1's heat off (a guess: up to 3 min off)
        begin in 2 min | 01:29 | likely nothing meets
        begin in 9 min | 01:36 | after pot 1's turn
        begin in 14 min | 01:41 | after pot 1's turn
    "#]]
    .assert_eq(&format!("{}\n{starts}", sheet.beside.line));
}

#[test]
fn where_nothing_meets_nothing_is_offered() {
    let (_, sheet) = sheet_beside(46);
    assert_eq!(sheet.beside.line, "with pot 1: likely nothing meets");
    assert!(sheet.beside.starts.is_empty());
}

#[test]
fn a_pot_that_is_heated_again_is_said_to_have_no_times() {
    let mut glass = beside_pot_1(20);
    let drop = potside::machine::Input::Pot(PotNo(1), potside::machine::Ask::BackToRaise);
    for event in glass.machine.judge(&drop, glass.now).unwrap() {
        glass.machine.apply(&event);
    }
    glass.begin("250", "alum-tartar-studio");
    assert_eq!(
        glass.sheet().beside.line,
        "with pot 1: likely nothing meets; when pot 1 wants hands isn't known"
    );
}

#[test]
fn the_strip_has_a_row_for_each_pot_with_marks_in_order() {
    let (_, sheet) = sheet_beside(MEETS);
    let mut told = String::new();
    for (row, pot) in sheet.beside.rows.iter().enumerate() {
        write!(told, "{}{}:", pot.label, if pot.own { " (this)" } else { "" }).unwrap();
        for mark in sheet.beside.marks.iter().filter(|mark| mark.row as usize == row) {
            let look = match mark.look {
                StripLook::Hands => mark.label.clone(),
                StripLook::Turn => "|".into(),
                StripLook::Leisure => "_".into(),
            };
            let meets = if mark.meets { "!" } else { "" };
            write!(told, " {look}{meets}{:.0}", mark.x).unwrap();
        }
        told.push('\n');
    }
    let times: Vec<&str> = sheet
        .beside
        .times
        .iter()
        .map(|time| time.label.as_str())
        .collect();
    expect![[r#"
        pot 1: |21 |129 H!236
        pot 2 (this): _0 _14 _36 _57 _148 ?A148 E!229 ?528 |635 |742 |850 H957
        01:30 02:00 02:30 03:00 03:30
        pot 1: turn 01:30, turn 01:45, heat off 02:00; pot 2, this bath: look 01:47, add 01:52, enter 01:59, look 02:40, turn 02:55, turn 03:10, turn 03:25, heat off 03:40"#]].assert_eq(&format!("{told}{}\n{}", times.join(" "), sheet.beside.said));
    assert!(sheet.beside.times.len() <= 5);
    for mark in &sheet.beside.marks {
        assert!((0.0..=1000.0).contains(&mark.x));
    }
}

#[test]
fn a_second_within_a_minute_changes_nothing_that_is_offered() {
    let (mut glass, before) = sheet_beside(MEETS);
    pass(&mut glass, Span::from_seconds(30));
    let after = glass.sheet();
    assert_eq!(before.beside, after.beside);
}

#[test]
fn the_minute_is_the_wall_clocks() {
    let now = Moment {
        stretch: Stretch(3),
        steady_ms: 500_000,
        wall_ms: 120_000 + 7_250,
    };
    let minute = minute_of(now);
    assert_eq!((minute.steady_ms, minute.wall_ms), (492_750, 120_000));
    // A clock that has hardly begun, and one before 1970.
    let young = Moment { steady_ms: 50, ..now };
    assert_eq!(minute_of(young).steady_ms, 0);
    let old = Moment { wall_ms: -1, ..now };
    assert_eq!(minute_of(old).wall_ms, -60_000);
}

#[test]
fn a_start_that_is_put_off_stands_at_home_and_on_the_rail() {
    let mut glass = put_off();
    let told: Vec<String> = stove(&mut glass).into_iter().map(|card| card.said).collect();
    expect![[r#"
        pot 1, turn the goods, 3 min, at 01:30
        pot 2, begin, 2 min, begins at 01:29"#]]
    .assert_eq(&told.join("\n"));
    glass.press(Press::Pot(PotNo(1)));
    let Screen::Run(run) = glass.screen() else {
        panic!()
    };
    assert_eq!(run.rail.len(), 2);
    assert_eq!((run.rail[1].pot, run.rail[1].act.as_str()), (2, "begin"));
    assert!(!run.rail[1].calling);
}

#[test]
fn its_pot_is_taken_and_its_sheet_comes_back_by_press_and_by_key() {
    let mut glass = put_off();
    glass.begin("100", "alum-tartar-studio");
    let sheet = glass.sheet();
    assert!(
        sheet.beside.line.contains("pots 1 and 2"),
        "{}",
        sheet.beside.line
    );
    assert_eq!(sheet.beside.rows.len(), 3);
    glass.press(Press::Pot(PotNo(2)));
    assert!(glass.sheet().beside.line.starts_with("begins at "));
    glass.press(Press::Back);
    assert_eq!(*glass.pages.page(), Page::Stove);
    glass.press(Press::Digit('2'));
    assert!(glass.sheet().beside.line.starts_with("begins at "));
}

#[test]
fn only_one_start_waits_at_a_time() {
    let mut glass = put_off();
    glass.begin("250", "alum-tartar-studio");
    glass.choose("start-at-999999");
    assert!(glass.pages.said(glass.now).unwrap().contains("pot 2 waits"));
    glass.press(Press::Pot(PotNo(2)));
    assert!(glass.sheet().beside.line.starts_with("begins at 01:"));
}

#[test]
fn a_minute_that_is_past_is_not_taken() {
    let (mut glass, sheet) = sheet_beside(MEETS);
    pass(&mut glass, Span::from_minutes(31));
    glass.choose(&sheet.beside.starts[0].key);
    assert!(glass.pages.said(glass.now).unwrap().contains("past"));
    assert_eq!(*glass.pages.page(), Page::Sheet);
}

#[test]
fn it_can_be_let_go_of() {
    let mut glass = put_off();
    glass.press(Press::Pot(PotNo(2)));
    glass.choose("let-go-start");
    assert!(glass.sheet().beside.line.starts_with("with pot 1"));
    glass.press(Press::Back);
    assert_eq!(stove(&mut glass).len(), 1);
    pass(&mut glass, Span::from_minutes(40));
    assert_eq!(glass.pages.begin_now(glass.now, glass.locale()), None);
}

#[test]
fn when_it_is_due_it_calls_as_other_calls_do_until_the_bath_begins() {
    let mut glass = put_off();
    let put_off_at = glass.now;
    let mut rang: Vec<u64> = Vec::new();
    let mut due_after = None;
    while rang.len() < 5 {
        pass(&mut glass, Span::from_seconds(1));
        let now = glass.now;
        if let Some(pot) = glass.with(|pages, _| pages.rings_to_begin(now)) {
            assert_eq!(pot, PotNo(2));
            let first = *due_after.get_or_insert(now);
            rang.push(now.since(first).ms() / 1_000);
        }
    }
    // A due call sounds again after 30, 90 and 180 seconds, then every three minutes: `call_table.rs`.
    assert_eq!(rang, [0, 30, 90, 180, 360]);
    let waited = due_after.unwrap().since(minute_of(put_off_at));
    assert_eq!(waited.ms() % 60_000, 0, "at the full minute");
    expect!["BEGIN pot 2 now: Alum and tartar, studio, wool"]
        .assert_eq(&glass.pages.begin_now(glass.now, glass.locale()).unwrap());
    let card = &stove(&mut glass)[1];
    assert!(card.calling);
    assert_eq!(card.time, "now");
    // Heard, it is quiet for five minutes.
    glass.press(Press::Heard);
    assert!(!stove(&mut glass)[1].calling);
    let heard = glass.now;
    loop {
        pass(&mut glass, Span::from_seconds(1));
        let now = glass.now;
        if glass.with(|pages, _| pages.rings_to_begin(now)).is_some() {
            break;
        }
    }
    assert!(glass.now.since(heard) >= Span::from_minutes(5));
    // Cautions, then START.
    glass.press(Press::Pot(PotNo(2)));
    glass.press(Press::Firm("open-cautions".into()));
    glass.press(Press::Firm("read-cautions".into()));
    let wishes = glass.wish(Press::Firm("start".into()));
    assert!(matches!(wishes.as_slice(), [Wish::Begin(PotNo(2), _)]));
    assert_eq!(glass.pages.begin_now(glass.now, glass.locale()), None);
}

#[test]
fn after_a_sleep_of_the_device_it_is_due_at_once() {
    let mut glass = put_off();
    glass.now = Moment {
        stretch: Stretch(glass.now.stretch.0 + 1),
        ..glass.now
    };
    assert!(glass.pages.begin_now(glass.now, glass.locale()).is_some());
    let now = glass.now;
    assert_eq!(glass.with(|pages, _| pages.rings_to_begin(now)), Some(PotNo(2)));
    assert_eq!(glass.with(|pages, _| pages.rings_to_begin(now)), None);
}

#[test]
fn a_rehearsal_is_offered_no_other_start() {
    let mut glass = beside_pot_1(MEETS);
    glass.press(Press::Home(HomePress::Rehearse));
    glass.key_weight("250");
    glass.press(Press::Goods(potside::view::pages::GoodsPress::GoOn));
    glass.take("alum-tartar-studio");
    glass.side("go-on");
    let sheet = glass.sheet();
    assert_eq!((sheet.beside.line.as_str(), sheet.beside.starts.len()), ("", 0));
}
