//! The firm tap: which touches confirm. Pure, fed by raw touches; knows no screen and no clock.
//!
//! Wet glass reports touches that nobody made: of no length, jumping, many at once, stuck. A tap is firm when one
//! contact stays inside its slab for at least a quarter of a second, moves less than 8 mm, and is lifted inside
//! within four seconds. After a confirm a second passes in which nothing confirms, so that the next slab, which may
//! come up under the same finger, isn't tapped by the same press.
//!
//! A storm of touches, or a contact that lies on the glass, locks it: nothing confirms until the glass has been calm for
//! two seconds, or a key says that it is dry.

/// What a contact does.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Phase {
    /// It begins.
    Down,
    /// It moves.
    Moved,
    /// It ends.
    Up,
    /// The system takes it away.
    Cancelled,
}

/// One raw report of the glass.
#[derive(Debug, Clone, PartialEq)]
pub struct Touch {
    /// The slab under the finger.
    pub key: String,
    /// What the contact does.
    pub phase: Phase,
    /// Where, in millimetres.
    pub x_mm: f64,
    /// Where, in millimetres.
    pub y_mm: f64,
    /// Whether that is inside the slab.
    pub inside: bool,
    /// Which contact.
    pub finger: i32,
    /// When, on the steady clock.
    pub at_ms: u64,
}

/// What a report amounts to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Verdict {
    /// Nothing yet.
    Nothing,
    /// A firm tap on the slab of this key.
    Confirmed(String),
    /// Too many touches that weren't taps, or one that lies there: the glass is locked, and asks to be wiped.
    Storm,
}

/// The measures of a firm tap.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Firmness {
    /// The least time on the glass.
    pub hold_ms: u64,
    /// The most time on the glass; longer is something lying on it.
    pub stuck_ms: u64,
    /// The most it may move.
    pub slip_mm: f64,
    /// Time after a confirm in which nothing confirms.
    pub dead_ms: u64,
    /// So many touches within [`Firmness::storm_ms`] without a tap are a storm.
    pub storm_touches: usize,
    /// The window of a storm.
    pub storm_ms: u64,
    /// A contact that is still there after this isn't a finger: water, or a lift that the glass never told.
    pub lying_ms: u64,
    /// A locked glass opens when nothing has touched it for this long.
    pub calm_ms: u64,
}

impl Firmness {
    /// Gloves that are merely damp.
    pub const USUAL: Self = Self {
        hold_ms: 250,
        stuck_ms: 4_000,
        slip_mm: 8.0,
        dead_ms: 1_000,
        storm_touches: 12,
        storm_ms: 3_000,
        lying_ms: 10_000,
        calm_ms: 2_000,
    };
    /// Dripping wet hands: a longer press, shown as a ring that fills.
    pub const WET_HANDS: Self = Self {
        hold_ms: 600,
        ..Self::USUAL
    };
}

#[derive(Debug, Clone, PartialEq)]
struct Press {
    key: String,
    finger: i32,
    since_ms: u64,
    x_mm: f64,
    y_mm: f64,
    spoilt: bool,
}

/// Watches the touches of one screen.
#[derive(Debug, Clone, PartialEq)]
pub struct FirmTaps {
    firmness: Firmness,
    press: Option<Press>,
    contacts: Vec<Contact>, // at most what lands between two storms
    dead_until_ms: u64,
    downs: Vec<u64>, // fewer than a storm has
    locked: Option<Locked>,
}

#[derive(Debug, Clone, Copy, PartialEq)]
struct Contact {
    finger: i32,
    since_ms: u64,
}

#[derive(Debug, Clone, Copy, PartialEq)]
struct Locked {
    touched_ms: u64,
}

impl FirmTaps {
    /// A watcher with these measures.
    #[must_use]
    pub const fn new(firmness: Firmness) -> Self {
        Self {
            firmness,
            press: None,
            contacts: Vec::new(),
            dead_until_ms: 0,
            downs: Vec::new(),
            locked: None,
        }
    }

    /// Takes other measures; what is on the glass, its dead time and its lock stay as they are.
    pub fn measure_by(&mut self, firmness: Firmness) {
        self.firmness = firmness;
        self.press = None;
    }

    /// Takes one report and says what it amounts to. Reports of one screen come in the order of their time.
    pub fn touch(&mut self, touch: &Touch) -> Verdict {
        if self.locked.is_some() {
            self.stray(touch.at_ms);
            return Verdict::Nothing;
        }
        if matches!(touch.phase, Phase::Up | Phase::Cancelled) {
            self.forget(touch.finger);
        }
        if self.is_lain_on(touch.at_ms) {
            return self.lock(touch.at_ms);
        }
        match touch.phase {
            Phase::Down => self.down(touch),
            Phase::Moved => {
                self.moved(touch);
                Verdict::Nothing
            }
            Phase::Up => self.up(touch),
            Phase::Cancelled => {
                self.press = None;
                Verdict::Nothing
            }
        }
    }

    /// Something touched the glass beside every slab: a locked glass isn't calm yet.
    pub const fn stray(&mut self, at_ms: u64) {
        if let Some(locked) = self.locked.as_mut() {
            locked.touched_ms = at_ms;
        }
    }

    /// Whether the glass is locked at a moment; it opens by itself once it has been calm.
    pub fn is_locked(&mut self, now_ms: u64) -> bool {
        let calm_ms = self.firmness.calm_ms;
        if self
            .locked
            .is_some_and(|locked| now_ms.saturating_sub(locked.touched_ms) >= calm_ms)
        {
            self.locked = None;
        }
        self.locked.is_some()
    }

    /// A key said that the glass is dry.
    pub const fn unlock(&mut self) {
        self.locked = None;
    }

    /// How far the ring of a press is filled, 0 to 1, and for which slab.
    #[must_use]
    pub fn progress(&self, now_ms: u64) -> Option<(&str, f64)> {
        let press = self.press.as_ref().filter(|press| !press.spoilt)?;
        let held = now_ms.saturating_sub(press.since_ms);
        let part = (crate::craft::time::Span::from_ms(held).minutes()
            / crate::craft::time::Span::from_ms(self.firmness.hold_ms).minutes())
        .min(1.0);
        Some((&press.key, part))
    }

    fn down(&mut self, touch: &Touch) -> Verdict {
        let from = touch.at_ms.saturating_sub(self.firmness.storm_ms);
        self.downs.retain(|at| *at >= from);
        self.downs.push(touch.at_ms);
        self.forget(touch.finger);
        self.contacts.push(Contact {
            finger: touch.finger,
            since_ms: touch.at_ms,
        });
        if self.downs.len() >= self.firmness.storm_touches {
            return self.lock(touch.at_ms);
        }
        let alone = self.contacts.len() == 1;
        let finite = touch.x_mm.is_finite() && touch.y_mm.is_finite();
        self.press = (alone && finite && touch.inside && touch.at_ms >= self.dead_until_ms).then(|| Press {
            key: touch.key.clone(),
            finger: touch.finger,
            since_ms: touch.at_ms,
            x_mm: touch.x_mm,
            y_mm: touch.y_mm,
            spoilt: false,
        });
        Verdict::Nothing
    }

    fn moved(&mut self, touch: &Touch) {
        let slip = self.firmness.slip_mm;
        if let Some(press) = self.press.as_mut()
            && (press.finger != touch.finger || !stays(press, touch, slip))
        {
            press.spoilt = true;
        }
    }

    fn up(&mut self, touch: &Touch) -> Verdict {
        let Some(press) = self.press.take().filter(|press| press.finger == touch.finger) else {
            return Verdict::Nothing;
        };
        let held = touch.at_ms.saturating_sub(press.since_ms);
        let long_enough = (self.firmness.hold_ms..=self.firmness.stuck_ms).contains(&held);
        if press.spoilt
            || !long_enough
            || touch.key != press.key
            || !stays(&press, touch, self.firmness.slip_mm)
            || !self.contacts.is_empty()
        {
            return Verdict::Nothing;
        }
        self.dead_until_ms = touch.at_ms.saturating_add(self.firmness.dead_ms);
        self.downs.clear();
        Verdict::Confirmed(press.key)
    }

    /// Whether a contact has been there for longer than any finger would be.
    fn is_lain_on(&self, now_ms: u64) -> bool {
        let longest = self.firmness.lying_ms;
        let lies = |contact: &Contact| now_ms.saturating_sub(contact.since_ms) >= longest;
        self.contacts.iter().any(lies)
    }

    /// Nothing confirms any more, and what was on the glass is forgotten: lifts told meanwhile aren't followed.
    fn lock(&mut self, at_ms: u64) -> Verdict {
        self.downs.clear();
        self.contacts.clear();
        self.press = None;
        self.locked = Some(Locked { touched_ms: at_ms });
        Verdict::Storm
    }

    fn forget(&mut self, finger: i32) {
        self.contacts.retain(|contact| contact.finger != finger);
    }
}

fn stays(press: &Press, touch: &Touch, slip_mm: f64) -> bool {
    touch.inside && (touch.x_mm - press.x_mm).hypot(touch.y_mm - press.y_mm) < slip_mm
}
