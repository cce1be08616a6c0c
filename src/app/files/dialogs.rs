//! The dialogs of the system, in which a person chooses a file, and the programs that it has for one. They run on a
//! thread of their own and hand over what was chosen through a channel, so that the window never stalls.

use std::path::{Path, PathBuf};
use std::sync::Mutex;
use std::sync::mpsc::{Receiver, Sender, channel};
use std::thread;

use bevy::tasks::block_on;
use rfd::AsyncFileDialog;

use crate::app::session::Purpose;

/// Endings of pictures that can lie under a field, and of the files that say where they lie.
pub const PICTURES: [&str; 3] = ["png", "jpg", "jpeg"];
/// Endings of the files that say where a picture lies.
pub const WORLD: [&str; 6] = ["pgw", "jgw", "tfw", "wld", "pngw", "jpgw"];
/// Endings of files with shapes.
pub const SHAPES: [&str; 3] = ["geojson", "kml", "gpx"];

/// What came of a dialog.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ChosenFile {
    /// This file.
    Path(PathBuf),
    /// None: it was closed.
    Nothing,
    /// There is no dialog on this system; why, in words.
    NoService(String),
}

/// Whoever can ask a person for a file.
pub trait Dialogs: Send + Sync + 'static {
    /// Opens a dialog, in the folder of `near` and with its name where it is to be saved. It answers to `ticket`.
    fn open(&mut self, ticket: u64, purpose: Purpose, near: Option<&Path>);

    /// Opens a file with the program that the system has for it.
    ///
    /// # Errors
    /// The system has none, or it can't be started; why.
    fn launch(&mut self, path: &Path) -> std::io::Result<()>;

    /// What has been chosen since the last time.
    fn chosen(&mut self) -> Option<(u64, ChosenFile)>;
}

/// Those of the system.
pub struct SystemDialogs {
    sender: Sender<(u64, ChosenFile)>,
    receiver: Mutex<Receiver<(u64, ChosenFile)>>,
    wake: std::sync::Arc<dyn Fn() + Send + Sync>,
}

impl SystemDialogs {
    /// Dialogs that call `wake` when something has been chosen.
    pub fn new(wake: impl Fn() + Send + Sync + 'static) -> Self {
        let (sender, receiver) = channel();
        Self { sender, receiver: Mutex::new(receiver), wake: std::sync::Arc::new(wake) }
    }
}

impl Dialogs for SystemDialogs {
    fn open(&mut self, ticket: u64, purpose: Purpose, near: Option<&Path>) {
        let (sender, wake) = (self.sender.clone(), std::sync::Arc::clone(&self.wake));
        let answer = move |chosen| {
            // Once the window is closed nobody listens.
            let _ = sender.send((ticket, chosen));
            wake();
        };
        if let Some(why) = no_service(|name| std::env::var_os(name), |path| path.exists(), on_path) {
            return answer(ChosenFile::NoService(why));
        }
        let mut dialog = AsyncFileDialog::new().set_title(purpose.title());
        for (name, endings) in kinds(purpose) {
            dialog = dialog.add_filter(name, &endings);
        }
        if let Some(near) = near {
            if let Some(folder) = near.parent().filter(|folder| folder.is_dir()) {
                dialog = dialog.set_directory(folder);
            }
            if purpose.writes().is_some()
                && let Some(name) = near.file_name()
            {
                dialog = dialog.set_file_name(name.to_string_lossy());
            }
        }
        let wait = move || {
            let file = match purpose {
                Purpose::SaveAs | Purpose::Print(_) | Purpose::Rehearsal(_) | Purpose::Debrief(_) => {
                    block_on(dialog.save_file())
                }
                Purpose::Open | Purpose::Import | Purpose::Recording | Purpose::Log => block_on(dialog.pick_file()),
                Purpose::Logs => block_on(dialog.pick_folder()),
            };
            answer(file.map_or(ChosenFile::Nothing, |file| ChosenFile::Path(file.path().to_owned())));
        };
        if let Err(error) = thread::Builder::new().name("dialog".into()).spawn(wait) {
            let why = format!("The system gives no thread for its dialog: {error}.");
            let _ = self.sender.send((ticket, ChosenFile::NoService(why)));
        }
    }

    fn launch(&mut self, path: &Path) -> std::io::Result<()> {
        open::that_detached(path)
    }

    fn chosen(&mut self) -> Option<(u64, ChosenFile)> {
        self.receiver.get_mut().ok()?.try_recv().ok()
    }
}

fn kinds(purpose: Purpose) -> Vec<(&'static str, Vec<&'static str>)> {
    let everything = ("every file", vec!["*"]);
    match purpose {
        Purpose::Open => vec![("scenarios", vec!["json"]), everything],
        Purpose::SaveAs => vec![("scenarios", vec!["json"])],
        Purpose::Print(paper) => vec![("prints", vec![paper.format.ending()])],
        Purpose::Rehearsal(file) => vec![("rehearsals", vec![file.ending()])],
        Purpose::Recording => vec![("recordings", vec!["jsonl"]), everything],
        Purpose::Log => vec![("logs", crate::log::ENDINGS.to_vec()), everything],
        Purpose::Logs => Vec::new(),
        Purpose::Debrief(format) => vec![("debriefs", vec![format.ending()])],
        Purpose::Import => {
            let all = [&SHAPES[..], &PICTURES, &WORLD, &["json"]].concat();
            vec![("shapes and pictures", all), ("shapes", SHAPES.to_vec()), ("pictures", PICTURES.to_vec()), everything]
        }
    }
}

/// Why there is certainly no dialog, where that is so. Elsewhere than on the free desktops there always is.
fn no_service(
    variable: impl Fn(&str) -> Option<std::ffi::OsString>,
    exists: impl Fn(&Path) -> bool,
    program: impl Fn(&str) -> bool,
) -> Option<String> {
    if !cfg!(all(unix, not(target_os = "macos"))) {
        return None;
    }
    let set = |name: &str| variable(name).filter(|value| !value.is_empty());
    let socket = set("XDG_RUNTIME_DIR").is_some_and(|folder| exists(&Path::new(&folder).join("bus")));
    let bus = set("DBUS_SESSION_BUS_ADDRESS").is_some() || socket;
    (!bus && !program("zenity")).then(|| "This desktop offers no dialog for files.".to_owned())
}

fn on_path(program: &str) -> bool {
    std::env::var_os("PATH")
        .is_some_and(|path| std::env::split_paths(&path).any(|folder| folder.join(program).exists()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    #[cfg(all(unix, not(target_os = "macos")))]
    fn a_missing_dialog_service_is_known_beforehand() {
        let unset = |_: &str| None;
        assert!(no_service(unset, |_| false, |_| false).is_some_and(|why| why.contains("no dialog")));
        assert!(no_service(unset, |_| false, |_| true).is_none());
        let bus = |name: &str| (name == "DBUS_SESSION_BUS_ADDRESS").then(|| "unix:path=/x".into());
        assert!(no_service(bus, |_| false, |_| false).is_none());
        let folder = |name: &str| (name == "XDG_RUNTIME_DIR").then(|| "/run/user/1".into());
        assert!(no_service(folder, |path| path == Path::new("/run/user/1/bus"), |_| false).is_none());
    }
}
