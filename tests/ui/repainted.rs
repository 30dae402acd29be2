//! What is painted anew when a second has passed: the digit that changed and nothing else, every tenth time all digits. The
//! rest of the screen is as it was, and painting it would cost some forty times as much.

use std::rc::Rc;

use potside::shell::glass::generated::{AppWindow, RunBridge};
use potside::shell::glass::paint::Painter;
use potside::view::screen::{
    ActWords, BathCurve, FarScreen, Icon, RailPot, RunScreen, Screen, SideAct, Slab,
};
use slint::platform::software_renderer::{MinimalSoftwareWindow, RepaintBufferType};
use slint::platform::{Platform, PlatformError, WindowAdapter};
use slint::{ComponentHandle, Global, PhysicalSize, Rgb8Pixel};

/// The glass most have: pixels across and down.
const GLASS: (u32, u32) = (800, 480);

struct Pane(Rc<MinimalSoftwareWindow>);

impl Platform for Pane {
    fn create_window_adapter(&self) -> Result<Rc<dyn WindowAdapter>, PlatformError> {
        Ok(Rc::<MinimalSoftwareWindow>::clone(&self.0))
    }
}

/// A painted window that tells what it painted. Each test runs on a thread, and so on a platform, of its own.
struct Glass {
    pane: Rc<MinimalSoftwareWindow>,
    window: AppWindow,
    painter: Painter,
    buffer: Vec<Rgb8Pixel>,
}

impl Glass {
    fn new() -> Self {
        let pane = MinimalSoftwareWindow::new(RepaintBufferType::ReusedBuffer);
        slint::platform::set_platform(Box::new(Pane(Rc::clone(&pane)))).expect("the thread's first platform");
        let window = AppWindow::new().expect("a window");
        window.show().expect("it shows");
        pane.set_size(PhysicalSize::new(GLASS.0, GLASS.1));
        let painter = Painter::new(&window);
        let buffer = vec![Rgb8Pixel::default(); (GLASS.0 * GLASS.1) as usize];
        Self {
            pane,
            window,
            painter,
            buffer,
        }
    }

    /// Paints a screen; width and height of the box around all that was painted anew.
    fn paint(&mut self, screen: &Screen) -> (u32, u32) {
        self.painter.paint(&self.window, screen);
        let mut painted = (0, 0);
        let (pane, buffer) = (&self.pane, &mut self.buffer);
        pane.draw_if_needed(|renderer| {
            let size = renderer.render(buffer, GLASS.0 as usize).bounding_box_size();
            painted = (size.width, size.height);
        });
        painted
    }
}

fn holding(time: &str) -> RunScreen {
    let pot = |pot: i32| RailPot {
        pot,
        act: "turn".into(),
        time: "4 min".into(),
        said: format!("pot {pot}, turn, 4 min"),
        ..RailPot::default()
    };
    RunScreen {
        title: "Weld, wool, 2 hanks".into(),
        step: "step 6 of 17".into(),
        clock: "14:32".into(),
        act: ActWords {
            verb: "HOLD".into(),
            amount: "1 h".into(),
            object: "at 85 \u{b0}C".into(),
            how: "Weld only. Press the bag now and then.".into(),
            time: time.into(),
            time_label: "hold left".into(),
            ..ActWords::default()
        },
        slab: Slab {
            key: "confirm".into(),
            label: "Turned".into(),
            icon: Icon::Tick,
            enabled: true,
            ..Slab::default()
        },
        curve: BathCurve {
            band: "M0 100 L1000 300 L1000 500 L0 200 Z".into(),
            plan: "M0 100 L1000 300".into(),
            done: "M0 900 L10 100".into(),
            now: 10.0,
            said: "the curve".into(),
        },
        rail: (1..=6).map(pot).collect(),
        sides: vec![SideAct {
            key: "reading".into(),
            label: "reading".into(),
            icon: Icon::Reading,
            enabled: true,
            ..SideAct::default()
        }],
        ..RunScreen::default()
    }
}

fn run(time: &str) -> Screen {
    Screen::Run(Box::new(holding(time)))
}

fn far(time: &str) -> Screen {
    Screen::Far(FarScreen {
        first: "HOLD 1 h".into(),
        second: "at 85 \u{b0}C".into(),
        time: time.into(),
        time_label: "hold left".into(),
        ..FarScreen::default()
    })
}

#[test]
fn a_second_that_passes_repaints_its_last_digit_and_nothing_else() {
    let mut glass = Glass::new();
    assert_eq!(glass.paint(&run("14:59")), GLASS, "at first all of it");

    let (width, height) = glass.paint(&run("14:58"));

    // A digit of 98 pixels is cut to 66 by 80 at most.
    assert!(0 < width && width <= 66, "{width} across");
    assert!(0 < height && height <= 80, "{height} down");
}

#[test]
fn ten_seconds_that_pass_repaint_the_digits_and_nothing_else() {
    let mut glass = Glass::new();
    glass.paint(&run("14:50"));

    let (width, height) = glass.paint(&run("14:49"));

    // The box of the digits, 276 by 122, and what smoothing may add.
    assert!(0 < width && width <= 278, "{width} across");
    assert!(0 < height && height <= 125, "{height} down");
}

#[test]
fn a_second_on_the_far_view_repaints_its_last_digit_and_nothing_else() {
    let mut glass = Glass::new();
    glass.paint(&far("14:59"));

    let (width, height) = glass.paint(&far("14:58"));

    // Of 150 pixels: 100 by 122 at most.
    assert!(0 < width && width <= 100, "{width} across");
    assert!(0 < height && height <= 122, "{height} down");
}

#[test]
fn only_a_time_that_counts_is_cut_before_its_last_digit() {
    let mut glass = Glass::new();
    let mut cut = |time: &str| {
        glass.paint(&run(time));
        let bridge = RunBridge::get(&glass.window);
        // What comes of the time elsewhere follows it.
        let act = bridge.get_screen().act;
        assert_eq!(act.timed, !time.is_empty(), "{time}");
        assert_eq!(
            act.time_shape,
            time.replace(|sign: char| sign.is_ascii_digit(), "0")
        );
        (bridge.get_time(), bridge.get_time_last())
    };
    for (time, before, last) in [
        ("14:59", "14:5", "9"),
        ("59:59", "59:5", "9"),
        ("1:00:00", "1:00:0", "0"),
        ("1:02:05", "1:02:0", "5"),
        ("2:55 h", "2:55 h", ""),
        ("40 min", "40 min", ""),
        ("about 7", "about 7", ""),
        ("now", "now", ""),
        ("9", "9", ""),
        ("", "", ""),
    ] {
        assert_eq!(cut(time), (before.into(), last.into()), "{time}");
    }
}

#[test]
fn the_same_screen_again_repaints_nothing() {
    let mut glass = Glass::new();
    glass.paint(&run("14:59"));

    assert_eq!(glass.paint(&run("14:59")), (0, 0));
}

#[test]
fn a_pot_of_the_rail_whose_minute_passes_repaints_its_own_cell() {
    let mut glass = Glass::new();
    glass.paint(&run("14:59"));
    let mut later = holding("14:59");
    later.rail[5].time = "3 min".into();

    let (width, height) = glass.paint(&Screen::Run(Box::new(later)));

    assert!(0 < width && width <= 120, "{width} across");
    assert!(0 < height && height <= 76, "{height} down");
}
