//! What a second costs on the glass: from state to screen, and from screen to pixels, beside one copy of the frame
//! buffer, with one to six pots going. Run with `cargo bench --bench glass`; read the ratios, not the times.

use std::cell::RefCell;
use std::rc::Rc;
use std::sync::Arc;

use divan::{Bencher, black_box};
use potside::craft::quantity::Mass;
use potside::craft::time::{Moment, Span, Stretch};
use potside::craft::vessel::Lid;
use potside::machine::{Ask, Input, Machine, PotNo};
use potside::recipe::book;
use potside::sheet::plan::{Goods, StepAct};
use potside::sheet::{StovePlace, Wishes, compute};
use potside::shell::glass::generated::AppWindow;
use potside::shell::glass::paint::Painter;
use potside::view::screen::Screen;
use potside::view::{far, run};
use slint::ComponentHandle;
use slint::Rgb8Pixel;
use slint::platform::software_renderer::{MinimalSoftwareWindow, RepaintBufferType};
use slint::platform::{Platform, PlatformError, WindowAdapter};

const WIDTH: u32 = 800;
const HEIGHT: u32 = 480;
const PIXELS: usize = 384_000;
const POT: PotNo = PotNo(1);
/// How many pots are going.
const POTS: [u8; 6] = [1, 2, 3, 4, 5, 6];

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

thread_local! {
    /// A program has one platform, so all benches share one glass.
    static GLASS: Option<Glass> = Glass::new();
}

/// Draws each screen on the glass. The first is drawn beforehand.
fn draw_each(bencher: Bencher<'_, '_>, first: &Screen, mut next: impl FnMut() -> Option<Screen>) {
    GLASS.with(|glass| {
        let Some(glass) = glass else { return };
        glass.draw(first);
        bencher
            .with_inputs(&mut next)
            .bench_local_values(|screen| screen.iter().for_each(|screen| glass.draw(screen)));
    });
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

/// So many baths in their first hold, whose screen leaves room for the curve: the last begun ten minutes ago and each
/// before it three minutes earlier. With the moment.
fn in_their_holds(pots: u8) -> Option<(Machine, Moment)> {
    let recipe = Arc::new(book::by_id("fustic").ok()?.clone());
    let goods = Goods {
        fibre: *recipe.fibres.first()?,
        dry: Mass::saturating_grams(100.0),
        hanks: 2,
        lot: None,
    };
    let mut wishes = Wishes::new(goods, StovePlace::default());
    wishes.stove.lid = Lid::Off;
    let plan = compute(&recipe, &wishes).plan;
    let mut machine = Machine::default();
    let mut now = Moment {
        stretch: Stretch(0),
        steady_ms: 0,
        wall_ms: 1_764_000_000_000,
    };
    for pot in (1..=pots).map(PotNo) {
        let begin = Input::Begin {
            pot,
            bath_id: format!("bench-{}", pot.0),
            plan: Arc::clone(&plan),
            cautions_read: true,
        };
        take(&mut machine, &begin, now);
    }
    let steps = plan
        .steps
        .iter()
        .take_while(|step| !matches!(step.act, StepAct::Hold { .. }));
    for _ in steps {
        now = now.plus(Span::from_minutes(31));
        for pot in (1..=pots).map(PotNo) {
            let step = machine.pot(pot)?.stand.step;
            let confirm = Ask::Confirm { step, sure: true };
            take(&mut machine, &Input::Pot(pot, confirm), now);
            now = now.plus(Span::from_seconds(187));
        }
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

fn far_screen(machine: &Machine, now: Moment) -> Option<Screen> {
    let zone = chrono::FixedOffset::east_opt(0)?;
    far::screen(machine, POT, now, potside::view::locale::Locale::plain(zone)).map(Screen::Far)
}

/// The measure of the others.
#[divan::bench]
fn a_copy_of_the_frame_buffer(bencher: Bencher<'_, '_>) {
    let from = vec![Rgb8Pixel::default(); PIXELS];
    let mut to = from.clone();
    bencher.bench_local(|| black_box(&mut to).copy_from_slice(black_box(&from)));
}

/// The same with nothing of it in the caches.
#[divan::bench(sample_count = 120, sample_size = 1)]
fn a_copy_once_a_second(bencher: Bencher<'_, '_>) {
    let from = vec![Rgb8Pixel::default(); PIXELS];
    let mut to = from.clone();
    let mut others = vec![0_u8; OTHERS];
    bencher
        .with_inputs(|| work_of_others(&mut others))
        .bench_local_values(|()| black_box(&mut to).copy_from_slice(black_box(&from)));
}

/// More than any cache of the machine holds.
const OTHERS: usize = 256 << 20;

fn work_of_others(memory: &mut [u8]) {
    for byte in black_box(memory).iter_mut().step_by(64) {
        *byte = byte.wrapping_add(1);
    }
}

#[divan::bench(args = POTS)]
fn state_to_screen(bencher: Bencher<'_, '_>, pots: u8) {
    let Some((machine, now)) = in_their_holds(pots) else {
        return;
    };
    bencher.bench_local(|| screen(black_box(&machine), black_box(now)));
}

/// Aim: at most twice the copy. One in sixty of these seconds begins a minute of the curve.
#[divan::bench(args = POTS, sample_count = 240, sample_size = 1)]
fn the_frame_after_a_second(bencher: Bencher<'_, '_>, pots: u8) {
    let Some((machine, start)) = in_their_holds(pots) else {
        return;
    };
    let Some(first) = screen(&machine, start) else {
        return;
    };
    let mut now = start;
    draw_each(bencher, &first, || {
        now = now.plus(Span::from_seconds(1));
        screen(&machine, now)
    });
}

/// The same as it comes in a kitchen: once a second, when others have used the processor's caches in between. Beside
/// `a_copy_once_a_second`. Aim: at most twice the copy.
#[divan::bench(args = POTS, sample_count = 120, sample_size = 1)]
fn the_frame_once_a_second(bencher: Bencher<'_, '_>, pots: u8) {
    let Some((machine, start)) = in_their_holds(pots) else {
        return;
    };
    let Some(first) = screen(&machine, start) else {
        return;
    };
    let mut others = vec![0_u8; OTHERS];
    let mut now = start;
    draw_each(bencher, &first, || {
        work_of_others(&mut others);
        now = now.plus(Span::from_seconds(1));
        screen(&machine, now)
    });
}

/// Nobody near: the same second on the far view. Aim: at most twice the copy.
#[divan::bench(args = [1_u8, 6], sample_count = 240, sample_size = 1)]
fn the_far_view_after_a_second(bencher: Bencher<'_, '_>, pots: u8) {
    let Some((machine, start)) = in_their_holds(pots) else {
        return;
    };
    let Some(first) = far_screen(&machine, start) else {
        return;
    };
    let mut now = start;
    draw_each(bencher, &first, || {
        now = now.plus(Span::from_seconds(1));
        far_screen(&machine, now)
    });
}

/// The curve, the clock and the rail move on as well.
#[divan::bench(args = [1_u8, 6], sample_count = 100, sample_size = 1)]
fn the_frame_after_a_minute(bencher: Bencher<'_, '_>, pots: u8) {
    let Some((machine, start)) = in_their_holds(pots) else {
        return;
    };
    let Some(first) = screen(&machine, start) else {
        return;
    };
    let mut minutes = 0_u64;
    draw_each(bencher, &first, || {
        minutes = minutes.saturating_add(1) % 20;
        screen(&machine, start.plus(Span::from_minutes(minutes)))
    });
}

/// Aim: at most twenty times the copy.
#[divan::bench(args = [1_u8, 6], sample_count = 100, sample_size = 1)]
fn the_frame_after_a_step(bencher: Bencher<'_, '_>, pots: u8) {
    let Some((machine, now)) = in_their_holds(pots) else {
        return;
    };
    let mut dropped = machine.clone();
    take(&mut dropped, &Input::Pot(POT, Ask::BackToRaise), now);
    let Some(first) = screen(&machine, now) else {
        return;
    };
    let mut odd = false;
    draw_each(bencher, &first, || {
        odd = !odd;
        screen(if odd { &dropped } else { &machine }, now)
    });
}
