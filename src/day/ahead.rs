//! The errands a bath still has: laid from its plan, or from where it stands in its pot.

use crate::craft::quantity::Band;
use crate::craft::time::{Moment, Span};
use crate::machine::call::CallKind;
use crate::machine::outlook::turns;
use crate::machine::{PotNo, PotRun};
use crate::sheet::clock;
use crate::sheet::plan::{Plan, Step, StepAct};

use super::errand::{Coming, Errand, HANG, HEAT_OFF, LIFT_FROM_VAT, LOOK, TURN};

/// What hands will be wanted for, in order of time as far as it is known.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Ahead {
    /// The errands, soonest first.
    pub errands: Vec<Coming>,
    /// Whether more may come that nobody can time: a question is open, a bath is being heated again, or it never gets
    /// to its temperature by the sums.
    pub more_unknown: bool,
}

/// What lies ahead in one pot.
#[derive(Debug, Clone, PartialEq)]
pub struct OfPot {
    /// The pot.
    pub pot: PotNo,
    /// What lies ahead in it.
    pub ahead: Ahead,
}

impl Ahead {
    /// The same bath, begun so much later.
    #[must_use]
    pub fn later(mut self, by: Span) -> Self {
        for coming in &mut self.errands {
            *coming = coming.later(by);
        }
        self
    }

    fn push(&mut self, errand: Errand, begins: Band<Span>, hands: Span) {
        self.errands.push(Coming {
            errand,
            begins,
            hands,
        });
    }

    fn in_order(mut self) -> Self {
        self.errands
            .sort_by_key(|coming| (coming.begins.likely, coming.errand));
        self
    }
}

/// The errands of a bath that begins now.
#[must_use]
pub fn of_plan(plan: &Plan) -> Ahead {
    let mut ahead = Ahead::default();
    lay(&mut ahead, &plan.steps, false);
    ahead.in_order()
}

/// The errands of a bath that is going, from `now` on. `heat_left` is how long it still warms or cools, for who knows
/// more than the plan and the time since; nothing of a bath that has ended.
#[must_use]
pub fn of_run(run: &PotRun, now: Moment, heat_left: Option<Band<Span>>) -> Ahead {
    let mut ahead = Ahead::default();
    let Some(current) = run.step() else { return ahead };
    if run.outage.is_some() {
        ahead.more_unknown = true;
        return ahead;
    }
    // A reading above the ceiling and heat left alone want a look, whatever the step.
    let wants_look = |kind| matches!(kind, CallKind::TooHot | CallKind::HeatUnattended);
    if run.stand.calls.iter().any(|call| wants_look(call.kind)) {
        ahead.push(Errand::Look, even(Span::NONE), LOOK);
    }
    let Some(left) = left(run, current, now, heat_left) else {
        ahead.more_unknown = true;
        return ahead;
    };
    turns_now(run, now, &mut ahead);
    let mut steps: Vec<Step> = Vec::new();
    // Goods that are soaking already hold up the entering as if they were put to soak now for what is left.
    let soaks = run.soaked_at().map(|at| at.since(now));
    steps.extend(soaks.map(|least| Step {
        act: StepAct::WetOut { least },
        how: None,
        caution: None,
        usual: even(Span::NONE),
    }));
    steps.push(Step {
        usual: left,
        ..current.clone()
    });
    let rest = run.plan.steps.iter().skip(run.stand.step.0.saturating_add(1));
    steps.extend(rest.cloned());
    // The turns of the hold that is going are counted by what was held, and stand there already.
    let mut rest = Ahead::default();
    lay(&mut rest, &steps, is_hold(current));
    let soaking_only = |coming: &Coming| coming.errand == Errand::WetOut && coming.hands == Span::NONE;
    rest.errands.retain(|coming| !soaking_only(coming));
    ahead.errands.extend(rest.errands);
    ahead.more_unknown = rest.more_unknown;
    ahead.in_order()
}

const fn is_hold(step: &Step) -> bool {
    matches!(step.act, StepAct::Hold { .. })
}

/// The turns left in the hold that is going.
fn turns_now(run: &PotRun, now: Moment, ahead: &mut Ahead) {
    let (Some(hold), Some(StepAct::Hold { span, turn_every, .. })) =
        (run.stand.hold, run.step().map(|step| &step.act))
    else {
        return;
    };
    let settled = usize::try_from(hold.turns_settled).unwrap_or(usize::MAX);
    let due = turns(*span, *turn_every).into_iter().skip(settled);
    for at in due.filter_map(|turn| hold.held.reaches(turn)) {
        ahead.push(Errand::Turn, even(at.since(now)), TURN);
    }
}

/// How long the current step still takes; `None` where nobody can say.
fn left(run: &PotRun, step: &Step, now: Moment, heat_left: Option<Band<Span>>) -> Option<Band<Span>> {
    let waited = run.stand.waited;
    let until = |span: Span| waited.reaches(span).map(|at| at.since(now));
    match &step.act {
        StepAct::Raise { come_up: band, .. } | StepAct::Cool { cool_down: band, .. } => {
            let band = (*band)?;
            Some(heat_left.unwrap_or_else(|| band.map(|span| span.less(waited.at(now)))))
        }
        StepAct::Hold { .. } => run.hold_over().map(|over| even(over.since(now))),
        StepAct::Look { again, .. } => run.next_look().map(|at| {
            let soonest = at.since(now);
            Band {
                high: soonest.plus(*again).plus(*again),
                ..even(soonest)
            }
        }),
        StepAct::Air { span } | StepAct::Rest { span } | StepAct::Dip { under: span, .. } => {
            until(*span).map(even)
        }
        StepAct::Dry => Some(step.usual.map(|span| span.less(waited.at(now)))),
        StepAct::Enter { .. } => Some(step.usual),
        // Hands that should long be done haven't begun.
        StepAct::WetOut { .. }
        | StepAct::Weigh { .. }
        | StepAct::Fill { .. }
        | StepAct::Dissolve { .. }
        | StepAct::Add { .. }
        | StepAct::Strain { .. }
        | StepAct::Lift
        | StepAct::Squeeze
        | StepAct::Rinse { .. }
        | StepAct::Shelve => {
            let done = waited.at(now);
            if done < step.usual.likely {
                Some(step.usual.map(|span| span.less(done)))
            } else {
                Some(step.usual)
            }
        }
    }
}

/// Lays steps on the clock and says what hands do in each. With `turned_already` the first hold brings no turns: they
/// were laid by what was held.
fn lay(ahead: &mut Ahead, steps: &[Step], turned_already: bool) {
    let mut turned_already = turned_already;
    for (index, (step, (begins, ends))) in steps.iter().zip(clock(steps)).enumerate() {
        if let Some(errand) = Errand::of_handiwork(&step.act) {
            ahead.push(errand, before(ends, step.usual), step.usual.likely);
            continue;
        }
        match &step.act {
            StepAct::Raise { come_up: None, .. } | StepAct::Cool { cool_down: None, .. } => {
                ahead.more_unknown = true;
                return;
            }
            StepAct::Raise { .. } | StepAct::Cool { .. } | StepAct::Look { .. } => {
                ahead.push(Errand::Look, ends, LOOK);
            }
            StepAct::Hold { span, turn_every, .. } => {
                if !turned_already {
                    for turn in turns(*span, *turn_every) {
                        ahead.push(Errand::Turn, begins.map(|at| at.plus(turn)), TURN);
                    }
                }
                turned_already = false;
                ahead.push(Errand::HeatOff, ends, HEAT_OFF);
            }
            StepAct::Dip { .. } => ahead.push(Errand::Lift, ends, LIFT_FROM_VAT),
            // What follows a rest is the errand; only one before heat or another wait wants a walk of its own.
            StepAct::Air { .. } | StepAct::Rest { .. } => {
                let next = steps.get(index.saturating_add(1));
                if next.is_some_and(|next| Errand::of_handiwork(&next.act).is_none()) {
                    ahead.push(Errand::Look, ends, LOOK);
                }
            }
            StepAct::Dry => ahead.push(Errand::Hang, begins, HANG),
            StepAct::WetOut { .. }
            | StepAct::Weigh { .. }
            | StepAct::Fill { .. }
            | StepAct::Dissolve { .. }
            | StepAct::Add { .. }
            | StepAct::Strain { .. }
            | StepAct::Enter { .. }
            | StepAct::Lift
            | StepAct::Squeeze
            | StepAct::Rinse { .. }
            | StepAct::Shelve => {}
        }
    }
}

/// When handiwork begins that ends then: the step may have waited first, for goods to be soaked. Spreads add up as
/// squares, so the work's own comes off as one.
fn before(ends: Band<Span>, usual: Band<Span>) -> Band<Span> {
    let likely = ends.likely.less(usual.likely);
    let apart = |one: Span, other: Span| one.less(other).minutes();
    let rest =
        |whole: f64, own: f64| Span::from_fractional_minutes((whole * whole - own * own).max(0.0).sqrt());
    Band {
        low: likely.less(rest(apart(ends.likely, ends.low), apart(usual.likely, usual.low))),
        likely,
        high: likely.plus(rest(
            apart(ends.high, ends.likely),
            apart(usual.high, usual.likely),
        )),
    }
}

const fn even(span: Span) -> Band<Span> {
    Band {
        low: span,
        likely: span,
        high: span,
    }
}
