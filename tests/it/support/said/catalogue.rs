//! The catalogues of translations as files.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use potside::view::locale::Language;
use rspolib::POEntry;

use super::{Catalogue, Id, Text};

/// The comment of an entry that is read back out of a finished sentence; `ui/build.rs` goes by it.
pub const READ_BACK: &str = "read back";

/// The languages that have catalogues.
pub const TRANSLATED: [Language; 2] = [Language::German, Language::French];

/// Where a catalogue lies.
pub fn path(language: Language, which: Catalogue) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("src/view/locale/po")
        .join(language.tag())
        .join("LC_MESSAGES")
        .join(which.file())
}

/// The entries of a catalogue.
///
/// # Panics
/// If the file isn't one.
pub fn entries(language: Language, which: Catalogue) -> Vec<POEntry> {
    let path = path(language, which);
    let file = rspolib::pofile(path.as_path()).unwrap_or_else(|fault| panic!("{}: {fault}", path.display()));
    file.entries
}

/// What names an entry.
pub fn id_of(entry: &POEntry) -> Id {
    (entry.msgctxt.clone(), entry.msgid.clone())
}

/// What all the catalogues of a language say, empty where nothing is said yet.
pub fn translations(language: Language) -> BTreeMap<Id, String> {
    let both = Catalogue::ALL.map(|which| entries(language, which));
    both.into_iter()
        .flatten()
        .map(|entry| (id_of(&entry), entry.msgstr.unwrap_or_default()))
        .collect()
}

/// Brings the catalogues of a language into step: what is missing comes in empty, what nobody says goes out, the order
/// is that of the places. What is translated stays, also where it changes the file.
///
/// # Panics
/// If a file can't be written.
pub fn bring_into_step(language: Language) {
    let mut known: BTreeMap<Id, POEntry> = BTreeMap::new();
    for which in Catalogue::ALL {
        for entry in entries(language, which) {
            let is_said = entry.msgstr.as_ref().is_some_and(|said| !said.is_empty());
            if !entry.obsolete && (is_said || !known.contains_key(&id_of(&entry))) {
                known.insert(id_of(&entry), entry);
            }
        }
    }
    for which in Catalogue::ALL {
        let path = path(language, which);
        let old = std::fs::read_to_string(&path).unwrap();
        let (head, _) = old.split_once("\n\n").unwrap_or((old.trim_end(), ""));
        let entries: String = which
            .texts()
            .iter()
            .map(|text| {
                format!(
                    "\n{}",
                    in_step(known.get(&text.id()), text).to_string_with_wrapwidth(WIDE)
                )
            })
            .collect();
        std::fs::write(&path, format!("{head}\n{entries}")).unwrap();
    }
}

/// No line is broken: translators' tools show them whole.
const WIDE: usize = 100_000;

fn in_step(known: Option<&POEntry>, text: &Text) -> POEntry {
    let mut entry = known.cloned().unwrap_or_default();
    entry.msgctxt.clone_from(&text.context);
    entry.msgid.clone_from(&text.english);
    entry.msgstr.get_or_insert_default();
    entry.comment = text.is_read_back.then(|| READ_BACK.to_owned());
    entry.occurrences = vec![(text.place.clone(), String::new())];
    entry
}
