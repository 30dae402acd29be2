//! What the keeper asks of a data folder: which baths there are, and the places in which each is kept.

use std::fmt;

use crate::craft::time::Moment;
use crate::journal::id::BathId;
use crate::journal::store::{Store, StoreFault};
use crate::msg;
use crate::shelf::{ShelfAsk, ShelfDone, ShelfSeen};

/// A data folder with, perhaps, a spare place beside it.
pub trait Folder {
    /// The stores it hands out.
    type Store: Store + fmt::Debug;

    /// The baths that are kept in any place. A fault if the home place can't be listed: to go on then would be to
    /// take a full folder for an empty one.
    fn baths(&mut self) -> Result<Listing, StoreFault>;

    /// Keeps the recipe word for word and the sheet as computed with a new bath, flushed. To repeat it after a cut
    /// is harmless; what is there already stays as it is.
    fn begin_bath(&mut self, bath: &BathId, recipe_toml: &[u8], sheet_json: &[u8]) -> Result<(), StoreFault>;

    /// The places in which a bath's journal is kept, in the order in which they are tried: home first.
    fn places(&mut self, bath: &BathId) -> Vec<Self::Store>;

    /// The store of the daybook's pages.
    fn daybook(&mut self) -> Self::Store;

    /// A record has been sealed, or a run begins: whatever else is kept of finished baths follows the daybook now. To do
    /// it again changes nothing. Returns what a person should know.
    fn follow_daybook(&mut self) -> Vec<String> {
        Vec::new()
    }

    /// The shelf as it is kept.
    fn shelf(&mut self) -> ShelfSeen {
        ShelfSeen::default()
    }

    /// Asks something of the shelf; it is on the disk before it is told. With what came of it, what a person should know.
    ///
    /// # Errors
    /// One line on why it isn't done.
    fn ask_shelf(&mut self, _asked: &ShelfAsk, _now: Moment) -> Result<(ShelfDone, Vec<String>), String> {
        Err(msg!("there is no shelf here").to_owned())
    }

    /// The recipe as it was kept when the bath began; nothing if it wasn't, or can't be read.
    fn recipe_of(&mut self, bath: &BathId) -> Option<String>;
}

/// The baths that are kept, and what couldn't be looked at.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Listing {
    /// The baths, sorted, each once.
    pub baths: Vec<BathId>,
    /// A line for each place that couldn't be looked at.
    pub troubles: Vec<String>,
}
