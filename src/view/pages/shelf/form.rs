//! A new lot being described: fibre, weight, state, hanks. Its tag and its name are given by the program.

use chrono::NaiveDate;

use crate::craft::basis::WeighedAs;
use crate::craft::fibre::Fibre;
use crate::craft::quantity::Mass;
use crate::say;
use crate::shelf::{Came, Milligrams, NewLot};
use crate::view::locale::Locale;
use crate::view::lot_words::given_name;
use crate::view::pages::goods_page;
use crate::view::screen::GoodsScreen;

/// What is known of the lot so far.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LotForm {
    /// The fibre.
    pub fibre: Fibre,
    /// What the scale said.
    pub weight: Option<Mass>,
    /// In which state.
    pub state: WeighedAs,
    /// How many hanks.
    pub hanks: u32,
}

impl Default for LotForm {
    fn default() -> Self {
        Self {
            fibre: Fibre::Wool,
            weight: None,
            state: WeighedAs::AirDry,
            hanks: 1,
        }
    }
}

impl LotForm {
    /// The lot as it came; `None` while the weight is missing.
    pub(in crate::view::pages) fn lot(&self, came: Came, today: NaiveDate) -> Option<NewLot> {
        Some(NewLot {
            name: given_name(self.fibre, today),
            fibre: self.fibre,
            weight: Milligrams::of(self.weight?),
            state: self.state,
            hanks: self.hanks,
            came,
        })
    }
}

/// The page as a screen.
pub(super) fn screen(form: &LotForm, locale: Locale) -> GoodsScreen {
    GoodsScreen {
        title: say!(locale, "New lot"),
        note: say!(locale, "what it is; its tag is given"),
        onward: say!(locale, "write it down"),
        ..goods_page::goods(form.fibre, form.weight, form.state, form.hanks, true, locale)
    }
}
