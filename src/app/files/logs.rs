//! Logs on their way in: read and debriefed one after the other, each on a thread beside the window, where they lie. Nothing
//! of them is kept.

use std::collections::BTreeMap;
use std::path::Path;
use std::sync::mpsc::{Receiver, TryRecvError, channel};
use std::sync::{Arc, Mutex, PoisonError};
use std::thread;

use super::{Files, name_of, show_news};
use crate::app::session::{LogJob, Session};
use crate::log::{Columns, bytes, guess_columns, listed};
use crate::report::Format;
use crate::report::debrief::{DebriefReport, LaidOn, LogDebrief};
use crate::run::{Scenario, WholeFile, sources};
use crate::study::work::Work;
use crate::words::BROKE_OFF;
use crate::{Error, Result};

/// What became of a log: what its columns hold, where it is a table that was read, and what it tells.
type Read = (Option<Columns>, Result<LogDebrief>);

/// A log that is being worked on. It is stopped when this is dropped, and its answer reaches nobody.
struct Busy {
    job: Arc<LogJob>,
    work: Work,
    answer: Mutex<Receiver<Read>>,
}

impl Busy {
    /// `known` are the columns that persons have said, by header.
    fn start(
        job: Arc<LogJob>,
        scenario: Scenario,
        known: BTreeMap<String, Columns>,
        wake: Arc<dyn Fn() + Send + Sync>,
    ) -> Self {
        let (sender, receiver) = channel();
        let busy = Self { job: Arc::clone(&job), work: Work::default(), answer: Mutex::new(receiver) };
        let (work, failed, path) = (busy.work.clone(), sender.clone(), job.path.clone());
        let thread = move || {
            // Where it is not wanted any more nobody listens.
            let _ = sender.send(debriefed(&job, &scenario, &known, &work));
            wake();
        };
        if let Err(source) = thread::Builder::new().name("log".into()).spawn(thread) {
            let _ = failed.send((None, Err(Error::Read { path, source })));
        }
        busy
    }
}

impl Drop for Busy {
    fn drop(&mut self) {
        self.work.stop();
    }
}

/// Holds a log against the plan where its metres are those of the plan; else it is read.
fn debriefed(job: &LogJob, scenario: &Scenario, known: &BTreeMap<String, Columns>, work: &Work) -> Read {
    if let Some(log) = job.held.as_ref().filter(|log| log.laid_on == LaidOn::of(scenario)) {
        return (None, Ok(log.against(scenario, work)));
    }
    let bytes = match bytes(&job.path) {
        Ok(bytes) => bytes,
        Err(error) => return (None, Err(error)),
    };
    let guessed = guess_columns(&bytes);
    let said = guessed.as_ref().and_then(|guessed| known.get(&guessed.own_key()));
    let log = LogDebrief::read(&job.path, &bytes, scenario, said, work);
    (said.cloned().or(guessed), log)
}

/// Whoever reads logs.
pub(super) struct Reader {
    busy: Option<Busy>,
    wake: Arc<dyn Fn() + Send + Sync>,
}

impl Reader {
    pub(super) fn new(wake: Arc<dyn Fn() + Send + Sync>) -> Self {
        Self { busy: None, wake }
    }

    /// What has come of a job, which is begun where it is not the one being worked on.
    fn answer(&mut self, job: &Arc<LogJob>, session: &Session) -> Option<Read> {
        if self.busy.as_ref().is_none_or(|busy| !Arc::ptr_eq(&busy.job, job)) {
            let columns = session.settings.columns.clone();
            self.busy = Some(Busy::start(Arc::clone(job), session.debrief_plan()?, columns, Arc::clone(&self.wake)));
        }
        let answer = self.busy.as_mut()?.answer.get_mut().unwrap_or_else(PoisonError::into_inner);
        match answer.try_recv() {
            Ok(read) => Some(read),
            Err(TryRecvError::Empty) => None,
            Err(TryRecvError::Disconnected) => Some((None, Err(Error::Asked(BROKE_OFF.into())))),
        }
    }
}

impl Files {
    /// Begins to read a log, or all those of a folder, on the plan of the screen.
    pub(super) fn open_logs(session: &mut Session, path: &Path) {
        if session.flown.is_none() {
            show_news(session, "There is no plan to hold it against", "Draw the field and enter the jet first.");
            return;
        }
        match listed(&[path.to_owned()]) {
            // By one name, however it was come by.
            Ok(paths) => {
                session.debrief.read(paths.into_iter().map(|path| path.canonicalize().unwrap_or(path)));
            }
            Err(error) => show_news(session, "There is nothing to read", &format!("{error}.")),
        }
    }

    /// Reads a table again, with its columns as they are on the screen, which are remembered for all with such a header.
    pub(super) fn read_again(session: &mut Session) {
        let Some((path, columns)) = session.debrief.columns.clone() else { return };
        session.settings.columns.insert(columns.own_key(), columns);
        Self::open_logs(session, &path);
    }

    /// Shows what was worked out since, and begins what is still to be.
    pub(super) fn logs_read(&mut self, session: &mut Session) -> bool {
        let mut any = false;
        while let Some(job) = session.debrief.to_do.first().cloned() {
            let Some((columns, log)) = self.reader.answer(&job, session) else { return any };
            any = true;
            session.debrief.to_do.remove(0);
            if let Some(columns) = columns {
                session.debrief.columns = Some((job.path.clone(), columns));
            }
            match log {
                Ok(log) if job.held.is_some() => session.debriefed_again(&job.path, log),
                Ok(log) => session.debriefed(&job.path, log),
                Err(error) => session.debrief.refuse(&job.path, error.to_string()),
            }
        }
        self.reader.busy = None;
        any
    }

    /// Writes the debrief of all logs on the screen.
    pub(super) fn save_debrief(session: &mut Session, format: Format, path: &Path) {
        match written(session, format, path) {
            Ok(()) => session.word = format!("saved as {}", name_of(path)),
            Err(error) => show_news(session, "It could not be saved", &format!("{error}.")),
        }
    }
}

fn written(session: &Session, format: Format, path: &Path) -> Result<()> {
    let plan = session.debrief_plan().filter(|_| !session.is_debrief_stale());
    let scenario = &plan.ok_or_else(|| Error::Asked("hold the logs against the plan as it is first".into()))?;
    let logs: Vec<LogDebrief> = session.debrief.told().cloned().collect();
    let bytes = DebriefReport { scenario, logs: &logs, places: !session.debrief.no_places }.render(format)?;
    let sources = session.path.as_deref().map(sources).unwrap_or_default();
    let read: Vec<_> = sources.into_iter().chain(session.debrief.files().cloned()).collect();
    WholeFile::open_beside(path, &read)?.write(&bytes)
}
