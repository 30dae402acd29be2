//! The first page of a new bath: fibre, dry weight, hanks.

use crate::craft::fibre::Fibre;
use crate::view::screen::{GoodsScreen, Icon, Row};
use crate::view::words;

use super::draft::Draft;
use super::state_page;

/// The page as a screen.
pub(super) fn screen(draft: &Draft) -> GoodsScreen {
    let (state, state_note) = state_page::words(draft.weighed_as);
    let weight = draft.weight.map(words::goods_weight);
    GoodsScreen {
        weight: weight.unwrap_or_else(|| "weigh the goods".into()),
        weight_note: draft.weight.map_or_else(String::new, words::ounces),
        hanks: if draft.hanks == 1 {
            "1 hank".into()
        } else {
            format!("{} hanks", draft.hanks)
        },
        state,
        state_note,
        can_go_on: draft.weight.is_some(),
        missing: if draft.weight.is_some() {
            String::new()
        } else {
            "the weight is missing".into()
        },
        fibres: Fibre::ALL
            .into_iter()
            .map(|fibre| Row {
                key: fibre.id().into(),
                label: fibre.name().into(),
                detail: String::new(),
                value: String::new(),
                icon: Icon::None,
                chosen: fibre == draft.fibre,
                enabled: true,
            })
            .collect(),
    }
}
