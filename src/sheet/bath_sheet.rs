//! The bath sheet: everything computed from a recipe and what the dyer brings. A value that never changes.

use std::sync::Arc;

use crate::craft::quantity::{Band, Mass, Power, Temperature, Volume};
use crate::craft::time::Span;
use crate::recipe::model::Recipe;

use super::plan::{Plan, StepIndex};
use super::verdict::{SheetRefusal, SheetWarning};
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
    /// What the machine walks.
    pub plan: Arc<Plan>,
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
    /// From the main hold down to each of [`COOL_MARKS`] below it, lid as planned.
    pub cool: [Option<Band<Span>>; 5],
    /// Water lost at the hold, in grams a minute: goods still, and stirred without pause.
    pub evaporation: Option<Evaporation>,
    /// Net power that keeps the hold.
    pub hold_power: Option<Power>,
    /// Water to add by the end of the hold, to keep the goods covered.
    pub top_up: Option<Mass>,
    /// When each step is expected, from the start of the bath.
    pub legs: Vec<Leg>,
    /// How each number came about.
    pub workings: Vec<Working>,
    /// What should be said first.
    pub warnings: Vec<SheetWarning>,
    /// Why it can't be done so; empty when it can.
    pub refusals: Vec<SheetRefusal>,
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
