//! `potside worklist`: the lists there are, or one of them for a lot.

use std::path::Path;

use crate::recipe::nearest;
use crate::shelf::FILE_BYTES_MOST;
use crate::shelf::worklist::{self, WorkList};
use crate::shell::book;
use crate::shell::cli::WorklistArgs;
use crate::shell::clock;
use crate::shell::data::{Data, read_text};
use crate::shell::exit::Exit;
use crate::shell::terminal::{complain, say};
use crate::view::shelf_text;

/// Names the lists; tells the baths of one; or checks and computes it for a lot.
pub(in crate::shell) fn worklist(args: &WorklistArgs, data: &Data) -> Exit {
    let (lists, faults) = lists(data);
    let Some(name) = &args.list else {
        for list in &lists {
            say(&format!(
                "{:<24}{}  ({} baths)",
                list.id,
                list.name,
                list.baths.len()
            ));
        }
        faults.iter().for_each(|fault| complain(fault));
        return if faults.is_empty() {
            Exit::Well
        } else {
            Exit::Faulty
        };
    };
    let list = match find(name, &lists) {
        Ok(list) => list,
        Err(why) => {
            complain(&why);
            return Exit::Misused;
        }
    };
    match args.lot {
        None => {
            say(&told(&list));
            Exit::Well
        }
        Some(lot) => for_lot(&list, lot, args, data),
    }
}

fn for_lot(list: &WorkList, lot: crate::craft::lot::LotId, args: &WorklistArgs, data: &Data) -> Exit {
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
    let lot = match shelf.workable(lot) {
        Ok(lot) => lot,
        Err(fault) => {
            complain(&fault.to_string());
            return Exit::Misused;
        }
    };
    let bench = match data.bench() {
        Ok(bench) => bench.stove,
        Err(why) => {
            complain(&why);
            return Exit::Faulty;
        }
    };
    let stove = args.stove.over(bench);
    let recipes = book::all(data).recipes;
    let plan = worklist::lay_out(list, &recipes, &shelf, lot, &stove, clock::today());
    say(&shelf_text::work_plan(list, &shelf, lot, &plan));
    if plan.is_refused() {
        for finding in &plan.findings {
            if finding.trouble.severity() == worklist::Severity::Refuse {
                complain(&format!("refused: bath {}: {}", finding.number, finding.trouble));
            }
        }
        return Exit::RefusedBath;
    }
    Exit::Well
}

/// The built-in lists and the dyer's own, and what is wrong with the latter.
pub(in crate::shell) fn lists(data: &Data) -> (Vec<WorkList>, Vec<String>) {
    let mut lists = worklist::all().to_vec();
    let mut faults = Vec::new();
    for path in data.own_worklist_files() {
        match read_file(&path) {
            Ok(list) if lists.iter().any(|there| there.id == list.id) => {
                faults.push(format!(
                    "{}: a list called {} is there already",
                    path.display(),
                    list.id
                ));
            }
            Ok(list) => lists.push(list),
            Err(why) => faults.extend(why),
        }
    }
    (lists, faults)
}

fn find(name: &str, lists: &[WorkList]) -> Result<WorkList, String> {
    if let Some(list) = lists.iter().find(|list| list.id == name) {
        return Ok(list.clone());
    }
    let path = Path::new(name);
    if path.extension().is_some_and(|ending| ending == "toml") {
        return read_file(path).map_err(|why| why.join("\n"));
    }
    let near = nearest(name, lists.iter().map(|list| list.id.as_str()));
    let near = near.map_or_else(String::new, |near| format!(" (nearest: {near})"));
    Err(format!(
        "no work list is called {name}{near}; `potside worklist` names them"
    ))
}

fn read_file(path: &Path) -> Result<WorkList, Vec<String>> {
    let text = read_text(path, FILE_BYTES_MOST).map_err(|why| vec![why])?;
    worklist::read(&text).map_err(|faults| {
        let told = faults.as_slice().iter();
        told.map(|fault| format!("{}: {fault}", path.display())).collect()
    })
}

fn told(list: &WorkList) -> String {
    let mut lines = vec![list.name.clone(), list.about.clone(), String::new()];
    for (index, bath) in list.baths.iter().enumerate() {
        let pot = bath.pot.map_or_else(String::new, |pot| format!(", pot {pot}"));
        lines.push(format!("{}. {}{pot}", index.saturating_add(1), bath.recipe));
        lines.extend(
            bath.then
                .iter()
                .map(|wait| format!("   then {} ({})", wait.how.id(), wait.source)),
        );
    }
    lines.push(String::new());
    lines.push("checked and computed for a lot with --lot L1".to_owned());
    lines.join("\n")
}
