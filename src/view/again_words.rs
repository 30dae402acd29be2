//! What the used liquor still gives, in words: how many uses, what is added for each, and how.

use crate::craft::quantity::Mass;
use crate::recipe::model::{Again, Letter};
use crate::sheet::BathSheet;

use super::words;

/// The lines on the used liquor of a sheet.
pub(super) fn lines(sheet: &BathSheet, again: &Again) -> Vec<String> {
    let mut lines = vec![format!(
        "{}, each paler than the one before; {}",
        uses(again),
        added(sheet, again)
    )];
    lines.extend(again.how.clone());
    lines
}

fn uses(again: &Again) -> String {
    let uses = |count: u32| if count == 1 { "use" } else { "uses" };
    match again.dips.range {
        Some((low, high)) if low < high => format!("{low} to {high} more uses"),
        Some(_) | None => format!("{} more {}", again.dips.chosen, uses(again.dips.chosen)),
    }
}

fn added(sheet: &BathSheet, again: &Again) -> String {
    let doses: Vec<String> = doses(sheet, again)
        .into_iter()
        .map(|(letter, grams)| format!("{} {}", letter.0, words::grams(grams)))
        .collect();
    if doses.is_empty() {
        "nothing is added".to_owned()
    } else {
        format!("{} added for each", doses.join(", "))
    }
}

/// What is added for each further use of as much goods; nothing when nothing is.
pub(super) fn doses(sheet: &BathSheet, again: &Again) -> Vec<(Letter, Mass)> {
    let Some(part) = &again.add else {
        return Vec::new();
    };
    sheet
        .plan
        .additions
        .iter()
        .map(|addition| (addition.letter, part_of(addition.target, part.chosen)))
        .collect()
}

fn part_of(first: Mass, part: f64) -> Mass {
    Mass::saturating_grams(first.grams() * part)
}
