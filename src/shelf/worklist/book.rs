//! The work lists that come with the program, as files like any other.

use std::sync::LazyLock;

use super::model::WorkList;
use super::read::read;
use crate::recipe::hidden::shown;
use crate::recipe::nearest;

/// Id and file of each built-in list, in the order shown.
const FILES: [(&str, &str); 5] = [
    ("red-on-wool", include_str!("../lists/red-on-wool.toml")),
    ("old-red-on-wool", include_str!("../lists/old-red-on-wool.toml")),
    ("gold-on-wool", include_str!("../lists/gold-on-wool.toml")),
    ("tan-then-alum", include_str!("../lists/tan-then-alum.toml")),
    (
        "gold-alumed-twice",
        include_str!("../lists/gold-alumed-twice.toml"),
    ),
];

// A file with a fault would be missing here; a test reads each and finds none.
static LISTS: LazyLock<Vec<WorkList>> =
    LazyLock::new(|| FILES.iter().filter_map(|(_, text)| read(text).ok()).collect());

/// No built-in list has the id.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("no work list is called {id}; {}", match .nearest {
    Some(near) => format!("did you mean {near}?"),
    None => format!("there are {}", FILES.map(|(id, _)| id).join(", ")),
})]
pub struct NotAList {
    /// The id that was asked for.
    pub id: String,
    /// The nearest there is.
    pub nearest: Option<&'static str>,
}

/// Every built-in list, in the order shown.
#[must_use]
pub fn all() -> &'static [WorkList] {
    &LISTS
}

/// The built-in list of an id.
///
/// # Errors
/// [`NotAList`], with the nearest id.
pub fn by_id(id: &str) -> Result<&'static WorkList, NotAList> {
    all().iter().find(|list| list.id == id).ok_or_else(|| NotAList {
        id: shown(id),
        nearest: nearest(id, FILES.iter().map(|(id, _)| *id)),
    })
}

/// The file of a built-in list, verbatim.
#[must_use]
pub fn text_of(id: &str) -> Option<&'static str> {
    FILES
        .iter()
        .find(|(known, _)| *known == id)
        .map(|(_, text)| *text)
}
