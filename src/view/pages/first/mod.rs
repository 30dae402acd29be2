//! The first minutes: seven questions that put a bench together. Each has big answers and one that is taken when nobody
//! knows better; what isn't asked stays as the bench has it, and all of it can be changed there later.

mod usual;

use crate::craft::vessel::{Burner, BurnerKind, Place, Pot};
use crate::say;
use crate::view::bench::Bench;
use crate::view::locale::{Language, Locale, Volumes};
use crate::view::screen::{ChooseScreen, Icon, Row, SideAct};

use super::settings::Setting;
use usual::{MIDDLE, Units};

/// Passes over the rest of the questions.
pub(super) const SKIP: &str = "skip-the-rest";
/// Plays a bath before anything is asked.
pub(super) const DEMO: &str = "demo";

/// A question of the first minutes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum First {
    /// In which language.
    Language,
    /// In which units, all of them at once.
    Units,
    /// How high above the sea.
    Height,
    /// The pot.
    Pot,
    /// What heats it.
    Burner,
    /// How strongly.
    Power,
    /// Whether the calls are heard.
    Sound,
}

/// What an answer leads to.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Answer {
    /// This bench, and the next question.
    Takes(Box<Bench>),
    /// A figure has to be keyed in.
    KeyIn(Setting),
    /// This bench, heard again.
    Hear(Box<Bench>),
}

/// One of the answers there are.
struct Choice {
    key: String,
    label: String,
    detail: String,
    icon: Icon,
    answer: Answer,
}

impl First {
    /// All of them, in their order.
    pub const ALL: [Self; 7] = [
        Self::Language,
        Self::Units,
        Self::Height,
        Self::Pot,
        Self::Burner,
        Self::Power,
        Self::Sound,
    ];

    /// The question after this one.
    pub(super) fn next(self) -> Option<Self> {
        Self::ALL.into_iter().skip_while(|first| *first != self).nth(1)
    }

    /// What is asked.
    fn title(self, locale: Locale) -> String {
        match self {
            Self::Language => in_every_language(locale),
            Self::Units => say!(locale, "Units"),
            Self::Height => say!(locale, "Height above the sea"),
            Self::Pot => say!(locale, "Your pot"),
            Self::Burner => say!(locale, "What heats it?"),
            Self::Power => say!(locale, "Full power"),
            Self::Sound => say!(locale, "Did you hear it?"),
        }
    }

    /// Why, in one line.
    fn help(self, locale: Locale) -> String {
        match self {
            Self::Language => say!(locale, "every answer can be changed later"),
            Self::Units => say!(locale, "each of them singly: on the bench"),
            Self::Height => say!(locale, "water boils lower up high"),
            Self::Pot => say!(locale, "stainless steel; others are set on the bench"),
            Self::Burner => say!(locale, "the one you use most"),
            Self::Power => say!(locale, "it stands on the plate or in its papers"),
            Self::Sound => say!(locale, "each call has its own sound"),
        }
    }

    fn columns(self) -> i32 {
        match self {
            Self::Burner | Self::Pot | Self::Power => 2,
            Self::Language | Self::Units | Self::Height | Self::Sound => 3,
        }
    }

    /// The question as a screen.
    pub(super) fn screen(self, bench: &Bench, locale: Locale) -> ChooseScreen {
        let choices = self.choices(bench, locale);
        let marked = self.marked_of(&choices, bench);
        let rows = choices.into_iter().enumerate().map(|(index, choice)| Row {
            key: choice.key,
            label: choice.label,
            detail: choice.detail,
            value: String::new(),
            icon: choice.icon,
            chosen: marked == Some(index),
            enabled: true,
        });
        let at = Self::ALL.into_iter().take_while(|first| *first != self).count();
        ChooseScreen {
            title: self.title(locale),
            note: say!(
                locale,
                "{at} of {count}: {help}",
                at = at.saturating_add(1),
                count = Self::ALL.len(),
                help = self.help(locale)
            ),
            columns: self.columns(),
            tiles: false,
            big: true,
            empty: String::new(),
            rows: rows.collect(),
            foot: self.foot(locale),
        }
    }

    fn foot(self, locale: Locale) -> Vec<SideAct> {
        let act = |key: &str, label: String, icon| SideAct {
            key: key.into(),
            label,
            icon,
            enabled: true,
            strong: false,
        };
        let skip = act(SKIP, say!(locale, "skip the rest"), Icon::Skip);
        let demo = act(DEMO, say!(locale, "rehearse a demo bath"), Icon::Rehearse);
        match self {
            Self::Language => vec![demo, skip],
            Self::Units | Self::Height | Self::Pot | Self::Burner | Self::Power | Self::Sound => vec![skip],
        }
    }

    /// What the answer of a key leads to.
    pub(super) fn answer(self, key: &str, bench: &Bench, locale: Locale) -> Option<Answer> {
        let choices = self.choices(bench, locale);
        choices
            .into_iter()
            .find(|choice| choice.key == key)
            .map(|choice| choice.answer)
    }

    /// The key of the answer that is marked: what the firm-tap key means here.
    pub(super) fn marked(self, bench: &Bench, locale: Locale) -> Option<String> {
        let choices = self.choices(bench, locale);
        let marked = self.marked_of(&choices, bench)?;
        choices.into_iter().nth(marked).map(|choice| choice.key)
    }

    /// The answer that leaves the bench as it is; while nothing was answered, the middle one of three; else the figure
    /// that was keyed in.
    fn marked_of(self, choices: &[Choice], bench: &Bench) -> Option<usize> {
        let leaves_it = |choice: &Choice| choice.answer == Answer::Takes(Box::new(*bench));
        let keyed_in = |choice: &Choice| matches!(choice.answer, Answer::KeyIn(_));
        let is_untouched = self == Self::Pot && bench.stove.pot == Bench::default().stove.pot;
        choices
            .iter()
            .position(leaves_it)
            .or_else(|| is_untouched.then_some(MIDDLE))
            .or_else(|| choices.iter().position(keyed_in))
    }

    fn choices(self, bench: &Bench, locale: Locale) -> Vec<Choice> {
        match self {
            Self::Language => languages(bench),
            Self::Units => units(bench, locale),
            Self::Height => heights(bench, locale),
            Self::Pot => pots(bench, locale),
            Self::Burner => burners(bench, locale),
            Self::Power => powers(bench, locale),
            Self::Sound => sounds(bench, locale),
        }
    }
}

/// The word for language in each of them: who can't read one finds another.
fn in_every_language(locale: Locale) -> String {
    let mut words: Vec<String> = Vec::new();
    for language in Language::ALL {
        let word = say!(Locale { language, ..locale }, "Language");
        if !words.contains(&word) {
            words.push(word);
        }
    }
    words.join(" / ")
}

fn takes(key: impl Into<String>, label: String, detail: String, icon: Icon, bench: Bench) -> Choice {
    Choice {
        key: key.into(),
        label,
        detail,
        icon,
        answer: Answer::Takes(Box::new(bench)),
    }
}

/// A figure that isn't among the usual ones; once it is keyed in, it stands here.
fn another(setting: Setting, shown: String, locale: Locale) -> Choice {
    Choice {
        key: "another".into(),
        label: say!(locale, "another"),
        detail: shown,
        icon: Icon::More,
        answer: Answer::KeyIn(setting),
    }
}

fn languages(bench: &Bench) -> Vec<Choice> {
    let choice = |language: Language| {
        let bench = Bench { language, ..*bench };
        let name = language.own_name().to_owned();
        takes(language.tag(), name, String::new(), Icon::None, bench)
    };
    Language::ALL.into_iter().map(choice).collect()
}

fn units(bench: &Bench, locale: Locale) -> Vec<Choice> {
    let choice = |units: Units| {
        let (key, label, detail) = match units {
            Units::Metric => (
                "metric",
                say!(locale, "Metric"),
                say!(locale, "g, L, cm, \u{b0}C, 24 h"),
            ),
            Units::Us => (
                "us",
                say!(locale, "US"),
                say!(locale, "oz, US gal, in, \u{b0}F, 12 h"),
            ),
            Units::Imperial => (
                "imperial",
                say!(locale, "Imperial"),
                say!(locale, "oz, imperial gal, in, \u{b0}F, 12 h"),
            ),
        };
        let bench = Bench {
            habits: units.habits(),
            ..*bench
        };
        takes(key, label, detail, Icon::None, bench)
    };
    Units::ALL.into_iter().map(choice).collect()
}

fn heights(bench: &Bench, locale: Locale) -> Vec<Choice> {
    let heights = usual::heights(bench.habits);
    let choice = |(index, height): (usize, &_)| {
        let place = Place::Altitude(*height);
        let shown = locale.height(height.metres());
        let mut bench = *bench;
        bench.stove.place = place;
        let (label, detail) = if index == 0 {
            (say!(locale, "Sea level"), shown)
        } else {
            (shown, String::new())
        };
        takes(format!("height-{index}"), label, detail, Icon::None, bench)
    };
    let mut choices: Vec<Choice> = heights.iter().enumerate().map(choice).collect();
    let keyed = match bench.stove.place {
        Place::Altitude(height) if !heights.contains(&height) => locale.height(height.metres()),
        Place::Altitude(_) | Place::Station(_) => String::new(),
    };
    choices.push(another(Setting::Altitude, keyed, locale));
    choices
}

fn pots(bench: &Bench, locale: Locale) -> Vec<Choice> {
    let wide = |pot: &Pot| say!(locale, "{width} wide inside", width = locale.depth(pot.diameter));
    let pots = usual::pots(bench.habits);
    let choice = |(index, pot): (usize, &Pot)| {
        let mut bench = *bench;
        bench.stove.pot = *pot;
        let (label, detail) = (locale.litres(pot.capacity), wide(pot));
        takes(format!("pot-{index}"), label, detail, Icon::Pot, bench)
    };
    let mut choices: Vec<Choice> = pots.iter().enumerate().map(choice).collect();
    let pot = &bench.stove.pot;
    let keyed = if pots.contains(pot) || *pot == Bench::default().stove.pot {
        String::new()
    } else {
        format!("{}, {}", locale.litres(pot.capacity), wide(pot))
    };
    choices.push(another(Setting::Capacity, keyed, locale));
    choices
}

fn burners(bench: &Bench, locale: Locale) -> Vec<Choice> {
    let choice = |kind: BurnerKind| {
        let label = match kind {
            BurnerKind::Gas => say!(locale, "Gas flame"),
            BurnerKind::Induction => say!(locale, "Induction"),
            BurnerKind::Coil => say!(locale, "Electric plate"),
            BurnerKind::Ceramic => say!(locale, "Glass-ceramic"),
        };
        let mut bench = *bench;
        if bench.stove.burner.kind != kind {
            bench.stove.burner = Burner {
                kind,
                power: usual::usual_power(kind),
            };
        }
        let power = kilowatts(bench.stove.burner, locale);
        takes(kind.id(), label, power, Icon::Flame, bench)
    };
    BurnerKind::ALL.into_iter().map(choice).collect()
}

fn powers(bench: &Bench, locale: Locale) -> Vec<Choice> {
    let burner = bench.stove.burner;
    let powers = usual::powers(burner.kind);
    let choice = |(index, power): (usize, &_)| {
        let mut bench = *bench;
        bench.stove.burner.power = *power;
        let burner = bench.stove.burner;
        let (label, detail) = (kilowatts(burner, locale), british(burner, locale));
        takes(format!("power-{index}"), label, detail, Icon::Flame, bench)
    };
    let mut choices: Vec<Choice> = powers.iter().enumerate().map(choice).collect();
    let keyed = if powers.contains(&burner.power) {
        String::new()
    } else {
        kilowatts(burner, locale)
    };
    choices.push(another(Setting::Power, keyed, locale));
    choices
}

fn kilowatts(burner: Burner, locale: Locale) -> String {
    format!("{} kW", locale.decimal(burner.power.watts() / 1_000.0, 1))
}

/// Where gallons are read, gas is sold by the British thermal unit: 1 Btu (international table) is 1055.055 852 62 J,
/// NIST SP 811, appendix B.8.
fn british(burner: Burner, locale: Locale) -> String {
    const BTU_PER_HOUR_W: f64 = 1_055.055_852_62 / 3_600.0;
    match (burner.kind, locale.habits.volumes) {
        (BurnerKind::Gas, Volumes::UsGallons | Volumes::ImperialGallons) => {
            let thousands = burner.power.watts() / BTU_PER_HOUR_W / 1_000.0;
            say!(
                locale,
                "about {thousands} 000 Btu/h",
                thousands = locale.decimal(thousands, 0)
            )
        }
        (BurnerKind::Gas, Volumes::Litres)
        | (BurnerKind::Induction | BurnerKind::Ceramic | BurnerKind::Coil, _) => String::new(),
    }
}

fn sounds(bench: &Bench, locale: Locale) -> Vec<Choice> {
    const LOUDEST: u8 = 100;
    let percent = |volume: u8| locale.percent(&volume.to_string());
    let louder = Bench {
        volume_percent: bench.volume_percent.saturating_add(20).min(LOUDEST),
        ..*bench
    };
    let again = if louder.volume_percent > bench.volume_percent {
        (say!(locale, "Louder"), percent(louder.volume_percent))
    } else {
        (say!(locale, "Once more"), say!(locale, "as loud as it goes"))
    };
    let silent = Bench {
        volume_percent: 0,
        ..*bench
    };
    vec![
        takes(
            "heard",
            say!(locale, "Yes"),
            percent(bench.volume_percent),
            Icon::Tick,
            *bench,
        ),
        Choice {
            key: "louder".into(),
            label: again.0,
            detail: again.1,
            icon: Icon::Plus,
            answer: Answer::Hear(Box::new(louder)),
        },
        takes(
            "no-sound",
            say!(locale, "No sound here"),
            say!(locale, "calls are shown"),
            Icon::SoundOff,
            silent,
        ),
    ]
}
