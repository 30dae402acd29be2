//! From the view's plain structs to the generated ones and back, field by field. No field is formatted or decided here.

use slint::SharedString;

use super::generated as glass;
use crate::view::screen as view;
use crate::view::unbroken::unbroken;

/// A value of the view as the markup takes it.
pub(super) trait ToGlass {
    /// What it becomes.
    type Glass;
    /// Makes it.
    fn to_glass(&self) -> Self::Glass;
}

impl ToGlass for String {
    type Glass = SharedString;
    fn to_glass(&self) -> SharedString {
        SharedString::from(self.as_str())
    }
}

/// Values that are the same on both sides.
macro_rules! same {
    ($($kind:ty),*) => {$(
        impl ToGlass for $kind {
            type Glass = Self;
            fn to_glass(&self) -> Self {
                *self
            }
        }
    )*};
}

/// Enums whose variants carry the same names on both sides.
macro_rules! words {
    ($($name:ident: $($variant:ident),+;)*) => {$(
        impl ToGlass for view::$name {
            type Glass = glass::$name;
            fn to_glass(&self) -> glass::$name {
                match self {
                    $(Self::$variant => glass::$name::$variant,)+
                }
            }
        }
    )*};
}

/// The same the other way, for what pictures are asked to show.
macro_rules! words_back {
    ($($name:ident: $($variant:ident),+;)*) => {$(
        impl From<glass::$name> for view::$name {
            fn from(glass: glass::$name) -> Self {
                match glass {
                    $(glass::$name::$variant => Self::$variant,)+
                }
            }
        }
    )*};
}

/// Structs whose fields carry the same names on both sides; lists of the view that travel as models are left out.
macro_rules! parts {
    ($($name:ident: $($field:ident),+;)*) => {$(
        impl ToGlass for view::$name {
            type Glass = glass::$name;
            fn to_glass(&self) -> glass::$name {
                glass::$name {
                    $($field: self.$field.to_glass(),)+
                }
            }
        }
    )*};
}

same!(bool, i32, f32);

words! {
    Route: Stove, Goods, Choose, Number, Sheet, Working, Run, Far, Ask, Returned, Record, Leaf, Label, Wipe;
    Theme: Daylight, Kitchen, Night;
    Icon: None, Tick, Cross, TakeBack, Skip, Reading, Stove, More, Heard, Pot, Scale, Plus, Minus, Up, Down, Left,
        Right, Warn, Book, Bench, Rehearse, Question, SoundOff, SaveOff, Erase, Drop, Clock, Lid, Flame, Shelf, Tag, List;
    Liquor: Water, Mordant, Indigo, Madder, Weld, Walnut, Verdigris;
    Lid: Off, Loose, Tight;
    Heat: Off, Low, High;
    Steam: None, Some, Much;
    Place: Absent, Out, Within;
    MarkKind: Addition, Turn, Reading, Tap;
    StripLook: Hands, Turn, Leisure;
    NoticeWeight: Quiet, Caution, Urgent;
    GaugeSide: Under, Within, Over;
    BlockLook: Heading, Words, Caution, Refusal, Fact, Step, Press;
}

words_back! {
    Lid: Off, Loose, Tight;
    Heat: Off, Low, High;
    Steam: None, Some, Much;
    Place: Absent, Out, Within;
    MarkKind: Addition, Turn, Reading, Tap;
}

parts! {
    PotPicture: pot, level, liquor, lid, heat, steam, goods, bag, said;
    Slab: key, label, detail, icon, enabled, quiet;
    SideAct: key, label, icon, enabled, strong;
    RailPot: pot, act, time, calling, said;
    RailFace: pot, forward, calling;
    CurveMark: x, y, label, kind;
    CurveRule: at, label;
    BathCurve: band, plan, done, now, said;
    RunScreen: title, step, clock, pot, pot_words, act, slab, other, curve;
    StovePot: pot, title, act, time, time_label, calling, said;
    StoveScreen: clock, date, idle_title, idle_note, can_begin;
    Row: key, label, detail, value, icon, chosen, enabled;
    ChooseScreen: title, note, columns, tiles, big, empty;
    UnitChoice: key, label, chosen;
    StepKey: key, label;
    Gauge: shown, at, side, word;
    NumberScreen: title, target, typed, hint, unit, doubt, point, minus, slab, last, swap, gauge;
    GoodsScreen: title, note, weight, weight_note, hanks, state, state_note, onward, can_go_on, missing;
    Block: look, key, label, value, detail, icon, enabled;
    LeafScreen: title, note;
    LabelScreen: title, note, ink, cut, width, height, said;
    CautionLine: topic, text, read;
    SheetScreen: title, note, refusal, slab, curve, footer;
    Beside: line, said;
    StripRow: label, own;
    StripMark: row, x, width, label, look, meets;
    Fact: label, value;
    WorkingScreen: title, result, formula, source, strength;
    AskScreen: pot, title, detail;
    ReturnScreen: pot, title, last_saved, off_for, probably, measure, question;
    RecordLine: step, planned, actual, note, off;
    RecordScreen: title, note, curve;
    WipeScreen: act, time;
    Notice: text, icon, weight;
}

/// Without its time, which travels alone.
impl ToGlass for view::ActWords {
    type Glass = glass::ActWords;
    fn to_glass(&self) -> glass::ActWords {
        glass::ActWords {
            verb: self.verb.to_glass(),
            amount: unbroken(&self.amount).to_glass(),
            object: unbroken(&self.object).to_glass(),
            how: unbroken(&self.how).to_glass(),
            caution: unbroken(&self.caution).to_glass(),
            timed: !self.time.is_empty(),
            time_shape: shape(&self.time).to_glass(),
            time_label: self.time_label.to_glass(),
        }
    }
}

/// A time with every digit a nought: as wide, since the digits are, and the same for as long as it has as many of them.
pub(super) fn shape(time: &str) -> String {
    time.chars()
        .map(|sign| if sign.is_ascii_digit() { '0' } else { sign })
        .collect()
}

/// Without its time, which travels alone.
impl ToGlass for view::FarScreen {
    type Glass = glass::FarScreen;
    fn to_glass(&self) -> glass::FarScreen {
        glass::FarScreen {
            pot: self.pot.to_glass(),
            first: unbroken(&self.first).to_glass(),
            second: unbroken(&self.second).to_glass(),
            timed: !self.time.is_empty(),
            time_label: self.time_label.to_glass(),
            calling: self.calling,
        }
    }
}
