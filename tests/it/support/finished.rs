//! A finished bath with all that can go otherwise in it, as the machine judged it.

use potside::journal::record::BathRecord;
use potside::machine::PotNo;

use super::plans::alum_bath;
use super::script::Stage;

/// Weighed twice, one turn missed, the program away for ten minutes in the hold, the cool-down skipped.
pub(crate) const EVENTFUL: &str = "
    0:00 pot 1 begin
    0:01 pot 1 confirm
    0:02 pot 1 weighed 14.8
    0:03 pot 1 take-back
    0:04 pot 1 weighed 16.2 sure
    0:05 pot 1 confirm
    0:10 pot 1 confirm
    0:12 pot 1 confirm
    0:40 pot 1 confirm
    0:55 pot 1 reading 60.5
    1:15 pot 1 reading 85
    1:31 pot 1 confirm
    2:01 pot 1 confirm
    2:05 pot 1 returned 10 ?
    2:06 pot 1 answer count-it
    2:11 pot 1 confirm
    2:20 pot 1 skip
    2:30 pot 1 confirm
    2:35 pot 1 confirm";

/// The record of a script over the alum bath.
pub(crate) fn record_of(script: &str) -> BathRecord {
    let mut stage = Stage::new(&alum_bath());
    let told = stage.play(script);
    assert!(!told.contains("refused"), "{told}");
    BathRecord::of(stage.machine.pot(PotNo(1)).unwrap())
}

/// The record of the eventful bath.
pub(crate) fn eventful() -> BathRecord {
    record_of(EVENTFUL)
}
