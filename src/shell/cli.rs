//! The command line: its words, its defaults, its refusals.

use std::path::PathBuf;

use clap::{Args, Parser, Subcommand};

use crate::craft::fibre::Fibre;
use crate::craft::lot::LotId;
use crate::craft::quantity::{Altitude, Mass, Pressure, Temperature, Volume};
use crate::craft::reading;
use crate::craft::salts::OnShelf;
use crate::craft::vessel::{Burner, Lid, Place, Pot};
use crate::recipe::model::Letter;
use crate::sheet::StovePlace;
use crate::shelf::{Came, Label, Milligrams, Part, Stock, SupplyId};
use crate::view::label::PaperSize;

use super::wish_words::{self, AskedBasis};

/// A step guide and timer that stands beside the natural dyer's pot.
///
/// Without a command it opens the stove on the screen.
#[derive(Debug, Parser)]
#[command(name = "potside", version, max_term_width = 100)]
pub(super) struct Cli {
    /// Where baths, daybook, bench and own recipes are kept.
    #[arg(long, global = true, value_name = "FOLDER")]
    pub(super) data: Option<PathBuf>,
    /// A folder on another disk, such as a stick, to go on in when the data folder can't be written.
    #[arg(long, global = true, value_name = "FOLDER")]
    pub(super) spare: Option<PathBuf>,
    /// What to do.
    #[command(subcommand)]
    pub(super) command: Option<Command>,
}

/// The commands.
#[derive(Debug, Subcommand)]
pub(super) enum Command {
    /// Compute a bath sheet and print it.
    Sheet(SheetArgs),
    /// Run a whole bath on fast time and print each prompt, call and confirmation.
    Rehearse(SheetArgs),
    /// Read recipe files and list every fault with line and column.
    Check {
        /// The files to read.
        #[arg(required = true, value_name = "FILE")]
        files: Vec<PathBuf>,
    },
    /// List the recipes: those built in and the dyer's own.
    Recipes,
    /// The records of finished baths.
    Daybook {
        /// What to do with them; without it they are listed.
        #[command(subcommand)]
        what: Option<DaybookCommand>,
    },
    /// Lots of goods and supplies: what stands there, and what is done with it.
    Shelf {
        /// What to do with it; without it the shelf is listed.
        #[command(subcommand)]
        what: Option<ShelfCommand>,
    },
    /// Baths in order for a lot: checked, computed, added up.
    Worklist(WorklistArgs),
    /// Labels for lots or hanks, as an SVG to print.
    Label(LabelArgs),
    /// The heat of a pot alone: come-up, cool-down, evaporation, hold power, boil.
    Pot(PotArgs),
}

/// What can be done with the daybook.
#[derive(Debug, Subcommand)]
pub(super) enum DaybookCommand {
    /// Show one record.
    Show {
        /// Its id, or the beginning of it.
        id: String,
        /// As one JSON object.
        #[arg(long)]
        json: bool,
    },
    /// Write one record to a file, or to the terminal.
    Export {
        /// Its id, or the beginning of it.
        id: String,
        /// In which form.
        #[arg(long = "as", value_enum, default_value = "csv", value_name = "FORM")]
        form: ExportForm,
        /// The file to write; it must not exist.
        #[arg(long, value_name = "FILE")]
        to: Option<PathBuf>,
    },
}

/// The forms a record can be exported in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
pub(super) enum ExportForm {
    /// A table, one step a line.
    Csv,
    /// A page to print, in HTML with the curve as a drawing.
    Page,
}

/// What a sheet is computed from.
#[derive(Debug, Args)]
pub(super) struct SheetArgs {
    /// A recipe's id, or a recipe file.
    #[arg(value_name = "RECIPE")]
    pub(super) recipe: String,
    /// The fibre; by default the first the recipe is for.
    #[arg(long, value_parser = reading::fibre, conflicts_with = "lot")]
    pub(super) fibre: Option<Fibre>,
    /// Dry weight of the goods: 100g, 1.2kg, 3.5oz, 2lb.
    #[arg(long, value_parser = reading::mass, value_name = "WEIGHT", allow_hyphen_values = true, required_unless_present = "lot")]
    pub(super) goods: Option<Mass>,
    /// A lot of the shelf: its fibre, weight, state and hanks are taken.
    #[arg(long, value_parser = LotId::from_text, conflicts_with_all = ["goods", "basis", "hanks"])]
    pub(super) lot: Option<LotId>,
    /// How they were weighed: air-dry, oven-dry, damp,30% (water on the dry weight), spun, in-the-grease,20% (lost on
    /// scouring; without it what is usual).
    #[arg(long, value_parser = wish_words::basis, default_value = "air-dry", value_name = "STATE")]
    pub(super) basis: AskedBasis,
    /// A salt of the shelf for one of the recipe's: A=aluminium-sulfate-18h2o, or by its label A=17%Al2O3, A=9%Al.
    #[arg(long, value_parser = wish_words::shelf, value_name = "LETTER=SALT")]
    pub(super) shelf: Vec<(Letter, OnShelf)>,
    /// Work the liquor of a finished bath again: its record's id, or the beginning of it. Pot, burner and lid are its own.
    #[arg(long, value_name = "RECORD")]
    pub(super) after_bath: Option<String>,
    /// The part of the first dose that goes into a used bath again: 0 to 1. Where customs contradict it must be said.
    #[arg(long, value_name = "PART", requires = "after_bath", value_parser = dose_part)]
    pub(super) part: Option<f64>,
    /// How many hanks.
    #[arg(long, default_value_t = 1, value_parser = clap::value_parser!(u32).range(1..=1_000))]
    pub(super) hanks: u32,
    /// Where it is done.
    #[command(flatten)]
    pub(super) stove: StoveArgs,
    /// Clock time of the start: 09:00.
    #[arg(long, default_value = "09:00", value_parser = clock_time, value_name = "HH:MM")]
    pub(super) start: chrono::NaiveTime,
    /// As one JSON object.
    #[arg(long)]
    pub(super) json: bool,
}

/// Pot, burner, place. What isn't given comes from the bench.
#[derive(Debug, Args)]
pub(super) struct StoveArgs {
    /// The pot: 12L,26cm or 12L,26cm,enamel.
    #[arg(long, value_parser = reading::pot, value_name = "POT")]
    pub(super) pot: Option<Pot>,
    /// The burner: induction,2kW or ceramic, coil, gas.
    #[arg(long, value_parser = reading::burner, value_name = "BURNER")]
    pub(super) burner: Option<Burner>,
    /// Height above the sea: 1200m, 3900ft.
    #[arg(long, value_parser = reading::altitude, value_name = "HEIGHT", allow_hyphen_values = true)]
    pub(super) altitude: Option<Altitude>,
    /// Air pressure at the place itself, not reduced to sea level: 850hPa.
    #[arg(long, value_parser = reading::pressure, value_name = "PRESSURE", conflicts_with = "altitude")]
    pub(super) station: Option<Pressure>,
    /// How the pot is covered: off, loose, tight.
    #[arg(long, value_parser = reading::lid)]
    pub(super) lid: Option<Lid>,
    /// Water as it comes from the tap: 15C.
    #[arg(long, value_parser = reading::temperature, value_name = "TEMPERATURE", allow_hyphen_values = true)]
    pub(super) from: Option<Temperature>,
    /// The room: 20C.
    #[arg(long, value_parser = reading::temperature, value_name = "TEMPERATURE", allow_hyphen_values = true)]
    pub(super) room: Option<Temperature>,
    /// The step of the scale: 0.1g.
    #[arg(long, value_parser = reading::mass, value_name = "WEIGHT", allow_hyphen_values = true)]
    pub(super) scale: Option<Mass>,
}

impl StoveArgs {
    /// The stove, with the bench's values where none are given.
    pub(super) fn over(&self, bench: StovePlace) -> StovePlace {
        let place = match (self.altitude, self.station) {
            (_, Some(pressure)) => Place::Station(pressure),
            (Some(height), None) => Place::Altitude(height),
            (None, None) => bench.place,
        };
        StovePlace {
            pot: self.pot.unwrap_or(bench.pot),
            burner: self.burner.unwrap_or(bench.burner),
            lid: self.lid.unwrap_or(bench.lid),
            place,
            tap: self.from.unwrap_or(bench.tap),
            room: self.room.unwrap_or(bench.room),
            scale_step: self.scale.unwrap_or(bench.scale_step),
        }
    }
}

/// What can be done with the shelf. Each needs the shelf to itself: close the stove first.
#[derive(Debug, Subcommand)]
pub(super) enum ShelfCommand {
    /// Show one lot with its history.
    Show {
        /// Its tag, such as L3.
        #[arg(value_parser = LotId::from_text)]
        lot: LotId,
    },
    /// Put a lot of goods on the shelf.
    AddLot {
        /// What it is called.
        name: String,
        /// The fibre.
        #[arg(long, value_parser = reading::fibre)]
        fibre: Fibre,
        /// What the scale said: 500g, 1lb.
        #[arg(long, value_parser = reading::mass, value_name = "WEIGHT", allow_hyphen_values = true)]
        goods: Mass,
        /// How it was weighed: air-dry, oven-dry, damp,30%, spun, in-the-grease,20%.
        #[arg(long, value_parser = wish_words::basis, default_value = "air-dry", value_name = "STATE")]
        basis: AskedBasis,
        /// How many hanks or pieces.
        #[arg(long, default_value_t = 1)]
        hanks: u32,
        /// How it came: raw, or scoured by its maker.
        #[arg(long, value_parser = came, default_value = "raw", value_name = "HOW")]
        came: Came,
    },
    /// Split a lot into parts, each with its hanks and its weight; the weights add up.
    Split {
        /// Its tag.
        #[arg(value_parser = LotId::from_text)]
        lot: LotId,
        /// A part: 4,195g for 4 hanks of 195 g; 6,rest for what is left. Once for each part.
        #[arg(long, value_parser = part_of_lot, value_name = "HANKS,WEIGHT", required = true)]
        part: Vec<Part>,
    },
    /// Join lots of one fibre that have been through the same.
    Join {
        /// Their tags.
        #[arg(value_parser = LotId::from_text, num_args = 2.., required = true)]
        lots: Vec<LotId>,
        /// What the joined lot is called; by default as the first.
        #[arg(long)]
        name: Option<String>,
    },
    /// Weigh a lot again, for instance after scouring.
    Weigh {
        /// Its tag.
        #[arg(value_parser = LotId::from_text)]
        lot: LotId,
        /// What the scale said.
        #[arg(value_parser = reading::mass, allow_hyphen_values = true)]
        weight: Mass,
        /// How it was weighed.
        #[arg(long, value_parser = wish_words::basis, default_value = "air-dry", value_name = "STATE")]
        basis: AskedBasis,
    },
    /// Say how a lot came: raw or scoured.
    Came {
        /// Its tag.
        #[arg(value_parser = LotId::from_text)]
        lot: LotId,
        /// raw or scoured.
        #[arg(value_parser = came)]
        how: Came,
    },
    /// Write a note on a lot; without words it is taken off.
    Note {
        /// Its tag.
        #[arg(value_parser = LotId::from_text)]
        lot: LotId,
        /// The note.
        words: Option<String>,
    },
    /// Take a lot off the shelf for good: used, given away, sold.
    Gone {
        /// Its tag.
        #[arg(value_parser = LotId::from_text)]
        lot: LotId,
    },
    /// Put a supply on the shelf: a salt, a salt by its label, a dyestuff.
    Supply {
        /// potash-alum, 17%Al2O3, or a dyestuff with its form: madder-root,dried.
        #[arg(value_parser = stock)]
        ware: Stock,
        /// How much there is.
        #[arg(value_parser = reading::mass, allow_hyphen_values = true)]
        weight: Mass,
        /// What it is called; by default what it is.
        #[arg(long)]
        name: Option<String>,
        /// Running low from here down.
        #[arg(long, value_parser = reading::mass, value_name = "WEIGHT")]
        low: Option<Mass>,
    },
    /// Add to a supply what was bought of the same.
    Fill {
        /// Its tag, such as S2.
        #[arg(value_parser = SupplyId::from_text)]
        supply: SupplyId,
        /// How much more.
        #[arg(value_parser = reading::mass, allow_hyphen_values = true)]
        weight: Mass,
    },
    /// Say what is left of a supply, as the scale has it now.
    Left {
        /// Its tag.
        #[arg(value_parser = SupplyId::from_text)]
        supply: SupplyId,
        /// What is left.
        #[arg(value_parser = reading::mass, allow_hyphen_values = true)]
        weight: Mass,
    },
    /// Say from where down a supply runs low; without a weight the mark is taken off.
    Low {
        /// Its tag.
        #[arg(value_parser = SupplyId::from_text)]
        supply: SupplyId,
        /// From here down.
        #[arg(value_parser = reading::mass)]
        weight: Option<Mass>,
    },
    /// Take a supply off the shelf.
    TakeOff {
        /// Its tag.
        #[arg(value_parser = SupplyId::from_text)]
        supply: SupplyId,
    },
}

/// A work list for a lot.
#[derive(Debug, Args)]
pub(super) struct WorklistArgs {
    /// A list's id, or a list file; without it the lists are named.
    #[arg(value_name = "LIST")]
    pub(super) list: Option<String>,
    /// The lot it is for.
    #[arg(long, value_parser = LotId::from_text, requires = "list")]
    pub(super) lot: Option<LotId>,
    /// Where it is done.
    #[command(flatten)]
    pub(super) stove: StoveArgs,
}

/// Labels to print.
#[derive(Debug, Args)]
pub(super) struct LabelArgs {
    /// The lots to label.
    #[arg(value_parser = LotId::from_text, required = true, value_name = "LOT")]
    pub(super) lots: Vec<LotId>,
    /// The paper: a4-24 (70 x 36 mm), a4-21 (63.5 x 38.1 mm), letter-30 (2 5/8 x 1 in), tag (100 x 50 mm with a hole).
    #[arg(long, value_parser = paper, default_value = "a4-24", value_name = "PAPER")]
    pub(super) paper: PaperSize,
    /// The first free label of a sheet begun earlier, counted row by row.
    #[arg(long, default_value_t = 1)]
    pub(super) first: u32,
    /// A label for each hank instead of one for the lot.
    #[arg(long)]
    pub(super) each_hank: bool,
    /// The file to write; it must not exist. Further sheets get -2, -3 before the ending.
    #[arg(long, value_name = "FILE")]
    pub(super) out: PathBuf,
}

fn came(text: &str) -> Result<Came, String> {
    Came::from_id(text).ok_or_else(|| format!("{text} is no way to come; write raw or scoured"))
}

fn paper(text: &str) -> Result<PaperSize, String> {
    let papers = PaperSize::ALL.map(PaperSize::id).join(", ");
    PaperSize::from_id(text)
        .ok_or_else(|| format!("{text} is no paper for labels known here; there are {papers}"))
}

fn part_of_lot(text: &str) -> Result<Part, String> {
    let wanted = || format!("{text} is no part; write hanks and weight, such as 4,195g, or 6,rest");
    let (hanks, weight) = text.split_once(',').ok_or_else(wanted)?;
    let hanks = hanks.trim().parse().map_err(|_| wanted())?;
    let weight = match weight.trim() {
        "rest" => None,
        weight => Some(Milligrams::of(
            reading::mass(weight).map_err(|fault| fault.to_string())?,
        )),
    };
    Ok(Part {
        hanks,
        weight,
        name: None,
    })
}

fn stock(text: &str) -> Result<Stock, String> {
    if text.ends_with("Al") || text.ends_with("Al2O3") {
        return Label::from_text(text).map(Stock::Labelled);
    }
    Stock::from_words(text)
}

/// A pot alone.
#[derive(Debug, Args)]
pub(super) struct PotArgs {
    /// The pot: 12L,26cm or 12L,26cm,enamel.
    #[arg(value_parser = reading::pot, value_name = "POT")]
    pub(super) pot: Pot,
    /// Water in it; by default three quarters of the pot.
    #[arg(long, value_parser = reading::volume, value_name = "VOLUME")]
    pub(super) water: Option<Volume>,
    /// The burner.
    #[arg(long, value_parser = reading::burner, value_name = "BURNER", default_value = "induction,2kW")]
    pub(super) burner: Burner,
    /// How it is covered.
    #[arg(long, value_parser = reading::lid, default_value = "loose")]
    pub(super) lid: Lid,
    /// The room.
    #[arg(long, value_parser = reading::temperature, default_value = "20C", allow_hyphen_values = true)]
    pub(super) room: Temperature,
    /// Water at the beginning.
    #[arg(long, value_parser = reading::temperature, default_value = "15C", allow_hyphen_values = true)]
    pub(super) from: Temperature,
    /// Where it should get.
    #[arg(long, value_parser = reading::temperature, default_value = "90C", allow_hyphen_values = true)]
    pub(super) to: Temperature,
    /// The temperature at which evaporation and hold power are told.
    #[arg(long, value_parser = reading::temperature, default_value = "90C", allow_hyphen_values = true)]
    pub(super) hold: Temperature,
    /// Height above the sea.
    #[arg(long, value_parser = reading::altitude, default_value = "0m", allow_hyphen_values = true)]
    pub(super) altitude: Altitude,
    /// Air pressure at the place itself.
    #[arg(long, value_parser = reading::pressure, conflicts_with = "altitude")]
    pub(super) station: Option<Pressure>,
    /// Part of the burner's power that reaches the pot, 0.05 to 1, when it is known.
    #[arg(long, value_parser = part, value_name = "PART")]
    pub(super) efficiency: Option<f64>,
    /// As one JSON object.
    #[arg(long)]
    pub(super) json: bool,
}

fn part(text: &str) -> Result<f64, String> {
    let part: f64 = text
        .parse()
        .map_err(|_| format!("{text} is no number; write a part such as 0.84"))?;
    if (0.05..=1.0).contains(&part) {
        Ok(part)
    } else {
        Err(format!("{text} is not between 0.05 and 1"))
    }
}

fn dose_part(text: &str) -> Result<f64, String> {
    let part: f64 = text
        .parse()
        .map_err(|_| format!("{text} is no number; write a part such as 0.5"))?;
    if (0.0..=1.0).contains(&part) {
        Ok(part)
    } else {
        Err(format!("{text} is not between 0 and 1"))
    }
}

fn clock_time(text: &str) -> Result<chrono::NaiveTime, String> {
    chrono::NaiveTime::parse_from_str(text, "%H:%M")
        .map_err(|_| format!("{text} is no clock time; write hours and minutes, such as 09:00"))
}
