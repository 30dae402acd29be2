//! A bath that has ended becomes a page of the daybook. If that fails it waits, and is tried again.

use std::sync::Arc;

use super::folder::Folder;
use super::keep::Keeper;
use crate::craft::time::Moment;
use crate::journal::id::BathId;
use crate::journal::record::BathRecord;
use crate::journal::seal::seal;
use crate::journal::writer::Writer;
use crate::machine::{Machine, PotNo};
use crate::msg;

/// A bath that has ended and isn't sealed: its record, and its journal, which may be in memory alone.
#[derive(Debug)]
pub(super) struct Unsealed<S> {
    bath: BathId,
    record: BathRecord,
    pub(super) writer: Writer<S>,
}

impl<F: Folder> Keeper<F> {
    /// The bath in a pot has ended just now.
    pub(super) fn bath_ended(&mut self, pot: PotNo) {
        let machine = std::mem::take(&mut self.machine);
        let run = machine.pot(pot);
        let bath = run.and_then(|run| BathId::from_text(&run.bath_id).ok());
        if let Some(bath) = bath
            && let Some(journal) = self.journals.remove(&pot)
        {
            self.seal_ended(&bath, &machine, pot, journal.writer);
        }
        self.machine = machine;
    }

    /// Seals a bath that has ended, or lets it wait.
    pub(super) fn seal_ended(
        &mut self,
        bath: &BathId,
        machine: &Machine,
        pot: PotNo,
        writer: Writer<F::Store>,
    ) {
        let Some(run) = machine.pot(pot) else { return };
        let record = BathRecord::of(run);
        let record = match self.folder.recipe_of(bath) {
            Some(recipe) => record.with_recipe(&recipe),
            None => record,
        };
        if let Err(why) = self.seal(bath, &record) {
            self.trouble(msg!(
                "the record of {bath} isn't sealed yet: {why}",
                bath = bath,
                why = why
            ));
            self.unsealed.push(Unsealed {
                bath: bath.clone(),
                record,
                writer,
            });
        }
    }

    /// Tries again what waits.
    pub(super) fn seal_waiting(&mut self, now: Moment) {
        for mut waiting in std::mem::take(&mut self.unsealed) {
            waiting.writer.retry(now);
            if self.seal(&waiting.bath, &waiting.record).is_err() {
                self.unsealed.push(waiting);
            }
        }
    }

    /// What is kept of finished baths beside the daybook follows it: the record is on the disk before.
    pub(super) fn follow_daybook(&mut self) {
        for told in self.folder.follow_daybook() {
            self.trouble(told);
        }
        self.shelf = Arc::new(self.folder.shelf());
    }

    fn seal(&mut self, bath: &BathId, record: &BathRecord) -> Result<(), String> {
        let content = serde_json::to_value(record).map_err(|fault| fault.to_string())?;
        seal(&mut self.folder.daybook(), bath, &content).map_err(|fault| fault.to_string())?;
        self.follow_daybook();
        Ok(())
    }
}
