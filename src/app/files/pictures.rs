//! Pictures of the ground: decoded on a thread of their own, and remembered with how they lay under which scenario.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::mpsc::{Receiver, Sender, channel};
use std::sync::{Arc, Mutex};
use std::thread;

use serde::{Deserialize, Serialize};

use super::{Files, PICTURES, name_of, show_news};
use crate::app::look::lens::Lens;
use crate::app::session::field_board::{FieldCommand, GroundPicture, PictureCommand, open_picture};
use crate::app::session::{AppCommand, Board, Session};
use crate::error::Fault;
use crate::geometry::Placement;

/// How a picture lies under a scenario.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Laid {
    path: PathBuf,
    placement: Placement,
    placed: bool,
    strength: f32,
    said: String,
}

impl Laid {
    /// The picture's file.
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// How the picture of a session lies.
    pub(super) fn of(session: &Session) -> Option<Self> {
        let GroundPicture { path, placement, placed, strength, said, .. } = session.field_board.picture.as_ref()?;
        let path = std::path::absolute(path).unwrap_or_else(|_| path.clone());
        Some(Self { path, placement: *placement, placed: *placed, strength: *strength, said: said.clone() })
    }
}

/// Every picture that is remembered, by the path of its scenario.
pub(super) type Album = BTreeMap<PathBuf, Laid>;

/// What came of decoding: for which scenario it was asked for, how it lay there, and the picture.
type Decoded = (Option<PathBuf>, Option<Laid>, Result<GroundPicture, Vec<Fault>>);

/// Whoever decodes.
pub(super) struct Pictures {
    sender: Sender<Decoded>,
    receiver: Mutex<Receiver<Decoded>>,
    wake: Arc<dyn Fn() + Send + Sync>,
}

impl Pictures {
    pub(super) fn new(wake: Arc<dyn Fn() + Send + Sync>) -> Self {
        let (sender, receiver) = channel();
        Self { sender, receiver: Mutex::new(receiver), wake }
    }

    /// Decodes a picture for a scenario, to lie as it lay before or as its world file says.
    pub(super) fn open(&self, scenario: Option<PathBuf>, path: PathBuf, laid: Option<Laid>) {
        let (sender, wake) = (self.sender.clone(), Arc::clone(&self.wake));
        let work = move || {
            let picture = open_picture(&path);
            // Once the window is closed nobody listens.
            let _ = sender.send((scenario, laid, picture));
            wake();
        };
        // Without a thread there is no picture, and the field can do without.
        let _ = thread::Builder::new().name("picture".into()).spawn(work);
    }

    fn decoded(&mut self) -> Option<Decoded> {
        self.receiver.get_mut().ok()?.try_recv().ok()
    }
}

impl Files {
    /// Opens a picture that a person has chosen; for a world file, the picture beside it.
    pub(super) fn picture(&mut self, session: &mut Session, path: &Path) {
        let picture = if PICTURES.contains(&&*super::open::ending(path)) { Some(path.into()) } else { beside(path) };
        match picture {
            Some(picture) => {
                session.word = format!("opening {}", name_of(&picture));
                self.pictures.open(session.path.clone(), picture, None);
            }
            None => {
                let text = format!(
                    "{} says how a picture lies, and there is no picture of that name beside it.",
                    name_of(path)
                );
                show_news(session, "No picture to lay", &text);
            }
        }
    }

    /// Lays again the picture that lay under this scenario before.
    pub(super) fn picture_again(&self, session: &Session) {
        if let Some(scenario) = &session.path
            && let Some(laid) = self.album.get(scenario)
        {
            self.pictures.open(Some(scenario.clone()), laid.path.clone(), Some(laid.clone()));
        }
    }

    /// Lays what has been decoded since.
    pub(super) fn lay(&mut self, session: &mut Session) -> bool {
        let mut any = false;
        while let Some((scenario, laid, picture)) = self.pictures.decoded() {
            // Meanwhile another scenario may have been opened.
            if scenario != session.path {
                continue;
            }
            any = true;
            // One that a hand or a bad disk has spoilt is laid anew.
            let laid = laid.filter(|laid| laid.placement.faults("").is_empty());
            let again = laid.is_some();
            match picture {
                Ok(mut picture) => {
                    if let Some(Laid { placement, placed, strength, said, .. }) = laid {
                        picture = GroundPicture { placement, placed, strength, said, ..picture };
                    } else {
                        session.board = Board::Field;
                    }
                    session.word = format!("{} lies under the field", picture.name());
                    if again {
                        // Nobody has asked for a tool.
                        session.field_board.picture = Some(picture);
                    } else {
                        let lay = FieldCommand::Picture(PictureCommand::Lay(Box::new(picture)));
                        session.apply(AppCommand::Field(lay), Lens::default());
                    }
                }
                Err(faults) => {
                    let text: Vec<String> =
                        faults.iter().map(|fault| format!("{}. {}.", fault.problem, fault.way_out)).collect();
                    show_news(session, "The picture of the ground is missing", &text.join(" "));
                }
            }
        }
        any
    }
}

/// The picture of a world file.
fn beside(world: &Path) -> Option<PathBuf> {
    PICTURES.iter().map(|ending| world.with_extension(ending)).find(|path| path.is_file())
}
