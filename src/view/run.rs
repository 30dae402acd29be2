//! The run screen: what to do now, how much, by when, and what the slab means.

use crate::craft::time::{Moment, Span};
use crate::machine::call::CallKind;
use crate::machine::pot::Ended;
use crate::machine::{Machine, PotNo, PotRun, outlook, rounds};
use crate::sheet::plan::{Plan, Step, StepAct, StepIndex, StepKind};

use crate::{msg, say};

use super::act::{self, Prompt};
use super::course;
use super::curve;
use super::locale::Locale;
use super::next;
use super::pot_picture;
use super::screen::{ActWords, Icon, RunScreen, SideAct, Slab};
use super::waiting::{self, Waiting};

/// The run screen of a pot; `None` when there is no bath in it. `saving` while a tap is on its way to the disk.
#[must_use]
pub fn screen(machine: &Machine, pot: PotNo, now: Moment, locale: Locale, saving: bool) -> Option<RunScreen> {
    let run = machine.pot(pot)?;
    let waiting = waiting::of(run, now);
    let (picture, pot_words) = pot_picture::of_run(run, locale);
    let (curve, lists) = curve::of_run(run, now, locale);
    let slab = slab(run, waiting, now, locale);
    let round = round(machine, run, waiting);
    let act = act_words(run, waiting, now, locale);
    let (act, slab, other) = match &round {
        Some(pots) => in_a_round(pots, act, slab, locale),
        None => (act, slab, not_yet_slab(run, waiting, saving, locale)),
    };
    Some(RunScreen {
        title: next::title(&run.plan, locale),
        step: step_words(run, locale),
        clock: locale.clock(now),
        pot: picture,
        pot_words,
        act,
        slab: if saving { busy(slab, locale) } else { slab },
        other,
        curve,
        lists,
        rail: next::rail(machine, pot, now, locale),
        sides: sides(run, waiting, now, locale),
    })
}

/// The pots of a turn round, when this pot's turn is called and another's as well.
pub(super) fn round(machine: &Machine, run: &PotRun, waiting: Waiting) -> Option<Vec<PotNo>> {
    if !matches!(waiting, Waiting::Call(CallKind::Turn(_))) {
        return None;
    }
    let pots = rounds::round(machine.pots());
    (pots.len() > 1 && pots.contains(&run.pot)).then_some(pots)
}

/// `TURN 1, 3, 4`: one tap for all of them; the pot's own slab stands beside it.
fn in_a_round(pots: &[PotNo], act: ActWords, own: Slab, locale: Locale) -> (ActWords, Slab, Slab) {
    let numbers = numbers(pots);
    let all = Slab {
        key: "turn-round".into(),
        label: say!(locale, "All turned"),
        detail: say!(locale, "pots {numbers}", numbers = numbers),
        ..own.clone()
    };
    let act = ActWords {
        amount: numbers.clone(),
        object: say!(locale, "the goods"),
        // Two slabs want the whole row; what is left of this pot's hold can wait until the round is done.
        time: String::new(),
        time_label: String::new(),
        ..act
    };
    let only = Slab {
        label: say!(locale, "Only this pot"),
        quiet: true,
        ..own
    };
    (act, all, only)
}

/// `1, 3, 4`.
pub(super) fn numbers(pots: &[PotNo]) -> String {
    let numbers: Vec<String> = pots.iter().map(|pot| pot.0.to_string()).collect();
    numbers.join(", ")
}

fn step_words(run: &PotRun, locale: Locale) -> String {
    let count = run.plan.steps.len();
    if run.stand.ended.is_some() {
        return say!(locale, "{count} steps", count = count);
    }
    say!(
        locale,
        "step {number} of {count}",
        number = run.stand.step.0.saturating_add(1),
        count = count
    )
}

/// The act of a pot in finished words.
pub(super) fn act_words(run: &PotRun, waiting: Waiting, now: Moment, locale: Locale) -> ActWords {
    let Some(step) = run.step() else {
        return ended(run, locale);
    };
    let prompt = shortened(&run.plan, step, act::prompt(&run.plan, step, locale), locale);
    match waiting {
        Waiting::Ended(_) => ended(run, locale),
        Waiting::Answer | Waiting::Call(CallKind::Returned) => ActWords {
            verb: say!(locale, "ANSWER"),
            object: say!(locale, "the card first"),
            how: say!(locale, "the screen was off; say what the bath did meanwhile"),
            ..ActWords::default()
        },
        Waiting::Call(call) => called(run, step, prompt, call, now, locale),
        Waiting::Turn(_, at) => timed(
            prompt,
            super::locale::countdown(at.since(now)),
            say!(locale, "next turn in"),
        ),
        Waiting::HoldEnd(at) => timed(
            prompt,
            super::locale::countdown(at.since(now)),
            say!(locale, "hold left"),
        ),
        Waiting::Reheating => reheating(run, prompt, now, locale),
        Waiting::Heat(band) => {
            if matches!(step.act, StepAct::Cool { .. }) {
                due_at(prompt, band.likely, say!(locale, "about"), now, locale)
            } else {
                let mut words = due_at(prompt, band.high, say!(locale, "expected by"), now, locale);
                let soonest = next::clock_and_day(band.low, now, locale).0;
                words.object = say!(locale, "look from {clock} on", clock = soonest);
                words
            }
        }
        Waiting::HeatUnknown => timed(
            prompt,
            locale.big_span(run.stand.waited.at(now)),
            say!(locale, "so far"),
        ),
        Waiting::Soak(at) => timed(
            prompt,
            super::locale::countdown(at.since(now)),
            say!(locale, "soak left"),
        ),
        Waiting::Rest(at) => rest(prompt, at, now, locale),
        Waiting::Look(at) => ActWords {
            time_label: say!(locale, "look in"),
            ..rest(prompt, at, now, locale)
        },
        Waiting::Drying => {
            let dried = run.stand.waited.at(now);
            if dried < Span::from_minutes(1) {
                plain(prompt)
            } else {
                timed(prompt, locale.big_span(dried), say!(locale, "drying for"))
            }
        }
        Waiting::Hands => plain(prompt),
    }
}

fn plain(prompt: Prompt) -> ActWords {
    ActWords {
        verb: prompt.verb,
        amount: prompt.amount,
        object: prompt.object,
        how: prompt.how,
        caution: prompt.caution,
        ..ActWords::default()
    }
}

fn timed(prompt: Prompt, time: String, label: String) -> ActWords {
    ActWords {
        time,
        time_label: label,
        ..plain(prompt)
    }
}

fn due_at(prompt: Prompt, at: Moment, label: String, now: Moment, locale: Locale) -> ActWords {
    let (_, day) = next::clock_and_day(at, now, locale);
    let label = match day {
        Some(day) => format!("{label}, {day}"),
        None => label,
    };
    timed(prompt, locale.big_clock(at, now), label)
}

fn rest(prompt: Prompt, at: Moment, now: Moment, locale: Locale) -> ActWords {
    const FAR: Span = Span::from_minutes(180);
    let left = at.since(now);
    if left < FAR {
        timed(prompt, super::locale::countdown(left), say!(locale, "time left"))
    } else {
        due_at(prompt, at, say!(locale, "until"), now, locale)
    }
}

/// What a standing call makes of the act.
fn called(
    run: &PotRun,
    step: &Step,
    prompt: Prompt,
    call: CallKind,
    now: Moment,
    locale: Locale,
) -> ActWords {
    match call {
        CallKind::Turn(_) => ActWords {
            verb: say!(locale, "TURN"),
            object: say!(locale, "the goods"),
            how: say!(locale, "lift, open, let down again, all under the liquor"),
            caution: prompt.caution,
            time: super::locale::countdown(hold_left(run, now)),
            time_label: say!(locale, "hold left"),
            ..ActWords::default()
        },
        CallKind::Look if step.act.kind() == StepKind::Look => plain(prompt),
        CallKind::Look => {
            let late = waiting::expected(run, now).high;
            let is_late = late.since(now) == Span::NONE;
            let look = look(step, prompt, locale);
            if is_late {
                ActWords {
                    time: locale.big_span(run.stand.waited.at(now)),
                    time_label: say!(locale, "heated for"),
                    ..look
                }
            } else {
                ActWords {
                    time: locale.big_clock(late, now),
                    time_label: say!(locale, "expected by"),
                    ..look
                }
            }
        }
        CallKind::CoolEnough => ActWords {
            time: locale.big_span(run.stand.waited.at(now)),
            time_label: say!(locale, "cooled for"),
            ..look(step, prompt, locale)
        },
        CallKind::ActDue => match step.act.kind() {
            StepKind::Dip => ActWords {
                verb: say!(locale, "LIFT"),
                amount: prompt.amount,
                object: say!(locale, "out into the air"),
                how: prompt.how,
                caution: prompt.caution,
                ..ActWords::default()
            },
            StepKind::Air | StepKind::Rest => ActWords {
                amount: say!(locale, "is over"),
                ..plain(prompt)
            },
            StepKind::WetOut
            | StepKind::Weigh
            | StepKind::Fill
            | StepKind::Dissolve
            | StepKind::Add
            | StepKind::Strain
            | StepKind::Enter
            | StepKind::Raise
            | StepKind::Hold
            | StepKind::Cool
            | StepKind::Lift
            | StepKind::Squeeze
            | StepKind::Look
            | StepKind::Rinse
            | StepKind::Dry
            | StepKind::Shelve => plain(prompt),
        },
        CallKind::HoldOver | CallKind::OverRun => ActWords {
            verb: say!(locale, "HEAT OFF"),
            object: say!(locale, "the hold is over"),
            how: after(run, locale),
            time: super::locale::countdown(over_by(run, now)),
            time_label: say!(locale, "over by"),
            ..ActWords::default()
        },
        CallKind::TooHot => too_hot(run, step, now, locale),
        CallKind::HeatUnattended => ActWords {
            verb: say!(locale, "LOOK"),
            object: say!(locale, "at the pot: the heat is on"),
            how: say!(locale, "if all is well, press \"heard\""),
            caution: prompt.caution,
            time: locale.big_span(now.since(run.last_touch)),
            time_label: say!(locale, "untouched for"),
            ..ActWords::default()
        },
        CallKind::Returned => plain(prompt),
    }
}

fn look(step: &Step, prompt: Prompt, locale: Locale) -> ActWords {
    let goal = match &step.act {
        StepAct::Raise { to, .. } | StepAct::Cool { to, .. } => format!("{}?", locale.degrees(*to)),
        StepAct::WetOut { .. }
        | StepAct::Weigh { .. }
        | StepAct::Fill { .. }
        | StepAct::Dissolve { .. }
        | StepAct::Add { .. }
        | StepAct::Strain { .. }
        | StepAct::Enter { .. }
        | StepAct::Hold { .. }
        | StepAct::Lift
        | StepAct::Squeeze
        | StepAct::Look { .. }
        | StepAct::Dip { .. }
        | StepAct::Rinse { .. }
        | StepAct::Air { .. }
        | StepAct::Rest { .. }
        | StepAct::Dry
        | StepAct::Shelve => String::new(),
    };
    ActWords {
        verb: say!(locale, "LOOK"),
        amount: goal,
        object: say!(locale, "thermometer"),
        how: say!(locale, "in the middle, clear of the bottom"),
        caution: prompt.caution,
        ..ActWords::default()
    }
}

fn too_hot(run: &PotRun, step: &Step, now: Moment, locale: Locale) -> ActWords {
    let ceiling = match &step.act {
        StepAct::Hold { ceiling, .. } => {
            say!(locale, "at most {degrees}", degrees = locale.degrees(*ceiling))
        }
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
        | StepAct::Shelve => String::new(),
    };
    let read = run
        .last_reading
        .map_or_else(String::new, |(_, read)| locale.degrees(read));
    ActWords {
        verb: say!(locale, "TOO HOT"),
        amount: read,
        object: ceiling,
        how: say!(locale, "heat down, lid off; then key in a new reading"),
        time: super::locale::countdown(hold_left(run, now)),
        time_label: say!(locale, "hold left"),
        ..ActWords::default()
    }
}

fn reheating(run: &PotRun, prompt: Prompt, now: Moment, locale: Locale) -> ActWords {
    let Some(StepAct::Hold { at, floor, .. }) = run.step().map(|step| &step.act) else {
        return plain(prompt);
    };
    ActWords {
        verb: say!(locale, "RAISE"),
        amount: say!(locale, "to {degrees}", degrees = locale.degrees(*at)),
        object: say!(locale, "the hold waits"),
        how: say!(
            locale,
            "it counts on once the bath is back at {degrees}",
            degrees = locale.degrees(*floor)
        ),
        caution: prompt.caution,
        time: super::locale::countdown(hold_left(run, now)),
        time_label: say!(locale, "hold left"),
    }
}

fn ended(run: &PotRun, locale: Locale) -> ActWords {
    let object = next::title(&run.plan, locale);
    let (verb, how) = match run.stand.ended {
        Some(Ended::Stopped) => (
            msg!("STOPPED"),
            msg!("is the heat off? what was done stands in the daybook"),
        ),
        Some(Ended::Closed) | None => (msg!("SHELVED"), msg!("the record stands in the daybook")),
    };
    ActWords {
        verb: locale.say(verb),
        object,
        how: locale.say(how),
        ..ActWords::default()
    }
}

/// The step after this one, in short.
fn after(run: &PotRun, locale: Locale) -> String {
    let next = run
        .plan
        .steps
        .get(run.stand.step.0.saturating_add(1))
        .map(|step| act::prompt(&run.plan, step, locale));
    next.map_or_else(String::new, |prompt| {
        say!(locale, "then: {act}", act = prompt.line())
    })
}

fn hold_span(run: &PotRun) -> Span {
    if let Some(StepAct::Hold { span, .. }) = run.step().map(|step| &step.act) {
        *span
    } else {
        Span::NONE
    }
}

fn held(run: &PotRun, now: Moment) -> Span {
    run.stand.hold.map_or(Span::NONE, |hold| hold.held.at(now))
}

fn hold_left(run: &PotRun, now: Moment) -> Span {
    hold_span(run).less(held(run, now))
}

fn over_by(run: &PotRun, now: Moment) -> Span {
    held(run, now).less(hold_span(run))
}

/// What the slab says and confirms just now.
fn slab(run: &PotRun, waiting: Waiting, now: Moment, locale: Locale) -> Slab {
    let Some(step) = run.step() else {
        return Slab {
            key: "close-pot".into(),
            label: say!(locale, "Pot is free"),
            detail: say!(locale, "back to the stove"),
            icon: Icon::Stove,
            enabled: true,
            quiet: false,
        };
    };
    let slab = Slab {
        key: format!("confirm-{}", run.stand.step.0),
        label: slab_label(run, step, locale),
        detail: detail(run, step, locale),
        icon: Icon::Tick,
        enabled: true,
        quiet: false,
    };
    if waiting == Waiting::Answer {
        return Slab {
            detail: say!(locale, "answer the card first"),
            icon: Icon::Question,
            enabled: false,
            ..slab
        };
    }
    match &step.act {
        StepAct::Hold {
            floor,
            span,
            turn_every,
            ..
        } => {
            let reheating = run.stand.hold.is_some_and(|hold| hold.reheating);
            let is_over = held(run, now) >= *span;
            hold_slab(run, slab, reheating, *floor, is_over, *turn_every, locale)
        }
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
        | StepAct::Shelve => slab,
    }
}

/// Goods that are aired between two dips go in again with the tap that ends the airing.
fn slab_label(run: &PotRun, step: &Step, locale: Locale) -> String {
    let next = run.plan.step(StepIndex(run.stand.step.0.saturating_add(1)));
    let dips_next = next.is_some_and(|next| next.act.kind() == StepKind::Dip);
    if dips_next && step.act.kind() == StepKind::Air {
        say!(locale, "In again")
    } else {
        locale.say(act::slab(step.act.kind()))
    }
}

/// *Not yet*, beside *it shows*, once a sign is to be looked for.
fn not_yet_slab(run: &PotRun, waiting: Waiting, saving: bool, locale: Locale) -> Slab {
    let again = match (run.step().map(|step| &step.act), waiting) {
        (Some(StepAct::Look { again, .. }), Waiting::Call(CallKind::Look)) => *again,
        (_, _) => return Slab::default(),
    };
    let slab = Slab {
        key: format!("not-yet-{}", run.stand.step.0),
        label: say!(locale, "Not yet"),
        detail: say!(locale, "again in {span}", span = locale.span(again)),
        icon: Icon::Clock,
        enabled: true,
        quiet: true,
    };
    if saving { busy(slab, locale) } else { slab }
}

/// In a hold the machine takes a tap as *it is back*, *heat off* or *turned*, in this order.
fn hold_slab(
    run: &PotRun,
    slab: Slab,
    reheating: bool,
    floor: crate::craft::quantity::Temperature,
    is_over: bool,
    turn_every: Option<Span>,
    locale: Locale,
) -> Slab {
    if reheating {
        return Slab {
            label: say!(locale, "It is back"),
            detail: say!(locale, "{degrees} or more", degrees = locale.degrees(floor)),
            ..slab
        };
    }
    if is_over {
        return Slab {
            label: say!(locale, "Heat is off"),
            detail: String::new(),
            ..slab
        };
    }
    if turn_every.is_none() {
        return Slab {
            label: say!(locale, "Holding"),
            detail: say!(locale, "no hands needed"),
            icon: Icon::Clock,
            enabled: false,
            ..slab
        };
    }
    Slab {
        detail: turn_count(run).map_or_else(String::new, |(number, count)| {
            say!(locale, "{number} of {count}", number = number, count = count)
        }),
        ..slab
    }
}

/// The turn that is next, and how many this hold has.
pub(super) fn turn_count(run: &PotRun) -> Option<(u32, usize)> {
    let StepAct::Hold { span, turn_every, .. } = run.step()?.act else {
        return None;
    };
    let (number, _) = run.next_turn()?;
    Some((number, outlook::turns(span, turn_every).len()))
}

/// The small second line of a slab.
fn detail(run: &PotRun, step: &Step, locale: Locale) -> String {
    let amount = |kind| match kind {
        StepKind::Weigh | StepKind::Add | StepKind::Dissolve | StepKind::Fill => {
            act::prompt(&run.plan, step, locale).amount
        }
        StepKind::WetOut
        | StepKind::Strain
        | StepKind::Enter
        | StepKind::Raise
        | StepKind::Hold
        | StepKind::Cool
        | StepKind::Lift
        | StepKind::Squeeze
        | StepKind::Look
        | StepKind::Dip
        | StepKind::Rinse
        | StepKind::Air
        | StepKind::Rest
        | StepKind::Dry
        | StepKind::Shelve => String::new(),
    };
    match &step.act {
        StepAct::Raise { to, .. } => say!(locale, "{degrees} or more", degrees = locale.degrees(*to)),
        StepAct::Cool { to, .. } => say!(locale, "{degrees} or less", degrees = locale.degrees(*to)),
        StepAct::Enter { at_most } => say!(locale, "at most {degrees}", degrees = locale.degrees(*at_most)),
        StepAct::WetOut { .. }
        | StepAct::Weigh { .. }
        | StepAct::Fill { .. }
        | StepAct::Dissolve { .. }
        | StepAct::Add { .. }
        | StepAct::Strain { .. }
        | StepAct::Hold { .. }
        | StepAct::Lift
        | StepAct::Squeeze
        | StepAct::Look { .. }
        | StepAct::Dip { .. }
        | StepAct::Rinse { .. }
        | StepAct::Air { .. }
        | StepAct::Rest { .. }
        | StepAct::Dry
        | StepAct::Shelve => amount(step.act.kind()),
    }
}

fn busy(slab: Slab, locale: Locale) -> Slab {
    Slab {
        detail: say!(locale, "saving..."),
        icon: Icon::Clock,
        enabled: false,
        ..slab
    }
}

/// At most four. While a call may sound, *heard* takes the place of what is wanted least just then.
fn sides(run: &PotRun, waiting: Waiting, now: Moment, locale: Locale) -> Vec<SideAct> {
    let side = |key: &str, label: &str, icon, enabled, strong| SideAct {
        key: key.to_owned(),
        label: locale.say(label),
        icon,
        enabled,
        strong,
    };
    let stove = side("stove", msg!("stove"), Icon::Stove, true, false);
    if run.stand.ended.is_some() {
        return vec![stove];
    }
    let step = run.step();
    let heated = step.is_some_and(|step| course::is_heated(&step.act));
    let weighs = step.is_some_and(|step| step.act.kind() == StepKind::Weigh);
    let heard = waiting::is_calling(run, now);
    let measures = matches!(
        waiting,
        Waiting::Call(CallKind::Look | CallKind::CoolEnough | CallKind::TooHot)
    );
    let mut sides = Vec::new();
    if heard {
        sides.push(side("heard", msg!("heard"), Icon::Heard, true, true));
    } else if weighs && waiting != Waiting::Answer {
        sides.push(side("weighed", msg!("scale says"), Icon::Scale, true, false));
    }
    let open_card = waiting == Waiting::Answer;
    if heated && (measures || !heard) && !open_card {
        sides.push(side("reading", msg!("reading"), Icon::Reading, true, false));
    }
    if sides.len() < 2 {
        let can = run.can_take_back() && !open_card;
        sides.push(side("take-back", msg!("take back"), Icon::TakeBack, can, false));
    }
    sides.push(stove);
    sides.push(side("more", msg!("more"), Icon::More, true, false));
    sides
}

/// Several wares at once are named by their letters when their names don't fit.
fn shortened(plan: &Plan, step: &Step, prompt: Prompt, locale: Locale) -> Prompt {
    let letters = match &step.act {
        StepAct::Add { letters } | StepAct::Dissolve { letters, .. } | StepAct::Strain { letters } => letters,
        StepAct::WetOut { .. }
        | StepAct::Weigh { .. }
        | StepAct::Fill { .. }
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
        | StepAct::Shelve => return prompt,
    };
    let fits = |text: &str| text.chars().count() <= OBJECT_CHARACTERS;
    if letters.len() < 2 || fits(&prompt.object) {
        return prompt;
    }
    let weighed: Vec<String> = letters
        .iter()
        .filter_map(|letter| plan.addition(*letter))
        .map(|addition| format!("{} {}", addition.letter.0, locale.grams(addition.target)))
        .collect();
    let weighed = weighed.join(" + ");
    let object = if step.act.kind() != StepKind::Strain && fits(&weighed) {
        weighed
    } else {
        let letters: Vec<String> = letters.iter().map(|letter| letter.0.to_string()).collect();
        letters.join(" + ")
    };
    Prompt { object, ..prompt }
}

/// The most that is read from where the dyer stands. What is longer and can't be put in fewer words gets smaller letters.
const OBJECT_CHARACTERS: usize = 40;
