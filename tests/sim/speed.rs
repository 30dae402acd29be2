//! How long a long bath takes to be read back and played, the disk's part left out.

use std::cell::RefCell;
use std::rc::Rc;
use std::time::{Duration, Instant};

use potside::craft::time::{Moment, Span, Stretch};
use potside::journal::id::BathId;
use potside::journal::recover::recover;
use potside::journal::wire::{entry_of, events_of};
use potside::journal::writer::Writer;
use potside::machine::{Event, Machine, PotNo, What};

use crate::plans::alum_bath;
use crate::sim::chance::Chance;
use crate::sim::clocks::Clocks;
use crate::sim::disk::{Device, Disks};
use crate::sim::flaw::Flaw;
use crate::sim::store::SimStore;

const RECORDS: u64 = 10_000;

/// Prints the median of eleven readings of a bath of a week's beats.
pub fn recovery() {
    let disks = Rc::new(RefCell::new(Disks::new(Chance::new(1), Clocks::new())));
    disks
        .borrow_mut()
        .begin_run(crate::sim::disk::Troubles::default());
    let bath = BathId::from_text("long").expect("an id");
    let mut places = vec![SimStore::new(&disks, Device::Home, "long", Flaw::None)];
    let recovered = recover(&mut places, &bath);
    let mut writer = Writer::resume_in_doubt(&recovered, places, "soak");
    for minute in 0..RECORDS {
        let at = moment(minute);
        let what = if minute == 0 {
            What::BathBegun {
                bath_id: "long".to_owned(),
                plan: alum_bath(),
            }
        } else {
            What::Beat
        };
        let event = Event {
            at,
            pot: PotNo(1),
            what,
        };
        let entry = entry_of(&event).expect("a fact can be written");
        writer.append(None, &[entry], at).expect("it fits");
    }
    drop(writer);
    let mut places = [SimStore::new(&disks, Device::Home, "long", Flaw::None)];
    let mut times: Vec<(Duration, Duration)> = (0..11)
        .map(|_| {
            let start = Instant::now();
            let recovered = recover(&mut places, &bath);
            let read = start.elapsed();
            let events = events_of(&recovered).expect("facts");
            let mut machine = Machine::default();
            events.iter().for_each(|event| machine.apply(event));
            assert!(events.len() as u64 == RECORDS && machine.pot(PotNo(1)).is_some());
            (read, start.elapsed())
        })
        .collect();
    times.sort();
    let (read, played) = times[5];
    println!("soak: {RECORDS} records: read back in {read:.1?}, and played in {played:.1?}");
}

fn moment(minute: u64) -> Moment {
    let start = Moment {
        stretch: Stretch(0),
        steady_ms: 60_000,
        wall_ms: 1_787_650_000_000,
    };
    start.plus(Span::from_minutes(minute))
}
