//! Quantities from a dyer's text: `100 g`, `4 us-gal`, `199 F`, `30:1`, `1 h 30 min`, `12L,26cm,stainless`.
//!
//! A number without its unit is refused, and so is anything that two readers could take two ways. A dot is always
//! the decimal mark; a comma is one where it can't be a mark of thousands. Knows nothing of files or screens.

use crate::msg;

use super::fibre::Fibre;
use super::measures::{CENTIMETRES_PER_INCH, KitchenUnit, METRES_PER_FOOT};
use super::quantity::{
    Altitude, Concentration, Length, LiquorRatio, Mass, OutOfRange, PercentWof, Power, Pressure, Ramp,
    Temperature, Volume,
};
use super::substance::Substance;
use super::time::Span;
use super::vessel::{Burner, BurnerKind, Lid, Pot, PotMetal};

/// Why a text is no quantity. Each is one plain line: what was read, what is wrong, what would do.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum ReadingFault {
    /// Nothing was written.
    #[error("nothing is written; write a {what} such as {example}")]
    Empty {
        /// The kind of quantity, in words.
        what: &'static str,
        /// A text that would do.
        example: &'static str,
    },
    /// There is no number in ASCII digits at the start.
    #[error("{read} does not start with a number in the digits 0 to 9; write a {what} such as {example}")]
    NoNumber {
        /// What was read.
        read: String,
        /// The kind of quantity, in words.
        what: &'static str,
        /// A text that would do.
        example: &'static str,
    },
    /// It starts like a number and is none.
    #[error("{read} holds {found}, which is no number: {why}; write a {what} such as {example}")]
    NotANumber {
        /// What was read.
        read: String,
        /// The part that should be a number.
        found: String,
        /// What is wrong with it.
        why: &'static str,
        /// The kind of quantity, in words.
        what: &'static str,
        /// A text that would do.
        example: &'static str,
    },
    /// A comma that may be a decimal mark or a mark of thousands.
    #[error("{read} can be read two ways; write {decimal} or {thousands}, without the comma")]
    AmbiguousComma {
        /// What was read.
        read: String,
        /// The number with the comma as decimal mark.
        decimal: String,
        /// The number with the comma as mark of thousands.
        thousands: String,
    },
    /// A number without a unit.
    #[error("{read} has no unit; write {would_do}")]
    NoUnit {
        /// What was read.
        read: String,
        /// The same number with each unit that would do.
        would_do: String,
    },
    /// A unit that is none of this kind of quantity.
    #[error("{read}: {unit} is not a unit of {what} known here; {units} are")]
    UnknownUnit {
        /// What was read.
        read: String,
        /// The part that should be a unit.
        unit: String,
        /// The kind of quantity, in words.
        what: &'static str,
        /// The units that would do.
        units: String,
    },
    /// A gallon, quart or pint without its country.
    #[error("{read}: which {unit}; write {us} or {imperial}")]
    WhichGallon {
        /// What was read.
        read: String,
        /// The unit, in words.
        unit: &'static str,
        /// The text for the United States measure, with its litres.
        us: String,
        /// The text for the imperial measure, with its litres.
        imperial: String,
    },
    /// A well-formed quantity outside the range of its kind.
    #[error("{read}: {fault}")]
    OutOfRange {
        /// What was read.
        read: String,
        /// The range it left.
        fault: OutOfRange,
    },
    /// A span written as two numbers with a colon.
    #[error("{read} could be hours or minutes; write it as 1 h 30 min or 1 min 30 s")]
    ColonSpan {
        /// What was read.
        read: String,
    },
    /// The units of a span are not in falling order, or one comes twice.
    #[error("{read}: {unit} comes too late; write days, h, min, s in this order, each once")]
    SpanOrder {
        /// What was read.
        read: String,
        /// The unit out of place.
        unit: &'static str,
    },
    /// A span longer than anything a dyer waits for.
    #[error("{read} is longer than {days_max} days; write a shorter time")]
    SpanTooLong {
        /// What was read.
        read: String,
        /// The longest span that is read, in days.
        days_max: u32,
    },
    /// A ratio of which neither side is 1.
    #[error("{read} has no side that is 1; write 30:1 or 30 L/kg")]
    Ratio {
        /// What was read.
        read: String,
    },
    /// A word that is none of a closed list.
    #[error("{read} is not a {what}; write {words}")]
    UnknownWord {
        /// What was read.
        read: String,
        /// What the word should have named.
        what: &'static str,
        /// The words that would do.
        words: String,
    },
    /// A text of several fields with too few or too many.
    #[error("{read} has too few or too many fields; a {what} is written like {example}")]
    Fields {
        /// What was read.
        read: String,
        /// What was to be read.
        what: &'static str,
        /// A text that would do.
        example: &'static str,
    },
    /// A pot or a burner of nothing.
    #[error("{read}: the {what} is nothing; write one above 0")]
    Nothing {
        /// What was read.
        read: String,
        /// Which part of it is nothing.
        what: &'static str,
    },
    /// A volume and a diameter that no pot has together.
    #[error(
        "{read}: a pot of this volume and width would stand {height_cm:.0} cm high; check both, inside measures"
    )]
    PotShape {
        /// What was read.
        read: String,
        /// The height such a pot would have, in centimetres.
        height_cm: f64,
    },
}

/// A weight: `100 g`, `1.2 kg`, `3.5 oz`, `2 lb`, `1 lb 4 oz`.
pub fn mass(text: &str) -> Result<Mass, ReadingFault> {
    let grams = match pounds_and_ounces(text) {
        Some((pounds, ounces)) => in_base_unit(pounds, &MASS)? + in_base_unit(ounces, &MASS)?,
        None => in_base_unit(text, &MASS)?,
    };
    Mass::from_grams(grams).map_err(|fault| out_of_range(text, fault))
}

/// A volume: `3 L`, `500 ml`, `4 us-gal`, `4 imp-gal`, and quarts and pints by country. A bare `gal` is refused.
pub fn volume(text: &str) -> Result<Volume, ReadingFault> {
    let litres = in_base_unit(text, &VOLUME)?;
    Volume::from_litres(litres).map_err(|fault| out_of_range(text, fault))
}

/// A temperature: `93 C`, `199 F`, with or without a degree sign.
pub fn temperature(text: &str) -> Result<Temperature, ReadingFault> {
    let celsius = in_base_unit(text, &TEMPERATURE)?;
    Temperature::from_celsius(celsius).map_err(|fault| out_of_range(text, fault))
}

/// A length: `26 cm`, `260 mm`, `10 in`.
pub fn length(text: &str) -> Result<Length, ReadingFault> {
    let centimetres = in_base_unit(text, &LENGTH)?;
    Length::from_centimetres(centimetres).map_err(|fault| out_of_range(text, fault))
}

/// A height above the sea: `1200 m`, `4000 ft`.
pub fn altitude(text: &str) -> Result<Altitude, ReadingFault> {
    let metres = in_base_unit(text, &ALTITUDE)?;
    Altitude::from_metres(metres).map_err(|fault| out_of_range(text, fault))
}

/// A heating power: `2 kW`, `1500 W`, `9000 btu/h`.
pub fn power(text: &str) -> Result<Power, ReadingFault> {
    let watts = in_base_unit(text, &POWER)?;
    Power::from_watts(watts).map_err(|fault| out_of_range(text, fault))
}

/// An air pressure at the place itself: `845 hPa`, `845 mbar`, `84.5 kPa`.
pub fn pressure(text: &str) -> Result<Pressure, ReadingFault> {
    let hectopascals = in_base_unit(text, &PRESSURE)?;
    Pressure::from_hectopascals(hectopascals).map_err(|fault| out_of_range(text, fault))
}

/// A percentage of the dry weight of fibre: `15 %`, `15 % WOF`.
pub fn percent(text: &str) -> Result<PercentWof, ReadingFault> {
    let percent = in_base_unit(text, &PERCENT)?;
    PercentWof::from_percent(percent).map_err(|fault| out_of_range(text, fault))
}

/// A percentage of a whole, 0 to 100, such as the aluminium on a label or the humidity of a room: `17 %`.
pub fn share(text: &str) -> Result<f64, ReadingFault> {
    let percent = in_base_unit(text, &SHARE)?;
    if (0.0..=100.0).contains(&percent) {
        Ok(percent + 0.0) // a negative zero is a zero
    } else {
        let fault = OutOfRange {
            what: SHARE.what,
            value: percent,
            unit: "%",
            low: 0.0,
            high: 100.0,
        };
        Err(out_of_range(text, fault))
    }
}

/// A concentration in the bath: `5 g/L`.
pub fn concentration(text: &str) -> Result<Concentration, ReadingFault> {
    let grams_per_litre = in_base_unit(text, &CONCENTRATION)?;
    Concentration::from_grams_per_litre(grams_per_litre).map_err(|fault| out_of_range(text, fault))
}

/// Bath per dry goods: `30 L/kg`, `30:1` (litres to kilograms) or `1:30` (kilograms to litres), `4 us-gal/lb`.
pub fn liquor_ratio(text: &str) -> Result<LiquorRatio, ReadingFault> {
    let litres_per_kg = match text.split_once(':') {
        Some((left, right)) => bath_of_ratio(text, left, right)?,
        None => in_base_unit(text, &LIQUOR)?,
    };
    LiquorRatio::from_litres_per_kg(litres_per_kg).map_err(|fault| out_of_range(text, fault))
}

/// How fast a bath may warm: `1.5 C/min`, `3 F/min`.
pub fn ramp(text: &str) -> Result<Ramp, ReadingFault> {
    let kelvin_per_minute = in_base_unit(text, &RAMP)?;
    Ramp::from_kelvin_per_minute(kelvin_per_minute).map_err(|fault| out_of_range(text, fault))
}

/// A length of time: `60 min`, `1 h`, `1 h 30 min`, `4 days`, `90 s`. Rounded to the nearest millisecond.
pub fn span(text: &str) -> Result<Span, ReadingFault> {
    if text.contains(':') {
        return Err(ReadingFault::ColonSpan { read: shown(text) });
    }
    let mut rest = text.trim();
    let mut last_place: Option<usize> = None;
    let mut minutes = 0.0;
    loop {
        let (number, after) = numeral(rest, text, &SPAN)?;
        let after = after.trim_start();
        let unit_bytes = after
            .find(|c: char| !c.is_ascii_alphabetic())
            .unwrap_or(after.len());
        let (unit_text, remainder) = after.split_at_checked(unit_bytes).unwrap_or((after, ""));
        let (place, unit) = SPAN
            .units
            .iter()
            .enumerate()
            .find(|(_, unit)| unit.is_called(&plain(unit_text)))
            .ok_or_else(|| no_such_unit(text, after, number, &SPAN))?;
        if last_place.is_some_and(|last| place <= last) {
            return Err(ReadingFault::SpanOrder {
                read: shown(text),
                unit: unit.shown,
            });
        }
        if number < 0.0 {
            return Err(ReadingFault::NotANumber {
                read: shown(text),
                found: msg!("a minus sign").to_owned(),
                why: msg!("no time is below zero"),
                what: SPAN.what,
                example: SPAN.example,
            });
        }
        last_place = Some(place);
        minutes += unit.to_base(number);
        rest = remainder.trim_start();
        if rest.is_empty() {
            break;
        }
    }
    if minutes > f64::from(SPAN_DAYS_MAX) * 1_440.0 {
        return Err(ReadingFault::SpanTooLong {
            read: shown(text),
            days_max: SPAN_DAYS_MAX,
        });
    }
    Ok(Span::from_fractional_minutes(minutes))
}

/// A pot by volume to the brim, inside diameter and metal: `12L,26cm,stainless`. Fields are parted by `,` or `;`.
///
/// Without the third field the pot is taken to be of stainless steel, which leaves a bath as it is.
pub fn pot(text: &str) -> Result<Pot, ReadingFault> {
    let fields = fields(text);
    let (capacity, diameter, metal_text) = match fields.as_slice() {
        [capacity, diameter] => (volume(capacity)?, length(diameter)?, None),
        [capacity, diameter, metal] => (volume(capacity)?, length(diameter)?, Some(metal)),
        _ => {
            return Err(ReadingFault::Fields {
                read: shown(text),
                what: msg!("pot"),
                example: "12L,26cm,stainless",
            });
        }
    };
    let metal = match metal_text {
        Some(word) => metal(word)?,
        None => PotMetal::Stainless,
    };
    if capacity.litres() <= 0.0 || diameter.centimetres() <= 0.0 {
        return Err(ReadingFault::Nothing {
            read: shown(text),
            what: msg!("pot"),
        });
    }
    let height_cm = capacity.litres() * 1_000.0
        / (std::f64::consts::FRAC_PI_4 * diameter.centimetres() * diameter.centimetres());
    let slenderness = height_cm / diameter.centimetres();
    if !(POT_SLENDERNESS_MIN..=POT_SLENDERNESS_MAX).contains(&slenderness) {
        return Err(ReadingFault::PotShape {
            read: shown(text),
            height_cm,
        });
    }
    Ok(Pot {
        capacity,
        diameter,
        metal,
    })
}

/// A burner by kind and full power: `induction,2kW`.
pub fn burner(text: &str) -> Result<Burner, ReadingFault> {
    let fields = fields(text);
    let [kind, watts] = fields.as_slice() else {
        return Err(ReadingFault::Fields {
            read: shown(text),
            what: msg!("burner"),
            example: "induction,2kW",
        });
    };
    let burner = Burner {
        kind: burner_kind(kind)?,
        power: power(watts)?,
    };
    if burner.power.watts() > 0.0 {
        Ok(burner)
    } else {
        Err(ReadingFault::Nothing {
            read: shown(text),
            what: msg!("power"),
        })
    }
}

/// What a pot is made of, by its id.
pub fn metal(text: &str) -> Result<PotMetal, ReadingFault> {
    PotMetal::from_id(&word(text))
        .ok_or_else(|| unknown_word(text, msg!("pot metal"), &PotMetal::ALL.map(PotMetal::id)))
}

/// How a pot is covered, by its id.
pub fn lid(text: &str) -> Result<Lid, ReadingFault> {
    Lid::from_id(&word(text))
        .ok_or_else(|| unknown_word(text, msg!("way to set the lid"), &Lid::ALL.map(Lid::id)))
}

/// A kind of burner, by its id.
pub fn burner_kind(text: &str) -> Result<BurnerKind, ReadingFault> {
    BurnerKind::from_id(&word(text))
        .ok_or_else(|| unknown_word(text, msg!("kind of burner"), &BurnerKind::ALL.map(BurnerKind::id)))
}

/// A fibre, by its id.
pub fn fibre(text: &str) -> Result<Fibre, ReadingFault> {
    Fibre::from_id(&word(text)).ok_or_else(|| unknown_word(text, msg!("fibre"), &Fibre::ALL.map(Fibre::id)))
}

/// A substance, by its id. The fault names the few ids that come nearest.
pub fn substance(text: &str) -> Result<Substance, ReadingFault> {
    let id = word(text);
    Substance::from_id(&id).ok_or_else(|| {
        let mut ids = Substance::ALL.map(Substance::id);
        ids.sort_by_key(|known| strsim::levenshtein(known, &id));
        unknown_word(
            text,
            msg!("substance known here"),
            ids.get(..3).unwrap_or_default(),
        )
    })
}

/// The longest span that is read.
const SPAN_DAYS_MAX: u32 = 366;
/// Height over diameter of the flattest and the slenderest pot that is believed (from memory: dye pots lie
/// between a shallow pan and a tall asparagus pot).
const POT_SLENDERNESS_MIN: f64 = 0.1;
const POT_SLENDERNESS_MAX: f64 = 5.0;

/// One unit of a kind: its name as we write it, as it may be written, and how it goes to the base unit.
struct Unit {
    shown: &'static str,
    names: &'static [&'static str],
    zero: f64,
    factor: f64,
}

impl Unit {
    const fn new(shown: &'static str, names: &'static [&'static str], factor: f64) -> Self {
        Self {
            shown,
            names,
            zero: 0.0,
            factor,
        }
    }

    fn is_called(&self, plain_name: &str) -> bool {
        self.names.contains(&plain_name)
    }

    fn to_base(&self, number: f64) -> f64 {
        (number - self.zero) * self.factor
    }

    fn number_of_base(&self, base: f64) -> f64 {
        base / self.factor + self.zero
    }
}

/// What a bare number is answered with.
enum Bare {
    /// It is supposed to be of the first unit and shown in the others too.
    FirstUnit,
    /// Nobody can guess; the number is shown with each unit.
    AnyUnit,
}

/// One kind of quantity.
struct Kind {
    what: &'static str,
    example: &'static str,
    bare: Bare,
    units: &'static [Unit],
}

const MASS: Kind = Kind {
    what: msg!("weight"),
    example: "100 g",
    bare: Bare::FirstUnit,
    units: &[
        Unit::new("g", &["g", "gram", "grams", "gramme", "grammes"], 1.0),
        Unit::new("oz", &["oz", "ounce", "ounces"], KitchenUnit::Ounce.si()),
        Unit::new("lb", &["lb", "lbs", "pound", "pounds"], KitchenUnit::Pound.si()),
        Unit::new("kg", &["kg", "kilo", "kilos", "kilogram", "kilograms"], 1_000.0),
        Unit::new("mg", &["mg", "milligram", "milligrams"], 0.001),
    ],
};

const VOLUME: Kind = Kind {
    what: msg!("volume"),
    example: "3 L",
    bare: Bare::FirstUnit,
    units: &[
        Unit::new("L", &["l", "litre", "litres", "liter", "liters"], 1.0),
        Unit::new(
            "ml",
            &["ml", "millilitre", "millilitres", "milliliter", "milliliters"],
            0.001,
        ),
        Unit::new(
            "us-gal",
            &["usgal", "usgallon", "usgallons"],
            KitchenUnit::UsGallon.si() / 1_000.0,
        ),
        Unit::new(
            "imp-gal",
            &[
                "impgal",
                "impgallon",
                "impgallons",
                "imperialgallon",
                "imperialgallons",
                "ukgal",
                "ukgallon",
            ],
            KitchenUnit::ImperialGallon.si() / 1_000.0,
        ),
        Unit::new(
            "us-qt",
            &["usqt", "usquart", "usquarts"],
            KitchenUnit::UsQuart.si() / 1_000.0,
        ),
        Unit::new(
            "imp-qt",
            &["impqt", "impquart", "impquarts"],
            KitchenUnit::ImperialQuart.si() / 1_000.0,
        ),
        Unit::new(
            "us-pt",
            &["uspt", "uspint", "uspints"],
            KitchenUnit::UsPint.si() / 1_000.0,
        ),
        Unit::new(
            "imp-pt",
            &["imppt", "imppint", "imppints"],
            KitchenUnit::ImperialPint.si() / 1_000.0,
        ),
    ],
};

const TEMPERATURE: Kind = Kind {
    what: msg!("temperature"),
    example: "93 C",
    bare: Bare::FirstUnit,
    units: &[
        Unit::new("C", &["c", "celsius", "centigrade"], 1.0),
        Unit {
            shown: "F",
            names: &["f", "fahrenheit"],
            zero: 32.0,
            factor: 5.0 / 9.0,
        },
    ],
};

const LENGTH: Kind = Kind {
    what: msg!("length"),
    example: "26 cm",
    bare: Bare::FirstUnit,
    units: &[
        Unit::new(
            "cm",
            &["cm", "centimetre", "centimetres", "centimeter", "centimeters"],
            1.0,
        ),
        Unit::new(
            "mm",
            &["mm", "millimetre", "millimetres", "millimeter", "millimeters"],
            0.1,
        ),
        Unit::new(
            "in",
            &["in", "inch", "inches", "\"", "\u{2033}"],
            CENTIMETRES_PER_INCH,
        ),
    ],
};

const ALTITUDE: Kind = Kind {
    what: msg!("height above the sea"),
    example: "1200 m",
    bare: Bare::FirstUnit,
    units: &[
        Unit::new("m", &["m", "metre", "metres", "meter", "meters"], 1.0),
        Unit::new("ft", &["ft", "foot", "feet"], METRES_PER_FOOT),
    ],
};

const POWER: Kind = Kind {
    what: msg!("power"),
    example: "2 kW",
    bare: Bare::FirstUnit,
    units: &[
        Unit::new("W", &["w", "watt", "watts"], 1.0),
        Unit::new("kW", &["kw", "kilowatt", "kilowatts"], 1_000.0),
        // International-table British thermal unit, 1055.05585262 J (ISO 31-4), an hour.
        Unit::new("btu/h", &["btu/h", "btu/hr", "btuh"], 1_055.055_852_62 / 3_600.0),
    ],
};

const PRESSURE: Kind = Kind {
    what: msg!("station pressure"),
    example: "1013 hPa",
    bare: Bare::FirstUnit,
    units: &[
        Unit::new("hPa", &["hpa", "hectopascal", "hectopascals"], 1.0),
        Unit::new("mbar", &["mbar", "mb", "millibar", "millibars"], 1.0),
        Unit::new("kPa", &["kpa", "kilopascal", "kilopascals"], 10.0),
        // Conventional inch of mercury, 3386.389 Pa (NIST SP 811).
        Unit::new("inHg", &["inhg"], 33.863_89),
    ],
};

const PERCENT: Kind = Kind {
    what: msg!("percentage of the fibre weight"),
    example: "15 %",
    bare: Bare::FirstUnit,
    units: &[Unit::new("%", &["%", "%wof", "percent", "percentwof"], 1.0)],
};

const SHARE: Kind = Kind {
    what: msg!("percentage"),
    example: "17 %",
    bare: Bare::FirstUnit,
    units: &[Unit::new("%", &["%", "percent"], 1.0)],
};

const CONCENTRATION: Kind = Kind {
    what: msg!("concentration"),
    example: "5 g/L",
    bare: Bare::FirstUnit,
    units: &[
        Unit::new("g/L", &["g/l", "gperl", "gramsperlitre", "gramsperliter"], 1.0),
        Unit::new(
            "oz/us-gal",
            &["oz/usgal"],
            KitchenUnit::Ounce.si() / (KitchenUnit::UsGallon.si() / 1_000.0),
        ),
        Unit::new(
            "oz/imp-gal",
            &["oz/impgal"],
            KitchenUnit::Ounce.si() / (KitchenUnit::ImperialGallon.si() / 1_000.0),
        ),
    ],
};

const LIQUOR: Kind = Kind {
    what: msg!("liquor ratio"),
    example: "30 L/kg",
    bare: Bare::FirstUnit,
    units: &[
        Unit::new("L/kg", &["l/kg", "lperkg", "litresperkg", "litersperkg"], 1.0),
        // Millilitres of a gallon over grams of a pound are litres over kilograms.
        Unit::new(
            "us-gal/lb",
            &["usgal/lb"],
            KitchenUnit::UsGallon.si() / KitchenUnit::Pound.si(),
        ),
        Unit::new(
            "imp-gal/lb",
            &["impgal/lb"],
            KitchenUnit::ImperialGallon.si() / KitchenUnit::Pound.si(),
        ),
    ],
};

const RAMP: Kind = Kind {
    what: msg!("ramp"),
    example: "1.5 C/min",
    bare: Bare::FirstUnit,
    units: &[
        Unit::new("C/min", &["c/min", "cpermin", "cperminute", "k/min"], 1.0),
        Unit::new("F/min", &["f/min", "fpermin", "fperminute"], 5.0 / 9.0),
    ],
};

/// In falling order; a span takes each at most once.
const SPAN: Kind = Kind {
    what: msg!("time"),
    example: "60 min",
    bare: Bare::AnyUnit,
    units: &[
        Unit::new("days", &["d", "day", "days"], 1_440.0),
        Unit::new("h", &["h", "hr", "hrs", "hour", "hours"], 60.0),
        Unit::new("min", &["min", "mins", "minute", "minutes"], 1.0),
        Unit::new("s", &["s", "sec", "secs", "second", "seconds"], 1.0 / 60.0),
    ],
};

/// The two parts of `1 lb 4 oz`, each with its unit, if the text is shaped so; never with a minus sign.
fn pounds_and_ounces(text: &str) -> Option<(&str, &str)> {
    let (pounds, ounces) = text.trim().split_once("lb")?;
    let ounces = ounces.strip_prefix('s').unwrap_or(ounces).trim();
    let is_number = |text: &str| {
        text.starts_with(|c: char| c.is_ascii_digit())
            && text.chars().all(|c| c.is_ascii_digit() || matches!(c, '.' | ','))
    };
    (is_number(pounds.trim()) && is_number(ounces.strip_suffix("oz")?.trim())).then(|| {
        (
            text.trim().get(..pounds.len().saturating_add(2)).unwrap_or(text),
            ounces,
        )
    })
}

fn in_base_unit(text: &str, kind: &Kind) -> Result<f64, ReadingFault> {
    let (number, unit_text) = numeral(text, text, kind)?;
    let name = plain(unit_text);
    kind.units
        .iter()
        .find(|unit| unit.is_called(&name))
        .map(|unit| unit.to_base(number))
        .ok_or_else(|| no_such_unit(text, unit_text, number, kind))
}

/// The number at the start of `text`, and what follows it. `whole` is what the dyer wrote, for the fault.
fn numeral<'a>(text: &'a str, whole: &str, kind: &Kind) -> Result<(f64, &'a str), ReadingFault> {
    let text = text.trim();
    if text.is_empty() {
        return Err(ReadingFault::Empty {
            what: kind.what,
            example: kind.example,
        });
    }
    let (is_negative, body) = match text.strip_prefix(['-', '\u{2212}']) {
        Some(body) => (true, body.trim_start()),
        None => (false, text),
    };
    let is_mark = |c: char| c == '.' || c == ',';
    let (digits, rest) = split_where(body, |c| !(c.is_ascii_digit() || is_mark(c)));
    if !digits.contains(|c: char| c.is_ascii_digit()) {
        return Err(ReadingFault::NoNumber {
            read: shown(whole),
            what: kind.what,
            example: kind.example,
        });
    }
    let (exponent, rest) = exponent(rest);
    let no_number = |why| ReadingFault::NotANumber {
        read: shown(whole),
        found: format!("{}{exponent}", shown(digits)),
        why,
        what: kind.what,
        example: kind.example,
    };
    if rest.trim_start().starts_with(|c: char| c.is_ascii_digit()) {
        return Err(no_number(msg!("a gap parts its digits")));
    }
    if digits.chars().filter(|c| is_mark(*c)).count() > 1 {
        return Err(no_number(msg!("it has more than one decimal mark")));
    }
    if let Some((units, decimals)) = digits.split_once(',') {
        if decimals.is_empty() {
            return Err(no_number(msg!("nothing follows its comma")));
        }
        if decimals.len() == 3 && (1..=3).contains(&units.len()) && !units.starts_with('0') {
            return Err(ReadingFault::AmbiguousComma {
                read: shown(whole),
                decimal: format!("{units}.{decimals}"),
                thousands: format!("{units}{decimals}"),
            });
        }
    }
    let size: f64 = format!("{}{exponent}", digits.replace(',', "."))
        .parse()
        .map_err(|_| no_number(msg!("it can't be read")))?;
    if !size.is_finite() {
        return Err(no_number(msg!("it is too large")));
    }
    Ok((if is_negative { -size } else { size }, rest))
}

/// An exponent such as `e3` at the start of `rest`, if there is one, and what follows it.
fn exponent(rest: &str) -> (&str, &str) {
    let Some(after_e) = rest.strip_prefix(['e', 'E']) else {
        return ("", rest);
    };
    let after_sign = after_e.strip_prefix(['+', '-']).unwrap_or(after_e);
    let (digits, after) = split_where(after_sign, |c| !c.is_ascii_digit());
    if digits.is_empty() {
        return ("", rest);
    }
    let exponent_bytes = rest.len().saturating_sub(after.len());
    rest.split_at_checked(exponent_bytes).unwrap_or(("", rest))
}

fn bath_of_ratio(whole: &str, left: &str, right: &str) -> Result<f64, ReadingFault> {
    let side = |text: &str| {
        let (number, rest) = numeral(text, whole, &LIQUOR)?;
        if rest.trim().is_empty() {
            Ok(number)
        } else {
            Err(ReadingFault::Ratio { read: shown(whole) })
        }
    };
    let (left, right) = (side(left)?, side(right)?);
    let is_one = |number: f64| (number - 1.0).abs() < f64::EPSILON;
    if is_one(right) {
        Ok(left)
    } else if is_one(left) {
        Ok(right)
    } else {
        Err(ReadingFault::Ratio { read: shown(whole) })
    }
}

fn no_such_unit(whole: &str, unit_text: &str, number: f64, kind: &Kind) -> ReadingFault {
    let unit = unit_text.trim();
    if unit.is_empty() {
        return ReadingFault::NoUnit {
            read: shown(whole),
            would_do: in_units_that_would_do(number, kind),
        };
    }
    which_gallon(whole, unit, number, kind).unwrap_or_else(|| ReadingFault::UnknownUnit {
        read: shown(whole),
        unit: shown(unit),
        what: kind.what,
        units: listed(
            &kind.units.iter().map(|unit| unit.shown).collect::<Vec<_>>(),
            "and",
        ),
    })
}

/// The fault of a gallon, quart or pint without its country, if this kind of quantity has such a unit.
fn which_gallon(whole: &str, unit: &str, number: f64, kind: &Kind) -> Option<ReadingFault> {
    let name = plain(unit);
    let (measure, word, short) = name.split('/').find_map(|part| match part {
        "gal" | "gals" | "gallon" | "gallons" => Some((part, "gallon", "gal")),
        "qt" | "qts" | "quart" | "quarts" => Some((part, "quart", "qt")),
        "pt" | "pts" | "pint" | "pints" => Some((part, "pint", "pt")),
        _ => None,
    })?;
    let base = kind.units.first()?;
    let of_country = |country: &str| {
        let named = name.replace(measure, &format!("{country}-{short}"));
        let unit = kind.units.iter().find(|unit| unit.shown == named)?;
        let in_base = round_plainly(unit.to_base(number));
        Some(format!("{number} {named} ({in_base} {})", base.shown))
    };
    Some(ReadingFault::WhichGallon {
        read: shown(whole),
        unit: word,
        us: of_country("us")?,
        imperial: of_country("imp")?,
    })
}

/// A bare number in up to four units: `100 g, 3.5 oz, 0.22 lb or 0.1 kg`.
fn in_units_that_would_do(number: f64, kind: &Kind) -> String {
    let Some(first) = kind.units.first() else {
        return kind.example.to_owned();
    };
    if !(1e-3..1e6).contains(&number.abs()) {
        return kind.example.to_owned();
    }
    let base = first.to_base(number);
    let texts: Vec<String> = kind
        .units
        .iter()
        .take(4)
        .enumerate()
        .map(|(place, unit)| {
            let same = match kind.bare {
                Bare::FirstUnit if place > 0 => round_plainly(unit.number_of_base(base)),
                Bare::FirstUnit | Bare::AnyUnit => number.to_string(),
            };
            format!("{same} {}", unit.shown)
        })
        .collect();
    listed(&texts, "or")
}

/// Whole from 100 up, two significant digits below, without trailing zeros. Only for examples in messages.
fn round_plainly(number: f64) -> String {
    let size = number.abs();
    let decimals = [(100.0, 0), (10.0, 0), (1.0, 1), (0.1, 2), (0.01, 3)]
        .into_iter()
        .find(|(least, _)| size >= *least)
        .map_or(4, |(_, decimals)| decimals);
    let text = format!("{number:.decimals$}");
    if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.').to_owned()
    } else {
        text
    }
}

/// The fields of a pot or burner. A comma between digits whose left side has no unit is a decimal mark.
fn fields(text: &str) -> Vec<String> {
    if text.contains(';') {
        return text.split(';').map(|field| field.trim().to_owned()).collect();
    }
    let mut fields: Vec<String> = Vec::new();
    for part in text.split(',') {
        let part = part.trim();
        let is_digits = |field: &str| !field.is_empty() && field.chars().all(|c| c.is_ascii_digit());
        match fields.last_mut() {
            Some(last) if is_digits(last) && part.starts_with(|c: char| c.is_ascii_digit()) => {
                last.push(',');
                last.push_str(part);
            }
            Some(_) | None => fields.push(part.to_owned()),
        }
    }
    fields
}

/// A unit without what writers vary: spaces, case, hyphens, full stops, degree signs.
fn plain(unit: &str) -> String {
    let joined: String = unit
        .chars()
        .filter(|c| !c.is_whitespace() && !matches!(c, '\u{b0}' | '\u{ba}' | '\u{2da}' | '-' | '.'))
        .map(|c| match c {
            '\u{2103}' => 'c',
            '\u{2109}' => 'f',
            other => other.to_ascii_lowercase(),
        })
        .collect();
    joined
        .strip_prefix("degrees")
        .or_else(|| joined.strip_prefix("deg"))
        .map_or(joined.clone(), str::to_owned)
}

fn word(text: &str) -> String {
    text.trim().to_ascii_lowercase().replace([' ', '_'], "-")
}

/// What was read, fit for one line: no control marks, at most forty characters.
fn shown(text: &str) -> String {
    let text = text.trim();
    let mut line: String = text
        .chars()
        .take(40)
        .map(|c| if c.is_control() { '?' } else { c })
        .collect();
    if text.chars().nth(40).is_some() {
        line.push_str("...");
    }
    if line.is_empty() {
        line.push_str(msg!("nothing"));
    }
    line
}

fn listed<S: AsRef<str>>(words: &[S], last_by: &str) -> String {
    let mut line = String::new();
    for (place, word) in words.iter().enumerate() {
        let is_last = place.saturating_add(1) == words.len();
        if place > 0 {
            line.push_str(&if is_last {
                format!(" {last_by} ")
            } else {
                ", ".to_owned()
            });
        }
        line.push_str(word.as_ref());
    }
    line
}

fn split_where(text: &str, is_end: impl Fn(char) -> bool) -> (&str, &str) {
    let bytes = text.find(is_end).unwrap_or(text.len());
    text.split_at_checked(bytes).unwrap_or((text, ""))
}

fn unknown_word(text: &str, what: &'static str, ids: &[&'static str]) -> ReadingFault {
    ReadingFault::UnknownWord {
        read: shown(text),
        what,
        words: listed(ids, "or"),
    }
}

fn out_of_range(text: &str, fault: OutOfRange) -> ReadingFault {
    ReadingFault::OutOfRange {
        read: shown(text),
        fault,
    }
}
