//! Cold wet goods into a hot bath: how far it drops and how long it takes to come back.

use crate::craft::fibre_facts::wetting_heat_left;
use crate::craft::quantity::{Band, Temperature};
use crate::craft::time::Span;
use crate::craft::water::specific_heat_raw;

use super::balance::Prepared;
use super::come_up::come_up_of;
use super::kettle::{GoodsLoad, Kettle};

/// What entering does to the bath.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Entering {
    /// The bath when the goods have taken its heat.
    pub drops_to: Temperature,
    /// From there back to where it was, at full power; values as in [`super::ComeUp::time`].
    pub recovery: Band<Option<Span>>,
}

/// Enters goods at `goods_at` into a bath at `bath_at`. `hot` is the kettle before they go in; goods already in it stay.
///
/// Goods that come in dry warm the bath a little, by the heat of wetting that their own moisture has left over.
#[must_use]
pub fn entering(hot: &Kettle, bath_at: Temperature, goods: &GoodsLoad, goods_at: Temperature) -> Entering {
    let before = Prepared::of(hot);
    let bath_c = bath_at.celsius();
    let bath = before.water * specific_heat_raw(bath_c) + before.dry;
    let carried = goods.carried_water.grams() / 1_000.0 * specific_heat_raw(goods_at.celsius());
    let fibre = goods.dry.grams() * goods.fibre.facts().specific_heat;
    let moisture = goods.carried_water.grams() / goods.dry.grams().max(1e-3);
    let wetting = goods.dry.grams() * wetting_heat_left(goods.fibre, moisture);
    let mixed = (bath * bath_c + (carried + fibre) * goods_at.celsius() + wetting) / (bath + carried + fibre);
    let drops_to = Temperature::saturating_celsius(mixed.min(hot.boil.celsius().max(bath_c)));
    let loaded = Kettle {
        goods: Some(together(hot.goods, goods)),
        ..*hot
    };
    Entering {
        drops_to,
        recovery: come_up_of(&Prepared::of(&loaded), drops_to, bath_at, None).time,
    }
}

/// Goods of one bath are of one kind; what was in already is counted as the kind that comes.
fn together(already: Option<GoodsLoad>, more: &GoodsLoad) -> GoodsLoad {
    already.map_or(*more, |already| GoodsLoad {
        fibre: more.fibre,
        dry: crate::craft::quantity::Mass::saturating_grams(already.dry.grams() + more.dry.grams()),
        carried_water: crate::craft::quantity::Mass::saturating_grams(
            already.carried_water.grams() + more.carried_water.grams(),
        ),
    })
}
