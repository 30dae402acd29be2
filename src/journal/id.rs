//! Names of baths and of acts, safe as file names and in any editor.

use std::fmt;

/// A text that can't name a bath or an act.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error(
    "{what} {text:?} is not usable; it takes 1 to {length_max} of a-z, 0-9 and -, and doesn't start with -"
)]
pub struct BadId {
    /// What it was to name.
    pub what: &'static str,
    /// The text offered, cut to its first 80 characters.
    pub text: String,
    /// The most characters it may have.
    pub length_max: usize,
}

macro_rules! id {
    ($(#[$doc:meta])* $name:ident, $what:literal) => {
        $(#[$doc])*
        #[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
        pub struct $name(String); // Invariant: 1 to LENGTH_MAX of a-z, 0-9, '-', not starting with '-'.

        impl $name {
            /// The most characters.
            pub const LENGTH_MAX: usize = 64;

            /// The id a text is, or why it is none.
            pub fn from_text(text: &str) -> Result<Self, BadId> {
                let fits = (1..=Self::LENGTH_MAX).contains(&text.len());
                if fits && !text.starts_with('-') && text.bytes().all(is_id_byte) {
                    Ok(Self(text.to_owned()))
                } else {
                    let text = text.chars().take(80).collect();
                    Err(BadId { what: $what, text, length_max: Self::LENGTH_MAX })
                }
            }

            /// The text.
            #[must_use]
            pub fn as_str(&self) -> &str {
                &self.0
            }
        }

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str(&self.0)
            }
        }
    };
}

id!(
    /// The name of one bath; also the name of its folder and of its page in the daybook.
    BathId, "bath id"
);
id!(
    /// The name of one confirmed act. An act that is already kept isn't kept twice, so repeating one is harmless.
    ActId, "act id"
);

const fn is_id_byte(byte: u8) -> bool {
    matches!(byte, b'a'..=b'z' | b'0'..=b'9' | b'-')
}
