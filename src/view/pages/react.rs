//! What a press means on the page that stands.

use crate::craft::fibre::Fibre;
use crate::craft::quantity::Mass;
use crate::craft::time::Span;
use crate::machine::voice::QUIET_MOST;
use crate::machine::{Ask, Input, PotNo, ReturnAnswer, SkipReason};
use crate::sheet::plan::StepIndex;

use super::draft::{Draft, Reading};
use super::number_page::{Number, Purpose, Taken};
use super::page::{Facts, Page, Pages};
use super::press::{GoodsPress, HomePress, Press, Wish};
use super::question::Question;
use super::settings::Setting;
use super::state_page;
use super::vessels_page;
use super::ways_out::{self, WayOut};

/// The pots there are.
const POTS: u8 = 6;
const ALL_GOING: &str = "all six pots are going; finish one first";

impl Pages {
    /// Takes a press. What the pages can't do themselves comes back as wishes.
    pub fn press(&mut self, press: &Press, facts: &Facts<'_>) -> Vec<Wish> {
        self.near = facts.now;
        match press {
            Press::Near => Vec::new(),
            Press::Firm(key) => self.firm(key, facts),
            Press::FirmKey => match self.own_slab(facts) {
                Some(key) => self.firm(&key, facts),
                None => Vec::new(),
            },
            Press::Side(key) => self.side(key, facts),
            Press::Choose(key) => self.choose(key, facts),
            Press::Keypad(key) => self.keypad(key),
            Press::Unit(key) => {
                if let Page::Number(number) = &mut self.page {
                    number.choose_unit(key);
                }
                Vec::new()
            }
            Press::Digit(digit) => self.digit(*digit, facts),
            Press::Point => self.keypad("point"),
            Press::TakeBack => self.take_back_key(),
            Press::Heard => heard(self, facts),
            Press::Back => self.back_key(),
            Press::Pot(pot) => {
                self.go_to_pot(*pot);
                Vec::new()
            }
            Press::Home(home) => self.home(*home, facts),
            Press::Goods(goods) => {
                self.goods(goods);
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
            HomePress::Recipes => {}
        }
        Vec::new()
    }

    fn begin(&mut self, facts: &Facts<'_>, rehearsing: bool) {
        match free_pot(facts) {
            Some(pot) => {
                self.draft = Some(Draft {
                    hazardous_metals: facts.bench.hazardous_metals,
                    ..Draft::new(pot, facts.bench.stove, rehearsing)
                });
                self.open(Page::Goods);
            }
            None => self.say(ALL_GOING, facts.now),
        }
    }

    fn goods(&mut self, press: &GoodsPress) {
        let Some(draft) = self.draft.as_mut() else { return };
        match press {
            GoodsPress::Fibre(id) => draft.fibre = Fibre::from_id(id).unwrap_or(draft.fibre),
            GoodsPress::FewerHanks => draft.hanks = draft.hanks.saturating_sub(1).max(1),
            GoodsPress::MoreHanks => draft.hanks = draft.hanks.saturating_add(1).min(99),
            GoodsPress::KeyWeight => self.open(Page::Number(Number::new(Purpose::Goods))),
            GoodsPress::ChooseState => self.open(Page::State),
            GoodsPress::GoOn => {
                if draft.weight.is_some() {
                    let next = if draft.recipe.is_some() {
                        Page::Pot
                    } else {
                        Page::Recipes
                    };
                    self.open(next);
                }
            }
        }
    }

    fn keypad(&mut self, key: &str) -> Vec<Wish> {
        if let Page::Number(number) = &mut self.page {
            number.key(key);
        }
        Vec::new()
    }

    fn digit(&mut self, digit: char, facts: &Facts<'_>) -> Vec<Wish> {
        if let Page::Number(_) = self.page {
            return self.keypad(&digit.to_string());
        }
        let pot = digit
            .to_digit(10)
            .and_then(|digit| u8::try_from(digit).ok())
            .map(PotNo);
        if let Some(pot) = pot.filter(|pot| facts.machine.pot(*pot).is_some()) {
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
            | Page::Goods
            | Page::State
            | Page::Recipes
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
        if self.page == Page::Stove {
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
            | Page::Goods
            | Page::State
            | Page::Recipes
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
                if let Some(draft) = self.draft.as_mut() {
                    draft.weight = Some(mass);
                }
                Vec::new()
            }
            Taken::Tell(input) => vec![Wish::Tell(input)],
            Taken::Stove(stove) => match self.draft.as_mut() {
                Some(draft) => {
                    draft.stove = *stove;
                    Vec::new()
                }
                None => {
                    let mut bench = *facts.bench;
                    bench.stove = *stove;
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
            (Question::Sure { .. } | Question::More(_) | Question::Stop(_), _) => Vec::new(),
        }
    }

    /// A side act, or an act at the foot of a list.
    fn side(&mut self, key: &str, facts: &Facts<'_>) -> Vec<Wish> {
        match (&self.page, key) {
            (Page::Run(pot), "heard") => vec![Wish::Tell(Input::Pot(*pot, Ask::Heard))],
            (Page::Run(pot), "take-back") => vec![Wish::Tell(Input::Pot(*pot, Ask::TakeBack))],
            (Page::Run(pot), "reading") => {
                self.open(Page::Number(Number::new(Purpose::Reading(*pot))));
                Vec::new()
            }
            (Page::Run(pot), "weighed") => {
                let pot = *pot;
                if let Some(run) = facts.machine.pot(pot) {
                    self.open(Page::Number(Number::new(Purpose::Weighed(pot, run.stand.step))));
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
            self.say("the recipe of this bath is not at hand any more", facts.now);
            return;
        };
        let Some(pot) = free_pot(facts) else {
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
        if let Some(draft) = self.draft.as_mut() {
            let states = state_page::states(draft.fibre);
            if let Some((_, state)) = states.into_iter().find(|(id, _)| *id == key) {
                draft.weighed_as = state;
            }
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
                self.page = Page::Recipes;
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
            Page::Recipes => {
                let recipe = facts.recipes.iter().find(|recipe| recipe.id == key).cloned();
                if let (Some(draft), Some(recipe)) = (self.draft.as_mut(), recipe) {
                    draft.recipe = Some(recipe);
                    self.open(Page::Pot);
                }
                Vec::new()
            }
            Page::Vessels => self.choose_vessel(key, facts),
            Page::Pot | Page::Bench if key == vessels_page::KEY => {
                self.open(Page::Vessels);
                Vec::new()
            }
            Page::Pot | Page::Bench => {
                if let Some(setting) = Setting::from_key(key) {
                    let keyed = !setting.units().is_empty();
                    self.open(if keyed {
                        Page::Number(Number::new(Purpose::Setting(setting)))
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
            Page::Sheet => {
                self.take_way_out(key, facts);
                Vec::new()
            }
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

/// The first pot with no bath going.
fn free_pot(facts: &Facts<'_>) -> Option<PotNo> {
    let taken = |pot: &PotNo| {
        facts
            .machine
            .pot(*pot)
            .is_some_and(|run| run.stand.ended.is_none())
    };
    (1..=POTS).map(PotNo).find(|pot| !taken(pot))
}

/// The key that says *heard*: the pot in front, or every pot that calls.
fn heard(pages: &Pages, facts: &Facts<'_>) -> Vec<Wish> {
    if let Page::Run(pot) = pages.page {
        return vec![Wish::Tell(Input::Pot(pot, Ask::Heard))];
    }
    let calling = facts.machine.pots().filter(|run| !run.stand.calls.is_empty());
    calling
        .map(|run| Wish::Tell(Input::Pot(run.pot, Ask::Heard)))
        .collect()
}
