//! The recipe book: kinds first, then dyestuffs or recipes, then one recipe to read and to take.

mod alphabet;
mod figures;
mod leaf;
mod lists;
mod steps;

pub(super) use alphabet::{capital, filed};
pub(super) use figures::sourced;
pub(super) use leaf::form_beside;

use std::sync::Arc;

use crate::craft::fibre::Fibre;
use crate::recipe::model::{BathKind, Offered, Recipe, Ware};
use crate::view::locale::Locale;
use crate::view::screen::Screen;

/// A page of the book.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum BookPage {
    /// The kinds of bath.
    Kinds,
    /// The recipes of a kind; of dyes their dyestuffs.
    Kind(BathKind),
    /// The dyes of a dyestuff, by its id; empty for those without one.
    Dyestuff(String),
    /// The letters that names begin with.
    Letters,
    /// The recipes whose names begin so.
    Letter(char),
    /// One recipe, by its id.
    Recipe(String),
}

/// Who reads the book: somebody with goods in hand, or just somebody.
#[derive(Debug, Clone, Copy)]
pub(super) struct Reader<'a> {
    /// The whole book.
    pub(super) recipes: &'a [Arc<Recipe>],
    /// The fibre of the goods in hand.
    pub(super) goods: Option<Fibre>,
    /// The goods in words, or nothing.
    pub(super) note: &'a str,
    /// Whether recipes with copper and tin are on.
    pub(super) hazardous_metals: bool,
    /// How they are spoken to.
    pub(super) locale: Locale,
    /// What speaks against a recipe for the lot in hand.
    pub(super) findings: &'a [crate::shelf::worklist::Finding],
}

impl Reader<'_> {
    /// Whether a recipe is for the goods in hand; every one is when there are none.
    fn fits(&self, recipe: &Recipe) -> bool {
        self.goods.is_none_or(|fibre| recipe.fibres.contains(&fibre))
    }

    /// Whether a recipe may be begun here.
    fn may_begin(&self, recipe: &Recipe) -> bool {
        match recipe.offered {
            Offered::Freely => true,
            Offered::WhenAsked => self.hazardous_metals,
            Offered::ReferenceOnly => false,
        }
    }

    /// The recipe of an id.
    pub(super) fn recipe(&self, id: &str) -> Option<&Arc<Recipe>> {
        self.recipes.iter().find(|recipe| recipe.id == id)
    }
}

impl BookPage {
    /// The page as a screen; `None` for a recipe that isn't there.
    pub(super) fn screen(&self, reader: Reader<'_>) -> Option<Screen> {
        let list = match self {
            Self::Kinds => lists::kinds(reader),
            Self::Kind(BathKind::Dye) => lists::dyestuffs(reader),
            Self::Kind(kind) => {
                let title = lists::kind_title(*kind, reader.locale);
                lists::recipes(reader, &title, |recipe| recipe.kind == *kind)
            }
            Self::Dyestuff(id) => lists::of_dyestuff(reader, id),
            Self::Letters => lists::letters(reader),
            Self::Letter(letter) => lists::recipes(reader, &letter.to_string(), |recipe| {
                initial(recipe, reader.locale) == Some(*letter)
            }),
            Self::Recipe(id) => {
                return reader
                    .recipe(id)
                    .map(|recipe| Screen::Leaf(leaf::leaf(recipe, reader)));
            }
        };
        Some(Screen::Choose(list))
    }

    /// The page that a row leads to.
    pub(super) fn choose(&self, key: &str, reader: Reader<'_>) -> Option<Self> {
        match self {
            Self::Kinds if key == lists::LETTERS => Some(Self::Letters),
            Self::Kinds => BathKind::from_id(key).map(Self::Kind),
            Self::Kind(BathKind::Dye) => {
                Some(alone(reader, key).unwrap_or_else(|| Self::Dyestuff(key.to_owned())))
            }
            Self::Letters => key.chars().next().map(Self::Letter),
            Self::Kind(_) | Self::Dyestuff(_) | Self::Letter(_) => {
                reader.recipe(key).map(|recipe| Self::Recipe(recipe.id.clone()))
            }
            Self::Recipe(_) => None,
        }
    }
}

/// The one dye of a dyestuff, where there is only one: a list of one is a press too many.
fn alone(reader: Reader<'_>, dyestuff: &str) -> Option<BookPage> {
    let mut dyes = reader
        .recipes
        .iter()
        .filter(|recipe| recipe.kind == BathKind::Dye && dyestuff_of(recipe).0 == dyestuff);
    match (dyes.next(), dyes.next()) {
        (Some(only), None) => Some(BookPage::Recipe(only.id.clone())),
        (_, _) => None,
    }
}

/// Id and name of the dyestuff that a dye is grouped under: the first one weighed; empty when there is none. The name stands
/// without its form: *madder root*, not *madder root (ground)*.
fn dyestuff_of(recipe: &Recipe) -> (&str, &str) {
    let first = recipe.additions.iter().find_map(|addition| match &addition.ware {
        Ware::Dyestuff { id, name, .. } => Some((
            id.as_str(),
            name.split_once(" (").map_or(name.as_str(), |(bare, _)| bare),
        )),
        Ware::Substance(_) => None,
    });
    first.unwrap_or(("", ""))
}

/// The letter that a recipe stands under: the first one of its name in the dyer's language.
fn initial(recipe: &Recipe, locale: Locale) -> Option<char> {
    let name = filed(&locale.read(&recipe.name));
    let first = name.chars().find(|c| c.is_alphanumeric())?;
    first.to_uppercase().next()
}
