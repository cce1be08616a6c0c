//! What was asked for at the keyboard. Nothing else in the program prints.
//!
//! The words typed (`args`) become a job in the command's own module; answers go to stdout, everything about the
//! work to stderr, and the exit code says what came of it.

mod args;
mod card;
mod check;
mod common;
mod debrief;
mod desk;
mod files;
mod progress;
mod recover;
mod rehearse;
mod series;
mod sign;
mod studies;
mod verify;
mod window;

use std::borrow::Cow;
use std::io::{self, Write as _};
use std::process::ExitCode;

use clap::Parser as _;
use clap::error::{ContextKind, ContextValue};

use crate::error::letters::shown;
use crate::error::old_words;
use crate::report::all_cautions;
use crate::{Error, Result};
use args::{Command, Typed};

/// What came of a command that could be carried out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Outcome {
    /// Computed.
    Done,
    /// Something in the input can't be used; it has been said.
    BadInput,
    /// Computed, the answer is no, and the caller wants to know by the exit code.
    No,
}

/// Exit code of a crash.
const CRASHED: u8 = 4;

/// The old word of a command or an option among those typed, and the one that took its place.
fn renamed(asked: &clap::Error) -> Option<(String, &'static str)> {
    let kinds = [ContextKind::InvalidArg, ContextKind::InvalidSubcommand];
    let unknown = kinds.into_iter().find_map(|kind| match asked.get(kind) {
        Some(ContextValue::String(word)) => Some(word.clone()),
        _ => None,
    });
    // An old command is taken for the name of a file, with an argument too many.
    let first = std::env::args_os().nth(1).and_then(|word| word.into_string().ok());
    let words = unknown.into_iter().chain(first);
    words.filter(|_| asked.use_stderr()).find_map(|word| Some((word.clone(), old_words::typed(&word)?)))
}

/// Runs the program on the words typed. Exit code 0: computed. 2: bad input, nothing written. 3: the answer is
/// no, where `--strict` asks for that, or a check of the program by itself did not hold. 4: the window crashed.
pub fn main() -> ExitCode {
    let typed = match Typed::try_parse() {
        Ok(typed) => typed,
        // Help and version are answers, and go to stdout with code 0.
        Err(asked) => {
            if let Some((old, new)) = renamed(&asked) {
                say(&format!("peewit: {}", old_words::renamed(&old, new)));
                return ExitCode::from(2);
            }
            let words = std::env::args_os().filter_map(|word| word.into_string().ok());
            if let Some(way_out) = common::unquoted(words).filter(|_| asked.use_stderr()) {
                say(&format!("peewit: {way_out}"));
                return ExitCode::from(2);
            }
            if asked.use_stderr() {
                // What was typed is said back in it.
                say(asked.render().to_string().trim_end());
                return ExitCode::from(2);
            }
            let _ = asked.print();
            return ExitCode::SUCCESS;
        }
    };
    match run(typed) {
        Ok(Outcome::Done) => ExitCode::SUCCESS,
        Ok(Outcome::BadInput) => ExitCode::from(2),
        Ok(Outcome::No) => ExitCode::from(3),
        Err(error) => {
            say(&format!("peewit: {error}"));
            ExitCode::from(if matches!(error, Error::Crash(_)) { CRASHED } else { 2 })
        }
    }
}

fn run(typed: Typed) -> Result<Outcome> {
    match typed.command {
        None => window::open(typed.file),
        Some(Command::Check { files, json }) => check::check(&files, json),
        Some(Command::Recover(args)) => recover::recover(&args),
        Some(Command::Radius(args)) => studies::radius(&args),
        Some(Command::WindLimit(args)) => studies::wind_limit(&args),
        Some(Command::Losses(args)) => studies::losses(&args),
        Some(Command::Card(args)) => card::card(&args),
        Some(Command::Rehearse(args)) => rehearse::rehearse(&args),
        Some(Command::Debrief(args)) => debrief::debrief(&args),
        Some(Command::Sign(args)) => sign::sign(&args),
        Some(Command::Verify(args)) => verify::verify(&args),
        Some(Command::New { path, jet, mass, force }) => {
            files::new(&path, &jet.sheet(mass.unwrap_or(jet.mass())), force)
        }
        Some(Command::Schema) => files::schema(),
        Some(Command::Cautions) => print(all_cautions()).map(|()| Outcome::Done),
    }
}

/// Puts an answer on stdout. A reader that has seen enough, as `head` has, is no failure.
fn print(text: impl AsRef<[u8]>) -> Result<()> {
    let mut out = io::stdout().lock();
    let bytes = match std::str::from_utf8(text.as_ref()) {
        Ok(text) => Cow::Owned(shown(text).into_owned().into_bytes()),
        Err(_) => Cow::Borrowed(text.as_ref()),
    };
    match out.write_all(&bytes).and_then(|()| out.flush()) {
        Err(error) if error.kind() != io::ErrorKind::BrokenPipe => {
            Err(Error::Write { path: "standard output".into(), source: error })
        }
        _ => Ok(()),
    }
}

/// Puts a line about the work on stderr. Where nobody listens, nothing is lost.
fn say(line: &str) {
    let _ = writeln!(io::stderr().lock(), "{}", shown(line));
}
