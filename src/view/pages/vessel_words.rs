//! What pots, lids and burners are called on the glass. Their ids, which stand in files, are English and stay.

use crate::craft::vessel::{BurnerKind, Lid, PotMetal};
use crate::say;
use crate::view::locale::Locale;

/// What a pot is made of.
pub(super) fn metal(metal: PotMetal, locale: Locale) -> String {
    match metal {
        PotMetal::Stainless => say!(locale, "pot" => "stainless"),
        PotMetal::Enamel => say!(locale, "pot" => "enamel"),
        PotMetal::Aluminium => say!(locale, "pot" => "aluminium"),
        PotMetal::Copper => say!(locale, "pot" => "copper"),
        PotMetal::Iron => say!(locale, "pot" => "iron"),
        PotMetal::Glass => say!(locale, "pot" => "glass"),
    }
}

/// How a lid lies.
pub(super) fn lid(lid: Lid, locale: Locale) -> String {
    match lid {
        Lid::Off => say!(locale, "lid" => "off"),
        Lid::Loose => say!(locale, "lid" => "loose"),
        Lid::Tight => say!(locale, "lid" => "tight"),
    }
}

/// A kind of burner.
pub(super) fn burner(kind: BurnerKind, locale: Locale) -> String {
    match kind {
        BurnerKind::Induction => say!(locale, "burner" => "induction"),
        BurnerKind::Ceramic => say!(locale, "burner" => "glass-ceramic"),
        BurnerKind::Coil => say!(locale, "burner" => "electric plate"),
        BurnerKind::Gas => say!(locale, "burner" => "gas flame"),
    }
}
