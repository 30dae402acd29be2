//! What a label says.

use crate::shelf::{Condition, Lot, Past, Shelf, condition};
use crate::view::words;

/// The finished words of a label.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LabelWords {
    /// The tag: `L3`.
    pub lot: String,
    /// What the dyer calls it.
    pub name: String,
    /// `wool, 392 g dry, 4 hanks`.
    pub goods: String,
    /// What it has been through, oldest first: `2026-08-22 Alum only`.
    pub past: Vec<String>,
    /// What to mind: how long it keeps, what isn't known.
    pub mind: Option<String>,
    /// The ids of its records, oldest first.
    pub records: Vec<String>,
}

/// The words of a lot's label; with `hank`, which one of how many, of a label for each hank.
#[must_use]
pub fn label_words(shelf: &Shelf, lot: &Lot, hank: Option<u32>) -> LabelWords {
    let condition = condition(shelf, lot);
    let weight = words::goods_weight(lot.dry());
    let how = if lot.is_weighed_in_the_grease() {
        "scoured, by reckoning"
    } else {
        "dry"
    };
    let hanks = match (hank, lot.hanks) {
        (_, 1) => String::new(),
        (Some(hank), hanks) => format!(", hank {hank} of {hanks}"),
        (None, hanks) => format!(", {hanks} hanks"),
    };
    let whole = match hank {
        Some(_) if lot.hanks > 1 => " in all",
        Some(_) | None => "",
    };
    LabelWords {
        lot: lot.id.to_string(),
        name: lot.name.clone(),
        goods: format!("{}, {weight} {how}{whole}{hanks}", lot.fibre.name()),
        past: past(&condition),
        mind: mind(&condition),
        records: condition.past.iter().map(|past| past.bath.clone()).collect(),
    }
}

fn past(condition: &Condition) -> Vec<String> {
    if condition.past.is_empty() {
        let as_it_came = format!("{}, no bath yet", condition.stage.id());
        return vec![as_it_came];
    }
    condition.past.iter().map(line).collect()
}

/// The day and the recipe: a label is narrow, and the name says what it was for.
fn line(past: &Past) -> String {
    format!("{} {}", past.on, past.name)
}

fn mind(condition: &Condition) -> Option<String> {
    if let Some(stopped) = condition.stopped.last() {
        return Some(format!(
            "{} {}: stopped, effect not known",
            stopped.on, stopped.name
        ));
    }
    let keeping = condition.keeping?;
    Some(format!("best dyed by {}", keeping.best_by))
}
