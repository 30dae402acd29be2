//! The bath sheet: everything computed from a recipe and what the dyer brings. A value that never changes.

use std::sync::Arc;

use crate::craft::acidity::Acidity;
use crate::craft::basis::Basis;
use crate::craft::heat::Setting;
use crate::craft::quantity::{Band, Mass, Power, Ramp, Temperature, Volume};
use crate::craft::time::Span;
use crate::recipe::model::Recipe;

use super::cautions::Cautions;
use super::next_bath::NextBath;
use super::plan::{Plan, StepIndex};
use super::verdict::{SheetRefusal, SheetWarning};
use super::weighing::Beside;
use super::wishes::Wishes;
use super::working::Working;

/// The temperatures to which a cool-down is always told, in C.
pub const COOL_MARKS: [f64; 5] = [60.0, 50.0, 43.0, 40.0, 30.0];

/// A computed bath.
#[derive(Debug, Clone, PartialEq)]
pub struct BathSheet {
    /// The recipe it was computed from.
    pub recipe: Arc<Recipe>,
    /// What the dyer brought.
    pub wishes: Wishes,
    /// What the machine walks. Its goods weigh what counts.
    pub plan: Arc<Plan>,
    /// The weight that was read and the one that counts; `None` when it can't be counted on.
    pub basis: Option<Basis>,
    /// What stands beside each addition of the plan, in the same order.
    pub beside: Vec<Beside>,
    /// How sour the bath is, for advice; `None` when nothing in it is of known make-up.
    pub acidity: Option<Acidity>,
    /// Water to fill from the tap.
    pub fill: Volume,
    /// Water the wet goods bring.
    pub carried: Volume,
    /// Bath and goods, of the pot's capacity.
    pub fill_fraction: f64,
    /// The main hold: planned temperature and time.
    pub hold: Option<(Temperature, Span)>,
    /// From tap water to the main hold, all raises together; `None` when it never gets there.
    pub come_up: Option<Band<Span>>,
    /// Raises held back by a ramp, and the burner settings that keep it.
    pub slow_raises: Vec<SlowRaise>,
    /// What the goods do to the bath when they go in, the last time they do.
    pub entering: Option<Entering>,
    /// From the main hold down to each of [`COOL_MARKS`] below it, lid as planned.
    pub cool: [Option<Band<Span>>; 5],
    /// Water lost at the hold, in grams a minute: goods still, and stirred without pause.
    pub evaporation: Option<Evaporation>,
    /// Net power that keeps the hold.
    pub hold_power: Option<Power>,
    /// The burner setting that keeps the hold, as parts of full power.
    pub hold_setting: Option<Band<f64>>,
    /// How fast the bath leaves the hold when the burner stays as the come-up had it, in kelvin a minute.
    pub drift: Option<f64>,
    /// Water to add by the end of the hold, to keep the goods covered.
    pub top_up: Option<Mass>,
    /// From the start of the hold until a tenth of the bath is gone; `None` when it outlasts the hold.
    pub top_up_after: Option<Span>,
    /// What customs add for the next goods in the same liquor; where they contradict, the dyer chooses.
    pub next_baths: Vec<NextBath>,
    /// What can hurt, in groups; the plan has the same lines in one list.
    pub cautions: Cautions,
    /// When each step is expected, from the start of the bath.
    pub legs: Vec<Leg>,
    /// How each number came about.
    pub workings: Vec<Working>,
    /// What should be said first.
    pub warnings: Vec<SheetWarning>,
    /// Why it can't be done so; empty when it can.
    pub refusals: Vec<SheetRefusal>,
}

/// A raise held back by a ramp.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SlowRaise {
    /// Which step.
    pub step: StepIndex,
    /// The ramp.
    pub ramp: Ramp,
    /// Parts of full power that keep it, at the start and at the end.
    pub setting: Setting,
}

/// Cold wet goods going into the bath.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Entering {
    /// The bath before them.
    pub from: Temperature,
    /// The bath after them.
    pub drops_to: Temperature,
    /// Back to where it was, at full power; `None` when it never gets there.
    pub recovery: Option<Band<Span>>,
}

/// Water lost by an open or lidded pot, in grams a minute.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Evaporation {
    /// The surface left alone.
    pub still: f64,
    /// The surface stirred without pause: the most it can be.
    pub stirred: f64,
}

/// One step on the clock, counted from the start of the bath.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Leg {
    /// Which step.
    pub step: StepIndex,
    /// When it begins.
    pub begins: Band<Span>,
    /// When it ends.
    pub ends: Band<Span>,
    /// Bath temperature at its beginning.
    pub from: Temperature,
    /// Bath temperature at its end.
    pub to: Temperature,
}
