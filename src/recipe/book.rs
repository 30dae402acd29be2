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

/// Every built-in recipe as text, in the order shown: as goods meet them.
pub const PAGES: [Page; 53] = [
    // Scour.
    Page {
        id: "scour-wool",
        text: include_str!("book/scour-wool.toml"),
    },
    Page {
        id: "scour-superwash",
        text: include_str!("book/scour-superwash.toml"),
    },
    Page {
        id: "scour-silk",
        text: include_str!("book/scour-silk.toml"),
    },
    Page {
        id: "scour-raw-silk",
        text: include_str!("book/scour-raw-silk.toml"),
    },
    Page {
        id: "scour-cotton",
        text: include_str!("book/scour-cotton.toml"),
    },
    Page {
        id: "scour-cotton-book",
        text: include_str!("book/scour-cotton-book.toml"),
    },
    Page {
        id: "scour-linen",
        text: include_str!("book/scour-linen.toml"),
    },
    // Mordant: wool, hair, silk.
    Page {
        id: "alum-tartar-studio",
        text: include_str!("book/alum-tartar-studio.toml"),
    },
    Page {
        id: "alum-tartar-book",
        text: include_str!("book/alum-tartar-book.toml"),
    },
    Page {
        id: "alum-tartar-low",
        text: include_str!("book/alum-tartar-low.toml"),
    },
    Page {
        id: "alum-only",
        text: include_str!("book/alum-only.toml"),
    },
    Page {
        id: "alum-low",
        text: include_str!("book/alum-low.toml"),
    },
    Page {
        id: "alum-cold",
        text: include_str!("book/alum-cold.toml"),
    },
    Page {
        id: "alum-alpaca",
        text: include_str!("book/alum-alpaca.toml"),
    },
    Page {
        id: "alum-mohair",
        text: include_str!("book/alum-mohair.toml"),
    },
    Page {
        id: "alum-silk-cold",
        text: include_str!("book/alum-silk-cold.toml"),
    },
    Page {
        id: "alum-silk-warm",
        text: include_str!("book/alum-silk-warm.toml"),
    },
    // Mordant: plant fibre.
    Page {
        id: "alum-soda",
        text: include_str!("book/alum-soda.toml"),
    },
    Page {
        id: "alum-three-bath-1",
        text: include_str!("book/alum-three-bath-1.toml"),
    },
    Page {
        id: "alum-three-bath-3",
        text: include_str!("book/alum-three-bath-3.toml"),
    },
    Page {
        id: "alum-acetate",
        text: include_str!("book/alum-acetate.toml"),
    },
    Page {
        id: "alum-acetate-from-alum",
        text: include_str!("book/alum-acetate-from-alum.toml"),
    },
    Page {
        id: "alum-acetate-from-sulfate",
        text: include_str!("book/alum-acetate-from-sulfate.toml"),
    },
    // Tannin.
    Page {
        id: "tannin-tannic-acid",
        text: include_str!("book/tannin-tannic-acid.toml"),
    },
    Page {
        id: "tannin-tannic-acid-pale",
        text: include_str!("book/tannin-tannic-acid-pale.toml"),
    },
    Page {
        id: "tannin-tannic-acid-deep",
        text: include_str!("book/tannin-tannic-acid-deep.toml"),
    },
    Page {
        id: "tannin-three-bath-2",
        text: include_str!("book/tannin-three-bath-2.toml"),
    },
    Page {
        id: "tannin-gall",
        text: include_str!("book/tannin-gall.toml"),
    },
    Page {
        id: "tannin-sumac",
        text: include_str!("book/tannin-sumac.toml"),
    },
    Page {
        id: "tannin-myrobalan",
        text: include_str!("book/tannin-myrobalan.toml"),
    },
    Page {
        id: "tannin-oak-bark",
        text: include_str!("book/tannin-oak-bark.toml"),
    },
    Page {
        id: "tannin-pomegranate",
        text: include_str!("book/tannin-pomegranate.toml"),
    },
    // Fixing.
    Page {
        id: "fixing-chalk",
        text: include_str!("book/fixing-chalk.toml"),
    },
    Page {
        id: "fixing-bran",
        text: include_str!("book/fixing-bran.toml"),
    },
    // Dye.
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
    // Vat.
    Page {
        id: "vat-fructose",
        text: include_str!("book/vat-fructose.toml"),
    },
    Page {
        id: "vat-iron",
        text: include_str!("book/vat-iron.toml"),
    },
    Page {
        id: "vat-zinc",
        text: include_str!("book/vat-zinc.toml"),
    },
    Page {
        id: "vat-hydrosulphite",
        text: include_str!("book/vat-hydrosulphite.toml"),
    },
    // After-bath.
    Page {
        id: "after-iron",
        text: include_str!("book/after-iron.toml"),
    },
    Page {
        id: "after-iron-plant",
        text: include_str!("book/after-iron-plant.toml"),
    },
    Page {
        id: "after-iron-book",
        text: include_str!("book/after-iron-book.toml"),
    },
    Page {
        id: "after-copper",
        text: include_str!("book/after-copper.toml"),
    },
    Page {
        id: "after-chalk",
        text: include_str!("book/after-chalk.toml"),
    },
    Page {
        id: "after-soda",
        text: include_str!("book/after-soda.toml"),
    },
    Page {
        id: "after-citric",
        text: include_str!("book/after-citric.toml"),
    },
    Page {
        id: "after-vinegar",
        text: include_str!("book/after-vinegar.toml"),
    },
    Page {
        id: "after-tartar",
        text: include_str!("book/after-tartar.toml"),
    },
    Page {
        id: "after-soap",
        text: include_str!("book/after-soap.toml"),
    },
    Page {
        id: "after-bran",
        text: include_str!("book/after-bran.toml"),
    },
    Page {
        id: "after-tannin",
        text: include_str!("book/after-tannin.toml"),
    },
];

// A page with a fault would be missing here; a test reads every page and finds none.
static BOOK: LazyLock<Vec<Recipe>> =
    LazyLock::new(|| PAGES.iter().filter_map(|page| read(page.text).ok()).collect());

/// No built-in recipe has the id.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("no recipe \"{id}\" in the book; {}", match .nearest {
    Some(near) => format!("did you mean \"{near}\"?"),
    None => format!("it has {} recipes, which `potside recipes` lists", PAGES.len()),
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
