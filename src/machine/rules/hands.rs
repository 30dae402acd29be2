//! What hands do: confirm, weigh, read, turn, skip, take back, hear, answer.

use crate::craft::quantity::{Mass, Temperature};
use crate::craft::time::{Moment, Span};
use crate::machine::call::CallKind;
use crate::machine::event::{Done, What};
use crate::machine::input::{Ask, ReturnAnswer, SkipReason};
use crate::machine::pot::{HoldState, PotRun};
use crate::machine::refusal::Refusal;
use crate::machine::rounds::TURN_EARLY;
use crate::sheet::plan::{Plan, StepAct, StepIndex, StepKind, is_near};

use super::due;

type Judged = Result<Vec<What>, Refusal>;

/// The facts an act makes in one pot, or why it isn't taken.
pub(in crate::machine) fn judge(run: &PotRun, ask: &Ask, now: Moment) -> Judged {
    if run.outage.is_some() && !may_pass_return_card(ask) {
        return Err(Refusal::ReturnUnanswered { pot: run.pot });
    }
    match ask {
        Ask::Confirm { step, sure } => {
            is_current(run, *step)?;
            confirm(run, *sure, now)
        }
        Ask::Weighed { step, mass, sure } => {
            is_current(run, *step)?;
            weighed(run, *mass, *sure)
        }
        Ask::Reading(temperature) => reading(run, *temperature, now),
        Ask::NotYet { step } => {
            is_current(run, *step)?;
            not_yet(run)
        }
        Ask::BackToRaise => match run.stand.hold {
            Some(hold) if !hold.reheating => Ok(vec![What::HoldDropped { step: run.stand.step }]),
            Some(_) | None => Err(Refusal::NoHold),
        },
        Ask::Skip { step, reason } => {
            is_current(run, *step)?;
            Ok(skip(run, *reason))
        }
        Ask::TakeBack if run.can_take_back() => Ok(vec![What::TakenBack]),
        Ask::TakeBack => Err(Refusal::NothingToTakeBack),
        Ask::Heard => Ok(vec![What::CallsHeard]),
        Ask::AnswerReturn(answer) => answer_return(run, *answer),
        Ask::Stop => Ok(vec![What::BathStopped]),
    }
}

fn may_pass_return_card(ask: &Ask) -> bool {
    match ask {
        Ask::Heard | Ask::AnswerReturn(_) | Ask::Reading(_) | Ask::Stop => true,
        Ask::Confirm { .. }
        | Ask::NotYet { .. }
        | Ask::Weighed { .. }
        | Ask::BackToRaise
        | Ask::Skip { .. }
        | Ask::TakeBack => false,
    }
}

fn is_current(run: &PotRun, step: StepIndex) -> Result<(), Refusal> {
    if step == run.stand.step {
        Ok(())
    } else {
        Err(Refusal::StepGone { step })
    }
}

/// A firm tap: what it means depends on the step.
fn confirm(run: &PotRun, sure: bool, now: Moment) -> Judged {
    let Some(step) = run.step() else {
        return Err(Refusal::NoBath { pot: run.pot });
    };
    match &step.act {
        StepAct::Enter { .. } => {
            soaked_enough(run, sure, now)?;
            Ok(done(run, Done::AsPlanned))
        }
        StepAct::Raise { come_up, .. } => {
            let earliest = come_up.map(|band| halved(band.low));
            done_unless_early(run, earliest, sure, now)
        }
        StepAct::Cool { cool_down, .. } => {
            let earliest = cool_down.map(|band| halved(band.low));
            done_unless_early(run, earliest, sure, now)
        }
        StepAct::Air { span } | StepAct::Rest { span } | StepAct::Dip { under: span, .. } => {
            done_unless_early(run, Some(*span), sure, now)
        }
        StepAct::Look { after, .. } => {
            let earliest = (run.stand.not_yet == 0).then(|| halved(*after));
            done_unless_early(run, earliest, sure, now)
        }
        StepAct::Hold { span, turn_every, .. } => {
            let Some(hold) = run.stand.hold else {
                return Err(Refusal::NoHold);
            };
            confirm_hold(run, hold, *span, *turn_every, now)
        }
        StepAct::WetOut { .. }
        | StepAct::Weigh { .. }
        | StepAct::Fill { .. }
        | StepAct::Dissolve { .. }
        | StepAct::Add { .. }
        | StepAct::Strain { .. }
        | StepAct::Lift
        | StepAct::Squeeze
        | StepAct::Rinse { .. }
        | StepAct::Dry
        | StepAct::Shelve => Ok(done(run, Done::AsPlanned)),
    }
}

/// In a hold the slab says *it is back*, *heat off* or *turned*, in this order.
fn confirm_hold(run: &PotRun, hold: HoldState, span: Span, turn_every: Option<Span>, now: Moment) -> Judged {
    let step = run.stand.step;
    let held = hold.held.at(now);
    if hold.reheating {
        return Ok(vec![What::HoldResumed { step }]);
    }
    if held >= span {
        return Ok(done(run, Done::AsPlanned));
    }
    if turn_every.is_none() {
        return Err(Refusal::HoldRunning {
            left: span.less(held),
        });
    }
    let number = due::next_turn(hold, span, turn_every).filter(|number| {
        let due = turn_every.map_or(Span::NONE, |every| {
            Span::from_ms(every.ms().saturating_mul(u64::from(*number)))
        });
        held.plus(TURN_EARLY) >= due
    });
    Ok(vec![What::Turned {
        step,
        number: number.unwrap_or(0),
    }])
}

fn not_yet(run: &PotRun) -> Judged {
    let step = run.stand.step;
    let is_look = run
        .step()
        .is_some_and(|step| matches!(step.act, StepAct::Look { .. }));
    if is_look {
        let number = run.stand.not_yet.saturating_add(1);
        Ok(vec![What::NotYet { step, number }])
    } else {
        Err(Refusal::NoSign { step })
    }
}

fn soaked_enough(run: &PotRun, sure: bool, now: Moment) -> Result<(), Refusal> {
    if run.stand.soak.is_none() && due::have_been_in(run) {
        return Ok(());
    }
    let Some(least) = due::soak_least(run) else {
        return Ok(());
    };
    let soaked = run.stand.soak.map_or(Span::NONE, |soak| soak.at(now));
    if sure || soaked >= least {
        Ok(())
    } else {
        Err(Refusal::NotSoaked { soaked, least })
    }
}

fn done_unless_early(run: &PotRun, earliest: Option<Span>, sure: bool, now: Moment) -> Judged {
    let after = run.stand.waited.at(now);
    match earliest {
        Some(earliest) if after < earliest && !sure => Err(Refusal::Early { after, earliest }),
        Some(earliest) if after < earliest => Ok(done(run, Done::Early)),
        Some(_) | None => Ok(done(run, Done::AsPlanned)),
    }
}

fn weighed(run: &PotRun, mass: Mass, sure: bool) -> Judged {
    let step = run.stand.step;
    let letter = match run.step().map(|step| &step.act) {
        Some(StepAct::Weigh { letter }) => *letter,
        Some(
            StepAct::WetOut { .. }
            | StepAct::Fill { .. }
            | StepAct::Dissolve { .. }
            | StepAct::Add { .. }
            | StepAct::Strain { .. }
            | StepAct::Enter { .. }
            | StepAct::Raise { .. }
            | StepAct::Hold { .. }
            | StepAct::Cool { .. }
            | StepAct::Lift
            | StepAct::Squeeze
            | StepAct::Look { .. }
            | StepAct::Dip { .. }
            | StepAct::Rinse { .. }
            | StepAct::Air { .. }
            | StepAct::Rest { .. }
            | StepAct::Dry
            | StepAct::Shelve,
        )
        | None => return Err(Refusal::NotWeighing { step }),
    };
    let Some(addition) = run.plan.addition(letter) else {
        return Err(Refusal::NotWeighing { step });
    };
    if !is_near(mass, addition.target, addition.tolerance) && !sure {
        return Err(Refusal::FarOff {
            read: mass,
            target: addition.target,
        });
    }
    Ok(done(run, Done::Weighed(mass)))
}

/// A reading may end a raise or a cooling, stop or restart a hold, or call for hands.
fn reading(run: &PotRun, read: Temperature, now: Moment) -> Judged {
    const THERMOMETER_SLACK: f64 = 2.0;
    let boil = run.plan.boil;
    if read.celsius() > boil.celsius() + THERMOMETER_SLACK {
        return Err(Refusal::AboveBoil { read, boil });
    }
    let step = run.stand.step;
    let mut facts = vec![What::ReadingTaken { temperature: read }];
    if run.outage.is_some() {
        // It tells where the bath is; what the time away was worth is still the dyer's to say.
        return Ok(facts);
    }
    match run.step().map(|step| &step.act) {
        Some(StepAct::Raise { to, .. }) if read >= *to => facts.extend(done(run, Done::Read(read))),
        Some(StepAct::Cool { to, .. }) if read <= *to => facts.extend(done(run, Done::Read(read))),
        Some(StepAct::Hold {
            floor, ceiling, span, ..
        }) => {
            if let Some(hold) = run.stand.hold {
                let over = hold.held.at(now) >= *span;
                if hold.reheating && read >= *floor {
                    facts.push(What::HoldResumed { step });
                } else if !hold.reheating && read < *floor && !over {
                    facts.push(What::HoldDropped { step });
                }
            }
            if read > *ceiling {
                facts.push(What::CallRaised {
                    call: CallKind::TooHot,
                });
            }
        }
        Some(
            StepAct::WetOut { .. }
            | StepAct::Weigh { .. }
            | StepAct::Fill { .. }
            | StepAct::Dissolve { .. }
            | StepAct::Add { .. }
            | StepAct::Strain { .. }
            | StepAct::Enter { .. }
            | StepAct::Raise { .. }
            | StepAct::Cool { .. }
            | StepAct::Lift
            | StepAct::Squeeze
            | StepAct::Look { .. }
            | StepAct::Dip { .. }
            | StepAct::Rinse { .. }
            | StepAct::Air { .. }
            | StepAct::Rest { .. }
            | StepAct::Dry
            | StepAct::Shelve,
        )
        | None => {}
    }
    Ok(facts)
}

fn answer_return(run: &PotRun, answer: ReturnAnswer) -> Judged {
    if run.outage.is_none() {
        return Err(Refusal::NothingToAnswer);
    }
    match answer {
        ReturnAnswer::CarryOn => {}
        ReturnAnswer::CountIt | ReturnAnswer::HoldAgain | ReturnAnswer::BackToRaise => {
            if run.stand.hold.is_none() {
                return Err(Refusal::NoHold);
            }
        }
    }
    let mut facts = vec![What::ReturnAnswered { answer }];
    if answer != ReturnAnswer::BackToRaise && is_read_below_floor(run) {
        facts.push(What::HoldDropped { step: run.stand.step });
    }
    Ok(facts)
}

/// Whether a hold was read below its floor since the program is back.
fn is_read_below_floor(run: &PotRun) -> bool {
    let (Some(outage), Some((at, read))) = (run.outage, run.last_reading) else {
        return false;
    };
    let Some(StepAct::Hold { floor, .. }) = run.step().map(|step| &step.act) else {
        return false;
    };
    outage.is_over_at(at) && read < *floor
}

fn done(run: &PotRun, done: Done) -> Vec<What> {
    and_close(
        run,
        What::StepDone {
            step: run.stand.step,
            done,
        },
    )
}

/// A step is left out; a step of a series of dips ends the dipping, and the rest of the series goes with it.
fn skip(run: &PotRun, reason: SkipReason) -> Vec<What> {
    let here = run.stand.step.0;
    let last = end_of_dipping(&run.plan, here).unwrap_or(here);
    let mut facts: Vec<What> = (here..=last)
        .map(|step| What::StepSkipped {
            step: StepIndex(step),
            reason,
        })
        .collect();
    if last.saturating_add(1) >= run.plan.steps.len() {
        facts.push(What::BathClosed);
    }
    facts
}

/// The last step that goes when dipping ends here; `None` outside a series of dips. Goods that have been in keep the
/// last airing, which is when they turn blue.
fn end_of_dipping(plan: &Plan, here: usize) -> Option<usize> {
    let kind = |index: usize| plan.steps.get(index).map(|step| step.act.kind());
    let next = here.saturating_add(1);
    let first_dip = match (kind(here)?, kind(next)) {
        (StepKind::Dip, _) => here,
        (StepKind::Enter | StepKind::Air, Some(StepKind::Dip)) => next,
        (_, _) => return None,
    };
    let mut last_air = first_dip.saturating_add(1);
    while kind(last_air.saturating_add(1)) == Some(StepKind::Dip) {
        last_air = last_air.saturating_add(2);
    }
    let never_in = kind(here) == Some(StepKind::Enter);
    Some(if never_in {
        last_air
    } else {
        last_air.saturating_sub(1)
    })
}

/// The last step closes the bath.
fn and_close(run: &PotRun, fact: What) -> Vec<What> {
    let is_last = run.stand.step.0.saturating_add(1) >= run.plan.steps.len();
    if is_last {
        vec![fact, What::BathClosed]
    } else {
        vec![fact]
    }
}

const fn halved(span: Span) -> Span {
    Span::from_ms(span.ms() >> 1)
}
