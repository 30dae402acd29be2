//! A panic behind the glass: the keeper on its thread goes on, and the glass comes back where it was.

use std::cell::Cell;
use std::rc::Rc;
use std::sync::mpsc;
use std::time::Duration;

use potside::craft::time::{Moment, Stretch};
use potside::journal::id::ActId;
use potside::keeper::{Keeper, State, Wake};
use potside::machine::{Ask, Input, PotNo};
use potside::sheet::plan::{Plan, StepIndex};
use potside::shell::book::Book;
use potside::shell::clock::SystemClock;
use potside::shell::disk::data_folder::DataFolder;
use potside::shell::disk::footing::Footing;
use potside::shell::glass::desk::{Deeds, Desk};
use potside::shell::glass::generated::AppWindow;
use potside::shell::glass::taps::Glass;
use potside::shell::keeper_thread::{self, Hearers};
use potside::view::bench::Bench;
use potside::view::pages::{DaybookSeen, HomePress, Page, Press};
use slint::ComponentHandle;

use crate::gallery;

/// A desk whose clock panics on cue, as any of its parts might.
fn desk(panics: &Rc<Cell<bool>>) -> Desk {
    let panics = Rc::clone(panics);
    let deeds = Deeds {
        now: Box::new(move || {
            assert!(!panics.get(), "planted");
            Moment {
                stretch: Stretch(0),
                steady_ms: 1_000,
                wall_ms: 1_764_000_000_000,
            }
        }),
        wake: Box::new(|_| true),
        sound: Box::new(|_, _| {}),
        sound_check: Box::new(|_| {}),
        keep_bench: Box::new(|_| Ok(())),
        daybook: Box::new(|_| DaybookSeen::default()),
        record: Box::new(|_, _| None),
        lists: Box::new(|| (Vec::new(), Vec::new())),
        write_labels: Box::new(|_| Err("no labels here".to_owned())),
    };
    Desk::new(deeds, Book::built_in(), Bench::default())
}

fn glass(panics: &Rc<Cell<bool>>) -> Rc<Glass> {
    gallery::go_headless();
    let window = AppWindow::new().expect("a headless window");
    window.show().expect("it shows");
    Glass::new(window, desk(panics))
}

fn texts(glass: &Glass) -> Vec<String> {
    let status = glass.desk.borrow().status();
    status.notices.into_iter().map(|notice| notice.text).collect()
}

#[test]
fn a_panic_while_painting_goes_no_further_and_the_glass_comes_back_where_it_was() {
    let panics = Rc::new(Cell::new(false));
    let glass = glass(&panics);
    glass.press(&Press::Home(HomePress::Bench));
    let before = std::mem::discriminant(glass.desk.borrow().page());

    panics.set(true);
    glass.press(&Press::Near);
    panics.set(false);
    glass.work(Desk::second);

    assert_eq!(std::mem::discriminant(glass.desk.borrow().page()), before);
    assert!(
        texts(&glass).iter().any(|text| text.contains("stumbled")),
        "{:?}",
        texts(&glass)
    );
}

#[test]
fn a_page_that_panics_again_and_again_is_left_for_home() {
    let panics = Rc::new(Cell::new(false));
    let glass = glass(&panics);
    glass.press(&Press::Home(HomePress::Bench));

    // The deed panics, the page itself doesn't: each time the glass is painted anew, the second time at home.
    for _ in 0..2 {
        glass.work(|_| panic!("planted"));
    }

    assert!(
        matches!(glass.desk.borrow().page(), Page::Stove),
        "{:?}",
        glass.desk.borrow().page()
    );
}

#[test]
fn the_keeper_goes_on_saving_while_the_glass_panics() {
    let folder = tempfile::tempdir().expect("a scratch folder");
    let data = DataFolder::open(folder.path()).expect("a data folder");
    let (keeper, stretch) = Keeper::open(data, Some("test-boot")).expect("a keeper");
    let (tell, told) = mpsc::channel::<State>();
    let hearers = Hearers {
        state: Box::new(move |state| tell.send(state).unwrap_or(())),
        sound: Box::new(|_, _| {}),
        soon: Box::new(|| {}),
    };
    let thread = keeper_thread::start(keeper, SystemClock::new(stretch), hearers).expect("a thread");
    let panics = Rc::new(Cell::new(false));
    let glass = glass(&panics);
    let hear = || {
        told.recv_timeout(Duration::from_secs(20))
            .expect("the keeper tells")
    };
    hear();
    panics.set(true);

    assert!(thread.wake(begin()));
    let begun = hear();
    glass.work(|desk| desk.hear(begun.clone()));
    let act = ActId::from_text("t0-2").ok();
    let ask = Ask::Confirm {
        step: StepIndex(0),
        sure: true,
    };
    assert!(thread.wake(Wake::Ask {
        act,
        input: Input::Pot(PotNo(1), ask)
    }));
    let confirmed = hear();
    glass.work(|desk| desk.hear(confirmed.clone()));
    panics.set(false);
    glass.repaint();

    assert_eq!(confirmed.not_saving_since, None);
    let run = confirmed.machine.pot(PotNo(1)).expect("the bath goes on");
    assert_eq!(run.stand.step, StepIndex(1));
    drop(thread);
    let data = DataFolder::open(folder.path()).expect("given back");
    let (again, _) = Keeper::open(data, Some("test-boot")).expect("a keeper");
    assert_eq!(
        again.machine().pot(PotNo(1)).map(|run| run.stand.step),
        Some(StepIndex(1))
    );
}

pub(crate) fn begin() -> Wake {
    let plan: Plan = plan();
    let bath_id = "20260825-093107-stumble-p1".to_owned();
    Wake::Begin {
        act: ActId::from_text("t0-1").ok(),
        input: Input::Begin {
            pot: PotNo(1),
            bath_id: bath_id.clone(),
            plan: plan.into(),
            cautions_read: true,
        },
        bath_id,
        recipe_toml: String::new(),
        sheet_json: "{}".to_owned(),
    }
}

/// The plan of the first recipe of the book, for a hundred grams of its first fibre.
fn plan() -> Plan {
    let book = Book::built_in();
    let recipe = book.recipes.first().expect("a book has recipes");
    let goods = potside::sheet::plan::Goods {
        fibre: recipe.fibres[0],
        dry: potside::craft::quantity::Mass::saturating_grams(100.0),
        hanks: 1,
        lot: None,
    };
    let wishes = potside::sheet::Wishes::new(goods, potside::sheet::StovePlace::default());
    Plan::clone(&potside::sheet::compute(recipe, &wishes).plan)
}

#[test]
fn a_folder_that_forgets_is_said_on_every_screen() {
    let panics = Rc::new(Cell::new(false));
    let glass = glass(&panics);

    glass.work(|desk| desk.stand_on(&Footing::Volatile { kind: "tmpfs" }));

    assert!(texts(&glass)[0].starts_with("NOT LASTING"), "{:?}", texts(&glass));
}
