//! The chemistry of the shelf: molar masses from atomic weights and formulas, and one salt in place of another.
//!
//! Nothing here converts silently: an exchange carries both amounts, what they are equal in, and what is not equal.

use std::fmt;

use crate::msg;

use super::quantity::Mass;
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

/// The formula of a substance, or `None` for what is a mixture or a plant's own, and for what is only read about.
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
        Substance::NeutralSoap
        | Substance::NeutralDetergent
        | Substance::WheatBran
        | Substance::Vinegar
        | Substance::ZincDust
        | Substance::SodiumHydrosulphite => {
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

/// What two salts are equal in when one stands for the other.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum EqualIn {
    /// The aluminium they bring.
    Aluminium,
    /// The iron they bring.
    Iron,
    /// The sodium carbonate they hold.
    SodiumCarbonate,
    /// The citric acid they hold.
    CitricAcid,
    /// The sodium acetate they hold.
    SodiumAcetate,
}

/// The aluminium that a label states, as a share of the whole.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AluminiumLabel {
    // Invariant: above 0 and at most the share of aluminium in its oxide.
    aluminium_share: f64,
}

/// The salt that stands on the shelf.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum OnShelf {
    /// One of known formula.
    Known(Substance),
    /// An aluminium salt of which only the label's aluminium is known, such as most that is sold as acetate.
    Label(AluminiumLabel),
}

/// Something in which two salts differ though they are equal in their metal.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Difference {
    /// One makes a sour bath, the other one of vinegar: they are not for the same fibres.
    SourOrAcetate,
    /// The label's figure is all that is known.
    LabelOnly,
    /// Shops sell several hydrates of it under one name.
    WhichHydrate,
    /// It dissolves slowly.
    SlowToDissolve,
    /// It harms eyes, which the other does not to this degree.
    EyesMore,
}

/// The recipe's salt and the shelf's, each with its amount. Both are to be shown; the one that goes in is recorded.
#[derive(Debug, Clone, PartialEq)]
pub struct Exchange {
    /// What the recipe names.
    pub recipe_salt: Substance,
    /// How much of it the recipe asks.
    pub recipe_amount: Mass,
    /// What is there.
    pub shelf_salt: OnShelf,
    /// How much of it is equal.
    pub shelf_amount: Mass,
    /// What the amounts are equal in.
    pub equal_in: EqualIn,
    /// Where they are not equal.
    pub differences: Vec<Difference>,
}

/// An aluminium acetate made in the bath from an aluminium salt and sodium acetate.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AcetateInBath {
    /// The acetate it stands for.
    pub wanted_salt: Substance,
    /// How much of that.
    pub wanted_amount: Mass,
    /// The aluminium salt.
    pub aluminium_salt: OnShelf,
    /// How much of it.
    pub aluminium_amount: Mass,
    /// The sodium acetate, dry or in crystals.
    pub acetate_salt: Substance,
    /// How much of it.
    pub acetate_amount: Mass,
}

/// Why one salt can't stand for another.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum NoExchange {
    /// They share nothing that a bath needs.
    #[error("{other} can't stand for {salt}: they are not the same thing in another form", other = .shelf.name(), salt = .recipe.name())]
    NotOneKind {
        /// What the recipe names.
        recipe: Substance,
        /// What is on the shelf.
        shelf: Substance,
    },
    /// A label of aluminium can't stand for something without aluminium.
    #[error("a salt known by its aluminium can't stand for {salt}, which brings none", salt = .recipe.name())]
    NoAluminium {
        /// What the recipe names.
        recipe: Substance,
    },
    /// A label's figure that no aluminium salt has.
    #[error("{percent} % is not a label's share of {of}; it is above 0 and at most {high} %")]
    Label {
        /// What was read.
        percent: f64,
        /// Of what: `Al` or `Al2O3`.
        of: &'static str,
        /// The greatest share.
        high: f64,
    },
    /// Not an aluminium acetate.
    #[error("{salt} is not an aluminium acetate", salt = .0.name())]
    NotAnAluminiumAcetate(Substance),
    /// Not a sodium acetate.
    #[error("{salt} is not a sodium acetate", salt = .0.name())]
    NotASodiumAcetate(Substance),
    /// Not an aluminium salt to make acetate of.
    #[error("{salt} is not an alum or an aluminium sulfate", salt = .0.name())]
    NotAnAlum(Substance),
    /// Not a soda.
    #[error("{salt} is not soda", salt = .0.name())]
    NotSoda(Substance),
    /// The amount wouldn't be a weight.
    #[error("the equal amount of {grams} g is more than can be weighed here")]
    TooMuch {
        /// What came out.
        grams: f64,
    },
}

impl AluminiumLabel {
    /// A label that states so many percent Al.
    pub fn percent_aluminium(percent: f64) -> Result<Self, NoExchange> {
        Self::of_share(percent, "Al", 1.0)
    }

    /// A label that states so many percent `Al2O3`.
    pub fn percent_alumina(percent: f64) -> Result<Self, NoExchange> {
        Self::of_share(percent, "Al2O3", ALUMINA.share(Element::Al))
    }

    /// The share of aluminium in the salt, 0 to 1.
    #[must_use]
    pub const fn aluminium_share(self) -> f64 {
        self.aluminium_share
    }

    fn of_share(percent: f64, of: &'static str, aluminium_in_it: f64) -> Result<Self, NoExchange> {
        let aluminium_share = percent / 100.0 * aluminium_in_it;
        let share_max = ALUMINA.share(Element::Al);
        if percent > 0.0 && aluminium_share <= share_max {
            Ok(Self { aluminium_share })
        } else {
            let high = (share_max / aluminium_in_it * 1_000.0).floor() / 10.0;
            Err(NoExchange::Label { percent, of, high })
        }
    }
}

impl Difference {
    /// One line for the dyer.
    #[must_use]
    pub const fn text(self) -> &'static str {
        match self {
            Self::SourOrAcetate => {
                msg!("Equal in aluminium alone: alum makes a sour bath, acetate a mild one.")
            }
            Self::LabelOnly => msg!("Reckoned by the label; the maker's formula isn't known."),
            Self::WhichHydrate => msg!("Shops sell several hydrates of this as one; check the label."),
            Self::SlowToDissolve => msg!("It dissolves slowly: stir until no grain is left."),
            Self::EyesMore => msg!("Aluminium sulfate is worse for eyes than alum: goggles."),
        }
    }
}

impl OnShelf {
    /// The name a dyer reads.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Known(substance) => substance.name(),
            Self::Label(_) => msg!("the aluminium salt of this label"),
        }
    }
}

impl EqualIn {
    /// What it is, in words.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Aluminium => msg!("aluminium"),
            Self::Iron => msg!("iron"),
            Self::SodiumCarbonate => msg!("sodium carbonate"),
            Self::CitricAcid => msg!("citric acid"),
            Self::SodiumAcetate => msg!("sodium acetate"),
        }
    }
}

impl fmt::Display for Exchange {
    /// Both amounts in one line, to a hundredth of a gram.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&msg!(
            "recipe: {wanted:.2} g {salt}; shelf: {amount:.2} g {other}, equal in {what}; the record keeps which one went in",
            wanted = self.recipe_amount.grams(),
            salt = self.recipe_salt.name(),
            amount = self.shelf_amount.grams(),
            other = self.shelf_salt.name(),
            what = self.equal_in.name(),
        ))
    }
}

impl fmt::Display for AcetateInBath {
    /// All three amounts in one line, to a hundredth of a gram.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&msg!(
            "recipe: {wanted:.2} g {salt}; in the bath: {aluminium:.2} g {aluminium_salt} and {acetate:.2} g \
             {acetate_salt} make as much of it",
            wanted = self.wanted_amount.grams(),
            salt = self.wanted_salt.name(),
            aluminium = self.aluminium_amount.grams(),
            aluminium_salt = self.aluminium_salt.name(),
            acetate = self.acetate_amount.grams(),
            acetate_salt = self.acetate_salt.name(),
        ))
    }
}

/// The shelf's salt in place of the recipe's, by what both are there for.
///
/// # Errors
///
/// When they are not one thing in two forms, or the amount leaves the range of weights.
pub fn exchange(recipe: Substance, amount: Mass, shelf: OnShelf) -> Result<Exchange, NoExchange> {
    let recipe_key = key(recipe);
    let (equal_in, recipe_moles, shelf_moles) = match shelf {
        OnShelf::Known(known) => match (recipe_key, key(known)) {
            (Some((one, recipe_moles)), Some((other, shelf_moles))) if one == other => {
                (one, recipe_moles, shelf_moles)
            }
            (Some(_) | None, Some(_) | None) => {
                return Err(NoExchange::NotOneKind { recipe, shelf: known });
            }
        },
        OnShelf::Label(label) => match recipe_key {
            Some((EqualIn::Aluminium, recipe_moles)) => {
                (EqualIn::Aluminium, recipe_moles, moles_of_label(label))
            }
            Some(_) | None => return Err(NoExchange::NoAluminium { recipe }),
        },
    };
    Ok(Exchange {
        recipe_salt: recipe,
        recipe_amount: amount,
        shelf_salt: shelf,
        shelf_amount: weighable(amount.grams() * recipe_moles / shelf_moles)?,
        equal_in,
        differences: differences(recipe, shelf),
    })
}

/// An aluminium acetate of the recipe made in the bath: an alum, and sodium acetate for each acetate it holds.
///
/// # Errors
///
/// When `wanted` is no aluminium acetate, `aluminium` no alum or sulfate, or `acetate` no sodium acetate.
pub fn acetate_in_bath(
    wanted: Substance,
    amount: Mass,
    aluminium: OnShelf,
    acetate: Substance,
) -> Result<AcetateInBath, NoExchange> {
    let wanted_formula = formula(wanted)
        .filter(|_| is_aluminium_acetate(wanted))
        .ok_or(NoExchange::NotAnAluminiumAcetate(wanted))?;
    if let OnShelf::Known(known) = aluminium
        && (is_aluminium_acetate(known) || !matches!(key(known), Some((EqualIn::Aluminium, _))))
    {
        return Err(NoExchange::NotAnAlum(known));
    }
    let acetate_moles_per_gram = match key(acetate) {
        Some((EqualIn::SodiumAcetate, moles)) => moles,
        Some((EqualIn::Aluminium | EqualIn::Iron | EqualIn::SodiumCarbonate | EqualIn::CitricAcid, _))
        | None => return Err(NoExchange::NotASodiumAcetate(acetate)),
    };
    let moles = amount.grams() / wanted_formula.molar_mass();
    let acetates = f64::from(wanted_formula.count(Element::C)) / 2.0; // two carbons in each
    let aluminium_amount = exchange(wanted, amount, aluminium)?.shelf_amount;
    Ok(AcetateInBath {
        wanted_salt: wanted,
        wanted_amount: amount,
        aluminium_salt: aluminium,
        aluminium_amount,
        acetate_salt: acetate,
        acetate_amount: weighable(moles * acetates / acetate_moles_per_gram)?,
    })
}

/// Soda that brings `hydroxide_per_aluminium` moles of alkali for each mole of the alum's aluminium.
///
/// One of carbonate counts for two of alkali. One to one makes the neutral alum of cotton mordants.
///
/// # Errors
///
/// When `alum` brings no aluminium or `soda` is no form of sodium carbonate.
pub fn soda_for_alum(
    alum: Substance,
    amount: Mass,
    hydroxide_per_aluminium: f64,
    soda: Substance,
) -> Result<Mass, NoExchange> {
    let Some((EqualIn::Aluminium, aluminium_moles)) = key(alum) else {
        return Err(NoExchange::NotAnAlum(alum));
    };
    let Some((EqualIn::SodiumCarbonate, soda_moles)) = key(soda) else {
        return Err(NoExchange::NotSoda(soda));
    };
    weighable(amount.grams() * aluminium_moles * hydroxide_per_aluminium / 2.0 / soda_moles)
}

/// What a substance is there for, and the moles of it in one gram; `None` for what has no other form here.
fn key(substance: Substance) -> Option<(EqualIn, f64)> {
    let formula = formula(substance)?;
    let per_gram = 1.0 / formula.molar_mass();
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
        | Substance::AluminiumDiacetate => Some((
            EqualIn::Aluminium,
            f64::from(formula.count(Element::Al)) * per_gram,
        )),
        Substance::FerrousSulfate7 | Substance::FerrousSulfate1 => Some((EqualIn::Iron, per_gram)),
        Substance::SodaAsh | Substance::SodaMonohydrate | Substance::SodaCrystals => {
            Some((EqualIn::SodiumCarbonate, per_gram))
        }
        Substance::CitricAcid | Substance::CitricAcidMonohydrate => Some((EqualIn::CitricAcid, per_gram)),
        Substance::SodiumAcetate | Substance::SodiumAcetateTrihydrate => {
            Some((EqualIn::SodiumAcetate, per_gram))
        }
        Substance::CalciumAcetate
        | Substance::CreamOfTartar
        | Substance::TartaricAcid
        | Substance::TannicAcid
        | Substance::CopperSulfate5
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

fn moles_of_label(label: AluminiumLabel) -> f64 {
    label.aluminium_share / Element::Al.atomic_weight()
}

fn differences(recipe: Substance, shelf: OnShelf) -> Vec<Difference> {
    let mut found = Vec::new();
    match shelf {
        OnShelf::Known(known) => {
            if is_aluminium_acetate(known) != is_aluminium_acetate(recipe) {
                found.push(Difference::SourOrAcetate);
            }
            if is_aluminium_sulfate(known) {
                found.push(Difference::WhichHydrate);
                if !is_aluminium_sulfate(recipe) {
                    found.push(Difference::EyesMore);
                }
            }
            if matches!(known, Substance::BurntAlum | Substance::FerrousSulfate1) {
                found.push(Difference::SlowToDissolve);
            }
        }
        OnShelf::Label(_) => found.push(Difference::LabelOnly),
    }
    found
}

const fn is_aluminium_acetate(substance: Substance) -> bool {
    matches!(
        substance,
        Substance::AluminiumTriacetate | Substance::AluminiumDiacetate | Substance::AluminiumMonoacetate
    )
}

const fn is_aluminium_sulfate(substance: Substance) -> bool {
    matches!(
        substance,
        Substance::AluminiumSulfate14
            | Substance::AluminiumSulfate16
            | Substance::AluminiumSulfate17
            | Substance::AluminiumSulfate18
    )
}

fn weighable(grams: f64) -> Result<Mass, NoExchange> {
    Mass::from_grams(grams).map_err(|_| NoExchange::TooMuch { grams })
}

const ALUMINA: Formula = Formula {
    atoms: &[(Element::Al, 2), (Element::O, 3)],
    water: 0,
};

const WATER: &[(Element, u32)] = &[(Element::H, 2), (Element::O, 1)];

fn mass_of(atoms: &[(Element, u32)]) -> f64 {
    atoms
        .iter()
        .map(|(element, count)| f64::from(*count) * element.atomic_weight())
        .sum()
}
