//! A Potside without a glass: the real keeper on the real disk, told what to do by lines, telling what became of it.
//!
//! Each line is the id of an act. The act is the next one that makes sense in pot 1: begin, confirm, now and then take
//! back. The answer is `saved ID`, `memory ID`, `repeated ID` or `refused ID`, written when the state has been told.

use std::io::{BufRead as _, Write as _};
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use potside::journal::id::ActId;
use potside::keeper::{Keeper, Said, State, Wake, Watch};
use potside::machine::{Ask, Input, Machine, PotNo, ReturnAnswer};
use potside::shell::clock::{SystemClock, boot_id};
use potside::shell::disk::data_folder::DataFolder;

use super::plans::alum_bath;

const POT: PotNo = PotNo(1);

/// Opens the folder and does what the lines of standard input say.
pub fn run(data: &Path, spare: Option<PathBuf>) -> ExitCode {
    let folder = match DataFolder::open(data) {
        Ok(folder) => folder.with_spare(spare),
        Err(fault) => return told(&format!("closed {fault}")),
    };
    let (keeper, stretch) = match Keeper::open(folder, boot_id().as_deref()) {
        Ok(opened) => opened,
        Err(fault) => return told(&format!("closed {fault}")),
    };
    let clock = SystemClock::new(stretch);
    let mut last: Option<State> = None;
    let mut watch = Watch::begin(keeper, &clock, &mut |said| keep(&mut last, said));
    for (count, line) in std::io::stdin().lock().lines().enumerate() {
        let Ok(line) = line else { break };
        let act = ActId::from_text(&line).ok();
        if let Some(answer) = answer(watch.keeper().machine()) {
            let wake = Wake::Ask {
                act: None,
                input: answer,
            };
            watch.wake(Some(wake), &clock, &mut |said| keep(&mut last, said));
        }
        let before = facts(watch.keeper().machine());
        let wake = next(watch.keeper().machine(), act, count, &line);
        last = None;
        watch.wake(Some(wake), &clock, &mut |said| keep(&mut last, said));
        let after = facts(watch.keeper().machine());
        let Some(state) = last.take() else { break };
        let word = if state.refused.is_some() {
            "refused"
        } else if before == after {
            "repeated"
        } else if state.not_saving_since.is_some() {
            "memory"
        } else {
            "saved"
        };
        if told(&format!("{word} {line}")) != ExitCode::SUCCESS {
            break;
        }
    }
    ExitCode::SUCCESS
}

fn keep(last: &mut Option<State>, said: Said<'_>) {
    if let Said::State(state) = said {
        *last = Some(*state);
    }
}

fn facts(machine: &Machine) -> usize {
    machine.pot(POT).map_or(0, |run| run.log.len())
}

fn answer(machine: &Machine) -> Option<Input> {
    let is_asked = machine.pot(POT).is_some_and(|run| run.outage.is_some());
    is_asked.then_some(Input::Pot(POT, Ask::AnswerReturn(ReturnAnswer::CarryOn)))
}

fn next(machine: &Machine, act: Option<ActId>, count: usize, line: &str) -> Wake {
    let Some(run) = machine.pot(POT).filter(|run| run.stand.ended.is_none()) else {
        let bath_id = format!("bath-{line}");
        let input = Input::Begin {
            pot: POT,
            bath_id: bath_id.clone(),
            plan: alum_bath(),
            cautions_read: true,
        };
        return Wake::Begin {
            act,
            input,
            bath_id,
            recipe_toml: "name = \"x\"\n".to_owned(),
            sheet_json: "{}".to_owned(),
        };
    };
    let is_at_hold = run.stand.hold.is_some();
    let ask = if is_at_hold || (count % 5 == 4 && run.can_take_back()) {
        Ask::TakeBack
    } else {
        Ask::Confirm {
            step: run.stand.step,
            sure: true,
        }
    };
    Wake::Ask {
        act,
        input: Input::Pot(POT, ask),
    }
}

/// A line out; a reader that is gone is no reason to fall over.
fn told(line: &str) -> ExitCode {
    let mut out = std::io::stdout().lock();
    match writeln!(out, "{line}").and_then(|()| out.flush()) {
        Ok(()) => ExitCode::SUCCESS,
        Err(_) => ExitCode::FAILURE,
    }
}
