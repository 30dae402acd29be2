//! One lot: what it is, what to mind, what it has been through, and what can be done with it.

use crate::recipe::model::BathKind;
use crate::shelf::worklist::WorkList;
use crate::shelf::{Lot, Shelf, ShelvedBath, condition};
use crate::view::locale::Locale;
use crate::view::pages::page::Facts;
use crate::view::screen::{Block, BlockLook, Icon, LeafScreen, SideAct};

use super::lists::{begun, come, recipe_name};
use super::pot_of;
use super::words::{
    act, advice, day, did, fact, heading, press, said, tag_and_name, weighed_as, weight, what,
};

/// The lot as a leaf.
pub(super) fn leaf(lot: &Lot, facts: &Facts<'_>) -> LeafScreen {
    let shelf = facts.shelf;
    let is_there = shelf.is_there(lot.id);
    let mut blocks = Vec::new();
    blocks.extend(gone(shelf, lot, facts.locale));
    if is_there {
        let mind = advice(shelf, lot, facts.machine, facts.today);
        blocks.extend(mind.into_iter().map(|(label, detail)| Block {
            look: BlockLook::Caution,
            label,
            detail,
            ..Block::default()
        }));
        blocks.extend(next_of_list(lot, facts));
    }
    blocks.push(heading("What it has been through"));
    let history: Vec<Block> = shelf.history(lot).map(bath).collect();
    if history.is_empty() {
        blocks.push(said(format!("no bath yet; it came {}", lot.came.id())));
    }
    blocks.extend(history);
    blocks.push(heading("Weighed"));
    for weighing in lot.weighings.iter().rev() {
        blocks.push(Block {
            detail: weighed_as(weighing.state),
            ..fact(&day(weighing.on), weighing.weight.to_string())
        });
    }
    if is_there {
        blocks.push(press(
            "weigh",
            "weigh it again, dry",
            "the earlier weights stay",
            Icon::Scale,
        ));
    }
    blocks.push(heading("The lot itself"));
    blocks.push(fact("on the shelf since", day(lot.since)));
    blocks.push(fact("came", lot.came.id()));
    blocks.extend(lot.note.iter().map(said));
    for from in &lot.from {
        blocks.push(press(&from.to_string(), format!("made of {from}"), "", Icon::Tag));
    }
    if is_there {
        blocks.push(press(
            "let-go",
            "take it off the shelf",
            "used, given away, sold: its history stays",
            Icon::Cross,
        ));
    }
    LeafScreen {
        title: tag_and_name(lot),
        note: format!(
            "{}, {}",
            weight(lot, facts.locale),
            what(lot, &condition(shelf, lot))
        ),
        blocks,
        foot: foot(lot, facts),
    }
}

fn gone(shelf: &Shelf, lot: &Lot, locale: Locale) -> Vec<Block> {
    let left = lot
        .gone
        .map(|on| said(format!("It left the shelf on {}.", day(on))));
    let into = shelf.made_of(lot.id).map(|made| {
        press(
            &made.id.to_string(),
            format!("now in {}", tag_and_name(made)),
            weight(made, locale),
            Icon::Tag,
        )
    });
    left.into_iter().chain(into).collect()
}

/// The next bath of the list that the lot has come furthest in.
fn next_of_list(lot: &Lot, facts: &Facts<'_>) -> Option<Block> {
    let (list, come) = begun_list(lot, facts)?;
    let next = list.baths.get(come.next?)?;
    let from = come
        .ready_on
        .filter(|on| *on > facts.today)
        .map_or_else(String::new, |on| format!(", from {} on", day(on)));
    Some(press(
        &format!("list-{}", list.id),
        format!("next: {}", recipe_name(&next.recipe, facts)),
        format!(
            "bath {} of {}, {}{from}",
            come.done.len().saturating_add(1),
            list.baths.len(),
            list.name
        ),
        Icon::List,
    ))
}

/// The list that a lot has begun and come furthest in; the first of several.
fn begun_list<'a>(lot: &Lot, facts: &Facts<'a>) -> Option<(&'a WorkList, crate::shelf::worklist::Progress)> {
    let going = facts.lists.iter().filter_map(|list| {
        let come = come(list, lot, facts);
        (come.next.is_some() && begun(&come) > 0).then_some((list, come))
    });
    // The last of equals is taken by `max_by_key`; the first is wanted.
    going.rev().max_by_key(|(_, come)| begun(come))
}

fn bath(bath: &ShelvedBath) -> Block {
    let ended = if bath.is_whole { "" } else { ", stopped" };
    let weighed: Vec<String> = bath
        .weighed
        .iter()
        .map(|weighed| format!("{} {}", weighed.weight, weighed.name))
        .collect();
    let weighed = if weighed.is_empty() {
        String::new()
    } else {
        format!("; {}", weighed.join(", "))
    };
    let icon = match bath.kind {
        BathKind::Scour | BathKind::Mordant | BathKind::Tannin | BathKind::Fixing => Icon::Drop,
        BathKind::Dye | BathKind::AfterBath | BathKind::Vat => Icon::Pot,
    };
    press(
        &format!("record-{}", bath.id),
        bath.name.clone(),
        format!("{} {}{ended}{weighed}", day(bath.on), did(bath.kind)),
        icon,
    )
}

fn foot(lot: &Lot, facts: &Facts<'_>) -> Vec<SideAct> {
    let label = act("label", "label", Icon::Tag, true, false);
    if !facts.shelf.is_there(lot.id) {
        return vec![label];
    }
    let is_free = pot_of(facts.machine, lot.id).is_none();
    vec![
        act("begin", "begin a bath", Icon::Plus, is_free, true),
        act("lists", "work list", Icon::List, true, false),
        act(
            "split",
            "split in two",
            Icon::Scale,
            is_free && lot.hanks > 1,
            false,
        ),
        label,
    ]
}
