//! The steps of a recipe, one by one. Whether their order makes sense is asked in [`super::order`].

use super::additions::letter;
use super::fault::{Choice, Wrong};
use super::figure::{Keys, figure, figure_if_given};
use super::model::{Act, Letter, RecipeStep};
use super::nearest::near;
use super::raw::{NAME_CHARACTERS_MOST, Page, Table};
use super::read::LINE_CHARACTERS_MOST;
use super::sources::Sources;
use super::words::ActKind;
use crate::craft::quantity::Temperature;

const STEPS_MOST: usize = 200;
const LETTERS_MOST: usize = 26;
const TIMES_MOST: u32 = 20;
/// A sign is read from where the dyer stands, as the object of an act.
const SIGN_CHARACTERS_MOST: usize = 40;

/// Something read and the byte where it stands.
#[derive(Debug, Clone, Copy)]
pub(super) struct Placed<T> {
    pub(super) at: usize,
    pub(super) value: T,
}

/// What the order of steps needs to know of a step, even when the rest of it is faulty.
pub(super) struct Sketch {
    pub(super) at: usize,
    pub(super) kind: ActKind,
    pub(super) letters: Vec<Placed<Letter>>,
    /// What the bath is raised or cooled to, or may have at most when goods enter.
    pub(super) heat: Option<Temperature>,
    pub(super) floor: Option<Placed<Temperature>>,
    pub(super) ceiling: Option<Placed<Temperature>>,
}

/// The steps, and their sketches.
pub(super) struct Steps {
    pub(super) whole: Vec<RecipeStep>,
    pub(super) sketches: Vec<Sketch>,
    /// False when a step could not be recognised at all, so that the order can't be judged.
    pub(super) all_recognised: bool,
}

pub(super) fn read(page: &mut Page<'_>, root: Table<'_>, sources: &mut Sources<'_>) -> Steps {
    let tables = root.tables(page, "step", "the step", STEPS_MOST);
    let mut steps = Steps {
        whole: Vec::with_capacity(tables.len()),
        sketches: Vec::new(),
        all_recognised: true,
    };
    if tables.is_empty() && !root.has("step") {
        root.miss::<()>(page, "step");
        steps.all_recognised = false;
    }
    for table in tables {
        let how = table
            .text_if_given(page, "how", LINE_CHARACTERS_MOST)
            .map(|line| line.text.to_owned());
        let caution = table
            .text_if_given(page, "caution", LINE_CHARACTERS_MOST)
            .map(|line| line.text.to_owned());
        let Some((at, kind)) = read_kind(page, table) else {
            steps.all_recognised = false;
            continue;
        };
        let mut sketch = Sketch {
            at,
            kind,
            letters: Vec::new(),
            heat: None,
            floor: None,
            ceiling: None,
        };
        let act = read_act(page, table, &mut sketch, sources);
        steps.sketches.push(sketch);
        if let Some(act) = act {
            steps.whole.push(RecipeStep { act, how, caution });
        }
    }
    steps
}

/// The kind of a step. A misspelt one is noted and read on as the nearest, so that its other faults show too.
fn read_kind(page: &mut Page<'_>, table: Table<'_>) -> Option<(usize, ActKind)> {
    let text = table.text(page, "do", NAME_CHARACTERS_MOST)?;
    if let Some(kind) = ActKind::from_id(text.text) {
        return Some((text.at, kind));
    }
    let near = near(text.text, ActKind::ALL.into_iter().map(ActKind::id));
    let kind = near.first().and_then(|id| ActKind::from_id(id));
    let wrong = Wrong::ChoiceUnknown {
        choice: Choice::Step,
        word: text.text.to_owned(),
        near,
    };
    page.note(text.at, wrong);
    Some((text.at, kind?))
}

fn read_act(
    page: &mut Page<'_>,
    table: Table<'_>,
    sketch: &mut Sketch,
    sources: &mut Sources<'_>,
) -> Option<Act> {
    table.allow_only(page, keys_of(sketch.kind));
    match sketch.kind {
        ActKind::WetOut => Some(Act::WetOut {
            least: figure(page, table, LEAST, sources)?,
        }),
        ActKind::Fill => Some(Act::Fill),
        ActKind::Dissolve => Some(Act::Dissolve {
            letters: read_letters(page, table, sketch)?,
        }),
        ActKind::Add => Some(Act::Add {
            letters: read_letters(page, table, sketch)?,
        }),
        ActKind::Strain => Some(Act::Strain {
            letters: read_letters(page, table, sketch)?,
        }),
        ActKind::Enter => {
            let at_most = figure(page, table, AT_MOST, sources);
            sketch.heat = at_most.as_ref().map(|figure| figure.chosen);
            Some(Act::Enter { at_most: at_most? })
        }
        ActKind::Raise => {
            let to = figure(page, table, TO, sources);
            let is_ramp_given = table.has(RAMP.chosen);
            let ramp = figure_if_given(page, table, RAMP, sources);
            sketch.heat = to.as_ref().map(|figure| figure.chosen);
            if is_ramp_given && ramp.is_none() {
                return None;
            }
            Some(Act::Raise { to: to?, ramp })
        }
        ActKind::Hold => read_hold(page, table, sketch, sources),
        ActKind::Cool => {
            let to = figure(page, table, TO, sources);
            let lid_on = table.yes(page, "lid_on");
            sketch.heat = to.as_ref().map(|figure| figure.chosen);
            Some(Act::Cool {
                to: to?,
                lid_on: lid_on?,
            })
        }
        ActKind::Look => {
            let sign = table.text(page, "sign", SIGN_CHARACTERS_MOST);
            let after = figure(page, table, AFTER, sources);
            let again = figure(page, table, AGAIN, sources);
            Some(Act::Look {
                sign: sign?.text.to_owned(),
                after: after?,
                again: again?,
            })
        }
        ActKind::Dip => read_dip(page, table, sketch, sources),
        ActKind::Lift => Some(Act::Lift),
        ActKind::Squeeze => Some(Act::Squeeze),
        ActKind::Rinse => read_rinse(page, table),
        ActKind::Air => Some(Act::Air {
            span: figure(page, table, SPAN, sources)?,
        }),
        ActKind::Rest => Some(Act::Rest {
            span: figure(page, table, SPAN, sources)?,
        }),
        ActKind::Dry => Some(Act::Dry),
        ActKind::Shelve => Some(Act::Shelve),
    }
}

fn read_hold(
    page: &mut Page<'_>,
    table: Table<'_>,
    sketch: &mut Sketch,
    sources: &mut Sources<'_>,
) -> Option<Act> {
    let span = figure(page, table, SPAN, sources);
    let floor = figure(page, table, FLOOR, sources);
    let ceiling = figure(page, table, CEILING, sources);
    let is_turn_given = table.has(TURN_EVERY.chosen);
    let turn_every = figure_if_given(page, table, TURN_EVERY, sources);

    sketch.floor = floor.as_ref().map(|figure| Placed {
        at: table.place_of("floor"),
        value: figure.chosen,
    });
    sketch.ceiling = ceiling.as_ref().map(|figure| Placed {
        at: table.place_of("ceiling"),
        value: figure.chosen,
    });
    if is_turn_given && turn_every.is_none() {
        return None;
    }
    Some(Act::Hold {
        span: span?,
        floor: floor?,
        ceiling: ceiling?,
        turn_every,
    })
}

fn read_dip(
    page: &mut Page<'_>,
    table: Table<'_>,
    sketch: &mut Sketch,
    sources: &mut Sources<'_>,
) -> Option<Act> {
    let times = read_times(page, table);
    let at_most = figure(page, table, AT_MOST, sources);
    let under = figure(page, table, UNDER, sources);
    let air = figure(page, table, AIR, sources);
    sketch.heat = at_most.as_ref().map(|figure| figure.chosen);
    Some(Act::Dip {
        times: times?,
        at_most: at_most?,
        under: under?,
        air: air?,
    })
}

fn read_rinse(page: &mut Page<'_>, table: Table<'_>) -> Option<Act> {
    let until_clear = table.yes(page, "until_clear");
    let times = read_times(page, table);
    Some(Act::Rinse {
        times: times?,
        until_clear: until_clear?,
    })
}

/// How often: a whole number from one.
fn read_times(page: &mut Page<'_>, table: Table<'_>) -> Option<u32> {
    let Some(value) = table.get("times") else {
        return table.miss(page, "times");
    };
    let at = value.span().start;
    let Some(integer) = value.get_ref().as_integer() else {
        page.note(at, super::raw::wrong_type("times", "a whole number", value));
        return None;
    };
    let times = integer
        .as_str()
        .parse::<u32>()
        .ok()
        .filter(|_| integer.radix() == 10);
    match times {
        Some(0) => {
            page.note(at, Wrong::NotAboveZero { key: "times" });
            None
        }
        Some(times) if times <= TIMES_MOST => Some(times),
        Some(_) | None => {
            page.note(at, Wrong::TimesOutOfRange { most: TIMES_MOST });
            None
        }
    }
}

fn read_letters(page: &mut Page<'_>, table: Table<'_>, sketch: &mut Sketch) -> Option<Vec<Letter>> {
    let Some(texts) = table.texts(page, "letters", LETTERS_MOST, NAME_CHARACTERS_MOST) else {
        return if table.has("letters") {
            None
        } else {
            table.miss(page, "letters")
        };
    };
    if table.is_empty_list("letters") {
        page.note(table.place_of("letters"), Wrong::Empty { key: "letters" });
    }
    for text in texts {
        if let Some(letter) = letter(page, text) {
            sketch.letters.push(Placed {
                at: text.at,
                value: letter,
            });
        }
    }
    Some(sketch.letters.iter().map(|placed| placed.value).collect())
}

const fn keys(chosen: &'static str, range: &'static str, source: &'static str) -> Keys {
    Keys {
        chosen,
        range,
        sources: [source, "source"],
    }
}

const LEAST: Keys = keys("least", "least_range", "least_source");
const AT_MOST: Keys = keys("at_most", "at_most_range", "at_most_source");
const TO: Keys = keys("to", "to_range", "to_source");
const RAMP: Keys = keys("ramp", "ramp_range", "ramp_source");
const SPAN: Keys = keys("span", "span_range", "span_source");
const AFTER: Keys = keys("after", "after_range", "after_source");
const AGAIN: Keys = keys("again", "again_range", "again_source");
const UNDER: Keys = keys("under", "under_range", "under_source");
const AIR: Keys = keys("air", "air_range", "air_source");
const FLOOR: Keys = keys("floor", "floor_range", "floor_source");
const CEILING: Keys = keys("ceiling", "ceiling_range", "ceiling_source");
const TURN_EVERY: Keys = keys("turn_every", "turn_every_range", "turn_every_source");

/// The keys a step may have.
const fn keys_of(kind: ActKind) -> &'static [&'static str] {
    match kind {
        ActKind::WetOut => &[
            "do",
            "how",
            "caution",
            "source",
            "least",
            "least_range",
            "least_source",
        ],
        ActKind::Enter => &[
            "do",
            "how",
            "caution",
            "source",
            "at_most",
            "at_most_range",
            "at_most_source",
        ],
        ActKind::Raise => &[
            "do",
            "how",
            "caution",
            "source",
            "to",
            "to_range",
            "to_source",
            "ramp",
            "ramp_range",
            "ramp_source",
        ],
        ActKind::Hold => &[
            "do",
            "how",
            "caution",
            "source",
            "span",
            "span_range",
            "span_source",
            "floor",
            "floor_range",
            "floor_source",
            "ceiling",
            "ceiling_range",
            "ceiling_source",
            "turn_every",
            "turn_every_range",
            "turn_every_source",
        ],
        ActKind::Look => &[
            "do",
            "how",
            "caution",
            "source",
            "sign",
            "after",
            "after_range",
            "after_source",
            "again",
            "again_range",
            "again_source",
        ],
        ActKind::Dip => &[
            "do",
            "how",
            "caution",
            "source",
            "times",
            "at_most",
            "at_most_range",
            "at_most_source",
            "under",
            "under_range",
            "under_source",
            "air",
            "air_range",
            "air_source",
        ],
        ActKind::Cool => &[
            "do",
            "how",
            "caution",
            "source",
            "to",
            "to_range",
            "to_source",
            "lid_on",
        ],
        ActKind::Air | ActKind::Rest => &[
            "do",
            "how",
            "caution",
            "source",
            "span",
            "span_range",
            "span_source",
        ],
        ActKind::Dissolve | ActKind::Add | ActKind::Strain => &["do", "how", "caution", "letters"],
        ActKind::Rinse => &["do", "how", "caution", "times", "until_clear"],
        ActKind::Fill | ActKind::Lift | ActKind::Squeeze | ActKind::Dry | ActKind::Shelve => {
            &["do", "how", "caution"]
        }
    }
}
