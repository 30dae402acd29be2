//! One supply: what is left, what drew from it, and what can be done with it.

use crate::say;
use crate::shelf::{Supply, low};
use crate::view::pages::page::Facts;
use crate::view::screen::{Block, BlockLook, Icon, LeafScreen};

use super::wares;
use super::words::{act, fact, heading, low_by, said};

/// So many of the baths that drew from it are told.
const DRAWS_MOST: usize = 12;

/// The supply as a leaf.
pub(super) fn leaf(supply: &Supply, facts: &Facts<'_>) -> LeafScreen {
    let (shelf, locale) = (facts.shelf, facts.locale);
    let mut blocks = Vec::new();
    if let Some(low) = low(shelf).into_iter().find(|low| low.supply.id == supply.id) {
        blocks.push(Block {
            look: BlockLook::Caution,
            label: say!(locale, "running low"),
            detail: low_by(low.by, locale),
            ..Block::default()
        });
    }
    blocks.push(fact(
        say!(locale, "of a supply" => "left"),
        locale.shelf_weight(supply.left),
    ));
    blocks.push(fact(
        say!(locale, "low mark"),
        supply.low.map_or_else(
            || say!(locale, "of a low mark" => "none"),
            |low| locale.shelf_weight(low),
        ),
    ));
    blocks.extend(supply.note.iter().map(said));
    blocks.push(heading(say!(locale, "Drawn by")));
    let draws: Vec<Block> = shelf
        .baths()
        .iter()
        .rev()
        .flat_map(|bath| bath.weighed.iter().map(move |weighed| (bath, weighed)))
        .flat_map(|(bath, weighed)| weighed.drawn.iter().map(move |draw| (bath, draw)))
        .filter(|(_, draw)| draw.from == supply.id)
        .take(DRAWS_MOST)
        .map(|(bath, draw)| Block {
            detail: locale.date(bath.on),
            ..fact(locale.read(&bath.name), locale.shelf_weight(draw.weight))
        })
        .collect();
    if draws.is_empty() {
        blocks.push(said(say!(locale, "no bath yet")));
    }
    blocks.extend(draws);
    LeafScreen {
        title: wares::tag_and_name(supply, facts.recipes, locale),
        note: wares::words(&supply.stock, facts.recipes, locale),
        blocks,
        foot: vec![
            act("count", say!(locale, "weigh it again"), Icon::Scale, true, false),
            act("fill", say!(locale, "more came in"), Icon::Plus, true, false),
            act("mark-low", say!(locale, "low mark"), Icon::Warn, true, false),
        ],
    }
}
