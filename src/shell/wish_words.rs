//! The words of the command line for what a dyer brings: the state of the goods, the salts of the shelf.

use crate::craft::basis::{WeighedAs, basis as counted, usual_scour_loss};
use crate::craft::fibre::Fibre;
use crate::craft::quantity::Mass;
use crate::craft::reading;
use crate::craft::salts::{AluminiumLabel, OnShelf};
use crate::recipe::model::Letter;

/// The state of the goods, as far as it was told.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum AskedBasis {
    /// All of it.
    Known(WeighedAs),
    /// In the grease, with the loss that is usual for the fibre.
    UsualGrease,
}

impl AskedBasis {
    /// The state of goods of this fibre, or what is missing.
    pub(super) fn of(self, fibre: Fibre) -> Result<WeighedAs, String> {
        let state = match self {
            Self::Known(state) => state,
            Self::UsualGrease => {
                let (loss_percent, _) = usual_scour_loss(fibre).ok_or_else(|| {
                    format!(
                        "how much {} loses on scouring is not known here; say it: --basis in-the-grease,20%",
                        fibre.name()
                    )
                })?;
                WeighedAs::InTheGrease { loss_percent }
            }
        };
        counted(fibre, Mass::saturating_grams(1.0), state).map_err(|fault| fault.to_string())?;
        Ok(state)
    }
}

/// `air-dry`, `oven-dry`, `damp,30%`, `spun`, `in-the-grease,20%`.
pub(super) fn basis(text: &str) -> Result<AskedBasis, String> {
    let (state, figure) = match text.split_once(',') {
        Some((state, figure)) => (state.trim(), Some(figure.trim())),
        None => (text.trim(), None),
    };
    match (state, figure) {
        ("air-dry", None) => Ok(AskedBasis::Known(WeighedAs::AirDry)),
        ("oven-dry", None) => Ok(AskedBasis::Known(WeighedAs::OvenDry)),
        ("spun", None) => Ok(AskedBasis::Known(WeighedAs::Spun)),
        ("in-the-grease", None) => Ok(AskedBasis::UsualGrease),
        ("in-the-grease", Some(figure)) => {
            let loss_percent = percent(figure)?;
            Ok(AskedBasis::Known(WeighedAs::InTheGrease { loss_percent }))
        }
        ("damp", Some(figure)) => {
            let water_percent = percent(figure)?;
            Ok(AskedBasis::Known(WeighedAs::Damp { water_percent }))
        }
        ("damp", None) => Err("damp goods need their water, percent of the dry weight: damp,30%".to_owned()),
        ("air-dry" | "oven-dry" | "spun", Some(_)) => {
            Err(format!("{state} takes no figure; write {state} alone"))
        }
        (_, _) => Err("goods are weighed air-dry, oven-dry, damp,30%, spun or in-the-grease,20%".to_owned()),
    }
}

/// `A=aluminium-sulfate-18h2o`, `A=17%Al2O3`, `A=9%Al`.
pub(super) fn shelf(text: &str) -> Result<(Letter, OnShelf), String> {
    let wanted =
        || "write the addition's letter and the salt: A=aluminium-sulfate-18h2o, A=17%Al2O3".to_owned();
    let (letter, salt) = text.split_once('=').ok_or_else(wanted)?;
    let mut letters = letter.trim().chars();
    let letter = match (letters.next(), letters.next()) {
        (Some(letter), None) if letter.is_ascii_alphabetic() => Letter(letter.to_ascii_uppercase()),
        (_, _) => return Err(wanted()),
    };
    let salt = salt.trim();
    let label = |fault: crate::craft::salts::NoExchange| fault.to_string();
    if let Some(figure) = salt.strip_suffix("Al2O3") {
        let alumina = AluminiumLabel::percent_alumina(share(figure)?).map_err(label)?;
        return Ok((letter, OnShelf::Label(alumina)));
    }
    if let Some(figure) = salt.strip_suffix("Al") {
        let aluminium = AluminiumLabel::percent_aluminium(share(figure)?).map_err(label)?;
        return Ok((letter, OnShelf::Label(aluminium)));
    }
    let substance = reading::substance(salt).map_err(|fault| fault.to_string())?;
    Ok((letter, OnShelf::Known(substance)))
}

fn percent(text: &str) -> Result<f64, String> {
    reading::percent(text)
        .map(crate::craft::quantity::PercentWof::percent)
        .map_err(|fault| fault.to_string())
}

fn share(text: &str) -> Result<f64, String> {
    reading::share(text.trim()).map_err(|fault| fault.to_string())
}
