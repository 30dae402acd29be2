//! The page as a screen.

use crate::craft::time::Span;
use crate::machine::PotNo;
use crate::say;
use crate::sheet::BathSheet;
use crate::shelf::worklist::{Finding, ListedBath, WorkList, check};
use crate::view::locale::Locale;
use crate::view::screen::{Beside, ChooseScreen, Icon, NumberScreen, RecordScreen, Row, Screen, StoveScreen};
use crate::view::{beside, far, probably, returned, run, stove};

use super::book::{BookPage, Reader};
use super::draft::Draft;
use super::number_page::Purpose;
use super::page::{DaybookRow, Facts, Page, Pages};
use super::question::Question;
use super::{goods_page, settings, sheet_page, state_page, vessels_page};

impl Pages {
    /// What stands on the glass.
    #[must_use]
    pub fn screen(&self, facts: &Facts<'_>) -> Screen {
        match &self.page {
            Page::Stove => Screen::Stove(self.stove(facts)),
            Page::First(first) => Screen::Choose(first.screen(facts.bench, facts.locale)),
            Page::Goods => self.of_draft(facts, |draft| {
                Screen::Goods(goods_page::screen(draft, facts.shelf, facts.locale))
            }),
            Page::State => match &self.draft {
                Some(draft) => Screen::Choose(state_page::screen(
                    draft.fibre,
                    draft.weighed_as,
                    note(draft, facts.locale),
                    facts.locale,
                )),
                None => {
                    let form = &self.remembered.form;
                    Screen::Choose(state_page::screen(
                        form.fibre,
                        form.state,
                        say!(facts.locale, "a new lot"),
                        facts.locale,
                    ))
                }
            },
            Page::Book(page) => {
                let note = self
                    .draft
                    .as_ref()
                    .map_or_else(String::new, |draft| goods_note(draft, facts.locale));
                let findings = self.findings(page, facts);
                let screen = page.screen(Reader {
                    findings: &findings,
                    ..self.reader(&note, facts)
                });
                screen.unwrap_or_else(|| home(facts))
            }
            Page::Shelf(page) => page
                .screen(&self.remembered, facts)
                .unwrap_or_else(|| home(facts)),
            Page::Pot => self.of_draft(facts, |draft| {
                Screen::Choose(settings::pot_screen(
                    draft.stove,
                    facts.bench,
                    note(draft, facts.locale),
                    facts.locale,
                ))
            }),
            Page::Vessels => {
                let note = self
                    .draft
                    .as_ref()
                    .map_or_else(String::new, |draft| note(draft, facts.locale));
                let picks_only = self.draft.is_some();
                Screen::Choose(vessels_page::screen(
                    &self.bench_shown(facts),
                    note,
                    picks_only,
                    facts.locale,
                ))
            }
            Page::Option(setting) => {
                let bench = self.bench_shown(facts);
                Screen::Choose(settings::option_screen(*setting, &bench, facts.locale))
            }
            Page::Number(number) => Screen::Number(self.number(number, facts)),
            Page::Sheet => self.of_sheet(facts, |draft, sheet| {
                Screen::Sheet(sheet_page::screen(
                    draft,
                    sheet,
                    self.beside(draft, sheet, facts),
                    facts,
                ))
            }),
            Page::Working(index) => self.of_sheet(facts, |_, sheet| {
                let working = sheet.workings.get(*index);
                working.map_or_else(
                    || home(facts),
                    |working| Screen::Working(sheet_page::working_screen(working, facts.locale)),
                )
            }),
            Page::Run(pot) => self.run(*pot, facts),
            Page::Ask(question) => {
                Screen::Ask(question.screen(can_drop(question, facts), facts.quiet, facts.locale))
            }
            Page::Daybook => Screen::Choose(daybook(facts.daybook, facts.locale)),
            Page::Record => Screen::Record(facts.record.cloned().unwrap_or_else(RecordScreen::default)),
            Page::Bench => Screen::Choose(settings::bench_screen(facts.bench, facts.locale)),
        }
    }

    /// The key of the slab that the firm-tap key means on this screen.
    pub(super) fn own_slab(&self, facts: &Facts<'_>) -> Option<String> {
        let slab = match self.screen(facts) {
            Screen::Run(run) => run.slab,
            Screen::Sheet(sheet) => sheet.slab,
            Screen::Number(number) => number.slab,
            Screen::Stove(_)
            | Screen::Goods(_)
            | Screen::Choose(_)
            | Screen::Working(_)
            | Screen::Far(_)
            | Screen::Ask(_)
            | Screen::Returned(_)
            | Screen::Record(_)
            | Screen::Leaf(_)
            | Screen::Label(_)
            | Screen::Wipe(_) => return None,
        };
        (slab.enabled && !slab.label.is_empty()).then_some(slab.key)
    }

    fn run(&self, pot: PotNo, facts: &Facts<'_>) -> Screen {
        let Some(run) = facts.machine.pot(pot) else {
            return home(facts);
        };
        if let Some(card) = returned::screen(run, facts.locale, probably::probably(run)) {
            return Screen::Returned(card);
        }
        if self.is_far(facts.now)
            && let Some(far) = far::screen(facts.machine, pot, facts.now, facts.locale)
        {
            return Screen::Far(far);
        }
        let Some(mut screen) = run::screen(facts.machine, pot, facts.now, facts.locale, facts.saving) else {
            return home(facts);
        };
        self.with_waiting_on_rail(&mut screen.rail, facts.now, facts.locale);
        Screen::Run(Box::new(screen))
    }

    /// Home, with the bath that waits for its start.
    fn stove(&self, facts: &Facts<'_>) -> StoveScreen {
        let mut screen = stove::screen(facts.machine, facts.now, facts.locale);
        self.with_waiting_card(&mut screen.pots, facts.now, facts.locale);
        screen.can_begin = self.free_pot(facts).is_some();
        screen
    }

    /// The other pots, for the sheet of a bath that can begin; a rehearsal has none.
    fn beside(&self, draft: &Draft, sheet: &BathSheet, facts: &Facts<'_>) -> Beside {
        if draft.rehearsing || !sheet.refusals.is_empty() {
            return Beside::default();
        }
        beside::beside(
            (draft.pot, &sheet.plan),
            self.starts_at(draft.pot),
            facts.machine,
            self.waits(),
            facts.now,
            facts.locale,
        )
    }

    fn number(&self, number: &super::number_page::Number, facts: &Facts<'_>) -> NumberScreen {
        let pot = match number.purpose {
            Purpose::Weighed(pot, _) | Purpose::Reading(pot) => Some(pot),
            Purpose::Goods
            | Purpose::Setting(_)
            | Purpose::Lot(_)
            | Purpose::Part(_, _)
            | Purpose::Left(_)
            | Purpose::More(_)
            | Purpose::Low(_)
            | Purpose::NewSupply(_) => None,
        };
        let run = pot.and_then(|pot| facts.machine.pot(pot));
        let mut screen = number.screen(run.map(|run| &*run.plan), facts.locale);
        if let Some(aids) = self.aids(number, facts) {
            number.help(&mut screen, &aids, facts.locale);
        }
        screen
    }

    /// Who reads the book.
    pub(super) fn reader<'a>(&self, note: &'a str, facts: &Facts<'a>) -> Reader<'a> {
        Reader {
            recipes: facts.recipes,
            goods: self.draft.as_ref().map(|draft| draft.fibre),
            note,
            hazardous_metals: facts.bench.hazardous_metals,
            locale: facts.locale,
            findings: &[],
        }
    }

    /// What speaks against the recipe that stands on the glass, for the lot in hand.
    fn findings(&self, page: &BookPage, facts: &Facts<'_>) -> Vec<Finding> {
        let lot = self.draft.as_ref().and_then(|draft| facts.shelf.lot(draft.lot?));
        let (BookPage::Recipe(id), Some(lot)) = (page, lot) else {
            return Vec::new();
        };
        let alone = WorkList {
            id: String::new(),
            name: String::new(),
            about: String::new(),
            baths: vec![ListedBath {
                recipe: id.clone(),
                pot: None,
                then: None,
            }],
        };
        let metal = facts.bench.stove.pot.metal;
        check(&alone, facts.recipes, facts.shelf, lot, metal, facts.today)
    }

    /// The side act that stands out on a leaf or a label: what the firm-tap key means there.
    pub(super) fn strong_act(&self, facts: &Facts<'_>) -> Option<String> {
        let foot = match self.screen(facts) {
            Screen::Leaf(leaf) => leaf.foot,
            Screen::Label(label) => label.foot,
            Screen::Stove(_)
            | Screen::Goods(_)
            | Screen::Choose(_)
            | Screen::Number(_)
            | Screen::Sheet(_)
            | Screen::Working(_)
            | Screen::Run(_)
            | Screen::Far(_)
            | Screen::Ask(_)
            | Screen::Returned(_)
            | Screen::Record(_)
            | Screen::Wipe(_) => return None,
        };
        foot.into_iter()
            .find(|act| act.strong && act.enabled)
            .map(|act| act.key)
    }

    /// The bench, with the pot of the bath being put together where one is.
    pub(super) fn bench_shown(&self, facts: &Facts<'_>) -> crate::view::bench::Bench {
        let mut bench = *facts.bench;
        if let Some(draft) = &self.draft {
            bench.stove = draft.stove;
        }
        bench
    }

    fn of_draft(&self, facts: &Facts<'_>, show: impl FnOnce(&Draft) -> Screen) -> Screen {
        self.draft.as_ref().map_or_else(|| home(facts), show)
    }

    fn of_sheet(&self, facts: &Facts<'_>, show: impl FnOnce(&Draft, &BathSheet) -> Screen) -> Screen {
        let both = self
            .draft
            .as_ref()
            .and_then(|draft| Some((draft, draft.sheet.as_deref()?)));
        both.map_or_else(|| home(facts), |(draft, sheet)| show(draft, sheet))
    }
}

fn home(facts: &Facts<'_>) -> Screen {
    Screen::Stove(stove::screen(facts.machine, facts.now, facts.locale))
}

/// The goods in hand, and their recipe once one is chosen: goods that nobody has weighed yet are their fibre alone.
fn note(draft: &Draft, locale: Locale) -> String {
    let fibre = locale.read(draft.fibre.name());
    let Some(weight) = draft.weight.map(|it| locale.goods_weight(it)) else {
        return fibre;
    };
    match &draft.recipe {
        Some(recipe) => say!(
            locale,
            "{recipe} on {weight} of {fibre}",
            recipe = locale.read(&recipe.name),
            weight = weight,
            fibre = fibre
        ),
        None => say!(locale, "{weight} of {fibre}", weight = weight, fibre = fibre),
    }
}

/// The goods in hand, for the head of the book.
fn goods_note(draft: &Draft, locale: Locale) -> String {
    let weight = draft
        .weight
        .map_or_else(String::new, |it| locale.goods_weight(it));
    let lot = draft.lot.map_or_else(String::new, |lot| format!(", {lot}"));
    say!(
        locale,
        "for {weight} of {fibre}{lot}",
        weight = weight,
        fibre = locale.read(draft.fibre.name()),
        lot = lot
    )
}

fn can_drop(question: &Question, facts: &Facts<'_>) -> bool {
    match question {
        Question::More(pot) => {
            let hold = facts.machine.pot(*pot).and_then(|run| run.stand.hold);
            hold.is_some_and(|hold| !hold.reheating && hold.held.at(facts.now) >= Span::NONE)
        }
        Question::Sure { .. }
        | Question::Skip(_, _)
        | Question::Stop(_)
        | Question::Came
        | Question::Split(_)
        | Question::LetGo(_) => false,
    }
}

fn daybook(rows: &[DaybookRow], locale: Locale) -> ChooseScreen {
    ChooseScreen {
        title: say!(locale, "Daybook"),
        note: say!(locale, "the records of finished baths"),
        columns: 1,
        tiles: false,
        big: false,
        empty: say!(locale, "no bath is finished yet"),
        rows: rows
            .iter()
            .map(|row| Row {
                key: row.id.clone(),
                label: row.title.clone(),
                detail: row.note.clone(),
                value: String::new(),
                icon: Icon::Book,
                chosen: false,
                enabled: true,
            })
            .collect(),
        foot: Vec::new(),
    }
}
