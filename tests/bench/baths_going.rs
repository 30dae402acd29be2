//! A data folder with baths in their holds, for benches of the running program:
//! `cargo run --release --example baths_going -- FOLDER POTS`.
//!
//! The real keeper writes them, as taps on the glass would have had it. Opened on that folder, the program asks first
//! what each bath did meanwhile.

use std::error::Error;
use std::path::Path;
use std::sync::Arc;

use potside::craft::quantity::Mass;
use potside::craft::vessel::Lid;
use potside::keeper::{Clock, Keeper, Told};
use potside::machine::{Ask, Input, Machine, PotNo};
use potside::recipe::book;
use potside::sheet::plan::{Goods, StepAct};
use potside::sheet::{StovePlace, Wishes, compute};
use potside::shell::clock::{SystemClock, boot_id};
use potside::shell::disk::data_folder::DataFolder;

/// A recipe whose first hold leaves room for the curve: one line on how and, with the lid off, no
/// caution.
const RECIPE: &str = "fustic";
const USAGE: &str = "write a folder, and how many pots are going: 1 to 6";

fn main() -> Result<(), Box<dyn Error>> {
    let mut words = std::env::args().skip(1);
    let (Some(folder), Some(pots)) = (words.next(), words.next()) else {
        return Err(USAGE.into());
    };
    let pots: u8 = pots.parse().map_err(|_| USAGE)?;
    if !(1..=6).contains(&pots) {
        return Err(USAGE.into());
    }
    let recipe = Arc::new(
        book::by_id(RECIPE)
            .map_err(|_| "the recipe isn't in the book")?
            .clone(),
    );
    let goods = Goods {
        fibre: *recipe.fibres.first().ok_or("the recipe is for no fibre")?,
        dry: Mass::saturating_grams(100.0),
        hanks: 2,
        lot: None,
    };
    let mut wishes = Wishes::new(goods, StovePlace::default());
    wishes.stove.lid = Lid::Off;
    let plan = compute(&recipe, &wishes).plan;

    let (mut keeper, stretch) = Keeper::open(DataFolder::open(Path::new(&folder))?, boot_id().as_deref())?;
    let clock = SystemClock::new(stretch);
    for pot in (1..=pots).map(PotNo) {
        let bath_id = format!("bench-p{}", pot.0);
        keeper.prepare(&bath_id, "", "{}");
        let begin = Input::Begin {
            pot,
            bath_id,
            plan: Arc::clone(&plan),
            cautions_read: true,
        };
        taken(&keeper.take(None, &begin, clock.look().now))?;
        while !is_in_its_hold(keeper.machine(), pot) {
            let step = keeper
                .machine()
                .pot(pot)
                .ok_or("the bath didn't begin")?
                .stand
                .step;
            let confirm = Input::Pot(pot, Ask::Confirm { step, sure: true });
            taken(&keeper.take(None, &confirm, clock.look().now))?;
        }
    }
    match keeper.not_saving_since() {
        Some(_) => Err("the baths couldn't be saved".into()),
        None => Ok(()),
    }
}

fn is_in_its_hold(machine: &Machine, pot: PotNo) -> bool {
    let step = machine.pot(pot).and_then(|run| run.step());
    step.is_none_or(|step| matches!(step.act, StepAct::Hold { .. }))
}

fn taken(told: &Told) -> Result<(), String> {
    match told {
        Told::Taken(_) | Told::Repeated => Ok(()),
        Told::Refused(refusal) => Err(refusal.to_string()),
    }
}
