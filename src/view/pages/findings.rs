//! What speaks against a bath for a lot, as blocks: what, why, the remedy, and on what it rests.

use crate::say;
use crate::shelf::worklist::{Finding, Severity, Trouble};
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
    let what = told(trouble, locale);
    let (look, what) = match trouble.severity() {
        Severity::Refuse => (
            BlockLook::Refusal,
            say!(locale, "Refused: {trouble}", trouble = what),
        ),
        Severity::Warn => (BlockLook::Caution, what),
    };
    let reason = say!(
        locale,
        "Why: {why}. Instead: {remedy}.",
        why = locale.read(trouble.why()),
        remedy = locale.read(trouble.remedy().trim_end_matches('.'))
    );
    let rests = trouble.mark().map_or_else(String::new, |mark| {
        format!(" ({})", sourced(mark.strength, &mark.text, locale))
    });
    Block {
        look,
        label: format!("{number}{what}"),
        detail: format!("{reason}{rests}"),
        ..Block::default()
    }
}

/// What the trouble is. The one sentence of a single word between two names can't be read back, so it is said.
fn told(trouble: &Trouble, locale: Locale) -> String {
    if let Trouble::AlkaliOnAnimalFibre { substance, fibre } = trouble {
        return say!(
            locale,
            "{substance} on {fibre}",
            substance = locale.read(substance.name()),
            fibre = locale.read(fibre.name())
        );
    }
    locale.read(&trouble.to_string())
}
