//! When the light behind the glass is turned down: at night, while nobody is near and no pot wants anybody.

use crate::craft::time::Span;

use super::screen::Theme;

/// How much light.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Light {
    /// As it was set.
    Full,
    /// Turned down, still to be read from near.
    Dimmed,
}

/// Nobody has touched the glass for so long before it is dimmed.
const DIMMED_AFTER: Span = Span::from_minutes(5);

/// What the light depends on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Around {
    /// Since the last touch or key.
    pub untouched: Span,
    /// A pot calls, or something isn't saved or heard.
    pub is_wanted: bool,
    /// The look of the screen.
    pub theme: Theme,
    /// The hours in which only what is urgent sounds.
    pub hours_are_quiet: bool,
}

/// How much light there should be. By day the glass stays as bright as it was set: it is read from the other side of
/// the room.
///
/// ```
/// # use potside::{craft::time::Span, view::{dimming::{Around, Light, light}, screen::Theme}};
/// let night = Around {
///     untouched: Span::from_minutes(6),
///     is_wanted: false,
///     theme: Theme::Night,
///     hours_are_quiet: false,
/// };
/// assert_eq!(light(night), Light::Dimmed);
/// assert_eq!(light(Around { is_wanted: true, ..night }), Light::Full);
/// assert_eq!(light(Around { untouched: Span::from_minutes(4), ..night }), Light::Full);
/// assert_eq!(light(Around { theme: Theme::Kitchen, ..night }), Light::Full);
/// assert_eq!(light(Around { theme: Theme::Kitchen, hours_are_quiet: true, ..night }), Light::Dimmed);
/// ```
#[must_use]
pub fn light(around: Around) -> Light {
    let is_night = around.hours_are_quiet
        || match around.theme {
            Theme::Night => true,
            Theme::Daylight | Theme::Kitchen => false,
        };
    if is_night && !around.is_wanted && around.untouched >= DIMMED_AFTER {
        Light::Dimmed
    } else {
        Light::Full
    }
}
