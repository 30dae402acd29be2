//! A record as one HTML file to print: no scripts, nothing from elsewhere, black on white, for A4 and letter paper.

use chrono::FixedOffset;
use maud::{DOCTYPE, Markup, PreEscaped, html};

use super::curve_svg::curve;
use super::phrases::{self, celsius, grams, mark, plain};
use crate::journal::record::BathRecord;
use crate::view::words;

/// No `@page` size: the printer's own paper, with margins that suit both.
const STYLE: &str = "@page{margin:15mm}\
body{font:10pt/1.35 sans-serif;color:#000;background:#fff;max-width:180mm;margin:0 auto}\
h1{font-size:15pt;margin:0}h2{font-size:11pt;margin:5mm 0 1mm;break-after:avoid}\
table{border-collapse:collapse;width:100%}th,td{text-align:left;vertical-align:top;padding:.6mm 1.5mm;border-bottom:.2mm solid #999}\
thead{display:table-header-group}tr,svg{break-inside:avoid}td.n{text-align:right;white-space:nowrap}\
svg{width:100%;height:auto}svg text{font:9px sans-serif}ul{margin:0;padding-left:5mm}\
pre{white-space:pre-wrap;font-size:8pt}";

/// The page.
#[must_use]
pub fn page(record: &BathRecord, zone: FixedOffset) -> String {
    html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width";
                title { (plain(&record.recipe_name)) ", " (record.bath) }
                style { (PreEscaped(STYLE)) }
            }
            body {
                (head(record, zone))
                h2 { "Curve" }
                (curve(record))
                p {
                    "Line: planned course. Dots: readings. Letters: additions. Full wedge: turned; open wedge: turn missed. "
                    "Grey: the program was away. Below: the steps by number, planned and done."
                }
                (additions(record))
                (steps(record))
                (events(record))
                @if let Some(toml) = &record.recipe_toml {
                    h2 { "Recipe, word for word" }
                    pre { (toml) }
                }
            }
        }
    }
    .into_string()
}

fn head(record: &BathRecord, zone: FixedOffset) -> Markup {
    html! {
        h1 { (plain(&record.recipe_name)) }
        p {
            "Bath " (record.bath) ", pot " (record.pot) ". Begun "
            (words::date_and_clock(record.begun_wall_ms, zone)) ", " (record.ended) " "
            (words::date_and_clock(record.ended_wall_ms, zone)) "."
        }
        table class="setting" {
            @for (label, value) in phrases::setting(record) {
                tr { th { (label) } td { (value) } }
            }
        }
    }
}

fn additions(record: &BathRecord) -> Markup {
    html! {
        @if !record.additions.is_empty() {
            h2 { "Additions" }
            table class="additions" {
                thead { tr { th {} th { "ware" } th { "exactly" } th { "% WOF" } th { "planned" } th { "weighed" } } }
                @for addition in &record.additions {
                    tr {
                        td { (addition.letter) }
                        td { (addition.name) @if addition.bagged { ", in a bag" } }
                        td { (addition.ware) }
                        td.n { @if let Some(percent) = addition.percent_wof { (format!("{percent:.1}")) } }
                        td.n { (grams(addition.planned_g)) }
                        td.n { @if let Some(actual) = addition.actual_g { (grams(actual)) } @else { "not weighed" } }
                    }
                }
            }
        }
    }
}

fn steps(record: &BathRecord) -> Markup {
    html! {
        h2 { "Plan against actual" }
        table class="steps" {
            thead {
                tr { th {} th { "step" } th { "planned" } th { "actual" } th { "done" } }
            }
            @for step in &record.steps {
                tr {
                    td.n { (step.number) }
                    td {
                        (phrases::step(record, step, phrases::terminal()))
                        @if let Some(words) = &step.planned.words { br; small { (words) } }
                        @if let Some(caution) = &step.planned.caution { br; small { (caution) } }
                    }
                    td.n { (mark(step.planned.begins_min)) br; (phrases::planned_length(step, phrases::terminal())) }
                    td.n {
                        @if let Some(began) = step.began_min { (mark(began)) }
                        @if let Some(length) = phrases::actual_length(step, phrases::terminal()) { br; (length) }
                    }
                    td { (phrases::done(record, step, phrases::terminal())) }
                }
            }
        }
    }
}

fn events(record: &BathRecord) -> Markup {
    let readings = record
        .readings
        .iter()
        .map(|reading| format!("{} {}", mark(reading.at_min), celsius(reading.celsius)));
    let drops = record.drops.iter().map(|drop| {
        let back = drop
            .back_min
            .map_or("not back".to_owned(), |back| format!("back at {}", mark(back)));
        format!("{} step {}, {back}", mark(drop.at_min), drop.step)
    });
    let taken_back = record
        .taken_back
        .iter()
        .map(|act| format!("{} step {}: {}", mark(act.at_min), act.step, act.was));
    let not_yet = record
        .not_yet
        .iter()
        .map(|look| format!("{} step {}, look {}", mark(look.at_min), look.step, look.number));
    html! {
        (list("Readings", readings.collect()))
        (list("Not yet", not_yet.collect()))
        (list("Below the hold's floor, not counted", drops.collect()))
        (list("Calls", record.calls.iter().map(phrases::call).collect()))
        (list("Outages", record.outages.iter().map(phrases::outage).collect()))
        (list("Taken back", taken_back.collect()))
        (list("Cautions", record.cautions.clone()))
    }
}

fn list(title: &str, lines: Vec<String>) -> Markup {
    html! {
        @if !lines.is_empty() {
            h2 { (title) }
            ul { @for line in &lines { li { (line) } } }
        }
    }
}
