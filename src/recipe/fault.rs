//! What can be wrong with a recipe file: each fault with its place, what is wrong, and the remedy.

pub use super::hidden::Hidden;
use super::hidden::shown;
use super::model::{BathKind, Letter, MordantNeed};
use super::never::NeverOffered;
use super::words::ActKind;
use crate::craft::fibre::Fibre;
use crate::craft::quantity::Temperature;
use crate::craft::reading::ReadingFault;
use crate::craft::substance::Substance;
use std::fmt;

/// One fault and where it stands.
#[derive(Debug, Clone, PartialEq)]
pub struct Fault {
    /// Line, from 1.
    pub line: usize,
    /// Column in characters, from 1.
    pub column: usize,
    /// What is wrong.
    pub what: Wrong,
}

/// All faults of one file, in the order they stand in it; never empty.
#[derive(Debug, Clone, PartialEq)]
pub struct Faults(Vec<Fault>); // Invariant: at least one, sorted by place.

impl Faults {
    /// The faults, or `None` when there are none.
    pub(crate) fn of(mut faults: Vec<Fault>) -> Option<Self> {
        faults.sort_by_key(|fault| (fault.line, fault.column));
        (!faults.is_empty()).then_some(Self(faults))
    }

    /// The refusal of a recipe in which no fault was noted.
    pub(crate) fn unexplained() -> Self {
        Self(vec![Fault {
            line: 1,
            column: 1,
            what: Wrong::Unexplained,
        }])
    }

    /// Each fault, in the order they stand in the file.
    #[must_use]
    pub fn as_slice(&self) -> &[Fault] {
        &self.0
    }
}

impl fmt::Display for Faults {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (index, fault) in self.0.iter().enumerate() {
            if index > 0 {
                writeln!(f)?;
            }
            write!(f, "{fault}")?;
        }
        Ok(())
    }
}

impl std::error::Error for Faults {}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "line {}, column {}: {}; {}",
            self.line,
            self.column,
            self.what,
            self.what.remedy()
        )
    }
}

impl std::error::Error for Fault {}

/// A closed choice that a word of the file should name.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Choice {
    /// After `kind =`.
    Bath,
    /// After `do =`.
    Step,
    /// In `fibres`.
    Fibre,
    /// After `substance =`.
    Substance,
    /// After `form =`.
    Form,
    /// After `mordant =`.
    Mordant,
    /// After `strength =`.
    Strength,
}

impl fmt::Display for Choice {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Bath => "kind of bath",
            Self::Step => "step",
            Self::Fibre => "fibre",
            Self::Substance => "substance",
            Self::Form => "form of a dyestuff",
            Self::Mordant => "need of a mordant",
            Self::Strength => "strength of a source",
        })
    }
}

/// What is wrong. Words of the file are carried as they stand there, and shown without what is hidden in them.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[expect(missing_docs, reason = "each message says what its fields are")]
pub enum Wrong {
    // The file as text.
    #[error("the file has {bytes} bytes; a recipe has at most {most}")]
    FileTooLarge { bytes: usize, most: usize },
    #[error("not TOML: {message}")]
    NotToml { message: String },
    #[error("{} U+{code:04X}", hidden_words(*.kind))]
    HiddenCharacter { code: u32, kind: Hidden },

    // Keys and types.
    #[error("unknown key {} in {of}", quoted(.key))]
    UnknownKey {
        key: String,
        of: &'static str,
        nearest: Option<&'static str>,
    },
    #[error("{of} has no {key}")]
    KeyMissing { key: &'static str, of: &'static str },
    #[error("{key} is {found}, not {wanted}")]
    WrongType {
        key: &'static str,
        wanted: &'static str,
        found: &'static str,
    },
    #[error("{key} is empty")]
    Empty { key: &'static str },
    #[error("{key} has {characters} characters; at most {most}")]
    TooLong {
        key: &'static str,
        characters: usize,
        most: usize,
    },
    #[error("{count} in {key}; at most {most}")]
    TooMany {
        key: &'static str,
        count: usize,
        most: usize,
    },
    #[error("{key} {} is not in small letters, digits and single hyphens", quoted(.word))]
    NotKebab { key: &'static str, word: String },
    #[error("format {} is not known; this program reads format 1", shown(.found))]
    FormatUnknown { found: String },
    #[error("{} is no {choice}", quoted(.word))]
    ChoiceUnknown {
        choice: Choice,
        word: String,
        near: Vec<&'static str>,
    },

    // Quantities, ranges, sources.
    #[error("{key} is a number without its unit")]
    NumberWithoutUnit {
        key: &'static str,
        example: &'static str,
    },
    #[error("{key}: {fault}")]
    NotAQuantity {
        key: &'static str,
        fault: ReadingFault,
        example: &'static str,
    },
    #[error("{key} of {said} is no temperature of a bath in an open pot")]
    NotABathTemperature { key: &'static str, said: String },
    #[error("{key} is nothing at all")]
    NotAboveZero { key: &'static str },
    #[error("parts of {value}; parts are above 0 and at most {most}")]
    PartsOutOfRange { value: f64, most: f64 },
    #[error("{key} has {count} ends")]
    RangeNotOfTwo { key: &'static str, count: usize },
    #[error("the range of {key} runs from {low} down to {high}")]
    RangeUpsideDown {
        key: &'static str,
        low: String,
        high: String,
    },
    #[error("{key} of {chosen} is outside its own range, {low} to {high}")]
    OutsideOwnRange {
        key: &'static str,
        chosen: String,
        low: String,
        high: String,
    },
    #[error("{key} has no source")]
    FigureWithoutSource { key: &'static str },
    #[error("no source has the key {}", quoted(.word))]
    SourceUnknown { word: String, nearest: Option<String> },
    #[error("source {} is used by no figure", quoted(.word))]
    SourceUnused { word: String },
    #[error("a second source with the key {}", quoted(.word))]
    SourceTwice { word: String },

    #[error("times is not a whole number from 1 to {most}")]
    RinsesOutOfRange { most: u32 },

    // Fibres and wares.
    #[error("{} is listed twice", .fibre.id())]
    FibreTwice { fibre: Fibre },
    #[error("a {} bath with mordant = \"{}\"", .kind.id(), .mordant.id())]
    MordantDoesNotFit { kind: BathKind, mordant: MordantNeed },
    #[error("{} is not one letter from A to Z", quoted(.word))]
    NotALetter { word: String },
    #[error("a second addition {letter}")]
    LetterTwice { letter: Letter },
    #[error("addition {letter} stands after {after}")]
    LetterOutOfOrder { letter: Letter, after: Letter },
    #[error("the addition is neither a substance nor a dyestuff")]
    WareMissing,
    #[error("the addition is both a substance and a dyestuff")]
    WareTwice,
    #[error("the addition says {count} times how much")]
    DoseTwice { count: usize },
    #[error("the addition does not say how much")]
    DoseMissing,
    #[error("parts of {of}, which is no earlier addition")]
    PartsOfLater { of: Letter },
    #[error("{} is never offered: {}", quoted(.word), .never.why())]
    NeverOffered { word: String, never: NeverOffered },
    #[error("{} on {}: alkali eats it", .substance.name(), .fibre.id())]
    AlkaliOnAnimalFibre { substance: Substance, fibre: Fibre },

    // Letters in steps.
    #[error("there is no addition {letter}")]
    LetterUnknown { letter: Letter },
    #[error("addition {letter} is never added")]
    NeverAdded { letter: Letter },
    #[error("addition {letter} is added a second time")]
    AddedTwice { letter: Letter },
    #[error("addition {letter}, {name}, is added without being dissolved")]
    AddedUndissolved { letter: Letter, name: &'static str },
    #[error("addition {letter} is dissolved a second time")]
    DissolvedTwice { letter: Letter },
    #[error("addition {letter} is dissolved when it is already in the bath")]
    DissolvedAfterAdded { letter: Letter },
    #[error("addition {letter} is strained out before it was added")]
    StrainedBeforeAdded { letter: Letter },
    #[error("addition {letter} is strained out a second time")]
    StrainedTwice { letter: Letter },

    // The order of steps.
    #[error("{} before the pot is filled", .act.id())]
    BeforeFill { act: ActKind },
    #[error("the pot is filled a second time")]
    FilledTwice,
    #[error("the goods enter before they are wetted out")]
    EnterBeforeWetOut,
    #[error("the goods are wetted out while they are in the bath")]
    WetOutInBath,
    #[error("the goods enter while they are in the bath")]
    EnteredTwice,
    #[error("the goods enter at up to {}, but the bath is at {}", rounded(.at_most), rounded(.bath))]
    EnteredTooHot { at_most: Temperature, bath: Temperature },
    #[error("the goods never enter the bath")]
    NeverEntered,
    #[error("the goods are lifted before they have entered")]
    LiftedBeforeEntered,
    #[error("the goods are lifted from a bath at {}; above {} it scalds, and the shock felts wool", rounded(.bath), rounded(.most))]
    LiftedHot { bath: Temperature, most: Temperature },
    #[error("{} while the goods are in the bath", .act.id())]
    StillInBath { act: ActKind },
    #[error("the goods are left in the bath at the end")]
    LeftInBath,
    #[error("a hold without a raise before it")]
    HoldWithoutRaise,
    #[error("the hold's floor, {}, is above the {} the bath was raised to", rounded(.floor), rounded(.raised))]
    FloorAboveRaise { floor: Temperature, raised: Temperature },
    #[error("the hold's ceiling, {}, is below the {} the bath was raised to", rounded(.ceiling), rounded(.raised))]
    CeilingBelowRaise {
        ceiling: Temperature,
        raised: Temperature,
    },
    #[error("the hold's floor, {}, is above its ceiling, {}", rounded(.floor), rounded(.ceiling))]
    FloorAboveCeiling {
        floor: Temperature,
        ceiling: Temperature,
    },
    #[error("the bath is raised to {}, but it is at {}", rounded(.to), rounded(.from))]
    RaisedDown { to: Temperature, from: Temperature },
    #[error("the bath is cooled to {}, but it is at {}", rounded(.to), rounded(.from))]
    CooledUp { to: Temperature, from: Temperature },
    #[error("{} after the goods are on the shelf", .act.id())]
    AfterShelve { act: ActKind },

    // A file that is read like a recipe and has rules of its own.
    #[error("{said}")]
    Told { said: String, remedy: String },

    // Must not happen; kept so that a slip of the reader is a refusal and never a recipe with a hole.
    #[error("refused without a reason, which is a fault of this program")]
    Unexplained,
}

impl Wrong {
    /// How the author mends it.
    #[must_use]
    pub fn remedy(&self) -> String {
        match self {
            Self::FileTooLarge { .. } => "split it into one recipe per file".into(),
            Self::NotToml { .. } => "mend this one first; the rest is read after it".into(),
            Self::HiddenCharacter { .. } => "delete it, and write what can be seen".into(),
            Self::UnknownKey { nearest, .. } => match nearest {
                Some(near) => format!("did you mean \"{near}\"?"),
                None => "leave it out, or see the recipe format for the keys".into(),
            },
            Self::KeyMissing { key, .. } => format!("add {key}"),
            Self::WrongType { wanted, .. } => format!("write {wanted}"),
            Self::Empty { .. } => "write something, or leave the key out if it may be".into(),
            Self::TooLong { most, .. } => format!("say it in {most} characters"),
            Self::TooMany { most, .. } => format!("keep it to {most}"),
            Self::NotKebab { .. } => "write it like madder-root".into(),
            Self::FormatUnknown { .. } => "write format = 1".into(),
            Self::ChoiceUnknown { choice, near, .. } => match near.as_slice() {
                [] => choice_remedy(*choice),
                [one] => format!("did you mean \"{one}\"?"),
                several => format!("did you mean one of {}?", several.join(", ")),
            },
            Self::NumberWithoutUnit { example, .. } | Self::NotAQuantity { example, .. } => {
                format!("write it in quotes with its unit, such as \"{example}\"")
            }
            Self::NotABathTemperature { .. } => "write one from 0 C to 100 C".into(),
            Self::NotAboveZero { .. } => "give an amount, or leave the whole thing out".into(),
            Self::PartsOutOfRange { .. } => "write a number such as parts = 2".into(),
            Self::RangeNotOfTwo { .. } => "write [low, high]".into(),
            Self::RangeUpsideDown { .. } => "write the lower end first".into(),
            Self::OutsideOwnRange { .. } => {
                "choose inside the range, or correct the range from its source".into()
            }
            Self::FigureWithoutSource { .. } => "add source = \"...\" naming a [[source]]".into(),
            Self::SourceUnknown { nearest, .. } => match nearest {
                Some(near) => format!("did you mean \"{}\"?", shown(near)),
                None => "add a [[source]] with this key".into(),
            },
            Self::SourceUnused { .. } => "name it at the figure it stands for, or take it out".into(),
            Self::SourceTwice { .. } => "give each source its own key".into(),
            Self::RinsesOutOfRange { .. } => "write a number such as times = 2".into(),
            Self::FibreTwice { .. } => "list each fibre once".into(),
            Self::MordantDoesNotFit { kind, .. } => match kind {
                BathKind::Scour | BathKind::Mordant | BathKind::Tannin | BathKind::Fixing => {
                    "write mordant = \"not-a-dye\"".into()
                }
                BathKind::Dye | BathKind::Vat => "write mordant = \"mordanted\" or \"none\"".into(),
                BathKind::AfterBath => "write what the goods need".into(),
            },
            Self::NotALetter { .. } => "write one capital letter, such as \"A\"".into(),
            Self::LetterTwice { .. } => "give each addition its own letter".into(),
            Self::LetterOutOfOrder { .. } => "list the additions from A to Z".into(),
            Self::WareMissing => "add substance = \"...\" or dyestuff = \"...\"".into(),
            Self::WareTwice => "keep one of the two".into(),
            Self::DoseTwice { .. } => "keep one of wof, per_litre and parts".into(),
            Self::DoseMissing => "add wof, per_litre or parts".into(),
            Self::PartsOfLater { .. } => "count parts of an addition that stands before this one".into(),
            Self::NeverOffered { never, .. } => never.instead().into(),
            Self::AlkaliOnAnimalFibre { .. } => "use a neutral soap, or list plant fibres only".into(),
            Self::LetterUnknown { .. } => "list it as an [[addition]], or take the letter out".into(),
            Self::NeverAdded { letter } => format!("add a step do = \"add\", letters = [\"{letter}\"]"),
            Self::AddedTwice { .. } => "give the second lot a letter of its own".into(),
            Self::AddedUndissolved { letter, .. } => {
                format!("add a step do = \"dissolve\", letters = [\"{letter}\"] before it")
            }
            Self::DissolvedTwice { .. } => "dissolve it once".into(),
            Self::DissolvedAfterAdded { .. } => "dissolve it before it is added".into(),
            Self::StrainedBeforeAdded { .. } => "strain it out after it was added".into(),
            Self::StrainedTwice { .. } => "strain it out once".into(),
            Self::BeforeFill { .. } => "put do = \"fill\" before it".into(),
            Self::FilledTwice => "write a second bath as a second recipe".into(),
            Self::EnterBeforeWetOut => "put do = \"wet-out\" before it".into(),
            Self::WetOutInBath => "wet out before the goods enter".into(),
            Self::EnteredTwice => "put do = \"lift\" between the two".into(),
            Self::EnteredTooHot { .. } => {
                "put do = \"cool\" before it, or raise after the goods are in".into()
            }
            Self::NeverEntered => "add a step do = \"enter\"".into(),
            Self::LiftedBeforeEntered => "put do = \"enter\" before it".into(),
            Self::LiftedHot { most, .. } => {
                format!("put do = \"cool\" to {} C or less before it", most.celsius())
            }
            Self::StillInBath { .. } => "put do = \"lift\" before it".into(),
            Self::LeftInBath => "add a step do = \"lift\"".into(),
            Self::HoldWithoutRaise => "put do = \"raise\" before it, after any cool".into(),
            Self::FloorAboveRaise { .. } => "raise at least to the floor, or lower the floor".into(),
            Self::CeilingBelowRaise { .. } => "raise no higher than the ceiling, or lift the ceiling".into(),
            Self::FloorAboveCeiling { .. } => "put the floor below the ceiling".into(),
            Self::RaisedDown { .. } => "use do = \"cool\" to go down".into(),
            Self::CooledUp { .. } => "use do = \"raise\" to go up".into(),
            Self::AfterShelve { .. } => "put do = \"shelve\" last".into(),
            Self::Told { remedy, .. } => remedy.clone(),
            Self::Unexplained => "please tell its makers, and send the file".into(),
        }
    }
}

fn choice_remedy(choice: Choice) -> String {
    match choice {
        Choice::Bath => "use scour, mordant, tannin, fixing, dye, after-bath or vat".into(),
        Choice::Step => "see the recipe format for the steps".into(),
        Choice::Fibre => {
            let ids: Vec<&str> = Fibre::ALL.into_iter().map(Fibre::id).collect();
            format!("use one of {}", ids.join(", "))
        }
        Choice::Substance => "see the recipe format for the substances; a plant is a dyestuff".into(),
        Choice::Form => "use fresh, dried, ground or extract".into(),
        Choice::Mordant => "use mordanted, none or not-a-dye".into(),
        Choice::Strength => "use published, partial, practice, memory or arithmetic".into(),
    }
}

fn hidden_words(kind: Hidden) -> &'static str {
    match kind {
        Hidden::Control => "a control character",
        Hidden::Direction => "a character that turns the direction of writing",
        Hidden::ZeroWidth => "a character that can't be seen",
    }
}

/// A temperature to a hundredth, since one given in F is seldom round in C.
fn rounded(temperature: &Temperature) -> String {
    format!("{} C", (temperature.celsius() * 100.0).round() / 100.0)
}

fn quoted(word: &str) -> String {
    format!("\"{}\"", shown(word))
}
