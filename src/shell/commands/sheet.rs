//! `potside sheet`: computes a bath sheet and prints it.

use std::collections::BTreeMap;
use std::sync::Arc;

use chrono::{FixedOffset, NaiveDate, NaiveTime};

use crate::craft::quantity::Altitude;
use crate::craft::salts::OnShelf;
use crate::craft::time::Moment;
use crate::craft::vessel::Place;
use crate::recipe::model::{Letter, Recipe};
use crate::sheet::plan::Goods;
use crate::sheet::{BathSheet, Wishes, compute};
use crate::shell::cli::SheetArgs;
use crate::shell::data::Data;
use crate::shell::exit::Exit;
use crate::shell::terminal::{complain, say};
use crate::shell::{book, clock};
use crate::view::{sheet_json, sheet_text};

/// Prints the sheet, also a refused one, with its reasons.
pub(in crate::shell) fn sheet(args: &SheetArgs, data: &Data) -> Exit {
    let sheet = match computed(args, data) {
        Ok(sheet) => sheet,
        Err(why) => {
            complain(&why);
            return Exit::Misused;
        }
    };
    let start = start_of(args.start);
    if args.json {
        say(&format!("{:#}", sheet_json::json(&sheet, start, UTC)));
    } else {
        say(&sheet_text::text(&sheet, start, UTC));
    }
    if sheet.refusals.is_empty() {
        Exit::Well
    } else {
        for refusal in &sheet.refusals {
            complain(&format!("refused: {refusal}"));
        }
        Exit::RefusedBath
    }
}

/// Sheets and rehearsals have a clock of their own, so that the same arguments print the same.
pub(in crate::shell) const UTC: FixedOffset = match FixedOffset::east_opt(0) {
    Some(utc) => utc,
    None => panic!("an offset of zero exists"),
};

/// The sheet of the arguments, or why there is none.
pub(in crate::shell) fn computed(args: &SheetArgs, data: &Data) -> Result<BathSheet, String> {
    let recipe: Arc<Recipe> = book::find(&args.recipe, data)?;
    let fibre = args
        .fibre
        .or_else(|| recipe.fibres.first().copied())
        .ok_or("the recipe names no fibre")?;
    let goods = Goods {
        fibre,
        dry: args.goods,
        hanks: args.hanks,
        lot: None,
    };
    let bench = data.bench()?.stove;
    let stove = args.stove.over(bench);
    let mut wishes = Wishes::new(goods, stove);
    wishes.weighed_as = args.basis.of(fibre)?;
    wishes.shelf = one_each(&args.shelf)?;
    wishes.height = height_of(bench.place, stove.place);
    Ok(compute(&recipe, &wishes))
}

/// A letter may be given one salt.
fn one_each(shelf: &[(Letter, OnShelf)]) -> Result<BTreeMap<Letter, OnShelf>, String> {
    let mut salts = BTreeMap::new();
    for (letter, salt) in shelf {
        if salts.insert(*letter, *salt).is_some() {
            return Err(format!("--shelf names two salts for {}; give one", letter.0));
        }
    }
    Ok(salts)
}

/// The bench's height beside a pressure, if the bench has one. The sea is what a bench says that was never set.
fn height_of(bench: Place, place: Place) -> Option<Altitude> {
    match (bench, place) {
        (Place::Altitude(height), Place::Station(_)) if height != Altitude::saturating_metres(0.0) => {
            Some(height)
        }
        (Place::Altitude(_) | Place::Station(_), Place::Altitude(_) | Place::Station(_)) => None,
    }
}

/// The clock time of the start, on a day that has no date.
pub(in crate::shell) fn start_of(time: NaiveTime) -> Moment {
    let day = NaiveDate::default().and_time(time);
    clock::still(day.and_utc().timestamp_millis())
}
