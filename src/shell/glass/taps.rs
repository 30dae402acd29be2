//! Turns the window's callbacks into presses. Nothing here decides.

use std::cell::{Cell, RefCell};
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::rc::Rc;

use slint::{ComponentHandle, Global};

use super::desk::Desk;
use super::focus;
use super::generated as glass;
use super::paint::Painter;
use crate::machine::PotNo;
use crate::view::firm_tap::{Phase, Touch};
use crate::view::pages::{GoodsPress, HomePress, Press};

/// The glass's width that millimetres are reckoned from, where the system tells none: seven inches.
const GLASS_WIDTH_MM: f32 = 152.8;

/// A window with its desk and its painter.
pub struct Glass {
    /// The window.
    pub window: glass::AppWindow,
    /// Behind it.
    pub desk: RefCell<Desk>,
    painter: RefCell<Painter>,
    stumbles: Cell<u32>,
}

impl Glass {
    /// Binds a window to its desk and listens to it.
    #[must_use]
    pub fn new(window: glass::AppWindow, desk: Desk) -> Rc<Self> {
        let painter = RefCell::new(Painter::new(&window));
        let glass = Rc::new(Self {
            window,
            desk: RefCell::new(desk),
            painter,
            stumbles: Cell::new(0),
        });
        listen(&glass);
        glass.repaint();
        glass
    }

    /// Puts on the glass what the desk shows.
    pub fn repaint(&self) {
        self.work(|_| ());
    }

    /// A press, and what it changes on the glass.
    pub fn press(&self, press: &Press) {
        self.work(|desk| desk.press(press));
    }

    /// Does something at the desk and puts on the glass what it then shows.
    ///
    /// A panic in either ends here and not in the window's loop: the keeper on its own thread knows nothing of it.
    /// The glass comes back where it was; if it stumbles there again, at home (decision 0008).
    pub fn work(&self, deed: impl FnOnce(&mut Desk)) {
        let done = catch_unwind(AssertUnwindSafe(|| {
            deed(&mut self.desk.borrow_mut());
            self.show();
        }));
        if done.is_ok() {
            self.stumbles.set(0);
            return;
        }
        let stumbles = self.stumbles.get().saturating_add(1);
        self.stumbles.set(stumbles);
        // What stands on the glass may be half of something; a new painter paints all of it. If even that fails, the
        // next second tries again.
        catch_unwind(AssertUnwindSafe(|| {
            self.desk.borrow_mut().stumbled(stumbles > 1);
            self.painter.replace(Painter::new(&self.window));
            self.show();
        }))
        .unwrap_or(());
    }

    fn show(&self) {
        let (screen, status) = {
            let desk = self.desk.borrow();
            (desk.screen(), desk.status())
        };
        let mut painter = self.painter.borrow_mut();
        painter.paint(&self.window, &screen);
        painter.paint_status(&self.window, &status);
    }

    fn touch(&self, touch: &glass::Touch) {
        let mm_per_px = f64::from(GLASS_WIDTH_MM / self.logical_width());
        let read = |at_ms| Touch {
            key: touch.key.to_string(),
            phase: match touch.phase {
                glass::TouchPhase::Down => Phase::Down,
                glass::TouchPhase::Moved => Phase::Moved,
                glass::TouchPhase::Up => Phase::Up,
                glass::TouchPhase::Cancelled => Phase::Cancelled,
            },
            x_mm: f64::from(touch.x) * mm_per_px,
            y_mm: f64::from(touch.y) * mm_per_px,
            inside: touch.inside,
            finger: touch.finger,
            at_ms,
        };
        self.work(|desk| desk.touch(&read(desk.steady_ms())));
    }

    fn logical_width(&self) -> f32 {
        let window = self.window.window();
        window.size().to_logical(window.scale_factor()).width.max(1.0)
    }
}

fn listen(glass: &Rc<Glass>) {
    let window = &glass.window;
    let pressed = |press: fn() -> Press| {
        let glass = Rc::downgrade(glass);
        move || {
            if let Some(glass) = glass.upgrade() {
                glass.press(&press());
            }
        }
    };
    let pressed_with = |press: fn(String) -> Press| {
        let glass = Rc::downgrade(glass);
        move |key: slint::SharedString| {
            if let Some(glass) = glass.upgrade() {
                glass.press(&press(key.to_string()));
            }
        }
    };
    let pot = || {
        let glass = Rc::downgrade(glass);
        move |pot: i32| {
            if let (Some(glass), Ok(pot)) = (glass.upgrade(), u8::try_from(pot)) {
                glass.press(&Press::Pot(PotNo(pot)));
            }
        }
    };

    let touched = Rc::downgrade(glass);
    let touch = glass::TouchBridge::get(window);
    touch.on_touched(move |touch| {
        if let Some(glass) = touched.upgrade() {
            glass.touch(&touch);
        }
    });
    touch.on_confirmed_by_key(pressed_with(Press::Firm));
    let near = pressed(|| Press::Near);
    touch.on_stray(move |_, _, _| near());

    glass::NavBridge::get(window).on_back(pressed(|| Press::Back));

    let keys = glass::KeysBridge::get(window);
    keys.on_firm(pressed(|| Press::FirmKey));
    keys.on_heard(pressed(|| Press::Heard));
    keys.on_take_back(pressed(|| Press::TakeBack));
    keys.on_escape(pressed(|| Press::Back));
    keys.on_point(pressed(|| Press::Point));
    keys.on_digit(pressed_with(|digit| {
        digit.chars().next().map_or(Press::Near, Press::Digit)
    }));
    let walked = Rc::downgrade(glass);
    keys.on_walk(move |forward| {
        let walked = walked.clone();
        slint::Timer::single_shot(std::time::Duration::ZERO, move || {
            if let Some(glass) = walked.upgrade() {
                // A window that is closing takes no key; then there is nothing to walk.
                focus::walk(glass.window.window(), forward).unwrap_or(());
            }
        });
    });

    let stove = glass::StoveBridge::get(window);
    stove.on_open_pot(pot());
    stove.on_begin(pressed(|| Press::Home(HomePress::Begin)));
    stove.on_daybook(pressed(|| Press::Home(HomePress::Daybook)));
    stove.on_bench(pressed(|| Press::Home(HomePress::Bench)));
    stove.on_rehearse(pressed(|| Press::Home(HomePress::Rehearse)));
    stove.on_shelf(pressed(|| Press::Home(HomePress::Shelf)));
    stove.on_recipes(pressed(|| Press::Home(HomePress::Recipes)));

    let goods = glass::GoodsBridge::get(window);
    goods.on_choose_fibre(pressed_with(|id| Press::Goods(GoodsPress::Fibre(id))));
    goods.on_key_weight(pressed(|| Press::Goods(GoodsPress::KeyWeight)));
    goods.on_choose_state(pressed(|| Press::Goods(GoodsPress::ChooseState)));
    goods.on_fewer_hanks(pressed(|| Press::Goods(GoodsPress::FewerHanks)));
    goods.on_more_hanks(pressed(|| Press::Goods(GoodsPress::MoreHanks)));
    goods.on_go_on(pressed(|| Press::Goods(GoodsPress::GoOn)));

    let choose = glass::ChooseBridge::get(window);
    choose.on_choose(pressed_with(Press::Choose));
    choose.on_foot_pressed(pressed_with(Press::Side));

    let number = glass::NumberBridge::get(window);
    number.on_key(pressed_with(Press::Keypad));
    number.on_choose_unit(pressed_with(Press::Unit));

    let sheet = glass::SheetBridge::get(window);
    sheet.on_show_working(pressed_with(Press::Working));
    sheet.on_take_way_out(pressed_with(Press::Choose));
    sheet.on_take_start(pressed_with(Press::Choose));

    let run = glass::RunBridge::get(window);
    run.on_side_pressed(pressed_with(Press::Side));
    run.on_bring_forward(pot());
    run.on_come_near(pressed(|| Press::Near));

    glass::RecordBridge::get(window).on_foot_pressed(pressed_with(Press::Side));

    let leaf = glass::LeafBridge::get(window);
    leaf.on_choose(pressed_with(Press::Choose));
    leaf.on_foot_pressed(pressed_with(Press::Side));
}
