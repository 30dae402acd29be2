//! The used liquor again, as a recipe tells of it: `[again]`, which may be left out.

use super::fault::Wrong;
use super::figure::{Keys, count, parts};
use super::model::Again;
use super::raw::{Page, Table};
use super::read::LINE_CHARACTERS_MOST;
use super::sources::Sources;

/// What is said of the used liquor; `Some(None)` when nothing is, `None` when it is faulty.
pub(super) fn read(page: &mut Page<'_>, root: Table<'_>, sources: &mut Sources<'_>) -> Option<Option<Again>> {
    if !root.has("again") {
        return Some(None);
    }
    let table = root.table(page, "again", "the liquor again")?;
    table.allow_only(
        page,
        &[
            "dips",
            "dips_range",
            "dips_source",
            "add",
            "add_range",
            "add_source",
            "how",
            "source",
        ],
    );
    let dips_keys = Keys {
        chosen: "dips",
        range: "dips_range",
        sources: ["dips_source", "source"],
    };
    let add_keys = Keys {
        chosen: "add",
        range: "add_range",
        sources: ["add_source", "source"],
    };
    let dips = count(page, table, dips_keys, sources);
    let is_added = table.has("add");
    let add = parts(page, table, add_keys, sources);
    if let Some(add) = &add {
        let most = add.range.map_or(add.chosen, |(_, high)| high.max(add.chosen));
        if most > 1.0 {
            page.note(table.place_of("add"), Wrong::AddedAboveFirst { value: most });
        }
    }
    let how = table.text_if_given(page, "how", LINE_CHARACTERS_MOST);
    if table.has("how") && how.is_none() || is_added && add.is_none() {
        return None;
    }
    Some(Some(Again {
        dips: dips?,
        add,
        how: how.map(|line| line.text.to_owned()),
    }))
}
