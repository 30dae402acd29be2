//! What a second costs on the glass: from state to screen, and from screen to pixels, beside one copy of the frame
//! buffer. Run with `cargo bench --bench glass`; read the ratios, not the times.

use std::cell::RefCell;
use std::rc::Rc;
use std::sync::Arc;

use divan::{Bencher, black_box};
use potside::craft::quantity::Mass;
use potside::craft::time::{Moment, Span, Stretch};
use potside::machine::{Ask, Input, Machine, PotNo};
use potside::recipe::book;
use potside::sheet::plan::{Goods, StepAct};
use potside::sheet::{StovePlace, Wishes, compute};
use potside::shell::glass::generated::AppWindow;
use potside::shell::glass::paint::Painter;
use potside::view::run;
use potside::view::screen::Screen;
use slint::ComponentHandle;
use slint::Rgb8Pixel;
use slint::platform::software_renderer::{MinimalSoftwareWindow, RepaintBufferType};
use slint::platform::{Platform, PlatformError, WindowAdapter};

const WIDTH: u32 = 800;
const HEIGHT: u32 = 480;
const PIXELS: usize = 384_000;
const POT: PotNo = PotNo(1);

fn main() {
    divan::main();
}

struct Pane(Rc<MinimalSoftwareWindow>);

impl Platform for Pane {
    fn create_window_adapter(&self) -> Result<Rc<dyn WindowAdapter>, PlatformError> {
        Ok(Rc::<MinimalSoftwareWindow>::clone(&self.0))
    }
}

/// A window without a display, painted into memory.
struct Glass {
    pane: Rc<MinimalSoftwareWindow>,
    window: AppWindow,
    painter: RefCell<Painter>,
    buffer: RefCell<Vec<Rgb8Pixel>>,
}

impl Glass {
    fn new() -> Option<Self> {
        let pane = MinimalSoftwareWindow::new(RepaintBufferType::ReusedBuffer);
        slint::platform::set_platform(Box::new(Pane(Rc::clone(&pane)))).ok()?;
        let window = AppWindow::new().ok()?;
        window.show().ok()?;
        pane.set_size(slint::PhysicalSize::new(WIDTH, HEIGHT));
        let painter = RefCell::new(Painter::new(&window));
        let buffer = RefCell::new(vec![Rgb8Pixel::default(); PIXELS]);
        Some(Self {
            pane,
            window,
            painter,
            buffer,
        })
    }

    fn draw(&self, screen: &Screen) {
        self.painter.borrow_mut().paint(&self.window, screen);
        let stride = usize::try_from(WIDTH).unwrap_or(PIXELS);
        self.pane.draw_if_needed(|renderer| {
            renderer.render(&mut self.buffer.borrow_mut(), stride);
        });
    }
}

/// A bath in its hold, ten minutes in; with the moment.
fn in_its_hold() -> Option<(Machine, Moment)> {
    let recipe = Arc::new(book::by_id("alum-tartar-studio").ok()?.clone());
    let goods = Goods {
        fibre: *recipe.fibres.first()?,
        dry: Mass::saturating_grams(100.0),
        hanks: 2,
        lot: None,
    };
    let plan = compute(&recipe, &Wishes::new(goods, StovePlace::default())).plan;
    let mut machine = Machine::default();
    let mut now = Moment {
        stretch: Stretch(0),
        steady_ms: 0,
        wall_ms: 1_764_000_000_000,
    };
    let begin = Input::Begin {
        pot: POT,
        bath_id: "bench".into(),
        plan,
        cautions_read: true,
    };
    take(&mut machine, &begin, now);
    while !matches!(machine.pot(POT)?.step()?.act, StepAct::Hold { .. }) {
        now = now.plus(Span::from_minutes(31));
        let step = machine.pot(POT)?.stand.step;
        take(
            &mut machine,
            &Input::Pot(POT, Ask::Confirm { step, sure: true }),
            now,
        );
    }
    Some((machine, now.plus(Span::from_minutes(10))))
}

fn take(machine: &mut Machine, input: &Input, now: Moment) {
    for event in machine.judge(input, now).unwrap_or_default() {
        machine.apply(&event);
    }
}

fn screen(machine: &Machine, now: Moment) -> Option<Screen> {
    let zone = chrono::FixedOffset::east_opt(0)?;
    run::screen(
        machine,
        POT,
        now,
        potside::view::locale::Locale::plain(zone),
        false,
    )
    .map(|screen| Screen::Run(Box::new(screen)))
}

/// The measure of the others.
#[divan::bench]
fn a_copy_of_the_frame_buffer(bencher: Bencher<'_, '_>) {
    let from = vec![Rgb8Pixel::default(); PIXELS];
    let mut to = from.clone();
    bencher.bench_local(|| black_box(&mut to).copy_from_slice(black_box(&from)));
}

#[divan::bench]
fn state_to_screen(bencher: Bencher<'_, '_>) {
    let Some((machine, now)) = in_its_hold() else {
        return;
    };
    bencher.bench_local(|| screen(black_box(&machine), black_box(now)));
}

/// Aim: at most twice the copy.
#[divan::bench]
fn the_frame_after_a_second(bencher: Bencher<'_, '_>) {
    let (Some(glass), Some((machine, start))) = (Glass::new(), in_its_hold()) else {
        return;
    };
    let mut seconds = 0_u64;
    bencher
        .with_inputs(|| {
            seconds = seconds.saturating_add(1) % 240;
            screen(&machine, start.plus(Span::from_seconds(seconds)))
        })
        .bench_local_values(|screen| screen.iter().for_each(|screen| glass.draw(screen)));
}

/// Aim: at most twenty times the copy.
#[divan::bench]
fn the_frame_after_a_step(bencher: Bencher<'_, '_>) {
    let (Some(glass), Some((machine, now))) = (Glass::new(), in_its_hold()) else {
        return;
    };
    let mut dropped = machine.clone();
    take(&mut dropped, &Input::Pot(POT, Ask::BackToRaise), now);
    let mut odd = false;
    bencher
        .with_inputs(|| {
            odd = !odd;
            screen(if odd { &dropped } else { &machine }, now)
        })
        .bench_local_values(|screen| screen.iter().for_each(|screen| glass.draw(screen)));
}
