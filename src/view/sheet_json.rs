//! A bath sheet as one JSON object, for programs. Numbers are exact and unrounded; units stand in the keys.

use chrono::FixedOffset;
use serde_json::{Map, Value, json};

use crate::craft::basis::WeighedAs;
use crate::craft::quantity::{Band, Mass, Power};
use crate::craft::scale::Weighing;
use crate::craft::time::{Moment, Span};
use crate::recipe::model::Letter;
use crate::sheet::plan::{PlannedAddition, Step, StepAct};
use crate::sheet::{BathSheet, Beside, COOL_MARKS, Leg};

use super::act;
use super::again_words;
use super::locale::Locale;
use super::words;

/// The whole sheet. `start` and `zone` give the clock times of the steps.
#[must_use]
pub fn json(sheet: &BathSheet, start: Moment, zone: FixedOffset) -> Value {
    let plan = &sheet.plan;
    let goods = &plan.goods;
    let mut object = json!({
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
        "hold_power_w": sheet.hold_power.map(Power::watts),
        "top_up_g": sheet.top_up.map(Mass::grams),
        "steps": steps(sheet, start, zone),
        "cautions": plan.cautions,
        "warnings": sheet.warnings.iter().map(ToString::to_string).collect::<Vec<_>>(),
        "refusals": sheet.refusals.iter().map(ToString::to_string).collect::<Vec<_>>(),
        "workings": workings(sheet),
    });
    if let Value::Object(object) = &mut object {
        object.extend(more(sheet));
    }
    object
}

/// What a dyer asks after the first look.
fn more(sheet: &BathSheet) -> Map<String, Value> {
    let more = json!({
        "basis": sheet.basis.map(|basis| json!({
            "weighed_as": weighed_as(basis.weighed_as),
            "as_weighed_g": basis.as_weighed.grams(),
            "counts_g": masses(basis.air_dry),
            "says": basis.to_string(),
        })),
        "acidity": sheet.acidity.as_ref().map(|acidity| json!({
            "ph": acidity.ph.map(numbers),
            "gas_l": acidity.gas_litres,
            "fizzes": acidity.fizzes,
            "not_counted": acidity.not_counted.iter().map(|substance| substance.id()).collect::<Vec<_>>(),
        })),
        "entering": sheet.entering.map(|entering| json!({
            "from_c": entering.from.celsius(),
            "drops_to_c": entering.drops_to.celsius(),
            "recovery_min": entering.recovery.map(band),
        })),
        "slow_raises": sheet.slow_raises.iter().map(|raise| json!({
            "step": raise.step.0.saturating_add(1),
            "ramp_c_per_min": raise.ramp.kelvin_per_minute(),
            "setting": {"start": raise.setting.start, "end": raise.setting.end},
        })).collect::<Vec<_>>(),
        "hold_setting": sheet.hold_setting.map(numbers),
        "drift_c_per_min": sheet.drift,
        "top_up_after_min": sheet.top_up_after.map(Span::minutes),
        "used": sheet.wishes.used.as_ref().map(|used| json!({
            "record": used.record,
            "dip": used.dip.saturating_add(1),
            "left_l": used.left.litres(),
            "part": used.part,
        })),
        "next_baths": sheet.next_baths.iter().map(|next| json!({
            "custom": next.custom.about,
            "source": next.custom.source,
            "additions": next.doses.iter().map(|(letter, least, most)| json!({
                "letter": letter.0.to_string(),
                "grams": {"least": least.grams(), "most": most.grams()},
            })).collect::<Vec<_>>(),
        })).collect::<Vec<_>>(),
        "again": sheet.recipe.again.as_ref().map(|again| json!({
            "dips": again.dips.chosen,
            "dips_range": again.dips.range.map(|(low, high)| json!([low, high])),
            "add": again.add.as_ref().map(|add| add.chosen),
            "how": again.how,
            "source": sheet.recipe.source_of(&again.dips).map(|source| source.text.clone()),
            "additions": again_words::doses(sheet, again).into_iter().map(|(letter, grams)| json!({
                "letter": letter.0.to_string(),
                "grams": grams.grams(),
            })).collect::<Vec<_>>(),
        })),
        "caution_groups": {
            "wear": sheet.cautions.wear,
            "of_this_bath": sheet.cautions.of_this_bath,
            "at_work": sheet.cautions.at_work,
            "deferral": sheet.cautions.deferral,
        },
    });
    match more {
        Value::Object(more) => more,
        Value::Null | Value::Bool(_) | Value::Number(_) | Value::String(_) | Value::Array(_) => Map::new(),
    }
}

const fn weighed_as(state: WeighedAs) -> &'static str {
    match state {
        WeighedAs::AirDry => "air-dry",
        WeighedAs::OvenDry => "oven-dry",
        WeighedAs::Damp { .. } => "damp",
        WeighedAs::Spun => "spun",
        WeighedAs::InTheGrease { .. } => "in-the-grease",
    }
}

fn numbers(of: Band<f64>) -> Value {
    json!({"low": of.low, "likely": of.likely, "high": of.high})
}

fn masses(of: Band<Mass>) -> Value {
    numbers(of.map(Mass::grams))
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
    let additions = sheet.plan.additions.iter().zip(&sheet.beside);
    additions
        .map(|(addition, beside)| one_addition(addition, beside))
        .collect()
}

fn one_addition(addition: &PlannedAddition, beside: &Beside) -> Value {
    let (weighed, dial, stock) = match beside.weighing {
        Weighing::Well { dial, .. } => ("well", Some(dial), None),
        Weighing::Coarsely { dial, stock, .. } => ("coarsely", Some(dial), stock),
        Weighing::TooLittle { stock, .. } => ("too-little", None, stock),
    };
    let (spoons, refused) = match &beside.spoons {
        Some(Ok(spoons)) => (Some(spoons), None),
        Some(Err(refused)) => (None, Some(refused.to_string())),
        None => (None, None),
    };
    json!({
        "letter": addition.letter.0.to_string(),
        "substance": addition.ware_id,
        "name": addition.name,
        "grams": addition.target.grams(),
        "percent_wof": addition.percent_wof,
        "tolerance_g": addition.tolerance.grams(),
        "bagged": addition.bagged,
        "weighed": weighed,
        "dial_g": dial.map(Mass::grams),
        "stock": stock.map(|stock| json!({
            "percent": stock.percent,
            "weigh_g": stock.weigh.grams(),
            "make_up_to_ml": stock.make_up_to.litres() * 1_000.0,
            "measure_ml": stock.measure.litres() * 1_000.0,
        })),
        "spoons_rough": spoons.map(|spoons| json!({
            "spoon": spoons.unit.name(),
            "low": spoons.count.low,
            "likely": spoons.count.likely,
            "high": spoons.count.high,
        })),
        "no_spoons": refused,
        "recipe_salt": beside.exchange.as_ref().map(|exchange| json!({
            "substance": exchange.recipe_salt.id(),
            "grams": exchange.recipe_amount.grams(),
            "equal_in": exchange.equal_in.name(),
            "differences": exchange.differences.iter().map(|one| one.text()).collect::<Vec<_>>(),
        })),
    })
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
    let prompt = act::prompt(&sheet.plan, step, Locale::plain(zone));
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
            put("letters", letter_list(letters));
            put("cup_l", json!(cup.litres()));
        }
        StepAct::Add { letters } | StepAct::Strain { letters } => {
            put("letters", letter_list(letters));
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
        StepAct::Look { sign, after, again } => {
            put("sign", json!(sign));
            put("span_min", json!(after.minutes()));
            put("again_min", json!(again.minutes()));
        }
        StepAct::Dip { number, of, under } => {
            put("dip", json!(number));
            put("dips", json!(of));
            put("span_min", json!(under.minutes()));
        }
        StepAct::Lift | StepAct::Squeeze | StepAct::Dry | StepAct::Shelve => {}
    }
}

fn letter_list(letters: &[Letter]) -> Value {
    letters.iter().map(|letter| letter.0.to_string()).collect()
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
