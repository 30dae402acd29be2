//! A sheet as one SVG file, in millimetres: print it at its own size, without fitting it to the page.

use maud::{Markup, html};

use super::layout::{Drawing, Mark};
use crate::view::letters::outline;

/// The file of a sheet.
#[must_use]
pub fn svg(sheet: &Drawing) -> String {
    let (width, height) = (micrometres(sheet.width), micrometres(sheet.height));
    let dark: String = sheet
        .marks
        .iter()
        .filter_map(|mark| match mark {
            Mark::Dark { x, y, side } => Some(format!("M{x:.3} {y:.3}h{side:.3}v{side:.3}h-{side:.3}z")),
            Mark::Hole { .. } | Mark::Cut { .. } | Mark::Text { .. } => None,
        })
        .collect();
    let drawn = html! {
        svg xmlns="http://www.w3.org/2000/svg" width={ (width) "mm" } height={ (height) "mm" } viewBox={ "0 0 " (width) " " (height) } {
            title { "Potside labels" }
            // The modules of all codes as one shape, so that no hairlines show between them.
            path d=(dark) fill="#000" shape-rendering="crispEdges" {}
            @for mark in &sheet.marks { (drawn(mark)) }
        }
    };
    format!(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n{}\n",
        drawn.into_string()
    )
}

/// To the micrometre, so that a sum of inches reads as it is meant.
fn micrometres(mm: f64) -> f64 {
    (mm * 1_000.0).round() / 1_000.0
}

fn drawn(mark: &Mark) -> Markup {
    match mark {
        Mark::Dark { .. } => html! {},
        Mark::Hole { x, y, radius } => html! {
            circle cx=(x) cy=(y) r=(radius) fill="none" stroke="#000" stroke-width="0.2" {}
        },
        Mark::Cut { x, y, width, height } => html! {
            rect x=(x) y=(y) width=(width) height=(height) fill="none" stroke="#000" stroke-width="0.2" stroke-dasharray="1 1" {}
        },
        Mark::Text {
            x,
            baseline,
            size,
            is_bold,
            text,
        } => html! {
            g role="img" aria-label=(text) {
                path d=(outline(text, *size, *is_bold, (*x, *baseline))) fill="#000" {}
            }
        },
    }
}
