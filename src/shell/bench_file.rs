//! The bench on the disk: a small TOML file that can be edited by hand.

use chrono::{NaiveTime, Timelike};
use serde::{Deserialize, Serialize};

use crate::craft::reading::{self, ReadingFault};
use crate::craft::vessel::{Burner, Place, Pot};
use crate::machine::voice::QuietHours;
use crate::sheet::StovePlace;
use crate::view::bench::{Bench, OTHERS_MOST, Others};
use crate::view::locale::{Habits, Hours, Language, Temperatures, Volumes, Weights};
use crate::view::screen::Theme;

/// A bench file is short.
pub(super) const TEXT_BYTES_MAX: usize = 64 * 1_024;

/// The looks as the file names them.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum RawTheme {
    Daylight,
    Kitchen,
    Night,
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
    #[error("volume: {0} is not between 0 and 100")]
    VolumeOutOfRange(u8),
    /// The quiet hours aren't two clock times.
    #[error("quiet_hours: {0:?} is not two clock times, such as \"22:00 to 07:00\"")]
    NotHours(String),
    /// More pots or burners than stand on a stove.
    #[error("{key}: {count} are named; {OTHERS_MOST} stand beside the first at most")]
    TooMany {
        /// The key.
        key: &'static str,
        /// How many.
        count: usize,
    },
    /// A language, a unit or a clock that isn't known here.
    #[error("{key}: {read:?} is not known here; {known} are")]
    NotKnown {
        /// The key.
        key: &'static str,
        /// What is written.
        read: String,
        /// What would do, as it would be written.
        known: String,
    },
    /// Written by a later program.
    #[error("format {0} is of a later program; this one reads format 1")]
    LaterFormat(u32),
}

#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Raw {
    format: u32,
    pot: String,
    burner: String,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    other_pots: Vec<String>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    other_burners: Vec<String>,
    lid: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    altitude: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    station: Option<String>,
    tap: String,
    room: String,
    scale: String,
    theme: RawTheme,
    volume: u8,
    #[serde(default)]
    wet_hands: bool,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    quiet_hours: Option<String>,
    #[serde(default, skip_serializing_if = "is_off")]
    hazardous_metals: bool,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    language: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    weights: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    temperatures: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    volumes: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    clock: Option<String>,
}

const LANGUAGES: [(&str, Language); 3] = [
    (Language::English.tag(), Language::English),
    (Language::German.tag(), Language::German),
    (Language::French.tag(), Language::French),
];
const WEIGHTS: [(&str, Weights); 2] = [("grams", Weights::Grams), ("ounces", Weights::Ounces)];
const TEMPERATURES: [(&str, Temperatures); 2] = [
    ("celsius", Temperatures::Celsius),
    ("fahrenheit", Temperatures::Fahrenheit),
];
const VOLUMES: [(&str, Volumes); 3] = [
    ("litres", Volumes::Litres),
    ("us-gallons", Volumes::UsGallons),
    ("imperial-gallons", Volumes::ImperialGallons),
];
const CLOCKS: [(&str, Hours); 2] = [("24 h", Hours::TwentyFour), ("12 h", Hours::Twelve)];

/// One of a few words; the usual one where none is written.
fn one_of<T: Copy + Default>(
    key: &'static str,
    read: Option<&str>,
    known: &[(&str, T)],
) -> Result<T, BenchFault> {
    let Some(read) = read else {
        return Ok(T::default());
    };
    let found = known.iter().find(|(word, _)| *word == read);
    found.map(|(_, it)| *it).ok_or_else(|| {
        let words: Vec<String> = known.iter().map(|(word, _)| format!("{word:?}")).collect();
        BenchFault::NotKnown {
            key,
            read: read.to_owned(),
            known: words.join(", "),
        }
    })
}

/// The word of one of a few; none for the usual one, so that a plain bench stays a short file.
fn word_of<T: PartialEq + Default>(it: &T, known: &[(&str, T)]) -> Option<String> {
    if *it == T::default() {
        return None;
    }
    let found = known.iter().find(|(_, known)| known == it);
    found.map(|(word, _)| (*word).to_owned())
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "the signature is serde's")]
const fn is_off(on: &bool) -> bool {
    !*on
}

/// Reads a bench file.
pub fn read(text: &str) -> Result<Bench, BenchFault> {
    let raw: Raw = toml::from_str(text)?;
    let figure = |key, fault| BenchFault::NotAFigure { key, fault };
    if raw.format != 1 {
        return Err(BenchFault::LaterFormat(raw.format));
    }
    if raw.volume > 100 {
        return Err(BenchFault::VolumeOutOfRange(raw.volume));
    }
    let others = others(&raw)?;
    let quiet_hours = raw.quiet_hours.as_deref().map(quiet).transpose()?;
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
        others,
        language: one_of("language", raw.language.as_deref(), &LANGUAGES)?,
        habits: Habits {
            weights: one_of("weights", raw.weights.as_deref(), &WEIGHTS)?,
            temperatures: one_of("temperatures", raw.temperatures.as_deref(), &TEMPERATURES)?,
            volumes: one_of("volumes", raw.volumes.as_deref(), &VOLUMES)?,
            hours: one_of("clock", raw.clock.as_deref(), &CLOCKS)?,
        },
        theme: match raw.theme {
            RawTheme::Daylight => Theme::Daylight,
            RawTheme::Kitchen => Theme::Kitchen,
            RawTheme::Night => Theme::Night,
        },
        volume_percent: raw.volume,
        wet_hands: raw.wet_hands,
        quiet_hours,
        hazardous_metals: raw.hazardous_metals,
    })
}

/// The pots and burners beside the first.
fn others(raw: &Raw) -> Result<Others, BenchFault> {
    for (key, list) in [
        ("other_pots", &raw.other_pots),
        ("other_burners", &raw.other_burners),
    ] {
        if list.len() > OTHERS_MOST {
            return Err(BenchFault::TooMany {
                key,
                count: list.len(),
            });
        }
    }
    let pots: Result<Vec<_>, _> = raw.other_pots.iter().map(|text| reading::pot(text)).collect();
    let burners: Result<Vec<_>, _> = raw
        .other_burners
        .iter()
        .map(|text| reading::burner(text))
        .collect();
    let figure = |key| move |fault| BenchFault::NotAFigure { key, fault };
    Ok(Others::of(
        pots.map_err(figure("other_pots"))?,
        burners.map_err(figure("other_burners"))?,
    ))
}

/// `22:00 to 07:00`.
fn quiet(text: &str) -> Result<QuietHours, BenchFault> {
    let minute = |clock: &str| {
        let time = NaiveTime::parse_from_str(clock.trim(), "%H:%M").ok()?;
        let minutes = time.hour().checked_mul(60)?.checked_add(time.minute())?;
        u16::try_from(minutes).ok()
    };
    let hours = text
        .split_once(" to ")
        .and_then(|(from, until)| Some((minute(from)?, minute(until)?)));
    let (from, until) = hours.ok_or_else(|| BenchFault::NotHours(text.to_owned()))?;
    Ok(QuietHours { from, until })
}

fn quiet_text(hours: QuietHours) -> String {
    let clock = |minute: u16| {
        let hour = minute.checked_div(60).unwrap_or(0);
        format!("{hour:02}:{:02}", minute % 60)
    };
    format!("{} to {}", clock(hours.from), clock(hours.until))
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
        other_pots: bench.others.pots().map(|pot| pot_text(&pot)).collect(),
        other_burners: bench
            .others
            .burners()
            .map(|burner| burner_text(&burner))
            .collect(),
        lid: stove.lid.id().to_owned(),
        altitude,
        station,
        tap: format!("{} C", stove.tap.celsius()),
        room: format!("{} C", stove.room.celsius()),
        scale: format!("{} g", stove.scale_step.grams()),
        theme: match bench.theme {
            Theme::Daylight => RawTheme::Daylight,
            Theme::Kitchen => RawTheme::Kitchen,
            Theme::Night => RawTheme::Night,
        },
        volume: bench.volume_percent,
        wet_hands: bench.wet_hands,
        quiet_hours: bench.quiet_hours.map(quiet_text),
        hazardous_metals: bench.hazardous_metals,
        language: word_of(&bench.language, &LANGUAGES),
        weights: word_of(&bench.habits.weights, &WEIGHTS),
        temperatures: word_of(&bench.habits.temperatures, &TEMPERATURES),
        volumes: word_of(&bench.habits.volumes, &VOLUMES),
        clock: word_of(&bench.habits.hours, &CLOCKS),
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
