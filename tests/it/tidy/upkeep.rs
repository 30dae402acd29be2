//! What has to stay in step: fixtures with tests, links with files, numbers with decisions, lines with reasons.

use super::scan::{pages, paths, top};
use std::collections::BTreeSet;
use std::path::Path;

/// Folders whose files exist only to be read by tests.
const FIXTURES: [&str; 3] = ["tests/recipes", "tests/tables", "ui/previews"];

/// Whether some test names the file, with or without its ending, or reads the whole folder it lies in.
fn is_used(path: &str, tests: &[String]) -> bool {
    let path = Path::new(path);
    let name = path.file_name().unwrap().to_str().unwrap();
    let stem = path.file_stem().unwrap().to_str().unwrap();
    let folder = path.parent().unwrap().to_str().unwrap();
    tests.iter().any(|text| {
        text.contains(name)
            || text.contains(&format!("\"{stem}\""))
            || text.contains(&format!("{folder}\""))
            || text.contains(&format!("{folder}/\""))
    })
}

#[test]
fn every_fixture_is_used() {
    let tests: Vec<String> = pages("tests")
        .into_iter()
        .filter(|page| page.extension() == "rs" && !page.path.starts_with("tests/it/tidy/"))
        .map(|page| page.text)
        .collect();
    // A preview may be built from samples that other previews import.
    let previews: Vec<String> = pages("ui/previews").into_iter().map(|page| page.text).collect();

    let idle: Vec<String> = FIXTURES
        .iter()
        .flat_map(|under| paths(under))
        .filter(|path| !path.ends_with(".md") && !is_used(path, &tests))
        .filter(|path| !(path.starts_with("ui/") && is_used(path, &previews)))
        .collect();

    assert!(idle.is_empty(), "no test reads these:\n{}", idle.join("\n"));
}

#[test]
fn planted_fixtures_are_judged() {
    let tests = ["table(\"boil.csv\"); script(\"short_day\"); walk(\"tests/recipes/bad\");".to_owned()];

    assert!(is_used("tests/tables/boil.csv", &tests));
    assert!(is_used("tests/scripts/short_day.txt", &tests));
    assert!(is_used("tests/recipes/bad/no_source.toml", &tests));
    assert!(!is_used("tests/recipes/good/plain.toml", &tests));
    assert!(!is_used("tests/tables/evaporation.csv", &tests));
}

#[test]
fn decisions_are_numbered_without_gap_or_double_and_say_three_things() {
    let decisions = pages("docs/decisions");

    for (expected, page) in (1..).zip(&decisions) {
        let number = format!("{expected:04}");
        let name = page.path.rsplit('/').next().unwrap();
        assert!(
            name.starts_with(&format!("{number}-")),
            "{name} should have the number {number}"
        );
        assert!(
            page.text.starts_with(&format!("# {number} ")),
            "{name} opens with its number and title"
        );
        for part in ["**Context.**", "**Decision.**", "**Consequence.**"] {
            assert!(page.text.contains(part), "{name} has no {part}");
        }
    }

    assert!(!decisions.is_empty());
}

/// Targets of a page's links and pictures that lie within the project, as written.
fn links(text: &str) -> BTreeSet<(bool, String)> {
    let mut found = BTreeSet::new();
    for (start, _) in text.match_indices("](") {
        let target = text[start + 2..].split([')', '#']).next().unwrap_or("");
        if target.is_empty() || target.contains("://") || target.contains(char::is_whitespace) {
            continue;
        }
        let label = text[..start].rfind('[').unwrap_or(0);
        found.insert((text[..label].ends_with('!'), target.to_owned()));
    }
    found
}

#[test]
fn what_the_pages_link_to_is_there() {
    // Pictures are drawn by the screens' own tests; they are owed from the moment their folder is there.
    let has_pictures = top().join("docs/pictures").is_dir();
    let mut dead = Vec::new();

    for page in ["README.md", "DEVELOPERS.md", "docs"]
        .iter()
        .flat_map(|under| pages(under))
    {
        if page.extension() != "md" {
            continue;
        }
        let folder = top().join(&page.path).parent().unwrap().to_owned();
        for (is_picture, target) in links(&page.text) {
            if (has_pictures || !is_picture) && !folder.join(&target).exists() {
                dead.push(format!("{} -> {target}", page.path));
            }
        }
    }

    assert!(dead.is_empty(), "dead links:\n{}", dead.join("\n"));
}

#[test]
fn the_commands_of_the_readme_are_there() {
    let readme = pages("README.md").remove(0).text;
    let script = pages(".ci/potside").remove(0).text;
    let ci = pages(".ci/run").remove(0).text;

    for word in ["run", "test"] {
        assert!(
            readme.contains(&format!("\n.ci/potside {word}\n")),
            "the README doesn't say how to {word}"
        );
        assert!(
            script.contains(&format!("\n        {word}) ")),
            ".ci/potside doesn't know {word}"
        );
    }
    assert!(
        ci.contains(".ci/potside test"),
        ".ci/run should start with the README's own test command"
    );
}

#[test]
fn the_rust_version_is_said_once_and_repeated_rightly() {
    let manifest = pages("Cargo.toml").remove(0).text;
    let readme = pages("README.md").remove(0).text;
    let (_, rest) = manifest.split_once("\nrust-version = \"").unwrap();
    let version = rest.split('"').next().unwrap();

    assert!(readme.contains(&format!("(https://rustup.rs) {version} or newer")));
}

#[test]
fn every_dependency_says_what_we_would_write_without_it() {
    let manifest = pages("Cargo.toml").remove(0);
    let mut section = "";
    let mut bare = Vec::new();

    for (number, line) in manifest.lines() {
        if line.starts_with('[') {
            section = line;
        } else if section.ends_with("dependencies]") && line.contains(" = ") && !line.contains("# ") {
            bare.push(format!("Cargo.toml:{number}: {line}"));
        }
    }

    assert!(
        bare.is_empty(),
        "give the reason on the line:\n{}",
        bare.join("\n")
    );
}
