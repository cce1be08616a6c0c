//! Rehearsals on their way into files, and back.

use std::path::{Path, PathBuf};

use super::{Files, file_name, name_of, show_news};
use crate::app::session::{RehearsalFile, RehearseView, Session};
use crate::rehearsal::Recording;
use crate::report::Format;
use crate::report::rehearsal::{ClassSheet, Rehearsed};
use crate::run::{WholeFile, sources};
use crate::{Error, Result};

impl Files {
    /// A name for it, beside the scenario or in the folder used last.
    pub(super) fn rehearsal_name(&self, session: &Session, file: RehearsalFile) -> PathBuf {
        let scenario = session.path.clone().unwrap_or_else(|| self.beside(session));
        let stem = scenario.file_stem().map_or_else(|| file_name(""), |stem| stem.to_string_lossy().into_owned());
        let what = if matches!(file, RehearsalFile::Class(_)) { "class" } else { "rehearsal" };
        scenario.with_file_name(format!("{stem}-{what}.{}", file.ending()))
    }

    /// A name for a debrief, likewise.
    pub(super) fn debrief_name(&self, session: &Session, format: Format) -> PathBuf {
        let scenario = session.path.clone().unwrap_or_else(|| self.beside(session));
        let stem = scenario.file_stem().map_or_else(|| file_name(""), |stem| stem.to_string_lossy().into_owned());
        scenario.with_file_name(format!("{stem}-debrief.{}", format.ending()))
    }

    /// Writes it.
    pub(super) fn save_rehearsal(session: &mut Session, file: RehearsalFile, path: &Path) {
        match rendered(session, file).and_then(|bytes| {
            let read = session.path.as_deref().map(sources).unwrap_or_default();
            WholeFile::open_beside(path, &read)?.write(&bytes)
        }) {
            Ok(()) => session.word = format!("saved as {}", name_of(path)),
            Err(error) => show_news(session, "It could not be saved", &format!("{error}.")),
        }
    }

    /// Flies a recording again on the plan of the screen, and shows how it went.
    pub(super) fn open_rehearsal(session: &mut Session, path: &Path) {
        if let Err(error) = played(session, path) {
            show_news(session, "This recording can't be flown", &error.to_string());
        }
    }
}

fn played(session: &mut Session, path: &Path) -> Result<()> {
    let text = std::fs::read_to_string(path).map_err(|source| Error::Read { path: path.into(), source })?;
    let recording = Recording::read(&text, path)?;
    let none = || Error::Asked("there is no plan that can be flown".into());
    let scenario = &session.flown.as_ref().ok_or_else(none)?.scenario;
    let odd = recording.fits(scenario);
    if odd.iter().any(|fault| fault.severity == crate::error::Severity::Error) {
        return Err(Error::Input(crate::error::Faults { file: path.into(), faults: odd }));
    }
    let flown = recording.play(scenario);
    let flown = flown.map_err(|faults| Error::Input(crate::error::Faults { file: path.into(), faults }))?;
    let told = odd.iter().chain(&recording.warnings).map(|fault| format!("{}.", fault.problem)).collect::<Vec<_>>();
    session.word = told.join(" ");
    session.rehearse.pilot = recording.header.pilot.clone();
    session.show_rehearsed(flown);
    session.rehearse.view = RehearseView::Above;
    Ok(())
}

fn rendered(session: &Session, file: RehearsalFile) -> Result<Vec<u8>> {
    let none = || Error::Asked("there is nothing to save: fly an exercise first".into());
    let rehearse = &session.rehearse;
    let (last, pilot) = (rehearse.last.as_ref().ok_or_else(none), rehearse.pilot.trim());
    match file {
        RehearsalFile::Recording => Ok(Recording::of(&last?.flown, pilot).to_text().into_bytes()),
        RehearsalFile::Run(format) => {
            let last = last?;
            Rehearsed { flown: &last.flown, score: &last.score, pilot, warnings: &[] }.render(format)
        }
        RehearsalFile::Class(format) => {
            let class = rehearse.class.as_ref().ok_or_else(none)?;
            ClassSheet { base: &class.base, exercise: &class.exercise, attempts: &class.attempts }.render(format, 1)
        }
    }
}
