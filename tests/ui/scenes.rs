//! Screens as a dyer meets them, made from real baths and real pages in any language and any units: every state of a
//! run that a rehearsal comes through, pots beside each other, cards, pages. Shared by the tests and by
//! `cargo run --example gallery`.

use std::collections::BTreeSet;
use std::sync::Arc;

use potside::craft::fibre::Fibre;
use potside::craft::quantity::Mass;
use potside::craft::time::{Moment, Span, Stretch};
use potside::machine::rehearsal::{Line, play};
use potside::machine::{Ask, Input, Machine, PotNo, What};
use potside::recipe::book;
use potside::sheet::plan::{Goods, Plan, StepKind};
use potside::sheet::{StovePlace, Wishes, compute};
use potside::shelf::{Came, Milligrams, NewLot, NewSupply, ShelfAsk, Stock};
use potside::view::locale::Locale;
use potside::view::pages::{GoodsPress, HomePress, Press};
use potside::view::probably::probably;
use potside::view::screen::{Screen, WipeScreen};
use potside::view::{far, next, returned, run};

#[allow(dead_code, reason = "the tests of the pages press more of it")]
#[path = "../it/support/glass.rs"]
mod glass;

use glass::{Glass, TODAY};

/// A screen and what to call it.
pub(crate) struct Scene {
    pub(crate) name: String,
    pub(crate) screen: Screen,
}

/// A November afternoon.
const START: Moment = Moment {
    stretch: Stretch(0),
    steady_ms: 60_000,
    wall_ms: 1_795_788_000_000,
};

/// Baths that together come through every kind of step: recipe, fibre, grams, hanks.
const BATHS: [(&str, Fibre, f64, u32); 4] = [
    ("alum-tartar-studio", Fibre::Wool, 1_250.0, 12),
    ("madder", Fibre::Wool, 350.0, 3),
    ("vat-fructose", Fibre::Cotton, 200.0, 2),
    ("alum-acetate", Fibre::Cotton, 100.0, 1),
];

/// All of them.
pub(crate) fn scenes(locale: Locale) -> Vec<Scene> {
    let mut scenes = Vec::new();
    for (recipe, fibre, grams, hanks) in BATHS {
        scenes.extend(states_of(&plan(recipe, fibre, grams, hanks), locale));
    }
    scenes.extend(beside_each_other(locale));
    scenes.extend(pages(locale));
    scenes
}

fn plan(recipe: &str, fibre: Fibre, grams: f64, hanks: u32) -> Arc<Plan> {
    let recipe = book::all()
        .iter()
        .find(|one| one.id == recipe)
        .map_or_else(|| panic!("no recipe {recipe}"), Arc::clone);
    let goods = Goods {
        fibre,
        dry: Mass::saturating_grams(grams),
        hanks,
        lot: None,
    };
    let mut wishes = Wishes::new(goods, StovePlace::default());
    wishes.stove.pot.capacity = potside::craft::quantity::Volume::saturating_litres(60.0);
    wishes.stove.pot.diameter = potside::craft::quantity::Length::saturating_centimetres(45.0);
    wishes.stove.burner.power = potside::craft::quantity::Power::saturating_watts(6_000.0);
    let sheet = compute(&recipe, &wishes);
    assert!(sheet.refusals.is_empty(), "{}: {:?}", recipe.id, sheet.refusals);
    sheet.plan
}

/// Each state of a bath once: the run screen as hands find it, and the far view that follows when they leave it.
fn states_of(plan: &Arc<Plan>, locale: Locale) -> Vec<Scene> {
    let mut scenes = Vec::new();
    let mut seen: BTreeSet<String> = BTreeSet::new();
    let pot = PotNo(1);
    play(plan, START, |line, machine| {
        let Line::Happened(event) = line else { return };
        let Some(kind) = machine
            .pot(pot)
            .and_then(|run| run.step())
            .map(|step| step.act.kind())
        else {
            return;
        };
        let called = match &event.what {
            What::CallRaised { call } => format!("-{call:?}"),
            What::Turned { .. } => "-turned".to_owned(),
            _ => String::new(),
        };
        let called: String = called
            .chars()
            .filter(|sign| sign.is_alphabetic() || *sign == '-')
            .collect();
        if !seen.insert(format!("{kind:?}{called}")) {
            return;
        }
        // A minute later: times have begun to run.
        let now = event.at.plus(Span::from_minutes(u64::from(called.is_empty())));
        let name = format!("{}-{:02}-{kind:?}{called}", plan.recipe_id, seen.len()).to_lowercase();
        scenes.extend(run_scene(&name, machine, pot, now, locale));
        scenes.extend(far_scene(&name, machine, pot, now, locale));
    })
    .expect("the rehearsal asks only what the machine takes");
    scenes
}

fn run_scene(name: &str, machine: &Machine, pot: PotNo, now: Moment, locale: Locale) -> Option<Scene> {
    Some(Scene {
        name: format!("run-{name}"),
        screen: Screen::Run(Box::new(run::screen(machine, pot, now, locale, false)?)),
    })
}

fn far_scene(name: &str, machine: &Machine, pot: PotNo, now: Moment, locale: Locale) -> Option<Scene> {
    Some(Scene {
        name: format!("far-{name}"),
        screen: Screen::Far(far::screen(machine, pot, now, locale)?),
    })
}

/// Hands at several pots, on a clock that jumps.
struct Stove {
    machine: Machine,
    now: Moment,
}

impl Stove {
    const fn new(machine: Machine, now: Moment) -> Self {
        Self { machine, now }
    }

    fn take(&mut self, input: &Input) {
        let events = self
            .machine
            .judge(input, self.now)
            .expect("it takes what it is asked");
        for event in events {
            self.machine.apply(&event);
        }
    }

    fn begin(&mut self, pot: u8, plan: &Arc<Plan>) {
        self.take(&Input::Begin {
            pot: PotNo(pot),
            bath_id: format!("scene-{pot}"),
            plan: Arc::clone(plan),
            cautions_read: true,
        });
    }

    fn confirm(&mut self, pot: u8, times: usize) {
        for _ in 0..times {
            let step = self.machine.pot(PotNo(pot)).expect("a bath").stand.step;
            self.take(&Input::Pot(PotNo(pot), Ask::Confirm { step, sure: true }));
        }
    }

    /// Confirms until a step of a kind stands.
    fn until(&mut self, pot: u8, kind: StepKind) {
        for _ in 0..40 {
            let step = self.machine.pot(PotNo(pot)).and_then(|run| run.step());
            if step.is_some_and(|step| step.act.kind() == kind) {
                return;
            }
            self.confirm(pot, 1);
        }
        panic!("pot {pot} never comes to {kind:?}");
    }

    fn pass(&mut self, span: Span) {
        let until = self.now.plus(span);
        while let Some((due, _)) = self.machine.next_deadline(self.now) {
            if due.steady_ms > until.steady_ms {
                break;
            }
            if due.steady_ms > self.now.steady_ms {
                self.now = due;
            }
            self.take(&Input::Tick);
        }
        self.now = until;
    }
}

/// Three pots, two of which want turning and one of which runs over; six pots; the card after an outage; the wiped
/// glass.
fn beside_each_other(locale: Locale) -> Vec<Scene> {
    let mordant = plan("alum-tartar-studio", Fibre::Wool, 350.0, 3);
    let dye = plan("madder", Fibre::Wool, 350.0, 3);
    let mut stove = Stove::new(Machine::default(), START);
    for (pot, plan) in [(1, &mordant), (2, &dye), (3, &mordant)] {
        stove.begin(pot, plan);
        stove.until(pot, StepKind::Hold);
    }
    stove.pass(Span::from_minutes(16));
    let mut scenes = Vec::new();
    let (machine, now) = (&stove.machine, stove.now);
    scenes.extend(run_scene("three-pots-round", machine, PotNo(1), now, locale));
    scenes.extend(far_scene("three-pots-round", machine, PotNo(1), now, locale));
    stove.take(&Input::TurnRound);
    stove.pass(Span::from_minutes(72));
    scenes.extend(run_scene(
        "three-pots-urgent",
        &stove.machine,
        PotNo(1),
        stove.now,
        locale,
    ));
    scenes.extend(far_scene(
        "three-pots-urgent",
        &stove.machine,
        PotNo(1),
        stove.now,
        locale,
    ));
    for pot in [4, 5, 6] {
        stove.begin(pot, &dye);
    }
    stove.until(5, StepKind::Raise);
    scenes.push(Scene {
        name: "stove-six".into(),
        screen: Screen::Stove(potside::view::stove::screen(&stove.machine, stove.now, locale)),
    });
    let next = next::of(stove.machine.pot(PotNo(1)).expect("a bath"), stove.now, locale);
    scenes.push(Scene {
        name: "wipe".into(),
        screen: Screen::Wipe(WipeScreen {
            act: next.act,
            time: next.time,
        }),
    });
    stove.now = Moment {
        stretch: Stretch(1),
        ..stove.now.plus(Span::from_minutes(13))
    };
    stove.take(&Input::Returned {
        at_least: Span::from_minutes(12),
        at_most: Some(Span::from_minutes(14)),
    });
    for pot in [2, 5] {
        let run = stove.machine.pot(PotNo(pot)).expect("a bath");
        let card = returned::screen(run, locale, probably(run)).expect("a card");
        scenes.push(Scene {
            name: format!("card-{pot}"),
            screen: Screen::Returned(card),
        });
    }
    scenes
}

/// A glass in the language and the units of a locale, pressed without a window.
fn glass_of(locale: Locale) -> Glass {
    let mut glass = Glass::new();
    glass.bench.language = locale.language;
    glass.bench.habits = locale.habits;
    glass
}

fn shows(glass: &mut Glass, name: &str) -> Scene {
    Scene {
        name: format!("page-{name}"),
        screen: glass.screen(),
    }
}

fn pages(locale: Locale) -> Vec<Scene> {
    let mut scenes = Vec::new();
    let mut glass = glass_of(locale);
    scenes.push(shows(&mut glass, "stove-empty"));
    glass.press(Press::Home(HomePress::Bench));
    scenes.push(shows(&mut glass, "bench"));
    for setting in [
        "metal",
        "burner",
        "lid",
        "theme",
        "quiet-hours",
        "language",
        "volumes",
    ] {
        glass.choose(setting);
        scenes.push(shows(&mut glass, &format!("bench-{setting}")));
        glass.press(Press::Back);
    }
    glass.press(Press::Back);
    glass.press(Press::Home(HomePress::Recipes));
    scenes.push(shows(&mut glass, "book-kinds"));
    glass.choose("dye");
    scenes.push(shows(&mut glass, "book-dyestuffs"));
    glass.press(Press::Back);
    glass.choose("mordant");
    scenes.push(shows(&mut glass, "book-mordants"));
    glass.choose("alum-tartar-studio");
    scenes.push(shows(&mut glass, "book-recipe"));
    for _ in 0..4 {
        glass.press(Press::Back);
    }
    glass.press(Press::Home(HomePress::Begin));
    scenes.push(shows(&mut glass, "goods"));
    glass.press(Press::Goods(GoodsPress::ChooseState));
    scenes.push(shows(&mut glass, "state"));
    glass.press(Press::Back);
    glass.press(Press::Goods(GoodsPress::KeyWeight));
    scenes.push(shows(&mut glass, "weight"));
    for _ in 0..3 {
        glass.press(Press::Back);
    }
    glass.begin("100", "alum-tartar-studio");
    scenes.push(shows(&mut glass, "sheet"));
    glass.press(Press::FirmKey);
    scenes.push(shows(&mut glass, "sheet-cautions"));
    let mut refused = glass_of(locale);
    refused.begin("900", "alum-tartar-studio");
    scenes.push(shows(&mut refused, "sheet-refused"));
    let mut never = glass_of(locale);
    never.bench.stove.burner.power = potside::craft::quantity::Power::saturating_watts(180.0);
    never.begin("150", "alum-tartar-studio");
    scenes.push(shows(&mut never, "sheet-never-gets-there"));
    scenes.extend(shelf_pages(locale));
    scenes
}

fn shelf_pages(locale: Locale) -> Vec<Scene> {
    let mut glass = glass_of(locale);
    for ask in [
        ShelfAsk::AddLot(NewLot {
            name: "autumn fleece".into(),
            fibre: Fibre::Wool,
            weight: Milligrams::from_count(350_000),
            state: potside::craft::basis::WeighedAs::AirDry,
            hanks: 3,
            came: Came::Raw,
        }),
        ShelfAsk::AddSupply(NewSupply {
            stock: Stock::Salt(potside::craft::substance::Substance::PotashAlum),
            name: "alum".into(),
            left: Milligrams::from_count(40_000),
            low: Some(Milligrams::from_count(50_000)),
            note: None,
        }),
    ] {
        glass.shelf.ask(&ask, TODAY).expect("the shelf takes it");
    }
    let mut scenes = Vec::new();
    glass.press(Press::Home(HomePress::Shelf));
    scenes.push(shows(&mut glass, "shelf-lots"));
    glass.choose("L1");
    scenes.push(shows(&mut glass, "shelf-lot"));
    scenes
}
