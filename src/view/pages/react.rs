//! What a press means on the page that stands.

use crate::craft::fibre::Fibre;
use crate::craft::quantity::Mass;
use crate::craft::time::Span;
use crate::machine::voice::QUIET_MOST;
use crate::machine::{Ask, Input, PotNo, ReturnAnswer, SkipReason};
use crate::msg;
use crate::sheet::plan::StepIndex;
use crate::shelf::{Came, ShelfAsk};

use super::book::BookPage;
use super::draft::{Draft, Reading};
use super::goods_page;
use super::number_page::{Number, Purpose, Taken};
use super::page::{Facts, Page, Pages};
use super::press::{GoodsPress, HomePress, Press, Wish};
use super::question::Question;
use super::settings::Setting;
use super::shelf::ShelfPage;
use super::state_page;
use super::vessels_page;
use super::ways_out::{self, WayOut};

/// The pots there are.
const POTS: u8 = 6;
/// So many hanks can be counted up to.
const HANKS_MOST: u32 = 99;
pub(super) const ALL_GOING: &str = msg!("all six pots are going; finish one first");

impl Pages {
    /// Takes a press. What the pages can't do themselves comes back as wishes.
    pub fn press(&mut self, press: &Press, facts: &Facts<'_>) -> Vec<Wish> {
        let was_far = self.is_far(facts.now) && matches!(self.page, Page::Run(_));
        self.near = facts.now;
        // The far view doesn't show what these two would do: they only bring it near.
        if was_far && matches!(press, Press::FirmKey | Press::TakeBack) {
            return Vec::new();
        }
        match press {
            Press::Near => Vec::new(),
            Press::Firm(key) => self.firm(key, facts),
            Press::FirmKey => match self.own_slab(facts) {
                Some(key) => self.firm(&key, facts),
                None => match self.strong_act(facts) {
                    Some(key) => self.side(&key, facts),
                    None => self.marked_first(facts),
                },
            },
            Press::Side(key) => self.side(key, facts),
            Press::Choose(key) => self.choose(key, facts),
            Press::Keypad(key) => self.keypad(key, facts),
            Press::Unit(key) => {
                if let Page::Number(number) = &mut self.page {
                    number.choose_unit(key);
                }
                Vec::new()
            }
            Press::Digit(digit) => self.digit(*digit, facts),
            Press::Point => self.keypad("point", facts),
            Press::TakeBack => self.take_back_key(),
            Press::Heard => heard(self, facts),
            Press::Back => self.back_key(),
            Press::Pot(pot) => {
                if !self.open_put_off(*pot) {
                    self.go_to_pot(*pot);
                }
                Vec::new()
            }
            Press::Home(home) => self.home(*home, facts),
            Press::Goods(goods) if self.page == Page::Shelf(ShelfPage::New) => {
                self.describe_lot(goods, facts)
            }
            Press::Goods(goods) => {
                self.goods(goods, facts);
                Vec::new()
            }
            Press::Working(key) => {
                if let Ok(index) = key.parse() {
                    self.open(Page::Working(index));
                }
                Vec::new()
            }
        }
    }

    fn home(&mut self, home: HomePress, facts: &Facts<'_>) -> Vec<Wish> {
        match home {
            HomePress::Begin => self.begin(facts, false),
            HomePress::Rehearse => self.begin(facts, true),
            HomePress::Daybook => self.open(Page::Daybook),
            HomePress::Bench => self.open(Page::Bench),
            HomePress::Recipes => self.open(Page::Book(BookPage::Kinds)),
            HomePress::Shelf => self.open(Page::Shelf(ShelfPage::Lots)),
        }
        Vec::new()
    }

    fn begin(&mut self, facts: &Facts<'_>, rehearsing: bool) {
        if let Some(draft) = self.new_draft(rehearsing, facts) {
            self.draft = Some(draft);
            self.open(Page::Goods);
        }
    }

    /// What the lot that is put down is.
    fn describe_lot(&mut self, press: &GoodsPress, facts: &Facts<'_>) -> Vec<Wish> {
        let form = &mut self.remembered.form;
        match press {
            GoodsPress::Fibre(id) => form.fibre = Fibre::from_id(id).unwrap_or(form.fibre),
            GoodsPress::FewerHanks => form.hanks = fewer(form.hanks),
            GoodsPress::MoreHanks => form.hanks = more(form.hanks),
            GoodsPress::KeyWeight => {
                self.open(Page::Number(Number::new(Purpose::Goods, facts.locale.habits)));
            }
            GoodsPress::ChooseState => self.open(Page::State),
            GoodsPress::GoOn if form.weight.is_some() => return self.ask_how_it_came(facts),
            GoodsPress::GoOn => {}
        }
        Vec::new()
    }

    /// A lot of the shelf goes in whole: with another fibre or another count of hanks it isn't that lot any more.
    fn no_lot_any_more(&mut self, facts: &Facts<'_>) {
        let lot = self.draft.as_mut().and_then(|draft| draft.lot.take());
        if let Some(lot) = lot {
            self.say(
                msg!(
                    "no longer {lot} from the shelf; to work a part of it, split it there",
                    lot = lot
                ),
                facts.now,
            );
        }
    }

    fn goods(&mut self, press: &GoodsPress, facts: &Facts<'_>) {
        match press {
            GoodsPress::Fibre(id) if id == goods_page::FROM_THE_SHELF => {
                self.open(Page::Shelf(ShelfPage::Pick));
                return;
            }
            GoodsPress::Fibre(_) | GoodsPress::FewerHanks | GoodsPress::MoreHanks => {
                self.no_lot_any_more(facts);
            }
            GoodsPress::KeyWeight | GoodsPress::ChooseState | GoodsPress::GoOn => {}
        }
        let Some(draft) = self.draft.as_mut() else { return };
        match press {
            GoodsPress::Fibre(id) => draft.fibre = Fibre::from_id(id).unwrap_or(draft.fibre),
            GoodsPress::FewerHanks => draft.hanks = fewer(draft.hanks),
            GoodsPress::MoreHanks => draft.hanks = more(draft.hanks),
            GoodsPress::KeyWeight => {
                self.open(Page::Number(Number::new(Purpose::Goods, facts.locale.habits)));
            }
            GoodsPress::ChooseState => self.open(Page::State),
            GoodsPress::GoOn => {
                if draft.weight.is_some() {
                    let next = if draft.recipe.is_some() {
                        Page::Pot
                    } else {
                        Page::Book(BookPage::Kinds)
                    };
                    self.open(next);
                }
            }
        }
    }

    fn keypad(&mut self, key: &str, facts: &Facts<'_>) -> Vec<Wish> {
        let aids = if let Page::Number(number) = &self.page {
            self.aids(number, facts)
        } else {
            None
        };
        if let Page::Number(number) = &mut self.page {
            let has_stepped = aids.is_some_and(|aids| number.step(key, &aids));
            if !has_stepped {
                number.key(key);
            }
        }
        Vec::new()
    }

    fn digit(&mut self, digit: char, facts: &Facts<'_>) -> Vec<Wish> {
        if let Page::Number(_) = self.page {
            return self.keypad(&digit.to_string(), facts);
        }
        let pot = digit
            .to_digit(10)
            .and_then(|digit| u8::try_from(digit).ok())
            .map(PotNo);
        if let Some(pot) = pot
            && !self.open_put_off(pot)
            && facts.machine.pot(pot).is_some()
        {
            self.go_to_pot(pot);
        }
        Vec::new()
    }

    fn take_back_key(&mut self) -> Vec<Wish> {
        match &mut self.page {
            Page::Number(number) => {
                number.key("erase");
                Vec::new()
            }
            Page::Run(pot) => vec![Wish::Tell(Input::Pot(*pot, Ask::TakeBack))],
            Page::Stove
            | Page::First(_)
            | Page::Goods
            | Page::State
            | Page::Book(_)
            | Page::Shelf(_)
            | Page::Pot
            | Page::Vessels
            | Page::Option(_)
            | Page::Sheet
            | Page::Working(_)
            | Page::Ask(_)
            | Page::Daybook
            | Page::Record
            | Page::Bench => Vec::new(),
        }
    }

    fn back_key(&mut self) -> Vec<Wish> {
        if self.rehearsing && matches!(self.page, Page::Run(_)) {
            self.rehearsing = false;
            self.go_home();
            return vec![Wish::EndRehearsal];
        }
        self.go_back();
        // A bath that is being put together is let go of with the first of its own pages.
        let is_its_own = |page: &Page| matches!(page, Page::Goods | Page::Pot | Page::Sheet);
        if !is_its_own(&self.page) && !self.back.iter().any(is_its_own) {
            self.draft = None;
        }
        Vec::new()
    }

    /// A firm tap on a slab.
    fn firm(&mut self, key: &str, facts: &Facts<'_>) -> Vec<Wish> {
        match &mut self.page {
            Page::Run(pot) => {
                let pot = *pot;
                self.firm_at_pot(pot, key, facts)
            }
            Page::Number(number) => {
                let stove = self.draft.as_ref().map_or(facts.bench.stove, |draft| draft.stove);
                match number.take(&stove) {
                    Some(taken) => self.number_taken(taken, facts),
                    None => Vec::new(),
                }
            }
            Page::Sheet => self.firm_on_sheet(key),
            Page::Ask(question) => {
                let question = question.clone();
                self.answer(&question, key, facts)
            }
            Page::Stove
            | Page::First(_)
            | Page::Goods
            | Page::State
            | Page::Book(_)
            | Page::Shelf(_)
            | Page::Pot
            | Page::Vessels
            | Page::Option(_)
            | Page::Working(_)
            | Page::Daybook
            | Page::Record
            | Page::Bench => Vec::new(),
        }
    }

    fn firm_at_pot(&mut self, pot: PotNo, key: &str, facts: &Facts<'_>) -> Vec<Wish> {
        let tell = |ask| vec![Wish::Tell(Input::Pot(pot, ask))];
        if let Some(step) = key.strip_prefix("confirm-").and_then(|step| step.parse().ok()) {
            return tell(Ask::Confirm {
                step: StepIndex(step),
                sure: false,
            });
        }
        if let Some(step) = key.strip_prefix("not-yet-").and_then(|step| step.parse().ok()) {
            return tell(Ask::NotYet {
                step: StepIndex(step),
            });
        }
        match key {
            "close-pot" if self.rehearsing => {
                self.rehearsing = false;
                self.go_home();
                vec![Wish::EndRehearsal]
            }
            "close-pot" => {
                self.go_home();
                Vec::new()
            }
            "turn-round" => vec![Wish::Tell(Input::TurnRound)],
            "answer-carry-on" => tell(Ask::AnswerReturn(ReturnAnswer::CarryOn)),
            "answer-count-it" => tell(Ask::AnswerReturn(ReturnAnswer::CountIt)),
            "answer-hold-again" => tell(Ask::AnswerReturn(ReturnAnswer::HoldAgain)),
            "answer-back-to-raise" => tell(Ask::AnswerReturn(ReturnAnswer::BackToRaise)),
            "stop" => {
                self.open(Page::Ask(Question::Stop(pot)));
                Vec::new()
            }
            _ => self.side(key, facts),
        }
    }

    fn firm_on_sheet(&mut self, key: &str) -> Vec<Wish> {
        let Some(draft) = self.draft.as_mut() else {
            return Vec::new();
        };
        match (key, draft.sheet.clone()) {
            ("open-cautions", Some(_)) => {
                draft.cautions = Reading::Open;
                Vec::new()
            }
            ("read-cautions", Some(_)) => {
                draft.cautions = Reading::Done;
                Vec::new()
            }
            ("start", Some(sheet)) if draft.cautions == Reading::Done && sheet.refusals.is_empty() => {
                let (pot, rehearsing) = (draft.pot, draft.rehearsing);
                self.rehearsing = rehearsing;
                self.go_to_pot(if rehearsing { PotNo(1) } else { pot });
                if rehearsing {
                    vec![Wish::Rehearse(sheet)]
                } else {
                    self.begun(pot);
                    vec![Wish::Begin(pot, sheet)]
                }
            }
            (_, _) => Vec::new(),
        }
    }

    fn number_taken(&mut self, taken: Taken, facts: &Facts<'_>) -> Vec<Wish> {
        self.go_back();
        match taken {
            Taken::Goods(mass) => {
                self.remembered.goods = Some(mass);
                match self.draft.as_mut() {
                    Some(draft) => draft.weight = Some(mass),
                    None => self.remembered.form.weight = Some(mass),
                }
                Vec::new()
            }
            Taken::Tell(input) => vec![Wish::Tell(input)],
            Taken::Shelf(purpose, weight) => self.weight_for_shelf(purpose, weight, facts),
            Taken::Stove(setting, stove) => match self.draft.as_mut() {
                Some(draft) => {
                    draft.stove = *stove;
                    Vec::new()
                }
                None => {
                    let mut bench = *facts.bench;
                    bench.stove = *stove;
                    if let Page::First(first) = self.page {
                        return self.keyed_first(first, bench, setting);
                    }
                    vec![Wish::KeepBench(bench)]
                }
            },
        }
    }

    fn answer(&mut self, question: &Question, key: &str, facts: &Facts<'_>) -> Vec<Wish> {
        self.go_back();
        match (question, key) {
            (Question::Sure { input, .. }, "sure") => vec![Wish::Tell((**input).clone())],
            (Question::More(pot), "skip") => {
                if let Some(run) = facts.machine.pot(*pot) {
                    self.open(Page::Ask(Question::Skip(*pot, run.stand.step)));
                }
                Vec::new()
            }
            (Question::More(pot), "back-to-raise") => vec![Wish::Tell(Input::Pot(*pot, Ask::BackToRaise))],
            (Question::More(_), "quiet-all") => vec![Wish::Quiet(QUIET_MOST)],
            (Question::More(_), "end-quiet") => vec![Wish::Quiet(Span::NONE)],
            (Question::More(pot), "ask-stop") => {
                self.open(Page::Ask(Question::Stop(*pot)));
                Vec::new()
            }
            (Question::Skip(pot, step), key) => {
                let reason = SkipReason::ALL.into_iter().find(|reason| reason.id() == key);
                let skip = reason.map(|reason| Ask::Skip { step: *step, reason });
                skip.map(|ask| Wish::Tell(Input::Pot(*pot, ask)))
                    .into_iter()
                    .collect()
            }
            (Question::Stop(pot), "stop") => vec![Wish::Tell(Input::Pot(*pot, Ask::Stop))],
            (Question::Came, "scoured") => self.put_down(Came::Scoured, facts),
            (Question::Came, "raw") => self.put_down(Came::Raw, facts),
            (Question::Split(asked), "split") => vec![Wish::AskShelf(asked.ask())],
            (Question::Split(asked), "weigh") => {
                self.open(Page::Number(Number::new(
                    Purpose::Part(asked.lot, asked.first_hanks),
                    facts.locale.habits,
                )));
                Vec::new()
            }
            (Question::LetGo(lot), "let-go") => vec![Wish::AskShelf(ShelfAsk::LetGo(*lot))],
            (
                Question::Sure { .. }
                | Question::More(_)
                | Question::Stop(_)
                | Question::Came
                | Question::Split(_)
                | Question::LetGo(_),
                _,
            ) => Vec::new(),
        }
    }

    /// The first pot with no bath going, and none waiting for its start.
    pub(super) fn free_pot(&self, facts: &Facts<'_>) -> Option<PotNo> {
        let is_going = |pot: PotNo| {
            let run = facts.machine.pot(pot);
            run.is_some_and(|run| run.stand.ended.is_none())
        };
        let waiting = self.waiting_pot();
        (1..=POTS)
            .map(PotNo)
            .find(|pot| !is_going(*pot) && waiting != Some(*pot))
    }

    /// A side act, or an act at the foot of a list.
    fn side(&mut self, key: &str, facts: &Facts<'_>) -> Vec<Wish> {
        if let Page::Shelf(page) = &self.page {
            let page = page.clone();
            return self.side_of_shelf(&page, key, facts);
        }
        match (&self.page, key) {
            (Page::First(_), key) => self.side_first(key, facts),
            (Page::Run(pot), "heard") => vec![Wish::Tell(Input::Pot(*pot, Ask::Heard))],
            (Page::Run(pot), "take-back") => vec![Wish::Tell(Input::Pot(*pot, Ask::TakeBack))],
            (Page::Run(pot), "reading") => {
                self.open(Page::Number(Number::new(
                    Purpose::Reading(*pot),
                    facts.locale.habits,
                )));
                Vec::new()
            }
            (Page::Run(pot), "weighed") => {
                let pot = *pot;
                if let Some(run) = facts.machine.pot(pot) {
                    self.open(Page::Number(Number::new(
                        Purpose::Weighed(pot, run.stand.step),
                        facts.locale.habits,
                    )));
                }
                Vec::new()
            }
            (Page::Run(pot), "more") => {
                self.open(Page::Ask(Question::More(*pot)));
                Vec::new()
            }
            (Page::Run(_), "stove") => {
                if self.rehearsing {
                    return self.back_key();
                }
                self.go_home();
                Vec::new()
            }
            (Page::Pot, "go-on") => {
                if let Some(draft) = self.draft.as_mut() {
                    draft.compute(facts.bench, facts.lessons);
                    self.open(Page::Sheet);
                }
                Vec::new()
            }
            (Page::Record, "again" | "next-goods") => {
                self.again(key == "next-goods", facts);
                Vec::new()
            }
            (Page::Vessels, _) => {
                let bench = match key {
                    "one-more-pot" => facts.bench.keeping_pot(),
                    "one-more-burner" => facts.bench.keeping_burner(),
                    "these-alone" => facts.bench.with_these_alone(),
                    _ => return Vec::new(),
                };
                vec![Wish::KeepBench(bench)]
            }
            (Page::Book(BookPage::Recipe(id)), "take" | "rehearse") => {
                let id = id.clone();
                self.take_recipe(&id, key == "rehearse", facts);
                Vec::new()
            }
            (Page::Bench, "sound-check") => vec![Wish::SoundCheck],
            (_, _) => Vec::new(),
        }
    }

    /// The bath of the open record once more: on fresh liquor, or in the liquor it left.
    fn again(&mut self, in_its_liquor: bool, facts: &Facts<'_>) {
        let Some(again) = facts.again else { return };
        let in_book = || {
            facts
                .recipes
                .iter()
                .find(|recipe| recipe.id == again.used.recipe_id)
        };
        let Some(recipe) = again.recipe.as_ref().or_else(in_book) else {
            self.say(msg!("the recipe of this bath is not at hand any more"), facts.now);
            return;
        };
        let Some(pot) = self.free_pot(facts) else {
            self.say(ALL_GOING, facts.now);
            return;
        };
        let mut draft = Draft::again(pot, facts.bench.stove, again, recipe.clone());
        draft.used = in_its_liquor.then(|| again.used.clone());
        self.draft = Some(draft);
        self.open(Page::Goods);
    }

    /// A pot or a burner of the bench: for this bath, or for the stove.
    fn choose_vessel(&mut self, key: &str, facts: &Facts<'_>) -> Vec<Wish> {
        let bench = self.bench_shown(facts);
        let Some(chosen) = vessels_page::chosen(key, &bench) else {
            return Vec::new();
        };
        match self.draft.as_mut() {
            Some(draft) => {
                draft.stove = chosen.stove;
                self.go_back();
                Vec::new()
            }
            None => vec![Wish::KeepBench(chosen)],
        }
    }

    fn choose_state(&mut self, key: &str) {
        let form = &mut self.remembered.form;
        let (fibre, kept) = match self.draft.as_mut() {
            Some(draft) => (draft.fibre, &mut draft.weighed_as),
            None => (form.fibre, &mut form.state),
        };
        let states = state_page::states(fibre);
        if let Some((_, state)) = states.into_iter().find(|(id, _)| *id == key) {
            *kept = state;
        }
        self.go_back();
    }

    fn take_way_out(&mut self, key: &str, facts: &Facts<'_>) {
        let (Some(way), Some(draft)) = (WayOut::from_key(key), self.draft.as_mut()) else {
            return;
        };
        match way {
            WayOut::Goods => self.page = Page::Goods,
            WayOut::Recipe => {
                draft.used = None;
                self.page = Page::Book(BookPage::Kinds);
            }
            WayOut::Pot => self.page = Page::Pot,
            WayOut::OtherPot => {
                if let Some(pot) = draft.sheet.as_ref().and_then(|sheet| ways_out::other_pot(sheet)) {
                    draft.stove.pot = pot;
                    draft.compute(facts.bench, facts.lessons);
                }
            }
            WayOut::Split(grams) => {
                draft.weight = Some(Mass::saturating_grams(grams));
                draft.compute(facts.bench, facts.lessons);
            }
            WayOut::Part(part) => {
                if let Some(used) = draft.used.as_mut() {
                    used.part = Some(part);
                }
                draft.compute(facts.bench, facts.lessons);
            }
        }
    }

    /// A row or tile of a list.
    fn choose(&mut self, key: &str, facts: &Facts<'_>) -> Vec<Wish> {
        match &self.page {
            Page::Book(page) => {
                let page = page.clone();
                self.choose_in_book(&page, key, facts);
                Vec::new()
            }
            Page::Shelf(page) => {
                let page = page.clone();
                self.choose_on_shelf(&page, key, facts)
            }
            Page::First(first) => self.answer_first(*first, key, facts),
            Page::Vessels => self.choose_vessel(key, facts),
            Page::Pot | Page::Bench if key == vessels_page::KEY => {
                self.open(Page::Vessels);
                Vec::new()
            }
            Page::Pot | Page::Bench => {
                if let Some(setting) = Setting::from_key(key) {
                    let keyed = !setting.units().is_empty();
                    self.open(if keyed {
                        Page::Number(Number::new(Purpose::Setting(setting), facts.locale.habits))
                    } else {
                        Page::Option(setting)
                    });
                }
                Vec::new()
            }
            Page::Option(setting) => {
                let chosen = setting.choose(key, &self.bench_shown(facts));
                self.go_back();
                match self.draft.as_mut() {
                    Some(draft) => {
                        draft.stove = chosen.stove;
                        Vec::new()
                    }
                    None => vec![Wish::KeepBench(chosen)],
                }
            }
            Page::Daybook => {
                self.open(Page::Record);
                vec![Wish::OpenRecord(key.to_owned())]
            }
            Page::State => {
                self.choose_state(key);
                Vec::new()
            }
            Page::Sheet => self.press_start(key, facts).unwrap_or_else(|| {
                self.take_way_out(key, facts);
                Vec::new()
            }),
            Page::Stove
            | Page::Goods
            | Page::Number(_)
            | Page::Working(_)
            | Page::Run(_)
            | Page::Ask(_)
            | Page::Record => Vec::new(),
        }
    }
}

const fn fewer(hanks: u32) -> u32 {
    if hanks > 1 { hanks.saturating_sub(1) } else { 1 }
}

const fn more(hanks: u32) -> u32 {
    if hanks < HANKS_MOST {
        hanks.saturating_add(1)
    } else {
        hanks
    }
}

/// The key that says *heard*: the pot in front, or every pot that calls.
fn heard(pages: &mut Pages, facts: &Facts<'_>) -> Vec<Wish> {
    pages.hear_to_begin(facts.now);
    if let Page::Run(pot) = pages.page {
        return vec![Wish::Tell(Input::Pot(pot, Ask::Heard))];
    }
    let calling = facts.machine.pots().filter(|run| !run.stand.calls.is_empty());
    calling
        .map(|run| Wish::Tell(Input::Pot(run.pot, Ask::Heard)))
        .collect()
}
