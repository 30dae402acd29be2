//! The chemistry of the shelf: molar masses from atomic weights and formulas, and one salt in place of another.
//!
//! Nothing here converts silently: an exchange carries both amounts, what they are equal in, and what is not equal.

use super::substance::Substance;

/// An element of the craft's substances.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
#[expect(missing_docs, reason = "the symbols of the elements")]
pub enum Element {
    H,
    C,
    N,
    O,
    Na,
    Al,
    S,
    Cl,
    K,
    Ca,
    Fe,
    Cu,
    Sn,
}

/// A formula unit: its atoms without water of crystallisation, and the molecules of that water.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Formula {
    /// Atoms of the dry formula unit.
    pub atoms: &'static [(Element, u32)],
    /// Molecules of crystal water.
    pub water: u32,
}

impl Element {
    /// Standard atomic weight in g/mol, abridged to five figures: CIAAW 2021.
    #[must_use]
    pub const fn atomic_weight(self) -> f64 {
        match self {
            Self::H => 1.008,
            Self::C => 12.011,
            Self::N => 14.007,
            Self::O => 15.999,
            Self::Na => 22.990,
            Self::Al => 26.982,
            Self::S => 32.06,
            Self::Cl => 35.45,
            Self::K => 39.098,
            Self::Ca => 40.078,
            Self::Fe => 55.845,
            Self::Cu => 63.546,
            Self::Sn => 118.71,
        }
    }

    /// The name a dyer reads.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::H => "hydrogen",
            Self::C => "carbon",
            Self::N => "nitrogen",
            Self::O => "oxygen",
            Self::Na => "sodium",
            Self::Al => "aluminium",
            Self::S => "sulfur",
            Self::Cl => "chlorine",
            Self::K => "potassium",
            Self::Ca => "calcium",
            Self::Fe => "iron",
            Self::Cu => "copper",
            Self::Sn => "tin",
        }
    }
}

impl Formula {
    /// Grams of one mole without its crystal water.
    #[must_use]
    pub fn dry_molar_mass(self) -> f64 {
        mass_of(self.atoms)
    }

    /// Grams of one mole.
    #[must_use]
    pub fn molar_mass(self) -> f64 {
        self.dry_molar_mass() + f64::from(self.water) * mass_of(WATER)
    }

    /// Atoms of an element in the dry formula unit.
    #[must_use]
    pub fn count(self, element: Element) -> u32 {
        self.atoms
            .iter()
            .filter(|(each, _)| *each == element)
            .fold(0, |sum, (_, count)| sum.saturating_add(*count))
    }

    /// The share of an element in the mass, 0 to 1. Hydrogen and oxygen of the crystal water aren't counted.
    #[must_use]
    pub fn share(self, element: Element) -> f64 {
        f64::from(self.count(element)) * element.atomic_weight() / self.molar_mass()
    }
}

/// The formula of a substance, or `None` for what is a mixture or a plant's own.
///
/// Tannic acid is the nominal C76H52O46 of the textbooks; what is sold varies.
#[must_use]
pub const fn formula(substance: Substance) -> Option<Formula> {
    use Element::{Al, C, Ca, Cl, Cu, Fe, H, K, N, Na, O, S, Sn};
    let (atoms, water): (&'static [(Element, u32)], u32) = match substance {
        Substance::PotashAlum => (&[(K, 1), (Al, 1), (S, 2), (O, 8)], 12),
        Substance::BurntAlum => (&[(K, 1), (Al, 1), (S, 2), (O, 8)], 0),
        Substance::AmmoniumAlum => (&[(N, 1), (H, 4), (Al, 1), (S, 2), (O, 8)], 12),
        Substance::SodaAlum => (&[(Na, 1), (Al, 1), (S, 2), (O, 8)], 12),
        Substance::AluminiumSulfate14 => (&[(Al, 2), (S, 3), (O, 12)], 14),
        Substance::AluminiumSulfate16 => (&[(Al, 2), (S, 3), (O, 12)], 16),
        Substance::AluminiumSulfate17 => (&[(Al, 2), (S, 3), (O, 12)], 17),
        Substance::AluminiumSulfate18 => (&[(Al, 2), (S, 3), (O, 12)], 18),
        Substance::AluminiumTriacetate => (&[(Al, 1), (C, 6), (H, 9), (O, 6)], 0),
        Substance::AluminiumDiacetate => (&[(Al, 1), (C, 4), (H, 7), (O, 5)], 0),
        Substance::AluminiumMonoacetate => (&[(Al, 1), (C, 2), (H, 5), (O, 4)], 0),
        Substance::SodiumAcetate => (&[(Na, 1), (C, 2), (H, 3), (O, 2)], 0),
        Substance::SodiumAcetateTrihydrate => (&[(Na, 1), (C, 2), (H, 3), (O, 2)], 3),
        Substance::CalciumAcetate => (&[(Ca, 1), (C, 4), (H, 6), (O, 4)], 0),
        Substance::CreamOfTartar => (&[(K, 1), (C, 4), (H, 5), (O, 6)], 0),
        Substance::TartaricAcid => (&[(C, 4), (H, 6), (O, 6)], 0),
        Substance::CitricAcid => (&[(C, 6), (H, 8), (O, 7)], 0),
        Substance::CitricAcidMonohydrate => (&[(C, 6), (H, 8), (O, 7)], 1),
        Substance::TannicAcid => (&[(C, 76), (H, 52), (O, 46)], 0),
        Substance::FerrousSulfate7 => (&[(Fe, 1), (S, 1), (O, 4)], 7),
        Substance::FerrousSulfate1 => (&[(Fe, 1), (S, 1), (O, 4)], 1),
        Substance::CopperSulfate5 => (&[(Cu, 1), (S, 1), (O, 4)], 5),
        Substance::TinChloride2 => (&[(Sn, 1), (Cl, 2)], 2),
        Substance::SodaAsh => (&[(Na, 2), (C, 1), (O, 3)], 0),
        Substance::SodaMonohydrate => (&[(Na, 2), (C, 1), (O, 3)], 1),
        Substance::SodaCrystals => (&[(Na, 2), (C, 1), (O, 3)], 10),
        Substance::BakingSoda => (&[(Na, 1), (H, 1), (C, 1), (O, 3)], 0),
        Substance::Chalk => (&[(Ca, 1), (C, 1), (O, 3)], 0),
        Substance::SlakedLime => (&[(Ca, 1), (O, 2), (H, 2)], 0),
        Substance::Fructose => (&[(C, 6), (H, 12), (O, 6)], 0),
        Substance::Salt => (&[(Na, 1), (Cl, 1)], 0),
        Substance::NeutralSoap | Substance::NeutralDetergent | Substance::WheatBran | Substance::Vinegar => {
            return None;
        }
    };
    Some(Formula { atoms, water })
}

/// Grams of one mole of a substance, if it has a formula.
#[must_use]
pub fn molar_mass(substance: Substance) -> Option<f64> {
    formula(substance).map(Formula::molar_mass)
}

const WATER: &[(Element, u32)] = &[(Element::H, 2), (Element::O, 1)];

fn mass_of(atoms: &[(Element, u32)]) -> f64 {
    atoms
        .iter()
        .map(|(element, count)| f64::from(*count) * element.atomic_weight())
        .sum()
}
