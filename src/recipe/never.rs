//! What Potside never offers, and why. Old books are full of it.

use crate::msg;

/// Why a substance is never offered.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NeverOffered {
    /// Dichromates and other chrome salts.
    Chrome,
    /// Lead salts.
    Lead,
    /// Arsenic and its sulfides.
    Arsenic,
    /// Mercury salts.
    Mercury,
    /// Sulfuric, hydrochloric, nitric, hydrofluoric acid.
    StrongAcid,
    /// Oxalic acid, and the leaves that hold it.
    Oxalic,
    /// Caustic soda, caustic potash, quicklime.
    Caustic,
    /// Ammonia.
    Ammonia,
}

impl NeverOffered {
    /// Why, in words that follow a colon.
    ///
    /// Chrome, caustic, ammonia and acids: King County (Washington) hazardous-waste programme, safer practices for
    /// textile artists. Quicklime: safety data sheets of calcium oxide. Oxalic acid: ILO Encyclopaedia, as quoted.
    /// Lead, arsenic and mercury: general knowledge, from memory.
    #[must_use]
    pub const fn why(self) -> &'static str {
        match self {
            Self::Chrome => msg!("chrome salts cause cancer and sensitise the skin"),
            Self::Lead => msg!("lead salts poison slowly and stay in the body"),
            Self::Arsenic => msg!("arsenic is a deadly poison and causes cancer"),
            Self::Mercury => msg!("mercury salts are deadly poisons"),
            Self::StrongAcid => msg!("strong acids burn skin, eyes and lungs"),
            Self::Oxalic => msg!("oxalic acid burns, and a few grams swallowed have killed"),
            Self::Caustic => msg!("caustics burn and can blind"),
            Self::Ammonia => msg!("strong ammonia burns eyes and lungs and has no place in a kitchen"),
        }
    }

    /// What to use instead, in words.
    #[must_use]
    pub const fn instead(self) -> &'static str {
        match self {
            Self::Chrome | Self::Lead | Self::Arsenic | Self::Mercury => {
                msg!("mordant with alum, or leave this recipe in its book")
            }
            Self::StrongAcid | Self::Oxalic => {
                msg!("use citric acid or cream of tartar, or leave this recipe in its book")
            }
            Self::Caustic | Self::Ammonia => {
                msg!("use neutral soap on wool and soda ash on plant fibre, or leave this recipe in its book")
            }
        }
    }
}

/// Whole words that give a substance away, wherever they stand in an id or a name.
const WORDS: [(&str, NeverOffered); 23] = [
    ("chrome", NeverOffered::Chrome),
    ("chromium", NeverOffered::Chrome),
    ("dichromate", NeverOffered::Chrome),
    ("bichromate", NeverOffered::Chrome),
    ("chromate", NeverOffered::Chrome),
    ("lead", NeverOffered::Lead),
    ("litharge", NeverOffered::Lead),
    ("arsenic", NeverOffered::Arsenic),
    ("arsenate", NeverOffered::Arsenic),
    ("arsenite", NeverOffered::Arsenic),
    ("orpiment", NeverOffered::Arsenic),
    ("realgar", NeverOffered::Arsenic),
    ("mercury", NeverOffered::Mercury),
    ("mercuric", NeverOffered::Mercury),
    ("sulfuric", NeverOffered::StrongAcid),
    ("sulphuric", NeverOffered::StrongAcid),
    ("hydrochloric", NeverOffered::StrongAcid),
    ("muriatic", NeverOffered::StrongAcid),
    ("nitric", NeverOffered::StrongAcid),
    ("oxalic", NeverOffered::Oxalic),
    ("caustic", NeverOffered::Caustic),
    ("quicklime", NeverOffered::Caustic),
    ("ammonia", NeverOffered::Ammonia),
];

/// Old trade names of several words.
const PHRASES: [(&str, NeverOffered); 9] = [
    ("sugar-of-saturn", NeverOffered::Lead),
    ("oil-of-vitriol", NeverOffered::StrongAcid),
    ("spirit-of-salt", NeverOffered::StrongAcid),
    ("spirits-of-salt", NeverOffered::StrongAcid),
    ("aqua-fortis", NeverOffered::StrongAcid),
    ("aqua-regia", NeverOffered::StrongAcid),
    ("rhubarb-leaf", NeverOffered::Oxalic),
    ("rhubarb-leaves", NeverOffered::Oxalic),
    ("sodium-hydroxide", NeverOffered::Caustic),
];

/// Whether an id or a name speaks of something that is never offered.
#[must_use]
pub fn never_offered(word: &str) -> Option<NeverOffered> {
    let plain: Vec<String> = word
        .split(|c: char| !c.is_alphanumeric())
        .filter(|part| !part.is_empty())
        .map(str::to_lowercase)
        .collect();
    let joined = plain.join("-");

    WORDS
        .into_iter()
        .find(|(known, _)| plain.iter().any(|part| part == known))
        .or_else(|| PHRASES.into_iter().find(|(known, _)| joined.contains(known)))
        .map(|(_, why)| why)
}
