//! The lists of the shelf: lots, supplies, what is running low; lots to pick; work lists to choose for a lot.

use crate::shelf::worklist::{Progress, WorkList, progress};
use crate::shelf::{Lot, LowBy, Supply, condition, low};
use crate::view::pages::page::Facts;
use crate::view::screen::{ChooseScreen, Icon, Row, SideAct};

use super::words::{act, advice, tag_and_name, weight, what};
use super::{pot_of, wares};

/// The key of the act that describes a new lot, or names a new supply.
pub(in crate::view::pages) const NEW: &str = "new";

/// The lots that are there.
pub(super) fn lots(facts: &Facts<'_>) -> ChooseScreen {
    let rows: Vec<Row> = facts
        .shelf
        .lots_there()
        .map(|lot| lot_row(lot, facts, true))
        .collect();
    ChooseScreen {
        title: "Shelf".into(),
        note: note(facts, "goods lots, by their tags"),
        empty: "no lot is on the shelf yet; weigh some goods and put them down".into(),
        foot: foot(
            "lots",
            act(NEW, "new lot", Icon::Plus, can_change(facts), false),
            facts,
        ),
        ..list(rows)
    }
}

/// The supplies.
pub(super) fn supplies(facts: &Facts<'_>) -> ChooseScreen {
    let lows: Vec<_> = low(facts.shelf).iter().map(|low| low.supply.id).collect();
    let rows: Vec<Row> = facts
        .shelf
        .supplies()
        .map(|supply| supply_row(supply, lows.contains(&supply.id)))
        .collect();
    ChooseScreen {
        title: "Shelf".into(),
        note: note(facts, "supplies, as they were last weighed or drawn down"),
        empty: "no supply is on the shelf yet".into(),
        foot: foot(
            "supplies",
            act(NEW, "new supply", Icon::Plus, can_change(facts), false),
            facts,
        ),
        ..list(rows)
    }
}

/// What is running low.
pub(super) fn low_ones(facts: &Facts<'_>) -> ChooseScreen {
    let rows = low(facts.shelf).into_iter().map(|low| {
        let by = match low.by {
            LowBy::Mark(mark) => format!("your mark is {mark}"),
            LowBy::UsualBath(usual) => format!("a usual bath takes {usual}"),
        };
        Row {
            detail: by,
            ..supply_row(low.supply, true)
        }
    });
    ChooseScreen {
        title: "Running low".into(),
        note: note(facts, "by your own mark, or less than a usual bath takes"),
        empty: "nothing is running low".into(),
        foot: foot(
            "low",
            act(NEW, "new supply", Icon::Plus, can_change(facts), false),
            facts,
        ),
        ..list(rows.collect())
    }
}

/// The lots, to pick one for a bath. One that is in a pot can't be picked.
pub(super) fn pick(facts: &Facts<'_>) -> ChooseScreen {
    let rows: Vec<Row> = facts
        .shelf
        .lots_there()
        .map(|lot| lot_row(lot, facts, pot_of(facts.machine, lot.id).is_none()))
        .collect();
    ChooseScreen {
        title: "From the shelf".into(),
        note: "which lot goes into the pot, all of it".into(),
        empty: "no lot is on the shelf".into(),
        ..list(rows)
    }
}

/// The work lists for a lot: those it has begun first, those it has finished last.
pub(super) fn work_lists(lot: &Lot, facts: &Facts<'_>) -> ChooseScreen {
    let mut lists: Vec<(&WorkList, Progress)> = facts
        .lists
        .iter()
        .map(|list| (list, come(list, lot, facts)))
        .collect();
    lists.sort_by_key(|(_, come)| (come.next.is_none(), std::cmp::Reverse(begun(come))));
    let rows: Vec<Row> = lists
        .into_iter()
        .map(|(list, come)| Row {
            key: list.id.clone(),
            label: list.name.clone(),
            detail: names(list, facts),
            value: stands(list, &come),
            icon: Icon::List,
            chosen: false,
            enabled: true,
        })
        .collect();
    ChooseScreen {
        title: "Work list".into(),
        note: format!("for {}", tag_and_name(lot)),
        empty: "no work list is at hand".into(),
        ..list(rows)
    }
}

/// How far a lot has come in a list.
pub(super) fn come(list: &WorkList, lot: &Lot, facts: &Facts<'_>) -> Progress {
    progress(list, facts.shelf, lot, |id| {
        let recipe = facts.recipes.iter().find(|recipe| recipe.id == id);
        recipe.map(|recipe| recipe.kind)
    })
}

/// How many baths of a list were really done here.
pub(super) fn begun(come: &Progress) -> usize {
    come.done.iter().flatten().count()
}

/// The name of a recipe, or its id where there is none of it.
pub(super) fn recipe_name<'a>(id: &'a str, facts: &Facts<'a>) -> &'a str {
    let recipe = facts.recipes.iter().find(|recipe| recipe.id == id);
    recipe.map_or(id, |recipe| recipe.name.as_str())
}

fn names(list: &WorkList, facts: &Facts<'_>) -> String {
    let names: Vec<&str> = list
        .baths
        .iter()
        .map(|bath| recipe_name(&bath.recipe, facts))
        .collect();
    names.join(", then ")
}

fn stands(list: &WorkList, come: &Progress) -> String {
    match (come.next, come.done.len()) {
        (None, _) => "done".into(),
        (Some(_), 0) => format!("{} baths", list.baths.len()),
        (Some(_), done) => format!("{done} of {}", list.baths.len()),
    }
}

fn lot_row(lot: &Lot, facts: &Facts<'_>, enabled: bool) -> Row {
    let what = what(lot, &condition(facts.shelf, lot));
    let mind = advice(facts.shelf, lot, facts.machine, facts.today);
    let detail = match mind.first() {
        Some((first, _)) => format!("{what}; {first}"),
        None => what,
    };
    Row {
        key: lot.id.to_string(),
        label: tag_and_name(lot),
        detail,
        value: weight(lot, facts.locale),
        icon: Icon::Tag,
        chosen: false,
        enabled,
    }
}

fn supply_row(supply: &Supply, is_low: bool) -> Row {
    let mark = supply
        .low
        .map_or_else(String::new, |low| format!(", low mark at {low}"));
    let low = if is_low { "running low; " } else { "" };
    Row {
        key: supply.id.to_string(),
        label: format!("{}  {}", supply.id, supply.name),
        detail: format!("{low}{}{mark}", wares::words(&supply.stock)),
        value: supply.left.to_string(),
        icon: if is_low { Icon::Warn } else { Icon::Scale },
        chosen: false,
        enabled: true,
    }
}

/// Whether the shelf takes changes: a damaged file is left as it is.
fn can_change(facts: &Facts<'_>) -> bool {
    facts.shelf_fault.is_empty()
}

fn note(facts: &Facts<'_>, usual: &str) -> String {
    if facts.shelf_fault.is_empty() {
        usual.into()
    } else {
        format!("not readable: {}", facts.shelf_fault)
    }
}

fn foot(here: &str, new: SideAct, facts: &Facts<'_>) -> Vec<SideAct> {
    let lows = low(facts.shelf).len();
    let running_low = match lows {
        0 => "running low".to_owned(),
        count => format!("running low: {count}"),
    };
    vec![
        act("lots", "goods", Icon::Tag, true, here == "lots"),
        act("supplies", "supplies", Icon::Scale, true, here == "supplies"),
        act("low", &running_low, Icon::Warn, true, here == "low"),
        new,
    ]
}

fn list(rows: Vec<Row>) -> ChooseScreen {
    ChooseScreen {
        columns: 1,
        big: true,
        rows,
        ..ChooseScreen::default()
    }
}
