//! The acidity of the bath, as a band and as advice: a test strip wins.

use crate::craft::acidity::{Acidity, acidity};
use crate::craft::quantity::{Mass, Volume};
use crate::craft::substance::Substance;
use crate::msg;

use super::additions::substances;
use super::notes::Notes;
use super::plan::PlannedAddition;
use super::verdict::SheetWarning;
use super::working::Measured;

/// A glassful: less gas than this is not worth a word. Our own choice.
const GAS_SAID_L: f64 = 0.2;

/// The acidity of these additions in this bath; `None` when none of them is a substance of known make-up.
pub(super) fn of(additions: &[PlannedAddition], bath: Volume, notes: &mut Notes) -> Option<Acidity> {
    let in_bath: Vec<(Substance, Mass)> = substances(additions)
        .map(|(substance, addition)| (substance, addition.target))
        .collect();
    if in_bath.is_empty() {
        return None;
    }
    let acidity = acidity(&in_bath, bath);
    if acidity.fizzes && acidity.gas_litres > GAS_SAID_L {
        notes.warn(SheetWarning::Foams {
            litres: acidity.gas_litres,
        });
    }
    if let Some(ph) = acidity.ph {
        let mut inputs = vec![(msg!("bath").to_owned(), Measured::new(bath.litres(), "L"))];
        inputs.extend(
            in_bath
                .iter()
                .map(|(substance, amount)| (substance.name().to_owned(), Measured::new(amount.grams(), "g"))),
        );
        notes.working(
            msg!("acidity at 25 C, likely; advice, a test strip wins"),
            inputs,
            msg!("the pH at which the charges of everything dissolved cancel"),
            Measured::new(ph.likely, "pH"),
            "charge balance; docs/sums.md, acidity",
        );
    }
    Some(acidity)
}
