//! `potside daybook`: the records of finished baths.

use std::path::Path;

use crate::journal::record::BathRecord;
use crate::shell::cli::{DaybookCommand, ExportForm};
use crate::shell::clock;
use crate::shell::data::Data;
use crate::shell::daybook::book::{self, Daybook, Sealed};
use crate::shell::daybook::{csv, list, page, text};
use crate::shell::disk::new_file;
use crate::shell::exit::Exit;
use crate::shell::terminal::{complain, say};

/// Lists, shows or exports.
pub(in crate::shell) fn daybook(what: Option<&DaybookCommand>, data: &Data) -> Exit {
    let daybook = match book::open(&data.daybook()) {
        Ok(daybook) => daybook,
        Err(why) => {
            complain(&why);
            return Exit::Faulty;
        }
    };
    match what {
        None => list_all(&daybook, data),
        Some(DaybookCommand::Show { id, json }) => with(&daybook, id, |sealed| {
            let shown = if *json {
                format!("{:#}", sealed.content)
            } else {
                text::text(&sealed.record, zone(&sealed.record))
            };
            say(&shown);
            Ok(())
        }),
        Some(DaybookCommand::Export { id, form, to }) => with(&daybook, id, |sealed| {
            export(&sealed.record, *form, to.as_deref())
        }),
    }
}

fn list_all(daybook: &Daybook, data: &Data) -> Exit {
    for sealed in &daybook.records {
        say(&list::line(&sealed.record, zone(&sealed.record)));
    }
    let folder = data.daybook();
    for (name, why) in &daybook.faults {
        let file = folder.join(name);
        complain(&format!("{}: {why}; left as it is", file.display()));
    }
    if !daybook.faults.is_empty() {
        return Exit::Faulty;
    }
    if daybook.records.is_empty() {
        say("the daybook is empty; a bath's record is sealed here when the bath ends");
    }
    Exit::Well
}

fn with(daybook: &Daybook, id: &str, act: impl FnOnce(&Sealed) -> Result<(), String>) -> Exit {
    let sealed = match daybook.find(id) {
        Ok(sealed) => sealed,
        Err(why) => {
            complain(&why);
            return Exit::Misused;
        }
    };
    match act(sealed) {
        Ok(()) => Exit::Well,
        Err(why) => {
            complain(&why);
            Exit::Faulty
        }
    }
}

fn export(record: &BathRecord, form: ExportForm, to: Option<&Path>) -> Result<(), String> {
    let shown = match form {
        ExportForm::Csv => {
            let bytes = csv::csv(record, zone(record)).map_err(|why| why.to_string())?;
            String::from_utf8(bytes).map_err(|why| why.to_string())?
        }
        ExportForm::Page => page::page(record, zone(record)),
    };
    match to {
        Some(path) => new_file::write(path, shown.as_bytes()).map_err(|why| why.to_string()),
        None => {
            say(&shown);
            Ok(())
        }
    }
}

/// The zone of this place on the day of the bath.
fn zone(record: &BathRecord) -> chrono::FixedOffset {
    clock::zone(record.begun_wall_ms)
}
