//! The QR code of a label: the lot and its newest records as plain text, for any reader of such codes.

use qrcodegen::{QrCode, QrCodeEcc};

/// A module is at least so wide, for a home printer and a telephone's camera: from memory, not looked up.
pub const MODULE_LEAST_MM: f64 = 0.4;
/// Light space around a code, in modules: ISO/IEC 18004, which asks for four.
const QUIET: u32 = 4;

/// A code with its text.
#[derive(Clone)]
pub struct Code {
    /// What it says.
    pub text: String,
    modules: QrCode,
}

impl PartialEq for Code {
    fn eq(&self, other: &Self) -> bool {
        self.text == other.text
    }
}

impl Code {
    /// The code of a lot and as many of its newest records as a square of this size can hold legibly.
    ///
    /// `None` when not even the lot fits.
    #[must_use]
    pub fn that_fits(lot: &str, records: &[String], side_mm: f64) -> Option<Self> {
        (0..=records.len()).rev().find_map(|count| {
            let newest = records.get(records.len().saturating_sub(count)..)?;
            let text = text(lot, newest);
            let modules = QrCode::encode_text(&text, QrCodeEcc::Medium).ok()?;
            let code = Self { text, modules };
            (code.module_mm(side_mm) >= MODULE_LEAST_MM).then_some(code)
        })
    }

    /// Modules on a side, with the quiet space on both ends.
    #[must_use]
    pub fn side(&self) -> u32 {
        let modules = u32::try_from(self.modules.size()).unwrap_or(0);
        modules.saturating_add(QUIET.saturating_mul(2))
    }

    /// The width of a module when the whole, quiet space included, is so wide.
    #[must_use]
    pub fn module_mm(&self, side_mm: f64) -> f64 {
        side_mm / f64::from(self.side())
    }

    /// The dark modules, column and row, quiet space counted.
    pub fn dark(&self) -> impl Iterator<Item = (u32, u32)> + '_ {
        let size = self.modules.size();
        (0..size).flat_map(move |row| {
            (0..size).filter_map(move |column| {
                let place = |at: i32| u32::try_from(at).ok().map(|at| at.saturating_add(QUIET));
                let is_dark = self.modules.get_module(column, row);
                place(column).zip(place(row)).filter(|_| is_dark)
            })
        })
    }
}

/// `lot L3` and a record a line.
fn text(lot: &str, records: &[String]) -> String {
    let mut text = format!("lot {lot}");
    for record in records {
        text.push_str("\nbath ");
        text.push_str(record);
    }
    text
}
