//! `potside rehearse`: a whole bath on fast time.

use crate::machine::rehearsal;
use crate::shell::cli::SheetArgs;
use crate::shell::data::Data;
use crate::shell::exit::Exit;
use crate::shell::terminal::{complain, say};
use crate::view::rehearse_text;

use super::sheet::{UTC, computed, start_of};

/// Prints each prompt, call and confirmation with its clock time.
pub(in crate::shell) fn rehearse(args: &SheetArgs, data: &Data) -> Exit {
    let sheet = match computed(args, data) {
        Ok(sheet) => sheet,
        Err(why) => {
            complain(&why);
            return Exit::Misused;
        }
    };
    if !sheet.refusals.is_empty() {
        for refusal in &sheet.refusals {
            complain(&format!("refused: {refusal}"));
        }
        return Exit::RefusedBath;
    }
    let mut told = String::new();
    let played = rehearsal::play(&sheet.plan, start_of(args.start), |line, machine| {
        for line in rehearse_text::lines(line, machine, start_of(args.start), UTC) {
            told.push_str(&line);
            told.push('\n');
        }
    });
    say(&told);
    match played {
        Ok(_) => Exit::Well,
        Err(refusal) => {
            complain(&format!("the rehearsal stopped: {refusal}"));
            Exit::Faulty
        }
    }
}
