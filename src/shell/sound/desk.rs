//! What waits to be heard: a short queue in order of haste, and the orders given to the player. It knows no device, no
//! thread and no time.

use std::cmp::Reverse;

use crate::machine::chime::{Chime, Haste};

/// How many calls may wait. Six pots with two calls each: more is not a queue but a din.
pub const WAITING_MAX: usize = 12;

/// A sound asked for: what it says, and which pot it is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Call {
    /// What it says.
    pub chime: Chime,
    /// Pot 1 to 6 for the lead-in notes, or no lead-in.
    pub pot: Option<u8>,
}

/// Why a call was not heard, or not to its end.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum Unheard {
    /// No device takes sound.
    #[error("no sound device")]
    NoDevice,
    /// The device went away while it sounded.
    #[error("the sound device went away during the call")]
    CutOff,
    /// Too many calls waited, and this was the least pressing.
    #[error("{WAITING_MAX} calls were waiting that press as much or more")]
    QueueFull,
    /// An answer to a tap found something else sounding; later it would have answered the wrong tap.
    #[error("something else was sounding")]
    AnswerTooLate,
}

/// Loudness as the dyer sets it, 0 to 100; urgent calls never go below [`Volume::URGENT_FLOOR`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Volume {
    // Invariant: at most 100.
    percent: u8,
}

impl Volume {
    /// As loud as the files are.
    pub const FULL: Self = Self { percent: 100 };
    /// The least an urgent call sounds with: 12 dB below full.
    pub const URGENT_FLOOR: Self = Self { percent: 50 };

    /// A volume in percent; more than 100 is 100.
    #[must_use]
    pub const fn from_percent(percent: u8) -> Self {
        Self {
            percent: if percent > 100 { 100 } else { percent },
        }
    }

    /// Percent, 0 to 100.
    #[must_use]
    pub const fn percent(self) -> u8 {
        self.percent
    }

    /// The factor on the samples for a chime, 0 to 1. The square of the setting, so that half the travel is 12 dB.
    #[must_use]
    pub fn gain(self, chime: Chime) -> f32 {
        let percent = match chime {
            Chime::Urgent => self.max(Self::URGENT_FLOOR).percent,
            Chime::Turn | Chime::Due | Chime::Look | Chime::Ready | Chime::Accepted => self.percent,
        };
        let part = f32::from(percent) / 100.0;
        part * part
    }
}

/// What the player is to do besides playing what waits.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Orders {
    /// Fade out what sounds now.
    pub hush: bool,
    /// Open the device ahead of a call.
    pub warm: bool,
    /// End the thread.
    pub quit: bool,
    /// Calls that will not be heard, to be reported.
    pub lost: Vec<(Call, Unheard)>,
}

/// The queue and the orders, behind one lock.
///
/// When the queue is full, the least pressing of the waiting calls and the new one is given up, the newest first among
/// equals, and reported as [`Unheard::QueueFull`]. A call that already waits is not taken a second time: it will be heard.
#[derive(Debug)]
pub struct Desk {
    // Invariant: in order of haste, then of arrival; never more than WAITING_MAX.
    waiting: Vec<Call>,
    sounding: Option<Call>,
    volume: Volume,
    orders: Orders,
    news: bool,
}

impl Default for Desk {
    fn default() -> Self {
        Self {
            waiting: Vec::with_capacity(WAITING_MAX),
            sounding: None,
            volume: Volume::FULL,
            orders: Orders::default(),
            news: false,
        }
    }
}

impl Desk {
    /// Takes a call in its place in the queue.
    pub fn take(&mut self, call: Call) {
        self.news = true;
        match call.chime.haste() {
            Haste::Answer if self.is_busy() => self.orders.lost.push((call, Unheard::AnswerTooLate)),
            Haste::Answer | Haste::InItsWindow | Haste::WithinFiveMinutes | Haste::WithinOneMinute => {
                if !self.waiting.contains(&call) {
                    let place = self
                        .waiting
                        .partition_point(|other| other.chime.haste() >= call.chime.haste());
                    self.waiting.insert(place, call);
                    self.give_up_the_least();
                }
            }
        }
    }

    /// Empties the queue and has what sounds now faded out. Nothing is reported: it was wished.
    pub fn hush(&mut self) {
        self.waiting.clear();
        self.orders.hush = true;
        self.news = true;
    }

    /// Has the device opened ahead of a call.
    pub const fn warm(&mut self) {
        self.orders.warm = true;
        self.news = true;
    }

    /// Has the thread end.
    pub const fn quit(&mut self) {
        self.orders.quit = true;
        self.news = true;
    }

    /// Sets the volume of the calls to come.
    pub const fn set_volume(&mut self, volume: Volume) {
        self.volume = volume;
    }

    /// The volume for the next call.
    #[must_use]
    pub const fn volume(&self) -> Volume {
        self.volume
    }

    /// Whether anything was put on the desk since the orders were last taken.
    #[must_use]
    pub const fn has_news(&self) -> bool {
        self.news
    }

    /// The orders, once.
    #[must_use]
    pub fn take_orders(&mut self) -> Orders {
        self.news = false;
        if self.orders.hush {
            self.sounding = None;
        }
        std::mem::take(&mut self.orders)
    }

    /// The call to sound now, if the one sounding should make way for it or none is sounding. An urgent call interrupts
    /// everything but another urgent one; what it interrupts waits again from its beginning, an answer excepted.
    #[must_use]
    pub fn next_call(&mut self) -> Option<Call> {
        if self.orders.hush {
            // What comes next must not be hushed in place of what was meant.
            return None;
        }
        let first = *self.waiting.first()?;
        if let Some(now) = self.sounding {
            let urgent = first.chime.haste() == Haste::WithinOneMinute;
            if !urgent || now.chime.haste() == Haste::WithinOneMinute {
                return None;
            }
            self.put_back(now);
        }
        self.waiting.retain(|call| *call != first);
        self.sounding = Some(first);
        Some(first)
    }

    /// The call that was sounding has ended, well or badly.
    #[must_use]
    pub const fn ended(&mut self) -> Option<Call> {
        self.sounding.take()
    }

    /// The call that was sounding was cut off by a fault that is over: it waits again from its beginning.
    pub fn sound_again(&mut self) {
        if let Some(call) = self.sounding.take() {
            self.put_back(call);
        }
    }

    /// The call that sounds now.
    #[must_use]
    pub const fn sounding(&self) -> Option<Call> {
        self.sounding
    }

    /// What waits, the next first.
    #[must_use]
    pub fn waiting(&self) -> &[Call] {
        &self.waiting
    }

    const fn is_busy(&self) -> bool {
        (self.sounding.is_some() && !self.orders.hush) || !self.waiting.is_empty()
    }

    /// Ahead of its equals, for it was there before them.
    fn put_back(&mut self, call: Call) {
        if call.chime.haste() == Haste::Answer {
            self.orders.lost.push((call, Unheard::AnswerTooLate));
            self.news = true;
        } else if !self.waiting.contains(&call) {
            let place = self
                .waiting
                .partition_point(|other| Reverse(other.chime.haste()) < Reverse(call.chime.haste()));
            self.waiting.insert(place, call);
            self.give_up_the_least();
        }
    }

    fn give_up_the_least(&mut self) {
        if self.waiting.len() > WAITING_MAX
            && let Some(call) = self.waiting.pop()
        {
            self.orders.lost.push((call, Unheard::QueueFull));
            self.news = true;
        }
    }
}
