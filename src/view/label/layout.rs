//! Where everything stands on a label, and the labels on their sheets. Millimetres from the top left corner.

use crate::say;
use crate::view::locale::Locale;

use super::grid::{Paper, PaperSize};
use super::qr::Code;
use super::words::LabelWords;
use crate::view::letters::cut;

/// A sheet to print.
#[derive(Debug, Clone, PartialEq)]
pub struct Drawing {
    /// Width.
    pub width: f64,
    /// Height.
    pub height: f64,
    /// What is on it.
    pub marks: Vec<Mark>,
}

/// Something on a sheet.
#[derive(Debug, Clone, PartialEq)]
#[expect(missing_docs, reason = "places and sizes in millimetres")]
pub enum Mark {
    /// A filled square of a code.
    Dark { x: f64, y: f64, side: f64 },
    /// A ring to be punched out.
    Hole { x: f64, y: f64, radius: f64 },
    /// A line to cut along.
    Cut { x: f64, y: f64, width: f64, height: f64 },
    /// A text on its baseline.
    Text {
        x: f64,
        baseline: f64,
        size: f64,
        is_bold: bool,
        text: String,
    },
}

/// Labels that can't be laid out so.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum NoRoom {
    /// The first free place is beyond the sheet.
    #[error("the sheet has {count} labels; the first free one is 1 to {count}, not {first}")]
    FirstBeyond {
        /// Labels on the sheet.
        count: u32,
        /// What was asked.
        first: u32,
    },
    /// More than a dyer prints in a year.
    #[error("{labels} labels at once are more than {most}; print fewer lots at a time")]
    TooMany {
        /// How many were asked for.
        labels: usize,
        /// The most.
        most: usize,
    },
}

/// So many labels at once.
const LABELS_MOST: usize = 1_000;
/// Free space inside a label's edge: sheets are never fed quite straight, and few printers reach the paper's edge.
const EDGE: f64 = 3.0;
/// Between code and text.
const GAP: f64 = 1.5;
/// A code is at most so wide, so that the words have room.
const CODE_MOST: f64 = 22.0;
/// Size of the small text: about 7 points, readable at arm's length.
const SMALL: f64 = 2.5;
/// From one line of small text to the next.
const LINE: f64 = 3.1;
/// Size of the tag's letters.
const TAG: f64 = 5.0;
/// The part of a size that letters reach below the baseline.
const BELOW: f64 = 0.25;

/// The sheets of some labels, the first one at place `first`, counted from 1: a sheet begun earlier can be used up.
///
/// # Errors
/// When that place isn't on the sheet, or there are far too many.
pub fn sheets(size: PaperSize, first: u32, labels: &[LabelWords]) -> Result<Vec<Drawing>, NoRoom> {
    let paper = size.paper();
    let count = paper.count();
    if !(1..=count).contains(&first) {
        return Err(NoRoom::FirstBeyond { count, first });
    }
    if labels.len() > LABELS_MOST {
        return Err(NoRoom::TooMany {
            labels: labels.len(),
            most: LABELS_MOST,
        });
    }
    let mut sheets: Vec<Drawing> = Vec::new();
    let mut place = first.saturating_sub(1);
    let mut marks = Vec::new();
    for label in labels {
        if place >= count {
            sheets.push(sheet(&paper, std::mem::take(&mut marks)));
            place = 0;
        }
        marks.extend(one(&paper, paper.corner(place), label));
        place = place.saturating_add(1);
    }
    sheets.push(sheet(&paper, marks));
    Ok(sheets)
}

const fn sheet(paper: &Paper, marks: Vec<Mark>) -> Drawing {
    Drawing {
        width: paper.sheet.0,
        height: paper.sheet.1,
        marks,
    }
}

fn one(paper: &Paper, (left, top): (f64, f64), label: &LabelWords) -> Vec<Mark> {
    let (width, height) = paper.label;
    let mut marks = Vec::new();
    let mut x = left + EDGE;
    if let Some(hole) = paper.hole {
        marks.push(Mark::Cut {
            x: left,
            y: top,
            width,
            height,
        });
        marks.push(Mark::Hole {
            x: x + hole / 2.0,
            y: top + height / 2.0,
            radius: hole / 2.0,
        });
        x += hole + GAP;
    }
    let side = (height - 2.0 * EDGE).min(CODE_MOST);
    if let Some(code) = Code::that_fits(&label.lot, &label.records, side) {
        let module = code.module_mm(side);
        let y = top + (height - side) / 2.0;
        marks.extend(code.dark().map(|(column, row)| Mark::Dark {
            x: x + f64::from(column) * module,
            y: y + f64::from(row) * module,
            side: module,
        }));
        x += side + GAP;
    }
    let room = left + width - EDGE - x;
    let bottom = top + height - EDGE - SMALL * BELOW;
    let mut baseline = top + EDGE + TAG * 0.9;
    let mut text = |baseline, size, is_bold, text: &str| {
        marks.push(Mark::Text {
            x,
            baseline,
            size,
            is_bold,
            text: cut(text, size, is_bold, room),
        });
    };
    text(baseline, TAG, true, &label.lot);
    for (line, is_bold) in lines(label, fit(bottom - baseline)) {
        baseline += LINE;
        text(baseline, SMALL, is_bold, &line);
    }
    marks
}

/// So many lines of small text.
fn fit(room: f64) -> usize {
    let mut lines = 0_usize;
    let mut used = LINE;
    while used <= room {
        lines = lines.saturating_add(1);
        used += LINE;
    }
    lines
}

/// The lines below the tag, at most so many: name, goods, what it had, what to mind, the newest record. Where there
/// isn't room for all, the record goes first, since the code has it; then what was had longest ago.
fn lines(label: &LabelWords, most: usize) -> Vec<(String, bool)> {
    const PAST_LEAST: usize = 1;

    let mut head = vec![(label.name.clone(), true), (label.goods.clone(), false)];
    head.truncate(most);
    let mut tail: Vec<(String, bool)> = label.mind.iter().map(|mind| (mind.clone(), true)).collect();
    tail.extend(label.records.last().map(|record| (record.clone(), false)));
    tail.truncate(most.saturating_sub(head.len()).saturating_sub(PAST_LEAST));
    let for_past = most.saturating_sub(head.len()).saturating_sub(tail.len());
    head.extend(
        newest(&label.past, for_past, label.locale)
            .into_iter()
            .map(|line| (line, false)),
    );
    head.extend(tail);
    head
}

/// All lines, or how many earlier ones there are and the newest; where there is room for one, the newest.
fn newest(past: &[String], most: usize, locale: Locale) -> Vec<String> {
    if past.len() <= most {
        return past.to_vec();
    }
    let kept = if most > 1 { most.saturating_sub(1) } else { most };
    let left = past.len().saturating_sub(kept);
    let told = (most > 1).then(|| say!(locale, "{count} earlier, see the daybook", count = left));
    told.into_iter()
        .chain(past.get(left..).unwrap_or_default().iter().cloned())
        .collect()
}
