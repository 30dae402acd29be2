//! What a finished bath hands on: to the next goods in its liquor, or to the same bath on other goods.

use std::sync::Arc;

use crate::craft::fibre::Fibre;
use crate::craft::fibre_facts::squeezed_water;
use crate::craft::quantity::{Length, Mass, Power, Volume};
use crate::craft::substance::Substance;
use crate::craft::vessel::{Burner, BurnerKind, Lid, Pot, PotMetal};
use crate::recipe;
use crate::recipe::model::BathKind;
use crate::sheet::{Again, UsedBath, has_custom};

use super::BathRecord;

/// What a record hands on; `None` when its fibre, pot or burner isn't one this program knows.
#[must_use]
pub fn again(record: &BathRecord) -> Option<Again> {
    let fibre = Fibre::from_id(&record.fibre)?;
    let recipe = record
        .recipe_toml
        .as_deref()
        .and_then(|text| recipe::read(text).ok());
    Some(Again {
        recipe: recipe.map(Arc::new),
        fibre,
        goods: Mass::from_grams(record.goods_g).ok()?,
        hanks: record.hanks,
        pot: pot(record)?,
        burner: burner(record)?,
        lid: Lid::from_id(&record.lid)?,
        liquor_is_used_again: is_used_again(record),
        used: UsedBath {
            record: record.bath.clone(),
            recipe_id: record.recipe.clone(),
            dip: record.used.as_ref().map_or(1, |used| used.dip),
            goods: Mass::from_grams(record.goods_g).ok()?,
            left: left(record, fibre),
            part: None,
        },
    })
}

fn is_used_again(record: &BathRecord) -> bool {
    let weighed = record
        .additions
        .iter()
        .filter_map(|addition| Substance::from_id(&addition.ware));
    BathKind::from_id(&record.kind).is_some_and(|kind| has_custom(kind, weighed))
}

/// The pot of a record.
pub(super) fn pot(record: &BathRecord) -> Option<Pot> {
    Some(Pot {
        capacity: Volume::from_litres(record.pot_l).ok()?,
        diameter: Length::from_centimetres(record.pot_cm).ok()?,
        metal: PotMetal::from_id(&record.pot_metal)?,
    })
}

/// The burner of a record.
pub(super) fn burner(record: &BathRecord) -> Option<Burner> {
    Some(Burner {
        kind: BurnerKind::from_id(&record.burner)?,
        power: Power::from_watts(record.burner_w).ok()?,
    })
}

/// Liquor that stayed in the pot: squeezed goods take away about what they hold when wetted and squeezed.
fn left(record: &BathRecord, fibre: Fibre) -> Volume {
    let taken = squeezed_water(fibre, Mass::saturating_grams(record.goods_g));
    Volume::saturating_litres(record.bath_l - taken.grams() / 1_000.0)
}
