//! `potside label`: labels of lots, as SVG files to print.

use std::path::{Path, PathBuf};

use crate::shelf::{ActFault, Shelf};
use crate::shell::cli::LabelArgs;
use crate::shell::clock;
use crate::shell::data::Data;
use crate::shell::disk::new_file;
use crate::shell::exit::Exit;
use crate::shell::terminal::{complain, say};
use crate::view::bench::Bench;
use crate::view::label::{LabelWords, label_words, sheets, svg};
use crate::view::locale::Locale;

/// Writes the labels, a file a sheet. Nothing is written in place of another file.
pub(in crate::shell) fn label(args: &LabelArgs, data: &Data) -> Exit {
    let shelf = match data.shelf() {
        Ok((shelf, told)) => {
            told.iter().for_each(|line| complain(line));
            shelf.unwrap_or_default()
        }
        Err(why) => {
            complain(&why);
            return Exit::Faulty;
        }
    };
    let drawn = words(args, &shelf, locale(data))
        .map_err(|fault| fault.to_string())
        .and_then(|words| sheets(args.paper, args.first, &words).map_err(|fault| fault.to_string()));
    let drawn = match drawn {
        Ok(drawn) => drawn,
        Err(why) => {
            complain(&why);
            return Exit::Misused;
        }
    };
    for (number, sheet) in (1_u32..).zip(&drawn) {
        let path = numbered(&args.out, number);
        if let Err(fault) = new_file::write(&path, svg(sheet).as_bytes()) {
            complain(&fault.to_string());
            return Exit::Faulty;
        }
        say(&format!(
            "{}: print it at its own size, without fitting it to the page",
            path.display()
        ));
    }
    Exit::Well
}

/// The language and the units of the bench, which are the dyer's: a label is read at the pot, not at the terminal.
fn locale(data: &Data) -> Locale {
    let bench = data.bench().unwrap_or_else(|why| {
        complain(&why);
        Bench::default()
    });
    Locale {
        language: bench.language,
        habits: bench.habits,
        zone: clock::zone_now(),
    }
}

fn words(args: &LabelArgs, shelf: &Shelf, locale: Locale) -> Result<Vec<LabelWords>, ActFault> {
    let mut words = Vec::new();
    for id in &args.lots {
        let lot = shelf.lot(*id).ok_or(ActFault::NoLot { lot: *id })?;
        if args.each_hank {
            words.extend((1..=lot.hanks).map(|hank| label_words(shelf, lot, Some(hank), locale)));
        } else {
            words.push(label_words(shelf, lot, None, locale));
        }
    }
    Ok(words)
}

/// The file of a sheet: the first as it was named, the next ones with their number before the ending.
fn numbered(out: &Path, number: u32) -> PathBuf {
    if number == 1 {
        return out.to_owned();
    }
    let stem = out.file_stem().unwrap_or_default().to_string_lossy();
    let name = match out.extension() {
        Some(ending) => format!("{stem}-{number}.{}", ending.to_string_lossy()),
        None => format!("{stem}-{number}"),
    };
    out.with_file_name(name)
}
