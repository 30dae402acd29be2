//! Potside: a step guide and timer that stands beside the natural dyer's pot.
//!
//! The library is a row of rooms, and doors open to the left only:
//!
//! ```text
//! craft <- recipe <- sheet <- machine <-+- journal <- keeper <-+- shell <- main
//!                      ^                |                      |
//!                      +-- shelf <- - - +- day <- view <-------+
//! ```
//!
//! - [`craft`]: the words, facts and sums of the craft, as types that can't hold nonsense
//! - [`recipe`]: TOML text in; a recipe, or all its faults, out
//! - [`sheet`]: recipe, goods, pot, burner and place become a bath sheet, with the working behind every number
//! - [`shelf`]: lots of goods, supplies and work lists: what stands beside the stove between baths
//! - [`machine`]: a bath in progress: inputs are judged, events change it, deadlines follow from it
//! - [`day`]: several baths on one stove and one pair of hands: what meets, and which later starts spare it
//! - [`journal`]: events to bytes and back, recovery, sealing
//! - [`keeper`]: the machine and its journals in one hand: judge, write, flush, apply, tell
//! - [`view`]: a state and a moment become what a screen shows, in finished words
//! - `shell`: everything that can wait, fail or be heard; built with the feature of that name
//!
//! What holds everywhere:
//!
//! 1. Nothing left of the shell asks the world anything: time, files and settings arrive as arguments.
//! 2. Only events change a bath. Judging may refuse and changes nothing; applying can't fail.
//! 3. Each event carries its moment, so a replay needs no clock.
//! 4. An event is on the disk before it is seen or heard, and a replay sounds nothing. After a recovery the shell
//!    asks the state what should be sounding.
//! 5. Any run of whole records, from the first on, gives the bath as it stood then.
//! 6. What a screen shows follows from state and moment and from nothing else.
//! 7. No fault of sound, glass, device or disk stops the keeping of time. A disk that refuses makes a bath that is
//!    kept in memory and says so on every screen: the one case in which promise 4 yields.
//!
//! Which room may use which, and how that is checked: `docs/architecture.md`.

pub mod craft;
pub mod day;
pub mod journal;
pub mod keeper;
pub mod machine;
pub mod recipe;
pub mod sheet;
pub mod shelf;
#[cfg(feature = "shell")]
pub mod shell;
pub mod view;
