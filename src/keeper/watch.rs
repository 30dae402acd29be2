//! The keeper's watch: all that can wake it, when it wakes by itself, and what it says. It never waits: whoever runs
//! it waits for [`Watch::sleep`] or for something to happen, and then wakes it.

use std::sync::Arc;

use super::clock::{Clock, Look};
use super::folder::Folder;
use super::keep::{Keeper, TROUBLES_MAX, Told};
use crate::craft::time::{Moment, Span};
use crate::journal::id::ActId;
use crate::machine::voice::{OneVoice, Sound};
use crate::machine::{Effect, Input, Machine, Refusal};
use crate::shelf::{ShelfAsk, ShelfDone, ShelfSeen};

/// All that can wake the keeper.
#[derive(Debug, Clone)]
pub enum Wake {
    /// Something is asked of the machine.
    Ask {
        /// Names the act if a hand did it. To hand over the same act again is harmless.
        act: Option<ActId>,
        /// What is asked.
        input: Input,
    },
    /// A bath begins: its recipe and sheet are kept with it.
    Begin {
        /// Names the act.
        act: Option<ActId>,
        /// The [`Input::Begin`].
        input: Input,
        /// The id of the bath.
        bath_id: String,
        /// The recipe word for word.
        recipe_toml: String,
        /// The sheet as computed.
        sheet_json: String,
    },
    /// All calls but the urgent ones are to be quiet for so long; for no time at all, they may be heard again.
    Quiet(Span),
    /// Whether these are hours in which only what is urgent sounds.
    QuietHours(bool),
    /// Something is asked of the shelf.
    Shelf(ShelfAsk),
    /// The program ends.
    Quit,
}

impl Wake {
    /// Whether a state follows that answers it.
    const fn is_answered(&self) -> bool {
        match self {
            Self::Ask { .. } | Self::Begin { .. } | Self::Quiet(_) | Self::Shelf(_) => true,
            Self::QuietHours(_) | Self::Quit => false,
        }
    }
}

/// What the keeper says, to be seen or heard. All of it is on the disk, unless the state says that it isn't.
#[derive(Debug)]
pub enum Said<'a> {
    /// The state after a change.
    State(Box<State>),
    /// Something to sound, with the machine it comes from.
    Sound(Sound, &'a Machine),
}

/// What the glass gets to know.
#[derive(Debug, Clone)]
pub struct State {
    /// The machine as it stands.
    pub machine: Machine,
    /// When.
    pub at: Moment,
    /// So many of the things that were asked of the keeper are done or refused.
    pub answered: u64,
    /// Since when something isn't being saved.
    pub not_saving_since: Option<Moment>,
    /// Since when something is saved in a spare place.
    pub in_spare_since: Option<Moment>,
    /// Until when all calls but the urgent ones are quiet.
    pub quiet_until: Option<Moment>,
    /// What was refused, and why.
    pub refused: Option<(Input, Refusal)>,
    /// What a person should know of.
    pub troubles: Vec<String>,
    /// The shelf.
    pub shelf: Arc<ShelfSeen>,
    /// What came of something that was asked of it.
    pub shelf_done: Option<Result<ShelfDone, String>>,
}

impl State {
    /// This state, for somebody who hasn't seen the one before it: what that one told once, this one tells too. Of two
    /// answers to the same kind of question the newer one counts.
    #[must_use]
    pub fn after(mut self, mut unseen: Self) -> Self {
        unseen.troubles.append(&mut self.troubles);
        let too_many = unseen.troubles.len().saturating_sub(TROUBLES_MAX);
        unseen.troubles.drain(..too_many);
        self.troubles = unseen.troubles;
        self.refused = self.refused.or(unseen.refused);
        self.shelf_done = self.shelf_done.or(unseen.shelf_done);
        self
    }
}

/// So many inputs may wait while a flush is slow. More are refused by the glass, which says *saving*.
pub const WAITING_MAX: usize = 64;
/// The keeper looks at its clock at least this often while a bath is going, so that a suspend is noticed.
const LOOK_EVERY: Span = Span::from_seconds(1);
/// And this often while none is.
const LOOK_IDLE: Span = Span::from_seconds(30);
/// The shortest time between two looks.
const LOOK_LEAST: Span = Span::from_ms(5);
/// A look this much later than meant was a suspend or a stall.
const STALLED: Span = Span::from_seconds(20);
/// A sleep of the machine this long was one too, where the system tells of it.
const SLEPT: Span = Span::from_seconds(5);
/// A device that was closed may take a second or two to open.
const ABOUT_TO_SOUND: Span = Span::from_seconds(4);
/// A beat is written this often.
const BEAT_EVERY: Span = Span::from_minutes(1);

/// A keeper on watch.
#[derive(Debug)]
pub struct Watch<F: Folder> {
    keeper: Keeper<F>,
    looked: Look,
    rung: Moment,
    beaten: Moment,
    voice: OneVoice,
    hours_are_quiet: bool,
    answered: u64,
}

impl<F: Folder> Watch<F> {
    /// Begins the watch: says that the program is back, if a bath was going, and what falls due.
    pub fn begin(keeper: Keeper<F>, clock: &impl Clock, say: &mut dyn FnMut(Said<'_>)) -> Self {
        let looked = clock.look();
        let mut watch = Self {
            keeper,
            looked,
            rung: looked.now,
            beaten: looked.now,
            voice: OneVoice::default(),
            hours_are_quiet: false,
            answered: 0,
        };
        if let Some(back) = watch.keeper.came_back(looked) {
            watch.take(None, &back, looked.now, say);
        }
        watch.take(None, &Input::Tick, looked.now, say);
        watch.remember(looked, clock);
        watch
    }

    /// The keeper.
    #[must_use]
    pub const fn keeper(&self) -> &Keeper<F> {
        &self.keeper
    }

    /// How long it may sleep: until the next deadline, but never so long that a suspend would go unnoticed.
    #[must_use]
    pub fn sleep(&self) -> Span {
        let machine = self.keeper.machine();
        let at_most = if machine.wants_beats() {
            LOOK_EVERY
        } else {
            LOOK_IDLE
        };
        let from = self.rung;
        let due = machine
            .next_deadline(from)
            .map(|(at, _)| Span::from_ms(at.steady_ms.saturating_sub(from.steady_ms)));
        due.map_or(at_most, |due| due.min(at_most)).max(LOOK_LEAST)
    }

    /// Whether something falls due so soon that a sound device should be opened for it now.
    #[must_use]
    pub fn is_about_to_sound(&self) -> bool {
        let now = self.rung;
        let due = self.keeper.machine().next_deadline(now);
        due.is_some_and(|(at, _)| at.stretch == now.stretch && at.since(now) <= ABOUT_TO_SOUND)
    }

    /// Something happened, or, with nothing, the time to sleep is over. False once the program ends.
    pub fn wake(&mut self, woken: Option<Wake>, clock: &impl Clock, say: &mut dyn FnMut(Said<'_>)) -> bool {
        let look = clock.look();
        let now = look.now;
        if self.was_away(look) {
            self.come_back(now, say);
        }
        self.keeper.know_clock(look.wall);
        self.ring_again(now, say);
        self.answered = self
            .answered
            .saturating_add(u64::from(woken.as_ref().is_some_and(Wake::is_answered)));
        match woken {
            None => {}
            Some(Wake::Quit) => return false,
            Some(Wake::Quiet(span)) => {
                if span > Span::NONE {
                    self.voice.quiet(now, span);
                } else {
                    self.voice.end_quiet();
                }
                self.tell(None, None, now, say);
            }
            Some(Wake::QuietHours(quiet)) => self.hours_are_quiet = quiet,
            Some(Wake::Shelf(asked)) => {
                let done = self.keeper.ask_shelf(&asked, now);
                self.tell(None, Some(done), now, say);
            }
            Some(Wake::Ask { act, input }) => self.take(act.as_ref(), &input, now, say),
            Some(Wake::Begin {
                act,
                input,
                bath_id,
                recipe_toml,
                sheet_json,
            }) => {
                self.keeper.prepare(&bath_id, &recipe_toml, &sheet_json);
                self.take(act.as_ref(), &input, now, say);
            }
        }
        self.beat(now, say);
        if self.is_due(now) {
            self.take(None, &Input::Tick, now, say);
        }
        self.remember(look, clock);
        true
    }

    /// The time that a flush took isn't time away, unless the machine slept meanwhile.
    fn remember(&mut self, look: Look, clock: &impl Clock) {
        let after = clock.look();
        self.looked = if after.slept.less(look.slept) >= SLEPT {
            look
        } else {
            after
        };
    }

    fn was_away(&self, look: Look) -> bool {
        let gap = look.now.since(self.looked.now);
        let slept = look.slept.less(self.looked.slept);
        self.keeper.machine().wants_beats() && (gap >= STALLED || slept >= SLEPT)
    }

    /// The machine slept or stalled: what is known ends with the last look, and it is treated like an outage.
    fn come_back(&mut self, now: Moment, say: &mut dyn FnMut(Said<'_>)) {
        let looked = self.looked.now;
        self.keeper.take(None, &Input::Beat, looked);
        let away = now.since(looked);
        let back = Input::Returned {
            at_least: away,
            at_most: Some(away),
        };
        self.take(None, &back, now, say);
    }

    fn ring_again(&mut self, now: Moment, say: &mut dyn FnMut(Said<'_>)) {
        let rings = self.keeper.machine().rings(self.rung, now);
        self.sound(&rings, now, say);
        self.rung = now;
    }

    fn beat(&mut self, now: Moment, say: &mut dyn FnMut(Said<'_>)) {
        let wants_beats = self.keeper.machine().wants_beats();
        if now.since(self.beaten) >= BEAT_EVERY && (wants_beats || self.keeper.wants_retry()) {
            self.beaten = now;
            self.keeper.retry(now);
            self.take(None, &Input::Beat, now, say);
        }
    }

    fn is_due(&self, now: Moment) -> bool {
        let next = self.keeper.machine().next_deadline(now);
        next.is_some_and(|(at, _)| at.stretch == now.stretch && at.steady_ms <= now.steady_ms)
    }

    fn take(&mut self, act: Option<&ActId>, input: &Input, now: Moment, say: &mut dyn FnMut(Said<'_>)) {
        let refused = match self.keeper.take(act, input, now) {
            Told::Taken(effects) => {
                self.sound(&effects, now, say);
                None
            }
            Told::Repeated => None,
            Told::Refused(refusal) => Some((input.clone(), refusal)),
        };
        self.tell(refused, None, now, say);
    }

    /// Of all that wants to be heard, what the one voice sounds.
    fn sound(&mut self, effects: &[Effect], now: Moment, say: &mut dyn FnMut(Said<'_>)) {
        for sound in self.voice.choose(effects, now, self.hours_are_quiet) {
            say(Said::Sound(sound, self.keeper.machine()));
        }
    }

    fn tell(
        &mut self,
        refused: Option<(Input, Refusal)>,
        shelf_done: Option<Result<ShelfDone, String>>,
        now: Moment,
        say: &mut dyn FnMut(Said<'_>),
    ) {
        say(Said::State(Box::new(State {
            machine: self.keeper.machine().clone(),
            at: now,
            answered: self.answered,
            not_saving_since: self.keeper.not_saving_since(),
            in_spare_since: self.keeper.in_spare_since(),
            quiet_until: self.voice.quiet_left(now).map(|left| now.plus(left)),
            refused,
            troubles: self.keeper.take_troubles(),
            shelf: self.keeper.shelf(),
            shelf_done,
        })));
    }
}
