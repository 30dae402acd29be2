//! The real window, painted by the real painter: what it then says, and what a finger or a key makes of it.

use std::cell::RefCell;
use std::rc::Rc;
use std::time::Duration;

use i_slint_backend_testing::{AccessibleRole, ElementHandle, ElementQuery, mock_elapsed_time};
use potside::shell::glass::generated::{
    AppWindow, KeysBridge, RunBridge, StatusBridge, TouchBridge, TouchPhase,
};
use potside::shell::glass::paint::Painter;
use potside::view::screen::{
    ActWords, Icon, Notice, NoticeWeight, RailPot, RunScreen, Screen, SideAct, Slab, Status, StoveScreen,
};
use slint::platform::{Key, PointerEventButton, WindowEvent};
use slint::{ComponentHandle, Global};

use crate::gallery;

type Said = Rc<RefCell<Vec<String>>>;

fn window() -> (AppWindow, Painter, Said) {
    gallery::go_headless();
    let window = AppWindow::new().expect("a headless window");
    window.show().expect("it shows");
    window.window().set_size(slint::PhysicalSize::new(800, 480));
    let painter = Painter::new(&window);
    let said = Said::default();
    listen(&window, &said);
    (window, painter, said)
}

fn listen(window: &AppWindow, said: &Said) {
    let note = |said: &Said| {
        let said = Rc::clone(said);
        move |what: String| said.borrow_mut().push(what)
    };
    let tell = note(said);
    TouchBridge::get(window).on_touched(move |touch| {
        let phase = match touch.phase {
            TouchPhase::Down => "down",
            TouchPhase::Moved => "moved",
            TouchPhase::Up => "up",
            TouchPhase::Cancelled => "cancelled",
        };
        let place = if touch.inside { "inside" } else { "outside" };
        tell(format!("{} {phase} {place}", touch.key));
    });
    let tell = note(said);
    TouchBridge::get(window).on_confirmed_by_key(move |key| tell(format!("{key} by key")));
    let tell = note(said);
    TouchBridge::get(window).on_stray(move |_, _, _| tell("stray".into()));
    let tell = note(said);
    RunBridge::get(window).on_side_pressed(move |key| tell(format!("side {key}")));
    let tell = note(said);
    RunBridge::get(window).on_bring_forward(move |pot| tell(format!("pot {pot}")));
    let tell = note(said);
    KeysBridge::get(window).on_firm(move || tell("firm".into()));
    let tell = note(said);
    KeysBridge::get(window).on_heard(move || tell("heard".into()));
    let tell = note(said);
    KeysBridge::get(window).on_take_back(move || tell("take back".into()));
    let tell = note(said);
    KeysBridge::get(window).on_escape(move || tell("escape".into()));
    let tell = note(said);
    KeysBridge::get(window).on_digit(move |digit| tell(format!("digit {digit}")));
    let tell = note(said);
    KeysBridge::get(window).on_walk(move |forward| tell(format!("walk {forward}")));
}

fn add_alum(enabled: bool) -> Screen {
    let pot = |pot: i32| RailPot {
        pot,
        act: "turn".into(),
        time: "4 min".into(),
        said: format!("pot {pot}, turn, 4 min"),
        ..RailPot::default()
    };
    Screen::Run(Box::new(RunScreen {
        act: ActWords {
            verb: "ADD".into(),
            amount: "15.0 g".into(),
            object: "alum".into(),
            time: "04:10".into(),
            ..ActWords::default()
        },
        slab: Slab {
            key: "confirm".into(),
            label: "added".into(),
            icon: Icon::Tick,
            enabled,
            ..Slab::default()
        },
        rail: vec![pot(1), pot(2)],
        sides: vec![SideAct {
            key: "reading".into(),
            label: "reading".into(),
            icon: Icon::Reading,
            enabled: true,
            ..SideAct::default()
        }],
        ..RunScreen::default()
    }))
}

fn one(window: &AppWindow, label: &str) -> ElementHandle {
    let found: Vec<ElementHandle> = ElementHandle::find_by_accessible_label(window, label).collect();
    assert_eq!(found.len(), 1, "`{label}` is found {} times", found.len());
    found.into_iter().next().expect("one")
}

fn press_key(window: &AppWindow, key: impl Into<slint::SharedString>) {
    let text: slint::SharedString = key.into();
    window
        .window()
        .dispatch_event(WindowEvent::KeyPressed { text: text.clone() });
    window.window().dispatch_event(WindowEvent::KeyReleased { text });
}

fn drain(said: &Said) -> Vec<String> {
    said.borrow_mut().drain(..).collect()
}

#[test]
fn a_time_whose_last_digit_is_painted_apart_is_read_out_whole() {
    let (window, mut painter, _said) = window();
    painter.paint(&window, &add_alum(true));
    assert_eq!(
        one(&window, "04:10").accessible_role(),
        Some(AccessibleRole::Text)
    );
}

#[test]
fn a_painted_run_says_its_act_and_its_time() {
    let (window, mut painter, _) = window();

    assert!(painter.paint(&window, &add_alum(true)));

    for words in [
        "ADD 15.0\u{a0}g",
        "alum",
        "04:10",
        "added",
        "reading",
        "pot 1, turn, 4 min",
    ] {
        one(&window, words);
    }
}

#[test]
fn painting_the_same_twice_changes_nothing() {
    let (window, mut painter, _) = window();
    painter.paint(&window, &add_alum(true));

    assert!(!painter.paint(&window, &add_alum(true)));
    assert!(painter.paint(&window, &add_alum(false)));
}

#[test]
fn lists_shrink_and_grow_with_what_is_painted() {
    let (window, mut painter, _) = window();
    painter.paint(&window, &add_alum(true));
    let Screen::Run(mut run) = add_alum(true) else {
        panic!("a run")
    };

    run.rail.clear();
    run.sides.push(SideAct {
        key: "more".into(),
        label: "more".into(),
        enabled: true,
        ..SideAct::default()
    });
    painter.paint(&window, &Screen::Run(run));

    assert_eq!(
        ElementHandle::find_by_accessible_label(&window, "pot 1, turn, 4 min").count(),
        0
    );
    one(&window, "more");
}

#[test]
fn a_touch_on_the_slab_is_told_phase_by_phase_and_confirms_nothing_itself() {
    let (window, mut painter, said) = window();
    painter.paint(&window, &add_alum(true));

    one(&window, "added").mock_single_click(PointerEventButton::Left);

    let heard = drain(&said);
    assert_eq!(
        heard.first().map(String::as_str),
        Some("confirm down inside"),
        "{heard:?}"
    );
    assert_eq!(
        heard.last().map(String::as_str),
        Some("confirm up inside"),
        "{heard:?}"
    );
    assert!(!heard.iter().any(|what| what.contains("by key")), "{heard:?}");
}

#[test]
fn a_touch_dragged_off_the_slab_is_told_as_outside() {
    let (window, mut painter, said) = window();
    painter.paint(&window, &add_alum(true));
    let slab = one(&window, "added");
    let (place, size) = (slab.absolute_position(), slab.size());
    let middle = slint::LogicalPosition::new(place.x + size.width / 2.0, place.y + size.height / 2.0);
    let beside = slint::LogicalPosition::new(place.x - 40.0, middle.y);

    let glass = window.window();
    glass.dispatch_event(WindowEvent::PointerPressed {
        position: middle,
        button: PointerEventButton::Left,
    });
    glass.dispatch_event(WindowEvent::PointerMoved { position: beside });
    glass.dispatch_event(WindowEvent::PointerReleased {
        position: beside,
        button: PointerEventButton::Left,
    });

    assert_eq!(
        drain(&said),
        [
            "confirm down inside",
            "confirm moved outside",
            "confirm up outside"
        ]
    );
}

#[test]
fn a_disabled_slab_takes_neither_finger_nor_key_nor_screen_reader() {
    let (window, mut painter, said) = window();
    painter.paint(&window, &add_alum(false));
    let slab = one(&window, "added");

    slab.mock_single_click(PointerEventButton::Left);
    slab.invoke_accessible_default_action();

    let heard = drain(&said);
    assert!(!heard.iter().any(|what| what.contains("confirm")), "{heard:?}");
    assert_eq!(slab.accessible_enabled(), Some(false));
}

#[test]
fn a_screen_reader_confirms_once() {
    let (window, mut painter, said) = window();
    painter.paint(&window, &add_alum(true));

    one(&window, "added").invoke_accessible_default_action();

    assert_eq!(drain(&said), ["confirm by key"]);
}

#[test]
fn keys_that_nothing_took_reach_the_shell() {
    let (window, mut painter, said) = window();
    painter.paint(&window, &add_alum(true));

    press_key(&window, " ");
    press_key(&window, Key::Return);
    press_key(&window, Key::Backspace);
    press_key(&window, Key::Escape);
    press_key(&window, "2");
    press_key(&window, Key::DownArrow);
    press_key(&window, Key::LeftArrow);

    let wanted = [
        "firm",
        "heard",
        "take back",
        "escape",
        "digit 2",
        "walk true",
        "walk false",
    ];
    assert_eq!(drain(&said), wanted);
}

/// Tab walks every control of a run; Space presses the one that has the focus, and each is reached once a round.
#[test]
fn every_control_of_a_run_is_reached_by_keys_alone() {
    let (window, mut painter, said) = window();
    painter.paint(&window, &add_alum(true));

    for _ in 0..4 {
        press_key(&window, Key::Tab);
        press_key(&window, " ");
    }

    let mut heard = drain(&said);
    heard.sort();
    assert_eq!(heard, ["confirm by key", "pot 1", "pot 2", "side reading"]);
}

#[test]
fn the_shell_walks_the_focus_as_tab_does() {
    let (window, mut painter, said) = window();
    painter.paint(&window, &add_alum(true));

    potside::shell::glass::focus::walk(window.window(), true).expect("the event is taken");
    press_key(&window, " ");

    let heard = drain(&said);
    assert_eq!(heard.len(), 1, "{heard:?}");
    assert_ne!(heard, ["firm"]);
}

#[test]
fn escape_gives_space_back_to_the_slab() {
    let (window, mut painter, said) = window();
    painter.paint(&window, &add_alum(true));

    press_key(&window, Key::Tab);
    press_key(&window, Key::Escape);
    press_key(&window, " ");

    assert_eq!(drain(&said), ["escape", "firm"]);
}

#[test]
fn a_touch_beside_everything_is_a_stray() {
    let (window, mut painter, said) = window();
    painter.paint(&window, &add_alum(true));
    let position = slint::LogicalPosition::new(780.0, 20.0);

    window.window().dispatch_event(WindowEvent::PointerPressed {
        position,
        button: PointerEventButton::Left,
    });
    window.window().dispatch_event(WindowEvent::PointerReleased {
        position,
        button: PointerEventButton::Left,
    });

    assert_eq!(drain(&said), ["stray"]);
}

#[test]
fn a_notice_stands_on_every_screen_and_is_read_out() {
    let (window, mut painter, _) = window();
    let status = Status {
        notices: vec![Notice {
            text: "NOT SAVING since 14:32".into(),
            icon: Icon::SaveOff,
            weight: NoticeWeight::Urgent,
        }],
        ..Status::default()
    };

    painter.paint_status(&window, &status);

    for screen in [add_alum(true), Screen::Stove(StoveScreen::default())] {
        painter.paint(&window, &screen);
        let notice = one(&window, "NOT SAVING since 14:32");
        assert!(notice.accessible_live_region().is_some());
        assert!(notice.absolute_position().y > 440.0, "it stands at the foot");
    }
    assert!(!StatusBridge::get(&window).get_flash());
}

/// The picture of a slab held down changes while the dye rises, and is done rising once the firm tap's time is over.
#[test]
fn dye_rises_in_a_held_slab() {
    let (window, mut painter, _) = window();
    painter.paint(&window, &add_alum(true));
    let slab = one(&window, "added");
    let (place, size) = (slab.absolute_position(), slab.size());
    let middle = slint::LogicalPosition::new(place.x + size.width / 2.0, place.y + size.height / 2.0);
    let shot = || {
        window
            .window()
            .take_snapshot()
            .expect("drawn")
            .as_bytes()
            .to_vec()
    };
    let before = shot();

    window.window().dispatch_event(WindowEvent::PointerPressed {
        position: middle,
        button: PointerEventButton::Left,
    });
    mock_elapsed_time(Duration::from_millis(125));
    let half = shot();
    mock_elapsed_time(Duration::from_millis(200));
    let full = shot();
    mock_elapsed_time(Duration::from_millis(500));
    let later = shot();

    assert_ne!(before, half);
    assert_ne!(half, full);
    assert_eq!(full, later);
}

#[test]
fn home_offers_its_six_ways() {
    let (window, mut painter, _) = window();

    painter.paint(
        &window,
        &Screen::Stove(StoveScreen {
            can_begin: true,
            ..StoveScreen::default()
        }),
    );

    let names: Vec<String> = ElementQuery::from_root(&window)
        .match_accessible_role(AccessibleRole::Button)
        .find_all()
        .iter()
        .filter_map(|button| button.accessible_label().map(String::from))
        .collect();
    assert_eq!(
        names,
        ["begin", "shelf", "recipes", "daybook", "bench", "rehearse"]
    );
}
