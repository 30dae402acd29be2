//! The plan of a bath: what the machine walks and the record keeps. A value that never changes once computed.

use crate::craft::fibre::Fibre;
use crate::craft::heat::{GoodsLoad, Kettle, PotKnowledge};
use crate::craft::lot::LotId;
use crate::craft::quantity::{Band, Length, LiquorRatio, Mass, Power, Temperature, Volume};
use crate::craft::time::Span;
use crate::craft::vessel::{Burner, Lid, Pot};
use crate::recipe::model::{BathKind, Letter};

/// A litre of bath weighs a kilogram to within what a filling line can show.
const GRAMS_PER_LITRE: f64 = 1_000.0;

/// The fibre being worked: one lot, of one kind, weighed dry.
#[derive(Debug, Clone, PartialEq)]
pub struct Goods {
    /// What it is made of.
    pub fibre: Fibre,
    /// Dry weight, before any wetting.
    pub dry: Mass,
    /// How many hanks or pieces.
    pub hanks: u32,
    /// The lot of the shelf they are, if they have a tag.
    pub lot: Option<LotId>,
}

/// An addition with its amount worked out.
#[derive(Debug, Clone, PartialEq)]
pub struct PlannedAddition {
    /// Its letter on the sheet and the curve.
    pub letter: Letter,
    /// Kebab-case id of the ware.
    pub ware_id: String,
    /// The name a dyer reads.
    pub name: String,
    /// The amount, exact; nothing is rounded before it is shown.
    pub target: Mass,
    /// How far a weighing may be off before it is asked about.
    pub tolerance: Mass,
    /// Percent of the dry weight, where the recipe counts so.
    pub percent_wof: Option<f64>,
    /// In a bag that can be lifted out.
    pub bagged: bool,
}

/// Whether a weighing is near enough to what was wanted to be taken without a question. A decimal reading just at the
/// tolerance is near: a millionth of a gram is given for its not being one in binary.
#[must_use]
pub fn is_near(read: Mass, target: Mass, tolerance: Mass) -> bool {
    const SLIP_G: f64 = 1e-6;
    (read.grams() - target.grams()).abs() <= tolerance.grams() + SLIP_G
}

/// Which step of a plan, counted from 0.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct StepIndex(pub usize);

/// One step of a plan.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// What is done, with its amounts.
    pub act: StepAct,
    /// One line of how.
    pub how: Option<String>,
    /// One line of caution.
    pub caution: Option<String>,
    /// The usual length of the step, for clock times and rehearsals; hands decide the real one.
    pub usual: Band<Span>,
}

/// The acts of a plan with everything computed.
#[derive(Debug, Clone, PartialEq)]
#[expect(
    missing_docs,
    reason = "fields are named for what they hold; `StepKind` tells the acts"
)]
pub enum StepAct {
    WetOut {
        least: Span,
    },
    Weigh {
        letter: Letter,
    },
    Fill {
        water: Volume,
        level: Length,
    },
    Dissolve {
        letters: Vec<Letter>,
        cup: Volume,
    },
    Add {
        letters: Vec<Letter>,
    },
    Strain {
        letters: Vec<Letter>,
    },
    Enter {
        at_most: Temperature,
    },
    Raise {
        from: Temperature,
        to: Temperature,
        come_up: Option<Band<Span>>,
    },
    Hold {
        at: Temperature,
        floor: Temperature,
        ceiling: Temperature,
        span: Span,
        turn_every: Option<Span>,
    },
    Cool {
        from: Temperature,
        to: Temperature,
        cool_down: Option<Band<Span>>,
        lid_on: bool,
    },
    Look {
        sign: String,
        after: Span,
        again: Span,
    },
    /// One dip: under the liquor until it is lifted out, the goods having gone in with the act before.
    Dip {
        number: u32,
        of: u32,
        under: Span,
    },
    Lift,
    Squeeze,
    Rinse {
        times: u32,
        until_clear: bool,
    },
    Air {
        span: Span,
    },
    Rest {
        span: Span,
    },
    Dry,
    Shelve,
}

/// The kinds of step.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
#[expect(missing_docs, reason = "the trade's own words")]
pub enum StepKind {
    WetOut,
    Weigh,
    Fill,
    Dissolve,
    Add,
    Strain,
    Enter,
    Raise,
    Hold,
    Cool,
    Look,
    Dip,
    Lift,
    Squeeze,
    Rinse,
    Air,
    Rest,
    Dry,
    Shelve,
}

impl StepKind {
    /// Every kind, in the order a bath usually meets them.
    pub const ALL: [Self; 19] = [
        Self::WetOut,
        Self::Weigh,
        Self::Fill,
        Self::Dissolve,
        Self::Add,
        Self::Strain,
        Self::Enter,
        Self::Raise,
        Self::Hold,
        Self::Cool,
        Self::Look,
        Self::Dip,
        Self::Lift,
        Self::Squeeze,
        Self::Rinse,
        Self::Air,
        Self::Rest,
        Self::Dry,
        Self::Shelve,
    ];

    /// The id used in files and outputs.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::WetOut => "wet-out",
            Self::Weigh => "weigh",
            Self::Fill => "fill",
            Self::Dissolve => "dissolve",
            Self::Add => "add",
            Self::Strain => "strain",
            Self::Enter => "enter",
            Self::Raise => "raise",
            Self::Hold => "hold",
            Self::Cool => "cool",
            Self::Look => "look",
            Self::Dip => "dip",
            Self::Lift => "lift",
            Self::Squeeze => "squeeze",
            Self::Rinse => "rinse",
            Self::Air => "air",
            Self::Rest => "rest",
            Self::Dry => "dry",
            Self::Shelve => "shelve",
        }
    }
}

impl StepAct {
    /// The kind of this act.
    #[must_use]
    pub const fn kind(&self) -> StepKind {
        match self {
            Self::WetOut { .. } => StepKind::WetOut,
            Self::Weigh { .. } => StepKind::Weigh,
            Self::Fill { .. } => StepKind::Fill,
            Self::Dissolve { .. } => StepKind::Dissolve,
            Self::Add { .. } => StepKind::Add,
            Self::Strain { .. } => StepKind::Strain,
            Self::Enter { .. } => StepKind::Enter,
            Self::Raise { .. } => StepKind::Raise,
            Self::Hold { .. } => StepKind::Hold,
            Self::Cool { .. } => StepKind::Cool,
            Self::Look { .. } => StepKind::Look,
            Self::Dip { .. } => StepKind::Dip,
            Self::Lift => StepKind::Lift,
            Self::Squeeze => StepKind::Squeeze,
            Self::Rinse { .. } => StepKind::Rinse,
            Self::Air { .. } => StepKind::Air,
            Self::Rest { .. } => StepKind::Rest,
            Self::Dry => StepKind::Dry,
            Self::Shelve => StepKind::Shelve,
        }
    }
}

/// A bath whose liquor was used before.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Used {
    /// Id of the record of the bath before.
    pub record: String,
    /// Which use of the liquor this is; a fresh bath is the first.
    pub dip: u32,
}

/// Everything the machine and the record need of a computed bath.
#[derive(Debug, Clone, PartialEq)]
pub struct Plan {
    /// Id of the recipe.
    pub recipe_id: String,
    /// Name of the recipe.
    pub recipe_name: String,
    /// The bath before it in the same liquor; `None` for a fresh one.
    pub used: Option<Used>,
    /// What the bath is for.
    pub kind: BathKind,
    /// What is worked.
    pub goods: Goods,
    /// In which pot.
    pub pot: Pot,
    /// On which burner.
    pub burner: Burner,
    /// How it is covered while it heats and holds.
    pub lid: Lid,
    /// Room temperature.
    pub room: Temperature,
    /// The whole bath: what is filled and what the wet goods bring.
    pub bath: Volume,
    /// Bath per dry goods.
    pub liquor_ratio: LiquorRatio,
    /// Where the water boils here.
    pub boil: Temperature,
    /// Net power that keeps the hold, for the burner setting.
    pub hold_power: Option<Power>,
    /// What is weighed in, by letter.
    pub additions: Vec<PlannedAddition>,
    /// What is done, in order.
    pub steps: Vec<Step>,
    /// Cautions read before the start.
    pub cautions: Vec<String>,
}

impl Plan {
    /// The addition of a letter.
    #[must_use]
    pub fn addition(&self, letter: Letter) -> Option<&PlannedAddition> {
        self.additions.iter().find(|addition| addition.letter == letter)
    }

    /// The step at an index.
    #[must_use]
    pub fn step(&self, index: StepIndex) -> Option<&Step> {
        self.steps.get(index.0)
    }

    /// The pot as it stands on its burner during this bath, goods in or out, with what is usual for such a burner.
    #[must_use]
    pub fn kettle(&self, goods_in: bool) -> Kettle {
        let filled = self.steps.iter().find_map(|step| {
            let StepAct::Fill { water, .. } = step.act else {
                return None;
            };
            Some(water)
        });
        // What is poured on a used bath is only a part of what stands there.
        let filled = filled.filter(|_| self.used.is_none()).unwrap_or(self.bath);
        let filled_g = filled.litres() * GRAMS_PER_LITRE;
        let carried = Mass::saturating_grams((self.bath.litres() * GRAMS_PER_LITRE - filled_g).max(0.0));
        Kettle {
            pot: self.pot,
            burner: self.burner,
            lid: self.lid,
            room: self.room,
            boil: self.boil,
            water: Mass::saturating_grams(filled_g),
            goods: goods_in.then(|| GoodsLoad::air_dry(self.goods.fibre, self.goods.dry, carried)),
            knowledge: PotKnowledge::unknown(self.burner.kind),
        }
    }

    /// The last hold with goods or without: the one the bath is named for.
    #[must_use]
    pub fn main_hold(&self) -> Option<(Temperature, Span)> {
        self.steps.iter().rev().find_map(|step| match step.act {
            StepAct::Hold { at, span, .. } => Some((at, span)),
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
            | StepAct::Shelve => None,
        })
    }
}
