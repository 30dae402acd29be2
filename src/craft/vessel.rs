//! Pots, lids, burners and the place they stand at.

use super::quantity::{Altitude, Length, Power, Pressure, Volume};

/// What a pot is made of. Iron, copper and aluminium change a bright bath; enamel, steel and glass don't.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum PotMetal {
    /// Stainless steel.
    Stainless,
    /// Steel under glass enamel.
    Enamel,
    /// Bare aluminium.
    Aluminium,
    /// Bare copper.
    Copper,
    /// Bare or cast iron.
    Iron,
    /// Heat-proof glass.
    Glass,
}

/// A round pot with straight sides.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pot {
    /// What it holds to the brim.
    pub capacity: Volume,
    /// Inside diameter.
    pub diameter: Length,
    /// What it is made of.
    pub metal: PotMetal,
}

/// How the pot is covered.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Lid {
    /// Open.
    Off,
    /// On, with a gap: what most dyers do.
    Loose,
    /// On and closed.
    Tight,
}

/// What heats the pot.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum BurnerKind {
    /// An induction plate.
    Induction,
    /// Radiant glass-ceramic.
    Ceramic,
    /// An open electric coil or a solid plate.
    Coil,
    /// A gas flame.
    Gas,
}

/// A burner and its full power: electric power drawn, or heat of the gas burnt.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Burner {
    /// What kind of burner.
    pub kind: BurnerKind,
    /// At its highest setting.
    pub power: Power,
}

/// Where the pot stands, for its boiling point.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Place {
    /// Height above the sea, standard weather.
    Altitude(Altitude),
    /// Air pressure at the place itself, never the one reduced to sea level.
    Station(Pressure),
}

impl PotMetal {
    /// Every one, in the order shown.
    pub const ALL: [Self; 6] = [
        Self::Stainless,
        Self::Enamel,
        Self::Aluminium,
        Self::Copper,
        Self::Iron,
        Self::Glass,
    ];

    /// The id used in files and on the command line.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::Stainless => "stainless",
            Self::Enamel => "enamel",
            Self::Aluminium => "aluminium",
            Self::Copper => "copper",
            Self::Iron => "iron",
            Self::Glass => "glass",
        }
    }

    /// The metal of an id.
    #[must_use]
    pub fn from_id(id: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|each| each.id() == id)
    }
}

impl Lid {
    /// Every one, in the order shown.
    pub const ALL: [Self; 3] = [Self::Off, Self::Loose, Self::Tight];

    /// The id used in files and on the command line.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::Off => "off",
            Self::Loose => "loose",
            Self::Tight => "tight",
        }
    }

    /// The lid of an id.
    #[must_use]
    pub fn from_id(id: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|each| each.id() == id)
    }
}

impl BurnerKind {
    /// Every one, in the order shown.
    pub const ALL: [Self; 4] = [Self::Induction, Self::Ceramic, Self::Coil, Self::Gas];

    /// The id used in files and on the command line.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::Induction => "induction",
            Self::Ceramic => "ceramic",
            Self::Coil => "coil",
            Self::Gas => "gas",
        }
    }

    /// The kind of burner of an id.
    #[must_use]
    pub fn from_id(id: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|each| each.id() == id)
    }
}
