//! The shelf, a work list and what is missing, as lines for the terminal.

use chrono::NaiveDate;

use super::words;
use crate::shelf::worklist::{Finding, Order, Severity, WorkList, WorkPlan};
use crate::shelf::{
    Condition, Lot, LowBy, Milligrams, Missing, Shelf, Stage, Supply, condition, low, state_text,
};

/// Lots, supplies and what is running low.
#[must_use]
pub fn shelf(shelf: &Shelf, today: NaiveDate) -> String {
    let mut text = String::new();
    let mut say = |line: String| {
        text.push_str(line.trim_end());
        text.push('\n');
    };
    say("LOTS".into());
    let mut none = true;
    for lot in shelf.lots_there() {
        none = false;
        say(format!("  {}", lot_line(shelf, lot)));
        for note in notes(lot, &condition(shelf, lot), today) {
            say(format!("          {note}"));
        }
    }
    if none {
        say("  none yet; `potside shelf add-lot` puts one down".into());
    }
    say(String::new());
    say("SUPPLIES".into());
    for supply in shelf.supplies() {
        say(format!("  {}", supply_line(supply)));
    }
    if shelf.supplies().next().is_none() {
        say("  none yet; `potside shelf supply` puts one down".into());
    }
    let low = low(shelf);
    if !low.is_empty() {
        say(String::new());
        say("RUNNING LOW".into());
    }
    for one in low {
        let by = match one.by {
            LowBy::Mark(mark) => format!("your mark is {mark}"),
            LowBy::UsualBath(usual) => format!("a usual bath takes {usual}"),
        };
        say(format!(
            "  {:<6}{}: {} left, {by}",
            one.supply.id.to_string(),
            one.supply.name,
            one.supply.left
        ));
    }
    text
}

/// One lot with its history and its weighings.
#[must_use]
pub fn lot(shelf: &Shelf, lot: &Lot, today: NaiveDate) -> String {
    let condition = condition(shelf, lot);
    let mut lines = vec![lot_line(shelf, lot)];
    lines.extend(notes(lot, &condition, today));
    lines.push(format!(
        "on the shelf since {}, came {}",
        lot.since,
        lot.came.id()
    ));
    if !lot.from.is_empty() {
        let from: Vec<String> = lot.from.iter().map(ToString::to_string).collect();
        lines.push(format!("made of {}", from.join(", ")));
    }
    let into: Vec<String> = shelf.made_of(lot.id).map(|made| made.id.to_string()).collect();
    if !into.is_empty() {
        lines.push(format!("now in {}", into.join(", ")));
    }
    lines.extend(lot.gone.map(|gone| format!("gone on {gone}")));
    lines.extend(lot.note.iter().map(|note| format!("note: {note}")));
    for weighing in &lot.weighings {
        lines.push(format!(
            "weighed {}: {} {}",
            weighing.on,
            weighing.weight,
            state_text(weighing.state)
        ));
    }
    for bath in shelf.history(lot) {
        let stopped = if bath.is_whole { "" } else { ", stopped" };
        lines.push(format!(
            "{}: {} ({}, {}){stopped}, record {}",
            bath.on,
            bath.name,
            bath.kind.id(),
            bath.recipe,
            bath.id
        ));
        for weighed in &bath.weighed {
            lines.push(format!(
                "  {} {}, {} weighed",
                weighed.letter, weighed.name, weighed.weight
            ));
        }
    }
    lines.join("\n")
}

/// What a sheet asks for that the shelf hasn't: `needs 15.0 g, 9.0 g on the shelf`.
#[must_use]
pub fn missing(shelf: &Shelf, missing: &[Missing]) -> Vec<String> {
    let mut lines = Vec::new();
    for one in missing {
        lines.push(format!(
            "{}: needs {}, {} on the shelf",
            one.want.name,
            words::grams(one.want.needs),
            one.there
        ));
        for (id, exchange) in &one.instead {
            let name = shelf.supply(*id).map_or("", |supply| supply.name.as_str());
            lines.push(format!(
                "  {id}, {name}, would do: {} of it, equal in {}",
                words::grams(exchange.shelf_amount),
                exchange.equal_in.name()
            ));
        }
    }
    lines
}

/// A work list for a lot: where it stands, each bath, all additions, what is missing, what would go wrong.
#[must_use]
pub fn work_plan(list: &WorkList, shelf: &Shelf, lot: &Lot, plan: &WorkPlan) -> String {
    let mut lines = vec![
        format!("WORK LIST: {}", list.name),
        format!("for {}", lot_line(shelf, lot)),
        format!("order: {}", order(plan.order)),
        String::new(),
        "BATHS".to_owned(),
    ];
    for (index, listed) in list.baths.iter().enumerate() {
        let number = index.saturating_add(1);
        let stands = match plan.progress.done.get(index) {
            Some(Some(record)) => format!("done, record {record}"),
            Some(None) => "done before it came".to_owned(),
            None if plan.progress.next == Some(index) => next(plan),
            None => String::new(),
        };
        let name = plan
            .baths
            .iter()
            .find(|bath| bath.number == number)
            .map_or(listed.recipe.as_str(), |bath| {
                bath.sheet.plan.recipe_name.as_str()
            });
        let pot = listed.pot.map_or_else(String::new, |pot| format!(", pot {pot}"));
        lines.push(
            format!("  {number}. {name} ({}){pot}  {stands}", listed.recipe)
                .trim_end()
                .to_owned(),
        );
        for bath in plan.baths.iter().filter(|bath| bath.number == number) {
            for addition in &bath.sheet.plan.additions {
                lines.push(format!(
                    "       {} {} {}",
                    addition.letter,
                    words::grams(addition.target),
                    addition.name
                ));
            }
        }
        if let Some(wait) = &listed.then {
            let most = wait
                .most
                .map_or_else(String::new, |most| format!(", at most {}", words::span(most)));
            let least = match wait.least.ms() {
                0 => String::new(),
                _ => format!(", at least {}", words::span(wait.least)),
            };
            lines.push(format!("     then {}{least}{most}", wait.how.id()));
        }
    }
    if !plan.wants.is_empty() {
        lines.extend([String::new(), "ALL TOGETHER".to_owned()]);
        lines.extend(
            plan.wants
                .iter()
                .map(|want| format!("  {} {}", words::grams(want.needs), want.name)),
        );
    }
    let missing = missing(shelf, &plan.missing);
    if !missing.is_empty() && shelf.supplies().next().is_some() {
        lines.extend([String::new(), "MISSING".to_owned()]);
        lines.extend(missing.into_iter().map(|line| format!("  {line}")));
    }
    if !plan.findings.is_empty() {
        lines.extend([String::new(), "FOUND".to_owned()]);
    }
    lines.extend(plan.findings.iter().flat_map(finding));
    lines.join("\n")
}

fn next(plan: &WorkPlan) -> String {
    match plan.progress.ready_on {
        Some(day) => format!("next, from {day} on"),
        None => "next".to_owned(),
    }
}

/// What, why, remedy and source, a line each.
fn finding(finding: &Finding) -> Vec<String> {
    let grave = match finding.trouble.severity() {
        Severity::Refuse => "refused",
        Severity::Warn => "mind",
    };
    let mut lines = vec![
        format!("  {}. {grave}: {}", finding.number, finding.trouble),
        format!("       {}", finding.trouble.why()),
        format!("       {}", finding.trouble.remedy()),
    ];
    lines.extend(
        finding
            .trouble
            .mark()
            .map(|mark| format!("       ({}: {})", mark.strength.id(), mark.text)),
    );
    lines
}

const fn order(order: Order) -> &'static str {
    match order {
        Order::PreMordant => "mordant, then dye",
        Order::PostMordant => "dye, then mordant",
        Order::OneBath => "mordant and dye in one bath",
        Order::MordantDyeMordant => "mordant, dye, mordant again",
        Order::DyeAlone => "dye without mordant",
        Order::NoDye => "no dye; goods are got ready",
    }
}

/// `L3    brown fleece: wool, 392 g, 4 hanks, mordanted`.
#[must_use]
pub fn lot_line(shelf: &Shelf, lot: &Lot) -> String {
    let condition = condition(shelf, lot);
    let hanks = match lot.hanks {
        1 => String::new(),
        hanks => format!(", {hanks} hanks"),
    };
    let weight = words::goods_weight(lot.dry());
    let counts = match lot.basis().is_ok_and(|basis| basis.is_corrected()) {
        true => format!(
            "{} {}, counts as {weight}",
            lot.weighing().weight,
            state_text(lot.weighing().state)
        ),
        false => weight,
    };
    format!(
        "{:<6}{}: {}, {counts}{hanks}, {}",
        lot.id.to_string(),
        lot.name,
        lot.fibre.name(),
        stage(&condition)
    )
}

/// `mordanted: Alum, studio` or the stage alone.
fn stage(condition: &Condition) -> String {
    let word = match condition.stage {
        Stage::Raw => return "raw".to_owned(),
        Stage::Scoured => return "scoured".to_owned(),
        Stage::Tannined => "tannined",
        Stage::Mordanted => "mordanted",
        Stage::Fixed => "mordanted and fixed",
        Stage::Dyed => "dyed",
        Stage::AfterBath => "dyed and after-bathed",
    };
    let with = condition.past.last().map_or("", |past| past.name.as_str());
    format!("{word} ({with})")
}

fn notes(lot: &Lot, condition: &Condition, today: NaiveDate) -> Vec<String> {
    let mut notes = Vec::new();
    if let Some(keeping) = condition.keeping {
        notes.push(if keeping.may_be_tender(today) {
            format!(
                "mordanted on {}: pull at a thread before dyeing, alum kept for months may tender",
                keeping.since
            )
        } else if keeping.is_over(today) {
            format!("mordanted on {}: over a month ago; dye it next", keeping.since)
        } else {
            format!("best dyed by {} (common practice, no source)", keeping.best_by)
        });
    }
    if lot.is_weighed_in_the_grease() && condition.stage > Stage::Raw {
        notes.push(format!(
            "weighed in the grease and scoured since: `potside shelf weigh {} WEIGHT`",
            lot.id
        ));
    }
    for stopped in &condition.stopped {
        notes.push(format!(
            "{} was stopped on {}; what it did isn't known",
            stopped.name, stopped.on
        ));
    }
    notes
}

fn supply_line(supply: &Supply) -> String {
    let what = match supply.stock.form() {
        Some(form) => format!("{}, {}", supply.stock.ware(), form.id()),
        None => supply.stock.ware().to_owned(),
    };
    let low = supply
        .low
        .map_or_else(String::new, |low: Milligrams| format!(", low at {low}"));
    format!(
        "{:<6}{} ({what}): {} left{low}",
        supply.id.to_string(),
        supply.name,
        supply.left
    )
}
