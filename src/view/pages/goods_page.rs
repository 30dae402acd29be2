//! The first page of a new bath: goods from the shelf, or fibre, dry weight, hanks.

use crate::craft::basis::WeighedAs;
use crate::craft::fibre::Fibre;
use crate::craft::quantity::Mass;
use crate::say;
use crate::shelf::Shelf;
use crate::view::locale::{Habits, Locale, Weights};
use crate::view::screen::{GoodsScreen, Icon, Row};

use super::draft::Draft;
use super::shelf::tag_and_name;
use super::state_page;

/// The key of the way to the shelf.
pub(super) const FROM_THE_SHELF: &str = "from-the-shelf";

/// The page as a screen.
pub(super) fn screen(draft: &Draft, shelf: &Shelf, locale: Locale) -> GoodsScreen {
    let lot = draft.lot.and_then(|id| shelf.lot(id));
    let onward = if draft.recipe.is_some() {
        say!(locale, "to the pot")
    } else {
        say!(locale, "to the recipe")
    };
    let mut screen = goods(
        draft.fibre,
        draft.weight,
        draft.weighed_as,
        draft.hanks,
        lot.is_none(),
        locale,
    );
    if lot.is_some() || shelf.lots_there().next().is_some() {
        screen.fibres.insert(
            0,
            Row {
                key: FROM_THE_SHELF.into(),
                label: lot.map_or_else(|| say!(locale, "from the shelf"), |lot| tag_and_name(lot, locale)),
                detail: lot.map_or_else(String::new, |_| say!(locale, "all of it")),
                icon: Icon::Shelf,
                chosen: lot.is_some(),
                enabled: true,
                ..Row::default()
            },
        );
    }
    GoodsScreen {
        title: say!(locale, "Goods"),
        note: say!(locale, "1 of 3: what goes into the pot, dry"),
        onward,
        ..screen
    }
}

/// The same dyer with the other unit of weight, for a scale that has no other.
pub(super) const fn with_the_other_weights(locale: Locale) -> Locale {
    let weights = match locale.habits.weights {
        Weights::Grams => Weights::Ounces,
        Weights::Ounces => Weights::Grams,
    };
    let habits = Habits {
        weights,
        ..locale.habits
    };
    Locale { habits, ..locale }
}

/// Fibre, weight, state and hanks, for a bath or for a lot. Without `is_chosen` no fibre is marked as the chosen one.
pub(super) fn goods(
    fibre: Fibre,
    weight: Option<Mass>,
    state: WeighedAs,
    hanks: u32,
    is_chosen: bool,
    locale: Locale,
) -> GoodsScreen {
    let (state, state_note) = state_page::words(state, locale);
    GoodsScreen {
        weight: weight.map_or_else(|| say!(locale, "weigh the goods"), |it| locale.goods_weight(it)),
        weight_note: weight.map_or_else(String::new, |it| with_the_other_weights(locale).goods_weight(it)),
        hanks: if hanks == 1 {
            say!(locale, "1 hank")
        } else {
            say!(locale, "{hanks} hanks", hanks = hanks)
        },
        state,
        state_note,
        can_go_on: weight.is_some(),
        missing: if weight.is_some() {
            String::new()
        } else {
            say!(locale, "the weight is missing")
        },
        fibres: Fibre::ALL
            .into_iter()
            .map(|one| Row {
                key: one.id().into(),
                label: locale.read(one.name()),
                chosen: is_chosen && one == fibre,
                enabled: true,
                ..Row::default()
            })
            .collect(),
        ..GoodsScreen::default()
    }
}
