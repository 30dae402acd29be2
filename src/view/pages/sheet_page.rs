//! The bath sheet on the glass, and the working of one of its numbers.

use crate::craft::time::Moment;
use crate::sheet::{BathSheet, Working};
use crate::shelf::{missing as shelf_misses, wants_of};
use crate::view::locale::Locale;
use crate::view::screen::{CautionLine, Fact, Icon, Row, SheetScreen, Slab, WorkingScreen};
use crate::view::{curve, sheet_text};

use super::draft::{Draft, Reading};
use super::page::Facts;
use super::ways_out;

/// The sheet as a screen.
pub(super) fn screen(draft: &Draft, sheet: &BathSheet, facts: &Facts<'_>) -> SheetScreen {
    let (now, locale) = (facts.now, facts.locale);
    if draft.cautions == Reading::Open {
        return cautions_alone(draft, sheet);
    }
    let (curve, lists) = curve::of_sheet(sheet, now, locale);
    let plan = &sheet.plan;
    let hanks = if plan.goods.hanks > 1 {
        format!(", {} hanks", plan.goods.hanks)
    } else {
        String::new()
    };
    SheetScreen {
        title: plan.recipe_name.clone(),
        note: format!(
            "{} of {}{hanks}, in {} on {}",
            locale.goods_weight(plan.goods.dry),
            plan.goods.fibre.name(),
            locale.litres(plan.pot.capacity),
            plan.burner.kind.id(),
        ),
        refusal: sheet
            .refusals
            .first()
            .map_or_else(String::new, ToString::to_string),
        slab: slab(draft, sheet),
        curve,
        footer: sheet.cautions.deferral.clone(),
        additions: additions(sheet, facts.locale),
        lines: missing(sheet, facts)
            .into_iter()
            .chain(lines(sheet, now, locale))
            .collect(),
        cautions: cautions(draft, sheet),
        ways_out: ways_out::rows(sheet, facts.locale),
        lists,
    }
}

/// First the cautions are read, then the bath starts. A refused bath has no slab.
fn slab(draft: &Draft, sheet: &BathSheet) -> Slab {
    if !sheet.refusals.is_empty() {
        return Slab::default();
    }
    let (key, label, icon) = match (draft.cautions, draft.rehearsing) {
        (Reading::Unread, _) => ("open-cautions", "Read the cautions", Icon::Warn),
        (Reading::Open, _) => ("read-cautions", "Cautions read", Icon::Tick),
        (Reading::Done, false) => ("start", "START", Icon::Flame),
        (Reading::Done, true) => ("start", "REHEARSE", Icon::Rehearse),
    };
    Slab {
        key: key.into(),
        label: label.into(),
        detail: String::new(),
        icon,
        enabled: true,
        quiet: false,
    }
}

fn additions(sheet: &BathSheet, locale: Locale) -> Vec<Row> {
    let rows = sheet.plan.additions.iter().map(|addition| {
        let share = addition
            .percent_wof
            .map_or_else(String::new, |percent| format!("{percent} % WOF, "));
        Row {
            key: working_key(sheet, &format!("{}: {}", addition.letter.0, addition.name)),
            label: format!("{}  {}", addition.letter.0, addition.name),
            detail: format!("{share}{}", locale.ounces(addition.target)),
            value: locale.grams(addition.target),
            icon: Icon::Scale,
            chosen: false,
            enabled: true,
        }
    });
    rows.collect()
}

fn lines(sheet: &BathSheet, now: Moment, locale: Locale) -> Vec<Row> {
    let plan = &sheet.plan;
    let mut rows = vec![
        line(
            sheet,
            "bath",
            "bath",
            locale.litres(plan.bath),
            format!("{:.0} L/kg", plan.liquor_ratio.litres_per_kg()),
        ),
        line(
            sheet,
            if sheet.wishes.used.is_some() {
                "water to top up"
            } else {
                "water to fill"
            },
            if sheet.wishes.used.is_some() {
                "top up from the tap"
            } else {
                "fill from the tap"
            },
            locale.litres(sheet.fill),
            String::new(),
        ),
        line(
            sheet,
            "pot filled",
            "pot filled",
            format!("{:.0} %", sheet.fill_fraction * 100.0),
            String::new(),
        ),
        line(
            sheet,
            "boiling point",
            "boils here at",
            locale.degrees_fine(plan.boil),
            String::new(),
        ),
    ];
    if let Some((at, span)) = sheet.hold {
        rows.push(line(
            sheet,
            "come-up",
            "hold",
            format!("{} at {}", locale.span(span), locale.degrees(at)),
            String::new(),
        ));
        let come_up = sheet
            .come_up
            .map_or_else(|| "never".to_owned(), |it| locale.band(it));
        rows.push(line(sheet, "come-up", "come-up", come_up, String::new()));
    }
    if let Some(lost) = sheet.evaporation {
        let value = format!("{:.1} g/min", lost.still);
        rows.push(line(
            sheet,
            "evaporation",
            "steams off",
            value,
            format!("stirred {:.1}", lost.stirred),
        ));
    }
    if let Some(band) = sheet.cool.get(3).copied().flatten() {
        rows.push(line(
            sheet,
            "cool-down to 40",
            "cool to 40 \u{b0}C",
            locale.band(band),
            String::new(),
        ));
    }
    if let Some(last) = sheet
        .legs
        .iter()
        .rev()
        .find(|leg| leg.to > plan.room || leg.from > plan.room)
    {
        let at = now.plus(last.ends.likely);
        rows.push(line(
            sheet,
            "",
            "out of the pot about",
            locale.clock_from(at, now),
            String::new(),
        ));
    }
    for warning in &sheet.warnings {
        rows.push(Row {
            key: String::new(),
            label: warning.to_string(),
            detail: String::new(),
            value: String::new(),
            icon: Icon::Warn,
            chosen: false,
            enabled: false,
        });
    }
    rows
}

/// What the shelf hasn't enough of. A shelf without supplies says nothing: then nobody counts them there.
fn missing(sheet: &BathSheet, facts: &Facts<'_>) -> Vec<Row> {
    if facts.shelf.supplies().next().is_none() {
        return Vec::new();
    }
    let wants = wants_of([sheet]);
    shelf_misses(facts.shelf, &wants)
        .into_iter()
        .map(|missing| Row {
            key: String::new(),
            label: format!("{}, on the shelf", missing.want.name),
            detail: format!("{} needed", facts.locale.grams(missing.want.needs)),
            value: missing.there.to_string(),
            icon: Icon::Warn,
            chosen: false,
            enabled: false,
        })
        .collect()
}

fn line(sheet: &BathSheet, what: &str, label: &str, value: String, detail: String) -> Row {
    let key = working_key(sheet, what);
    let enabled = !key.is_empty();
    Row {
        key,
        label: label.into(),
        detail,
        value,
        icon: Icon::None,
        chosen: false,
        enabled,
    }
}

/// The key under which the working of a number is asked for; empty when there is none.
fn working_key(sheet: &BathSheet, what: &str) -> String {
    let found = sheet
        .workings
        .iter()
        .position(|working| !what.is_empty() && working.what.starts_with(what));
    found.map_or_else(String::new, |index| index.to_string())
}

fn cautions(draft: &Draft, sheet: &BathSheet) -> Vec<CautionLine> {
    let read = draft.cautions == Reading::Done;
    let line = |topic: &str, text: &String| CautionLine {
        topic: topic.to_owned(),
        text: text.clone(),
        read,
    };
    let cautions = &sheet.cautions;
    let wear = cautions.wear.iter().map(|text| line("wear", text));
    let here = cautions.of_this_bath.iter().map(|text| line("this bath", text));
    let work = cautions.at_work.iter().map(|text| line("at work", text));
    wear.chain(here).chain(work).collect()
}

/// The cautions and nothing else, so that they are read before they are tapped.
fn cautions_alone(draft: &Draft, sheet: &BathSheet) -> SheetScreen {
    SheetScreen {
        title: "Before you start".into(),
        note: sheet.plan.recipe_name.clone(),
        slab: slab(draft, sheet),
        footer: sheet.cautions.deferral.clone(),
        cautions: cautions(draft, sheet),
        ..SheetScreen::default()
    }
}

/// How one number came about.
pub(super) fn working_screen(working: &Working) -> WorkingScreen {
    let shown = |value: f64, unit: &str| sheet_text::exact(value, unit);
    WorkingScreen {
        title: working.what.clone(),
        result: shown(working.result.value, working.result.unit),
        formula: working.formula.into(),
        source: working.source.clone(),
        strength: String::new(),
        inputs: working
            .inputs
            .iter()
            .map(|(label, measured)| Fact {
                label: label.clone(),
                value: shown(measured.value, measured.unit),
            })
            .collect(),
    }
}
