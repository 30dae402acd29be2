//! What stands on the shelf to be weighed into baths: salts, salts known by their label, dyestuffs.

use std::fmt;

use super::weight::Milligrams;
use crate::craft::reading;
use crate::craft::salts::{AluminiumLabel, OnShelf};
use crate::craft::substance::Substance;
use crate::msg;
use crate::recipe::hidden::shown;
use crate::recipe::model::Form;
use crate::recipe::never::never_offered;
use crate::recipe::raw::{NAME_CHARACTERS_MOST, is_kebab};
use crate::sheet::LABELLED_SALT_ID;

/// The tag of a supply, such as `S3`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct SupplyId(u32); // Invariant: 1 to NUMBER_MAX.

/// A text or number that is no supply's tag.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error(
    "{text:?} is no supply; a supply is S and a number from 1 to {most}, such as S3",
    most = SupplyId::NUMBER_MAX
)]
pub struct NotASupply {
    /// What was offered, cut to its first 20 characters.
    pub text: String,
}

impl SupplyId {
    /// The highest number.
    pub const NUMBER_MAX: u32 = 9_999;

    /// The supply of a number, 1 to [`Self::NUMBER_MAX`].
    ///
    /// # Errors
    /// [`NotASupply`] for any other number.
    pub fn from_number(number: u32) -> Result<Self, NotASupply> {
        if (1..=Self::NUMBER_MAX).contains(&number) {
            Ok(Self(number))
        } else {
            Err(NotASupply {
                text: format!("S{number}"),
            })
        }
    }

    /// The supply of a tag: `S3`, or `s3`.
    ///
    /// # Errors
    /// [`NotASupply`] for anything else.
    pub fn from_text(text: &str) -> Result<Self, NotASupply> {
        let not = || NotASupply {
            text: text.chars().take(20).collect(),
        };
        let digits = text.strip_prefix(['S', 's']).ok_or_else(not)?;
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

impl fmt::Display for SupplyId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "S{}", self.0)
    }
}

/// The aluminium that a label states: `17 % Al2O3` or `9 % Al`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Label {
    percent: f64,
    is_alumina: bool,
    aluminium: AluminiumLabel,
}

impl Label {
    /// The label of a text.
    ///
    /// # Errors
    /// One line on what would do.
    pub fn from_text(text: &str) -> Result<Self, String> {
        let (share, is_alumina) = match (text.trim().strip_suffix("Al2O3"), text.trim().strip_suffix("Al")) {
            (Some(share), _) => (share, true),
            (None, Some(share)) => (share, false),
            (None, None) => {
                return Err(msg!("a label states aluminium, such as 17 % Al2O3 or 9 % Al").to_owned());
            }
        };
        let percent = reading::share(share.trim()).map_err(|fault| fault.to_string())?;
        let aluminium = match is_alumina {
            true => AluminiumLabel::percent_alumina(percent),
            false => AluminiumLabel::percent_aluminium(percent),
        };
        Ok(Self {
            percent,
            is_alumina,
            aluminium: aluminium.map_err(|fault| fault.to_string())?,
        })
    }

    /// What it comes to.
    #[must_use]
    pub const fn aluminium(self) -> AluminiumLabel {
        self.aluminium
    }
}

impl fmt::Display for Label {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let of = if self.is_alumina { "Al2O3" } else { "Al" };
        write!(f, "{} % {of}", self.percent)
    }
}

/// What a supply is.
#[derive(Debug, Clone, PartialEq)]
pub enum Stock {
    /// A substance of known identity.
    Salt(Substance),
    /// An aluminium salt of which only the label is known.
    Labelled(Label),
    /// A plant, an insect, or what was made of it.
    Dyestuff {
        /// Kebab-case id, as recipes name it.
        id: String,
        /// Fresh, dried, ground or extract.
        form: Form,
    },
}

impl Stock {
    /// What a dyer types: `potash-alum`, or a dyestuff and its form, `madder-root,dried`.
    ///
    /// # Errors
    /// One line on what would do.
    pub fn from_words(text: &str) -> Result<Self, String> {
        let Some((id, form)) = text.split_once(',') else {
            return reading::substance(text).map(Self::Salt).map_err(|fault| {
                msg!(
                    "{fault}; or a dyestuff with its form: madder-root,dried; or a label: 17%Al2O3",
                    fault = fault
                )
            });
        };
        let (id, form) = (id.trim(), form.trim());
        let form = Form::from_id(form).ok_or_else(|| {
            msg!(
                "\"{word}\" is no form; write fresh, dried, ground or extract",
                word = shown(form)
            )
        })?;
        if let Some(never) = never_offered(id) {
            return Err(msg!(
                "{id} is never offered: {why}; {instead}",
                id = id,
                why = never.why(),
                instead = never.instead()
            ));
        }
        if !is_kebab(id) || id.len() > NAME_CHARACTERS_MOST {
            return Err(msg!(
                "\"{word}\" is not in small letters, digits and single hyphens; write it like madder-root",
                word = shown(id)
            ));
        }
        Ok(Self::Dyestuff {
            id: id.to_owned(),
            form,
        })
    }

    /// The id of the ware, as recipes, plans and records have it.
    #[must_use]
    pub fn ware(&self) -> &str {
        match self {
            Self::Salt(substance) => substance.id(),
            Self::Labelled(_) => LABELLED_SALT_ID,
            Self::Dyestuff { id, .. } => id,
        }
    }

    /// The salt of it, for exchange by chemistry.
    #[must_use]
    pub const fn salt(&self) -> Option<OnShelf> {
        match self {
            Self::Salt(substance) => Some(OnShelf::Known(*substance)),
            Self::Labelled(label) => Some(OnShelf::Label(label.aluminium())),
            Self::Dyestuff { .. } => None,
        }
    }

    /// The form of a dyestuff.
    #[must_use]
    pub const fn form(&self) -> Option<Form> {
        match self {
            Self::Salt(_) | Self::Labelled(_) => None,
            Self::Dyestuff { form, .. } => Some(*form),
        }
    }
}

/// Something that stands on the shelf.
#[derive(Debug, Clone, PartialEq)]
pub struct Supply {
    /// Its tag.
    pub id: SupplyId,
    /// What it is.
    pub stock: Stock,
    /// What the dyer calls it.
    pub name: String,
    /// What is left.
    pub left: Milligrams,
    /// The dyer's own mark for running low.
    pub low: Option<Milligrams>,
    /// Where and when it came from, or whatever the dyer wants to remember.
    pub note: Option<String>,
}
