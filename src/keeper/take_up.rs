//! At the start: every bath that isn't sealed is read back and taken up where it stood.

use super::folder::Folder;
use super::keep::{Journal, Keeper};
use crate::craft::time::Stretch;
use crate::journal::id::BathId;
use crate::journal::recover::{Doubt, Recovered, recover};
use crate::journal::seal::sealed_baths;
use crate::journal::store::StoreFault;
use crate::journal::wire::events_of;
use crate::journal::writer::{SEGMENT_KIND, Writer};
use crate::machine::{Event, Machine, PotNo};
use crate::msg;

/// A bath that was going when the program went.
struct Going<S> {
    bath: BathId,
    pot: PotNo,
    events: Vec<Event>,
    journal: Journal<S>,
}

impl<F: Folder> Keeper<F> {
    /// Takes up every bath that isn't sealed. Returns the stretch after the newest one on record.
    pub(super) fn take_up_all(&mut self) -> Result<Stretch, StoreFault> {
        let listing = self.folder.baths()?;
        for line in listing.troubles {
            self.trouble(line);
        }
        let sealed = match sealed_baths(&mut self.folder.daybook()) {
            Ok(sealed) => sealed,
            Err(fault) => {
                self.trouble(msg!("the daybook can't be read: {fault}", fault = fault));
                std::collections::BTreeSet::new()
            }
        };
        let mut stretch = Stretch(0);
        let mut going = Vec::new();
        for bath in listing.baths.iter().filter(|bath| !sealed.contains(bath)) {
            let mut places = self.folder.places(bath);
            let recovered = recover(&mut places, bath);
            stretch = stretch.max(stretch_after(&recovered));
            going.extend(self.read_back(bath, &recovered, places));
        }
        self.take_up_newest(going);
        Ok(stretch)
    }

    /// The facts of a bath that was going. One that has ended is sealed here and now; one that can't be read is told.
    fn read_back(
        &mut self,
        bath: &BathId,
        recovered: &Recovered,
        places: Vec<F::Store>,
    ) -> Option<Going<F::Store>> {
        for damage in &recovered.damage {
            self.trouble(format!("{bath}: {}: {}", damage.file, damage.kind));
        }
        if let Some(doubt) = recovered.doubt() {
            self.trouble(msg!(
                "{bath}: {doubt}; check what was done",
                bath = bath,
                doubt = doubt
            ));
            // What can't be read now may be readable at the next start. To go on today would bury it.
            if matches!(doubt, Doubt::Unread(_)) {
                return None;
            }
        }
        let events = match events_of(recovered) {
            Ok(events) => events,
            Err(fault) => {
                self.trouble(msg!(
                    "{bath}: can't be taken up: {fault}; its files are left as they are",
                    bath = bath,
                    fault = fault
                ));
                return None;
            }
        };
        let pot = events.first()?.pot;
        let journal = Journal {
            writer: Writer::resume_in_doubt(recovered, places, &self.program),
            program_before: program_of(recovered),
        };
        let mut alone = Machine::default();
        for event in &events {
            alone.apply(event);
        }
        if alone.pot(pot).is_some_and(|run| run.stand.ended.is_some()) {
            self.seal_ended(bath, &alone, pot, journal.writer);
            return None;
        }
        Some(Going {
            bath: bath.clone(),
            pot,
            events,
            journal,
        })
    }

    /// Of two baths in one pot the one that was written to last stands; the other's files wait.
    fn take_up_newest(&mut self, mut going: Vec<Going<F::Store>>) {
        let newest = |events: &[Event]| events.last().map(|event| (event.at.stretch, event.at.steady_ms));
        going.sort_by_key(|bath| std::cmp::Reverse(newest(&bath.events)));
        for bath in going {
            if self.journals.contains_key(&bath.pot) {
                self.trouble(msg!(
                    "{bath}: pot {number} has another bath going; this one waits",
                    bath = bath.bath,
                    number = bath.pot.0
                ));
                continue;
            }
            for event in &bath.events {
                self.machine.apply(event);
            }
            self.journals.insert(bath.pot, bath.journal);
        }
    }
}

fn stretch_after(recovered: &Recovered) -> Stretch {
    let whole = recovered.records.iter().chain(&recovered.after_gap);
    let newest = whole.map(|record| record.entry.at.stretch).max();
    newest.map_or(Stretch(0), |newest| Stretch(newest.0.saturating_add(1)))
}

/// The name of the run that wrote the newest record.
fn program_of(recovered: &Recovered) -> Option<String> {
    let mut newest_first = recovered.records.iter().rev();
    let opening = newest_first.find(|record| record.entry.what == SEGMENT_KIND)?;
    opening.entry.body.get("program")?.as_str().map(str::to_owned)
}
