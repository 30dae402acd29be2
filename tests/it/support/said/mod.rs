//! Everything that is said on the glass, gathered from where it stands: the sources, the screens, the built-in book.
//! A translator's catalogue has to have it all, and nothing else.

pub mod catalogue;
mod holes;
mod pages;
mod screens;
mod sources;

use std::collections::BTreeMap;
use std::sync::LazyLock;

pub use holes::{Hole, holes};

/// One English text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Text {
    /// Which of its meanings, where it has several.
    pub context: Option<String>,
    /// The text, its holes named.
    pub english: String,
    /// Where it stands, as a translator's tool shows it.
    pub place: String,
    /// Whether it reaches the glass as a finished sentence.
    pub is_read_back: bool,
}

/// What names an entry: context and text.
pub type Id = (Option<String>, String);

impl Text {
    /// What names its entry.
    pub fn id(&self) -> Id {
        (self.context.clone(), self.english.clone())
    }
}

/// Which file of a language a text belongs into.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Catalogue {
    /// What the program says.
    Program,
    /// What the built-in book and work lists say, and the program doesn't.
    Book,
}

impl Catalogue {
    /// Both.
    pub const ALL: [Self; 2] = [Self::Program, Self::Book];

    /// Its file in each language.
    pub const fn file(self) -> &'static str {
        match self {
            Self::Program => "potside.po",
            Self::Book => "book.po",
        }
    }

    /// What it has to have, each text once, by place and then as they stand there.
    pub fn texts(self) -> &'static [Text] {
        static TEXTS: LazyLock<(Vec<Text>, Vec<Text>)> = LazyLock::new(|| {
            let program = each_once(sources::texts().into_iter().chain(screens::texts()));
            let mut book = each_once(pages::texts());
            book.retain(|text| program.iter().all(|other| other.id() != text.id()));
            (program, book)
        });
        match self {
            Self::Program => &TEXTS.0,
            Self::Book => &TEXTS.1,
        }
    }
}

/// One of several: the first place stands for all, and to be read back at one of them is to be read back.
fn each_once(texts: impl IntoIterator<Item = Text>) -> Vec<Text> {
    let mut once: Vec<Text> = Vec::new();
    let mut at: BTreeMap<Id, usize> = BTreeMap::new();
    for text in texts {
        let index = *at.entry(text.id()).or_insert(once.len());
        match once.get_mut(index) {
            Some(known) => known.is_read_back |= text.is_read_back,
            None => once.push(text),
        }
    }
    once
}

/// Every file with an ending under a folder of the project, in order: its path and its text.
fn files(under: &str, ending: &str) -> Vec<(String, String)> {
    let top = std::path::Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut folders = vec![top.join(under)];
    let mut found = Vec::new();
    while let Some(folder) = folders.pop() {
        for entry in std::fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                folders.push(path);
            } else if path.extension().is_some_and(|own| own == ending) {
                let name = path
                    .strip_prefix(top)
                    .unwrap()
                    .to_str()
                    .unwrap()
                    .replace('\\', "/");
                found.push((name, std::fs::read_to_string(&path).unwrap()));
            }
        }
    }
    found.sort();
    found
}

/// Whether a text has words of its own outside its holes.
fn has_words(english: &str) -> bool {
    let mut is_inside = false;
    english.chars().any(|letter| {
        is_inside = match letter {
            '{' => true,
            '}' => false,
            _ => is_inside,
        };
        !is_inside && letter.is_alphabetic()
    })
}
