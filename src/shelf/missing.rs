//! What a sheet asks for, held against the shelf: what is missing, and what else there could stand for it.

use super::kept::Shelf;
use super::supply::{Stock, Supply, SupplyId};
use super::weight::Milligrams;
use crate::craft::quantity::Mass;
use crate::craft::salts::{Exchange, OnShelf, exchange};
use crate::craft::substance::Substance;
use crate::recipe::model::{Form, Ware};
use crate::sheet::BathSheet;

/// A ware that a sheet, or several, ask for.
#[derive(Debug, Clone, PartialEq)]
pub struct Want {
    /// Id of the ware.
    pub ware: String,
    /// The name a dyer reads.
    pub name: String,
    /// In which form, of a dyestuff.
    pub form: Option<Form>,
    /// Which salt, when only its label is known.
    pub salt: Option<OnShelf>,
    /// How much.
    pub needs: Mass,
}

/// A ware of which there isn't enough.
#[derive(Debug, Clone, PartialEq)]
pub struct Missing {
    /// What is asked for.
    pub want: Want,
    /// How much of exactly that is there.
    pub there: Milligrams,
    /// Supplies of another salt that would be enough in its place, each with both amounts.
    pub instead: Vec<(SupplyId, Exchange)>,
}

impl Want {
    fn is_in(&self, supply: &Supply) -> bool {
        let same_label = match (&supply.stock, self.salt) {
            (Stock::Labelled(label), Some(OnShelf::Label(wanted))) => label.aluminium() == wanted,
            (Stock::Labelled(_) | Stock::Salt(_) | Stock::Dyestuff { .. }, _) => true,
        };
        supply.stock.ware() == self.ware && supply.stock.form() == self.form && same_label
    }

    fn is_same(&self, other: &Self) -> bool {
        self.ware == other.ware && self.form == other.form && self.salt == other.salt
    }
}

/// What sheets ask for, ware by ware, in the order they first come; amounts of one ware are added up.
#[must_use]
pub fn wants_of<'a>(sheets: impl IntoIterator<Item = &'a BathSheet>) -> Vec<Want> {
    let mut wants: Vec<Want> = Vec::new();
    for sheet in sheets {
        for planned in &sheet.plan.additions {
            let by_recipe = sheet.recipe.addition(planned.letter);
            let form = by_recipe.and_then(|addition| match &addition.ware {
                Ware::Dyestuff { form, .. } => Some(*form),
                Ware::Substance(_) => None,
            });
            let want = Want {
                ware: planned.ware_id.clone(),
                name: planned.name.clone(),
                form,
                salt: sheet
                    .wishes
                    .shelf
                    .get(&planned.letter)
                    .copied()
                    .filter(|salt| match salt {
                        OnShelf::Label(_) => true,
                        OnShelf::Known(_) => false,
                    }),
                needs: planned.target,
            };
            match wants.iter_mut().find(|there| there.is_same(&want)) {
                Some(there) => {
                    there.needs = Mass::saturating_grams(there.needs.grams() + want.needs.grams());
                }
                None => wants.push(want),
            }
        }
    }
    wants
}

/// What there isn't enough of.
#[must_use]
pub fn missing(shelf: &Shelf, wants: &[Want]) -> Vec<Missing> {
    wants
        .iter()
        .filter_map(|want| {
            let fitting = shelf.supplies().filter(|supply| want.is_in(supply));
            let there = Milligrams::sum(fitting.map(|supply| supply.left)).unwrap_or(Milligrams::MOST);
            if there >= Milligrams::of(want.needs) {
                return None;
            }
            Some(Missing {
                want: want.clone(),
                there,
                instead: instead(shelf, want),
            })
        })
        .collect()
}

fn instead(shelf: &Shelf, want: &Want) -> Vec<(SupplyId, Exchange)> {
    let Some(substance) = Substance::from_id(&want.ware) else {
        return Vec::new();
    };
    shelf
        .supplies()
        .filter(|supply| !want.is_in(supply))
        .filter_map(|supply| {
            let exchange = exchange(substance, want.needs, supply.stock.salt()?).ok()?;
            let is_enough = supply.left >= Milligrams::of(exchange.shelf_amount);
            is_enough.then_some((supply.id, exchange))
        })
        .collect()
}
