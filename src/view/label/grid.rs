//! Label sheets by their measures. Common practice, no source: such sheets are sold everywhere by these sizes.

/// A kind of sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum PaperSize {
    /// A4, 3 by 8 labels of 70 by 36 mm, without margins at the sides.
    A4x24,
    /// A4, 3 by 7 labels of 63.5 by 38.1 mm.
    A4x21,
    /// US letter, 3 by 10 labels of 2 5/8 by 1 inch.
    Letterx30,
    /// One tag of 100 by 50 mm with a hole, to be cut out of stout paper.
    Tag,
}

/// The measures of a sheet, in millimetres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Paper {
    /// Width and height of the sheet.
    pub sheet: (f64, f64),
    /// Labels side by side.
    pub columns: u32,
    /// Labels one below the other.
    pub rows: u32,
    /// Width and height of a label.
    pub label: (f64, f64),
    /// Where the first label's corner is.
    pub first: (f64, f64),
    /// From one label's corner to the next one's.
    pub pitch: (f64, f64),
    /// Diameter of the hole, on the left.
    pub hole: Option<f64>,
}

const INCH: f64 = 25.4;

impl PaperSize {
    /// Every kind, in the order shown.
    pub const ALL: [Self; 4] = [Self::A4x24, Self::A4x21, Self::Letterx30, Self::Tag];

    /// The id on the command line.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::A4x24 => "a4-24",
            Self::A4x21 => "a4-21",
            Self::Letterx30 => "letter-30",
            Self::Tag => "tag",
        }
    }

    /// The kind of an id.
    #[must_use]
    pub fn from_id(id: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|size| size.id() == id)
    }

    /// Its measures.
    #[must_use]
    pub const fn paper(self) -> Paper {
        match self {
            Self::A4x24 => Paper {
                sheet: (210.0, 297.0),
                columns: 3,
                rows: 8,
                label: (70.0, 36.0),
                first: (0.0, 4.5),
                pitch: (70.0, 36.0),
                hole: None,
            },
            Self::A4x21 => Paper {
                sheet: (210.0, 297.0),
                columns: 3,
                rows: 7,
                label: (63.5, 38.1),
                first: (7.25, 15.15),
                pitch: (66.0, 38.1),
                hole: None,
            },
            Self::Letterx30 => Paper {
                sheet: (8.5 * INCH, 11.0 * INCH),
                columns: 3,
                rows: 10,
                label: (2.625 * INCH, INCH),
                first: (0.1875 * INCH, 0.5 * INCH),
                pitch: (2.75 * INCH, INCH),
                hole: None,
            },
            Self::Tag => Paper {
                sheet: (100.0, 50.0),
                columns: 1,
                rows: 1,
                label: (100.0, 50.0),
                first: (0.0, 0.0),
                pitch: (100.0, 50.0),
                hole: Some(5.0),
            },
        }
    }
}

impl Paper {
    /// Labels on one sheet.
    #[must_use]
    pub const fn count(&self) -> u32 {
        self.columns.saturating_mul(self.rows)
    }

    /// The corner of a label, counted from 0, row by row.
    #[must_use]
    pub fn corner(&self, place: u32) -> (f64, f64) {
        let column = place.checked_rem(self.columns).unwrap_or(0);
        let row = place.checked_div(self.columns).unwrap_or(0);
        (
            self.first.0 + f64::from(column) * self.pitch.0,
            self.first.1 + f64::from(row) * self.pitch.1,
        )
    }
}
