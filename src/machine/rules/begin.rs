//! Starting a bath.

use std::sync::Arc;

use crate::craft::time::Moment;
use crate::machine::event::{Event, What};
use crate::machine::pot::{PotNo, PotRun};
use crate::machine::refusal::Refusal;
use crate::sheet::plan::Plan;

/// A bath begins in a free pot, once its cautions were read.
pub(in crate::machine) fn judge(
    there: Option<&PotRun>,
    pot: PotNo,
    bath_id: &str,
    plan: &Arc<Plan>,
    cautions_read: bool,
    now: Moment,
) -> Result<Vec<Event>, Refusal> {
    if there.is_some_and(|run| run.stand.ended.is_none()) {
        return Err(Refusal::PotTaken { pot });
    }
    if !cautions_read && !plan.cautions.is_empty() {
        return Err(Refusal::CautionsUnread);
    }
    let what = What::BathBegun {
        bath_id: bath_id.to_owned(),
        plan: Arc::clone(plan),
    };
    Ok(vec![Event { at: now, pot, what }])
}
