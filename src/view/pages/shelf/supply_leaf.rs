//! One supply: what is left, what drew from it, and what can be done with it.

use crate::shelf::{LowBy, Shelf, Supply, low};
use crate::view::screen::{Block, BlockLook, Icon, LeafScreen};

use super::wares;
use super::words::{act, day, fact, heading, said};

/// So many of the baths that drew from it are told.
const DRAWS_MOST: usize = 12;

/// The supply as a leaf.
pub(super) fn leaf(shelf: &Shelf, supply: &Supply) -> LeafScreen {
    let mut blocks = Vec::new();
    if let Some(low) = low(shelf).into_iter().find(|low| low.supply.id == supply.id) {
        let by = match low.by {
            LowBy::Mark(mark) => format!("your mark is {mark}"),
            LowBy::UsualBath(usual) => format!("a usual bath takes {usual}"),
        };
        blocks.push(Block {
            look: BlockLook::Caution,
            label: "running low".into(),
            detail: by,
            ..Block::default()
        });
    }
    blocks.push(fact("left", supply.left.to_string()));
    blocks.push(fact(
        "low mark",
        supply
            .low
            .map_or_else(|| "none".to_owned(), |low| low.to_string()),
    ));
    blocks.extend(supply.note.iter().map(said));
    blocks.push(heading("Drawn by"));
    let draws: Vec<Block> = shelf
        .baths()
        .iter()
        .rev()
        .flat_map(|bath| bath.weighed.iter().map(move |weighed| (bath, weighed)))
        .flat_map(|(bath, weighed)| weighed.drawn.iter().map(move |draw| (bath, draw)))
        .filter(|(_, draw)| draw.from == supply.id)
        .take(DRAWS_MOST)
        .map(|(bath, draw)| Block {
            detail: day(bath.on),
            ..fact(&bath.name, draw.weight.to_string())
        })
        .collect();
    if draws.is_empty() {
        blocks.push(said("no bath yet"));
    }
    blocks.extend(draws);
    LeafScreen {
        title: format!("{}  {}", supply.id, supply.name),
        note: wares::words(&supply.stock),
        blocks,
        foot: vec![
            act("count", "count it again", Icon::Scale, true, false),
            act("fill", "more came in", Icon::Plus, true, false),
            act("mark-low", "low mark", Icon::Warn, true, false),
        ],
    }
}
