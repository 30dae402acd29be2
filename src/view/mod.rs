//! State and now in; exactly what each screen and the terminal shows out, in finished words and drawn pictures.
//!
//! Knows no journal and no clock.

pub mod act;
mod again_words;
pub mod bench;
pub mod beside;
mod course;
pub mod curve;
pub mod dimming;
pub mod far;
pub mod firm_tap;
pub mod fit;
mod history;
pub mod label;
pub mod letters;
pub mod locale;
mod lot_words;
pub mod next;
pub mod pages;
pub mod picture;
pub mod pot_picture;
pub mod probably;
pub mod rehearse_text;
pub mod returned;
pub mod run;
pub mod screen;
pub mod sheet_json;
pub mod sheet_text;
pub mod shelf_text;
pub mod stove;
pub mod unbroken;
mod waiting;
pub mod words;
