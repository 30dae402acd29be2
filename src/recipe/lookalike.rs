//! Names that could be taken for others: no fault, but worth a word to the reader.

use super::book;
use super::model::{Recipe, Ware};
use crate::craft::substance::Substance;

/// Something a reader of the recipe should know before trusting a name in it.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum Warning {
    /// Letters of two alphabets in one word, such as a Cyrillic letter in a Latin name.
    #[error("\"{word}\" mixes letters of two alphabets, which can look alike")]
    MixedAlphabets {
        /// The word.
        word: String,
    },
    /// Two names of the recipe differ only in what the eye passes over.
    #[error("\"{one}\" and \"{other}\" look alike")]
    NamesLookAlike {
        /// The first name.
        one: String,
        /// The later one.
        other: String,
    },
    /// A dyestuff is called like a substance of the shelf.
    #[error("the dyestuff \"{name}\" is called like {}, and is not taken for it", .substance.name())]
    DyestuffCalledSubstance {
        /// The dyestuff's name.
        name: String,
        /// The substance it sounds like.
        substance: Substance,
    },
    /// The recipe is called like one of the book, but is another.
    #[error("the recipe is called like \"{id}\" of the built-in book, but is not it")]
    CalledLikeTheBook {
        /// The built-in recipe's id.
        id: String,
    },
}

/// What is worth a word in a recipe that has no fault.
#[must_use]
pub fn warnings(recipe: &Recipe) -> Vec<Warning> {
    let mut found = Vec::new();
    let names = names(recipe);
    for name in std::iter::once(recipe.name.as_str()).chain(names.iter().copied()) {
        for word in name.split_whitespace().filter(|word| mixes_alphabets(word)) {
            found.push(Warning::MixedAlphabets {
                word: word.to_owned(),
            });
        }
    }
    for (index, one) in names.iter().enumerate() {
        for other in names.iter().skip(index.saturating_add(1)) {
            if looks(one) == looks(other) {
                found.push(Warning::NamesLookAlike {
                    one: (*one).to_owned(),
                    other: (*other).to_owned(),
                });
            }
        }
        let substance = Substance::ALL
            .into_iter()
            .find(|substance| [looks(substance.name()), looks(substance.id())].contains(&looks(one)));
        if let Some(substance) = substance {
            found.push(Warning::DyestuffCalledSubstance {
                name: (*one).to_owned(),
                substance,
            });
        }
    }
    let namesake = book::all()
        .iter()
        .find(|own| looks(&own.name) == looks(&recipe.name) || own.id == recipe.id);
    if let Some(own) = namesake
        && own.as_ref() != recipe
    {
        found.push(Warning::CalledLikeTheBook { id: own.id.clone() });
    }
    found
}

fn names(recipe: &Recipe) -> Vec<&str> {
    recipe
        .additions
        .iter()
        .filter_map(|addition| match &addition.ware {
            Ware::Substance(_) => None,
            Ware::Dyestuff { name, .. } => Some(name.as_str()),
        })
        .collect()
}

/// Latin beside Cyrillic or Greek in one word. Other pairs of alphabets have few letters that look alike.
fn mixes_alphabets(word: &str) -> bool {
    let is_latin = |c: char| {
        c.is_ascii_alphabetic()
            || ('\u{c0}'..='\u{24f}').contains(&c)
            || ('\u{1e00}'..='\u{1eff}').contains(&c)
    };
    let is_cyrillic = |c: char| ('\u{400}'..='\u{52f}').contains(&c);
    let is_greek = |c: char| ('\u{370}'..='\u{3ff}').contains(&c) || ('\u{1f00}'..='\u{1fff}').contains(&c);
    let alphabets = [
        word.chars().any(is_latin),
        word.chars().any(is_cyrillic),
        word.chars().any(is_greek),
    ];
    alphabets.into_iter().filter(|present| *present).count() > 1
}

/// A name as the passing eye has it: no case, no blanks or hyphens, digits as the letters they resemble, and the Cyrillic
/// and Greek letters that are drawn like Latin ones as those.
fn looks(name: &str) -> String {
    name.to_lowercase()
        .chars()
        .filter(|c| c.is_alphanumeric())
        .map(|c| match c {
            '0' | '\u{43e}' | '\u{3bf}' => 'o',
            '1' | 'i' | '\u{456}' | '\u{3b9}' => 'l',
            '5' => 's',
            '\u{430}' | '\u{3b1}' => 'a',
            '\u{435}' => 'e',
            '\u{440}' | '\u{3c1}' => 'p',
            '\u{441}' => 'c',
            '\u{443}' => 'y',
            '\u{445}' => 'x',
            other => other,
        })
        .collect()
}
