//! What stands behind the window: pages, the last state the keeper told, bench, book and daybook. It paints, and turns
//! the pages' wishes into deeds. It decides nothing about a bath.

use std::sync::Arc;

use crate::craft::time::{Moment, Span};
use crate::journal::id::ActId;
use crate::keeper::{State, Wake};
use crate::machine::away::wall_step;
use crate::machine::chime::Chime;
use crate::machine::voice::{OneVoice, Sound};
use crate::machine::{Effect, Input, Machine, PotNo};
use crate::sheet::{Again, BathSheet};
use crate::shelf::worklist::WorkList;
use crate::shelf::{ShelfDone, ShelfSeen};
use crate::shell::book::Book;
use crate::shell::clock;
use crate::shell::disk::footing::Footing;

use crate::shell::rehearsal::Rehearsal;
use crate::view::bench::Bench;
use crate::view::dimming::{self, Around, Light};
use crate::view::firm_tap::{FirmTaps, Firmness, Touch, Verdict};
use crate::view::locale::Locale;
use crate::view::pages::{DaybookSeen, Facts, LabelFile, Page, Pages, Press, Wish};
use crate::view::screen::{Icon, Notice, NoticeWeight, RecordScreen, Screen, Status, WipeScreen};
use crate::view::{next, sheet_json, words};
use crate::{msg, say};

/// What the desk can't do itself. The window gives real deeds, a test its own.
#[expect(
    clippy::type_complexity,
    reason = "each is one deed; a name for its type would say less"
)]
pub struct Deeds {
    /// The moment now.
    pub now: Box<dyn Fn() -> Moment>,
    /// Hands the keeper something; false if too much is waiting.
    pub wake: Box<dyn Fn(Wake) -> bool>,
    /// Sounds something for a rehearsal or a sound check.
    pub sound: Box<dyn Fn(&Sound, &Machine)>,
    /// Lets every sound be heard once, so loud in percent.
    pub sound_check: Box<dyn Fn(u8)>,
    /// Keeps the bench; one line if it can't.
    pub keep_bench: Box<dyn Fn(&Bench) -> Result<(), String>>,
    /// What the glass takes from the daybook.
    pub daybook: Box<dyn Fn(Locale) -> DaybookSeen>,
    /// One record as a screen, and what it hands on.
    pub record: Box<dyn Fn(&str, Locale) -> Option<(RecordScreen, Option<Again>)>>,
    /// The work lists there are, and one line for each fault in the dyer's own.
    pub lists: Box<dyn Fn() -> (Vec<WorkList>, Vec<String>)>,
    /// Writes sheets of labels to files; where they are.
    pub write_labels: Box<dyn Fn(&[LabelFile]) -> Result<String, String>>,
}

/// Behind one window.
pub struct Desk {
    deeds: Deeds,
    pages: Pages,
    machine: Machine,
    book: Book,
    bench: Bench,
    daybook: DaybookSeen,
    record: Option<(RecordScreen, Option<Again>)>,
    shelf: Arc<ShelfSeen>,
    lists: Vec<WorkList>,
    rehearsal: Option<Rehearsal>,
    taps: FirmTaps,
    locked: bool,
    looked: Moment,
    /// So much was asked of the keeper, and so much of it is answered.
    asked: u64,
    answered: u64,
    acts: u64,
    not_saving_since: Option<Moment>,
    in_spare_since: Option<Moment>,
    no_sound: bool,
    /// The voice of a rehearsal; the keeper has its own.
    voice: OneVoice,
    /// The voice of a start that was put off, which the keeper knows nothing of.
    start_voice: OneVoice,
    quiet_until: Option<Moment>,
    hours_are_quiet: bool,
    /// In English, as they were told; the glass reads them in the language of the dyer.
    troubles: Vec<String>,
    not_lasting: Option<String>,
}

impl Desk {
    /// A desk with nothing going yet.
    #[must_use]
    pub fn new(deeds: Deeds, book: Book, bench: Bench) -> Self {
        let now = (deeds.now)();
        let daybook = (deeds.daybook)(locale(&bench, now));
        let (lists, troubles) = (deeds.lists)();
        Self {
            deeds,
            pages: Pages::new(now),
            machine: Machine::default(),
            book,
            bench,
            daybook,
            record: None,
            shelf: Arc::default(),
            lists,
            rehearsal: None,
            taps: FirmTaps::new(firmness(&bench)),
            locked: false,
            looked: now,
            asked: 0,
            answered: 0,
            acts: 0,
            not_saving_since: None,
            in_spare_since: None,
            no_sound: false,
            voice: OneVoice::default(),
            start_voice: OneVoice::default(),
            quiet_until: None,
            hours_are_quiet: false,
            troubles,
            not_lasting: None,
        }
    }

    /// Nothing was ever kept here: the first minutes come before the stove.
    pub fn greet(&mut self) {
        self.pages = Pages::first((self.deeds.now)());
    }

    /// What the data folder stands on. One that forgets or flushes weakly is said on every screen.
    pub fn stand_on(&mut self, footing: &Footing) {
        self.not_lasting = match footing {
            Footing::Volatile { kind } => Some(msg!(
                "NOT LASTING: all is lost when the power goes ({kind}); choose a folder with --data",
                kind = kind
            )),
            Footing::Weak { kind } => Some(msg!(
                "the data folder is on {kind}, which may lose the last acts when the power goes",
                kind = kind
            )),
            Footing::Lasting | Footing::Unknown => None,
        };
    }

    /// The glass had a panic and is painted anew: what was half done is let go. The second time in a row it is at home.
    pub fn stumbled(&mut self, again: bool) {
        self.rehearsal = None;
        self.locked = false;
        self.taps = FirmTaps::new(firmness(&self.bench));
        if again {
            self.pages = Pages::new((self.deeds.now)());
        }
        self.trouble(msg!("the screen stumbled and came back; the baths went on").to_owned());
    }

    /// Keeps a line to show; the oldest go when there are many.
    fn trouble(&mut self, line: String) {
        const TROUBLES_MAX: usize = 32;
        if self.troubles.len() >= TROUBLES_MAX {
            self.troubles.remove(0);
        }
        self.troubles.push(line);
    }

    /// The page that stands.
    #[must_use]
    pub const fn page(&self) -> &Page {
        self.pages.page()
    }

    /// The steady clock, for touches.
    #[must_use]
    pub fn steady_ms(&self) -> u64 {
        (self.deeds.now)().steady_ms
    }

    /// The state as last told.
    #[must_use]
    pub const fn machine(&self) -> &Machine {
        &self.machine
    }

    /// The keeper told a state.
    pub fn hear(&mut self, state: State) {
        self.answered = state.answered;
        let (ended_before, ended_now) = (ended(&self.machine), ended(&state.machine));
        let first = self.machine.pots().next().is_none();
        let had_a_card = self.has_a_card();
        self.machine = state.machine;
        self.not_saving_since = state.not_saving_since;
        self.quiet_until = state.quiet_until;
        self.in_spare_since = state.in_spare_since;
        for line in state.troubles {
            self.trouble(line);
        }
        if ended_now != ended_before {
            self.read_daybook();
        }
        if let Some((input, refusal)) = state.refused {
            let now = (self.deeds.now)();
            self.pages.refused(&input, refusal, now);
        }
        self.hear_of_shelf(state.shelf, state.shelf_done.as_ref());
        // Back after an outage the cards come one after the other, until every pot is answered for.
        let is_answered = had_a_card && !self.has_a_card();
        if (first || is_answered)
            && let Some(run) = self.machine.pots().find(|run| run.outage.is_some())
        {
            self.pages.go_to_pot(run.pot);
        }
    }

    /// The daybook's list anew: it has grown, or it is to be told in other words.
    fn read_daybook(&mut self) {
        let locale = self.locale((self.deeds.now)());
        self.daybook = (self.deeds.daybook)(locale);
    }

    /// Whether the pot on the glass asks about an outage.
    fn has_a_card(&self) -> bool {
        let Page::Run(pot) = self.pages.page() else {
            return false;
        };
        self.machine.pot(*pot).is_some_and(|run| run.outage.is_some())
    }

    /// The shelf has moved, or what was asked of it is answered.
    fn hear_of_shelf(&mut self, shelf: Arc<ShelfSeen>, done: Option<&Result<ShelfDone, String>>) {
        let has_moved = !Arc::ptr_eq(&self.shelf, &shelf);
        self.shelf = shelf;
        if !has_moved && done.is_none() {
            return;
        }
        let machine = self.machine.clone();
        let now = (self.deeds.now)();
        self.with_pages(&machine, now, |pages, facts| {
            if let Some(done) = done {
                pages.shelf_done(done.as_ref().map_err(String::as_str), facts);
            }
            pages.refresh(facts);
        });
    }

    /// Lets the pages do something with all that they are shown from.
    fn with_pages<T>(
        &mut self,
        machine: &Machine,
        now: Moment,
        act: impl FnOnce(&mut Pages, &Facts<'_>) -> T,
    ) -> T {
        let mut pages = std::mem::replace(&mut self.pages, Pages::new(now));
        let done = act(&mut pages, &self.facts(machine, now));
        self.pages = pages;
        done
    }

    /// How the dyer is spoken to, about that moment.
    fn locale(&self, now: Moment) -> Locale {
        locale(&self.bench, now)
    }

    fn facts<'a>(&'a self, machine: &'a Machine, now: Moment) -> Facts<'a> {
        Facts {
            machine,
            now,
            locale: self.locale(now),
            recipes: &self.book.recipes,
            bench: &self.bench,
            daybook: &self.daybook.rows,
            lessons: &self.daybook.lessons,
            weighed: &self.daybook.weighed,
            record: self.record.as_ref().map(|(screen, _)| screen),
            again: self.record.as_ref().and_then(|(_, again)| again.as_ref()),
            shelf: &self.shelf.shelf,
            shelf_fault: &self.shelf.fault,
            lists: &self.lists,
            today: clock::day_of(now.wall_ms),
            saving: self.asked > self.answered,
            quiet: self.quiet_left().is_some(),
        }
    }

    /// Whether calls can be heard.
    pub const fn hear_sound(&mut self, no_sound: bool) {
        self.no_sound = no_sound;
    }

    /// A raw touch on a slab.
    pub fn touch(&mut self, touch: &Touch) {
        if self.locked {
            self.taps.stray(touch.at_ms);
            return;
        }
        match self.taps.touch(touch) {
            Verdict::Nothing => self.press(&Press::Near),
            Verdict::Confirmed(key) => self.press(&Press::Firm(key)),
            Verdict::Storm => self.locked = true,
        }
    }

    /// A press that needs no firm tap, or that a key or a screen reader made.
    pub fn press(&mut self, press: &Press) {
        if self.locked && self.is_kept_off(press) {
            return;
        }
        let now = self.now();
        let machine = self.machine_shown().clone();
        let wishes = self.with_pages(&machine, now, |pages, facts| pages.press(press, facts));
        for wish in wishes {
            self.do_wish(wish);
        }
    }

    /// Whether the lock keeps a press off: two keys open it and do no more, the others work as ever, and whatever else
    /// touches the glass keeps it locked.
    fn is_kept_off(&mut self, press: &Press) -> bool {
        if matches!(press, Press::Heard | Press::TakeBack | Press::Digit(_)) {
            return false;
        }
        if matches!(press, Press::Back | Press::FirmKey) {
            self.taps.unlock();
            self.locked = false;
        } else {
            self.taps.stray(self.steady_ms());
        }
        true
    }

    /// A second has passed.
    pub fn second(&mut self) {
        self.mind_the_hours();
        let real = (self.deeds.now)();
        if self.locked {
            self.locked = self.taps.is_locked(real.steady_ms);
        }
        let looked = std::mem::replace(&mut self.looked, real);
        if wall_step(looked, real).is_some() {
            let now = self.now();
            self.pages
                .say(msg!("the clock was set; every count goes on as it was"), now);
        }
        if let Some(rehearsal) = self.rehearsal.as_mut() {
            let effects = rehearsal.pass(real);
            for sound in self.voice.choose(&effects, real, false) {
                (self.deeds.sound)(&sound, rehearsal.machine());
            }
        }
        self.ring_to_begin(real);
        self.bring_forward();
    }

    /// The call to begin a bath that was put off. It is quiet when other due calls are.
    fn ring_to_begin(&mut self, real: Moment) {
        let Some(pot) = self.pages.rings_to_begin(real) else {
            return;
        };
        let quiet = self.hours_are_quiet || self.quiet_left().is_some();
        let call = [Effect::Ring(pot, Chime::Due)];
        for sound in self.start_voice.choose(&call, real, quiet) {
            (self.deeds.sound)(&sound, &self.machine);
        }
    }

    /// Nobody near, and another pot wants hands sooner: it comes forward.
    fn bring_forward(&mut self) {
        let now = self.now();
        let Page::Run(pot) = self.pages.page() else { return };
        let pot = *pot;
        if self.pages.is_far(now)
            && let Some(forward) = next::forward(self.machine_shown(), now).filter(|forward| *forward != pot)
        {
            self.pages.go_to_pot(forward);
        }
    }

    /// What stands on the glass.
    #[must_use]
    pub fn screen(&self) -> Screen {
        let now = self.now();
        let machine = self.machine_shown();
        if self.locked {
            let next = next::forward(machine, now).and_then(|pot| machine.pot(pot));
            let next = next.map(|run| next::of(run, now, self.locale(now)));
            return Screen::Wipe(next.map_or_else(WipeScreen::default, |next| WipeScreen {
                act: next.act,
                time: next.time,
            }));
        }
        self.pages.screen(&self.facts(machine, now))
    }

    /// What stands on every screen.
    #[must_use]
    pub fn status(&self) -> Status {
        let now = self.now();
        let calling =
            self.machine.pots().any(|run| !run.stand.calls.is_empty()) || self.begin_now().is_some();
        let odd_second = now.steady_ms.checked_div(1_000).unwrap_or(0) % 2 == 1;
        Status {
            theme: self.bench.theme,
            language: self.bench.language,
            notices: self.notices(now),
            flash: self.is_silent() && calling && odd_second,
            wet_hands: self.bench.wet_hands,
            no_way_back: self.pages.is_at_the_beginning(),
        }
    }

    /// The call to begin a bath that was put off, once it is due.
    fn begin_now(&self) -> Option<String> {
        let now = (self.deeds.now)();
        self.pages.begin_now(now, self.locale(now))
    }

    /// Whether no call can be heard: there is no sound, or the bench has it turned off.
    const fn is_silent(&self) -> bool {
        self.no_sound || self.bench.volume_percent == 0
    }

    fn notices(&self, now: Moment) -> Vec<Notice> {
        const FIT: usize = 2;
        let locale = self.locale(now);
        let mut notices = Vec::new();
        if let Some(since) = self.not_saving_since {
            let at = self.locale(since).clock(since);
            notices.push(notice(
                say!(locale, "NOT SAVING since {at}", at = at),
                Icon::SaveOff,
                NoticeWeight::Urgent,
            ));
        }
        if let Some(line) = &self.not_lasting {
            notices.push(notice(locale.read(line), Icon::SaveOff, NoticeWeight::Urgent));
        }
        if let Some(since) = self.in_spare_since {
            let at = self.locale(since).clock(since);
            notices.push(notice(
                say!(locale, "saved in the spare place since {at}", at = at),
                Icon::SaveOff,
                NoticeWeight::Caution,
            ));
        }
        if let Some(said) = self.pages.said(now) {
            notices.push(notice(locale.read(said), Icon::Question, NoticeWeight::Caution));
        }
        if let Some(line) = self.begin_now() {
            notices.push(notice(line, Icon::Flame, NoticeWeight::Caution));
        }
        if self.is_silent() {
            notices.push(notice(
                say!(locale, "NO SOUND: watch the screen"),
                Icon::SoundOff,
                NoticeWeight::Caution,
            ));
        }
        if let Some(left) = self.quiet_left() {
            let minutes = locale.span(left);
            notices.push(notice(
                say!(
                    locale,
                    "QUIET for {minutes} more; urgent calls sound",
                    minutes = minutes
                ),
                Icon::SoundOff,
                NoticeWeight::Caution,
            ));
        }
        if self.rehearsal.is_some() {
            notices.push(notice(
                say!(locale, "REHEARSAL on fast time"),
                Icon::Rehearse,
                NoticeWeight::Quiet,
            ));
        }
        notices.extend(
            self.troubles
                .last()
                .map(|line| notice(locale.read(line), Icon::Warn, NoticeWeight::Caution)),
        );
        notices.truncate(FIT);
        // Alone it has room for what helps as well.
        if let ([only], Some(since)) = (notices.as_mut_slice(), self.not_saving_since) {
            only.text = say!(
                locale,
                "NOT SAVING since {at}: free the disk or put in the stick",
                at = self.locale(since).clock(since)
            );
        }
        notices
    }

    /// How long all calls but the urgent ones stay quiet.
    fn quiet_left(&self) -> Option<Span> {
        let now = (self.deeds.now)();
        let left = self.quiet_until?.since(now);
        (left > Span::NONE).then_some(left)
    }

    /// Whether a real bath is going: the machine must not fall asleep over it.
    #[must_use]
    pub fn is_any_going(&self) -> bool {
        self.machine.pots().any(|run| run.stand.ended.is_none())
    }

    /// How much light there should be behind the glass.
    #[must_use]
    pub fn light(&self) -> Light {
        let now = self.now();
        let is_calling = self.machine_shown().pots().any(|run| next::is_calling(run, now));
        dimming::light(Around {
            untouched: self.pages.untouched(now),
            is_wanted: is_calling || self.not_saving_since.is_some() || self.no_sound || self.locked,
            theme: self.bench.theme,
            hours_are_quiet: self.hours_are_quiet,
        })
    }

    /// Tells the keeper when quiet hours begin and end.
    fn mind_the_hours(&mut self) {
        let now = (self.deeds.now)();
        let minute = words::minute_of_day(now, clock::zone(now.wall_ms));
        let quiet = self.bench.quiet_hours.is_some_and(|hours| hours.holds(minute));
        if quiet != self.hours_are_quiet && (self.deeds.wake)(Wake::QuietHours(quiet)) {
            self.hours_are_quiet = quiet;
        }
    }

    /// The moment on the clock that is shown: a rehearsal's runs fast.
    fn now(&self) -> Moment {
        let real = (self.deeds.now)();
        self.rehearsal
            .as_ref()
            .map_or(real, |rehearsal| rehearsal.now(real))
    }

    fn machine_shown(&self) -> &Machine {
        self.rehearsal.as_ref().map_or(&self.machine, Rehearsal::machine)
    }

    fn do_wish(&mut self, wish: Wish) {
        match wish {
            Wish::Tell(input) => self.tell(&input),
            Wish::Quiet(span) => self.wake(Wake::Quiet(span), (self.deeds.now)()),
            Wish::Begin(pot, sheet) => self.begin(pot, &sheet),
            Wish::Rehearse(sheet) => {
                self.rehearsal = Some(Rehearsal::begin(&sheet.plan, (self.deeds.now)()));
            }
            Wish::EndRehearsal => self.rehearsal = None,
            Wish::KeepBench(bench) => {
                self.go_by(bench);
                if let Err(why) = (self.deeds.keep_bench)(&bench) {
                    self.trouble(why);
                }
            }
            Wish::GoBy(bench) => self.go_by(bench),
            Wish::SoundCheck => (self.deeds.sound_check)(self.bench.volume_percent),
            Wish::OpenRecord(id) => {
                let locale = self.locale((self.deeds.now)());
                self.record = (self.deeds.record)(&id, locale);
            }
            Wish::AskShelf(asked) => {
                let now = (self.deeds.now)();
                self.wake(Wake::Shelf(asked), now);
            }
            Wish::WriteLabels(files) => {
                let locale = self.locale((self.deeds.now)());
                let said = match (self.deeds.write_labels)(&files) {
                    Ok(place) => say!(locale, "written to {place}", place = locale.read(&place)),
                    Err(why) => locale.read(&why),
                };
                self.pages.labels_written(&said);
            }
        }
    }

    fn go_by(&mut self, bench: Bench) {
        let is_told_otherwise = (self.bench.language, self.bench.habits) != (bench.language, bench.habits);
        self.bench = bench;
        if is_told_otherwise {
            self.read_daybook();
        }
        self.taps.measure_by(firmness(&bench));
    }

    fn tell(&mut self, input: &Input) {
        let real = (self.deeds.now)();
        if let Some(rehearsal) = self.rehearsal.as_mut() {
            let now = rehearsal.now(real);
            match rehearsal.take(input, real) {
                Ok(effects) => {
                    for sound in self.voice.choose(&effects, real, false) {
                        (self.deeds.sound)(&sound, rehearsal.machine());
                    }
                }
                Err(refusal) => self.pages.refused(input, refusal, now),
            }
        } else {
            let act = self.next_act(real);
            let input = input.clone();
            self.wake(Wake::Ask { act, input }, real);
        }
    }

    fn begin(&mut self, pot: PotNo, sheet: &BathSheet) {
        let now = (self.deeds.now)();
        let zone = clock::zone(now.wall_ms);
        let bath_id = bath_id(&sheet.plan.recipe_id, pot, now);
        let plan = Arc::clone(&sheet.plan);
        let input = Input::Begin {
            pot,
            bath_id: bath_id.clone(),
            plan,
            cautions_read: true,
        };
        let act = self.next_act(now);
        let wake = Wake::Begin {
            act,
            input,
            bath_id,
            recipe_toml: self.book.text_of(&sheet.recipe.id),
            sheet_json: format!("{:#}", sheet_json::json(sheet, now, zone)),
        };
        self.wake(wake, now);
    }

    /// Names an act by the moment it was done and a count, so that no two of a run, nor of two runs, share a name.
    fn next_act(&mut self, now: Moment) -> Option<ActId> {
        self.acts = self.acts.saturating_add(1);
        let name = format!("t{}-{}-{}", now.stretch.0, now.steady_ms, self.acts);
        ActId::from_text(&name).ok()
    }

    fn wake(&mut self, wake: Wake, now: Moment) {
        if (self.deeds.wake)(wake) {
            self.asked = self.asked.saturating_add(1);
        } else {
            self.pages.say(msg!("still saving; tap again in a moment"), now);
        }
    }
}

/// How the dyer of a bench is spoken to, about that moment.
fn locale(bench: &Bench, at: Moment) -> Locale {
    Locale {
        language: bench.language,
        habits: bench.habits,
        zone: clock::zone(at.wall_ms),
    }
}

/// How many baths have ended, which tells when the daybook has grown.
fn ended(machine: &Machine) -> usize {
    machine.pots().filter(|run| run.stand.ended.is_some()).count()
}

const fn firmness(bench: &Bench) -> Firmness {
    if bench.wet_hands {
        Firmness::WET_HANDS
    } else {
        Firmness::USUAL
    }
}

const fn notice(text: String, icon: Icon, weight: NoticeWeight) -> Notice {
    Notice { text, icon, weight }
}

/// An id that sorts by time and says what it is of.
fn bath_id(recipe: &str, pot: PotNo, now: Moment) -> String {
    const RECIPE_LENGTH: usize = 32;
    let zone = clock::zone(now.wall_ms);
    let recipe: String = recipe.chars().take(RECIPE_LENGTH).collect();
    format!("{}-{recipe}-p{}", words::stamp(now.wall_ms, zone), pot.0)
}
