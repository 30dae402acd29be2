//! One lot: what it is, what to mind, what it has been through, and what can be done with it.

use crate::recipe::model::BathKind;
use crate::say;
use crate::shelf::worklist::WorkList;
use crate::shelf::{Lot, Shelf, ShelvedBath, condition};
use crate::view::locale::Locale;
use crate::view::lot_words::came as came_words;
use crate::view::pages::page::Facts;
use crate::view::screen::{Block, BlockLook, Icon, LeafScreen, SideAct};

use super::lists::{begun, come, recipe_name};
use super::pot_of;
use super::words::{act, advice, did, fact, heading, press, said, tag_and_name, weighed_as, weight, what};

/// The lot as a leaf.
pub(super) fn leaf(lot: &Lot, facts: &Facts<'_>) -> LeafScreen {
    let (shelf, locale) = (facts.shelf, facts.locale);
    let is_there = shelf.is_there(lot.id);
    let mut blocks = Vec::new();
    blocks.extend(gone(shelf, lot, locale));
    if is_there {
        blocks.extend(advice(lot, facts).into_iter().map(|(label, detail)| Block {
            look: BlockLook::Caution,
            label,
            detail,
            ..Block::default()
        }));
        blocks.extend(next_of_list(lot, facts));
    }
    blocks.push(heading(say!(locale, "What it has been through")));
    let history: Vec<Block> = shelf.history(lot).map(|done| bath(done, locale)).collect();
    if history.is_empty() {
        blocks.push(said(say!(
            locale,
            "no bath yet; it came {came}",
            came = came_words(lot.came, locale)
        )));
    }
    blocks.extend(history);
    blocks.push(heading(say!(locale, "Weighed")));
    for weighing in lot.weighings.iter().rev() {
        blocks.push(Block {
            detail: weighed_as(weighing.state, locale),
            ..fact(locale.date(weighing.on), locale.shelf_weight(weighing.weight))
        });
    }
    if is_there {
        blocks.push(press(
            "weigh",
            say!(locale, "weigh it again, dry"),
            say!(locale, "the earlier weights stay"),
            Icon::Scale,
        ));
    }
    blocks.push(heading(say!(locale, "The lot itself")));
    blocks.push(fact(say!(locale, "on the shelf since"), locale.date(lot.since)));
    blocks.push(fact(say!(locale, "came"), came_words(lot.came, locale)));
    blocks.extend(lot.note.iter().map(said));
    for from in &lot.from {
        blocks.push(press(
            &from.to_string(),
            say!(locale, "made of {lot}", lot = from),
            "",
            Icon::Tag,
        ));
    }
    if is_there {
        blocks.push(press(
            "let-go",
            say!(locale, "take it off the shelf"),
            say!(locale, "used, given away, sold: its history stays"),
            Icon::Cross,
        ));
    }
    LeafScreen {
        title: tag_and_name(lot, locale),
        note: format!(
            "{}, {}",
            weight(lot, locale),
            what(lot, &condition(shelf, lot), locale)
        ),
        blocks,
        foot: foot(lot, facts),
    }
}

fn gone(shelf: &Shelf, lot: &Lot, locale: Locale) -> Vec<Block> {
    let left = lot
        .gone
        .map(|on| said(say!(locale, "It left the shelf on {day}.", day = locale.date(on))));
    let into = shelf.made_of(lot.id).map(|made| {
        press(
            &made.id.to_string(),
            say!(locale, "now in {lot}", lot = tag_and_name(made, locale)),
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
    let locale = facts.locale;
    let number = come.done.len().saturating_add(1);
    let (count, name) = (list.baths.len(), locale.read(&list.name));
    let detail = match come.ready_on.filter(|on| *on > facts.today) {
        Some(on) => say!(
            locale,
            "bath {number} of {count}, {list}, from {day} on",
            number = number,
            count = count,
            list = name,
            day = locale.date(on)
        ),
        None => say!(
            locale,
            "bath {number} of {count}, {list}",
            number = number,
            count = count,
            list = name
        ),
    };
    Some(press(
        &format!("list-{}", list.id),
        say!(
            locale,
            "next: {recipe}",
            recipe = recipe_name(&next.recipe, facts)
        ),
        detail,
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

fn bath(bath: &ShelvedBath, locale: Locale) -> Block {
    let ended = if bath.is_whole {
        String::new()
    } else {
        format!(", {}", say!(locale, "of a bath" => "stopped"))
    };
    let weighed: Vec<String> = bath
        .weighed
        .iter()
        .map(|weighed| {
            let weight = locale.shelf_weight(weighed.weight);
            format!("{weight} {}", locale.read(&weighed.name))
        })
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
        locale.read(&bath.name),
        format!(
            "{} {}{ended}{weighed}",
            locale.date(bath.on),
            did(bath.kind, locale)
        ),
        icon,
    )
}

fn foot(lot: &Lot, facts: &Facts<'_>) -> Vec<SideAct> {
    let locale = facts.locale;
    let label = act("label", say!(locale, "label"), Icon::Tag, true, false);
    if !facts.shelf.is_there(lot.id) {
        return vec![label];
    }
    let is_free = pot_of(facts.machine, lot.id).is_none();
    vec![
        act("begin", say!(locale, "begin a bath"), Icon::Plus, is_free, true),
        act("lists", say!(locale, "work list"), Icon::List, true, false),
        act(
            "split",
            say!(locale, "split in two"),
            Icon::Scale,
            is_free && lot.hanks > 1,
            false,
        ),
        label,
    ]
}
