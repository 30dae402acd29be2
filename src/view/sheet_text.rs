//! A bath sheet for the terminal and for paper: plain lines, nothing but what the dyer needs, workings at the end.

use chrono::FixedOffset;

use crate::craft::measures::NoSpoons;
use crate::craft::quantity::Mass;
use crate::craft::scale::Weighing;
use crate::craft::time::{Moment, Span};
use crate::recipe::model::Letter;
use crate::sheet::{BathSheet, Beside, COOL_MARKS, Leg};

use super::act;
use super::again_words;
use super::locale::Locale;
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
    next_baths(&mut page, sheet);
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
            .word_separator(textwrap::WordSeparator::AsciiSpace)
            .initial_indent(head)
            .subsequent_indent(&under);
        for line in textwrap::wrap(text, shape) {
            self.line(line);
        }
    }
}

fn head(page: &mut Page, sheet: &BathSheet) {
    let goods = &sheet.plan.goods;
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
    for (addition, beside) in sheet.plan.additions.iter().zip(&sheet.beside) {
        let share = addition
            .percent_wof
            .map_or_else(String::new, |percent| format!("{} % WOF", exact(percent, "")));
        page.line(format!(
            "  {}  {:>9} {:>9}  {}  {share}",
            addition.letter.0,
            words::grams(addition.target),
            words::ounces(addition.target),
            addition.name,
        ));
        for line in under(beside) {
            page.wrapped("                           ", &line);
        }
    }
    if let Some(ph) = sheet.acidity.as_ref().and_then(|acidity| acidity.ph) {
        page.line(format!(
            "  acidity about pH {:.1} to {:.1}: advice only, a test strip wins",
            ph.low, ph.high
        ));
    }
}

/// What stands under an addition: the recipe's own salt, a stock that weighs better, spoons.
fn under(beside: &Beside) -> Vec<String> {
    let mut lines = Vec::new();
    if let Some(exchange) = &beside.exchange {
        lines.push(format!(
            "for the recipe's {} of {}, equal in {}",
            words::grams(exchange.recipe_amount),
            exchange.recipe_salt.name(),
            exchange.equal_in.name()
        ));
    }
    match beside.weighing {
        Weighing::Coarsely {
            stock: Some(stock), ..
        } => lines.push(format!(
            "weighed coarsely on this scale; a {} % stock would be nearer: {:.0} mL of it",
            stock.percent,
            stock.measure.litres() * 1_000.0
        )),
        Weighing::Well { .. } | Weighing::Coarsely { stock: None, .. } | Weighing::TooLittle { .. } => {}
    }
    match &beside.spoons {
        Some(Ok(spoons)) => lines.push(format!(
            "ROUGH: {:.1} to {:.1} level {}s; the scale decides",
            spoons.count.low,
            spoons.count.high,
            spoons.unit.name()
        )),
        Some(Err(refused)) if is_warned(refused) => lines.push(refused.to_string()),
        Some(Err(_)) | None => {}
    }
    lines
}

/// Where a spoon would do harm, that is said; where nothing is known, nothing is.
const fn is_warned(refused: &NoSpoons) -> bool {
    match refused {
        NoSpoons::Never { .. } | NoSpoons::IronUnderFiveGrams { .. } | NoSpoons::WhichSoda => true,
        NoSpoons::NoSuchGrade { .. }
        | NoSpoons::NotKnown { .. }
        | NoSpoons::NotASpoon { .. }
        | NoSpoons::TooLittle { .. } => false,
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
    for raise in &sheet.slow_raises {
        page.pair(
            &format!("burner, raise of step {}", raise.step.0.saturating_add(1)),
            format!(
                "about {:.0} rising to {:.0} % of full, for {} \u{b0}C a minute",
                raise.setting.start * 100.0,
                raise.setting.end * 100.0,
                exact(raise.ramp.kelvin_per_minute(), "")
            ),
        );
    }
    if let Some(entering) = sheet.entering {
        let back = match entering.recovery {
            Some(band) if band.high < Span::from_minutes(1) => ", back in under a minute".to_owned(),
            Some(band) => format!(", back in {}", words::band(band)),
            None => String::new(),
        };
        let drop = words::celsius_fine(entering.drops_to);
        let from = words::celsius_fine(entering.from);
        page.pair("goods bring the bath", format!("from {from} to {drop}{back}"));
    }
    if let Some(power) = sheet.hold_power {
        page.pair("power to hold, net", format!("{:.0} W", power.watts()));
    }
    if let Some(setting) = sheet.hold_setting {
        page.pair(
            "burner to hold",
            format!(
                "about {:.0} % of full ({:.0} to {:.0} %)",
                setting.likely * 100.0,
                setting.low * 100.0,
                setting.high * 100.0
            ),
        );
    }
    if let Some(drift) = sheet.drift {
        let then = if drift > 0.0 {
            "turn it down at the hold"
        } else {
            "it needs all of it"
        };
        page.pair(
            "burner left as it was",
            format!("{drift:+.2} \u{b0}C a minute: {then}"),
        );
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
    if let Some(after) = sheet.top_up_after {
        page.pair(
            "top up",
            format!("{} into the hold, a tenth is gone", words::span(after)),
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
        let prompt = act::prompt(&sheet.plan, step, Locale::plain(zone));
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

fn next_baths(page: &mut Page, sheet: &BathSheet) {
    let again = sheet.recipe.again.as_ref();
    if sheet.next_baths.is_empty() && again.is_none() {
        return;
    }
    page.title("THIS LIQUOR AGAIN, FOR AS MUCH GOODS");
    if let Some(again) = again {
        for line in again_words::lines(sheet, again) {
            page.wrapped("  ", &line);
        }
        if let Some(source) = sheet.recipe.source_of(&again.dips) {
            page.wrapped("    source: ", &source.text);
        }
    }
    for next in &sheet.next_baths {
        let adds_nothing = next.doses.iter().all(|(_, _, most)| most.grams() <= 0.0);
        if again.is_some() && adds_nothing {
            continue; // The recipe itself has said so.
        }
        let doses: Vec<String> = next
            .doses
            .iter()
            .filter(|(_, _, most)| most.grams() > 0.0)
            .map(|dose| dose_words(*dose))
            .chain([next.custom.about.to_owned()])
            .collect();
        page.wrapped("  ", &doses.join(", "));
        page.wrapped("    source: ", next.custom.source);
    }
    if sheet.next_baths.len() > 1 {
        page.line("  The customs contradict; the choice is yours.");
    }
}

fn dose_words((letter, least, most): (Letter, Mass, Mass)) -> String {
    let (low, high) = (words::grams(least), words::grams(most));
    if low == high {
        format!("{} {low}", letter.0)
    } else {
        format!("{} {low} to {high}", letter.0)
    }
}

fn cautions(page: &mut Page, sheet: &BathSheet) {
    let cautions = &sheet.cautions;
    let mut of_this_bath = cautions.wear.iter().chain(&cautions.of_this_bath).peekable();
    if of_this_bath.peek().is_some() {
        page.title("CAUTIONS OF THIS BATH");
    }
    for caution in of_this_bath {
        page.wrapped("  ", caution);
    }
    page.title("CAUTIONS AT WORK");
    for caution in cautions.at_work.iter().chain([&cautions.deferral]) {
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
        let result = exact(working.result.value, working.result.unit);
        page.wrapped("  ", &format!("{}: {result}", working.what));
        page.wrapped("    from ", &inputs.join(", "));
        page.wrapped("    by ", working.formula);
        if !working.source.is_empty() {
            page.wrapped("    source: ", &working.source);
        }
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
