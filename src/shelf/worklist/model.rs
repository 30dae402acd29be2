//! A work list as it is checked and computed.

use crate::craft::salts::Element;
use crate::craft::time::Span;
use crate::recipe::model::{BathKind, Recipe, Strength, Ware};
use crate::shelf::bath::ware_brings;

/// Baths in order for the same goods.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WorkList {
    /// Kebab-case id.
    pub id: String,
    /// The name a dyer reads.
    pub name: String,
    /// One or two sentences for the dyer.
    pub about: String,
    /// The baths, in order; never empty.
    pub baths: Vec<ListedBath>,
}

/// One bath of a list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ListedBath {
    /// Id of its recipe.
    pub recipe: String,
    /// In which pot, where that matters: an iron bath has its own.
    pub pot: Option<u8>,
    /// What the goods do before the next bath.
    pub then: Option<Wait>,
}

/// A wait between two baths.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Wait {
    /// How the goods wait.
    pub how: WaitKind,
    /// At least so long.
    pub least: Span,
    /// At most so long, where there is a most.
    pub most: Option<Span>,
    /// Where the figures come from.
    pub source: String,
    /// How well they are founded.
    pub strength: Strength,
}

/// How goods wait.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum WaitKind {
    /// Wrung, not washed, damp in a bag, cool and dark.
    RestDamp,
    /// Dried, then left for the mordant to take.
    Age,
    /// Hung until dry.
    Dry,
}

/// In which order goods meet mordant and dye: four ways, as Mairet, Vegetable Dyes, 1938, names them; and without.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Order {
    /// Mordant, then dye.
    PreMordant,
    /// Dye, then mordant.
    PostMordant,
    /// Both in one bath.
    OneBath,
    /// Mordant, dye, mordant again.
    MordantDyeMordant,
    /// Dye alone.
    DyeAlone,
    /// No dye in it: goods are got ready.
    NoDye,
}

impl WaitKind {
    /// Every kind, in the order shown.
    pub const ALL: [Self; 3] = [Self::RestDamp, Self::Age, Self::Dry];

    /// The word in a list's file.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::RestDamp => "rest-damp",
            Self::Age => "age",
            Self::Dry => "dry",
        }
    }

    /// The kind of a word.
    #[must_use]
    pub fn from_id(id: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|kind| kind.id() == id)
    }
}

impl Order {
    /// Every order.
    pub const ALL: [Self; 6] = [
        Self::PreMordant,
        Self::PostMordant,
        Self::OneBath,
        Self::MordantDyeMordant,
        Self::DyeAlone,
        Self::NoDye,
    ];

    /// The word of it, for outputs.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::PreMordant => "pre-mordant",
            Self::PostMordant => "post-mordant",
            Self::OneBath => "one-bath",
            Self::MordantDyeMordant => "mordant-dye-mordant",
            Self::DyeAlone => "dye-alone",
            Self::NoDye => "no-dye",
        }
    }
}

/// Whether a recipe brings a metal to the goods.
pub(super) fn recipe_brings(recipe: &Recipe, metal: Element) -> bool {
    recipe.additions.iter().any(|addition| match &addition.ware {
        Ware::Substance(substance) => ware_brings(substance.id(), metal),
        Ware::Dyestuff { .. } => false,
    })
}

/// Whether it is a dye bath or a vat.
pub(super) const fn is_dye(kind: BathKind) -> bool {
    match kind {
        BathKind::Dye | BathKind::Vat => true,
        BathKind::Scour | BathKind::Mordant | BathKind::Tannin | BathKind::Fixing | BathKind::AfterBath => {
            false
        }
    }
}

/// In which order recipes bring mordant and dye.
#[must_use]
pub fn order_of<'a>(recipes: impl IntoIterator<Item = &'a Recipe>) -> Order {
    let (mut before, mut dyed, mut after, mut together) = (false, false, false, false);
    for recipe in recipes {
        if is_dye(recipe.kind) {
            dyed = true;
            together |= [Element::Al, Element::Fe, Element::Cu, Element::Sn]
                .into_iter()
                .any(|metal| recipe_brings(recipe, metal));
        } else if recipe.kind == BathKind::Mordant {
            before |= !dyed;
            after |= dyed;
        }
    }
    match (dyed, before, after) {
        (false, _, _) => Order::NoDye,
        (true, true, true) => Order::MordantDyeMordant,
        (true, true, false) => Order::PreMordant,
        (true, false, true) => Order::PostMordant,
        (true, false, false) if together => Order::OneBath,
        (true, false, false) => Order::DyeAlone,
    }
}
