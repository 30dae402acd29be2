//! The used bath again: what the customs add for the next goods of the same weight. They contradict; none is chosen here.

use crate::craft::exhaust::{self, ParentBath, Recharge};
use crate::craft::quantity::Mass;
use crate::recipe::model::{BathKind, Letter};

use super::plan::{Goods, PlannedAddition};

/// One custom for the next bath in the same liquor.
#[derive(Debug, Clone, PartialEq)]
pub struct NextBath {
    /// The custom, its part of the dose and its source.
    pub custom: Recharge,
    /// What is added now, at its least and at its most.
    pub doses: Vec<(Letter, Mass, Mass)>,
}

/// The customs for this kind of bath; none for scours, vats and after-baths, nor where a sum can't be made.
pub(super) fn of(kind: BathKind, goods: &Goods, additions: &[PlannedAddition]) -> Vec<NextBath> {
    let parent = match kind {
        BathKind::Mordant => ParentBath::Alum,
        BathKind::Tannin => ParentBath::Tannin,
        BathKind::Dye => ParentBath::Dye,
        BathKind::Scour | BathKind::Fixing | BathKind::AfterBath | BathKind::Vat => return Vec::new(),
    };
    exhaust::recharges(parent)
        .iter()
        .map(|custom| NextBath {
            custom: *custom,
            doses: additions
                .iter()
                .filter_map(|addition| {
                    let part = |part| {
                        exhaust::next_dose(1, addition.target, goods.dry, goods.dry, part)
                            .ok()
                            .map(|next| next.add)
                    };
                    Some((addition.letter, part(custom.least)?, part(custom.most)?))
                })
                .collect(),
        })
        .filter(|next| !next.doses.is_empty())
        .collect()
}
