//! What must hold of any pot at any moment. Debug builds check after every fact; tests check always.

use crate::sheet::plan::{StepAct, StepKind};

use super::pot::PotRun;

/// The promise that is broken, in words, or `None`.
#[must_use]
pub fn broken(run: &PotRun) -> Option<&'static str> {
    let stand = &run.stand;
    if stand.ended.is_some() {
        return if !stand.calls.is_empty() {
            Some("an ended bath calls nobody")
        } else if stand.burner_on {
            Some("an ended bath has its burner off")
        } else {
            None
        };
    }
    match run.step().map(|step| step.act.kind()) {
        Some(StepKind::Dip) if !stand.goods_in => return Some("a dip has the goods under the liquor"),
        Some(StepKind::Look) => {}
        Some(_) | None if stand.not_yet > 0 => return Some("not yet is an answer to a look alone"),
        Some(_) | None => {}
    }
    let at_hold = matches!(run.step().map(|step| &step.act), Some(StepAct::Hold { .. }));
    if at_hold != stand.hold.is_some() {
        return Some("a hold state stands exactly while the step is a hold");
    }
    if let Some(hold) = stand.hold
        && hold.reheating
        && hold.held.is_running()
    {
        return Some("a hold doesn't count while the bath is being heated again");
    }
    if run.outage.is_some() && stand.hold.is_some_and(|hold| hold.held.is_running()) {
        return Some("a hold doesn't count while the question after an outage is open");
    }
    if stand
        .calls
        .iter()
        .any(|call| stand.calls.iter().filter(|other| other.kind == call.kind).count() > 1)
    {
        return Some("one reason calls once");
    }
    None
}
