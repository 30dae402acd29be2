//! The pot in section as it should look now, and the same in words.

use crate::craft::quantity::Volume;
use crate::craft::vessel;
use crate::craft::water;
use crate::machine::PotRun;
use crate::machine::call::CallKind;
use crate::recipe::model::{BathKind, Letter};
use crate::sheet::plan::{Plan, StepAct, StepIndex, StepKind};

use crate::{msg, say};

use super::course;
use super::history::History;
use super::locale::Locale;
use super::screen::{Heat, Lid, Liquor, Place, PotPicture, Steam};

/// The picture, and the pot in words short enough for two lines.
#[must_use]
pub fn of_run(run: &PotRun, locale: Locale) -> (PotPicture, String) {
    let history = History::of(run);
    let heat = heat(run);
    let picture = PotPicture {
        pot: i32::from(run.pot.0),
        level: level(run),
        liquor: liquor(run, &history),
        lid: lid(run),
        heat,
        steam: steam(run, &history, heat),
        goods: goods(run),
        bag: bag(run),
        said: String::new(),
    };
    let words = in_words(run, &picture, locale);
    let full = if run.stand.filled {
        format!("{}, ", locale.say(how_full(picture.level)))
    } else {
        String::new()
    };
    let said = say!(
        locale,
        "pot {number} in section: {words}",
        number = run.pot.0,
        words = format!("{full}{words}")
    );
    (PotPicture { said, ..picture }, words)
}

/// How full, 0 to 1: the water, and what the goods bring and push aside.
fn level(run: &PotRun) -> f32 {
    let plan = &run.plan;
    if !run.stand.filled {
        return 0.0;
    }
    let filled = plan.steps.iter().find_map(|step| {
        if let StepAct::Fill { water, .. } = step.act {
            Some(water)
        } else {
            None
        }
    });
    let (bath, displaced) = if run.stand.goods_in {
        let litres = plan.goods.dry.grams() / 1_000.0 / plan.goods.fibre.facts().density;
        (plan.bath, Volume::saturating_litres(litres))
    } else {
        (filled.unwrap_or(plan.bath), Volume::saturating_litres(0.0))
    };
    part(water::fill_fraction(&plan.pot, bath, displaced))
}

#[expect(
    clippy::as_conversions,
    reason = "a part of one, for a drawing: the nearest f32 will do"
)]
const fn part(value: f64) -> f32 {
    value.clamp(0.0, 1.0) as f32
}

fn how_full(level: f32) -> &'static str {
    match level {
        level if level < 0.18 => msg!("a little liquor"),
        level if level < 0.38 => msg!("a quarter full"),
        level if level < 0.45 => msg!("two fifths full"),
        level if level < 0.58 => msg!("half full"),
        level if level < 0.70 => msg!("two thirds full"),
        level if level < 0.80 => msg!("three quarters full"),
        _ => msg!("nearly full"),
    }
}

/// Dyestuffs whose liquor isn't red, by parts of their ids; common practice, no source.
const YELLOW: [&str; 16] = [
    "onion",
    "weld",
    "marigold",
    "goldenrod",
    "chamomile",
    "tansy",
    "turmeric",
    "pomegranate",
    "fustic",
    "broom",
    "birch",
    "saffron",
    "tagetes",
    "osage",
    "quercitron",
    "heather",
];
const BROWN: [&str; 9] = [
    "walnut", "cutch", "oak", "tea", "chestnut", "acorn", "alder", "gall", "tann",
];
const BLUE: [&str; 3] = ["indigo", "woad", "logwood"];
const RED: [&str; 6] = ["madder", "cochineal", "lac", "sappan", "brazil", "alkanet"];
const GREENISH: [&str; 2] = ["ferrous", "copper"];
const MORDANT: [&str; 5] = ["alum", "tartar", "acetate", "tin-chloride", "tartaric"];

/// The colour of what has gone in so far. A dyestuff covers a metal, a metal covers a mordant.
fn liquor(run: &PotRun, history: &History) -> Liquor {
    let plan = &run.plan;
    let added: Vec<&str> = plan
        .steps
        .iter()
        .enumerate()
        .filter(|(index, _)| {
            history
                .step(StepIndex(*index))
                .is_some_and(|went| went.ends.is_some() && !went.skipped && run.stand.step.0 > *index)
        })
        .flat_map(|(_, step)| letters_added(&step.act))
        .filter_map(|letter| plan.addition(*letter))
        .map(|addition| addition.ware_id.as_str())
        .collect();
    if !run.stand.filled || added.is_empty() {
        return Liquor::Water;
    }
    let holds = |kinds: &[&str]| {
        added
            .iter()
            .any(|ware| kinds.iter().any(|kind| ware.contains(kind)))
    };
    if holds(&BLUE) {
        Liquor::Indigo
    } else if holds(&RED) {
        Liquor::Madder
    } else if holds(&BROWN) {
        Liquor::Walnut
    } else if holds(&YELLOW) {
        Liquor::Weld
    } else if holds(&GREENISH) {
        Liquor::Verdigris
    } else if holds(&MORDANT) {
        Liquor::Mordant
    } else {
        match plan.kind {
            BathKind::Scour => Liquor::Water,
            BathKind::Mordant | BathKind::Fixing | BathKind::AfterBath => Liquor::Mordant,
            BathKind::Tannin => Liquor::Walnut,
            BathKind::Dye => Liquor::Weld,
            BathKind::Vat => Liquor::Indigo,
        }
    }
}

fn letters_added(act: &StepAct) -> &[Letter] {
    if let StepAct::Add { letters } = act {
        letters
    } else {
        &[]
    }
}

fn calls(run: &PotRun, which: impl Fn(CallKind) -> bool) -> bool {
    run.stand.calls.iter().any(|call| which(call.kind))
}

/// On as planned while it heats and holds; off where hands or a spoon need to get in.
fn lid(run: &PotRun) -> Lid {
    let as_planned = match run.plan.lid {
        vessel::Lid::Off => Lid::Off,
        vessel::Lid::Loose => Lid::Loose,
        vessel::Lid::Tight => Lid::Tight,
    };
    match run.step().map(|step| &step.act) {
        Some(StepAct::Raise { .. }) => as_planned,
        Some(StepAct::Hold { .. }) if calls(run, |call| matches!(call, CallKind::Turn(_))) => Lid::Off,
        Some(StepAct::Hold { .. }) => as_planned,
        Some(StepAct::Cool { lid_on: true, .. }) => Lid::Loose,
        Some(StepAct::Look { .. }) if !calls(run, |call| call == CallKind::Look) => Lid::Loose,
        Some(StepAct::Rest { .. }) if run.stand.goods_in || run.stand.bags_in > 0 => Lid::Loose,
        Some(
            StepAct::WetOut { .. }
            | StepAct::Weigh { .. }
            | StepAct::Fill { .. }
            | StepAct::Dissolve { .. }
            | StepAct::Add { .. }
            | StepAct::Strain { .. }
            | StepAct::Enter { .. }
            | StepAct::Cool { lid_on: false, .. }
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
        | None => Lid::Off,
    }
}

/// High on the way up, low when it holds or waits, off when the hold is over.
fn heat(run: &PotRun) -> Heat {
    let over = calls(run, |call| matches!(call, CallKind::HoldOver | CallKind::OverRun));
    if !run.stand.burner_on || over {
        return Heat::Off;
    }
    let rises = matches!(run.step().map(|step| step.act.kind()), Some(StepKind::Raise))
        || run.stand.hold.is_some_and(|hold| hold.reheating);
    if rises { Heat::High } else { Heat::Low }
}

/// By the temperature the bath should have. Where it steams how much: common practice, no source.
fn steam(run: &PotRun, history: &History, heat: Heat) -> Steam {
    const SOME_C: f64 = 55.0;
    const MUCH_C: f64 = 85.0;
    let is_over = course::last_heated(&run.plan).is_none_or(|last| run.stand.step > last);
    if !run.stand.filled || run.stand.ended.is_some() || (is_over && heat == Heat::Off) {
        return Steam::None;
    }
    let celsius = course::celsius_now(&run.plan, history, history.minutes(run.last_at));
    if celsius >= MUCH_C {
        Steam::Much
    } else if celsius >= SOME_C {
        Steam::Some
    } else {
        Steam::None
    }
}

/// In, or out and wet: soaking before, draining after.
fn goods(run: &PotRun) -> Place {
    if run.stand.goods_in {
        return Place::Within;
    }
    match run.step().map(|step| step.act.kind()) {
        Some(StepKind::Enter | StepKind::Squeeze) => Place::Out,
        Some(StepKind::Air) if was_dipped(run) => Place::Out,
        Some(StepKind::Lift) | None => Place::Absent,
        Some(
            StepKind::WetOut
            | StepKind::Weigh
            | StepKind::Fill
            | StepKind::Dissolve
            | StepKind::Add
            | StepKind::Strain
            | StepKind::Raise
            | StepKind::Hold
            | StepKind::Cool
            | StepKind::Look
            | StepKind::Dip
            | StepKind::Rinse
            | StepKind::Air
            | StepKind::Rest
            | StepKind::Dry
            | StepKind::Shelve,
        ) => {
            if run.stand.soak.is_some() {
                Place::Out
            } else {
                Place::Absent
            }
        }
    }
}

/// Whether the step before this one was a dip: the goods hang above the pot.
fn was_dipped(run: &PotRun) -> bool {
    let before = run.stand.step.0.checked_sub(1).map(StepIndex);
    before
        .and_then(|before| run.plan.step(before))
        .is_some_and(|step| step.act.kind() == StepKind::Dip)
}

/// In the bath, or in the hand about to go in.
fn bag(run: &PotRun) -> Place {
    if run.stand.bags_in > 0 {
        return Place::Within;
    }
    let plan: &Plan = &run.plan;
    let is_next = run.step().is_some_and(|step| {
        letters_added(&step.act)
            .iter()
            .any(|letter| plan.addition(*letter).is_some_and(|addition| addition.bagged))
    });
    if is_next { Place::Out } else { Place::Absent }
}

fn in_words(run: &PotRun, picture: &PotPicture, locale: Locale) -> String {
    let mut parts: Vec<&str> = Vec::new();
    if !run.stand.filled {
        parts.push(msg!("empty"));
    } else {
        parts.push(match picture.lid {
            Lid::Off => msg!("lid off"),
            Lid::Loose => msg!("lid loose"),
            Lid::Tight => msg!("lid tight"),
        });
    }
    parts.push(match picture.heat {
        Heat::Off => msg!("heat off"),
        Heat::Low => msg!("heat low"),
        Heat::High => msg!("heat high"),
    });
    match (picture.goods, picture.bag) {
        (Place::Within, Place::Within) => parts.push(msg!("goods and bag in")),
        (Place::Within, Place::Out) => parts.push(msg!("goods in, bag out")),
        (Place::Within, Place::Absent) => parts.push(msg!("goods in")),
        (Place::Out, Place::Within) => parts.push(msg!("bag in, goods out")),
        (Place::Out, Place::Out | Place::Absent) => parts.push(msg!("goods out")),
        (Place::Absent, Place::Within) => parts.push(msg!("bag in")),
        (Place::Absent, Place::Out) => parts.push(msg!("bag out")),
        (Place::Absent, Place::Absent) => {}
    }
    let parts: Vec<String> = parts.into_iter().map(|part| locale.say(part)).collect();
    parts.join(", ")
}
