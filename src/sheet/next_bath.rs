//! The used bath again: what the customs add for the next goods of the same weight. They contradict; none is chosen here.

use crate::craft::exhaust::{self, ParentBath, Recharge};
use crate::craft::quantity::Mass;
use crate::craft::substance::Substance;
use crate::recipe::model::{BathKind, Letter};

use super::additions::substances;
use super::cautions::is_heavy_metal;
use super::plan::{Goods, PlannedAddition};

/// One custom for the next bath in the same liquor.
#[derive(Debug, Clone, PartialEq)]
pub struct NextBath {
    /// The custom, its part of the dose and its source.
    pub custom: Recharge,
    /// What is added now, at its least and at its most.
    pub doses: Vec<(Letter, Mass, Mass)>,
}

/// Whether a custom says how the liquor of such a bath, with these substances in it, is used again.
#[must_use]
pub fn has_custom(kind: BathKind, mut substances: impl Iterator<Item = Substance>) -> bool {
    parent_kind(kind).is_some() && !substances.any(is_heavy_metal)
}

/// Which customs hold for the used liquor of a bath; none for scours, fixing, after-baths and vats.
pub(super) const fn parent_kind(kind: BathKind) -> Option<ParentBath> {
    match kind {
        BathKind::Mordant => Some(ParentBath::Alum),
        BathKind::Tannin => Some(ParentBath::Tannin),
        BathKind::Dye => Some(ParentBath::Dye),
        BathKind::Scour | BathKind::Fixing | BathKind::AfterBath | BathKind::Vat => None,
    }
}

/// The customs for this kind of bath; none for scours, vats and after-baths, none where a sum can't be made, and none
/// for baths with iron or another metal, of which no custom is known.
pub(super) fn of(kind: BathKind, goods: &Goods, additions: &[PlannedAddition]) -> Vec<NextBath> {
    let weighed = substances(additions).map(|(substance, _)| substance);
    let Some(parent) = parent_kind(kind).filter(|_| has_custom(kind, weighed)) else {
        return Vec::new();
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
