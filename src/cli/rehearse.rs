//! `peewit rehearse`: recordings of rehearsals, played without a window and scored; and the list of what is rehearsed.

use std::path::{Path, PathBuf};

use super::args::RehearseArgs;
use super::desk::Desk;
use super::{Outcome, print, say};
use crate::error::{Fault, Faults, Severity};
use crate::rehearsal::{Recording, Rehearsal, score};
use crate::report::rehearsal::{Attempt, ClassSheet, Rehearsed, ladder_json, ladder_text};
use crate::run::Scenario;
use crate::{Error, Result};

/// A recording that can be played, and what is odd about it.
struct Played<'a> {
    path: &'a Path,
    recording: Recording,
    flown: Rehearsal,
    warnings: Vec<Fault>,
}

pub(super) fn rehearse(args: &RehearseArgs) -> Result<Outcome> {
    if args.list {
        let list = if args.output.json { ladder_json()? } else { ladder_text() };
        return print(list).map(|()| Outcome::Done);
    }
    let file = args.file.as_deref().unwrap_or_else(|| Path::new(""));
    if args.inputs.is_empty() {
        return Err(Error::Asked(format!(
            "there is nothing to play: flying is done in the window. Open it with `peewit {}`, choose Rehearse, fly, and \
             keep the flight; then give its file here with --inputs. What there is to fly: peewit rehearse --list",
            file.display()
        )));
    }
    let fitting = if args.inputs.len() == 1 { Rehearsed::FORMATS } else { ClassSheet::FORMATS };
    let desk = Desk::lay_beside(file, &args.inputs, &args.output, fitting)?;
    desk.warn();
    let Some(all) = played(&desk.scenario, &args.inputs) else { return Ok(Outcome::BadInput) };
    for one in &all {
        one.warnings.iter().for_each(|warning| say(&format!("{}: {warning}", one.path.display())));
    }
    let scores: Vec<_> = all.iter().map(|one| score(&one.flown)).collect();
    let failed = scores.iter().any(|score| score.points().is_none());
    let outcome = if desk.strict && failed { Outcome::No } else { Outcome::Done };
    let names: Vec<String> = all.iter().map(Played::pilot).collect();
    let rehearsed: Vec<Rehearsed<'_>> = all
        .iter()
        .zip(&scores)
        .zip(&names)
        .map(|((one, score), pilot)| Rehearsed { flown: &one.flown, score, pilot, warnings: &one.warnings })
        .collect();
    let rendered = match rehearsed.as_slice() {
        [one] => {
            let one = Rehearsed { pilot: &all[0].recording.header.pilot, ..*one };
            desk.render(|format| one.render(format))?
        }
        several => {
            let shown: Vec<String> = all.iter().map(|one| one.path.display().to_string()).collect();
            let recorded: Vec<_> =
                shown.iter().map(String::as_str).zip(all.iter().map(|one| &one.recording.header.exercise)).collect();
            let exercise = ClassSheet::one_exercise(&recorded)?;
            let attempts: Vec<Attempt> = several.iter().map(Attempt::of).collect();
            let class = ClassSheet { base: &desk.scenario, exercise, attempts: &attempts };
            desk.render(|format| class.render(format, args.page as usize))?
        }
    };
    desk.put_out(&rendered)?;
    Ok(outcome)
}

impl Played<'_> {
    /// Who flew it, or else what its file is called.
    fn pilot(&self) -> String {
        match self.recording.header.pilot.trim() {
            "" => self.path.file_stem().unwrap_or_default().to_string_lossy().into_owned(),
            name => name.to_owned(),
        }
    }
}

/// Every recording, read and flown again; none where one of them can't be, and then every fault of all has been said.
fn played<'a>(scenario: &Scenario, paths: &'a [PathBuf]) -> Option<Vec<Played<'a>>> {
    let all = paths.iter().map(|path| {
        let told = play(scenario, path);
        told.map_err(|error| say(&error.to_string())).ok()
    });
    let all: Vec<_> = all.collect();
    all.into_iter().collect()
}

fn play<'a>(scenario: &Scenario, path: &'a Path) -> Result<Played<'a>> {
    let bytes = std::fs::read(path).map_err(|source| Error::Read { path: path.into(), source })?;
    let recording = Recording::read(&String::from_utf8_lossy(&bytes), path)?;
    let refused = |faults| Error::Input(Faults { file: path.into(), faults });
    let mut warnings = recording.warnings.clone();
    warnings.extend(recording.fits(scenario));
    if warnings.iter().any(|fault| fault.severity == Severity::Error) {
        return Err(refused(warnings));
    }
    let flown = recording.play(scenario).map_err(refused)?;
    Ok(Played { path, recording, flown, warnings })
}
