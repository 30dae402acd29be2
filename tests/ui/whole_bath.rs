//! A whole bath on the real window, with the real keeper and the real disk behind it: once by fingers, once by keys
//! alone, once through the accessibility tree. Only the clock is the test's.

use std::cell::{Cell, RefCell};
use std::rc::Rc;
use std::time::Duration;

use i_slint_backend_testing::{AccessibleRole, ElementHandle, ElementQuery, mock_elapsed_time};
use potside::craft::time::{Moment, Span, Stretch};
use potside::journal::id::ActId;
use potside::keeper::{Keeper, State, Told, Wake};
use potside::machine::{Input, PotNo, Refusal};
use potside::shelf::ShelfDone;
use potside::shell::book::Book;
use potside::shell::disk::data_folder::DataFolder;
use potside::shell::glass::desk::{Deeds, Desk};
use potside::shell::glass::generated::AppWindow;
use potside::shell::glass::taps::Glass;
use potside::view::bench::Bench;
use potside::view::pages::{LabelFile, Page};
use potside::view::screen::Screen;
use slint::ComponentHandle;
use slint::platform::{Key, PointerEventButton, WindowEvent};

use crate::gallery;

/// The glass with everything behind it, on a clock that the test moves.
pub(crate) struct Kitchen {
    pub(crate) glass: Rc<Glass>,
    pub(crate) keeper: Rc<RefCell<Keeper<DataFolder>>>,
    asked: Rc<RefCell<Vec<Wake>>>,
    now: Rc<Cell<Moment>>,
    pub(crate) folder: tempfile::TempDir,
}

impl Kitchen {
    pub(crate) fn open() -> Self {
        gallery::go_headless();
        let folder = tempfile::tempdir().expect("a scratch folder");
        let data = DataFolder::open(folder.path()).expect("a data folder");
        let (keeper, stretch) = Keeper::open(data, Some("test-boot")).expect("a keeper");
        let now = Rc::new(Cell::new(Moment {
            stretch,
            steady_ms: 1_000,
            wall_ms: 1_764_000_000_000,
        }));
        let asked: Rc<RefCell<Vec<Wake>>> = Rc::default();
        let labels = folder.path().to_owned();
        let (clock, waking) = (Rc::clone(&now), Rc::clone(&asked));
        let deeds = Deeds {
            now: Box::new(move || clock.get()),
            wake: Box::new(move |wake| {
                waking.borrow_mut().push(wake);
                true
            }),
            sound: Box::new(|_, _| {}),
            sound_check: Box::new(|| {}),
            keep_bench: Box::new(|_| Ok(())),
            daybook: Box::new(|| (Vec::new(), Vec::new())),
            record: Box::new(|_| None),
            lists: Box::new(|| (potside::shelf::worklist::all().to_vec(), Vec::new())),
            write_labels: Box::new(move |files| write_labels(&labels, files)),
        };
        let window = AppWindow::new().expect("a headless window");
        window.show().expect("it shows");
        window.window().set_size(slint::PhysicalSize::new(800, 480));
        let book = Book::built_in();
        let glass = Glass::new(window, Desk::new(deeds, book, Bench::default()));
        Self {
            glass,
            keeper: Rc::new(RefCell::new(keeper)),
            asked,
            now,
            folder,
        }
    }

    /// Lets the keeper do what was asked, and the glass hear of it.
    pub(crate) fn keep(&self) {
        loop {
            let asked = std::mem::take(&mut *self.asked.borrow_mut());
            if asked.is_empty() {
                break;
            }
            for wake in asked {
                match wake {
                    Wake::Ask { act, input } => self.take(act.as_ref(), &input),
                    Wake::Begin {
                        act,
                        input,
                        bath_id,
                        recipe_toml,
                        sheet_json,
                    } => {
                        self.keeper
                            .borrow_mut()
                            .prepare(&bath_id, &recipe_toml, &sheet_json);
                        self.take(act.as_ref(), &input);
                    }
                    Wake::Shelf(asked) => {
                        let done = self.keeper.borrow_mut().ask_shelf(&asked, self.now.get());
                        self.tell(None, Some(done));
                    }
                    Wake::Quit | Wake::Quiet(_) | Wake::QuietHours(_) => {}
                }
            }
        }
        self.glass.repaint();
    }

    pub(crate) fn take(&self, act: Option<&ActId>, input: &Input) {
        let told = self.keeper.borrow_mut().take(act, input, self.now.get());
        let refused = match told {
            Told::Taken(_) | Told::Repeated => None,
            Told::Refused(refusal) => Some((input.clone(), refusal)),
        };
        self.tell(refused, None);
    }

    /// The glass hears how things stand.
    pub(crate) fn tell(
        &self,
        refused: Option<(Input, Refusal)>,
        shelf_done: Option<Result<ShelfDone, String>>,
    ) {
        let mut keeper = self.keeper.borrow_mut();
        let state = State {
            machine: keeper.machine().clone(),
            at: self.now.get(),
            not_saving_since: keeper.not_saving_since(),
            in_spare_since: keeper.in_spare_since(),
            quiet_until: None,
            refused,
            troubles: keeper.take_troubles(),
            shelf: keeper.shelf(),
            shelf_done,
        };
        drop(keeper);
        self.glass.desk.borrow_mut().hear(state);
    }

    /// Lets time pass through every deadline.
    pub(crate) fn pass(&self, span: Span) {
        let until = self.now.get().plus(span);
        loop {
            let now = self.now.get();
            let next = self.keeper.borrow().machine().next_deadline(now);
            match next {
                Some((due, _)) if due.steady_ms <= until.steady_ms => {
                    if due.steady_ms > now.steady_ms {
                        self.now.set(now.plus(due.since(now)));
                    }
                    self.take(None, &Input::Tick);
                }
                Some(_) | None => break,
            }
        }
        self.now.set(until);
        self.take(None, &Input::Tick);
        self.glass.desk.borrow_mut().second();
        self.glass.repaint();
    }

    /// A finger stays on a control long enough to be a firm tap; the clock runs with it.
    pub(crate) fn firm(&self, element: &ElementHandle) {
        let (position, size) = (element.absolute_position(), element.size());
        let position =
            slint::LogicalPosition::new(position.x + size.width / 2.0, position.y + size.height / 2.0);
        let button = PointerEventButton::Left;
        let window = self.glass.window.window();
        window.dispatch_event(WindowEvent::PointerMoved { position });
        window.dispatch_event(WindowEvent::PointerPressed { position, button });
        self.now.set(self.now.get().plus(Span::from_ms(400)));
        mock_elapsed_time(Duration::from_millis(400));
        window.dispatch_event(WindowEvent::PointerReleased { position, button });
        self.keep();
        // The dead time after a confirm.
        self.now.set(self.now.get().plus(Span::from_ms(1_100)));
    }

    /// The one control whose label begins so.
    pub(crate) fn control(&self, label: &str) -> ElementHandle {
        let query = ElementQuery::from_root(&self.glass.window).match_accessible_role(AccessibleRole::Button);
        let all = query.find_all();
        let found = all.iter().find(|element| {
            element
                .accessible_label()
                .is_some_and(|there| there.starts_with(label))
        });
        let names: Vec<String> = all
            .iter()
            .filter_map(ElementHandle::accessible_label)
            .map(Into::into)
            .collect();
        found
            .unwrap_or_else(|| panic!("no control {label:?} among {names:?}"))
            .clone()
    }

    /// Turns a long list down until a row is in sight.
    pub(crate) fn turn_to(&self, label: &str) {
        for _ in 0..20 {
            let query =
                ElementQuery::from_root(&self.glass.window).match_accessible_role(AccessibleRole::Button);
            let is_there = |element: &ElementHandle| {
                element
                    .accessible_label()
                    .is_some_and(|there| there.starts_with(label))
            };
            if query.find_all().iter().any(is_there) {
                return;
            }
            self.tap("down");
        }
        panic!("{label:?} is on no page of the list");
    }

    pub(crate) fn tap(&self, label: &str) {
        self.control(label).mock_single_click(PointerEventButton::Left);
        self.keep();
    }

    pub(crate) fn key(&self, text: impl Into<slint::SharedString>) {
        let text = text.into();
        let window = self.glass.window.window();
        window.dispatch_event(WindowEvent::KeyPressed { text: text.clone() });
        window.dispatch_event(WindowEvent::KeyReleased { text });
        mock_elapsed_time(Duration::from_millis(50));
        self.keep();
    }

    pub(crate) fn slab_label(&self) -> String {
        match self.glass.desk.borrow().screen() {
            Screen::Run(run) => run.slab.label,
            Screen::Sheet(sheet) => sheet.slab.label,
            other => panic!("no slab on {:?}", other.route()),
        }
    }

    pub(crate) fn has_ended(&self) -> bool {
        let keeper = self.keeper.borrow();
        keeper
            .machine()
            .pot(PotNo(1))
            .is_none_or(|run| run.stand.ended.is_some())
    }

    /// Walks the bath from its first step to its last; `confirm` is the hand. Time passes as the plan expects.
    pub(crate) fn walk(&self, confirm: impl Fn(&Self)) {
        for _ in 0..60 {
            if self.has_ended() {
                return;
            }
            let wait = {
                let keeper = self.keeper.borrow();
                let run = keeper.machine().pot(PotNo(1)).expect("a bath");
                let turn = run.stand.hold.map(|_| Span::from_minutes(15));
                turn.or_else(|| run.step().map(|step| step.usual.likely))
                    .unwrap_or(Span::NONE)
            };
            self.pass(wait.plus(Span::from_minutes(31).less(wait)));
            self.glass.press(&potside::view::pages::Press::Near);
            confirm(self);
        }
        panic!("the bath doesn't end");
    }

    /// The sealed pages.
    pub(crate) fn pages(&self) -> Vec<String> {
        let names = std::fs::read_dir(self.folder.path().join("daybook")).expect("a daybook");
        names
            .map(|name| name.expect("a name").file_name().to_string_lossy().into_owned())
            .collect()
    }

    pub(crate) fn record(&self) -> serde_json::Value {
        let pages = self.pages();
        let name = pages
            .iter()
            .find(|name| name.ends_with(".json"))
            .expect("a sealed record");
        let bytes = std::fs::read(self.folder.path().join("daybook").join(name)).expect("it reads");
        serde_json::from_slice(&bytes).expect("it is JSON")
    }

    fn assert_sealed_to_the_end(&self) {
        let record = self.record();
        let text = record.to_string();
        assert!(text.contains("\"closed\""), "ended otherwise: {text}");
        assert!(text.contains("potash-alum"), "no alum in {text}");
    }
}

#[test]
fn a_bath_goes_from_dry_weight_to_sealed_record_by_fingers() {
    let kitchen = Kitchen::open();
    kitchen.tap("begin");
    kitchen.tap("dry weight");
    for digit in ["1", "0", "0"] {
        kitchen.tap(digit);
    }
    kitchen.firm(&kitchen.control("That's it"));
    kitchen.tap("to the recipe");
    kitchen.tap("Mordant");
    kitchen.turn_to("Alum and tartar, studio");
    kitchen.tap("Alum and tartar, studio");
    kitchen.tap("take this recipe");
    kitchen.tap("bath sheet");
    kitchen.firm(&kitchen.control("Read the cautions"));
    kitchen.firm(&kitchen.control("Cautions read"));
    kitchen.firm(&kitchen.control("START"));
    assert_eq!(*kitchen.glass.desk.borrow().page(), Page::Run(PotNo(1)));

    kitchen.walk(|kitchen| {
        let label = kitchen.slab_label();
        kitchen.firm(&kitchen.control(&label));
    });

    kitchen.assert_sealed_to_the_end();
}

#[test]
fn a_bath_goes_from_dry_weight_to_sealed_record_by_keys_alone() {
    let kitchen = Kitchen::open();
    // Arrows walk to each control, Space presses it, as a foot pedal or a numpad would.
    let press = |label: &str| {
        for _ in 0..40 {
            kitchen.key(slint::SharedString::from(Key::Tab));
            if is_focused(&kitchen, label) {
                kitchen.key(" ");
                return;
            }
        }
        panic!("no way to {label} by keys");
    };
    press("begin");
    press("dry weight");
    for digit in ["1", "0", "0"] {
        kitchen.key(digit);
    }
    kitchen.key(" ");
    press("to the recipe");
    press("Mordant");
    press("Alum and tartar, studio");
    // Space means the act that stands out.
    kitchen.key(" ");
    press("bath sheet");
    kitchen.key(" ");
    kitchen.key(" ");
    kitchen.key(" ");
    assert_eq!(*kitchen.glass.desk.borrow().page(), Page::Run(PotNo(1)));

    kitchen.walk(|kitchen| kitchen.key(" "));

    kitchen.assert_sealed_to_the_end();
}

#[test]
fn a_bath_goes_from_dry_weight_to_sealed_record_through_accessible_labels() {
    let kitchen = Kitchen::open();
    let act = |label: &str| {
        kitchen.control(label).invoke_accessible_default_action();
        kitchen.keep();
    };
    act("begin");
    act("dry weight");
    act("1");
    act("0");
    act("0");
    act("That's it");
    act("to the recipe");
    act("Mordant");
    act("down");
    act("Alum and tartar, studio");
    act("take this recipe");
    act("bath sheet");
    act("Read the cautions");
    act("Cautions read");
    act("START");

    kitchen.walk(|kitchen| {
        let label = kitchen.slab_label();
        kitchen.control(&label).invoke_accessible_default_action();
        kitchen.keep();
    });

    kitchen.assert_sealed_to_the_end();
}

#[test]
fn a_short_or_slipping_touch_confirms_nothing() {
    let kitchen = Kitchen::open();
    kitchen.tap("begin");
    kitchen.tap("dry weight");
    kitchen.tap("5");
    let slab = kitchen.control("That's it");

    slab.mock_single_click(PointerEventButton::Left);

    kitchen.keep();
    assert!(
        matches!(kitchen.glass.desk.borrow().page(), Page::Number(_)),
        "a touch of no length took the number"
    );
    assert_eq!(kitchen.now.get().stretch, Stretch(0));
}

#[test]
fn a_storm_locks_the_glass_and_calm_or_a_key_opens_it() {
    let kitchen = Kitchen::open();
    kitchen.tap("begin");
    kitchen.tap("dry weight");
    kitchen.tap("5");
    let slab = kitchen.control("That's it");
    let (corner, size) = (slab.absolute_position(), slab.size());
    let position = slint::LogicalPosition::new(corner.x + size.width / 2.0, corner.y + size.height / 2.0);
    let button = PointerEventButton::Left;
    let pat = || {
        let window = kitchen.glass.window.window();
        window.dispatch_event(WindowEvent::PointerPressed { position, button });
        window.dispatch_event(WindowEvent::PointerReleased { position, button });
    };
    let is_locked = || matches!(kitchen.glass.desk.borrow().screen(), Screen::Wipe(_));

    (0..12).for_each(|_| pat());
    assert!(is_locked(), "a storm");

    kitchen.pass(Span::from_ms(1_900));
    pat();
    kitchen.pass(Span::from_ms(1_900));
    assert!(is_locked(), "it was touched in between");
    kitchen.pass(Span::from_ms(200));
    assert!(!is_locked(), "two seconds of calm");

    kitchen.firm(&kitchen.control("That's it"));
    assert!(
        !matches!(kitchen.glass.desk.borrow().page(), Page::Number(_)),
        "a press counts again"
    );

    kitchen.tap("dry weight");
    (0..12).for_each(|_| pat());
    kitchen.key(" ");
    assert!(!is_locked(), "the key says that it is dry");
}

#[test]
fn a_wall_clock_that_is_set_is_said_once() {
    let kitchen = Kitchen::open();
    let said = || {
        kitchen.pass(Span::from_seconds(1));
        let status = kitchen.glass.desk.borrow().status();
        status
            .notices
            .iter()
            .any(|notice| notice.text.contains("clock was set"))
    };
    assert!(!said());
    let now = kitchen.now.get();
    kitchen.now.set(Moment {
        wall_ms: now.wall_ms + 3_600_000,
        ..now
    });
    assert!(said());
    kitchen.pass(Span::from_minutes(2));
    assert!(!said(), "and not again");
}

#[test]
fn a_notice_takes_room_and_moves_nothing_off_the_glass() {
    let kitchen = Kitchen::open();
    kitchen.tap("begin");
    kitchen.tap("dry weight");
    kitchen.tap("9");
    kitchen.firm(&kitchen.control("That's it"));
    kitchen.tap("to the recipe");
    kitchen.tap("Mordant");
    kitchen.turn_to("Alum and tartar, studio");
    kitchen.tap("Alum and tartar, studio");
    kitchen.tap("take this recipe");
    kitchen.tap("bath sheet");
    for slab in ["Read the cautions", "Cautions read", "START"] {
        kitchen.firm(&kitchen.control(slab));
    }
    kitchen.glass.desk.borrow_mut().hear_sound(true);
    kitchen.glass.repaint();

    let all = ElementQuery::from_root(&kitchen.glass.window).find_all();
    let texts: Vec<&ElementHandle> = all
        .iter()
        .filter(|element| element.accessible_role() == Some(AccessibleRole::Text))
        .collect();

    assert!(texts.len() > 3, "nothing is said on the run screen");
    for text in texts {
        let (at, size) = (text.absolute_position(), text.size());
        let label = text.accessible_label().unwrap_or_default();
        assert!(
            at.y >= 0.0 && at.y + size.height <= 481.0,
            "{label:?} lies at {} and is {} high",
            at.y,
            size.height
        );
    }
}

/// Writes sheets of labels beside the data, as the program does.
fn write_labels(folder: &std::path::Path, files: &[LabelFile]) -> Result<String, String> {
    for file in files {
        std::fs::write(folder.join(&file.name), &file.svg).map_err(|fault| fault.to_string())?;
    }
    Ok(files.first().map_or_else(String::new, |file| file.name.clone()))
}

/// Whether the focus ring lies around the control whose label begins so.
pub(crate) fn is_focused(kitchen: &Kitchen, label: &str) -> bool {
    let window = &kitchen.glass.window;
    let rings = ElementQuery::from_root(window)
        .match_id("FocusRing::ring")
        .find_all();
    let buttons = ElementQuery::from_root(window)
        .match_accessible_role(AccessibleRole::Button)
        .find_all();
    buttons.iter().any(|button| {
        let named = button
            .accessible_label()
            .is_some_and(|there| there.starts_with(label));
        named && rings.iter().any(|ring| lies_around(ring, button))
    })
}

fn lies_around(ring: &ElementHandle, button: &ElementHandle) -> bool {
    const BY: f32 = 12.0;
    let (ring_at, at) = (ring.absolute_position(), button.absolute_position());
    let near = |inner: f32, outer: f32| (0.0..BY).contains(&(inner - outer));
    near(at.x, ring_at.x)
        && near(at.y, ring_at.y)
        && (ring.size().width - button.size().width).abs() < 2.0 * BY
        && (ring.size().height - button.size().height).abs() < 2.0 * BY
}
