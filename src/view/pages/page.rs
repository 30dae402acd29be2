//! The page that stands on the glass, and what it is shown from.

use chrono::NaiveDate;

use crate::craft::learn::Lesson;
use crate::craft::quantity::Mass;
use crate::craft::time::{Moment, Span};
use crate::machine::{Input, Machine, PotNo, Refusal};
use crate::recipe::book::Recipes;
use crate::sheet::Again;
use crate::shelf::Shelf;
use crate::shelf::worklist::WorkList;
use crate::view::bench::Bench;
use crate::view::locale::Locale;
use crate::view::screen::RecordScreen;

use super::book::BookPage;
use super::draft::Draft;
use super::first::First;
use super::number_page::Number;
use super::put_off::PutOff;
use super::question::Question;
use super::settings::Setting;
use super::shelf::{Remembered, ShelfPage};

/// The pages.
#[derive(Debug, Clone, PartialEq)]
#[expect(missing_docs, reason = "each is the page of its name")]
pub enum Page {
    Stove,
    First(First),
    Goods,
    State,
    Book(BookPage),
    Shelf(ShelfPage),
    Pot,
    Vessels,
    Option(Setting),
    Number(Number),
    Sheet,
    Working(usize),
    Run(PotNo),
    Ask(Question),
    Daybook,
    Record,
    Bench,
}

/// What stands in the daybook's list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DaybookRow {
    /// Id of the bath.
    pub id: String,
    /// Recipe and goods.
    pub title: String,
    /// The day, and how it ended.
    pub note: String,
}

/// What the scale said when a ware was weighed into a bath that is over.
#[derive(Debug, Clone, PartialEq)]
pub struct WeighedBefore {
    /// Id of the recipe.
    pub recipe_id: String,
    /// Id of the ware.
    pub ware_id: String,
    /// What was wanted.
    pub planned: Mass,
    /// What the scale said.
    pub actual: Mass,
}

/// What the glass takes from the daybook, each newest first.
#[derive(Debug, Clone, Default)]
pub struct DaybookSeen {
    /// Its list.
    pub rows: Vec<DaybookRow>,
    /// What its baths taught about their pots.
    pub lessons: Vec<Lesson>,
    /// What was weighed.
    pub weighed: Vec<WeighedBefore>,
}

/// Everything a screen is made from, beside the pages themselves.
#[derive(Debug, Clone, Copy)]
pub struct Facts<'a> {
    /// The pots.
    pub machine: &'a Machine,
    /// The moment.
    pub now: Moment,
    /// How the dyer is spoken to.
    pub locale: Locale,
    /// The whole book.
    pub recipes: &'a Recipes,
    /// The bench.
    pub bench: &'a Bench,
    /// The daybook's list, newest first.
    pub daybook: &'a [DaybookRow],
    /// What finished baths taught about their pots.
    pub lessons: &'a [Lesson],
    /// What was weighed into finished baths, newest first.
    pub weighed: &'a [WeighedBefore],
    /// The page of the daybook that was asked for.
    pub record: Option<&'a RecordScreen>,
    /// What that bath hands on.
    pub again: Option<&'a Again>,
    /// The shelf as it is kept; an empty one where there is none yet, or none that can be read.
    pub shelf: &'a Shelf,
    /// What is wrong with the shelf's file; empty when nothing is.
    pub shelf_fault: &'a str,
    /// The work lists there are.
    pub lists: &'a [WorkList],
    /// The day, where the stove is.
    pub today: NaiveDate,
    /// Whether a tap is being saved just now.
    pub saving: bool,
    /// Whether all calls but the urgent ones are quiet.
    pub quiet: bool,
}

/// The pages of one glass.
#[derive(Debug, Clone, PartialEq)]
pub struct Pages {
    pub(super) page: Page,
    /// The pages to go back to, newest last.
    pub(super) back: Vec<Page>,
    pub(super) draft: Option<Draft>,
    /// The bath whose start waits for its minute.
    pub(super) put_off: Option<PutOff>,
    pub(super) remembered: Remembered,
    /// When somebody was last near.
    pub(super) near: Moment,
    /// A line to be read for a while, in English.
    pub(super) said: Option<(String, Moment)>,
    /// Whether what is shown runs on fast time.
    pub(super) rehearsing: bool,
    /// Whether the first minutes aren't over.
    pub(super) is_first: bool,
}

/// Nobody near for so long: the far view.
const FAR_AFTER: Span = Span::from_seconds(20);

impl Pages {
    /// The stove.
    #[must_use]
    pub fn new(now: Moment) -> Self {
        Self {
            page: Page::Stove,
            back: Vec::new(),
            draft: None,
            put_off: None,
            remembered: Remembered::default(),
            near: now,
            said: None,
            rehearsing: false,
            is_first: false,
        }
    }

    /// The first minutes, for a data folder in which nothing was ever kept.
    #[must_use]
    pub fn first(now: Moment) -> Self {
        Self {
            page: Page::First(First::Language),
            is_first: true,
            ..Self::new(now)
        }
    }

    /// Where everything begins: the stove, or the first question while the questions aren't answered.
    const fn beginning(&self) -> Page {
        if self.is_first {
            Page::First(First::Language)
        } else {
            Page::Stove
        }
    }

    /// Whether there is nothing to go back to.
    #[must_use]
    pub fn is_at_the_beginning(&self) -> bool {
        self.page == self.beginning()
    }

    /// The page.
    #[must_use]
    pub const fn page(&self) -> &Page {
        &self.page
    }

    /// Whether what is shown runs on fast time.
    #[must_use]
    pub const fn is_rehearsing(&self) -> bool {
        self.rehearsing
    }

    /// Since somebody was last near.
    #[must_use]
    pub fn untouched(&self, now: Moment) -> Span {
        now.since(self.near)
    }

    /// Whether nobody has been near for a while. On fast time a while is over at once, and somebody is watching.
    #[must_use]
    pub fn is_far(&self, now: Moment) -> bool {
        !self.rehearsing && now.since(self.near) >= FAR_AFTER
    }

    /// The line to be read just now, in English; the glass reads it in the language of the dyer.
    #[must_use]
    pub fn said(&self, now: Moment) -> Option<&str> {
        const LONG_ENOUGH: Span = Span::from_seconds(8);
        self.said
            .as_ref()
            .filter(|(_, at)| now.since(*at) < LONG_ENOUGH)
            .map(|(said, _)| said.as_str())
    }

    /// The machine said no. Some refusals are a question.
    pub fn refused(&mut self, input: &Input, refusal: Refusal, now: Moment) {
        match Question::sure(input, refusal) {
            Some(question) => self.open(Page::Ask(question)),
            None => self.said = Some((refusal.to_string(), now)),
        }
    }

    /// Says a line, in English.
    pub fn say(&mut self, line: impl Into<String>, now: Moment) {
        self.said = Some((line.into(), now));
    }

    /// Opens a page; back leads here again.
    pub(super) fn open(&mut self, page: Page) {
        const DEEP: usize = 24;
        if self.back.len() < DEEP {
            self.back.push(std::mem::replace(&mut self.page, page));
        } else {
            self.page = page;
        }
    }

    /// The page before, or home.
    pub(super) fn go_back(&mut self) {
        self.page = self.back.pop().unwrap_or_else(|| self.beginning());
    }

    /// Home, with nothing to go back to.
    pub(super) fn go_home(&mut self) {
        self.page = self.beginning();
        self.back.clear();
        self.draft = None;
    }

    /// A pot, with home behind it.
    pub fn go_to_pot(&mut self, pot: PotNo) {
        self.page = Page::Run(pot);
        self.back = vec![self.beginning()];
        self.draft = None;
    }
}
