//! What the catalogues of the book say, read from their files line by line: nothing of the program is asked.

const GERMAN: &str = include_str!("../../../src/view/locale/po/de/LC_MESSAGES/book.po");
const FRENCH: &str = include_str!("../../../src/view/locale/po/fr/LC_MESSAGES/book.po");

/// The translation of a text of the book; the text itself where there is none.
pub fn said(language: &str, english: &str) -> String {
    let file = match language {
        "de" => GERMAN,
        "fr" => FRENCH,
        other => panic!("no catalogue of {other}"),
    };
    let key = format!("msgid \"{}\"", english.replace('"', "\\\""));
    let mut lines = file.lines().skip_while(|line| *line != key).skip(1);
    let Some(line) = lines.next() else {
        return english.to_owned();
    };
    let text = line
        .strip_prefix("msgstr \"")
        .and_then(|rest| rest.strip_suffix('"'))
        .unwrap_or_else(|| panic!("{line:?} is no translation on one line"));
    text.replace("\\\"", "\"")
}
