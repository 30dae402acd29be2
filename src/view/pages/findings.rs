//! What speaks against a bath for a lot, as blocks: what, why, the remedy, and on what it rests.

use crate::say;
use crate::shelf::worklist::{Finding, Severity};
use crate::view::locale::Locale;
use crate::view::screen::{Block, BlockLook};

use super::book::sourced;

/// One finding.
pub(super) fn block(finding: &Finding, locale: Locale) -> Block {
    of(finding, "", locale)
}

/// One finding of a list, with the number of its bath.
pub(super) fn numbered(finding: &Finding, locale: Locale) -> Block {
    of(finding, &format!("{}. ", finding.number), locale)
}

fn of(finding: &Finding, number: &str, locale: Locale) -> Block {
    let trouble = &finding.trouble;
    let said = locale.read(&trouble.to_string());
    let (look, said) = match trouble.severity() {
        Severity::Refuse => (
            BlockLook::Refusal,
            say!(locale, "Not so: {trouble}", trouble = said),
        ),
        Severity::Warn => (BlockLook::Caution, said),
    };
    let why = locale.read(trouble.why());
    let remedy = locale.read(trouble.remedy().trim_end_matches('.'));
    let reason = say!(
        locale,
        "Why: {why}. Instead: {remedy}.",
        why = why,
        remedy = remedy
    );
    let rests = trouble.mark().map_or_else(String::new, |mark| {
        format!(" ({})", sourced(mark.strength, &mark.text))
    });
    Block {
        look,
        label: format!("{number}{said}"),
        detail: format!("{reason}{rests}"),
        ..Block::default()
    }
}
