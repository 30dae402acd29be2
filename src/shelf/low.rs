//! What is running low: by the dyer's own mark, or because it isn't enough for one more usual bath.

use super::kept::Shelf;
use super::supply::Supply;
use super::weight::Milligrams;

/// A supply that is running low.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Low<'a> {
    /// Which.
    pub supply: &'a Supply,
    /// What it is measured by.
    pub by: LowBy,
}

/// What a supply is measured by.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LowBy {
    /// The dyer's own mark.
    Mark(Milligrams),
    /// What a usual bath takes of it: the middle one of the last five that drew from it.
    UsualBath(Milligrams),
}

/// A usual bath is judged from so many.
const BATHS_LOOKED_AT: usize = 5;

/// The supplies that are running low, in order of their numbers. Without a mark and without a bath nothing is said.
#[must_use]
pub fn low(shelf: &Shelf) -> Vec<Low<'_>> {
    shelf
        .supplies()
        .filter_map(|supply| {
            let by = match supply.low {
                Some(mark) => LowBy::Mark(mark),
                None => LowBy::UsualBath(usual_draw(shelf, supply)?),
            };
            let is_low = match by {
                LowBy::Mark(mark) => supply.left <= mark,
                LowBy::UsualBath(usual) => supply.left < usual,
            };
            is_low.then_some(Low { supply, by })
        })
        .collect()
}

/// What a usual bath takes of a supply; `None` when no bath drew from it.
fn usual_draw(shelf: &Shelf, supply: &Supply) -> Option<Milligrams> {
    let mut last: Vec<Milligrams> = shelf
        .baths()
        .iter()
        .rev()
        .flat_map(|bath| &bath.weighed)
        .filter(|weighed| weighed.drawn.iter().any(|draw| draw.from == supply.id))
        .map(|weighed| weighed.weight)
        .take(BATHS_LOOKED_AT)
        .collect();
    last.sort_unstable();
    last.get(last.len().div_euclid(2)).copied()
}
