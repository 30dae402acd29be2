//! `potside sheet`: computes a bath sheet and prints it.

use std::sync::Arc;

use chrono::{FixedOffset, NaiveDate, NaiveTime};

use crate::craft::time::Moment;
use crate::recipe::model::Recipe;
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
    };
    let stove = args.stove.over(data.bench()?.stove);
    Ok(compute(&recipe, &Wishes { goods, stove }))
}

/// The clock time of the start, on a day that has no date.
pub(in crate::shell) fn start_of(time: NaiveTime) -> Moment {
    let day = NaiveDate::default().and_time(time);
    clock::still(day.and_utc().timestamp_millis())
}
