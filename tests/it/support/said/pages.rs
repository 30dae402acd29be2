//! Texts of the built-in book and of the built-in work lists. Sources are quoted as they are printed.

use super::{Text, files};

/// The keys that hold words for the dyer. `cautions` holds a list of them.
const KEYS: [&str; 6] = ["name", "about", "how", "caution", "sign", "cautions"];

/// All of them, file by file, and in each by key and text.
///
/// # Panics
/// If a page isn't TOML.
pub(super) fn texts() -> Vec<Text> {
    let mut found = Vec::new();
    for folder in ["src/recipe/book", "src/shelf/lists"] {
        for (path, page) in files(folder, "toml") {
            let page: toml::Table = page.parse().unwrap_or_else(|fault| panic!("{path}: {fault}"));
            let file = path.rsplit('/').next().unwrap_or(&path);
            let mut of_page = Vec::new();
            walk(&toml::Value::Table(page), &[], &mut of_page);
            of_page.sort();
            found.extend(of_page.into_iter().map(|(key, english)| Text {
                context: None,
                english,
                place: format!("{file} {key}"),
                is_read_back: false,
            }));
        }
    }
    found
}

fn walk(value: &toml::Value, keys: &[&str], found: &mut Vec<(String, String)>) {
    match value {
        toml::Value::Table(table) => {
            for (key, value) in table {
                walk(value, &[keys, &[key]].concat(), found);
            }
        }
        toml::Value::Array(values) => values.iter().for_each(|value| walk(value, keys, found)),
        toml::Value::String(text) if keys.last().is_some_and(|key| KEYS.contains(key)) => {
            found.push((keys.join("."), text.clone()));
        }
        _ => {}
    }
}

#[test]
fn words_of_a_page_are_seen_and_its_keys_and_sources_are_not() {
    let page = "id = \"x\"\nname = \"A\"\ncautions = [\"B\", \"C\"]\n[[step]]\ndo = \"dip\"\nhow = \"D\"\nsource = \"E\"";
    let mut found = Vec::new();
    walk(&toml::Value::Table(page.parse().unwrap()), &[], &mut found);
    found.sort();

    let texts: Vec<_> = found.iter().map(|(key, text)| format!("{key} {text}")).collect();
    assert_eq!(texts, ["cautions B", "cautions C", "name A", "step.how D"]);
}
