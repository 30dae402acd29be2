//! The water of a bath: how much, what the wet goods bring of it, how high it stands in this pot.

use crate::craft::quantity::{Length, LiquorRatio, Mass, Temperature, Volume};
use crate::craft::vessel::Pot;
use crate::craft::water;
use crate::msg;
use crate::recipe::model::{Act, Recipe};

use super::heating::{GoodsIn, Load};
use super::notes::Notes;
use super::plan::Goods;
use super::used_bath;
use super::verdict::{SheetRefusal, SheetWarning};
use super::wishes::Wishes;
use super::working::Measured;

/// About three quarters: common practice, no source. Above the first it is said, above the second refused.
const RATHER_FULL: f64 = 0.76;
const TOO_FULL: f64 = 0.80;
const THREE_QUARTERS: f64 = 0.75;
/// Goods should be covered; below this depth it is said. Common practice, no source.
const SHALLOW_CM: f64 = 5.0;
/// Litres a kilogram below which goods have little room. Common practice, no source.
pub(super) const LITTLE_LIQUOR: f64 = 15.0;

/// The water of a bath.
#[derive(Debug, Clone)]
pub(super) struct Liquor {
    pub(super) ratio: LiquorRatio,
    pub(super) bath: Volume,
    /// Water to pour: less than stands in the pot before the goods where a used bath stands in the pot.
    pub(super) pour: Volume,
    /// The water in the pot when it is filled.
    pub(super) filled_at: Temperature,
    pub(super) carried: Volume,
    pub(super) fraction: f64,
    pub(super) level_filled: Length,
    /// The whole bath with its goods.
    pub(super) load: Load,
    goods: GoodsIn,
}

impl Liquor {
    /// What is in the pot before the goods.
    pub(super) const fn load_without_goods(&self) -> Load {
        Load {
            water: self.load.water,
            goods: None,
        }
    }

    pub(super) const fn goods(&self) -> GoodsIn {
        self.goods
    }
}

/// The water of this recipe's bath for these goods on this stove.
pub(super) fn of(recipe: &Recipe, goods: &Goods, wishes: &Wishes, notes: &mut Notes) -> Liquor {
    let stove = &wishes.stove;
    let pot = stove.pot;
    let ratio = recipe.liquor.chosen;
    let kilograms = goods.dry.grams() / 1_000.0;
    let bath = Volume::saturating_litres(ratio.litres_per_kg() * kilograms);
    let source = recipe
        .source_of(&recipe.liquor)
        .map_or("", |source| source.text.as_str());
    notes.working(
        msg!("bath"),
        vec![
            (msg!("dry goods").into(), Measured::new(goods.dry.grams(), "g")),
            (
                msg!("liquor ratio").into(),
                Measured::new(ratio.litres_per_kg(), "L/kg"),
            ),
        ],
        msg!("dry goods times liquor ratio"),
        Measured::new(bath.litres(), "L"),
        source,
    );
    let carried = carried_by(recipe, goods).least(bath);
    let fill = Volume::saturating_litres(bath.litres() - carried.litres());
    notes.working(
        msg!("water to fill"),
        vec![
            (msg!("bath").into(), Measured::new(bath.litres(), "L")),
            (
                msg!("brought by the wet, squeezed goods").into(),
                Measured::new(carried.litres(), "L"),
            ),
        ],
        msg!("the bath less what the wet goods bring"),
        Measured::new(fill.litres(), "L"),
        msg!("arithmetic; water held by squeezed goods from memory, no source"),
    );
    // A used bath is not thrown away because it is too much.
    let left = wishes.used.as_ref().map_or(0.0, |used| used.left.litres());
    let fill = fill.most(Volume::saturating_litres(left));
    let bath = Volume::saturating_litres(fill.litres() + carried.litres());
    let topped_up = used_bath::top_up(wishes, fill, notes);
    let displaced = Volume::saturating_litres(kilograms / goods.fibre.facts().density);
    let fraction = water::fill_fraction(&pot, bath, displaced);
    filled(&pot, bath, displaced, fraction, notes);
    judge_fill(
        &pot,
        &wishes.other_pots,
        goods.dry,
        Volume::saturating_litres(bath.litres() + displaced.litres()),
        fraction,
        notes,
    );
    judge_room(goods, &pot, bath, carried, displaced, ratio, notes);
    let level_filled = water::level_line(&pot, fill, Volume::saturating_litres(0.0));
    level(&pot, fill, level_filled, notes);
    let goods = GoodsIn {
        fibre: goods.fibre,
        dry: goods.dry,
        carried: water::mass_of(carried, stove.room),
    };
    Liquor {
        ratio,
        bath,
        pour: topped_up.map_or(fill, |topped_up| topped_up.water),
        filled_at: topped_up.map_or(stove.tap, |topped_up| topped_up.mixed),
        carried,
        fraction,
        level_filled,
        load: Load {
            water: water::mass_of(fill, stove.tap),
            goods: Some(goods),
        },
        goods,
    }
}

/// Water that the goods bring, when they are wetted first and squeezed.
fn carried_by(recipe: &Recipe, goods: &Goods) -> Volume {
    let wets_out = recipe
        .steps
        .iter()
        .any(|step| matches!(step.act, Act::WetOut { .. }));
    let (_, squeezed, _) = goods.fibre.facts().squeezed_water;
    let litres = if wets_out {
        goods.dry.grams() / 1_000.0 * squeezed
    } else {
        0.0
    };
    Volume::saturating_litres(litres)
}

fn filled(pot: &Pot, bath: Volume, displaced: Volume, fraction: f64, notes: &mut Notes) {
    notes.working(
        msg!("pot filled"),
        vec![
            (msg!("bath").into(), Measured::new(bath.litres(), "L")),
            (
                msg!("taken up by the goods").into(),
                Measured::new(displaced.litres(), "L"),
            ),
            (
                msg!("pot holds").into(),
                Measured::new(pot.capacity.litres(), "L"),
            ),
        ],
        msg!("bath and goods over what the pot holds"),
        Measured::new(fraction * 100.0, "%"),
        msg!("arithmetic; three quarters at most is common practice, no source"),
    );
}

fn level(pot: &Pot, fill: Volume, level: Length, notes: &mut Notes) {
    notes.working(
        msg!("level line of the water"),
        vec![
            (msg!("water to fill").into(), Measured::new(fill.litres(), "L")),
            (
                msg!("pot diameter").into(),
                Measured::new(pot.diameter.centimetres(), "cm"),
            ),
        ],
        msg!("water over the area of a round, straight pot"),
        Measured::new(level.centimetres(), "cm"),
        msg!("geometry"),
    );
}

fn judge_room(
    goods: &Goods,
    pot: &Pot,
    bath: Volume,
    carried: Volume,
    displaced: Volume,
    ratio: LiquorRatio,
    notes: &mut Notes,
) {
    let depth_cm = water::level_line(pot, bath, displaced).centimetres();
    if goods.dry.grams() > 0.0 && depth_cm < SHALLOW_CM {
        notes.warn(SheetWarning::ShallowBath { depth_cm });
    }
    if ratio.litres_per_kg() < LITTLE_LIQUOR {
        notes.warn(SheetWarning::LittleLiquor { ratio });
    }
    if carried.litres() > 0.5 * bath.litres() && bath.litres() > 0.0 {
        notes.warn(SheetWarning::GoodsBringMuchWater { carried, bath });
    }
}

fn judge_fill(pot: &Pot, others: &[Pot], dry: Mass, whole: Volume, fraction: f64, notes: &mut Notes) {
    if fraction > TOO_FULL {
        let needs = Volume::saturating_litres(whole.litres() / THREE_QUARTERS);
        let room = THREE_QUARTERS * pot.capacity.litres();
        let baths = whole_up(whole.litres() / room);
        let fits = |other: &&Pot| other.capacity >= needs;
        let other = others
            .iter()
            .filter(fits)
            .min_by(|one, other| one.capacity.litres().total_cmp(&other.capacity.litres()));
        notes.refuse(SheetRefusal::PotTooSmall {
            other: other.copied(),
            bath: whole,
            fraction,
            needs,
            baths,
            goods_each: Mass::saturating_grams(dry.grams() / f64::from(baths.max(1))),
        });
    } else if fraction > RATHER_FULL {
        notes.warn(SheetWarning::PotRatherFull { fraction });
    }
}

#[expect(
    clippy::as_conversions,
    reason = "a float to integer `as` saturates, and the count is only shown"
)]
fn whole_up(value: f64) -> u32 {
    value.ceil() as u32
}
