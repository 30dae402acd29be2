//! The next bath from a used one: what is added to a mordant or tannin bath for the next lot.
//!
//! Nobody has published a measured share of what stays behind, and the customs differ. Each is offered with its
//! source, and the dyer chooses; none is averaged.

use crate::msg;

use super::quantity::Mass;

/// What the parent bath was.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum ParentBath {
    /// An alum mordant.
    Alum,
    /// A tannin bath.
    Tannin,
    /// A dye bath.
    Dye,
}

/// How well a custom is founded.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Founded {
    /// A published work whose passage was read.
    Published,
    /// A fact of the trade: common practice, no source.
    Practice,
}

/// One custom: what part of the first dose the next lot gets.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Recharge {
    /// The least part, 0 to 1.
    pub least: f64,
    /// The greatest part, 0 to 1.
    pub most: f64,
    /// In words.
    pub about: &'static str,
    /// How well founded.
    pub founded: Founded,
    /// The source.
    pub source: &'static str,
}

/// What goes into the next bath.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NextDose {
    /// Which use of the bath this is; the parent's first was 1.
    pub dip: u32,
    /// What is added now.
    pub add: Mass,
    /// What the first dose would be on the new goods, for comparison.
    pub full_dose: Mass,
}

/// Why there is no next bath.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum NoNextBath {
    /// The parent had no goods.
    #[error("the parent bath has no goods, so its dose can't be counted on their weight")]
    ParentWithoutGoods,
    /// Not a part of a dose.
    #[error("{fraction} is not a part of the first dose; it is 0 to 1")]
    NotAPart {
        /// What was offered.
        fraction: f64,
    },
}

/// The customs for a kind of bath, in the order shown. More than one is the dyer's choice.
#[must_use]
pub const fn recharges(parent: ParentBath) -> &'static [Recharge] {
    match parent {
        ParentBath::Alum => &[
            Recharge {
                least: 0.5,
                most: 0.5,
                about: msg!("half the first dose: the fibre is said to take about half"),
                founded: Founded::Practice,
                source: "three pages of the trade, unnamed; common practice, no measured source",
            },
            Recharge {
                least: 0.25,
                most: 0.25,
                about: msg!("a quarter of the first dose: the fibre is said to take only about a quarter"),
                founded: Founded::Practice,
                source: "a page of the trade, unnamed, against the others; no measured source",
            },
        ],
        ParentBath::Tannin => &[Recharge {
            least: 0.5,
            most: 0.75,
            about: msg!("half to three quarters of the first dose; the bath is kept standing"),
            founded: Founded::Published,
            source: "Beech, The Dyeing of Cotton Fabrics, 1901, on tannic mordants",
        }],
        ParentBath::Dye => &[Recharge {
            least: 0.0,
            most: 0.0,
            about: msg!("nothing: each use comes out paler, by how much nobody can say beforehand"),
            founded: Founded::Practice,
            source: msg!("common practice, no source"),
        }],
    }
}

/// Whether the customs contradict each other, so that the screen must ask.
#[must_use]
pub fn contradict(customs: &[Recharge]) -> bool {
    customs.iter().any(|one| {
        customs
            .iter()
            .any(|other| one.most < other.least || other.most < one.least)
    })
}

/// What to add for the next lot: the chosen part of the first dose on the new goods, as far as they don't outweigh
/// the parent's, and the whole dose on what outweighs them, since the bath never held that.
///
/// # Errors
///
/// When the parent had no goods or the part isn't one.
pub fn next_dose(
    parent_dip: u32,
    first_dose: Mass,
    parent_goods: Mass,
    next_goods: Mass,
    fraction: f64,
) -> Result<NextDose, NoNextBath> {
    if !(0.0..=1.0).contains(&fraction) {
        return Err(NoNextBath::NotAPart { fraction });
    }
    if parent_goods.grams() <= 0.0 {
        return Err(NoNextBath::ParentWithoutGoods);
    }
    let dose_per_gram = first_dose.grams() / parent_goods.grams();
    let covered = next_goods.least(parent_goods).grams();
    let beyond = next_goods.grams() - covered;
    Ok(NextDose {
        dip: parent_dip.saturating_add(1),
        add: Mass::saturating_grams(dose_per_gram * (covered * fraction + beyond)),
        full_dose: Mass::saturating_grams(dose_per_gram * next_goods.grams()),
    })
}
