//! Reading a recipe: text in, a recipe or all its faults out.

use super::fault::{Choice, Faults, Wrong};
use super::figure::{Keys, figure};
use super::model::{BathKind, MordantNeed, Recipe};
use super::raw::{NAME_CHARACTERS_MOST, Page, Table, choose, kebab, tree, without_mark};
use super::sources::Sources;
use super::{additions, order, steps};
use crate::craft::fibre::Fibre;

/// A recipe file has at most this many bytes.
pub const FILE_BYTES_MOST: usize = 256 * 1024;
/// A line of how or of caution has at most this many characters, so that it can be read at arm's length.
pub const LINE_CHARACTERS_MOST: usize = 90;
/// What a recipe says about itself has at most this many characters.
pub const ABOUT_CHARACTERS_MOST: usize = 600;

const CAUTIONS_MOST: usize = 20;

/// Reads a recipe file.
///
/// # Errors
/// All faults at once, in the order they stand in the file. Text that is no TOML has that one fault only, or the hidden
/// characters that may have caused it.
pub fn read(text: &str) -> Result<Recipe, Faults> {
    let text = without_mark(text);
    let mut page = Page::new(text);
    let recipe = read_text(&mut page, text);
    match (Faults::of(page.into_faults()), recipe) {
        (None, Some(recipe)) => Ok(recipe),
        (Some(faults), _) => Err(faults),
        (None, None) => Err(Faults::unexplained()),
    }
}

fn read_text(page: &mut Page<'_>, text: &str) -> Option<Recipe> {
    let tree = tree(page, text, FILE_BYTES_MOST)?;
    read_root(page, Table::root(tree.get_ref(), "the recipe"))
}

fn read_root(page: &mut Page<'_>, root: Table<'_>) -> Option<Recipe> {
    root.allow_only(
        page,
        &[
            "format", "id", "name", "kind", "about", "fibres", "mordant", "cautions", "liquor", "addition",
            "step", "source",
        ],
    );
    let format = root.format(page);
    let id = root.text(page, "id", NAME_CHARACTERS_MOST);
    let id = id.and_then(|id| kebab(page, "id", id));
    let name = root.text(page, "name", NAME_CHARACTERS_MOST);
    let ids = BathKind::ALL.into_iter().map(BathKind::id);
    let kind = root.choice(page, "kind", Choice::Bath, BathKind::from_id, ids);
    let about = root.text(page, "about", ABOUT_CHARACTERS_MOST);
    let fibres = read_fibres(page, root);
    let mordant = read_mordant(page, root, kind);
    let cautions = match root.has("cautions") {
        true => root.texts(page, "cautions", CAUTIONS_MOST, LINE_CHARACTERS_MOST),
        false => Some(Vec::new()),
    };

    let mut sources = Sources::read(page, root);
    let liquor = root.table(page, "liquor", "the liquor").and_then(|table| {
        table.allow_only(page, &["ratio", "range", "source"]);
        let keys = Keys {
            chosen: "ratio",
            range: "range",
            sources: ["source", "source"],
        };
        figure(page, table, keys, &mut sources)
    });
    let additions = additions::read(page, root, fibres.as_deref().unwrap_or_default(), &mut sources);
    let steps = steps::read(page, root, &mut sources);
    order::check(page, &steps, &additions);
    let sources = sources.finish(page);

    format?;
    if additions.whole.len() != additions.listed.len() || steps.whole.len() != steps.sketches.len() {
        return None; // A recipe with a hole in it is no recipe.
    }
    Some(Recipe {
        id: id?.to_owned(),
        name: name?.text.to_owned(),
        kind: kind?,
        about: about?.text.to_owned(),
        fibres: fibres?,
        mordant: mordant?,
        liquor: liquor?,
        additions: additions.whole,
        steps: steps.whole,
        cautions: cautions?.into_iter().map(|line| line.text.to_owned()).collect(),
        sources,
    })
}

fn read_fibres(page: &mut Page<'_>, root: Table<'_>) -> Option<Vec<Fibre>> {
    let most = Fibre::ALL.len();
    let Some(texts) = root.texts(page, "fibres", most, NAME_CHARACTERS_MOST) else {
        return if root.has("fibres") {
            None
        } else {
            root.miss(page, "fibres")
        };
    };
    if root.is_empty_list("fibres") {
        page.note(root.place_of("fibres"), Wrong::Empty { key: "fibres" });
    }
    let mut fibres = Vec::new();
    for text in texts {
        let ids = Fibre::ALL.into_iter().map(Fibre::id);
        let Some(fibre) = choose(page, text, Choice::Fibre, Fibre::from_id, ids) else {
            continue;
        };
        if fibres.contains(&fibre) {
            page.note(text.at, Wrong::FibreTwice { fibre });
        } else {
            fibres.push(fibre);
        }
    }
    Some(fibres)
}

fn read_mordant(page: &mut Page<'_>, root: Table<'_>, kind: Option<BathKind>) -> Option<MordantNeed> {
    let ids = MordantNeed::ALL.into_iter().map(MordantNeed::id);
    let mordant = root.choice(page, "mordant", Choice::Mordant, MordantNeed::from_id, ids)?;
    let kind = kind?;
    let is_dye = match mordant {
        MordantNeed::Mordanted | MordantNeed::None => true,
        MordantNeed::NotADye => false,
    };
    let fits = match kind {
        BathKind::Scour | BathKind::Mordant | BathKind::Tannin | BathKind::Fixing => !is_dye,
        BathKind::Dye | BathKind::Vat => is_dye,
        BathKind::AfterBath => true,
    };
    if !fits {
        page.note(
            root.place_of("mordant"),
            Wrong::MordantDoesNotFit { kind, mordant },
        );
    }
    Some(mordant)
}
