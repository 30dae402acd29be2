//! What the glass reports, and what the pages wish for in return.

use crate::craft::time::Span;
use crate::machine::{Input, PotNo};
use crate::sheet::BathSheet;
use crate::shelf::ShelfAsk;
use crate::view::bench::Bench;

use super::shelf::LabelFile;

/// Anything a hand did on the glass or on the keys.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Press {
    /// A firm tap on the slab of that key.
    Firm(String),
    /// The key that means a firm tap on the screen's own slab.
    FirmKey,
    /// A side act, or an act at the foot of a list.
    Side(String),
    /// A row or tile.
    Choose(String),
    /// A key of the drawn keypad.
    Keypad(String),
    /// A unit beside the keypad.
    Unit(String),
    /// A digit of the keyboard.
    Digit(char),
    /// The decimal sign of the keyboard.
    Point,
    /// The key that takes back, or erases a digit.
    TakeBack,
    /// The key that says *heard*.
    Heard,
    /// Back, or Escape.
    Back,
    /// That pot, please.
    Pot(PotNo),
    /// An act of the home screen.
    Home(HomePress),
    /// An act of the goods page.
    Goods(GoodsPress),
    /// The working of that number.
    Working(String),
    /// Somebody is near.
    Near,
}

/// The acts of the home screen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[expect(missing_docs, reason = "each opens what it names")]
pub enum HomePress {
    Begin,
    Daybook,
    Bench,
    Rehearse,
    Recipes,
    Shelf,
}

/// The acts of the goods page.
#[derive(Debug, Clone, PartialEq, Eq)]
#[expect(missing_docs, reason = "the names say it")]
pub enum GoodsPress {
    Fibre(String),
    KeyWeight,
    ChooseState,
    FewerHanks,
    MoreHanks,
    GoOn,
}

/// What the pages can't do themselves.
#[derive(Debug, Clone, PartialEq)]
pub enum Wish {
    /// Ask the machine.
    Tell(Input),
    /// Quiet all calls but the urgent ones for so long; for no time, let them be heard.
    Quiet(Span),
    /// Begin a computed bath in a pot.
    Begin(PotNo, Box<BathSheet>),
    /// Play a computed bath on fast time.
    Rehearse(Box<BathSheet>),
    /// End the rehearsal.
    EndRehearsal,
    /// Keep the bench.
    KeepBench(Bench),
    /// Go by a bench that isn't kept yet.
    GoBy(Bench),
    /// Let every sound be heard once, as loud as the bench has it.
    SoundCheck,
    /// Read a record for the page.
    OpenRecord(String),
    /// Ask something of the shelf.
    AskShelf(ShelfAsk),
    /// Write sheets of labels to files.
    WriteLabels(Vec<LabelFile>),
}
