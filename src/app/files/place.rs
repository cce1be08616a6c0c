//! The folder of the program's own: settings, and the unsaved draft of every window that is open.
//!
//! A window holds the lock of a file named like its draft. Where a draft has a lock that nobody holds, its window ended
//! without a word, and another may take the draft over.

use std::fs::{self, File, TryLockError};
use std::io;
use std::path::{Path, PathBuf};
use std::time::{Duration, SystemTime};

use serde::{Deserialize, Serialize};
use serde_json::{Map, Value};

use super::pictures::{Album, Laid};
use crate::Result;
use crate::app::session::Settings;
use crate::run::{ScenarioFile, WholeFile};

/// Beginning of the names of drafts and their locks.
const STEM: &str = "unsaved-";

/// A draft kept aside.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Left {
    /// The file it comes from, where there is one.
    pub path: Option<PathBuf>,
    /// Seconds since 1970 at which it was kept.
    pub at_s: u64,
    /// As it was opened or last saved.
    pub saved: ScenarioFile,
    /// As it stood on the screen.
    pub file: ScenarioFile,
    /// The picture that lay under it.
    #[serde(default)]
    pub picture: Option<Laid>,
}

/// The folder, as one window uses it. The lock lasts as long as this.
#[derive(Debug)]
pub struct StateFolder {
    folder: PathBuf,
    name: String,
    lock: Option<File>,
}

impl StateFolder {
    /// The folder that the system sets aside for such things; none where it sets none aside.
    pub fn usual() -> Option<PathBuf> {
        let folders = directories::ProjectDirs::from("", "", "peewit")?;
        Some(folders.state_dir().unwrap_or_else(|| folders.data_local_dir()).to_owned())
    }

    /// Makes the folder and takes a name in it.
    ///
    /// # Errors
    /// The folder can't be made or written to.
    pub fn open(folder: &Path) -> io::Result<Self> {
        fs::create_dir_all(folder)?;
        // The process alone would do, were numbers of processes not used again.
        let since = now().as_nanos();
        let name = format!("{STEM}{}-{since}", std::process::id());
        let lock = File::create(folder.join(&name).with_extension("lock"))?;
        lock.try_lock().map_err(io::Error::from)?;
        Ok(Self { folder: folder.into(), name, lock: Some(lock) })
    }

    /// Where this window keeps its draft.
    pub fn draft(&self) -> PathBuf {
        self.folder.join(&self.name).with_extension("json")
    }

    /// Where the settings are.
    pub fn settings(&self) -> PathBuf {
        self.folder.join("settings.json")
    }

    /// Where it stands how pictures lay.
    pub fn album(&self) -> PathBuf {
        self.folder.join("pictures.json")
    }

    /// How pictures lay, as far as it can be read.
    pub(super) fn read_album(&self) -> Album {
        fs::read(self.album()).ok().and_then(|text| serde_json::from_slice(&text).ok()).unwrap_or_default()
    }

    /// The settings, as far as they can be read.
    pub fn read_settings(&self) -> Settings {
        fs::read_to_string(self.settings())
            .map_or_else(|_| Settings::default(), |text| as_far_as_they_fit(&text).corrected())
    }

    /// The drafts that windows left behind, the newest first, and where they are.
    pub fn left_behind(&self) -> Vec<(Left, PathBuf)> {
        let Ok(entries) = fs::read_dir(&self.folder) else { return Vec::new() };
        let mut found: Vec<(Left, PathBuf)> = entries
            .flatten()
            .map(|entry| entry.path())
            .filter(|path| path != &self.draft() && is_draft(path) && !matches!(claim(path), Claim::InUse))
            .filter_map(|path| Some((serde_json::from_slice(&fs::read(&path).ok()?).ok()?, path)))
            .collect();
        found.sort_by_key(|(left, _)| std::cmp::Reverse(left.at_s));
        found
    }

    /// Nothing is left that would have to be brought back.
    pub fn clear(&self) {
        let _ = fs::remove_file(self.draft());
    }
}

impl Drop for StateFolder {
    fn drop(&mut self) {
        let lock = self.folder.join(&self.name).with_extension("lock");
        // A draft that stays keeps its lock beside it; a lock alone is of no use to anybody.
        if !self.draft().exists() {
            let _ = fs::remove_file(lock);
        }
        self.lock.take();
    }
}

/// Makes a draft left behind a window's own; false where another window was quicker.
pub(super) fn take_over(draft: &Path, own: &Path) -> bool {
    settle(draft, |draft| fs::rename(draft, own))
}

/// Does away with a draft left behind; false where another window was quicker.
pub(super) fn let_go(draft: &Path) -> bool {
    settle(draft, |draft| fs::remove_file(draft))
}

fn settle(draft: &Path, how: impl Fn(&Path) -> io::Result<()>) -> bool {
    let claim = claim(draft);
    let done = !matches!(claim, Claim::InUse) && how(draft).is_ok();
    if done {
        let _ = fs::remove_file(draft.with_extension("lock"));
    }
    drop(claim);
    done
}

/// Whose a draft is.
enum Claim {
    /// A window's that still lives.
    InUse,
    /// Ours, as long as the lock is held; a draft without a lock is anybody's.
    Ours { _lock: Option<File> },
}

fn claim(draft: &Path) -> Claim {
    let Ok(lock) = File::open(draft.with_extension("lock")) else { return Claim::Ours { _lock: None } };
    match lock.try_lock() {
        Ok(()) => Claim::Ours { _lock: Some(lock) },
        Err(TryLockError::WouldBlock | TryLockError::Error(_)) => Claim::InUse,
    }
}

fn is_draft(path: &Path) -> bool {
    let named = |name: &str| name.starts_with(STEM);
    path.extension().is_some_and(|ending| ending == "json")
        && path.file_name().and_then(|name| name.to_str()).is_some_and(named)
}

/// Settings of an older or newer version, or damaged ones: each is taken where it can be understood.
fn as_far_as_they_fit(text: &str) -> Settings {
    let Ok(Value::Object(read)) = serde_json::from_str(text) else { return Settings::default() };
    let mut fitting = Map::new();
    for (key, value) in read {
        let alone = Map::from_iter([(key.clone(), value.clone())]);
        if serde_json::from_value::<Settings>(alone.into()).is_ok() {
            fitting.insert(key, value);
        }
    }
    serde_json::from_value(fitting.into()).unwrap_or_default()
}

/// Writes a draft whole.
///
/// # Errors
/// The disk refuses.
pub(super) fn write(path: &Path, what: &impl Serialize) -> Result<()> {
    let refused = |error: serde_json::Error| crate::Error::Write { path: path.into(), source: error.into() };
    WholeFile::open(path)?.write(&serde_json::to_vec(what).map_err(refused)?)
}

/// Time since 1970.
pub(super) fn now() -> Duration {
    #[allow(clippy::disallowed_methods, reason = "people are told when a draft was kept; no answer depends on it")]
    let now = SystemTime::now();
    now.duration_since(SystemTime::UNIX_EPOCH).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::look::theme::Theme;
    use crate::run::Scenario;

    fn left(at_s: u64) -> Left {
        let file = Scenario::tight_strip().file;
        Left { path: Some("a.json".into()), at_s, saved: file.clone(), file, picture: None }
    }

    #[test]
    fn only_drafts_whose_window_is_gone_are_taken_over_the_newest_first() {
        let folder = tempfile::tempdir().unwrap();
        let [alive, gone, long_gone, here] = std::array::from_fn(|_| StateFolder::open(folder.path()).unwrap());
        for (place, at_s) in [(&alive, 30), (&gone, 20), (&long_gone, 10)] {
            write(&place.draft(), &left(at_s)).unwrap();
        }
        drop((gone, long_gone));
        let [(found, path), (older, _)] = here.left_behind().try_into().unwrap();
        assert_eq!((found, older), (left(20), left(10)));
        assert!(take_over(&path, &here.draft()) && here.draft().exists() && !take_over(&path, &here.draft()));
        let next = StateFolder::open(folder.path()).unwrap();
        let [(found, path)] = next.left_behind().try_into().unwrap();
        assert_eq!(found, left(10));
        assert!(let_go(&path) && !let_go(&path));
        assert_eq!(next.left_behind(), []);
        assert!(alive.draft().exists());
    }

    #[test]
    fn a_clean_end_leaves_nothing_but_settings() {
        let folder = tempfile::tempdir().unwrap();
        let place = StateFolder::open(folder.path()).unwrap();
        write(&place.draft(), &left(1)).unwrap();
        place.clear();
        drop(place);
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 0);
    }

    #[test]
    fn half_a_draft_is_no_draft() {
        let folder = tempfile::tempdir().unwrap();
        fs::write(folder.path().join("unsaved-1-1.json"), "{\"path\":").unwrap();
        assert_eq!(StateFolder::open(folder.path()).unwrap().left_behind(), []);
    }

    #[test]
    fn settings_are_read_as_far_as_they_can_be_understood() {
        #[track_caller]
        fn check(text: &str, expected: Settings) {
            assert_eq!(as_far_as_they_fit(text), expected, "{text}");
        }
        check(r#"{"theme":"Dark","scale":1.3}"#, Settings { theme: Theme::Dark, scale: 1.3, ..Settings::default() });
        check(r#"{"theme":"Plaid","scale":1.3,"new":[]}"#, Settings { scale: 1.3, ..Settings::default() });
        check("{\"theme\":", Settings::default());
        check("[1]", Settings::default());
    }
}
