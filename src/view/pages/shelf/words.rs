//! Lots and supplies in finished words.

use chrono::NaiveDate;

use crate::craft::basis::WeighedAs;
use crate::machine::{Machine, PotNo};
use crate::recipe::model::BathKind;
use crate::shelf::{Condition, Lot, Shelf, Stage, condition};
use crate::view::locale::Locale;
use crate::view::screen::{Block, BlockLook, Icon, SideAct};

use super::pot_of;

/// `L3  brown fleece`.
pub(in crate::view::pages) fn tag_and_name(lot: &Lot) -> String {
    format!("{}  {}", lot.id, lot.name)
}

/// `22 Aug 2026`.
pub(super) fn day(day: NaiveDate) -> String {
    day.format("%-d %b %Y").to_string()
}

/// `4 hanks`.
pub(super) fn hanks(count: u32) -> String {
    if count == 1 {
        "1 hank".into()
    } else {
        format!("{count} hanks")
    }
}

/// `wool, mordanted (Alum only), 4 hanks`.
pub(super) fn what(lot: &Lot, condition: &Condition) -> String {
    format!("{}, {}, {}", lot.fibre.name(), stage(condition), hanks(lot.hanks))
}

/// How far goods have come, and by what.
fn stage(condition: &Condition) -> String {
    let word = match condition.stage {
        Stage::Raw => return "raw".into(),
        Stage::Scoured => return "scoured".into(),
        Stage::Tannined => "tannined",
        Stage::Mordanted => "mordanted",
        Stage::Fixed => "mordanted and fixed",
        Stage::Dyed => "dyed",
        Stage::AfterBath => "dyed and after-bathed",
    };
    match condition.past.last() {
        Some(past) => format!("{word} ({})", past.name),
        None => word.into(),
    }
}

/// How a weight was weighed: `air-dry`, `in the grease, 20 % washes out`.
pub(super) fn weighed_as(state: WeighedAs) -> String {
    match state {
        WeighedAs::AirDry => "air-dry".into(),
        WeighedAs::OvenDry => "oven-dry".into(),
        WeighedAs::Damp { water_percent } => format!("damp, {water_percent} % water"),
        WeighedAs::Spun => "spun".into(),
        WeighedAs::InTheGrease { loss_percent } => format!("in the grease, {loss_percent} % washes out"),
    }
}

/// What to mind of a lot, the most pressing first, each as what and why or what to do.
pub(super) fn advice(shelf: &Shelf, lot: &Lot, machine: &Machine, today: NaiveDate) -> Vec<(String, String)> {
    let condition = condition(shelf, lot);
    let mut advice = Vec::new();
    if let Some(PotNo(pot)) = pot_of(machine, lot.id) {
        advice.push((format!("in pot {pot} now"), "its bath has to end first".into()));
    }
    for stopped in &condition.stopped {
        advice.push((
            format!("{} was stopped on {}", stopped.name, day(stopped.on)),
            "what it did to the goods isn't known: see its record, and dye a sample first".into(),
        ));
    }
    if lot.is_weighed_in_the_grease() && condition.stage > Stage::Raw {
        advice.push((
            "weighed in the grease, and scoured since".into(),
            "weigh it again, dry: grease counted as fibre makes every addition too strong".into(),
        ));
    }
    if let Some(keeping) = condition.keeping {
        let practice = "common practice, no source";
        advice.push(if keeping.may_be_tender(today) {
            (
                format!("mordanted on {}", day(keeping.since)),
                format!("pull at a thread before dyeing: alum kept for months may tender ({practice})"),
            )
        } else if keeping.is_over(today) {
            (
                format!("mordanted over a month ago, on {}", day(keeping.since)),
                format!("dye it next, and a sample of it first ({practice})"),
            )
        } else {
            (
                format!("best dyed by {}", day(keeping.best_by)),
                format!("within about a month of the mordant ({practice})"),
            )
        });
    }
    advice
}

/// What a bath did, as a word on a lot.
pub(super) const fn did(kind: BathKind) -> &'static str {
    match kind {
        BathKind::Scour => "scoured",
        BathKind::Mordant => "mordanted",
        BathKind::Tannin => "tannined",
        BathKind::Fixing => "fixed",
        BathKind::Dye => "dyed",
        BathKind::AfterBath => "after-bath",
        BathKind::Vat => "dipped in a vat",
    }
}

/// The dry weight of a lot, as it counts.
pub(super) fn weight(lot: &Lot, locale: Locale) -> String {
    locale.goods_weight(lot.dry())
}

/// A heading.
pub(super) fn heading(label: &str) -> Block {
    Block {
        look: BlockLook::Heading,
        label: label.into(),
        ..Block::default()
    }
}

/// Words and a value.
pub(super) fn fact(label: &str, value: impl Into<String>) -> Block {
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
pub(super) fn act(key: &str, label: &str, icon: Icon, enabled: bool, strong: bool) -> SideAct {
    SideAct {
        key: key.into(),
        label: label.into(),
        icon,
        enabled,
        strong: strong && enabled,
    }
}
