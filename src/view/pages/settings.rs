//! The figures of the bench and of one bath's pot: how each is named, shown, chosen and keyed in.

use crate::craft::measures::KitchenUnit;
use crate::craft::quantity::{Mass, Power};
use crate::craft::reading::{self, ReadingFault};
use crate::craft::vessel::{BurnerKind, Lid, Place, PotMetal};
use crate::machine::voice::QuietHours;
use crate::sheet::StovePlace;
use crate::view::bench::Bench;
use crate::view::locale::{Language, Locale, Weights};
use crate::view::screen::{ChooseScreen, Icon, Row, SideAct, Theme};
use crate::{msg, say};

use super::habits_rows;
use super::{vessel_words, vessels_page};

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
    Language,
    Weights,
    Temperatures,
    Volumes,
    Clock,
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
pub(super) const OF_BENCH: [Setting; 19] = [
    Setting::Language,
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
    Setting::Weights,
    Setting::Temperatures,
    Setting::Volumes,
    Setting::Clock,
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
            Self::Language => "language",
            Self::Weights => "weights",
            Self::Temperatures => "temperatures",
            Self::Volumes => "volumes",
            Self::Clock => "clock",
        }
    }

    /// The setting of a key.
    pub(super) fn from_key(key: &str) -> Option<Self> {
        OF_BENCH.into_iter().find(|setting| setting.key() == key)
    }

    /// Its name.
    pub(super) const fn title(self) -> &'static str {
        match self {
            Self::Capacity => msg!("Pot holds"),
            Self::Diameter => msg!("Pot, inside width"),
            Self::Metal => msg!("Pot is made of"),
            Self::Burner => msg!("Burner"),
            Self::Power => msg!("Burner, full power"),
            Self::Lid => msg!("Lid while heating"),
            Self::Altitude => msg!("Height above the sea"),
            Self::Tap => msg!("Tap water"),
            Self::Room => msg!("Room"),
            Self::Scale => msg!("Scale shows"),
            Self::Theme => msg!("Light"),
            Self::Volume => msg!("Loudness"),
            Self::WetHands => msg!("Dripping hands"),
            Self::QuietHours => msg!("Quiet hours"),
            Self::Language => msg!("Language"),
            Self::Weights => msg!("Weights"),
            Self::Temperatures => msg!("Temperatures"),
            Self::Volumes => msg!("Volumes"),
            Self::Clock => msg!("Clock"),
        }
    }

    /// Its units, the usual first; none where it is chosen from a list.
    pub(super) const fn units(self) -> &'static [&'static str] {
        match self {
            Self::Capacity => &["L", msg!("us-gal"), msg!("imp-gal")],
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
            | Self::QuietHours
            | Self::Language
            | Self::Weights
            | Self::Temperatures
            | Self::Volumes
            | Self::Clock => &[],
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
            | Self::QuietHours
            | Self::Language
            | Self::Weights
            | Self::Temperatures
            | Self::Volumes
            | Self::Clock => {}
        }
        Ok(stove)
    }

    /// What stands in its row.
    fn value(self, bench: &Bench, locale: Locale) -> String {
        let stove = &bench.stove;
        match self {
            Self::Capacity => locale.litres(stove.pot.capacity),
            Self::Diameter => locale.depth(stove.pot.diameter),
            Self::Metal => vessel_words::metal(stove.pot.metal, locale),
            Self::Burner => vessel_words::burner(stove.burner.kind, locale),
            Self::Power => power(stove.burner.power, locale),
            Self::Lid => vessel_words::lid(stove.lid, locale),
            Self::Altitude => match stove.place {
                Place::Altitude(height) => locale.height(height.metres()),
                Place::Station(pressure) => {
                    format!("{} hPa", locale.decimal(pressure.hectopascals(), 0))
                }
            },
            Self::Tap => locale.degrees(stove.tap),
            Self::Room => locale.degrees(stove.room),
            Self::Scale => step_words(stove.scale_step.grams(), locale),
            Self::Theme => locale.say(theme_words(bench.theme)),
            Self::Volume => locale.percent(&bench.volume_percent.to_string()),
            Self::WetHands if bench.wet_hands => say!(locale, "yes"),
            Self::WetHands => say!(locale, "no"),
            Self::QuietHours => quiet_words(bench.quiet_hours, locale),
            Self::Language => bench.language.own_name().to_owned(),
            Self::Weights => habits_rows::weights(bench.habits.weights).to_owned(),
            Self::Temperatures => habits_rows::temperatures(bench.habits.temperatures).to_owned(),
            Self::Volumes => locale.say(habits_rows::volumes(bench.habits.volumes)),
            Self::Clock => habits_rows::hours(bench.habits.hours).to_owned(),
        }
    }

    /// The answers it can have, where it is chosen from a list.
    pub(super) fn options(self, bench: &Bench, locale: Locale) -> Vec<Row> {
        let stove = &bench.stove;
        match self {
            Self::Metal => PotMetal::ALL
                .into_iter()
                .map(|it| option(it.id(), vessel_words::metal(it, locale), it == stove.pot.metal))
                .collect(),
            Self::Burner => BurnerKind::ALL
                .into_iter()
                .map(|it| option(it.id(), vessel_words::burner(it, locale), it == stove.burner.kind))
                .collect(),
            Self::Lid => Lid::ALL
                .into_iter()
                .map(|it| option(it.id(), vessel_words::lid(it, locale), it == stove.lid))
                .collect(),
            Self::Scale => steps_offered(locale)
                .map(|step| {
                    let grams = step.grams();
                    let chosen = same(grams, stove.scale_step.grams());
                    option(&step.key(), step_words(grams, locale), chosen)
                })
                .collect(),
            Self::Theme => THEMES
                .into_iter()
                .map(|theme| {
                    let words = theme_words(theme);
                    option(words, locale.say(words), theme == bench.theme)
                })
                .collect(),
            Self::Volume => VOLUMES
                .iter()
                .map(|percent| {
                    option(
                        &percent.to_string(),
                        locale.percent(&percent.to_string()),
                        *percent == bench.volume_percent,
                    )
                })
                .collect(),
            Self::WetHands => {
                vec![
                    option("no", say!(locale, "no: a quarter second"), !bench.wet_hands),
                    option("yes", say!(locale, "yes: longer taps"), bench.wet_hands),
                ]
            }
            Self::QuietHours => QUIET_HOURS
                .into_iter()
                .map(|hours| {
                    let words = quiet_words(hours, locale);
                    option(&quiet_key(hours), words, hours == bench.quiet_hours)
                })
                .collect(),
            Self::Language => Language::ALL
                .into_iter()
                .map(|it| option(it.tag(), it.own_name().to_owned(), it == bench.language))
                .collect(),
            Self::Weights | Self::Temperatures | Self::Volumes | Self::Clock => {
                habits_rows::options(self, bench.habits, locale)
            }
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
                if let Some(step) = STEPS.into_iter().find(|step| step.key() == key) {
                    bench.stove.scale_step = Mass::saturating_grams(step.grams());
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
                if let Some(hours) = QUIET_HOURS.into_iter().find(|hours| quiet_key(*hours) == key) {
                    bench.quiet_hours = hours;
                }
            }
            Self::Language => {
                bench.language = Language::ALL
                    .into_iter()
                    .find(|language| language.tag() == key)
                    .unwrap_or(bench.language);
            }
            Self::Weights | Self::Temperatures | Self::Volumes | Self::Clock => {
                habits_rows::choose(key, &mut bench.habits);
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

fn quiet_words(hours: Option<QuietHours>, locale: Locale) -> String {
    match hours {
        Some(hours) => say!(
            locale,
            "{from} to {until}",
            from = locale.clock_of_day(hours.from),
            until = locale.clock_of_day(hours.until)
        ),
        None => say!(locale, "hours" => "none"),
    }
}

fn quiet_key(hours: Option<QuietHours>) -> String {
    hours.map_or_else(
        || "none".to_owned(),
        |hours| format!("{}-{}", hours.from, hours.until),
    )
}

/// The full power of a burner.
pub(super) fn power(power: Power, locale: Locale) -> String {
    format!("{} kW", locale.decimal(power.watts() / 1_000.0, 1))
}

/// The smallest step of a scale, in the unit that the scale shows.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Step {
    Grams(f64),
    Ounces(f64),
}

/// Steps as scales have them.
const STEPS: [Step; 8] = [
    Step::Grams(0.01),
    Step::Grams(0.1),
    Step::Grams(1.0),
    Step::Grams(5.0),
    Step::Ounces(0.001),
    Step::Ounces(0.01),
    Step::Ounces(0.05),
    Step::Ounces(0.1),
];

impl Step {
    fn grams(self) -> f64 {
        match self {
            Self::Grams(grams) => grams,
            Self::Ounces(ounces) => ounces * KitchenUnit::Ounce.si(),
        }
    }

    fn key(self) -> String {
        match self {
            Self::Grams(grams) => grams.to_string(),
            Self::Ounces(ounces) => format!("{ounces}-oz"),
        }
    }

    const fn is_in_ounces(self) -> bool {
        matches!(self, Self::Ounces(_))
    }
}

/// Whoever weighs in ounces is asked for a step in ounces first; a scale in grams can stand there all the same.
fn steps_offered(locale: Locale) -> impl Iterator<Item = Step> {
    let weighs_in_ounces = locale.habits.weights == Weights::Ounces;
    let in_ounces = STEPS.into_iter().filter(|step| step.is_in_ounces());
    let in_grams = STEPS.into_iter().filter(|step| !step.is_in_ounces());
    in_ounces.filter(move |_| weighs_in_ounces).chain(in_grams)
}

/// A step in the unit that it is a round number of.
fn step_words(grams: f64, locale: Locale) -> String {
    let ounces = STEPS.into_iter().find_map(|step| match step {
        Step::Ounces(ounces) if same(step.grams(), grams) => Some(ounces),
        Step::Ounces(_) | Step::Grams(_) => None,
    });
    match ounces {
        Some(ounces) => format!("{} oz", locale.pointed(&ounces.to_string())),
        None => format!("{} g", locale.pointed(&grams.to_string())),
    }
}

const THEMES: [Theme; 3] = [Theme::Daylight, Theme::Kitchen, Theme::Night];
const VOLUMES: [u8; 4] = [40, 60, 80, 100];

fn same(one: f64, other: f64) -> bool {
    (one - other).abs() < 1e-9
}

const fn theme_words(theme: Theme) -> &'static str {
    match theme {
        Theme::Daylight => msg!("daylight"),
        Theme::Kitchen => msg!("kitchen"),
        Theme::Night => msg!("night"),
    }
}

pub(super) fn option(key: &str, label: String, chosen: bool) -> Row {
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
        label: locale.say(setting.title()),
        detail: String::new(),
        value: setting.value(bench, locale),
        icon: Icon::None,
        chosen: false,
        enabled: true,
    };
    settings.iter().map(row).collect()
}

/// The list of answers of one setting.
pub(super) fn option_screen(setting: Setting, bench: &Bench, locale: Locale) -> ChooseScreen {
    ChooseScreen {
        title: locale.say(setting.title()),
        note: String::new(),
        columns: 2,
        tiles: false,
        big: false,
        empty: String::new(),
        rows: setting.options(bench, locale),
        foot: Vec::new(),
    }
}

/// The bench.
pub(super) fn bench_screen(bench: &Bench, locale: Locale) -> ChooseScreen {
    ChooseScreen {
        title: say!(locale, "Bench"),
        note: say!(locale, "what stays the same from bath to bath"),
        columns: 2,
        tiles: true,
        big: false,
        empty: String::new(),
        rows: rows(&OF_BENCH, bench, locale)
            .into_iter()
            .chain([vessels_page::row(bench, locale)])
            .collect(),
        foot: vec![foot(
            "sound-check",
            say!(locale, "sound check"),
            Icon::Heard,
            false,
        )],
    }
}

/// The pot of the bath being put together.
pub(super) fn pot_screen(stove: StovePlace, bench: &Bench, note: String, locale: Locale) -> ChooseScreen {
    let of_bath = Bench { stove, ..*bench };
    ChooseScreen {
        title: say!(locale, "Pot and burner"),
        note,
        columns: 2,
        tiles: true,
        big: false,
        empty: String::new(),
        rows: std::iter::once(vessels_page::row(&of_bath, locale))
            .chain(rows(&OF_POT, &of_bath, locale))
            .collect(),
        foot: vec![foot("go-on", say!(locale, "bath sheet"), Icon::Book, true)],
    }
}

pub(super) fn foot(key: &str, label: String, icon: Icon, strong: bool) -> SideAct {
    SideAct {
        key: key.into(),
        label,
        icon,
        enabled: true,
        strong,
    }
}
