//! How much of each addition goes in: percent of the dry goods, grams per litre of bath, or parts of another.

use super::model::{Addition, Dose, Letter, Recipe};
use crate::craft::quantity::{Mass, Volume};

/// The grams of an addition for goods of a dry weight in a bath of a volume; `None` when the recipe has no such letter.
///
/// Exact: nothing is rounded here.
///
/// ```
/// use potside::craft::quantity::{Mass, Volume};
/// use potside::recipe::{book, dose, model::Letter};
///
/// let recipe = book::by_id("alum-tartar-studio").unwrap();
/// let dry = Mass::from_grams(100.0).unwrap();
/// let bath = Volume::from_litres(3.0).unwrap();
/// assert_eq!(dose::grams(&recipe, Letter('A'), dry, bath).unwrap().grams(), 15.0);
/// ```
#[must_use]
pub fn grams(recipe: &Recipe, letter: Letter, dry: Mass, bath: Volume) -> Option<Mass> {
    let mut factor = 1.0;
    let mut addition = recipe.addition(letter)?;
    // Parts only count earlier additions, so this ends; the bound is kept for recipes built by hand.
    for _ in 0..=recipe.additions.len() {
        let grams = match &addition.dose {
            Dose::Wof(percent) => dry.grams() * percent.chosen.percent() / 100.0,
            Dose::PerLitre(concentration) => bath.litres() * concentration.chosen.grams_per_litre(),
            Dose::Parts { parts, of } => {
                factor *= parts.chosen;
                addition = recipe.addition(*of)?;
                continue;
            }
        };
        return Some(Mass::saturating_grams(grams * factor));
    }
    None
}

impl Recipe {
    /// The addition of a letter.
    #[must_use]
    pub fn addition(&self, letter: Letter) -> Option<&Addition> {
        self.additions.iter().find(|addition| addition.letter == letter)
    }
}
