//! The bath sheet on the glass, and the working of one of its numbers.

use crate::craft::measures::KitchenUnit;
use crate::craft::quantity::{LiquorRatio, Temperature};
use crate::craft::time::Moment;
use crate::say;
use crate::sheet::{BathSheet, Working};
use crate::shelf::{Milligrams, missing as shelf_misses, wants_of};
use crate::view::locale::{Locale, Volumes, Weights};
use crate::view::screen::{Beside, CautionLine, Fact, Icon, Row, SheetScreen, Slab, WorkingScreen};
use crate::view::{curve, sheet_text};

use super::draft::{Draft, Reading};
use super::goods_page::with_the_other_weights;
use super::page::Facts;
use super::vessel_words;
use super::ways_out;

/// The sheet as a screen.
pub(super) fn screen(draft: &Draft, sheet: &BathSheet, beside: Beside, facts: &Facts<'_>) -> SheetScreen {
    let (now, locale) = (facts.now, facts.locale);
    if draft.cautions == Reading::Open {
        return cautions_alone(draft, sheet, locale);
    }
    let (curve, lists) = curve::of_sheet(sheet, now, locale);
    let plan = &sheet.plan;
    SheetScreen {
        title: locale.read(&plan.recipe_name),
        note: note(sheet, locale),
        refusal: sheet
            .refusals
            .first()
            .map_or_else(String::new, |refusal| locale.read(&refusal.to_string())),
        slab: slab(draft, sheet, locale),
        curve,
        footer: locale.read(&sheet.cautions.deferral),
        additions: additions(sheet, facts.locale),
        remarks: missing(sheet, facts)
            .into_iter()
            .chain(warnings(sheet, locale))
            .collect(),
        lines: lines(sheet, now, locale),
        cautions: cautions(draft, sheet, locale),
        ways_out: ways_out::rows(sheet, facts.locale),
        lists,
        beside: Box::new(beside),
    }
}

/// The goods, the pot, the burner.
fn note(sheet: &BathSheet, locale: Locale) -> String {
    let plan = &sheet.plan;
    let weight = locale.goods_weight(plan.goods.dry);
    let fibre = locale.read(plan.goods.fibre.name());
    let pot = locale.litres(plan.pot.capacity);
    let burner = vessel_words::burner(plan.burner.kind, locale);
    if plan.goods.hanks > 1 {
        say!(
            locale,
            "{weight} of {fibre}, {hanks} hanks, in {pot} on {burner}",
            weight = weight,
            fibre = fibre,
            hanks = plan.goods.hanks,
            pot = pot,
            burner = burner
        )
    } else {
        say!(
            locale,
            "{weight} of {fibre}, in {pot} on {burner}",
            weight = weight,
            fibre = fibre,
            pot = pot,
            burner = burner
        )
    }
}

/// First the cautions are read, then the bath starts. A refused bath has no slab.
fn slab(draft: &Draft, sheet: &BathSheet, locale: Locale) -> Slab {
    if !sheet.refusals.is_empty() {
        return Slab::default();
    }
    let (key, label, icon) = match (draft.cautions, draft.rehearsing) {
        (Reading::Unread, _) => ("open-cautions", say!(locale, "Read the cautions"), Icon::Warn),
        (Reading::Open, _) => ("read-cautions", say!(locale, "Cautions read"), Icon::Tick),
        (Reading::Done, false) => ("start", say!(locale, "BEGIN"), Icon::Flame),
        (Reading::Done, true) => ("start", say!(locale, "REHEARSE"), Icon::Rehearse),
    };
    Slab {
        key: key.into(),
        label,
        detail: String::new(),
        icon,
        enabled: true,
        quiet: false,
    }
}

fn additions(sheet: &BathSheet, locale: Locale) -> Vec<Row> {
    let rows = sheet.plan.additions.iter().map(|addition| {
        let beside = with_the_other_weights(locale).grams(addition.target);
        Row {
            key: working_key(sheet, &format!("{}: {}", addition.letter.0, addition.name)),
            label: format!("{}  {}", addition.letter.0, locale.read(&addition.name)),
            detail: match addition.percent_wof {
                Some(percent) => say!(
                    locale,
                    "{percent} % WOF, {weight}",
                    percent = locale.pointed(&percent.to_string()),
                    weight = beside
                ),
                None => beside,
            },
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
            say!(locale, "bath"),
            locale.litres(plan.bath),
            ratio(plan.liquor_ratio, locale),
        ),
        line(
            sheet,
            if sheet.wishes.used.is_some() {
                "water to top up"
            } else {
                "water to fill"
            },
            if sheet.wishes.used.is_some() {
                say!(locale, "top up from the tap")
            } else {
                say!(locale, "fill from the tap")
            },
            locale.litres(sheet.fill),
            String::new(),
        ),
        line(
            sheet,
            "pot filled",
            say!(locale, "pot filled"),
            locale.percent(&format!("{:.0}", sheet.fill_fraction * 100.0)),
            String::new(),
        ),
        line(
            sheet,
            "boiling point",
            say!(locale, "boils here at"),
            locale.degrees_fine(plan.boil),
            String::new(),
        ),
    ];
    if let Some((at, span)) = sheet.hold {
        rows.push(line(
            sheet,
            "come-up",
            say!(locale, "hold"),
            say!(
                locale,
                "{span} at {degrees}",
                span = locale.span(span),
                degrees = locale.degrees(at)
            ),
            String::new(),
        ));
        let come_up = sheet
            .come_up
            .map_or_else(|| say!(locale, "never"), |it| locale.band(it));
        rows.push(line(
            sheet,
            "come-up",
            say!(locale, "come-up"),
            come_up,
            String::new(),
        ));
    }
    if let Some(lost) = sheet.evaporation {
        rows.push(line(
            sheet,
            "evaporation",
            say!(locale, "steams off"),
            a_minute(lost.still, locale),
            say!(locale, "stirred {lost}", lost = lost_number(lost.stirred, locale)),
        ));
    }
    if let Some(band) = sheet.cool.get(3).copied().flatten() {
        rows.push(line(
            sheet,
            "cool-down to 40",
            say!(
                locale,
                "cool to {degrees}",
                degrees = locale.degrees(Temperature::saturating_celsius(40.0))
            ),
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
            say!(locale, "out of the pot about"),
            locale.clock_from(at, now),
            String::new(),
        ));
    }
    rows
}

fn warnings(sheet: &BathSheet, locale: Locale) -> impl Iterator<Item = Row> + use<'_> {
    sheet.warnings.iter().map(move |warning| Row {
        key: String::new(),
        label: locale.read(&warning.to_string()),
        detail: String::new(),
        value: String::new(),
        icon: Icon::Warn,
        chosen: false,
        enabled: false,
    })
}

/// Bath per dry goods.
fn ratio(ratio: LiquorRatio, locale: Locale) -> String {
    // Litres of a gallon over kilograms of a pound.
    let per_pound = |gallon: KitchenUnit| {
        let unit = gallon.si() / KitchenUnit::Pound.si();
        format!("{} gal/lb", locale.decimal(ratio.litres_per_kg() / unit, 1))
    };
    match locale.habits.volumes {
        Volumes::Litres => format!("{} L/kg", locale.decimal(ratio.litres_per_kg(), 0)),
        Volumes::UsGallons => per_pound(KitchenUnit::UsGallon),
        Volumes::ImperialGallons => per_pound(KitchenUnit::ImperialGallon),
    }
}

/// Water that steams off in a minute.
fn a_minute(grams: f64, locale: Locale) -> String {
    let number = lost_number(grams, locale);
    match locale.habits.weights {
        Weights::Grams => format!("{number} g/min"),
        Weights::Ounces => format!("{number} oz/min"),
    }
}

fn lost_number(grams: f64, locale: Locale) -> String {
    match locale.habits.weights {
        Weights::Grams => locale.decimal(grams, 1),
        Weights::Ounces => locale.decimal(grams / KitchenUnit::Ounce.si(), 2),
    }
}

/// What the shelf hasn't enough of. A shelf without supplies says nothing: then nobody counts them there.
fn missing(sheet: &BathSheet, facts: &Facts<'_>) -> Vec<Row> {
    if facts.shelf.supplies().next().is_none() {
        return Vec::new();
    }
    let locale = facts.locale;
    let wants = wants_of([sheet]);
    shelf_misses(facts.shelf, &wants)
        .into_iter()
        .map(|missing| Row {
            key: String::new(),
            label: say!(
                locale,
                "{ware}, on the shelf",
                ware = locale.read(&missing.want.name)
            ),
            detail: say!(
                locale,
                "{amount} needed",
                amount = locale.grams(missing.want.needs)
            ),
            value: counted(missing.there, locale),
            icon: Icon::Warn,
            chosen: false,
            enabled: false,
        })
        .collect()
}

/// A weight of the shelf, to the milligram where it is known so.
fn counted(weight: Milligrams, locale: Locale) -> String {
    match locale.habits.weights {
        Weights::Grams => locale.pointed(&weight.to_string()),
        Weights::Ounces => locale.ounces(weight.mass()),
    }
}

fn line(sheet: &BathSheet, what: &str, label: String, value: String, detail: String) -> Row {
    let key = working_key(sheet, what);
    let enabled = !key.is_empty();
    Row {
        key,
        label,
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

fn cautions(draft: &Draft, sheet: &BathSheet, locale: Locale) -> Vec<CautionLine> {
    let read = draft.cautions == Reading::Done;
    let line = |topic: String, text: &String| CautionLine {
        topic,
        text: locale.read(text),
        read,
    };
    let cautions = &sheet.cautions;
    let wear = cautions.wear.iter().map(|text| line(say!(locale, "wear"), text));
    let here = cautions
        .of_this_bath
        .iter()
        .map(|text| line(say!(locale, "this bath"), text));
    let work = cautions
        .at_work
        .iter()
        .map(|text| line(say!(locale, "at work"), text));
    wear.chain(here).chain(work).collect()
}

/// The cautions and nothing else, so that they are read before they are tapped.
fn cautions_alone(draft: &Draft, sheet: &BathSheet, locale: Locale) -> SheetScreen {
    SheetScreen {
        title: say!(locale, "Before you begin"),
        note: locale.read(&sheet.plan.recipe_name),
        slab: slab(draft, sheet, locale),
        footer: locale.read(&sheet.cautions.deferral),
        cautions: cautions(draft, sheet, locale),
        ..SheetScreen::default()
    }
}

/// How one number came about, in the units of its formula.
pub(super) fn working_screen(working: &Working, locale: Locale) -> WorkingScreen {
    let shown = |value: f64, unit: &str| {
        let number = locale.pointed(&sheet_text::exact(value, ""));
        match unit {
            "" => number,
            unit => format!("{number} {unit}"),
        }
    };
    WorkingScreen {
        title: locale.read(&working.what),
        result: shown(working.result.value, working.result.unit),
        formula: locale.read(working.formula),
        source: locale.read(&working.source),
        strength: String::new(),
        inputs: working
            .inputs
            .iter()
            .map(|(label, measured)| Fact {
                label: locale.read(label),
                value: shown(measured.value, measured.unit),
            })
            .collect(),
    }
}
