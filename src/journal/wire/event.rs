//! Facts to entries and back.

use std::sync::Arc;

use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};
use serde_json::{Map, Value};

use super::plan::PlanTwin;
use super::{BodyFault, WireFault};
use crate::craft::quantity::{Mass, Temperature};
use crate::craft::time::Span;
use crate::journal::line::Entry;
use crate::journal::recover::Recovered;
use crate::journal::writer::SEGMENT_KIND;
use crate::machine::call::CallKind;
use crate::machine::{Done, Event, PotNo, ReturnAnswer, SkipReason, What};
use crate::sheet::plan::StepIndex;

/// The version of the twins written.
pub const WIRE: u64 = 1;

/// The entry of a fact.
pub fn entry_of(event: &Event) -> Result<Entry, WireFault> {
    let (what, body) = write_what(&event.what);
    let mut fields = Map::new();
    fields.insert("wire".to_owned(), Value::from(WIRE));
    match body {
        Ok(Value::Object(body)) => fields.extend(body),
        Ok(_) => {}
        Err(fault) => {
            return Err(WireFault::Body {
                n: 0,
                what: what.to_owned(),
                detail: fault.to_string(),
            });
        }
    }
    Ok(Entry {
        at: event.at,
        what: what.to_owned(),
        pot: Some(u32::from(event.pot.0)),
        body: fields,
    })
}

/// The fact of an entry; `n` is the number of its record, for messages.
pub fn event_of(n: u64, entry: &Entry) -> Result<Event, WireFault> {
    let what = || entry.what.clone();
    let mut body = entry.body.clone();
    let version = body
        .shift_remove("wire")
        .and_then(|version| version.as_u64())
        .unwrap_or(0);
    if version != WIRE {
        return Err(WireFault::OtherWire {
            n,
            what: what(),
            version,
        });
    }
    let told = |fault: BodyFault| WireFault::Body {
        n,
        what: what(),
        detail: fault.to_string(),
    };
    let pot = entry.pot.and_then(|pot| u8::try_from(pot).ok()).map(PotNo);
    let pot = pot.ok_or_else(|| told(BodyFault::Value { key: "pot" }))?;
    match read_what(&entry.what, body).map_err(told)? {
        Some(fact) => Ok(Event {
            at: entry.at,
            pot,
            what: fact,
        }),
        None => Err(WireFault::UnknownKind { n, what: what() }),
    }
}

/// The facts of a bath, in order: what replay applies. The journal's own records are passed over.
pub fn events_of(recovered: &Recovered) -> Result<Vec<Event>, WireFault> {
    let facts = recovered
        .records
        .iter()
        .filter(|record| record.entry.what != SEGMENT_KIND);
    facts.map(|record| event_of(record.n, &record.entry)).collect()
}

fn write_what(what: &What) -> (&'static str, serde_json::Result<Value>) {
    match what {
        What::BathBegun { bath_id, plan } => {
            let twin = BathBegun {
                bath_id: bath_id.clone(),
                plan: PlanTwin::of(plan),
            };
            ("bath_begun", serde_json::to_value(twin))
        }
        What::StepDone { step, done } => (
            "step_done",
            serde_json::to_value(StepDone {
                step: step.0,
                done: DoneTwin::of(*done),
            }),
        ),
        What::StepSkipped { step, reason } => {
            let twin = StepSkipped {
                step: step.0,
                reason: reason.id().to_owned(),
            };
            ("step_skipped", serde_json::to_value(twin))
        }
        What::Turned { step, number } => ("turned", turn(*step, *number)),
        What::TurnMissed { step, number } => ("turn_missed", turn(*step, *number)),
        What::ReadingTaken { temperature } => (
            "reading_taken",
            serde_json::to_value(ReadingTaken {
                celsius: temperature.celsius(),
            }),
        ),
        What::NotYet { step, number } => ("not_yet", turn(*step, *number)),
        What::HoldDropped { step } => ("hold_dropped", serde_json::to_value(OfStep { step: step.0 })),
        What::HoldResumed { step } => ("hold_resumed", serde_json::to_value(OfStep { step: step.0 })),
        What::TakenBack => ("taken_back", serde_json::to_value(Nothing {})),
        What::CallRaised { call } => (
            "call_raised",
            serde_json::to_value(CallRaised { call: call.id() }),
        ),
        What::CallsHeard => ("calls_heard", serde_json::to_value(Nothing {})),
        What::Beat => ("beat", serde_json::to_value(Nothing {})),
        What::Returned { at_least, at_most } => {
            let twin = Returned {
                at_least_ms: at_least.ms(),
                at_most_ms: at_most.map(Span::ms),
            };
            ("returned", serde_json::to_value(twin))
        }
        What::ReturnAnswered { answer } => (
            "return_answered",
            serde_json::to_value(ReturnAnswered {
                answer: answer.id().to_owned(),
            }),
        ),
        What::BathStopped => ("bath_stopped", serde_json::to_value(Nothing {})),
        What::BathClosed => ("bath_closed", serde_json::to_value(Nothing {})),
    }
}

/// The fact of a kind and its body, or nothing if the kind is unknown.
fn read_what(kind: &str, body: Map<String, Value>) -> Result<Option<What>, BodyFault> {
    Ok(Some(match kind {
        "bath_begun" => {
            let twin: BathBegun = of(body)?;
            What::BathBegun {
                bath_id: twin.bath_id,
                plan: Arc::new(twin.plan.plan()?),
            }
        }
        "step_done" => {
            let twin: StepDone = of(body)?;
            What::StepDone {
                step: StepIndex(twin.step),
                done: twin.done.done()?,
            }
        }
        "step_skipped" => {
            let twin: StepSkipped = of(body)?;
            What::StepSkipped {
                step: StepIndex(twin.step),
                reason: skip_reason(&twin.reason)?,
            }
        }
        "turned" => {
            let twin: Turn = of(body)?;
            What::Turned {
                step: StepIndex(twin.step),
                number: twin.number,
            }
        }
        "turn_missed" => {
            let twin: Turn = of(body)?;
            What::TurnMissed {
                step: StepIndex(twin.step),
                number: twin.number,
            }
        }
        "not_yet" => {
            let twin: Turn = of(body)?;
            What::NotYet {
                step: StepIndex(twin.step),
                number: twin.number,
            }
        }
        "reading_taken" => {
            let twin: ReadingTaken = of(body)?;
            What::ReadingTaken {
                temperature: Temperature::from_celsius(twin.celsius)?,
            }
        }
        "hold_dropped" => What::HoldDropped {
            step: StepIndex(of::<OfStep>(body)?.step),
        },
        "hold_resumed" => What::HoldResumed {
            step: StepIndex(of::<OfStep>(body)?.step),
        },
        "taken_back" => of(body).map(|Nothing {}| What::TakenBack)?,
        "call_raised" => {
            let call = CallKind::from_id(&of::<CallRaised>(body)?.call);
            What::CallRaised {
                call: call.ok_or(BodyFault::Value { key: "call" })?,
            }
        }
        "calls_heard" => of(body).map(|Nothing {}| What::CallsHeard)?,
        "beat" => of(body).map(|Nothing {}| What::Beat)?,
        "returned" => {
            let twin: Returned = of(body)?;
            What::Returned {
                at_least: Span::from_ms(twin.at_least_ms),
                at_most: twin.at_most_ms.map(Span::from_ms),
            }
        }
        "return_answered" => What::ReturnAnswered {
            answer: return_answer(&of::<ReturnAnswered>(body)?.answer)?,
        },
        "bath_stopped" => of(body).map(|Nothing {}| What::BathStopped)?,
        "bath_closed" => of(body).map(|Nothing {}| What::BathClosed)?,
        _ => return Ok(None),
    }))
}

fn of<T: DeserializeOwned>(body: Map<String, Value>) -> Result<T, BodyFault> {
    Ok(serde_json::from_value(Value::Object(body))?)
}

fn turn(step: StepIndex, number: u32) -> serde_json::Result<Value> {
    serde_json::to_value(Turn { step: step.0, number })
}

fn skip_reason(id: &str) -> Result<SkipReason, BodyFault> {
    let found = SkipReason::ALL.into_iter().find(|reason| reason.id() == id);
    found.ok_or(BodyFault::Value { key: "reason" })
}

fn return_answer(id: &str) -> Result<ReturnAnswer, BodyFault> {
    use ReturnAnswer::{BackToRaise, CarryOn, CountIt, HoldAgain};
    let found = [CarryOn, CountIt, HoldAgain, BackToRaise]
        .into_iter()
        .find(|answer| answer.id() == id);
    found.ok_or(BodyFault::Value { key: "answer" })
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Nothing {}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct BathBegun {
    bath_id: String,
    plan: PlanTwin,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct StepDone {
    step: usize,
    done: DoneTwin,
}

#[derive(Serialize, Deserialize)]
#[serde(tag = "how", rename_all = "kebab-case", deny_unknown_fields)]
enum DoneTwin {
    AsPlanned,
    Weighed { grams: f64 },
    Read { celsius: f64 },
    Early,
}

impl DoneTwin {
    const fn of(done: Done) -> Self {
        match done {
            Done::AsPlanned => Self::AsPlanned,
            Done::Weighed(mass) => Self::Weighed { grams: mass.grams() },
            Done::Read(temperature) => Self::Read {
                celsius: temperature.celsius(),
            },
            Done::Early => Self::Early,
        }
    }

    fn done(self) -> Result<Done, BodyFault> {
        Ok(match self {
            Self::AsPlanned => Done::AsPlanned,
            Self::Weighed { grams } => Done::Weighed(Mass::from_grams(grams)?),
            Self::Read { celsius } => Done::Read(Temperature::from_celsius(celsius)?),
            Self::Early => Done::Early,
        })
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct StepSkipped {
    step: usize,
    reason: String,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Turn {
    step: usize,
    number: u32,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct ReadingTaken {
    celsius: f64,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct OfStep {
    step: usize,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct CallRaised {
    call: String,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Returned {
    at_least_ms: u64,
    at_most_ms: Option<u64>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct ReturnAnswered {
    answer: String,
}
