//! Labels for lots and hanks: finished words, a QR code, and their places on a sheet, in millimetres.
//!
//! The letters are drawn as outlines of the bundled font, so that they print the same wherever the file is opened.

mod grid;
mod layout;
mod path;
mod qr;
mod svg;
mod words;

pub use grid::{Paper, PaperSize};
pub use layout::{Drawing, Mark, NoRoom, sheets};
pub use path::{cut_path, ink_path};
pub use qr::{Code, MODULE_LEAST_MM};
pub use svg::svg;
pub use words::{LabelWords, label_words};
