//! The working of a number: what went in, what was done, what came out, and whose figure it is.

/// A number with its unit, exact.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Measured {
    /// The number.
    pub value: f64,
    /// Its unit, as it is written.
    pub unit: &'static str,
}

/// How one number of the sheet came about.
#[derive(Debug, Clone, PartialEq)]
pub struct Working {
    /// What the number is.
    pub what: String,
    /// What went in, each with a name.
    pub inputs: Vec<(String, Measured)>,
    /// What was done, in words.
    pub formula: &'static str,
    /// What came out.
    pub result: Measured,
    /// Where formula or figure come from.
    pub source: String,
}

impl Measured {
    /// A number with its unit.
    #[must_use]
    pub const fn new(value: f64, unit: &'static str) -> Self {
        Self { value, unit }
    }
}
