//! The far view: nobody is near, so only the act, its time and the pot.

use crate::craft::time::Moment;
use crate::machine::{Machine, PotNo, PotRun};

use crate::say;

use super::locale::Locale;
use super::pot_picture;
use super::run;
use super::screen::{ActWords, FarScreen};
use super::waiting::{self, Waiting};

/// The far view of a pot; `None` when there is no bath in it.
#[must_use]
pub fn screen(machine: &Machine, pot: PotNo, now: Moment, locale: Locale) -> Option<FarScreen> {
    let run = machine.pot(pot)?;
    let waiting = waiting::of(run, now);
    let (picture, _) = pot_picture::of_run(run, locale);
    let mut words = run::act_words(run, waiting, now, locale);
    if let Some(pots) = run::round(machine, run, waiting) {
        words.amount = run::numbers(&pots);
    }
    let (time, time_label) = time(&words, waiting, locale);
    Some(FarScreen {
        pot: picture,
        first: first(&words),
        second: second(run, &words, waiting, locale),
        time,
        time_label,
        calling: waiting::is_calling(run, now),
    })
}

fn first(words: &ActWords) -> String {
    if words.amount.is_empty() {
        words.verb.clone()
    } else {
        format!("{} {}", words.verb, words.amount)
    }
}

/// The object; in a hold, which turn comes next.
fn second(run: &PotRun, words: &ActWords, waiting: Waiting, locale: Locale) -> String {
    match waiting {
        Waiting::Turn(..) => run::turn_count(run).map_or_else(
            || words.object.clone(),
            |(number, count)| {
                say!(
                    locale,
                    "{object}, turn {number} of {count}",
                    object = words.object,
                    number = number,
                    count = count
                )
            },
        ),
        Waiting::Ended(_)
        | Waiting::Answer
        | Waiting::Call(_)
        | Waiting::HoldEnd(_)
        | Waiting::Reheating
        | Waiting::Heat(_)
        | Waiting::HeatUnknown
        | Waiting::Soak(_)
        | Waiting::Rest(_)
        | Waiting::Look(_)
        | Waiting::Drying
        | Waiting::Hands => words.object.clone(),
    }
}

/// The act's time; where it has none and hands are wanted, that.
fn time(words: &ActWords, waiting: Waiting, locale: Locale) -> (String, String) {
    if !words.time.is_empty() {
        return (words.time.clone(), words.time_label.clone());
    }
    match waiting {
        Waiting::Answer | Waiting::Call(_) => (say!(locale, "now"), say!(locale, "hands due")),
        Waiting::Hands => (say!(locale, "now"), say!(locale, "your hands")),
        Waiting::Ended(_)
        | Waiting::Turn(..)
        | Waiting::HoldEnd(_)
        | Waiting::Reheating
        | Waiting::Heat(_)
        | Waiting::HeatUnknown
        | Waiting::Soak(_)
        | Waiting::Rest(_)
        | Waiting::Look(_)
        | Waiting::Drying => (String::new(), String::new()),
    }
}
