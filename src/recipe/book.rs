//! The built-in book: recipes that come with the program, as files like any other, and read like any other.

use super::model::Recipe;
use super::nearest::nearest;
use super::read::read;
use std::sync::LazyLock;

/// A built-in recipe as it stands in its file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Page {
    /// The id, which is also the name of its file.
    pub id: &'static str,
    /// The file, verbatim.
    pub text: &'static str,
}

/// Every built-in recipe as text, in the order shown: scour, mordant, dye.
pub const PAGES: [Page; 7] = [
    Page {
        id: "scour-wool",
        text: include_str!("book/scour-wool.toml"),
    },
    Page {
        id: "alum-tartar-studio",
        text: include_str!("book/alum-tartar-studio.toml"),
    },
    Page {
        id: "alum-tartar-book",
        text: include_str!("book/alum-tartar-book.toml"),
    },
    Page {
        id: "alum-only",
        text: include_str!("book/alum-only.toml"),
    },
    Page {
        id: "madder",
        text: include_str!("book/madder.toml"),
    },
    Page {
        id: "onion-skin",
        text: include_str!("book/onion-skin.toml"),
    },
    Page {
        id: "onion-skin-plain",
        text: include_str!("book/onion-skin-plain.toml"),
    },
];

// A page with a fault would be missing here; a test reads every page and finds none.
static BOOK: LazyLock<Vec<Recipe>> =
    LazyLock::new(|| PAGES.iter().filter_map(|page| read(page.text).ok()).collect());

/// No built-in recipe has the id.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("no recipe \"{id}\" in the book; {}", match .nearest {
    Some(near) => format!("did you mean \"{near}\"?"),
    None => format!("it has {}", PAGES.map(|page| page.id).join(", ")),
})]
pub struct NotInTheBook {
    /// The id that was asked for.
    pub id: String,
    /// The nearest id the book has.
    pub nearest: Option<&'static str>,
}

/// Every built-in recipe, in the order shown.
#[must_use]
pub fn all() -> &'static [Recipe] {
    &BOOK
}

/// The built-in recipe of an id.
///
/// # Errors
/// [`NotInTheBook`], with the nearest id.
pub fn by_id(id: &str) -> Result<&'static Recipe, NotInTheBook> {
    all()
        .iter()
        .find(|recipe| recipe.id == id)
        .ok_or_else(|| NotInTheBook {
            id: super::hidden::shown(id),
            nearest: nearest(id, PAGES.iter().map(|page| page.id)),
        })
}

/// The file of a built-in recipe, verbatim.
#[must_use]
pub fn text_of(id: &str) -> Option<&'static str> {
    PAGES.iter().find(|page| page.id == id).map(|page| page.text)
}
