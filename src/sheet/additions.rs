//! Additions in grams, the cups they dissolve in, and what speaks against them.

use crate::craft::dissolving;
use crate::craft::fibre::{Fibre, FibreFamily};
use crate::craft::quantity::{Mass, Temperature, Volume};
use crate::craft::substance::Substance;
use crate::craft::vessel::PotMetal;
use crate::recipe::dose;
use crate::recipe::model::{Addition, Dose, Letter, Recipe, Ware};

use super::build::Notes;
use super::plan::PlannedAddition;
use super::verdict::{SheetRefusal, SheetWarning};
use super::wishes::Wishes;
use super::working::Measured;

/// Kettle water, a minute after it boiled: common practice, no source.
const HOT_WATER_C: f64 = 80.0;

/// Each addition of the recipe in grams, exact, with its working.
pub(super) fn weigh_out(
    recipe: &Recipe,
    wishes: &Wishes,
    bath: Volume,
    notes: &mut Notes,
) -> Vec<PlannedAddition> {
    let mut planned = Vec::new();
    for addition in &recipe.additions {
        let Some(target) = dose::grams(recipe, addition.letter, wishes.goods.dry, bath) else {
            continue;
        };
        let name = name_of(&addition.ware);
        working(recipe, addition, &name, wishes, bath, target, notes);
        let step = wishes.stove.scale_step;
        planned.push(PlannedAddition {
            letter: addition.letter,
            ware_id: id_of(&addition.ware),
            name,
            target,
            tolerance: tolerance(target, step),
            percent_wof: percent_of(&addition.dose),
            bagged: addition.bagged,
        });
    }
    planned
}

fn working(
    recipe: &Recipe,
    addition: &Addition,
    name: &str,
    wishes: &Wishes,
    bath: Volume,
    target: Mass,
    notes: &mut Notes,
) {
    let dry = (
        "dry goods".to_owned(),
        Measured::new(wishes.goods.dry.grams(), "g"),
    );
    let (inputs, formula, source) = match &addition.dose {
        Dose::Wof(figure) => (
            vec![
                dry,
                ("share".into(), Measured::new(figure.chosen.percent(), "% WOF")),
            ],
            "dry goods times percent, over one hundred",
            recipe.source_of(figure),
        ),
        Dose::PerLitre(figure) => (
            vec![
                ("bath".into(), Measured::new(bath.litres(), "L")),
                (
                    "strength".into(),
                    Measured::new(figure.chosen.grams_per_litre(), "g/L"),
                ),
            ],
            "litres of bath times grams a litre",
            recipe.source_of(figure),
        ),
        Dose::Parts { parts, of } => {
            let one = dose::grams(recipe, *of, wishes.goods.dry, bath).map_or(0.0, Mass::grams);
            (
                vec![
                    (format!("one part ({})", of.0), Measured::new(one, "g")),
                    ("parts".into(), Measured::new(parts.chosen, "")),
                ],
                "parts times the weight of one part",
                recipe.source_of(parts),
            )
        }
    };
    let source = source.map_or("", |source| source.text.as_str());
    notes.working(
        &format!("{}: {name}", addition.letter.0),
        inputs,
        formula,
        Measured::new(target.grams(), "g"),
        source,
    );
}

/// The name a dyer reads.
pub(super) fn name_of(ware: &Ware) -> String {
    match ware {
        Ware::Substance(substance) => substance.name().to_owned(),
        Ware::Dyestuff { name, .. } => name.clone(),
    }
}

fn id_of(ware: &Ware) -> String {
    match ware {
        Ware::Substance(substance) => substance.id().to_owned(),
        Ware::Dyestuff { id, .. } => id.clone(),
    }
}

const fn percent_of(dose: &Dose) -> Option<f64> {
    match dose {
        Dose::Wof(figure) => Some(figure.chosen.percent()),
        Dose::PerLitre(_) | Dose::Parts { .. } => None,
    }
}

fn tolerance(target: Mass, step: Mass) -> Mass {
    const PART: f64 = 0.02;
    Mass::saturating_grams(target.grams() * PART).most(step)
}

/// The cup of hot water that takes up these additions fully. It is drawn from the bath where that is hot enough, else
/// from the kettle.
pub(super) fn cup_for(
    additions: &[PlannedAddition],
    letters: &[Letter],
    bath_at: Temperature,
    notes: &mut Notes,
) -> Volume {
    let at = bath_at.most(Temperature::saturating_celsius(HOT_WATER_C));
    let salts: Vec<(Substance, Mass)> = additions
        .iter()
        .filter(|addition| letters.contains(&addition.letter))
        .filter_map(|addition| Some((Substance::from_id(&addition.ware_id)?, addition.target)))
        .collect();
    let dissolving = dissolving::dissolving(&salts, at, None);
    for (one, other, clash) in &dissolving.apart {
        let said = format!("{} and {}: {}", one.name(), other.name(), clash.text());
        notes.warnings.push(SheetWarning::Dissolving { said });
    }
    for remark in dissolving.cups.iter().filter_map(|cup| cup.remark) {
        let warning = SheetWarning::Dissolving {
            said: remark.text().to_owned(),
        };
        if !notes.warnings.contains(&warning) {
            notes.warnings.push(warning);
        }
    }
    dissolving.least
}

/// Strong alkali is refused on hair and silk.
pub(super) fn refuse_alkali(recipe: &Recipe, fibre: Fibre, refusals: &mut Vec<SheetRefusal>) {
    match fibre.family() {
        FibreFamily::Plant => {}
        FibreFamily::Hair | FibreFamily::Silk => {
            for addition in &recipe.additions {
                if let Ware::Substance(substance) = addition.ware
                    && is_strong_alkali(substance)
                {
                    refusals.push(SheetRefusal::AlkaliOnHair { substance, fibre });
                }
            }
        }
    }
}

const fn is_strong_alkali(substance: Substance) -> bool {
    matches!(
        substance,
        Substance::SodaAsh | Substance::SodaMonohydrate | Substance::SodaCrystals | Substance::SlakedLime
    )
}

/// Bare iron, copper and aluminium pots are modifiers themselves.
pub(super) fn pot_colours(metal: PotMetal, recipe: &Recipe, warnings: &mut Vec<SheetWarning>) {
    let bare = match metal {
        PotMetal::Iron => "iron",
        PotMetal::Copper => "copper",
        PotMetal::Aluminium => "aluminium",
        PotMetal::Stainless | PotMetal::Enamel | PotMetal::Glass => return,
    };
    if !recipe.additions.is_empty() {
        warnings.push(SheetWarning::PotColours { metal: bare });
    }
}
