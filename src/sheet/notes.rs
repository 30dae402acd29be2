//! What is gathered while a sheet is computed: workings, warnings, refusals.

use crate::craft::quantity::Temperature;

use super::verdict::{SheetRefusal, SheetWarning};
use super::working::{Measured, Working};

/// What is gathered on the way.
#[derive(Debug, Default)]
pub(super) struct Notes {
    pub(super) workings: Vec<Working>,
    pub(super) warnings: Vec<SheetWarning>,
    pub(super) refusals: Vec<SheetRefusal>,
}

impl Notes {
    pub(super) fn working(
        &mut self,
        what: &str,
        inputs: Vec<(String, Measured)>,
        formula: &'static str,
        result: Measured,
        source: &str,
    ) {
        self.workings.push(Working {
            what: what.to_owned(),
            inputs,
            formula,
            result,
            source: source.to_owned(),
        });
    }

    /// A warning, said once however often it is found.
    pub(super) fn warn(&mut self, warning: SheetWarning) {
        if !self.warnings.contains(&warning) {
            self.warnings.push(warning);
        }
    }

    /// The hottest of the temperatures that are never reached; the cooler ones are told with it.
    pub(super) fn never_gets_to(&mut self, target: Temperature, ways: String) {
        let is_cooler = |refusal: &SheetRefusal| matches!(refusal, SheetRefusal::NeverGetsThere { target: other, .. } if *other <= target);
        self.refusals.retain(|refusal| !is_cooler(refusal));
        let is_told = self
            .refusals
            .iter()
            .any(|refusal| matches!(refusal, SheetRefusal::NeverGetsThere { .. }));
        if !is_told {
            self.refusals.push(SheetRefusal::NeverGetsThere { target, ways });
        }
    }

    /// A refusal, said once however often it is found.
    pub(super) fn refuse(&mut self, refusal: SheetRefusal) {
        if !self.refusals.contains(&refusal) {
            self.refusals.push(refusal);
        }
    }
}
