//! What can be wrong with a work list for given goods: what, why, the remedy, how grave, and how well it is founded.

use std::fmt;

use chrono::NaiveDate;

use crate::craft::fibre::Fibre;
use crate::craft::substance::Substance;
use crate::recipe::model::Strength;
use crate::sheet::SheetRefusal;

/// How grave a finding is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Severity {
    /// To be said first.
    Warn,
    /// It can't be done so.
    Refuse,
}

/// On what a finding rests.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Mark {
    /// How well it is founded.
    pub strength: Strength,
    /// The source in words.
    pub text: String,
}

/// Something found in a work list.
#[derive(Debug, Clone, PartialEq)]
pub struct Finding {
    /// Which bath, counted from 1.
    pub number: usize,
    /// What it is.
    pub trouble: Trouble,
}

/// What it is.
#[derive(Debug, Clone, PartialEq)]
#[expect(missing_docs, reason = "`what` says what the fields are")]
pub enum Trouble {
    NoSuchRecipe {
        id: String,
        nearest: Option<String>,
    },
    FibreNotFor {
        recipe: String,
        fibre: Fibre,
        fits: Vec<Fibre>,
    },
    AlkaliOnAnimalFibre {
        substance: Substance,
        fibre: Fibre,
    },
    NotScoured {
        in_the_grease: bool,
    },
    ScouredLate,
    NotMordanted {
        recipe: String,
    },
    MordantedAfter {
        recipe: String,
    },
    NoTannin,
    NotFixed,
    IronBefore {
        pot: u8,
        iron: String,
    },
    IronPot,
    KeptTooLong {
        since: NaiveDate,
        days: i64,
        may_be_tender: bool,
    },
    NotWaited {
        until: NaiveDate,
        source: String,
        strength: Strength,
    },
    WaitedTooLong {
        since: NaiveDate,
        source: String,
        strength: Strength,
    },
    Stopped {
        name: String,
        on: NaiveDate,
    },
    WeighAgain {
        fibre: Fibre,
    },
    Sheet(Box<SheetRefusal>),
}

const MAIRET_1938: &str = "Ethel M. Mairet, Vegetable Dyes, Faber & Faber 1938";

impl Trouble {
    /// How grave it is.
    #[must_use]
    pub const fn severity(&self) -> Severity {
        match self {
            Self::NoSuchRecipe { .. }
            | Self::FibreNotFor { .. }
            | Self::AlkaliOnAnimalFibre { .. }
            | Self::NotScoured { in_the_grease: true }
            | Self::NotMordanted { .. }
            | Self::Sheet(_) => Severity::Refuse,
            Self::NotScoured { in_the_grease: false }
            | Self::ScouredLate
            | Self::MordantedAfter { .. }
            | Self::NoTannin
            | Self::NotFixed
            | Self::IronBefore { .. }
            | Self::IronPot
            | Self::KeptTooLong { .. }
            | Self::NotWaited { .. }
            | Self::WaitedTooLong { .. }
            | Self::Stopped { .. }
            | Self::WeighAgain { .. } => Severity::Warn,
        }
    }

    /// Why it matters.
    #[must_use]
    pub fn why(&self) -> &'static str {
        match self {
            Self::NoSuchRecipe { .. } => "without its recipe a bath can't be computed",
            Self::FibreNotFor { .. } => "its figures and its heat are meant for other fibres",
            Self::AlkaliOnAnimalFibre { .. } => "strong alkali eats wool, hair and silk",
            Self::NotScoured { .. } => {
                "grease and size keep mordant and dye out; the colour is uneven and rubs off"
            }
            Self::ScouredLate => "soap and heat can take mordant and loose dye out again",
            Self::NotMordanted { .. } => "this dye holds only on mordanted goods",
            Self::MordantedAfter { .. } => {
                "the recipe is written for goods mordanted before; afterwards gives another and often paler colour"
            }
            Self::NoTannin => "plant fibre holds little alum by itself; tannin holds it",
            Self::NotFixed => "what the fibre doesn't hold washes out into the dye bath",
            Self::IronBefore { .. } | Self::IronPot => "a trace of iron dulls reds, yellows and oranges",
            Self::KeptTooLong { .. } => {
                "alum left in the fibre for months may tender it, and mordants get forgotten"
            }
            Self::NotWaited { .. } => "the mordant is still taking",
            Self::WaitedTooLong { .. } => "damp goods mildew, and dried edges dye unevenly",
            Self::Stopped { .. } => "what a stopped bath did to the goods isn't known",
            Self::WeighAgain { .. } => "grease counted as fibre makes every addition too strong",
            Self::Sheet(_) => "the sheet of this bath is refused",
        }
    }

    /// What would do.
    #[must_use]
    pub fn remedy(&self) -> String {
        match self {
            Self::NoSuchRecipe { nearest, .. } => match nearest {
                Some(near) => format!("did you mean {near}?"),
                None => "write one of those that `potside recipes` lists".into(),
            },
            Self::FibreNotFor { fits, .. } => {
                let fits: Vec<&str> = fits.iter().map(|fibre| fibre.name()).collect();
                format!("take a recipe for it, or goods of {}", fits.join(", "))
            }
            Self::AlkaliOnAnimalFibre { .. } => "use neutral soap on it, or goods of plant fibre".into(),
            Self::NotScoured { .. } => {
                "put a scour in front; or, if it was scoured by its maker, say so: `potside shelf came LOT scoured`".into()
            }
            Self::ScouredLate => "put the scour in front".into(),
            Self::NotMordanted { .. } => "put a mordant bath before it, or take a recipe that needs none".into(),
            Self::MordantedAfter { .. } => "put the mordant before it, or dye a sample first".into(),
            Self::NoTannin => "put a tannin bath before the alum, or mordant with an aluminium acetate".into(),
            Self::NotFixed => "put a fixing bath of chalk or bran between mordant and dye".into(),
            Self::IronBefore { .. } => "give the iron its own pot, or put its bath last and scour the pot".into(),
            Self::IronPot => "take a pot of steel, enamel or glass".into(),
            Self::KeptTooLong { may_be_tender: true, .. } => {
                "pull at a thread first; mordant anew if it holds, and dye a sample".into()
            }
            Self::KeptTooLong { .. } => "dye it next, and a sample of it first".into(),
            Self::NotWaited { until, .. } => format!("leave it until {until}"),
            Self::WaitedTooLong { .. } => "look for mildew and dry edges; rinse well and dye a sample first".into(),
            Self::Stopped { .. } => "see its record in the daybook, and dye a sample first".into(),
            Self::WeighAgain { .. } => "weigh it dry, and say so: `potside shelf weigh LOT WEIGHT`".into(),
            Self::Sheet(_) => "see above".into(),
        }
    }

    /// On what it rests; nothing where it is a matter of what is there.
    #[must_use]
    pub fn mark(&self) -> Option<Mark> {
        let mark = |strength, text: &str| {
            Some(Mark {
                strength,
                text: text.to_owned(),
            })
        };
        let mairet = |what: &str| mark(Strength::Published, &format!("{MAIRET_1938}, {what}"));
        match self {
            Self::NoSuchRecipe { .. } | Self::FibreNotFor { .. } | Self::Stopped { .. } | Self::Sheet(_) => {
                None
            }
            Self::AlkaliOnAnimalFibre { .. } => mairet("on washing wool"),
            Self::NotScoured { .. } => mairet("on blue and madder that rub off badly scoured wool"),
            Self::ScouredLate => mark(Strength::Memory, "from memory, not looked up"),
            Self::NotMordanted { .. } | Self::MordantedAfter { .. } => {
                mairet("on mordants: before, after, with the dye, or before and after")
            }
            Self::NoTannin => mairet("on mordants for cotton: often tannin first"),
            Self::NotFixed => mairet("on mordants for cotton: passed through a weak alkali"),
            Self::IronBefore { .. } => mairet("on iron: a pot of its own"),
            Self::IronPot => mark(Strength::Practice, "common practice, no source"),
            Self::KeptTooLong { .. } => mark(
                Strength::Practice,
                "common practice, no source: use mordanted goods within about a month",
            ),
            Self::NotWaited { source, strength, .. } | Self::WaitedTooLong { source, strength, .. } => {
                mark(*strength, source)
            }
            Self::WeighAgain { .. } => mark(
                Strength::Published,
                "Ethel M. Mairet, A Book on Vegetable Dyes, 1916: about a fifth of raw wool washes out",
            ),
        }
    }
}

impl fmt::Display for Trouble {
    /// What is wrong, in one line.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoSuchRecipe { id, .. } => write!(f, "no recipe is called {id}"),
            Self::FibreNotFor { recipe, fibre, .. } => write!(f, "{recipe} is not for {}", fibre.name()),
            Self::AlkaliOnAnimalFibre { substance, fibre } => {
                write!(f, "{} on {}", substance.name(), fibre.name())
            }
            Self::NotScoured { in_the_grease: true } => f.write_str("the goods are in the grease"),
            Self::NotScoured { in_the_grease: false } => f.write_str("the goods haven't been scoured"),
            Self::ScouredLate => f.write_str("the scour comes after mordant or dye"),
            Self::NotMordanted { recipe } => write!(f, "{recipe} comes on goods without mordant"),
            Self::MordantedAfter { recipe } => write!(f, "{recipe} comes before its mordant"),
            Self::NoTannin => f.write_str("alum on plant fibre without tannin before it"),
            Self::NotFixed => f.write_str("alum on plant fibre isn't fixed before the dye"),
            Self::IronBefore { pot, iron } => write!(f, "pot {pot} has had iron before: {iron}"),
            Self::IronPot => f.write_str("a bright bath in a bare iron pot"),
            Self::KeptTooLong { since, days, .. } => {
                write!(f, "mordanted on {since}, {days} days ago, and not dyed")
            }
            Self::NotWaited { until, .. } => write!(f, "the goods should wait until {until}"),
            Self::WaitedTooLong { since, .. } => {
                write!(f, "the goods have waited since {since}, longer than they should")
            }
            Self::Stopped { name, on } => write!(f, "{name} was stopped on {on}"),
            Self::WeighAgain { fibre } => {
                write!(
                    f,
                    "this {} was weighed in the grease and scoured since",
                    fibre.name()
                )
            }
            Self::Sheet(refusal) => write!(f, "{refusal}"),
        }
    }
}
