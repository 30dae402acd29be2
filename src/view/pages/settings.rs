//! The figures of the bench and of one bath's pot: how each is named, shown, chosen and keyed in.

use crate::craft::quantity::Mass;
use crate::craft::reading::{self, ReadingFault};
use crate::craft::vessel::{BurnerKind, Lid, Place, PotMetal};
use crate::machine::voice::QuietHours;
use crate::sheet::StovePlace;
use crate::view::bench::Bench;
use crate::view::locale::Locale;
use crate::view::screen::{ChooseScreen, Icon, Row, SideAct, Theme};

use super::vessels_page;

/// A figure that can be set.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Setting {
    Capacity,
    Diameter,
    Metal,
    Burner,
    Power,
    Lid,
    Altitude,
    Tap,
    Room,
    Scale,
    Theme,
    Volume,
    WetHands,
    QuietHours,
}

/// Those that belong to a bath's pot.
pub(super) const OF_POT: [Setting; 8] = [
    Setting::Capacity,
    Setting::Diameter,
    Setting::Metal,
    Setting::Lid,
    Setting::Burner,
    Setting::Power,
    Setting::Tap,
    Setting::Room,
];

/// Those of the bench.
pub(super) const OF_BENCH: [Setting; 14] = [
    Setting::Altitude,
    Setting::Capacity,
    Setting::Diameter,
    Setting::Metal,
    Setting::Burner,
    Setting::Power,
    Setting::Lid,
    Setting::Tap,
    Setting::Room,
    Setting::Scale,
    Setting::Theme,
    Setting::Volume,
    Setting::WetHands,
    Setting::QuietHours,
];

impl Setting {
    /// The key of its row.
    pub(super) const fn key(self) -> &'static str {
        match self {
            Self::Capacity => "capacity",
            Self::Diameter => "diameter",
            Self::Metal => "metal",
            Self::Burner => "burner",
            Self::Power => "power",
            Self::Lid => "lid",
            Self::Altitude => "altitude",
            Self::Tap => "tap",
            Self::Room => "room",
            Self::Scale => "scale",
            Self::Theme => "theme",
            Self::Volume => "volume",
            Self::WetHands => "wet-hands",
            Self::QuietHours => "quiet-hours",
        }
    }

    /// The setting of a key.
    pub(super) fn from_key(key: &str) -> Option<Self> {
        OF_BENCH.into_iter().find(|setting| setting.key() == key)
    }

    /// Its name.
    pub(super) const fn title(self) -> &'static str {
        match self {
            Self::Capacity => "Pot holds",
            Self::Diameter => "Pot, inside width",
            Self::Metal => "Pot is made of",
            Self::Burner => "Burner",
            Self::Power => "Burner, full power",
            Self::Lid => "Lid while heating",
            Self::Altitude => "Height above the sea",
            Self::Tap => "Tap water",
            Self::Room => "Room",
            Self::Scale => "Scale shows",
            Self::Theme => "Look",
            Self::Volume => "Loudness",
            Self::WetHands => "Dripping hands",
            Self::QuietHours => "Quiet hours",
        }
    }

    /// Its units, the usual first; none where it is chosen from a list.
    pub(super) const fn units(self) -> &'static [&'static str] {
        match self {
            Self::Capacity => &["L", "us-gal", "imp-gal"],
            Self::Diameter => &["cm", "in"],
            Self::Power => &["kW", "W"],
            Self::Altitude => &["m", "ft"],
            Self::Tap | Self::Room => &["C", "F"],
            Self::Metal
            | Self::Burner
            | Self::Lid
            | Self::Scale
            | Self::Theme
            | Self::Volume
            | Self::WetHands
            | Self::QuietHours => &[],
        }
    }

    /// Whether a minus makes sense.
    pub(super) const fn takes_minus(self) -> bool {
        matches!(self, Self::Altitude)
    }

    /// The stove with this figure read from a text.
    pub(super) fn read(self, text: &str, stove: &StovePlace) -> Result<StovePlace, ReadingFault> {
        let mut stove = *stove;
        match self {
            Self::Capacity => stove.pot.capacity = reading::volume(text)?,
            Self::Diameter => stove.pot.diameter = reading::length(text)?,
            Self::Power => stove.burner.power = reading::power(text)?,
            Self::Altitude => stove.place = Place::Altitude(reading::altitude(text)?),
            Self::Tap => stove.tap = reading::temperature(text)?,
            Self::Room => stove.room = reading::temperature(text)?,
            Self::Metal
            | Self::Burner
            | Self::Lid
            | Self::Scale
            | Self::Theme
            | Self::Volume
            | Self::WetHands
            | Self::QuietHours => {}
        }
        Ok(stove)
    }

    /// What stands in its row.
    fn value(self, bench: &Bench, locale: Locale) -> String {
        let stove = &bench.stove;
        match self {
            Self::Capacity => locale.litres(stove.pot.capacity),
            Self::Diameter => locale.depth(stove.pot.diameter),
            Self::Metal => stove.pot.metal.id().into(),
            Self::Burner => stove.burner.kind.id().into(),
            Self::Power => format!("{:.1} kW", stove.burner.power.watts() / 1_000.0),
            Self::Lid => stove.lid.id().into(),
            Self::Altitude => match stove.place {
                Place::Altitude(height) => format!("{:.0} m", height.metres()),
                Place::Station(pressure) => format!("{:.0} hPa", pressure.hectopascals()),
            },
            Self::Tap => locale.degrees(stove.tap),
            Self::Room => locale.degrees(stove.room),
            Self::Scale => format!("{} g", stove.scale_step.grams()),
            Self::Theme => theme_words(bench.theme).into(),
            Self::Volume => format!("{} %", bench.volume_percent),
            Self::WetHands => if bench.wet_hands { "yes" } else { "no" }.into(),
            Self::QuietHours => quiet_words(bench.quiet_hours),
        }
    }

    /// The answers it can have, where it is chosen from a list.
    pub(super) fn options(self, bench: &Bench) -> Vec<Row> {
        let stove = &bench.stove;
        let list = |items: Vec<(String, bool)>| -> Vec<Row> {
            items
                .into_iter()
                .map(|(label, chosen)| option(&label.clone(), label, chosen))
                .collect()
        };
        match self {
            Self::Metal => list(
                PotMetal::ALL
                    .iter()
                    .map(|it| (it.id().into(), *it == stove.pot.metal))
                    .collect(),
            ),
            Self::Burner => list(
                BurnerKind::ALL
                    .iter()
                    .map(|it| (it.id().into(), *it == stove.burner.kind))
                    .collect(),
            ),
            Self::Lid => list(
                Lid::ALL
                    .iter()
                    .map(|it| (it.id().into(), *it == stove.lid))
                    .collect(),
            ),
            Self::Scale => SCALES
                .iter()
                .map(|step| {
                    option(
                        &step.to_string(),
                        format!("{step} g"),
                        same(*step, stove.scale_step.grams()),
                    )
                })
                .collect(),
            Self::Theme => THEMES
                .iter()
                .map(|theme| {
                    option(
                        theme_words(*theme),
                        theme_words(*theme).into(),
                        *theme == bench.theme,
                    )
                })
                .collect(),
            Self::Volume => VOLUMES
                .iter()
                .map(|percent| {
                    option(
                        &percent.to_string(),
                        format!("{percent} %"),
                        *percent == bench.volume_percent,
                    )
                })
                .collect(),
            Self::WetHands => {
                vec![
                    option("no", "no: a quarter second".into(), !bench.wet_hands),
                    option("yes", "yes: longer taps".into(), bench.wet_hands),
                ]
            }
            Self::QuietHours => list(
                QUIET_HOURS
                    .iter()
                    .map(|hours| (quiet_words(*hours), *hours == bench.quiet_hours))
                    .collect(),
            ),
            Self::Capacity | Self::Diameter | Self::Power | Self::Altitude | Self::Tap | Self::Room => {
                Vec::new()
            }
        }
    }

    /// The bench with this answer chosen.
    pub(super) fn choose(self, key: &str, bench: &Bench) -> Bench {
        let mut bench = *bench;
        match self {
            Self::Metal => bench.stove.pot.metal = PotMetal::from_id(key).unwrap_or(bench.stove.pot.metal),
            Self::Burner => {
                bench.stove.burner.kind = BurnerKind::from_id(key).unwrap_or(bench.stove.burner.kind);
            }
            Self::Lid => bench.stove.lid = Lid::from_id(key).unwrap_or(bench.stove.lid),
            Self::Scale => {
                if let Some(step) = SCALES.iter().find(|step| step.to_string() == key) {
                    bench.stove.scale_step = Mass::saturating_grams(*step);
                }
            }
            Self::Theme => {
                bench.theme = THEMES
                    .into_iter()
                    .find(|theme| theme_words(*theme) == key)
                    .unwrap_or(bench.theme);
            }
            Self::Volume => bench.volume_percent = key.parse().unwrap_or(bench.volume_percent),
            Self::WetHands => bench.wet_hands = key == "yes",
            Self::QuietHours => {
                if let Some(hours) = QUIET_HOURS.into_iter().find(|hours| quiet_words(*hours) == key) {
                    bench.quiet_hours = hours;
                }
            }
            Self::Capacity | Self::Diameter | Self::Power | Self::Altitude | Self::Tap | Self::Room => {}
        }
        bench
    }
}

/// Nights as kitchens have them; others can be written into the bench's file.
const QUIET_HOURS: [Option<QuietHours>; 4] = [None, night(21, 7), night(22, 7), night(23, 8)];

const fn night(from: u16, until: u16) -> Option<QuietHours> {
    Some(QuietHours {
        from: from.saturating_mul(60),
        until: until.saturating_mul(60),
    })
}

fn quiet_words(hours: Option<QuietHours>) -> String {
    let clock = |minute: u16| {
        let hour = minute.checked_div(60).unwrap_or(0);
        format!("{hour}:{:02}", minute % 60)
    };
    hours.map_or_else(
        || "none".to_owned(),
        |hours| format!("{} to {}", clock(hours.from), clock(hours.until)),
    )
}

const SCALES: [f64; 4] = [0.01, 0.1, 1.0, 5.0];
const THEMES: [Theme; 3] = [Theme::Daylight, Theme::Kitchen, Theme::Night];
const VOLUMES: [u8; 4] = [40, 60, 80, 100];

fn same(one: f64, other: f64) -> bool {
    (one - other).abs() < 1e-9
}

const fn theme_words(theme: Theme) -> &'static str {
    match theme {
        Theme::Daylight => "daylight",
        Theme::Kitchen => "kitchen",
        Theme::Night => "night",
    }
}

fn option(key: &str, label: String, chosen: bool) -> Row {
    Row {
        key: key.into(),
        label,
        detail: String::new(),
        value: String::new(),
        icon: Icon::None,
        chosen,
        enabled: true,
    }
}

/// The rows of some settings.
pub(super) fn rows(settings: &[Setting], bench: &Bench, locale: Locale) -> Vec<Row> {
    let row = |setting: &Setting| Row {
        key: setting.key().into(),
        label: setting.title().into(),
        detail: String::new(),
        value: setting.value(bench, locale),
        icon: Icon::None,
        chosen: false,
        enabled: true,
    };
    settings.iter().map(row).collect()
}

/// The list of answers of one setting.
pub(super) fn option_screen(setting: Setting, bench: &Bench) -> ChooseScreen {
    ChooseScreen {
        title: setting.title().into(),
        note: String::new(),
        columns: 2,
        tiles: false,
        big: false,
        empty: String::new(),
        rows: setting.options(bench),
        foot: Vec::new(),
    }
}

/// The bench.
pub(super) fn bench_screen(bench: &Bench, locale: Locale) -> ChooseScreen {
    ChooseScreen {
        title: "Bench".into(),
        note: "what stays the same from bath to bath".into(),
        columns: 2,
        tiles: true,
        big: false,
        empty: String::new(),
        rows: rows(&OF_BENCH, bench, locale)
            .into_iter()
            .chain([vessels_page::row(bench)])
            .collect(),
        foot: vec![foot("sound-check", "sound check", Icon::Heard, false)],
    }
}

/// The pot of the bath being put together.
pub(super) fn pot_screen(stove: StovePlace, bench: &Bench, note: String, locale: Locale) -> ChooseScreen {
    let of_bath = Bench { stove, ..*bench };
    ChooseScreen {
        title: "Pot and burner".into(),
        note,
        columns: 2,
        tiles: true,
        big: false,
        empty: String::new(),
        rows: std::iter::once(vessels_page::row(&of_bath))
            .chain(rows(&OF_POT, &of_bath, locale))
            .collect(),
        foot: vec![foot("go-on", "bath sheet", Icon::Book, true)],
    }
}

pub(super) fn foot(key: &str, label: &str, icon: Icon, strong: bool) -> SideAct {
    SideAct {
        key: key.into(),
        label: label.into(),
        icon,
        enabled: true,
        strong,
    }
}
