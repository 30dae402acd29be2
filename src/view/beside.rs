//! A bath about to begin beside the pots that are going: what meets, which later starts are offered, and a strip that
//! shows where its calls fall among the others'.

use crate::craft::time::{Moment, Span};
use crate::day::{
    Ahead, Coming, Errand, Meeting, OfPot, Offer, leaves_open, meetings, of_plan, of_run, offers,
};
use crate::machine::{Machine, PotNo, PotRun};
use crate::sheet::plan::{Plan, StepAct};

use crate::{msg, say};

use super::course;
use super::history::History;
use super::locale::Locale;
use super::screen::{Beside, CurveRule, Icon, Row, StripLook, StripMark, StripRow};
use super::words;

/// A start that waits: in which pot, of which bath, for when.
#[derive(Debug, Clone, Copy)]
pub struct Waits<'a> {
    /// The pot.
    pub pot: PotNo,
    /// The bath.
    pub plan: &'a Plan,
    /// When.
    pub at: Moment,
}

/// The whole minute of the wall clock that `now` is in. Starts are told by it, so that a second changes nothing.
#[must_use]
pub fn minute_of(now: Moment) -> Moment {
    let into = u64::try_from(now.wall_ms.rem_euclid(60_000)).unwrap_or(0);
    let into = into.min(now.steady_ms);
    Moment {
        steady_ms: now.steady_ms.saturating_sub(into),
        wall_ms: now
            .wall_ms
            .saturating_sub(i64::try_from(into).unwrap_or_default()),
        ..now
    }
}

/// What stands on the sheet of `plan` in `pot` because other pots are going, or wait for their start; nothing when none
/// does. `starts_at` is the moment this bath waits for, if it does.
#[must_use]
pub fn beside(
    (pot, plan): (PotNo, &Plan),
    starts_at: Option<Moment>,
    machine: &Machine,
    other_start: Option<Waits<'_>>,
    now: Moment,
    locale: Locale,
) -> Beside {
    let base = minute_of(now);
    let others = others(pot, machine, other_start, base);
    if others.is_empty() {
        return Beside::default();
    }
    let clock = Clock { base, locale };
    let new = of_plan(plan);
    let wait = starts_at.map(|at| at.since(base));
    let (line, starts, met) = match wait {
        Some(wait) => {
            let met = meetings(&new.errands, &others, wait);
            let open = leaves_open(&new, &others, wait);
            let line = say!(
                locale,
                "begins at {clock}; with {pots}: {met}",
                clock = clock.at(wait),
                pots = with_pots(&others, locale),
                met = told(&met, open, clock)
            );
            (line, vec![let_go(clock.at(wait), locale)], met)
        }
        None => {
            let found = offers(&new, &others);
            let open = leaves_open(&new, &others, Span::NONE);
            let mut line = say!(
                locale,
                "with {pots}: {met}",
                pots = with_pots(&others, locale),
                met = told(&found.now, open, clock)
            );
            if !found.now.is_empty() && found.starts.is_empty() {
                line.push_str(&say!(locale, "; a start within half an hour is no better"));
            }
            let starts = found.starts.iter().map(|offer| start(offer, clock)).collect();
            (line, starts, found.now)
        }
    };
    let line = line + &not_known(&others, locale);
    let own = new.later(wait.unwrap_or(Span::NONE));
    let strip = Strip::of(pot, &own, &others, &met, clock);
    Beside {
        said: strip.said(),
        rows: strip.rows(),
        marks: strip.marks(),
        times: strip.times(),
        starts,
        line,
    }
}

/// The other pots: those that are going, and one that waits for its start.
fn others(pot: PotNo, machine: &Machine, other_start: Option<Waits<'_>>, base: Moment) -> Vec<OfPot> {
    let going = machine
        .pots()
        .filter(|run| run.stand.ended.is_none() && run.pot != pot)
        .map(|run| OfPot {
            pot: run.pot,
            ahead: of_run(run, base, heat_left(run, base)),
        });
    let waits = other_start.filter(|waits| waits.pot != pot).map(|waits| OfPot {
        pot: waits.pot,
        ahead: of_plan(waits.plan).later(waits.at.since(base)),
    });
    let mut others: Vec<OfPot> = going.chain(waits).collect();
    others.sort_by_key(|other| other.pot);
    others
}

/// How long a bath still warms or cools, as its own screen tells it: a reading says more than the clock.
fn heat_left(run: &PotRun, base: Moment) -> Option<crate::craft::quantity::Band<Span>> {
    let heats = matches!(
        run.step().map(|step| &step.act),
        Some(StepAct::Raise { .. } | StepAct::Cool { .. })
    );
    heats.then(|| {
        let history = History::of(run);
        let minutes = history.minutes(base);
        course::left_of_step(run, &history, base, minutes).map(Span::from_fractional_minutes)
    })
}

/// Times from the minute that is now, told by the wall clock.
#[derive(Debug, Clone, Copy)]
struct Clock {
    base: Moment,
    locale: Locale,
}

impl Clock {
    fn at(self, span: Span) -> String {
        self.locale.clock_from(self.base.plus(span), self.base)
    }
}

/// The numbers of pots, the last one apart where there are several.
fn numbers(others: &[OfPot]) -> (String, Option<String>) {
    let mut numbers: Vec<String> = others.iter().map(|other| other.pot.0.to_string()).collect();
    match numbers.pop() {
        Some(last) if !numbers.is_empty() => (numbers.join(", "), Some(last)),
        only => (only.unwrap_or_default(), None),
    }
}

/// `pots 1 and 2` behind *with*, which asks for another case in German.
fn with_pots(others: &[OfPot], locale: Locale) -> String {
    match numbers(others) {
        (number, None) => say!(locale, "with" => "pot {number}", number = number),
        (before, Some(last)) => say!(
            locale,
            "with" => "pots {before} and {last}",
            before = before,
            last = last
        ),
    }
}

/// `pots 1 and 2` as those that want hands.
fn wanting_pots(others: &[OfPot], locale: Locale) -> String {
    match numbers(others) {
        (number, None) => say!(locale, "wanting hands" => "pot {number}", number = number),
        (before, Some(last)) => say!(
            locale,
            "wanting hands" => "pots {before} and {last}",
            before = before,
            last = last
        ),
    }
}

/// Which pots can't say when they want hands: `; when pot 2 wants hands isn't known`.
fn not_known(others: &[OfPot], locale: Locale) -> String {
    let dumb = others
        .iter()
        .filter(|other| other.ahead.more_unknown && other.ahead.errands.is_empty());
    let dumb: Vec<OfPot> = dumb.cloned().collect();
    match dumb.len() {
        0 => String::new(),
        1 => say!(
            locale,
            "; when {pots} wants hands isn't known",
            pots = wanting_pots(&dumb, locale)
        ),
        _ => say!(
            locale,
            "; when {pots} want hands isn't known",
            pots = wanting_pots(&dumb, locale)
        ),
    }
}

/// `turn at 14:32 meets pot 1's lift, and 2 more`.
fn told(met: &[Meeting], open: bool, clock: Clock) -> String {
    let locale = clock.locale;
    let Some(first) = met.first() else {
        return if open {
            say!(locale, "likely nothing meets")
        } else {
            say!(locale, "nothing meets")
        };
    };
    let more = match met.len() {
        0 | 1 => String::new(),
        count => say!(locale, ", and {count} more", count = count.saturating_sub(1)),
    };
    let guess = if first.is_guess() {
        let off = first
            .own
            .give()
            .max(first.theirs.give())
            .max(Span::from_minutes(1));
        say!(locale, " (a guess: up to {span} off)", span = locale.span(off))
    } else {
        String::new()
    };
    let met = say!(
        locale,
        "{own} at {clock} meets pot {number}'s {theirs}",
        own = name(first.own.errand, locale),
        clock = clock.at(first.own.begins.likely),
        number = first.pot.0,
        theirs = name(first.theirs.errand, locale)
    );
    format!("{met}{more}{guess}")
}

/// A start to press, with what falls due in another pot before it. Its key names the minute, so that a press a moment later means the same.
fn start(offer: &Offer, clock: Clock) -> Row {
    let (at, locale) = (clock.base.plus(offer.wait), clock.locale);
    let minute = at.wall_ms.checked_div_euclid(60_000).unwrap_or_default();
    let detail = match (offer.meets.len(), offer.first, offer.is_guess) {
        (0, Some((pot, errand)), _) => say!(
            locale,
            "after pot {number}'s {errand}",
            number = pot.0,
            errand = name(errand, locale)
        ),
        (0, None, false) => say!(locale, "nothing meets"),
        (0, None, true) => say!(locale, "likely nothing meets"),
        (1, _, _) => say!(locale, "one still meets"),
        (count, _, _) => say!(locale, "{count} still meet", count = count),
    };
    Row {
        key: format!("start-at-{minute}"),
        label: say!(locale, "begin in {span}", span = locale.span(offer.wait)),
        detail,
        value: clock.at(offer.wait),
        icon: Icon::Clock,
        chosen: false,
        enabled: true,
    }
}

fn let_go(at: String, locale: Locale) -> Row {
    Row {
        key: "let-go-start".into(),
        label: say!(locale, "no call to begin"),
        detail: say!(locale, "lets go of it"),
        value: at,
        icon: Icon::Cross,
        chosen: false,
        enabled: true,
    }
}

/// An errand in a word or two. That the heat is to be turned off is said otherwise than that it is off.
fn name(errand: Errand, locale: Locale) -> String {
    let word = match errand {
        Errand::HeatOff => return say!(locale, "errand" => "heat off"),
        Errand::WetOut => msg!("wet out"),
        Errand::Weigh => msg!("weigh"),
        Errand::Fill => msg!("fill"),
        Errand::Dissolve => msg!("dissolve"),
        Errand::Add => msg!("add"),
        Errand::Strain => msg!("strain"),
        Errand::Enter => msg!("enter"),
        Errand::Turn => msg!("turn"),
        Errand::Look => msg!("look"),
        Errand::Lift => msg!("lift"),
        Errand::Squeeze => msg!("squeeze"),
        Errand::Rinse => msg!("rinse"),
        Errand::Hang => msg!("hang"),
        Errand::Shelve => msg!("shelve"),
    };
    locale.say(word)
}

/// Its letter on the strip; a turn is a tick, and what can be laid down is a bar.
const fn letter(errand: Errand) -> &'static str {
    match errand {
        Errand::Add => "A",
        Errand::Strain => "S",
        Errand::Enter => "E",
        Errand::Look => "?",
        Errand::HeatOff => "H",
        Errand::Lift => "L",
        Errand::Turn
        | Errand::WetOut
        | Errand::Weigh
        | Errand::Fill
        | Errand::Dissolve
        | Errand::Squeeze
        | Errand::Rinse
        | Errand::Hang
        | Errand::Shelve => "",
    }
}

/// The strip: one row for each pot, times to the right.
struct Strip<'a> {
    new: PotNo,
    /// The rows, by the number of their pot.
    pots: Vec<(PotNo, &'a [Coming])>,
    met: &'a [Meeting],
    minutes: f64,
    clock: Clock,
}

impl<'a> Strip<'a> {
    /// Long enough for the new bath's last call that is within sight, and for an hour at least.
    fn of(new: PotNo, own: &'a Ahead, others: &'a [OfPot], met: &'a [Meeting], clock: Clock) -> Self {
        const SIGHT: f64 = 360.0;
        let calls = own.errands.iter().filter(|coming| coming.errand.keeps_its_time());
        let last = calls
            .map(|coming| coming.ends().minutes())
            .filter(|ends| *ends <= SIGHT)
            .fold(60.0, f64::max);
        let mut pots: Vec<(PotNo, &[Coming])> = others
            .iter()
            .map(|other| (other.pot, other.ahead.errands.as_slice()))
            .collect();
        pots.push((new, own.errands.as_slice()));
        pots.sort_by_key(|(pot, _)| *pot);
        Self {
            new,
            pots,
            met,
            minutes: last + 5.0,
            clock,
        }
    }

    fn rows(&self) -> Vec<StripRow> {
        self.pots
            .iter()
            .map(|(pot, _)| StripRow {
                label: say!(self.clock.locale, "pot {number}", number = pot.0),
                own: *pot == self.new,
            })
            .collect()
    }

    fn marks(&self) -> Vec<StripMark> {
        let mut marks = Vec::new();
        for (row, (pot, errands)) in (0_i32..).zip(&self.pots) {
            let first = marks.len();
            for coming in errands.iter().filter(|coming| self.is_shown(coming)) {
                let mark = self.mark(row, *pot, coming);
                let before = marks
                    .iter_mut()
                    .skip(first)
                    .rev()
                    .find(|before: &&mut StripMark| {
                        before.look == StripLook::Hands && mark.look == StripLook::Hands
                    });
                match before {
                    Some(before) if mark.x - before.x < NEAR => join(before, &mark),
                    Some(_) | None => marks.push(mark),
                }
            }
        }
        marks
    }

    fn is_shown(&self, coming: &Coming) -> bool {
        coming.begins.likely.minutes() <= self.minutes
    }

    fn mark(&self, row: i32, pot: PotNo, coming: &Coming) -> StripMark {
        let look = if coming.errand == Errand::Turn {
            StripLook::Turn
        } else if coming.errand.keeps_its_time() {
            StripLook::Hands
        } else {
            StripLook::Leisure
        };
        let is_own = pot == self.new;
        let meets = self.met.iter().any(|met| {
            if is_own {
                met.own == *coming
            } else {
                met.pot == pot && met.theirs == *coming
            }
        });
        StripMark {
            row,
            x: self.x(coming.begins.likely),
            width: self.x(coming.hands),
            label: letter(coming.errand).to_owned(),
            look,
            meets,
        }
    }

    fn x(&self, at: Span) -> f32 {
        unit((at.minutes() / self.minutes * 1000.0).clamp(0.0, 1000.0))
    }

    /// At most five whole times of the clock.
    fn times(&self) -> Vec<CurveRule> {
        const STEPS: [u16; 4] = [15, 30, 60, 120];
        const MOST: f64 = 5.0;
        let step = STEPS
            .into_iter()
            .find(|step| self.minutes / f64::from(*step) <= MOST)
            .unwrap_or(120);
        let begins = words::minute_of_day(self.clock.base, self.clock.locale.zone);
        let into = begins.checked_rem(step).unwrap_or(0);
        let to_next = step.saturating_sub(into);
        (0..5_u16)
            .map(|count| Span::from_minutes(u64::from(to_next.saturating_add(step.saturating_mul(count)))))
            .filter(|at| at.minutes() < self.minutes)
            .map(|at| CurveRule {
                at: self.x(at),
                label: self.clock.locale.clock(self.clock.base.plus(at)),
            })
            .collect()
    }

    /// The whole strip in words, for who can't see it: each pot's calls with their times.
    fn said(&self) -> String {
        let locale = self.clock.locale;
        let rows = self.pots.iter().map(|(pot, errands)| {
            let calls = errands
                .iter()
                .filter(|coming| coming.errand.keeps_its_time() && self.is_shown(coming));
            let calls: Vec<String> = calls
                .map(|coming| {
                    let errand = name(coming.errand, locale);
                    format!("{errand} {}", self.clock.at(coming.begins.likely))
                })
                .collect();
            let calls = if calls.is_empty() {
                say!(locale, "no call known")
            } else {
                calls.join(", ")
            };
            if *pot == self.new {
                say!(
                    locale,
                    "pot {number}, this bath: {calls}",
                    number = pot.0,
                    calls = calls
                )
            } else {
                say!(locale, "pot {number}: {calls}", number = pot.0, calls = calls)
            }
        });
        rows.collect::<Vec<_>>().join("; ")
    }
}

/// Lettered marks nearer than this are one, with both letters.
const NEAR: f32 = 42.0;

/// Takes a mark into the one before it. The same letter isn't said twice.
fn join(before: &mut StripMark, mark: &StripMark) {
    if !before.label.contains(&mark.label) {
        before.label.push_str(&mark.label);
    }
    before.meets |= mark.meets;
}

#[expect(
    clippy::as_conversions,
    clippy::cast_possible_truncation,
    reason = "whole numbers up to a thousand are exact as f32"
)]
const fn unit(value: f64) -> f32 {
    value as f32
}
