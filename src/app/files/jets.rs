//! The jets that a person keeps from field to field: a file each, its sheet as it stands in a scenario.

use std::path::{Path, PathBuf};

use super::{Files, file_name, name_of, show_news};
use crate::app::session::Session;
use crate::error::{Error, Result, json};
use crate::jet::JetSheet;
use crate::run::WholeFile;

/// Reads all of them, by name; those that can't be read are left where they are, and named.
pub(super) fn read(folder: &Path) -> (Vec<JetSheet>, Vec<String>) {
    let entries = std::fs::read_dir(jets(folder)).into_iter().flatten().flatten().map(|entry| entry.path());
    let (mut read, mut unread) = (Vec::new(), Vec::new());
    for path in entries.filter(|path| path.extension().is_some_and(|ending| ending == "json")) {
        let jet = std::fs::read(&path).ok().and_then(|text| serde_json::from_slice::<JetSheet>(&text).ok());
        match jet {
            Some(jet) => read.push(jet),
            None => unread.push(name_of(&path)),
        }
    }
    read.sort_by(|one, other| one.name.cmp(&other.name));
    unread.sort();
    (read, unread)
}

fn jets(folder: &Path) -> PathBuf {
    folder.join("jets")
}

/// Two jets of one name are one jet.
fn is_named(jet: &JetSheet, name: &str) -> bool {
    file_name(&jet.name) == file_name(name)
}

impl Files {
    /// Keeps the jet of the draft under its name, in the place of one of that name.
    pub(super) fn keep_jet(&self, session: &mut Session) {
        let jet = session.draft.file().jet.clone();
        self.put(session, jet);
    }

    /// Takes a jet off the list and off the disk.
    pub(super) fn drop_jet(&self, session: &mut Session, name: &str) {
        let Some(at) = session.jets.kept.iter().position(|jet| is_named(jet, name)) else { return };
        let gone = self.folder.as_deref().map(|folder| std::fs::remove_file(jets(folder).join(file_name(name))));
        match gone {
            Some(Err(error)) if error.kind() != std::io::ErrorKind::NotFound => {
                show_news(session, "The jet can't be taken off the list", &format!("{error}."));
            }
            _ => session.jets.dropped = Some(session.jets.kept.remove(at)),
        }
    }

    /// Brings back the jet that was taken off the list last.
    pub(super) fn bring_jet_back(&self, session: &mut Session) {
        if let Some(jet) = session.jets.dropped.take() {
            self.put(session, jet);
        }
    }

    fn put(&self, session: &mut Session, jet: JetSheet) {
        if let Err(error) = self.folder.as_deref().map_or_else(no_folder, |folder| write(folder, &jet)) {
            return show_news(session, "The jet can't be kept", &format!("{error}."));
        }
        let kept = &mut session.jets.kept;
        kept.retain(|other| !is_named(other, &jet.name));
        kept.push(jet);
        kept.sort_by(|one, other| one.name.cmp(&other.name));
    }
}

fn no_folder() -> Result<()> {
    Err(Error::Asked("this system sets no folder aside for what the program keeps".into()))
}

fn write(folder: &Path, jet: &JetSheet) -> Result<()> {
    let path = jets(folder).join(file_name(&jet.name));
    let refused = |source| Error::Write { path: path.clone(), source };
    std::fs::create_dir_all(jets(folder)).map_err(refused)?;
    let value = serde_json::to_value(jet).map_err(|error| refused(error.into()))?;
    WholeFile::open(&path)?.write(json::print(&value).as_bytes())
}
