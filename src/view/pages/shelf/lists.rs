//! The lists of the shelf: lots, supplies, what is running low; lots to pick; work lists to choose for a lot.

use crate::say;
use crate::shelf::worklist::{Progress, WorkList, progress};
use crate::shelf::{Lot, Supply, condition, low};
use crate::view::locale::Locale;
use crate::view::pages::page::Facts;
use crate::view::screen::{ChooseScreen, Icon, Row, SideAct};

use super::words::{act, advice, low_by, tag_and_name, weight, what};
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
        title: say!(facts.locale, "Shelf"),
        note: note(facts, say!(facts.locale, "goods lots, by their tags")),
        empty: say!(
            facts.locale,
            "no lot is on the shelf yet; weigh some goods and write them down"
        ),
        foot: foot(
            "lots",
            act(
                NEW,
                say!(facts.locale, "new lot"),
                Icon::Plus,
                can_change(facts),
                false,
            ),
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
        .map(|supply| supply_row(supply, lows.contains(&supply.id), facts))
        .collect();
    ChooseScreen {
        title: say!(facts.locale, "Shelf"),
        note: note(
            facts,
            say!(facts.locale, "supplies, as they were last weighed or drawn down"),
        ),
        empty: say!(facts.locale, "no supply is on the shelf yet"),
        foot: foot(
            "supplies",
            act(
                NEW,
                say!(facts.locale, "new supply"),
                Icon::Plus,
                can_change(facts),
                false,
            ),
            facts,
        ),
        ..list(rows)
    }
}

/// What is running low.
pub(super) fn low_ones(facts: &Facts<'_>) -> ChooseScreen {
    let rows = low(facts.shelf).into_iter().map(|low| Row {
        detail: low_by(low.by, facts.locale),
        ..supply_row(low.supply, true, facts)
    });
    ChooseScreen {
        title: say!(facts.locale, "Running low"),
        note: note(
            facts,
            say!(facts.locale, "by your own mark, or less than a usual bath takes"),
        ),
        empty: say!(facts.locale, "nothing is running low"),
        foot: foot(
            "low",
            act(
                NEW,
                say!(facts.locale, "new supply"),
                Icon::Plus,
                can_change(facts),
                false,
            ),
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
        title: say!(facts.locale, "From the shelf"),
        note: say!(facts.locale, "which lot goes into the pot, all of it"),
        empty: say!(facts.locale, "no lot is on the shelf"),
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
            label: facts.locale.read(&list.name),
            detail: names(list, facts),
            value: stands(list, &come, facts.locale),
            icon: Icon::List,
            chosen: false,
            enabled: true,
        })
        .collect();
    ChooseScreen {
        title: say!(facts.locale, "Work list"),
        note: say!(facts.locale, "for {lot}", lot = tag_and_name(lot, facts.locale)),
        empty: say!(facts.locale, "no work list is at hand"),
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
pub(super) fn recipe_name(id: &str, facts: &Facts<'_>) -> String {
    let recipe = facts.recipes.iter().find(|recipe| recipe.id == id);
    recipe.map_or_else(|| id.to_owned(), |recipe| facts.locale.read(&recipe.name))
}

fn names(list: &WorkList, facts: &Facts<'_>) -> String {
    let names = list.baths.iter().map(|bath| recipe_name(&bath.recipe, facts));
    names
        .reduce(|before, next| {
            say!(
                facts.locale,
                "{before}, then {next}",
                before = before,
                next = next
            )
        })
        .unwrap_or_default()
}

fn stands(list: &WorkList, come: &Progress, locale: Locale) -> String {
    let count = list.baths.len();
    match (come.next, come.done.len()) {
        (None, _) => say!(locale, "done"),
        (Some(_), 0) => say!(locale, "{count} baths", count = count),
        (Some(_), done) => say!(locale, "{done} of {count}", done = done, count = count),
    }
}

fn lot_row(lot: &Lot, facts: &Facts<'_>, enabled: bool) -> Row {
    let what = what(lot, &condition(facts.shelf, lot), facts.locale);
    let mind = advice(lot, facts);
    let detail = match mind.first() {
        Some((first, _)) => format!("{what}; {first}"),
        None => what,
    };
    Row {
        key: lot.id.to_string(),
        label: tag_and_name(lot, facts.locale),
        detail,
        value: weight(lot, facts.locale),
        icon: Icon::Tag,
        chosen: false,
        enabled,
    }
}

fn supply_row(supply: &Supply, is_low: bool, facts: &Facts<'_>) -> Row {
    let locale = facts.locale;
    let low = is_low.then(|| say!(locale, "running low"));
    let stock = wares::words(&supply.stock, facts.recipes, locale);
    let mark = supply
        .low
        .map(|low| say!(locale, "low mark at {low}", low = locale.shelf_weight(low)));
    let stock: Vec<String> = std::iter::once(stock).chain(mark).collect();
    let detail: Vec<String> = low.into_iter().chain([stock.join(", ")]).collect();
    Row {
        key: supply.id.to_string(),
        label: wares::tag_and_name(supply, facts.recipes, locale),
        detail: detail.join("; "),
        value: locale.shelf_weight(supply.left),
        icon: if is_low { Icon::Warn } else { Icon::Scale },
        chosen: false,
        enabled: true,
    }
}

/// Whether the shelf takes changes: a damaged file is left as it is.
fn can_change(facts: &Facts<'_>) -> bool {
    facts.shelf_fault.is_empty()
}

fn note(facts: &Facts<'_>, usual: String) -> String {
    if facts.shelf_fault.is_empty() {
        usual
    } else {
        let fault = facts.locale.read(facts.shelf_fault);
        say!(facts.locale, "not readable: {fault}", fault = fault)
    }
}

fn foot(here: &str, new: SideAct, facts: &Facts<'_>) -> Vec<SideAct> {
    let locale = facts.locale;
    let running_low = match low(facts.shelf).len() {
        0 => say!(locale, "running low"),
        count => say!(locale, "running low: {count}", count = count),
    };
    vec![
        act("lots", say!(locale, "goods"), Icon::Tag, true, here == "lots"),
        act(
            "supplies",
            say!(locale, "supplies"),
            Icon::Scale,
            true,
            here == "supplies",
        ),
        act("low", running_low, Icon::Warn, true, here == "low"),
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
