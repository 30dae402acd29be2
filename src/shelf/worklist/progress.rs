//! How far a lot has come in a list, and which bath is next.

use chrono::{Days, NaiveDate};

use super::model::{Wait, WorkList};
use crate::recipe::model::BathKind;
use crate::shelf::bath::ShelvedBath;
use crate::shelf::kept::Shelf;
use crate::shelf::lot::{Came, Lot};

/// How far a lot has come.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Progress {
    /// For each bath of the list that is done, the id of its record; `None` where the goods came with it done.
    pub done: Vec<Option<String>>,
    /// The next bath, counted from 0; `None` when the list is done.
    pub next: Option<usize>,
    /// The goods wait before it until this day.
    pub ready_on: Option<NaiveDate>,
    /// And should not wait longer than this one.
    pub wait_over_on: Option<NaiveDate>,
    /// When the last done bath of the list was.
    pub last_on: Option<NaiveDate>,
}

/// How far a lot has come in a list: its whole baths are laid on the list in order. A scour counts as any scour, and as
/// done for goods that came scoured; another bath counts by its recipe.
#[must_use]
pub fn progress(
    list: &WorkList,
    shelf: &Shelf,
    lot: &Lot,
    kind_of: impl Fn(&str) -> Option<BathKind>,
) -> Progress {
    let way: Vec<&ShelvedBath> = shelf.way(lot).into_iter().filter(|bath| bath.is_whole).collect();
    let mut rest = way.as_slice();
    let mut done = Vec::new();
    let mut last: Option<&ShelvedBath> = None;
    for listed in &list.baths {
        let is_scour = kind_of(&listed.recipe) == Some(BathKind::Scour);
        let fits =
            |bath: &ShelvedBath| bath.recipe == listed.recipe || (is_scour && bath.kind == BathKind::Scour);
        if let Some(at) = rest.iter().position(|bath| fits(bath)) {
            let found = rest.get(at).copied();
            rest = rest.get(at.saturating_add(1)..).unwrap_or_default();
            last = found;
            done.push(found.map(|bath| bath.id.clone()));
        } else if is_scour && lot.came == Came::Scoured {
            done.push(None);
        } else {
            break;
        }
    }
    let next = (done.len() < list.baths.len()).then_some(done.len());
    let wait = next
        .and_then(|next| next.checked_sub(1))
        .and_then(|before| list.baths.get(before)?.then.as_ref());
    let last_on = last.map(|bath| bath.on);
    let after = |days: fn(&Wait) -> Option<u64>| {
        let days = wait.and_then(days)?;
        last_on?.checked_add_days(Days::new(days))
    };
    Progress {
        done,
        next,
        ready_on: after(|wait| Some(days_of(wait.least.ms()))),
        wait_over_on: after(|wait| wait.most.map(|most| days_of(most.ms()))),
        last_on,
    }
}

/// Whole days, a begun one counting as one.
const fn days_of(ms: u64) -> u64 {
    const DAY_MS: u64 = 24 * 60 * 60 * 1_000;
    ms.div_ceil(DAY_MS)
}
