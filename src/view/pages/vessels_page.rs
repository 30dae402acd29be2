//! The pots and burners of the bench: which stand on the stove, which beside.

use crate::craft::vessel::{Burner, Pot};
use crate::view::bench::Bench;
use crate::view::locale::Locale;
use crate::view::screen::{ChooseScreen, Icon, Row};

use super::settings::foot;

/// The key of the row that leads here.
pub(super) const KEY: &str = "vessels";

/// The row that leads here.
pub(super) fn row(bench: &Bench) -> Row {
    let pots = bench.others.pots().count().saturating_add(1);
    let burners = bench.others.burners().count().saturating_add(1);
    let count = |number: usize, one: &str| {
        if number == 1 {
            format!("1 {one}")
        } else {
            format!("{number} {one}s")
        }
    };
    Row {
        key: KEY.into(),
        label: "Pots and burners".into(),
        detail: String::new(),
        value: format!("{}, {}", count(pots, "pot"), count(burners, "burner")),
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
        let detail = format!("{} wide, {}", locale.depth(pot.diameter), pot.metal.id());
        row(
            format!("pot-{index}"),
            format!("pot of {}", locale.litres(pot.capacity)),
            detail,
            Icon::Pot,
            index == 0,
        )
    });
    let burners = burners(bench).into_iter().enumerate().map(|(index, burner)| {
        let power = format!("{:.1} kW", burner.power.watts() / 1_000.0);
        row(
            format!("burner-{index}"),
            format!("{}, {power}", burner.kind.id()),
            String::new(),
            Icon::Flame,
            index == 0,
        )
    });
    ChooseScreen {
        title: "Pots and burners".into(),
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
                foot("one-more-pot", "one more pot", Icon::Plus, false),
                foot("one-more-burner", "one more burner", Icon::Plus, false),
                foot("these-alone", "only the first ones", Icon::Minus, false),
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
