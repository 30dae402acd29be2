//! The terminal: the only place that prints. A closed pipe is no fault of ours.

use std::io::Write;

/// Prints to standard output.
pub(super) fn say(text: &str) {
    let mut out = std::io::stdout().lock();
    let newline = if text.ends_with('\n') { "" } else { "\n" };
    write!(out, "{text}{newline}")
        .and_then(|()| out.flush())
        .unwrap_or(());
}

/// Prints to standard error.
pub(super) fn complain(text: &str) {
    let mut out = std::io::stderr().lock();
    writeln!(out, "potside: {text}").unwrap_or(());
}
