//! The built-in book: recipes that come with the program, as files like any other, and read like any other.

use super::model::Recipe;
use super::nearest::nearest;
use super::read::read;
use std::cell::OnceCell;
use std::ops::Deref;
use std::sync::{Arc, LazyLock};

/// A built-in recipe as it stands in its file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Page {
    /// The id, which is also the name of its file.
    pub id: &'static str,
    /// The file, verbatim.
    pub text: &'static str,
}

/// A page by its id, which names its file.
macro_rules! page {
    ($id:literal) => {
        Page {
            id: $id,
            text: include_str!(concat!("book/", $id, ".toml")),
        }
    };
}

/// Every built-in recipe as text, in the order shown: scour, mordant, tannin, fixing, dye, vat, after-bath.
pub const PAGES: [Page; 112] = [
    // Scour.
    page!("scour-wool"),
    page!("scour-superwash"),
    page!("scour-silk"),
    page!("scour-raw-silk"),
    page!("scour-cotton"),
    page!("scour-cotton-book"),
    page!("scour-linen"),
    // Mordant: wool, hair, silk.
    page!("alum-tartar-studio"),
    page!("alum-tartar-book"),
    page!("alum-tartar-low"),
    page!("alum-only"),
    page!("alum-low"),
    page!("alum-cold"),
    page!("alum-alpaca"),
    page!("alum-mohair"),
    page!("alum-silk-cold"),
    page!("alum-silk-warm"),
    page!("iron-tartar-1916"),
    // Mordant: plant fibre.
    page!("alum-soda"),
    page!("alum-three-bath-1"),
    page!("alum-three-bath-3"),
    page!("alum-acetate"),
    page!("alum-acetate-from-alum"),
    page!("alum-acetate-from-sulfate"),
    // Tannin.
    page!("tannin-tannic-acid"),
    page!("tannin-tannic-acid-pale"),
    page!("tannin-tannic-acid-deep"),
    page!("tannin-three-bath-2"),
    page!("tannin-gall"),
    page!("tannin-sumac"),
    page!("tannin-myrobalan"),
    page!("tannin-oak-bark"),
    page!("tannin-pomegranate"),
    // Fixing.
    page!("fixing-chalk"),
    page!("fixing-bran"),
    // Dye: the dyestuffs by colour, the everyday way of each first.
    page!("onion-skin"),
    page!("onion-skin-plain"),
    page!("onion-skin-cotton"),
    page!("onion-extract"),
    page!("madder"),
    page!("madder-studio"),
    page!("madder-1849"),
    page!("madder-orange-red"),
    page!("madder-red-1938"),
    page!("madder-soft-water"),
    page!("madder-cotton"),
    page!("weld"),
    page!("weld-equal-weight"),
    page!("weld-chalk"),
    page!("weld-silk"),
    page!("weld-cotton"),
    page!("cochineal-studio"),
    page!("cochineal-crimson"),
    page!("cochineal-crimson-1916"),
    page!("cochineal-pink"),
    page!("cochineal-silk"),
    page!("lac-1848"),
    page!("lac-wool"),
    page!("lac-silk"),
    page!("logwood-purple-1916"),
    page!("logwood-madder-1916"),
    page!("logwood-madder-1938"),
    page!("logwood-extract"),
    page!("logwood-grey-cotton"),
    page!("fustic"),
    page!("fustic-silk"),
    page!("fustic-madder-buff"),
    page!("quercitron"),
    page!("quercitron-silk"),
    page!("flavin"),
    page!("osage-orange"),
    page!("osage-extract"),
    page!("marigold"),
    page!("marigold-fresh"),
    page!("marigold-cotton"),
    page!("goldenrod"),
    page!("goldenrod-strong"),
    page!("chamomile"),
    page!("heather"),
    page!("heather-overnight"),
    page!("pomegranate"),
    page!("pomegranate-powder"),
    page!("pomegranate-extract"),
    page!("pomegranate-cotton"),
    page!("walnut-hull"),
    page!("walnut-fresh"),
    page!("cutch"),
    page!("cutch-cotton"),
    page!("cutch-iron-grey"),
    page!("alder-bark"),
    page!("alder-bark-black"),
    page!("gall-grey-wool"),
    page!("gall-grey-cotton"),
    page!("oak-bark-grey"),
    page!("turmeric-cotton"),
    page!("turmeric-wool"),
    // Vat.
    page!("vat-fructose"),
    page!("vat-iron"),
    page!("vat-zinc"),
    page!("vat-hydrosulphite"),
    // After-bath.
    page!("after-iron"),
    page!("after-iron-plant"),
    page!("after-iron-book"),
    page!("after-copper"),
    page!("after-chalk"),
    page!("after-soda"),
    page!("after-citric"),
    page!("after-vinegar"),
    page!("after-tartar"),
    page!("after-soap"),
    page!("after-bran"),
    page!("after-tannin"),
];

// A page with a fault would be missing here; a test reads every page and finds none.
static BOOK: LazyLock<Vec<Arc<Recipe>>> = LazyLock::new(|| {
    PAGES
        .iter()
        .filter_map(|page| read(page.text).ok())
        .map(Arc::new)
        .collect()
});

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

/// Every built-in recipe, in the order shown. Read once and shared: whoever keeps one keeps no copy.
#[must_use]
pub fn all() -> &'static [Arc<Recipe>] {
    &BOOK
}

/// The recipes of a bench: the built-in ones and the dyer's own after them. The built-in ones are read when somebody
/// first looks, since a bath that goes on needs none of them.
#[derive(Debug, Clone, Default)]
pub struct Recipes {
    own: Vec<Arc<Recipe>>,
    whole: OnceCell<Vec<Arc<Recipe>>>,
}

impl Recipes {
    /// The built-in recipes, and these after them.
    #[must_use]
    pub const fn with(own: Vec<Arc<Recipe>>) -> Self {
        Self {
            own,
            whole: OnceCell::new(),
        }
    }
}

/// These recipes alone.
impl From<Vec<Arc<Recipe>>> for Recipes {
    fn from(recipes: Vec<Arc<Recipe>>) -> Self {
        Self {
            own: Vec::new(),
            whole: recipes.into(),
        }
    }
}

impl Deref for Recipes {
    type Target = [Arc<Recipe>];

    fn deref(&self) -> &Self::Target {
        self.whole
            .get_or_init(|| all().iter().chain(&self.own).map(Arc::clone).collect())
    }
}

/// The built-in recipe of an id.
///
/// # Errors
/// [`NotInTheBook`], with the nearest id.
pub fn by_id(id: &str) -> Result<&'static Recipe, NotInTheBook> {
    all()
        .iter()
        .find(|recipe| recipe.id == id)
        .map(AsRef::as_ref)
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
