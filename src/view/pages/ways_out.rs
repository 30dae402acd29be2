//! What a refused sheet offers instead, each one press away.

use crate::craft::vessel::Pot;
use crate::say;
use crate::sheet::{BathSheet, SheetRefusal};
use crate::view::locale::Locale;
use crate::view::screen::{Icon, Row};

/// A way out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum WayOut {
    /// Key in another weight.
    Goods,
    /// Take another recipe.
    Recipe,
    /// Take another pot, burner or lid.
    Pot,
    /// Take the pot of the bench that fits.
    OtherPot,
    /// Split the goods into baths of this many grams.
    Split(f64),
    /// Add this part of the first dose to the used bath.
    Part(f64),
}

impl WayOut {
    /// The way of a key.
    pub(super) fn from_key(key: &str) -> Option<Self> {
        let figure = |rest: &str| rest.parse::<f64>().ok().filter(|figure| figure.is_finite());
        match key {
            "to-goods" => Some(Self::Goods),
            "to-recipe" => Some(Self::Recipe),
            "other-pot" => Some(Self::OtherPot),
            "to-pot" => Some(Self::Pot),
            _ => {
                if let Some(rest) = key.strip_prefix("split-") {
                    return figure(rest).map(Self::Split);
                }
                key.strip_prefix("part-").and_then(figure).map(Self::Part)
            }
        }
    }

    fn key(self) -> String {
        match self {
            Self::Goods => "to-goods".into(),
            Self::Recipe => "to-recipe".into(),
            Self::Pot => "to-pot".into(),
            Self::OtherPot => "other-pot".into(),
            Self::Split(grams) => format!("split-{grams}"),
            Self::Part(part) => format!("part-{part}"),
        }
    }
}

/// The pot of the bench that the first refusal names.
pub(super) fn other_pot(sheet: &BathSheet) -> Option<Pot> {
    let Some(SheetRefusal::PotTooSmall { other, .. }) = sheet.refusals.first() else {
        return None;
    };
    *other
}

/// The ways out of the first refusal.
pub(super) fn rows(sheet: &BathSheet, locale: Locale) -> Vec<Row> {
    let Some(refusal) = sheet.refusals.first() else {
        return Vec::new();
    };
    let way = |way: WayOut, label: String, detail: String, icon| Row {
        key: way.key(),
        label,
        detail,
        value: String::new(),
        icon,
        chosen: false,
        enabled: true,
    };
    let other_pot = || {
        way(
            WayOut::Pot,
            say!(locale, "another pot, burner or lid"),
            String::new(),
            Icon::Pot,
        )
    };
    let other_recipe = || {
        way(
            WayOut::Recipe,
            say!(locale, "another recipe"),
            String::new(),
            Icon::Book,
        )
    };
    let other_weight = || {
        way(
            WayOut::Goods,
            say!(locale, "another weight of goods"),
            String::new(),
            Icon::Scale,
        )
    };
    match refusal {
        SheetRefusal::PotTooSmall {
            baths,
            goods_each,
            other,
            ..
        } => vec![
            other.map_or_else(other_pot, |pot| {
                let capacity = locale.litres(pot.capacity);
                let label = say!(locale, "the pot of {capacity}", capacity = capacity);
                way(
                    WayOut::OtherPot,
                    label,
                    say!(locale, "it stands on the bench"),
                    Icon::Pot,
                )
            }),
            way(
                WayOut::Split(goods_each.grams()),
                say!(
                    locale,
                    "{baths} baths of {weight}",
                    baths = baths,
                    weight = locale.goods_weight(*goods_each)
                ),
                say!(
                    locale,
                    "this sheet for the first of them; the others the same, one after the other"
                ),
                Icon::Plus,
            ),
        ],
        SheetRefusal::WhichPart { choices } => choices
            .iter()
            .map(|choice| {
                let percent = locale.decimal(choice.part * 100.0, 0);
                way(
                    WayOut::Part(choice.part),
                    say!(locale, "{percent} % of the first dose", percent = percent),
                    locale.read(choice.about),
                    Icon::Scale,
                )
            })
            .collect(),
        SheetRefusal::NeverGetsThere { .. } | SheetRefusal::SteamsAway { .. } => {
            vec![other_pot(), other_weight()]
        }
        SheetRefusal::NoGoods => vec![other_weight()],
        SheetRefusal::FibreNotForRecipe { .. }
        | SheetRefusal::ReferenceOnly { .. }
        | SheetRefusal::OffUnlessAsked { .. }
        | SheetRefusal::OtherBath { .. }
        | SheetRefusal::NotUsedAgain { .. }
        | SheetRefusal::NotAPart { .. }
        | SheetRefusal::ParentBath { .. }
        | SheetRefusal::BoilsBelowHold { .. }
        | SheetRefusal::WeightBasis { .. }
        | SheetRefusal::ShelfSalt { .. }
        | SheetRefusal::NoSaltOfLetter { .. }
        | SheetRefusal::NoLiquidWater { .. }
        | SheetRefusal::AlkaliOnHair { .. } => vec![other_recipe(), other_weight()],
    }
}
