//! A kitchen to cook in: the real window with the real keeper on watch and the real disk behind it. Only the clock is
//! the test's; fingers and keys are dispatched as the system would.

use std::cell::{Cell, RefCell};
use std::path::PathBuf;
use std::rc::Rc;
use std::time::Duration;

use i_slint_backend_testing::{AccessibleRole, ElementHandle, ElementQuery, mock_elapsed_time};
use potside::craft::time::{Moment, Span, Stretch};
use potside::keeper::{Clock, Keeper, Look, Said, State, Wake, Watch};
use potside::machine::away::WallClock;
use potside::machine::voice::Sound;
use potside::machine::{Machine, PotNo};
use potside::shelf::ShelfSeen;
use potside::shell::bench_file;
use potside::shell::book::Book;
use potside::shell::disk::data_folder::DataFolder;
use potside::shell::disk::small_file::SmallFiles;
use potside::shell::disk::untouched::{BENCH, is_untouched};
use potside::shell::glass::desk::{Deeds, Desk};
use potside::shell::glass::generated::AppWindow;
use potside::shell::glass::taps::Glass;
use potside::view::bench::Bench;
use potside::view::pages::{DaybookSeen, LabelFile};
use potside::view::screen::Screen;
use slint::ComponentHandle;
use slint::platform::{Key, PointerEventButton, WindowEvent};

use crate::gallery;

/// The keeper is woken at least this often. A longer gap is an outage to it.
const WOKEN_EVERY: Span = Span::from_seconds(15);

/// The dead time after a firm tap, and a little.
const DEAD: Span = Span::from_ms(1_100);

/// How long a firm tap lies on the glass.
const FIRM: Span = Span::from_ms(400);

/// The clock of the test.
struct TestClock(Rc<Cell<Moment>>);

impl Clock for TestClock {
    fn look(&self) -> Look {
        Look {
            now: self.0.get(),
            slept: Span::NONE,
            wall: WallClock::NotKnown,
        }
    }
}

/// The glass with everything behind it, on a clock that the test moves.
pub(crate) struct Kitchen {
    pub(crate) glass: Rc<Glass>,
    watch: RefCell<Watch<DataFolder>>,
    asked: Rc<RefCell<Vec<Wake>>>,
    clock: Rc<Cell<Moment>>,
    sounds: RefCell<Vec<Sound>>,
    /// What the glass sounds by itself, beside the keeper.
    glass_sounds: Rc<RefCell<Vec<Sound>>>,
    folder: tempfile::TempDir,
    /// How loud the sounds were let be heard, each time.
    checks: Rc<RefCell<Vec<u8>>>,
    /// Whether a start in a folder that holds nothing is a first one. Most tests begin with a bench that stands.
    asks_first: bool,
}

impl Kitchen {
    pub(crate) fn open() -> Self {
        let folder = tempfile::tempdir().expect("a scratch folder");
        Self::begin(folder, "test-boot", 1_000, 1_764_000_000_000, false)
    }

    /// The very first start, as the program decides it.
    pub(crate) fn first_start() -> Self {
        let folder = tempfile::tempdir().expect("a scratch folder");
        Self::begin(folder, "test-boot", 1_000, 1_764_000_000_000, true)
    }

    /// The power goes, and is back after so long; the machine has been up for forty seconds when the program opens.
    pub(crate) fn lose_power(self, away: Span) -> Self {
        let Self {
            glass,
            watch,
            clock,
            folder,
            asks_first,
            ..
        } = self;
        let back = clock.get().plus(away);
        glass.window.hide().expect("it hides");
        drop(glass);
        drop(watch);
        Self::begin(folder, "test-boot-2", 40_000, back.wall_ms, asks_first)
    }

    fn begin(folder: tempfile::TempDir, boot: &str, steady_ms: u64, wall_ms: i64, asks_first: bool) -> Self {
        gallery::go_headless();
        let is_first = asks_first && is_untouched(folder.path(), None);
        let data = DataFolder::open(folder.path()).expect("a data folder");
        let (keeper, stretch) = Keeper::open(data, Some(boot)).expect("a keeper");
        let clock = Rc::new(Cell::new(Moment {
            stretch,
            steady_ms,
            wall_ms,
        }));
        let asked: Rc<RefCell<Vec<Wake>>> = Rc::default();
        let labels = folder.path().to_owned();
        let bench_files = SmallFiles::new(folder.path().to_owned());
        let bench = kept_bench(&bench_files);
        let checks: Rc<RefCell<Vec<u8>>> = Rc::default();
        let checked = Rc::clone(&checks);
        let (now, waking) = (Rc::clone(&clock), Rc::clone(&asked));
        let glass_sounds: Rc<RefCell<Vec<Sound>>> = Rc::default();
        let by_glass = Rc::clone(&glass_sounds);
        let deeds = Deeds {
            now: Box::new(move || now.get()),
            wake: Box::new(move |wake| {
                waking.borrow_mut().push(wake);
                true
            }),
            sound: Box::new(move |sound, _| by_glass.borrow_mut().push(sound.clone())),
            sound_check: Box::new(move |percent| checked.borrow_mut().push(percent)),
            keep_bench: Box::new(move |bench| keep_bench(&bench_files, bench)),
            daybook: Box::new(|_| DaybookSeen::default()),
            record: Box::new(|_, _| None),
            lists: Box::new(|| (potside::shelf::worklist::all().to_vec(), Vec::new())),
            write_labels: Box::new(move |files| write_labels(&labels, files)),
        };
        let window = AppWindow::new().expect("a headless window");
        window.show().expect("it shows");
        window.window().set_size(slint::PhysicalSize::new(800, 480));
        let mut desk = Desk::new(deeds, Book::built_in(), bench);
        if is_first {
            desk.greet();
        }
        let glass = Glass::new(window, desk);
        let mut states: Vec<State> = Vec::new();
        let mut sounds: Vec<Sound> = Vec::new();
        let watch = Watch::begin(keeper, &TestClock(Rc::clone(&clock)), &mut |said| match said {
            Said::State(state) => states.push(*state),
            Said::Sound(sound, _) => sounds.push(sound),
        });
        for state in states {
            glass.work(|desk| desk.hear(state));
        }
        Self {
            glass,
            watch: RefCell::new(watch),
            asked,
            clock,
            sounds: RefCell::new(sounds),
            glass_sounds,
            folder,
            checks,
            asks_first,
        }
    }

    pub(crate) fn now(&self) -> Moment {
        self.clock.get()
    }

    fn advance(&self, span: Span) {
        self.clock.set(self.now().plus(span));
    }

    /// The machine as the glass has been told it.
    pub(crate) fn machine(&self) -> Machine {
        self.glass.desk.borrow().machine().clone()
    }

    pub(crate) fn screen(&self) -> Screen {
        self.glass.desk.borrow().screen()
    }

    /// What has been sounded since this was asked last.
    pub(crate) fn sounded(&self) -> Vec<Sound> {
        std::mem::take(&mut *self.sounds.borrow_mut())
    }

    /// What the glass has sounded by itself since this was asked last.
    pub(crate) fn sounded_by_glass(&self) -> Vec<Sound> {
        std::mem::take(&mut *self.glass_sounds.borrow_mut())
    }

    /// How loud the sounds were let be heard, each time.
    pub(crate) fn checks(&self) -> Vec<u8> {
        self.checks.borrow().clone()
    }

    /// The bench as the disk has it, if one was kept.
    pub(crate) fn bench_on_disk(&self) -> Option<Bench> {
        let text = std::fs::read_to_string(self.path(BENCH)).ok()?;
        Some(bench_file::read(&text).expect("a bench"))
    }

    /// Wakes the keeper, and lets the glass hear what it says.
    fn wake(&self, woken: Option<Wake>) {
        let mut states: Vec<State> = Vec::new();
        self.watch.borrow_mut().wake(
            woken,
            &TestClock(Rc::clone(&self.clock)),
            &mut |said| match said {
                Said::State(state) => states.push(*state),
                Said::Sound(sound, _) => self.sounds.borrow_mut().push(sound),
            },
        );
        for state in states {
            self.glass.work(|desk| desk.hear(state));
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
                self.wake(Some(wake));
            }
        }
        self.glass.repaint();
    }

    /// Lets time pass through every deadline.
    pub(crate) fn pass(&self, span: Span) {
        let until = self.now().plus(span);
        loop {
            self.wake(None);
            self.glass.work(Desk::second);
            self.keep();
            let now = self.now();
            let left = until.since(now);
            if left == Span::NONE {
                return;
            }
            let next = self.watch.borrow().keeper().machine().next_deadline(now);
            let due = next.map_or(WOKEN_EVERY, |(at, _)| at.since(now));
            let step = if due == Span::NONE { WOKEN_EVERY } else { due };
            self.advance(step.min(WOKEN_EVERY).min(left));
        }
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
        self.advance(FIRM);
        mock_elapsed_time(Duration::from_millis(FIRM.ms()));
        window.dispatch_event(WindowEvent::PointerReleased { position, button });
        self.keep();
        self.advance(DEAD);
    }

    /// The same ask by a key, in the time that a finger takes.
    pub(crate) fn firm_by_keys(&self, label: &str) {
        self.advance(FIRM);
        let is_own = match self.screen() {
            Screen::Run(run) => run.slab.label.starts_with(label),
            Screen::Sheet(_) | Screen::Number(_) => true,
            _ => false,
        };
        if is_own && !self.is_any_focused() {
            self.key(" ");
        } else {
            self.press_by_keys(label);
        }
        self.advance(DEAD);
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

    /// From goods that are weighed to the sheet of the studio's alum bath.
    pub(crate) fn take_studio_alum(&self) {
        self.tap("to the recipe");
        self.tap("Mordant");
        self.turn_to("Alum and tartar, studio");
        self.tap("Alum and tartar, studio");
        self.tap("take this recipe");
        self.tap("bath sheet");
    }

    /// From a sheet to its first step, the cautions read.
    pub(crate) fn start(&self) {
        for slab in ["Read the cautions", "Cautions read", "BEGIN"] {
            self.firm(&self.control(slab));
        }
    }

    /// A light touch in the middle of the glass.
    pub(crate) fn touch_anywhere(&self) {
        let position = slint::LogicalPosition::new(400.0, 240.0);
        let button = PointerEventButton::Left;
        let window = self.glass.window.window();
        window.dispatch_event(WindowEvent::PointerMoved { position });
        window.dispatch_event(WindowEvent::PointerPressed { position, button });
        mock_elapsed_time(Duration::from_millis(50));
        window.dispatch_event(WindowEvent::PointerReleased { position, button });
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

    /// Walks from control to control and presses the one whose label begins so, as a foot pedal or a numpad would.
    pub(crate) fn press_by_keys(&self, label: &str) {
        const CONTROLS_MOST: usize = 200;
        for _ in 0..CONTROLS_MOST {
            self.key(slint::SharedString::from(Key::Tab));
            if self.is_focused(label) {
                self.key(" ");
                return;
            }
        }
        panic!("no way to {label} by keys");
    }

    fn rings(&self) -> Vec<ElementHandle> {
        ElementQuery::from_root(&self.glass.window)
            .match_id("FocusRing::ring")
            .find_all()
    }

    fn is_any_focused(&self) -> bool {
        !self.rings().is_empty()
    }

    /// Whether the focus ring lies around the control whose label begins so.
    pub(crate) fn is_focused(&self, label: &str) -> bool {
        let rings = self.rings();
        let buttons = ElementQuery::from_root(&self.glass.window)
            .match_accessible_role(AccessibleRole::Button)
            .find_all();
        buttons.iter().any(|button| {
            let named = button
                .accessible_label()
                .is_some_and(|there| there.starts_with(label));
            named && rings.iter().any(|ring| lies_around(ring, button))
        })
    }

    pub(crate) fn slab_label(&self) -> String {
        match self.screen() {
            Screen::Run(run) => run.slab.label,
            Screen::Sheet(sheet) => sheet.slab.label,
            other => panic!("no slab on {:?}", other.route()),
        }
    }

    /// The shelf as the keeper has it.
    pub(crate) fn shelf(&self) -> std::sync::Arc<ShelfSeen> {
        self.watch.borrow().keeper().shelf()
    }

    /// Sets the wall clock forward, as somebody at the machine would.
    pub(crate) fn set_wall_clock(&self, forward_ms: i64) {
        let now = self.now();
        self.clock.set(Moment {
            wall_ms: now.wall_ms + forward_ms,
            ..now
        });
    }

    fn has_ended(&self) -> bool {
        self.machine()
            .pot(PotNo(1))
            .is_none_or(|run| run.stand.ended.is_some())
    }

    /// Walks the bath from its first step to its last; `confirm` is the hand. Time passes as the plan expects.
    pub(crate) fn walk(&self, confirm: impl Fn(&Self)) {
        for _ in 0..60 {
            if self.has_ended() {
                return;
            }
            let usual = {
                let machine = self.machine();
                let run = machine.pot(PotNo(1)).expect("a bath");
                let in_hold = run.stand.hold.is_some();
                let step = run.step().filter(|_| !in_hold);
                step.map_or(Span::NONE, |step| step.usual.likely)
            };
            self.pass(usual.max(Span::from_minutes(31)));
            self.glass.press(&potside::view::pages::Press::Near);
            confirm(self);
        }
        panic!("the bath doesn't end");
    }

    /// Where a bath's files lie, and the daybook.
    pub(crate) fn path(&self, below: &str) -> PathBuf {
        self.folder.path().join(below)
    }

    /// What the sealed pages hold, sorted by their names.
    pub(crate) fn records(&self) -> Vec<serde_json::Value> {
        let names = std::fs::read_dir(self.path("daybook")).expect("a daybook");
        let mut pages: Vec<PathBuf> = names.map(|name| name.expect("a name").path()).collect();
        pages.retain(|page| page.extension().is_some_and(|ending| ending == "json"));
        pages.sort();
        let read = |page: &PathBuf| {
            let bytes = std::fs::read(page).expect("it reads");
            let page: serde_json::Value = serde_json::from_slice(&bytes).expect("it is JSON");
            page["record"].clone()
        };
        pages.iter().map(read).collect()
    }

    pub(crate) fn assert_sealed_to_the_end(&self) {
        let records = self.records();
        assert_eq!(records.len(), 1, "one bath, one sealed record");
        let text = records[0].to_string();
        assert!(text.contains("\"closed\""), "ended otherwise: {text}");
        assert!(text.contains("potash-alum"), "no alum in {text}");
    }

    /// The run of the program that this is.
    pub(crate) fn stretch(&self) -> Stretch {
        self.now().stretch
    }
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

/// The bench as it was last kept, or the usual one.
fn kept_bench(files: &SmallFiles) -> Bench {
    let bytes = files.read(BENCH).expect("it can be looked for");
    bytes.map_or_else(Bench::default, |bytes| {
        let text = String::from_utf8(bytes).expect("a text");
        bench_file::read(&text).expect("a bench")
    })
}

/// Keeps the bench beside the data, as the program does.
fn keep_bench(files: &SmallFiles, bench: &Bench) -> Result<(), String> {
    let text = bench_file::write(bench);
    files
        .replace(BENCH, text.as_bytes(), |_| true)
        .map_err(|fault| fault.to_string())
}

/// Writes sheets of labels beside the data, as the program does.
fn write_labels(folder: &std::path::Path, files: &[LabelFile]) -> Result<String, String> {
    for file in files {
        std::fs::write(folder.join(&file.name), &file.svg).map_err(|fault| fault.to_string())?;
    }
    Ok(files.first().map_or_else(String::new, |file| file.name.clone()))
}
