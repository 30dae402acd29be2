//! How long the program was away.

use crate::craft::time::{Moment, Span};

/// How long the program was away, from the last recorded moment to now: at least, and at most if it is known.
///
/// Within one boot the steady clock ran on, so both are the same. After a restart of the machine only its uptime is
/// sure; the wall clock bounds it from above if it isn't earlier than that.
#[must_use]
pub fn away(last: Moment, now: Moment, same_boot: bool) -> (Span, Option<Span>) {
    if same_boot && now.steady_ms >= last.steady_ms {
        let away = Span::from_ms(now.steady_ms.saturating_sub(last.steady_ms));
        return (away, Some(away));
    }
    let at_least = Span::from_ms(now.steady_ms);
    let by_wall = u64::try_from(now.wall_ms.saturating_sub(last.wall_ms))
        .ok()
        .map(Span::from_ms);
    (at_least, by_wall.filter(|by_wall| *by_wall >= at_least))
}
