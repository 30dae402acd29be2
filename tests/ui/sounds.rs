//! Every sound as it stands in `sounds/`, measured; and the player with and without a voice.
//!
//! How is measured in `sound_measures`.

#![expect(
    clippy::unwrap_used,
    clippy::as_conversions,
    reason = "helpers of a test; a wrong sum or a missing line should stop it"
)]
#![expect(
    clippy::disallowed_methods,
    reason = "the test reads the files, plugs cords and waits for the player's thread"
)]

use std::collections::BTreeMap;
use std::io::Cursor;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{Receiver, channel};
use std::sync::{Arc, Mutex};
use std::time::{Duration, Instant};

use potside::machine::chime::{Chime, Haste};
use potside::shell::sound::clips::{compose, file};
use potside::shell::sound::desk::{Desk, WAITING_MAX};
use potside::shell::sound::synth::{RATE_HZ, Sound, samples};
use potside::shell::sound::voice::{Loudspeaker, NoVoice, Signs, Voice};
use potside::shell::sound::wav::write_wav;
use potside::shell::sound::{Call, Player, SoundReport, SoundState, Unheard, Volume};
use rodio::{Decoder, Source};

use crate::sound_measures::{
    cut, loudest_partials, measured_pulses, plain_power_spectrum, power_spectrum, readme_pulses,
};

// The files ---------------------------------------------------------------------------------------------------------

#[test]
fn the_files_are_what_the_generator_makes() {
    for sound in Sound::all() {
        let path = sounds_folder().join(sound.key()).with_extension("wav");

        let on_disk = std::fs::read(&path).unwrap();

        assert!(
            on_disk == write_wav(&samples(sound), RATE_HZ),
            "{} differs from what the generator makes; run `cargo run --example make_sounds`",
            path.display()
        );
        assert!(on_disk == file(sound), "{} is not the one built in", sound.key());
    }
}

#[test]
fn no_file_is_without_a_meaning() {
    let mut wanted: Vec<String> = Sound::all().map(|sound| format!("{}.wav", sound.key())).collect();
    wanted.sort();

    let mut found: Vec<String> = std::fs::read_dir(sounds_folder())
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .filter(|name| name.ends_with(".wav"))
        .collect();
    found.sort();

    assert_eq!(found, wanted);
}

#[test]
fn every_sound_decodes_is_heard_is_short_and_does_not_clip() {
    for sound in Sound::all() {
        let key = sound.key();
        let decoder = Decoder::new(Cursor::new(file(sound))).unwrap();
        assert_eq!(decoder.channels().get(), 1, "{key}");
        assert_eq!(decoder.sample_rate().get(), RATE_HZ, "{key}");
        let wave: Vec<f32> = decoder.collect();

        let peak = wave.iter().fold(0.0_f32, |most, sample| most.max(sample.abs()));
        let length = wave.len() as f64 / f64::from(RATE_HZ);
        let longest = match sound {
            Sound::Meaning(_) => 2.0,
            Sound::Lead(_) => 0.6,
        };

        // -10 dB is heard, -2.5 dB keeps a margin below full scale.
        assert!((0.316..0.75).contains(&peak), "{key}: peak {peak}");
        assert!(length < longest, "{key}: {length} s");
        assert_eq!(wave.first(), Some(&0.0), "{key} begins with a step");
        assert_eq!(wave.last(), Some(&0.0), "{key} ends with a step");
    }
}

/// A click is a step: energy far above the highest partial. Of a shaped pulse next to nothing lies above 6 kHz. Without
/// a window, for that would smooth away a step at either end. What is left, near -90 dB, is the rounding to 16 bits.
#[test]
fn nothing_clicks() {
    for sound in Sound::all() {
        let spectrum = plain_power_spectrum(&decode(sound));
        let all: f64 = spectrum.iter().map(|(_, power)| power).sum();
        let high: f64 = spectrum
            .iter()
            .filter(|(hz, _)| *hz > 6_000.0)
            .map(|(_, power)| power)
            .sum();

        let level_db = 10.0 * (high / all).log10();

        assert!(level_db < -82.0, "{}: {level_db:.1} dB above 6 kHz", sound.key());
    }
}

/// "Nothing that needs hearing above 2.5 kHz": with everything above taken away, less than half a decibel is missing.
#[test]
fn little_is_lost_to_ears_that_end_at_2500_hz() {
    for sound in Sound::all() {
        let spectrum = power_spectrum(&decode(sound));
        let all: f64 = spectrum.iter().map(|(_, power)| power).sum();
        let low: f64 = spectrum
            .iter()
            .filter(|(hz, _)| *hz <= 2_500.0)
            .map(|(_, power)| power)
            .sum();

        let missing_db = -10.0 * (low / all).log10();

        assert!(
            missing_db < 0.5,
            "{}: {missing_db:.2} dB above 2.5 kHz",
            sound.key()
        );
    }
}

#[test]
fn pulses_come_when_the_readme_says() {
    let wanted = readme_pulses();
    for sound in Sound::all() {
        let key = sound.key();
        let wanted = &wanted[key];

        let found = measured_pulses(&decode(sound));

        assert_eq!(found.len(), wanted.len(), "{key}: pulses counted");
        for (found, wanted) in found.iter().zip(wanted) {
            let start_off = (found.0 - wanted.start_ms).abs();
            let end_off = (found.1 - wanted.start_ms - wanted.length_ms).abs();
            assert!(
                start_off <= 2.0,
                "{key}: a pulse begins at {:.1} ms, not {:?}",
                found.0,
                wanted
            );
            assert!(
                end_off <= 2.0,
                "{key}: a pulse ends at {:.1} ms, not {:?}",
                found.1,
                wanted
            );
        }
    }
}

/// IEC 60601-1-8: at least four harmonics between 300 and 4000 Hz within 15 dB of the fundamental. Ours is 300 to 1000 Hz.
#[test]
fn pitch_is_right_and_four_harmonics_stand_within_15_db() {
    let table = readme_pulses();
    for sound in Sound::all() {
        let key = sound.key();
        let wave = decode(sound);
        for pulse in &table[key] {
            let middle = cut(
                &wave,
                pulse.start_ms + 0.15 * pulse.length_ms,
                0.62 * pulse.length_ms,
            );
            let partials = loudest_partials(&middle);

            let (fundamental_hz, fundamental_db) = partials[0];
            let harmonics = partials[1..]
                .iter()
                .zip(2..)
                .filter(|((hz, _), order)| (hz / fundamental_hz - f64::from(*order)).abs() < 0.02)
                .filter(|((hz, db), _)| *hz <= 4_000.0 && (db - fundamental_db).abs() <= 15.0)
                .count();

            assert!(
                (fundamental_hz / pulse.hz - 1.0).abs() < 0.01,
                "{key}: {fundamental_hz:.1} Hz for {pulse:?}"
            );
            assert!(
                (300.0..=1_000.0).contains(&fundamental_hz),
                "{key}: {fundamental_hz:.1} Hz"
            );
            assert!(harmonics >= 4, "{key}: {harmonics} harmonics in {partials:?}");
        }
    }
}

/// IEC 60601-1-8, from memory: 1 or 2 pulses for low, 3 for medium, 10 for high priority, the last ones the quickest.
#[test]
fn haste_is_told_by_count_and_pace() {
    let mut paces = BTreeMap::new();
    for chime in Chime::ALL {
        let pulses = measured_pulses(&decode(Sound::Meaning(chime)));
        let count = pulses.len();
        let wanted = match chime.haste() {
            Haste::Answer => 1,
            Haste::InItsWindow => 2,
            Haste::WithinFiveMinutes => 3,
            Haste::WithinOneMinute => 10,
        };
        assert_eq!(count, wanted, "{}", chime.key());
        if let (Some(first), Some(last)) = (pulses.first(), pulses.last())
            && count > 1
        {
            let pace_ms = (last.0 - first.0) / (count - 1) as f64;
            let slowest: &mut f64 = paces.entry(chime.haste()).or_insert(0.0);
            *slowest = slowest.max(pace_ms);
        }
    }

    assert!(
        paces[&Haste::WithinOneMinute] < 0.7 * paces[&Haste::WithinFiveMinutes],
        "{paces:?}"
    );
    assert!(
        paces[&Haste::WithinOneMinute] < 0.7 * paces[&Haste::InItsWindow],
        "{paces:?}"
    );
}

/// Two sounds are told apart by count, or by rhythm (a start or length that differs by 60 ms), or by a step of the scale.
#[test]
fn no_two_sounds_are_alike() {
    let table = readme_pulses();
    let all: Vec<_> = Sound::all().collect();
    for (index, one) in all.iter().enumerate() {
        for other in &all[index + 1..] {
            let (one_pulses, other_pulses) = (&table[one.key()], &table[other.key()]);

            let differ = one_pulses.len() != other_pulses.len()
                || one_pulses.iter().zip(other_pulses).any(|(a, b)| {
                    (a.start_ms - b.start_ms).abs() >= 60.0
                        || (a.length_ms - b.length_ms).abs() >= 60.0
                        || (a.hz / b.hz).log2().abs() > 1.5 / 12.0
                });

            assert!(differ, "{} sounds like {}", one.key(), other.key());
        }
    }
}

#[test]
fn a_call_is_lead_in_rest_and_chime() {
    let lead = measured_pulses(&compose(call(Chime::Turn, Some(5))));
    let plain = measured_pulses(&compose(call(Chime::Turn, None)));
    let stranger = measured_pulses(&compose(call(Chime::Turn, Some(7))));

    assert_eq!((lead.len(), plain.len(), stranger.len()), (3 + 2, 2, 2));
    let rest_ms = lead[3].0 - lead[2].1;
    assert!(
        (180.0..350.0).contains(&rest_ms),
        "{rest_ms} ms between lead-in and chime"
    );
}

// The desk ----------------------------------------------------------------------------------------------------------

#[test]
fn calls_wait_in_order_of_haste_then_of_arrival() {
    let mut desk = Desk::default();
    for chime in [Chime::Turn, Chime::Ready, Chime::Urgent, Chime::Due] {
        desk.take(call(chime, Some(1)));
    }

    let order: Vec<&str> = desk.waiting().iter().map(|call| call.chime.key()).collect();

    assert_eq!(order, ["urgent", "ready", "due", "turn"]);
}

#[test]
fn a_full_queue_gives_up_the_least_pressing_and_says_so() {
    let mut desk = Desk::default();
    for pot in 0..WAITING_MAX as u8 {
        desk.take(call(Chime::Due, Some(pot)));
    }

    desk.take(call(Chime::Turn, Some(1)));
    assert_eq!(
        desk.take_orders().lost,
        [(call(Chime::Turn, Some(1)), Unheard::QueueFull)]
    );

    desk.take(call(Chime::Urgent, None));
    let newest = call(Chime::Due, Some(WAITING_MAX as u8 - 1));
    assert_eq!(desk.take_orders().lost, [(newest, Unheard::QueueFull)]);
    assert_eq!(desk.waiting().len(), WAITING_MAX);
    assert_eq!(desk.waiting()[0], call(Chime::Urgent, None));
}

#[test]
fn a_call_that_waits_is_not_taken_twice() {
    let mut desk = Desk::default();
    desk.take(call(Chime::Due, Some(2)));
    desk.take(call(Chime::Due, Some(2)));

    assert_eq!(desk.waiting(), [call(Chime::Due, Some(2))]);
    assert_eq!(desk.take_orders().lost, []);
}

#[test]
fn an_answer_never_waits_behind_a_call() {
    let mut desk = Desk::default();
    desk.take(call(Chime::Due, Some(2)));
    desk.take(call(Chime::Accepted, Some(2)));

    assert_eq!(
        desk.take_orders().lost,
        [(call(Chime::Accepted, Some(2)), Unheard::AnswerTooLate)]
    );
}

#[test]
fn what_comes_after_a_hush_is_not_hushed() {
    let mut desk = Desk::default();
    desk.take(call(Chime::Due, Some(2)));
    assert_eq!(desk.next_call(), Some(call(Chime::Due, Some(2))));

    desk.hush();
    desk.take(call(Chime::Urgent, Some(1)));

    assert_eq!(desk.next_call(), None, "not before the hush is carried out");
    assert!(desk.take_orders().hush);
    assert_eq!(desk.next_call(), Some(call(Chime::Urgent, Some(1))));
}

#[test]
fn urgent_has_a_floor_and_nothing_else_has() {
    let silent = Volume::from_percent(0);

    assert!((Volume::FULL.gain(Chime::Urgent) - 1.0).abs() < 1e-6);
    assert!(
        (silent.gain(Chime::Urgent) - 0.25).abs() < 1e-6,
        "12 dB below full"
    );
    assert!(silent.gain(Chime::Due) < 1e-6);
    assert_eq!(Volume::from_percent(250), Volume::FULL);
}

// The player --------------------------------------------------------------------------------------------------------

#[test]
fn without_a_device_the_player_says_so_within_a_second_and_never_waits() {
    let nothing = Signs::default();
    let (report, reports) = channel();
    let begun = Instant::now();
    let player = Player::start_with(
        || Loudspeaker::new(nothing),
        move |told| report.send(told).unwrap(),
    );

    let first = reports.recv_timeout(Duration::from_secs(1)).unwrap();
    assert_eq!(
        first,
        SoundReport::State(SoundState::NoDevice(NoVoice::NothingThere))
    );

    let asked = Instant::now();
    player.play(call(Chime::Urgent, Some(3)));
    assert!(
        asked.elapsed() < Duration::from_millis(50),
        "play() waited {:?}",
        asked.elapsed()
    );

    let second = reports.recv_timeout(Duration::from_secs(1)).unwrap();
    assert_eq!(
        second,
        SoundReport::Unheard(call(Chime::Urgent, Some(3)), Unheard::NoDevice)
    );
    player.stop();
    assert!(begun.elapsed() < Duration::from_secs(2), "stopping waited");
}

/// Whatever the machine has: a state comes soon, nothing falls over. Says nothing about being heard.
#[test]
fn on_this_machine_a_state_is_reported() {
    let (report, reports) = channel();
    let player = Player::start(move |told| report.send(told).unwrap());

    let first = reports.recv_timeout(Duration::from_secs(5)).unwrap();

    assert!(matches!(first, SoundReport::State(_)), "{first:?}");
    drop(player);
}

#[test]
fn signs_of_sound_are_a_listed_card_or_a_socket() {
    let folder = tempfile::tempdir().unwrap();
    let cards = folder.path().join("cards");
    let socket = folder.path().join("pipewire-0");
    let signs = Signs {
        cards: cards.clone(),
        sockets: vec![socket.clone()],
        promised: false,
    };
    assert!(!signs.any(), "neither file is there");

    // What the kernel writes without and with a card (sound/core/init.c; the second from memory).
    std::fs::write(&cards, "--- no soundcards ---\n").unwrap();
    assert!(!signs.any());
    std::fs::write(
        &cards,
        " 0 [Headphones     ]: bcm2835_headpho - bcm2835 Headphones\n                      bcm2835 Headphones\n",
    )
    .unwrap();
    assert!(signs.any());

    std::fs::remove_file(&cards).unwrap();
    let server = std::os::unix::net::UnixListener::bind(&socket).unwrap();
    assert!(signs.any());
    drop(server);
    assert!(!signs.any(), "a dead server's socket is no sign");
}

#[test]
fn one_call_sounds_at_a_time_and_each_is_told_of() {
    let stage = Stage::default();
    let (player, reports) = stage.start();
    player.play(call(Chime::Due, Some(1)));
    player.play(call(Chime::Turn, Some(2)));

    assert_eq!(next(&reports), SoundReport::State(SoundState::Working));
    assert_eq!(next(&reports), SoundReport::Sounded(call(Chime::Due, Some(1))));
    assert_eq!(next(&reports), SoundReport::Sounded(call(Chime::Turn, Some(2))));

    assert_eq!(stage.deeds(), ["open", "due 1", "end", "turn 2", "end"]);
}

#[test]
fn urgent_interrupts_and_the_interrupted_call_sounds_again() {
    let stage = Stage::default();
    stage.hold();
    let (player, reports) = stage.start();
    player.play(call(Chime::Due, Some(1)));
    stage.wait_for("due 1");

    player.play(call(Chime::Urgent, Some(2)));
    stage.wait_for("urgent 2");
    stage.let_go();

    assert_eq!(next(&reports), SoundReport::State(SoundState::Working));
    assert_eq!(next(&reports), SoundReport::Sounded(call(Chime::Urgent, Some(2))));
    assert_eq!(next(&reports), SoundReport::Sounded(call(Chime::Due, Some(1))));
    assert_eq!(
        stage.deeds(),
        ["open", "due 1", "cut", "urgent 2", "end", "due 1", "end"]
    );
}

#[test]
fn urgent_does_not_interrupt_urgent() {
    let stage = Stage::default();
    stage.hold();
    let (player, reports) = stage.start();
    player.play(call(Chime::Urgent, Some(1)));
    stage.wait_for("urgent 1");

    player.play(call(Chime::Urgent, Some(2)));
    std::thread::sleep(Duration::from_millis(100));
    stage.let_go();

    assert_eq!(next(&reports), SoundReport::State(SoundState::Working));
    assert_eq!(next(&reports), SoundReport::Sounded(call(Chime::Urgent, Some(1))));
    assert_eq!(next(&reports), SoundReport::Sounded(call(Chime::Urgent, Some(2))));
    assert_eq!(stage.deeds(), ["open", "urgent 1", "end", "urgent 2", "end"]);
}

#[test]
fn hush_cuts_what_sounds_and_forgets_what_waits() {
    let stage = Stage::default();
    stage.hold();
    let (player, reports) = stage.start();
    player.play(call(Chime::Due, Some(1)));
    stage.wait_for("due 1");
    player.play(call(Chime::Turn, Some(1)));

    player.hush();
    stage.wait_for("cut");
    stage.let_go();
    player.play(call(Chime::Ready, Some(4)));

    assert_eq!(next(&reports), SoundReport::State(SoundState::Working));
    assert_eq!(next(&reports), SoundReport::Sounded(call(Chime::Ready, Some(4))));
}

#[test]
fn a_device_that_vanishes_is_dropped_within_a_second_and_found_again() {
    let stage = Stage::default();
    stage.hold();
    let (player, reports) = stage.start();
    player.play(call(Chime::Due, Some(1)));
    stage.wait_for("due 1");
    assert_eq!(next(&reports), SoundReport::State(SoundState::Working));

    stage.set_plugged(false);
    let pulled = Instant::now();

    assert_eq!(
        next(&reports),
        SoundReport::Unheard(call(Chime::Due, Some(1)), Unheard::CutOff)
    );
    assert_eq!(
        next(&reports),
        SoundReport::State(SoundState::NoDevice(NoVoice::WentAway))
    );
    assert!(
        pulled.elapsed() < Duration::from_secs(1),
        "{:?}",
        pulled.elapsed()
    );
    assert_eq!(stage.deeds().last().map(String::as_str), Some("close"));

    stage.set_plugged(true);
    assert_eq!(next(&reports), SoundReport::State(SoundState::Working));
    assert!(
        pulled.elapsed() < Duration::from_secs(4),
        "{:?}",
        pulled.elapsed()
    );
}

/// Seen with a sound server: the first stream fails as soon as it is open, the next one is sound.
#[test]
fn a_device_that_stumbles_gets_a_second_chance_and_the_call_sounds_again() {
    let stage = Stage::default();
    stage.hold();
    let (player, reports) = stage.start();
    player.play(call(Chime::Due, Some(1)));
    stage.wait_for("due 1");

    stage.stumbled.store(true, Ordering::SeqCst);
    stage.wait_for("close");
    stage.let_go();

    assert_eq!(next(&reports), SoundReport::State(SoundState::Working));
    assert_eq!(next(&reports), SoundReport::Sounded(call(Chime::Due, Some(1))));
    assert_eq!(stage.deeds(), ["open", "due 1", "close", "open", "due 1", "end"]);

    stage.stumbled.store(true, Ordering::SeqCst);
    assert_eq!(
        next(&reports),
        SoundReport::State(SoundState::NoDevice(NoVoice::WentAway)),
        "no third chance"
    );
    drop(player);
}

/// Seen with a sound server that had just come back: its stream fails twice, and a call comes before the next try is due.
#[test]
fn a_call_tries_a_missing_device_at_once() {
    let stage = Stage::default();
    let (player, reports) = stage.start();
    assert_eq!(next(&reports), SoundReport::State(SoundState::Working));
    stage.stumbled.store(true, Ordering::SeqCst);
    stage.wait_for("close");
    while stage.stumbled.load(Ordering::SeqCst) {
        std::thread::sleep(Duration::from_millis(2));
    }
    stage.stumbled.store(true, Ordering::SeqCst);
    assert_eq!(
        next(&reports),
        SoundReport::State(SoundState::NoDevice(NoVoice::WentAway))
    );

    player.play(call(Chime::Due, Some(1)));

    assert_eq!(next(&reports), SoundReport::State(SoundState::Working));
    assert_eq!(next(&reports), SoundReport::Sounded(call(Chime::Due, Some(1))));
}

#[test]
fn an_idle_device_that_vanishes_is_noticed_without_a_call() {
    let stage = Stage::default();
    let (player, reports) = stage.start();
    assert_eq!(next(&reports), SoundReport::State(SoundState::Working));

    stage.set_plugged(false);

    assert_eq!(
        next(&reports),
        SoundReport::State(SoundState::NoDevice(NoVoice::WentAway))
    );
    drop(player);
}

#[test]
fn dropping_the_player_mid_call_cuts_closes_and_joins() {
    let stage = Stage::default();
    stage.hold();
    let (player, reports) = stage.start();
    player.play(call(Chime::Urgent, None));
    stage.wait_for("urgent");

    let dropped = Instant::now();
    drop(player);

    assert!(
        dropped.elapsed() < Duration::from_secs(1),
        "{:?}",
        dropped.elapsed()
    );
    assert_eq!(stage.deeds(), ["open", "urgent", "cut", "close"]);
    assert_eq!(next(&reports), SoundReport::State(SoundState::Working));
    assert!(reports.recv().is_err(), "the thread still holds the report");
}

// A voice that records ----------------------------------------------------------------------------------------------

/// What the test holds of a [`SimVoice`]: what it did, and the cord.
#[derive(Clone)]
struct Stage {
    deeds: Arc<Mutex<Vec<String>>>,
    plugged: Arc<AtomicBool>,
    stumbled: Arc<AtomicBool>,
    held: Arc<AtomicBool>,
}

impl Default for Stage {
    fn default() -> Self {
        Self {
            deeds: Arc::default(),
            plugged: Arc::new(AtomicBool::new(true)),
            stumbled: Arc::default(),
            held: Arc::default(),
        }
    }
}

impl Stage {
    fn start(&self) -> (Player, Receiver<SoundReport>) {
        let (report, reports) = channel();
        let stage = self.clone();
        let make = move || SimVoice {
            stage,
            open: false,
            sounding: Mutex::new(None),
        };
        let player = Player::start_with(make, move |told| drop(report.send(told)));
        (player, reports)
    }

    /// From now on calls don't end by themselves.
    fn hold(&self) {
        self.held.store(true, Ordering::SeqCst);
    }

    fn let_go(&self) {
        self.held.store(false, Ordering::SeqCst);
    }

    fn set_plugged(&self, plugged: bool) {
        self.plugged.store(plugged, Ordering::SeqCst);
    }

    fn note(&self, deed: &str) {
        self.deeds.lock().unwrap().push(deed.to_owned());
    }

    fn deeds(&self) -> Vec<String> {
        self.deeds.lock().unwrap().clone()
    }

    fn wait_for(&self, deed: &str) {
        let begun = Instant::now();
        while !self.deeds().iter().any(|done| done == deed) {
            assert!(
                begun.elapsed() < Duration::from_secs(5),
                "no {deed:?} in {:?}",
                self.deeds()
            );
            std::thread::sleep(Duration::from_millis(2));
        }
    }
}

/// Behaves like a loudspeaker on a cord; a call lasts 40 ms, or until the test lets go.
struct SimVoice {
    stage: Stage,
    open: bool,
    sounding: Mutex<Option<Instant>>,
}

impl Voice for SimVoice {
    fn is_likely(&self) -> bool {
        self.stage.plugged.load(Ordering::SeqCst)
    }

    fn open(&mut self) -> Result<(), NoVoice> {
        if self.is_likely() {
            self.open = true;
            self.stage.stumbled.store(false, Ordering::SeqCst);
            self.stage.note("open");
            Ok(())
        } else {
            Err(NoVoice::WentAway)
        }
    }

    fn close(&mut self) {
        self.open = false;
        *self.sounding.lock().unwrap() = None;
        self.stage.note("close");
    }

    fn is_open(&self) -> bool {
        self.open
    }

    fn has_failed(&self) -> bool {
        self.open && (!self.is_likely() || self.stage.stumbled.load(Ordering::SeqCst))
    }

    fn sound(&mut self, call: Call, _gain: f32) -> Duration {
        let deed = match call.pot {
            Some(pot) => format!("{} {pot}", call.chime.key()),
            None => call.chime.key().to_owned(),
        };
        assert!(
            self.sounding.lock().unwrap().is_none(),
            "two voices at once: {deed}"
        );
        *self.sounding.lock().unwrap() = Some(Instant::now());
        self.stage.note(&deed);
        Duration::from_millis(40)
    }

    fn hush(&mut self) {
        if self.sounding.lock().unwrap().take().is_some() {
            self.stage.note("cut");
        }
    }

    fn is_sounding(&self) -> bool {
        let mut sounding = self.sounding.lock().unwrap();
        let over = sounding.is_some_and(|begun| begun.elapsed() >= Duration::from_millis(40));
        if over && !self.stage.held.load(Ordering::SeqCst) {
            *sounding = None;
            self.stage.note("end");
        }
        sounding.is_some()
    }
}

fn next(reports: &Receiver<SoundReport>) -> SoundReport {
    reports.recv_timeout(Duration::from_secs(5)).unwrap()
}

fn call(chime: Chime, pot: Option<u8>) -> Call {
    Call { chime, pot }
}

fn sounds_folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("sounds")
}

fn decode(sound: Sound) -> Vec<f32> {
    Decoder::new(Cursor::new(file(sound))).unwrap().collect()
}
