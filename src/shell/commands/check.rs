//! `potside check`: reads recipes, shelves and work lists, and lists every fault with its place.

use std::path::PathBuf;

use crate::recipe;
use crate::shelf::{self, FileKind, kind_of, worklist};
use crate::shell::data::read_text;
use crate::shell::exit::Exit;
use crate::shell::terminal::{complain, say};

/// Lists the faults of each file; a file without any is said to be well.
pub(in crate::shell) fn check(files: &[PathBuf]) -> Exit {
    let mut exit = Exit::Well;
    for file in files {
        let shown = file.display();
        let text = match read_text(file, shelf::FILE_BYTES_MOST) {
            Ok(text) => text,
            Err(why) => {
                complain(&why);
                exit = Exit::Faulty;
                continue;
            }
        };
        let read = match kind_of(&text) {
            FileKind::Recipe => recipe::read(&text).map(|read| format!("{} ({})", read.name, read.id)),
            FileKind::WorkList => {
                worklist::read(&text).map(|read| format!("{} ({}), a work list", read.name, read.id))
            }
            FileKind::Shelf => shelf::read(&text).map(|read| {
                format!(
                    "a shelf of {} lots and {} supplies",
                    read.lots().count(),
                    read.supplies().count()
                )
            }),
        };
        match read {
            Ok(what) => say(&format!("{shown}: well: {what}")),
            Err(faults) => {
                for fault in faults.as_slice() {
                    complain(&format!("{shown}: {fault}"));
                }
                exit = Exit::Faulty;
            }
        }
    }
    exit
}
