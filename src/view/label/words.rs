//! What a label says.

use crate::say;
use crate::shelf::{Condition, Lot, Past, Shelf, condition};
use crate::view::locale::Locale;
use crate::view::lot_words::{came, lot_name};

/// The finished words of a label.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LabelWords {
    /// The tag: `L3`.
    pub lot: String,
    /// What the dyer calls it.
    pub name: String,
    /// `wool, 392 g dry, 4 hanks`.
    pub goods: String,
    /// What it has been through, oldest first: `2026-08-22 Alum, studio`.
    pub past: Vec<String>,
    /// What to mind: how long it keeps, what isn't known.
    pub mind: Option<String>,
    /// The ids of its records, oldest first.
    pub records: Vec<String>,
    /// How the dyer is spoken to, for what is only known once the lines are counted.
    pub locale: Locale,
}

/// The words of a lot's label; with `hank`, which one of how many, of a label for each hank.
#[must_use]
pub fn label_words(shelf: &Shelf, lot: &Lot, hank: Option<u32>, locale: Locale) -> LabelWords {
    let condition = condition(shelf, lot);
    LabelWords {
        lot: lot.id.to_string(),
        name: lot_name(&lot.name, locale),
        goods: goods(lot, hank, locale),
        past: past(&condition, lot, locale),
        mind: mind(&condition, locale),
        records: condition.past.iter().map(|past| past.bath.clone()).collect(),
        locale,
    }
}

fn goods(lot: &Lot, hank: Option<u32>, locale: Locale) -> String {
    let weight = locale.goods_weight(lot.dry());
    let by_reckoning = lot.is_weighed_in_the_grease();
    let is_one_of_many = hank.is_some() && lot.hanks > 1;
    let weight = match (by_reckoning, is_one_of_many) {
        (true, false) => say!(locale, "{weight} scoured, by reckoning", weight = weight),
        (true, true) => say!(locale, "{weight} scoured, by reckoning in all", weight = weight),
        (false, false) => say!(locale, "{weight} dry", weight = weight),
        (false, true) => say!(locale, "{weight} dry in all", weight = weight),
    };
    let hanks = match (hank, lot.hanks) {
        (_, 1) => None,
        (Some(hank), hanks) => Some(say!(locale, "hank {hank} of {hanks}", hank = hank, hanks = hanks)),
        (None, hanks) => Some(say!(locale, "{hanks} hanks", hanks = hanks)),
    };
    let parts: Vec<String> = [locale.read(lot.fibre.name()), weight]
        .into_iter()
        .chain(hanks)
        .collect();
    parts.join(", ")
}

fn past(condition: &Condition, lot: &Lot, locale: Locale) -> Vec<String> {
    if condition.past.is_empty() {
        let came = came(lot.came, locale);
        return vec![say!(locale, "{came}, no bath yet", came = came)];
    }
    condition.past.iter().map(|past| line(past, locale)).collect()
}

/// The day and the recipe: a label is narrow, and the name says what it was for. The day is that of ISO 8601, which
/// every language reads.
fn line(past: &Past, locale: Locale) -> String {
    format!("{} {}", past.on, locale.read(&past.name))
}

fn mind(condition: &Condition, locale: Locale) -> Option<String> {
    if let Some(stopped) = condition.stopped.last() {
        return Some(say!(
            locale,
            "{day} {name}: stopped, effect not known",
            day = stopped.on,
            name = locale.read(&stopped.name)
        ));
    }
    let keeping = condition.keeping?;
    Some(say!(locale, "best dyed by {day}", day = keeping.best_by))
}
