//! Recipe, goods, pot, burner and place in; a bath sheet out, with the working of every number.

pub mod plan;
