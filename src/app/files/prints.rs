//! Prints on their way into files: made on a thread of their own, and written whole.

use std::path::{Path, PathBuf};
use std::sync::mpsc::{Receiver, Sender, channel};
use std::sync::{Arc, Mutex};
use std::thread;

use super::{Files, file_name, name_of, show_news};
use crate::app::beside::pages::Known;
use crate::app::session::{Paper, Session, lacking};
use crate::run::{WholeFile, sources};
use crate::{Error, Result};

/// Whoever makes prints.
pub(super) struct Press {
    sender: Sender<(PathBuf, Result<()>)>,
    receiver: Mutex<Receiver<(PathBuf, Result<()>)>>,
    wake: Arc<dyn Fn() + Send + Sync>,
}

impl Press {
    pub(super) fn new(wake: Arc<dyn Fn() + Send + Sync>) -> Self {
        let (sender, receiver) = channel();
        Self { sender, receiver: Mutex::new(receiver), wake }
    }

    fn print(&self, known: Known, paper: Paper, path: PathBuf, read: Vec<PathBuf>) {
        let (sender, wake) = (self.sender.clone(), Arc::clone(&self.wake));
        let wanted = path.clone();
        let work = move || {
            let written = write(&known, paper, &path, &read);
            // Once the window is closed nobody listens.
            let _ = sender.send((path, written));
            wake();
        };
        if let Err(source) = thread::Builder::new().name("print".into()).spawn(work) {
            let failed = Err(Error::Write { path: wanted.clone(), source });
            let _ = self.sender.send((wanted, failed));
        }
    }

    fn done(&mut self) -> Option<(PathBuf, Result<()>)> {
        self.receiver.get_mut().ok()?.try_recv().ok()
    }
}

/// A bad path is found out about before any work is done.
fn write(known: &Known, paper: Paper, path: &Path, read: &[PathBuf]) -> Result<()> {
    let file = WholeFile::open_beside(path, read)?;
    file.write(&known.plan().render(paper.print, paper.format, paper.page)?)
}

impl Files {
    /// Writes a print of the plan on the screen, unless what it rests on is not worked out.
    pub(super) fn print(&mut self, session: &mut Session, paper: Paper, path: &Path) {
        let path = std::path::absolute(path).unwrap_or_else(|_| path.into());
        let ready = lacking(session, paper.print).is_empty();
        let Some(known) = Known::of(session).filter(|_| ready) else {
            show_news(
                session,
                "It is not printed yet",
                "What it rests on is still being worked out. Save it once that is done.",
            );
            return;
        };
        session.printed = format!("writing {} \u{2026}", name_of(&path));
        let read = session.path.as_deref().map(sources).unwrap_or_default();
        self.press.print(known, paper, path, read);
    }

    /// Says what became of the prints that were made since.
    pub(super) fn printed(&mut self, session: &mut Session) -> bool {
        let mut any = false;
        while let Some((path, written)) = self.press.done() {
            any = true;
            match written {
                Ok(()) => session.printed = format!("saved as {}", name_of(&path)),
                Err(error) => {
                    session.printed = String::new();
                    show_news(session, "The print could not be saved", &format!("{error}. Choose another place."));
                }
            }
        }
        any
    }

    /// A name for a print, beside the scenario or in the folder used last.
    pub(super) fn beside_the_scenario(&self, session: &Session, paper: Paper) -> PathBuf {
        let scenario = session.path.clone().unwrap_or_else(|| self.beside(session));
        let stem = scenario.file_stem().map_or_else(|| file_name(""), |stem| stem.to_string_lossy().into_owned());
        let page = if paper.page > 1 { format!("-{}", paper.page) } else { String::new() };
        scenario.with_file_name(format!("{stem}-{}{page}.{}", paper.print.name(), paper.format.ending()))
    }
}
