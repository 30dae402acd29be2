//! A work list held against recipes and goods: what would go wrong, before anything is wet.

use std::collections::BTreeMap;
use std::sync::Arc;

use chrono::NaiveDate;

use super::finding::{Finding, Trouble};
use super::model::{ListedBath, WorkList, is_dye, recipe_brings};
use super::progress::{Progress, progress};
use crate::craft::fibre::{Fibre, FibreFamily};
use crate::craft::salts::Element;
use crate::craft::substance::Substance;
use crate::craft::vessel::PotMetal;
use crate::recipe::additions::is_strong_alkali;
use crate::recipe::model::{BathKind, MordantNeed, Recipe, Ware};
use crate::recipe::nearest;
use crate::shelf::condition::{Condition, Stage, condition};
use crate::shelf::kept::Shelf;
use crate::shelf::lot::Lot;

/// The state of the goods and pots as the list goes on.
struct Going {
    stage: Stage,
    is_tannined: bool,
    is_mordanted: bool,
    is_fixed: bool,
    needs_fixing: bool,
    in_the_grease: bool,
    has_told_scour: bool,
    iron_in: BTreeMap<u8, String>,
}

/// What would go wrong with the baths of a list that are still to be done, for a lot on a day. `pot` is the pot a bath
/// is done in when the list names none, `metal` what the pots are made of.
#[must_use]
pub fn check(
    list: &WorkList,
    recipes: &[Arc<Recipe>],
    shelf: &Shelf,
    lot: &Lot,
    metal: PotMetal,
    today: NaiveDate,
) -> Vec<Finding> {
    let find = |id: &str| recipes.iter().find(|recipe| recipe.id == id);
    let come = progress(list, shelf, lot, |id| find(id).map(|recipe| recipe.kind));
    let condition = condition(shelf, lot);
    let mut going = Going::of(shelf, lot, &condition);
    let mut findings = Vec::new();
    let Some(next) = come.next else { return findings };
    of_the_shelf(next, &come, list, lot, &condition, today, &mut findings);
    for (index, listed) in list.baths.iter().enumerate().skip(next) {
        let number = index.saturating_add(1);
        let mut tell = |trouble| findings.push(Finding { number, trouble });
        let Some(recipe) = find(&listed.recipe) else {
            let ids = recipes.iter().map(|recipe| recipe.id.as_str());
            tell(Trouble::NoSuchRecipe {
                id: listed.recipe.clone(),
                nearest: nearest(&listed.recipe, ids).map(str::to_owned),
            });
            continue;
        };
        let later = list.baths.get(number..).unwrap_or_default();
        let is_mordanted_later = later
            .iter()
            .filter_map(|later| find(&later.recipe))
            .any(|recipe| recipe.kind == BathKind::Mordant);
        fits(recipe, lot.fibre, &mut tell);
        going.order(recipe, lot.fibre, is_mordanted_later, &mut tell);
        going.pots(recipe, listed, metal, &mut tell);
        going.go(recipe, listed);
    }
    findings
}

/// What the goods bring along: stopped baths, old mordant, waits that aren't over.
fn of_the_shelf(
    next: usize,
    come: &Progress,
    list: &WorkList,
    lot: &Lot,
    condition: &Condition,
    today: NaiveDate,
    findings: &mut Vec<Finding>,
) {
    let number = next.saturating_add(1);
    let mut tell = |trouble| findings.push(Finding { number, trouble });
    for stopped in &condition.stopped {
        tell(Trouble::Stopped {
            name: stopped.name.clone(),
            on: stopped.on,
        });
    }
    if lot.is_weighed_in_the_grease() && condition.stage > Stage::Raw {
        tell(Trouble::WeighAgain { fibre: lot.fibre });
    }
    if let Some(keeping) = condition.keeping.filter(|keeping| keeping.is_over(today)) {
        tell(Trouble::KeptTooLong {
            since: keeping.since,
            days: today.signed_duration_since(keeping.since).num_days(),
            may_be_tender: keeping.may_be_tender(today),
        });
    }
    let wait = next
        .checked_sub(1)
        .and_then(|before| list.baths.get(before)?.then.as_ref());
    let Some(wait) = wait else { return };
    if let Some(until) = come.ready_on.filter(|until| today < *until) {
        tell(Trouble::NotWaited {
            until,
            source: wait.source.clone(),
            strength: wait.strength,
        });
    }
    if let Some(since) = come.last_on
        && come.wait_over_on.is_some_and(|over| today > over)
    {
        tell(Trouble::WaitedTooLong {
            since,
            source: wait.source.clone(),
            strength: wait.strength,
        });
    }
}

/// The recipe against the fibre: one finding, the gravest.
fn fits(recipe: &Recipe, fibre: Fibre, tell: &mut impl FnMut(Trouble)) {
    let alkali = recipe.additions.iter().find_map(|addition| match addition.ware {
        Ware::Substance(substance) if is_strong_alkali(substance) => Some(substance),
        Ware::Substance(_) | Ware::Dyestuff { .. } => None,
    });
    match alkali {
        Some(substance) if fibre.family() != FibreFamily::Plant => {
            tell(Trouble::AlkaliOnAnimalFibre { substance, fibre });
        }
        Some(_) | None if !recipe.fibres.contains(&fibre) => tell(Trouble::FibreNotFor {
            recipe: recipe.name.clone(),
            fibre,
            fits: recipe.fibres.clone(),
        }),
        Some(_) | None => {}
    }
}

impl Going {
    fn of(shelf: &Shelf, lot: &Lot, condition: &Condition) -> Self {
        let had = |kind| condition.had(kind).next().is_some();
        let mut iron_in = BTreeMap::new();
        for bath in shelf.baths() {
            if bath.brings(Element::Fe) {
                iron_in.insert(bath.pot, bath.name.clone());
            }
        }
        Self {
            stage: condition.stage,
            is_tannined: had(BathKind::Tannin),
            is_mordanted: had(BathKind::Mordant),
            is_fixed: had(BathKind::Fixing),
            needs_fixing: had(BathKind::Mordant),
            in_the_grease: lot.is_weighed_in_the_grease(),
            has_told_scour: false,
            iron_in,
        }
    }

    /// The recipe at its place in the order.
    fn order(
        &mut self,
        recipe: &Recipe,
        fibre: Fibre,
        is_mordanted_later: bool,
        tell: &mut impl FnMut(Trouble),
    ) {
        let is_plant = fibre.family() == FibreFamily::Plant;
        if recipe.kind == BathKind::Scour {
            if self.stage > Stage::Scoured {
                tell(Trouble::ScouredLate);
            }
            return;
        }
        if self.stage == Stage::Raw && !self.has_told_scour {
            self.has_told_scour = true;
            tell(Trouble::NotScoured {
                in_the_grease: self.in_the_grease,
            });
        }
        if recipe.mordant == MordantNeed::Mordanted && !self.is_mordanted {
            let recipe = recipe.name.clone();
            tell(match is_mordanted_later {
                true => Trouble::MordantedAfter { recipe },
                false => Trouble::NotMordanted { recipe },
            });
        }
        if is_plant && recipe.kind == BathKind::Mordant && brings_alum(recipe) && !self.is_tannined {
            tell(Trouble::NoTannin);
        }
        if is_plant && is_dye(recipe.kind) && self.needs_fixing && !self.is_fixed {
            tell(Trouble::NotFixed);
        }
    }

    /// The recipe in its pot.
    fn pots(&self, recipe: &Recipe, listed: &ListedBath, metal: PotMetal, tell: &mut impl FnMut(Trouble)) {
        if recipe.kind == BathKind::Scour || recipe_brings(recipe, Element::Fe) {
            return;
        }
        if metal == PotMetal::Iron {
            tell(Trouble::IronPot);
        }
        let pot = listed.pot.unwrap_or(1);
        if let Some(iron) = self.iron_in.get(&pot) {
            tell(Trouble::IronBefore {
                pot,
                iron: iron.clone(),
            });
        }
    }

    /// The bath is done.
    fn go(&mut self, recipe: &Recipe, listed: &ListedBath) {
        if recipe_brings(recipe, Element::Fe) {
            self.iron_in.insert(listed.pot.unwrap_or(1), recipe.name.clone());
        }
        match recipe.kind {
            BathKind::Scour => {
                self.stage = self.stage.max(Stage::Scoured);
                self.in_the_grease = false;
            }
            BathKind::Tannin => {
                self.stage = self.stage.max(Stage::Tannined);
                self.is_tannined = true;
            }
            BathKind::Mordant => {
                self.stage = self.stage.max(Stage::Mordanted);
                self.is_mordanted = true;
                self.is_fixed = false;
                self.needs_fixing = true;
            }
            BathKind::Fixing => self.is_fixed = true,
            BathKind::Dye | BathKind::Vat => {
                self.stage = self.stage.max(Stage::Dyed);
                // A dye with its own mordant leaves goods mordanted.
                self.is_mordanted |= recipe_brings(recipe, Element::Al);
            }
            BathKind::AfterBath => {}
        }
    }
}

/// Alum and aluminium sulfate make a sour bath and need tannin on plant fibre; the acetates don't.
fn brings_alum(recipe: &Recipe) -> bool {
    use Substance as S;
    let is_alum = |substance| {
        [
            S::PotashAlum,
            S::AmmoniumAlum,
            S::SodaAlum,
            S::BurntAlum,
            S::AluminiumSulfate14,
            S::AluminiumSulfate16,
            S::AluminiumSulfate17,
            S::AluminiumSulfate18,
        ]
        .contains(&substance)
    };
    // Alum with a sodium or calcium acetate makes the acetate in the bath.
    let has = |test: &dyn Fn(Substance) -> bool| {
        recipe.additions.iter().any(|addition| match addition.ware {
            Ware::Substance(substance) => test(substance),
            Ware::Dyestuff { .. } => false,
        })
    };
    let is_acetate =
        |substance| [S::SodiumAcetate, S::SodiumAcetateTrihydrate, S::CalciumAcetate].contains(&substance);
    has(&is_alum) && !has(&is_acetate)
}
