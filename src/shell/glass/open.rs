//! Opens the stove: the keeper on its thread, the sound on its own, the window on this one.

use std::rc::Rc;
use std::sync::Arc;
use std::time::Duration;

use slint::ComponentHandle;
use tokio::sync::mpsc;

use super::daybook;
use super::desk::{Deeds, Desk};
use super::generated::AppWindow;
use super::inbox::Inbox;
use super::labels;
use super::taps::Glass;
use crate::keeper::{Clock, Keeper, Wake};
use crate::machine::Machine;
use crate::machine::chime::Chime;
use crate::machine::voice::Sound;
use crate::shell::awake::Awake;
use crate::shell::backlight::Backlight;
use crate::shell::clock::{self, SystemClock};
use crate::shell::commands::worklists;
use crate::shell::data::Data;
use crate::shell::disk::data_folder::DataFolder;
use crate::shell::keeper_thread::{self, Hearers};
use crate::shell::sound::{Call, Player, SoundReport, SoundState, Volume};
use crate::shell::{bench_file, book};
use crate::view::bench::Bench;

/// Opens the stove and stays until the window is closed. One line if it can't.
pub(in crate::shell) fn open(data: &Data) -> Result<(), String> {
    let is_first = data.is_untouched();
    let folder = DataFolder::open(data.root()).map_err(|fault| fault.to_string())?;
    let folder = folder.with_spare(data.spare());
    let footing = folder.footing();
    let bench = data.bench()?;
    let (keeper, stretch) = Keeper::open_by(folder, clock::boot_id().as_deref(), clock::wall_clock())
        .map_err(|fault| fault.to_string())?;
    let clock = SystemClock::new(stretch);
    let window = window()?;

    let inbox = Arc::new(Inbox::default());
    let (of_keeper, of_player) = (Arc::clone(&inbox), Arc::clone(&inbox));
    let player = Arc::new(Player::start(move |report| {
        if let SoundReport::State(state) = report {
            of_player.put_no_sound(state != SoundState::Working);
        }
    }));
    player.set_volume(Volume::from_percent(bench.volume_percent));
    let (rings, warms) = (Arc::clone(&player), Arc::clone(&player));
    let hearers = Hearers {
        state: Box::new(move |state| of_keeper.put_state(state)),
        sound: Box::new(move |sound, machine| ring(&rings, sound, machine)),
        soon: Box::new(move || warms.warm()),
    };
    let keeper = keeper_thread::start(keeper, clock, hearers)
        .map_err(|fault| format!("no thread for the keeper: {fault}"))?;

    let deeds = deeds(data, clock, keeper.sender(), &player);
    let mut desk = Desk::new(deeds, book::all(data), bench);
    desk.stand_on(&footing);
    if is_first {
        desk.greet();
    }
    let glass = Glass::new(window, desk);
    let listening = Rc::downgrade(&glass);
    let listener = slint::spawn_local(async move {
        loop {
            let letters = inbox.take().await;
            let Some(glass) = listening.upgrade() else { return };
            glass.work(|desk| {
                if let Some(state) = letters.state {
                    desk.hear(*state);
                }
                if let Some(no_sound) = letters.no_sound {
                    desk.hear_sound(no_sound);
                }
            });
        }
    });
    listener.map_err(|fault| format!("the window doesn't listen: {fault}"))?;

    let seconds = slint::Timer::default();
    let ticking = Rc::downgrade(&glass);
    let (mut awake, mut backlight) = (Awake::default(), Backlight::find());
    seconds.start(slint::TimerMode::Repeated, Duration::from_secs(1), move || {
        if let Some(glass) = ticking.upgrade() {
            glass.work(Desk::second);
            let desk = glass.desk.borrow();
            awake.follow(desk.is_any_going());
            backlight.follow(desk.light());
        }
    });
    glass.window.run().map_err(|fault| no_screen(&fault))
}

fn window() -> Result<AppWindow, String> {
    let chosen = slint::BackendSelector::new()
        .renderer_name("software".into())
        .select();
    chosen.map_err(|fault| no_screen(&fault))?;
    AppWindow::new().map_err(|fault| no_screen(&fault))
}

fn no_screen(fault: &slint::PlatformError) -> String {
    let why = fault.to_string();
    let first = why.lines().next().unwrap_or_default();
    format!(
        "no screen to open the stove on ({first}); start it from a desktop, or print with `potside sheet`"
    )
}

/// One sound. The lead-in says which pot, where there is more than one and the sound is for one of them.
fn ring(player: &Player, sound: &Sound, machine: &Machine) {
    let going = machine.pots().filter(|run| run.stand.ended.is_none()).count();
    let pot = match sound.pots.as_slice() {
        [pot] if going > 1 && sound.chime != Chime::Accepted => Some(pot.0),
        _ => None,
    };
    player.play(Call {
        chime: sound.chime,
        pot,
    });
}

fn deeds(data: &Data, clock: SystemClock, wake: mpsc::Sender<Wake>, player: &Arc<Player>) -> Deeds {
    let (rings, checks, loudness) = (Arc::clone(player), Arc::clone(player), Arc::clone(player));
    let (kept, listed, read) = (data.clone(), data.clone(), data.clone());
    let (lists, labels_of) = (data.clone(), data.clone());
    Deeds {
        now: Box::new(move || clock.now()),
        wake: Box::new(move |asked| wake.try_send(asked).is_ok()),
        sound: Box::new(move |sound, machine| ring(&rings, sound, machine)),
        sound_check: Box::new(move |percent| {
            checks.set_volume(Volume::from_percent(percent));
            for chime in Chime::ALL {
                checks.play(Call { chime, pot: None });
            }
        }),
        keep_bench: Box::new(move |bench: &Bench| {
            loudness.set_volume(Volume::from_percent(bench.volume_percent));
            kept.keep_bench(&bench_file::write(bench))
        }),
        daybook: Box::new(move |locale| daybook::seen(&listed, locale)),
        record: Box::new(move |id, locale| daybook::screen(&read, id, locale)),
        lists: Box::new(move || worklists(&lists)),
        write_labels: Box::new(move |files| labels::write(&labels_of, files)),
    }
}
