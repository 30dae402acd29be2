//! `potside daybook`: the records of finished baths.

use crate::shell::cli::DaybookCommand;
use crate::shell::data::Data;
use crate::shell::exit::Exit;

/// Lists, shows or exports.
pub(in crate::shell) fn daybook(what: Option<&DaybookCommand>, data: &Data) -> Exit {
    let _ = (what, data);
    Exit::Well
}
