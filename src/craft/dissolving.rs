//! How much hot water takes up the salts of a bath, and which of them may share a cup.
//!
//! Solubilities are tables of the anhydrous salt; hydrates are counted by what they hold of it, and their own water
//! counts as water. Published tables differ by up to a third, so the least water carries a margin of one half.

use crate::msg;

use super::quantity::{Mass, Temperature, Volume};
use super::salts::formula;
use super::substance::Substance;

/// How a substance goes into a bath.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Taking {
    /// It dissolves; [`Cup::least`] is the water for it.
    Dissolves,
    /// It stays a powder and is stirred up in the water.
    StirredUp,
    /// It is a liquid already and is poured.
    Poured,
    /// It goes in a bag, or is steeped and strained.
    Bagged,
}

/// What the least water rests on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Footing {
    /// A table of solubilities, with its source.
    Table(&'static str),
    /// So many parts of water to one of salt: common practice, no source.
    RuleOfThumb {
        /// Millilitres of water for each gram.
        ml_per_gram: u32,
    },
}

/// Something to know while dissolving.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Remark {
    /// Cream of tartar: near nothing dissolves in cold water, and it falls out again when the water cools.
    TartarNeedsHot,
    /// It takes minutes of stirring though there is water enough.
    Slow,
    /// Hotter water takes up less of it.
    NotTooHot,
    /// It warms the water, or cakes: powder into water, never water onto powder.
    PowderIntoWater,
}

impl Remark {
    /// One line for the dyer.
    #[must_use]
    pub const fn text(self) -> &'static str {
        match self {
            Self::TartarNeedsHot => {
                msg!("Cream of tartar wants the hottest water; cold takes up next to none.")
            }
            Self::Slow => msg!("It takes its time: stir until no grain is left."),
            Self::NotTooHot => msg!("Hand-hot to 60 C is best; boiling water takes up no more of it."),
            Self::PowderIntoWater => {
                msg!("Powder into water, little by little, stirring; never water onto powder.")
            }
        }
    }
}

/// The cup for one substance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cup {
    /// What is dissolved.
    pub substance: Substance,
    /// How much of it.
    pub amount: Mass,
    /// How it goes in.
    pub taking: Taking,
    /// The least water, with its margin; none for what is poured or bagged.
    pub least: Volume,
    /// What the least water rests on.
    pub footing: Footing,
    /// What to know.
    pub remark: Option<Remark>,
}

/// Why two substances may not share a cup.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Clash {
    /// They foam up.
    Fizz,
    /// The metal goes to a curd or a mud before it reaches the goods.
    Curd,
    /// Iron and tannin make ink.
    Ink,
}

impl Clash {
    /// One line for the dyer.
    #[must_use]
    pub const fn text(self) -> &'static str {
        match self {
            Self::Fizz => msg!("These foam up together: apart, and slowly."),
            Self::Curd => msg!("These spoil each other in the cup: apart."),
            Self::Ink => msg!("Iron and tannin make ink in the cup: apart."),
        }
    }
}

/// Several substances to be dissolved for one bath.
#[derive(Debug, Clone, PartialEq)]
pub struct Dissolving {
    /// Their cups, the one to be dissolved first first: what needs the most water for each gram.
    pub cups: Vec<Cup>,
    /// The water for all of them.
    pub least: Volume,
    /// How much more water is wanted than there is, if it is not enough.
    pub short_by: Option<Volume>,
    /// The pairs that must go in apart.
    pub apart: Vec<(Substance, Substance, Clash)>,
}

/// Whether a bath keeps a salt dissolved.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Stays {
    /// It does, with room for what the tables disagree by.
    Dissolved,
    /// It may fall out: it is within a third of the limit.
    Near,
    /// It doesn't all dissolve.
    Undissolved,
}

/// The least hot water for one substance. Grams of water count as millilitres, which errs by 4 % at most, on the
/// side the margin covers; at least one millilitre for each gram, so that the salt can be stirred.
#[must_use]
pub fn cup(substance: Substance, amount: Mass, water_at: Temperature) -> Cup {
    let (taking, footing, remark) = ways(substance);
    let grams = amount.grams();
    let ml = match taking {
        Taking::Dissolves => match footing {
            Footing::Table(_) => added_water(substance, grams, water_at, MARGIN)
                .map_or(grams * f64::from(FALLBACK_ML_PER_GRAM), |ml| ml.max(grams)),
            Footing::RuleOfThumb { ml_per_gram } => grams * f64::from(ml_per_gram),
        },
        Taking::StirredUp => match footing {
            Footing::Table(_) => grams * f64::from(FALLBACK_ML_PER_GRAM),
            Footing::RuleOfThumb { ml_per_gram } => grams * f64::from(ml_per_gram),
        },
        Taking::Poured | Taking::Bagged => 0.0,
    };
    Cup {
        substance,
        amount,
        taking,
        least: Volume::saturating_litres(ml / 1_000.0),
        footing,
        remark,
    }
}

/// The cups of one bath, their order, and whether the water at hand takes them up.
#[must_use]
pub fn dissolving(items: &[(Substance, Mass)], water_at: Temperature, at_hand: Option<Volume>) -> Dissolving {
    let mut cups: Vec<Cup> = items
        .iter()
        .map(|(substance, amount)| cup(*substance, *amount, water_at))
        .collect();
    cups.sort_by(|one, other| water_per_gram(other).total_cmp(&water_per_gram(one)));
    let least = Volume::saturating_litres(cups.iter().map(|cup| cup.least.litres()).sum());
    let short_by = at_hand
        .filter(|at_hand| at_hand.litres() < least.litres())
        .map(|at_hand| Volume::saturating_litres(least.litres() - at_hand.litres()));
    let mut apart = Vec::new();
    for (place, (one, _)) in items.iter().enumerate() {
        for (other, _) in items.iter().skip(place.saturating_add(1)) {
            if let Some(clash) = clash(*one, *other) {
                apart.push((*one, *other, clash));
            }
        }
    }
    Dissolving {
        cups,
        least,
        short_by,
        apart,
    }
}

/// Whether a bath of this volume and temperature keeps a salt dissolved; `None` where no table is at hand.
///
/// This is cream of tartar's trap: a hot cup that dissolved it all, poured into a small cold bath, lets it fall out.
#[must_use]
pub fn stays(substance: Substance, amount: Mass, bath: Volume, at: Temperature) -> Option<Stays> {
    let water_ml = bath.litres() * 1_000.0;
    let sure = added_water(substance, amount.grams(), at, TABLES_DIFFER)?;
    let bare = added_water(substance, amount.grams(), at, 1.0)?;
    Some(if sure <= water_ml {
        Stays::Dissolved
    } else if bare <= water_ml {
        Stays::Near
    } else {
        Stays::Undissolved
    })
}

/// Grams of the anhydrous salt that 100 g of water takes up, by the table; `None` where there is none.
///
/// Between rows the logarithm runs straight; beyond the ends the end row holds. Where published tables differ,
/// a row is the lesser of them.
#[must_use]
pub fn solubility(substance: Substance, at: Temperature) -> Option<f64> {
    let rows = table(substance)?.rows;
    let celsius = at.celsius();
    let above = rows.iter().position(|(row_celsius, _)| *row_celsius >= celsius);
    let (low, high) = match above {
        Some(0) => (rows.first()?, rows.first()?),
        Some(place) => (rows.get(place.saturating_sub(1))?, rows.get(place)?),
        None => (rows.last()?, rows.last()?),
    };
    let width = high.0 - low.0;
    let share = if width > 0.0 {
        (celsius - low.0) / width
    } else {
        0.0
    };
    Some((low.1.ln() * (1.0 - share) + high.1.ln() * share).exp())
}

/// Why two substances may not share a cup, if they may not.
#[must_use]
pub fn clash(one: Substance, other: Substance) -> Option<Clash> {
    use Nature::{Alkali, Carbonate, Iron, Other, Soap, SourMetal, Tannin, WeakAcid};
    match (nature(one), nature(other)) {
        (Carbonate, SourMetal | Iron | WeakAcid) | (SourMetal | Iron | WeakAcid, Carbonate) => {
            Some(Clash::Fizz)
        }
        (Alkali | Soap, SourMetal | Iron) | (SourMetal | Iron, Alkali | Soap) => Some(Clash::Curd),
        (Tannin, SourMetal) | (SourMetal, Tannin) | (Soap, WeakAcid) | (WeakAcid, Soap) => Some(Clash::Curd),
        (Tannin, Iron) | (Iron, Tannin) => Some(Clash::Ink),
        (Carbonate | Alkali | Soap | Tannin | Other, Carbonate | Alkali | Soap | Tannin | Other)
        | (SourMetal | Iron | WeakAcid | Other, SourMetal | Iron | WeakAcid | Other)
        | (Alkali | Tannin, WeakAcid)
        | (WeakAcid, Alkali | Tannin) => None,
    }
}

/// Half as much water again as the table asks: the tables themselves differ by up to 35 %.
const MARGIN: f64 = 1.5;
/// By how much published tables differ at most (potash alum at 60 C, two tables).
const TABLES_DIFFER: f64 = 1.35;
const FALLBACK_ML_PER_GRAM: u32 = 10;

/// Millilitres of water to add, when the salt may fill the water to a `margin`th of its solubility.
fn added_water(substance: Substance, grams: f64, at: Temperature, margin: f64) -> Option<f64> {
    let formula = formula(substance)?;
    let dry_share = formula.dry_molar_mass() / formula.molar_mass();
    let dry_grams = grams * dry_share;
    let own_water = grams - dry_grams;
    let water = dry_grams / solubility(substance, at)? * 100.0 * margin;
    Some((water - own_water).max(0.0))
}

fn water_per_gram(cup: &Cup) -> f64 {
    if cup.amount.grams() > 0.0 {
        cup.least.litres() / cup.amount.grams()
    } else {
        0.0
    }
}

/// What of a substance matters beside another in a cup.
enum Nature {
    SourMetal,
    Iron,
    WeakAcid,
    Carbonate,
    Alkali,
    Soap,
    Tannin,
    Other,
}

fn nature(substance: Substance) -> Nature {
    match substance {
        Substance::PotashAlum
        | Substance::AmmoniumAlum
        | Substance::SodaAlum
        | Substance::BurntAlum
        | Substance::AluminiumSulfate14
        | Substance::AluminiumSulfate16
        | Substance::AluminiumSulfate17
        | Substance::AluminiumSulfate18
        | Substance::AluminiumTriacetate
        | Substance::AluminiumMonoacetate
        | Substance::AluminiumDiacetate
        | Substance::CopperSulfate5
        | Substance::TinChloride2 => Nature::SourMetal,
        Substance::FerrousSulfate7 | Substance::FerrousSulfate1 => Nature::Iron,
        Substance::CreamOfTartar
        | Substance::TartaricAcid
        | Substance::CitricAcid
        | Substance::CitricAcidMonohydrate
        | Substance::Vinegar => Nature::WeakAcid,
        Substance::SodaAsh
        | Substance::SodaMonohydrate
        | Substance::SodaCrystals
        | Substance::BakingSoda
        | Substance::Chalk => Nature::Carbonate,
        Substance::SlakedLime => Nature::Alkali,
        Substance::NeutralSoap => Nature::Soap,
        Substance::TannicAcid => Nature::Tannin,
        Substance::SodiumAcetate
        | Substance::SodiumAcetateTrihydrate
        | Substance::CalciumAcetate
        | Substance::NeutralDetergent
        | Substance::WheatBran
        | Substance::Fructose
        | Substance::Salt
        | Substance::ZincDust
        | Substance::SodiumHydrosulphite => Nature::Other,
    }
}

fn ways(substance: Substance) -> (Taking, Footing, Option<Remark>) {
    use Taking::{Bagged, Dissolves, Poured, StirredUp};
    let rule = |ml_per_gram| Footing::RuleOfThumb { ml_per_gram };
    let by_table = table(substance).map_or(rule(FALLBACK_ML_PER_GRAM), |table| Footing::Table(table.source));
    match substance {
        Substance::PotashAlum
        | Substance::AmmoniumAlum
        | Substance::AluminiumSulfate14
        | Substance::AluminiumSulfate16
        | Substance::AluminiumSulfate17
        | Substance::AluminiumSulfate18
        | Substance::SodiumAcetate
        | Substance::SodiumAcetateTrihydrate
        | Substance::CopperSulfate5
        | Substance::SodaCrystals => (Dissolves, by_table, None),
        Substance::CreamOfTartar => (Dissolves, by_table, Some(Remark::TartarNeedsHot)),
        Substance::BurntAlum => (Dissolves, by_table, Some(Remark::Slow)),
        Substance::FerrousSulfate7 => (Dissolves, by_table, Some(Remark::NotTooHot)),
        Substance::FerrousSulfate1 => (Dissolves, by_table, Some(Remark::Slow)),
        Substance::SodaAsh | Substance::SodaMonohydrate => {
            (Dissolves, by_table, Some(Remark::PowderIntoWater))
        }
        // No table at hand for these; each number is common practice, no source.
        Substance::SodaAlum => (Dissolves, rule(3), None),
        Substance::AluminiumTriacetate | Substance::AluminiumMonoacetate | Substance::AluminiumDiacetate => {
            (Dissolves, rule(10), Some(Remark::Slow))
        }
        Substance::CalciumAcetate => (Dissolves, rule(10), Some(Remark::NotTooHot)),
        Substance::TartaricAcid | Substance::CitricAcid | Substance::CitricAcidMonohydrate => {
            (Dissolves, rule(2), None)
        }
        Substance::TannicAcid => (Dissolves, rule(10), Some(Remark::PowderIntoWater)),
        Substance::TinChloride2 => (Dissolves, rule(5), Some(Remark::PowderIntoWater)),
        Substance::BakingSoda => (Dissolves, rule(20), Some(Remark::NotTooHot)),
        Substance::NeutralSoap => (Dissolves, rule(20), Some(Remark::Slow)),
        Substance::Fructose => (Dissolves, rule(1), None),
        Substance::Salt => (Dissolves, rule(5), None),
        Substance::SodiumHydrosulphite => (Dissolves, rule(10), Some(Remark::PowderIntoWater)),
        Substance::Chalk | Substance::SlakedLime | Substance::ZincDust => (StirredUp, rule(10), None),
        Substance::NeutralDetergent | Substance::Vinegar => (Poured, rule(0), None),
        Substance::WheatBran => (Bagged, rule(0), None),
    }
}

struct Table {
    source: &'static str,
    /// Celsius, and grams of anhydrous salt to 100 g of water.
    rows: &'static [(f64, f64)],
}

fn table(substance: Substance) -> Option<&'static Table> {
    match substance {
        Substance::PotashAlum | Substance::BurntAlum => Some(&POTASH_ALUM),
        Substance::AmmoniumAlum => Some(&AMMONIUM_ALUM),
        Substance::AluminiumSulfate14
        | Substance::AluminiumSulfate16
        | Substance::AluminiumSulfate17
        | Substance::AluminiumSulfate18 => Some(&ALUMINIUM_SULFATE),
        Substance::FerrousSulfate7 | Substance::FerrousSulfate1 => Some(&FERROUS_SULFATE),
        Substance::CopperSulfate5 => Some(&COPPER_SULFATE),
        Substance::SodaAsh | Substance::SodaMonohydrate | Substance::SodaCrystals => Some(&SODIUM_CARBONATE),
        Substance::SodiumAcetate | Substance::SodiumAcetateTrihydrate => Some(&SODIUM_ACETATE),
        Substance::CreamOfTartar => Some(&CREAM_OF_TARTAR),
        Substance::SodaAlum
        | Substance::AluminiumTriacetate
        | Substance::AluminiumMonoacetate
        | Substance::AluminiumDiacetate
        | Substance::CalciumAcetate
        | Substance::TartaricAcid
        | Substance::CitricAcid
        | Substance::CitricAcidMonohydrate
        | Substance::TannicAcid
        | Substance::TinChloride2
        | Substance::BakingSoda
        | Substance::Chalk
        | Substance::SlakedLime
        | Substance::NeutralSoap
        | Substance::NeutralDetergent
        | Substance::WheatBran
        | Substance::Fructose
        | Substance::Vinegar
        | Substance::Salt
        | Substance::ZincDust
        | Substance::SodiumHydrosulphite => None,
    }
}

const CRC: &str = "CRC Handbook of Chemistry and Physics, 91st ed., 8-112 to 8-117, read second-hand";

static POTASH_ALUM: Table = Table {
    source: "lesser of a supplier's table (0, 20 C; read) and Perry's older table (from memory)",
    rows: &[
        (0.0, 2.96),
        (10.0, 4.0),
        (20.0, 5.9),
        (25.0, 7.23),
        (30.0, 8.39),
        (40.0, 11.7),
        (50.0, 17.0),
        (60.0, 24.75),
        (70.0, 40.0),
        (80.0, 71.0),
        (90.0, 109.0),
    ],
};

static AMMONIUM_ALUM: Table = Table {
    source: "encyclopaedia table of solubilities, read",
    rows: &[
        (0.0, 2.4),
        (10.0, 5.0),
        (20.0, 7.4),
        (30.0, 10.5),
        (40.0, 14.6),
        (50.0, 19.6),
        (60.0, 26.7),
        (70.0, 37.7),
        (80.0, 53.9),
        (90.0, 98.2),
        (100.0, 121.0),
    ],
};

static ALUMINIUM_SULFATE: Table = Table {
    source: "lesser of CRC Handbook 91st ed. (read second-hand) and Perry table 2-122 (read in a supplier's copy)",
    rows: &[
        (0.0, 31.2),
        (10.0, 33.5),
        (20.0, 36.4),
        (25.0, 38.5),
        (30.0, 39.28),
        (40.0, 41.24),
        (50.0, 44.3),
        (60.0, 48.37),
        (70.0, 53.61),
        (80.0, 60.26),
        (90.0, 68.63),
        (100.0, 79.21),
    ],
};

static FERROUS_SULFATE: Table = Table {
    source: CRC,
    rows: &[
        (0.0, 15.61),
        (10.0, 20.48),
        (20.0, 26.26),
        (25.0, 29.53),
        (30.0, 32.98),
        (40.0, 40.45),
        (50.0, 48.81),
        (60.0, 55.04),
        (70.0, 50.6),
        (80.0, 43.68),
        (90.0, 37.17),
        (100.0, 31.58),
    ],
};

static COPPER_SULFATE: Table = Table {
    source: CRC,
    rows: &[
        (0.0, 14.16),
        (10.0, 16.82),
        (20.0, 20.05),
        (25.0, 21.95),
        (30.0, 23.92),
        (40.0, 28.53),
        (50.0, 34.05),
        (60.0, 40.45),
        (70.0, 47.93),
        (80.0, 56.99),
        (90.0, 67.5),
        (100.0, 76.99),
    ],
};

static SODIUM_CARBONATE: Table = Table {
    source: CRC,
    rows: &[
        (0.0, 6.88),
        (10.0, 12.11),
        (20.0, 21.8),
        (25.0, 30.72),
        (30.0, 40.25),
        (40.0, 48.81),
        (50.0, 47.49),
        (60.0, 46.41),
        (70.0, 45.56),
        (80.0, 45.14),
        (90.0, 44.72),
        (100.0, 44.72),
    ],
};

static SODIUM_ACETATE: Table = Table {
    source: CRC,
    rows: &[
        (0.0, 36.05),
        (10.0, 40.45),
        (20.0, 46.63),
        (25.0, 50.38),
        (30.0, 55.04),
        (40.0, 66.39),
        (50.0, 82.15),
        (60.0, 139.81),
        (70.0, 145.7),
        (80.0, 153.16),
        (90.0, 161.1),
        (100.0, 169.54),
    ],
};

static CREAM_OF_TARTAR: Table = Table {
    source: "20 and 100 C of Merck's type, read; the rest from memory; 25 C of the NBS pH standard",
    rows: &[
        (0.0, 0.32),
        (10.0, 0.4),
        (20.0, 0.53),
        (25.0, 0.64),
        (30.0, 0.9),
        (40.0, 1.3),
        (50.0, 1.8),
        (60.0, 2.5),
        (80.0, 4.6),
        (100.0, 6.2),
    ],
};
