//! Doors open to the left only. The table is the one people read, in `docs/architecture.md`.

use super::scan::{code, names_after, pages, says};
use std::collections::{BTreeMap, BTreeSet};
use std::fs;

/// What no room left of the shell may name, since it asks or moves the world outside.
const OUTSIDE: [&str; 16] = [
    "slint",
    "slint_build",
    "rodio",
    "tokio",
    "rustix",
    "clap",
    "directories",
    "Instant",
    "SystemTime",
    "Utc::now",
    "Local::now",
    "stdin",
    "stdout",
    "stderr",
    "println",
    "eprintln",
];

/// Modules of `std` that do the same.
const OUTSIDE_STD: [&str; 6] = ["fs", "thread", "env", "net", "process", "os"];

/// Rooms of the table, in its order, each with those it may use.
fn table() -> Vec<(String, BTreeSet<String>)> {
    let page = pages("docs/architecture.md").remove(0).text;
    page.lines().filter_map(row).collect()
}

fn row(line: &str) -> Option<(String, BTreeSet<String>)> {
    let cells: Vec<&str> = line
        .strip_prefix("| `")?
        .strip_suffix('|')?
        .split('|')
        .map(str::trim)
        .collect();
    let [room, _, may] = cells[..] else {
        panic!("a row of the table of rooms has three cells: {line}");
    };
    let may = may
        .split(',')
        .map(|name| name.trim().trim_matches('`').to_owned());
    Some((
        room.trim_matches('`').to_owned(),
        may.filter(|name| name != "-").collect(),
    ))
}

/// The room a source file belongs to: its folder, or its name at the top. The map, `lib.rs`, belongs to none.
fn room_of(path: &str) -> Option<&str> {
    let rest = path.strip_prefix("src/")?;
    let room = rest
        .split_once('/')
        .map_or_else(|| rest.strip_suffix(".rs"), |(room, _)| Some(room));
    room.filter(|room| *room != "lib")
}

/// Rooms a file names: after `crate`, after the package's own name, and by climbing out with `super`.
fn rooms_named(path: &str, text: &str) -> BTreeSet<String> {
    let code = code(text);
    let mut names = names_after(&code, "crate");
    names.extend(names_after(&code, "potside"));
    let depth = path.matches('/').count() - usize::from(path.ends_with("/mod.rs"));
    names.extend(names_after(&code, &vec!["super"; depth.max(1)].join("::")));
    names
}

fn foreign_names(text: &str) -> Vec<String> {
    let code = code(text);
    let mut found: Vec<String> = OUTSIDE
        .iter()
        .filter(|name| says(&code, name))
        .map(|name| (*name).to_owned())
        .collect();
    let std_names = names_after(&code, "std");
    found.extend(
        OUTSIDE_STD
            .iter()
            .filter(|name| std_names.contains(**name))
            .map(|name| format!("std::{name}")),
    );
    found
}

#[test]
fn the_table_of_rooms_is_the_folders_of_src_and_opens_to_the_left() {
    let table = table();
    let mut left = BTreeSet::new();

    for (room, may) in &table {
        assert!(
            may.is_subset(&left),
            "`{room}` may use a room that isn't above it in the table"
        );
        left.insert(room.clone());
    }

    let rooms: BTreeSet<String> = pages("src")
        .iter()
        .filter_map(|page| room_of(&page.path).map(str::to_owned))
        .collect();
    assert_eq!(
        left, rooms,
        "left the table in docs/architecture.md, right the rooms under src"
    );
}

#[test]
fn each_room_uses_only_what_the_table_allows() {
    let table: BTreeMap<String, BTreeSet<String>> = table().into_iter().collect();
    let mut faults = Vec::new();

    for page in pages("src").iter().filter(|page| page.path.ends_with(".rs")) {
        let Some(room) = room_of(&page.path) else { continue };
        for name in rooms_named(&page.path, &page.text) {
            if table.contains_key(&name) && name != room && !table[room].contains(&name) {
                faults.push(format!("{}: `{room}` uses `{name}`", page.path));
            }
        }
    }

    assert!(
        faults.is_empty(),
        "docs/architecture.md says otherwise:\n{}",
        faults.join("\n")
    );
}

#[test]
fn no_room_left_of_the_shell_names_the_world_outside() {
    let mut faults = Vec::new();

    for page in pages("src").iter().filter(|page| page.path.ends_with(".rs")) {
        if matches!(room_of(&page.path), None | Some("shell" | "main")) {
            continue;
        }
        for name in foreign_names(&page.text) {
            faults.push(format!("{}: {name}", page.path));
        }
    }

    assert!(
        faults.is_empty(),
        "take it as an argument instead:\n{}",
        faults.join("\n")
    );
}

#[test]
fn the_feature_keeps_the_outside_crates_out() {
    let manifest = fs::read_to_string(super::scan::top().join("Cargo.toml")).unwrap();

    for name in [
        "slint",
        "slint-build",
        "fontique",
        "rodio",
        "tokio",
        "clap",
        "directories",
        "rustix",
    ] {
        let line = manifest
            .lines()
            .find(|line| line.starts_with(&format!("{name} = ")))
            .unwrap_or_else(|| panic!("{name} has no line of its own in Cargo.toml"));
        assert!(
            line.contains("optional = true"),
            "{name} belongs behind the feature `shell`"
        );
    }
}

#[test]
fn planted_faults_are_seen() {
    let named = |path, text| rooms_named(path, text).into_iter().collect::<Vec<_>>().join(" ");

    assert_eq!(
        named("src/craft/time.rs", "use super::super::machine::Machine;"),
        "machine"
    );
    assert_eq!(
        named("src/craft/heat/pot.rs", "use super::super::super::view::x;"),
        "view"
    );
    assert_eq!(named("src/craft/mod.rs", "use super::shell;"), "shell");
    assert_eq!(named("src/craft/time.rs", "// use crate::shell;"), "");
    assert_eq!(foreign_names("use std::{fmt, fs::File};"), ["std::fs"]);
    assert_eq!(foreign_names("let now = std::time::Instant::now();"), ["Instant"]);
    assert_eq!(foreign_names("/// Like `Instant`.\nuse std::fmt;"), [""; 0]);
}
