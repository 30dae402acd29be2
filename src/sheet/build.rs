//! Computes a bath sheet. The order is the dyer's: goods, place, water, additions, heat, clock.

use std::sync::Arc;

use crate::craft::quantity::Temperature;
use crate::recipe::model::{MordantNeed, Offered, Recipe};

use super::acidity;
use super::additions;
use super::bath_sheet::BathSheet;
use super::cautions;
use super::goods;
use super::heating::Heating;
use super::held;
use super::legs;
use super::liquor::{self, Liquor};
use super::next_bath;
use super::notes::Notes;
use super::place;
use super::plan::{Goods, Plan, Used};
use super::taught;
use super::used_bath;
use super::verdict::{SheetRefusal, SheetWarning};
use super::walk::{Walked, Way, walk};
use super::weighing;
use super::wishes::Wishes;

/// Computes the sheet. It always comes back whole; what speaks against the bath stands in its refusals.
#[must_use]
pub fn compute(recipe: &Arc<Recipe>, wishes: &Wishes) -> BathSheet {
    let mut notes = Notes::default();
    let (goods, basis) = goods::that_count(wishes, &mut notes);
    judge_fit(recipe, wishes, &goods, &mut notes);
    let boil = place::boil(wishes, &mut notes);
    let liquor = liquor::of(recipe, &goods, wishes, &mut notes);
    let weighed = weighing::weigh_out(recipe, wishes, &goods, liquor.bath, &mut notes);
    additions::refuse_alkali(&weighed.planned, goods.fibre, &mut notes);
    additions::pot_colours(wishes.stove.pot.metal, &weighed.planned, &mut notes);
    let acidity = acidity::of(&weighed.planned, liquor.bath, &mut notes);

    let heating = Heating::new(wishes, boil);
    let again = wishes
        .used
        .as_ref()
        .map(|_| used_bath::steps_again(recipe, &weighed.planned));
    let way = Way {
        recipe,
        steps: again.as_deref().unwrap_or(&recipe.steps),
        stove: &wishes.stove,
        liquor: &liquor,
        additions: &weighed.planned,
        boil,
        heating: &heating,
    };
    let walked = walk(way, &mut notes);
    let before = walked.setting_before_hold;
    let held = held::of(walked.hold, before, &goods, &liquor, &heating, &mut notes);
    if let Some(hold) = walked.hold {
        held::workings(&held, hold, walked.come_up, &liquor, &wishes.stove, &mut notes);
    }
    walked.workings(&mut notes);
    taught::workings(wishes, &mut notes);
    let cautions = cautions::of_bath(recipe, &goods, &weighed.planned, acidity.as_ref());
    // After a second use nobody has a custom of its own.
    let next_baths = if wishes.used.is_some() {
        Vec::new()
    } else {
        next_bath::of(recipe.kind, &goods, &weighed.planned)
    };

    let legs = legs::lay(&walked.steps, &walked.temperatures);
    let plan = Plan {
        hold_power: held.power,
        additions: weighed.planned,
        cautions: cautions.lines(),
        ..plan_of(recipe, wishes, goods, &liquor, boil, &walked)
    };
    BathSheet {
        recipe: Arc::clone(recipe),
        wishes: wishes.clone(),
        plan: Arc::new(plan),
        basis,
        beside: weighed.beside,
        acidity,
        fill: liquor.pour,
        carried: liquor.carried,
        fill_fraction: liquor.fraction,
        hold: walked.hold.map(|hold| (hold.at, hold.span)),
        come_up: walked.come_up,
        slow_raises: walked.slow_raises,
        entering: walked.entering,
        cool: held.cool,
        evaporation: held.evaporation,
        hold_power: held.power,
        hold_setting: held.setting,
        drift: held.drift,
        top_up: held.top_up,
        top_up_after: held.top_up_after,
        next_baths,
        cautions,
        legs,
        workings: notes.workings,
        warnings: notes.warnings,
        refusals: notes.refusals,
    }
}

fn judge_fit(recipe: &Recipe, wishes: &Wishes, goods: &Goods, notes: &mut Notes) {
    if !recipe.fibres.contains(&goods.fibre) {
        notes.refuse(SheetRefusal::FibreNotForRecipe {
            recipe: recipe.name.clone(),
            fibre: goods.fibre,
            fits: recipe.fibres.clone(),
        });
    }
    let name = || recipe.name.clone();
    match (recipe.offered, wishes.hazardous_metals) {
        (Offered::Freely, _) | (Offered::WhenAsked, true) => {}
        (Offered::WhenAsked, false) => notes.refuse(SheetRefusal::OffUnlessAsked { recipe: name() }),
        (Offered::ReferenceOnly, _) => notes.refuse(SheetRefusal::ReferenceOnly { recipe: name() }),
    }
    if goods.dry.grams() <= 0.0 {
        notes.refuse(SheetRefusal::NoGoods);
    }
    match recipe.mordant {
        MordantNeed::Mordanted => notes.warn(SheetWarning::NeedsMordant),
        MordantNeed::None | MordantNeed::NotADye => {}
    }
}

/// The plan without what is reckoned after the walk.
fn plan_of(
    recipe: &Recipe,
    wishes: &Wishes,
    goods: Goods,
    liquor: &Liquor,
    boil: Temperature,
    walked: &Walked,
) -> Plan {
    Plan {
        recipe_id: recipe.id.clone(),
        recipe_name: recipe.name.clone(),
        used: wishes.used.as_ref().map(|used| Used {
            record: used.record.clone(),
            dip: used.dip.saturating_add(1),
        }),
        kind: recipe.kind,
        goods,
        pot: wishes.stove.pot,
        burner: wishes.stove.burner,
        lid: wishes.stove.lid,
        room: wishes.stove.room,
        bath: liquor.bath,
        liquor_ratio: liquor.ratio,
        boil,
        hold_power: None,
        additions: Vec::new(),
        steps: walked.steps.clone(),
        cautions: Vec::new(),
    }
}
