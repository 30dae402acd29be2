//! The figures of a record in finished words, shared by the lines, the printed page and the glass. What the glass shows
//! takes a locale.

use chrono::{Offset, Utc};

use crate::craft::fibre::Fibre;
use crate::craft::quantity::{Band, Length, Mass, Power, Temperature, Volume};
use crate::craft::time::Span;
use crate::journal::record::{BathRecord, CallRecord, OutageRecord, StepRecord};
use crate::say;
use crate::sheet::plan::StepKind;
use crate::view::locale::{Locale, Temperatures};
use crate::view::{act, words};

/// A text without characters that would move a terminal's cursor.
#[must_use]
pub fn plain(text: &str) -> String {
    text.chars()
        .map(|c| if c.is_control() { ' ' } else { c })
        .collect()
}

/// Grams as a scale shows them.
#[must_use]
pub fn grams(value: f64) -> String {
    words::grams(Mass::saturating_grams(value))
}

/// Degrees Celsius, to a tenth where they were read so.
#[must_use]
pub fn celsius(value: f64) -> String {
    degrees(value, terminal())
}

/// Degrees in the dyer's unit, to a tenth where they were read so.
#[must_use]
pub fn degrees(celsius: f64, locale: Locale) -> String {
    let temperature = Temperature::saturating_celsius(celsius);
    let shown = match locale.habits.temperatures {
        Temperatures::Celsius => celsius,
        Temperatures::Fahrenheit => celsius * 1.8 + 32.0,
    };
    let is_whole = |number: f64| (number - number.round()).abs() < 0.05;
    if is_whole(celsius) || is_whole(shown) {
        locale.degrees(temperature)
    } else {
        locale.degrees_fine(temperature)
    }
}

/// How the terminal and the printed page speak: English and metric.
#[must_use]
pub fn terminal() -> Locale {
    Locale::plain(Utc.fix())
}

/// Minutes as a dyer says them.
#[must_use]
pub fn span(minutes: f64) -> String {
    words::span(Span::from_fractional_minutes(minutes))
}

/// Time on the bath's own clock: `1:15` is an hour and a quarter after its beginning.
#[must_use]
pub fn mark(minutes: f64) -> String {
    let whole = Span::from_fractional_minutes(minutes)
        .ms()
        .saturating_add(30_000)
        .checked_div(60_000)
        .unwrap_or(0);
    let hours = whole.checked_div(60).unwrap_or(0);
    let of_hour = whole.checked_rem(60).unwrap_or(0);
    format!("{hours}:{of_hour:02}")
}

/// `100 g wool, 2 hanks`.
#[must_use]
pub fn goods(record: &BathRecord) -> String {
    let fibre = Fibre::from_id(&record.fibre).map_or(record.fibre.as_str(), |fibre| fibre.name());
    let weight = words::goods_weight(Mass::saturating_grams(record.goods_g));
    match record.hanks {
        0 | 1 => format!("{weight} {}", plain(fibre)),
        hanks => format!("{weight} {}, {hanks} hanks", plain(fibre)),
    }
}

/// Label and value of all that the bath was done with.
#[must_use]
pub fn setting(record: &BathRecord) -> Vec<(&'static str, String)> {
    let mut lines = vec![
        (
            "recipe",
            format!("{} ({})", plain(&record.recipe), plain(&record.kind)),
        ),
        ("dry goods", goods(record)),
        (
            "bath",
            format!(
                "{} ({:.0} L/kg)",
                words::litres(Volume::saturating_litres(record.bath_l)),
                record.liquor_ratio
            ),
        ),
        (
            "pot",
            format!(
                "{}, {}, {}, lid {}",
                words::litres(Volume::saturating_litres(record.pot_l)),
                words::centimetres(Length::saturating_centimetres(record.pot_cm)),
                plain(&record.pot_metal),
                plain(&record.lid)
            ),
        ),
        (
            "burner",
            format!(
                "{}, {:.0} W",
                plain(&record.burner),
                Power::saturating_watts(record.burner_w).watts()
            ),
        ),
        ("room", celsius(record.room_c)),
        ("water boils at", celsius(record.boil_c)),
    ];
    if let Some(lot) = &record.lot {
        lines.push(("lot", plain(lot)));
    }
    if let Some(watts) = record.hold_power_w {
        lines.push(("power to hold, net", format!("{watts:.0} W")));
    }
    lines
}

/// What a step asked for, in one line: `WEIGH A 15.0 g alum (potash)`.
#[must_use]
pub fn step(record: &BathRecord, step: &StepRecord, locale: Locale) -> String {
    let degrees = |value: f64| degrees(value, locale);
    let span = |minutes: f64| locale.span(Span::from_fractional_minutes(minutes));
    let kind = StepKind::ALL.into_iter().find(|kind| kind.id() == step.kind);
    let verb = kind.map_or_else(|| plain(&step.kind), |kind| locale.say(act::verb(kind)));
    let planned = &step.planned;
    let mut parts = vec![verb];
    parts.extend(planned.water_l.map(|water| {
        let water = locale.litres(Volume::saturating_litres(water));
        planned.level_cm.map_or(water.clone(), |level| {
            let level = locale.depth(Length::saturating_centimetres(level));
            say!(
                locale,
                "{water}, {level} above the bottom",
                water = water,
                level = level
            )
        })
    }));
    let wares: Vec<String> = step
        .letters
        .iter()
        .map(|letter| ware(record, letter, locale))
        .collect();
    if !wares.is_empty() {
        parts.push(wares.join(" + "));
    }
    parts.extend(planned.cup_l.map(|cup| {
        let cup = locale.litres(Volume::saturating_litres(cup));
        say!(locale, "in {cup}", cup = cup)
    }));
    parts.extend(
        planned
            .at_most_c
            .map(|most| say!(locale, "bath not above {degrees}", degrees = degrees(most))),
    );
    if let (Some(dip), Some(dips)) = (planned.dip, planned.dips) {
        parts.push(say!(locale, "{dip} of {dips}", dip = dip, dips = dips));
    }
    if let Some(sign) = &planned.sign {
        let sign = locale.read(&plain(sign));
        parts.push(say!(locale, "for {sign}, after", sign = sign));
    }
    parts.extend(planned.span_min.map(span));
    parts.extend(
        planned
            .again_min
            .map(|again| say!(locale, "and every {span} until it shows", span = span(again))),
    );
    match (planned.floor_c, planned.ceiling_c) {
        (Some(floor), Some(ceiling)) => {
            parts.extend(
                planned
                    .to_c
                    .map(|at| say!(locale, "at {degrees}", degrees = degrees(at))),
            );
            let (low, high) = (degrees(floor), degrees(ceiling));
            parts.push(say!(locale, "({low} to {high})", low = low, high = high));
        }
        (_, _) => parts.extend(
            planned
                .to_c
                .map(|to| say!(locale, "to {degrees}", degrees = degrees(to))),
        ),
    }
    parts.extend(
        planned
            .turn_every_min
            .map(|every| say!(locale, "turned every {span}", span = span(every))),
    );
    parts.extend(planned.lid_on.map(|on| {
        if on {
            say!(locale, "lid on")
        } else {
            say!(locale, "lid off")
        }
    }));
    parts.extend(
        planned
            .times
            .map(|times| say!(locale, "{times} times", times = times)),
    );
    if planned.until_clear == Some(true) {
        parts.push(say!(locale, "or until it runs clear"));
    }
    parts.join(" ")
}

fn ware(record: &BathRecord, letter: &str, locale: Locale) -> String {
    record
        .additions
        .iter()
        .find(|addition| addition.letter == letter)
        .map_or_else(
            || plain(letter),
            |addition| {
                format!(
                    "{} {} {}",
                    plain(letter),
                    locale.grams(Mass::saturating_grams(addition.planned_g)),
                    locale.read(&plain(&addition.name))
                )
            },
        )
}

/// How long a step was planned to take.
#[must_use]
pub fn planned_length(step: &StepRecord, locale: Locale) -> String {
    let at = Span::from_fractional_minutes;
    locale.band(Band {
        low: at(step.planned.low_min),
        likely: at(step.planned.likely_min),
        high: at(step.planned.high_min),
    })
}

/// How long a step took, where it was begun and ended.
#[must_use]
pub fn actual_length(step: &StepRecord, locale: Locale) -> Option<String> {
    let took = step.ended_min? - step.began_min?;
    Some(locale.span(Span::from_fractional_minutes(took)))
}

/// What was done at a step, in words.
#[must_use]
pub fn done(record: &BathRecord, step: &StepRecord, locale: Locale) -> String {
    let span = |minutes: f64| locale.span(Span::from_fractional_minutes(minutes));
    let mut parts = vec![how(&step.how, locale)];
    if let Some(reason) = &step.reason {
        parts.push(why(reason, locale));
    }
    if let Some(actual) = step.actual_g {
        parts.push(weighed(step.planned.grams, actual, locale));
    }
    parts.extend(
        step.reading_c
            .map(|read| say!(locale, "at {degrees}", degrees = degrees(read, locale))),
    );
    match not_yet(record, step.number) {
        0 => {}
        1 => parts.push(say!(locale, "not yet at one look")),
        count => parts.push(say!(locale, "not yet at {count} looks", count = count)),
    }
    if let Some(held) = step.held_min {
        let planned = step.planned.span_min.map_or_else(String::new, span);
        parts.push(say!(
            locale,
            "held {held} of {planned}",
            held = span(held),
            planned = planned
        ));
        let (made, missed) = turns(record, step.number);
        parts.push(say!(
            locale,
            "turns: {made} made, {missed} missed",
            made = made,
            missed = missed
        ));
    }
    plain(&parts.join(", "))
}

/// How a step ended, from the word in the record.
fn how(word: &str, locale: Locale) -> String {
    match word {
        "as-planned" => say!(locale, "as planned"),
        "weighed" => say!(locale, "weighed"),
        "read" => say!(locale, "of a thermometer" => "read"),
        "early" => say!(locale, "of a step" => "early"),
        "skipped" => say!(locale, "skipped"),
        "not-done" => say!(locale, "not done"),
        other => other.replace('-', " "),
    }
}

/// Why a step was left out, from the word in the record.
fn why(word: &str, locale: Locale) -> String {
    match word {
        "not-needed" => say!(locale, "not needed"),
        "not-at-hand" => say!(locale, "not at hand"),
        "done-already" => say!(locale, "done already"),
        "enough-by-eye" => say!(locale, "enough by eye"),
        "no-time" => say!(locale, "no time"),
        other => other.replace('-', " "),
    }
}

/// `14.8 g, 0.20 g less than planned`.
#[must_use]
pub fn weighed(planned: Option<f64>, actual: f64, locale: Locale) -> String {
    let grams = |value: f64| locale.grams(Mass::saturating_grams(value));
    let off = planned.map_or(0.0, |planned| actual - planned);
    let (actual, by) = (grams(actual), grams(off.abs()));
    if off.abs() < 0.005 {
        actual
    } else if off > 0.0 {
        say!(
            locale,
            "{actual}, {by} more than planned",
            actual = actual,
            by = by
        )
    } else {
        say!(
            locale,
            "{actual}, {by} less than planned",
            actual = actual,
            by = by
        )
    }
}

/// Turns made and missed in a step.
#[must_use]
pub fn turns(record: &BathRecord, step_number: usize) -> (usize, usize) {
    let of_step = |missed| {
        let turns = record.turns.iter();
        turns
            .filter(|turn| turn.step == step_number && turn.missed == missed)
            .count()
    };
    (of_step(false), of_step(true))
}

/// Looks in a step at which the sign wasn't there.
#[must_use]
pub fn not_yet(record: &BathRecord, step_number: usize) -> usize {
    let looks = record.not_yet.iter();
    looks.filter(|look| look.step == step_number).count()
}

/// `0:45 turn 2`.
#[must_use]
pub fn call(call: &CallRecord) -> String {
    format!("{} {}", mark(call.at_min), plain(&call.call.replace('-', " ")))
}

/// How long the program was away and what the dyer said of it.
#[must_use]
pub fn outage(outage: &OutageRecord) -> String {
    let most = outage
        .at_most_min
        .map_or("no one knows how long at most".to_owned(), |most| {
            format!("at most {}", span(most))
        });
    let answer = outage
        .answer
        .as_deref()
        .map_or("never answered".to_owned(), |answer| {
            format!("the dyer said: {}", answer.replace('-', " "))
        });
    plain(&format!(
        "back at {}, away at least {}, {most}; {answer}",
        mark(outage.back_min),
        span(outage.at_least_min)
    ))
}
