//! Words made here and now: an English text with named holes, in the language of the dyer.

use std::fmt::{Display, Write as _};

use super::hole::next_hole;
use super::{Locale, catalogue};

/// Says an English text in the language of a locale. Holes are named, and each language puts them where it wants.
/// A context, where one English word has two meanings, stands before it.
///
/// ```
/// # use potside::{say, view::locale::{Language, Locale}};
/// # use chrono::Offset;
/// let locale = Locale::plain(chrono::Utc.fix());
/// assert_eq!(say!(locale, "step {at} of {count}", at = 4, count = 12), "step 4 of 12");
/// assert_eq!(say!(locale, "of goods" => "Dry"), "Dry");
/// ```
#[macro_export]
macro_rules! say {
    ($locale:expr, $context:literal => $text:literal $(, $hole:ident = $value:expr)* $(,)?) => {
        $locale.put(concat!($context, "\u{4}", $text), &[$((stringify!($hole), &$value)),*])
    };
    ($locale:expr, $text:literal $(, $hole:ident = $value:expr)* $(,)?) => {
        $locale.put($text, &[$((stringify!($hole), &$value)),*])
    };
}

/// Marks an English text that is said later, by [`Locale::say`](crate::view::locale::Locale::say) or
/// [`Locale::read`](crate::view::locale::Locale::read). With holes it is `format!`, and the finished sentence can be
/// read back.
#[macro_export]
macro_rules! msg {
    ($text:literal) => {
        $text
    };
    ($text:literal, $($rest:tt)+) => {
        format!($text, $($rest)+)
    };
}

impl Locale {
    /// An English text without holes, such as one marked by [`msg!`](crate::msg).
    #[must_use]
    pub fn say(self, english: &str) -> String {
        self.put(english, &[])
    }

    /// What `say!` calls: the text in this language with its holes filled. A hole that isn't given stays as it is
    /// written, so that it is seen.
    #[must_use]
    pub fn put(self, english: &str, holes: &[(&str, &dyn Display)]) -> String {
        let bare = english.rsplit('\u{4}').next().unwrap_or(english);
        let text = catalogue::find(self.language, english).unwrap_or(bare);
        filled(text, holes)
    }
}

fn filled(text: &str, holes: &[(&str, &dyn Display)]) -> String {
    let mut said = String::with_capacity(text.len());
    let mut rest = text;
    while let Some((before, name, after)) = next_hole(rest) {
        said.push_str(before);
        match holes.iter().find(|(hole, _)| *hole == name) {
            Some((_, value)) => {
                let _written = write!(said, "{value}");
            }
            None => {
                let _written = write!(said, "{{{name}}}");
            }
        }
        rest = after;
    }
    said.push_str(rest);
    said
}
