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

/// What became of a print.
struct Printed {
    path: PathBuf,
    written: Result<()>,
    /// Whether it is to be opened, to be put on paper from there.
    for_paper: bool,
}

/// Whoever makes prints.
pub(super) struct Press {
    sender: Sender<Printed>,
    receiver: Mutex<Receiver<Printed>>,
    wake: Arc<dyn Fn() + Send + Sync>,
}

impl Press {
    pub(super) fn new(wake: Arc<dyn Fn() + Send + Sync>) -> Self {
        let (sender, receiver) = channel();
        Self { sender, receiver: Mutex::new(receiver), wake }
    }

    fn print(&self, known: Known, paper: Paper, path: PathBuf, read: Vec<PathBuf>, for_paper: bool) {
        let (sender, wake) = (self.sender.clone(), Arc::clone(&self.wake));
        let wanted = path.clone();
        let work = move || {
            let written = write(&known, paper, &path, &read);
            // Once the window is closed nobody listens.
            let _ = sender.send(Printed { path, written, for_paper });
            wake();
        };
        if let Err(source) = thread::Builder::new().name("print".into()).spawn(work) {
            let written = Err(Error::Write { path: wanted.clone(), source });
            let _ = self.sender.send(Printed { path: wanted, written, for_paper });
        }
    }

    fn done(&mut self) -> Option<Printed> {
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
        self.press(session, paper, path, false);
    }

    /// The same into the folder of the program's own, and then with the system's program for such a file onto paper.
    pub(super) fn put_on_paper(&mut self, session: &mut Session, paper: Paper) {
        let name = name_of(&self.beside_the_scenario(session, paper));
        let folder = self.folder.clone().unwrap_or_else(std::env::temp_dir).join("prints");
        match std::fs::create_dir_all(&folder) {
            Ok(()) => self.press(session, paper, folder.join(name), true),
            Err(error) => show_news(session, "It can't be printed", &format!("{}: {error}.", folder.display())),
        }
    }

    fn press(&self, session: &mut Session, paper: Paper, path: PathBuf, for_paper: bool) {
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
        session.printed_to = None;
        let read = session.path.as_deref().map(sources).unwrap_or_default();
        self.press.print(known, paper, path, read, for_paper);
    }

    /// Says what became of the prints that were made since.
    pub(super) fn printed(&mut self, session: &mut Session) -> bool {
        let mut any = false;
        while let Some(Printed { path, written, for_paper }) = self.press.done() {
            any = true;
            if let Err(error) = written {
                session.printed = String::new();
                show_news(session, "The print could not be saved", &format!("{error}. Choose another place."));
                continue;
            }
            let folder = path.parent().unwrap_or(&path).display();
            session.printed = format!("saved as {} in {folder}", name_of(&path));
            if for_paper {
                self.launch(session, &path);
            }
            session.printed_to = Some(path);
        }
        any
    }

    /// Opens a file with the program that the system has for it.
    pub(super) fn launch(&mut self, session: &mut Session, path: &Path) {
        if let Err(error) = self.dialogs.launch(path) {
            let text = format!("{error}. Open it yourself: {}", path.display());
            show_news(session, "This system has no program for it", &text);
        }
    }

    /// A name for a print, beside the scenario or in the folder used last.
    pub(super) fn beside_the_scenario(&self, session: &Session, paper: Paper) -> PathBuf {
        let scenario = session.path.clone().unwrap_or_else(|| self.beside(session));
        let stem = scenario.file_stem().map_or_else(|| file_name(""), |stem| stem.to_string_lossy().into_owned());
        let page = if paper.page > 1 { format!("-{}", paper.page) } else { String::new() };
        scenario.with_file_name(format!("{stem}-{}{page}.{}", paper.print.name(), paper.format.ending()))
    }
}
