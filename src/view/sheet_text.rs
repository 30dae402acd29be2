//! A bath sheet for the terminal and for paper: plain lines, nothing but what the dyer needs, workings at the end.

use crate::craft::time::{Moment, Span};
use crate::sheet::{BathSheet, COOL_MARKS, Leg};
use chrono::FixedOffset;

use super::act;
use super::words;

/// The whole sheet as text. `start` and `zone` give the clock times.
#[must_use]
pub fn text(sheet: &BathSheet, start: Moment, zone: FixedOffset) -> String {
    let mut page = Page::default();
    head(&mut page, sheet);
    verdicts(&mut page, sheet);
    additions(&mut page, sheet);
    water(&mut page, sheet);
    heat(&mut page, sheet);
    steps(&mut page, sheet, start, zone);
    cautions(&mut page, sheet);
    workings(&mut page, sheet);
    page.text
}

#[derive(Default)]
struct Page {
    text: String,
}

impl Page {
    fn line(&mut self, line: impl AsRef<str>) {
        self.text.push_str(line.as_ref().trim_end());
        self.text.push('\n');
    }

    fn title(&mut self, title: &str) {
        self.text.push('\n');
        self.line(title);
    }

    fn pair(&mut self, label: &str, value: impl AsRef<str>) {
        self.line(format!("  {label:<28}{}", value.as_ref()));
    }

    /// A text of any length under one head, broken between words.
    fn wrapped(&mut self, head: &str, text: &str) {
        const COLUMNS: usize = 96;
        let under = " ".repeat(head.chars().count());
        let shape = textwrap::Options::new(COLUMNS)
            .initial_indent(head)
            .subsequent_indent(&under);
        for line in textwrap::wrap(text, shape) {
            self.line(line);
        }
    }
}

fn head(page: &mut Page, sheet: &BathSheet) {
    let goods = &sheet.wishes.goods;
    page.line(format!("BATH SHEET: {}", sheet.recipe.name));
    let hanks = if goods.hanks > 1 {
        format!(", {} hanks", goods.hanks)
    } else {
        String::new()
    };
    page.line(format!(
        "for {} of dry {}{hanks}",
        words::goods_weight(goods.dry),
        goods.fibre.name()
    ));
    if !sheet.recipe.about.is_empty() {
        page.wrapped("", &sheet.recipe.about);
    }
}

fn verdicts(page: &mut Page, sheet: &BathSheet) {
    if !sheet.refusals.is_empty() {
        page.title("THIS BATH CAN'T BE DONE SO");
        for refusal in &sheet.refusals {
            page.wrapped("  ", &refusal.to_string());
        }
    }
    if !sheet.warnings.is_empty() {
        page.title("MIND");
        for warning in &sheet.warnings {
            page.wrapped("  ", &warning.to_string());
        }
    }
}

fn additions(page: &mut Page, sheet: &BathSheet) {
    if sheet.plan.additions.is_empty() {
        return;
    }
    page.title("ADDITIONS");
    for addition in &sheet.plan.additions {
        let share = addition
            .percent_wof
            .map_or_else(String::new, |percent| format!("{percent} % WOF"));
        page.line(format!(
            "  {}  {:>9} {:>9}  {}  {share}",
            addition.letter.0,
            words::grams(addition.target),
            words::ounces(addition.target),
            addition.name,
        ));
    }
}

fn water(page: &mut Page, sheet: &BathSheet) {
    page.title("WATER");
    let plan = &sheet.plan;
    page.pair(
        "bath",
        format!(
            "{} ({:.0} L/kg)",
            words::litres(plan.bath),
            plan.liquor_ratio.litres_per_kg()
        ),
    );
    page.pair("fill from the tap", words::litres(sheet.fill));
    page.pair("brought by the wet goods", words::litres(sheet.carried));
    page.pair("pot filled", format!("{:.0} %", sheet.fill_fraction * 100.0));
}

fn heat(page: &mut Page, sheet: &BathSheet) {
    page.title("HEAT");
    page.pair("water boils here at", words::celsius_fine(sheet.plan.boil));
    if let Some((at, span)) = sheet.hold {
        page.pair("hold", format!("{} at {}", words::span(span), words::celsius(at)));
        let come_up = sheet
            .come_up
            .map_or_else(|| "never gets there".to_owned(), words::band);
        page.pair("come-up", come_up);
    }
    if let Some(power) = sheet.hold_power {
        page.pair("power to hold, net", format!("{:.0} W", power.watts()));
    }
    if let Some(lost) = sheet.evaporation {
        page.pair(
            "evaporation at the hold",
            format!("{:.1} to {:.1} g/min", lost.still, lost.stirred),
        );
    }
    if let Some(top_up) = sheet.top_up.filter(|top_up| top_up.grams() >= 50.0) {
        page.pair(
            "lost by the end of the hold",
            format!("about {:.0} g; top up hot", top_up.grams()),
        );
    }
    for (mark, band) in COOL_MARKS.iter().zip(&sheet.cool) {
        if let Some(band) = band {
            page.pair(&format!("cool to {mark:.0} \u{b0}C"), words::band(*band));
        }
    }
}

fn steps(page: &mut Page, sheet: &BathSheet, start: Moment, zone: FixedOffset) {
    page.title("STEPS");
    for (step, leg) in sheet.plan.steps.iter().zip(&sheet.legs) {
        let prompt = act::prompt(&sheet.plan, step);
        let number = leg.step.0.saturating_add(1);
        page.wrapped(
            &format!("{number:>3}. {}  ", leg_clock(leg, start, zone)),
            &prompt.line(),
        );
        for line in [&prompt.how, &prompt.caution]
            .into_iter()
            .filter(|line| !line.is_empty())
        {
            page.wrapped("            ", line);
        }
    }
    if let Some(last) = sheet.legs.last() {
        let (low, high) = (start.plus(last.ends.low), start.plus(last.ends.high));
        let (low, high) = (
            words::clock_of_plan(low, start, zone),
            words::clock_of_plan(high, start, zone),
        );
        page.line(format!("     done between {low} and {high}"));
    }
}

fn leg_clock(leg: &Leg, start: Moment, zone: FixedOffset) -> String {
    words::clock_of_plan(start.plus(leg.begins.likely), start, zone)
}

fn cautions(page: &mut Page, sheet: &BathSheet) {
    page.title("CAUTIONS");
    for caution in &sheet.plan.cautions {
        page.wrapped("  ", caution);
    }
}

fn workings(page: &mut Page, sheet: &BathSheet) {
    page.title("HOW EACH NUMBER CAME ABOUT");
    for working in &sheet.workings {
        let inputs: Vec<String> = working
            .inputs
            .iter()
            .map(|(name, measured)| format!("{name} {}", exact(measured.value, measured.unit)))
            .collect();
        page.line(format!(
            "  {}: {}",
            working.what,
            exact(working.result.value, working.result.unit)
        ));
        page.wrapped("    from ", &inputs.join(", "));
        page.wrapped("    by ", working.formula);
        page.wrapped("    source: ", &working.source);
    }
}

/// A number with up to four digits after the point and no trailing zeros.
pub(crate) fn exact(value: f64, unit: &str) -> String {
    let digits = format!("{value:.4}");
    let digits = digits.trim_end_matches('0').trim_end_matches('.');
    if unit.is_empty() {
        digits.to_owned()
    } else {
        format!("{digits} {unit}")
    }
}

/// The likely end of the whole bath, from its start.
#[must_use]
pub fn likely_end(sheet: &BathSheet) -> Span {
    sheet.legs.last().map_or(Span::NONE, |leg| leg.ends.likely)
}
