//! Splitting a lot in two: how many hanks go into the first part, and what they weigh.

use crate::craft::lot::LotId;
use crate::say;
use crate::shelf::{Lot, Milligrams, Part, ShelfAsk};
use crate::view::locale::Locale;
use crate::view::screen::{AskScreen, ChooseScreen, Fact, Row};

use super::words::{hanks, tag_and_name};

/// So many ways to split are shown: the first part may be the smaller one.
const WAYS_MOST: u32 = 48;

/// A split that is asked about before it is done.
#[derive(Debug, Clone, PartialEq)]
pub struct SplitAsked {
    pub(in crate::view::pages) lot: LotId,
    hanks: u32,
    weight: Milligrams,
    pub(in crate::view::pages) first_hanks: u32,
    first_weight: Milligrams,
    is_weighed: bool,
}

impl SplitAsked {
    /// By the count of hanks; `None` when nothing would be left.
    pub(in crate::view::pages) fn by_count(lot: &Lot, first_hanks: u32) -> Option<Self> {
        let weight = lot.weighing().weight;
        let first = by_count(weight, first_hanks, lot.hanks)?;
        Self::of(lot, first_hanks, first, false)
    }

    /// As the first part was really weighed; `None` when nothing would be left.
    pub(in crate::view::pages) fn weighed(lot: &Lot, first_hanks: u32, first: Milligrams) -> Option<Self> {
        Self::of(lot, first_hanks, first, true)
    }

    fn of(lot: &Lot, first_hanks: u32, first_weight: Milligrams, is_weighed: bool) -> Option<Self> {
        let weight = lot.weighing().weight;
        let rest = weight.less(first_weight).filter(|rest| !rest.is_none())?;
        let is_right = (1..lot.hanks).contains(&first_hanks) && !first_weight.is_none() && !rest.is_none();
        is_right.then_some(Self {
            lot: lot.id,
            hanks: lot.hanks,
            weight,
            first_hanks,
            first_weight,
            is_weighed,
        })
    }

    /// What is asked of the shelf.
    pub(in crate::view::pages) fn ask(&self) -> ShelfAsk {
        let part = |hanks, weight| Part {
            hanks,
            weight,
            name: None,
        };
        let rest = self.hanks.saturating_sub(self.first_hanks);
        let parts = vec![part(self.first_hanks, Some(self.first_weight)), part(rest, None)];
        ShelfAsk::Split(self.lot, parts)
    }

    /// The question without its answers.
    pub(in crate::view::pages) fn screen(&self, locale: Locale) -> AskScreen {
        let fact = |label: String, count, weight| Fact {
            label,
            value: format!("{}, {}", hanks(count, locale), locale.shelf_weight(weight)),
        };
        let rest = self.weight.less(self.first_weight).unwrap_or_default();
        let how = if self.is_weighed {
            say!(locale, "the first part as weighed, the second gets the rest")
        } else {
            say!(locale, "weights by the count of hanks")
        };
        AskScreen {
            pot: 0,
            title: say!(locale, "Split {lot} in two?", lot = self.lot),
            detail: how,
            facts: vec![
                fact(say!(locale, "first part"), self.first_hanks, self.first_weight),
                fact(
                    say!(locale, "second part"),
                    self.hanks.saturating_sub(self.first_hanks),
                    rest,
                ),
            ],
            choices: Vec::new(),
        }
    }
}

/// The page as a screen.
pub(super) fn screen(lot: &Lot, locale: Locale) -> ChooseScreen {
    let all = lot.weighing().weight;
    let rows = (1..lot.hanks)
        .take_while(|count| *count <= WAYS_MOST)
        .map(|count| {
            let first = by_count(all, count, lot.hanks).unwrap_or_default();
            Row {
                key: count.to_string(),
                label: hanks(count, locale),
                detail: say!(
                    locale,
                    "{first}; {count} left",
                    first = locale.shelf_weight(first),
                    count = lot.hanks.saturating_sub(count)
                ),
                enabled: true,
                ..Row::default()
            }
        });
    ChooseScreen {
        title: say!(locale, "How many into the first part?"),
        note: format!(
            "{}: {}, {}",
            tag_and_name(lot, locale),
            hanks(lot.hanks, locale),
            locale.shelf_weight(all)
        ),
        columns: 3,
        big: true,
        empty: say!(locale, "one hank can't be split"),
        rows: rows.collect(),
        ..ChooseScreen::default()
    }
}

fn by_count(weight: Milligrams, count: u32, hanks: u32) -> Option<Milligrams> {
    let share = weight.count().checked_mul(u64::from(count))?;
    Some(Milligrams::from_count(share.checked_div(u64::from(hanks))?))
}
