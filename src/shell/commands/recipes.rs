//! `potside recipes`: those built in and the dyer's own.

use crate::shell::book;
use crate::shell::data::Data;
use crate::shell::exit::Exit;
use crate::shell::terminal::{complain, say};

/// Lists id, name and fibres of each; faulty own files are told and don't stop the list.
pub(in crate::shell) fn recipes(data: &Data) -> Exit {
    let book = book::all(data);
    for recipe in &book.recipes {
        let fibres: Vec<&str> = recipe.fibres.iter().map(|fibre| fibre.id()).collect();
        say(&format!(
            "{:<24}{}  ({})",
            recipe.id,
            recipe.name,
            fibres.join(", ")
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
