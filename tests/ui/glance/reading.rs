//! One text read from some way off: how high its capitals are, what contrast it has, and what distance leaves of both.

use crate::gallery::Picture;

use super::arc::{self, Sight};
use super::ink::{self, Frame, Ink};
use super::letters;
use super::texts::Text;

/// A text's letters on the glass that is furthest from being read: seven inches at 800 x 480.
pub(crate) const PPI: f32 = 133.0;
/// The least contrast of what is drawn.
const CONTRAST_LEAST: f32 = 7.0;
/// The least contrast that distance may leave.
const CONTRAST_LEFT_LEAST: f32 = 3.0;

/// How a text is to be read: capitals of so many minutes of arc from so many metres.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Wanted {
    pub(crate) metres: f32,
    pub(crate) minutes: f32,
}

/// A text found on a picture, to be looked at in several themes.
pub(crate) struct Reading {
    text: Text,
    frame: Frame,
    ink: Option<Ink>,
}

impl Reading {
    pub(crate) fn of(picture: &Picture, text: &Text) -> Self {
        let frame = Frame::of(text.area, picture);
        Self {
            text: text.clone(),
            frame,
            ink: ink::read(picture, frame),
        }
    }

    /// What of the text isn't as wanted, in words; empty when all is. The picture may be of another theme.
    pub(crate) fn faults(&self, picture: &Picture, wanted: Wanted) -> Vec<String> {
        let words = &self.text.words;
        let Some(ink) = self.ink.as_ref().map(|ink| ink.dyed_as(picture)) else {
            return vec![format!("`{words}` has no ink")];
        };
        let metres = wanted.metres;
        let sight = Sight { metres, ppi: PPI };
        let mut faults = Vec::new();
        let mut fault = |said: String| faults.push(format!("`{words}` {said}"));
        if self.text.is_cut() {
            fault("is cut".into());
        }
        let minutes = sight.minutes(capital(&ink, &self.text));
        if minutes < wanted.minutes {
            fault(format!(
                "has capitals of {minutes:.1}' at {metres} m, wanted {}",
                wanted.minutes
            ));
        }
        if ink.contrast() < CONTRAST_LEAST {
            fault(format!(
                "stands out {:.1}:1, wanted {CONTRAST_LEAST}",
                ink.contrast()
            ));
        }
        let seen = arc::seen(picture, self.frame, sight);
        let left = seen.contrast_left(&ink);
        if left < CONTRAST_LEFT_LEAST {
            fault(format!(
                "keeps {left:.1}:1 at {metres} m, wanted {CONTRAST_LEFT_LEAST}"
            ));
        }
        // The tallest mark, counted in minutes of arc that still stand out. An edge may fall between two of them.
        let tallest = ink.marks.iter().max_by_key(|mark| mark.height());
        let rows = tallest.map_or(0, |mark| seen.height(*mark, &ink, CONTRAST_LEFT_LEAST)) as f32;
        let wanted_rows = (wanted.minutes * letters::tallest_mark(words, self.text.is_bold) - 1.0).floor();
        if rows < wanted_rows {
            fault(format!(
                "is {rows} minutes of arc high at {metres} m, wanted {wanted_rows}"
            ));
        }
        faults
    }
}

/// The height of a capital in pixels, from the tallest mark on the picture.
pub(crate) fn capital(ink: &Ink, text: &Text) -> f32 {
    ink.tallest() as f32 / letters::tallest_mark(&text.words, text.is_bold)
}
