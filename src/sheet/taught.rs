//! What earlier baths of this pot on this burner have taught, in words: the bands lean on it.

use crate::craft::heat::LogNormal;
use crate::craft::learn::Learned;
use crate::msg;

use super::notes::Notes;
use super::wishes::Wishes;
use super::working::Measured;

/// Tells what was learned, or that nothing is known yet.
pub(super) fn workings(wishes: &Wishes, notes: &mut Notes) {
    let knowledge = wishes.learned.knowledge(wishes.stove.burner.kind);
    let (bath_count, formula, source) = match wishes.learned {
        Learned::NotYet { bath_count } => (
            bath_count,
            msg!(
                "not yet known: fewer than two earlier baths of this pot on this burner can be reckoned with, so what is usual for the burner stands"
            ),
            USUAL,
        ),
        Learned::Known { bath_count, .. } => (
            bath_count,
            msg!(
                "come-ups and coolings of earlier baths of this pot on this burner against the heat balance, in logarithms; a wild reading counts for nothing"
            ),
            LEARNED,
        ),
    };
    let told = |factor: LogNormal, unit: f64| {
        let measure = |z: f64| factor.at(z) * unit;
        (measure(-Z_TENTH), measure(0.0), measure(Z_TENTH))
    };
    for (what, factor, part) in [
        (
            msg!("this pot: burner's power that gets in, likely"),
            knowledge.efficiency,
            true,
        ),
        (
            msg!("this pot: losses over the computed, likely"),
            knowledge.loss,
            false,
        ),
    ] {
        let (unit, scale) = if part { ("%", 100.0) } else { ("times", 1.0) };
        let (low, likely, high) = told(factor, scale);
        notes.working(
            what,
            vec![
                (
                    msg!("earlier baths").into(),
                    Measured::new(f64_of(bath_count), "baths"),
                ),
                (msg!("one pot in ten below").into(), Measured::new(low, unit)),
                (msg!("one in ten above").into(), Measured::new(high, unit)),
            ],
            formula,
            Measured::new(likely, unit),
            source,
        );
    }
}

fn f64_of(count: usize) -> f64 {
    f64::from(u32::try_from(count).unwrap_or(u32::MAX))
}

/// The standard normal value that one in ten is above.
const Z_TENTH: f64 = 1.281_6;
const USUAL: &str = msg!("spreads of efficiency and losses by kind of burner, as the heat sums state them");
const LEARNED: &str = msg!("the daybook of this program");
