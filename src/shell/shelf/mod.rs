//! The shelf on the disk: one small file, and finished baths put down in it.

pub mod file;
pub mod seen;
pub mod settle;
