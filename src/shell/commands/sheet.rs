//! `potside sheet`: computes a bath sheet and prints it.

use std::collections::BTreeMap;
use std::sync::Arc;

use chrono::{FixedOffset, NaiveDate, NaiveTime};

use crate::craft::learn::{Lesson, learn_from};
use crate::craft::lot::LotId;
use crate::craft::quantity::Altitude;
use crate::craft::salts::OnShelf;
use crate::craft::time::Moment;
use crate::craft::vessel::Place;
use crate::journal::record::{again, lesson};
use crate::recipe::model::{Letter, Recipe};
use crate::sheet::plan::Goods;
use crate::sheet::{Again, BathSheet, StovePlace, UsedBath, Wishes, compute};
use crate::shelf::{missing, wants_of};
use crate::shell::cli::SheetArgs;
use crate::shell::data::Data;
use crate::shell::daybook::book::Daybook;
use crate::shell::exit::Exit;
use crate::shell::terminal::{complain, say};
use crate::shell::{book, clock, daybook};
use crate::view::{sheet_json, sheet_text, shelf_text};

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
    let missing = missing_of(&sheet, data);
    if args.json {
        let mut json = sheet_json::json(&sheet, start, UTC);
        if let Some(fields) = json.as_object_mut().filter(|_| !missing.is_empty()) {
            fields.insert("missing".to_owned(), missing.into());
        }
        say(&format!("{json:#}"));
    } else {
        let mut text = sheet_text::text(&sheet, start, UTC);
        if !missing.is_empty() {
            text.push_str(&format!("\nMISSING FROM THE SHELF\n  {}\n", missing.join("\n  ")));
        }
        say(&text);
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
    let kept = data.bench()?;
    let bench = kept.stove;
    let daybook = daybook::book::open(&data.daybook())?;
    let before = match &args.after_bath {
        Some(id) => Some(before(&daybook, id)?),
        None => None,
    };
    let stove = args
        .stove
        .over(before.as_ref().map_or(bench, |before| before.stove(bench)));
    let mut wishes = match args.lot {
        Some(lot) => of_lot(lot, stove, data)?,
        None => {
            let fibre = args
                .fibre
                .or_else(|| recipe.fibres.first().copied())
                .ok_or("the recipe names no fibre")?;
            let goods = Goods {
                fibre,
                dry: args
                    .goods
                    .ok_or("say the weight of the goods, or a lot of the shelf")?,
                hanks: args.hanks,
                lot: None,
            };
            let mut wishes = Wishes::new(goods, stove);
            wishes.weighed_as = args.basis.of(fibre)?;
            wishes
        }
    };
    wishes.shelf = one_each(&args.shelf)?;
    wishes.other_pots = kept.others.pots().chain([bench.pot]).collect();
    wishes.hazardous_metals = kept.hazardous_metals;
    wishes.height = height_of(bench.place, stove.place);
    wishes.learned = learn_from(&lessons(&daybook), &stove.pot, &stove.burner);
    wishes.used = before.map(|before| UsedBath {
        part: args.part,
        ..before.used
    });
    Ok(compute(&recipe, &wishes))
}

/// What the daybook teaches. Pages that can't be read teach nothing; the daybook command tells of them.
fn lessons(daybook: &Daybook) -> Vec<Lesson> {
    let records = daybook.records.iter().map(|sealed| &sealed.record);
    records.filter_map(lesson).collect()
}

/// The bath whose liquor is used again.
fn before(daybook: &Daybook, id: &str) -> Result<Again, String> {
    let record = &daybook.find(id)?.record;
    if record.ended != "closed" {
        return Err(format!(
            "{} was stopped before its end; what is in its liquor is not known, so make a fresh bath",
            record.bath
        ));
    }
    again(record).ok_or_else(|| {
        format!(
            "{}: its fibre, pot or burner is not known to this program",
            record.bath
        )
    })
}

/// The goods of a lot, as it was last weighed.
fn of_lot(lot: LotId, stove: StovePlace, data: &Data) -> Result<Wishes, String> {
    let (shelf, _) = data.shelf()?;
    let shelf = shelf.unwrap_or_default();
    let lot = shelf.workable(lot).map_err(|fault| fault.to_string())?;
    let mut wishes = Wishes::new(lot.goods(), stove);
    wishes.weighed_as = lot.weighing().state;
    Ok(wishes)
}

/// What the sheet asks for that the shelf hasn't, in lines; nothing without supplies. A shelf that can't be read is no
/// reason not to print a sheet, and says so.
fn missing_of(sheet: &BathSheet, data: &Data) -> Vec<String> {
    match data.shelf() {
        Ok((Some(shelf), _)) if shelf.supplies().next().is_some() => {
            shelf_text::missing(&shelf, &missing(&shelf, &wants_of([sheet])))
        }
        Ok(_) => Vec::new(),
        Err(why) => vec![why],
    }
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
