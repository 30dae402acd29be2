//! Sessions as text: what hands do and when, and what the machine makes of it.
//!
//! A line is `h:mm[:ss] pot N verb`. Time between lines passes through every deadline, as the keeper's alarm would.

use std::fmt::Write as _;
use std::sync::Arc;

use potside::craft::time::{Moment, Span, Stretch};
use potside::machine::call::CallKind;
use potside::machine::{Ask, Done, Event, Input, Machine, PotNo, ReturnAnswer, SkipReason, What};
use potside::sheet::plan::Plan;

use super::plans::{alum_bath, celsius, grams};

/// The machine under a script, with the clock that the script moves.
pub(crate) struct Stage {
    pub(crate) machine: Machine,
    pub(crate) plan: Arc<Plan>,
    pub(crate) log: Vec<Event>,
    now: Moment,
    told: String,
}

impl Stage {
    pub(crate) fn new(plan: &Arc<Plan>) -> Self {
        let now = Moment {
            stretch: Stretch(0),
            steady_ms: 0,
            wall_ms: 0,
        };
        Self {
            machine: Machine::default(),
            plan: Arc::clone(plan),
            log: Vec::new(),
            now,
            told: String::new(),
        }
    }

    /// The moment the script has come to.
    pub(crate) const fn now(&self) -> Moment {
        self.now
    }

    /// Plays the lines and returns what happened since the last play, one fact a line.
    pub(crate) fn play(&mut self, script: &str) -> String {
        self.told.clear();
        for line in script.lines().map(str::trim).filter(|line| !line.is_empty()) {
            let (at, rest) = line.split_once(' ').unwrap_or((line, ""));
            self.pass_until(clock(at));
            self.act(rest);
        }
        self.told.clone()
    }

    /// Lets time pass, stopping at every deadline.
    fn pass_until(&mut self, seconds: u64) {
        let until = seconds * 1_000;
        while let Some((at, _)) = self
            .machine
            .next_deadline(self.now)
            .filter(|(at, _)| at.steady_ms <= until)
        {
            // What an act laid into the past, such as a call after a take-back, is due at once.
            self.move_to(at.steady_ms.max(self.now.steady_ms));
            self.take(&Input::Tick);
        }
        self.move_to(until);
        self.take(&Input::Tick);
    }

    fn move_to(&mut self, steady_ms: u64) {
        assert!(steady_ms >= self.now.steady_ms, "a script goes forward in time");
        self.now = Moment {
            steady_ms,
            wall_ms: i64::try_from(steady_ms).unwrap(),
            ..self.now
        };
    }

    fn act(&mut self, words: &str) {
        let words: Vec<&str> = words.split_whitespace().collect();
        if words.is_empty() {
            return;
        }
        let ["pot", number, verb @ ..] = words.as_slice() else {
            panic!("not a line: {words:?}")
        };
        let pot = PotNo(number.parse().unwrap());
        if let ["returned", least, most] = verb {
            self.now = Moment {
                stretch: Stretch(self.now.stretch.0 + 1),
                ..self.now
            };
            let at_most = (*most != "?").then(|| Span::from_minutes(most.parse().unwrap()));
            self.take(&Input::Returned {
                at_least: Span::from_minutes(least.parse().unwrap()),
                at_most,
            });
            return;
        }
        if let ["round"] = verb {
            self.take(&Input::TurnRound);
            return;
        }
        if let ["begin", rest @ ..] = verb {
            let cautions_read = rest.is_empty();
            self.take(&Input::Begin {
                pot,
                bath_id: format!("bath-{number}"),
                plan: Arc::clone(&self.plan),
                cautions_read,
            });
            return;
        }
        let step = self
            .machine
            .pot(pot)
            .map_or(potside::sheet::plan::StepIndex(0), |run| run.stand.step);
        let ask = match verb {
            ["confirm"] => Ask::Confirm { step, sure: false },
            ["confirm", "sure"] => Ask::Confirm { step, sure: true },
            ["confirm", "step", of] => Ask::Confirm {
                step: potside::sheet::plan::StepIndex(of.parse::<usize>().unwrap() - 1),
                sure: false,
            },
            ["weighed", mass] => Ask::Weighed {
                step,
                mass: grams(mass.parse().unwrap()),
                sure: false,
            },
            ["weighed", mass, "sure"] => Ask::Weighed {
                step,
                mass: grams(mass.parse().unwrap()),
                sure: true,
            },
            ["reading", degrees] => Ask::Reading(celsius(degrees.parse().unwrap())),
            ["not-yet"] => Ask::NotYet { step },
            ["back-to-raise"] => Ask::BackToRaise,
            ["skip"] => Ask::Skip {
                step,
                reason: SkipReason::EnoughByEye,
            },
            ["take-back"] => Ask::TakeBack,
            ["heard"] => Ask::Heard,
            ["stop"] => Ask::Stop,
            ["answer", "carry-on"] => Ask::AnswerReturn(ReturnAnswer::CarryOn),
            ["answer", "count-it"] => Ask::AnswerReturn(ReturnAnswer::CountIt),
            ["answer", "hold-again"] => Ask::AnswerReturn(ReturnAnswer::HoldAgain),
            ["answer", "back-to-raise"] => Ask::AnswerReturn(ReturnAnswer::BackToRaise),
            other => panic!("no such verb: {other:?}"),
        };
        self.take(&Input::Pot(pot, ask));
    }

    fn take(&mut self, input: &Input) {
        match self.machine.judge(input, self.now) {
            Ok(events) => {
                for event in events {
                    self.machine.apply(&event);
                    if !matches!(event.what, What::Beat) {
                        writeln!(self.told, "{} {}", shown(event.at), fact(&event)).unwrap();
                    }
                    self.log.push(event);
                }
            }
            Err(refusal) => writeln!(self.told, "{} refused: {refusal}", shown(self.now)).unwrap(),
        }
    }
}

/// Pot 1 of the alum bath, in the hold for so many minutes and seconds with every turn made.
pub(crate) fn alum_in_hold(minutes: u64, seconds: u64) -> Stage {
    let mut stage = Stage::new(&alum_bath());
    let mut script = "
        0:00 pot 1 begin
        0:00 pot 1 confirm
        0:00 pot 1 confirm
        0:00 pot 1 confirm
        0:00 pot 1 confirm
        0:00 pot 1 confirm
        0:31 pot 1 confirm
        1:00 pot 1 confirm\n"
        .to_owned();
    for turn in [15, 30, 45].into_iter().filter(|turn| *turn <= minutes) {
        writeln!(script, "1:{turn} pot 1 confirm").unwrap();
    }
    let now = 60 + minutes;
    write!(script, "{}:{:02}:{seconds:02}", now / 60, now % 60).unwrap();
    let told = stage.play(&script);
    assert!(!told.contains("refused"), "{told}");
    stage
}

fn clock(text: &str) -> u64 {
    let parts: Vec<u64> = text.split(':').map(|part| part.parse().unwrap()).collect();
    match parts.as_slice() {
        [hours, minutes] => hours * 3_600 + minutes * 60,
        [hours, minutes, seconds] => hours * 3_600 + minutes * 60 + seconds,
        _ => panic!("not a time: {text}"),
    }
}

fn shown(at: Moment) -> String {
    let seconds = at.steady_ms / 1_000;
    format!("{}:{:02}:{:02}", seconds / 3_600, seconds / 60 % 60, seconds % 60)
}

fn fact(event: &Event) -> String {
    let pot = event.pot.0;
    let said = match &event.what {
        What::BathBegun { plan, .. } => format!("begun {}", plan.recipe_id),
        What::StepDone { step, done } => format!("done {}{}", step.0 + 1, figure(*done)),
        What::StepSkipped { step, reason } => format!("skipped {} ({})", step.0 + 1, reason.id()),
        What::Turned { number, .. } => format!("turned {number}"),
        What::TurnMissed { number, .. } => format!("missed turn {number}"),
        What::NotYet { number, .. } => format!("not yet {number}"),
        What::ReadingTaken { temperature } => format!("read {} C", temperature.celsius()),
        What::HoldDropped { .. } => "hold dropped".into(),
        What::HoldResumed { .. } => "hold resumed".into(),
        What::TakenBack => "taken back".into(),
        What::CallRaised { call } => format!("call {}", call_name(*call)),
        What::CallsHeard => "heard".into(),
        What::Beat => "beat".into(),
        What::Returned { .. } => "returned".into(),
        What::ReturnAnswered { answer } => format!("answered {}", answer.id()),
        What::BathStopped => "stopped".into(),
        What::BathClosed => "closed".into(),
    };
    format!("pot {pot} {said}")
}

fn call_name(call: CallKind) -> String {
    call.id()
}

fn figure(done: Done) -> String {
    match done {
        Done::AsPlanned => String::new(),
        Done::Weighed(mass) => format!(" {} g", mass.grams()),
        Done::Read(temperature) => format!(" at {} C", temperature.celsius()),
        Done::Early => " early".into(),
    }
}
