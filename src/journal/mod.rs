//! What is kept: records to bytes and back, the order *write, flush, then acknowledge*, recovery, sealing.
//!
//! All of it is pure over [`store::Store`], which has a real twin in the shell and a faulty one in the tests.
//! Nothing here knows a path, a clock or a device; every moment is an argument.
//! The bytes are described in `docs/journal-format.md`.

pub mod id;
pub mod line;
pub mod record;
pub mod recover;
pub mod seal;
pub mod segment;
pub mod store;
pub mod wire;
pub mod writer;
