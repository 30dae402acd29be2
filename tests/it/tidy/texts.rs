//! What sources and pages may contain.

use super::scan::{Page, comment_start, outside_strings, pages, paths};

/// Everything that we write by hand.
const WRITTEN: [&str; 12] = [
    "src",
    "ui",
    "tests",
    "docs",
    "examples",
    "benches",
    "sounds",
    ".ci",
    "Cargo.toml",
    "README.md",
    "DEVELOPERS.md",
    ".clippy.toml",
];

fn written() -> Vec<Page> {
    WRITTEN.iter().flat_map(|under| pages(under)).collect()
}

/// The dyer reads these, in whatever letters it takes: the recipes, the translations, and every page.
fn is_for_readers(path: &str) -> bool {
    path.starts_with("src/recipe/book/")
        || path.starts_with("src/view/locale/po/")
        || path.starts_with("tests/recipes/")
        || path.starts_with("tests/tables/")
        || path.ends_with(".md")
        || path.ends_with(".txt") // licences of fonts and sounds
        || path.ends_with(".svg")
}

/// The part of a line that has to be ASCII. Screens and tests hold what the dyer reads in strings; a test's string
/// may go over several lines, so there only comments are held to it.
fn machine_part(page: &Page, line: &str) -> String {
    match page.extension() {
        "slint" => outside_strings(line),
        "rs" if page.path.starts_with("tests/") => {
            let outside = outside_strings(line);
            comment_start(&outside).map_or_else(String::new, |start| outside[start..].to_owned())
        }
        _ => line.to_owned(),
    }
}

#[test]
fn letters_beyond_ascii_stand_only_in_what_the_dyer_reads() {
    let mut faults = Vec::new();

    for page in written().iter().filter(|page| !is_for_readers(&page.path)) {
        for (number, line) in page.lines() {
            if !machine_part(page, line).is_ascii() {
                faults.push(format!("{}:{number}: {}", page.path, line.trim()));
            }
        }
    }

    assert!(
        faults.is_empty(),
        "write it in ASCII, or as an escape:\n{}",
        faults.join("\n")
    );
}

#[test]
fn nothing_names_a_place_on_someones_machine() {
    // In pieces, so that this file doesn't name them.
    let places = ["home", "root", "work", "Users", "tmp", "mnt", "media"].map(|place| format!("/{place}/"));
    let mut faults = Vec::new();

    for page in written() {
        for (number, line) in page.lines() {
            for place in &places {
                // A path that goes on from something, such as `docs/pictures/`, is within the project.
                let absolute = line.match_indices(place.as_str()).any(|(start, _)| {
                    !line[..start].ends_with(|c: char| c.is_alphanumeric() || "._-}".contains(c))
                });
                if absolute || line.contains(":\\Users") {
                    faults.push(format!("{}:{number}: {}", page.path, line.trim()));
                }
            }
        }
    }

    assert!(
        faults.is_empty(),
        "other machines don't have these:\n{}",
        faults.join("\n")
    );
}

#[test]
fn no_test_is_set_aside() {
    let marks = [["#[ig", "nore"].concat(), ["#[cfg_attr(", ""].concat()];
    let mut faults = Vec::new();

    for page in pages("src").iter().chain(&pages("tests")) {
        for (number, line) in page.lines() {
            let line = line.trim_start();
            if line.starts_with(&marks[0]) || (line.starts_with(&marks[1]) && line.contains("ignore")) {
                faults.push(format!("{}:{number}", page.path));
            }
        }
    }

    assert!(
        faults.is_empty(),
        "mend it or take it out:\n{}",
        faults.join("\n")
    );
}

#[test]
fn every_rust_file_opens_with_a_note() {
    let bare: Vec<String> = written()
        .into_iter()
        .filter(|page| page.extension() == "rs" && !page.text.starts_with("//! "))
        .map(|page| page.path)
        .collect();

    assert!(
        bare.is_empty(),
        "say what lives there and what it mustn't know:\n{}",
        bare.join("\n")
    );
}

#[test]
fn no_file_is_named_for_nothing() {
    let empty = [
        "util", "utils", "helper", "helpers", "common", "manager", "types", "misc",
    ];
    let mut faults = Vec::new();

    for path in ["src", "ui", "tests"].iter().flat_map(|under| paths(under)) {
        let parts = path.split('/').map(|part| part.split('.').next().unwrap_or(part));
        if parts.into_iter().any(|part| empty.contains(&part)) {
            faults.push(path);
        }
    }

    assert!(
        faults.is_empty(),
        "name it for what lives in it:\n{}",
        faults.join("\n")
    );
}

#[test]
fn the_readme_opens_with_the_job() {
    let readme = pages("README.md").remove(0).text;
    let first = readme.split("\n\n").nth(1).unwrap();

    for word in ["step guide", "timer", "natural dyers", "pot"] {
        assert!(
            first.contains(word),
            "the first paragraph doesn't say `{word}`: {first}"
        );
    }
}
