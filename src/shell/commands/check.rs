//! `potside check`: reads recipe files and lists every fault with its place.

use std::path::PathBuf;

use crate::recipe;
use crate::shell::data::read_text;
use crate::shell::exit::Exit;
use crate::shell::terminal::{complain, say};

/// Lists the faults of each file; a file without any is said to be well.
pub(in crate::shell) fn check(files: &[PathBuf]) -> Exit {
    let mut exit = Exit::Well;
    for file in files {
        let shown = file.display();
        let text = match read_text(file, recipe::read::FILE_BYTES_MOST) {
            Ok(text) => text,
            Err(why) => {
                complain(&why);
                exit = Exit::Faulty;
                continue;
            }
        };
        match recipe::read(&text) {
            Ok(read) => say(&format!("{shown}: well: {} ({})", read.name, read.id)),
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
