//! How a test that gathers every fault before it falls tells them all.

#[track_caller]
pub(crate) fn assert_none(faults: &[String]) {
    assert!(
        faults.is_empty(),
        "{} faults\n{}",
        faults.len(),
        faults.join("\n")
    );
}
