//! Turns what a screen shows into sets on the window, and sets only what changed. Each list is one model, made once and
//! edited in place, so that a new second repaints a second.

use std::rc::Rc;

use slint::{Global, Model, ModelRc, VecModel};

use super::generated as glass;
use super::wares::{ToGlass, shape};
use super::{letters, pictures};
use crate::view::screen::{Beside, CurveLists, RailFace, RailPot, RunScreen, Screen, Status, Theme};

/// How long a firm tap takes to fill the slab, in milliseconds: dry hands, wet hands.
const FIRM_MS: (i64, i64) = (250, 600);

/// Paints one window. Keeps its lists and what it painted last.
pub struct Painter {
    lists: Lists,
    last_screen: Option<Screen>,
    last_status: Option<Status>,
}

/// The time, where it is all that differs and takes the same room. It is put into the last screen, whatever else differs.
fn only_time<'a>(last: &mut Screen, screen: &'a Screen) -> Option<&'a str> {
    let (shown, time) = if let (Screen::Run(last), Screen::Run(run)) = (&mut *last, screen) {
        (&mut last.act.time, &run.act.time)
    } else if let (Screen::Far(last), Screen::Far(far)) = (&mut *last, screen) {
        (&mut last.time, &far.time)
    } else {
        return None;
    };
    let is_as_wide = shape(shown) == shape(time);
    shown.clone_from(time);
    (is_as_wide && last == screen).then_some(time)
}

/// Whether a control of the run screen has gone.
fn has_lost_a_control(last: &Screen, screen: &Screen) -> bool {
    let (Screen::Run(last), Screen::Run(now)) = (last, screen) else {
        return false;
    };
    let there = controls(now);
    controls(last).iter().any(|key| !there.contains(key))
}

fn controls(run: &RunScreen) -> Vec<&str> {
    let slabs = [&run.slab, &run.other].map(|slab| slab.key.as_str());
    slabs
        .into_iter()
        .chain(run.sides.iter().map(|side| side.key.as_str()))
        .filter(|key| !key.is_empty())
        .collect()
}

impl Painter {
    /// Gives the window its lists, empty as yet, and answers what it asks of its letters and its pictures.
    #[must_use]
    pub fn new(window: &glass::AppWindow) -> Self {
        let lists = Lists::default();
        lists.hang_on(window);
        letters::answer_for(window);
        pictures::answer_for(window);
        Self {
            lists,
            last_screen: None,
            last_status: None,
        }
    }

    /// Puts a screen on the glass. Says whether anything changed.
    pub fn paint(&mut self, window: &glass::AppWindow, screen: &Screen) -> bool {
        if self.last_screen.as_ref() == Some(screen) {
            return false;
        }
        if let Some(time) = self.last_screen.as_mut().and_then(|last| only_time(last, screen)) {
            set_time(&glass::RunBridge::get(window), time);
            return true;
        }
        self.set(window, screen);
        let route = screen.route();
        let is_another = |last: &Screen| last.route() != route || last.heading() != screen.heading();
        let moved_on = self.last_screen.as_ref().is_none_or(is_another);
        if moved_on {
            glass::NavBridge::get(window).set_route(route.to_glass());
        }
        // A control that goes takes the focus with it; keys would be heard by nobody.
        if moved_on
            || self
                .last_screen
                .as_ref()
                .is_some_and(|last| has_lost_a_control(last, screen))
        {
            window.invoke_rest_focus();
        }
        self.last_screen = Some(screen.clone());
        true
    }

    /// Puts on the glass what stands on every screen. Says whether anything changed.
    pub fn paint_status(&mut self, window: &glass::AppWindow, status: &Status) -> bool {
        if self.last_status.as_ref() == Some(status) {
            return false;
        }
        refill(&self.lists.notices, &status.notices);
        glass::StatusBridge::get(window).set_flash(status.flash);
        glass::ThemeMotion::get(window).set_firm(if status.wet_hands { FIRM_MS.1 } else { FIRM_MS.0 });
        glass::NavBridge::get(window).set_no_way_back(status.no_way_back);
        set_theme(window, status.theme);
        let is_of_another = |last: &Status| last.language != status.language;
        if self.last_status.as_ref().is_none_or(is_of_another) {
            // The catalogues are built in, so each of the languages is there; if one weren't, the signs of the markup
            // would stay in the language before, and the bath would go on.
            slint::select_bundled_translation(status.language.tag()).unwrap_or(());
        }
        self.last_status = Some(status.clone());
        true
    }

    fn set(&self, window: &glass::AppWindow, screen: &Screen) {
        let lists = &self.lists;
        match screen {
            Screen::Stove(stove) => {
                glass::StoveBridge::get(window).set_screen(stove.to_glass());
                refill(&lists.stove_pots, &stove.pots);
            }
            Screen::Goods(goods) => {
                glass::GoodsBridge::get(window).set_screen(goods.to_glass());
                refill(&lists.fibres, &goods.fibres);
            }
            Screen::Choose(choose) => {
                glass::ChooseBridge::get(window).set_screen(choose.to_glass());
                refill(&lists.rows, &choose.rows);
                refill(&lists.choose_foot, &choose.foot);
            }
            Screen::Number(number) => {
                glass::NumberBridge::get(window).set_screen(number.to_glass());
                refill(&lists.units, &number.units);
                refill(&lists.steps, &number.steps);
            }
            Screen::Sheet(sheet) => {
                glass::SheetBridge::get(window).set_screen(sheet.to_glass());
                refill(&lists.additions, &sheet.additions);
                refill(&lists.lines, &sheet.lines);
                refill(&lists.cautions, &sheet.cautions);
                refill(&lists.remarks, &sheet.remarks);
                refill(&lists.ways_out, &sheet.ways_out);
                lists.sheet_curve.refill(&sheet.lists);
                glass::SheetBridge::get(window).set_beside(sheet.beside.to_glass());
                lists.beside.refill(&sheet.beside);
            }
            Screen::Working(working) => {
                glass::SheetBridge::get(window).set_working(working.to_glass());
                refill(&lists.inputs, &working.inputs);
            }
            Screen::Run(run) => {
                let bridge = glass::RunBridge::get(window);
                bridge.set_screen(run.to_glass());
                set_time(&bridge, &run.act.time);
                refill(&lists.rail, &run.rail);
                let faces: Vec<RailFace> = run.rail.iter().map(RailPot::face).collect();
                refill(&lists.faces, &faces);
                refill(&lists.sides, &run.sides);
                lists.run_curve.refill(&run.lists);
            }
            Screen::Far(far) => {
                let bridge = glass::RunBridge::get(window);
                bridge.set_far(far.to_glass());
                set_time(&bridge, &far.time);
            }
            Screen::Ask(ask) => {
                glass::AskBridge::get(window).set_screen(ask.to_glass());
                refill(&lists.facts, &ask.facts);
                refill(&lists.choices, &ask.choices);
            }
            Screen::Returned(returned) => {
                glass::AskBridge::get(window).set_returned(returned.to_glass());
                refill(&lists.choices, &returned.choices);
            }
            Screen::Record(record) => {
                glass::RecordBridge::get(window).set_screen(record.to_glass());
                refill(&lists.record_lines, &record.lines);
                refill(&lists.record_foot, &record.foot);
                lists.record_curve.refill(&record.lists);
            }
            Screen::Leaf(leaf) => {
                glass::LeafBridge::get(window).set_screen(leaf.to_glass());
                refill(&lists.blocks, &leaf.blocks);
                refill(&lists.leaf_foot, &leaf.foot);
            }
            Screen::Label(label) => {
                glass::LeafBridge::get(window).set_label(label.to_glass());
                refill(&lists.sizes, &label.sizes);
                refill(&lists.leaf_foot, &label.foot);
            }
            Screen::Wipe(wipe) => glass::AskBridge::get(window).set_wipe(wipe.to_glass()),
        }
    }
}

fn set_time(bridge: &glass::RunBridge<'_>, time: &str) {
    let (before, last) = cut(time);
    bridge.set_time(before.into());
    bridge.set_time_last(last.into());
    let counting = if last.is_empty() {
        String::new()
    } else {
        shape(time)
    };
    bridge.set_counting(counting.into());
}

/// A time that counts, cut before its last digit, which changes ten times as often as the rest. Any other stays whole.
fn cut(time: &str) -> (&str, &str) {
    let counts = time.chars().all(|sign| sign.is_ascii_digit() || sign == ':');
    match time.char_indices().last() {
        Some((at, digit)) if counts && at > 0 && digit.is_ascii_digit() => time.split_at(at),
        _ => (time, ""),
    }
}

fn set_theme(window: &glass::AppWindow, theme: Theme) {
    glass::ThemeColors::get(window).set_theme(theme.to_glass());
}

type List<T> = Rc<VecModel<T>>;

#[derive(Default)]
struct CurveModels {
    marks: List<glass::CurveMark>,
    temperatures: List<glass::CurveRule>,
    times: List<glass::CurveRule>,
}

impl CurveModels {
    fn refill(&self, lists: &CurveLists) {
        refill(&self.marks, &lists.marks);
        refill(&self.temperatures, &lists.temperatures);
        refill(&self.times, &lists.times);
    }
}

#[derive(Default)]
struct BesideModels {
    starts: List<glass::Row>,
    rows: List<glass::StripRow>,
    marks: List<glass::StripMark>,
    times: List<glass::CurveRule>,
}

impl BesideModels {
    fn refill(&self, beside: &Beside) {
        refill(&self.starts, &beside.starts);
        refill(&self.rows, &beside.rows);
        refill(&self.marks, &beside.marks);
        refill(&self.times, &beside.times);
    }
}

#[derive(Default)]
struct Lists {
    notices: List<glass::Notice>,
    stove_pots: List<glass::StovePot>,
    fibres: List<glass::Row>,
    rows: List<glass::Row>,
    choose_foot: List<glass::SideAct>,
    units: List<glass::UnitChoice>,
    steps: List<glass::StepKey>,
    additions: List<glass::Row>,
    lines: List<glass::Row>,
    cautions: List<glass::CautionLine>,
    remarks: List<glass::Row>,
    ways_out: List<glass::Row>,
    sheet_curve: CurveModels,
    beside: BesideModels,
    inputs: List<glass::Fact>,
    rail: List<glass::RailPot>,
    faces: List<glass::RailFace>,
    sides: List<glass::SideAct>,
    run_curve: CurveModels,
    facts: List<glass::Fact>,
    choices: List<glass::Slab>,
    record_lines: List<glass::RecordLine>,
    record_foot: List<glass::SideAct>,
    record_curve: CurveModels,
    blocks: List<glass::Block>,
    leaf_foot: List<glass::SideAct>,
    sizes: List<glass::Row>,
}

impl Lists {
    fn hang_on(&self, window: &glass::AppWindow) {
        glass::StatusBridge::get(window).set_notices(share(&self.notices));
        glass::StoveBridge::get(window).set_pots(share(&self.stove_pots));
        glass::GoodsBridge::get(window).set_fibres(share(&self.fibres));
        let choose = glass::ChooseBridge::get(window);
        choose.set_rows(share(&self.rows));
        choose.set_foot(share(&self.choose_foot));
        glass::NumberBridge::get(window).set_units(share(&self.units));
        glass::NumberBridge::get(window).set_steps(share(&self.steps));
        let sheet = glass::SheetBridge::get(window);
        sheet.set_additions(share(&self.additions));
        sheet.set_lines(share(&self.lines));
        sheet.set_cautions(share(&self.cautions));
        sheet.set_remarks(share(&self.remarks));
        sheet.set_ways_out(share(&self.ways_out));
        sheet.set_marks(share(&self.sheet_curve.marks));
        sheet.set_temperatures(share(&self.sheet_curve.temperatures));
        sheet.set_times(share(&self.sheet_curve.times));
        sheet.set_working_inputs(share(&self.inputs));
        sheet.set_starts(share(&self.beside.starts));
        sheet.set_strip_rows(share(&self.beside.rows));
        sheet.set_strip_marks(share(&self.beside.marks));
        sheet.set_strip_times(share(&self.beside.times));
        let run = glass::RunBridge::get(window);
        run.set_rail(share(&self.rail));
        run.set_faces(share(&self.faces));
        run.set_sides(share(&self.sides));
        run.set_marks(share(&self.run_curve.marks));
        run.set_temperatures(share(&self.run_curve.temperatures));
        run.set_times(share(&self.run_curve.times));
        let ask = glass::AskBridge::get(window);
        ask.set_facts(share(&self.facts));
        ask.set_choices(share(&self.choices));
        let record = glass::RecordBridge::get(window);
        record.set_lines(share(&self.record_lines));
        record.set_foot(share(&self.record_foot));
        record.set_marks(share(&self.record_curve.marks));
        record.set_temperatures(share(&self.record_curve.temperatures));
        record.set_times(share(&self.record_curve.times));
        let leaf = glass::LeafBridge::get(window);
        leaf.set_blocks(share(&self.blocks));
        leaf.set_foot(share(&self.leaf_foot));
        leaf.set_sizes(share(&self.sizes));
    }
}

fn share<T: Clone + 'static>(list: &List<T>) -> ModelRc<T> {
    ModelRc::from(Rc::clone(list))
}

/// Makes a model show these rows, touching only the rows that differ.
fn refill<V, T>(model: &VecModel<T>, wanted: &[V])
where
    V: ToGlass<Glass = T>,
    T: Clone + PartialEq + 'static,
{
    while model.row_count() > wanted.len() {
        drop(model.remove(model.row_count().saturating_sub(1)));
    }
    for (index, value) in wanted.iter().enumerate() {
        let value = value.to_glass();
        match model.row_data(index) {
            Some(shown) if shown == value => {}
            Some(_) => model.set_row_data(index, value),
            None => model.push(value),
        }
    }
}
