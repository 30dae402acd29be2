//! What stands beside the stove: lots of goods with their history, supplies, and work lists of baths for a lot.
//!
//! Text in, a shelf or all its faults out; acts that may be refused; finished baths put down once. Knows no file, no
//! clock and no record: days and finished baths arrive as arguments. Words for the screen belong to the view.

mod acts;
mod ask;
mod bath;
mod condition;
mod draw;
mod kept;
mod lot;
mod low;
mod missing;
mod page;
mod read;
mod seen;
mod supply;
mod weight;
mod words;
pub mod worklist;
mod write;

pub use acts::{ActFault, NewLot, NewSupply, Part};
pub use ask::{ShelfAsk, ShelfDone};
pub use bath::{Draw, ShelvedBath, Weighed, ware_brings};
pub use condition::{Condition, KEEPS_DAYS, Keeping, Past, Stage, condition};
pub use draw::{Applied, Remark};
pub use kept::Shelf;
pub use lot::{Came, Lot, LotWeighing, state_of, state_text};
pub use low::{Low, LowBy, low};
pub use missing::{Missing, Want, missing, wants_of};
pub use page::{FileKind, kind_of};
pub use read::{FILE_BYTES_MOST, read};
pub use seen::ShelfSeen;
pub use supply::{Label, NotASupply, Stock, Supply, SupplyId};
pub use weight::Milligrams;
pub use words::{BadWords, NAME_CHARACTERS_MOST, NOTE_CHARACTERS_MOST, name, note};
pub use write::write;
