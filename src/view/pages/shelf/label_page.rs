//! The label of a lot: as it will be printed, in the size of the sheet at hand, and the sheets to write to a file.

use crate::craft::lot::LotId;
use crate::say;
use crate::shelf::{Lot, Shelf};
use crate::view::label::{
    Drawing, LabelWords, NoRoom, PaperSize, cut_path, ink_path, label_words, sheets, svg,
};
use crate::view::locale::Locale;
use crate::view::screen::{Icon, LabelScreen, Row};

use super::words::{act, hanks, tag_and_name};

/// The label that stands on the glass.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LabelPage {
    /// Whose.
    pub lot: LotId,
    /// On which sheet.
    pub size: PaperSize,
    /// One for each hank instead of one for the lot.
    pub for_each_hank: bool,
    /// Where the sheets were written, or why they weren't.
    pub written: String,
}

/// A sheet as a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LabelFile {
    /// Its bare name, such as `L3-a4-24.svg`.
    pub name: String,
    /// The whole file.
    pub svg: String,
}

impl LabelPage {
    /// The label of a lot on the usual sheet.
    #[must_use]
    pub const fn new(lot: LotId) -> Self {
        Self {
            lot,
            size: PaperSize::A4x24,
            for_each_hank: false,
            written: String::new(),
        }
    }

    fn labels(&self, shelf: &Shelf, lot: &Lot, locale: Locale) -> Vec<LabelWords> {
        if self.for_each_hank && lot.hanks > 1 {
            (1..=lot.hanks)
                .map(|hank| label_words(shelf, lot, Some(hank), locale))
                .collect()
        } else {
            vec![label_words(shelf, lot, None, locale)]
        }
    }

    /// The sheets as files. A sheet per file; a second one is numbered.
    ///
    /// # Errors
    /// When there are far too many labels.
    pub fn files(&self, shelf: &Shelf, lot: &Lot, locale: Locale) -> Result<Vec<LabelFile>, NoRoom> {
        let sheets = sheets(self.size, 1, &self.labels(shelf, lot, locale))?;
        let each = if self.for_each_hank && lot.hanks > 1 {
            "-hanks"
        } else {
            ""
        };
        let several = sheets.len() > 1;
        let files = sheets.iter().zip(1_usize..).map(|(sheet, number)| {
            let number = if several {
                format!("-{number}")
            } else {
                String::new()
            };
            LabelFile {
                name: format!("{}-{}{each}{number}.svg", self.lot, self.size.id()),
                svg: svg(sheet),
            }
        });
        Ok(files.collect())
    }

    /// The page as a screen.
    pub(super) fn screen(&self, shelf: &Shelf, lot: &Lot, locale: Locale) -> LabelScreen {
        let labels = self.labels(shelf, lot, locale);
        let first = labels.first().cloned();
        let paper = self.size.paper();
        let sheet = first
            .as_ref()
            .and_then(|first| sheets(self.size, 1, std::slice::from_ref(first)).ok())
            .and_then(|sheets| sheets.into_iter().next());
        let corner = paper.corner(0);
        let drawn = |path: fn(&Drawing, (f64, f64)) -> String| {
            sheet
                .as_ref()
                .map_or_else(String::new, |sheet| path(sheet, corner))
        };
        let each = if self.for_each_hank {
            say!(locale, "one label for the lot")
        } else {
            say!(locale, "one for each hank")
        };
        LabelScreen {
            title: say!(locale, "Label of {lot}", lot = tag_and_name(lot, locale)),
            note: if self.written.is_empty() {
                count(labels.len(), locale)
            } else {
                locale.read(&self.written)
            },
            ink: drawn(ink_path),
            cut: drawn(cut_path),
            width: short(paper.label.0),
            height: short(paper.label.1),
            said: first.as_ref().map_or_else(String::new, said),
            sizes: PaperSize::ALL
                .into_iter()
                .map(|size| self.row(size, locale))
                .collect(),
            foot: vec![
                act("each", each, Icon::Tag, lot.hanks > 1, false),
                act(
                    "write",
                    say!(locale, "write it to a file"),
                    Icon::Down,
                    true,
                    true,
                ),
            ],
        }
    }

    fn row(&self, size: PaperSize, locale: Locale) -> Row {
        let paper = size.paper();
        let (width, height) = paper.label;
        let label = match size {
            PaperSize::A4x24 => say!(locale, "A4, 24 labels"),
            PaperSize::A4x21 => say!(locale, "A4, 21 labels"),
            PaperSize::Letterx30 => say!(locale, "US letter, 30"),
            PaperSize::Tag => say!(locale, "one tag"),
        };
        let (width, height) = (format!("{width:.0}"), format!("{height:.0}"));
        let detail = match paper.hole {
            None => say!(locale, "{width} by {height} mm", width = width, height = height),
            Some(_) => say!(
                locale,
                "{width} by {height} mm, with a hole",
                width = width,
                height = height
            ),
        };
        Row {
            key: size.id().into(),
            label,
            detail,
            chosen: size == self.size,
            enabled: true,
            ..Row::default()
        }
    }
}

fn count(labels: usize, locale: Locale) -> String {
    match u32::try_from(labels) {
        Ok(1) => say!(locale, "one label, for the whole lot"),
        Ok(labels) => say!(
            locale,
            "{labels} labels, one for each of {hanks}",
            labels = labels,
            hanks = hanks(labels, locale)
        ),
        Err(_) => String::new(),
    }
}

fn said(label: &LabelWords) -> String {
    let mut lines = vec![label.lot.clone(), label.name.clone(), label.goods.clone()];
    lines.extend(label.past.iter().cloned());
    lines.extend(label.mind.iter().cloned());
    lines.join(". ")
}

#[expect(clippy::as_conversions, reason = "millimetres of a label need no more digits")]
const fn short(mm: f64) -> f32 {
    mm as f32
}
