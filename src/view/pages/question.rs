//! Questions with a few answers.

use super::shelf::SplitAsked;
use crate::craft::lot::LotId;
use crate::machine::{Ask, Input, PotNo, Refusal, SkipReason};
use crate::sheet::plan::StepIndex;
use crate::view::locale::Locale;
use crate::view::screen::{AskScreen, Icon, Slab};
use crate::{msg, say};

/// What is asked.
#[derive(Debug, Clone, PartialEq)]
pub enum Question {
    /// The machine doubts an input; it can be sent again as sure.
    Sure {
        /// The same input, sure.
        input: Box<Input>,
        /// Which pot.
        pot: PotNo,
        /// The doubt.
        refusal: Refusal,
    },
    /// What else can be done at this pot.
    More(PotNo),
    /// Why a step is left out.
    Skip(PotNo, StepIndex),
    /// Whether to end a bath here.
    Stop(PotNo),
    /// How the lot being described came.
    Came,
    /// Whether to split a lot so.
    Split(Box<SplitAsked>),
    /// Whether a lot leaves the shelf for good.
    LetGo(LotId),
}

impl Question {
    /// The question a refusal is, if it is one.
    pub(super) fn sure(input: &Input, refusal: Refusal) -> Option<Self> {
        if !refusal.can_be_sure() {
            return None;
        }
        let Input::Pot(pot, ask) = input else { return None };
        let sure = match ask {
            Ask::Confirm { step, .. } => Ask::Confirm {
                step: *step,
                sure: true,
            },
            Ask::Weighed { step, mass, .. } => Ask::Weighed {
                step: *step,
                mass: *mass,
                sure: true,
            },
            Ask::Reading(_)
            | Ask::NotYet { .. }
            | Ask::BackToRaise
            | Ask::Skip { .. }
            | Ask::TakeBack
            | Ask::Heard
            | Ask::AnswerReturn(_)
            | Ask::Stop => return None,
        };
        Some(Self::Sure {
            input: Box::new(Input::Pot(*pot, sure)),
            pot: *pot,
            refusal,
        })
    }

    /// The question as a screen.
    pub(super) fn screen(&self, can_drop: bool, is_quiet: bool, locale: Locale) -> AskScreen {
        let choice = |key: &str, label: &str, icon| choice(key, locale.say(label), icon);
        match self {
            Self::Sure { pot, refusal, .. } => AskScreen {
                pot: i32::from(pot.0),
                title: say!(locale, "Are you sure?"),
                detail: sentence(&locale.read(&refusal.to_string())),
                facts: Vec::new(),
                choices: vec![
                    choice("sure", msg!("Yes, keep it"), Icon::Tick),
                    choice("back", msg!("No, go back"), Icon::Left),
                ],
            },
            Self::More(pot) => AskScreen {
                pot: i32::from(pot.0),
                title: say!(locale, "What else?"),
                detail: say!(locale, "Everything done here stays in the record."),
                facts: Vec::new(),
                choices: more(can_drop, is_quiet, locale),
            },
            Self::Skip(pot, _) => AskScreen {
                pot: i32::from(pot.0),
                title: say!(locale, "Skip this step: why?"),
                detail: String::new(),
                facts: Vec::new(),
                choices: SkipReason::ALL
                    .into_iter()
                    .map(|reason| choice(reason.id(), reason_words(reason), Icon::Skip))
                    .chain([choice("back", msg!("Don't skip it"), Icon::Left)])
                    .collect(),
            },
            Self::Stop(pot) => AskScreen {
                pot: i32::from(pot.0),
                title: say!(locale, "Stop this bath here?"),
                detail: say!(
                    locale,
                    "Turn the burner off first. The record is sealed as it stands."
                ),
                facts: Vec::new(),
                choices: vec![
                    choice("stop", msg!("Stop it"), Icon::Cross),
                    choice("back", msg!("Go on"), Icon::Left),
                ],
            },
            Self::Came => AskScreen {
                pot: 0,
                title: say!(locale, "Are they scoured?"),
                detail: say!(locale, "Grease and size keep mordant and dye out."),
                facts: Vec::new(),
                choices: vec![
                    choice("scoured", msg!("Yes, scoured"), Icon::Tick),
                    choice("raw", msg!("No: to be scoured"), Icon::Drop),
                    choice("back", msg!("Go back"), Icon::Left),
                ],
            },
            Self::Split(asked) => AskScreen {
                choices: vec![
                    choice("split", msg!("Split it so"), Icon::Tick),
                    choice("weigh", msg!("Weigh the first part"), Icon::Scale),
                    choice("back", msg!("Go back"), Icon::Left),
                ],
                ..asked.screen(locale)
            },
            Self::LetGo(lot) => AskScreen {
                pot: 0,
                title: say!(locale, "Take {lot} off the shelf?", lot = lot),
                detail: say!(locale, "For good: used, given away, sold. Its history stays."),
                facts: Vec::new(),
                choices: vec![
                    choice("let-go", msg!("Take it off"), Icon::Cross),
                    choice("back", msg!("Leave it"), Icon::Left),
                ],
            },
        }
    }
}

fn more(can_drop: bool, is_quiet: bool, locale: Locale) -> Vec<Slab> {
    let choice = |key: &str, label: &str, icon| choice(key, locale.say(label), icon);
    let mut choices = vec![choice("skip", msg!("Skip this step"), Icon::Skip)];
    if can_drop {
        choices.push(choice(
            "back-to-raise",
            msg!("It dropped: heat again"),
            Icon::Flame,
        ));
    }
    choices.push(if is_quiet {
        choice("end-quiet", msg!("Let the pots be heard"), Icon::Heard)
    } else {
        choice("quiet-all", msg!("Quiet all pots, 10 min"), Icon::SoundOff)
    });
    choices.push(choice("ask-stop", msg!("Stop this bath"), Icon::Cross));
    choices.push(choice("back", msg!("Back to the pot"), Icon::Left));
    choices
}

fn choice(key: &str, label: String, icon: Icon) -> Slab {
    let quiet = key == "back";
    Slab {
        key: key.into(),
        label,
        detail: String::new(),
        icon,
        enabled: true,
        quiet,
    }
}

/// Why a step was left out, in words.
#[must_use]
pub(super) const fn reason_words(reason: SkipReason) -> &'static str {
    match reason {
        SkipReason::NotNeeded => msg!("Not needed this time"),
        SkipReason::NotAtHand => msg!("Not at hand"),
        SkipReason::DoneAlready => msg!("Done already"),
        SkipReason::EnoughByEye => msg!("Enough, by eye"),
        SkipReason::NoTime => msg!("No time left"),
    }
}

fn sentence(line: &str) -> String {
    let mut letters = line.chars();
    letters.next().map_or_else(String::new, |first| {
        format!("{}{}.", first.to_uppercase(), letters.as_str())
    })
}
