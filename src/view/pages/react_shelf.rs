//! What a press means on the pages of the book and of the shelf.

use std::sync::Arc;

use crate::craft::basis::WeighedAs;
use crate::craft::lot::LotId;
use crate::msg;
use crate::recipe::model::Recipe;
use crate::shelf::worklist::lay_out;
use crate::shelf::{Came, Milligrams, NewSupply, ShelfAsk, ShelfDone, SupplyId};
use crate::view::label::PaperSize;

use super::book::BookPage;
use super::draft::Draft;
use super::number_page::{Number, Purpose};
use super::page::{Facts, Page, Pages};
use super::press::Wish;
use super::question::Question;
use super::react::ALL_GOING;
use super::shelf::{LabelPage, ShelfPage, SplitAsked, pot_of, wares};

impl Pages {
    /// A row of the book.
    pub(super) fn choose_in_book(&mut self, page: &BookPage, key: &str, facts: &Facts<'_>) {
        if let Some(next) = page.choose(key, self.reader("", facts)) {
            self.open(Page::Book(next));
        }
    }

    /// The recipe that stands on the glass: into the bath being put together, or as the first thing of a new one.
    pub(super) fn take_recipe(&mut self, id: &str, rehearsing: bool, facts: &Facts<'_>) {
        let Some(recipe) = facts.recipes.iter().find(|recipe| recipe.id == id).cloned() else {
            return;
        };
        if let Some(draft) = self.draft.as_mut() {
            draft.recipe = Some(recipe);
            self.open(Page::Pot);
            return;
        }
        if let Some(draft) = self.new_draft(rehearsing, facts) {
            let fibre = recipe.fibres.first().copied().unwrap_or(draft.fibre);
            self.draft = Some(Draft {
                fibre,
                recipe: Some(recipe),
                ..draft
            });
            self.open(Page::Goods);
        }
    }

    /// A bath with nothing chosen yet, in the first free pot; says so where there is none.
    pub(super) fn new_draft(&mut self, rehearsing: bool, facts: &Facts<'_>) -> Option<Draft> {
        let Some(pot) = self.free_pot(facts) else {
            self.say(ALL_GOING, facts.now);
            return None;
        };
        Some(Draft {
            hazardous_metals: facts.bench.hazardous_metals,
            ..Draft::new(pot, facts.bench.stove, rehearsing)
        })
    }

    /// A row of the shelf, or a block of a leaf.
    pub(super) fn choose_on_shelf(&mut self, page: &ShelfPage, key: &str, facts: &Facts<'_>) -> Vec<Wish> {
        if let Some(record) = key.strip_prefix("record-") {
            self.open(Page::Record);
            return vec![Wish::OpenRecord(record.to_owned())];
        }
        match page {
            ShelfPage::Lots | ShelfPage::Supplies | ShelfPage::Low => self.open_by_tag(key),
            ShelfPage::Pick => self.pick(key, facts),
            ShelfPage::Lot(lot) => self.choose_on_lot(*lot, key, facts),
            ShelfPage::Split(lot) => {
                let asked = facts
                    .shelf
                    .lot(*lot)
                    .zip(key.parse().ok())
                    .and_then(|(lot, hanks)| SplitAsked::by_count(lot, hanks));
                match asked {
                    Some(asked) => self.open(Page::Ask(Question::Split(Box::new(asked)))),
                    None => self.say(
                        msg!("weigh it first: nothing would be left for one part"),
                        facts.now,
                    ),
                }
            }
            ShelfPage::Lists(lot) => self.open_list(*lot, key, facts),
            ShelfPage::Wares => {
                if let Ok(index) = key.parse() {
                    self.open(Page::Number(Number::new(
                        Purpose::NewSupply(index),
                        facts.locale.habits,
                    )));
                }
            }
            ShelfPage::Label(label) => {
                if let Some(size) = PaperSize::from_id(key) {
                    self.page = Page::Shelf(ShelfPage::Label(LabelPage {
                        size,
                        written: String::new(),
                        ..label.clone()
                    }));
                }
            }
            ShelfPage::New | ShelfPage::List(_, _) | ShelfPage::Supply(_) => {}
        }
        Vec::new()
    }

    fn open_by_tag(&mut self, key: &str) {
        if let Ok(lot) = LotId::from_text(key) {
            self.open(Page::Shelf(ShelfPage::Lot(lot)));
        } else if let Ok(supply) = SupplyId::from_text(key) {
            self.open(Page::Shelf(ShelfPage::Supply(supply)));
        }
    }

    /// A lot for the bath being put together.
    fn pick(&mut self, key: &str, facts: &Facts<'_>) {
        let lot = LotId::from_text(key).ok().and_then(|id| facts.shelf.lot(id));
        if let (Some(lot), Some(draft)) = (lot, self.draft.as_mut())
            && pot_of(facts.machine, lot.id).is_none()
        {
            draft.take_lot(lot);
            self.go_back();
        }
    }

    fn choose_on_lot(&mut self, lot: LotId, key: &str, facts: &Facts<'_>) {
        match key {
            "weigh" => self.open(Page::Number(Number::new(Purpose::Lot(lot), facts.locale.habits))),
            "let-go" => self.open(Page::Ask(Question::LetGo(lot))),
            _ => match key.strip_prefix("list-") {
                Some(list) => self.open_list(lot, list, facts),
                None => self.open_by_tag(key),
            },
        }
    }

    fn open_list(&mut self, lot: LotId, list: &str, facts: &Facts<'_>) {
        let page = ShelfPage::List(lot, list.to_owned());
        self.remembered.plan = None;
        self.open(Page::Shelf(page));
        self.refresh(facts);
    }

    /// The shelf, the day or the bench may be another: what was computed from them is computed anew.
    pub fn refresh(&mut self, facts: &Facts<'_>) {
        let Page::Shelf(ShelfPage::List(lot, list)) = &self.page else {
            return;
        };
        let list = facts.lists.iter().find(|known| known.id == *list);
        self.remembered.plan = list.zip(facts.shelf.lot(*lot)).map(|(list, lot)| {
            let stove = &facts.bench.stove;
            Box::new(lay_out(list, facts.recipes, facts.shelf, lot, stove, facts.today))
        });
    }

    /// An act at the foot of a page of the shelf.
    pub(super) fn side_of_shelf(&mut self, page: &ShelfPage, key: &str, facts: &Facts<'_>) -> Vec<Wish> {
        match (page, key) {
            (ShelfPage::Lots | ShelfPage::Supplies | ShelfPage::Low, _) => self.turn(page, key),
            (ShelfPage::Lot(lot), "begin") => self.begin_with(*lot, None, facts),
            (ShelfPage::Lot(lot), "lists") => self.open(Page::Shelf(ShelfPage::Lists(*lot))),
            (ShelfPage::Lot(lot), "split") => self.open(Page::Shelf(ShelfPage::Split(*lot))),
            (ShelfPage::Lot(lot), "label") => {
                self.open(Page::Shelf(ShelfPage::Label(LabelPage::new(*lot))));
            }
            (ShelfPage::List(lot, list), "begin") => {
                let next = self.remembered.plan.as_ref().and_then(|plan| plan.progress.next);
                let list = facts.lists.iter().find(|known| known.id == *list);
                let listed = list.zip(next).and_then(|(list, next)| list.baths.get(next));
                let recipe = listed.and_then(|listed| {
                    facts
                        .recipes
                        .iter()
                        .find(|recipe| recipe.id == listed.recipe)
                        .cloned()
                });
                if let Some(recipe) = recipe {
                    self.begin_with(*lot, Some(recipe), facts);
                }
            }
            (ShelfPage::Supply(supply), "count") => {
                self.open(Page::Number(Number::new(
                    Purpose::Left(*supply),
                    facts.locale.habits,
                )));
            }
            (ShelfPage::Supply(supply), "fill") => {
                self.open(Page::Number(Number::new(
                    Purpose::More(*supply),
                    facts.locale.habits,
                )));
            }
            (ShelfPage::Supply(supply), "mark-low") => {
                self.open(Page::Number(Number::new(
                    Purpose::Low(*supply),
                    facts.locale.habits,
                )));
            }
            (ShelfPage::Label(label), "each") => {
                self.page = Page::Shelf(ShelfPage::Label(LabelPage {
                    for_each_hank: !label.for_each_hank,
                    written: String::new(),
                    ..label.clone()
                }));
            }
            (ShelfPage::Label(label), "write") => return self.write_labels(label, facts),
            (_, _) => {}
        }
        Vec::new()
    }

    /// Goods, supplies or what is running low; a new one of what stands there.
    fn turn(&mut self, page: &ShelfPage, key: &str) {
        let turned = match (page, key) {
            (_, "lots") => ShelfPage::Lots,
            (_, "supplies") => ShelfPage::Supplies,
            (_, "low") => ShelfPage::Low,
            (ShelfPage::Lots, _) => {
                self.remembered.form = super::shelf::LotForm::default();
                self.open(Page::Shelf(ShelfPage::New));
                return;
            }
            (_, _) => {
                self.open(Page::Shelf(ShelfPage::Wares));
                return;
            }
        };
        self.page = Page::Shelf(turned);
    }

    /// A bath of all of a lot; with a recipe it goes on to the pot.
    fn begin_with(&mut self, lot: LotId, recipe: Option<Arc<Recipe>>, facts: &Facts<'_>) {
        let Ok(lot) = facts.shelf.workable(lot) else {
            self.say(msg!("this lot can't be worked any more"), facts.now);
            return;
        };
        if let Some(pot) = pot_of(facts.machine, lot.id) {
            self.say(
                msg!("{lot} is in pot {pot} now", lot = lot.id, pot = pot.0),
                facts.now,
            );
            return;
        }
        let Some(mut draft) = self.new_draft(false, facts) else {
            return;
        };
        draft.take_lot(lot);
        let next = if recipe.is_some() { Page::Pot } else { Page::Goods };
        draft.recipe = recipe;
        self.draft = Some(draft);
        self.open(next);
    }

    fn write_labels(&mut self, label: &LabelPage, facts: &Facts<'_>) -> Vec<Wish> {
        let Some(lot) = facts.shelf.lot(label.lot) else {
            return Vec::new();
        };
        match label.files(facts.shelf, lot, facts.locale) {
            Ok(files) => vec![Wish::WriteLabels(files)],
            Err(fault) => {
                self.labels_written(&facts.locale.read(&fault.to_string()));
                Vec::new()
            }
        }
    }

    /// Where labels were written, or why they weren't; it stands on the page until another is asked for.
    pub fn labels_written(&mut self, said: &str) {
        if let Page::Shelf(ShelfPage::Label(label)) = &mut self.page {
            said.clone_into(&mut label.written);
        }
    }

    /// A new lot is described: how it came is asked, unless it says so itself.
    pub(super) fn ask_how_it_came(&mut self, facts: &Facts<'_>) -> Vec<Wish> {
        match self.remembered.form.state {
            WeighedAs::InTheGrease { .. } => self.put_down(Came::Raw, facts),
            WeighedAs::AirDry | WeighedAs::OvenDry | WeighedAs::Damp { .. } | WeighedAs::Spun => {
                self.open(Page::Ask(Question::Came));
                Vec::new()
            }
        }
    }

    /// The lot that was described.
    pub(super) fn put_down(&self, came: Came, facts: &Facts<'_>) -> Vec<Wish> {
        let lot = self.remembered.form.lot(came, facts.today);
        lot.map(|lot| Wish::AskShelf(ShelfAsk::AddLot(lot)))
            .into_iter()
            .collect()
    }

    /// A weight that was keyed in for the shelf.
    pub(super) fn weight_for_shelf(
        &mut self,
        purpose: Purpose,
        weight: Milligrams,
        facts: &Facts<'_>,
    ) -> Vec<Wish> {
        let ask = match purpose {
            Purpose::Lot(lot) => ShelfAsk::Weigh(lot, weight, WeighedAs::AirDry),
            Purpose::Left(supply) => ShelfAsk::Count(supply, weight),
            Purpose::More(supply) => ShelfAsk::Fill(supply, weight),
            Purpose::Low(supply) => ShelfAsk::MarkLow(supply, weight),
            Purpose::NewSupply(index) => {
                let Some((name, stock)) = wares::wares(facts.recipes).into_iter().nth(index) else {
                    return Vec::new();
                };
                ShelfAsk::AddSupply(NewSupply {
                    stock,
                    name,
                    left: weight,
                    low: None,
                    note: None,
                })
            }
            Purpose::Part(lot, hanks) => {
                let lot = facts.shelf.lot(lot);
                match lot.and_then(|lot| SplitAsked::weighed(lot, hanks, weight)) {
                    Some(asked) => self.open(Page::Ask(Question::Split(Box::new(asked)))),
                    None => self.say(
                        "the first part weighs as much as the whole lot; weigh it again",
                        facts.now,
                    ),
                }
                return Vec::new();
            }
            Purpose::Goods | Purpose::Weighed(_, _) | Purpose::Reading(_) | Purpose::Setting(_) => {
                return Vec::new();
            }
        };
        vec![Wish::AskShelf(ask)]
    }

    /// What came of something asked of the shelf: the page shows it, with the shelf behind it.
    pub fn shelf_done(&mut self, done: Result<&ShelfDone, &str>, facts: &Facts<'_>) {
        let page = match done {
            Err(why) => {
                self.say(why, facts.now);
                return;
            }
            Ok(ShelfDone::Lot(lot)) => ShelfPage::Lot(*lot),
            Ok(ShelfDone::Supply(supply)) => ShelfPage::Supply(*supply),
            Ok(ShelfDone::Split(lots)) => {
                let lots: Vec<String> = lots.iter().map(LotId::to_string).collect();
                let and = format!(" {} ", facts.locale.say("and"));
                self.say(msg!("split into {lots}", lots = lots.join(&and)), facts.now);
                ShelfPage::Lots
            }
            Ok(ShelfDone::Gone(lot)) => {
                self.say(msg!("{lot} left the shelf", lot = lot), facts.now);
                ShelfPage::Lots
            }
        };
        // Whoever has walked on to something else meanwhile isn't fetched back.
        if !matches!(self.page, Page::Shelf(_)) {
            return;
        }
        let list = if matches!(page, ShelfPage::Supply(_)) {
            ShelfPage::Supplies
        } else {
            ShelfPage::Lots
        };
        self.back = vec![Page::Stove];
        if page != list {
            self.back.push(Page::Shelf(list));
        }
        self.page = Page::Shelf(page);
    }
}
