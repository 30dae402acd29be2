//! Calls: why the dyer is wanted, how it sounds, and when it sounds again.

use crate::craft::time::{Moment, Span};

use super::chime::Chime;

/// Why the dyer is wanted at a pot.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum CallKind {
    /// Turn the goods: reminder number so-and-so of this hold.
    Turn(u32),
    /// Look whether it has reached temperature.
    Look,
    /// An act of yours is due: the goods are soaked, or a rest is over.
    ActDue,
    /// The hold is over.
    HoldOver,
    /// The hold has run past its limit.
    OverRun,
    /// The bath should be cool enough.
    CoolEnough,
    /// A reading was above the ceiling.
    TooHot,
    /// The burner is on and nobody has touched anything for too long.
    HeatUnattended,
    /// Back after an outage: a question is open.
    Returned,
}

/// How soon hands are wanted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Urgency {
    /// Within the turn's window.
    Turn,
    /// Within some minutes.
    Due,
    /// Within a minute.
    Urgent,
}

/// A due call left unanswered beside a burning flame becomes urgent after this.
const GRACE: Span = Span::from_minutes(5);

/// *Heard* keeps a call quiet for so long.
const QUIET: Span = Span::from_minutes(5);

/// And an urgent one for so long.
const QUIET_URGENT: Span = Span::from_minutes(2);

impl CallKind {
    /// The id in the record.
    #[must_use]
    pub fn id(self) -> String {
        match self {
            Self::Turn(number) => format!("turn-{number}"),
            Self::Look => "look".into(),
            Self::ActDue => "act-due".into(),
            Self::HoldOver => "hold-over".into(),
            Self::OverRun => "over-run".into(),
            Self::CoolEnough => "cool-enough".into(),
            Self::TooHot => "too-hot".into(),
            Self::HeatUnattended => "heat-unattended".into(),
            Self::Returned => "returned".into(),
        }
    }

    /// The call of an id.
    #[must_use]
    pub fn from_id(id: &str) -> Option<Self> {
        if let Some(number) = id.strip_prefix("turn-") {
            return number.parse().ok().map(Self::Turn);
        }
        [
            Self::Look,
            Self::ActDue,
            Self::HoldOver,
            Self::OverRun,
            Self::CoolEnough,
            Self::TooHot,
            Self::HeatUnattended,
            Self::Returned,
        ]
        .into_iter()
        .find(|kind| kind.id() == id)
    }

    /// How urgent it is when it begins.
    #[must_use]
    pub const fn urgency(self) -> Urgency {
        match self {
            Self::Turn(_) => Urgency::Turn,
            Self::Look | Self::ActDue | Self::HoldOver | Self::CoolEnough | Self::HeatUnattended => {
                Urgency::Due
            }
            Self::OverRun | Self::TooHot | Self::Returned => Urgency::Urgent,
        }
    }

    /// Whether it grows urgent when nobody comes although the burner is on.
    const fn escalates(self) -> bool {
        match self {
            Self::HoldOver | Self::HeatUnattended => true,
            Self::Turn(_)
            | Self::Look
            | Self::ActDue
            | Self::OverRun
            | Self::CoolEnough
            | Self::TooHot
            | Self::Returned => false,
        }
    }

    /// How it sounds at a given urgency.
    #[must_use]
    pub const fn chime(self, urgency: Urgency) -> Chime {
        match (self, urgency) {
            (_, Urgency::Urgent) => Chime::Urgent,
            (Self::Turn(_), Urgency::Turn | Urgency::Due) => Chime::Turn,
            (Self::Look, Urgency::Turn | Urgency::Due) => Chime::Look,
            (Self::HoldOver | Self::CoolEnough, Urgency::Turn | Urgency::Due) => Chime::Ready,
            (
                Self::ActDue | Self::OverRun | Self::TooHot | Self::HeatUnattended | Self::Returned,
                Urgency::Turn | Urgency::Due,
            ) => Chime::Due,
        }
    }
}

/// What a call stands beside: it decides how urgent it grows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Beside {
    /// The burner is on.
    pub burner_on: bool,
    /// Turns missed in a row in this hold.
    pub turns_missed: u32,
}

/// So many turns missed in a row, and the next one is due like any act.
const MISSED_BEFORE_DUE: u32 = 3;

/// A call that has begun and isn't answered.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Standing {
    /// Why.
    pub kind: CallKind,
    /// Since when.
    pub since: Moment,
    /// Quiet until then, because the dyer heard it.
    pub quiet_until: Option<Moment>,
}

impl Standing {
    /// How urgent it is now. An unanswered call beside a burner that is on grows urgent; turns that were missed three
    /// times in a row are due.
    #[must_use]
    pub fn urgency(&self, beside: Beside, now: Moment) -> Urgency {
        if self.grows(beside) && now.since(self.since) >= GRACE {
            Urgency::Urgent
        } else {
            self.calm_urgency(beside)
        }
    }

    const fn calm_urgency(&self, beside: Beside) -> Urgency {
        if matches!(self.kind, CallKind::Turn(_)) && beside.turns_missed >= MISSED_BEFORE_DUE {
            Urgency::Due
        } else {
            self.kind.urgency()
        }
    }

    /// The dyer heard it: it is quiet for a while, but never beyond the moment at which it grows urgent.
    pub fn hear(&mut self, beside: Beside, now: Moment) {
        let until = match self.urgency(beside, now) {
            Urgency::Urgent => now.plus(QUIET_URGENT),
            Urgency::Turn | Urgency::Due => {
                let grows = self.since.plus(GRACE);
                if self.grows(beside) && grows.since(now) < QUIET {
                    grows
                } else {
                    now.plus(QUIET)
                }
            }
        };
        self.quiet_until = Some(until);
    }

    /// Whether it will be urgent, or is, because a burner is on beside it.
    const fn grows(&self, beside: Beside) -> bool {
        beside.burner_on && self.kind.escalates()
    }

    /// The first moment after `after` at which it sounds again, or `None` if it is only on the screen from then on.
    #[must_use]
    pub fn next_ring(&self, beside: Beside, after: Moment) -> Option<Moment> {
        // A ring that falls on the end of the quiet sounds.
        let elapsed = match self.quiet_until {
            Some(until) if until.since(after) > Span::NONE => until.since(self.since).less(Span::from_ms(1)),
            Some(_) | None => after.since(self.since),
        };
        // A sign is looked for beside a cold burner, for hours and into the night: it calls as seldom as a cool-down.
        let as_kind = if self.kind == CallKind::Look && !beside.burner_on {
            CallKind::CoolEnough
        } else {
            self.kind
        };
        let calm = next_offset(self.calm_urgency(beside), as_kind, elapsed);
        let grown = match (self.grows(beside), elapsed < GRACE) {
            (true, true) => Some(GRACE),
            (true, false) => {
                next_offset(Urgency::Urgent, self.kind, elapsed.less(GRACE)).map(|offset| offset.plus(GRACE))
            }
            (false, _) => None,
        };
        let next = match (calm, grown) {
            (Some(calm), Some(grown)) => Some(calm.min(grown)),
            (Some(one), None) | (None, Some(one)) => Some(one),
            (None, None) => None,
        };
        next.map(|offset| self.since.plus(offset))
    }
}

/// The first ring offset strictly after `elapsed` for a call of that urgency.
fn next_offset(urgency: Urgency, kind: CallKind, elapsed: Span) -> Option<Span> {
    let (early, then_every): (&[u64], Option<u64>) = match (urgency, kind) {
        (Urgency::Turn, _) => (&[60], None),
        (Urgency::Due, CallKind::Look) => (&[120, 240, 360], Some(180)),
        (Urgency::Due, CallKind::CoolEnough) => (&[180, 900], Some(3_600)),
        (
            Urgency::Due,
            CallKind::Turn(_)
            | CallKind::ActDue
            | CallKind::HoldOver
            | CallKind::OverRun
            | CallKind::TooHot
            | CallKind::HeatUnattended
            | CallKind::Returned,
        ) => (&[30, 90, 180], Some(180)),
        (Urgency::Urgent, _) => (&[10, 20, 30, 40, 50, 60], Some(30)),
    };
    let found = early
        .iter()
        .copied()
        .map(Span::from_seconds)
        .find(|offset| *offset > elapsed);
    found.or_else(|| {
        let last = Span::from_seconds(early.last().copied().unwrap_or(0));
        let every = Span::from_seconds(then_every?);
        let past = elapsed.less(last);
        let whole = past.ms().checked_div(every.ms())?.saturating_add(1);
        Some(last.plus(Span::from_ms(whole.saturating_mul(every.ms()))))
    })
}
