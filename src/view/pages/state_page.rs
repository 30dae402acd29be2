//! In which state the goods were on the scale.

use crate::craft::basis::{WeighedAs, usual_scour_loss};
use crate::craft::fibre::Fibre;
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
pub(super) fn words(state: WeighedAs) -> (String, String) {
    match state {
        WeighedAs::AirDry => ("air-dry".into(), "weighed dry, after scouring".into()),
        WeighedAs::OvenDry => ("oven-dry".into(), "the room's moisture is added".into()),
        WeighedAs::Damp { water_percent } => {
            ("damp".into(), format!("{water_percent} % of water is taken off"))
        }
        WeighedAs::Spun => ("spun damp".into(), "the usual water is taken off".into()),
        WeighedAs::InTheGrease { loss_percent } => {
            ("in the grease".into(), format!("{loss_percent} % will wash out"))
        }
    }
}

/// The page as a screen.
pub(super) fn screen(fibre: Fibre, chosen: WeighedAs, note: String) -> ChooseScreen {
    let row = |(key, state): (&str, WeighedAs)| {
        let (label, detail) = words(state);
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
        title: "How were they weighed?".into(),
        note,
        columns: 2,
        tiles: true,
        big: false,
        empty: String::new(),
        rows: states(fibre).into_iter().map(row).collect(),
        foot: Vec::new(),
    }
}
