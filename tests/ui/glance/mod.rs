//! One look from across the kitchen: what distance leaves of each screen, measured on the painted picture.
//!
//! Sources: heights of letters from ISO 9241-303 (a capital of 20 to 22 minutes of arc is preferred), second hand; that a
//! healthy eye tells one minute of arc apart is Snellen's definition of a visual acuity of 1.0, by which letters of five
//! minutes are read and letters of ten with ease. Contrast from WCAG 2.2, 1.4.6 (7:1 for text) and 1.4.11 (3:1 for what
//! must be made out); that 3:1 should be left of every letter after the blur of distance is our own rule.

mod arc;
mod can_fail;
mod ink;
mod letters;
mod reading;
mod texts;
