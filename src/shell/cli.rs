//! The command line: its words, its defaults, its refusals.

use std::path::PathBuf;

use clap::{Args, Parser, Subcommand};

use crate::craft::fibre::Fibre;
use crate::craft::quantity::{Altitude, Mass, Pressure, Temperature, Volume};
use crate::craft::reading;
use crate::craft::salts::OnShelf;
use crate::craft::vessel::{Burner, Lid, Place, Pot};
use crate::recipe::model::Letter;
use crate::sheet::StovePlace;

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
    #[arg(long, value_parser = reading::fibre)]
    pub(super) fibre: Option<Fibre>,
    /// Dry weight of the goods: 100g, 1.2kg, 3.5oz, 2lb.
    #[arg(long, value_parser = reading::mass, value_name = "WEIGHT", allow_hyphen_values = true)]
    pub(super) goods: Mass,
    /// How they were weighed: air-dry, oven-dry, damp,30% (water on the dry weight), spun, in-the-grease,20% (lost on
    /// scouring; without it what is usual).
    #[arg(long, value_parser = wish_words::basis, default_value = "air-dry", value_name = "STATE")]
    pub(super) basis: AskedBasis,
    /// A salt of the shelf for one of the recipe's: A=aluminium-sulfate-18h2o, or by its label A=17%Al2O3, A=9%Al.
    #[arg(long, value_parser = wish_words::shelf, value_name = "LETTER=SALT")]
    pub(super) shelf: Vec<(Letter, OnShelf)>,
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

fn clock_time(text: &str) -> Result<chrono::NaiveTime, String> {
    chrono::NaiveTime::parse_from_str(text, "%H:%M")
        .map_err(|_| format!("{text} is no clock time; write hours and minutes, such as 09:00"))
}
