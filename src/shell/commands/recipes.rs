//! `potside recipes`: those built in and the dyer's own.

use crate::recipe::model::{Offered, Recipe};
use crate::shell::book;
use crate::shell::data::Data;
use crate::shell::exit::Exit;
use crate::shell::terminal::{complain, say};

/// Lists id, name and fibres of each; faulty own files are told and don't stop the list. What takes copper or tin is
/// listed once the bench has it on.
pub(in crate::shell) fn recipes(data: &Data) -> Exit {
    let book = book::all(data);
    let metals_on = match data.bench() {
        Ok(bench) => bench.hazardous_metals,
        Err(why) => {
            complain(&why);
            false
        }
    };
    let is_off = |recipe: &Recipe| recipe.offered == Offered::WhenAsked && !metals_on;
    for recipe in book.recipes.iter().filter(|recipe| !is_off(recipe)) {
        let fibres: Vec<&str> = recipe.fibres.iter().map(|fibre| fibre.id()).collect();
        let mark = match recipe.offered {
            Offered::Freely => "",
            Offered::WhenAsked => "  hazardous metal",
            Offered::ReferenceOnly => "  to be read only",
        };
        say(&format!(
            "{:<26}{}  ({}){mark}",
            recipe.id,
            recipe.name,
            fibres.join(", ")
        ));
    }
    let off = book.recipes.iter().filter(|recipe| is_off(recipe)).count();
    if off > 0 {
        say(&format!(
            "{off} more with a hazardous metal: locked until bench.toml has hazardous_metals = true"
        ));
    }
    for fault in &book.faults {
        complain(fault);
    }
    if book.faults.is_empty() {
        Exit::Well
    } else {
        Exit::Faulty
    }
}
