//! A recipe as the sheet reads it: checked, typed, every figure with its source.

use crate::craft::fibre::Fibre;
use crate::craft::quantity::{Concentration, LiquorRatio, PercentWof, Ramp, Temperature};
use crate::craft::substance::Substance;
use crate::craft::time::Span;

/// What a bath is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
#[expect(missing_docs, reason = "the trade's own words")]
pub enum BathKind {
    Scour,
    Mordant,
    Tannin,
    Fixing,
    Dye,
    AfterBath,
    Vat,
}

/// How well a figure is founded.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Strength {
    /// A published work whose passage was read.
    Published,
    /// A published work of which only a part, a table or an abstract was read.
    Partial,
    /// A fact of the trade: *common practice, no source*.
    Practice,
    /// *From memory*, not looked up.
    Memory,
    /// Follows from other figures by arithmetic.
    Arithmetic,
}

/// Where a figure comes from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Source {
    /// The key that figures name it by.
    pub key: String,
    /// Author, title, edition, place; or what kind of practice.
    pub text: String,
    /// How well founded.
    pub strength: Strength,
}

/// A number of a recipe: the point chosen, the author's own range, and the source.
#[derive(Debug, Clone, PartialEq)]
pub struct Figure<T> {
    /// The point this recipe uses.
    pub chosen: T,
    /// The range its source gives, low to high.
    pub range: Option<(T, T)>,
    /// Index into [`Recipe::sources`]; checked when the recipe was read.
    pub source_index: usize,
}

/// A letter that names an addition on the sheet and on the curve: `A`, `B` and so on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Letter(pub char);

/// Fresh, dried, powdered and extracted dyestuff are different things.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
#[expect(missing_docs, reason = "the trade's own words")]
pub enum Form {
    Fresh,
    Dried,
    Ground,
    Extract,
}

/// What is added.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Ware {
    /// A bought substance of known identity.
    Substance(Substance),
    /// A plant, an insect, or what was made of it.
    Dyestuff {
        /// Kebab-case id, such as `madder-root`.
        id: String,
        /// The name a dyer reads, such as `madder root`.
        name: String,
        /// In which form the figure counts.
        form: Form,
    },
}

/// How much of a ware, and of what it is counted.
#[derive(Debug, Clone, PartialEq)]
pub enum Dose {
    /// Percent of the dry weight of the goods.
    Wof(Figure<PercentWof>),
    /// Grams per litre of bath.
    PerLitre(Figure<Concentration>),
    /// So many parts to one part of another addition.
    Parts {
        /// The parts of this one for each part of `of`.
        parts: Figure<f64>,
        /// The addition that is one part.
        of: Letter,
    },
}

/// One thing weighed into a bath.
#[derive(Debug, Clone, PartialEq)]
pub struct Addition {
    /// Its letter.
    pub letter: Letter,
    /// What it is.
    pub ware: Ware,
    /// How much.
    pub dose: Dose,
    /// In a bag that can be lifted out.
    pub bagged: bool,
}

/// One step of a recipe. Weighing is not listed: whatever is added is weighed first.
#[derive(Debug, Clone, PartialEq)]
pub struct RecipeStep {
    /// What is done.
    pub act: Act,
    /// One line of how, for the dyer.
    pub how: Option<String>,
    /// One line of caution, for the dyer.
    pub caution: Option<String>,
}

/// The acts a recipe can ask for.
#[derive(Debug, Clone, PartialEq)]
#[expect(missing_docs, reason = "each variant says what its fields are")]
pub enum Act {
    /// Put the goods to soak; they may enter once soaked for the span.
    WetOut { least: Figure<Span> },
    /// Fill the pot with the computed water.
    Fill,
    /// Dissolve additions fully, in a cup of the hot bath, before they go in.
    Dissolve { letters: Vec<Letter> },
    /// Put additions into the bath.
    Add { letters: Vec<Letter> },
    /// Take a bag out, or strain the dyestuff from the bath.
    Strain { letters: Vec<Letter> },
    /// Put the wetted goods into the bath, which is not hotter than this.
    Enter { at_most: Figure<Temperature> },
    /// Heat the bath up to a temperature, no faster than the ramp.
    Raise {
        to: Figure<Temperature>,
        ramp: Option<Figure<Ramp>>,
    },
    /// Keep it there. `floor` is the least temperature that counts as held, `ceiling` what must not be passed.
    Hold {
        span: Figure<Span>,
        floor: Figure<Temperature>,
        ceiling: Figure<Temperature>,
        turn_every: Option<Figure<Span>>,
    },
    /// Let the bath cool, heat off.
    Cool { to: Figure<Temperature>, lid_on: bool },
    /// Take the goods out.
    Lift,
    /// Look for a sign, the first time after a span; while it isn't there, look again and again.
    Look {
        sign: String,
        after: Figure<Span>,
        again: Figure<Span>,
    },
    /// Goods under the liquor for a short span and out into the air, so many times. The bath is not hotter than this.
    Dip {
        times: u32,
        at_most: Figure<Temperature>,
        under: Figure<Span>,
        air: Figure<Span>,
    },
    /// Press the liquor out, without wringing.
    Squeeze,
    /// Rinse; `until_clear` when the count is left to the eye.
    Rinse { times: u32, until_clear: bool },
    /// Hang in the air.
    Air { span: Figure<Span> },
    /// Leave damp or steeping.
    Rest { span: Figure<Span> },
    /// Hang to dry.
    Dry,
    /// Put away with a tag.
    Shelve,
}

/// The used liquor again: what custom gets out of it, and what it adds.
#[derive(Debug, Clone, PartialEq)]
pub struct Again {
    /// How many further lots of goods the liquor dyes, each paler; 1 to 9.
    pub dips: Figure<u32>,
    /// What part of the first dose is added for each, above 0 and at most 1; `None` when nothing is.
    pub add: Option<Figure<f64>>,
    /// One line of how, for the dyer.
    pub how: Option<String>,
}

/// What a dye bath needs to have gone before.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MordantNeed {
    /// Goods must be mordanted.
    Mordanted,
    /// Works without, though a mordant makes it faster.
    None,
    /// This bath is itself the preparation.
    NotADye,
}

/// Whether a recipe may be begun.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Offered {
    /// By everyone.
    Freely,
    /// Only where the dyer has turned hazardous metals on.
    WhenAsked,
    /// By nobody: it is here to be read.
    ReferenceOnly,
}

/// A recipe: author, edition and number make it this one and no other.
#[derive(Debug, Clone, PartialEq)]
pub struct Recipe {
    /// Kebab-case id.
    pub id: String,
    /// The name on the screen.
    pub name: String,
    /// What it is for.
    pub kind: BathKind,
    /// One or two sentences for the dyer.
    pub about: String,
    /// The fibres it is for.
    pub fibres: Vec<Fibre>,
    /// Whether the goods must be mordanted first.
    pub mordant: MordantNeed,
    /// Whether it may be begun.
    pub offered: Offered,
    /// Bath per dry goods.
    pub liquor: Figure<LiquorRatio>,
    /// What is weighed into it, in letter order.
    pub additions: Vec<Addition>,
    /// What is done, in order.
    pub steps: Vec<RecipeStep>,
    /// What the used liquor still gives, where that is known of it.
    pub again: Option<Again>,
    /// Cautions of this recipe beyond those of its substances and acts.
    pub cautions: Vec<String>,
    /// Where its figures come from.
    pub sources: Vec<Source>,
}

impl Recipe {
    /// The source of a figure.
    #[must_use]
    pub fn source_of<T>(&self, figure: &Figure<T>) -> Option<&Source> {
        self.sources.get(figure.source_index)
    }
}
