//! The first page of a new bath: goods from the shelf, or fibre, dry weight, hanks.

use crate::craft::basis::WeighedAs;
use crate::craft::fibre::Fibre;
use crate::craft::quantity::Mass;
use crate::shelf::Shelf;
use crate::view::locale::Locale;
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
        "to the pot"
    } else {
        "to the recipe"
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
                label: lot.map_or_else(|| "from the shelf".to_owned(), tag_and_name),
                detail: lot.map_or_else(String::new, |_| "all of it".to_owned()),
                icon: Icon::Shelf,
                chosen: lot.is_some(),
                enabled: true,
                ..Row::default()
            },
        );
    }
    GoodsScreen {
        title: "Goods".into(),
        note: "1 of 3: what goes into the pot, dry".into(),
        onward: onward.into(),
        ..screen
    }
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
    let (state, state_note) = state_page::words(state);
    GoodsScreen {
        weight: weight.map_or_else(|| "weigh the goods".into(), |it| locale.goods_weight(it)),
        weight_note: weight.map_or_else(String::new, |it| locale.ounces(it)),
        hanks: if hanks == 1 {
            "1 hank".into()
        } else {
            format!("{hanks} hanks")
        },
        state,
        state_note,
        can_go_on: weight.is_some(),
        missing: if weight.is_some() {
            String::new()
        } else {
            "the weight is missing".into()
        },
        fibres: Fibre::ALL
            .into_iter()
            .map(|one| Row {
                key: one.id().into(),
                label: one.name().into(),
                chosen: is_chosen && one == fibre,
                enabled: true,
                ..Row::default()
            })
            .collect(),
        ..GoodsScreen::default()
    }
}
