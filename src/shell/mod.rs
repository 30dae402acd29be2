//! Everything that can wait, fail or be heard: clocks, disk, sound, screen, command line.

mod awake;
mod backlight;
pub mod bench_file;
pub mod book;
mod cli;
pub mod clock;
mod commands;
pub mod data;
pub mod daybook;
pub mod disk;
mod exit;
pub mod first_habits;
pub mod glass;
pub mod keeper_thread;
pub mod rehearsal;
pub mod shelf;
pub mod sound;
mod terminal;
mod wish_words;

use std::ffi::OsString;
use std::process::ExitCode;

use clap::Parser;

use cli::{Cli, Command};
use exit::Exit;
use terminal::{complain, say};

/// Runs the program on its arguments; without a command it opens the stove.
pub fn run(arguments: impl IntoIterator<Item = OsString>) -> ExitCode {
    match Cli::try_parse_from(arguments) {
        Ok(cli) => dispatch(&cli).into(),
        Err(error) if error.use_stderr() => {
            complain(&one_line(&error.render().to_string()));
            Exit::Misused.into()
        }
        Err(help) => {
            say(&help.render().to_string());
            Exit::Well.into()
        }
    }
}

/// What is wrong and what would do, without the usage text that follows.
fn one_line(error: &str) -> String {
    let told = error.split("\n\nUsage:").next().unwrap_or(error);
    let told = told.split("\n\nFor more information").next().unwrap_or(told);
    let words: Vec<&str> = told.trim_start_matches("error: ").split_whitespace().collect();
    words.join(" ")
}

fn dispatch(cli: &Cli) -> Exit {
    let data = match data::Data::at(cli.data.as_deref(), cli.spare.as_deref()) {
        Ok(data) => data,
        Err(why) => {
            complain(&why);
            return Exit::Misused;
        }
    };
    match &cli.command {
        Some(Command::Sheet(args)) => commands::sheet(args, &data),
        Some(Command::Rehearse(args)) => commands::rehearse(args, &data),
        Some(Command::Check { files }) => commands::check(files),
        Some(Command::Recipes) => commands::recipes(&data),
        Some(Command::Daybook { what }) => commands::daybook(what.as_ref(), &data),
        Some(Command::Shelf { what }) => commands::shelf(what.as_ref(), &data),
        Some(Command::Worklist(args)) => commands::worklist(args, &data),
        Some(Command::Label(args)) => commands::label(args, &data),
        Some(Command::Pot(args)) => commands::pot(args),
        None => match glass::open(&data) {
            Ok(()) => Exit::Well,
            Err(why) => {
                complain(&why);
                Exit::Faulty
            }
        },
    }
}
