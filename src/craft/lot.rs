//! The tag of a lot of goods: short, sayable, legible on wet paper, never given twice.

use std::fmt;

/// The tag of a lot: `L12` on the skein, said *lot twelve*.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct LotId(u32); // Invariant: 1 to NUMBER_MAX.

/// A text or number that is no lot's tag.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error(
    "{text:?} is no lot; a lot is L and a number from 1 to {}, such as L12",
    LotId::NUMBER_MAX
)]
pub struct NotALot {
    /// What was offered, cut to its first 20 characters.
    pub text: String,
}

impl LotId {
    /// The highest number.
    pub const NUMBER_MAX: u32 = 99_999;

    /// The lot of a number, 1 to [`Self::NUMBER_MAX`].
    ///
    /// # Errors
    /// [`NotALot`] for any other number.
    pub fn from_number(number: u32) -> Result<Self, NotALot> {
        if (1..=Self::NUMBER_MAX).contains(&number) {
            Ok(Self(number))
        } else {
            Err(NotALot {
                text: format!("L{number}"),
            })
        }
    }

    /// The lot of a tag: `L12`, or `l12` as it is typed in a hurry.
    ///
    /// ```
    /// use potside::craft::lot::LotId;
    /// assert_eq!(LotId::from_text("l12").unwrap().to_string(), "L12");
    /// assert!(LotId::from_text("L012").is_err()); // One lot, one way to write it.
    /// ```
    ///
    /// # Errors
    /// [`NotALot`] for anything else.
    pub fn from_text(text: &str) -> Result<Self, NotALot> {
        let not = || NotALot {
            text: text.chars().take(20).collect(),
        };
        let digits = text.strip_prefix(['L', 'l']).ok_or_else(not)?;
        let is_plain = !digits.starts_with('0') && digits.bytes().all(|byte| byte.is_ascii_digit());
        let number = digits.parse().ok().filter(|_| is_plain).ok_or_else(not)?;
        Self::from_number(number).map_err(|_| not())
    }

    /// Its number.
    #[must_use]
    pub const fn number(self) -> u32 {
        self.0
    }
}

impl fmt::Display for LotId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "L{}", self.0)
    }
}
