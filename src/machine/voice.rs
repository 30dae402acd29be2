//! One voice: of everything that wants to be heard, what is sounded now, and what only stands on the screen.

use crate::craft::time::{Moment, Span};

use super::chime::{Chime, Haste};
use super::pot::PotNo;
use super::session::Effect;

/// Calls that come within this of a sound are covered by it, unless they are more pressing.
const ONE_SOUND: Span = Span::from_seconds(20);

/// The longest that all calls can be quieted.
pub const QUIET_MOST: Span = Span::from_minutes(10);

/// Hours of the day in which only what is urgent sounds, as minutes since midnight; they may span it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct QuietHours {
    /// The first quiet minute.
    pub from: u16,
    /// The first minute that isn't.
    pub until: u16,
}

impl QuietHours {
    /// Whether a minute of the day is quiet. Hours that begin when they end are none.
    #[must_use]
    pub const fn holds(self, minute: u16) -> bool {
        if self.from <= self.until {
            self.from <= minute && minute < self.until
        } else {
            minute >= self.from || minute < self.until
        }
    }
}

/// A sound, and the pots it is for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sound {
    /// What it says.
    pub chime: Chime,
    /// For these pots, in order of their numbers.
    pub pots: Vec<PotNo>,
}

/// What the voice remembers between two moments.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct OneVoice {
    last: Option<(Moment, Haste)>,
    quiet_until: Option<Moment>,
}

impl OneVoice {
    /// Quiets all calls but the urgent ones, for ten minutes at most.
    pub fn quiet(&mut self, now: Moment, span: Span) {
        self.quiet_until = Some(now.plus(span.min(QUIET_MOST)));
    }

    /// Lets calls be heard again.
    pub const fn end_quiet(&mut self) {
        self.quiet_until = None;
    }

    /// How long all calls stay quiet; `None` when they don't.
    #[must_use]
    pub fn quiet_left(&self, now: Moment) -> Option<Span> {
        let until = self.quiet_until?;
        let left = until.since(now);
        (left > Span::NONE).then_some(left)
    }

    /// What to sound of what wants to be heard now. The answer to a tap always sounds; else the most pressing call, for
    /// all pots that make it, unless it is quiet or a sound as pressing has just been.
    pub fn choose(&mut self, effects: &[Effect], now: Moment, hours_are_quiet: bool) -> Vec<Sound> {
        let mut sounds = Vec::new();
        if let Some(answer) = gather(effects, |chime| chime.haste() == Haste::Answer) {
            sounds.push(answer);
        }
        let Some(call) = most_pressing(effects) else {
            return sounds;
        };
        let haste = call.chime.haste();
        let quiet = hours_are_quiet || self.quiet_left(now).is_some();
        if quiet && haste < Haste::WithinOneMinute {
            return sounds;
        }
        let covered = self.last.is_some_and(|(at, before)| {
            at.stretch == now.stretch && now.since(at) < ONE_SOUND && before >= haste
        });
        // An urgent call repeats every ten seconds by its own rule; nothing covers it.
        if covered && haste < Haste::WithinOneMinute {
            return sounds;
        }
        self.last = Some((now, haste));
        sounds.push(call);
        sounds
    }
}

/// The most pressing chime, with every pot that makes the same one.
fn most_pressing(effects: &[Effect]) -> Option<Sound> {
    let calls = effects.iter().filter_map(|effect| match effect {
        Effect::Ring(_, chime) if chime.haste() != Haste::Answer => Some(*chime),
        Effect::Ring(..) | Effect::Seal(_) => None,
    });
    // The first of several that press alike: effects come by urgency, then by pot.
    let mut first: Option<Chime> = None;
    for chime in calls {
        if first.is_none_or(|found| chime.haste() > found.haste()) {
            first = Some(chime);
        }
    }
    let chime = first?;
    gather(effects, |one| one == chime)
}

fn gather(effects: &[Effect], of: impl Fn(Chime) -> bool) -> Option<Sound> {
    let mut found: Option<Sound> = None;
    for effect in effects {
        let Effect::Ring(pot, chime) = effect else {
            continue;
        };
        if !of(*chime) {
            continue;
        }
        let sound = found.get_or_insert_with(|| Sound {
            chime: *chime,
            pots: Vec::new(),
        });
        if !sound.pots.contains(pot) {
            sound.pots.push(*pot);
        }
    }
    if let Some(sound) = found.as_mut() {
        sound.pots.sort_unstable();
    }
    found
}
