//! Reads files of the project as text. No parser: enough to see paths, comments and strings in formatted Rust.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

/// A file of the project: its path from the top, with forward slashes, and its text.
pub(super) struct Page {
    pub(super) path: String,
    pub(super) text: String,
}

impl Page {
    /// Lines with their numbers, from 1.
    pub(super) fn lines(&self) -> impl Iterator<Item = (usize, &str)> {
        self.text
            .lines()
            .enumerate()
            .map(|(index, line)| (index + 1, line))
    }

    /// What follows the last dot of the name, or nothing.
    pub(super) fn extension(&self) -> &str {
        Path::new(&self.path)
            .extension()
            .and_then(|extension| extension.to_str())
            .unwrap_or("")
    }
}

/// The folder of the project.
pub(super) fn top() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

/// Every text file under a folder or at a path, in order; nothing if there is none. Pictures, fonts and sounds are
/// left out, since they aren't text.
pub(super) fn pages(under: &str) -> Vec<Page> {
    paths(under)
        .into_iter()
        .filter_map(|path| {
            let text = String::from_utf8(fs::read(top().join(&path)).unwrap()).ok()?;
            Some(Page { path, text })
        })
        .collect()
}

/// Every file under a folder or at a path, of whatever kind, in order.
pub(super) fn paths(under: &str) -> Vec<String> {
    let mut found = BTreeSet::new();
    walk(&top().join(under), &mut found);
    found.into_iter().collect()
}

fn walk(at: &Path, found: &mut BTreeSet<String>) {
    if at.is_dir() {
        for entry in fs::read_dir(at).unwrap() {
            walk(&entry.unwrap().path(), found);
        }
    } else if at.is_file() {
        let path = at.strip_prefix(top()).unwrap();
        found.insert(path.to_str().unwrap().replace('\\', "/"));
    }
}

/// The sources without the words people read: whole-line and trailing comments are cut off.
pub(super) fn code(text: &str) -> String {
    text.lines()
        .map(|line| match comment_start(line) {
            Some(start) => &line[..start],
            None => line,
        })
        .collect::<Vec<_>>()
        .join("\n")
}

/// Where a line's comment starts: at two slashes that don't follow a colon, as those of an address do.
pub(super) fn comment_start(line: &str) -> Option<usize> {
    line.match_indices("//")
        .map(|(start, _)| start)
        .find(|&start| !line[..start].ends_with(':'))
}

/// Every name that directly follows `prefix` in code, be it `prefix::name` or inside `prefix::{name, other::..}`.
pub(super) fn names_after(code: &str, prefix: &str) -> BTreeSet<String> {
    let opening = format!("{prefix}::");
    let mut names = BTreeSet::new();
    for (start, _) in code.match_indices(&opening) {
        let before = code[..start].chars().next_back();
        if before.is_some_and(|c| is_word(c) || c == ':') {
            continue; // the end of a longer path
        }
        let rest = &code[start + opening.len()..];
        match rest.strip_prefix('{') {
            Some(group) => names.extend(first_names(group)),
            None => names.extend(first_word(rest)),
        }
    }
    names
}

/// The first name of each entry of a braced group, up to its closing brace.
fn first_names(group: &str) -> Vec<String> {
    let mut names = Vec::new();
    let mut depth = 0_usize;
    let mut entry_start = 0;
    for (at, c) in group.char_indices() {
        match c {
            '{' => depth += 1,
            '}' if depth > 0 => depth -= 1,
            ',' if depth == 0 => {
                names.extend(first_word(&group[entry_start..at]));
                entry_start = at + 1;
            }
            '}' => {
                names.extend(first_word(&group[entry_start..at]));
                return names;
            }
            _ => {}
        }
    }
    names
}

fn first_word(text: &str) -> Option<String> {
    let text = text.trim_start();
    let end = text.find(|c| !is_word(c)).unwrap_or(text.len());
    (end > 0).then(|| text[..end].to_owned())
}

fn is_word(c: char) -> bool {
    c.is_alphanumeric() || c == '_'
}

/// Whether `name` stands in code as a word of its own.
pub(super) fn says(code: &str, name: &str) -> bool {
    code.match_indices(name).any(|(start, _)| {
        let before = code[..start].chars().next_back();
        let after = code[start + name.len()..].chars().next();
        !before.is_some_and(is_word) && !after.is_some_and(is_word)
    })
}

/// What is left of a line when its strings are taken out. Strings don't go over a line's end here.
pub(super) fn outside_strings(line: &str) -> String {
    let mut rest = String::new();
    let mut inside = false;
    let mut escaped = false;
    for c in line.chars() {
        match c {
            '"' if !escaped => inside = !inside,
            _ if !inside => rest.push(c),
            _ => {}
        }
        escaped = c == '\\' && !escaped;
    }
    rest
}

#[test]
fn paths_are_seen_plain_grouped_and_over_several_lines() {
    let seen = |code| {
        names_after(code, "crate")
            .into_iter()
            .collect::<Vec<_>>()
            .join(" ")
    };

    assert_eq!(seen("use crate::craft::time::Span;"), "craft");
    assert_eq!(seen("let x = crate::shell::now();"), "shell");
    assert_eq!(seen("use crate::{craft::{time, fibre}, sheet};"), "craft sheet");
    assert_eq!(
        seen("use crate::{\n    craft::time,\n    view::words,\n};"),
        "craft view"
    );
    assert_eq!(seen("pub(crate) fn f() {} use other_crate::machine;"), "");
    assert_eq!(seen("use other::crate::machine;"), "");
}

#[test]
fn comments_are_cut_and_addresses_are_not() {
    assert_eq!(
        code("a // tokio\n//! slint\n\"http://x\" b"),
        "a \n\n\"http://x\" b"
    );
}

#[test]
fn a_word_inside_a_longer_word_is_not_said() {
    assert!(says("use slint::x", "slint"));
    assert!(!says("splinter slinter _slint", "slint"));
}

#[test]
fn strings_are_taken_out_of_a_line() {
    assert_eq!(outside_strings(r#"label: "90\" deg" + x"#), "label:  + x");
}
