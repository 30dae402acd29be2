//! Lots and supplies in finished words.

use crate::craft::basis::WeighedAs;
use crate::machine::PotNo;
use crate::recipe::model::BathKind;
use crate::say;
use crate::shelf::{Came, Condition, Lot, LowBy, Stage, condition};
use crate::view::locale::Locale;
use crate::view::lot_words::{came, lot_name};
use crate::view::pages::page::Facts;
use crate::view::screen::{Block, BlockLook, Icon, SideAct};

use super::pot_of;

/// `L3  brown fleece`.
pub(in crate::view::pages) fn tag_and_name(lot: &Lot, locale: Locale) -> String {
    format!("{}  {}", lot.id, lot_name(&lot.name, locale))
}

/// `4 hanks`.
pub(super) fn hanks(count: u32, locale: Locale) -> String {
    if count == 1 {
        say!(locale, "1 hank")
    } else {
        say!(locale, "{hanks} hanks", hanks = count)
    }
}

/// `wool, mordanted (Alum, studio), 4 hanks`.
pub(super) fn what(lot: &Lot, condition: &Condition, locale: Locale) -> String {
    format!(
        "{}, {}, {}",
        locale.read(lot.fibre.name()),
        stage(condition, locale),
        hanks(lot.hanks, locale)
    )
}

/// How far goods have come, and by what.
fn stage(condition: &Condition, locale: Locale) -> String {
    let word = match condition.stage {
        Stage::Raw => return came(Came::Raw, locale),
        Stage::Scoured => return came(Came::Scoured, locale),
        Stage::Tannined => say!(locale, "tannined"),
        Stage::Mordanted => say!(locale, "mordanted"),
        Stage::Fixed => say!(locale, "mordanted and fixed"),
        Stage::Dyed => say!(locale, "dyed"),
        Stage::AfterBath => say!(locale, "dyed and after-bathed"),
    };
    match condition.past.last() {
        Some(past) => format!("{word} ({})", locale.read(&past.name)),
        None => word,
    }
}

/// How a weight was weighed: `air-dry`, `in the grease, 20 % washes out`.
pub(super) fn weighed_as(state: WeighedAs, locale: Locale) -> String {
    let number = |percent: f64| locale.pointed(&percent.to_string());
    match state {
        WeighedAs::AirDry => say!(locale, "air-dry"),
        WeighedAs::OvenDry => say!(locale, "oven-dry"),
        WeighedAs::Damp { water_percent } => {
            say!(locale, "damp, {percent} % water", percent = number(water_percent))
        }
        WeighedAs::Spun => say!(locale, "of goods" => "spun"),
        WeighedAs::InTheGrease { loss_percent } => say!(
            locale,
            "in the grease, {percent} % washes out",
            percent = number(loss_percent)
        ),
    }
}

/// What to mind of a lot, the most pressing first, each as what and why or what to do.
pub(super) fn advice(lot: &Lot, facts: &Facts<'_>) -> Vec<(String, String)> {
    let locale = facts.locale;
    let condition = condition(facts.shelf, lot);
    let mut advice = Vec::new();
    if let Some(PotNo(pot)) = pot_of(facts.machine, lot.id) {
        advice.push((
            say!(locale, "in pot {pot} now", pot = pot),
            say!(locale, "its bath has to end first"),
        ));
    }
    for stopped in &condition.stopped {
        advice.push((
            say!(
                locale,
                "{name} was stopped on {on}",
                name = locale.read(&stopped.name),
                on = locale.date(stopped.on)
            ),
            say!(
                locale,
                "what it did to the goods isn't known: see its record, and dye a sample first"
            ),
        ));
    }
    if lot.is_weighed_in_the_grease() && condition.stage > Stage::Raw {
        advice.push((
            say!(locale, "weighed in the grease, and scoured since"),
            say!(
                locale,
                "weigh it again, dry: grease counted as fibre makes every addition too strong"
            ),
        ));
    }
    if let Some(keeping) = condition.keeping {
        advice.push(if keeping.may_be_tender(facts.today) {
            (
                say!(locale, "mordanted on {day}", day = locale.date(keeping.since)),
                say!(
                    locale,
                    "pull at a thread before dyeing: alum kept for months may tender (common practice, no source)"
                ),
            )
        } else if keeping.is_over(facts.today) {
            (
                say!(
                    locale,
                    "mordanted over a month ago, on {day}",
                    day = locale.date(keeping.since)
                ),
                say!(
                    locale,
                    "dye it next, and a sample of it first (common practice, no source)"
                ),
            )
        } else {
            (
                say!(locale, "best dyed by {day}", day = locale.date(keeping.best_by)),
                say!(
                    locale,
                    "within about a month of the mordant (common practice, no source)"
                ),
            )
        });
    }
    advice
}

/// By what a supply is running low.
pub(super) fn low_by(by: LowBy, locale: Locale) -> String {
    match by {
        LowBy::Mark(mark) => say!(locale, "your mark is {mark}", mark = locale.shelf_weight(mark)),
        LowBy::UsualBath(usual) => say!(
            locale,
            "a usual bath takes {usual}",
            usual = locale.shelf_weight(usual)
        ),
    }
}

/// What a bath did, as a word on a lot.
pub(super) fn did(kind: BathKind, locale: Locale) -> String {
    match kind {
        BathKind::Scour => say!(locale, "scoured"),
        BathKind::Mordant => say!(locale, "mordanted"),
        BathKind::Tannin => say!(locale, "tannined"),
        BathKind::Fixing => say!(locale, "fixed"),
        BathKind::Dye => say!(locale, "dyed"),
        BathKind::AfterBath => say!(locale, "kind of bath" => "after-bath"),
        BathKind::Vat => say!(locale, "dipped in a vat"),
    }
}

/// The dry weight of a lot, as it counts.
pub(super) fn weight(lot: &Lot, locale: Locale) -> String {
    locale.goods_weight(lot.dry())
}

/// A heading.
pub(super) fn heading(label: impl Into<String>) -> Block {
    Block {
        look: BlockLook::Heading,
        label: label.into(),
        ..Block::default()
    }
}

/// Words and a value.
pub(super) fn fact(label: impl Into<String>, value: impl Into<String>) -> Block {
    Block {
        look: BlockLook::Fact,
        label: label.into(),
        value: value.into(),
        ..Block::default()
    }
}

/// Running words.
pub(super) fn said(label: impl Into<String>) -> Block {
    Block {
        look: BlockLook::Words,
        label: label.into(),
        ..Block::default()
    }
}

/// Something to press.
pub(super) fn press(key: &str, label: impl Into<String>, detail: impl Into<String>, icon: Icon) -> Block {
    Block {
        look: BlockLook::Press,
        key: key.into(),
        label: label.into(),
        detail: detail.into(),
        icon,
        enabled: true,
        ..Block::default()
    }
}

/// An act at the foot.
pub(super) fn act(key: &str, label: impl Into<String>, icon: Icon, enabled: bool, strong: bool) -> SideAct {
    SideAct {
        key: key.into(),
        label: label.into(),
        icon,
        enabled,
        strong: strong && enabled,
    }
}
