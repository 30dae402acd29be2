//! In which state the goods were on the scale.

use crate::craft::basis::{WeighedAs, usual_scour_loss};
use crate::craft::fibre::Fibre;
use crate::say;
use crate::view::locale::Locale;
use crate::view::screen::{ChooseScreen, Icon, Row};

/// The states that can be picked, with the figures that are usual; others are for the command line.
pub(super) fn states(fibre: Fibre) -> Vec<(&'static str, WeighedAs)> {
    let mut states = vec![
        ("air-dry", WeighedAs::AirDry),
        ("oven-dry", WeighedAs::OvenDry),
        ("spun", WeighedAs::Spun),
    ];
    if let Some((loss_percent, _)) = usual_scour_loss(fibre) {
        states.push(("in-the-grease", WeighedAs::InTheGrease { loss_percent }));
    }
    states
}

/// A state in words: what it is, and what is done about it.
pub(super) fn words(state: WeighedAs, locale: Locale) -> (String, String) {
    let percent = |percent: f64| locale.pointed(&percent.to_string());
    match state {
        WeighedAs::AirDry => (
            say!(locale, "air-dry"),
            say!(locale, "weighed dry, after scouring"),
        ),
        WeighedAs::OvenDry => (
            say!(locale, "oven-dry"),
            say!(locale, "the room's moisture is added"),
        ),
        WeighedAs::Damp { water_percent } => (
            say!(locale, "damp"),
            say!(
                locale,
                "{percent} % of water is taken off",
                percent = percent(water_percent)
            ),
        ),
        WeighedAs::Spun => (
            say!(locale, "spun damp"),
            say!(locale, "the usual water is taken off"),
        ),
        WeighedAs::InTheGrease { loss_percent } => (
            say!(locale, "in the grease"),
            say!(
                locale,
                "{percent} % will wash out",
                percent = percent(loss_percent)
            ),
        ),
    }
}

/// The page as a screen.
pub(super) fn screen(fibre: Fibre, chosen: WeighedAs, note: String, locale: Locale) -> ChooseScreen {
    let row = |(key, state): (&str, WeighedAs)| {
        let (label, detail) = words(state, locale);
        Row {
            key: key.into(),
            label,
            detail,
            value: String::new(),
            icon: Icon::Scale,
            chosen: state == chosen,
            enabled: true,
        }
    };
    ChooseScreen {
        title: say!(locale, "How were they weighed?"),
        note,
        columns: 2,
        tiles: true,
        big: false,
        empty: String::new(),
        rows: states(fibre).into_iter().map(row).collect(),
        foot: Vec::new(),
    }
}
