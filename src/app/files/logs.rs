//! Logs on their way in: read and debriefed on a thread of their own, where they lie. Nothing of them is kept.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{Receiver, Sender, channel};
use std::sync::{Arc, Mutex};
use std::thread;

use super::{Files, name_of, show_news};
use crate::app::session::Session;
use crate::log::{Columns, guess_columns, listed, read};
use crate::report::Format;
use crate::report::debrief::{DebriefReport, LogDebrief};
use crate::run::{Scenario, WholeFile, sources};
use crate::study::work::Work;
use crate::{Error, Result, error};

/// What became of a log.
struct Read {
    path: PathBuf,
    /// What its columns hold, where it is a table.
    columns: Option<Columns>,
    log: Result<LogDebrief>,
}

/// Whoever reads logs.
pub(super) struct Reader {
    sender: Sender<Read>,
    receiver: Mutex<Receiver<Read>>,
    wake: Arc<dyn Fn() + Send + Sync>,
    /// Set where what is still to be read is to be let be.
    stop: Arc<AtomicBool>,
}

impl Reader {
    pub(super) fn new(wake: Arc<dyn Fn() + Send + Sync>) -> Self {
        let (sender, receiver) = channel();
        Self { sender, receiver: Mutex::new(receiver), wake, stop: Arc::default() }
    }

    /// One after the other. `known` are the columns that persons have said, by header.
    fn read(&mut self, scenario: Scenario, paths: Vec<PathBuf>, known: BTreeMap<String, Columns>) {
        let (sender, wake) = (self.sender.clone(), Arc::clone(&self.wake));
        self.stop = Arc::default();
        let stop = Arc::clone(&self.stop);
        let first = paths.first().cloned().unwrap_or_default();
        let work = move || {
            for path in paths {
                if stop.load(Ordering::Relaxed) {
                    return;
                }
                let (columns, log) = debriefed(&scenario, &path, &known);
                // Once the window is closed nobody listens.
                let _ = sender.send(Read { path, columns, log });
                wake();
            }
        };
        if let Err(source) = thread::Builder::new().name("logs".into()).spawn(work) {
            let log = Err(Error::Read { path: first.clone(), source });
            let _ = self.sender.send(Read { path: first, columns: None, log });
        }
    }

    fn done(&mut self) -> Option<Read> {
        self.receiver.get_mut().ok()?.try_recv().ok()
    }
}

fn debriefed(
    scenario: &Scenario,
    path: &Path,
    known: &BTreeMap<String, Columns>,
) -> (Option<Columns>, Result<LogDebrief>) {
    let bytes = match std::fs::read(path) {
        Ok(bytes) => bytes,
        Err(source) => return (None, Err(Error::Read { path: path.into(), source })),
    };
    let guessed = guess_columns(&bytes);
    let said = guessed.as_ref().and_then(|guessed| known.get(&guessed.own_key()));
    let log = read(&name_of(path), &bytes, scenario, said)
        .map_err(|faults| Error::Input(error::Faults { file: path.into(), faults }))
        .map(|log| LogDebrief::of(scenario, log, &Work::default()));
    (said.cloned().or(guessed), log)
}

impl Files {
    /// Begins to read a log, or all those of a folder, on the plan of the screen.
    pub(super) fn open_logs(&mut self, session: &mut Session, path: &Path) {
        let Some(flown) = &session.flown else {
            show_news(session, "There is no plan to hold it against", "Draw the field and enter the jet first.");
            return;
        };
        let (scenario, columns) = (flown.scenario.clone(), session.settings.columns.clone());
        match listed(&[path.to_owned()]) {
            Ok(paths) => {
                session.debrief.reading = paths.iter().map(|path| name_of(path)).collect();
                self.reader.read(scenario, paths, columns);
            }
            Err(error) => show_news(session, "There is nothing to read", &format!("{error}.")),
        }
    }

    /// Lets the logs be that are still to be read; those that were read stay.
    pub(super) fn stop_logs(&mut self, session: &mut Session) {
        self.reader.stop.store(true, Ordering::Relaxed);
        session.debrief.reading.clear();
    }

    /// Reads a table again, with its columns as they are on the screen, which are remembered for all with such a header.
    pub(super) fn read_again(&mut self, session: &mut Session) {
        let Some((path, columns)) = session.debrief.columns.clone() else { return };
        session.settings.columns.insert(columns.own_key(), columns);
        self.open_logs(session, &path);
    }

    /// Shows what was read since.
    pub(super) fn logs_read(&mut self, session: &mut Session) -> bool {
        let mut any = false;
        while let Some(Read { path, columns, log }) = self.reader.done() {
            any = true;
            let name = name_of(&path);
            session.debrief.reading.retain(|waiting| *waiting != name);
            session.debrief.columns = columns.map(|columns| (path.clone(), columns));
            match log {
                Ok(log) => session.debriefed(log),
                Err(error) => {
                    let text = format!("{error}");
                    show_news(session, &format!("{} can't be read", name_of(&path)), &text);
                }
            }
        }
        any
    }

    /// Writes the debrief of all logs on the screen.
    pub(super) fn save_debrief(session: &mut Session, format: Format, path: &Path) {
        let written = session.flown.as_ref().ok_or_else(|| Error::Asked("there is no plan".into())).and_then(|flown| {
            let logs: Vec<LogDebrief> = session.debrief.logs.iter().map(|log| LogDebrief::clone(log)).collect();
            let report = DebriefReport { scenario: &flown.scenario, logs: &logs, places: !session.debrief.no_places };
            let bytes = report.render(format)?;
            let read = session.path.as_deref().map(sources).unwrap_or_default();
            WholeFile::open_beside(path, &read)?.write(&bytes)
        });
        match written {
            Ok(()) => session.word = format!("saved as {}", name_of(path)),
            Err(error) => show_news(session, "It could not be saved", &format!("{error}.")),
        }
    }
}
