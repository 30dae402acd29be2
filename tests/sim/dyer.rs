//! A dyer with wet hands: acts in order mostly, and taps early, late, twice, or on what is gone.

use std::sync::Arc;

use potside::craft::quantity::{Mass, Temperature};
use potside::craft::time::Span;
use potside::machine::{Ask, Input, Machine, PotNo, PotRun, ReturnAnswer, SkipReason};
use potside::sheet::plan::{Plan, StepAct, StepIndex};

use super::chance::Chance;
use crate::plans::alum_bath;

/// What happens next in the kitchen.
#[derive(Debug, Clone)]
pub enum Move {
    /// The dyer asks something of a pot.
    Ask(Input),
    /// A bath begins.
    Begin(PotNo),
    /// An act of before is handed over once more.
    Again,
    /// Time passes with the program running.
    Pass(u64),
    /// The machine is suspended.
    Suspend(u64),
    /// The program stands still although the machine runs.
    Stall(u64),
    /// Somebody, or the network, sets the wall clock.
    StepWall(i64),
    /// The program is closed.
    Quit,
    /// The program is killed.
    Kill,
    /// The power goes while nothing is written.
    Cut,
}

const HOUR_MS: u64 = 3_600_000;

/// The next move. In a calm kitchen nothing breaks off by itself.
pub fn next_move(chance: &mut Chance, machine: &Machine, pots: u8, is_calm: bool) -> Move {
    match chance.below(40) {
        0..=12 => Move::Pass(chance.within(500, 90_000)),
        13 => Move::Pass(chance.within(60_000, 900_000)),
        14 if !is_calm => Move::Suspend(nap(chance)),
        15 if !is_calm => Move::Stall(chance.within(20_000, 600_000)),
        16 => Move::StepWall(
            chance.within(1, 10 * 365 * 24) as i64 * HOUR_MS as i64 * if chance.once_in(2) { 1 } else { -1 },
        ),
        17 if !is_calm && chance.once_in(3) => Move::Quit,
        18 if !is_calm && chance.once_in(3) => Move::Kill,
        19 if !is_calm && chance.once_in(3) => Move::Cut,
        20 | 21 => Move::Again,
        _ => {
            let pot = PotNo(chance.within(1, u64::from(pots)) as u8);
            hands(chance, machine, pot)
        }
    }
}

fn nap(chance: &mut Chance) -> u64 {
    match chance.below(4) {
        0 => chance.within(5_000, 19_000),
        1 | 2 => chance.within(19_000, HOUR_MS),
        _ => chance.within(HOUR_MS, 72 * HOUR_MS),
    }
}

fn hands(chance: &mut Chance, machine: &Machine, pot: PotNo) -> Move {
    let Some(run) = machine.pot(pot).filter(|run| run.stand.ended.is_none()) else {
        return Move::Begin(pot);
    };
    Move::Ask(Input::Pot(pot, ask(chance, run)))
}

fn ask(chance: &mut Chance, run: &PotRun) -> Ask {
    if run.outage.is_some() && !chance.once_in(4) {
        return Ask::AnswerReturn(*chance.pick(&[
            ReturnAnswer::CarryOn,
            ReturnAnswer::CarryOn,
            ReturnAnswer::CountIt,
            ReturnAnswer::HoldAgain,
            ReturnAnswer::BackToRaise,
        ]));
    }
    let step = run.stand.step;
    match chance.below(30) {
        0 | 1 => Ask::TakeBack,
        2 => Ask::Heard,
        3 => Ask::Skip {
            step,
            reason: *chance.pick(&SkipReason::ALL),
        },
        4 => Ask::BackToRaise,
        5 if chance.once_in(4) => Ask::Stop,
        6 | 7 => Ask::Reading(Temperature::saturating_celsius(chance.within(15, 104) as f64)),
        8 => Ask::Confirm {
            step: StepIndex(step.0.saturating_sub(1)),
            sure: true,
        },
        9 | 10 => weighed(chance, step),
        _ => match run.step().map(|step| &step.act) {
            Some(StepAct::Weigh { .. }) if chance.once_in(2) => weighed(chance, step),
            Some(StepAct::Raise { to, .. } | StepAct::Cool { to, .. }) if chance.once_in(2) => {
                Ask::Reading(*to)
            }
            _ => Ask::Confirm {
                step,
                sure: !chance.once_in(3),
            },
        },
    }
}

fn weighed(chance: &mut Chance, step: StepIndex) -> Ask {
    let off = chance.within(0, 20) as f64 / 10.0;
    Ask::Weighed {
        step,
        mass: Mass::saturating_grams(14.0 + off),
        sure: chance.once_in(2),
    }
}

/// Plans of three lengths: an hour's hold, a short one, and one that is nearly over.
pub fn plan(chance: &mut Chance) -> Arc<Plan> {
    let mut plan = Plan::clone(&alum_bath());
    let (span, every) = *chance.pick(&[(60, 15), (12, 4), (5, 2)]);
    for step in &mut plan.steps {
        if let StepAct::Hold {
            span: hold,
            turn_every,
            ..
        } = &mut step.act
        {
            *hold = Span::from_minutes(span);
            *turn_every = Some(Span::from_minutes(every));
        }
    }
    if chance.once_in(3) {
        plan.steps.drain(..5);
    }
    Arc::new(plan)
}
