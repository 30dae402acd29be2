//! What speaks against a bath for a lot, as blocks: what, why, the remedy, and on what it rests.

use crate::shelf::worklist::{Finding, Severity};
use crate::view::screen::{Block, BlockLook};

use super::book::sourced;

/// One finding.
pub(super) fn block(finding: &Finding) -> Block {
    of(finding, String::new())
}

/// One finding of a list, with the number of its bath.
pub(super) fn numbered(finding: &Finding) -> Block {
    of(finding, format!("{}. ", finding.number))
}

fn of(finding: &Finding, number: String) -> Block {
    let trouble = &finding.trouble;
    let (look, grave) = match trouble.severity() {
        Severity::Refuse => (BlockLook::Refusal, "Not so: "),
        Severity::Warn => (BlockLook::Caution, ""),
    };
    let rests = trouble.mark().map_or_else(String::new, |mark| {
        format!(" ({})", sourced(mark.strength, &mark.text))
    });
    Block {
        look,
        label: format!("{number}{grave}{trouble}"),
        detail: format!(
            "Why: {}. Instead: {}.{rests}",
            trouble.why(),
            trouble.remedy().trim_end_matches('.')
        ),
        ..Block::default()
    }
}
