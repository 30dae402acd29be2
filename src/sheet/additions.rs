//! What additions do beside being weighed: the cups they dissolve in, whether they stay dissolved, what speaks against them.

use crate::craft::dissolving::{self, Stays};
use crate::craft::fibre::{Fibre, FibreFamily};
use crate::craft::quantity::{Mass, Temperature, Volume};
use crate::craft::substance::Substance;
use crate::craft::vessel::PotMetal;
use crate::msg;
use crate::recipe::model::Letter;

use super::notes::Notes;
use super::plan::PlannedAddition;
use super::verdict::{SheetRefusal, SheetWarning};
use super::working::Measured;

/// Kettle water, a minute after it boiled: common practice, no source.
const HOT_WATER_C: f64 = 80.0;

/// The additions that are substances of known make-up.
pub(super) fn substances(
    additions: &[PlannedAddition],
) -> impl Iterator<Item = (Substance, &PlannedAddition)> {
    additions
        .iter()
        .filter_map(|addition| Some((Substance::from_id(&addition.ware_id)?, addition)))
}

fn of_letters<'a>(
    additions: &'a [PlannedAddition],
    letters: &'a [Letter],
) -> impl Iterator<Item = (Substance, Mass)> + 'a {
    substances(additions)
        .filter(|(_, addition)| letters.contains(&addition.letter))
        .map(|(substance, addition)| (substance, addition.target))
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
    let salts: Vec<(Substance, Mass)> = of_letters(additions, letters).collect();
    let dissolving = dissolving::dissolving(&salts, at, None);
    for (one, other, clash) in &dissolving.apart {
        let said = format!("{} and {}: {}", one.name(), other.name(), clash.text());
        notes.warn(SheetWarning::Dissolving { said });
    }
    for cup in &dissolving.cups {
        if let Some(remark) = cup.remark {
            let said = remark.text().to_owned();
            notes.warn(SheetWarning::Dissolving { said });
        }
        let source = match cup.footing {
            dissolving::Footing::Table(source) => source,
            dissolving::Footing::RuleOfThumb { .. } => msg!("common practice, no source"),
        };
        notes.working(
            &msg!(
                "least hot water for {substance}",
                substance = cup.substance.name()
            ),
            vec![
                (
                    cup.substance.name().to_owned(),
                    Measured::new(cup.amount.grams(), "g"),
                ),
                (msg!("water at").to_owned(), Measured::new(at.celsius(), "C")),
            ],
            msg!("the salt over its solubility, and half as much again"),
            Measured::new(cup.least.litres() * 1_000.0, "mL"),
            source,
        );
    }
    dissolving.least
}

/// A hot cup poured into a colder bath may fall out of it again: cream of tartar's trap.
pub(super) fn judge_stays(
    additions: &[PlannedAddition],
    letters: &[Letter],
    bath: Volume,
    at: Temperature,
    notes: &mut Notes,
) {
    for (substance, amount) in of_letters(additions, letters) {
        if amount.grams() <= 0.0 {
            continue;
        }
        let Some(stays) = dissolving::stays(substance, amount, bath, at) else {
            continue;
        };
        match stays {
            Stays::Dissolved => {}
            Stays::Near | Stays::Undissolved => notes.warn(SheetWarning::FallsOut {
                substance,
                amount,
                bath,
                at,
            }),
        }
        if let Some(takes_up) = dissolving::solubility(substance, at) {
            notes.working(
                &msg!(
                    "{substance} that this bath keeps dissolved, counted without its water",
                    substance = substance.name()
                ),
                vec![
                    (msg!("bath").to_owned(), Measured::new(bath.litres(), "L")),
                    (msg!("bath at").to_owned(), Measured::new(at.celsius(), "C")),
                    (
                        msg!("100 g of water take up").to_owned(),
                        Measured::new(takes_up, "g"),
                    ),
                ],
                msg!("bath times solubility at its temperature"),
                Measured::new(takes_up * bath.litres() * 10.0, "g"),
                "solubility tables; docs/sums.md",
            );
        }
    }
}

/// Strong alkali is refused on hair and silk.
pub(super) fn refuse_alkali(additions: &[PlannedAddition], fibre: Fibre, notes: &mut Notes) {
    match fibre.family() {
        FibreFamily::Plant => {}
        FibreFamily::Hair | FibreFamily::Silk => {
            for (substance, _) in substances(additions) {
                if is_strong_alkali(substance) {
                    notes.refuse(SheetRefusal::AlkaliOnHair { substance, fibre });
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
pub(super) fn pot_colours(metal: PotMetal, additions: &[PlannedAddition], notes: &mut Notes) {
    let bare = match metal {
        PotMetal::Iron => msg!("iron"),
        PotMetal::Copper => msg!("copper"),
        PotMetal::Aluminium => msg!("aluminium"),
        PotMetal::Stainless | PotMetal::Enamel | PotMetal::Glass => return,
    };
    if !additions.is_empty() {
        notes.warn(SheetWarning::PotColours { metal: bare });
    }
}
