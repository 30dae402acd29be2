//! The catalogues of translations against everything that is said on the glass.
//!
//! `UPDATE_CATALOGUE=1 cargo test --test it locale_catalogue` brings the files of every language into step with what
//! is said: new texts come in empty, texts that nobody says any more go out. It fails once, so that nobody does it by
//! accident; then the empty ones are for a translator.

use std::collections::{BTreeMap, BTreeSet};

use chrono::{FixedOffset, Offset as _, Utc};
use potside::view::locale::{Habits, Language, Locale, TYPED};

use crate::support::said::catalogue::{
    READ_BACK, TRANSLATED, bring_into_step, entries, id_of, path, translations,
};
use crate::support::said::{Catalogue, Hole, Id, Text, holes};

fn every_text() -> impl Iterator<Item = &'static Text> {
    Catalogue::ALL.into_iter().flat_map(Catalogue::texts)
}

fn none(faults: &[String], remedy: &str) {
    assert!(faults.is_empty(), "{remedy}:\n{}", faults.join("\n"));
}

#[test]
fn the_catalogues_have_every_text_and_no_other() {
    if std::env::var_os("UPDATE_CATALOGUE").is_some() {
        TRANSLATED.into_iter().for_each(bring_into_step);
        panic!("the catalogues are in step now; build and run the tests anew");
    }
    let mut faults = Vec::new();
    for language in TRANSLATED {
        for which in Catalogue::ALL {
            let said: BTreeMap<Id, &Text> = which.texts().iter().map(|text| (text.id(), text)).collect();
            let mut listed = BTreeSet::new();
            let name = format!("{}/{}", language.tag(), which.file());
            for entry in entries(language, which) {
                let id = id_of(&entry);
                match said.get(&id) {
                    None => faults.push(format!("{name}: nobody says {:?}", entry.msgid)),
                    Some(text) if text.is_read_back != (entry.comment.as_deref() == Some(READ_BACK)) => {
                        faults.push(format!("{name}: `#. {READ_BACK}` is wrong of {:?}", entry.msgid));
                    }
                    Some(_) if entry.fuzzy() || entry.obsolete || entry.msgid_plural.is_some() => {
                        faults.push(format!("{name}: not a plain, settled entry: {:?}", entry.msgid));
                    }
                    Some(_) => {}
                }
                if !listed.insert(id) {
                    faults.push(format!("{name}: twice: {:?}", entry.msgid));
                }
            }
            let missing = said.values().filter(|text| !listed.contains(&text.id()));
            faults.extend(missing.map(|text| format!("{name}: {} says {:?}", text.place, text.english)));
        }
    }
    none(&faults, "run it with UPDATE_CATALOGUE=1");
}

#[test]
fn every_text_is_translated() {
    let mut faults = Vec::new();
    for language in TRANSLATED {
        let said = translations(language);
        for text in every_text() {
            if said.get(&text.id()).is_none_or(|said| said.trim().is_empty()) {
                faults.push(format!("{}: {}: {:?}", language.tag(), text.place, text.english));
            }
        }
    }
    none(&faults, "translate");
}

fn holes_of(text: &str) -> BTreeSet<Hole> {
    holes(text).into_iter().collect()
}

#[test]
fn a_translation_has_the_holes_of_its_text_and_their_units() {
    let mut faults = Vec::new();
    for language in TRANSLATED {
        for ((_, english), said) in translations(language) {
            if !said.is_empty() && holes_of(&english) != holes_of(&said) {
                faults.push(format!("{}: {english:?} is {said:?}", language.tag()));
            }
        }
    }
    none(&faults, "the same holes, each with its unit behind it");
}

#[test]
fn every_letter_of_a_translation_is_in_the_embedded_fonts() {
    let fonts = [
        &include_bytes!("../../ui/fonts/B612-Regular.otf")[..],
        &include_bytes!("../../ui/fonts/B612-Bold.otf")[..],
    ]
    .map(|font| ttf_parser::Face::parse(font, 0).unwrap());
    let mut faults = BTreeSet::new();
    for language in TRANSLATED {
        for said in translations(language).into_values() {
            for letter in said.chars().filter(|letter| *letter != '\n') {
                if fonts.iter().any(|font| font.glyph_index(letter).is_none()) {
                    faults.insert(format!("{}: {letter:?} in {said:?}", language.tag()));
                }
            }
        }
    }
    none(&Vec::from_iter(faults), "say it with other letters");
}

/// What stands in the holes of a sample: numbers alone, or words that nobody knows where no unit follows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Filling {
    Numbers,
    Words,
}

impl Filling {
    fn value(self, hole: &Hole, index: usize) -> String {
        match self {
            Self::Words if hole.unit.is_none() => format!("Quorx zwimb{index}"),
            Self::Numbers | Self::Words => format!("{}.5", index + 2),
        }
    }

    /// A finished sentence, by the values of its holes.
    fn filled(self, text: &str, values: &BTreeMap<String, String>) -> String {
        values.iter().fold(text.to_owned(), |text, (name, value)| {
            text.replace(&format!("{{{name}}}"), value)
        })
    }
}

/// Words of its own, of two letters and more.
fn own_words(english: &str) -> usize {
    let mut own = String::new();
    for part in english.split('{') {
        own.push_str(part.split_once('}').map_or(part, |(_, after)| after));
        own.push(' ');
    }
    own.split_whitespace()
        .filter(|word| word.chars().filter(|letter| letter.is_alphabetic()).count() > 1)
        .count()
}

#[test]
fn every_finished_sentence_is_read_back_as_itself() {
    let zone: FixedOffset = Utc.fix();
    let mut faults = Vec::new();
    let sentences: Vec<&Text> = every_text().filter(|text| text.is_read_back).collect();
    for language in TRANSLATED {
        let locale = Locale {
            language,
            habits: Habits::METRIC,
            zone,
        };
        let said = translations(language);
        for text in &sentences {
            // One word of its own may stand in a dyer's sentence too; then what is in the holes has to be known.
            let fillings: &[Filling] = match own_words(&text.english) {
                0 => {
                    faults.push(format!("no word of its own: {:?}", text.english));
                    continue;
                }
                1 => &[Filling::Numbers],
                _ => &[Filling::Numbers, Filling::Words],
            };
            let own = said
                .get(&text.id())
                .filter(|said| !said.is_empty())
                .unwrap_or(&text.english);
            for filling in fillings {
                let mut plain = BTreeMap::new();
                let mut as_read = BTreeMap::new();
                for (index, hole) in holes_of(&text.english).into_iter().enumerate() {
                    let value = filling.value(&hole, index);
                    let said = match TYPED.contains(&hole.name.as_str()) {
                        true => value.clone(),
                        false => value.replace('.', &locale.language.decimal_sign().to_string()),
                    };
                    as_read.insert(hole.name.clone(), said);
                    plain.insert(hole.name, value);
                }
                let sample = filling.filled(&text.english, &plain);
                let expected = filling.filled(&with_degrees(own), &as_read);
                let read = locale.read(&sample);
                if read != expected {
                    faults.push(format!("{sample:?}\n    is read {read:?}\n    not {expected:?}"));
                }
            }
        }
    }
    none(&faults, "put it so that it can be told from the others");
}

/// The sign of degrees comes in where an English sentence has the bare unit.
fn with_degrees(said: &str) -> String {
    let mut out = String::new();
    let mut rest = said;
    while let Some((before, after)) = rest.split_once("} C") {
        out.push_str(before);
        let is_unit = !after.starts_with(|next: char| next.is_alphanumeric() || next == '/');
        out.push_str(if is_unit { "} \u{b0}C" } else { "} C" });
        rest = after;
    }
    out.push_str(rest);
    out
}

#[test]
fn english_has_no_catalogue_and_every_other_language_has_both() {
    for language in Language::ALL {
        for which in Catalogue::ALL {
            assert_eq!(
                path(language, which).is_file(),
                language != Language::English,
                "{} {}",
                language.tag(),
                which.file()
            );
        }
    }
}
