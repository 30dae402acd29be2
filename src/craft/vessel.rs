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
