//! The fibres a natural dyer works with, and their families.

use crate::msg;

/// A fibre kind. One lot of goods is of one kind.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Fibre {
    /// Sheep's wool.
    Wool,
    /// Wool treated so that it doesn't felt; it takes dye faster.
    SuperwashWool,
    /// Alpaca and its kin.
    Alpaca,
    /// Angora goat.
    Mohair,
    /// Silk with the gum boiled off.
    Silk,
    /// Silk with its gum.
    RawSilk,
    /// Cotton.
    Cotton,
    /// Flax.
    Linen,
    /// Hemp, ramie, nettle.
    Hemp,
}

/// What a fibre is made of, which decides the chemistry it bears.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum FibreFamily {
    /// Wool and other hair: no alkali, no heat shock.
    Hair,
    /// Silk: no strong alkali, no hard boil.
    Silk,
    /// Plant fibre: needs tannin or an acetate, no strong acid.
    Plant,
}

impl Fibre {
    /// Every fibre, in the order shown.
    pub const ALL: [Self; 9] = [
        Self::Wool,
        Self::SuperwashWool,
        Self::Alpaca,
        Self::Mohair,
        Self::Silk,
        Self::RawSilk,
        Self::Cotton,
        Self::Linen,
        Self::Hemp,
    ];

    /// The id used in files and on the command line.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::Wool => "wool",
            Self::SuperwashWool => "superwash-wool",
            Self::Alpaca => "alpaca",
            Self::Mohair => "mohair",
            Self::Silk => "silk",
            Self::RawSilk => "raw-silk",
            Self::Cotton => "cotton",
            Self::Linen => "linen",
            Self::Hemp => "hemp",
        }
    }

    /// The fibre of an id.
    #[must_use]
    pub fn from_id(id: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|fibre| fibre.id() == id)
    }

    /// The name a dyer reads.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Wool => msg!("wool"),
            Self::SuperwashWool => msg!("superwash wool"),
            Self::Alpaca => msg!("alpaca"),
            Self::Mohair => msg!("mohair"),
            Self::Silk => msg!("silk"),
            Self::RawSilk => msg!("raw silk"),
            Self::Cotton => msg!("cotton"),
            Self::Linen => msg!("linen"),
            Self::Hemp => msg!("hemp"),
        }
    }

    /// What it is made of.
    #[must_use]
    pub const fn family(self) -> FibreFamily {
        match self {
            Self::Wool | Self::SuperwashWool | Self::Alpaca | Self::Mohair => FibreFamily::Hair,
            Self::Silk | Self::RawSilk => FibreFamily::Silk,
            Self::Cotton | Self::Linen | Self::Hemp => FibreFamily::Plant,
        }
    }
}
