//! Keeps the unsaved draft and the settings on the disk, on a thread of its own, so that nothing is lost when the program
//! or the machine goes down.

use std::path::PathBuf;
use std::sync::mpsc::{Receiver, Sender, channel};
use std::sync::{Arc, Mutex, PoisonError};
use std::thread::{self, JoinHandle};
use std::time::Duration;

use super::pictures::Laid;
use super::place::{Left, StateFolder, write};
use crate::app::session::Settings;

/// How long edits are gathered before they are written. With the writing itself it stays well under a second.
const GATHER: Duration = Duration::from_millis(300);

enum Note {
    Draft(Box<Left>),
    Nothing,
    Settings(Box<Settings>),
    Picture(PathBuf, Option<Box<Laid>>),
}

/// The thread that keeps.
#[derive(Debug)]
pub struct Keeper {
    sender: Option<Sender<Note>>,
    thread: Option<JoinHandle<()>>,
    trouble: Arc<Mutex<Option<String>>>,
}

impl Keeper {
    /// Starts the thread.
    ///
    /// # Errors
    /// The system gives no thread.
    pub fn start(place: StateFolder) -> std::io::Result<Self> {
        let (sender, receiver) = channel();
        let trouble = Arc::default();
        let told = Arc::clone(&trouble);
        let thread = thread::Builder::new().name("keeper".into()).spawn(move || work(&place, &receiver, &told))?;
        Ok(Self { sender: Some(sender), thread: Some(thread), trouble })
    }

    /// Keeps a draft.
    pub fn keep(&self, left: Left) {
        self.send(Note::Draft(Box::new(left)));
    }

    /// There is nothing to be brought back any more.
    pub fn keep_nothing(&self) {
        self.send(Note::Nothing);
    }

    /// Keeps settings.
    pub fn settings(&self, settings: Settings) {
        self.send(Note::Settings(Box::new(settings)));
    }

    /// Keeps how a picture lies under a scenario, or that none does.
    pub fn picture(&self, scenario: PathBuf, laid: Option<Laid>) {
        self.send(Note::Picture(scenario, laid.map(Box::new)));
    }

    /// What went wrong since the last time.
    pub fn trouble(&self) -> Option<String> {
        self.trouble.lock().unwrap_or_else(PoisonError::into_inner).take()
    }

    fn send(&self, note: Note) {
        // The thread ends only with this.
        let _ = self.sender.as_ref().map(|sender| sender.send(note));
    }
}

/// Waits until everything is on the disk.
impl Drop for Keeper {
    fn drop(&mut self) {
        self.sender = None;
        let _ = self.thread.take().map(JoinHandle::join);
    }
}

fn work(place: &StateFolder, notes: &Receiver<Note>, trouble: &Mutex<Option<String>>) {
    while let Ok(first) = notes.recv() {
        thread::sleep(GATHER);
        let (mut draft, mut settings, mut pictures) = (None, None, Vec::new());
        for note in std::iter::once(first).chain(notes.try_iter()) {
            match note {
                Note::Draft(left) => draft = Some(Some(left)),
                Note::Nothing => draft = Some(None),
                Note::Settings(new) => settings = Some(new),
                Note::Picture(scenario, laid) => pictures.push((scenario, laid)),
            }
        }
        let kept = match draft {
            Some(Some(left)) => write(&place.draft(), &left),
            Some(None) => {
                place.clear();
                Ok(())
            }
            None => Ok(()),
        };
        let kept = kept.and(settings.map_or(Ok(()), |settings| write(&place.settings(), &settings)));
        let kept = kept.and(album(place, pictures));
        if let Err(error) = kept {
            let told = format!("What you do here can't be kept aside: {error}");
            *trouble.lock().unwrap_or_else(PoisonError::into_inner) = Some(told);
        }
    }
}

/// Writes what has changed into the album, which other windows write as well.
fn album(place: &StateFolder, pictures: Vec<(PathBuf, Option<Box<Laid>>)>) -> crate::Result<()> {
    if pictures.is_empty() {
        return Ok(());
    }
    let mut album = place.read_album();
    for (scenario, laid) in pictures {
        match laid {
            Some(laid) => drop(album.insert(scenario, *laid)),
            None => drop(album.remove(&scenario)),
        }
    }
    write(&place.album(), &album)
}
