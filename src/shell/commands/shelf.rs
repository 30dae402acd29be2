//! `potside shelf`: lots and supplies listed and changed.

use crate::craft::quantity::Mass;
use crate::shelf::{ActFault, Milligrams, NewLot, NewSupply, Shelf};
use crate::shell::cli::ShelfCommand;
use crate::shell::clock;
use crate::shell::data::Data;
use crate::shell::disk::data_folder::DataFolder;
use crate::shell::exit::Exit;
use crate::shell::shelf::{file, settle};
use crate::shell::terminal::{complain, say};
use crate::view::shelf_text;

/// Lists the shelf, shows a lot, or does something to it.
pub(in crate::shell) fn shelf(what: Option<&ShelfCommand>, data: &Data) -> Exit {
    let done = match what {
        None => listed(data),
        Some(ShelfCommand::Show { lot }) => of(data)
            .and_then(|shelf| shelf_text_of(&shelf, *lot).map_err(|fault| Why::Misused(fault.to_string()))),
        Some(act) => changed(act, data),
    };
    match done {
        Ok(text) => {
            say(&text);
            Exit::Well
        }
        Err(Why::Misused(why)) => {
            complain(&why);
            Exit::Misused
        }
        Err(Why::Faulty(why)) => {
            complain(&why);
            Exit::Faulty
        }
    }
}

/// Why nothing was done.
enum Why {
    /// The arguments can't be used.
    Misused(String),
    /// The disk or a file is at fault.
    Faulty(String),
}

fn listed(data: &Data) -> Result<String, Why> {
    Ok(shelf_text::shelf(&of(data)?, clock::today()))
}

fn shelf_text_of(shelf: &Shelf, lot: crate::craft::lot::LotId) -> Result<String, ActFault> {
    let there = shelf.lot(lot).ok_or(ActFault::NoLot { lot })?;
    Ok(shelf_text::lot(shelf, there, clock::today()))
}

fn of(data: &Data) -> Result<Shelf, Why> {
    let (shelf, told) = data.shelf().map_err(Why::Faulty)?;
    for line in told {
        complain(&line);
    }
    Ok(shelf.unwrap_or_default())
}

/// Does an act with the data folder locked: what was finished is put down first, then the act, then the file is kept.
fn changed(act: &ShelfCommand, data: &Data) -> Result<String, Why> {
    let faulty = |why: &dyn ToString| Why::Faulty(why.to_string());
    let folder = DataFolder::open(data.root()).map_err(|fault| faulty(&fault))?;
    let files = folder.small_files();
    let mut daybook = folder.daybook_store();
    let there = file::load(&files).map_err(|faults| Why::Faulty(file::not_over(&faults)))?;
    let mut shelf = match there {
        Some(shelf) => shelf,
        None => {
            let records = settle::pages(&mut daybook).map_err(Why::Faulty)?;
            Shelf::begun_after(records.into_keys())
        }
    };
    let (_, told) = settle::put_down_all(&mut shelf, &mut daybook).map_err(Why::Faulty)?;
    let said = done(&mut shelf, act)?;
    file::keep(&files, &shelf).map_err(Why::Faulty)?;
    for line in told {
        complain(&line);
    }
    Ok(said)
}

fn done(shelf: &mut Shelf, act: &ShelfCommand) -> Result<String, Why> {
    let on = clock::today();
    let no = |fault: ActFault| Why::Misused(fault.to_string());
    let line = |shelf: &Shelf, id| {
        shelf
            .lot(id)
            .map_or_else(String::new, |lot| shelf_text::lot_line(shelf, lot))
    };
    match act {
        ShelfCommand::Show { lot } => shelf_text_of(shelf, *lot).map_err(no),
        ShelfCommand::AddLot {
            name,
            fibre,
            goods,
            basis,
            hanks,
            came,
        } => {
            let new = NewLot {
                name: name.clone(),
                fibre: *fibre,
                weight: milligrams(*goods),
                state: basis.of(*fibre).map_err(Why::Misused)?,
                hanks: *hanks,
                came: *came,
            };
            let id = shelf.add_lot(new, on).map_err(no)?;
            Ok(line(shelf, id))
        }
        ShelfCommand::Split { lot, part } => {
            let parts = shelf.split(*lot, part, on).map_err(no)?;
            let lines: Vec<String> = parts.into_iter().map(|id| line(shelf, id)).collect();
            Ok(lines.join("\n"))
        }
        ShelfCommand::Join { lots, name } => {
            let id = shelf.join(lots, name.as_deref(), on).map_err(no)?;
            Ok(line(shelf, id))
        }
        ShelfCommand::Weigh { lot, weight, basis } => {
            let fibre = shelf.workable(*lot).map_err(no)?.fibre;
            let state = basis.of(fibre).map_err(Why::Misused)?;
            shelf
                .weigh_lot(*lot, milligrams(*weight), state, on)
                .map_err(no)?;
            Ok(line(shelf, *lot))
        }
        ShelfCommand::Came { lot, how } => {
            shelf.say_came(*lot, *how).map_err(no)?;
            Ok(line(shelf, *lot))
        }
        ShelfCommand::Note { lot, words } => {
            shelf.note_on(*lot, words.as_deref()).map_err(no)?;
            Ok(line(shelf, *lot))
        }
        ShelfCommand::Gone { lot } => {
            shelf.let_go(*lot, on).map_err(no)?;
            Ok(format!("{lot} has left the shelf; its history stays"))
        }
        ShelfCommand::Supply {
            ware,
            weight,
            name,
            low,
        } => {
            let usual = || match ware.salt() {
                Some(salt) => salt.name().to_owned(),
                None => ware.ware().replace('-', " "),
            };
            let new = NewSupply {
                stock: ware.clone(),
                name: name.clone().unwrap_or_else(usual),
                left: milligrams(*weight),
                low: low.map(milligrams),
                note: None,
            };
            let id = shelf.add_supply(new).map_err(no)?;
            Ok(format!(
                "{id} {weight} on the shelf",
                weight = milligrams(*weight)
            ))
        }
        ShelfCommand::Fill { supply, weight } => {
            let left = shelf.fill_supply(*supply, milligrams(*weight)).map_err(no)?;
            Ok(format!("{supply} {left} on the shelf"))
        }
        ShelfCommand::Left { supply, weight } => {
            shelf.count_supply(*supply, milligrams(*weight)).map_err(no)?;
            Ok(format!("{supply} {} on the shelf", milligrams(*weight)))
        }
        ShelfCommand::Low { supply, weight } => {
            let mark = weight.map(milligrams);
            shelf.mark_low(*supply, mark).map_err(no)?;
            Ok(match mark {
                Some(mark) => format!("{supply} runs low from {mark} down"),
                None => format!("{supply} has no mark; it runs low below a usual bath"),
            })
        }
        ShelfCommand::TakeOff { supply } => {
            let gone = shelf.take_off(*supply).map_err(no)?;
            Ok(format!(
                "{supply}, {}, with {} left, is off the shelf",
                gone.name, gone.left
            ))
        }
    }
}

fn milligrams(mass: Mass) -> Milligrams {
    Milligrams::of(mass)
}
