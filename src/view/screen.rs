//! What each screen shows, as plain structs in finished words: one struct or list for each thing a screen takes. The
//! builders make them from state and now; the shell paints them. Nothing here formats or decides.

use super::locale::Language;

/// Which screen stands on the glass.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[expect(missing_docs, reason = "each is the name of a view under ui/views")]
pub enum Route {
    #[default]
    Stove,
    Goods,
    Choose,
    Number,
    Sheet,
    Working,
    Run,
    Far,
    Ask,
    Returned,
    Record,
    Leaf,
    Label,
    Wipe,
}

/// The look, by where the glass stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[expect(missing_docs, reason = "the names say where")]
pub enum Theme {
    Daylight,
    #[default]
    Kitchen,
    Night,
}

/// A sign beside words; never the only carrier of a meaning.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[expect(missing_docs, reason = "the names say what is drawn")]
pub enum Icon {
    #[default]
    None,
    Tick,
    Cross,
    TakeBack,
    Skip,
    Reading,
    Stove,
    More,
    Heard,
    Pot,
    Scale,
    Plus,
    Minus,
    Up,
    Down,
    Left,
    Right,
    Warn,
    Book,
    Bench,
    Rehearse,
    Question,
    SoundOff,
    SaveOff,
    Erase,
    Drop,
    Clock,
    Lid,
    Flame,
    Shelf,
    Tag,
    List,
}

/// The colour role of the liquor in a drawn pot.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[expect(missing_docs, reason = "the dyes' own names")]
pub enum Liquor {
    #[default]
    Water,
    Mordant,
    Indigo,
    Madder,
    Weld,
    Walnut,
    Verdigris,
}

/// How the lid lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[expect(missing_docs, reason = "the names say how")]
pub enum Lid {
    #[default]
    Off,
    Loose,
    Tight,
}

/// What burns under the pot.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[expect(missing_docs, reason = "the names say what")]
pub enum Heat {
    #[default]
    Off,
    Low,
    High,
}

/// How much steam rises.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[expect(missing_docs, reason = "the names say how much")]
pub enum Steam {
    #[default]
    None,
    Some,
    Much,
}

/// Where goods or a bag of dyestuff are.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Place {
    /// Not part of this bath, or not yet in sight.
    #[default]
    Absent,
    /// Waiting outside; hung above the pot.
    Out,
    /// In the liquor.
    Within,
}

/// The pot in section, as it should look now.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct PotPicture {
    /// Its number, 1 to 6.
    pub pot: i32,
    /// 0 is empty, 1 the brim.
    pub level: f32,
    /// Colour role of the liquor.
    pub liquor: Liquor,
    /// The lid.
    pub lid: Lid,
    /// The heat.
    pub heat: Heat,
    /// The steam.
    pub steam: Steam,
    /// The goods.
    pub goods: Place,
    /// The bag of dyestuff.
    pub bag: Place,
    /// The whole picture in words, for who can't see it.
    pub said: String,
}

/// The act in finished words. Empty strings leave their room to the rest.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct ActWords {
    /// Upper case: `ADD`.
    pub verb: String,
    /// With its unit: `15.0 g`. Stands beside the verb.
    pub amount: String,
    /// `alum`.
    pub object: String,
    /// One line of how.
    pub how: String,
    /// One line of caution.
    pub caution: String,
    /// The time left, or the clock time due: `04:10`, `15:31`.
    pub time: String,
    /// Which of the two: `due within`, `expected by`.
    pub time_label: String,
}

/// Something confirmed by a firm tap. An empty label means there is none.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Slab {
    /// What touches on it are reported under.
    pub key: String,
    /// `added`.
    pub label: String,
    /// A small second line: `15.0 g`, `saving...`.
    pub detail: String,
    /// The sign.
    pub icon: Icon,
    /// Whether it takes touches now.
    pub enabled: bool,
    /// The lesser answer of two: drawn without the dye.
    pub quiet: bool,
}

/// A side act: pressed lightly, confirms nothing.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct SideAct {
    /// What it is reported as.
    pub key: String,
    /// One or two short words.
    pub label: String,
    /// The sign.
    pub icon: Icon,
    /// Whether it can be pressed now.
    pub enabled: bool,
    /// The one wanted just now, such as *heard* while a call sounds.
    pub strong: bool,
}

/// A pot on the rail.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct RailPot {
    /// Its number, 1 to 6.
    pub pot: i32,
    /// Its next act, short: `turn`, `cool to 40 degrees`.
    pub act: String,
    /// That act's time, short: `4 min`, `17:50`, `now`.
    pub time: String,
    /// It is the one on the screen.
    pub forward: bool,
    /// Hands are due.
    pub calling: bool,
    /// All of it as one sentence.
    pub said: String,
}

impl RailPot {
    /// What of it is drawn.
    #[must_use]
    pub const fn face(&self) -> RailFace {
        RailFace {
            pot: self.pot,
            forward: self.forward,
            calling: self.calling,
        }
    }
}

/// A cell of the rail without its words, which change each minute.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct RailFace {
    /// Its pot, 1 to 6.
    pub pot: i32,
    /// It is the one on the screen.
    pub forward: bool,
    /// Hands are due.
    pub calling: bool,
}

/// What a mark on the curve stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum MarkKind {
    /// A letter in a ring at its moment.
    #[default]
    Addition,
    /// A tick on the line.
    Turn,
    /// A dot where the thermometer said so.
    Reading,
    /// A small diamond where an act was confirmed.
    Tap,
}

/// A mark on the curve, in the curve's box of 1000 by 1000, y downwards.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct CurveMark {
    /// From the left.
    pub x: f32,
    /// From the top.
    pub y: f32,
    /// The letter of an addition; else empty.
    pub label: String,
    /// What it stands for.
    pub kind: MarkKind,
}

/// A line of the curve's grid.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct CurveRule {
    /// From the left for times, from the top for temperatures, of 1000.
    pub at: f32,
    /// ninety degrees, or `14:30`. At most five of either fit.
    pub label: String,
}

/// The curve, ready to draw: SVG path commands in a box of 1000 by 1000, y downwards.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct BathCurve {
    /// The band of what is to come: a closed path.
    pub band: String,
    /// Its middle line: an open path. Empty hides the curve on the sheet.
    pub plan: String,
    /// What was done: an open path.
    pub done: String,
    /// Where now is, of 1000; below zero for no plumb line.
    pub now: f32,
    /// What the curve says, for who can't see it.
    pub said: String,
}

/// The curve's lists, which change less often than its lines.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct CurveLists {
    /// Marks, later ones drawn above.
    pub marks: Vec<CurveMark>,
    /// Grid lines across, with their words.
    pub temperatures: Vec<CurveRule>,
    /// Grid lines down, with their words.
    pub times: Vec<CurveRule>,
}

/// The run screen.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct RunScreen {
    /// `Alum mordant, merino hanks`; seen when one pot is going.
    pub title: String,
    /// `step 4 of 12`.
    pub step: String,
    /// The time of day.
    pub clock: String,
    /// The pot.
    pub pot: PotPicture,
    /// The pot's state in words, at most two short lines: `lid off, heat low, goods out`.
    pub pot_words: String,
    /// The act.
    pub act: ActWords,
    /// What confirms it.
    pub slab: Slab,
    /// The other answer, where there is one. With two slabs leave the time empty, or they get narrow.
    pub other: Slab,
    /// The curve.
    pub curve: BathCurve,
    /// The curve's lists.
    pub lists: CurveLists,
    /// Every pot going; no rail is drawn for fewer than two.
    pub rail: Vec<RailPot>,
    /// At most four side acts.
    pub sides: Vec<SideAct>,
}

/// The far view.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct FarScreen {
    /// The pot.
    pub pot: PotPicture,
    /// Verb and amount.
    pub first: String,
    /// The object, or where in the bath this is.
    pub second: String,
    /// The time left or due.
    pub time: String,
    /// Which of the two.
    pub time_label: String,
    /// Hands are due now.
    pub calling: bool,
}

/// A pot's card at home.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct StovePot {
    /// Its number, 1 to 6.
    pub pot: i32,
    /// Recipe and goods.
    pub title: String,
    /// The next act.
    pub act: String,
    /// Its time.
    pub time: String,
    /// Which kind of time.
    pub time_label: String,
    /// Hands are due.
    pub calling: bool,
    /// All of it as one sentence.
    pub said: String,
}

/// Home.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct StoveScreen {
    /// The time of day.
    pub clock: String,
    /// The day.
    pub date: String,
    /// Said large when no pot is going.
    pub idle_title: String,
    /// Said beneath.
    pub idle_note: String,
    /// Whether another bath can begin.
    pub can_begin: bool,
    /// The pots going, at most six.
    pub pots: Vec<StovePot>,
}

/// A row or tile to press.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Row {
    /// What it is reported as.
    pub key: String,
    /// Its name.
    pub label: String,
    /// A small note.
    pub detail: String,
    /// Its value: at the right of a row, large in a tile.
    pub value: String,
    /// The sign.
    pub icon: Icon,
    /// The chosen one.
    pub chosen: bool,
    /// Whether it can be pressed.
    pub enabled: bool,
}

/// A list to choose from.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct ChooseScreen {
    /// What is chosen.
    pub title: String,
    /// A small line beneath the title.
    pub note: String,
    /// 1 to 3, or up to 6 when they are big.
    pub columns: i32,
    /// Tiles instead of rows.
    pub tiles: bool,
    /// Rows and acts as high as a confirming target, for gloves; `columns` may then be up to 6.
    pub big: bool,
    /// Said when there are no rows.
    pub empty: String,
    /// The rows.
    pub rows: Vec<Row>,
    /// Up to four side acts at the foot.
    pub foot: Vec<SideAct>,
}

/// A unit to key a number in.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct UnitChoice {
    /// What it is reported as.
    pub key: String,
    /// `oz`.
    pub label: String,
    /// The chosen one.
    pub chosen: bool,
}

/// A step up or down, or a value to take.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct StepKey {
    /// What it is reported as.
    pub key: String,
    /// With its unit: `+0.1 g`.
    pub label: String,
}

/// On which side of its target a number lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[expect(missing_docs, reason = "the names say where")]
pub enum GaugeSide {
    Under,
    #[default]
    Within,
    Over,
}

/// How a number lies to its target: a bar whose middle third is the band of what is near enough.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Gauge {
    /// Whether there is a target.
    pub shown: bool,
    /// Where on the bar, 0 to 1.
    pub at: f32,
    /// On which side.
    pub side: GaugeSide,
    /// The same in words; empty while nothing is keyed.
    pub word: String,
}

/// Keying in a number.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct NumberScreen {
    /// What is keyed in.
    pub title: String,
    /// What is wanted, with its tolerance.
    pub target: String,
    /// The text keyed so far.
    pub typed: String,
    /// Seen while nothing is keyed.
    pub hint: String,
    /// The unit.
    pub unit: String,
    /// What seems wrong with it.
    pub doubt: String,
    /// The decimal sign; empty where only whole numbers make sense.
    pub point: String,
    /// A minus sign instead of the decimal sign.
    pub minus: bool,
    /// What takes it.
    pub slab: Slab,
    /// Units to choose from; empty when there is no choice.
    pub units: Vec<UnitChoice>,
    /// Steps, two and two, in the place of the digits; empty where the digits stand.
    pub steps: Vec<StepKey>,
    /// The value of last time beneath the steps; without a label where there is none.
    pub last: StepKey,
    /// Changes between digits and steps; without a label where there are no steps.
    pub swap: StepKey,
    /// How the number lies to its target.
    pub gauge: Gauge,
}

/// What goods are: the first page of *begin*, and of a new lot.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct GoodsScreen {
    /// What it is about.
    pub title: String,
    /// A small line beneath the title.
    pub note: String,
    /// With its unit, or a request for it.
    pub weight: String,
    /// The same in another unit.
    pub weight_note: String,
    /// `3 hanks`.
    pub hanks: String,
    /// `air-dry`.
    pub state: String,
    /// `weighed after scour`.
    pub state_note: String,
    /// Where it goes on to.
    pub onward: String,
    /// Nothing is missing.
    pub can_go_on: bool,
    /// What is missing, short.
    pub missing: String,
    /// The fibres, and before them other ways to say what goods are.
    pub fibres: Vec<Row>,
}

/// How a block of a leaf looks.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum BlockLook {
    /// The head of what follows: `label`.
    #[default]
    Heading,
    /// Running words: `label`.
    Words,
    /// What can hurt or go wrong: `label`, and beneath it `detail`.
    Caution,
    /// What speaks against it: the same, more pressing.
    Refusal,
    /// Words and a value: `label`, `value`, and beneath them `detail`.
    Fact,
    /// A step: `value` is its number, `label` what is done, `detail` how.
    Step,
    /// Something to press: all of it.
    Press,
}

/// One block of a leaf.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Block {
    /// How it looks.
    pub look: BlockLook,
    /// What it is reported as, where it is pressed.
    pub key: String,
    /// Its words.
    pub label: String,
    /// Its value.
    pub value: String,
    /// What is said beneath, in small letters.
    pub detail: String,
    /// The sign.
    pub icon: Icon,
    /// Whether it can be pressed.
    pub enabled: bool,
}

/// A leaf: a long page to read, block by block, with a few acts at its foot.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct LeafScreen {
    /// What it is about.
    pub title: String,
    /// A small line beneath the title.
    pub note: String,
    /// Up to four side acts. The strong one is what the firm-tap key means.
    pub foot: Vec<SideAct>,
    /// The blocks, top to bottom.
    pub blocks: Vec<Block>,
}

/// A label as it will be printed, and what can be done with it.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct LabelScreen {
    /// Whose label.
    pub title: String,
    /// On what sheet, how many; where it was written.
    pub note: String,
    /// What is inked, as SVG path commands in a box of `width` by `height`.
    pub ink: String,
    /// Where it is cut and punched, likewise.
    pub cut: String,
    /// In millimetres.
    pub width: f32,
    /// In millimetres.
    pub height: f32,
    /// The label in words.
    pub said: String,
    /// The sizes there are.
    pub sizes: Vec<Row>,
    /// Up to three side acts.
    pub foot: Vec<SideAct>,
}

/// A caution to be read.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct CautionLine {
    /// What it is about.
    pub topic: String,
    /// One or two sentences, two lines at most.
    pub text: String,
    /// Confirmed as read.
    pub read: bool,
}

/// What an errand looks like on the strip.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum StripLook {
    /// Hands are wanted then: a letter in a box.
    #[default]
    Hands,
    /// A turn: a tick.
    Turn,
    /// Handiwork that can be laid down: a bar as long as it takes.
    Leisure,
}

/// An errand on the strip.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct StripMark {
    /// In which row, from 0.
    pub row: i32,
    /// When it begins, from the left, of 1000.
    pub x: f32,
    /// How long it takes, of 1000.
    pub width: f32,
    /// Its letter, or two that are too near to each other; empty for a tick or a bar.
    pub label: String,
    /// How it looks.
    pub look: StripLook,
    /// It meets an errand of another pot: framed, with a point above.
    pub meets: bool,
}

/// A pot's row on the strip.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct StripRow {
    /// `pot 1`.
    pub label: String,
    /// The bath of this sheet.
    pub own: bool,
}

/// The bath of a sheet beside the pots that are going. All empty when none is.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Beside {
    /// `with pots 1 and 2: turn at 14:32 meets pot 1's lift`.
    pub line: String,
    /// The strip in words.
    pub said: String,
    /// Later starts to press, or what lets go of one.
    pub starts: Vec<Row>,
    /// The strip's rows, from the top.
    pub rows: Vec<StripRow>,
    /// What stands in them.
    pub marks: Vec<StripMark>,
    /// At most five times of the clock.
    pub times: Vec<CurveRule>,
}

/// The bath sheet.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct SheetScreen {
    /// The recipe.
    pub title: String,
    /// Goods, pot and burner.
    pub note: String,
    /// Why it can't be done; empty when it can.
    pub refusal: String,
    /// *Read the cautions*, then *BEGIN*; without a label where there is nothing to confirm.
    pub slab: Slab,
    /// The curve.
    pub curve: BathCurve,
    /// What defers to labels, data sheets, rules and licensed people.
    pub footer: String,
    /// What to weigh: label is letter and ware, value the grams, detail ounces and the rough spoon band.
    pub additions: Vec<Row>,
    /// What to know before it starts: what the shelf hasn't enough of, and warnings.
    pub remarks: Vec<Row>,
    /// Every other number.
    pub lines: Vec<Row>,
    /// The cautions.
    pub cautions: Vec<CautionLine>,
    /// Ways out of a refusal.
    pub ways_out: Vec<Row>,
    /// The curve's lists.
    pub lists: CurveLists,
    /// The other pots.
    pub beside: Box<Beside>,
}

/// Words and a value.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Fact {
    /// The words.
    pub label: String,
    /// The value, with its unit.
    pub value: String,
}

/// How one number came about.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct WorkingScreen {
    /// Which number.
    pub title: String,
    /// The number.
    pub result: String,
    /// The formula, with the numbers in it.
    pub formula: String,
    /// Where the formula or figure comes from.
    pub source: String,
    /// How well founded it is.
    pub strength: String,
    /// What went in.
    pub inputs: Vec<Fact>,
}

/// A question with answers.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct AskScreen {
    /// The pot it is about; 0 for none.
    pub pot: i32,
    /// The question.
    pub title: String,
    /// One or two sentences; one line when there are facts.
    pub detail: String,
    /// Up to four facts.
    pub facts: Vec<Fact>,
    /// Two to six answers; one for something only to be read.
    pub choices: Vec<Slab>,
}

/// The return card.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct ReturnScreen {
    /// The pot.
    pub pot: i32,
    /// Recipe and goods.
    pub title: String,
    /// The last act that was saved, with its clock time.
    pub last_saved: String,
    /// How long it was off: a span, a range, `at least`, `not known`.
    pub off_for: String,
    /// Where the bath probably is: a range.
    pub probably: String,
    /// `measure it before you go on`.
    pub measure: String,
    /// What the answers answer.
    pub question: String,
    /// Two to six answers.
    pub choices: Vec<Slab>,
}

/// One step of a record, plan beside actual.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct RecordLine {
    /// The step.
    pub step: String,
    /// What was planned.
    pub planned: String,
    /// What was done.
    pub actual: String,
    /// Why it differs, or what happened.
    pub note: String,
    /// It differs by more than its tolerance.
    pub off: bool,
}

/// A page of the daybook.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct RecordScreen {
    /// The recipe.
    pub title: String,
    /// The day, goods and pot.
    pub note: String,
    /// Plan and actual.
    pub curve: BathCurve,
    /// The curve's lists.
    pub lists: CurveLists,
    /// The steps.
    pub lines: Vec<RecordLine>,
    /// At most four side acts.
    pub foot: Vec<SideAct>,
}

/// The locked glass.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct WipeScreen {
    /// The act due next, with its pot.
    pub act: String,
    /// Its time.
    pub time: String,
}

/// How pressing a notice is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[expect(missing_docs, reason = "the names say it")]
pub enum NoticeWeight {
    #[default]
    Quiet,
    Caution,
    Urgent,
}

/// A notice that stands on every screen until its cause is gone.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Notice {
    /// `NOT SAVING since 14:32`.
    pub text: String,
    /// The sign.
    pub icon: Icon,
    /// How pressing.
    pub weight: NoticeWeight,
}

/// What stands on every screen.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Status {
    /// The look.
    pub theme: Theme,
    /// The language of the words that stand in the markup.
    pub language: Language,
    /// Most pressing first; two fit.
    pub notices: Vec<Notice>,
    /// The rim is lit, for a call without sound.
    pub flash: bool,
    /// Wet hands: a firm tap takes longer, and the slab shows it.
    pub wet_hands: bool,
    /// There is nothing to go back to.
    pub no_way_back: bool,
}

/// One screen with all it shows.
#[derive(Debug, Clone, PartialEq)]
#[expect(missing_docs, reason = "each is the screen of its name")]
pub enum Screen {
    Stove(StoveScreen),
    Goods(GoodsScreen),
    Choose(ChooseScreen),
    Number(NumberScreen),
    Sheet(SheetScreen),
    Working(WorkingScreen),
    Run(Box<RunScreen>),
    Far(FarScreen),
    Ask(AskScreen),
    Returned(ReturnScreen),
    Record(RecordScreen),
    Leaf(LeafScreen),
    Label(LabelScreen),
    Wipe(WipeScreen),
}

impl Screen {
    /// What stands at its head, where one route shows one page after another; empty elsewhere.
    #[must_use]
    pub fn heading(&self) -> &str {
        match self {
            Self::Choose(choose) => &choose.title,
            Self::Leaf(leaf) => &leaf.title,
            Self::Goods(goods) => &goods.title,
            Self::Stove(_)
            | Self::Number(_)
            | Self::Sheet(_)
            | Self::Working(_)
            | Self::Run(_)
            | Self::Far(_)
            | Self::Ask(_)
            | Self::Returned(_)
            | Self::Record(_)
            | Self::Label(_)
            | Self::Wipe(_) => "",
        }
    }

    /// The route it is painted on.
    #[must_use]
    pub const fn route(&self) -> Route {
        match self {
            Self::Stove(_) => Route::Stove,
            Self::Goods(_) => Route::Goods,
            Self::Choose(_) => Route::Choose,
            Self::Number(_) => Route::Number,
            Self::Sheet(_) => Route::Sheet,
            Self::Working(_) => Route::Working,
            Self::Run(_) => Route::Run,
            Self::Far(_) => Route::Far,
            Self::Ask(_) => Route::Ask,
            Self::Returned(_) => Route::Returned,
            Self::Record(_) => Route::Record,
            Self::Leaf(_) => Route::Leaf,
            Self::Label(_) => Route::Label,
            Self::Wipe(_) => Route::Wipe,
        }
    }
}
