//! What comes in: scenarios, shapes and pictures, chosen, typed or dropped on the window.

use std::path::Path;

use super::{Files, PICTURES, WORLD, name_of, show_news};
use crate::app::session::{Ask, Board, Draft, Intake, Session, new_field};
use crate::run::{SampleField, Scenario, read};

impl Files {
    /// An empty field to be drawn.
    pub(super) fn new_field(&mut self, session: &mut Session) {
        session.load(Draft::new(new_field(), Vec::new()), None);
        session.board = Board::Field;
        session.warnings_shown = false;
        session.front.tour = None;
    }

    /// The built-in demo.
    pub(super) fn demo(&mut self, session: &mut Session) {
        show(session, Scenario::demo());
    }

    /// A scenario from the disk.
    pub(super) fn open(&mut self, session: &mut Session, path: &Path) {
        let path = std::path::absolute(path).unwrap_or_else(|_| path.into());
        let reading = match read(&path) {
            Ok(reading) => reading,
            Err(error) => {
                session.settings.recent.retain(|known| *known != path);
                return show_news(session, "It could not be opened", &format!("{error}."));
            }
        };
        session.settings.remember(path.clone());
        session.front.tour = None;
        match reading.file {
            Some(file) => {
                let draft = Draft::new(file, reading.faults);
                let faulty = draft.errors().next().is_some();
                session.load(draft, Some(path));
                if faulty {
                    session.board = Board::Field;
                }
                self.picture_again(session);
            }
            None => session.refuse(reading.faults, Some(path)),
        }
    }

    /// The field used last, in the place of the demo; where it is gone or can't be understood the demo stays, and a person
    /// is told.
    pub(super) fn open_last(&mut self, session: &mut Session) {
        let Some(path) = session.settings.recent.first().cloned() else { return };
        let why = match read(&path) {
            Ok(reading) if reading.file.is_some() => return self.open(session, &path),
            Ok(_) => format!("{} can't be understood as a scenario", path.display()),
            Err(error) => error.to_string(),
        };
        session.settings.recent.retain(|known| *known != path);
        show_news(session, "The field used last could not be opened", &format!("{why}. This is the demo."));
    }

    /// A file dropped on the window: its ending says what it is.
    pub(super) fn take(&mut self, session: &mut Session, path: &Path) {
        if ending(path) == "json" && !is_shapes(path) {
            self.obey(session, super::FileCommand::OpenThis(path.into()));
        } else if ending(path) == "jsonl" {
            Self::open_rehearsal(session, path);
        } else if session.board == Board::Debrief {
            Self::open_logs(session, path);
        } else {
            self.import(session, path);
        }
    }

    /// Shapes or a picture, to be put into the draft.
    pub(super) fn import(&mut self, session: &mut Session, path: &Path) {
        if session.refused.is_some() {
            return show_news(session, "There is no field to put it into", "Open a scenario or begin a new one first.");
        }
        let kind = ending(path);
        if PICTURES.contains(&&*kind) || WORLD.contains(&&*kind) {
            return self.picture(session, path);
        }
        shapes(session, path);
    }
}

/// A field that comes with the program.
pub(super) fn sample_field(session: &mut Session, sample: &SampleField) {
    show(session, sample.scenario());
}

/// A scenario that is in no file of the person's.
fn show(session: &mut Session, scenario: Scenario) {
    let warnings = scenario.warnings();
    session.load(Draft::new(scenario.file, warnings), None);
    session.front.tour = None;
}

fn shapes(session: &mut Session, path: &Path) {
    match std::fs::read(path) {
        Ok(bytes) => {
            let intake = Intake::read(&name_of(path), &bytes, session.draft.field());
            session.front.ask = Some(Ask::Import(Box::new(intake)));
        }
        Err(error) => show_news(session, "It could not be opened", &format!("{}: {error}.", path.display())),
    }
}

pub(super) fn ending(path: &Path) -> String {
    path.extension().map(|ending| ending.to_string_lossy().to_lowercase()).unwrap_or_default()
}

/// Whether a JSON file is GeoJSON, by its first words.
fn is_shapes(path: &Path) -> bool {
    use std::io::Read as _;
    let mut start = String::new();
    let read = std::fs::File::open(path).and_then(|file| file.take(4096).read_to_string(&mut start));
    read.is_ok() && start.contains("\"FeatureCollection\"")
}
