//! The pages of a glass with an empty stove, pressed without a window.

use chrono::{FixedOffset, NaiveDate};
use potside::craft::time::{Moment, Stretch};
use potside::machine::Machine;
use potside::recipe::book::Recipes;
use potside::sheet::Again;
use potside::shelf::Shelf;
use potside::view::bench::Bench;
use potside::view::locale::Locale;
use potside::view::pages::{Facts, GoodsPress, HomePress, Pages, Press, WeighedBefore, Wish};
use potside::view::screen::{ChooseScreen, GoodsScreen, LeafScreen, Screen, SheetScreen};

pub(crate) const NOW: Moment = Moment {
    stretch: Stretch(0),
    steady_ms: 60_000,
    wall_ms: 1_800_000_000_000,
};

/// The day of [`NOW`].
pub(crate) const TODAY: NaiveDate = NaiveDate::from_ymd_opt(2027, 1, 15).unwrap();

/// A glass with an empty stove.
pub(crate) struct Glass {
    pub(crate) pages: Pages,
    pub(crate) machine: Machine,
    pub(crate) recipes: Recipes,
    pub(crate) bench: Bench,
    pub(crate) again: Option<Again>,
    pub(crate) weighed: Vec<WeighedBefore>,
    pub(crate) shelf: Shelf,
    pub(crate) shelf_fault: String,
    pub(crate) now: Moment,
}

impl Glass {
    pub(crate) fn new() -> Self {
        Self {
            pages: Pages::new(NOW),
            machine: Machine::default(),
            recipes: Recipes::default(),
            bench: Bench::default(),
            again: None,
            weighed: Vec::new(),
            shelf: Shelf::default(),
            shelf_fault: String::new(),
            now: NOW,
        }
    }

    /// As the bench says, at Greenwich.
    pub(crate) fn locale(&self) -> Locale {
        Locale {
            language: self.bench.language,
            habits: self.bench.habits,
            zone: FixedOffset::east_opt(0).unwrap(),
        }
    }

    pub(crate) fn with<T>(&mut self, act: impl FnOnce(&mut Pages, &Facts<'_>) -> T) -> T {
        let facts = Facts {
            machine: &self.machine,
            now: self.now,
            locale: self.locale(),
            recipes: &self.recipes,
            bench: &self.bench,
            daybook: &[],
            lessons: &[],
            weighed: &self.weighed,
            record: None,
            again: self.again.as_ref(),
            shelf: &self.shelf,
            shelf_fault: &self.shelf_fault,
            lists: potside::shelf::worklist::all(),
            today: TODAY,
            saving: false,
            quiet: false,
        };
        act(&mut self.pages, &facts)
    }

    /// Presses, and gives back what the pages wish for.
    pub(crate) fn wish(&mut self, press: Press) -> Vec<Wish> {
        self.with(|pages, facts| pages.press(&press, facts))
    }

    pub(crate) fn press(&mut self, press: Press) {
        self.wish(press);
    }

    /// Presses, and does on the shelf what is asked of it, as the keeper would.
    pub(crate) fn ask(&mut self, press: Press) {
        for wish in self.wish(press) {
            let Wish::AskShelf(asked) = wish else {
                panic!("{wish:?}")
            };
            let done = self.shelf.ask(&asked, TODAY).map_err(|fault| fault.to_string());
            self.with(|pages, facts| pages.shelf_done(done.as_ref().map_err(String::as_str), facts));
        }
    }

    pub(crate) fn choose(&mut self, key: &str) {
        self.press(Press::Choose(key.into()));
    }

    pub(crate) fn side(&mut self, key: &str) {
        self.press(Press::Side(key.into()));
    }

    pub(crate) fn key_in(&mut self, digits: &str) {
        for key in digits.chars() {
            // The window reports the point and the comma of the keyboard as the same key.
            self.press(match key {
                '.' | ',' => Press::Point,
                digit => Press::Digit(digit),
            });
        }
    }

    pub(crate) fn key_weight(&mut self, digits: &str) {
        self.press(Press::Goods(GoodsPress::KeyWeight));
        self.key_in(digits);
        self.press(Press::FirmKey);
    }

    pub(crate) fn screen(&mut self) -> Screen {
        self.with(|pages, facts| pages.screen(facts))
    }

    pub(crate) fn sheet(&mut self) -> SheetScreen {
        match self.screen() {
            Screen::Sheet(sheet) => sheet,
            other => panic!("{other:?}"),
        }
    }

    pub(crate) fn list(&mut self) -> ChooseScreen {
        match self.screen() {
            Screen::Choose(list) => list,
            other => panic!("{other:?}"),
        }
    }

    pub(crate) fn leaf(&mut self) -> LeafScreen {
        match self.screen() {
            Screen::Leaf(leaf) => leaf,
            other => panic!("{other:?}"),
        }
    }

    pub(crate) fn goods(&mut self) -> GoodsScreen {
        match self.screen() {
            Screen::Goods(goods) => goods,
            other => panic!("{other:?}"),
        }
    }

    /// What was just said, if anything.
    pub(crate) fn said(&self) -> String {
        self.pages.said(NOW).unwrap_or_default().to_owned()
    }

    pub(crate) fn begin(&mut self, weight: &str, recipe: &str) {
        self.press(Press::Home(HomePress::Begin));
        self.key_weight(weight);
        self.press(Press::Goods(GoodsPress::GoOn));
        self.take(recipe);
        self.side("go-on");
    }

    /// Turns the book to a recipe by its first letter and takes it.
    pub(crate) fn take(&mut self, recipe: &str) {
        let name = &self.recipes.iter().find(|there| there.id == recipe).unwrap().name;
        let letter = name.chars().next().unwrap().to_uppercase().to_string();
        self.choose("letters");
        self.choose(&letter);
        self.choose(recipe);
        self.side("take");
    }
}
