//! What can be wrong with a work list for given goods: what, why, the remedy, how grave, and how well it is founded.

use std::fmt;

use chrono::NaiveDate;

use crate::craft::fibre::Fibre;
use crate::craft::substance::Substance;
use crate::msg;
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
            Self::NoSuchRecipe { .. } => msg!("without its recipe a bath can't be computed"),
            Self::FibreNotFor { .. } => msg!("its figures and its heat are meant for other fibres"),
            Self::AlkaliOnAnimalFibre { .. } => msg!("strong alkali eats wool, hair and silk"),
            Self::NotScoured { .. } => {
                msg!("grease and size keep mordant and dye out; the colour is uneven and rubs off")
            }
            Self::ScouredLate => msg!("soap and heat can take mordant and loose dye out again"),
            Self::NotMordanted { .. } => msg!("this dye holds only on mordanted goods"),
            Self::MordantedAfter { .. } => {
                msg!(
                    "the recipe is written for goods mordanted before; afterwards gives another and often paler colour"
                )
            }
            Self::NoTannin => msg!("plant fibre holds little alum by itself; tannin holds it"),
            Self::NotFixed => msg!("what the fibre doesn't hold washes out into the dye bath"),
            Self::IronBefore { .. } | Self::IronPot => {
                msg!("a trace of iron dulls reds, yellows and oranges")
            }
            Self::KeptTooLong { .. } => {
                msg!("alum left in the fibre for months may tender it, and mordants get forgotten")
            }
            Self::NotWaited { .. } => msg!("the mordant is still taking"),
            Self::WaitedTooLong { .. } => msg!("damp goods mildew, and dried edges dye unevenly"),
            Self::Stopped { .. } => msg!("what a stopped bath did to the goods isn't known"),
            Self::WeighAgain { .. } => msg!("grease counted as fibre makes every addition too strong"),
            Self::Sheet(_) => msg!("the sheet of this bath is refused"),
        }
    }

    /// What would do.
    #[must_use]
    pub fn remedy(&self) -> String {
        match self {
            Self::NoSuchRecipe { nearest, .. } => match nearest {
                Some(near) => msg!("did you mean {near}?", near = near),
                None => msg!("write one that the book has; `potside recipes` lists them").into(),
            },
            Self::FibreNotFor { fits, .. } => {
                let fits: Vec<&str> = fits.iter().map(|fibre| fibre.name()).collect();
                msg!(
                    "take a recipe for it, or goods of {fibres}",
                    fibres = fits.join(", ")
                )
            }
            Self::AlkaliOnAnimalFibre { .. } => msg!("use neutral soap on it, or goods of plant fibre").into(),
            Self::NotScoured { .. } => {
                msg!("put a scour in front; that its maker scoured it can be said at the terminal alone: `potside shelf came LOT scoured`").into()
            }
            Self::ScouredLate => msg!("put the scour in front").into(),
            Self::NotMordanted { .. } => msg!("put a mordant bath before it, or take a recipe that needs none").into(),
            Self::MordantedAfter { .. } => msg!("put the mordant before it, or dye a sample first").into(),
            Self::NoTannin => msg!("put a tannin bath before the alum, or mordant with an aluminium acetate").into(),
            Self::NotFixed => msg!("put a fixing bath of chalk or bran between mordant and dye").into(),
            Self::IronBefore { .. } => msg!("give the iron its own pot, or put its bath last and scour the pot").into(),
            Self::IronPot => msg!("take a pot of steel, enamel or glass").into(),
            Self::KeptTooLong { may_be_tender: true, .. } => {
                msg!("pull at a thread first; mordant anew if it holds, and dye a sample").into()
            }
            Self::KeptTooLong { .. } => msg!("dye it next, and a sample of it first").into(),
            Self::NotWaited { until, .. } => msg!("leave it until {day}", day = until),
            Self::WaitedTooLong { .. } => msg!("look for mildew and dry edges; rinse well and dye a sample first").into(),
            Self::Stopped { .. } => msg!("see its record in the daybook, and dye a sample first").into(),
            Self::WeighAgain { .. } => msg!("weigh it again, dry, on its page, or at the terminal: `potside shelf weigh LOT WEIGHT`").into(),
            Self::Sheet(_) => msg!("see above").into(),
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
        let mairet = |what: &str| {
            mark(
                Strength::Published,
                &msg!(
                    "Ethel M. Mairet, Vegetable Dyes, Faber & Faber 1938, {place}",
                    place = what
                ),
            )
        };
        match self {
            Self::NoSuchRecipe { .. } | Self::FibreNotFor { .. } | Self::Stopped { .. } | Self::Sheet(_) => {
                None
            }
            Self::AlkaliOnAnimalFibre { .. } => mairet(msg!("on washing wool")),
            Self::NotScoured { .. } => mairet(msg!("on blue and madder that rub off badly scoured wool")),
            Self::ScouredLate => mark(Strength::Memory, msg!("from memory, not looked up")),
            Self::NotMordanted { .. } | Self::MordantedAfter { .. } => mairet(msg!(
                "on mordants: before, after, with the dye, or before and after"
            )),
            Self::NoTannin => mairet(msg!("on mordants for cotton: often tannin first")),
            Self::NotFixed => mairet(msg!("on mordants for cotton: passed through a weak alkali")),
            Self::IronBefore { .. } => mairet(msg!("on iron: a pot of its own")),
            Self::IronPot => mark(Strength::Practice, msg!("common practice, no source")),
            Self::KeptTooLong { .. } => mark(
                Strength::Practice,
                msg!("common practice, no source: use mordanted goods within about a month"),
            ),
            Self::NotWaited { source, strength, .. } | Self::WaitedTooLong { source, strength, .. } => {
                mark(*strength, source)
            }
            Self::WeighAgain { .. } => mark(
                Strength::Published,
                msg!("Ethel M. Mairet, A Book on Vegetable Dyes, 1916: about a fifth of raw wool washes out"),
            ),
        }
    }
}

impl fmt::Display for Trouble {
    /// What is wrong, in one line.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoSuchRecipe { id, .. } => f.write_str(&msg!("no recipe is called {id}", id = id)),
            Self::FibreNotFor { recipe, fibre, .. } => f.write_str(&msg!(
                "{recipe} is not for {fibre}",
                recipe = recipe,
                fibre = fibre.name()
            )),
            Self::AlkaliOnAnimalFibre { substance, fibre } => {
                write!(f, "{} on {}", substance.name(), fibre.name())
            }
            Self::NotScoured { in_the_grease: true } => f.write_str(msg!("the goods are in the grease")),
            Self::NotScoured { in_the_grease: false } => f.write_str(msg!("the goods haven't been scoured")),
            Self::ScouredLate => f.write_str(msg!("the scour comes after mordant or dye")),
            Self::NotMordanted { recipe } => {
                f.write_str(&msg!("{recipe} comes on goods without mordant", recipe = recipe))
            }
            Self::MordantedAfter { recipe } => {
                f.write_str(&msg!("{recipe} comes before its mordant", recipe = recipe))
            }
            Self::NoTannin => f.write_str(msg!("alum on plant fibre without tannin before it")),
            Self::NotFixed => f.write_str(msg!("alum on plant fibre isn't fixed before the dye")),
            Self::IronBefore { pot, iron } => f.write_str(&msg!(
                "pot {pot} has had iron before: {recipe}",
                pot = pot,
                recipe = iron
            )),
            Self::IronPot => f.write_str(msg!("a bright bath in a bare iron pot")),
            Self::KeptTooLong { since, days, .. } => f.write_str(&msg!(
                "mordanted on {since}, {days} days ago, and not dyed",
                since = since,
                days = days
            )),
            Self::NotWaited { until, .. } => {
                f.write_str(&msg!("the goods should wait until {day}", day = until))
            }
            Self::WaitedTooLong { since, .. } => f.write_str(&msg!(
                "the goods have waited since {since}, longer than they should",
                since = since
            )),
            Self::Stopped { name, on } => {
                f.write_str(&msg!("{name} was stopped on {on}", name = name, on = on))
            }
            Self::WeighAgain { fibre } => f.write_str(&msg!(
                "this {fibre} was weighed in the grease and scoured since",
                fibre = fibre.name()
            )),
            Self::Sheet(refusal) => write!(f, "{refusal}"),
        }
    }
}
