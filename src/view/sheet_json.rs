//! A bath sheet as one JSON object, for programs. Numbers are exact and unrounded; units stand in the keys.

use serde_json::{Map, Value, json};

use crate::craft::quantity::Band;
use crate::craft::time::{Moment, Span};
use crate::sheet::plan::{Step, StepAct};
use crate::sheet::{BathSheet, COOL_MARKS, Leg};
use chrono::FixedOffset;

use super::act;
use super::words;

/// The whole sheet. `start` and `zone` give the clock times of the steps.
#[must_use]
pub fn json(sheet: &BathSheet, start: Moment, zone: FixedOffset) -> Value {
    let plan = &sheet.plan;
    let goods = &sheet.wishes.goods;
    json!({
        "recipe": plan.recipe_id,
        "recipe_name": plan.recipe_name,
        "fibre": goods.fibre.id(),
        "goods_g": goods.dry.grams(),
        "hanks": goods.hanks,
        "additions": additions(sheet),
        "water_l": plan.bath.litres(),
        "fill_l": sheet.fill.litres(),
        "carried_by_goods_l": sheet.carried.litres(),
        "liquor_ratio": plan.liquor_ratio.litres_per_kg(),
        "fill_fraction": sheet.fill_fraction,
        "level_cm": level(sheet),
        "boil_c": plan.boil.celsius(),
        "hold_c": sheet.hold.map(|(at, _)| at.celsius()),
        "hold_min": sheet.hold.map(|(_, span)| span.minutes()),
        "come_up_min": sheet.come_up.map(band),
        "cool_min": cool(&sheet.cool),
        "evaporation_g_per_min": sheet.evaporation.map(|lost| json!({"still": lost.still, "stirred": lost.stirred})),
        "hold_power_w": sheet.hold_power.map(|power| power.watts()),
        "top_up_g": sheet.top_up.map(|mass| mass.grams()),
        "steps": steps(sheet, start, zone),
        "cautions": plan.cautions,
        "warnings": sheet.warnings.iter().map(ToString::to_string).collect::<Vec<_>>(),
        "refusals": sheet.refusals.iter().map(ToString::to_string).collect::<Vec<_>>(),
        "workings": workings(sheet),
    })
}

/// A band in minutes.
#[must_use]
pub fn band(of: Band<Span>) -> Value {
    json!({"low": of.low.minutes(), "likely": of.likely.minutes(), "high": of.high.minutes()})
}

/// Cool-down bands by their marks; a mark that is never reached is null.
#[must_use]
pub fn cool(bands: &[Option<Band<Span>>; 5]) -> Value {
    let marks = COOL_MARKS.iter().zip(bands);
    Value::Object(
        marks
            .map(|(mark, to)| (format!("{mark:.0}"), to.map_or(Value::Null, band)))
            .collect::<Map<_, _>>(),
    )
}

fn additions(sheet: &BathSheet) -> Vec<Value> {
    let additions = sheet.plan.additions.iter();
    additions
        .map(|addition| {
            json!({
                "letter": addition.letter.0.to_string(),
                "substance": addition.ware_id,
                "name": addition.name,
                "grams": addition.target.grams(),
                "percent_wof": addition.percent_wof,
                "tolerance_g": addition.tolerance.grams(),
                "bagged": addition.bagged,
            })
        })
        .collect()
}

fn level(sheet: &BathSheet) -> Option<f64> {
    sheet.plan.steps.iter().find_map(|step| {
        if let StepAct::Fill { level, .. } = step.act {
            Some(level.centimetres())
        } else {
            None
        }
    })
}

fn steps(sheet: &BathSheet, start: Moment, zone: FixedOffset) -> Vec<Value> {
    sheet
        .plan
        .steps
        .iter()
        .zip(&sheet.legs)
        .map(|(step, leg)| one_step(sheet, step, leg, start, zone))
        .collect()
}

fn one_step(sheet: &BathSheet, step: &Step, leg: &Leg, start: Moment, zone: FixedOffset) -> Value {
    let prompt = act::prompt(&sheet.plan, step);
    let mut object = Map::new();
    object.insert("number".into(), json!(leg.step.0.saturating_add(1)));
    object.insert("do".into(), json!(step.act.kind().id()));
    object.insert("says".into(), json!(prompt.line()));
    object.insert("how".into(), json!(prompt.how));
    object.insert("caution".into(), json!(prompt.caution));
    object.insert(
        "clock".into(),
        json!(words::clock(start.plus(leg.begins.likely), zone)),
    );
    object.insert("begins_min".into(), band(leg.begins));
    object.insert("ends_min".into(), band(leg.ends));
    object.insert("from_c".into(), json!(leg.from.celsius()));
    object.insert("to_c".into(), json!(leg.to.celsius()));
    own_figures(&mut object, &step.act);
    Value::Object(object)
}

/// The figures that only this kind of step has.
fn own_figures(object: &mut Map<String, Value>, act: &StepAct) {
    let mut put = |key: &str, value: Value| {
        object.insert(key.to_owned(), value);
    };
    match act {
        StepAct::WetOut { least } => put("least_min", json!(least.minutes())),
        StepAct::Weigh { letter } => put("letter", json!(letter.0.to_string())),
        StepAct::Fill { water, level } => {
            put("water_l", json!(water.litres()));
            put("level_cm", json!(level.centimetres()));
        }
        StepAct::Dissolve { letters, cup } => {
            put(
                "letters",
                json!(
                    letters
                        .iter()
                        .map(|letter| letter.0.to_string())
                        .collect::<Vec<_>>()
                ),
            );
            put("cup_l", json!(cup.litres()));
        }
        StepAct::Add { letters } | StepAct::Strain { letters } => {
            put(
                "letters",
                json!(
                    letters
                        .iter()
                        .map(|letter| letter.0.to_string())
                        .collect::<Vec<_>>()
                ),
            );
        }
        StepAct::Enter { at_most } => put("at_most_c", json!(at_most.celsius())),
        StepAct::Raise { come_up, .. } => put("come_up_min", come_up.map_or(Value::Null, band)),
        StepAct::Hold {
            floor,
            ceiling,
            span,
            turn_every,
            ..
        } => {
            put("floor_c", json!(floor.celsius()));
            put("ceiling_c", json!(ceiling.celsius()));
            put("hold_min", json!(span.minutes()));
            put("turn_every_min", json!(turn_every.map(Span::minutes)));
        }
        StepAct::Cool {
            cool_down, lid_on, ..
        } => {
            put("cool_down_min", cool_down.map_or(Value::Null, band));
            put("lid_on", json!(lid_on));
        }
        StepAct::Rinse { times, until_clear } => {
            put("times", json!(times));
            put("until_clear", json!(until_clear));
        }
        StepAct::Air { span } | StepAct::Rest { span } => put("span_min", json!(span.minutes())),
        StepAct::Lift | StepAct::Squeeze | StepAct::Dry | StepAct::Shelve => {}
    }
}

fn workings(sheet: &BathSheet) -> Vec<Value> {
    let each = sheet.workings.iter().map(|working| {
        let inputs: Map<String, Value> = working
            .inputs
            .iter()
            .map(|(name, measured)| {
                (
                    name.clone(),
                    json!({"value": measured.value, "unit": measured.unit}),
                )
            })
            .collect();
        json!({
            "what": working.what,
            "inputs": inputs,
            "formula": working.formula,
            "result": {"value": working.result.value, "unit": working.result.unit},
            "source": working.source,
        })
    });
    each.collect()
}
