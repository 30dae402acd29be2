//! The pots and burners of the bench: which stand on the stove, which beside.

use crate::craft::vessel::{Burner, Pot};
use crate::say;
use crate::view::bench::Bench;
use crate::view::locale::Locale;
use crate::view::screen::{ChooseScreen, Icon, Row};

use super::settings::{foot, power};
use super::vessel_words;

/// The key of the row that leads here.
pub(super) const KEY: &str = "vessels";

/// The row that leads here.
pub(super) fn row(bench: &Bench, locale: Locale) -> Row {
    let pots = bench.others.pots().count().saturating_add(1);
    let burners = bench.others.burners().count().saturating_add(1);
    let pots = match pots {
        1 => say!(locale, "1 pot"),
        count => say!(locale, "{count} pots", count = count),
    };
    let burners = match burners {
        1 => say!(locale, "1 burner"),
        count => say!(locale, "{count} burners", count = count),
    };
    Row {
        key: KEY.into(),
        label: say!(locale, "Pots and burners"),
        detail: String::new(),
        value: format!("{pots}, {burners}"),
        icon: Icon::None,
        chosen: false,
        enabled: true,
    }
}

/// The page: for a bath it only picks, for the bench it also keeps.
pub(super) fn screen(bench: &Bench, note: String, picks_only: bool, locale: Locale) -> ChooseScreen {
    let row = |key: String, label: String, detail: String, icon, chosen| Row {
        key,
        label,
        detail,
        value: String::new(),
        icon,
        chosen,
        enabled: true,
    };
    let pots = pots(bench).into_iter().enumerate().map(|(index, pot)| {
        let detail = say!(
            locale,
            "{width} wide, {metal}",
            width = locale.depth(pot.diameter),
            metal = vessel_words::metal(pot.metal, locale)
        );
        row(
            format!("pot-{index}"),
            say!(
                locale,
                "pot of {capacity}",
                capacity = locale.litres(pot.capacity)
            ),
            detail,
            Icon::Pot,
            index == 0,
        )
    });
    let burners = burners(bench).into_iter().enumerate().map(|(index, burner)| {
        let kind = vessel_words::burner(burner.kind, locale);
        row(
            format!("burner-{index}"),
            format!("{kind}, {}", power(burner.power, locale)),
            String::new(),
            Icon::Flame,
            index == 0,
        )
    });
    ChooseScreen {
        title: say!(locale, "Pots and burners"),
        note,
        columns: 2,
        tiles: true,
        big: false,
        empty: String::new(),
        rows: pots.chain(burners).collect(),
        foot: if picks_only {
            Vec::new()
        } else {
            vec![
                foot("one-more-pot", say!(locale, "one more pot"), Icon::Plus, false),
                foot(
                    "one-more-burner",
                    say!(locale, "one more burner"),
                    Icon::Plus,
                    false,
                ),
                foot(
                    "these-alone",
                    say!(locale, "only the first ones"),
                    Icon::Minus,
                    false,
                ),
            ]
        },
    }
}

/// The bench with the pot or burner of a key on the stove.
pub(super) fn chosen(key: &str, bench: &Bench) -> Option<Bench> {
    let index = |rest: &str| rest.parse::<usize>().ok();
    if let Some(index) = key.strip_prefix("pot-").and_then(index) {
        return pots(bench).get(index).map(|pot| bench.with_pot(*pot));
    }
    let index = key.strip_prefix("burner-").and_then(index)?;
    burners(bench).get(index).map(|burner| bench.with_burner(*burner))
}

fn pots(bench: &Bench) -> Vec<Pot> {
    let others = bench.others.pots().filter(|pot| *pot != bench.stove.pot);
    std::iter::once(bench.stove.pot).chain(others).collect()
}

fn burners(bench: &Bench) -> Vec<Burner> {
    let others = bench
        .others
        .burners()
        .filter(|burner| *burner != bench.stove.burner);
    std::iter::once(bench.stove.burner).chain(others).collect()
}
