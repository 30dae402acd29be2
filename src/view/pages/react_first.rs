//! What a press means in the first minutes. Answers go to a bench that isn't kept before the last of them.

use std::sync::Arc;

use crate::craft::quantity::Mass;
use crate::machine::PotNo;
use crate::msg;
use crate::view::bench::Bench;

use super::draft::Draft;
use super::first::{self, Answer, First};
use super::number_page::{Number, Purpose};
use super::page::{Facts, Page, Pages};
use super::press::Wish;
use super::settings::Setting;

/// What is played before anything is asked: a mordant most dyers begin with, on a few hanks.
const DEMO_RECIPE: &str = "alum-tartar-studio";
const DEMO_GOODS_G: f64 = 100.0;

impl Pages {
    /// An answer to a question.
    pub(super) fn answer_first(&mut self, first: First, key: &str, facts: &Facts<'_>) -> Vec<Wish> {
        match first.answer(key, facts.bench, facts.locale) {
            Some(Answer::Takes(bench)) => self.after_first(first, *bench),
            Some(Answer::KeyIn(setting)) => {
                self.open(Page::Number(Number::new(
                    Purpose::Setting(setting),
                    facts.locale.habits,
                )));
                Vec::new()
            }
            Some(Answer::Hear(bench)) => vec![Wish::GoBy(*bench), Wish::SoundCheck],
            None => Vec::new(),
        }
    }

    /// The marked answer.
    pub(super) fn marked_first(&mut self, facts: &Facts<'_>) -> Vec<Wish> {
        let Page::First(first) = self.page else {
            return Vec::new();
        };
        match first.marked(facts.bench, facts.locale) {
            Some(key) => self.answer_first(first, &key, facts),
            None => Vec::new(),
        }
    }

    /// A figure was keyed in. A pot has two of them.
    pub(super) fn keyed_first(&mut self, first: First, bench: Bench, setting: Setting) -> Vec<Wish> {
        if setting == Setting::Capacity {
            self.open(Page::Number(Number::new(
                Purpose::Setting(Setting::Diameter),
                bench.habits,
            )));
            return vec![Wish::GoBy(bench)];
        }
        self.after_first(first, bench)
    }

    /// On to the next question; after the last one the bench is kept.
    fn after_first(&mut self, first: First, bench: Bench) -> Vec<Wish> {
        let Some(next) = first.next() else {
            return self.end_first(bench);
        };
        self.open(Page::First(next));
        match next {
            First::Sound => vec![Wish::GoBy(bench), Wish::SoundCheck],
            First::Language | First::Units | First::Height | First::Pot | First::Burner | First::Power => {
                vec![Wish::GoBy(bench)]
            }
        }
    }

    fn end_first(&mut self, bench: Bench) -> Vec<Wish> {
        self.is_first = false;
        self.go_home();
        vec![Wish::KeepBench(bench)]
    }

    /// An act at the foot of a question.
    pub(super) fn side_first(&mut self, key: &str, facts: &Facts<'_>) -> Vec<Wish> {
        match key {
            first::SKIP => self.end_first(*facts.bench),
            first::DEMO => self.demo(facts),
            _ => Vec::new(),
        }
    }

    fn demo(&mut self, facts: &Facts<'_>) -> Vec<Wish> {
        let recipe = facts.recipes.iter().find(|recipe| recipe.id == DEMO_RECIPE);
        let mut draft = Draft {
            recipe: recipe.map(Arc::clone),
            weight: Some(Mass::saturating_grams(DEMO_GOODS_G)),
            ..Draft::new(PotNo(1), facts.bench.stove, true)
        };
        draft.compute(facts.bench, facts.lessons);
        let Some(sheet) = draft.sheet.filter(|sheet| sheet.refusals.is_empty()) else {
            self.say(msg!("there is no bath to rehearse on this bench"), facts.now);
            return Vec::new();
        };
        self.rehearsing = true;
        self.go_to_pot(PotNo(1));
        vec![Wish::Rehearse(sheet)]
    }
}
