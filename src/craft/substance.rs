//! The salts and assistants of the craft, by their exact identity.
//!
//! Two salts of one metal are two substances; one is never quietly taken for the other.

use crate::msg;

/// A salt, acid, alkali or other bought substance, by what it exactly is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
#[expect(
    missing_docs,
    reason = "each name is the substance; `Substance::name` says it in words"
)]
pub enum Substance {
    PotashAlum,
    AmmoniumAlum,
    SodaAlum,
    BurntAlum,
    AluminiumSulfate14,
    AluminiumSulfate16,
    AluminiumSulfate17,
    AluminiumSulfate18,
    AluminiumTriacetate,
    AluminiumMonoacetate,
    AluminiumDiacetate,
    SodiumAcetate,
    SodiumAcetateTrihydrate,
    CalciumAcetate,
    CreamOfTartar,
    TartaricAcid,
    CitricAcid,
    CitricAcidMonohydrate,
    TannicAcid,
    FerrousSulfate7,
    FerrousSulfate1,
    CopperSulfate5,
    TinChloride2,
    SodaAsh,
    SodaMonohydrate,
    SodaCrystals,
    BakingSoda,
    Chalk,
    SlakedLime,
    NeutralSoap,
    NeutralDetergent,
    WheatBran,
    Fructose,
    Vinegar,
    Salt,
    ZincDust,
    SodiumHydrosulphite,
}

impl Substance {
    /// Every substance, in the order shown.
    pub const ALL: [Self; 37] = [
        Self::PotashAlum,
        Self::AmmoniumAlum,
        Self::SodaAlum,
        Self::BurntAlum,
        Self::AluminiumSulfate14,
        Self::AluminiumSulfate16,
        Self::AluminiumSulfate17,
        Self::AluminiumSulfate18,
        Self::AluminiumTriacetate,
        Self::AluminiumMonoacetate,
        Self::AluminiumDiacetate,
        Self::SodiumAcetate,
        Self::SodiumAcetateTrihydrate,
        Self::CalciumAcetate,
        Self::CreamOfTartar,
        Self::TartaricAcid,
        Self::CitricAcid,
        Self::CitricAcidMonohydrate,
        Self::TannicAcid,
        Self::FerrousSulfate7,
        Self::FerrousSulfate1,
        Self::CopperSulfate5,
        Self::TinChloride2,
        Self::SodaAsh,
        Self::SodaMonohydrate,
        Self::SodaCrystals,
        Self::BakingSoda,
        Self::Chalk,
        Self::SlakedLime,
        Self::NeutralSoap,
        Self::NeutralDetergent,
        Self::WheatBran,
        Self::Fructose,
        Self::Vinegar,
        Self::Salt,
        Self::ZincDust,
        Self::SodiumHydrosulphite,
    ];

    /// The id used in files and on the command line.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::PotashAlum => "potash-alum",
            Self::AmmoniumAlum => "ammonium-alum",
            Self::SodaAlum => "soda-alum",
            Self::BurntAlum => "burnt-alum",
            Self::AluminiumSulfate14 => "aluminium-sulfate-14h2o",
            Self::AluminiumSulfate16 => "aluminium-sulfate-16h2o",
            Self::AluminiumSulfate17 => "aluminium-sulfate-17h2o",
            Self::AluminiumSulfate18 => "aluminium-sulfate-18h2o",
            Self::AluminiumTriacetate => "aluminium-triacetate",
            Self::AluminiumMonoacetate => "aluminium-monoacetate",
            Self::AluminiumDiacetate => "aluminium-diacetate",
            Self::SodiumAcetate => "sodium-acetate",
            Self::SodiumAcetateTrihydrate => "sodium-acetate-trihydrate",
            Self::CalciumAcetate => "calcium-acetate",
            Self::CreamOfTartar => "cream-of-tartar",
            Self::TartaricAcid => "tartaric-acid",
            Self::CitricAcid => "citric-acid",
            Self::CitricAcidMonohydrate => "citric-acid-monohydrate",
            Self::TannicAcid => "tannic-acid",
            Self::FerrousSulfate7 => "ferrous-sulfate",
            Self::FerrousSulfate1 => "ferrous-sulfate-monohydrate",
            Self::CopperSulfate5 => "copper-sulfate",
            Self::TinChloride2 => "tin-chloride",
            Self::SodaAsh => "soda-ash",
            Self::SodaMonohydrate => "soda-monohydrate",
            Self::SodaCrystals => "soda-crystals",
            Self::BakingSoda => "baking-soda",
            Self::Chalk => "chalk",
            Self::SlakedLime => "slaked-lime",
            Self::NeutralSoap => "neutral-soap",
            Self::NeutralDetergent => "neutral-detergent",
            Self::WheatBran => "wheat-bran",
            Self::Fructose => "fructose",
            Self::Vinegar => "vinegar",
            Self::Salt => "salt",
            Self::ZincDust => "zinc-dust",
            Self::SodiumHydrosulphite => "sodium-hydrosulphite",
        }
    }

    /// The substance of an id.
    #[must_use]
    pub fn from_id(id: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|substance| substance.id() == id)
    }

    /// The name a dyer reads, as the trade says it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::PotashAlum => msg!("alum (potash)"),
            Self::AmmoniumAlum => msg!("ammonium alum"),
            Self::SodaAlum => msg!("soda alum"),
            Self::BurntAlum => msg!("burnt alum"),
            Self::AluminiumSulfate14 => msg!("aluminium sulfate, 14-hydrate"),
            Self::AluminiumSulfate16 => msg!("aluminium sulfate, 16-hydrate"),
            Self::AluminiumSulfate17 => msg!("aluminium sulfate, 17-hydrate"),
            Self::AluminiumSulfate18 => msg!("aluminium sulfate, 18-hydrate"),
            Self::AluminiumTriacetate => msg!("aluminium triacetate"),
            Self::AluminiumMonoacetate => msg!("aluminium acetate (monoacetate)"),
            Self::AluminiumDiacetate => msg!("aluminium acetate (diacetate)"),
            Self::SodiumAcetate => msg!("sodium acetate (anhydrous)"),
            Self::SodiumAcetateTrihydrate => msg!("sodium acetate (trihydrate)"),
            Self::CalciumAcetate => msg!("calcium acetate"),
            Self::CreamOfTartar => msg!("cream of tartar"),
            Self::TartaricAcid => msg!("tartaric acid"),
            Self::CitricAcid => msg!("citric acid (anhydrous)"),
            Self::CitricAcidMonohydrate => msg!("citric acid (monohydrate)"),
            Self::TannicAcid => msg!("tannic acid"),
            Self::FerrousSulfate7 => msg!("iron (ferrous sulfate)"),
            Self::FerrousSulfate1 => msg!("iron (ferrous sulfate, dried)"),
            Self::CopperSulfate5 => msg!("copper sulfate"),
            Self::TinChloride2 => msg!("tin chloride"),
            Self::SodaAsh => msg!("soda ash"),
            Self::SodaMonohydrate => msg!("soda, monohydrate"),
            Self::SodaCrystals => msg!("washing soda crystals"),
            Self::BakingSoda => msg!("baking soda"),
            Self::Chalk => msg!("chalk"),
            Self::SlakedLime => msg!("slaked lime"),
            Self::NeutralSoap => msg!("neutral soap"),
            Self::NeutralDetergent => msg!("neutral wool detergent"),
            Self::WheatBran => msg!("wheat bran"),
            Self::Fructose => msg!("fructose"),
            Self::Vinegar => msg!("vinegar"),
            Self::Salt => msg!("common salt"),
            Self::ZincDust => msg!("zinc dust"),
            Self::SodiumHydrosulphite => msg!("sodium hydrosulphite"),
        }
    }
}
