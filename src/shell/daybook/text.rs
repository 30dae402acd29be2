//! A record in readable lines: plan beside actual, then all that went otherwise.

use chrono::FixedOffset;

use super::phrases::{self, celsius, grams, mark, plain};
use crate::journal::record::BathRecord;
use crate::view::words;

/// The whole record as text.
#[must_use]
pub fn text(record: &BathRecord, zone: FixedOffset) -> String {
    let mut page = Page::default();
    page.line(format!(
        "BATH {}: {}",
        plain(&record.bath),
        plain(&record.recipe_name)
    ));
    page.line(format!(
        "begun {}, {} {}, pot {}",
        words::date_and_clock(record.begun_wall_ms, zone),
        plain(&record.ended),
        words::date_and_clock(record.ended_wall_ms, zone),
        record.pot
    ));
    page.title("DONE WITH");
    for (label, value) in phrases::setting(record) {
        page.line(format!("  {label:<20}{value}"));
    }
    additions(&mut page, record);
    steps(&mut page, record);
    events(&mut page, record);
    page.list("CAUTIONS", record.cautions.iter().map(|caution| plain(caution)));
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

    /// A title and its lines; nothing when there are none.
    fn list(&mut self, title: &str, lines: impl Iterator<Item = String>) {
        for (index, line) in lines.enumerate() {
            if index == 0 {
                self.title(title);
            }
            self.line(format!("  {line}"));
        }
    }
}

fn additions(page: &mut Page, record: &BathRecord) {
    let lines = record.additions.iter().map(|addition| {
        let share = addition
            .percent_wof
            .map_or_else(String::new, |percent| format!("  {percent:.1} % WOF"));
        let bagged = if addition.bagged { "  in a bag" } else { "" };
        let actual = addition.actual_g.map_or_else(
            || "not weighed".to_owned(),
            |actual| phrases::weighed(Some(addition.planned_g), actual, phrases::terminal()),
        );
        let name = plain(&addition.name);
        let exact = plain(&addition.ware);
        let planned = grams(addition.planned_g);
        format!(
            "{}  {name} ({exact}){share}{bagged}: planned {planned}, weighed {actual}",
            plain(&addition.letter)
        )
    });
    page.list("ADDITIONS", lines);
}

fn steps(page: &mut Page, record: &BathRecord) {
    page.title("STEPS (clock from the beginning of the bath, h:mm)");
    for step in &record.steps {
        page.line(format!(
            "{:>3}. {}",
            step.number,
            phrases::step(record, step, phrases::terminal())
        ));
        page.line(format!(
            "     planned  {:>5} to {:>5}  {}",
            mark(step.planned.begins_min),
            mark(step.planned.ends_min),
            phrases::planned_length(step, phrases::terminal())
        ));
        let times = match (
            step.began_min,
            step.ended_min,
            phrases::actual_length(step, phrases::terminal()),
        ) {
            (Some(began), Some(ended), Some(length)) => {
                format!("{:>5} to {:>5}  {length}; ", mark(began), mark(ended))
            }
            (Some(began), _, _) => format!("{:>5}, not ended; ", mark(began)),
            (None, _, _) => String::new(),
        };
        page.line(format!(
            "     actual   {times}{}",
            phrases::done(record, step, phrases::terminal())
        ));
    }
}

fn events(page: &mut Page, record: &BathRecord) {
    page.list(
        "READINGS",
        record
            .readings
            .iter()
            .map(|reading| format!("{}  {}", mark(reading.at_min), celsius(reading.celsius))),
    );
    page.list(
        "TURNS",
        record.turns.iter().map(|turn| {
            let what = if turn.missed { "missed" } else { "made" };
            let which = match turn.number {
                0 => "between reminders".to_owned(),
                number => format!("reminder {number}"),
            };
            format!("{}  step {}, {which}: {what}", mark(turn.at_min), turn.step)
        }),
    );
    page.list(
        "NOT YET",
        record
            .not_yet
            .iter()
            .map(|look| format!("{}  step {}, look {}", mark(look.at_min), look.step, look.number)),
    );
    page.list(
        "BELOW THE HOLD'S FLOOR",
        record.drops.iter().map(|drop| {
            let back = drop
                .back_min
                .map_or("not back".to_owned(), |back| format!("back at {}", mark(back)));
            format!("{}  step {}, {back}; not counted", mark(drop.at_min), drop.step)
        }),
    );
    page.list("CALLS", record.calls.iter().map(phrases::call));
    page.list("OUTAGES", record.outages.iter().map(phrases::outage));
    page.list(
        "TAKEN BACK",
        record
            .taken_back
            .iter()
            .map(|act| format!("{}  step {}: {}", mark(act.at_min), act.step, plain(&act.was))),
    );
}
