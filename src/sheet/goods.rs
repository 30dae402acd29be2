//! The weight that counts, from the weight that was read. Never corrected silently: both stay on the sheet.

use crate::craft::basis::{Basis, WeighedAs, basis};
use crate::msg;

use super::notes::Notes;
use super::plan::Goods;
use super::verdict::{SheetRefusal, SheetWarning};
use super::wishes::Wishes;
use super::working::Measured;

/// The goods as the bath counts them, and how their weight came about.
pub(super) fn that_count(wishes: &Wishes, notes: &mut Notes) -> (Goods, Option<Basis>) {
    let weighed = &wishes.goods;
    let basis = match basis(weighed.fibre, weighed.dry, wishes.weighed_as) {
        Ok(basis) => basis,
        Err(fault) => {
            notes.refuse(SheetRefusal::WeightBasis { fault });
            return (weighed.clone(), None);
        }
    };
    if basis.is_corrected() {
        notes.warn(SheetWarning::WeightCorrected {
            said: basis.to_string(),
        });
        told(&basis, notes);
    }
    let goods = Goods {
        dry: basis.air_dry.likely,
        ..weighed.clone()
    };
    (goods, Some(basis))
}

fn told(basis: &Basis, notes: &mut Notes) {
    let read = (
        msg!("as weighed").to_owned(),
        Measured::new(basis.as_weighed.grams(), "g"),
    );
    let regain = crate::craft::basis::regain_percent(basis.fibre);
    let regain = (
        msg!("moisture of air-dry goods").to_owned(),
        Measured::new(regain, "%"),
    );
    let (inputs, formula, source) = match basis.weighed_as {
        WeighedAs::AirDry => return,
        WeighedAs::OvenDry => (
            vec![read, regain],
            msg!("oven-dry weight and the moisture it takes up in a room"),
            REGAIN,
        ),
        WeighedAs::Damp { water_percent } => (
            vec![
                read,
                (
                    msg!("water on the oven-dry weight").to_owned(),
                    Measured::new(water_percent, "%"),
                ),
                regain,
            ],
            msg!("weight over one and its water, times one and the moisture of air-dry goods"),
            REGAIN,
        ),
        WeighedAs::Spun => (
            vec![read, regain],
            msg!(
                "weight over one and the water that spun goods hold, times one and the moisture of air-dry goods"
            ),
            "water of spun goods from memory, no source; moisture: ASTM D1909-13, read in a table quoting it",
        ),
        WeighedAs::InTheGrease { loss_percent } => (
            vec![
                read,
                (
                    msg!("lost on scouring").to_owned(),
                    Measured::new(loss_percent, "%"),
                ),
            ],
            msg!("weight less what washes out"),
            "the loss as stated; a fifth is Mairet's, A Book on Vegetable Dyes, 1916",
        ),
    };
    let counts = Measured::new(basis.air_dry.likely.grams(), "g");
    notes.working(msg!("goods that count"), inputs, formula, counts, source);
}

const REGAIN: &str = "ASTM D1909-13, read in a table quoting it";
