//! The figures of a record in finished words, shared by the lines and the printed page.

use crate::craft::fibre::Fibre;
use crate::craft::quantity::{Band, Length, Mass, Power, Temperature, Volume};
use crate::craft::time::Span;
use crate::journal::record::{BathRecord, CallRecord, OutageRecord, StepRecord};
use crate::sheet::plan::StepKind;
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

/// Degrees, to a tenth where they were read so.
#[must_use]
pub fn celsius(value: f64) -> String {
    let temperature = Temperature::saturating_celsius(value);
    if (value - value.round()).abs() < 0.05 {
        words::celsius(temperature)
    } else {
        words::celsius_fine(temperature)
    }
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
pub fn step(record: &BathRecord, step: &StepRecord) -> String {
    let kind = StepKind::ALL.into_iter().find(|kind| kind.id() == step.kind);
    let verb = kind.map_or_else(|| plain(&step.kind), |kind| act::verb(kind).to_owned());
    let planned = &step.planned;
    let mut parts = vec![verb];
    parts.extend(planned.water_l.map(|water| {
        let water = words::litres(Volume::saturating_litres(water));
        planned.level_cm.map_or(water.clone(), |level| {
            format!(
                "{water}, {} above the bottom",
                words::centimetres(Length::saturating_centimetres(level))
            )
        })
    }));
    let wares: Vec<String> = step.letters.iter().map(|letter| ware(record, letter)).collect();
    if !wares.is_empty() {
        parts.push(wares.join(" + "));
    }
    parts.extend(
        planned
            .cup_l
            .map(|cup| format!("in {}", words::litres(Volume::saturating_litres(cup)))),
    );
    parts.extend(
        planned
            .at_most_c
            .map(|most| format!("bath not above {}", celsius(most))),
    );
    if let (Some(dip), Some(dips)) = (planned.dip, planned.dips) {
        parts.push(format!("{dip} of {dips}"));
    }
    if let Some(sign) = &planned.sign {
        parts.push(format!("for {}, after", plain(sign)));
    }
    parts.extend(planned.span_min.map(span));
    parts.extend(
        planned
            .again_min
            .map(|again| format!("and every {} until it shows", span(again))),
    );
    match (planned.floor_c, planned.ceiling_c) {
        (Some(floor), Some(ceiling)) => {
            parts.extend(planned.to_c.map(|at| format!("at {}", celsius(at))));
            parts.push(format!("({} to {})", celsius(floor), celsius(ceiling)));
        }
        (_, _) => parts.extend(planned.to_c.map(|to| format!("to {}", celsius(to)))),
    }
    parts.extend(
        planned
            .turn_every_min
            .map(|every| format!("turned every {}", span(every))),
    );
    parts.extend(
        planned
            .lid_on
            .map(|on| if on { "lid on" } else { "lid off" }.to_owned()),
    );
    parts.extend(planned.times.map(|times| format!("{times} times")));
    if planned.until_clear == Some(true) {
        parts.push("or until it runs clear".to_owned());
    }
    parts.join(" ")
}

fn ware(record: &BathRecord, letter: &str) -> String {
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
                    grams(addition.planned_g),
                    plain(&addition.name)
                )
            },
        )
}

/// How long a step was planned to take.
#[must_use]
pub fn planned_length(step: &StepRecord) -> String {
    let at = Span::from_fractional_minutes;
    words::band(Band {
        low: at(step.planned.low_min),
        likely: at(step.planned.likely_min),
        high: at(step.planned.high_min),
    })
}

/// How long a step took, where it was begun and ended.
#[must_use]
pub fn actual_length(step: &StepRecord) -> Option<String> {
    Some(span(step.ended_min? - step.began_min?))
}

/// What was done at a step, in words.
#[must_use]
pub fn done(record: &BathRecord, step: &StepRecord) -> String {
    let mut parts = vec![step.how.replace('-', " ")];
    if let Some(reason) = &step.reason {
        parts.push(reason.replace('-', " "));
    }
    if let Some(actual) = step.actual_g {
        parts.push(weighed(step.planned.grams, actual));
    }
    parts.extend(step.reading_c.map(|read| format!("at {}", celsius(read))));
    match not_yet(record, step.number) {
        0 => {}
        1 => parts.push("not yet at one look".to_owned()),
        count => parts.push(format!("not yet at {count} looks")),
    }
    if let Some(held) = step.held_min {
        let planned = step.planned.span_min.map_or_else(String::new, span);
        parts.push(format!("held {} of {planned}", span(held)));
        let (made, missed) = turns(record, step.number);
        parts.push(format!("turns: {made} made, {missed} missed"));
    }
    plain(&parts.join(", "))
}

/// `14.8 g, 0.20 g less than planned`.
#[must_use]
pub fn weighed(planned: Option<f64>, actual: f64) -> String {
    let off = planned.map_or(0.0, |planned| actual - planned);
    if off.abs() < 0.005 {
        grams(actual)
    } else {
        let side = if off > 0.0 { "more" } else { "less" };
        format!("{}, {} {side} than planned", grams(actual), grams(off.abs()))
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
