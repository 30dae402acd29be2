//! Which page the glass shows, and what a press on it means. Pure: presses and state in, wishes and a screen out.

mod book;
mod draft;
mod findings;
mod first;
mod goods_page;
mod habits_rows;
mod number_aids;
mod number_page;
mod page;
mod press;
mod put_off;
mod question;
mod react;
mod react_first;
mod react_shelf;
mod settings;
mod sheet_page;
pub mod shelf;
mod show;
mod state_page;
mod vessel_words;
mod vessels_page;
mod ways_out;

pub use book::BookPage;
pub use draft::Draft;
pub use first::First;
pub use page::{DaybookRow, DaybookSeen, Facts, Page, Pages, WeighedBefore};
pub use press::{GoodsPress, HomePress, Press, Wish};
pub use shelf::{LabelFile, ShelfPage};
