//! Reading a work list: text in, a list or all its faults out.

use super::model::{ListedBath, Wait, WaitKind, WorkList};
use crate::craft::reading;
use crate::craft::time::Span;
use crate::msg;
use crate::recipe::Faults;
use crate::recipe::fault::{Choice, Wrong};
use crate::recipe::hidden::shown;
use crate::recipe::model::Strength;
use crate::recipe::raw::{NAME_CHARACTERS_MOST, Page, Table, kebab, text_of, tree, without_mark};
use crate::recipe::read::ABOUT_CHARACTERS_MOST;
use crate::shelf::page::{allow_only, count, named, tell};

/// A list file has at most this many bytes.
pub(super) const FILE_BYTES_MOST: usize = 64 * 1024;
/// A list has at most this many baths.
pub(super) const BATHS_MOST: usize = 24;
/// A stove has at most this many pots.
const POTS_MOST: u32 = 99;

/// Reads a work list.
///
/// # Errors
/// All faults at once, in the order they stand in the file, each with line, column and remedy.
pub fn read(text: &str) -> Result<WorkList, Faults> {
    let text = without_mark(text);
    let mut page = Page::new(text);
    let list = read_text(&mut page, text);
    match (Faults::of(page.into_faults()), list) {
        (None, Some(list)) => Ok(list),
        (Some(faults), _) => Err(faults),
        (None, None) => Err(Faults::unexplained()),
    }
}

fn read_text(page: &mut Page<'_>, text: &str) -> Option<WorkList> {
    if text.len() > FILE_BYTES_MOST {
        let said = msg!(
            "the file has {bytes} bytes; a work list has at most {most}",
            bytes = text.len(),
            most = FILE_BYTES_MOST
        );
        return tell(page, 0, said, msg!("write one list a file"));
    }
    let tree = tree(page, text, FILE_BYTES_MOST)?;
    let root = Table::root(tree.get_ref(), msg!("the work list"));
    allow_only(page, root, &["format", "id", "name", "about", "bath"]);
    let format = root.format(page);
    let id = root.text(page, "id", NAME_CHARACTERS_MOST);
    let id = id.and_then(|id| kebab(page, "id", id));
    let name = root.text(page, "name", NAME_CHARACTERS_MOST);
    let about = root.text(page, "about", ABOUT_CHARACTERS_MOST);
    let tables = root.tables(page, "bath", msg!("the bath"), BATHS_MOST);
    if tables.is_empty() && !root.has("bath") {
        tell::<()>(
            page,
            0,
            msg!("the list has no bath"),
            msg!("add [[bath]] with a recipe"),
        )
        .unwrap_or(());
    }
    let expected = tables.len();
    let last = tables.len().saturating_sub(1);
    let mut baths = Vec::new();
    for (index, table) in tables.into_iter().enumerate() {
        baths.extend(read_bath(page, table, index == last));
    }
    format?;
    if baths.len() != expected || baths.is_empty() {
        return None;
    }
    Some(WorkList {
        id: id?.to_owned(),
        name: name?.text.trim().to_owned(),
        about: about?.text.trim().to_owned(),
        baths,
    })
}

fn read_bath(page: &mut Page<'_>, table: Table<'_>, is_last: bool) -> Option<ListedBath> {
    allow_only(page, table, &["recipe", "pot", "then"]);
    let recipe = table.text(page, "recipe", NAME_CHARACTERS_MOST);
    let recipe = recipe.and_then(|recipe| kebab(page, "recipe", recipe));
    let pot = match table.has("pot") {
        true => count(page, table, "pot", POTS_MOST).map(|pot| u8::try_from(pot).ok()),
        false => Some(None),
    };
    let then = match table.has("then") {
        true => {
            let wait = table.table(page, "then", msg!("the wait"));
            if is_last {
                tell::<()>(
                    page,
                    table.place_of("then"),
                    msg!("a wait after the last bath"),
                    msg!("leave it out; drying and shelving are steps of the last recipe"),
                )
                .unwrap_or(());
            }
            wait.and_then(|wait| read_wait(page, wait)).map(Some)
        }
        false => Some(None),
    };
    Some(ListedBath {
        recipe: recipe?.to_owned(),
        pot: pot?,
        then: then?,
    })
}

fn read_wait(page: &mut Page<'_>, table: Table<'_>) -> Option<Wait> {
    const SOURCE_CHARACTERS_MOST: usize = 200;

    allow_only(page, table, &["do", "least", "most", "source", "strength"]);
    let how = named(page, table, "do", |text| {
        let words = WaitKind::ALL.map(WaitKind::id).join(", ");
        WaitKind::from_id(text).ok_or_else(|| {
            msg!(
                "\"{word}\" is no way to wait; there are {words}",
                word = shown(text),
                words = words
            )
        })
    });
    let least = span(page, table, "least");
    let most = match table.has("most") {
        true => span(page, table, "most").map(Some),
        false => Some(None),
    };
    let source = table.text(page, "source", SOURCE_CHARACTERS_MOST);
    let strengths = Strength::ALL.into_iter().map(Strength::id);
    let strength = table.choice(page, "strength", Choice::Strength, Strength::from_id, strengths);
    if let (Some(least), Some(Some(most))) = (least, most)
        && most < least
    {
        return tell(
            page,
            table.place_of("most"),
            msg!("the wait ends before it is long enough"),
            msg!("write a most that is no shorter than the least"),
        );
    }
    Some(Wait {
        how: how?,
        least: least?,
        most: most?,
        source: source?.text.trim().to_owned(),
        strength: strength?,
    })
}

fn span(page: &mut Page<'_>, table: Table<'_>, key: &'static str) -> Option<Span> {
    const EXAMPLE: &str = "4 days";

    let Some(value) = table.get(key) else {
        return table.miss(page, key);
    };
    let at = value.span().start;
    if value.get_ref().is_integer() || value.get_ref().is_float() {
        page.note(
            at,
            Wrong::NumberWithoutUnit {
                key,
                example: EXAMPLE,
            },
        );
        return None;
    }
    let text = text_of(page, key, value, NAME_CHARACTERS_MOST)?;
    match reading::span(text.text) {
        Ok(span) => Some(span),
        Err(fault) => {
            page.note(
                at,
                Wrong::NotAQuantity {
                    key,
                    fault,
                    example: EXAMPLE,
                },
            );
            None
        }
    }
}
