//! The bench: what stays the same from bath to bath. A small TOML file that can be edited by hand.

use serde::{Deserialize, Serialize};

use crate::craft::quantity::OutOfRange;
use crate::craft::reading::{self, ReadingFault};
use crate::craft::vessel::{Burner, Place, Pot};
use crate::sheet::StovePlace;

/// A bench file is short.
pub(super) const TEXT_BYTES_MAX: usize = 64 * 1_024;

/// What the bench remembers.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bench {
    /// Pot, burner, place, water, room, scale.
    pub stove: StovePlace,
    /// The look of the screen.
    pub theme: Theme,
    /// How loud, 0 to 1.
    pub volume: f64,
}

/// The looks of the screen.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Theme {
    /// Outdoors: light, the highest contrast.
    Daylight,
    /// Indoors.
    Kitchen,
    /// Dark, for the evening.
    Night,
}

impl Default for Bench {
    fn default() -> Self {
        Self {
            stove: StovePlace::default(),
            theme: Theme::Kitchen,
            volume: 0.8,
        }
    }
}

/// What is wrong with a bench file.
#[derive(Debug, thiserror::Error)]
pub enum BenchFault {
    /// It isn't TOML, or a key is missing, unknown or of another type.
    #[error("{}", .0.message())]
    NotABench(#[from] toml::de::Error),
    /// A figure can't be read.
    #[error("{key}: {fault}")]
    NotAFigure {
        /// The key.
        key: &'static str,
        /// What is wrong with it.
        fault: ReadingFault,
    },
    /// The volume is out of its range.
    #[error("volume: {0} is not between 0 and 1")]
    VolumeOutOfRange(f64),
}

impl From<OutOfRange> for BenchFault {
    fn from(fault: OutOfRange) -> Self {
        Self::VolumeOutOfRange(fault.value)
    }
}

#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Raw {
    format: u32,
    pot: String,
    burner: String,
    lid: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    altitude: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    station: Option<String>,
    tap: String,
    room: String,
    scale: String,
    theme: Theme,
    volume: f64,
}

/// Reads a bench file.
pub fn read(text: &str) -> Result<Bench, BenchFault> {
    let raw: Raw = toml::from_str(text)?;
    let figure = |key, fault| BenchFault::NotAFigure { key, fault };
    if !(0.0..=1.0).contains(&raw.volume) {
        return Err(BenchFault::VolumeOutOfRange(raw.volume));
    }
    let place = match (&raw.station, &raw.altitude) {
        (Some(station), _) => {
            Place::Station(reading::pressure(station).map_err(|fault| figure("station", fault))?)
        }
        (None, Some(altitude)) => {
            Place::Altitude(reading::altitude(altitude).map_err(|fault| figure("altitude", fault))?)
        }
        (None, None) => StovePlace::default().place,
    };
    Ok(Bench {
        stove: StovePlace {
            pot: reading::pot(&raw.pot).map_err(|fault| figure("pot", fault))?,
            burner: reading::burner(&raw.burner).map_err(|fault| figure("burner", fault))?,
            lid: reading::lid(&raw.lid).map_err(|fault| figure("lid", fault))?,
            place,
            tap: reading::temperature(&raw.tap).map_err(|fault| figure("tap", fault))?,
            room: reading::temperature(&raw.room).map_err(|fault| figure("room", fault))?,
            scale_step: reading::mass(&raw.scale).map_err(|fault| figure("scale", fault))?,
        },
        theme: raw.theme,
        volume: raw.volume,
    })
}

/// Writes a bench file, such that reading it gives the same bench.
#[must_use]
pub fn write(bench: &Bench) -> String {
    let stove = &bench.stove;
    let (altitude, station) = match stove.place {
        Place::Altitude(height) => (Some(format!("{} m", height.metres())), None),
        Place::Station(pressure) => (None, Some(format!("{} hPa", pressure.hectopascals()))),
    };
    let raw = Raw {
        format: 1,
        pot: pot_text(&stove.pot),
        burner: burner_text(&stove.burner),
        lid: stove.lid.id().to_owned(),
        altitude,
        station,
        tap: format!("{} C", stove.tap.celsius()),
        room: format!("{} C", stove.room.celsius()),
        scale: format!("{} g", stove.scale_step.grams()),
        theme: bench.theme,
        volume: bench.volume,
    };
    toml::to_string(&raw).unwrap_or_default()
}

fn pot_text(pot: &Pot) -> String {
    format!(
        "{} L, {} cm, {}",
        pot.capacity.litres(),
        pot.diameter.centimetres(),
        pot.metal.id()
    )
}

fn burner_text(burner: &Burner) -> String {
    format!("{}, {} W", burner.kind.id(), burner.power.watts())
}
