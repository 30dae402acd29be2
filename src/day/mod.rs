//! Several baths on one stove with one pair of hands: what each pot will want them for and when, where a bath that is
//! about to begin would want them for two pots at once, and which later starts would spare that.
//!
//! Nothing here plans the dyer's day. It looks ahead from where the pots stand, and offers; the dyer begins.

mod ahead;
mod errand;
mod meeting;
mod offer;

pub use ahead::{Ahead, OfPot, of_plan, of_run};
pub use errand::{Coming, Errand};
pub use meeting::{Meeting, is_guess, may_meet, meetings, meets};
pub use offer::{HOURS_AHEAD, LATEST, Offer, Offers, leaves_open, offers};
