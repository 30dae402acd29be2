//! Faults planted on purpose; the simulation has to catch each of them. Two more are planted where bytes are tried one
//! by one, since no session can show them: no checksum (`journal_golden`), and stopping at the first bad line
//! (`journal_crash`): every run copies all there is, so a session always finds a better copy.

/// One planted fault, or none.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Flaw {
    #[default]
    None,
    /// A flush returns at once.
    AcknowledgesBeforeFlush,
    /// The folder's names are never flushed.
    NeverFlushesTheFolder,
    /// A flush that failed is asked for again, and that it then succeeds is believed.
    RetriesAFailedFlush,
    /// A new run goes on in the last segment of the run before.
    ReusesTheOldSegment,
    /// Reading cuts off what it finds torn.
    RepairsWhileReading,
    /// After an error the same file is written on.
    WritesOnAfterAnError,
    /// The spare place gets only the newest lines.
    CopiesOnlyTheEndToTheSpare,
    /// At a start only the home place is read.
    ForgetsTheSpareAtStart,
    /// A page isn't looked at before it is called sealed.
    SealsWithoutLooking,
    /// A page takes the name of one that is there.
    SealsOverAnother,
    /// Ids of acts aren't read back.
    ForgetsActsOverARestart,
    /// An act that is taken back is cut out of the record.
    TakingBackErases,
    /// Half of an act counts as an act.
    CountsHalfAnAct,
    /// The ballast is kept although the disk is full.
    KeepsTheBallast,
    /// Deadlines hang on the wall clock.
    WallClockForDeadlines,
    /// The steady clock stands still while the machine sleeps, and nobody is told.
    SuspendIgnored,
    /// What the dyer is asked after an outage is answered for them: the time counts.
    CreditsTheOutage,
    /// Two taps get one name.
    TwoTapsOneAct,
}

impl Flaw {
    /// Those that random sessions have to catch.
    pub const IN_SESSIONS: [Self; 18] = [
        Self::AcknowledgesBeforeFlush,
        Self::NeverFlushesTheFolder,
        Self::RetriesAFailedFlush,
        Self::ReusesTheOldSegment,
        Self::RepairsWhileReading,
        Self::WritesOnAfterAnError,
        Self::CopiesOnlyTheEndToTheSpare,
        Self::ForgetsTheSpareAtStart,
        Self::SealsWithoutLooking,
        Self::SealsOverAnother,
        Self::ForgetsActsOverARestart,
        Self::TakingBackErases,
        Self::CountsHalfAnAct,
        Self::KeepsTheBallast,
        Self::WallClockForDeadlines,
        Self::SuspendIgnored,
        Self::CreditsTheOutage,
        Self::TwoTapsOneAct,
    ];
}
