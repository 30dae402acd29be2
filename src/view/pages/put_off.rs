//! A start that was put off: a sheet laid aside until its minute, and then a call to begin it.
//!
//! It is a reminder and nothing more. Nothing is in the pot yet, so there is nothing to keep, and a power cut takes it
//! along with whatever else was being put together on the glass.

use crate::craft::time::{Moment, Span};
use crate::machine::PotNo;
use crate::machine::call::{Beside, CallKind, Standing};
use crate::view::beside::Waits;
use crate::view::locale::Locale;
use crate::view::next;
use crate::view::screen::{RailPot, StovePot};

use crate::{msg, say};

use super::draft::Draft;
use super::page::{Facts, Page, Pages};
use super::press::Wish;

/// One press on the sheet puts a start off until that minute of the wall clock.
pub(super) const START_AT: &str = "start-at-";
/// Another lets go of it.
pub(super) const LET_GO: &str = "let-go-start";

/// Nothing burns under a pot that hasn't begun: its call never grows urgent.
const NOTHING_BURNS: Beside = Beside {
    burner_on: false,
    turns_missed: 0,
};

/// The bath, and when it is to begin.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct PutOff {
    draft: Draft,
    call: Standing,
    /// When it last rang.
    rang: Option<Moment>,
}

impl PutOff {
    const fn at(&self) -> Moment {
        self.call.since
    }

    /// Due, or from before the device slept: then it is asked for at once.
    fn is_due(&self, now: Moment) -> bool {
        let at = self.at();
        at.stretch != now.stretch || at.steady_ms <= now.steady_ms
    }

    /// Due, and not heard a moment ago.
    fn is_calling(&self, now: Moment) -> bool {
        let quiet = self
            .call
            .quiet_until
            .is_some_and(|until| until.stretch == now.stretch && until.steady_ms > now.steady_ms);
        self.is_due(now) && !quiet
    }

    fn title(&self, locale: Locale) -> String {
        let plan = self.draft.sheet.as_ref().map(|sheet| &sheet.plan);
        plan.map_or_else(String::new, |plan| next::title(plan, locale))
    }

    fn told(&self, now: Moment, locale: Locale) -> (String, String) {
        if self.is_due(now) {
            return (say!(locale, "now"), say!(locale, "begin"));
        }
        let minutes = self.at().since(now).ms().div_ceil(60_000);
        (
            format!("{minutes} min"),
            say!(locale, "begins at {clock}", clock = locale.clock(self.at())),
        )
    }

    /// Its card at home.
    fn card(&self, now: Moment, locale: Locale) -> StovePot {
        let (time, time_label) = self.told(now, locale);
        let pot = self.draft.pot;
        StovePot {
            pot: i32::from(pot.0),
            title: self.title(locale),
            act: say!(locale, "BEGIN"),
            said: say!(
                locale,
                "pot {number}, begin, {time}, {label}",
                number = pot.0,
                time = time,
                label = time_label
            ),
            time,
            time_label,
            calling: self.is_calling(now),
        }
    }

    /// Its place on the rail.
    fn on_rail(&self, now: Moment, locale: Locale) -> RailPot {
        let card = self.card(now, locale);
        RailPot {
            pot: card.pot,
            act: say!(locale, "begin"),
            time: card.time,
            forward: false,
            calling: card.calling,
            said: card.said,
        }
    }
}

impl Pages {
    /// The pot whose start waits.
    pub(super) fn waiting_pot(&self) -> Option<PotNo> {
        self.put_off.as_ref().map(|put_off| put_off.draft.pot)
    }

    /// The moment that pot's start waits for.
    pub(super) fn starts_at(&self, pot: PotNo) -> Option<Moment> {
        let put_off = self.put_off.as_ref().filter(|put_off| put_off.draft.pot == pot);
        put_off.map(PutOff::at)
    }

    /// The start that waits, as the sheet of another bath looks at it.
    pub(super) fn waits(&self) -> Option<Waits<'_>> {
        let put_off = self.put_off.as_ref()?;
        Some(Waits {
            pot: put_off.draft.pot,
            plan: &put_off.draft.sheet.as_ref()?.plan,
            at: put_off.at(),
        })
    }

    /// The cards at home, with the one that waits in its place.
    pub(super) fn with_waiting_card(&self, pots: &mut Vec<StovePot>, now: Moment, locale: Locale) {
        if let Some(put_off) = self.put_off.as_ref().filter(|_| !self.rehearsing) {
            pots.push(put_off.card(now, locale));
            pots.sort_by_key(|card| card.pot);
        }
    }

    /// The rail, with the one that waits in its place.
    pub(super) fn with_waiting_on_rail(&self, rail: &mut Vec<RailPot>, now: Moment, locale: Locale) {
        if let Some(put_off) = self.put_off.as_ref().filter(|_| !self.rehearsing) {
            rail.push(put_off.on_rail(now, locale));
            rail.sort_by_key(|place| place.pot);
        }
    }

    /// What stands on every screen once it is due: `BEGIN pot 3 now: Alum, studio, wool`.
    #[must_use]
    pub fn begin_now(&self, now: Moment, locale: Locale) -> Option<String> {
        let put_off = self.put_off.as_ref().filter(|put_off| put_off.is_due(now))?;
        Some(say!(
            locale,
            "BEGIN pot {number} now: {bath}",
            number = put_off.draft.pot.0,
            bath = put_off.title(locale)
        ))
    }

    /// Whether the call to begin is to be heard at this moment, and for which pot. It rings as other due calls do, until the
    /// bath begins, or it is let go of.
    pub fn rings_to_begin(&mut self, now: Moment) -> Option<PotNo> {
        let put_off = self.put_off.as_mut().filter(|put_off| put_off.is_due(now))?;
        if put_off.at().stretch != now.stretch {
            put_off.call.since = now;
            put_off.call.quiet_until = None;
            put_off.rang = None;
        }
        let due = match put_off.rang {
            Some(rang) => put_off.call.next_ring(NOTHING_BURNS, rang),
            None => Some(put_off.call.since),
        };
        due.filter(|due| due.steady_ms <= now.steady_ms)?;
        put_off.rang = Some(now);
        Some(put_off.draft.pot)
    }

    /// The key that says *heard*.
    pub(super) fn hear_to_begin(&mut self, now: Moment) {
        // A rehearsal's clock isn't the one it waits by.
        if self.rehearsing {
            return;
        }
        if let Some(put_off) = self.put_off.as_mut().filter(|put_off| put_off.is_due(now)) {
            put_off.call.hear(NOTHING_BURNS, now);
        }
    }

    /// The sheet that was laid aside comes back, with the stove behind it.
    pub(super) fn open_put_off(&mut self, pot: PotNo) -> bool {
        let waits = self.put_off.as_ref().filter(|put_off| put_off.draft.pot == pot);
        let Some(put_off) = waits.filter(|_| !self.rehearsing) else {
            return false;
        };
        self.draft = Some(put_off.draft.clone());
        self.page = Page::Sheet;
        self.back = vec![Page::Stove];
        true
    }

    /// The bath began, or another did in its pot.
    pub(super) fn begun(&mut self, pot: PotNo) {
        if self.waiting_pot() == Some(pot) {
            self.put_off = None;
        }
    }

    /// A press on one of the starts that the sheet offers; `None` for any other key.
    pub(super) fn press_start(&mut self, key: &str, facts: &Facts<'_>) -> Option<Vec<Wish>> {
        if key == LET_GO {
            let pot = self.draft.as_ref().map(|draft| draft.pot);
            if pot.is_some() && pot == self.waiting_pot() {
                self.put_off = None;
            }
            return Some(Vec::new());
        }
        let minute: i64 = key.strip_prefix(START_AT)?.parse().ok()?;
        self.put_off_until(minute.saturating_mul(60_000), facts);
        Some(Vec::new())
    }

    fn put_off_until(&mut self, wall_ms: i64, facts: &Facts<'_>) {
        let Some(draft) = self.draft.as_ref().filter(|draft| !draft.rehearsing) else {
            return;
        };
        let pot = draft.pot;
        if let Some(other) = self.waiting_pot().filter(|other| *other != pot) {
            self.say(
                msg!(
                    "pot {number} waits for its start already; begin it or let go of it first",
                    number = other.0
                ),
                facts.now,
            );
            return;
        }
        let wait = wall_ms.saturating_sub(facts.now.wall_ms);
        let wait = u64::try_from(wait).unwrap_or(0);
        if wait == 0 {
            self.say(
                msg!("that minute is past; begin now or take a later one"),
                facts.now,
            );
            return;
        }
        let at = facts.now.plus(Span::from_ms(wait));
        self.put_off = Some(PutOff {
            draft: draft.clone(),
            call: Standing {
                kind: CallKind::ActDue,
                since: at,
                quiet_until: None,
            },
            rang: None,
        });
        self.go_home();
        self.say(
            msg!(
                "you will be called to begin pot {number} at {clock}",
                number = pot.0,
                clock = facts.locale.clock(at)
            ),
            facts.now,
        );
    }
}
