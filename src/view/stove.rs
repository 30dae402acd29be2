//! Home: the pots now going, each with its next act and that act's time.

use crate::craft::time::Moment;
use crate::machine::{Machine, PotRun};

use crate::say;

use super::locale::Locale;
use super::next;
use super::screen::{StovePot, StoveScreen};

/// So many pots have a number and a place on the screen.
const POTS_MOST: usize = 6;

/// Home as it is now. Pots whose bath has ended are free again and not shown.
#[must_use]
pub fn screen(machine: &Machine, now: Moment, locale: Locale) -> StoveScreen {
    let pots: Vec<StovePot> = machine
        .pots()
        .filter(|run| run.stand.ended.is_none())
        .take(POTS_MOST)
        .map(|run| card(run, now, locale))
        .collect();
    StoveScreen {
        clock: locale.clock(now),
        date: locale.day(now),
        idle_title: say!(locale, "The stove is free"),
        idle_note: say!(
            locale,
            "Begin a bath, look something up in the daybook, or rehearse with dry hands."
        ),
        can_begin: pots.len() < POTS_MOST,
        pots,
    }
}

fn card(run: &PotRun, now: Moment, locale: Locale) -> StovePot {
    let mut next = next::of(run, now, locale);
    // The act says what kind of time it is; home has room for both, how long and when.
    if !next.clock.is_empty() {
        next.time_label.clone_from(&next.clock);
    }
    let said = next::said(run.pot, &next, locale);
    StovePot {
        pot: i32::from(run.pot.0),
        title: next::title(&run.plan, locale),
        act: next.act,
        time: next.time,
        time_label: next.time_label,
        calling: next.calling,
        said,
    }
}
