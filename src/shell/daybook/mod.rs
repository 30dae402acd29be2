//! The daybook for people: sealed records as a list, as lines, as a table, as a page to print.
//!
//! It stands in the shell because `journal` and `view` don't know each other: here what was written down meets the
//! words it is shown in. Only [`book`] reads files; the rest are functions of a record and a zone.

pub mod book;
pub mod csv;
pub mod curve_svg;
pub mod list;
pub mod page;
pub mod phrases;
pub mod text;
